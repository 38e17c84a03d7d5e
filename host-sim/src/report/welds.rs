//! How the seams bear what the walls hand them.

use seamwright_core::input::Face;
use seamwright_core::leak::LeakRule;
use seamwright_core::seam::Seam;
use seamwright_core::strength::Trial;
use seamwright_core::strength::weld::{SeamStrength, WeakestSeam, weakest_seam};
use seamwright_core::tank::Tank;
use serde_json::{Value, json};

use super::model::{Section, word};
use super::strength::reserve;
use crate::diagnostics::clean;

/// A seam, what it bears in use and, where one is proposed, in the test.
type Judged = (Seam, SeamStrength, Option<SeamStrength>);

/// The seams that are judged.
fn judged(tank: &Tank) -> Vec<Judged> {
    let test = tank.leak_plan(LeakRule::default()).ok();
    let joined = |trial| tank.joined_walls(trial).ok();
    let used = joined(Trial::Use);
    let tested = test.and_then(|plan| joined(Trial::Test(plan.pressure)));
    tank.seams()
        .filter_map(|seam| {
            let used = tank.seam_bearing_by(&seam, used.as_ref()?)?.ok()?;
            let tested = tested.as_ref();
            let tested = tested.and_then(|tested| tank.seam_bearing_by(&seam, tested)?.ok());
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

/// Adds the weakest seam, one too weak for the leak test and, for programs, every one that is judged.
pub(super) fn add(section: &mut Section, tank: &Tank) {
    let all = judged(tank);
    let used = all.iter().map(|(seam, used, _)| (seam, *used));
    if let Some(found) = weakest_seam(used) {
        section.flush(weakest(tank, &found));
        let weakest =
            json!({ "seam": found.seam.mark.to_string(), "reserve": found.strength.reserve });
        section.put("weakest_seam", weakest);
    }
    let tested = all.iter();
    let tested = tested.filter_map(|(seam, _, tested)| Some((seam, (*tested)?)));
    if let Some(found) = weakest_seam(tested)
        && !found.strength.is_enough()
    {
        section.flush(format!(
            "in the leak test the seam {} has a reserve of {}, too little: do not test before it is mended",
            called(tank, found.seam),
            reserve(found.strength.reserve)
        ));
    }
    let welds = all.iter().map(|(seam, used, tested)| {
        let weld = word("seam", seam.mark)
            .data("stress_forces_pa", used.forces.si())
            .data("stress_pa", used.with_moment.si())
            .data("reserve_forces", used.reserve_forces)
            .data("reserve", used.reserve)
            .maybe("reserve_in_test", tested.as_ref().map(|one| one.reserve))
            .maybe("fitting", fitting_of(tank, seam));
        Value::Object(weld.data)
    });
    section.put("welds", welds.collect::<Value>());
}

fn weakest(tank: &Tank, found: &WeakestSeam<&Seam>) -> String {
    let strength = &found.strength;
    let verdict = if strength.is_enough() {
        "enough"
    } else {
        "too little"
    };
    let fittings = match tank.fittings().next() {
        Some(_) => {
            "; a fitting is shut and pressed over its whole hole, and its seam bears what its wall bears where that \
             is worst"
        }
        None => "",
    };
    format!(
        "weakest seam: {}, reserve {} over a partial factor of 1.25, {verdict} (without the bending \
         that edges held from turning ask of it: {}); beads taken as sound, corners filled straight from \
         edge to edge, fillets with a leg as long as the thinner sheet is thick{fittings}",
        called(tank, found.seam),
        reserve(strength.reserve),
        reserve(found.reserve_forces)
    )
}
