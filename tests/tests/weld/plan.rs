//! The order of the stitches on the demonstration tanks: every stitch once, no start too warm, quicker and less
//! lopsided than seam by seam, and within three hundredths of the best that a search finds.

use std::collections::BTreeSet;

use seamwright::welding;
use seamwright_core::arc::duty::{Rating, RatingPlate};
use seamwright_core::input::Face;
use seamwright_core::tank::Tank;
use seamwright_core::units::{Current, Length, LengthUnit, Ratio, Time};
use seamwright_core::weld::{
    ArcShare, OrderEffort, OrderTotals, PlanError, PlanOptions, PlannedStitch, Planner, Progress,
    RatedPart, SearchEffort, WAYS, WaitCause, WeldPlan, WeldStep,
};
use seamwright_tests::Outcome;
use seamwright_tests::jobs::{self, EXAMPLES, MANY_STITCHES, example_tank as tank};

fn planned(tank: &Tank) -> Outcome<WeldPlan> {
    let mut planner = Box::new(Planner::new());
    Ok(tank.weld_plan(&mut planner)?.clone())
}

fn seam_by_seam(plan: &WeldPlan) -> Outcome<OrderTotals> {
    Ok(*plan.seam_by_seam().ok_or("no comparison")?)
}

fn stitches<const STITCHES: usize>(plan: &WeldPlan<STITCHES>, tank: &Tank) -> Vec<PlannedStitch> {
    plan.stitches(tank).collect()
}

/// The examples, and a job of more stitches than a gauge has room for.
fn tanks() -> impl Iterator<Item = (&'static str, Tank)> {
    let many = ("many stitches", jobs::tank(MANY_STITCHES));
    EXAMPLES
        .map(|name| (name, tank(name)))
        .into_iter()
        .chain([many])
}

#[test]
fn every_stitch_is_welded_once() -> Outcome {
    for (name, tank) in tanks() {
        let plan = planned(&tank)?;
        assert_eq!(plan.count() as u32, tank.totals().stitches, "{name}");
        let mut welded = BTreeSet::new();
        for stitch in plan.stitches(&tank) {
            let [from, to] = [stitch.from, stitch.to].map(|at| (at.si() * 1e6).round() as i64);
            assert!(welded.insert((stitch.seam.to_string(), from.min(to), from.max(to))));
        }
        let mut wanted = BTreeSet::new();
        for seam in tank.seams() {
            let Some(division) = tank.division(&seam) else {
                continue;
            };
            for [from, to] in division.runs() {
                let [from, to] = [from, to].map(|at| (at.si() * 1e6).round() as i64);
                wanted.insert((seam.mark.to_string(), from, to));
            }
        }
        assert_eq!(welded, wanted, "{name}");
    }
    Ok(())
}

#[test]
fn no_start_is_warmer_than_the_limit_and_times_add_up() -> Outcome {
    for (name, tank) in tanks() {
        let plan = planned(&tank)?;
        let limit = tank.interpass_max().si();
        let moving = tank.job().welding().moving.si();
        let mut free = 0.0;
        for stitch in plan.stitches(&tank) {
            let wait = stitch.wait.beside_move().si();
            assert!(stitch.start_temperature.si() <= limit + 1e-4, "{name}");
            // After the last arc, the way and the wait, in whole steps of two seconds.
            let least = free + if stitch.order > 1 { moving } else { 0.0 } + wait;
            let start = stitch.start.si();
            assert!(start >= least - 1e-3, "{name}: {stitch:?} {least}");
            assert!(start <= least + 4.0, "{name}: {stitch:?} {least}");
            free = start + stitch.arc.si();
        }
        let totals = plan.totals();
        assert!(totals.job().si() >= free - 1e-3);
        let waits = plan.stitches(&tank);
        let waits: f64 = waits.map(|stitch| stitch.wait.beside_move().si()).sum();
        assert!((waits - totals.waits().si()).abs() < 1e-3);
        // The job is its arcs, moves and waits.
        let parts = [
            totals.arc(),
            totals.moves(),
            totals.metal_waits(),
            totals.rests(),
        ];
        let sum: f64 = parts.map(Time::si).iter().sum();
        assert!((sum / totals.job().si() - 1.0).abs() < 1e-12, "{name}");
    }
    Ok(())
}

