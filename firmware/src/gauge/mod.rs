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
use seamwright_core::job::{Draft, JobError, Tank};
use seamwright_core::stitch::WeldStep;

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
mod tests {
    use super::*;
    use crate::bench::{box_job, cut_job, press};
    use Button::{Down, Left, Right, Select, Up};
    use seamwright_core::body::Face;

    fn with_jobs(names: &[&str]) -> Gauge {
        let mut gauge = Gauge::new();
        for name in names {
            gauge.keep(&box_job(name)).unwrap();
        }
        gauge
    }

    #[test]
    fn pages_follow_the_work_and_stop_at_both_ends() {
        let mut gauge = with_jobs(&["a"]);
        press(&mut gauge, &[Select, Left]);
        for &page in Page::ALL {
            assert_eq!(gauge.screen(), Screen::Page(page));
            press(&mut gauge, &[Right]);
        }
        assert_eq!(gauge.screen(), Screen::Page(Page::Notices));
        gauge.handle(Event::Hold);
        assert_eq!(gauge.screen(), Screen::Jobs);
    }

    #[test]
    fn the_settings_stand_under_the_last_job() {
        let mut gauge = with_jobs(&["a", "b"]);
        press(&mut gauge, &[Down, Down, Down, Right]);
        assert_eq!(gauge.screen(), Screen::Settings);
        press(&mut gauge, &[Select]);
        assert_eq!(gauge.units(), Units::Inch);
        gauge.handle(Event::Hold);
        press(&mut gauge, &[Up, Select]);
        assert_eq!(gauge.work().unwrap().tank().job().name(), "b");
    }

    #[test]
    fn a_job_sent_again_takes_its_own_place() {
        let mut gauge = with_jobs(&["a", "b", "c"]);
        assert_eq!(gauge.keep(&box_job("b")), Ok(1));
        assert_eq!(gauge.count(), 3);
        for name in ["d", "e", "f"] {
            gauge.keep(&box_job(name)).unwrap();
        }
        assert_eq!(gauge.keep(&box_job("g")), Err(ShelfFull));
        assert_eq!(gauge.keep(&box_job("a")), Ok(0));
        assert_eq!(gauge.count(), MOST_JOBS);
    }

    #[test]
    fn an_open_job_sent_again_is_computed_anew() {
        let mut gauge = with_jobs(&["a"]);
        press(&mut gauge, &[Select]);
        let mut wrong = box_job("a");
        wrong.stock.thickness = crate::bench::mm(60.0);
        gauge.keep(&wrong).unwrap();
        assert_eq!(gauge.screen(), Screen::Trouble);
        gauge.keep(&box_job("a")).unwrap();
        assert_eq!(gauge.screen(), Screen::Page(Page::Tank));
        gauge.forget();
        assert_eq!(gauge.screen(), Screen::Jobs);
        assert!(gauge.work().is_none());
    }

    #[test]
    fn a_seam_and_its_stitches_are_one_choice() {
        let mut gauge = with_jobs(&["a"]);
        press(
            &mut gauge,
            &[
                Select, Right, Right, Right, Right, Right, Down, Down, Select,
            ],
        );
        assert_eq!(gauge.screen(), Screen::Page(Page::Stitches));
        press(&mut gauge, &[Down]);
        assert_eq!(gauge.work().unwrap().seam(), 3);
        press(&mut gauge, &[Select, Up]);
        assert_eq!(gauge.screen(), Screen::Page(Page::Seams));
        assert_eq!(gauge.work().unwrap().seam(), 2);
        press(&mut gauge, &[Down; 50]);
        assert_eq!(gauge.work().unwrap().seam(), 11);
    }

    fn order_page(gauge: &mut Gauge) {
        while gauge.screen() != Screen::Page(Page::Order) {
            press(gauge, &[Right]);
        }
    }

    /// Each stitch once, as they come.
    fn plain_order(gauge: &Gauge) -> std::vec::Vec<WeldStep> {
        let count = gauge.work().unwrap().tank().totals().stitches;
        (0..u8::try_from(count).unwrap())
            .map(|run| WeldStep {
                run,
                reversed: false,
                wait: 5,
                warmth: 40,
            })
            .collect()
    }

