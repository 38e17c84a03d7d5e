//! Ranges for arcs that are fed with wire: MIG, MAG and flux-cored.
//!
//! Makers print them by the sheet, for butts and for fillets; corners take those of both. Those of MAG are for short
//! circuits, those of MIG on aluminium for spray and pulses. Flux-cored wire is printed by the leg of a fillet, which is
//! taken to be as long as the sheet is thick, and for carbon steel: stainless steel takes the same.

use super::table::{Between, Rows, rows};
use super::{Range, SeamKind, lookup, millimetres};
use crate::tables::{Family, Process};
use crate::units::flow::Flow;
use crate::units::{Current, CurrentUnit, Length, Speed, SpeedUnit, Voltage};

/// Rows of one seam, and of another.
type Groups = [&'static [&'static Rows]; 2];

/// The rows of one setting, by metal, process and seam.
struct Settings {
    aluminium_butt: &'static [&'static Rows],
    aluminium_fillet: &'static [&'static Rows],
    stainless: &'static [&'static Rows],
    steel_butt: &'static [&'static Rows],
    steel_fillet: &'static [&'static Rows],
    flux_cored: &'static [&'static Rows],
}

impl Settings {
    /// Groups of rows, those of one group for the same seam.
    fn of(&self, process: Process, family: Family, seam: SeamKind) -> Groups {
        let (butt, fillet) = match (process, family) {
            (_, Family::Aluminium) => (self.aluminium_butt, self.aluminium_fillet),
            (Process::FluxCored, _) => return [self.flux_cored, &[]],
            (_, Family::Stainless) => return [self.stainless, &[]],
            (_, Family::Steel) => (self.steel_butt, self.steel_fillet),
        };
        match seam {
            SeamKind::Butt => [butt, &[]],
            SeamKind::Fillet => [fillet, &[]],
            SeamKind::Corner => [butt, fillet],
        }
    }
}

/// Amperes, in tenths.
mod current {
    use super::{Settings, rows};

    rows! {
        ALUMINIUM_BUTT: WireMaker,
            [[20, 800, 800], [30, 1300, 1300], [40, 1600, 1600], [50, 1750, 1750], [60, 1950, 1950], [80, 2200, 2200],
             [100, 2400, 2400]];
        ALUMINIUM_FILLET: WireMaker,
            [[20, 1000, 1000], [30, 1400, 1400], [40, 1500, 1800], [50, 1900, 2200], [60, 2100, 2300], [80, 2300, 2300],
             [100, 2400, 2400]];
        ALUMINIUM_BUTT_ONE: SourceMaker, [[30, 1200, 1400], [40, 1500, 1700], [60, 1800, 2100]];
        ALUMINIUM_FILLET_ONE: SourceMaker, [[30, 1400, 1600], [40, 1500, 1700], [60, 2000, 2300]];
        STAINLESS: Memory, [[12, 550, 750], [16, 750, 950], [20, 850, 1100], [32, 1200, 1500], [48, 1500, 1750]];
        STEEL_BUTT_ONE: SourceMaker,
            [[10, 500, 550], [12, 600, 700], [16, 1000, 1100], [23, 1100, 1200], [32, 1200, 1400], [40, 1500, 1700]];
        STEEL_BUTT_OTHER: OtherSourceMaker,
            [[8, 300, 400], [12, 600, 700], [16, 1000, 1100], [32, 1200, 1400], [40, 1500, 1600]];
        STEEL_FILLET_OTHER: OtherSourceMaker,
            [[6, 700, 800], [10, 850, 900], [16, 1000, 1100], [24, 1150, 1250], [32, 1300, 1400]];
        /// An ampere for each thousandth of an inch.
        STEEL_RULE: WorkshopRule, [[6, 236, 236], [32, 1260, 1260]];
        FLUX_CORED: SourceMaker,
            [[40, 2500, 3500], [50, 2700, 3700], [60, 2700, 3800], [80, 3000, 3800], [90, 3200, 3800]];
    }

    pub(super) static SETTINGS: Settings = Settings {
        aluminium_butt: &[&ALUMINIUM_BUTT, &ALUMINIUM_BUTT_ONE],
        aluminium_fillet: &[&ALUMINIUM_FILLET, &ALUMINIUM_FILLET_ONE],
        stainless: &[&STAINLESS],
        steel_butt: &[&STEEL_BUTT_ONE, &STEEL_BUTT_OTHER, &STEEL_RULE],
        steel_fillet: &[&STEEL_FILLET_OTHER, &STEEL_RULE],
        flux_cored: &[&FLUX_CORED],
    };
}

/// Millimetres a minute, in tenths.
mod travel {
    use super::{Settings, rows};

