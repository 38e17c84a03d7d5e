//! A leak test as it is led through, step by step, with five buttons.
//!
//! ```text
//! choose ─> cautions, one by one ─> what is sought ─> plan ─> get ready ─┬─> hold ─> look ─> what was seen
//!           (none passed over)      (by gauge only)                      └─> reading <─> timer and verdict
//! ```
//!
//! A test has a [`Scene`] at any time, and the plan with its pressures stands only in the scenes that come after
//! the cautions: [`LeakTest::scene`] gives the first caution that was not acknowledged in place of any of them, so
//! that no page can name a pressure before.
//!
//! Nothing here knows a tank or a clock: a [`Site`] says what is tested, and [`LeakTest::tick`] what time it is.

#[cfg(test)]
mod tests;
mod told;

use heapless::Vec;
use seamwright_core::advice::caution::Caution;
use seamwright_core::leak::{BAROMETER, LeakError};
use seamwright_core::leak::{LeakPlan, LeakRule, MOST_READINGS, Method, Reading};
use seamwright_core::units::Time;

use super::scene::{Fate, Scene, Seen, Sheet, Site, View, Way, cautions, refusal, sheets};
use super::stopwatch::Stopwatch;
use super::typed::{Ask, Asked, Field, Typed};
use crate::buttons::Step;

/// Milliseconds of a second.
const SECOND: f64 = 1_000.0;

/// How far it has come.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[repr(u8)]
enum Stage {
    Choose,
    Ask,
    Plan,
    Ready,
    Hold,
    Look,
    Seen,
    Type,
    Watch,
}

/// A leak test.
// All zeros while it is new: see `Tank::EMPTY`.
#[derive(Clone, Debug)]
pub struct LeakTest {
    stage: Stage,
    /// Which line, field, screen or view of the stage.
    line: u8,
    /// Which screenful of it.
    part: u8,
    rule: LeakRule,
    way: Way,
    seen: Seen,
    fate: Fate,
    /// One bit for each of [`Caution::ALL`].
    acknowledged: u32,
    asked: Asked,
    typed: Typed,
    /// When the reading that is being typed was taken, in milliseconds of the watch.
    taken: u64,
    watch: Stopwatch,
    readings: Vec<Reading, { MOST_READINGS as usize }>,
}

impl LeakTest {
    pub(super) const fn new() -> Self {
        Self {
            stage: Stage::Choose,
            line: 0,
            part: 0,
            rule: LeakRule::OwnHead,
            way: Way::Look,
            seen: Seen::Dry,
            fate: Fate::Keep,
            acknowledged: 0,
            asked: Asked::NOTHING,
            typed: Typed::NOTHING,
            taken: 0,
            watch: Stopwatch::new(),
            readings: Vec::new(),
        }
    }

    /// Begins over. What was chosen stays where it was; what was acknowledged must be anew.
    pub(super) fn restart(&mut self) {
        self.turn(Stage::Choose);
        self.seen = Seen::Dry;
        self.acknowledged = 0;
        self.typed = Typed::NOTHING;
        self.watch.reset();
        self.readings.clear();
    }

    /// Forgets everything.
    // Field by field: a new one would pass over the stack, and the readings are large.
    pub(super) fn clear(&mut self) {
        self.restart();
        self.rule = LeakRule::OwnHead;
        self.way = Way::Look;
        self.asked = Asked::NOTHING;
    }

