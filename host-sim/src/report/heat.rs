//! Before the arc and beside it: preheat, the arc's true power, and how far its heat reaches.

use seamwright_core::arc::power::Wave;
use seamwright_core::arc::uptake_band;
use seamwright_core::heat::InterpassChoice;
use seamwright_core::heat::moving::adams::Regime;
use seamwright_core::tables::{
    PLAIN_EQUIVALENT, Process, carbon_equivalent, preheat, softened_width,
};
use seamwright_core::tank::Tank;
use seamwright_core::units::range::RangeError;
use seamwright_core::units::{
    CurrentUnit, PowerUnit, Ratio, RatioUnit, Temperature, TemperatureUnit, TimeUnit, VoltageUnit,
};
use serde_json::json;

use super::Units;
use super::cited::Cited;
use super::model::{Cell, Data, Section, said};
use crate::job_file::Extras;

const ROSENTHAL: &str =
    "D. Rosenthal, Trans. ASME 68 (1946): a steady arc over sheet without end (from memory)";
const METHOD_C: &str = "the mean of voltage times current at each instant: ISO/TR 18491:2015, method C; ASME IX QW-409.1(c) (both from memory)";

/// Temperatures whose reach is told, in °C.
const REACHED: [f64; 3] = [400.0, 300.0, 200.0];

const fn regime_name(regime: Regime) -> &'static str {
    match regime {
        Regime::Thin => "thin",
        Regime::RatherThin => "rather thin",
        Regime::RatherThick => "rather thick",
        Regime::Thick => "thick",
    }
}

fn celsius(value: f64) -> Temperature {
    Temperature::new(value, TemperatureUnit::Celsius)
}

fn degrees(at: Temperature) -> f64 {
    at.in_unit(TemperatureUnit::Celsius)
}

pub(super) fn section(tank: &Tank, extras: &Extras, units: Units, cited: &mut Cited) -> Section {
    let mut section = Section::new("Heat about the seam").at(&["settings"]);
    preheat(&mut section, tank, units, cited);
    softened(&mut section, tank, units, cited);
    if let Some(one) = &extras.wave {
        if tank.arc().process == Process::TigAc {
            wave(&mut section, tank, one, cited);
        }
        section.put("wave", wave_data(one));
    }
    if let Err(error) = moving(&mut section, tank, units, cited) {
        section.line(format!("no field: {error}"));
    }
    section
}

fn preheat(section: &mut Section, tank: &Tank, units: Units, cited: &mut Cited) {
    let job = tank.job();
    let (alloy, ambient, own) = (job.alloy(), job.welding().ambient, tank.interpass_max());
    let shown = |at| units.temperature(at);
    let mut fact = |name, cell: Cell| section.fact(name, cell.under("preheat"));
    let least = preheat::least_temperature(alloy);
    let cold = if tank.is_too_cold() {
        format!("; the job's {} is colder: warm and dry it", shown(ambient))
    } else {
        String::new()
    };
    let mark = cited.mark(least.source.text());
    let told = said(format!("at least {} {mark}{cold}", shown(least.value)))
        .data("least_c", degrees(least.value))
        .data("least_source", least.source.text())
        .data("ambient_c", degrees(ambient));
    fact("before the first arc", told);
    let told = match preheat::preheat_limit(alloy) {
        Some(limit) => {
            let (most, mark) = (shown(limit.value), cited.mark(limit.source.text()));
            said(format!("none is needed in sheet; at most {most} {mark}"))
                .data("preheat_most_c", degrees(limit.value))
                .data("preheat_source", limit.source.text())
        }
        None => said("none"),
    };
    fact("preheat", told);
    if let Some(most) = carbon_equivalent(alloy) {
        let mark = cited.mark(most.source.text());
        let plain = cited.mark(PLAIN_EQUIVALENT.source.text());
        let shown = |share: Ratio| share.display(RatioUnit::Percent, 2);
        let told = if most.value > PLAIN_EQUIVALENT.value {
            format!(
                "at most {} {mark}: above {}, up to which sheet wants no preheat {plain}; ask EN 1011-2 for thick or held joints",
                shown(most.value),
                shown(PLAIN_EQUIVALENT.value)
            )
        } else {
            format!(
                "at most {} {mark}: sheet wants no preheat up to {} {plain}",
                shown(most.value),
                shown(PLAIN_EQUIVALENT.value)
            )
        };
        fact(
            "carbon equivalent",
            said(told).data("carbon_equivalent_most", most.value.si()),
        );
    }
    let limit = preheat::interpass_limit(alloy);
    let verdict = match tank.interpass_choice() {
        InterpassChoice::Above => format!("; the job's {} is above it", shown(own)),
        InterpassChoice::Below => format!("; the job keeps to {}", shown(own)),
        InterpassChoice::AsPublished => String::new(),
    };
    let mark = cited.mark(limit.source.text());
    let told = said(format!("at most {} {mark}{verdict}", shown(limit.value)))
        .data("interpass_most_c", degrees(limit.value))
        .data("interpass_source", limit.source.text())
        .data("own_interpass_c", degrees(own));
    fact("between stitches", told);
    if let Some(hold) = preheat::hold_limit(alloy) {
        let mark = cited.mark(hold.source.text());
        let time = hold.value.display(TimeUnit::Minute, 0);
        let told = said(format!("at most {time} in all {mark}"));
        fact("held there", told.data("held_most_s", hold.value.si()));
    }
    if let Some(avoid) = preheat::avoid(alloy) {
        let [from, to] = avoid.value.map(shown);
        let mark = cited.mark(avoid.source.text());
        let told = said(format!("{from} to {to} {mark}"));
        fact(
            "not to be kept at",
            told.data("avoid_c", avoid.value.map(degrees)),
        );
    }
}

