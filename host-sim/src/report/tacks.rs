//! The order of tacking.

use std::collections::BTreeMap;

use seamwright_core::tank::Tank;
use seamwright_core::units::{Length, LengthUnit};
use seamwright_core::weld::Tacking;
use serde_json::{Value, json};

use super::Units;
use super::model::{Section, Seen, Table, left, right, said};

/// Tacks side by side in a table.
const ABREAST: usize = 4;

/// One tack as it is made.
struct Made {
    /// Its place in the order, from 1.
    order: usize,
    /// The mark of its seam.
    seam: String,
    /// Its middle, from its seam's first end.
    at: Length,
    /// The stage of building in which it is due.
    stage: u8,
    /// Its seam's place in the list of seams, and its own along the seam.
    place: (u8, u16),
}

/// The order of tacking, and how lopsided it is on its way.
struct Order {
    tacks: Vec<Made>,
    /// The largest pull to one side.
    pull: f64,
    /// What it would be seam by seam.
    plain: f64,
}

fn order(tank: &Tank) -> Order {
    let marks: Vec<String> = tank.seams().map(|seam| seam.mark.to_string()).collect();
    let mut tacking = Box::new(Tacking::new());
    let mut order = tank.tack_order(&mut tacking);
    let plain = order.pull_seam_by_seam();
    let tacks = (1..)
        .zip(order.by_ref())
        .map(|(number, tack)| Made {
            order: number,
            seam: marks
                .get(usize::from(tack.seam))
                .cloned()
                .unwrap_or_default(),
            at: tack.at,
            stage: tack.stage,
            place: (tack.seam, tack.number),
        })
        .collect();
    Order {
        tacks,
        pull: order.pull(),
        plain,
    }
}

/// A table for each stage of building, read down.
pub(crate) fn section(tank: &Tank, units: Units) -> Section {
    let order = order(tank);
    let advice = format!(
        "Ends of seams first, then each tack halves one of the longest stretches that are open, opposite sides in turn: common practice, no source. Measured from the seam's first end to the middle of the tack. Pull to one side at most {:.2}; seam by seam it would be {:.2}. Check squares and diagonals after the ends, before the rest.",
        order.pull, order.plain
    );
    let mut section = Section::new("Tack in this order");
    section.only(Seen::Sheet);
    section.line(advice.as_str());
    let build = tank.build_order();
    for (stage, number) in build.stages().iter().zip(1_u8..) {
        let of_turn = order.tacks.iter().filter(|one| one.stage == number);
        let rows =
            of_turn.map(|one| [said(one.order), said(&one.seam), said(place(one.at, units))]);
        let table = Table::new([right("no."), left("seam"), right("at")], rows);
        if table.rows.is_empty() {
            continue;
        }
        let name = format!("Stage {number}, {}", stage.work.name());
        section.only(Seen::Sheet);
        section.line(format!("{name}:"));
        section.only(Seen::Report);
        section.unbroken(name);
        section.only(Seen::Everywhere);
        section.table(table.abreast(ABREAST));
    }
    if !order.tacks.is_empty() {
        section.only(Seen::Report);
        section.line(advice);
    }
    section.put("tacks", seam_by_seam(tank, &order));
    let mut sums = json!({ "pull": order.pull, "pull_seam_by_seam": order.plain });
    if let (Some(panel), Some(map)) = (tank.closing_panel(), sums.as_object_mut()) {
        map.insert("closing_panel".to_owned(), json!(panel.to_string()));
    }
    section.put("tacking", sums);
    section
}

/// A place along a seam: whole millimetres are near enough.
pub(super) fn place(at: Length, units: Units) -> String {
    match units {
        Units::Metric => at.display(LengthUnit::Millimetre, 0).to_string(),
        Units::Us | Units::Imperial => units.length(at),
    }
}

/// All tacks, seam by seam, each with its place in the order.
fn seam_by_seam(tank: &Tank, order: &Order) -> Vec<Value> {
    let places: BTreeMap<(u8, u16), (usize, u8)> = order
        .tacks
        .iter()
        .map(|one| (one.place, (one.order, one.stage)))
        .collect();
    let mut all = Vec::new();
    for (seam, place) in tank.seams().zip(0_u8..) {
        let Some(tacks) = tank.tacks(&seam) else {
            continue;
        };
        for (at, number) in tacks.centres().zip(0_u16..) {
            // What nothing reaches is not tacked.
            let Some((order, stage)) = places.get(&(place, number)) else {
                continue;
            };
            all.push(json!({
                "seam": seam.mark.to_string(),
                "at_m": at.si(),
                "length_m": tacks.length.si(),
                "order": order,
                "stage": stage,
            }));
        }
    }
    all
}
