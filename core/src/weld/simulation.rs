//! Welding a tank stitch by stitch while heat spreads in its sheets, one step of time after another.
//!
//! Before a stitch the torch moves; then the arc waits, a step at a time, until the metal at the stitch's start is not
//! above the interpass limit and power source and torch have rested ([`Simulation::light_or_wait`]). Nothing is lost
//! between two steps, so that a gauge may lay the simulation aside to look at its buttons.

use heapless::Vec;

use super::choice::Choice;
use super::laid::{Directed, LaidStitch};
use super::procedure::Procedure;
use super::pull::Pull;
use super::rest::RecentArcs;
use super::state::{NO_PANELS, Panels, State, count};
use super::totals::OrderTotals;
use super::workspace::{PlanError, Workspace};
use crate::body::Edge;
use crate::heat::shell::Spot;
use crate::tank::Tank;

/// The longest wait, in s.
const LONGEST_WAIT: f64 = 7_200.0;
/// The longest job, in s.
const LONGEST_JOB: f64 = 86_400.0;

/// Current activity; the payload is the seconds spent in it.
#[derive(Clone, Copy, Debug)]
#[repr(u8)]
enum Activity {
    /// Everything is welded.
    Nothing,
    /// The torch goes to the next stitch.
    Moving,
    /// The next stitch is chosen.
    Choosing,
    /// The arc may not be lit yet.
    Waiting(f64),
    /// The arc burns.
    Burning(f64),
}

/// The stitch at hand.
#[derive(Clone, Copy, Debug)]
struct Current {
    directed: Directed,
    stitch: LaidStitch,
    /// The edge along which the arc goes; `None` in a first look, which puts the heat into the stitch's ends.
    edge: Option<Edge>,
    /// Where it starts; `None` as above.
    start: Option<Spot>,
    /// Seconds of its wait with the metal cool enough, for power source or torch alone.
    rest: f64,
    /// How warm its start was when it was first found above the limit, in K over the surroundings; else zero.
    too_warm: f64,
}

impl Current {
    /// Its length, in m.
    fn length(&self) -> f64 {
        self.edge.as_ref().map_or_else(
            || f64::from(self.stitch.length),
            |edge| self.stitch.lies(edge.length().si()).1,
        )
    }

    /// How long its arc burns, in s.
    fn arc(&self, procedure: &Procedure) -> f64 {
        self.length() / procedure.travel
    }
}

/// A stitch as it was simulated.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Record {
    pub(super) directed: Directed,
    /// From the first arc of the job to its own, in s.
    pub(super) start: f32,
    /// Waited before it, besides the move, in s.
    pub(super) wait: f32,
    /// The part of that wait, in s, in which the metal was cool enough and power source or torch alone had to rest.
    pub(super) rest: f32,
    /// How warm its start was when it was first found above the limit, in K over the surroundings; else zero.
    pub(super) too_warm: f32,
    /// How warm its start is just before the arc, in K over the surroundings.
    pub(super) warmth: f32,
    /// How warm the hottest metal along it is then, in K over the surroundings; zero where it was not looked for.
    pub(super) most: f32,
    /// The stage of building in which it is welded, counted from 1.
    pub(super) stage: u8,
}

/// What one step of a simulation brought.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Advance {
    /// Time has passed.
    Passed,
    /// A stitch is about to be welded.
    Stitch(Record),
    /// Everything is welded.
    Over(OrderTotals),
}

/// The welding of a tank on its way.
#[derive(Clone, Debug)]
pub(super) struct Simulation<const STITCHES: usize> {
    left: [bool; STITCHES],
    welded: usize,
    /// How many there are to weld.
    count: usize,
    panels: Panels,
    pull: Pull,
    totals: OrderTotals,
    /// Time from the first arc, in s.
    clock: f64,
    /// The time that has passed, as the shell counts it, in whole steps: never further than half a step off when something begins or ends,
    /// so that what is lost to rounding once is won the next time.
    passed: f64,
    activity: Activity,
    /// The stitch at hand, if there is one: an empty list is all zeros, which an option is not.
    current: Vec<Current, 1>,
    recent: RecentArcs,
    /// Whether only power source or torch is waited for.
    resting: bool,
    /// Whether the hottest metal along each stitch is looked for, which takes as long as a step or two.
    pub(super) looks_along: bool,
}

