//! What the tank weighs, where it hangs, and what its mounts bear.

use std::fmt::Write as _;

use seamwright_core::mass::MountLoads;
use seamwright_core::mass::balance::{Balance, MountError};
use seamwright_core::tank::Tank;
use seamwright_core::units::{Length, Volume};
use serde_json::{Map, Value, json};

use super::Units;
use super::table::{Side, table, wrapped};

/// Signs in a line.
const WIDE: usize = 100;

/// Empty, at the fill mark, full to the brim.
fn states(tank: &Tank) -> [(&'static str, Option<Balance>); 3] {
    let capacity = tank.capacity();
    let laden = |volume: Volume| tank.laden_balance(volume).ok();
    [
        ("empty", tank.empty_balance().ok()),
        ("at the fill mark", laden(capacity.fill)),
        ("full to the brim", laden(capacity.brim)),
    ]
}

fn loads(tank: &Tank) -> Option<Result<MountLoads, MountError>> {
    let full = tank.laden_balance(tank.capacity().brim).ok()?;
    Some(tank.mount_loads(&full))
}

/// The section of the report.
#[must_use]
pub fn text(tank: &Tank, units: Units) -> String {
    let rows: Vec<[String; 5]> = states(tank)
        .into_iter()
        .filter_map(|(name, balance)| {
            let balance = balance?;
            let centre = balance.centre()?;
            let [x, y, z] =
                [centre.x, centre.y, centre.z].map(|at| units.length(Length::from_metres(at)));
            Some([name.to_owned(), units.mass(balance.mass()), x, y, z])
        })
        .collect();
    let right = Side::Right;
    let mut out = table(
        [
            ("", Side::Left),
            ("mass", right),
            ("from left", right),
            ("from front", right),
            ("from below", right),
        ],
        &rows,
    );
    let mut line = |text: &str| {
        let _ = writeln!(out, "  {}", wrapped(text, WIDE, 2));
    };
    line(
        "sheet with its corners filled, and baffles; fittings count as the sheet that their holes take out",
    );
    match loads(tank) {
        None => line(
            "the liquid has no density at its temperature, so that the tank is weighed empty only",
        ),
        Some(Err(error)) => line(&format!("mounts: {error}")),
        Some(Ok(loads)) if !loads.mounts.is_empty() => out.push_str(&mounts(tank, &loads, units)),
        Some(Ok(_)) => {}
    }
    out
}

fn mounts(tank: &Tank, loads: &MountLoads, units: Units) -> String {
    let newtons = |value: f64| units.force(value);
    let rows: Vec<[String; 6]> = loads
        .mounts
        .iter()
        .zip(tank.mounts())
        .zip(1_u8..)
        .map(|((load, at), number)| {
            [
                number.to_string(),
                at.map(|one| units.length(one)).join(", "),
                newtons(load.still),
                newtons(load.least),
                newtons(load.most),
                newtons(load.force),
            ]
        })
        .collect();
    let right = Side::Right;
    let mut out = table(
        [
            ("mount", Side::Left),
            ("at", Side::Left),
            ("still", right),
            ("least", right),
            ("most", right),
            ("any way", right),
        ],
        &rows,
    );
    let mut line = |text: &str| {
        let _ = writeln!(out, "  {}", wrapped(text, WIDE, 2));
    };
    line(
        "full to the brim; least and most are against its weight, and any way the largest force, at any lean \
         and acceleration of the job. A stiff tank on an uneven base can rest on two or three mounts, and then \
         one bears twice its share",
    );
    if loads.mounts.len() == 1 {
        line(&format!(
            "the one mount bears a moment of {} besides",
            units.moment(loads.moment)
        ));
    }
    for (load, number) in loads.mounts.iter().zip(1_u8..) {
        if load.least < 0.0 {
            let told = MountError::LiftsOff {
                mount: number,
                force: -load.least,
            };
            line(&told.to_string());
        }
    }
    out
}

/// The `mass` of the JSON plan.
#[must_use]
pub fn json(tank: &Tank) -> Value {
    let mut map = Map::new();
    for ((_, balance), key) in states(tank).into_iter().zip(["empty", "fill", "full"]) {
        let Some(balance) = balance else { continue };
        map.insert(format!("{key}_kg"), json!(balance.mass().si()));
        if let Some(centre) = balance.centre() {
            map.insert(
                format!("{key}_centre_m"),
                json!([centre.x, centre.y, centre.z]),
            );
        }
    }
    let mounts = match loads(tank) {
        Some(Ok(loads)) => {
            if loads.mounts.len() == 1 {
                map.insert("mount_moment_n_m".to_owned(), json!(loads.moment));
            }
            loads
                .mounts
                .iter()
                .zip(tank.mounts())
                .map(|(load, at)| {
                    json!({
                        "at_m": at.map(Length::si),
                        "still_n": load.still,
                        "least_n": load.least,
                        "most_n": load.most,
                        "any_way_n": load.force,
                    })
                })
                .collect()
        }
        Some(Err(error)) => {
            map.insert("mounts_refused".to_owned(), json!(error.to_string()));
            Vec::new()
        }
        None => Vec::new(),
    };
    map.insert("mounts".to_owned(), json!(mounts));
    Value::Object(map)
}
