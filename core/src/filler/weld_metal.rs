//! What a bead in aluminium is made of, and whether that cracks as it freezes.

use crate::tables::{Alloy, Filler};
use crate::units::Ratio;

/// What the make-up of a bead says of cracks.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum Cracking {
    /// Silicon at least 2 % or magnesium at least 3 %: past the range that cracks.
    Clear,
    /// Less than 0.5 % of both.
    Plain,
    /// Between the range that cracks and the clear one.
    Near,
    /// Silicon 0.5 to 1.2 % or magnesium 0.5 to 2.5 %.
    Sensitive,
}

/// The silicon and magnesium of a bead.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct WeldMetal {
    /// Magnesium by mass.
    pub magnesium: Ratio,
    /// Silicon by mass.
    pub silicon: Ratio,
}

/// The share of an element in a bead of which `dilution` is molten base: the balance of masses.
fn mixed(base: Ratio, filler: Ratio, dilution: Ratio) -> Ratio {
    let d = dilution.si();
    Ratio::from_share(d * base.si() + (1.0 - d) * filler.si())
}

impl WeldMetal {
    /// The bead of nominal contents: both sheets in equal parts make up `dilution` of the bead, the filler the
    /// rest; without filler the sheets are all of it.
    pub(super) fn of(base: Alloy, other: Alloy, filler: Option<Filler>, dilution: Ratio) -> Self {
        let sheets = |content: fn(Alloy) -> Ratio| {
            Ratio::from_share(0.5 * (content(base).si() + content(other).si()))
        };
        let magnesium = sheets(|alloy| alloy.metal().magnesium().value.nominal);
        let silicon = sheets(|alloy| alloy.metal().silicon().value.nominal);
        filler.map_or(Self { magnesium, silicon }, |filler| Self {
            magnesium: mixed(magnesium, filler.magnesium().value, dilution),
            silicon: mixed(silicon, filler.silicon().value, dilution),
        })
    }

    /// Whether it cracks: the ranges of Mathers (2002), table 2.4, after Pumphrey and Jennings (1948) and
    /// Dudas and Collins (1966), provisional (from memory). Restraint, gaps and craters count as much.
    #[must_use]
    pub fn cracking(&self) -> Cracking {
        let (mg, si) = (self.magnesium.si(), self.silicon.si());
        if si >= 0.02 || mg >= 0.03 {
            Cracking::Clear
        } else if (0.005..=0.012).contains(&si) || (0.005..=0.025).contains(&mg) {
            Cracking::Sensitive
        } else if si < 0.005 && mg < 0.005 {
            Cracking::Plain
        } else {
            Cracking::Near
        }
    }
}
