//! The weld plan: which stitch when, how long to wait, and what other orders take.

use std::fmt::Write as _;

use seamwright_core::units::{LengthUnit, Temperature, TemperatureUnit, Time, TimeUnit};
use seamwright_core::weld::PlanError;
use serde_json::{Value, json};

use super::Units;
use super::table::{Side, table, wrapped};
use crate::welding::{Found, Stitch, Sum, WeldPlan};

/// Signs in a line.
const WIDE: usize = 100;

/// What is known of the weld plan: it, or why there is none.
pub type Known = Result<WeldPlan, PlanError>;
/// What a search for a better order found, where one was asked for.
pub type Sought = Option<Result<Found, PlanError>>;

fn minutes(seconds: f64) -> String {
    Time::new(seconds, TimeUnit::Second)
        .display(TimeUnit::Minute, 1)
        .to_string()
}

fn seconds(seconds: f64) -> String {
    Time::new(seconds, TimeUnit::Second)
        .display(TimeUnit::Second, 0)
        .to_string()
}

fn warm(temperature: Temperature, units: Units) -> String {
    let unit = match units {
        Units::Us => TemperatureUnit::Fahrenheit,
        Units::Metric | Units::Imperial => TemperatureUnit::Celsius,
    };
    temperature.display(unit, 0).to_string()
}

/// As a table in the order of welding, with what it takes and what other orders would.
#[must_use]
pub fn text(known: &Known, sought: Sought, ambient: Temperature, units: Units) -> String {
    let plan = match known {
        Ok(plan) => plan,
        Err(error) => return format!("  {}\n", wrapped(&error.to_string(), WIDE, 2)),
    };
    let rows: Vec<[String; 7]> = plan
        .stitches
        .iter()
        .map(|stitch| row(stitch, units))
        .collect();
    let mut text = table(
        [
            ("no.", Side::Right),
            ("seam", Side::Left),
            ("from", Side::Right),
            ("to", Side::Right),
            ("wait", Side::Right),
            ("arc", Side::Right),
            ("metal at start", Side::Right),
        ],
        &rows,
    );
    let told = |name: &str, sum: &Sum| {
        let hottest = Temperature::from_kelvins(ambient.si() + sum.hottest);
        let rests = if sum.rests > 0.0 {
            format!(
                " ({} of them only for power source or torch)",
                minutes(sum.rests)
            )
        } else {
            String::new()
        };
        format!(
            "{name}: {} in all, {} of it waits beside the moves{rests}; hottest start {}; pull to one side at most {:.2}",
            minutes(sum.job),
            minutes(sum.waits),
            warm(hottest, units),
            sum.pull
        )
    };
    let mut lines = vec![
        told("this order", &plan.sum),
        told("seam by seam, for comparison", &plan.plain),
    ];
    match sought {
        Some(Ok(found)) => lines.push(told(
            &format!("the best order of {} that a search tried", found.tried),
            &found.sum,
        )),
        Some(Err(error)) => lines.push(format!("no search: {error}")),
        None => {}
    }
    for (uptake, sum) in &plan.band {
        lines.push(told(
            &format!(
                "this order, were {:.0} % of the arc's power taken up",
                100.0 * uptake.si()
            ),
            sum,
        ));
    }
    lines.push(
        "from and to are measured from the seam's first end; pull is the first moment of what is welded about the middle of the tank, as a share of the whole: 0 is even. Waits come from the heat of the tank's own sheets and from the ratings of power source and torch, not from a measurement: feel or measure the metal, and wait longer where it is hotter than this says"
            .to_owned(),
    );
    let _ = writeln!(text);
    for line in lines {
        let _ = writeln!(text, "  {}", wrapped(&line, WIDE, 4));
    }
    text
}

fn row(stitch: &Stitch, units: Units) -> [String; 7] {
    let place = |length: seamwright_core::units::Length| match units {
        Units::Metric => length.display(LengthUnit::Millimetre, 0).to_string(),
        Units::Us | Units::Imperial => units.length(length),
    };
    let [from, to] = stitch.run;
    [
        stitch.order.to_string(),
        stitch.seam.clone(),
        place(from),
        place(to),
        if stitch.wait > 0.0 {
            seconds(stitch.wait)
        } else {
            "-".to_owned()
        },
        seconds(stitch.arc),
        warm(stitch.start_temperature, units),
    ]
}

/// The stitches, in the order of welding.
#[must_use]
pub fn stitches(all: &[Stitch]) -> Vec<Value> {
    all.iter()
        .map(|stitch| {
            let [from, to] = stitch.run;
            json!({
                "order": stitch.order,
                "seam": stitch.seam,
                "from_m": from.si(),
                "to_m": to.si(),
                "start_s": stitch.start,
                "arc_s": stitch.arc,
                "energy_j": stitch.energy,
                "wait_s": stitch.wait,
                "start_temp_c": stitch.start_temperature.in_unit(TemperatureUnit::Celsius),
            })
        })
        .collect()
}

/// What the order takes, and others would.
#[must_use]
pub fn sums(plan: &WeldPlan, sought: Sought) -> Value {
    let of = |sum: &Sum| {
        json!({
            "job_s": sum.job,
            "wait_s": sum.waits,
            "rest_s": sum.rests,
            "hottest_start_over_ambient_k": sum.hottest,
            "pull": sum.pull,
        })
    };
    let mut sums = json!({
        "this_order": of(&plan.sum),
        "seam_by_seam": of(&plan.plain),
        "band": plan.band.iter().map(|(uptake, sum)| {
            json!({ "uptake": uptake.si(), "order": of(sum) })
        }).collect::<Vec<_>>(),
    });
    if let (Some(Ok(found)), Some(map)) = (sought, sums.as_object_mut()) {
        let mut best = of(&found.sum);
        if let Some(best) = best.as_object_mut() {
            best.insert("tried".to_owned(), json!(found.tried));
            best.insert("stitches".to_owned(), json!(stitches(&found.stitches)));
        }
        map.insert("best_found".to_owned(), best);
    }
    sums
}
