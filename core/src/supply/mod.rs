//! What the seams use up: filler, gas, time, money.
//!
//! - [`section`]: the section of the bead that a joint wants.
//! - [`filler`]: rod for the beads, in length, mass and number of rods.
//! - [`gas`]: gas while the arc burns, and before and after.
//! - [`cylinder`]: what a cylinder of argon holds.
//! - [`time`]: arc, waits and rests put together.
//! - [`cost`]: prices times amounts; [`Bill`]: the whole job's time, amounts and costs.
//!
//! One [`Bead`] for each seam; totals are sums.

mod bill;
pub mod cost;
pub mod cylinder;
pub mod filler;
pub mod gas;
mod kit;
mod larger;
pub mod section;
pub mod shrinkage;
pub mod time;
mod usual;

pub use bill::{Bill, BillDraft, MAINS_IN_ARC};
pub use kit::{AllUse, Kit, SeamTime, SeamUse, WASTE};
pub use larger::{Draw, Larger, MAX_LARGER, Shrinkage};
pub use usual::{KitAssumed, KitChoice, KitDraft, KitError, Sold, USUAL_ROD_LENGTH, usual_spool};

use crate::blank::{Allow, SheetCorner};
use crate::input::Joint;
use crate::units::range::RangeError;
use crate::units::{Area, Figure, Length, Volume};
use section::BeadForm;

/// The bead of one seam.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bead {
    section: Area,
    length: Length,
}

impl Bead {
    /// A bead of one section along a seam.
    ///
    /// # Errors
    /// [`RangeError`] for a section outside 0 to 100 cm² or a length outside 0 to 1 km.
    pub fn new(section: Area, length: Length) -> Result<Self, RangeError> {
        Figure::Section.within(section.si(), 0.0, 0.01)?;
        Figure::SeamLength.within(length.si(), 0.0, 1_000.0)?;
        Ok(Self { section, length })
    }

    /// The bead that a joint wants along a seam: see [`section::of_joint`].
    ///
    /// # Errors
    /// [`BeadError`](section::BeadError) for the joint, a value of the form, or the length.
    pub fn of_joint(
        joint: Joint,
        corner: SheetCorner,
        allow: &Allow,
        form: &BeadForm,
        length: Length,
    ) -> Result<Self, section::BeadError> {
        let section = section::of_joint(joint, corner, allow, form)?;
        Ok(Self::new(section, length)?)
    }

    /// Its section.
    #[must_use]
    pub const fn section(&self) -> Area {
        self.section
    }

    /// Its length.
    #[must_use]
    pub const fn length(&self) -> Length {
        self.length
    }

    /// What filler fills.
    #[must_use]
    pub fn volume(&self) -> Volume {
        Volume::from_cubic_metres(self.section.si() * self.length.si())
    }
}
