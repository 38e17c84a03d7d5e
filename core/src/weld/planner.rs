//! The whole course of planning, in steps of some milliseconds of a gauge's chip: for a gauge that has buttons to watch,
//! and in a loop for the laptop.
//!
//! First, where it is asked for, a coarse look; then the fine plan by one way of weighing after another, of which the
//! best is kept; then, where they are asked for, welding seam by seam and the plan's order at both ends of the band of
//! the arc's share. Whatever is best so far can be read at any time. As every machine takes the same steps, all find
//! the same plan, to the bit.

use heapless::Vec;

use super::choice::{Choice, WAYS};
use super::held::HeldMetal;
use super::laid::Directed;
use super::layout::Layout;
use super::options::{FIRST_LOOK, GAUGE_CELLS, GAUGE_LINKS, PlanOptions};
use super::plan::{Records, WeldPlan};
use super::procedure::Procedure;
use super::simulation::{Advance, Simulation};
use super::totals::{OrderTotals, UptakeTotals};
use super::workspace::{PlanError, Workspace};
use crate::arc::uptake_band;
use crate::heat::shell::Fineness;
use crate::input::limits::MAX_STITCHES;
use crate::tank::Tank;
use crate::units::Ratio;

/// How far a planner is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
#[repr(u8)]
pub enum Progress {
    /// Nothing is being planned.
    Idle,
    /// There is no order yet.
    Looking,
    /// There is the coarse order of a first look.
    Looked,
    /// There is the best order of so many of the ways to weigh; once all [`WAYS`] are tried it is the last word.
    Tried(u8),
    /// There is no order, and why.
    Failed(PlanError),
}

/// What is done next.
// An idle planner is all zeros, so that a static that holds one takes no flash: hence this tag and others like it.
#[derive(Clone, Copy, Debug)]
#[repr(u8)]
enum Stage {
    Idle,
    /// The tank is being laid out, coarsely or finely.
    LayOut {
        fine: bool,
        layout: Layout,
    },
    /// The coarse look.
    Look,
    /// The fine plan, by the way of this number.
    Way(u8),
    /// Seam by seam, for comparison.
    SeamBySeam,
    /// The plan's order at the lower or upper end of the band of the arc's share.
    Band(u8),
    Over,
}

/// Finds the weld plan of a tank of so many stitches at most: those of any job ([`Planner::new`]), if it is not said.
///
/// Some 110 KiB; one of a gauge's orders (`Planner<{ WeldStep::MOST }>`, [`Planner::with_room`]) some 40, so a small machine
/// gives it a place of its own. Whatever the room, a tank that fits has the same plan, to the bit.
#[derive(Debug)]
pub struct Planner<
    const STITCHES: usize = { MAX_STITCHES as usize },
    const CELLS: usize = GAUGE_CELLS,
    const LINKS: usize = GAUGE_LINKS,
> {
    workspace: Workspace<STITCHES, CELLS, LINKS>,
    simulation: Simulation<STITCHES>,
    options: PlanOptions,
    procedure: Procedure,
    stage: Stage,
    pub(super) progress: Progress,
    /// The stitches of the order that is being simulated.
    pub(super) making: Records<STITCHES>,
    /// An order to be simulated as it is.
    given: Vec<Directed, STITCHES>,
    /// The best so far.
    pub(super) plan: WeldPlan<STITCHES>,
}

impl Default for Planner {
    fn default() -> Self {
        Self::new()
    }
}

impl Planner {
    /// With nothing to plan, and room for the stitches of any job.
    #[must_use]
    pub const fn new() -> Self {
        Self::with_room()
    }
}

