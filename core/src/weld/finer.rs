//! An order that is chosen, once more among finer cells.
//!
//! Ways are weighed and orders made better among as many cells as a gauge has room for, whose temperatures are good enough
//! to choose by. What a plan then prints and waits for is found among four times as many, where the machine has room
//! for them ([`FINE_CELLS`](super::FINE_CELLS)); how near both come is told in [`shell`](crate::heat::shell).

use heapless::Vec;

use super::crew::Crew;
use super::held::HeldMetal;
use super::options::PlanOptions;
use super::plan::WeldPlan;
use super::planner::Planner;
use super::totals::UptakeTotals;
use super::workspace::PlanError;
use crate::arc::uptake_band;
use crate::tank::Tank;

/// What is followed anew: the order itself with how long it holds metal, and the two ends of the band of the arc's share. What
/// welding seam by seam takes is only to be compared with, and takes longest to follow: it stays as it is.
pub const FINER_PARTS: usize = 3;

/// One of them.
struct Part<'w, const STITCHES: usize, const CELLS: usize, const LINKS: usize> {
    planner: &'w mut Planner<STITCHES, CELLS, LINKS>,
    found: Result<Found, PlanError>,
}

/// What it found.
#[derive(Clone, Copy, Default)]
struct Found {
    held: Option<HeldMetal>,
    end: Option<UptakeTotals>,
}

impl Tank {
    /// A plan's order once more, among as many cells as `planners` have room for, with waits by what those show, the
    /// hottest metal along each stitch ([`PlannedStitch::hottest_along`](super::PlannedStitch)), and comparisons where
    /// `options` ask for them. `options` are those that the plan was made with.
    ///
    /// # Errors
    /// As [`Tank::weld_plan`].
    pub fn weld_plan_finer<'p, const STITCHES: usize, const CELLS: usize, const LINKS: usize>(
        &self,
        plan: &WeldPlan<STITCHES>,
        planners: &'p mut [Planner<STITCHES, CELLS, LINKS>; FINER_PARTS],
        crew: &impl Crew,
        options: &PlanOptions,
    ) -> Result<&'p WeldPlan<STITCHES>, PlanError> {
        let options = PlanOptions {
            // Where the plan waits for cooler metal, so it does here.
            interpass: Some(plan.interpass),
            first_look: false,
            ..*options
        };
        let count = if options.comparisons { FINER_PARTS } else { 1 };
        let mut parts: Vec<Part<'_, STITCHES, CELLS, LINKS>, FINER_PARTS> = Vec::new();
        for planner in planners.iter_mut().take(count) {
            let found = Ok(Found::default());
            // As many as there is room for.
            let _ = parts.push(Part { planner, found });
        }
        crew.each(&mut parts, |place, part| {
            part.found = part.planner.follow(self, &options, plan, place);
        });
        let mut held = None;
        let mut band = [None; 2];
        for (place, part) in parts.iter().enumerate() {
            let found = part.found?;
            match place {
                0 => held = found.held,
                _ => {
                    if let Some(slot) = band.get_mut(place - 1) {
                        *slot = found.end;
                    }
                }
            }
        }
        drop(parts);
        let [first, ..] = planners;
        let instead = plan.held().and_then(|held| held.instead);
        first.put_held(held.map(|held| HeldMetal { instead, ..held }));
        first.plan.band = band;
        first.plan.seam_by_seam = plan.seam_by_seam;
        first.outcome()
    }
}

impl<const STITCHES: usize, const CELLS: usize, const LINKS: usize>
    Planner<STITCHES, CELLS, LINKS>
{
    fn follow(
        &mut self,
        tank: &Tank,
        options: &PlanOptions,
        plan: &WeldPlan<STITCHES>,
        part: usize,
    ) -> Result<Found, PlanError> {
        let mut found = Found::default();
        match part {
            0 => {
                self.lay_out(tank, options)?;
                self.look_along(true);
                let gone = self.weld_given(tank, plan.order());
                self.look_along(false);
                gone?;
                found.held = self.count_held(tank, options)?;
            }
            _ => {
                let uptake = uptake_band(tank.arc().process).get(part - 1).copied();
                if let Some(uptake) = uptake {
                    found.end = self.try_end_of_band(tank, options, plan, uptake)?;
                }
            }
        }
        Ok(found)
    }
}
