//! Before the arc and beside it: preheat, the arc's true power, and how far its heat reaches.

use std::fmt::Write as _;

use seamwright_core::arc::uptake_band;
use seamwright_core::heat::moving::adams::Regime;
use seamwright_core::heat::moving::{Moving, Plate, Rosenthal, Source};
use seamwright_core::tables::{Process, preheat};
use seamwright_core::tank::Tank;
use seamwright_core::units::refuse::Refused;
use seamwright_core::units::{
    Angle, AngleUnit, CurrentUnit, Length, Ratio, RatioUnit, Temperature, TemperatureUnit,
    TimeUnit, VoltageUnit,
};
use serde_json::{Map, Value, json};

use super::Units;
use super::cited::Cited;
use super::plan::facts;
use super::table::wrapped;
use crate::job_file::Extras;

const ROSENTHAL: &str =
    "D. Rosenthal, Trans. ASME 68 (1946): a steady arc over sheet without end (from memory)";
const METHOD_C: &str = "the mean of voltage times current at each instant: ISO/TR 18491:2015, method C; ASME IX QW-409.1(c) (both from memory)";

/// Temperatures whose reach is told, in °C.
const REACHED: [f64; 3] = [400.0, 300.0, 200.0];
/// Signs in a line.
const WIDE: usize = 100;

const fn regime_name(regime: Regime) -> &'static str {
    match regime {
        Regime::Thin => "thin",
        Regime::RatherThin => "rather thin",
        Regime::RatherThick => "rather thick",
        Regime::Thick => "thick",
    }
}

/// The arc over the job's main sheet.
struct Over {
    moving: Moving,
    regime: Regime,
    field: Rosenthal,
}

fn over(tank: &Tank, uptake: Ratio) -> Result<Over, Refused> {
    let job = tank.job();
    let alloy = job.alloy();
    let plate = Plate {
        thickness: job.thickness(),
        conductivity: alloy.conductivity(job.temper()).value,
        heat_capacity: alloy.density() * alloy.metal().heat_capacity().value,
        start: job.welding().ambient,
    };
    let source = Source {
        power: tank.arc().power() * uptake.si(),
        travel: tank.arc().travel,
    };
    let moving = Moving::new(source, plate)?;
    let regime = moving.regime(alloy.metal().solidus().value)?;
    let field = if regime.is_thin() {
        moving.thin(2)?
    } else {
        // A seam on one face of metal that fills half of all about it.
        moving.thick(Angle::new(180.0, AngleUnit::Degree))?
    };
    Ok(Over {
        moving,
        regime,
        field,
    })
}

/// Half the width of the band that gets this hot: how far from the line of the seam.
fn reach(field: &Rosenthal, at: Temperature) -> Option<Length> {
    let width = field.width_above(at).ok()?;
    Some(Length::from_metres(0.5 * width.si()))
}

fn celsius(value: f64) -> Temperature {
    Temperature::new(value, TemperatureUnit::Celsius)
}

pub(super) fn text(tank: &Tank, extras: &Extras, units: Units, cited: &mut Cited) -> String {
    let mut rows = preheat_rows(tank, units, cited);
    rows.extend(wave_rows(tank, extras, cited));
    let mut out = String::new();
    match moving_rows(tank, units, cited) {
        Ok(more) => rows.extend(more),
        Err(error) => {
            let _ = writeln!(out, "  {}", wrapped(&format!("no field: {error}"), WIDE, 4));
        }
    }
    out.insert_str(0, &facts(&rows));
    out
}

