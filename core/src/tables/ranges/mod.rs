//! Suggested ranges of settings, and where a welder's own value lies against them.
//!
//! Published settings differ by up to a factor of two on thin sheet, so a range spans every source that
//! covers the thickness, each with straight lines between its own rows, and names them all. A row serves
//! 20 % past either end of its table, in proportion to the sheet for currents; where no table reaches
//! that far, the nearest row serves from 0.5 to 10 mm. Both are then said to be common practice.
//!
//! Where sources differ, a range says by how much: the source whose middle is least, and the one whose middle is
//! greatest.
//!
//! Ranges are where to start on scrap, not a procedure: a qualified procedure comes first.
//! Those here are for TIG; [`wire`] has those of processes that feed wire.

mod table;
pub mod wire;

use table::{Between, Rows, span};

use super::{Family, Process};
use crate::units::flow::Flow;
use crate::units::{Current, CurrentUnit, Length, LengthUnit, Ratio, Speed, SpeedUnit};

/// A kind of seam, as far as settings go by.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum SeamKind {
    /// Edge to edge in one plane.
    Butt,
    /// Along an outside corner.
    Corner,
    /// A fillet, of a tee or a lap.
    Fillet,
}

impl SeamKind {
    /// Every kind.
    pub const ALL: [Self; 3] = [Self::Butt, Self::Corner, Self::Fillet];
}

/// Where a figure is from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
#[repr(u8)]
pub enum RangeSource {
    /// A trade-training manual of the Government of India.
    Nimi,
    /// Mathers' tables for square butts.
    MathersButt,
    /// Mathers' figure for fillets.
    MathersFillet,
    /// Mathers' table of nozzles and flows.
    MathersNozzle,
    /// Mathers' table of electrodes.
    MathersElectrode,
    /// A gas maker's handbook.
    GasHandbook,
    /// A national welding handbook.
    NationalHandbook,
    /// AWS A5.12's annex.
    Aws,
    /// What the trade does.
    Practice,
    /// A row beyond its own thicknesses.
    Beyond,
    /// A maker of aluminium wire.
    WireMaker,
    /// A maker of power sources.
    SourceMaker,
    /// Another maker of power sources.
    OtherSourceMaker,
    /// A textbook.
    Textbook,
    /// A rule of the workshop that makers reprint.
    WorkshopRule,
    /// Tables that were remembered, not read.
    Memory,
}

impl RangeSource {
    /// Every source.
    pub const ALL: [Self; 16] = [
        Self::Nimi,
        Self::MathersButt,
        Self::MathersFillet,
        Self::MathersNozzle,
        Self::MathersElectrode,
        Self::GasHandbook,
        Self::NationalHandbook,
        Self::Aws,
        Self::Practice,
        Self::Beyond,
        Self::WireMaker,
        Self::SourceMaker,
        Self::OtherSourceMaker,
        Self::Textbook,
        Self::WorkshopRule,
        Self::Memory,
    ];

    /// Its name in full.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Nimi => "NIMI (Government of India), CITS Welder, trade theory, pp. 178 and 191",
            Self::MathersButt => {
                "G. Mathers, The Welding of Aluminium and its Alloys (2002), table 6.2"
            }
            Self::MathersFillet => {
                "G. Mathers, The Welding of Aluminium and its Alloys (2002), fig. 6.8"
            }
            Self::MathersNozzle => {
                "G. Mathers, The Welding of Aluminium and its Alloys (2002), table 6.3"
            }
            Self::MathersElectrode => {
                "G. Mathers, The Welding of Aluminium and its Alloys (2002), table 6.4"
            }
            Self::GasHandbook => "a gas maker's handbook",
            Self::NationalHandbook => "national welding handbook (China), vol. 1, 2nd ed., p. 150",
            Self::Aws => "AWS A5.12, annex (from memory)",
            Self::Practice => "common practice, no source",
            Self::Beyond => "common practice, no source: carried past the published thicknesses",
            Self::WireMaker => "a maker of aluminium wire's table of recommended settings",
            Self::SourceMaker => "a maker of power sources' operating manual, examples of settings",
            Self::OtherSourceMaker => {
                "another maker of power sources' operating manual, tables of settings"
            }
            Self::Textbook => "Modern Welding, Goodheart-Willcox (2020), figs. 8-16 to 8-20",
            Self::WorkshopRule => {
                "a workshop's rule that makers' manuals reprint: an ampere for each thousandth of an inch"
            }
            Self::Memory => "published tables, provisional (from memory)",
        }
    }
}

