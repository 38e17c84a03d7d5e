//! The gauge itself: which screen is shown, and what the buttons do there.
//!
//! ```text
//! jobs ── select or right ──> tank · holds · fill · dip · panels · seams · stitches · order ·
//!   │                         set-up · heat · filler · mass · strength · leak test · notices
//!   │  <── select held ─────  left and right turn the pages, up and down choose or change
//!   └─ settings
//! ```
//!
//! A job's tank is computed once, when the job is opened. Nothing here depends on time or chance, so
//! the same events give the same pixels on every machine. The leak test has a timer: a board tells it the time, and
//! the same events and times give the same pixels.

mod filling;
#[cfg(feature = "full")]
mod found;
#[cfg(feature = "full")]
mod leak_scene;
#[cfg(feature = "full")]
mod leak_test;
mod order;
mod shelf;
#[cfg(feature = "full")]
mod stopwatch;
#[cfg(feature = "full")]
mod thinker;
#[cfg(feature = "full")]
mod typed;
mod work;
#[cfg(feature = "full")]
mod worked;

pub use filling::{Changing, Filling};
#[cfg(feature = "full")]
pub use found::Found;
#[cfg(feature = "full")]
pub use leak_scene::{Fate, Outcome, Scene, Seen, Sheet, Site, View, Way};
#[cfg(feature = "full")]
pub use leak_test::LeakTest;
pub use order::{Order, Origin, Takes};
pub use shelf::{MOST_JOBS, ShelfFull};
#[cfg(feature = "full")]
pub use stopwatch::Stopwatch;
#[cfg(feature = "full")]
pub use typed::{Ask, Asked, Field, Typed};
use work::Choices;
pub use work::Work;
#[cfg(feature = "full")]
pub use worked::{Borne, Masses, Mounts, Panel, WeakSeam, Weighed};

use embedded_graphics::draw_target::DrawTarget;
use embedded_graphics::pixelcolor::Gray4;
use seamwright_core::input::Draft;
use seamwright_core::tank::{JobError, Tank};
use seamwright_core::weld::WeldStep;

use crate::amount::Units;
use crate::buttons::{Button, Event};
use crate::page::{self, Page, Reading, trouble};
use crate::pen::{Faults, Pen};
pub(crate) use shelf::Shelf;
#[cfg(feature = "full")]
use thinker::Thinker;

/// What is shown.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum Screen {
    /// The list of jobs, and the settings under them.
    Jobs,
    /// The settings.
    Settings,
    /// A job that cannot be computed, and why.
    Trouble,
    /// A page of a job.
    Page(Page),
}

impl Screen {
    /// A short name, fit for the name of a file.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Jobs => "jobs",
            Self::Settings => "settings",
            Self::Trouble => "trouble",
            Self::Page(page) => page.name(),
        }
    }
}

/// Where the gauge is.
// Its tag stands apart (`repr`), so that the first is zero: see `Tank::EMPTY`.
#[derive(Clone, Copy, Debug)]
#[repr(u8)]
enum Place {
    Jobs,
    Settings,
    Trouble {
        job: usize,
        error: JobError,
        read: Reading,
    },
    Open {
        job: usize,
        choices: Choices,
    },
}

/// The gauge: jobs on a shelf, one of them perhaps open.
#[derive(Debug)]
pub struct Gauge {
    shelf: Shelf,
    /// The chosen line of the list; the one past the last job is the settings.
    line: usize,
    units: Units,
    place: Place,
    /// The tank of the open job, of no use while none is. Not within `place`: it is some 12 KiB, made where it stays.
    tank: Tank,
    /// Whether it shows only the pages that every gauge has.
    #[cfg(feature = "full")]
    plain: bool,
    /// What the fuller pages have found out of the open job.
    #[cfg(feature = "full")]
    found: Found,
    #[cfg(feature = "full")]
    thinker: Thinker,
}

impl Default for Gauge {
    fn default() -> Self {
        Self::new()
    }
}

