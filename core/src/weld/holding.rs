//! How long an order keeps the metal of a seam where its alloy must not stay, and an order that keeps it shorter.
//!
//! Counted is the middle of every stitch, from the first arc until all have cooled. The order is the plan's, simulated
//! once more with a look at the metal every few seconds.

use heapless::Vec;

use super::held::{HeldInstead, HeldMetal};
use super::options::PlanOptions;
use super::plan::WeldPlan;
use super::planner::Planner;
use super::workspace::{PlanError, Workspace};
use crate::body::Edge;
use crate::tables::preheat::{HoldBand, hold_band};
use crate::tank::Tank;
use crate::units::{Length, Temperature, TemperatureUnit, Time};

/// How often the metal is looked at, in s: a two-hundredth of the fifteen minutes that are at stake.
const EVERY: f64 = 4.5;
/// For how long it may cool after the last arc, in s.
const COOLING: f64 = 14_400.0;
/// Interpass limits that are tried one after another where the published one keeps the metal too long, in °C: the
/// coolest are what a hand can rest on. A lower one may well hold the metal longer, for a small tank then hovers within the
/// band: it takes one so low that the whole of it stays below. Common practice, no source.
const COOLER: [f64; 7] = [100.0, 80.0, 65.0, 50.0, 40.0, 35.0, 30.0];
/// A limit this near to the surroundings, in K, would never come.
const NEAR: f64 = 10.0;

/// Seconds for each stitch.
type Stays<const STITCHES: usize> = Vec<f32, STITCHES>;

/// Where a plan is made.
pub(super) trait Desk<const STITCHES: usize> {
    /// Who has the plan once it is made.
    fn planner(&mut self) -> &mut Planner<STITCHES>;

    /// Makes the plan, and counts how long it holds metal.
    fn run(&mut self, tank: &Tank, options: &PlanOptions) -> Result<Option<HeldMetal>, PlanError>;

    /// Does what is left to do with a plan that holds metal for so long, made with these options; how long it does then.
    fn finish(
        &mut self,
        _tank: &Tank,
        _options: &PlanOptions,
        held: Option<HeldMetal>,
    ) -> Result<Option<HeldMetal>, PlanError> {
        Ok(held)
    }
}

impl<const STITCHES: usize> Desk<STITCHES> for Planner<STITCHES> {
    fn planner(&mut self) -> &mut Self {
        self
    }

    fn run(&mut self, tank: &Tank, options: &PlanOptions) -> Result<Option<HeldMetal>, PlanError> {
        Self::run(self, tank, options)?;
        self.count_held(tank, options)
    }
}

impl Tank {
    /// The weld plan of this tank as `options` ask for it, with what it holds the metal at counted
    /// ([`WeldPlan::held`]). Where that is longer than the alloy may, and the job names no interpass limit of its own,
    /// stitches wait for cooler metal, as much cooler as it takes; where no wait is enough the plan is as it was.
    ///
    /// # Errors
    /// As [`Tank::weld_plan`].
    pub fn weld_plan_held<'p, const STITCHES: usize>(
        &self,
        planner: &'p mut Planner<STITCHES>,
        options: &PlanOptions,
    ) -> Result<&'p WeldPlan<STITCHES>, PlanError> {
        hold(self, options, planner)?;
        planner.outcome()
    }
}

/// Makes the plan of [`Tank::weld_plan_held`] at a desk.
pub(super) fn hold<const STITCHES: usize>(
    tank: &Tank,
    options: &PlanOptions,
    desk: &mut impl Desk<STITCHES>,
) -> Result<(), PlanError> {
    let (options, held) = cool_enough(tank, options, desk)?;
    let held = desk.finish(tank, &options, held)?;
    desk.planner().put_held(held);
    Ok(())
}

