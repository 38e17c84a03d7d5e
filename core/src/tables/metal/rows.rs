//! The rows of the aluminium alloys.

use super::figure::Hardness::{Full, Half, Quarter, Soft, T4, T5};
use super::strength::Bar::{Least, Typical};
use super::strength::Condition as On;
use super::strength::Condition::Any;
use super::strength::Rods;
use super::strength::Rods::Every;
use super::strength::{Row, WeldedRow};
use super::{Figure, Metal, Share, Source, Temper};
use Source::{
    AluminumAssociation as Aa, AluminumAssociationReprint as AaRead, DataSheets as Sheets,
    DataSheetsLow as Low, DesignManual as Adm, DesignManualMemory as AdmMem, En485 as En485Read,
    En485Memory as En485, En573, En1999, En1999Softened as Haz,
};

/// Poisson's ratio of every alloy: the Aluminum Association's for 5052, read; EN 1999-1-1 has 0.3.
const POISSON: Figure = Figure(33, AaRead);
/// Commercial sheet.
const BRIGHT: Figure = Figure(9, Source::EmissivityTable);
/// The modulus that EN 1999-1-1 has for every alloy.
const MODULUS: Figure = Figure(700, En1999);
/// An impurity of at most this much, in hundredths of a per cent.
const fn trace(most: u16) -> Share {
    Share(0, most, 0, En573)
}

/// Where alloys share figures, the row of a plain one; each row below writes over what is its own.
const PLAIN: Metal = Metal {
    heat_capacity: Figure(900, Aa),
    conductivity: Figure(0, Aa),
    conductivities: &[],
    solidus: Figure(643, Aa),
    liquidus: Figure(654, Aa),
    expansion: Figure(238, Aa),
    modulus: MODULUS,
    poisson: POISSON,
    bright: BRIGHT,
    magnesium: trace(5),
    silicon: trace(40),
    heat_treatable: false,
    strengths: &[],
    welded: &[],
};

pub(super) static A1050: Metal = Metal {
    conductivity: Figure(231, Aa),
    solidus: Figure(646, Aa),
    liquidus: Figure(657, Aa),
    expansion: Figure(236, Aa),
    modulus: Figure(690, Aa),
    silicon: trace(25),
    strengths: &[
        Row(&[Temper::O, Temper::H111], 65, 20, Least, En485),
        Row(&[Temper::H12], 85, 65, Least, En485),
        Row(&[Temper::H14], 105, 85, Least, En485),
        Row(&[Temper::H16], 120, 100, Least, En485),
        Row(&[Temper::H22], 85, 55, Least, En485),
        Row(&[Temper::H24], 105, 75, Least, En485),
    ],
    welded: &[WeldedRow(Any, Every, 65, 20, Source::AnnealedSheet)],
    ..PLAIN
};

pub(super) static A1100: Metal = Metal {
    heat_capacity: Figure(904, Aa),
    conductivity: Figure(222, Aa),
    conductivities: &[(Full, Figure(218, Aa))],
    liquidus: Figure(657, Aa),
    expansion: Figure(236, AaRead),
    modulus: Figure(690, Aa),
    // Silicon and iron together are limited, to 0.95 %.
    silicon: trace(95),
    strengths: &[
        Row(&[Temper::O], 75, 25, Least, AdmMem),
        Row(&[Temper::H14], 110, 95, Least, AdmMem),
    ],
    welded: &[WeldedRow(Any, Every, 75, 25, Source::AwsD1Point2)],
    ..PLAIN
};

pub(super) static A3003: Metal = Metal {
    heat_capacity: Figure(893, Aa),
    conductivity: Figure(193, Aa),
    conductivities: &[
        (Quarter, Figure(163, Aa)),
        (Half, Figure(159, Aa)),
        (Full, Figure(155, Aa)),
    ],
    expansion: Figure(232, AaRead),
    modulus: Figure(690, Aa),
    silicon: trace(60),
    strengths: &[
        Row(&[Temper::O], 95, 35, Least, AdmMem),
        Row(&[Temper::H14], 140, 115, Least, AdmMem),
        Row(&[Temper::O, Temper::H111], 95, 35, Least, En485),
        Row(&[Temper::H12], 120, 90, Least, En485),
        Row(&[Temper::H14], 145, 125, Least, En485),
        Row(&[Temper::H22], 120, 80, Least, En485),
        Row(&[Temper::H24], 145, 115, Least, En485),
    ],
    welded: &[WeldedRow(Any, Every, 95, 35, Source::AwsD1Point2)],
    ..PLAIN
};

