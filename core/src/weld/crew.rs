//! A plan whose parts are done at once: the ways, seam by seam, the ends of the band, the count of how long metal is held,
//! and searches for a better order.
//!
//! The parts hang on nothing but the tank and, the later of them, the best order of the ways; a [`Crew`] does them in
//! threads, or one after another. What they find is put together by the rule of the planner's own course, so that
//! a plan is the same to the bit, whoever does the parts and however many there are.

use core::cmp::Ordering;
use core::ops::Range;

use heapless::Vec;

use super::choice::WAYS;
use super::estimate::Responses;
use super::held::HeldMetal;
use super::holding::{Desk, hold};
use super::improve::{MOST_STITCHES, OrderEffort};
use super::options::PlanOptions;
use super::plan::WeldPlan;
use super::planner::Planner;
use super::response::{figures, row};
use super::totals::{OrderTotals, UptakeTotals};
use super::workspace::PlanError;
use crate::arc::uptake_band;
use crate::tank::Tank;
use crate::units::Ratio;

/// Parts that a plan has to do at once at most: its ways.
pub const PARTS: usize = WAYS.len();

/// Does pieces of work that have nothing to do with one another.
pub trait Crew {
    /// Calls `work` once with each worker and its place, in any order, at once or not, and returns when all are done.
    fn each<W: Send>(&self, workers: &mut [W], work: impl Fn(usize, &mut W) + Sync);
}

/// One who does all himself, one after another.
#[derive(Clone, Copy, Debug, Default)]
pub struct OneByOne;

impl Crew for OneByOne {
    fn each<W: Send>(&self, workers: &mut [W], work: impl Fn(usize, &mut W) + Sync) {
        for (place, worker) in workers.iter_mut().enumerate() {
            work(place, worker);
        }
    }
}

/// What a plan is made in by a crew.
#[derive(Debug)]
pub struct PlanRoom<'r, const STITCHES: usize> {
    /// A planner for each part.
    pub planners: &'r mut [Planner<STITCHES>; PARTS],
    /// Room for as many figures as [`Tank::order_figures`] says; with less the order stays that of the ways.
    pub table: &'r mut [f32],
}

impl Tank {
    /// How many figures the table takes by which this tank's order is made better; none where it has too many
    /// stitches for that.
    #[must_use]
    pub fn order_figures(&self) -> usize {
        let count = self.totals().stitches as usize;
        if count <= MOST_STITCHES {
            figures(count)
        } else {
            0
        }
    }

    /// The plan of [`Tank::weld_plan_held`], its parts done by a crew; with some `effort`, of a better order, if one is
    /// found that is quicker and as even.
    ///
    /// # Errors
    /// As [`Tank::weld_plan`].
    pub fn weld_plan_by_crew<'r, const STITCHES: usize>(
        &self,
        room: PlanRoom<'r, STITCHES>,
        crew: &impl Crew,
        options: &PlanOptions,
        effort: Option<&OrderEffort>,
    ) -> Result<&'r WeldPlan<STITCHES>, PlanError> {
        let PlanRoom { planners, table } = room;
        let [first, others @ ..] = planners;
        let mut shop = Shop {
            first: &mut *first,
            others,
            table,
            crew,
            effort,
        };
        hold(self, options, &mut shop)?;
        first.outcome()
    }
}

/// A crew at work.
struct Shop<'r, C, const STITCHES: usize> {
    /// Has the plan in the end.
    first: &'r mut Planner<STITCHES>,
    others: &'r mut [Planner<STITCHES>],
    table: &'r mut [f32],
    crew: &'r C,
    effort: Option<&'r OrderEffort>,
}

/// One piece of work at a plan.
struct Part<'w, const STITCHES: usize> {
    planner: &'w mut Planner<STITCHES>,
    gone: Result<(), PlanError>,
}

/// What is compared with a plan.
struct Comparison<'w, const STITCHES: usize> {
    planner: &'w mut Planner<STITCHES>,
    /// The end of the band of the arc's share; `None` for seam by seam.
    uptake: Option<Ratio>,
    found: Result<Option<OrderTotals>, PlanError>,
}

/// Some rows of a table to be filled.
struct Filling<'w, const STITCHES: usize> {
    planner: &'w mut Planner<STITCHES>,
    sources: Range<usize>,
    rows: &'w mut [f32],
    decay: Result<f32, PlanError>,
}

impl<C: Crew, const STITCHES: usize> Desk<STITCHES> for Shop<'_, C, STITCHES> {
    fn planner(&mut self) -> &mut Planner<STITCHES> {
        self.first
    }

    fn run(&mut self, tank: &Tank, options: &PlanOptions) -> Result<Option<HeldMetal>, PlanError> {
        self.try_ways(tank, options)?;
        self.first.count_held(tank, options)
    }

    fn finish(
        &mut self,
        tank: &Tank,
        options: &PlanOptions,
        held: Option<HeldMetal>,
    ) -> Result<Option<HeldMetal>, PlanError> {
        let held = match self.effort {
            Some(effort) => self.improve((tank, options), effort, held)?,
            None => held,
        };
        if options.comparisons {
            self.compare(tank, options)?;
        }
        Ok(held)
    }
}

