//! The order of the stitches on the demonstration tanks: every stitch once, no start too warm, quicker and less
//! lopsided than seam by seam, and within a twentieth of the best that a search finds.

use std::collections::BTreeSet;

use seamwright::welding::{WeldPlan, Welding};
use seamwright_core::input::Face;
use seamwright_core::tank::Tank;
use seamwright_core::weld::{DEVICE_CELLS, DEVICE_LINKS, WAYS, WeldStep};
use seamwright_core::weld::{Planner, Progress};
use seamwright_tests::Outcome;
use seamwright_tests::jobs::{EXAMPLES, example_tank as tank};

fn planned(tank: &Tank) -> Outcome<WeldPlan> {
    Ok(Welding::of(tank, None)?.plan()?)
}

#[test]
fn every_stitch_is_welded_once() -> Outcome {
    for name in EXAMPLES {
        let tank = tank(name);
        let plan = planned(&tank)?;
        let mut welded = BTreeSet::new();
        for stitch in &plan.stitches {
            let [from, to] = stitch.run.map(|at| (at.si() * 1e6).round() as i64);
            assert!(welded.insert((stitch.seam.clone(), from.min(to), from.max(to))));
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
    for name in EXAMPLES {
        let tank = tank(name);
        let plan = planned(&tank)?;
        let limit = tank.interpass_max().si();
        let moving = tank.job().welding().moving.si();
        let mut free = 0.0;
        for stitch in &plan.stitches {
            assert!(stitch.start_temperature.si() <= limit + 1e-4, "{name}");
            // After the last arc, the way and the wait, in whole steps of two seconds.
            let least = free + if stitch.order > 1 { moving } else { 0.0 } + stitch.wait;
            assert!(stitch.start >= least - 1e-3, "{name}: {stitch:?} {least}");
            assert!(stitch.start <= least + 4.0, "{name}: {stitch:?} {least}");
            free = stitch.start + stitch.arc;
        }
        assert!(plan.sum.job >= free - 1e-3);
        let waits: f64 = plan.stitches.iter().map(|stitch| stitch.wait).sum();
        assert!((waits - plan.sum.waits).abs() < 1e-3);
    }
    Ok(())
}

#[test]
fn it_beats_seam_by_seam_and_comes_near_the_best() -> Outcome {
    for name in EXAMPLES {
        let tank = tank(name);
        let plan = planned(&tank)?;
        assert!(plan.sum.job < 0.8 * plan.plain.job, "{name}");
        assert!(plan.sum.pull < 0.6 * plan.plain.pull, "{name}");
        let best = Welding::of(&tank, None)?.search(300)?;
        assert_eq!(best.tried, 300);
        assert!(
            plan.sum.job <= 1.05 * best.sum.job,
            "{name}: {} against {}",
            plan.sum.job,
            best.sum.job
        );
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
        let mut planner = Box::new(Planner::<DEVICE_CELLS, DEVICE_LINKS>::new());
        planner.begin();
        let mut seen = Vec::new();
        let mut first = Vec::new();
        while planner.is_busy() {
            if !planner.advance(&tank) {
                continue;
            }
            seen.push(planner.progress());
            if planner.progress() == Progress::Looked {
                first = planner.steps().to_vec();
            }
            assert!(tank.is_order(planner.steps().iter().copied()), "{name}");
        }
        let ways = u8::try_from(WAYS.len())?;
        let mut wanted = vec![Progress::Looked];
        wanted.extend((1..=ways).map(Progress::Tried));
        assert_eq!(seen, wanted, "{name}");
        assert_eq!(planner.steps(), plan.steps, "{name}");
        assert_eq!(planner.sum(), plan.sum, "{name}");

        let order: Vec<(u8, bool)> = first.iter().map(|step| (step.run, step.reversed)).collect();
        let manner = tank.manner();
        let sum = Welding::of(&tank, None)?.in_order(&order, &manner, |_| ())?;
        assert!(sum.job < 1.1 * plan.sum.job, "{name}: {} s", sum.job);
    }
    Ok(())
}

#[test]
fn a_planner_broken_off_begins_afresh() -> Outcome {
    let (one, other) = (tank("header-tank"), tank("rinse-tank"));
    let mut planner = Box::new(Planner::<DEVICE_CELLS, DEVICE_LINKS>::new());
    planner.begin();
    for _ in 0..1_500 {
        planner.advance(&one);
    }
    assert!(planner.is_busy() && matches!(planner.progress(), Progress::Tried(_)));
    planner.stop();
    assert!(!planner.is_busy() && planner.steps().is_empty());
    planner.begin();
    while planner.is_busy() {
        planner.advance(&other);
    }
    assert_eq!(planner.steps(), planned(&other)?.steps);
    Ok(())
}

#[test]
fn an_order_welds_each_stitch_once_or_is_none() -> Outcome {
    let tank = tank("header-tank");
    let steps = planned(&tank)?.steps;
    let fits = |steps: &[WeldStep]| tank.is_order(steps.iter().copied());
    assert!(fits(&steps));
    assert!(!fits(&steps[1..]), "one too few");
    assert!(!fits(&[&steps[..], &steps[..1]].concat()), "one twice");
    let mut wrong = steps.clone();
    wrong[3] = wrong[4];
    assert!(!fits(&wrong), "one in the place of another");
    wrong[3].run = u8::try_from(steps.len())?;
    assert!(!fits(&wrong), "one that is not there");
    assert!(!fits(&[]), "none");
    // The numbers go through the seams as the tank lists them.
    let mut runs = 0..=u8::MAX;
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
        let [(_, less), (_, more)] = plan.band[..] else {
            return Err("not two ends of the band".into());
        };
        assert!(
            less.waits <= plan.sum.waits && plan.sum.waits <= more.waits,
            "{name}"
        );
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
    let first_wall = plan
        .stitches
        .iter()
        .position(|stitch| !inner.contains(&stitch.seam))
        .ok_or("nothing but baffles")?;
    assert!(
        plan.stitches
            .iter()
            .skip(first_wall)
            .all(|stitch| !inner.contains(&stitch.seam))
    );
    let last = &plan.stitches.last().ok_or("no stitch")?.seam;
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
