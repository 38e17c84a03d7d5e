//! The weld plan: which stitch when, how long to wait, and what other orders take.

use seamwright_core::tank::Tank;
use seamwright_core::units::{Length, Temperature, TemperatureUnit, Time, TimeUnit};
use seamwright_core::weld::{HeldMetal, OrderTotals, PlannedStitch, WaitCause, WaitPart, WeldPlan};
use serde_json::{Value, json};

use super::model::{Block, Cell, Data, Row, Section, Seen, Table, left, right, said, word};
use super::processed::Processed;
use super::render::json::list;
use super::tacks::place;
use super::{Asked, Units, verdict};
use crate::welding::{self, plot};

fn minutes(time: Time) -> String {
    time.display(TimeUnit::Minute, 1).to_string()
}

fn seconds(time: Time) -> String {
    time.display(TimeUnit::Second, 0).to_string()
}

/// A table in the order of welding, with what it takes and what other orders would.
pub(crate) fn section(asked: &Asked<'_>, processed: &Processed, units: Units) -> Section {
    let mut section = Section::new("Order of the stitches");
    if let Some(verdict) = verdict::over_the_order(asked, processed) {
        section.flush(verdict);
    }
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
    let sought = asked
        .search
        .map(|tries| welding::search(tank, asked.extras, plan, tries));
    let whole = |time: Time| format!("{:.0} min", time.si() / 60.0);
    let (own, plain) = (plan.totals(), plan.seam_by_seam());
    section.only(Seen::Sheet);
    section.fact("Job", whole(own.job()));
    section.fact("Of it waits", whole(own.waits()));
    if let Some(plain) = plain {
        section.fact("Seam by seam it would be", whole(plain.job()));
    }
    section.add(Block::Picture(
        plot::draw(plan, tank),
        "Each bar is a stitch while its arc burns; its height is the metal where it starts."
            .to_owned(),
    ));
    section.only(Seen::Everywhere);
    section.table(in_order(plan, tank, units));
    section.only(Seen::Sheet);
    section.line(
        "The waits come from the heat of the tank's own sheets as it is computed. Feel or measure the metal, and wait longer where it is hotter than this says.",
    );

    let told = |name: &str, totals: &OrderTotals| told(name, totals, units);
    let mut lines = vec![told("this order", own)];
    let mut welding = Cell::default().data("this_order", of(own));
    match plain {
        Some(plain) => {
            lines.push(told("seam by seam, for comparison", plain));
            welding = welding.data("seam_by_seam", of(plain));
        }
        None => lines.push(
            "seam by seam, for comparison: no figures, for it takes more than a day, or a wait of more than two hours"
                .to_owned(),
        ),
    }
    match sought {
        Some(Ok(found)) => {
            let name = format!("the best order of {} that a search tried", found.tried);
            lines.push(told(&name, found.best.totals()));
            let mut best = of(found.best.totals());
            best.insert("tried".to_owned(), json!(found.tried));
            let stitches = list(&in_order(&found.best, tank, units));
            best.insert("stitches".to_owned(), stitches);
            welding = welding.data("best_found", best);
        }
        Some(Err(error)) => lines.push(format!("no search: {error}")),
        None => {}
    }
    lines.extend(hottest_words(plan, tank, units));
    if let Some(held) = plan.held() {
        lines.push(held_words(held, plan, tank, units));
        welding = welding.data("held", held_data(held, plan));
    }
    let mut band = Vec::new();
    for end in plan.band() {
        let share = 100.0 * end.uptake.si();
        let name = format!("this order, were {share:.0} % of the arc's power taken up");
        lines.push(told(&name, &end.totals));
        band.push(json!({ "uptake": end.uptake.si(), "order": of(&end.totals) }));
    }
    section.put("welding", welding.data("band", band).data);
    lines.push(
        "from and to are measured from the seam's first end; pull is the first moment of what is welded about the middle of the tank, as a share of the whole: 0 is even. waits for names what keeps the arc out after the move: the metal where the stitch itself starts, with how warm it was when it was first found above the interpass limit, or power source or torch, which must rest. Waits come from the heat of the tank's own sheets and from the ratings of power source and torch, not from a measurement: feel or measure the metal, and wait longer where it is hotter than this says"
            .to_owned(),
    );
    section.only(Seen::Report);
    section.plain("");
    for line in lines {
        section.line(line);
    }
}

