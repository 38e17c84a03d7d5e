//! What the fuller pages have found out of the open job, and what was chosen on them.
//!
//! Mass is worked out when its page is first turned to. Strength takes a chip without a floating-point unit about a
//! second a wall, so that it is worked out wall by wall while that page or the leak test is shown, and the buttons are
//! read in between. Both are kept until another job is opened or this one comes anew.

use seamwright_core::tank::Tank;

use super::filling::Step;
use super::leak_scene::Site;
use super::leak_test::LeakTest;
use super::worked::{Judging, Known, Masses, Panel, Testing, count, weigh};
use crate::amount::Units;
use crate::buttons::{Button, Event};
use crate::page::{Page, Reading, filler, leak, mass, setup, strength};

/// What was chosen on the pages.
#[derive(Clone, Copy, Debug)]
pub(super) struct Chosen {
    setting: Reading,
    filler: Reading,
    mass: Reading,
    panel: Reading,
}

/// What the pages have found and what was chosen on them.
#[derive(Clone, Debug)]
pub struct Found {
    /// The place of the job that it is of, where `of_any`.
    job: usize,
    of_any: bool,
    chosen: Chosen,
    masses: Known<Masses>,
    judging: Judging,
    testing: Testing,
    test: LeakTest,
}

impl Found {
    pub(super) const fn new() -> Self {
        Self {
            job: 0,
            of_any: false,
            chosen: Chosen::START,
            masses: Known::Not,
            judging: Judging::NOTHING,
            testing: Testing::NOTHING,
            test: LeakTest::new(),
        }
    }

    /// A job is opened: what is of another goes.
    pub(super) fn open(&mut self, job: usize) {
        if !(self.of_any && self.job == job) {
            self.clear();
        }
        (self.job, self.of_any) = (job, true);
    }

    /// The job at a place is another now.
    pub(super) fn replaced(&mut self, job: usize) {
        if self.job == job {
            self.clear();
        }
    }

    /// Forgets everything.
    pub(super) fn clear(&mut self) {
        self.of_any = false;
        self.chosen = Chosen::START;
        self.masses = Known::Not;
        self.judging.clear();
        self.testing.clear();
        self.test.clear();
    }

    /// Takes in the clock, and tells whether the picture of the leak test may have changed.
    pub(super) fn tick(&mut self, clock: u64) -> bool {
        self.test.tick(clock)
    }

    /// Which setting is shown, as one row of all kinds of seams, and whether its sources are read.
    #[must_use]
    pub const fn setting(&self) -> Reading {
        self.chosen.setting
    }

    /// Which filler of the ranking is shown, and which of its reasons.
    #[must_use]
    pub const fn filler(&self) -> Reading {
        self.chosen.filler
    }

    /// Which mass is shown: empty, at the fill mark, at the brim, on the mounts; and which screenful of why it is not
    /// known.
    #[must_use]
    pub const fn mass(&self) -> Reading {
        self.chosen.mass
    }

    /// Which panel is shown, in the order of its reserve, and which screenful of what is said of it.
    #[must_use]
    pub const fn panel(&self) -> Reading {
        self.chosen.panel
    }

    /// What the tank weighs.
    #[must_use]
    pub const fn masses(&self) -> Option<&Masses> {
        self.masses.get()
    }

    /// Its panels, those that cannot be judged first, then the weakest; none until all are worked out.
    pub fn panels(&self) -> &[Panel] {
        self.judging.panels()
    }

    /// How many walls and seams a page has worked out, and of how many; `None` of a page that has nothing more to
    /// work out.
    #[must_use]
    pub fn progress(&self, page: Page, tank: &Tank) -> Option<(usize, usize)> {
        match page {
            Page::Strength if !self.judging.is_done() => Some((self.judging.done(), count(tank))),
            Page::Leak if !self.testing.is_done() => {
                Some((self.testing.done(), Testing::count(tank)))
            }
            _ => None,
        }
    }