/// Makes a plan, with waits for metal as cool as it takes; the options that it was made with, and how long it holds metal.
fn cool_enough<const STITCHES: usize>(
    tank: &Tank,
    options: &PlanOptions,
    desk: &mut impl Desk<STITCHES>,
) -> Result<(PlanOptions, Option<HeldMetal>), PlanError> {
    let held = desk.run(tank, options)?;
    let Some(first) = held.filter(|held| !held.is_kept()) else {
        return Ok((*options, held));
    };
    let given = options.interpass.or(tank.job().welding().interpass_max);
    if given.is_some() {
        return Ok((*options, held));
    }
    let instead = HeldInstead {
        longest: first.longest,
        job: desk.planner().plan().totals().job(),
    };
    let ambient = tank.job().welding().ambient;
    let mut lost = false;
    for cooler in COOLER {
        let limit = Temperature::new(cooler, TemperatureUnit::Celsius);
        if limit >= tank.interpass_max() || limit.si() < ambient.si() + NEAR {
            continue;
        }
        let waiting = PlanOptions {
            interpass: Some(limit),
            ..*options
        };
        // The order that there is tells whether one that is made for this limit is worth its time.
        match desk.planner().count_held(tank, &waiting) {
            Ok(held) if held.is_some_and(|held| held.is_kept()) => {}
            Ok(_) => continue,
            // Metal that does not get there within two hours is no plan.
            Err(_) => break,
        }
        lost = true;
        let Ok(held) = desk.run(tank, &waiting) else {
            break;
        };
        if let Some(held) = held.filter(HeldMetal::is_kept) {
            let instead = Some(instead);
            return Ok((waiting, Some(HeldMetal { instead, ..held })));
        }
    }
    if lost {
        desk.run(tank, options)?;
    }
    Ok((*options, held))
}

impl<const STITCHES: usize, const CELLS: usize, const LINKS: usize>
    Planner<STITCHES, CELLS, LINKS>
{
    /// Counts how long its plan's order holds the metal, welded as `options` ask; `None` of an alloy that may stay anywhere.
    pub(super) fn count_held(
        &mut self,
        tank: &Tank,
        options: &PlanOptions,
    ) -> Result<Option<HeldMetal>, PlanError> {
        let Some(band) = hold_band(tank.job().alloy()) else {
            return Ok(None);
        };
        let mut stays = Stays::<STITCHES>::new();
        self.watch_plan(
            (tank, options),
            EVERY,
            COOLING,
            &mut |workspace, seconds| look(workspace, tank, &band, seconds, &mut stays),
        )?;
        let found = stays
            .iter()
            .enumerate()
            .fold(None, |most, (place, stay)| match most {
                Some((_, longest)) if longest >= *stay => most,
                _ => Some((place, *stay)),
            });
        Ok(found.and_then(|(place, longest)| {
            let stitch = tank.stitch(u16::try_from(place).ok()?)?;
            let whole = tank.edge_of_seam(stitch.place)?.length().si();
            let [from, to] = stitch.division.run_of(stitch.number, whole);
            Some(HeldMetal {
                band,
                longest: Time::from_seconds(f64::from(longest)),
                seam: stitch.seam.mark,
                at: Length::from_metres(0.5 * (from + to)),
                instead: None,
            })
        }))
    }
}

/// Adds the seconds since the last look to all stitches whose middle is within the band; tells whether any metal is still
/// as warm as its lower end.
fn look<const STITCHES: usize, const CELLS: usize, const LINKS: usize>(
    workspace: &Workspace<STITCHES, CELLS, LINKS>,
    tank: &Tank,
    band: &HoldBand,
    seconds: f64,
    stays: &mut Stays<STITCHES>,
) -> bool {
    let ambient = tank.job().welding().ambient.si();
    let low = band.from.si() - ambient;
    let high = band.to.map_or(f64::INFINITY, |to| to.si() - ambient);
    let mut warm = false;
    let mut along: Option<(u8, Edge)> = None;
    for (place, stitch) in workspace.stitches.iter().enumerate() {
        if stays.len() <= place {
            // As many as there is room for.
            let _ = stays.push(0.0);
        }
        if along.as_ref().is_none_or(|(seam, _)| *seam != stitch.seam) {
            let edge = tank.edge_of_seam(usize::from(stitch.seam));
            along = edge.map(|edge| (stitch.seam, edge));
        }
        let Some((_, edge)) = &along else { continue };
        let (from, length) = stitch.lies(edge.length().si());
        let Some(spot) = workspace
            .mesh
            .spot(edge, from + 0.5 * length, &workspace.shell)
        else {
            continue;
        };
        let warmth = workspace.shell.warmth_at(spot);
        warm |= warmth >= low;
        if let Some(stay) = stays.get_mut(place)
            && warmth >= low
            && warmth <= high
        {
            *stay += seconds as f32;
        }
    }
    warm
}
