//! How walls, baffles and seams bear what the tank holds.

use std::fmt::Write as _;

use seamwright_core::body::Face;
use seamwright_core::job::{Bearing, RESERVE, StrengthError, TEST_RESERVE, Tank, Trial};
use seamwright_core::proof::leak::Rule;
use seamwright_core::proof::panel::Spacing;
use seamwright_core::proof::weld::{CAUTION, FATIGUE_CAUTION, SeamStrength};
use seamwright_core::quantity::{Length, Pressure};
use seamwright_core::seam::Seam;
use serde_json::{Map, Value, json};

use super::Units;
use super::table::{Side, table, wrapped};
use crate::diagnostics::clean;

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
    out.push_str(&welds(tank));
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

fn reserve(value: f64) -> String {
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

/// The seams that are judged, each with what it bears in use and, where one is proposed, in the test.
fn judged(tank: &Tank) -> Vec<(Seam, SeamStrength, Option<SeamStrength>)> {
    let test = tank.leak_plan(Rule::default()).ok();
    tank.seams()
        .filter_map(|seam| {
            let used = tank.seam_bearing(&seam, Trial::Use)?.ok()?;
            let tested =
                test.and_then(|plan| tank.seam_bearing(&seam, Trial::Test(plan.pressure))?.ok());
            Some((seam, used, tested))
        })
        .collect()
}

/// The name of the fitting that a seam goes round.
fn fitting_of(tank: &Tank, seam: &Seam) -> Option<String> {
    let [_, Face::Fitting(number)] = seam.faces else {
        return None;
    };
    let place = usize::from(number.checked_sub(1)?);
    tank.fittings()
        .nth(place)
        .map(|fitting| clean(fitting.name()).into_owned())
}

/// A seam by its mark, and what it goes round.
fn called(tank: &Tank, seam: &Seam) -> String {
    match fitting_of(tank, seam) {
        Some(name) => format!("{} round {name}", seam.mark),
        None => seam.mark.to_string(),
    }
}

fn welds(tank: &Tank) -> String {
    let all = judged(tank);
    let mut out = String::new();
    let mut line = |text: &str| {
        let _ = writeln!(out, "  {}", wrapped(text, WIDE, 2));
    };
    let Some((seam, least)) = weakest_seam(&all) else {
        return out;
    };
    let forces = all
        .iter()
        .map(|(_, strength, _)| strength.reserve_forces)
        .fold(f64::INFINITY, f64::min);
    let verdict = if least < 1.0 { "too little" } else { "enough" };
    let mut told = format!(
        "weakest seam: {}, reserve {} over a partial factor of 1.25, {verdict} (without the bending \
         that edges held from turning ask of it: {}); beads taken as sound, corners filled straight from \
         edge to edge, fillets with a leg as long as the thinner sheet is thick",
        called(tank, seam),
        reserve(least),
        reserve(forces)
    );
    if tank.fittings().next().is_some() {
        told.push_str(
            "; a fitting is shut and pressed over its whole hole, and its seam bears what its wall bears where that \
             is worst",
        );
    }
    line(&told);
    let tested = all
        .iter()
        .filter_map(|(seam, _, tested)| Some((seam, tested.as_ref()?.reserve)))
        .min_by(|a, b| a.1.total_cmp(&b.1));
    if let Some((seam, least)) = tested
        && least < 1.0
    {
        line(&format!(
            "in the leak test the seam {} has a reserve of {}, too little: do not test before it is mended",
            called(tank, seam),
            reserve(least)
        ));
    }
    out
}

/// The seam with the least reserve in use, and that.
fn weakest_seam(all: &[(Seam, SeamStrength, Option<SeamStrength>)]) -> Option<(&Seam, f64)> {
    all.iter()
        .map(|(seam, strength, _)| (seam, strength.reserve))
        .min_by(|a, b| a.1.total_cmp(&b.1))
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
    let all = judged(tank);
    if let Some((seam, least)) = weakest_seam(&all) {
        map.insert(
            "weakest_seam".to_owned(),
            json!({ "seam": seam.mark.to_string(), "reserve": least }),
        );
    }
    let welds: Vec<Value> = all
        .into_iter()
        .map(|(seam, used, tested)| {
            let mut weld = json!({
                "seam": seam.mark.to_string(),
                "stress_forces_pa": used.forces.si(),
                "stress_pa": used.with_moment.si(),
                "reserve_forces": used.reserve_forces,
                "reserve": used.reserve,
            });
            if let Some(map) = weld.as_object_mut() {
                if let Some(tested) = tested {
                    map.insert("reserve_in_test".to_owned(), json!(tested.reserve));
                }
                if let Some(name) = fitting_of(tank, &seam) {
                    map.insert("fitting".to_owned(), json!(name));
                }
            }
            weld
        })
        .collect();
    map.insert("welds".to_owned(), json!(welds));
    map.insert("caution".to_owned(), json!(CAUTION));
    map
}