impl Gauge {
    /// With an empty shelf.
    #[must_use]
    pub const fn new() -> Self {
        Self {
            shelf: Shelf::new(),
            line: 0,
            units: Units::Metric,
            place: Place::Jobs,
            tank: Tank::EMPTY,
            #[cfg(feature = "full")]
            plain: false,
            #[cfg(feature = "full")]
            found: Found::new(),
            #[cfg(feature = "full")]
            thinker: Thinker::new(),
        }
    }

    /// With the pages that a gauge of the smallest kind has, to compare with one.
    #[cfg(feature = "full")]
    #[must_use]
    pub const fn plain() -> Self {
        let mut gauge = Self::new();
        gauge.plain = true;
        gauge
    }

    /// Puts a job on the shelf, in place of one of the same name, and returns its place there,
    /// counted from 0. The list then points at it; an open job of that name is computed anew.
    ///
    /// # Errors
    /// [`ShelfFull`]; nothing was changed.
    pub fn keep(&mut self, draft: &Draft) -> Result<usize, ShelfFull> {
        let kept = self.shelf.keep(draft)?;
        #[cfg(feature = "full")]
        self.found.replaced(kept);
        self.refresh(kept);
        Ok(kept)
    }

    /// Puts a packed draft on the shelf, as [`Gauge::keep`] does; [`Gauge::refresh`] is to follow.
    ///
    /// # Errors
    /// [`ShelfFull`]; nothing was changed.
    pub(crate) fn store(&mut self, packed: &[u8]) -> Result<usize, ShelfFull> {
        let kept = self.shelf.keep_packed(packed)?;
        #[cfg(feature = "full")]
        self.found.replaced(kept);
        Ok(kept)
    }

    /// Shows what was kept at a place.
    pub(crate) fn refresh(&mut self, kept: usize) {
        #[cfg(feature = "full")]
        self.thinker.forget(kept);
        match self.place {
            Place::Jobs => self.line = kept,
            Place::Open { job, .. } | Place::Trouble { job, .. } if job == kept => self.open(kept),
            Place::Settings | Place::Open { .. } | Place::Trouble { .. } => {}
        }
    }

    /// Puts steps of the order of its stitches beside the job at a place of the shelf, those before `from` being
    /// there already. Returns how many are there then: fewer than were sent where there is a gap or no such job.
    ///
    /// # Errors
    /// [`ShelfFull`]; nothing was changed.
    pub fn add_steps(
        &mut self,
        place: usize,
        from: u16,
        steps: &[WeldStep],
    ) -> Result<u16, ShelfFull> {
        self.shelf.add_steps(place, from, steps)
    }

    /// Clears the shelf and goes back to the list.
    pub fn forget(&mut self) {
        self.shelf.clear();
        #[cfg(feature = "full")]
        self.found.clear();
        #[cfg(feature = "full")]
        self.thinker.stop();
        self.line = 0;
        self.leave();
    }

    /// The names of the jobs on the shelf.
    pub fn names(&self) -> impl Iterator<Item = &str> {
        self.shelf.names()
    }

    /// How many jobs stand on the shelf.
    #[must_use]
    pub fn count(&self) -> usize {
        self.shelf.count()
    }

    /// The job at a place of the shelf, counted from 0.
    #[must_use]
    pub fn job(&self, place: usize) -> Option<Draft> {
        self.shelf.job(place)
    }

    /// The units shown.
    #[must_use]
    pub const fn units(&self) -> Units {
        self.units
    }

    /// Changes the units shown.
    pub const fn set_units(&mut self, units: Units) {
        self.units = units;
    }

    /// What is shown.
    #[must_use]
    pub const fn screen(&self) -> Screen {
        match &self.place {
            Place::Jobs => Screen::Jobs,
            Place::Settings => Screen::Settings,
            Place::Trouble { .. } => Screen::Trouble,
            Place::Open { choices, .. } => Screen::Page(choices.page()),
        }
    }