/// How far beside the seams an aluminium sheet is softened, with metal as warm as the job lets it be.
fn softened(section: &mut Section, tank: &Tank, units: Units, cited: &mut Cited) {
    let (job, own) = (tank.job(), tank.interpass_max());
    let process = tank.arc().process;
    let family = job.alloy().family();
    let Some(width) = softened_width(process, family, job.thickness(), own) else {
        return;
    };
    let mark = cited.mark(width.source.text());
    let (wide, warm) = (units.length(width.value), units.temperature(own));
    let told = said(format!(
        "{wide} to each side, where a run starts at up to {warm} {mark}"
    ));
    section.fact("softened zone", told.data("softened_m", width.value.si()));
}

fn wave(section: &mut Section, tank: &Tank, wave: &Wave, cited: &mut Cited) {
    let balance = wave.balance.display(RatioUnit::Percent, 0);
    let cycle = wave.frequency.zip(wave.halves()).map(|(hertz, halves)| {
        let [negative, positive] = halves.map(|half| half.si() * 1e3);
        format!(", at {hertz} Hz: {negative:.2} ms and {positive:.2} ms of each cycle")
    });
    let cycle = cycle.unwrap_or_default();
    section.fact(
        "wave",
        format!("square, {balance} of the time with the electrode negative{cycle}"),
    );
    let Some(cycle) = wave.cycle else { return };
    let [own, power] =
        [tank.arc().power(), cycle.power()].map(|power| power.display(PowerUnit::Watt, 0));
    let apart = if cycle.departs_from(tank.arc()) {
        ", which is what the plan reckons with"
    } else {
        ""
    };
    let mark = cited.mark(METHOD_C);
    section.fact(
        "true power of it",
        format!("{power} {mark}; the job's current times voltage is {own}{apart}"),
    );
    let current = cycle.mean_current().display(CurrentUnit::Ampere, 1);
    let voltage = cycle.effective_voltage().display(VoltageUnit::Volt, 2);
    section.fact(
        "so for this file",
        format!("current {current}, voltage {voltage}: their product is the true power"),
    );
}

fn wave_data(wave: &Wave) -> Data {
    let cell = Cell::default()
        .data("balance", wave.balance.si())
        .maybe("frequency_hz", wave.frequency);
    let Some(cycle) = wave.cycle else {
        return cell.data;
    };
    let cell = cell
        .data("power_w", cycle.power().si())
        .data("mean_current_a", cycle.mean_current().si())
        .data("rms_current_a", cycle.rms_current().si())
        .data("rms_voltage_v", cycle.rms_voltage().si())
        .data("effective_voltage_v", cycle.effective_voltage().si());
    cell.data
}

fn moving(
    section: &mut Section,
    tank: &Tank,
    units: Units,
    cited: &mut Cited,
) -> Result<(), RangeError> {
    let job = tank.job();
    let uptake = job.welding().uptake;
    let field = tank.field_about_seam(uptake)?;
    let solidus = job.alloy().metal().solidus();
    let percent = |share: Ratio| share.display(RatioUnit::Percent, 0);
    let [low, high] = uptake_band(tank.arc().process);
    let width = |uptake: Ratio| tank.field_about_seam(uptake)?.molten_width();
    let (wide, least, most) = (field.molten_width()?, width(low)?, width(high)?);
    let tau = field.relative_thickness()?.si();
    let mut fact = |name, cell: Cell| section.fact(name, cell.under("moving_source"));

    let power = field.power();
    let told = said(format!(
        "{}, {} of the arc's",
        power.display(PowerUnit::Watt, 0),
        percent(uptake)
    ))
    .data("power_w", power.si())
    .data("uptake", uptake.si());
    fact("heat to the metal", told);
    let regime = regime_name(field.regime());
    let told = said(format!("{regime}, relative thickness {tau:.2}"))
        .data("regime", regime)
        .data("relative_thickness", tau);
    fact("the sheet is", told);
    let molten = format!(
        "{} wide, {} to {} for {} to {} of the arc's heat: a check of the settings, no bead's size {}{}",
        units.fine(wide),
        units.fine(least),
        units.fine(most),
        percent(low),
        percent(high),
        cited.mark(ROSENTHAL),
        cited.mark(solidus.source.text())
    );
    let by_uptake = [[low.si(), least.si()], [high.si(), most.si()]];
    let told = said(molten)
        .data("molten_width_m", wide.si())
        .data("molten_width_by_uptake", json!(by_uptake))
        .data("source", ROSENTHAL);
    fact("molten band", told);
    let (mut reached, mut reaches) = (Vec::new(), Vec::new());
    for at in REACHED {
        if let Some(far) = field.reach(celsius(at)) {
            let (hot, away) = (units.temperature(celsius(at)), units.length(far));
            reached.push(format!("{hot} {away} away"));
            reaches.push(json!({ "temperature_c": at, "distance_m": far.si() }));
        }
    }
    let reached = reached.join(", ");
    let told = said(format!("{reached}: at the first stitch, in cold sheet"));
    fact("the sheet reaches", told.data("reaches", reaches));
    Ok(())
}