    /// What the page shows.
    #[must_use]
    pub fn scene(&self, site: &Site<'_>) -> Scene {
        if self.stage == Stage::Choose {
            return Scene::Choose(self.rule, self.way, self.line);
        }
        let plan = match self.plan(site) {
            Ok(plan) => plan,
            Err(error) => return Scene::Refused(refusal(&error)),
        };
        let cautions = cautions(plan.method, self.way, site.liquid);
        let open = |caution: &Caution| !self.has_acknowledged(*caution);
        if let Some(place) = cautions.iter().position(open)
            && let Some(caution) = cautions.get(place)
        {
            // At most ten.
            return Scene::Caution(*caution, place as u8 + 1, cautions.len() as u8);
        }
        let line = usize::from(self.line);
        if self.stage != Stage::Ask && site.seam.is_none() {
            return Scene::Wait;
        }
        match self.stage {
            Stage::Choose => Scene::Choose(self.rule, self.way, self.line),
            Stage::Ask => Scene::Ask(Ask::ALL.get(line).copied().unwrap_or(Ask::Leak)),
            Stage::Plan => {
                let sheet = sheets(&plan, self.way, site).nth(line);
                Scene::Plan(plan, sheet.unwrap_or(Sheet::Over))
            }
            Stage::Ready => Scene::Ready(plan),
            Stage::Hold => Scene::Hold(plan),
            Stage::Look => Scene::Look(plan, self.seen),
            Stage::Seen => Scene::Seen(plan, self.seen, self.view()),
            Stage::Type => match self.line {
                0 => Scene::Type(plan, Field::Gauge),
                1 => Scene::Type(plan, Field::Air),
                2 => Scene::Type(plan, Field::Barometer),
                _ => Scene::Decide(self.fate),
            },
            Stage::Watch => Scene::Watch(self.view()),
        }
    }

    /// How the tank is tested; not to be shown but in a [`Scene`].
    fn plan(&self, site: &Site<'_>) -> Result<LeakPlan, LeakError> {
        let vessel = site.vessel.as_ref().map_err(|error| *error)?;
        let sought = match self.way {
            Way::Look => None,
            Way::Measure => Some(self.asked(site.units).sought()?),
        };
        vessel.plan(self.rule, BAROMETER, sought.as_ref())
    }