fn preheat_rows(tank: &Tank, units: Units, cited: &mut Cited) -> Vec<(&'static str, String)> {
    let job = tank.job();
    let (alloy, welding) = (job.alloy(), job.welding());
    let degrees = |at| units.temperature(at);
    let least = preheat::least_temperature(alloy);
    let cold = if welding.ambient < least.value {
        format!(
            "; the job's {} is colder: warm and dry it",
            degrees(welding.ambient)
        )
    } else {
        String::new()
    };
    let mut rows = vec![(
        "before the first arc",
        format!(
            "at least {} {}{cold}",
            degrees(least.value),
            cited.mark(least.source.text())
        ),
    )];
    let preheat = match preheat::preheat_limit(alloy) {
        Some(limit) => format!(
            "none is needed in sheet; at most {} {}",
            degrees(limit.value),
            cited.mark(limit.source.text())
        ),
        None => "none".to_owned(),
    };
    rows.push(("preheat", preheat));
    let limit = preheat::interpass_limit(alloy);
    let own = tank.interpass_max();
    let verdict = if own > limit.value {
        format!("; the job's {} is above it", degrees(own))
    } else if own < limit.value {
        format!("; the job keeps to {}", degrees(own))
    } else {
        String::new()
    };
    rows.push((
        "between stitches",
        format!(
            "at most {} {}{verdict}",
            degrees(limit.value),
            cited.mark(limit.source.text())
        ),
    ));
    if let Some(hold) = preheat::hold_limit(alloy) {
        let mark = cited.mark(hold.source.text());
        let time = hold.value.display(TimeUnit::Minute, 0);
        rows.push(("held there", format!("at most {time} in all {mark}")));
    }
    if let Some(avoid) = preheat::avoid(alloy) {
        let [from, to] = avoid.value.map(degrees);
        let mark = cited.mark(avoid.source.text());
        rows.push(("not to be kept at", format!("{from} to {to} {mark}")));
    }
    rows
}

fn wave_rows(tank: &Tank, extras: &Extras, cited: &mut Cited) -> Vec<(&'static str, String)> {
    let mut rows = Vec::new();
    let Some(wave) = extras.wave.filter(|_| tank.arc().process == Process::TigAc) else {
        return rows;
    };
    let mut says = format!(
        "square, {} of the time with the electrode negative",
        wave.balance.display(RatioUnit::Percent, 0)
    );
    if let Some(hertz) = wave.frequency {
        let negative = wave.balance.si() / hertz * 1e3;
        let positive = (1.0 - wave.balance.si()) / hertz * 1e3;
        let _ = write!(
            says,
            ", at {hertz} Hz: {negative:.2} ms and {positive:.2} ms of each cycle"
        );
    }
    rows.push(("wave", says));
    if let Some(cycle) = wave.cycle {
        let own = tank.arc().power();
        let apart = (cycle.power() / own - 1.0).abs() > 0.05;
        rows.push((
            "true power of it",
            format!(
                "{:.0} W {}; the job's current times voltage is {own:.0} W{}",
                cycle.power(),
                cited.mark(METHOD_C),
                if apart {
                    ", which is what the plan reckons with"
                } else {
                    ""
                }
            ),
        ));
        rows.push((
            "so for this file",
            format!(
                "current {}, voltage {}: their product is the true power",
                cycle.mean_current().display(CurrentUnit::Ampere, 1),
                cycle.effective_voltage().display(VoltageUnit::Volt, 2)
            ),
        ));
    }
    rows
}

fn moving_rows(
    tank: &Tank,
    units: Units,
    cited: &mut Cited,
) -> Result<Vec<(&'static str, String)>, Refused> {
    let job = tank.job();
    let uptake = job.welding().uptake;
    let over_sheet = over(tank, uptake)?;
    let solidus = job.alloy().metal().solidus();
    let percent = |share: Ratio| share.display(RatioUnit::Percent, 0);
    let [low, high] = uptake_band(tank.arc().process);
    let width = |uptake: Ratio| {
        let over = over(tank, uptake)?;
        over.field.width_above(solidus.value)
    };
    let tau = over_sheet.moving.relative_thickness(solidus.value)?;
    let mut rows = vec![
        (
            "heat to the metal",
            format!(
                "{:.0} W, {} of the arc's",
                tank.arc().power() * uptake.si(),
                percent(uptake)
            ),
        ),
        (
            "the sheet is",
            format!(
                "{}, relative thickness {tau:.2}",
                regime_name(over_sheet.regime)
            ),
        ),
        (
            "molten band",
            format!(
                "{} wide, {} to {} for {} to {} of the arc's heat: a check of the settings, no bead's size {}{}",
                units.fine(width(uptake)?),
                units.fine(width(low)?),
                units.fine(width(high)?),
                percent(low),
                percent(high),
                cited.mark(ROSENTHAL),
                cited.mark(solidus.source.text())
            ),
        ),
    ];
    let reached: Vec<String> = REACHED
        .iter()
        .filter_map(|at| {
            let at = celsius(*at);
            let far = reach(&over_sheet.field, at)?;
            Some(format!(
                "{} {} away",
                units.temperature(at),
                units.length(far)
            ))
        })
        .collect();
    rows.push((
        "the sheet reaches",
        format!("{}: at the first stitch, in cold sheet", reached.join(", ")),
    ));
    Ok(rows)
}