/// How long the metal stays where its alloy must not, in words.
fn held_words(held: &HeldMetal, plan: &WeldPlan, tank: &Tank, units: Units) -> String {
    let (from, alloy) = (units.temperature(held.band.from), tank.job().alloy());
    let band = match held.band.to {
        Some(to) => format!("between {from} and {}", units.temperature(to)),
        None => format!("at {from} or more"),
    };
    let longest = if held.longest.si() > 0.0 {
        format!(
            "the metal stays {} {band} at most, on seam {} at {}",
            minutes(held.longest),
            held.seam,
            place(held.at, units)
        )
    } else {
        format!("the metal is never {band}, but beside the arc")
    };
    let most = held.band.most.display(TimeUnit::Minute, 0);
    let mut text = format!("{longest}; {alloy} may stay there {most} in all");
    if !held.is_kept() {
        text.push_str(": NOT KEPT");
    } else if let Some(instead) = held.instead {
        let (waits, own) = (plan.interpass_max(), tank.interpass_max());
        text.push_str(&format!(
            ", so stitches wait until the metal is at {}; with {} it would stay there {} and the job take {}",
            units.temperature(waits),
            units.temperature(own),
            minutes(instead.longest),
            minutes(instead.job)
        ));
    }
    text
}

/// The same for programs.
fn held_data(held: &HeldMetal, plan: &WeldPlan) -> Value {
    let celsius = |at: Temperature| at.in_unit(TemperatureUnit::Celsius);
    let mut data = json!({
        "from_c": celsius(held.band.from),
        "longest_s": held.longest.si(),
        "most_s": held.band.most.si(),
        "seam": held.seam.to_string(),
        "at_m": held.at.si(),
        "kept": held.is_kept(),
        "interpass_c": celsius(plan.interpass_max()),
    });
    // What there is none of is left out.
    if let Some(object) = data.as_object_mut() {
        if let Some(to) = held.band.to {
            object.insert("to_c".to_owned(), json!(celsius(to)));
        }
        if let Some(instead) = held.instead {
            let told = json!({
                "longest_s": instead.longest.si(),
                "job_s": instead.job.si(),
            });
            object.insert("instead".to_owned(), told);
        }
    }
    data
}

fn in_order(plan: &WeldPlan, tank: &Tank, units: Units) -> Table {
    let columns = [
        right("no."),
        right("stage"),
        left("seam"),
        right("from"),
        right("to"),
        right("wait").on_sheet(Some("wait first")),
        left("waits for"),
        right("arc").on_sheet(None),
        right("metal at start"),
    ];
    let rows = plan.stitches(tank).map(|stitch| row(&stitch, units));
    Table::new(columns, rows).keyed("stitches")
}

fn row(stitch: &PlannedStitch, units: Units) -> Row {
    let at = |key: &str, length: Length| Cell::of(key, length, units, |units, at| place(at, units));
    let wait = stitch.wait.beside_move();
    let waits = match wait.si() {
        none if none <= 0.0 => "-".to_owned(),
        _ => seconds(wait),
    };
    let causes = stitch.wait.parts_beside_move();
    let causes: Vec<String> = causes.map(|part| cause(&part.cause, units)).collect();
    let parts: Vec<Value> = stitch.wait.parts().map(|part| wait_cause(&part)).collect();
    let start = stitch.start_temperature;
    vec![
        said(stitch.order).data("order", stitch.order),
        said(stitch.stage).data("stage", stitch.stage),
        word("seam", stitch.seam),
        at("from_m", stitch.from),
        at("to_m", stitch.to),
        said(waits).data("wait_s", wait.si()),
        said(match causes.as_slice() {
            [] => "-".to_owned(),
            all => all.join(", then "),
        })
        .data("wait_cause", parts),
        said(seconds(stitch.arc))
            .data("arc_s", stitch.arc.si())
            .data("start_s", stitch.start.si())
            .data("energy_j", stitch.heat_input.si()),
        with_hottest(
            said(units.temperature(start))
                .data("start_temp_c", start.in_unit(TemperatureUnit::Celsius)),
            stitch,
        ),
    ]
}