pub(super) static A3103: Metal = Metal {
    conductivity: Figure(160, Low),
    solidus: Figure(640, Sheets),
    liquidus: Figure(655, Sheets),
    expansion: Figure(232, Sheets),
    silicon: trace(50),
    magnesium: trace(30),
    strengths: &[
        Row(&[Temper::O, Temper::H111], 90, 35, Least, En485),
        Row(&[Temper::H12], 115, 85, Least, En485),
        Row(&[Temper::H14], 140, 120, Least, En485),
        Row(&[Temper::H22], 115, 75, Least, En485),
        Row(&[Temper::H24], 140, 110, Least, En485),
    ],
    welded: &[WeldedRow(Any, Every, 90, 35, Haz)],
    ..PLAIN
};

pub(super) static A5005: Metal = Metal {
    conductivity: Figure(200, Aa),
    solidus: Figure(632, Aa),
    modulus: Figure(690, Aa),
    magnesium: Share(50, 110, 80, En573),
    silicon: trace(30),
    strengths: &[
        Row(&[Temper::O, Temper::H111], 100, 35, Least, En485),
        Row(&[Temper::H12], 125, 95, Least, En485),
        Row(&[Temper::H14], 145, 120, Least, En485),
        Row(&[Temper::H22, Temper::H32], 125, 80, Least, En485),
        Row(&[Temper::H24, Temper::H34], 145, 110, Least, En485),
    ],
    welded: &[
        WeldedRow(On::Soft, Every, 100, 35, Haz),
        WeldedRow(On::Worked, Every, 100, 44, Haz),
        WeldedRow(Any, Every, 105, 35, Source::AwsD1Point2),
    ],
    ..PLAIN
};

pub(super) static A5052: Metal = Metal {
    heat_capacity: Figure(880, AaRead),
    conductivity: Figure(138, AaRead),
    solidus: Figure(607, AaRead),
    liquidus: Figure(649, AaRead),
    expansion: Figure(238, AaRead),
    modulus: Figure(703, Source::DesignManualModulus),
    magnesium: Share(220, 280, 250, AaRead),
    silicon: trace(25),
    strengths: &[
        Row(&[Temper::O], 170, 65, Least, Adm),
        Row(&[Temper::H32], 215, 160, Least, Adm),
        Row(&[Temper::H34], 235, 180, Least, Adm),
        Row(&[Temper::O, Temper::H111], 170, 65, Least, En485Read),
        Row(&[Temper::H22, Temper::H32], 210, 130, Least, En485Read),
        Row(&[Temper::H24, Temper::H34], 230, 150, Least, En485Read),
        // Typical, so no ground for a strength to reckon with: for H36 and H38 nothing better is known.
        Row(&[Temper::O], 193, 90, Typical, AaRead),
        Row(&[Temper::H32], 228, 193, Typical, AaRead),
        Row(&[Temper::H34], 262, 214, Typical, AaRead),
        Row(&[Temper::H36], 276, 241, Typical, AaRead),
        Row(&[Temper::H38], 290, 255, Typical, AaRead),
    ],
    welded: &[
        WeldedRow(Any, Every, 170, 65, Source::AwsD1Point2),
        WeldedRow(On::Soft, Every, 165, 65, Haz),
        WeldedRow(On::Worked, Every, 170, 80, Haz),
    ],
    ..PLAIN
};

pub(super) static A5083: Metal = Metal {
    conductivity: Figure(117, Aa),
    // Some tables have 591 °C: the lower counts for what may melt.
    solidus: Figure(574, Source::AsmVolume2),
    liquidus: Figure(638, Aa),
    modulus: Figure(710, Aa),
    magnesium: Share(400, 490, 445, En573),
    strengths: &[
        Row(&[Temper::O], 275, 125, Least, Adm),
        Row(&[Temper::H116], 305, 215, Least, Adm),
        Row(&[Temper::O, Temper::H111], 275, 125, Least, En485),
        Row(&[Temper::H116, Temper::H321], 305, 215, Least, En485),
        Row(&[Temper::H22, Temper::H32], 305, 215, Least, En485),
        Row(&[Temper::H24, Temper::H34], 340, 250, Least, En485),
    ],
    welded: &[
        WeldedRow(Any, Every, 275, 125, Source::AwsD1Point2),
        WeldedRow(On::Soft, Every, 275, 125, Haz),
        WeldedRow(On::Worked, Every, 275, 155, Haz),
    ],
    ..PLAIN
};

pub(super) static A5086: Metal = Metal {
    conductivity: Figure(125, Aa),
    solidus: Figure(585, Aa),
    liquidus: Figure(641, Aa),
    modulus: Figure(710, Aa),
    magnesium: Share(350, 450, 400, En573),
    strengths: &[
        Row(&[Temper::O], 240, 95, Least, Adm),
        Row(&[Temper::H32], 275, 195, Least, Adm),
        Row(&[Temper::H34], 300, 235, Least, Adm),
        Row(&[Temper::O, Temper::H111], 240, 100, Least, En485),
        Row(&[Temper::H116, Temper::H321], 275, 195, Least, En485),
        Row(&[Temper::H22, Temper::H32], 275, 185, Least, En485),
        Row(&[Temper::H24, Temper::H34], 300, 220, Least, En485),
    ],
    welded: &[WeldedRow(Any, Every, 240, 95, Source::AwsD1Point2)],
    ..PLAIN
};

