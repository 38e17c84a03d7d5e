//! Strength of the sheet in its temper, and beside a weld.

use super::super::{Filler, Process};
use super::{Metal, Source, Temper};
use crate::units::{Length, LengthUnit, Pressure, PressureUnit};

pub(super) use Fillers as Rods;
pub(super) use StrengthBasis as Bar;

/// What a figure of strength promises.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum StrengthBasis {
    /// The least that the standard guarantees.
    Least,
    /// What is usual, guaranteed by nobody.
    Typical,
}

/// Strength in tension.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Strength {
    /// Ultimate strength.
    pub ultimate: Pressure,
    /// Yield strength, at 0.2 % of lasting strain.
    pub yield_strength: Pressure,
    /// Whether it is guaranteed.
    pub basis: StrengthBasis,
    /// What both rest on.
    pub source: Source,
}

/// What the sheet was before it was welded.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum Condition {
    /// In any temper.
    Any,
    /// O, H111, H112 or F.
    Soft,
    /// Hardened by cold work.
    Worked,
    /// In T4.
    T4,
    /// In T5.
    T5,
    /// In T6 or T651.
    T6,
}

/// With which fillers a figure holds.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum Fillers {
    /// Any.
    Every,
    /// Fillers of aluminium and magnesium.
    Magnesium,
    /// Fillers of aluminium and silicon, in sheet up to 9.5 mm.
    SiliconThin,
    /// Fillers of aluminium and silicon, in thicker sheet.
    SiliconThick,
}

/// Strength beside a weld, as the tables have it.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Welded {
    /// What the sheet was.
    pub was: Condition,
    /// With which fillers.
    pub fillers: Fillers,
    /// The strength.
    pub strength: Strength,
}

/// Tempers, none standing for every one; ultimate and yield in `MPa`; basis; source.
#[derive(Debug)]
pub(super) struct Row(
    pub(super) &'static [Temper],
    pub(super) u16,
    pub(super) u16,
    pub(super) StrengthBasis,
    pub(super) Source,
);

/// What it was, with which fillers, ultimate and yield in `MPa`, source.
#[derive(Debug)]
pub(super) struct WeldedRow(
    pub(super) Condition,
    pub(super) Fillers,
    pub(super) u16,
    pub(super) u16,
    pub(super) Source,
);

const fn strength(
    ultimate: u16,
    yield_strength: u16,
    basis: StrengthBasis,
    source: Source,
) -> Strength {
    Strength {
        ultimate: Pressure::new(ultimate as f64, PressureUnit::Megapascal),
        yield_strength: Pressure::new(yield_strength as f64, PressureUnit::Megapascal),
        basis,
        source,
    }
}

/// 3/8 in: up to here 6061 welded with silicon filler is as strong as with magnesium (AWS D1.2, from
/// memory).
const SILICON_THIN: Length = Length::new(9.5, LengthUnit::Millimetre);
/// Where the notes to EN 1999-1-1 change with the thickness.
const THIN: Length = Length::new(6.0, LengthUnit::Millimetre);

impl Condition {
    fn takes(self, temper: Option<Temper>) -> bool {
        // What is not told may be any.
        let Some(temper) = temper else { return true };
        match self {
            Self::Any => true,
            Self::Soft => matches!(
                temper,
                Temper::F | Temper::O | Temper::H111 | Temper::H112 | Temper::Annealed
            ),
            Self::T4 => temper == Temper::T4,
            Self::T5 => temper == Temper::T5,
            Self::T6 => matches!(temper, Temper::T6 | Temper::T651),
            Self::Worked => {
                !Self::Soft.takes(Some(temper))
                    && !matches!(temper, Temper::T4 | Temper::T5 | Temper::T6 | Temper::T651)
            }
        }
    }
}

