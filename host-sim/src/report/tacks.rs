//! The order of tacking: as columns to read down, and as JSON.

use std::collections::BTreeMap;
use std::fmt::Write as _;

use seamwright_core::tank::Tank;
use seamwright_core::units::{Length, LengthUnit};
use seamwright_core::weld::{Tacking, Turn};
use serde_json::{Value, json};

use super::Units;
use super::table::{Side, table, wrapped};

/// Signs in a line.
const WIDE: usize = 100;
/// Tacks side by side in a table.
pub const ABREAST: usize = 4;

/// One tack as it is made.
#[derive(Clone, Debug, PartialEq)]
pub struct Made {
    /// Its place in the order, from 1.
    pub order: usize,
    /// The mark of its seam.
    pub seam: String,
    /// Its middle, from its seam's first end.
    pub at: Length,
    /// When it is due.
    pub turn: Turn,
    /// Its seam's place in the list of seams, and its own along the seam.
    place: (u8, u16),
}

/// The order of tacking, and how lopsided it is on its way.
#[derive(Clone, Debug, PartialEq)]
pub struct Order {
    /// In order.
    pub tacks: Vec<Made>,
    /// The largest pull to one side.
    pub pull: f64,
    /// What it would be seam by seam.
    pub plain: f64,
}

/// The order of a tank.
#[must_use]
pub fn of(tank: &Tank) -> Order {
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

/// What the tacks of a turn hold.
#[must_use]
pub fn turn_name(tank: &Tank, turn: Turn) -> String {
    match (turn, tank.closing_panel()) {
        (Turn::Within, _) => "Baffles, before walls stand in the way".to_owned(),
        (Turn::Closing, Some(panel)) => format!("Panel {panel}, which closes the tank"),
        _ => "Walls and fittings".to_owned(),
    }
}

/// How to read the order.
#[must_use]
pub fn advice(order: &Order) -> String {
    format!(
        "Ends of seams first, then each tack halves one of the longest stretches that are open, opposite sides in turn: common practice, no source. Measured from the seam's first end to the middle of the tack. Pull to one side at most {:.2}; seam by seam it would be {:.2}. Check squares and diagonals after the ends, before the rest.",
        order.pull, order.plain
    )
}

/// Those of each turn as rows to read down, several abreast.
#[must_use]
pub fn rows(
    order: &Order,
    turn: Turn,
    show: impl Fn(Length) -> String,
) -> Vec<[String; 3 * ABREAST]> {
    let all: Vec<&Made> = order.tacks.iter().filter(|one| one.turn == turn).collect();
    let deep = all.len().div_ceil(ABREAST);
    (0..deep)
        .map(|row| {
            std::array::from_fn(|cell| {
                let Some(one) = all.get(cell / 3 * deep + row) else {
                    return String::new();
                };
                match cell % 3 {
                    0 => one.order.to_string(),
                    1 => one.seam.clone(),
                    _ => show(one.at),
                }
            })
        })
        .collect()
}

/// The order as a report tells it.
#[must_use]
pub fn text(tank: &Tank, units: Units) -> String {
    let order = of(tank);
    let show = |at: Length| match units {
        Units::Metric => at.display(LengthUnit::Millimetre, 0).to_string(),
        Units::Us | Units::Imperial => units.length(at),
    };
    let mut out = String::new();
    for turn in [Turn::Within, Turn::Body, Turn::Closing] {
        let rows = rows(&order, turn, show);
        if rows.is_empty() {
            continue;
        }
        let _ = writeln!(out, "  {}", turn_name(tank, turn));
        let heads: [_; 3 * ABREAST] = std::array::from_fn(|cell| match cell % 3 {
            0 => ("no.", Side::Right),
            1 => ("seam", Side::Left),
            _ => ("at", Side::Right),
        });
        out.push_str(&table(heads, &rows));
    }
    if !out.is_empty() {
        let _ = writeln!(out, "  {}", wrapped(&advice(&order), WIDE, 4));
    }
    out
}

/// All tacks, seam by seam, each with its place in the order.
#[must_use]
pub fn json(tank: &Tank, order: &Order) -> Vec<Value> {
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

/// What the order comes to.
#[must_use]
pub fn sums(tank: &Tank, order: &Order) -> Value {
    let mut sums = json!({ "pull": order.pull, "pull_seam_by_seam": order.plain });
    if let (Some(panel), Some(map)) = (tank.closing_panel(), sums.as_object_mut()) {
        map.insert("closing_panel".to_owned(), json!(panel.to_string()));
    }
    sums
}
