//! How the seams bear what the walls hand them.

use std::fmt::Write as _;

use seamwright_core::input::Face;
use seamwright_core::leak::Rule;
use seamwright_core::seam::Seam;
use seamwright_core::strength::Trial;
use seamwright_core::strength::weld::SeamStrength;
use seamwright_core::tank::Tank;
use serde_json::{Map, Value, json};

use super::strength::reserve;
use super::table::wrapped;
use crate::diagnostics::clean;

/// Signs in a line.
const WIDE: usize = 100;

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

/// The weakest seam, and one too weak for the leak test.
pub(super) fn text(tank: &Tank) -> String {
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

/// The weakest seam and every one that is judged, for the `proof` of the JSON plan.
pub(super) fn put(tank: &Tank, map: &mut Map<String, Value>) {
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
}