pub(super) static A5454: Metal = Metal {
    conductivity: Figure(134, Aa),
    solidus: Figure(602, Aa),
    liquidus: Figure(646, Aa),
    expansion: Figure(236, Aa),
    magnesium: Share(240, 300, 270, En573),
    silicon: trace(25),
    strengths: &[
        Row(&[Temper::O, Temper::H111], 215, 85, Least, En485),
        Row(&[Temper::H22, Temper::H32], 250, 180, Least, En485),
        Row(&[Temper::H24, Temper::H34], 270, 200, Least, En485),
    ],
    welded: &[
        WeldedRow(On::Soft, Every, 215, 85, Haz),
        WeldedRow(On::Worked, Every, 215, 105, Haz),
        WeldedRow(Any, Every, 215, 83, Source::AwsD1Point2),
    ],
    ..PLAIN
};

pub(super) static A5754: Metal = Metal {
    heat_capacity: Figure(897, Source::Listing5754),
    // Some tables have up to 147.
    conductivity: Figure(132, Source::Listing5754),
    solidus: Figure(590, Sheets),
    liquidus: Figure(645, Sheets),
    expansion: Figure(238, Sheets),
    magnesium: Share(260, 360, 310, Source::En573Read),
    strengths: &[
        Row(&[Temper::O, Temper::H111], 190, 80, Least, En485Read),
        Row(&[Temper::H22, Temper::H32], 220, 130, Least, En485Read),
        Row(&[Temper::H24, Temper::H34], 240, 160, Least, En485Read),
    ],
    welded: &[
        WeldedRow(On::Soft, Every, 190, 80, Haz),
        WeldedRow(On::Worked, Every, 190, 100, Haz),
    ],
    ..PLAIN
};

pub(super) static A6061: Metal = Metal {
    heat_capacity: Figure(896, AaRead),
    conductivity: Figure(167, AaRead),
    conductivities: &[(Soft, Figure(180, Aa)), (T4, Figure(154, Aa))],
    solidus: Figure(582, AaRead),
    liquidus: Figure(652, AaRead),
    expansion: Figure(236, AaRead),
    modulus: Figure(690, Aa),
    magnesium: Share(80, 120, 100, En573),
    silicon: Share(40, 80, 60, En573),
    heat_treatable: true,
    strengths: &[
        Row(&[Temper::T4], 205, 110, Least, AdmMem),
        Row(&[Temper::T6, Temper::T651], 290, 240, Least, AdmMem),
        Row(&[Temper::T4], 205, 110, Least, En485),
        Row(&[Temper::T6, Temper::T651], 290, 240, Least, En485),
    ],
    welded: &[
        WeldedRow(Any, Rods::Magnesium, 165, 105, Source::AwsD1Point2),
        WeldedRow(Any, Rods::SiliconThin, 165, 105, Source::AwsD1Point2),
        WeldedRow(Any, Rods::SiliconThick, 165, 80, Source::AwsD1Point2),
        WeldedRow(On::T4, Every, 150, 95, Haz),
        WeldedRow(On::T6, Every, 175, 115, Haz),
    ],
    ..PLAIN
};

pub(super) static A6063: Metal = Metal {
    conductivity: Figure(200, Aa),
    conductivities: &[(Soft, Figure(218, Aa)), (T5, Figure(209, Aa))],
    solidus: Figure(616, Aa),
    expansion: Figure(234, AaRead),
    modulus: Figure(690, Aa),
    magnesium: Share(45, 90, 68, En573),
    silicon: Share(20, 60, 40, En573),
    heat_treatable: true,
    strengths: &[
        Row(&[Temper::T5], 150, 110, Least, AdmMem),
        Row(&[Temper::T6], 205, 170, Least, AdmMem),
    ],
    welded: &[
        WeldedRow(Any, Every, 115, 55, Source::AwsD1Point2),
        WeldedRow(On::T5, Every, 100, 60, Haz),
        WeldedRow(On::T6, Every, 110, 65, Haz),
    ],
    ..PLAIN
};

pub(super) static A6082: Metal = Metal {
    conductivity: Figure(170, Low),
    solidus: Figure(575, Sheets),
    liquidus: Figure(650, Sheets),
    expansion: Figure(234, Sheets),
    magnesium: Share(60, 120, 90, En573),
    silicon: Share(70, 130, 100, En573),
    heat_treatable: true,
    strengths: &[
        Row(&[Temper::T4], 205, 110, Least, En485),
        // Up to 6 mm it is 310 and 260; these hold to 12.5 mm.
        Row(&[Temper::T6, Temper::T651], 300, 255, Least, En485),
    ],
    welded: &[
        WeldedRow(On::T4, Every, 160, 110, Haz),
        WeldedRow(On::T6, Every, 185, 125, Haz),
    ],
    ..PLAIN
};