    #[test]
    fn an_order_that_came_is_walked_through() {
        let mut gauge = with_jobs(&["a"]);
        press(&mut gauge, &[Select]);
        let steps = plain_order(&gauge);
        gauge.add_steps(0, 0, &steps[..1]).unwrap();
        order_page(&mut gauge);
        assert!(
            !gauge
                .work()
                .unwrap()
                .order()
                .fits(gauge.work().unwrap().tank())
        );
        gauge.add_steps(0, 1, &steps[1..]).unwrap();
        let work = gauge.work().unwrap();
        assert_eq!((work.order().count(), work.stitch()), (steps.len(), 0));
        assert_eq!(work.order().origin(), Origin::Sent);
        assert!(work.order().fits(work.tank()));
        press(&mut gauge, &[Down, Down, Down, Up]);
        assert_eq!(gauge.work().unwrap().stitch(), 2);
        for _ in 0..50 {
            gauge.handle(Event::Repeat(Down));
        }
        assert_eq!(gauge.work().unwrap().stitch(), steps.len());
        press(&mut gauge, &[Select]);
        assert_eq!(gauge.work().unwrap().stitch(), 0);
        // Another job of that name, and what came with the old one is gone.
        gauge.keep(&box_job("a")).unwrap();
        assert_eq!(gauge.work().unwrap().order().count(), 0);
    }

    #[cfg(feature = "full")]
    #[test]
    fn a_gauge_without_an_order_thinks_of_one() {
        use seamwright_core::job::Progress;
        let mut gauge = with_jobs(&["a", "b"]);
        assert!(!gauge.think() && !gauge.has_thoughts(), "nothing is open");
        press(&mut gauge, &[Up, Select]);
        order_page(&mut gauge);
        assert!(gauge.has_thoughts());
        let mut seen = std::vec::Vec::new();
        let origin = |gauge: &Gauge| gauge.work().unwrap().order().origin();
        while gauge.has_thoughts() {
            if gauge.think() {
                seen.push(origin(&gauge));
            }
            if seen.len() == 2 {
                break;
            }
        }
        let looked = Origin::Own(Progress::Looked);
        assert_eq!(seen, [looked, Origin::Own(Progress::Tried(1))]);
        // While a stitch is shown the order stands still.
        press(&mut gauge, &[Down]);
        assert!(!gauge.has_thoughts());
        for _ in 0..100 {
            assert!(!gauge.think());
        }
        press(&mut gauge, &[Select]);
        assert!(gauge.has_thoughts());
        // Left and opened again, it goes on where it was; another job is another matter.
        gauge.handle(Event::Hold);
        assert!(!gauge.has_thoughts());
        press(&mut gauge, &[Select]);
        assert_eq!(origin(&gauge), Origin::Own(Progress::Tried(1)));
        gauge.handle(Event::Hold);
        press(&mut gauge, &[Down, Select]);
        assert_eq!(origin(&gauge), Origin::Own(Progress::Idle));
        // What is sent is used as it is.
        let steps = plain_order(&gauge);
        gauge.add_steps(1, 0, &steps).unwrap();
        assert!(!gauge.has_thoughts() && !gauge.think());
        assert_eq!(origin(&gauge), Origin::Sent);
    }

    #[cfg(feature = "full")]
    #[test]
    fn a_job_changed_under_a_plan_is_planned_anew() {
        use seamwright_core::job::Progress;
        let mut gauge = with_jobs(&["a"]);
        press(&mut gauge, &[Select]);
        order_page(&mut gauge);
        while !gauge.think() {}
        gauge.keep(&box_job("a")).unwrap();
        assert_eq!(
            gauge.work().unwrap().order().origin(),
            Origin::Own(Progress::Idle)
        );
        gauge.forget();
        assert!(!gauge.has_thoughts());
    }

    #[test]
    fn a_tank_is_first_seen_from_where_it_is_cut() {
        for (faces, quarters) in [
            ([Face::Top, Face::Front], 0),
            ([Face::Top, Face::Right], 0),
            ([Face::Bottom, Face::Back], 1),
            ([Face::Bottom, Face::Left], 2),
        ] {
            let mut gauge = Gauge::new();
            gauge.keep(&cut_job(faces)).unwrap();
            press(&mut gauge, &[Select]);
            assert_eq!(gauge.work().unwrap().quarters(), quarters, "{faces:?}");
        }
    }
}
