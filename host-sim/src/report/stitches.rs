//! The weld plan: which stitch when, how long to wait, and what other orders take.

use seamwright_core::tank::Tank;
use seamwright_core::units::{Length, Temperature, TemperatureUnit, Time, TimeUnit};
use seamwright_core::weld::Sum;
use serde_json::{Value, json};

use super::model::{Block, Cell, Data, Row, Section, Seen, Table, left, right, said, word};
use super::render::json::list;
use super::tacks::place;
use super::{Asked, Units};
use crate::welding::{self, Stitch, WeldPlan, plot};

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

/// A table in the order of welding, with what it takes and what other orders would.
pub(crate) fn section(asked: &Asked<'_>, units: Units) -> Section {
    let mut section = Section::new("Order of the stitches");
    match asked.welding {
        Ok(plan) => planned(&mut section, asked, plan, units),
        Err(error) => {
            section.flush(error.to_string());
            section.put("stitches", in_seams(asked.tank));
            section.put("welding", json!({ "error": error.to_string() }));
        }
    }
    section
}

fn planned(section: &mut Section, asked: &Asked<'_>, plan: &WeldPlan, units: Units) {
    let tank = asked.tank;
    let ambient = tank.job().welding().ambient;
    let sought = asked
        .search
        .map(|tries| welding::search(tank, asked.extras, tries));
    let whole = |seconds: f64| format!("{:.0} min", seconds / 60.0);
    section.only(Seen::Sheet);
    section.fact("Job", whole(plan.sum.job));
    section.fact("Of it waits", whole(plan.sum.waits));
    section.fact("Seam by seam it would be", whole(plan.plain.job));
    section.add(Block::Picture(
        plot::draw(plan, ambient, tank.interpass_max()),
        "Each bar is a stitch while its arc burns; its height is the metal where it starts."
            .to_owned(),
    ));
    section.only(Seen::Everywhere);
    section.table(in_order(&plan.stitches, units));
    section.only(Seen::Sheet);
    section.line(
        "The waits come from the heat of the tank's own sheets as it is computed. Feel or measure the metal, and wait longer where it is hotter than this says.",
    );

    let told = |name: &str, sum: &Sum| told(name, sum, ambient, units);
    let mut lines = vec![
        told("this order", &plan.sum),
        told("seam by seam, for comparison", &plan.plain),
    ];
    let mut welding = Cell::default()
        .data("this_order", of(&plan.sum))
        .data("seam_by_seam", of(&plan.plain));
    match sought {
        Some(Ok(found)) => {
            let name = format!("the best order of {} that a search tried", found.tried);
            lines.push(told(&name, &found.sum));
            let mut best = of(&found.sum);
            best.insert("tried".to_owned(), json!(found.tried));
            let stitches = list(&in_order(&found.stitches, units));
            best.insert("stitches".to_owned(), stitches);
            welding = welding.data("best_found", best);
        }
        Some(Err(error)) => lines.push(format!("no search: {error}")),
        None => {}
    }
    let mut band = Vec::new();
    for (uptake, sum) in &plan.band {
        let share = 100.0 * uptake.si();
        let name = format!("this order, were {share:.0} % of the arc's power taken up");
        lines.push(told(&name, sum));
        band.push(json!({ "uptake": uptake.si(), "order": of(sum) }));
    }
    section.put("welding", welding.data("band", band).data);
    lines.push(
        "from and to are measured from the seam's first end; pull is the first moment of what is welded about the middle of the tank, as a share of the whole: 0 is even. Waits come from the heat of the tank's own sheets and from the ratings of power source and torch, not from a measurement: feel or measure the metal, and wait longer where it is hotter than this says"
            .to_owned(),
    );
    section.only(Seen::Report);
    section.plain("");
    for line in lines {
        section.line(line);
    }
}

fn in_order(stitches: &[Stitch], units: Units) -> Table {
    let columns = [
        right("no."),
        left("seam"),
        right("from"),
        right("to"),
        right("wait").on_sheet(Some("wait first")),
        right("arc").on_sheet(None),
        right("metal at start"),
    ];
    let rows = stitches.iter().map(|stitch| row(stitch, units));
    Table::new(columns, rows).keyed("stitches")
}

fn row(stitch: &Stitch, units: Units) -> Row {
    let [from, to] = stitch.run;
    let at = |key: &str, length: Length| Cell::of(key, length, units, |units, at| place(at, units));
    let wait = match stitch.wait {
        wait if wait > 0.0 => seconds(wait),
        _ => "-".to_owned(),
    };
    let start = stitch.start_temperature;
    vec![
        said(stitch.order).data("order", stitch.order),
        word("seam", &stitch.seam),
        at("from_m", from),
        at("to_m", to),
        said(wait).data("wait_s", stitch.wait),
        said(seconds(stitch.arc))
            .data("arc_s", stitch.arc)
            .data("start_s", stitch.start)
            .data("energy_j", stitch.energy),
        said(units.temperature(start))
            .data("start_temp_c", start.in_unit(TemperatureUnit::Celsius)),
    ]
}

/// What an order takes, in words.
fn told(name: &str, sum: &Sum, ambient: Temperature, units: Units) -> String {
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
        units.temperature(hottest),
        sum.pull
    )
}

/// What an order takes, for programs.
fn of(sum: &Sum) -> Data {
    let figures = [
        ("job_s", json!(sum.job)),
        ("wait_s", json!(sum.waits)),
        ("rest_s", json!(sum.rests)),
        ("hottest_start_over_ambient_k", json!(sum.hottest)),
        ("pull", json!(sum.pull)),
    ];
    Data::from_iter(figures.map(|(key, value)| (key.to_owned(), value)))
}

/// The stitches seam by seam, where the metal never cools and they have no order.
fn in_seams(tank: &Tank) -> Vec<Value> {
    let arc = tank.arc();
    tank.seams()
        .filter_map(|seam| Some((seam, tank.division(&seam)?)))
        .flat_map(|(seam, division)| {
            division.runs().map(move |[from, to]| {
                let length = Length::from_metres(to.si() - from.si());
                json!({
                    "seam": seam.mark.to_string(),
                    "from_m": from.si(),
                    "to_m": to.si(),
                    "arc_s": arc.time_along(length).si(),
                    "energy_j": arc.heat_along(length).si(),
                })
            })
        })
        .collect()
}
