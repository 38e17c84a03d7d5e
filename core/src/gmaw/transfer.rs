//! How metal goes from the wire to the pool, and where each way is possible.

use super::gas::ShieldGas;
use crate::tables::{Family, Process};
use crate::units::{Current, Length, LengthUnit};

/// How metal goes from the wire to the pool.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum Transfer {
    /// The tip dips into the pool, many times a second.
    ShortCircuiting,
    /// Drops larger than the wire.
    Globular,
    /// Drops smaller than the wire, without a stop.
    Spray,
    /// One small drop with each pulse of current.
    Pulsed,
}

impl Transfer {
    /// Every way.
    pub const ALL: [Self; 4] = [
        Self::ShortCircuiting,
        Self::Globular,
        Self::Spray,
        Self::Pulsed,
    ];

    /// Its name.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::ShortCircuiting => "short-circuiting",
            Self::Globular => "globular",
            Self::Spray => "spray",
            Self::Pulsed => "pulsed",
        }
    }

    /// What is likely: spray from the current on at which it begins, short circuits below; drops larger than the wire in
    /// carbon dioxide above where short circuits end. Of wire with a core nothing is printed: its drops count as globular
    /// below, and its makers call it spray. Common practice, no source.
    #[must_use]
    pub fn likely(
        process: Process,
        gas: ShieldGas,
        current: Current,
        transition: Option<Current>,
    ) -> Self {
        let above = transition.is_some_and(|least| current >= least);
        match (process, gas, above) {
            (Process::FluxCored, ShieldGas::C1, _) | (_, ShieldGas::C1, true) => Self::Globular,
            (Process::FluxCored, ..) | (_, _, true) => Self::Spray,
            _ => Self::ShortCircuiting,
        }
    }
}

/// Diameter of the wire in mm, and the current in A from which drops are smaller than the wire.
type Row = (f64, f64);

/// In argon with 2 % of oxygen.
const STEEL: &[Row] = &[
    (0.76, 150.0),
    (0.89, 165.0),
    (1.1, 220.0),
    (1.3, 240.0),
    (1.6, 275.0),
];
/// In argon with 1 % of oxygen.
const STAINLESS: &[Row] = &[(0.89, 170.0), (1.1, 225.0), (1.6, 285.0)];
/// In argon.
const ALUMINIUM: &[Row] = &[(0.76, 95.0), (1.19, 135.0), (1.6, 180.0)];
/// A wire this much off the ends of a table is still of it, as a share.
const NEAR: f64 = 0.12;

/// Where [`transition`] is from.
pub const TRANSITION_SOURCE: &str = "a maker's handbook of MIG, table 1-2, least current for spray in argon, with 2 % of oxygen on carbon and 1 % on stainless steel; carbon dioxide raises it";

/// The least current at which a solid wire sprays, with straight lines between the printed diameters: a maker's handbook of
/// MIG, table 1-2 (read). `None` for wire with a core, and past the table's diameters.
#[must_use]
pub fn transition(process: Process, family: Family, diameter: Length) -> Option<Current> {
    if process == Process::FluxCored || !process.feeds_wire() {
        return None;
    }
    let rows = match family {
        Family::Aluminium => ALUMINIUM,
        Family::Stainless => STAINLESS,
        Family::Steel => STEEL,
    };
    let d = diameter.in_unit(LengthUnit::Millimetre);
    for ((d0, i0), (d1, i1)) in rows.iter().zip(rows.iter().skip(1)) {
        if d >= *d0 && d <= *d1 {
            return Some(Current::from_amperes(i0 + (i1 - i0) * (d - d0) / (d1 - d0)));
        }
    }
    rows.iter()
        .find(|(at, _)| libm::fabs(d / at - 1.0) <= NEAR)
        .map(|(_, amperes)| Current::from_amperes(*amperes))
}

/// From the least to the most current that a wire is used with.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct WireCurrents {
    /// The least.
    pub least: Current,
    /// The most.
    pub most: Current,
    /// Who says so.
    pub source: &'static str,
}

const TEXTBOOK: &str = "Modern Welding, Goodheart-Willcox (2020), figs. 8-16 to 8-20";
const MANUAL: &str = "makers' operating manuals, ranges of current by wire";
const TRAINING: &str = "US Navy training manual NAVEDTRA 14119, table 10-11";

