//! The screens, one a module. Each has one fact in large figures; the rest is small.

mod dip;
mod fill;
#[cfg(feature = "full")]
pub(crate) mod filler;
mod heat;
mod holds;
pub mod jobs;
mod layout;
#[cfg(feature = "full")]
pub(crate) mod leak;
#[cfg(feature = "full")]
mod leak_words;
#[cfg(feature = "full")]
pub(crate) mod mass;
pub mod notices;
mod order;
mod panels;
mod prose;
mod seams;
pub mod settings;
#[cfg(feature = "full")]
pub(crate) mod setup;
#[cfg(feature = "full")]
mod setup_row;
mod stitches;
#[cfg(feature = "full")]
pub(crate) mod strength;
mod tank;
#[cfg(feature = "full")]
mod timer;
pub mod trouble;
#[cfg(feature = "full")]
mod working;

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
    /// In which order they are welded.
    Order,
    /// What the arc is set to.
    #[cfg(feature = "full")]
    SetUp,
    /// What the arc brings.
    Heat,
    /// Which filler, and why.
    #[cfg(feature = "full")]
    Filler,
    /// How much it weighs and what its mounts bear.
    #[cfg(feature = "full")]
    Mass,
    /// Which panel is weakest, and by how much it holds.
    #[cfg(feature = "full")]
    Strength,
    /// A leak test, step by step.
    #[cfg(feature = "full")]
    Leak,
    /// What to mind.
    Notices,
}

impl Page {
    /// The pages that every gauge has, in order.
    pub const PLAIN: &'static [Self] = &[
        Self::Tank,
        Self::Holds,
        Self::Fill,
        Self::Dip,
        Self::Panels,
        Self::Seams,
        Self::Stitches,
        Self::Order,
        Self::Heat,
        Self::Notices,
    ];

    /// Every page, in order.
    #[cfg(feature = "full")]
    pub const ALL: &'static [Self] = &[
        Self::Tank,
        Self::Holds,
        Self::Fill,
        Self::Dip,
        Self::Panels,
        Self::Seams,
        Self::Stitches,
        Self::Order,
        Self::SetUp,
        Self::Heat,
        Self::Filler,
        Self::Mass,
        Self::Strength,
        Self::Leak,
        Self::Notices,
    ];

    /// Every page, in order.
    #[cfg(not(feature = "full"))]
    pub const ALL: &'static [Self] = Self::PLAIN;

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
            Self::Order => "order",
            Self::Heat => "heat",
            #[cfg(feature = "full")]
            Self::SetUp => "set-up",
            #[cfg(feature = "full")]
            Self::Filler => "filler",
            #[cfg(feature = "full")]
            Self::Mass => "mass",
            #[cfg(feature = "full")]
            Self::Strength => "strength",
            #[cfg(feature = "full")]
            Self::Leak => "leak",
            Self::Notices => "notices",
        }
    }

    /// Its place among `pages`.
    #[must_use]
    pub fn place(self, pages: &[Self]) -> usize {
        let found = pages.iter().position(|page| *page == self);
        found.unwrap_or_default()
    }

    /// The page to its right among `pages`; the last stays.
    #[must_use]
    pub fn after(self, pages: &[Self]) -> Self {
        pages.get(self.place(pages) + 1).copied().unwrap_or(self)
    }

    /// The page to its left among `pages`; the first stays.
    #[must_use]
    pub fn before(self, pages: &[Self]) -> Self {
        self.place(pages)
            .checked_sub(1)
            .and_then(|place| pages.get(place))
            .copied()
            .unwrap_or(self)
    }
}

/// Draws the page that a job is turned to.
pub(crate) fn draw<D>(pen: &mut Pen<'_, D>, work: &Work<'_>, units: Units) -> Result<(), D::Error>
where
    D: DrawTarget<Color = Gray4>,
{
    layout::pages(pen, work.page(), work.pages())?;
    match work.page() {
        Page::Tank => tank::draw(pen, work, units),
        Page::Holds => holds::draw(pen, work, units),
        Page::Fill => fill::draw(pen, work, units),
        Page::Dip => dip::draw(pen, work, units),
        Page::Panels => panels::draw(pen, work, units),
        Page::Seams => seams::draw(pen, work, units),
        Page::Stitches => stitches::draw(pen, work, units),
        Page::Order => order::draw(pen, work, units),
        Page::Heat => heat::draw(pen, work, units),
        #[cfg(feature = "full")]
        Page::SetUp => setup::draw(pen, work, units),
        #[cfg(feature = "full")]
        Page::Filler => filler::draw(pen, work, units),
        #[cfg(feature = "full")]
        Page::Mass => mass::draw(pen, work, units),
        #[cfg(feature = "full")]
        Page::Strength => strength::draw(pen, work, units),
        #[cfg(feature = "full")]
        Page::Leak => leak::draw(pen, work, units),
        Page::Notices => notices::draw(pen, work),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The short list is the long one with pages left out, in the same order.
    #[test]
    fn the_pages_of_every_gauge_are_among_all() {
        let mut all = Page::ALL.iter();
        for page in Page::PLAIN {
            assert!(all.any(|one| one == page), "{page:?}");
        }
    }

    #[test]
    fn pages_stand_in_their_order() {
        for pages in [Page::ALL, Page::PLAIN] {
            for (place, page) in pages.iter().enumerate() {
                assert_eq!(page.place(pages), place);
            }
            assert_eq!(Page::Tank.before(pages), Page::Tank);
            assert_eq!(Page::Notices.after(pages), Page::Notices);
            assert_eq!(Page::Fill.after(pages).before(pages), Page::Fill);
        }
    }
}
