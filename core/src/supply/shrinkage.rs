//! How much a seam pulls the sheets together and out of line.
//!
//! These are rules of thumb, most of them measured on carbon steel some millimetres thick. In tank sheet,
//! and in aluminium, they say which seam pulls more, not by how much: for each heat kept, aluminium
//! contracts about three times as much as steel, but over a wider and milder band (Mathers, The Welding of
//! Aluminium and its Alloys (2002), chapter 5). Each estimate carries the notes that apply to it. Thin
//! panels may buckle instead, which none of these tells.

use heapless::Vec;

use crate::arc::power::MOST_CURRENT;
use crate::tables::Family;
use crate::units::range::RangeError;
use crate::units::{Area, Current, Figure, Length, LengthUnit, LineEnergy};

/// What limits an estimate.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum ShrinkageNote {
    /// The rule was found on carbon steel, and this is another metal.
    MadeForSteel,
    /// The sheet is thinner than 3 mm: the rule was found on plate, and thin sheet may buckle instead.
    ThinSheet,
    /// The leg is more than three quarters of the thickness, past what the rule was found for.
    LargeLeg,
}

impl ShrinkageNote {
    /// As a sentence.
    #[must_use]
    pub const fn text(self) -> &'static str {
        match self {
            Self::MadeForSteel => {
                "this rule was found on carbon steel; in other metals it only ranks seams"
            }
            Self::ThinSheet => "this rule was found on plate; sheet under 3 mm may buckle instead",
            Self::LargeLeg => {
                "the leg is more than three quarters of the thickness, past what this rule was found for"
            }
        }
    }
}

/// A length by which something moves.
#[derive(Clone, Debug, PartialEq)]
pub struct Estimate {
    /// The least and the most that the sources give; equal where there is one.
    pub range: [Length; 2],
    /// Whose rule this is.
    pub source: &'static str,
    /// What limits it.
    pub notes: Vec<ShrinkageNote, 3>,
}

/// Thinner sheet than this is outside what the rules were found on: common practice, no source.
pub const THIN_SHEET: Length = Length::new(3.0, LengthUnit::Millimetre);
/// Legs past this share of the thickness are outside the rule for fillets: TWI, FAQ on weld shrinkage.
const LEG_SHARE: f64 = 0.75;

const BUTT: &str =
    "0.18 to 0.2 A/t + 0.05 g: Spraragen and Ettinger (1950), AWS Welding Handbook (from memory)";
const FILLET: &str =
    "1.02 mm z/t for a tee, 1.52 mm z/t for a lap: AWS Welding Handbook (from memory)";
const LONGITUDINAL: &str = "305e-7 I L / t in mm and A: King, AWS Welding Handbook (from memory)";
const FREE: &str = "alpha Q / (rho c d), free contraction: Okerblom, Vinokurov (from memory)";

/// A sheet and what it is of.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ShrinkingSheet {
    /// Its family.
    pub family: Family,
    /// Its thickness: 0.1 to 500 mm.
    pub thickness: Length,
}

impl ShrinkingSheet {
    fn metres(self) -> Result<f64, RangeError> {
        Figure::Thickness.within(self.thickness.si(), 1e-4, 0.5)
    }

    fn estimate(self, range: [f64; 2], leg: f64, source: &'static str) -> Estimate {
        let t = self.thickness.si();
        let mut notes = Vec::new();
        for (note, holds) in [
            (ShrinkageNote::MadeForSteel, self.family != Family::Steel),
            (ShrinkageNote::ThinSheet, t < THIN_SHEET.si()),
            (ShrinkageNote::LargeLeg, leg > LEG_SHARE * t),
        ] {
            if holds {
                // Three notes in room for three.
                let _ = notes.push(note);
            }
        }
        Estimate {
            range: range.map(Length::from_metres),
            source,
            notes,
        }
    }
}

fn section(area: Area) -> Result<f64, RangeError> {
    Figure::Section.within(area.si(), 0.0, 0.01)
}

fn leg(z: Length) -> Result<f64, RangeError> {
    Figure::Leg.above(z.si(), 0.0, 0.05)
}

/// Transverse shrinkage of a butt: `0.2 A/t + 0.05 g`, and 0.18 in place of 0.2 by another printing.
///
/// # Errors
/// [`RangeError`] for a thickness outside 0.1 to 500 mm, a section outside 0 to 100 cm², or a root gap
/// outside 0 to 20 mm.
pub fn butt(sheet: ShrinkingSheet, bead: Area, gap: Length) -> Result<Estimate, RangeError> {
    let ratio = section(bead)? / sheet.metres()?;
    let gap = 0.05 * Figure::Gap.within(gap.si(), 0.0, 0.02)?;
    Ok(sheet.estimate([0.18 * ratio + gap, 0.2 * ratio + gap], 0.0, BUTT))
}

/// Transverse shrinkage across the plate under a tee with a fillet each side: `1.02 mm · z / t`.
///
/// # Errors
/// [`RangeError`] for the thickness, or a leg that is not above 0 and at most 50 mm.
pub fn tee(sheet: ShrinkingSheet, z: Length) -> Result<Estimate, RangeError> {
    let (t, z) = (sheet.metres()?, leg(z)?);
    Ok(sheet.estimate([1.02e-3 * z / t; 2], z, FILLET))
}

/// Transverse shrinkage of a lap with a fillet each side: `1.52 mm · z / t`.
///
/// # Errors
/// As [`tee`].
pub fn lap(sheet: ShrinkingSheet, z: Length) -> Result<Estimate, RangeError> {
    let (t, z) = (sheet.metres()?, leg(z)?);
    Ok(sheet.estimate([1.52e-3 * z / t; 2], z, FILLET))
}

/// Shortening of a butt along itself: `305·10⁻⁷ · I L / t`, with millimetres and amperes.
///
/// # Errors
/// [`RangeError`] for the thickness, a current outside 0 to 2000 A, or a length outside 0 to 1 km.
pub fn along(
    sheet: ShrinkingSheet,
    current: Current,
    length: Length,
) -> Result<Estimate, RangeError> {
    let t = sheet.metres()?;
    let current = Figure::Current.above(current.si(), 0.0, MOST_CURRENT)?;
    let length = Figure::SeamLength.within(length.si(), 0.0, 1_000.0)?;
    // mm · A / mm is the same figure in metres, save for the result's own unit.
    Ok(sheet.estimate(
        [305e-7 * 1e-3 * current * (length / t); 2],
        0.0,
        LONGITUDINAL,
    ))
}

/// The most that any metal can draw in across a seam: `α Q / (ρc d)`, the free contraction of sheet that
/// the heat has soaked through. `expansion` in 1/K (1 to 50 µm/m K), `heat_capacity` in J/(m³ K).
///
/// # Errors
/// [`RangeError`] for a value outside the range that its field names.
pub fn free(
    heat: LineEnergy,
    expansion: f64,
    heat_capacity: f64,
    thickness: Length,
) -> Result<Estimate, RangeError> {
    let heat = Figure::LineEnergy.above(heat.si(), 0.0, 1e8)?;
    let alpha = Figure::Expansion.within(expansion, 1e-6, 5e-5)?;
    let capacity = Figure::HeatCapacity.within(heat_capacity, 5e5, 1e7)?;
    let d = Figure::Thickness.within(thickness.si(), 1e-4, 0.5)?;
    Ok(Estimate {
        range: [Length::from_metres(alpha * heat / (capacity * d)); 2],
        source: FREE,
        notes: Vec::new(),
    })
}
