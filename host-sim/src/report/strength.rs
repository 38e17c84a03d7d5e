//! How walls, baffles and seams bear what the tank holds.

use std::fmt::Write as _;

use seamwright_core::input::Face;
use seamwright_core::strength::panel::Spacing;
use seamwright_core::strength::weld::{CAUTION, FATIGUE_CAUTION};
use seamwright_core::strength::{Bearing, RESERVE, StrengthError, TEST_RESERVE, Trial};
use seamwright_core::tank::Tank;
use seamwright_core::units::{Length, Pressure};
use serde_json::{Map, Value, json};

use super::Units;
use super::table::{Side, table, wrapped};
use super::welds;

/// Signs in a line.
const WIDE: usize = 100;
/// A reserve past this is shown as more than this.
const AMPLE: f64 = 100.0;

/// The section of the report.
#[must_use]
pub fn text(tank: &Tank, units: Units) -> String {
    let mut out = String::new();
    let mut line = |text: &str| {
        let _ = writeln!(out, "  {}", wrapped(text, WIDE, 2));
    };
    line(&load(tank, units));
    line(&metal(tank, units));
    line(CAUTION);
    if !tank.mounts().is_empty() || shaken(tank) {
        line(FATIGUE_CAUTION);
    }
    out.push_str(&walls(tank, units));
    out.push_str(&verdict(tank, units));
    out.push_str(&welds::text(tank));
    out
}

fn shaken(tank: &Tank) -> bool {
    tank.job()
        .service()
        .acceleration
        .iter()
        .any(|g| g.si() > 0.0)
}

/// What the walls are tried with, in words.
fn load(tank: &Tank, units: Units) -> String {
    let job = tank.job();
    let liquid = match (job.liquid(), tank.liquid_density()) {
        (Some(liquid), Ok(density)) => format!("{liquid} of {}", units.density(density)),
        (Some(liquid), Err(_)) => liquid.to_string(),
        (None, _) => "water, because the job names no liquid,".to_owned(),
    };
    let mut text = format!("full of {liquid} to the brim");
    if job.leans().iter().any(|lean| lean.si() > 0.0) {
        text.push_str(", at the worst of the job's leans");
    }
    if shaken(tank) {
        text.push_str(", shaken as the job says");
    }
    let over = job.service().pressure;
    if over.si() > 0.0 {
        let _ = write!(text, ", under {} held by the cap", units.pressure(over));
    }
    if !job.baffles().is_empty() {
        text.push_str(
            "; a baffle as if one side of it were empty, which is more than one with large holes meets",
        );
    }
    text
}

fn metal(tank: &Tank, units: Units) -> String {
    let Some(strength) = tank.as_welded() else {
        return StrengthError::Unknown.to_string();
    };
    format!(
        "yield beside the weld {} ({}), {RESERVE} of it wanted in reserve; figures in pairs are for edges held \
         from turning and free to turn, and a welded edge lies between",
        units.stress(strength.yielding),
        strength.source
    )
}

pub(super) fn reserve(value: f64) -> String {
    if value > AMPLE {
        format!("> {AMPLE:.0}")
    } else {
        format!("{value:.2}")
    }
}

fn pair(of: [String; 2]) -> String {
    let [held, free] = of;
    if held == free {
        held
    } else {
        format!("{held} to {free}")
    }
}

fn walls(tank: &Tank, units: Units) -> String {
    let mut rows: Vec<[String; 7]> = Vec::new();
    let mut refused = String::new();
    for (face, bearing) in tank.bearings(Trial::Use) {
        match bearing {
            Ok(bearing) => rows.push([
                face.to_string(),
                bearing.form.name().to_owned(),
                units.thickness(bearing.thickness),
                units.pressure(bearing.pressure),
                pair(
                    sorted(bearing.stress.map(Pressure::si))
                        .map(|value| units.stress(Pressure::from_pascals(value))),
                ),
                bearing
                    .bulge
                    .map_or_else(String::new, |bulge| pair(bulge.map(|one| units.bulge(one)))),
                reserve(bearing.reserve),
            ]),
            Err(error) => {
                let _ = writeln!(refused, "  {face}: {error}");
            }
        }
    }
    let [left, right] = [Side::Left, Side::Right];
    table(
        [
            ("face", left),
            ("taken as", left),
            ("sheet", right),
            ("pressure", right),
            ("stress", right),
            ("bulge", right),
            ("reserve", right),
        ],
        &rows,
    ) + &refused
}

fn sorted([a, b]: [f64; 2]) -> [f64; 2] {
    if a <= b { [a, b] } else { [b, a] }
}