impl<C: Crew, const STITCHES: usize> Shop<'_, C, STITCHES> {
    /// Tries all ways, and has the best be the plan.
    fn try_ways(&mut self, tank: &Tank, options: &PlanOptions) -> Result<(), PlanError> {
        let mut parts: Vec<Part<'_, STITCHES>, PARTS> = Vec::new();
        let planners = core::iter::once(&mut *self.first).chain(self.others.iter_mut());
        for planner in planners {
            let gone = Ok(());
            // As many as there is room for.
            let _ = parts.push(Part { planner, gone });
        }
        self.crew.each(&mut parts, |place, part| {
            part.gone = part.planner.try_part(tank, options, place);
        });
        let (mut best, mut beaten) = (0, None);
        for (place, part) in parts.iter().enumerate() {
            part.gone?;
            let totals = part.planner.plan.totals;
            if beaten.is_none_or(|least| totals.beats(&least)) {
                (best, beaten) = (place, Some(totals));
            }
        }
        if let Some((first, others)) = parts.split_first_mut() {
            let other = best.checked_sub(1).and_then(|best| others.get_mut(best));
            if let Some(other) = other {
                core::mem::swap(&mut first.planner.plan, &mut other.planner.plan);
            }
        }
        Ok(())
    }

    /// Looks for a better order, where metal is waited for; how long the plan holds metal then. One that held it no longer
    /// than it may gives way only to one that does not either.
    fn improve(
        &mut self,
        (tank, options): (&Tank, &PlanOptions),
        effort: &OrderEffort,
        held: Option<HeldMetal>,
    ) -> Result<Option<HeldMetal>, PlanError> {
        let totals = self.first.plan.totals;
        let wide = tank.order_figures();
        let Some(table) = self.table.get_mut(..wide) else {
            return Ok(held);
        };
        let count = tank.totals().stitches as usize;
        if wide == 0 || !(totals.metal_waits().si() > 0.0) || self.others.is_empty() {
            return Ok(held);
        }
        let share = count.div_ceil(self.others.len());
        let mut fillings: Vec<Filling<'_, STITCHES>, PARTS> = Vec::new();
        let chunks = table.chunks_mut(share * row(count));
        for ((place, planner), rows) in self.others.iter_mut().enumerate().zip(chunks) {
            let sources = place * share..(place + 1) * share;
            // As many as there is room for.
            let _ = fillings.push(Filling {
                planner,
                sources,
                rows,
                decay: Ok(0.0),
            });
        }
        self.crew.each(&mut fillings, |_, filling| {
            let sources = filling.sources.clone();
            filling.decay = filling
                .planner
                .respond(tank, options, sources, filling.rows);
        });
        let mut decay = 0.0;
        for filling in &fillings {
            decay += filling.decay?;
        }
        drop(fillings);
        let responses = Responses {
            table,
            decay: decay / count as f32,
        };
        let mut parts: Vec<Part<'_, STITCHES>, PARTS> = Vec::new();
        for planner in self.others.iter_mut().take(effort.searches) {
            let gone = Ok(());
            // As many as there is room for.
            let _ = parts.push(Part { planner, gone });
        }
        let plan = &self.first.plan;
        self.crew.each(&mut parts, |place, part| {
            part.gone = part.planner.lay_out(tank, options);
            if part.gone.is_ok() {
                part.planner.plan.put(&plan.records, plan.totals);
                part.planner.improve(tank, responses, (effort, place));
            }
        });
        let mut found: Vec<&WeldPlan<STITCHES>, PARTS> = Vec::new();
        for part in &parts {
            part.gone?;
            if part.planner.plan.totals.beats(&totals) {
                // As many as there is room for.
                let _ = found.push(&part.planner.plan);
            }
        }
        let quickest = |a: &&WeldPlan<STITCHES>, b: &&WeldPlan<STITCHES>| {
            if a.totals.beats(&b.totals) {
                Ordering::Less
            } else {
                Ordering::Greater
            }
        };
        found.sort_unstable_by(quickest);
        let kept = |held: Option<HeldMetal>| held.is_none_or(|held| held.is_kept());
        let before = self.first.plan.clone();
        for plan in found {
            self.first.plan.put(&plan.records, plan.totals);
            let now = self.first.count_held(tank, options)?;
            if kept(now) || !kept(held) {
                let instead = held.and_then(|held| held.instead);
                return Ok(now.map(|now| HeldMetal { instead, ..now }));
            }
        }
        self.first.plan = before;
        Ok(held)
    }

    /// Welds the plan's order at the two ends of the band, and seam by seam.
    fn compare(&mut self, tank: &Tank, options: &PlanOptions) -> Result<(), PlanError> {
        let plan = &self.first.plan;
        let [low, high] = uptake_band(tank.arc().process).map(Some);
        let mut all: Vec<Comparison<'_, STITCHES>, 3> = Vec::new();
        for (planner, uptake) in self.others.iter_mut().zip([None, low, high]) {
            let found = Ok(None);
            // There are three at most.
            let _ = all.push(Comparison {
                planner,
                uptake,
                found,
            });
        }
        self.crew.each(&mut all, |_, one| {
            one.found = match one.uptake {
                Some(uptake) => {
                    let end = one.planner.try_end_of_band(tank, options, plan, uptake);
                    end.map(|end| end.map(|end| end.totals))
                }
                None => one.planner.try_seam_by_seam(tank, options),
            };
        });
        let mut plain = None;
        let mut ends = [None; 2];
        let mut slots = ends.iter_mut();
        for one in &all {
            let totals = one.found?;
            match one.uptake {
                None => plain = totals,
                Some(uptake) => {
                    if let Some(slot) = slots.next() {
                        *slot = totals.map(|totals| UptakeTotals { uptake, totals });
                    }
                }
            }
        }
        drop(all);
        self.first.plan.seam_by_seam = plain;
        self.first.plan.band = ends;
        Ok(())
    }
}