pub(super) fn json(tank: &Tank, extras: &Extras) -> Map<String, Value> {
    let mut map = Map::new();
    let job = tank.job();
    let alloy = job.alloy();
    let degrees = |at: Temperature| at.in_unit(TemperatureUnit::Celsius);
    let least = preheat::least_temperature(alloy);
    let interpass = preheat::interpass_limit(alloy);
    let mut before = json!({
        "least_c": degrees(least.value),
        "least_source": least.source.text(),
        "interpass_most_c": degrees(interpass.value),
        "interpass_source": interpass.source.text(),
        "own_interpass_c": degrees(tank.interpass_max()),
        "ambient_c": degrees(job.welding().ambient),
    });
    if let Some(before) = before.as_object_mut() {
        if let Some(limit) = preheat::preheat_limit(alloy) {
            before.insert("preheat_most_c".to_owned(), json!(degrees(limit.value)));
            before.insert("preheat_source".to_owned(), json!(limit.source.text()));
        }
        if let Some(hold) = preheat::hold_limit(alloy) {
            before.insert("held_most_s".to_owned(), json!(hold.value.si()));
        }
        if let Some(avoid) = preheat::avoid(alloy) {
            before.insert("avoid_c".to_owned(), json!(avoid.value.map(degrees)));
        }
    }
    map.insert("preheat".to_owned(), before);
    if let Some(wave) = extras.wave {
        let mut one = Map::new();
        one.insert("balance".to_owned(), json!(wave.balance.si()));
        if let Some(hertz) = wave.frequency {
            one.insert("frequency_hz".to_owned(), json!(hertz));
        }
        if let Some(cycle) = wave.cycle {
            one.insert("power_w".to_owned(), json!(cycle.power()));
            one.insert(
                "mean_current_a".to_owned(),
                json!(cycle.mean_current().si()),
            );
            one.insert("rms_current_a".to_owned(), json!(cycle.rms_current().si()));
            one.insert("rms_voltage_v".to_owned(), json!(cycle.rms_voltage().si()));
            one.insert(
                "effective_voltage_v".to_owned(),
                json!(cycle.effective_voltage().si()),
            );
        }
        map.insert("wave".to_owned(), Value::Object(one));
    }
    if let Ok(moving) = moving_json(tank) {
        map.insert("moving_source".to_owned(), moving);
    }
    map
}

fn moving_json(tank: &Tank) -> Result<Value, Refused> {
    let job = tank.job();
    let uptake = job.welding().uptake;
    let over_sheet = over(tank, uptake)?;
    let solidus = job.alloy().metal().solidus().value;
    let mut band = Vec::new();
    for share in uptake_band(tank.arc().process) {
        band.push(json!([
            share.si(),
            over(tank, share)?.field.width_above(solidus)?.si()
        ]));
    }
    let reached: Vec<Value> = REACHED
        .iter()
        .filter_map(|at| {
            let far = reach(&over_sheet.field, celsius(*at))?;
            Some(json!({ "temperature_c": at, "distance_m": far.si() }))
        })
        .collect();
    Ok(json!({
        "power_w": tank.arc().power() * uptake.si(),
        "uptake": uptake.si(),
        "regime": regime_name(over_sheet.regime),
        "relative_thickness": over_sheet.moving.relative_thickness(solidus)?,
        "molten_width_m": over_sheet.field.width_above(solidus)?.si(),
        "molten_width_by_uptake": band,
        "reaches": reached,
        "source": ROSENTHAL,
    }))
}