    /// The open job.
    #[must_use]
    pub fn work(&self) -> Option<Work<'_>> {
        match &self.place {
            Place::Open { job, choices } => {
                let order = self.order(*job);
                Some(Work::new(
                    &self.tank,
                    order,
                    *choices,
                    #[cfg(feature = "full")]
                    &self.found,
                ))
            }
            _ => None,
        }
    }

    /// The order that came with the job at a place of the shelf; of no steps where none came.
    #[must_use]
    pub fn order_sent(&self, place: usize) -> Order<'_> {
        Order::sent(self.shelf.order(place))
    }

    /// The order of the open job: the one that came with it, else what the gauge has found.
    fn order(&self, job: usize) -> Order<'_> {
        let sent = Order::sent(self.shelf.order(job));
        #[cfg(feature = "full")]
        if sent.count() == 0 && !self.plain {
            return self.thinker.order(job);
        }
        sent
    }

    /// Lets the gauge think for a moment while there is nothing else to do: a step of a plan for the open job's
    /// stitches or a part of laying the tank out for it, some hundredths of a second on a small chip. Tells
    /// whether the picture may have changed.
    ///
    /// It thinks of a job that came without an order, and not while a stitch of the order is shown, so that the order
    /// does not change under the welder's hands.
    #[cfg(feature = "full")]
    pub fn think(&mut self) -> bool {
        let Some(job) = self.thinks_of() else {
            return false;
        };
        self.thinker.think(job, &self.tank) && self.screen() == Screen::Page(Page::Order)
    }

    /// Whether [`Gauge::think`] has something to do.
    #[cfg(feature = "full")]
    #[must_use]
    pub fn has_thoughts(&self) -> bool {
        self.thinks_of()
            .is_some_and(|job| self.thinker.is_busy(job))
    }

    /// The job of which it thinks, if it may: what [`Gauge::tick`] works out goes first, since somebody waits for it.
    #[cfg(feature = "full")]
    fn thinks_of(&self) -> Option<usize> {
        let Place::Open { job, choices } = &self.place else {
            return None;
        };
        let wanted = !self.plain && self.shelf.order(*job).is_empty() && choices.stitch() == 0;
        (wanted && !self.is_working()).then_some(*job)
    }

    /// Nothing to do where there is no room for a planner.
    #[cfg(not(feature = "full"))]
    pub const fn think(&mut self) -> bool {
        false
    }

    /// Never, where there is no room for a planner.
    #[cfg(not(feature = "full"))]
    #[must_use]
    pub const fn has_thoughts(&self) -> bool {
        false
    }

    /// Takes in what a thumb did. Opening a job computes its tank, which takes a while on a small
    /// machine; all else is quick.
    pub fn handle(&mut self, event: Event) {
        let before = self.screen();
        match (&mut self.place, event) {
            (Place::Jobs, event) => self.handle_in_list(event),
            (_, Event::Hold) => self.leave(),
            (Place::Settings, Event::Press(Button::Select | Button::Left | Button::Right)) => {
                self.units = self.units.other();
            }
            (Place::Settings, _) => {}
            (Place::Trouble { error, read, .. }, event) => {
                *read = trouble::turn(error, *read, event);
            }
            (Place::Open { job, .. }, event) => {
                let job = *job;
                let steps = self.order(job).count();
                if let Place::Open { choices, .. } = &mut self.place {
                    #[cfg(feature = "full")]
                    self.found
                        .handle(choices.page(), event, &self.tank, self.units);
                    choices.handle(event, &self.tank, steps, self.units);
                    #[cfg(feature = "full")]
                    self.found.work_out(choices.page(), &self.tank);
                }
            }
        }
        if self.screen() != before {
            crate::log::turned_to(self.screen());
        }
    }

    /// Takes in a clock of milliseconds, which may start anywhere and wrap at 2³² or any greater power of two; works
    /// out one piece more of what the page shows, where there is one ([`Gauge::is_working`]); and tells whether the
    /// picture may have changed.
    #[cfg(feature = "full")]
    pub fn tick(&mut self, milliseconds: u64) -> bool {
        let second = self.found.tick(milliseconds);
        let Place::Open { choices, .. } = &self.place else {
            return false;
        };
        let page = choices.page();
        let worked = self.found.work_on(page, &self.tank);
        worked || (second && page == Page::Leak)
    }

    /// Whether the page shown is still being worked out: [`Gauge::tick`] does a piece of it.
    #[cfg(feature = "full")]
    #[must_use]
    pub fn is_working(&self) -> bool {
        self.work()
            .is_some_and(|work| work.found().progress(work.page(), work.tank()).is_some())
    }

    /// The gauge of the smallest kind has nothing that time changes.
    #[cfg(not(feature = "full"))]
    pub const fn tick(&mut self, _: u64) -> bool {
        false
    }

    /// It works out nothing in pieces.
    #[cfg(not(feature = "full"))]
    #[must_use]
    pub const fn is_working(&self) -> bool {
        false
    }

    fn handle_in_list(&mut self, event: Event) {
        let jobs = self.shelf.count();
        match event {
            Event::Press(Button::Up) | Event::Repeat(Button::Up) => {
                self.line = self.line.saturating_sub(1);
            }
            Event::Press(Button::Down) | Event::Repeat(Button::Down) => {
                self.line = (self.line + 1).min(jobs);
            }
            Event::Press(Button::Select | Button::Right) if self.line < jobs => {
                self.open(self.line);
            }
            Event::Press(Button::Select | Button::Right) => self.place = Place::Settings,
            Event::Press(Button::Left) | Event::Repeat(_) | Event::Hold => {}
        }
    }

    /// Back to the list.
    fn leave(&mut self) {
        self.place = Place::Jobs;
    }

    // Kept out of its caller: it needs much stack, and only while a tank is computed.
    #[inline(never)]
    fn open(&mut self, job: usize) {
        match self.rebuild(job) {
            None => {}
            Some(Ok(())) => {
                let choices = Choices::at_first(
                    &self.tank,
                    #[cfg(feature = "full")]
                    self.plain,
                );
                self.place = Place::Open { job, choices };
                #[cfg(feature = "full")]
                self.found.open(job);
            }
            Some(Err(error)) => {
                crate::log::trouble(&error);
                let read = Reading::START;
                self.place = Place::Trouble { job, error, read };
            }
        }
    }

    fn rebuild(&mut self, job: usize) -> Option<Result<(), JobError>> {
        let taken = self.take(job)?;
        Some(taken.and_then(|()| self.tank.make()))
    }

    // Out of line, so that the unpacked draft is gone from the stack before the tank is made.
    #[inline(never)]
    fn take(&mut self, job: usize) -> Option<Result<(), JobError>> {
        let draft = self.shelf.job(job)?;
        Some(self.tank.take(&draft))
    }

    /// Draws what is shown on a dark `target`, and tells whether anything ran into anything.
    ///
    /// # Errors
    /// The target's own.
    pub fn draw<D>(&self, target: &mut D) -> Result<Faults, D::Error>
    where
        D: DrawTarget<Color = Gray4>,
    {
        let mut pen = Pen::new(target);
        match &self.place {
            Place::Jobs => page::jobs::draw(&mut pen, &self.shelf, self.line)?,
            Place::Settings => page::settings::draw(&mut pen, self.units)?,
            Place::Trouble { error, read, .. } => trouble::draw(&mut pen, error, *read)?,
            Place::Open { .. } => {
                if let Some(work) = self.work() {
                    page::draw(&mut pen, &work, self.units)?;
                }
            }
        }
        let faults = pen.faults();
        crate::log::faults(faults);
        Ok(faults)
    }
}

#[cfg(test)]
#[cfg(feature = "full")]
mod full_tests;

#[cfg(test)]
mod tests;
