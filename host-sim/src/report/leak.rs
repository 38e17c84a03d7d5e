//! The leak test: how it is run.

use seamwright_core::leak::{BAROMETER, LeakError, LeakPlan, LeakRule, Vessel, weighs};
use seamwright_core::strength::{StrengthError, Trial};
use seamwright_core::tank::Tank;
use seamwright_core::units::{EnergyUnit, Length, Pressure, TimeUnit};

use serde_json::json;

use super::model::{Block, Cell, Section, Seen, said};
use super::readings::{self, Outcome};
use super::{Units, notices};
use crate::failure::Failure;

/// The word for a rule on the command line.
#[must_use]
pub const fn rule_name(rule: LeakRule) -> &'static str {
    match rule {
        LeakRule::OwnHead => "own-head",
        LeakRule::BoatFuelUs => "boat-fuel-us",
        LeakRule::DieselUs => "diesel-us",
        LeakRule::IntegralDieselUs => "integral-diesel-us",
        LeakRule::SmallCraft => "small-craft",
        LeakRule::LightAircraft => "light-aircraft",
    }
}

/// What of a rule a person says.
const fn rule_words(rule: LeakRule) -> &'static str {
    match rule {
        LeakRule::OwnHead => "1.5 times the tank's own head",
        LeakRule::BoatFuelUs => "fuel system of a boat, United States",
        LeakRule::DieselUs => "diesel tank apart from the hull, United States",
        LeakRule::IntegralDieselUs => "diesel tank that is part of the hull, United States",
        LeakRule::SmallCraft => "fuel tank of a small craft, European Union and United Kingdom",
        LeakRule::LightAircraft => "leak test after repair, light aircraft",
    }
}

/// A leak test of a tank.
#[derive(Clone, Copy, Debug)]
pub struct Test {
    /// What was asked for.
    pub asked: Asked,
    /// What the test knows of the tank.
    pub vessel: Vessel,
    /// The test.
    pub plan: LeakPlan,
}

/// Plans a test.
///
/// # Errors
/// [`LeakError`] where there is none.
pub fn plan(tank: &Tank, asked: Asked) -> Result<Test, LeakError> {
    let vessel = tank.vessel(asked.overflow)?;
    let plan = vessel.plan(asked.rule, asked.outside, None)?;
    Ok(Test {
        asked,
        vessel,
        plan,
    })
}