impl<const STITCHES: usize, const CELLS: usize, const LINKS: usize>
    Planner<STITCHES, CELLS, LINKS>
{
    /// With nothing to plan, and room for as many stitches as its type says.
    #[must_use]
    pub const fn with_room() -> Self {
        Self {
            workspace: Workspace::new(),
            simulation: Simulation::new(),
            options: PlanOptions::NONE,
            procedure: Procedure::NONE,
            stage: Stage::Idle,
            progress: Progress::Idle,
            making: Vec::new(),
            given: Vec::new(),
            plan: WeldPlan::EMPTY,
        }
    }

    /// Begins a plan, of whichever tank [`Planner::advance`] is given.
    pub fn begin(&mut self, options: &PlanOptions) {
        self.clear(options);
        self.lay_out_next(!options.first_look);
        self.progress = Progress::Looking;
    }

    /// Forgets what it was at.
    pub fn stop(&mut self) {
        self.clear(&PlanOptions::GAUGE);
        self.stage = Stage::Idle;
        self.progress = Progress::Idle;
    }

    /// How far it is.
    #[must_use]
    pub const fn progress(&self) -> Progress {
        self.progress
    }

    /// Whether there is something left to do.
    #[must_use]
    pub const fn is_busy(&self) -> bool {
        !matches!(self.stage, Stage::Idle | Stage::Over)
    }

    /// The best plan so far, without a stitch while there is none. That of a first look has only about the waits and
    /// temperatures that it will have in the end.
    #[must_use]
    pub const fn plan(&self) -> &WeldPlan<STITCHES> {
        &self.plan
    }

    /// The plan, once nothing is left to do.
    ///
    /// # Errors
    /// [`PlanError`] where there is none.
    pub const fn outcome(&self) -> Result<&WeldPlan<STITCHES>, PlanError> {
        match self.progress {
            Progress::Failed(error) => Err(error),
            _ => Ok(&self.plan),
        }
    }

    /// Whether it is dividing the sheets into cells, coarsely or finely, and has no heat to follow yet.
    #[must_use]
    pub const fn is_laying_out(&self) -> bool {
        matches!(self.stage, Stage::LayOut { .. })
    }

    /// How many cells the sheets are divided into, and how many links there are between them.
    #[must_use]
    pub fn cells_and_links(&self) -> [usize; 2] {
        [self.workspace.shell.cells(), self.workspace.shell.links()]
    }

    /// Goes on for one step of the shell, or with one part of laying the tank out; tells whether [`Planner::progress`]
    /// changed. The tank must be the same until [`Planner::begin`].
    pub fn advance(&mut self, tank: &Tank) -> bool {
        let gone = match self.stage {
            Stage::Idle | Stage::Over => Ok(false),
            Stage::LayOut { fine, layout } => self.lay_out_part(tank, fine, layout),
            Stage::Look => self.look(tank),
            Stage::Way(way) => self.try_way(tank, way),
            Stage::SeamBySeam => self.compare(tank),
            Stage::Band(end) => {
                self.try_band(tank, end);
                Ok(false)
            }
        };
        gone.unwrap_or_else(|error| {
            self.fail(error);
            true
        })
    }

    /// The whole course in a loop.
    pub(super) fn run(
        &mut self,
        tank: &Tank,
        options: &PlanOptions,
    ) -> Result<&WeldPlan<STITCHES>, PlanError> {
        self.begin(options);
        while self.is_busy() {
            self.advance(tank);
        }
        self.outcome()
    }

    fn clear(&mut self, options: &PlanOptions) {
        self.options = *options;
        self.making.clear();
        self.plan.clear();
        self.plan.seam_by_seam = None;
        self.plan.band = [None; 2];
        self.plan.arc_share = options.arc_share;
        self.plan.held.clear();
    }

    fn fail(&mut self, error: PlanError) {
        self.stage = Stage::Over;
        // A coarse order of a tank that has no fine one would mislead.
        self.plan.clear();
        self.progress = Progress::Failed(error);
    }

    fn layout_of(&self, fine: bool) -> Layout {
        if fine {
            Layout::new(&self.options.fineness())
        } else {
            Layout::new(&FIRST_LOOK)
        }
    }

    fn lay_out_next(&mut self, fine: bool) {
        let layout = self.layout_of(fine);
        self.stage = Stage::LayOut { fine, layout };
    }

    fn lay_out_part(
        &mut self,
        tank: &Tank,
        fine: bool,
        mut layout: Layout,
    ) -> Result<bool, PlanError> {
        if layout.go_on(tank, &mut self.workspace)? {
            self.procedure = Procedure::of(tank, &self.options);
            self.plan.ambient = tank.job().welding().ambient;
            self.plan.interpass = self.options.interpass_of(tank);
            self.start(if fine { Stage::Way(0) } else { Stage::Look });
        } else {
            self.stage = Stage::LayOut { fine, layout };
        }
        Ok(false)
    }

    fn start(&mut self, stage: Stage) {
        self.making.clear();
        self.simulation.start(&mut self.workspace);
        self.stage = stage;
    }

    fn look(&mut self, tank: &Tank) -> Result<bool, PlanError> {
        let [way, ..] = &WAYS;
        let Some(totals) = self.step(tank, &Choice::Coolest(way))? else {
            return Ok(false);
        };
        self.keep(totals);
        self.progress = Progress::Looked;
        self.lay_out_next(true);
        Ok(true)
    }

    fn try_way(&mut self, tank: &Tank, number: u8) -> Result<bool, PlanError> {
        let Some(way) = WAYS.get(usize::from(number)) else {
            self.stage = Stage::Over;
            return Ok(false);
        };
        let Some(totals) = self.step(tank, &Choice::Coolest(way))? else {
            return Ok(false);
        };
        if number == 0 || totals.beats(&self.plan.totals) {
            self.keep(totals);
        }
        let next = number + 1;
        self.progress = Progress::Tried(next);
        if usize::from(next) < WAYS.len() {
            self.start(Stage::Way(next));
        } else if self.options.comparisons {
            self.start(Stage::SeamBySeam);
        } else {
            self.stage = Stage::Over;
        }
        Ok(true)
    }

    fn compare(&mut self, tank: &Tank) -> Result<bool, PlanError> {
        let totals = match self.step(tank, &Choice::SeamBySeam) {
            Ok(None) => return Ok(false),
            Ok(Some(totals)) => Some(totals),
            // There is a plan; that the plain order takes longer than any job may is no fault of it.
            Err(PlanError::NeverCool) => None,
            Err(error) => return Err(error),
        };
        self.plan.seam_by_seam = totals;
        self.given.clear();
        for directed in self.plan.order() {
            // As many as the records, and there is the same room.
            let _ = self.given.push(directed);
        }
        self.start_band(tank, 0);
        Ok(false)
    }

    /// Lays the tank out and welds it seam by seam, which is its plan then; `None` where the metal never cools.
    pub(super) fn try_seam_by_seam(
        &mut self,
        tank: &Tank,
        options: &PlanOptions,
    ) -> Result<Option<OrderTotals>, PlanError> {
        match self.try_part(tank, options, WAYS.len()) {
            Ok(()) => Ok(Some(self.plan.totals)),
            Err(PlanError::NeverCool) => Ok(None),
            Err(error) => Err(error),
        }
    }

    /// Lays the tank out and welds it by one way, or seam by seam after the last of them; that is its plan then.
    pub(super) fn try_part(
        &mut self,
        tank: &Tank,
        options: &PlanOptions,
        part: usize,
    ) -> Result<(), PlanError> {
        self.lay_out(tank, options)?;
        let choice = WAYS.get(part).map_or(Choice::SeamBySeam, Choice::Coolest);
        self.start(Stage::Over);
        let totals = loop {
            if let Some(totals) = self.step(tank, &choice)? {
                break totals;
            }
        };
        self.keep(totals);
        Ok(())
    }

    /// Lays the tank out and welds a plan at one end of the band of the arc's share; `None` where the metal never cools.
    pub(super) fn try_end_of_band(
        &mut self,
        tank: &Tank,
        options: &PlanOptions,
        plan: &WeldPlan<STITCHES>,
        uptake: Ratio,
    ) -> Result<Option<UptakeTotals>, PlanError> {
        self.lay_out(tank, options)?;
        self.given.clear();
        for directed in plan.order() {
            // As many as the records, and there is the same room.
            let _ = self.given.push(directed);
        }
        self.procedure = Procedure::with_uptake(tank, options, uptake);
        let totals = self.simulate_given(tank).ok();
        Ok(totals.map(|totals| UptakeTotals { uptake, totals }))
    }

    fn start_band(&mut self, tank: &Tank, end: u8) {
        match uptake_band(tank.arc().process).get(usize::from(end)) {
            Some(uptake) => {
                self.procedure = Procedure::with_uptake(tank, &self.options, *uptake);
                self.start(Stage::Band(end));
            }
            None => self.stage = Stage::Over,
        }
    }

    fn try_band(&mut self, tank: &Tank, end: u8) {
        match self.step_given(tank) {
            Ok(None) => return,
            Ok(Some(totals)) => {
                let place = usize::from(end);
                let uptake = uptake_band(tank.arc().process).get(place).copied();
                if let (Some(slot), Some(uptake)) = (self.plan.band.get_mut(place), uptake) {
                    *slot = Some(UptakeTotals { uptake, totals });
                }
            }
            // Metal that never cools with more heat has no totals.
            Err(_) => {}
        }
        self.start_band(tank, end + 1);
    }

    /// One step of the simulation; what the order takes once it is over.
    fn step(&mut self, tank: &Tank, choice: &Choice<'_>) -> Result<Option<OrderTotals>, PlanError> {
        // A first look puts the heat into the ends of the stitches.
        let along = (!matches!(self.stage, Stage::Look)).then_some(tank);
        let gone = self
            .simulation
            .advance(&mut self.workspace, &self.procedure, along, choice)?;
        Ok(note(gone, &mut self.making, tank))
    }

    /// One step of welding in the order of `given`.
    fn step_given(&mut self, tank: &Tank) -> Result<Option<OrderTotals>, PlanError> {
        let choice = Choice::Given(&self.given);
        let gone =
            self.simulation
                .advance(&mut self.workspace, &self.procedure, Some(tank), &choice)?;
        Ok(note(gone, &mut self.making, tank))
    }

    pub(super) fn keep(&mut self, totals: OrderTotals) {
        self.plan.put(&self.making, totals);
    }

    /// Lays a tank out as finely as `options` ask, with nothing planned.
    pub(super) fn lay_out(&mut self, tank: &Tank, options: &PlanOptions) -> Result<(), PlanError> {
        self.lay_out_as(tank, options, &options.fineness())
    }

    /// The same, as finely as this.
    pub(super) fn lay_out_as(
        &mut self,
        tank: &Tank,
        options: &PlanOptions,
        fineness: &Fineness,
    ) -> Result<(), PlanError> {
        self.clear(options);
        let mut layout = Layout::new(fineness);
        while !layout.go_on(tank, &mut self.workspace)? {}
        self.procedure = Procedure::of(tank, options);
        self.plan.ambient = tank.job().welding().ambient;
        self.plan.interpass = options.interpass_of(tank);
        self.stage = Stage::Over;
        self.progress = Progress::Idle;
        Ok(())
    }

    /// What a simulation works on, and how the tank is welded.
    pub(super) const fn laid_out(
        &mut self,
    ) -> (&mut Workspace<STITCHES, CELLS, LINKS>, &Procedure) {
        (&mut self.workspace, &self.procedure)
    }

    /// Simulates an order on the tank that is laid out, and makes it the plan.
    pub(super) fn weld_given(
        &mut self,
        tank: &Tank,
        order: impl Iterator<Item = Directed>,
    ) -> Result<OrderTotals, PlanError> {
        self.given.clear();
        for directed in order {
            self.given.push(directed).map_err(|_| PlanError::TooMany)?;
        }
        let totals = self.simulate_given(tank)?;
        self.keep(totals);
        Ok(totals)
    }

    /// Whether the hottest metal along each stitch is looked for.
    pub(super) const fn look_along(&mut self, looks: bool) {
        self.simulation.looks_along = looks;
    }

    /// Simulates the order in `given` from its first arc to its last.
    pub(super) fn simulate_given(&mut self, tank: &Tank) -> Result<OrderTotals, PlanError> {
        self.making.clear();
        self.simulation.start(&mut self.workspace);
        loop {
            if let Some(totals) = self.step_given(tank)? {
                return Ok(totals);
            }
        }
    }

    /// Notes how long the plan holds the metal.
    pub(super) fn put_held(&mut self, held: Option<HeldMetal>) {
        self.plan.held.clear();
        if let Some(held) = held {
            // There is room for one.
            let _ = self.plan.held.push(held);
        }
    }

    /// Welds the plan once more as `options` ask and shows `see` the heat whenever so many seconds have passed, with how many they were;
    /// after the last arc for as long as that asks for, `cooling` seconds at most.
    pub(super) fn watch_plan(
        &mut self,
        (tank, options): (&Tank, &PlanOptions),
        every: f64,
        cooling: f64,
        see: &mut dyn FnMut(&Workspace<STITCHES, CELLS, LINKS>, f64) -> bool,
    ) -> Result<(), PlanError> {
        self.given.clear();
        for directed in self.plan.order() {
            // As many as the records, and there is the same room.
            let _ = self.given.push(directed);
        }
        self.procedure = Procedure::of(tank, options);
        self.making.clear();
        self.simulation.start(&mut self.workspace);
        let mut seen = 0.0;
        while self.step_given(tank)?.is_none() {
            let since = self.simulation.passed() - seen;
            if since >= every {
                see(&self.workspace, since);
                seen += since;
            }
        }
        let mut since = self.simulation.passed() - seen;
        let mut cooled = 0.0;
        let step = self.workspace.shell.step_length();
        while cooled < cooling {
            self.workspace.shell.pass(None);
            cooled += step;
            since += step;
            if since >= every {
                if !see(&self.workspace, since) {
                    return Ok(());
                }
                since = 0.0;
            }
        }
        Ok(())
    }

    /// An order to be simulated, and the stages of the stitches.
    pub(super) const fn given_mut(
        &mut self,
    ) -> (
        &mut Vec<Directed, STITCHES>,
        &Workspace<STITCHES, CELLS, LINKS>,
    ) {
        (&mut self.given, &self.workspace)
    }
}

/// Takes down what a step brought; what the order takes once it is over.
fn note<const STITCHES: usize>(
    gone: Advance,
    making: &mut Records<STITCHES>,
    tank: &Tank,
) -> Option<OrderTotals> {
    match gone {
        Advance::Passed => None,
        Advance::Stitch(record) => {
            // A workspace holds no more stitches than an order.
            let _ = making.push(record);
            None
        }
        Advance::Over(totals) => Some(OrderTotals {
            ambient: tank.job().welding().ambient.si(),
            ..totals
        }),
    }
}
