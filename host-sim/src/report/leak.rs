//! The leak test: how it is run.

use seamwright_core::leak::{BAROMETER, TestError};
use seamwright_core::leak::{Method, Plan, Rule, Vessel, weighs};
use seamwright_core::strength::{StrengthError, Trial};
use seamwright_core::tank::Tank;
use seamwright_core::units::{EnergyUnit, Length, Pressure, TimeUnit};
use serde_json::{Map, Value, json};

use super::readings::{self, Outcome};
use super::table::wrapped;
use super::{Units, cautions};
use crate::failure::Failure;

/// Signs in a line.
const WIDE: usize = 100;

/// The word for a rule on the command line.
#[must_use]
pub const fn rule_name(rule: Rule) -> &'static str {
    match rule {
        Rule::OwnHead => "own-head",
        Rule::BoatFuelUs => "boat-fuel-us",
        Rule::DieselUs => "diesel-us",
        Rule::IntegralDieselUs => "integral-diesel-us",
        Rule::SmallCraft => "small-craft",
        Rule::LightAircraft => "light-aircraft",
    }
}

/// What of a rule a person says.
const fn rule_words(rule: Rule) -> &'static str {
    match rule {
        Rule::OwnHead => "1.5 times the tank's own head",
        Rule::BoatFuelUs => "fuel system of a boat, United States",
        Rule::DieselUs => "diesel tank apart from the hull, United States",
        Rule::IntegralDieselUs => "diesel tank that is part of the hull, United States",
        Rule::SmallCraft => "fuel tank of a small craft, European Union and United Kingdom",
        Rule::LightAircraft => "leak test after repair, light aircraft",
    }
}

/// A leak test of a tank.
#[derive(Clone, Copy, Debug)]
pub struct Test {
    /// By which rule.
    pub rule: Rule,
    /// How high over the lowest inside point the tank overflows, where that was told.
    pub overflow: Option<Length>,
    /// The barometer.
    pub outside: Pressure,
    /// What the test knows of the tank.
    pub vessel: Vessel,
    /// The test.
    pub plan: Plan,
}

/// Plans a test.
///
/// # Errors
/// [`TestError`] where there is none.
pub fn plan(
    tank: &Tank,
    rule: Rule,
    overflow: Option<Length>,
    outside: Pressure,
) -> Result<Test, TestError> {
    let vessel = tank.vessel(overflow)?;
    let plan = vessel.plan(rule, outside, None)?;
    Ok(Test {
        rule,
        overflow,
        outside,
        vessel,
        plan,
    })
}

/// Names and figures of a test, in the order of the work.
#[must_use]
pub fn facts(tank: &Tank, test: &Test, units: Units) -> Vec<(&'static str, String)> {
    let Test { vessel, plan, .. } = test;
    let mut rows = vec![
        (
            "rule",
            format!("{} ({})", rule_words(test.rule), test.rule.source()),
        ),
        (
            "method",
            format!("{}: {}", plan.method.name(), plan.reason.text()),
        ),
        ("pressure", units.pressure(plan.pressure)),
        (
            "relief valve",
            format!("opens at {}", units.pressure(plan.relief)),
        ),
        (
            "the weakest wall",
            match tank.takes() {
                Ok((face, takes)) => format!("{face}, takes {}", units.pressure(takes)),
                Err(error) => error.to_string(),
            },
        ),
        (
            "column of water",
            format!(
                "{} over the lowest inside point makes that pressure",
                units.length(plan.water_level)
            ),
        ),
        (
            "full of water",
            format!("{}; the bench must carry it", units.mass(plan.water)),
        ),
        (
            "air would store",
            format!(
                "{}, {}",
                plan.energy.air.display(EnergyUnit::Joule, 0),
                units.throws(plan.energy.throws_kilogram())
            ),
        ),
        (
            "water would store",
            format!("{:.1} mJ", plan.energy.water.si() * 1e3),
        ),
        (
            "on the largest panel",
            format!(
                "{}, the weight of {}, over {}",
                units.force(plan.force),
                units.mass(weighs(plan.force)),
                units.area(vessel.panel)
            ),
        ),
        (
            "hold",
            format!(
                "{} before the seams are looked over",
                plan.hold.display(TimeUnit::Minute, 0)
            ),
        ),
    ];
    let cap = tank.job().service().pressure;
    let cap = if cap.si() > 0.0 {
        format!(", what the cap holds, {}, among it", units.pressure(cap))
    } else {
        String::new()
    };
    rows.push((
        "head counted",
        if test.overflow.is_none() {
            format!(
                "{}, to the highest inside point{cap}: if filler or vent rise above it, give --overflow",
                units.length(vessel.head)
            )
        } else {
            format!("{}, to the overflow{cap}", units.length(vessel.head))
        },
    ));
    if let Some(seam) = weak_seam(tank, plan.pressure) {
        rows.push(("mind the seams", seam));
    }
    rows
}