/// Several sources.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Sources(u32);

impl Sources {
    const fn with(self, source: RangeSource) -> Self {
        Self(self.0 | 1 << source as u8)
    }

    const fn and(self, other: Self) -> Self {
        Self(self.0 | other.0)
    }

    /// Whether `source` is among them.
    #[must_use]
    pub const fn has(self, source: RangeSource) -> bool {
        self.0 & 1 << source as u8 != 0
    }

    /// One by one.
    pub fn iter(self) -> impl Iterator<Item = RangeSource> {
        RangeSource::ALL
            .into_iter()
            .filter(move |source| self.has(*source))
    }
}

/// From the least to the most that the sources give.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Range<T> {
    /// The least.
    pub least: T,
    /// The most.
    pub most: T,
    /// Whose figures these are.
    pub sources: Sources,
    /// How far they lie apart; `None` where the sources have the same middle, or there is one.
    pub apart: Option<Apart<T>>,
}

/// How far sources lie apart on one setting: by the middle of what each gives.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Apart<T> {
    /// The least of their middles.
    pub least: T,
    /// Whose that is.
    pub least_by: RangeSource,
    /// The greatest.
    pub most: T,
    /// Whose that is.
    pub most_by: RangeSource,
    /// By how much it is greater, as a share of the least.
    pub by: Ratio,
}

/// Where a value lies.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum RangeFit {
    /// Under the range.
    Below,
    /// In it, ends included.
    Within,
    /// Over it.
    Above,
}

impl<T: PartialOrd + Copy> Range<T> {
    /// Where a value lies; `None` for one that is not a number. The ends are taken as printed, so a caller
    /// that converts units may wish to round first.
    pub fn fit(&self, own: T) -> Option<RangeFit> {
        if own < self.least {
            Some(RangeFit::Below)
        } else if own > self.most {
            Some(RangeFit::Above)
        } else if own >= self.least {
            Some(RangeFit::Within)
        } else {
            None
        }
    }
}

impl<T> Range<T> {
    fn map<U>(self, f: impl Fn(T) -> U) -> Range<U> {
        Range {
            least: f(self.least),
            most: f(self.most),
            sources: self.sources,
            apart: self.apart.map(|apart| Apart {
                least: f(apart.least),
                least_by: apart.least_by,
                most: f(apart.most),
                most_by: apart.most_by,
                by: apart.by,
            }),
        }
    }
}

fn millimetres(value: f64) -> Length {
    Length::new(value, LengthUnit::Millimetre)
}

/// A range from groups of rows, those of one group for the same seam.
fn lookup(groups: &[&[&Rows]], thickness: Length, how: Between) -> Option<Range<f64>> {
    span(groups, thickness.in_unit(LengthUnit::Millimetre), how)
}

/// The rows of a module of the table for a kind of seam, those for one kind in a group.
macro_rules! by_seam {
    ($($rows:ident)::+, $family:expr, $seam:expr) => {{
        use $($rows)::+ as rows;
        let groups: &[&[&Rows]] = match ($family, $seam) {
            (Family::Aluminium, SeamKind::Butt) => &[&rows::ALUMINIUM_BUTT],
            (Family::Aluminium, SeamKind::Corner) => {
                &[&rows::ALUMINIUM_BUTT, &rows::ALUMINIUM_FILLET]
            }
            (Family::Aluminium, SeamKind::Fillet) => &[&rows::ALUMINIUM_FILLET],
            (Family::Stainless, SeamKind::Butt) => &[&rows::STAINLESS_BUTT],
            (Family::Stainless, SeamKind::Corner | SeamKind::Fillet) => &[&rows::STAINLESS_CORNER],
            (Family::Steel, _) => &[&rows::STEEL],
        };
        groups
    }};
}

/// The rows of a module of the table, whatever the seam.
macro_rules! by_family {
    ($($rows:ident)::+, $family:expr) => {{
        use $($rows)::+ as rows;
        let tables: &[&Rows] = match $family {
            Family::Aluminium => &rows::ALUMINIUM,
            Family::Stainless => &rows::STAINLESS,
            Family::Steel => &rows::STEEL,
        };
        tables
    }};
}

