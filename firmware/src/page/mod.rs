//! The pages of a job. Each has one fact in large figures; the rest is small.
//!
//! A page is a file (or, where it is large, a folder) with its state, its picture, what the buttons do there and what
//! it works out: whatever implements [`IsPage`]. To add one, write its file and name it below: its module, and its
//! line in the list. Pages do not know of one another; what several of them need stands in `parts`.

pub mod dip;
pub mod fill;
pub mod filler;
pub mod heat;
pub mod holds;
pub mod leak;
pub mod mass;
pub mod notices;
pub mod order;
pub mod panels;
pub mod seams;
pub mod set_up;
pub mod stitches;
pub mod strength;
pub mod tank;

mod is_page;
mod kind;
mod list;
pub(crate) mod parts;

pub use is_page::{IsPage, LeftOut, Progress, Turn};
pub use kind::{Full, Kind, Small};

use embedded_graphics::draw_target::DrawTarget;
use embedded_graphics::pixelcolor::Gray4;
use seamwright_core::tank::Tank;

use crate::buttons::Step;
use crate::pen::Pen;
use crate::work::Work;
use list::pages;

// The pages from left to right. What stands in `K::IfFull` only the full gauge has.
pages! {
    /// The tank and its size.
    Tank => tank: tank::TankPage;
    /// How much it holds.
    Holds => holds: holds::HoldsPage;
    /// How much is in it at a depth and a lean.
    Fill => fill: fill::FillPage;
    /// Its dip chart.
    Dip => dip: dip::DipPage;
    /// Its panels as they are cut.
    Panels => panels: panels::PanelsPage;
    /// Its seams.
    Seams => seams: seams::SeamsPage;
    /// How the seams are tacked and stitched.
    Stitches => stitches: stitches::StitchesPage;
    /// In which order they are welded.
    Order => order: order::OrderPage<K>;
    /// What the arc is set to.
    SetUp => set_up: K::IfFull<set_up::SetUpPage>;
    /// What the arc brings.
    Heat => heat: heat::HeatPage;
    /// Which filler, and why.
    Filler => filler: K::IfFull<filler::FillerPage>;
    /// How much it weighs and what its mounts bear.
    Mass => mass: K::IfFull<mass::MassPage>;
    /// Which panel is weakest, and by how much it holds.
    Strength => strength: K::IfFull<strength::StrengthPage>;
    /// A leak test, step by step.
    Leak => leak: K::IfFull<leak::LeakPage>;
    /// What to mind.
    Notices => notices: notices::NoticesPage;
}

impl Page {
    /// The page at which a job opens.
    pub const FIRST: Self = Self::Tank;

    /// A short name, fit for the name of a file.
    #[must_use]
    pub const fn name(self) -> &'static str {
        self.name_on::<Full>()
    }
}

impl<K: Kind> Pages<K> {
    /// The pages of this kind of gauge, and how many of the places are taken.
    #[expect(
        clippy::indexing_slicing,
        reason = "worked out by the compiler, for which past the end is an error"
    )]
    const KEPT: &'static ([Page; Page::ALL.len()], usize) = &{
        let mut kept = [Page::FIRST; Page::ALL.len()];
        let (mut count, mut rest) = (0, Page::ALL);
        while let [page, others @ ..] = rest {
            if page.is_on::<K>() {
                kept[count] = *page;
                count += 1;
            }
            rest = others;
        }
        (kept, count)
    };

    /// The pages of this kind of gauge, in order.
    pub const LIST: &'static [Page] = Self::KEPT.0.split_at(Self::KEPT.1).0;

    /// The place of a page in [`Pages::LIST`].
    #[must_use]
    pub fn place(page: Page) -> usize {
        let found = Self::LIST.iter().position(|one| *one == page);
        found.unwrap_or_default()
    }

    /// The page turned to from another; at both ends it stays.
    #[must_use]
    pub fn turned(page: Page, turn: Turn) -> Page {
        let place = match turn {
            Turn::Stay => return page,
            Turn::Back => Self::place(page).checked_sub(1),
            Turn::On => Some(Self::place(page) + 1),
        };
        let next = place.and_then(|place| Self::LIST.get(place));
        next.copied().unwrap_or(page)
    }
}

/// A job is opened: a page starts anew, unless it lasts and the job is the one of before.
fn start<P: IsPage>(page: &mut P, tank: &Tank, another: bool) {
    if another || !P::LASTS {
        page.start(tank);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The short list is the long one with pages left out, in the same order.
    #[test]
    fn the_pages_of_the_small_gauge_are_among_all() {
        let mut all = Page::ALL.iter();
        for page in Pages::<Small>::LIST {
            assert!(all.any(|one| one == page), "{page:?}");
        }
        assert_eq!(Pages::<Full>::LIST, Page::ALL);
        assert!(Pages::<Small>::LIST.len() < Page::ALL.len());
    }

    #[test]
    fn pages_stand_in_their_order() {
        in_order::<Small>();
        in_order::<Full>();
    }

    fn in_order<K: Kind>() {
        let pages = Pages::<K>::LIST;
        for (place, page) in pages.iter().enumerate() {
            assert_eq!(Pages::<K>::place(*page), place);
        }
        let turned = Pages::<K>::turned;
        assert_eq!(pages.first(), Some(&Page::FIRST));
        assert_eq!(turned(Page::Tank, Turn::Back), Page::Tank);
        assert_eq!(turned(Page::Notices, Turn::On), Page::Notices);
        assert_eq!(turned(Page::Fill, Turn::Stay), Page::Fill);
        let after = turned(Page::Fill, Turn::On);
        assert_eq!(after, Page::Dip);
        assert_eq!(turned(after, Turn::Back), Page::Fill);
    }

    /// Names are names of files.
    #[test]
    fn no_two_pages_have_one_name() {
        for (place, page) in Page::ALL.iter().enumerate() {
            let others = Page::ALL.iter().skip(place + 1);
            assert!(!page.name().is_empty());
            assert!(
                !others
                    .map(|other| other.name())
                    .any(|name| name == page.name())
            );
        }
    }
}