    rows! {
        ALUMINIUM_BUTT: WireMaker,
            [[20, 10_200, 10_200], [60, 10_200, 10_200], [80, 8900, 8900], [100, 8900, 8900]];
        ALUMINIUM_FILLET: WireMaker,
            [[20, 10_400, 10_400], [30, 7800, 7800], [40, 5100, 6400], [50, 5600, 6600], [60, 5100, 6400],
             [80, 5100, 5100], [100, 4600, 4600]];
        ALUMINIUM_BUTT_ONE: SourceMaker, [[30, 6000, 8000], [40, 6000, 8000], [60, 4000, 6000]];
        ALUMINIUM_FILLET_ONE: SourceMaker, [[30, 6000, 7000], [40, 5000, 6000], [60, 5000, 6500]];
        STAINLESS: Memory, [[12, 3000, 6000], [48, 3000, 6000]];
        STEEL_BUTT_ONE: SourceMaker,
            [[10, 4000, 5500], [12, 3000, 5000], [16, 4000, 6000], [23, 3000, 4000], [32, 2500, 3000], [40, 2500, 4000]];
        STEEL_BUTT_OTHER: OtherSourceMaker,
            [[8, 4000, 5500], [12, 3000, 5000], [16, 4000, 6000], [32, 2500, 3000], [40, 2000, 3000]];
        STEEL_FILLET_OTHER: OtherSourceMaker, [[6, 5000, 6000], [32, 5000, 6000]];
        FLUX_CORED: SourceMaker,
            [[40, 5000, 10_500], [50, 5000, 9000], [60, 4500, 8000], [70, 4000, 6500], [80, 3000, 5200],
             [90, 3000, 4000]];
    }

    pub(super) static SETTINGS: Settings = Settings {
        aluminium_butt: &[&ALUMINIUM_BUTT, &ALUMINIUM_BUTT_ONE],
        aluminium_fillet: &[&ALUMINIUM_FILLET, &ALUMINIUM_FILLET_ONE],
        stainless: &[&STAINLESS],
        steel_butt: &[&STEEL_BUTT_ONE, &STEEL_BUTT_OTHER],
        steel_fillet: &[&STEEL_FILLET_OTHER],
        flux_cored: &[&FLUX_CORED],
    };
}

/// Volts, in tenths.
mod voltage {
    use super::{Settings, rows};

    rows! {
        ALUMINIUM_BUTT: WireMaker,
            [[20, 180, 210], [30, 190, 220], [40, 200, 230], [50, 190, 230], [60, 200, 240], [80, 210, 250],
             [100, 220, 260]];
        ALUMINIUM_FILLET: WireMaker,
            [[20, 180, 200], [30, 190, 210], [40, 200, 220], [50, 210, 230], [60, 220, 250], [80, 230, 260],
             [100, 230, 260]];
        ALUMINIUM_BUTT_ONE: SourceMaker, [[30, 200, 220], [40, 220, 240], [60, 230, 250]];
        ALUMINIUM_FILLET_ONE: SourceMaker, [[30, 210, 220], [40, 220, 240], [60, 240, 260]];
        /// Short circuits in helium with argon and carbon dioxide, of any sheet.
        STAINLESS: Textbook, [[12, 170, 220], [48, 170, 220]];
        STEEL_BUTT_ONE: SourceMaker,
            [[10, 130, 150], [12, 140, 160], [16, 160, 170], [23, 170, 180], [32, 170, 190], [40, 180, 210]];
        STEEL_BUTT_OTHER: OtherSourceMaker,
            [[8, 150, 150], [12, 150, 160], [16, 160, 170], [32, 160, 170], [40, 170, 180]];
        STEEL_FILLET_OTHER: OtherSourceMaker,
            [[6, 170, 180], [10, 180, 190], [16, 180, 195], [24, 195, 200], [32, 195, 210]];
        FLUX_CORED: SourceMaker,
            [[40, 270, 310], [50, 290, 330], [60, 290, 340], [80, 310, 340], [90, 320, 340]];
    }

    pub(super) static SETTINGS: Settings = Settings {
        aluminium_butt: &[&ALUMINIUM_BUTT, &ALUMINIUM_BUTT_ONE],
        aluminium_fillet: &[&ALUMINIUM_FILLET, &ALUMINIUM_FILLET_ONE],
        stainless: &[&STAINLESS],
        steel_butt: &[&STEEL_BUTT_ONE, &STEEL_BUTT_OTHER],
        steel_fillet: &[&STEEL_FILLET_OTHER],
        flux_cored: &[&FLUX_CORED],
    };
}

/// Millimetres, in tenths.
mod diameter {
    use super::{Settings, rows};