/// Current for a sheet; `None` past 0.5 to 10 mm. Corners of aluminium have no rows of their own: those
/// of butts and fillets together. Fillets on stainless steel take those of corners. For aluminium the
/// current is alternating, for steels direct with the electrode negative.
#[must_use]
pub fn current(family: Family, thickness: Length, seam: SeamKind) -> Option<Range<Current>> {
    let groups = by_seam!(table::current, family, seam);
    let range = lookup(groups, thickness, Between::Proportion)?;
    Some(range.map(|a| Current::new(a, CurrentUnit::Ampere)))
}

/// Travel speed for a sheet; `None` past 0.5 to 10 mm.
#[must_use]
pub fn travel(family: Family, thickness: Length, seam: SeamKind) -> Option<Range<Speed>> {
    let groups = by_seam!(table::travel, family, seam);
    let range = lookup(groups, thickness, Between::Line)?;
    Some(range.map(|v| Speed::new(v, SpeedUnit::MillimetrePerMinute)))
}

/// Diameter of the tungsten electrode for a sheet; `None` past 0.5 to 10 mm. The rows disagree, and the
/// smallest of them may be too small for the current: check with [`electrode`].
#[must_use]
pub fn tungsten(family: Family, thickness: Length) -> Option<Range<Length>> {
    let tables = by_family!(table::tungsten, family);
    Some(lookup(&[tables], thickness, Between::Neighbours)?.map(millimetres))
}

/// Diameters of electrodes that carry a current: on alternating current with a balanced square wave, or on
/// direct current with the electrode negative. A sine wave takes about 25 % off what each carries, and more
/// time with the electrode positive takes off in proportion (Mathers, table 6.4). `None` where no
/// diameter from 1 to 5 mm carries it.
#[must_use]
pub fn electrode(process: Process, current: Current) -> Option<Range<Length>> {
    let tables: &[&table::Electrodes] = match process {
        Process::TigAc => &[&table::ELECTRODES_MATHERS, &table::ELECTRODES_AWS_AC],
        Process::TigDc => &[&table::ELECTRODES_AWS_DC],
        // The wire is the electrode.
        Process::Mig | Process::Mag | Process::FluxCored => &[],
    };
    table::electrodes(tables, current.si()).map(|range| range.map(millimetres))
}

/// Bore of the gas nozzle for a sheet; `None` past 0.5 to 25 mm for aluminium, 0.5 to 10 mm otherwise.
#[must_use]
pub fn nozzle(family: Family, thickness: Length) -> Option<Range<Length>> {
    use table::nozzle as rows;
    let tables: &[&Rows] = match family {
        Family::Aluminium => &rows::ALUMINIUM,
        Family::Stainless | Family::Steel => &rows::STEELS,
    };
    Some(lookup(&[tables], thickness, Between::Neighbours)?.map(millimetres))
}

/// Diameter of the filler rod for a sheet; `None` past 0.5 to 10 mm. A corner of thin sheet may need none
/// beyond its own edges, but see the filler: some alloys crack without.
#[must_use]
pub fn rod(family: Family, thickness: Length, seam: SeamKind) -> Option<Range<Length>> {
    use table::rod as rows;
    let tables: &[&Rows] = match (family, seam) {
        (Family::Aluminium, SeamKind::Butt) => &rows::ALUMINIUM_BUTT,
        (Family::Aluminium, SeamKind::Corner | SeamKind::Fillet) => &rows::ALUMINIUM,
        (Family::Stainless, _) => &rows::STAINLESS,
        (Family::Steel, _) => &rows::STEEL,
    };
    Some(lookup(&[tables], thickness, Between::Neighbours)?.map(millimetres))
}

/// Flow of argon for a sheet; `None` past 0.5 to 25 mm for aluminium, 0.5 to 10 mm otherwise. The low end
/// is for still air; a draught needs a screen before it needs more gas.
#[must_use]
pub fn gas(family: Family, thickness: Length) -> Option<Range<Flow>> {
    let tables = by_family!(table::gas, family);
    let range = lookup(&[tables], thickness, Between::Neighbours)?;
    Some(range.map(Flow::from_litres_per_minute))
}
