//! What a page is.

use core::fmt::Debug;

use embedded_graphics::draw_target::DrawTarget;
use embedded_graphics::pixelcolor::Gray4;
use seamwright_core::tank::Tank;

use crate::buttons::Step;
use crate::pen::Pen;
use crate::work::Work;

/// A page of a job: what is chosen and found out on it, how it is drawn, what the buttons do there, and what it works
/// out while nobody presses one.
///
/// Left and right turn pages and held select leaves the job, so that a page sees only up and down ([`IsPage::step`])
/// and the middle button ([`IsPage::select`]).
pub trait IsPage: Debug {
    /// A short name, fit for the name of a file.
    const NAME: &'static str;

    /// The page before a job is opened. All zero bits, if the small gauge has it: then its place in working memory
    /// takes no flash.
    const NEW: Self;

    /// Whether there is anything on it: not so where a gauge leaves it out.
    const IS_THERE: bool = true;

    /// Whether what was chosen and found stays while its job is left and opened again.
    const LASTS: bool = false;

    /// A job is opened: another one, or the page does not last ([`IsPage::LASTS`]).
    fn start(&mut self, tank: &Tank);

    /// Draws it, below the marks of the pages, which are drawn already.
    ///
    /// # Errors
    /// The target's own.
    fn draw<D>(&self, pen: &mut Pen<'_, D>, work: &Work<'_>) -> Result<(), D::Error>
    where
        D: DrawTarget<Color = Gray4>;

    /// Up or down.
    fn step(&mut self, step: Step, work: &mut Work<'_>) {
        let _ = (step, work);
    }

    /// The middle button. Tells whether another page is turned to.
    fn select(&mut self, work: &mut Work<'_>) -> Turn {
        let _ = work;
        Turn::Stay
    }

    /// The page is shown: what it needs at once is worked out, where that is quick.
    fn prepare(&mut self, tank: &Tank) {
        let _ = tank;
    }

    /// How far it is with what it works out piece by piece; `None` where it has nothing more to work out.
    fn progress(&self, tank: &Tank) -> Option<Progress> {
        let _ = tank;
        None
    }

    /// Works out one piece more. Called only while there is [`IsPage::progress`].
    fn work_on(&mut self, tank: &Tank) {
        let _ = tank;
    }

    /// Takes in a clock of milliseconds, whether it is shown or not, and tells whether its picture may have changed.
    fn tick(&mut self, clock: u64) -> bool {
        let _ = clock;
        false
    }

    /// Whether the order of the stitches must stay as it is, since somebody goes by it.
    fn holds_order(&self) -> bool {
        false
    }
}

/// Which page is turned to.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Turn {
    /// The same.
    Stay,
    /// The one to its left, if there is one.
    Back,
    /// The one to its right, if there is one.
    On,
}

/// How far a piece of slow work is.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Progress {
    /// Pieces done.
    pub done: usize,
    /// Of how many.
    pub of: usize,
}

/// A page that a gauge leaves out: nothing at all.
#[derive(Clone, Copy, Debug)]
pub struct LeftOut;

impl IsPage for LeftOut {
    const NAME: &'static str = "";
    const NEW: Self = Self;
    const IS_THERE: bool = false;

    fn start(&mut self, _: &Tank) {}

    fn draw<D>(&self, _: &mut Pen<'_, D>, _: &Work<'_>) -> Result<(), D::Error>
    where
        D: DrawTarget<Color = Gray4>,
    {
        Ok(())
    }
}