/// Diameter of the wire in mm, least and most amperes.
type Span = (f64, f64, f64);

const SHORT_STAINLESS: &[Span] = &[(0.8, 50.0, 145.0), (0.9, 65.0, 175.0), (1.2, 100.0, 210.0)];
const SPRAY_STAINLESS: &[Span] = &[
    (0.8, 160.0, 210.0),
    (0.9, 180.0, 255.0),
    (1.2, 200.0, 300.0),
    (1.6, 215.0, 325.0),
];
const ON_ALUMINIUM: &[Span] = &[
    (0.8, 75.0, 150.0),
    (1.2, 120.0, 210.0),
    (1.6, 165.0, 300.0),
    (2.4, 240.0, 450.0),
];
const ON_STEEL: &[Span] = &[
    (0.6, 30.0, 90.0),
    (0.8, 40.0, 145.0),
    (0.9, 50.0, 180.0),
    (1.2, 75.0, 250.0),
];
const CORED: &[Span] = &[
    (0.9, 150.0, 250.0),
    (1.2, 150.0, 250.0),
    (1.3, 200.0, 350.0),
    (1.6, 225.0, 375.0),
];
/// A wire is of the nearest printed diameter that is no more than this off, as a share.
const AS_SOLD: f64 = 0.06;

/// The currents that a wire is used with; `None` where none are printed for it. Those of carbon steel are for short
/// circuits, and none are printed here for spray on it.
#[must_use]
pub fn wire_currents(
    process: Process,
    family: Family,
    transfer: Transfer,
    diameter: Length,
) -> Option<WireCurrents> {
    let (rows, source) = match (process, family, transfer) {
        (Process::TigAc | Process::TigDc, ..) => return None,
        (Process::FluxCored, ..) => (CORED, TEXTBOOK),
        (_, Family::Aluminium, _) => (ON_ALUMINIUM, TRAINING),
        (_, Family::Stainless, Transfer::ShortCircuiting) => (SHORT_STAINLESS, TEXTBOOK),
        (_, Family::Stainless, Transfer::Spray) => (SPRAY_STAINLESS, TEXTBOOK),
        (_, Family::Steel, Transfer::ShortCircuiting) => (ON_STEEL, MANUAL),
        _ => return None,
    };
    let d = diameter.in_unit(LengthUnit::Millimetre);
    let nearest = rows.iter().fold(None, |best: Option<(f64, &Span)>, row| {
        let off = libm::fabs(d / row.0 - 1.0);
        match best {
            Some((least, _)) if least <= off => best,
            _ => Some((off, row)),
        }
    });
    let (_, (_, least, most)) = nearest.filter(|(off, _)| *off <= AS_SOLD)?;
    Some(WireCurrents {
        least: Current::from_amperes(*least),
        most: Current::from_amperes(*most),
        source,
    })
}

/// From the shortest to the longest distance from contact tip to work, and who says so.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct StickOut {
    /// The shortest.
    pub least: Length,
    /// The longest.
    pub most: Length,
    /// Who says so.
    pub source: &'static str,
}

/// The distance from contact tip to work that goes with a way of transfer: in short circuits 6 to 13 mm (AWS C5.6, from
/// memory) or 10 to 15 mm (a maker of power sources' manual, read), together; in spray and pulses 13 to 25 mm (AWS C5.6,
/// from memory; that manual has 15 to 20 mm on aluminium); of wire with a core 15 to 25 mm (from memory).
#[must_use]
pub const fn usual_stick_out(process: Process, transfer: Transfer) -> StickOut {
    let (least, most, source) = match (process, transfer) {
        (Process::FluxCored, _) => (15.0, 25.0, "makers of flux-cored wire (from memory)"),
        (_, Transfer::ShortCircuiting) => (
            6.0,
            15.0,
            "AWS C5.6, 6 to 13 mm (from memory); a maker of power sources' manual, 10 to 15 mm",
        ),
        _ => (
            13.0,
            25.0,
            "AWS C5.6 (from memory); a maker of power sources' manual has 15 to 20 mm on aluminium",
        ),
    };
    StickOut {
        least: Length::new(least, LengthUnit::Millimetre),
        most: Length::new(most, LengthUnit::Millimetre),
        source,
    }
}