impl Fillers {
    fn takes(self, filler: Option<Filler>, thickness: Length) -> bool {
        let fits = match self {
            Self::Every | Self::Magnesium => true,
            Self::SiliconThin => thickness <= SILICON_THIN,
            Self::SiliconThick => thickness > SILICON_THIN,
        };
        let named = filler.is_none_or(|filler| match self {
            Self::Every => true,
            Self::Magnesium => filler.is_magnesium(),
            Self::SiliconThin | Self::SiliconThick => filler.is_silicon(),
        });
        fits && named
    }
}

/// The lower yield, and of two alike the lower ultimate.
fn weaker(a: Strength, b: Strength) -> Strength {
    let lower = b.yield_strength < a.yield_strength
        || (b.yield_strength == a.yield_strength && b.ultimate < a.ultimate);
    if lower { b } else { a }
}

impl Metal {
    /// Every strength that the table has for a temper, one for each source.
    ///
    /// A steel has one whatever the temper; an aluminium sheet without its temper has none.
    pub fn strengths(&self, temper: Option<Temper>) -> impl Iterator<Item = Strength> {
        self.strengths
            .iter()
            .filter(move |row| row.0.is_empty() || temper.is_some_and(|told| row.0.contains(&told)))
            .map(|row| strength(row.1, row.2, row.3, row.4))
    }

    /// The strength to reckon with in a temper: the lowest guaranteed one; `None` where none is known.
    #[must_use]
    pub fn strength(&self, temper: Option<Temper>) -> Option<Strength> {
        self.strengths(temper)
            .filter(|strength| strength.basis == StrengthBasis::Least)
            .reduce(weaker)
    }

    /// Every strength beside a weld that the table has.
    ///
    /// Those of EN 1999-1-1 are the table's own, for MIG; [`as_welded`](Self::as_welded) lowers them for
    /// TIG as its note says.
    pub fn welded(&self) -> impl Iterator<Item = Welded> {
        self.welded.iter().map(|row| Welded {
            was: row.0,
            fillers: row.1,
            strength: strength(row.2, row.3, StrengthBasis::Least, row.4),
        })
    }

    /// The strength beside a TIG weld: [`as_welded_by`](Self::as_welded_by).
    #[must_use]
    pub fn as_welded(
        &self,
        temper: Option<Temper>,
        filler: Option<Filler>,
        thickness: Length,
    ) -> Option<Strength> {
        self.as_welded_by(Process::TigAc, temper, filler, thickness)
    }

    /// The strength beside a weld: the lowest that any source has for what is told. Those of EN 1999-1-1 are lowered for
    /// TIG alone.
    ///
    /// `temper` and `filler` left out may be any. It is that across a groove weld or of the softened
    /// sheet, whichever the source gives; a fillet has the strength of its throat besides. `None` where no
    /// source has one.
    #[must_use]
    pub fn as_welded_by(
        &self,
        process: Process,
        temper: Option<Temper>,
        filler: Option<Filler>,
        thickness: Length,
    ) -> Option<Strength> {
        self.welded()
            .filter(|row| row.was.takes(temper) && row.fillers.takes(filler, thickness))
            .map(|row| {
                if process.feeds_wire() {
                    row.strength
                } else {
                    self.for_tig(row, thickness)
                }
            })
            .reduce(weaker)
    }

    /// EN 1999-1-1, tables 3.2, note (from memory): up to 6 mm, heat-treated alloys keep 0.8 under TIG of
    /// what they keep under MIG; thicker, a further 0.8, and those hardened by cold work 0.9; annealed
    /// sheet loses nothing.
    fn for_tig(&self, row: Welded, thickness: Length) -> Strength {
        let thick = !(thickness <= THIN);
        let share =
            match (row.strength.source, row.was) {
                (Source::En1999Softened, Condition::Any | Condition::Worked) if thick => 0.9,
                (Source::En1999Softened, Condition::T4 | Condition::T5 | Condition::T6) => {
                    if thick { 0.64 } else { 0.8 }
                }
                _ => return row.strength,
            };
        Strength {
            ultimate: Pressure::from_pascals(row.strength.ultimate.si() * share),
            yield_strength: Pressure::from_pascals(row.strength.yield_strength.si() * share),
            source: Source::En1999Tig,
            ..row.strength
        }
    }
}