/// Names and figures of a test, in the order of the work.
fn facts(section: &mut Section, tank: &Tank, test: &Test, units: Units) {
    let Test { vessel, plan, .. } = test;
    let of = |key: &str, si: f64, text: String| said(text).data(key, si);
    let (method, why) = (plan.method.name(), plan.reason.text());
    let (words, source) = (rule_words(test.asked.rule), test.asked.rule.source());
    let rule = said(format!("{words} ({source})"))
        .data("rule", rule_name(test.asked.rule))
        .data("rule_source", source);
    section.fact("rule", rule);
    let told = said(format!("{method}: {why}"));
    section.fact("method", told.data("method", method).data("reason", why));
    let (limit, over) = (plan.pressure_limit, plan.relief_limit);
    let pressure = format!("{}, set by {}", units.pressure(plan.pressure), limit.text());
    let pressure = of("pressure_pa", plan.pressure.si(), pressure);
    section.fact("pressure", pressure.data("pressure_set_by", limit.key()));
    let opens = units.pressure(plan.relief);
    let opens = format!("opens at {opens}, set by {}", over.text());
    let opens = of("relief_pa", plan.relief.si(), opens);
    section.fact("relief valve", opens.data("relief_set_by", over.key()));
    let weakest = match tank.weakest_wall() {
        Ok((face, takes)) => {
            let least = match vessel.weakest_seam {
                Some(_) => takes,
                None => vessel.weakest,
            };
            said(format!("{face}, takes {}", units.pressure(takes)))
                .data("weakest_face", face.to_string())
                .data("weakest_takes_pa", least.si())
        }
        Err(error) => said(error),
    };
    section.fact("the weakest wall", weakest);
    if let Some(seam) = vessel.weakest_seam {
        let takes = vessel.weakest;
        let told = format!("{seam}, takes less: {}", units.pressure(takes));
        let told = said(told).data("weakest_seam", seam.to_string());
        section.fact(
            "the weakest seam",
            told.data("weakest_seam_takes_pa", takes.si()),
        );
    }
    let level = units.length(plan.water_level);
    let column = format!("{level} over the lowest inside point makes that pressure");
    let column = of("water_level_m", plan.water_level.si(), column);
    section.fact("column of water", column);
    let water = format!("{}; the bench must carry it", units.mass(plan.water));
    section.fact("full of water", of("water_kg", plan.water.si(), water));
    let energy = plan.energy.air.display(EnergyUnit::Joule, 0);
    let throws = units.throws(plan.energy.throws_kilogram());
    let air = of(
        "air_energy_j",
        plan.energy.air.si(),
        format!("{energy}, {throws}"),
    );
    let at_most = plan.energy.air_at_most.si();
    section.fact("air would store", air.data("air_energy_at_most_j", at_most));
    let water = plan.energy.water.si();
    let store = of("water_energy_j", water, format!("{:.1} mJ", water * 1e3));
    section.fact("water would store", store);
    let panel = format!(
        "{}, the weight of {}, over {}",
        units.force(plan.force.si()),
        units.mass(weighs(plan.force)),
        units.area(vessel.panel)
    );
    let panel = of("largest_panel_m2", vessel.panel.si(), panel);
    section.fact(
        "on the largest panel",
        panel.data("force_n", plan.force.si()),
    );
    let hold = plan.hold.display(TimeUnit::Minute, 0);
    let hold = format!("{hold} before the seams are looked over");
    section.fact("hold", of("hold_s", plan.hold.si(), hold));
    section.fact("head counted", head(tank, test, units));
    if let Some(seam) = weak_seam(tank, plan.pressure) {
        section.fact("mind the seams", seam);
    }
    if let Some(plugs) = plugs(tank) {
        section.fact("look at as well", plugs);
    }
}

fn head(tank: &Tank, test: &Test, units: Units) -> Cell {
    let cap = tank.job().service().pressure;
    let cap = if cap.si() > 0.0 {
        format!(", what the cap holds, {}, among it", units.pressure(cap))
    } else {
        String::new()
    };
    let head = units.length(test.vessel.head);
    let told = if test.asked.overflow.is_none() {
        format!(
            "{head}, to the highest inside point{cap}: if filler or vent rise above it, give --overflow"
        )
    } else {
        format!("{head}, to the overflow{cap}")
    };
    said(told).data("head_m", test.vessel.head.si())
}

/// The seam with the least reserve in a test, where that is too little.
fn weak_seam(tank: &Tank, pressure: Pressure) -> Option<String> {
    let weakest = tank.weakest_seam(Trial::Test(pressure))?;
    let (mark, strength) = (weakest.seam.mark, weakest.strength);
    (!strength.is_enough()).then(|| {
        format!(
            "{mark} has a reserve of {:.2} only at this pressure, where its edges hold the sheet from turning: weld \
             it from both sides, or test with less",
            strength.reserve
        )
    })
}

/// Plug welds that go through a wall, each of them a way out as a seam is.
fn plugs(tank: &Tank) -> Option<Cell> {
    let count = tank.plug_holes().count();
    let mut walls: Vec<String> = Vec::new();
    for wall in tank.plug_holes().map(|hole| format!("the {}", hole.wall)) {
        if !walls.contains(&wall) {
            walls.push(wall);
        }
    }
    (count > 0).then(|| {
        let told = format!(
            "{count} plug welds through {}: each may leak as a seam does",
            walls.join(" and ")
        );
        said(told).data("plug_welds", count)
    })
}

/// The test by the tank's own head.
pub(crate) fn section(tank: &Tank, units: Units) -> Section {
    let planned = plan(tank, Asked::USUAL);
    proposed(tank, planned.as_ref(), &Asked::USUAL, units).at(&["proof", "leak_test"])
}

/// A test that can be done where the one that was asked for cannot.
fn instead_words(rule: LeakRule, plan: &LeakPlan, units: Units) -> String {
    format!(
        "{} at {}, by the rule {} ({}); it proves less than what was asked for, and does not stand for it; for more, thicker sheet, \
         baffles, or walls held from outside, if whoever is licensed to judge that agrees",
        plan.method.name(),
        units.pressure(plan.pressure),
        rule_name(rule),
        rule_words(rule),
    )
}

