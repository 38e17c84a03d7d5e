//! A leak test, step by step: what is to be known, one fact a screen; what is to be typed; a timer; a verdict.
//!
//! The test itself is a state machine without tank and clock ([`LeakTest`]); what may be shown of it is a [`Scene`].

mod draw;
mod scene;
mod state;
mod stopwatch;
mod tried;
mod typed;
mod words;

pub use scene::{Fate, Outcome, Scene, Seen, Sheet, Site, View, Way, WeakSeam};
pub use state::LeakTest;
pub use stopwatch::Stopwatch;
pub use typed::{Ask, Asked, Field, Typed};

use embedded_graphics::draw_target::DrawTarget;
use embedded_graphics::pixelcolor::Gray4;
use seamwright_core::tank::Tank;

use super::{IsPage, Progress, Turn};
use crate::buttons::Step;
use crate::pen::Pen;
use crate::work::Work;
use tried::Tried;

/// The page of the leak test: what the tank takes in one, and how far it has come.
#[derive(Debug)]
pub struct LeakPage {
    tried: Tried,
    test: LeakTest,
}

impl IsPage for LeakPage {
    const NAME: &'static str = "leak";
    const NEW: Self = Self {
        tried: Tried::NOTHING,
        test: LeakTest::new(),
    };
    const LASTS: bool = true;

    fn start(&mut self, _: &Tank) {
        self.tried.clear();
        self.test.clear();
    }

    #[inline(never)]
    fn draw<D>(&self, pen: &mut Pen<'_, D>, work: &Work<'_>) -> Result<(), D::Error>
    where
        D: DrawTarget<Color = Gray4>,
    {
        let progress = self.progress(work.tank()).unwrap_or_default();
        match self.site(work) {
            Some(site) => draw::scene(pen, &self.test, &site, progress),
            None => draw::trying(pen, progress),
        }
    }

    fn step(&mut self, step: Step, work: &mut Work<'_>) {
        if let Some(site) = self.tried.site(work.tank(), work.units()) {
            let parts = |test: &LeakTest| draw::parts(test, &site);
            self.test.step(step, &site, parts);
        }
    }

    fn select(&mut self, work: &mut Work<'_>) -> Turn {
        if let Some(site) = self.tried.site(work.tank(), work.units()) {
            self.test.select(&site);
        }
        Turn::Stay
    }

    fn progress(&self, tank: &Tank) -> Option<Progress> {
        self.tried.progress(tank)
    }

    fn work_on(&mut self, tank: &Tank) {
        self.tried.go_on(tank);
    }

    /// Time goes on for the test while other pages are shown.
    fn tick(&mut self, clock: u64) -> bool {
        self.test.tick(clock)
    }
}

impl LeakPage {
    /// The test.
    #[must_use]
    pub const fn test(&self) -> &LeakTest {
        &self.test
    }

    /// What the test is of; `None` before the walls were tried.
    #[must_use]
    pub fn site(&self, work: &Work<'_>) -> Option<Site<'_>> {
        self.tried.site(work.tank(), work.units())
    }

    /// What is shown; `None` before the walls were tried.
    #[must_use]
    pub fn scene(&self, work: &Work<'_>) -> Option<Scene> {
        Some(self.test.scene(&self.site(work)?))
    }
}