#[test]
fn it_beats_seam_by_seam_and_comes_near_the_best() -> Outcome {
    let mut quicker = 0;
    for name in EXAMPLES {
        let tank = tank(name);
        let options = PlanOptions::default();
        let plan = welding::plan_with(&tank, &options, Some(&OrderEffort::USUAL))?;
        // Where the plan waits for cooler metal, so do the orders that are held against it.
        let options = PlanOptions {
            interpass: Some(plan.interpass_max()),
            ..options
        };
        let (own, plain) = (*plan.totals(), seam_by_seam(&plan)?);
        assert!(own.job().si() < 0.8 * plain.job().si(), "{name}");
        assert!(own.pull().si() < 0.6 * plain.pull().si(), "{name}");
        let mut planner = Box::new(Planner::new());
        let effort = SearchEffort::of(300);
        let search = tank.search_weld_order_from(&mut planner, &options, &plan, &effort)?;
        assert_eq!(search.tried, 300);
        let best = search.best.totals();
        assert!(best.job() <= own.job(), "{name}");
        assert!(
            own.job().si() <= 1.03 * best.job().si(),
            "{name}: {own:?} against {best:?}"
        );
        // From the ways' own order it does not get further either.
        let search = tank.search_weld_order(&mut planner, &options, 300)?;
        let best = search.best.totals();
        assert!(own.job().si() <= 1.03 * best.job().si(), "{name}");
        let ways = *welding::plan_with(&tank, &options, None)?.totals();
        assert!(best.job() <= ways.job(), "{name}");
        quicker += u32::from(best.job() < ways.job());
    }
    // Else it would search in vain.
    assert!(quicker > 0);
    Ok(())
}

/// A plan of more than 256 stitches is whole on the laptop, has no steps for a gauge, and does not go into a planner with
/// a gauge's room; its stitches are numbered seam by seam like those of any other.
#[test]
fn more_stitches_than_a_gauge_has_room_for() -> Outcome {
    let tank = jobs::tank(MANY_STITCHES);
    let count = usize::try_from(tank.totals().stitches)?;
    assert!(count > 500, "{count}");
    let plan = planned(&tank)?;
    assert_eq!((plan.count(), plan.steps().len()), (count, 0));
    // Some wait, or the limit that they keep was none; and it beats what a plain order takes.
    assert!(plan.totals().waits().si() > 0.0);
    // Seam by seam is not held against it: that takes more than the day that a job may.
    assert!(plan.totals().job().si() < 86_400.0);
    assert_eq!(plan.seam_by_seam(), None);
    let last = u16::try_from(count - 1)?;
    assert!(tank.stitch(last).is_some() && tank.stitch(last + 1).is_none());
    let mut small = Box::new(Planner::<{ WeldStep::MOST }>::with_room());
    assert_eq!(tank.weld_plan(&mut small).err(), Some(PlanError::TooMany));
    assert_eq!(small.progress(), Progress::Failed(PlanError::TooMany));
    Ok(())
}

/// The least `stitch_max` for a number of stitches has so many at most, and a millimetre less has more.
#[test]
fn the_stitch_that_a_gauge_has_room_for() -> Outcome {
    let most = u32::try_from(WeldStep::MOST)?;
    for (name, text) in [
        ("many", MANY_STITCHES.to_owned()),
        ("short", MANY_STITCHES.replace("\"30 mm\"", "\"23 mm\"")),
    ] {
        let tank = jobs::tank(&text);
        let enough = tank.stitch_max_for(most).ok_or("no such stitch")?;
        let count = |stitch: f64| {
            let mut draft = jobs::read(&text).draft;
            draft.weld.stitch_max = Some(Length::new(stitch, LengthUnit::Millimetre));
            Tank::build(&draft).map(|tank| tank.totals().stitches)
        };
        let mm = enough.in_unit(LengthUnit::Millimetre).round();
        assert!(count(mm)? <= most, "{name}: {mm}");
        assert!(count(mm - 1.0)? > most, "{name}: {mm}");
        // One at each seam is the fewest.
        assert_eq!(tank.stitch_max_for(3), None, "{name}");
    }
    Ok(())
}

#[test]
fn the_same_job_has_the_same_plan() -> Outcome {
    let tank = tank("header-tank");
    assert_eq!(planned(&tank)?, planned(&tank)?);
    Ok(())
}