impl<const STITCHES: usize> Simulation<STITCHES> {
    /// With nothing to weld: a place for [`Simulation::start`] to write to.
    pub(super) const fn new() -> Self {
        Self {
            left: [false; STITCHES],
            welded: 0,
            count: 0,
            panels: NO_PANELS,
            pull: Pull::NONE,
            totals: OrderTotals::NONE,
            clock: 0.0,
            passed: 0.0,
            activity: Activity::Nothing,
            current: Vec::new(),
            recent: RecentArcs::new(),
            resting: false,
            looks_along: false,
        }
    }

    /// Goes back to the first arc, with everything as cold as the surroundings.
    pub(super) fn start<const CELLS: usize, const LINKS: usize>(
        &mut self,
        workspace: &mut Workspace<STITCHES, CELLS, LINKS>,
    ) {
        workspace.shell.rest();
        self.left = [false; STITCHES];
        self.panels = NO_PANELS;
        self.count = 0;
        for (slot, stitch) in self.left.iter_mut().zip(&workspace.stitches) {
            // What nothing reaches has no stage, and is left out.
            *slot = stitch.stage > 0;
            if *slot {
                count(&mut self.panels, stitch, 0);
                self.count += 1;
            }
        }
        self.welded = 0;
        self.pull = Pull::of(&workspace.stitches);
        self.totals = OrderTotals::NONE;
        self.clock = 0.0;
        self.passed = 0.0;
        self.activity = Activity::Choosing;
        self.current.clear();
        self.recent.clear();
    }

    /// The time that has passed in the shell from the first arc, in s.
    pub(super) const fn passed(&self) -> f64 {
        self.passed
    }

    /// Does one thing that takes one step of the shell at most. The arc goes along the edges of `along`; without it,
    /// heat is put into the ends of the stitches, as a first look has it.
    pub(super) fn advance<const CELLS: usize, const LINKS: usize>(
        &mut self,
        workspace: &mut Workspace<STITCHES, CELLS, LINKS>,
        procedure: &Procedure,
        along: Option<&Tank>,
        choice: &Choice<'_>,
    ) -> Result<Advance, PlanError> {
        let step = workspace.shell.step_length();
        match self.activity {
            Activity::Moving if self.passed + 0.5 * step < self.clock + procedure.moving => {
                workspace.shell.pass(None);
                self.passed += step;
                Ok(Advance::Passed)
            }
            Activity::Moving => {
                self.clock += procedure.moving;
                self.totals.moves += procedure.moving;
                self.activity = Activity::Choosing;
                Ok(Advance::Passed)
            }
            Activity::Choosing if self.clock > LONGEST_JOB => Err(PlanError::NeverCool),
            Activity::Choosing => {
                let state = State {
                    workspace,
                    left: &self.left,
                    welded: self.welded,
                    panels: &self.panels,
                    pull: &self.pull,
                    procedure,
                };
                match choice.next(&state) {
                    Some(chosen) => Ok(self.take_up(chosen, workspace, procedure, along)),
                    None => Ok(self.end()),
                }
            }
            Activity::Waiting(waited) => {
                if waited > LONGEST_WAIT || self.clock > LONGEST_JOB {
                    return Err(PlanError::NeverCool);
                }
                workspace.shell.pass(None);
                self.passed += step;
                self.clock += step;
                if self.resting {
                    self.totals.rests += step;
                    if let Some(current) = self.current.first_mut() {
                        current.rest += step;
                    }
                }
                Ok(self.light_or_wait(waited + step, workspace, procedure))
            }
            Activity::Burning(burnt) => Ok(self.burn(burnt, workspace, procedure)),
            Activity::Nothing => Ok(Advance::Over(self.totals)),
        }
    }

    /// Makes the chosen stitch the one at hand.
    fn take_up<const CELLS: usize, const LINKS: usize>(
        &mut self,
        chosen: Directed,
        workspace: &mut Workspace<STITCHES, CELLS, LINKS>,
        procedure: &Procedure,
        along: Option<&Tank>,
    ) -> Advance {
        let number = chosen.place();
        let Some(stitch) = workspace.stitches.get(number).copied() else {
            return self.end();
        };
        if let Some(slot) = self.left.get_mut(number) {
            *slot = false;
        }
        workspace.shell.stand_at(stitch.stage);
        count(&mut self.panels, &stitch, 1);
        let edge = along.and_then(|tank| tank.edge_of_seam(usize::from(stitch.seam)));
        let start = edge.and_then(|edge| workspace.start_of(&stitch, chosen.reversed(), &edge));
        self.current.clear();
        // There is room for one.
        let _ = self.current.push(Current {
            directed: chosen,
            stitch,
            edge,
            start,
            rest: 0.0,
            too_warm: 0.0,
        });
        self.light_or_wait(0.0, workspace, procedure)
    }