/// The weakest, and what would mend it; what else there is to say of single faces.
fn verdict(tank: &Tank, units: Units) -> String {
    let mut out = String::new();
    let mut line = |text: String| {
        let _ = writeln!(out, "  {}", wrapped(&text, WIDE, 2));
    };
    if let Ok(weakest) = tank.weakest(Trial::Use) {
        let verdict = if weakest.reserve < RESERVE {
            "too little"
        } else {
            "enough"
        };
        line(format!(
            "weakest: {}, reserve {}, {verdict}",
            weakest.face,
            reserve(weakest.reserve)
        ));
    }
    if let Ok((face, pressure)) = tank.takes() {
        line(format!(
            "in a test the {face} takes the least: {} everywhere, with {TEST_RESERVE} in reserve",
            units.pressure(pressure)
        ));
    }
    let judged: Vec<Bearing> = tank
        .bearings(Trial::Use)
        .filter_map(|(_, one)| one.ok())
        .collect();
    let stretched: Vec<String> = judged
        .iter()
        .filter_map(|bearing| {
            let ([_, free], [_, held]) = (bearing.bulge?, bearing.bulge_held?);
            (free.si() > 0.5 * bearing.thickness.si())
                .then(|| format!("{} {}", bearing.face, units.bulge(held)))
        })
        .collect();
    if !stretched.is_empty() {
        line(format!(
            "past half its thickness a sheet stretches too, and between seams that cannot pull inward it bulges \
             no more than: {}",
            stretched.join(", ")
        ));
    }
    for bearing in &judged {
        if let Some(told) = mending(bearing, units) {
            line(told);
        }
        if bearing.inside_corner {
            line(format!(
                "{}: it has an inside corner, at which the stress has no end in theory: round it well, or \
                 strengthen it",
                bearing.face
            ));
        }
        if bearing.may_wrinkle {
            line(format!(
                "{}: so thin a dished end may wrinkle at its knuckle before it yields",
                bearing.face
            ));
        }
    }
    out
}

fn mending(bearing: &Bearing, units: Units) -> Option<String> {
    let cure = bearing.cure?;
    let spacing = match cure.spacing {
        Some(Spacing::AtMost(apart)) => {
            let what = if matches!(bearing.face, Face::Baffle(_)) {
                "stiffeners"
            } else {
                "baffles or stiffeners"
            };
            format!(", or {what} at most {} apart", units.length(apart))
        }
        _ => String::new(),
    };
    Some(format!(
        "{}: {} sheet would give it {RESERVE}{spacing}",
        bearing.face,
        units.thickness_up(cure.thickness)
    ))
}

fn wall_json(bearing: &Bearing) -> Value {
    let mut map = Map::new();
    let mut put = |key: &str, value: Value| {
        map.insert(key.to_owned(), value);
    };
    let [held, free] = bearing.stress.map(Pressure::si);
    put("face", json!(bearing.face.to_string()));
    put("taken_as", json!(bearing.form.name()));
    put("thickness_m", json!(bearing.thickness.si()));
    put("pressure_pa", json!(bearing.pressure.si()));
    put("stress_edges_held_pa", json!(held));
    put("stress_edges_free_pa", json!(free));
    if let Some(bulge) = bearing.bulge {
        let [held, free] = bulge.map(Length::si);
        put("bulge_edges_held_m", json!(held));
        put("bulge_edges_free_m", json!(free));
    }
    if let Some(bulge) = bearing.bulge_held {
        let [held, free] = bulge.map(Length::si);
        put("stretched_bulge_edges_held_m", json!(held));
        put("stretched_bulge_edges_free_m", json!(free));
    }
    put("reserve", json!(bearing.reserve));
    if let Some(takes) = bearing.takes {
        put("takes_pa", json!(takes.si()));
    }
    put("inside_corner", json!(bearing.inside_corner));
    if let Some(cure) = bearing.cure {
        let mut mend = Map::new();
        mend.insert("thickness_m".to_owned(), json!(cure.thickness.si()));
        if let Some(Spacing::AtMost(apart)) = cure.spacing {
            mend.insert("baffles_apart_m".to_owned(), json!(apart.si()));
        }
        map.insert("mend".to_owned(), Value::Object(mend));
    }
    Value::Object(map)
}

/// Panels, the weakest and the welds, for the `proof` of the JSON plan.
#[must_use]
pub fn json(tank: &Tank) -> Map<String, Value> {
    let mut map = Map::new();
    let mut panels = Vec::new();
    for (face, bearing) in tank.bearings(Trial::Use) {
        panels.push(match bearing {
            Ok(bearing) => wall_json(&bearing),
            Err(error) => json!({ "face": face.to_string(), "refused": error.to_string() }),
        });
    }
    map.insert("panels".to_owned(), json!(panels));
    map.insert("reserve_wanted".to_owned(), json!(RESERVE));
    if let Some(strength) = tank.as_welded() {
        map.insert(
            "yield_as_welded_pa".to_owned(),
            json!(strength.yielding.si()),
        );
        map.insert(
            "yield_source".to_owned(),
            json!(strength.source.to_string()),
        );
    }
    let weakest = match tank.weakest(Trial::Use) {
        Ok(weakest) => json!({
            "face": weakest.face.to_string(),
            "reserve": weakest.reserve,
        }),
        Err(error) => json!({ "refused": error.to_string() }),
    };
    map.insert("weakest".to_owned(), weakest);
    welds::put(tank, &mut map);
    map.insert("caution".to_owned(), json!(CAUTION));
    map
}
