//! How long an order holds the metal where its alloy must not stay, against the fine grid; and that plans keep to it.

use seamwright_core::advice::Advice;
use seamwright_core::advice::process::ProcessWork;
use seamwright_core::advice::work::{Work, WorkNotice};
use seamwright_core::arc::Equipment;
use seamwright_core::heat::shell::Material;
use seamwright_core::tables::Alloy;
use seamwright_core::tables::preheat::{hold_band, hold_limit, interpass_limit};
use seamwright_core::tank::Tank;
use seamwright_core::weld::{HeldMetal, PlanOptions, Planner, WeldPlan};
use seamwright_tests::jobs;

use super::fine::{Fine, Metal, Run};

const SIZE: [f64; 3] = [0.3, 0.2, 0.15];

/// A box in 4 mm sheet.
fn tank(alloy: &str, weld: &str) -> Tank {
    let [length, width, height] = SIZE.map(|size| size * 1e3);
    jobs::tank(&format!(
        "name = \"Fuel box\"\n[shape]\nkind = \"block\"\nlength = \"{length} mm\"\nwidth = \"{width} mm\"\n\
         height = \"{height} mm\"\n[stock]\nalloy = \"{alloy}\"\nthickness = \"4 mm\"\n[weld]\n{weld}\n"
    ))
}

fn planned(tank: &Tank) -> WeldPlan {
    let mut planner = Box::new(Planner::new());
    let plan = tank.weld_plan_held(&mut planner, &PlanOptions::default());
    plan.unwrap().clone()
}

/// How long the middle of a stitch stays in the band, by the fine grid: the longest of all, in s.
fn by_the_grid(tank: &Tank, plan: &WeldPlan, held: &HeldMetal) -> f64 {
    let job = tank.job();
    let metal = Material::of(job.alloy(), job.temper(), tank.emissivity().si());
    let ambient = job.welding().ambient.si();
    let power = tank.arc().power().si() * job.welding().uptake.si();
    let mut runs = Vec::new();
    let mut places = Vec::new();
    for stitch in plan.stitches(tank) {
        let edge = tank.edge_of_seam(stitch.seam_place).unwrap();
        let [first, last] = edge.ends;
        let whole = edge.length().si();
        let at = |along: f64| {
            let at = first + (last - first) * (along / whole);
            [at.x, at.y, at.z]
        };
        let (from, to) = (stitch.from.si(), stitch.to.si());
        runs.push(Run {
            start: stitch.start.si(),
            lasts: stitch.arc.si(),
            power,
            from: at(from),
            to: at(to),
        });
        places.push(at(0.5 * (from + to)));
    }
    // It cools for two hours.
    let last = *runs.last().unwrap();
    let start = last.start + 7_200.0;
    runs.push(Run { start, ..last });
    let fine = Fine {
        size: SIZE,
        thickness: 0.004,
        metal: Metal {
            conductivity: metal.conductivity,
            capacity: metal.capacity,
            emissivity: metal.emissivity,
            melting: metal.melting,
        },
        cell: 0.005,
        ambient,
    };
    let low = held.band.from.si() - ambient;
    let high = held.band.to.map_or(f64::INFINITY, |to| to.si() - ambient);
    let mut stays = vec![0.0; places.len()];
    fine.watched(&runs, &places, 2.0, |warmth, seconds| {
        for (stay, warmth) in stays.iter_mut().zip(warmth) {
            if (low..=high).contains(warmth) {
                *stay += seconds;
            }
        }
    });
    stays.into_iter().fold(0.0, f64::max)
}

#[test]
fn time_in_the_band_as_on_a_fine_grid() {
    // 5083 between 66 and 204 °C; 5754 at 120 °C or above.
    for (alloy, weld) in [
        ("5083", "interpass_max = \"120 °C\""),
        ("5083", "interpass_max = \"80 °C\""),
        ("5083", ""),
        ("5754", "interpass_max = \"120 °C\""),
    ] {
        let tank = tank(alloy, weld);
        let plan = planned(&tank);
        let held = plan.held().unwrap();
        let fine = by_the_grid(&tank, &plan, held);
        println!("{alloy} {weld}: {} s, grid {fine} s", held.longest.si());
        let share = held.longest.si() / fine;
        assert!(
            (share - 1.0).abs() < 0.08,
            "{alloy} {weld}: {held:?}, grid {fine}"
        );
        if weld.is_empty() {
            assert!(held.is_kept() && held.instead.unwrap().longest > held.band.most);
            assert!(plan.interpass_max() < tank.interpass_max());
        }
    }
}

/// In a job with a limit of its own the order is left as it is, and the caution says so.
#[test]
fn a_limit_of_the_job_is_not_lowered() {
    let text = |weld: &str| {
        let tank = tank("5083", weld);
        let plan = planned(&tank);
        let held = *plan.held().unwrap();
        (
            Advice::OfWork(WorkNotice::HeldTooLong(held))
                .about(&tank)
                .to_string(),
            held,
            plan.interpass_max(),
        )
    };
    let (own, held, limit) = text("interpass_max = \"120 °C\"");
    assert!(
        !held.is_kept() && held.instead.is_none() && limit == interpass_limit(Alloy::A5083).value
    );
    assert!(own.contains("without an interpass_max"), "{own}");
    let (_, kept, cooler) = text("");
    assert!(kept.is_kept() && cooler < limit);
    assert_eq!(kept.instead.unwrap().longest, held.longest);
}

/// Every limit that the report prints of an alloy's heat is followed by the order, or told as not kept.
#[test]
fn a_plan_keeps_the_limits_that_are_printed() {
    let (mut waited, mut broken) = (0, 0);
    for alloy in Alloy::ALL.iter().copied() {
        for weld in ["", "interpass_max = \"150 °C\""] {
            let tank = tank(&alloy.to_string(), weld);
            let plan = planned(&tank);
            let work = Work {
                equipment: &Equipment::default(),
                filler: None,
                plan: Some(&plan),
                left_free: &[],
                reach: None,
                process: ProcessWork::default(),
                bears: None,
                stands: None,
            };
            let mut told = Vec::new();
            tank.each_work_notice(&work, |notice| told.push(notice));
            // Between stitches: no start is warmer than the limit of the plan, which is the job's, the alloy's or a cooler one.
            let hottest = plan.totals().hottest_start();
            assert!(
                hottest.si() <= plan.interpass_max().si() + 1e-6,
                "{alloy} {weld}"
            );
            assert!(plan.interpass_max() <= tank.interpass_max());
            if weld.is_empty() {
                assert!(plan.interpass_max() <= interpass_limit(alloy).value);
            }
            // HeldMetal there.
            assert_eq!(hold_limit(alloy).is_some(), hold_band(alloy).is_some());
            assert_eq!(hold_band(alloy).is_some(), plan.held().is_some(), "{alloy}");
            let kept = plan.held().is_none_or(HeldMetal::is_kept);
            let notice = told
                .iter()
                .any(|notice| matches!(notice, WorkNotice::HeldTooLong(_)));
            assert_eq!(kept, !notice, "{alloy} {weld}");
            waited += usize::from(plan.held().is_some_and(|held| held.instead.is_some()));
            broken += usize::from(!kept);
        }
    }
    assert!(waited > 2 && broken > 0, "{waited} {broken}");
}