    rows! {
        ALUMINIUM_BUTT: WireMaker,
            [[20, 8, 8], [30, 9, 9], [40, 10, 10], [50, 9, 9], [60, 12, 12], [80, 12, 12], [100, 16, 16]];
        ALUMINIUM_FILLET: WireMaker,
            [[20, 8, 8], [30, 9, 9], [40, 10, 12], [50, 12, 16], [60, 12, 16], [80, 16, 16], [100, 16, 16]];
        ALUMINIUM_ONE: SourceMaker, [[30, 12, 12], [40, 12, 12], [60, 16, 16]];
        STAINLESS: Practice, [[8, 8, 8], [16, 8, 10], [32, 9, 12], [48, 9, 12]];
        STEEL_BUTT_ONE: SourceMaker, [[10, 8, 10], [16, 8, 10], [23, 9, 12], [40, 9, 12]];
        STEEL_BUTT_OTHER: OtherSourceMaker,
            [[8, 6, 8], [12, 8, 9], [16, 8, 9], [32, 8, 12], [40, 10, 12]];
        STEEL_FILLET_OTHER: OtherSourceMaker,
            [[6, 4, 6], [10, 6, 8], [16, 6, 8], [24, 8, 10], [32, 8, 12]];
        FLUX_CORED: SourceMaker, [[40, 12, 16], [90, 12, 16]];
    }

    pub(super) static SETTINGS: Settings = Settings {
        aluminium_butt: &[&ALUMINIUM_BUTT, &ALUMINIUM_ONE],
        aluminium_fillet: &[&ALUMINIUM_FILLET, &ALUMINIUM_ONE],
        stainless: &[&STAINLESS],
        steel_butt: &[&STEEL_BUTT_ONE, &STEEL_BUTT_OTHER],
        steel_fillet: &[&STEEL_FILLET_OTHER],
        flux_cored: &[&FLUX_CORED],
    };
}

/// Litres a minute, in tenths.
mod gas {
    use super::{Settings, rows};

    rows! {
        ALUMINIUM_BUTT: SourceMaker, [[30, 200, 200], [40, 200, 200], [60, 200, 250]];
        ALUMINIUM_FILLET: SourceMaker, [[30, 150, 200], [40, 150, 200], [60, 200, 250]];
        PRACTICE: Practice, [[8, 100, 150], [48, 100, 150]];
        STEEL_ONE: SourceMaker, [[10, 100, 150], [40, 100, 150]];
        STEEL_OTHER: OtherSourceMaker, [[4, 100, 100], [8, 100, 100], [12, 100, 150], [40, 100, 150]];
        FLUX_CORED: Practice, [[8, 150, 200], [100, 150, 200]];
    }

    pub(super) static SETTINGS: Settings = Settings {
        aluminium_butt: &[&ALUMINIUM_BUTT],
        aluminium_fillet: &[&ALUMINIUM_FILLET],
        stainless: &[&PRACTICE],
        steel_butt: &[&STEEL_ONE, &STEEL_OTHER],
        steel_fillet: &[&STEEL_ONE, &STEEL_OTHER],
        flux_cored: &[&FLUX_CORED],
    };
}

/// Current for a sheet; `None` past 0.5 to 10 mm.
#[must_use]
pub fn current(
    process: Process,
    family: Family,
    thickness: Length,
    seam: SeamKind,
) -> Option<Range<Current>> {
    let groups = current::SETTINGS.of(process, family, seam);
    let range = lookup(&groups, thickness, Between::Proportion)?;
    Some(range.map(|a| Current::new(a, CurrentUnit::Ampere)))
}

/// Travel speed for a sheet; `None` past 0.5 to 10 mm.
#[must_use]
pub fn travel(
    process: Process,
    family: Family,
    thickness: Length,
    seam: SeamKind,
) -> Option<Range<Speed>> {
    let groups = travel::SETTINGS.of(process, family, seam);
    let range = lookup(&groups, thickness, Between::Line)?;
    Some(range.map(|v| Speed::new(v, SpeedUnit::MillimetrePerMinute)))
}

/// Voltage for a sheet; `None` past 0.5 to 10 mm.
#[must_use]
pub fn voltage(
    process: Process,
    family: Family,
    thickness: Length,
    seam: SeamKind,
) -> Option<Range<Voltage>> {
    let groups = voltage::SETTINGS.of(process, family, seam);
    Some(lookup(&groups, thickness, Between::Line)?.map(Voltage::from_volts))
}

/// Diameter of the wire for a sheet; `None` past 0.5 to 10 mm.
#[must_use]
pub fn diameter(
    process: Process,
    family: Family,
    thickness: Length,
    seam: SeamKind,
) -> Option<Range<Length>> {
    let groups = diameter::SETTINGS.of(process, family, seam);
    Some(lookup(&groups, thickness, Between::Neighbours)?.map(millimetres))
}

/// Flow of gas for a sheet; `None` past 0.5 to 10 mm.
#[must_use]
pub fn gas(
    process: Process,
    family: Family,
    thickness: Length,
    seam: SeamKind,
) -> Option<Range<Flow>> {
    let groups = gas::SETTINGS.of(process, family, seam);
    let range = lookup(&groups, thickness, Between::Neighbours)?;
    Some(range.map(Flow::from_litres_per_minute))
}