/// The seam with the least reserve in a test, where that is too little.
fn weak_seam(tank: &Tank, pressure: Pressure) -> Option<String> {
    let (mark, reserve) = tank
        .seams()
        .filter_map(|seam| {
            let strength = tank.seam_bearing(&seam, Trial::Test(pressure))?.ok()?;
            Some((seam.mark, strength.reserve))
        })
        .min_by(|a, b| a.1.total_cmp(&b.1))?;
    (reserve < 1.0).then(|| {
        format!(
            "{mark} has a reserve of {reserve:.2} only at this pressure, where its edges hold the sheet from \
             turning: weld it from both sides, or test with less"
        )
    })
}

/// Names and figures, one to a line.
pub(super) fn lines(rows: &[(&'static str, String)]) -> String {
    super::table::facts(rows, |value, indent| {
        wrapped(value, WIDE.saturating_sub(indent), 0).replace('\n', &format!("\n{:indent$}", ""))
    })
}

/// The section of the report, by the tank's own head.
#[must_use]
pub fn text(tank: &Tank, units: Units) -> String {
    match plan(tank, Rule::default(), None, BAROMETER) {
        Ok(test) => lines(&facts(tank, &test, units)),
        Err(error) => none(&error),
    }
}

fn none(error: &TestError) -> String {
    let told = format!("no test is proposed: {error}");
    format!("  {}\n", wrapped(&told, WIDE, 2))
}

/// What `leak` answers.
#[derive(Clone, Debug)]
pub enum Answer {
    /// A report.
    Text(String),
    /// One object.
    Object(Value),
}

/// What `leak` answers: the cautions, then the test, then what the readings come to. A test that was made
/// is read even where none would be proposed.
///
/// # Errors
/// There is neither a test nor a reading.
pub fn answer(
    tank: &Tank,
    rule: Rule,
    planned: &Result<Test, TestError>,
    outcome: Option<&Outcome>,
    object: bool,
    units: Units,
) -> Result<Answer, Failure> {
    let mut methods: Vec<Method> = planned.iter().map(|test| test.plan.method).collect();
    if outcome.is_some() && methods != [Method::AirSoap] {
        methods.push(Method::PressureDecay);
    }
    if let (Err(error), None) = (planned, outcome) {
        return Err(refused(error));
    }
    let dangers = cautions::of_test(tank, &methods);
    if object {
        let mut map = Map::new();
        map.insert("cautions".to_owned(), json!(cautions::json(&dangers)));
        map.insert(
            "test".to_owned(),
            match planned {
                Ok(test) => json(tank, test),
                Err(error) => json!({ "rule": rule_name(rule), "refused": error.to_string() }),
            },
        );
        if let Some(outcome) = outcome {
            map.insert("readings".to_owned(), readings::json(outcome));
        }
        return Ok(Answer::Object(Value::Object(map)));
    }
    let test = match planned {
        Ok(test) => lines(&facts(tank, test, units)),
        Err(error) => none(error),
    };
    Ok(Answer::Text(format!(
        "{}\n\nCautions\n{}\nLeak test\n{test}{}",
        tank.job().name(),
        cautions::text(&dangers),
        outcome.map_or_else(String::new, |outcome| readings::text(outcome, units))
    )))
}

/// A test as JSON.
#[must_use]
pub fn json(tank: &Tank, test: &Test) -> Value {
    let Test { vessel, plan, .. } = test;
    let mut map = Map::new();
    let mut put = |key: &str, value: Value| {
        map.insert(key.to_owned(), value);
    };
    put("rule", json!(rule_name(test.rule)));
    put("rule_source", json!(test.rule.source()));
    put("method", json!(plan.method.name()));
    put("reason", json!(plan.reason.text()));
    put("pressure_pa", json!(plan.pressure.si()));
    put("relief_pa", json!(plan.relief.si()));
    put("weakest_takes_pa", json!(vessel.weakest.si()));
    if let Ok((face, _)) = tank.takes() {
        put("weakest_face", json!(face.to_string()));
    }
    put("volume_m3", json!(vessel.volume.si()));
    put("head_m", json!(vessel.head.si()));
    put("water_level_m", json!(plan.water_level.si()));
    put("water_kg", json!(plan.water.si()));
    put("air_energy_j", json!(plan.energy.air.si()));
    put("air_energy_at_most_j", json!(plan.energy.air_at_most.si()));
    put("water_energy_j", json!(plan.energy.water.si()));
    put("largest_panel_m2", json!(vessel.panel.si()));
    put("force_n", json!(plan.force));
    put("hold_s", json!(plan.hold.si()));
    put("barometer_pa", json!(test.outside.si()));
    Value::Object(map)
}

/// The `leak_test` of the JSON plan.
#[must_use]
pub fn in_plan(tank: &Tank) -> Value {
    match plan(tank, Rule::default(), None, BAROMETER) {
        Ok(test) => json(tank, &test),
        Err(error) => json!({ "refused": error.to_string() }),
    }
}

/// Why there is no plan, as a failure of the command.
fn refused(error: &TestError) -> Failure {
    let help = match error {
        TestError::Strength(StrengthError::Unknown) => "name another alloy or temper under [stock]",
        TestError::Strength(_) => "change the job so that every wall can be judged",
        TestError::Leak(_) => {
            "another rule, thicker sheet, baffles closer together, or a head of water; see `plan` for what \
             would mend the weakest wall"
        }
    };
    Failure::input(format!("no test is proposed: {error}"), help)
}
