//! A plan whose parts are done at once: the ways, seam by seam, the ends of the band, the count of how long metal is held,
//! and searches for a better order.
//!
//! The parts hang on nothing but the tank and, the later of them, the best order of the ways; a [`Crew`] does them in
//! threads, or one after another. What they find is put together by the rule of the planner's own course, so that
//! a plan is the same to the bit, whoever does the parts and however many there are.

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
use super::totals::UptakeTotals;
use super::workspace::PlanError;
use crate::arc::uptake_band;
use crate::tank::Tank;
use crate::units::Ratio;

/// Parts that a plan has to do at once at most: its ways, and seam by seam.
pub const PARTS: usize = WAYS.len() + 1;

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

/// A plan's order once more: at one end of the band of the arc's share, or to count how long it holds metal.
struct Piece<'w, const STITCHES: usize> {
    planner: &'w mut Planner<STITCHES>,
    uptake: Option<Ratio>,
    held: Result<Option<HeldMetal>, PlanError>,
    end: Result<Option<UptakeTotals>, PlanError>,
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
        if let Some(effort) = self.effort {
            self.improve(tank, options, effort)?;
        }
        self.follow(tank, options)
    }
}

impl<C: Crew, const STITCHES: usize> Shop<'_, C, STITCHES> {
    /// Tries all ways, and seam by seam if that is asked for, and has the best be the plan.
    fn try_ways(&mut self, tank: &Tank, options: &PlanOptions) -> Result<(), PlanError> {
        let mut parts: Vec<Part<'_, STITCHES>, PARTS> = Vec::new();
        let count = WAYS.len() + usize::from(options.comparisons);
        let planners = core::iter::once(&mut *self.first).chain(self.others.iter_mut());
        for planner in planners.take(count) {
            let gone = Ok(());
            // As many as there is room for.
            let _ = parts.push(Part { planner, gone });
        }
        self.crew.each(&mut parts, |place, part| {
            part.gone = part.planner.try_part(tank, options, place);
        });
        let (mut best, mut beaten) = (0, None);
        let mut plain = None;
        for (place, part) in parts.iter().enumerate() {
            let totals = part.planner.plan.totals;
            if place >= WAYS.len() {
                plain = match part.gone {
                    Ok(()) => Some(totals),
                    // There is a plan; that the plain order takes longer than any job may is no fault of it.
                    Err(PlanError::NeverCool) => None,
                    Err(error) => return Err(error),
                };
                continue;
            }
            part.gone?;
            if beaten.is_none_or(|least| totals.beats(&least)) {
                (best, beaten) = (place, Some(totals));
            }
        }
        if let Some((first, others)) = parts.split_first_mut() {
            let other = best.checked_sub(1).and_then(|best| others.get_mut(best));
            if let Some(other) = other {
                core::mem::swap(&mut first.planner.plan, &mut other.planner.plan);
            }
            first.planner.plan.seam_by_seam = plain;
        }
        Ok(())
    }

    /// Looks for a better order, where metal is waited for.
    fn improve(
        &mut self,
        tank: &Tank,
        options: &PlanOptions,
        effort: &OrderEffort,
    ) -> Result<(), PlanError> {
        let totals = self.first.plan.totals;
        let wide = tank.order_figures();
        let Some(table) = self.table.get_mut(..wide) else {
            return Ok(());
        };
        let count = tank.totals().stitches as usize;
        if wide == 0 || !(totals.metal_waits().si() > 0.0) || self.others.is_empty() {
            return Ok(());
        }
        // An order that keeps the metal where it must not stay for too long would be no better.
        let held = self.first.count_held(tank, options)?;
        let holds = held.is_some_and(|held| held.is_kept());
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
                part.planner
                    .improve((tank, options), responses, (effort, place), holds);
            }
        });
        for part in &parts {
            part.gone?;
            let found = &part.planner.plan;
            if found.totals.beats(&self.first.plan.totals) {
                self.first.plan.put(&found.records, found.totals);
            }
        }
        Ok(())
    }

    /// Welds the plan's order at the two ends of the band, if comparisons are asked for, and counts how long it holds metal.
    fn follow(
        &mut self,
        tank: &Tank,
        options: &PlanOptions,
    ) -> Result<Option<HeldMetal>, PlanError> {
        let plan = self.first.plan.clone();
        let band = uptake_band(tank.arc().process);
        let mut pieces: Vec<Piece<'_, STITCHES>, 3> = Vec::new();
        // There are three at most.
        let _ = pieces.push(Piece {
            planner: &mut *self.first,
            uptake: None,
            held: Ok(None),
            end: Ok(None),
        });
        if options.comparisons {
            for (planner, uptake) in self.others.iter_mut().zip(band) {
                let _ = pieces.push(Piece {
                    planner,
                    uptake: Some(uptake),
                    held: Ok(None),
                    end: Ok(None),
                });
            }
        }
        self.crew.each(&mut pieces, |_, piece| match piece.uptake {
            Some(uptake) => {
                piece.end = piece.planner.try_end_of_band(tank, options, &plan, uptake);
            }
            None => piece.held = piece.planner.count_held(tank, options),
        });
        let mut held = Ok(None);
        let mut ends = [None; 2];
        let mut slots = ends.iter_mut();
        for piece in pieces {
            if piece.uptake.is_none() {
                held = piece.held;
            } else if let Some(slot) = slots.next() {
                *slot = piece.end?;
            }
        }
        self.first.plan.band = ends;
        held
    }
}