/// What a gauge finds a little at a time is what the laptop finds at once; its first look is an order of every stitch
/// within a tenth of that.
#[test]
fn a_planner_ends_where_the_laptop_does() -> Outcome {
    for name in EXAMPLES {
        let tank = tank(name);
        let plan = planned(&tank)?;
        // With the room of a gauge: that of the laptop's makes no difference.
        let mut planner = Box::new(Planner::<{ WeldStep::MOST }>::with_room());
        planner.begin(&PlanOptions::GAUGE);
        let mut seen = Vec::new();
        let mut first = Vec::new();
        while planner.is_busy() {
            if !planner.advance(&tank) {
                continue;
            }
            seen.push(planner.progress());
            if planner.progress() == Progress::Looked {
                first = planner.plan().steps().to_vec();
            }
            assert!(
                tank.is_order(planner.plan().steps().iter().copied()),
                "{name}"
            );
        }
        let ways = u8::try_from(WAYS.len())?;
        let mut wanted = vec![Progress::Looked];
        wanted.extend((1..=ways).map(Progress::Tried));
        assert_eq!(seen, wanted, "{name}");
        let found = planner.outcome()?.clone();
        assert_eq!(stitches(&found, &tank), stitches(&plan, &tank), "{name}");
        assert_eq!(found.totals(), plan.totals(), "{name}");
        assert_eq!(found.seam_by_seam(), None, "{name}");

        let options = PlanOptions::default();
        let welded = tank.weld_in_order(&mut planner, &options, first)?;
        let [found, best] = [welded.totals(), plan.totals()].map(|totals| totals.job().si());
        assert!(found < 1.1 * best, "{name}: {found} s");
        // The plan's own order is what it was.
        let again = tank.weld_in_order(&mut planner, &options, plan.steps().iter().copied())?;
        assert_eq!(stitches(again, &tank), stitches(&plan, &tank), "{name}");
    }
    Ok(())
}

#[test]
fn a_planner_broken_off_begins_afresh() -> Outcome {
    let (one, other) = (tank("header-tank"), tank("rinse-tank"));
    let mut planner = Box::new(Planner::new());
    planner.begin(&PlanOptions::GAUGE);
    for _ in 0..1_500 {
        planner.advance(&one);
    }
    assert!(planner.is_busy() && matches!(planner.progress(), Progress::Tried(_)));
    planner.stop();
    assert!(!planner.is_busy() && planner.plan().count() == 0);
    planner.begin(&PlanOptions::GAUGE);
    while planner.is_busy() {
        planner.advance(&other);
    }
    let wanted = planned(&other)?;
    assert_eq!(stitches(planner.plan(), &other), stitches(&wanted, &other));
    Ok(())
}

#[test]
fn an_order_welds_each_stitch_once_or_is_none() -> Outcome {
    let tank = tank("header-tank");
    let steps: Vec<WeldStep> = planned(&tank)?.steps().to_vec();
    let fits = |steps: &[WeldStep]| tank.is_order(steps.iter().copied());
    assert!(fits(&steps));
    assert!(!fits(&steps[1..]), "one too few");
    assert!(!fits(&[&steps[..], &steps[..1]].concat()), "one twice");
    let mut wrong = steps.clone();
    wrong[3] = wrong[4];
    assert!(!fits(&wrong), "one in the place of another");
    wrong[3].stitch = u8::try_from(steps.len())?;
    assert!(!fits(&wrong), "one that is not there");
    assert!(!fits(&[]), "none");
    // The numbers go through the seams as the tank lists them.
    let mut runs = 0_u16..;
    for (place, seam) in tank.seams().enumerate() {
        let count = tank.division(&seam).map_or(0, |division| division.count);
        for number in 0..count {
            let run = runs.next().ok_or("too many")?;
            let stitch = tank.stitch(run).ok_or("no such stitch")?;
            assert_eq!((stitch.place, stitch.number), (place, number));
        }
    }
    assert_eq!(runs.next().map(|run| tank.stitch(run)), Some(None));
    Ok(())
}

#[test]
fn more_heat_taken_up_means_longer_waits() -> Outcome {
    for name in EXAMPLES {
        let plan = planned(&tank(name))?;
        let band: Vec<Time> = plan.band().map(|end| end.totals.waits()).collect();
        let [less, more] = band[..] else {
            return Err("not two ends of the band".into());
        };
        let own = plan.totals().waits();
        assert!(less <= own && own <= more, "{name}");
    }
    Ok(())
}

/// Baffles are welded before the walls close about them, and the last stitch lies between two walls.
#[test]
fn baffles_come_first_and_a_wall_closes_last() -> Outcome {
    let tank = tank("log-splitter-reservoir");
    let inner: BTreeSet<String> = tank
        .seams()
        .filter(|seam| {
            seam.faces
                .iter()
                .any(|face| matches!(face, Face::Baffle(_)))
        })
        .map(|seam| seam.mark.to_string())
        .collect();
    let plan = planned(&tank)?;
    let order = plan.stitches(&tank).map(|stitch| stitch.seam.to_string());
    let order: Vec<String> = order.collect();
    let first_wall = order
        .iter()
        .position(|seam| !inner.contains(seam))
        .ok_or("nothing but baffles")?;
    assert!(
        order
            .iter()
            .skip(first_wall)
            .all(|seam| !inner.contains(seam))
    );
    let last = order.last().ok_or("no stitch")?;
    let closing = tank
        .seams()
        .find(|seam| seam.mark.to_string() == *last)
        .ok_or("no such seam")?;
    assert!(
        closing
            .faces
            .iter()
            .all(|face| !matches!(face, Face::Baffle(_) | Face::Fitting(_)))
    );
    Ok(())
}

