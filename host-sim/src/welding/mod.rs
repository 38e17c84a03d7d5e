//! The weld plan of a job, as core makes it, and its picture.

pub mod plot;

use seamwright_core::tank::Tank;
use seamwright_core::units::{Length, Ratio, Temperature};
use seamwright_core::weld::{
    ArcShare, OrderTotals, PlanError, PlanOptions, Planner, StitchWait, WeldStep,
};

use crate::job_file::Extras;

/// What a whole order takes, in SI units.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Sum {
    /// From the first arc to the end of the last, in s.
    pub job: f64,
    /// Of the waits besides the moves, in s.
    pub waits: f64,
    /// Of that, when the metal was cool enough and power source or torch rested, in s.
    pub rests: f64,
    /// The hottest start, in K over the surroundings.
    pub hottest: f64,
    /// The largest pull to one side on the way, 0 to about 1.
    pub pull: f64,
}

/// One stitch as it is welded, in words and SI units.
#[derive(Clone, Debug, PartialEq)]
pub struct Stitch {
    /// Its place in the order, from 1.
    pub order: usize,
    /// The mark of its seam.
    pub seam: String,
    /// Where it starts and ends from its seam's first end; start past end when welded backwards.
    pub run: [Length; 2],
    /// From the first arc of the job, in s.
    pub start: f64,
    /// While the arc burns, in s.
    pub arc: f64,
    /// Heat input by the factor of the standard, in J.
    pub energy: f64,
    /// Waited before it, besides moving, in s.
    pub wait: f64,
    /// What is waited for.
    pub waits: Option<StitchWait>,
    /// The metal at its start just before the arc.
    pub start_temperature: Temperature,
}

/// A plan and what others take.
#[derive(Clone, Debug, PartialEq)]
pub struct WeldPlan {
    /// The same as it goes to a gauge.
    pub steps: Vec<WeldStep>,
    /// In the order of welding.
    pub stitches: Vec<Stitch>,
    /// What it takes.
    pub sum: Sum,
    /// What welding seam by seam takes.
    pub plain: Sum,
    /// What this order takes where the arc gives less, and more, of its power to the metal.
    pub band: Vec<(Ratio, Sum)>,
}

/// What a search for a better order found.
#[derive(Clone, Debug, PartialEq)]
pub struct Found {
    /// What the best order takes.
    pub sum: Sum,
    /// Orders that were tried.
    pub tried: u32,
    /// The stitches in that order.
    pub stitches: Vec<Stitch>,
}

impl From<&OrderTotals> for Sum {
    fn from(totals: &OrderTotals) -> Self {
        Self {
            job: totals.job().si(),
            waits: totals.waits().si(),
            rests: totals.rests().si(),
            hottest: totals.hottest_rise().kelvins(),
            pull: totals.pull().si(),
        }
    }
}

/// What a plan is asked for, with the rests that the ratings of power source and torch call for. A current past them
/// has no share; the report says so beside.
fn options(tank: &Tank, extras: &Extras) -> PlanOptions {
    let arc = tank.arc();
    let torch = extras.torch.on(arc.process);
    let torch = torch.as_ref().map(|(plate, _)| plate);
    let share = ArcShare::of_ratings(extras.power_source.as_ref(), torch, arc.current);
    PlanOptions {
        arc_share: share.ok().flatten(),
        ..PlanOptions::default()
    }
}

/// The plan of a tank, with the rests that the ratings of power source and torch ask for.
///
/// # Errors
/// [`PlanError`] where the metal never cools, or the tank has more stitches than a plan may have.
pub fn plan(tank: &Tank, extras: &Extras) -> Result<WeldPlan, PlanError> {
    let mut planner = Box::new(Planner::new());
    let plan = tank.weld_plan_with(&mut planner, &options(tank, extras))?;
    let sum = Sum::from(plan.totals());
    Ok(WeldPlan {
        steps: plan.steps().collect(),
        stitches: stitches(plan, tank),
        sum,
        plain: plan.seam_by_seam().map_or(sum, Sum::from),
        band: plan
            .band()
            .map(|end| (end.uptake, Sum::from(&end.totals)))
            .collect(),
    })
}

/// The best order of so many that a search finds for a tank.
///
/// # Errors
/// As [`plan`].
pub fn search(tank: &Tank, extras: &Extras, tries: u32) -> Result<Found, PlanError> {
    let mut planner = Box::new(Planner::new());
    let found = tank.search_weld_order(&mut planner, &options(tank, extras), tries)?;
    Ok(Found {
        sum: Sum::from(found.best.totals()),
        tried: found.tried,
        stitches: stitches(&found.best, tank),
    })
}

fn stitches(plan: &seamwright_core::weld::WeldPlan, tank: &Tank) -> Vec<Stitch> {
    let all = plan.stitches(tank).map(|one| Stitch {
        order: usize::from(one.order),
        seam: one.seam.to_string(),
        run: [one.from, one.to],
        start: one.start.si(),
        arc: one.arc.si(),
        energy: one.heat_input.si(),
        wait: one.wait.beside_move().si(),
        waits: Some(one.wait),
        start_temperature: one.start_temperature,
    });
    all.collect()
}