/// What can be done where a test cannot.
fn instead(section: &mut Section, tank: &Tank, asked: &Asked, units: Units) {
    let Ok(vessel) = tank.vessel(asked.overflow) else {
        return;
    };
    let Some((rule, plan)) = vessel.instead_of(asked.rule, asked.outside) else {
        return;
    };
    section.flush(format!(
        "what can be done: {}",
        instead_words(rule, &plan, units)
    ));
    section.put(
        "instead",
        json!({
            "rule": rule_name(rule),
            "method": plan.method.name(),
            "pressure_pa": plan.pressure.si(),
            "pressure_set_by": plan.pressure_limit.key(),
        }),
    );
}

/// The test that was asked for.
#[derive(Clone, Copy, Debug)]
pub struct Asked {
    /// By which rule.
    pub rule: LeakRule,
    /// How high over the lowest inside point the tank overflows, where that was told.
    pub overflow: Option<Length>,
    /// The barometer.
    pub outside: Pressure,
}

impl Asked {
    /// By the tank's own head, to its highest inside point.
    pub const USUAL: Self = Self {
        rule: LeakRule::OwnHead,
        overflow: None,
        outside: BAROMETER,
    };
}

/// A test, or why none is proposed.
fn proposed(
    tank: &Tank,
    planned: Result<&Test, &LeakError>,
    asked: &Asked,
    units: Units,
) -> Section {
    let mut section = Section::new("Leak test");
    match planned {
        Ok(test) => {
            section.add(Block::Facts {
                rows: Vec::new(),
                broken: true,
                head: Some("by the tank's own head"),
            });
            facts(&mut section, tank, test, units);
            section.put("volume_m3", test.vessel.volume.si());
            section.put("barometer_pa", test.asked.outside.si());
        }
        Err(error) => {
            let told = format!("no test is proposed: {error}");
            section.only(Seen::Report);
            section.flush(told.as_str());
            section.only(Seen::Sheet);
            section.caution(told);
            section.only(Seen::Everywhere);
            section.put("refused", error.to_string());
            instead(&mut section, tank, asked, units);
        }
    }
    section
}

/// What `leak` answers: the cautions, then the test, then what the readings come to. A test that was made
/// is read even where none would be proposed.
///
/// # Errors
/// There is neither a test nor a reading.
pub fn answer(
    tank: &Tank,
    asked: &Asked,
    planned: &Result<Test, LeakError>,
    outcome: Option<&Outcome>,
    units: Units,
) -> Result<Vec<Section>, Failure> {
    if let (Err(error), None) = (planned, outcome) {
        return Err(refused(error, tank, asked, units));
    }
    let method = planned.as_ref().ok().map(|test| test.plan.method);
    let mut name = Section::default();
    name.plain(tank.job().name());
    let dangers = tank.leak_test_cautions(method, outcome.is_some());
    let mut test = proposed(tank, planned.as_ref(), asked, units).at(&["test"]);
    test.put("rule", rule_name(asked.rule));
    let mut all = vec![name, notices::dangers(tank, &dangers), test];
    all.extend(outcome.map(|outcome| readings::section(outcome, units)));
    Ok(all)
}

/// Why there is no plan, as a failure of the command.
fn refused(error: &LeakError, tank: &Tank, asked: &Asked, units: Units) -> Failure {
    let vessel = tank.vessel(asked.overflow).ok();
    let can = vessel.and_then(|vessel| vessel.instead_of(asked.rule, asked.outside));
    let message = format!("no test is proposed: {error}");
    if let Some((rule, plan)) = can {
        let words = instead_words(rule, &plan, units);
        return Failure::input(message, format!("what can be done: {words}"));
    }
    let help = match error {
        LeakError::Strength(StrengthError::Unknown) => "name another alloy or temper under [stock]",
        LeakError::Strength(_) => "change the job so that every wall can be judged",
        _ => {
            "another rule, thicker sheet, baffles closer together, or a head of water; see `plan` for what \
             would mend the weakest wall"
        }
    };
    Failure::input(message, help)
}