    /// Works out one wall or seam more, where the page wants it, and tells whether it did.
    pub(super) fn work_on(&mut self, page: Page, tank: &Tank) -> bool {
        match page {
            Page::Strength if !self.judging.is_done() => self.judging.go_on(tank),
            Page::Leak if !self.testing.is_done() => self.testing.go_on(tank),
            _ => return false,
        }
        true
    }

    /// The leak test.
    #[must_use]
    pub const fn test(&self) -> &LeakTest {
        &self.test
    }

    /// What the leak test is of; `None` before its page was turned to.
    #[must_use]
    pub fn site(&self, tank: &Tank, units: Units) -> Option<Site<'_>> {
        Some(Site {
            vessel: self.testing.vessel()?,
            seam: self.testing.seam(),
            liquid: tank.job().liquid(),
            units,
        })
    }

    /// Takes in what a thumb did on one of these pages.
    pub(super) fn handle(&mut self, page: Page, event: Event, tank: &Tank, units: Units) {
        if event == Event::Press(Button::Select) {
            return self.select(page, tank, units);
        }
        let Some(step) = Step::of(event) else {
            return;
        };
        let chosen = &mut self.chosen;
        match page {
            Page::SetUp => piece(&mut chosen.setting, step.up, setup::count(tank)),
            Page::Filler => piece(&mut chosen.filler, step.up, filler::count(tank)),
            Page::Mass => {
                let count = if tank.mounts().is_empty() { 3 } else { 4 };
                piece(&mut chosen.mass, step.up, count);
            }
            Page::Strength => {
                let count = self.judging.panels().len();
                piece(&mut chosen.panel, step.up, count);
            }
            Page::Leak => {
                if let Some(vessel) = self.testing.vessel() {
                    let site = Site {
                        vessel,
                        seam: self.testing.seam(),
                        liquid: tank.job().liquid(),
                        units,
                    };
                    let parts = |test: &LeakTest| leak::parts(test, &site);
                    self.test.step(step, &site, parts);
                }
            }
            _ => {}
        }
    }

    /// The middle button: reads on through what is said of the piece that is chosen, and then from its start.
    fn select(&mut self, page: Page, tank: &Tank, units: Units) {
        let chosen = &mut self.chosen;
        match page {
            Page::SetUp => {
                let parts = setup::parts(tank, chosen.setting.piece);
                part(&mut chosen.setting, parts);
            }
            Page::Filler => {
                let parts = filler::parts(tank, chosen.filler.piece);
                part(&mut chosen.filler, parts);
            }
            Page::Mass => {
                let parts = self
                    .masses
                    .get()
                    .map_or(1, |masses| mass::parts(masses, chosen.mass.piece));
                part(&mut chosen.mass, parts);
            }
            Page::Strength => {
                let panels = self.judging.panels();
                let parts = panels
                    .get(chosen.panel.piece)
                    .map_or(1, |panel| strength::parts(tank, panel, units));
                part(&mut chosen.panel, parts);
            }
            Page::Leak => {
                if let Some(vessel) = self.testing.vessel() {
                    let site = Site {
                        vessel,
                        seam: self.testing.seam(),
                        liquid: tank.job().liquid(),
                        units,
                    };
                    self.test.select(&site);
                }
            }
            _ => {}
        }
    }

    /// Works out at once what a page shows, where that is quick and not known yet.
    pub(super) fn work_out(&mut self, page: Page, tank: &Tank) {
        match page {
            Page::Mass if self.masses.get().is_none() => {
                self.masses = Known::Is(weigh(tank));
            }
            _ => {}
        }
    }
}

impl Chosen {
    const START: Self = Self {
        setting: Reading::START,
        filler: Reading::START,
        mass: Reading::START,
        panel: Reading::START,
    };
}

/// The piece above or below.
fn piece(read: &mut Reading, up: bool, count: usize) {
    let piece = if up {
        read.piece.saturating_sub(1)
    } else {
        (read.piece + 1).min(count.saturating_sub(1))
    };
    *read = Reading { piece, part: 0 };
}

/// The next part, or the first again.
const fn part(read: &mut Reading, parts: usize) {
    read.part = if read.part + 1 < parts {
        read.part + 1
    } else {
        0
    };
}
