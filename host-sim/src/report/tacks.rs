//! The order of tacking.

use std::collections::BTreeMap;

use seamwright_core::tank::Tank;
use seamwright_core::units::{Length, LengthUnit};
use seamwright_core::weld::{Tacking, WeldStage};
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
    /// When it is due.
    turn: WeldStage,
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
            turn: tack.turn,
            place: (tack.seam, tack.number),
        })
        .collect();
    Order {
        tacks,
        pull: order.pull(),
        plain,
    }
}

/// A table for baffles, walls and the panel that closes the tank, each read down.
pub(crate) fn section(tank: &Tank, units: Units) -> Section {
    let order = order(tank);
    let advice = format!(
        "Ends of seams first, then each tack halves one of the longest stretches that are open, opposite sides in turn: common practice, no source. Measured from the seam's first end to the middle of the tack. Pull to one side at most {:.2}; seam by seam it would be {:.2}. Check squares and diagonals after the ends, before the rest.",
        order.pull, order.plain
    );
    let mut section = Section::new("Tack in this order");
    section.only(Seen::Sheet);
    section.line(advice.as_str());
    for turn in [WeldStage::Within, WeldStage::Body, WeldStage::Closing] {
        let of_turn = order.tacks.iter().filter(|one| one.turn == turn);
        let rows =
            of_turn.map(|one| [said(one.order), said(&one.seam), said(place(one.at, units))]);
        let table = Table::new([right("no."), left("seam"), right("at")], rows);
        if table.rows.is_empty() {
            continue;
        }
        let name = turn_name(tank, turn);
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

/// What the tacks of a turn hold.
fn turn_name(tank: &Tank, turn: WeldStage) -> String {
    match (turn, tank.closing_panel()) {
        (WeldStage::Within, _) => "Baffles, before walls stand in the way".to_owned(),
        (WeldStage::Closing, Some(panel)) => format!("Panel {panel}, which closes the tank"),
        _ => "Walls and fittings".to_owned(),
    }
}

/// All tacks, seam by seam, each with its place in the order.
fn seam_by_seam(tank: &Tank, order: &Order) -> Vec<Value> {
    let places: BTreeMap<(u8, u16), usize> = order
        .tacks
        .iter()
        .map(|one| (one.place, one.order))
        .collect();
    let mut all = Vec::new();
    for (seam, place) in tank.seams().zip(0_u8..) {
        let Some(tacks) = tank.tacks(&seam) else {
            continue;
        };
        for (at, number) in tacks.centres().zip(0_u16..) {
            all.push(json!({
                "seam": seam.mark.to_string(),
                "at_m": at.si(),
                "length_m": tacks.length.si(),
                "order": places.get(&(place, number)),
            }));
        }
    }
    all
}
