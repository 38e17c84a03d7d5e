//! The screens, one a module. Each has one fact in large figures; the rest is small.

mod dip;
mod fill;
mod heat;
mod holds;
pub mod jobs;
mod layout;
pub mod notices;
mod panels;
mod prose;
mod seams;
pub mod settings;
mod stitches;
mod tank;
pub mod trouble;

pub use prose::Reading;

use embedded_graphics::draw_target::DrawTarget;
use embedded_graphics::pixelcolor::Gray4;

use crate::amount::Units;
use crate::gauge::Work;
use crate::pen::Pen;

/// A page of a job, in the order of the work.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum Page {
    /// The tank and its size.
    Tank,
    /// How much it holds.
    Holds,
    /// How much is in it at a depth and a lean.
    Fill,
    /// Its dip chart.
    Dip,
    /// Its panels as they are cut.
    Panels,
    /// Its seams.
    Seams,
    /// How the seams are tacked and stitched.
    Stitches,
    /// What the arc brings.
    Heat,
    /// What to mind.
    Notices,
}

impl Page {
    /// Every page, in order.
    pub const ALL: [Self; 9] = [
        Self::Tank,
        Self::Holds,
        Self::Fill,
        Self::Dip,
        Self::Panels,
        Self::Seams,
        Self::Stitches,
        Self::Heat,
        Self::Notices,
    ];

    /// The page at which a job opens.
    pub const FIRST: Self = Self::Tank;

    /// A short name, fit for the name of a file.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Tank => "tank",
            Self::Holds => "holds",
            Self::Fill => "fill",
            Self::Dip => "dip",
            Self::Panels => "panels",
            Self::Seams => "seams",
            Self::Stitches => "stitches",
            Self::Heat => "heat",
            Self::Notices => "notices",
        }
    }

    /// Its place in [`Page::ALL`].
    #[must_use]
    pub const fn place(self) -> usize {
        self as usize
    }

    /// The page to its right; the last stays.
    #[must_use]
    pub fn after(self) -> Self {
        Self::ALL.get(self.place() + 1).copied().unwrap_or(self)
    }

    /// The page to its left; the first stays.
    #[must_use]
    pub fn before(self) -> Self {
        self.place()
            .checked_sub(1)
            .and_then(|place| Self::ALL.get(place))
            .copied()
            .unwrap_or(self)
    }
}

/// Draws the page that a job is turned to.
pub(crate) fn draw<D>(pen: &mut Pen<'_, D>, work: &Work<'_>, units: Units) -> Result<(), D::Error>
where
    D: DrawTarget<Color = Gray4>,
{
    layout::pages(pen, work.page())?;
    match work.page() {
        Page::Tank => tank::draw(pen, work, units),
        Page::Holds => holds::draw(pen, work, units),
        Page::Fill => fill::draw(pen, work, units),
        Page::Dip => dip::draw(pen, work, units),
        Page::Panels => panels::draw(pen, work, units),
        Page::Seams => seams::draw(pen, work, units),
        Page::Stitches => stitches::draw(pen, work, units),
        Page::Heat => heat::draw(pen, work, units),
        Page::Notices => notices::draw(pen, work),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn pages_stand_in_their_order() {
        for (place, page) in Page::ALL.into_iter().enumerate() {
            assert_eq!(page.place(), place);
        }
        assert_eq!(Page::Tank.before(), Page::Tank);
        assert_eq!(Page::Notices.after(), Page::Notices);
        assert_eq!(Page::Fill.after().before(), Page::Fill);
    }
}