    fn views(&self) -> &'static [View] {
        use View::{Over, Timer, Verdict, Words};
        match self.stage {
            Stage::Seen => &[Verdict, Words, Over],
            _ if self.readings.len() < 2 => &[Timer, Over],
            _ => &[Timer, Verdict, Words, Over],
        }
    }

    fn view(&self) -> View {
        let views = self.views();
        views
            .get(usize::from(self.line))
            .copied()
            .unwrap_or(View::Over)
    }

    /// Takes in the clock, and tells whether the picture of its page may have changed.
    pub(super) fn tick(&mut self, clock: u64) -> bool {
        let second = self.watch.tick(clock);
        let timer = match self.stage {
            Stage::Hold | Stage::Look => true,
            Stage::Watch => self.line == 0,
            _ => false,
        };
        second && timer
    }

    fn turn(&mut self, stage: Stage) {
        self.stage = stage;
        self.line = 0;
        self.part = 0;
    }

    fn next_line(&mut self) {
        self.line = self.line.saturating_add(1);
        self.part = 0;
    }

    /// The middle button.
    pub(super) fn select(&mut self, site: &Site<'_>) {
        match self.scene(site) {
            Scene::Choose(_, _, 0) => self.next_line(),
            Scene::Choose(_, Way::Look, _) => self.turn(Stage::Plan),
            Scene::Choose(_, Way::Measure, _) => self.turn(Stage::Ask),
            Scene::Refused(_) => self.turn(Stage::Choose),
            Scene::Caution(caution, ..) => {
                self.acknowledged |= bit(caution);
                self.part = 0;
            }
            Scene::Ask(Ask::Barometer) => {
                // From here on it is what was agreed to, in whatever units it is shown.
                self.asked = self.asked(site.units);
                self.turn(Stage::Plan);
            }
            Scene::Ask(_) => self.next_line(),
            Scene::Wait => {}
            Scene::Plan(_, Sheet::Over) => self.turn(Stage::Choose),
            Scene::Plan(..) => self.turn(Stage::Ready),
            Scene::Ready(plan) => {
                self.watch.start();
                if plan.method == Method::PressureDecay {
                    self.typed = Typed::at_first(plan.pressure);
                    self.take();
                } else {
                    self.turn(Stage::Hold);
                }
            }
            Scene::Hold(_) => {
                // Whoever presses twice has said nothing yet.
                self.seen = Seen::NotYet;
                self.turn(Stage::Look);
            }
            Scene::Look(_, Seen::NotYet) => self.turn(Stage::Hold),
            Scene::Look(..) => self.turn(Stage::Seen),
            Scene::Type(..) => self.next_line(),
            Scene::Decide(fate) => self.decide(fate),
            Scene::Watch(View::Timer) if !self.is_full() => self.take(),
            Scene::Watch(View::Over) | Scene::Seen(_, _, View::Over) => self.restart(),
            Scene::Watch(_) | Scene::Seen(..) => self.turn(self.stage),
        }
    }

    /// A reading is taken now, and typed then.
    fn take(&mut self) {
        self.taken = self.watch.milliseconds();
        if let Some(last) = self.readings.last() {
            self.typed = Typed::of(last);
        }
        self.fate = Fate::Keep;
        self.turn(Stage::Type);
    }

    fn decide(&mut self, fate: Fate) {
        match fate {
            Fate::Keep => {
                // `take` is not called while it is full.
                let _ = self.readings.push(Reading {
                    time: Time::from_seconds(self.taken as f64 / SECOND),
                    gauge: self.typed.gauge,
                    temperature: self.typed.temperature,
                    barometer: self.typed.barometer,
                });
                self.turn(Stage::Watch);
            }
            Fate::Again => {
                self.fate = Fate::Keep;
                self.turn(Stage::Type);
            }
            // A test without its first reading has not begun.
            Fate::Drop if self.readings.is_empty() => self.turn(Stage::Ready),
            Fate::Drop => self.turn(Stage::Watch),
        }
    }

    /// Up or down. `parts` tells how many screenfuls what is shown takes.
    pub(super) fn step(&mut self, step: Step, site: &Site<'_>, parts: impl Fn(&Self) -> usize) {
        match self.scene(site) {
            Scene::Choose(rule, _, 0) => self.rule = along(&LeakRule::ALL, rule, !step.up),
            Scene::Choose(_, way, _) => {
                self.way = along(&[Way::Look, Way::Measure], way, !step.up);
            }
            Scene::Ask(field) => self.asked.change(field, step.up, site.units),
            Scene::Type(_, field) => {
                let asked = self.asked(site.units);
                self.typed.change(field, step, &asked, site.units);
            }
            Scene::Decide(fate) => {
                self.fate = along(&[Fate::Keep, Fate::Again, Fate::Drop], fate, !step.up);
            }
            Scene::Look(plan, seen) => {
                self.seen = along(self.sights(&plan), seen, !step.up);
            }
            Scene::Wait => {}
            Scene::Caution(..) | Scene::Refused(_) | Scene::Ready(_) | Scene::Hold(_) => {
                self.read(step.up, 1, parts);
            }
            Scene::Plan(plan, _) => {
                let count = sheets(&plan, self.way, site).count();
                self.read(step.up, count, parts);
            }
            Scene::Seen(..) | Scene::Watch(_) => self.read(step.up, self.views().len(), parts),
        }
    }

    /// Reads on or back through the screenfuls of `lines` screens.
    fn read(&mut self, back: bool, lines: usize, parts: impl Fn(&Self) -> usize) {
        if back {
            if let Some(part) = self.part.checked_sub(1) {
                self.part = part;
            } else if let Some(line) = self.line.checked_sub(1) {
                self.line = line;
                self.part = parts(self).saturating_sub(1) as u8;
            }
        } else if usize::from(self.part) + 1 < parts(self) {
            self.part += 1;
        } else if usize::from(self.line) + 1 < lines {
            self.next_line();
        }
    }
}

const fn bit(caution: Caution) -> u32 {
    1 << caution as u8
}

/// The next of a list, or the one before; the ends stay.
fn along<T: Copy + PartialEq>(list: &[T], now: T, on: bool) -> T {
    let place = list.iter().position(|one| *one == now).unwrap_or(0);
    let next = if on {
        place + 1
    } else {
        place.saturating_sub(1)
    };
    list.get(next).copied().unwrap_or(now)
}