    /// Lights the arc, unless the metal at the start is above the limit or power source or torch must rest; `waited` is
    /// how long that has kept the stitch by now, in s.
    fn light_or_wait<const CELLS: usize, const LINKS: usize>(
        &mut self,
        waited: f64,
        workspace: &Workspace<STITCHES, CELLS, LINKS>,
        procedure: &Procedure,
    ) -> Advance {
        let looks_along = self.looks_along;
        let Some(current) = self.current.first_mut() else {
            return self.end();
        };
        let warmth = match current.start {
            Some(spot) => workspace.shell.warmth_at(spot),
            None => workspace.rough_warmth(&current.stitch, current.directed.reversed()),
        };
        let rested = procedure
            .arc_share
            .is_none_or(|share| self.recent.allow(self.clock, current.arc(procedure), share));
        let too_warm = warmth > procedure.limit;
        self.resting = warmth <= procedure.limit;
        if too_warm && !(current.too_warm > 0.0) {
            current.too_warm = warmth;
        }
        if too_warm || !rested {
            self.activity = Activity::Waiting(waited);
            return Advance::Passed;
        }
        self.totals.waits += waited;
        self.totals.hottest = libm::fmax(self.totals.hottest, warmth);
        let most = if looks_along {
            libm::fmax(hottest_along(current, workspace), warmth)
        } else {
            0.0
        };
        self.activity = Activity::Burning(0.0);
        Advance::Stitch(Record {
            directed: current.directed,
            start: self.clock as f32,
            wait: waited as f32,
            rest: current.rest as f32,
            too_warm: current.too_warm as f32,
            warmth: warmth as f32,
            most: most as f32,
            stage: current.stitch.stage,
        })
    }

    /// Lets the arc burn for a step; in the last, for whatever is left of it.
    fn burn<const CELLS: usize, const LINKS: usize>(
        &mut self,
        burnt: f64,
        workspace: &mut Workspace<STITCHES, CELLS, LINKS>,
        procedure: &Procedure,
    ) -> Advance {
        let Some(current) = self.current.first() else {
            return self.end();
        };
        let stitch = current.stitch;
        let length = current.length();
        let arc = current.arc(procedure);
        if burnt < arc {
            let step = workspace.shell.step_length();
            let last = self.passed + 1.5 * step >= self.clock + arc;
            let bit = if last { arc - burnt } else { step };
            let heat = procedure.power * bit;
            let way = procedure.travel * (burnt + 0.5 * bit);
            let along = if current.directed.reversed() {
                length - way
            } else {
                way
            };
            if let Some(edge) = &current.edge {
                let (from, _) = stitch.lies(edge.length().si());
                let at = from + along;
                let spot = workspace.mesh.spot(edge, at, &workspace.shell);
                workspace.shell.pass(spot.map(|spot| (spot, heat)));
            } else {
                let cells = stitch.nearest(along);
                workspace.shell.pass_at(cells, heat);
            }
            self.passed += step;
            self.activity = Activity::Burning(if last { arc } else { burnt + step });
            return Advance::Passed;
        }
        self.recent.note(self.clock, arc);
        self.clock += arc;
        self.totals.arc += arc;
        self.totals.job = self.clock;
        self.pull.weld(&stitch);
        self.welded += 1;
        if self.welded == self.count {
            return self.end();
        }
        self.activity = Activity::Moving;
        Advance::Passed
    }

    fn end(&mut self) -> Advance {
        self.totals.pull = self.pull.most();
        self.activity = Activity::Nothing;
        Advance::Over(self.totals)
    }
}

/// How warm the hottest metal along a stitch is, in K over the surroundings.
fn hottest_along<const STITCHES: usize, const CELLS: usize, const LINKS: usize>(
    current: &Current,
    workspace: &Workspace<STITCHES, CELLS, LINKS>,
) -> f64 {
    const PLACES: u8 = 16;
    let Some(edge) = &current.edge else {
        return 0.0;
    };
    let (from, length) = current.stitch.lies(edge.length().si());
    (0..=PLACES)
        .filter_map(|n| {
            let at = from + length * f64::from(n) / f64::from(PLACES);
            let spot = workspace.mesh.spot(edge, at, &workspace.shell)?;
            Some(workspace.shell.warmth_at(spot))
        })
        .fold(0.0, libm::fmax)
}