/// Adds the hottest metal along a stitch for programs, where it was looked for.
fn with_hottest(cell: Cell, stitch: &PlannedStitch) -> Cell {
    match stitch.hottest_along {
        Some(most) => cell.data("hottest_along_c", most.in_unit(TemperatureUnit::Celsius)),
        None => cell,
    }
}

/// The hottest metal that an arc runs over, besides what it heats itself, and where.
fn hottest_words(plan: &WeldPlan, tank: &Tank, units: Units) -> Option<String> {
    let stitch = plan.hottest_along(tank)?;
    let most = stitch.hottest_along?;
    Some(format!(
        "the metal is below the interpass limit where each stitch starts; further along a stitch it may be hotter, where another ended shortly before: {} at most, along stitch {} on seam {}",
        units.temperature(most),
        stitch.order,
        stitch.seam
    ))
}

/// What is waited for, in words.
fn cause(cause: &WaitCause, units: Units) -> String {
    match cause {
        WaitCause::Move => "move".to_owned(),
        WaitCause::WarmMetal(place) => format!("metal at {}", units.temperature(place.temperature)),
        WaitCause::Rest(part) => part.name().to_owned(),
    }
}

/// What is waited for and for how long, for programs.
fn wait_cause(part: &WaitPart) -> Value {
    let lasts = part.lasts.si();
    match part.cause {
        WaitCause::Move => json!({ "cause": "move", "wait_s": lasts }),
        WaitCause::WarmMetal(place) => json!({
            "cause": "metal too warm",
            "wait_s": lasts,
            "seam": place.seam.to_string(),
            "at_m": place.at.si(),
            "temp_c": place.temperature.in_unit(TemperatureUnit::Celsius),
        }),
        WaitCause::Rest(rated) => json!({
            "cause": "rest",
            "wait_s": lasts,
            "of": rated.name(),
        }),
    }
}

/// What an order takes, in words.
fn told(name: &str, totals: &OrderTotals, units: Units) -> String {
    let rests = if totals.rests().si() > 0.0 {
        format!(
            " ({} of them only for power source or torch)",
            minutes(totals.rests())
        )
    } else {
        String::new()
    };
    format!(
        "{name}: {} in all, {} of it waits beside the moves{rests}; hottest start {}; pull to one side at most {:.2}",
        minutes(totals.job()),
        minutes(totals.waits()),
        units.temperature(totals.hottest_start()),
        totals.pull().si()
    )
}

/// What an order takes, for programs.
fn of(totals: &OrderTotals) -> Data {
    let figures = [
        ("job_s", json!(totals.job().si())),
        ("wait_s", json!(totals.waits().si())),
        ("rest_s", json!(totals.rests().si())),
        (
            "hottest_start_over_ambient_k",
            json!(totals.hottest_rise().kelvins()),
        ),
        ("pull", json!(totals.pull().si())),
    ];
    Data::from_iter(figures.map(|(key, value)| (key.to_owned(), value)))
}

/// The stitches seam by seam, where the metal never cools and they have no order.
fn in_seams(tank: &Tank) -> Vec<Value> {
    tank.seam_stitches()
        .map(|stitch| {
            json!({
                "seam": stitch.seam.to_string(),
                "from_m": stitch.from.si(),
                "to_m": stitch.to.si(),
                "arc_s": stitch.arc.si(),
                "energy_j": stitch.heat_input.si(),
            })
        })
        .collect()
}
