//! The order of the stitches, their waits, and what other orders would take.

pub mod plot;
pub mod search;

use std::cell::RefCell;

use seamwright_core::arc::uptake_band;
use seamwright_core::body::Edge;
use seamwright_core::tank::Tank;
use seamwright_core::units::{Length, Ratio, Temperature};
use seamwright_core::weld::{
    Bench, DEVICE_CELLS, DEVICE_FINE, DEVICE_LINKS, Manner, PlanError, Planned, Sum, WeldStep,
};

use crate::job_file::Extras;
use crate::report::duty;

/// The bench as the gauge has it, so that the laptop's plan is the gauge's to the bit.
pub type Table = Bench<DEVICE_CELLS, DEVICE_LINKS>;

/// A tank laid out, with the way of each seam at hand.
#[derive(Debug)]
pub struct Welding<'a> {
    tank: &'a Tank,
    duty: Option<f64>,
    bench: Box<Table>,
    edges: Vec<Option<Edge>>,
    marks: Vec<String>,
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

/// A tank, the duty cycle, and their plan.
type Last = (Tank, Option<f64>, Result<WeldPlan, PlanError>);

/// The plan of a tank, with the rests that the ratings of power source and torch ask for.
///
/// # Errors
/// [`PlanError`] where the metal never cools, or the tank has no room on the bench.
pub fn plan(tank: &Tank, extras: &Extras) -> Result<WeldPlan, PlanError> {
    thread_local! {
        /// The last one: a report and its sheet ask for the same again.
        static LAST: RefCell<Option<Last>> = const { RefCell::new(None) };
    }
    let duty = duty::share(tank, extras);
    LAST.with_borrow_mut(|last| match last {
        Some((known, rest, plan)) if known == tank && *rest == duty => plan.clone(),
        _ => {
            let plan = Welding::of(tank, duty).and_then(|mut welding| welding.plan());
            *last = Some((tank.clone(), duty, plan.clone()));
            plan
        }
    })
}

/// The best order of so many that a search finds for a tank.
///
/// # Errors
/// As [`plan`].
pub fn search(tank: &Tank, extras: &Extras, tries: u32) -> Result<search::Found, PlanError> {
    Welding::of(tank, duty::share(tank, extras))?.search(tries)
}

impl<'a> Welding<'a> {
    /// Lays a tank out; `duty` is the share of any ten minutes for which the arc may burn.
    ///
    /// # Errors
    /// [`PlanError`] where there is no room for it.
    pub fn of(tank: &'a Tank, duty: Option<f64>) -> Result<Self, PlanError> {
        let mut bench = Box::new(Table::new());
        tank.lay_out(&DEVICE_FINE, &mut bench)?;
        let marks: Vec<String> = tank.seams().map(|seam| seam.mark.to_string()).collect();
        let edges = (0..marks.len())
            .map(|place| tank.edge_of_seam(place))
            .collect();
        Ok(Self {
            tank,
            duty,
            bench,
            edges,
            marks,
        })
    }

    /// The bench.
    #[must_use]
    pub fn bench(&self) -> &Table {
        &self.bench
    }

    /// How it is welded.
    #[must_use]
    pub fn manner(&self) -> Manner {
        Manner {
            duty: self.duty,
            ..self.tank.manner()
        }
    }

    /// Plans.
    ///
    /// # Errors
    /// [`PlanError`] where the metal never cools.
    pub fn plan(&mut self) -> Result<WeldPlan, PlanError> {
        let manner = self.manner();
        let mut planned = Vec::new();
        let edges = &self.edges;
        let seams = |seam: u8| edges.get(usize::from(seam)).copied().flatten();
        let way = self.bench.best_way(&manner, &seams, || true)?;
        let sum = self
            .bench
            .plan_by(&way, &manner, &seams, |one| planned.push(one), || true)?;
        let plain = self.bench.seam_by_seam(&manner, &seams, |_| (), || true)?;
        let order: Vec<(u8, bool)> = planned.iter().map(|one| (one.run, one.reversed)).collect();
        let mut band = Vec::new();
        for uptake in uptake_band(self.tank.arc().process) {
            let manner = Manner {
                duty: self.duty,
                ..self.tank.manner_with(uptake)
            };
            // What never cools with more heat is left out.
            let sum = self
                .bench
                .in_order(&order, &manner, &seams, |_| (), || true);
            band.extend(sum.ok().map(|sum| (uptake, sum)));
        }

        let ambient = self.tank.job().welding().ambient;
        let steps = planned.iter().map(|one| WeldStep::of(one, ambient));
        Ok(WeldPlan {
            steps: steps.collect(),
            stitches: self.stitches(&planned),
            sum,
            plain,
            band,
        })
    }

    /// What a given order takes.
    ///
    /// # Errors
    /// As [`Welding::plan`].
    pub fn in_order(
        &mut self,
        order: &[(u8, bool)],
        manner: &Manner,
        see: impl FnMut(Planned),
    ) -> Result<Sum, PlanError> {
        let edges = &self.edges;
        let seams = |seam: u8| edges.get(usize::from(seam)).copied().flatten();
        self.bench.in_order(order, manner, &seams, see, || true)
    }

    /// Planned stitches in words.
    fn stitches(&self, planned: &[Planned]) -> Vec<Stitch> {
        planned
            .iter()
            .enumerate()
            .filter_map(|(place, one)| self.stitch(place, one))
            .collect()
    }

    fn stitch(&self, place: usize, one: &Planned) -> Option<Stitch> {
        let run = self.bench.runs.get(usize::from(one.run))?;
        let seam = usize::from(run.seam);
        let whole = self.edges.get(seam)?.as_ref()?.length().si();
        let at = |n: u8| Length::from_metres(whole * f64::from(n) / f64::from(run.of));
        let (from, to) = (at(run.number), at(run.number + 1));
        let length = Length::from_metres(to.si() - from.si());
        let arc = self.tank.arc();
        let ambient = self.tank.job().welding().ambient.si();
        Some(Stitch {
            order: place + 1,
            seam: self.marks.get(seam)?.clone(),
            run: if one.reversed { [to, from] } else { [from, to] },
            start: f64::from(one.start),
            arc: arc.time_along(length).si(),
            energy: arc.heat_along(length).si(),
            wait: f64::from(one.wait),
            start_temperature: Temperature::from_kelvins(ambient + f64::from(one.warmth)),
        })
    }
}
