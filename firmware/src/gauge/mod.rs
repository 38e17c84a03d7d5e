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

mod jobs;
mod settings;
mod shelf;
mod trouble;

pub use shelf::{MOST_JOBS, ShelfFull};

use embedded_graphics::draw_target::DrawTarget;
use embedded_graphics::pixelcolor::Gray4;
use seamwright_core::input::Draft;
use seamwright_core::tank::{JobError, Tank};
use seamwright_core::weld::WeldStep;

use crate::amount::Units;
use crate::buttons::{Button, Event, Step};
use crate::page::parts::{along, marks};
use crate::page::{Full, Kind, Page, Pages, Turn};
use crate::pen::{Faults, Pen};
use crate::work::{Order, Shared, Think, Work};
use shelf::Shelf;
use trouble::Trouble;

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
    Trouble { job: usize, trouble: Trouble },
    Open { job: usize, page: Page },
}

/// The gauge: jobs on a shelf, one of them perhaps open.
///
/// Its kind says which pages it has and whether it plans; where none is named it is the full one.
#[derive(Debug)]
pub struct Gauge<K: Kind = Full> {
    shelf: Shelf,
    /// The chosen line of the list; the one past the last job is the settings.
    line: usize,
    units: Units,
    place: Place,
    /// The tank of the open job, of no use while none is. Not within `place`: it is some 12 KiB, made where it stays.
    tank: Tank,
    /// What its pages share.
    shared: Shared,
    /// Its pages.
    pages: Pages<K>,
    /// The job that the pages are of, if `of_any`.
    of: usize,
    of_any: bool,
    planner: K::Planner,
}

impl<K: Kind> Default for Gauge<K> {
    fn default() -> Self {
        Self::new()
    }
}

impl<K: Kind> Gauge<K> {
    /// With an empty shelf.
    #[must_use]
    pub const fn new() -> Self {
        Self {
            shelf: Shelf::new(),
            line: 0,
            units: Units::Metric,
            place: Place::Jobs,
            tank: Tank::EMPTY,
            shared: Shared::NEW,
            pages: Pages::NEW,
            of: 0,
            of_any: false,
            planner: K::Planner::NEW,
        }
    }

    /// Puts a job on the shelf, in place of one of the same name, and returns its place there,
    /// counted from 0. The list then points at it; an open job of that name is computed anew.
    ///
    /// # Errors
    /// [`ShelfFull`]; nothing was changed.
    pub fn keep(&mut self, draft: &Draft) -> Result<usize, ShelfFull> {
        let kept = self.shelf.keep(draft)?;
        self.refresh(kept);
        Ok(kept)
    }

    /// Puts a packed draft on the shelf, as [`Gauge::keep`] does; [`Gauge::refresh`] is to follow.
    ///
    /// # Errors
    /// [`ShelfFull`]; nothing was changed.
    pub(crate) fn store(&mut self, packed: &[u8]) -> Result<usize, ShelfFull> {
        self.shelf.keep_packed(packed)
    }