/// Each wait is told to the second by its causes: the metal where the stitch itself starts, found above the limit, and
/// the rest of whichever of power source and torch is rated lower; the move comes before every stitch but the first.
#[test]
fn every_wait_says_its_cause() -> Outcome {
    let amps = Current::from_amperes;
    let rated = |share: f64| {
        let rating = |current: f64, share: f64| Rating {
            current: amps(current),
            duty: Ratio::from_share(share),
        };
        RatingPlate::new(
            &[rating(200.0, share), rating(120.0, 2.0 * share)],
            amps(250.0),
        )
    };
    let (mut metal, mut rests) = (0, 0);
    for name in EXAMPLES {
        let tank = tank(name);
        let current = tank.arc().current;
        let (source, torch) = (rated(0.2)?, rated(0.1)?);
        let share = ArcShare::of_ratings(Some(&source), Some(&torch), current)?;
        assert_eq!(share.map(|share| share.part), Some(RatedPart::Torch));
        for arc_share in [None, share] {
            let options = PlanOptions {
                arc_share,
                ..PlanOptions::default()
            };
            let mut planner = Box::new(Planner::new());
            let plan = tank.weld_plan_with(&mut planner, &options)?;
            let limit = tank.interpass_max();
            let (mut for_metal, mut for_rest, mut moves) = (0.0, 0.0, 0.0);
            for stitch in plan.stitches(&tank) {
                let mut beside_move = 0.0;
                for part in stitch.wait.parts() {
                    let lasts = part.lasts.si();
                    assert!(lasts > 0.0, "{name}: {stitch:?}");
                    match part.cause {
                        WaitCause::Move => {
                            assert!(stitch.order > 1, "{name}");
                            moves += lasts;
                            continue;
                        }
                        WaitCause::WarmMetal(place) => {
                            assert_eq!((place.seam, place.at), (stitch.seam, stitch.from));
                            assert!(place.temperature > limit, "{name}: {stitch:?}");
                            for_metal += lasts;
                            metal += 1;
                        }
                        WaitCause::Rest(part) => {
                            assert_eq!(Some(part), arc_share.map(|share| share.part));
                            for_rest += lasts;
                            rests += 1;
                        }
                    }
                    beside_move += lasts;
                }
                let wait = stitch.wait.beside_move().si();
                assert!((beside_move - wait).abs() < 1e-3, "{name}: {stitch:?}");
            }
            let totals = plan.totals();
            for (sum, told) in [
                (for_metal, totals.metal_waits()),
                (for_rest, totals.rests()),
                (moves, totals.moves()),
            ] {
                assert!((sum - told.si()).abs() < 1e-2, "{name}: {sum} {told:?}");
            }
        }
    }
    // The examples wait for the metal at seven stitches in all, and with these ratings for the torch at thirty.
    assert!(metal > 5 && rests > 20, "{metal} {rests}");
    Ok(())
}

/// The share is the lesser of the two, and names whose it is; a current past a rating is told.
#[test]
fn the_share_of_the_arc_is_the_lesser_of_two_ratings() -> Outcome {
    let amps = Current::from_amperes;
    let plate = |current: f64, duty: f64| {
        let rating = Rating {
            current: amps(current),
            duty: Ratio::from_share(duty),
        };
        RatingPlate::new(&[rating], amps(200.0))
    };
    let (source, torch) = (plate(200.0, 0.35)?, plate(140.0, 0.6)?);
    let share = |source, torch| ArcShare::of_ratings(source, torch, amps(140.0));
    assert_eq!(share(None, None)?, None);
    // By hand: 0.35 of 200 A are 0.714 of 140 A by the square law.
    let alone = share(Some(&source), None)?.ok_or("no share")?;
    assert!((alone.share.si() - 0.35 * 4e4 / 1.96e4).abs() < 1e-12);
    assert_eq!(alone.part, RatedPart::PowerSource);
    let both = share(Some(&source), Some(&torch))?.ok_or("no share")?;
    assert_eq!((both.share.si(), both.part), (0.6, RatedPart::Torch));
    let equal = share(Some(&torch), Some(&torch))?.ok_or("no share")?;
    assert_eq!(equal.part, RatedPart::PowerSource);
    assert!(ArcShare::of_ratings(Some(&source), Some(&torch), amps(210.0)).is_err());
    Ok(())
}