    /// Shows what was kept at a place.
    pub(crate) fn refresh(&mut self, kept: usize) {
        if self.of == kept {
            self.of_any = false;
        }
        self.planner.forget(kept);
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
        self.of_any = false;
        self.planner.stop();
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
            Place::Open { page, .. } => Screen::Page(*page),
        }
    }

    /// The open job.
    #[must_use]
    pub fn work(&self) -> Option<Work<'_>> {
        let Place::Open { job, .. } = &self.place else {
            return None;
        };
        Some(self.work_of(*job))
    }

    fn work_of(&self, job: usize) -> Work<'_> {
        let order = order(&self.shelf, &self.planner, job);
        Work::new(&self.tank, order, self.units, self.shared)
    }

    /// What was chosen and found out on its pages; of no use while no job is open.
    #[must_use]
    pub const fn pages(&self) -> &Pages<K> {
        &self.pages
    }

    /// The order that came with the job at a place of the shelf; of no steps where none came.
    #[must_use]
    pub fn order_sent(&self, place: usize) -> Order<'_> {
        Order::sent(self.shelf.order(place))
    }

    /// Lets the gauge think for a moment while there is nothing else to do: a step of a plan for the open job's
    /// stitches or a part of laying the tank out for it, some hundredths of a second on a small chip. Tells
    /// whether the picture may have changed. A gauge without a planner does nothing.
    ///
    /// It thinks of a job that came without an order, and not while a page holds the order as it is.
    pub fn think(&mut self) -> bool {
        let Some(job) = self.thinks_of() else {
            return false;
        };
        self.planner.think(job, &self.tank) && self.screen() == Screen::Page(Page::Order)
    }

    /// Whether [`Gauge::think`] has something to do.
    #[must_use]
    pub fn has_thoughts(&self) -> bool {
        self.thinks_of()
            .is_some_and(|job| self.planner.is_busy(job))
    }

    /// The job of which it thinks, if it may: what [`Gauge::tick`] works out goes first, since somebody waits for it.
    fn thinks_of(&self) -> Option<usize> {
        let Place::Open { job, .. } = &self.place else {
            return None;
        };
        let wanted = K::PLANS && self.shelf.order(*job).is_empty() && !self.pages.hold_order();
        (wanted && !self.is_working()).then_some(*job)
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
            (Place::Trouble { trouble, .. }, event) => trouble.handle(event),
            (&mut Place::Open { job, page }, event) => self.handle_on_page(job, page, event),
        }
        if self.screen() != before {
            crate::log::turned_to(self.screen());
        }
    }

    fn handle_in_list(&mut self, event: Event) {
        let jobs = self.shelf.count();
        match event {
            Event::Press(Button::Select | Button::Right) if self.line < jobs => {
                self.open(self.line);
            }
            Event::Press(Button::Select | Button::Right) => self.place = Place::Settings,
            _ => {
                if let Some(step) = Step::of(event) {
                    self.line = along(self.line, step.up, jobs + 1);
                }
            }
        }
    }

    fn handle_on_page(&mut self, job: usize, page: Page, event: Event) {
        let order = order(&self.shelf, &self.planner, job);
        let mut work = Work::new(&self.tank, order, self.units, self.shared);
        let turn = match event {
            Event::Press(Button::Left) => Turn::Back,
            Event::Press(Button::Right) => Turn::On,
            Event::Press(Button::Select) => self.pages.select(page, &mut work),
            _ => {
                if let Some(step) = Step::of(event) {
                    self.pages.step(page, step, &mut work);
                }
                Turn::Stay
            }
        };
        self.shared = work.shared();
        let page = Pages::<K>::turned(page, turn);
        self.pages.prepare(page, &self.tank);
        self.place = Place::Open { job, page };
    }

    /// Takes in a clock of milliseconds, which may start anywhere and wrap at 2³² or any greater power of two; works
    /// out one piece more of what the page shows, where there is one ([`Gauge::is_working`]); and tells whether the
    /// picture may have changed.
    pub fn tick(&mut self, milliseconds: u64) -> bool {
        let shown = match &self.place {
            Place::Open { page, .. } => Some(*page),
            _ => None,
        };
        let told = self.pages.tick(shown, milliseconds);
        let Some(page) = shown else {
            return false;
        };
        let working = self.is_working();
        if working {
            self.pages.work_on(page, &self.tank);
        }
        working || told
    }

    /// Whether the page shown is still being worked out: [`Gauge::tick`] does a piece of it.
    #[must_use]
    pub fn is_working(&self) -> bool {
        let Place::Open { page, .. } = &self.place else {
            return false;
        };
        self.pages.progress(*page, &self.tank).is_some()
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
                let another = !(self.of_any && self.of == job);
                (self.of, self.of_any) = (job, true);
                self.pages.start(&self.tank, another);
                self.shared = Shared::at_first(&self.tank);
                let page = Page::FIRST;
                self.place = Place::Open { job, page };
            }
            Some(Err(error)) => {
                crate::log::trouble(&error);
                let trouble = Trouble::new(error);
                self.place = Place::Trouble { job, trouble };
            }
        }
    }

    fn rebuild(&mut self, job: usize) -> Option<Result<(), JobError>> {
        let taken = self.take(job)?;
        Some(taken.and_then(|()| K::make(&mut self.tank)))
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
            Place::Jobs => jobs::draw(&mut pen, &self.shelf, self.line)?,
            Place::Settings => settings::draw(&mut pen, self.units)?,
            Place::Trouble { trouble, .. } => trouble.draw(&mut pen)?,
            Place::Open { job, page } => {
                let pages = Pages::<K>::LIST.len();
                marks(&mut pen, Pages::<K>::place(*page), pages)?;
                self.pages.draw(*page, &mut pen, &self.work_of(*job))?;
            }
        }
        let faults = pen.faults();
        if faults != Faults::default() {
            crate::log::faults(faults);
        }
        Ok(faults)
    }
}

/// The order of a job: the one that came with it, else what the gauge has found.
fn order<'a, T: Think>(shelf: &'a Shelf, planner: &'a T, job: usize) -> Order<'a> {
    let sent = Order::sent(shelf.order(job));
    if T::ABLE && sent.count() == 0 {
        return planner.order(job);
    }
    sent
}

#[cfg(test)]
mod full_tests;

#[cfg(test)]
mod tests;
