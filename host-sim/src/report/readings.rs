//! What the readings of a leak test come to.

use seamwright_core::leak::{Doubt, Instruments, Leak, LeakRate, Reading, ReadingError, Verdict};
use seamwright_core::tank::Tank;
use seamwright_core::units::{Pressure, Temperature, TemperatureUnit, Time, TimeUnit};
use serde_json::{Map, Value, json};

use super::Units;
use super::leak::lines;
use crate::failure::Failure;

/// What readings come to.
#[derive(Clone, Copy, Debug)]
pub struct Outcome {
    /// The leak.
    pub leak: Leak,
    /// The rate allowed.
    pub allowed: LeakRate,
    /// What may be said.
    pub verdict: Verdict,
    /// How long the test must last in all to tell, where that can be said.
    pub longer: Option<Time>,
    /// How near the instruments read: gauge, thermometer in kelvins, barometer.
    pub near: [f64; 3],
    /// Of the air at the first reading: it makes the rate a throughput.
    pub air: Temperature,
    /// The share of the gauge pressure that was gone, or added, by the last reading.
    pub changed: f64,
}

/// A rate is one at the pressure of the test while that changes by no more than this share: see [`Leak::of`].
const STEADY: f64 = 0.1;

/// Reads a test.
///
/// # Errors
/// What is wrong with the readings or the instruments.
pub fn read(
    tank: &Tank,
    readings: &[Reading],
    near: [f64; 3],
    allowed: impl Fn(Temperature) -> LeakRate,
) -> Result<Outcome, Failure> {
    let [gauge, kelvins, barometer] = near;
    let instruments = Instruments::new(
        Pressure::from_pascals(gauge),
        kelvins,
        Pressure::from_pascals(barometer),
    )
    .map_err(|error| {
        Failure::input(
            format!("the instruments cannot be: {error}"),
            "give --gauge-steps, --thermometer-near and --barometer-steps as they are on the instruments",
        )
    })?;
    let wrong = |error: ReadingError| {
        Failure::input(
            format!("the readings say nothing: {error}"),
            "readings go in the order of their times, each as \"TIME, GAUGE, AIR IN THE TANK, BAROMETER\"",
        )
    };
    let leak = Leak::of(tank.capacity().brim, readings, &instruments).map_err(wrong)?;
    let allowed = allowed(leak.air);
    let verdict = leak.judge(allowed).map_err(wrong)?;
    Ok(Outcome {
        leak,
        allowed,
        verdict,
        longer: leak.time_to_tell(allowed),
        near,
        air: leak.air,
        changed: match (readings.first(), readings.last()) {
            (Some(first), Some(last)) => (last.gauge.si() / first.gauge.si() - 1.0).abs(),
            _ => 0.0,
        },
    })
}

const fn verdict_name(verdict: Verdict) -> &'static str {
    match verdict {
        Verdict::Tight => "tight",
        Verdict::Leaks => "leaks",
        Verdict::CannotTell(_) => "cannot tell",
    }
}

/// What the readings come to, in words.
#[must_use]
pub fn text(outcome: &Outcome, units: Units) -> String {
    let Outcome { leak, allowed, .. } = outcome;
    let rate = |rate: LeakRate| {
        format!(
            "{:.3} sccm ({:.3e} Pa m³/s)",
            rate.sccm(),
            rate.throughput(outcome.air)
        )
    };
    let [gauge, kelvins, barometer] = outcome.near;
    let mut rows = vec![
        (
            "leak rate",
            format!("{}, temperature and barometer made good", rate(leak.rate)),
        ),
        (
            "uncertainty",
            format!("± {}, about 95 %", rate(leak.uncertainty)),
        ),
        ("by the gauge alone", rate(leak.gauge_only)),
        ("allowed", rate(*allowed)),
        (
            "air at the start",
            leak.air.display(TemperatureUnit::Celsius, 1).to_string(),
        ),
        (
            "lasted",
            leak.lasted.display(TimeUnit::Minute, 1).to_string(),
        ),
        (
            "instruments",
            format!(
                "gauge within {}, air within {kelvins} K, barometer within {}",
                units.pressure(Pressure::from_pascals(gauge)),
                units.pressure(Pressure::from_pascals(barometer))
            ),
        ),
    ];
    if leak.scattered {
        rows.push((
            "scatter",
            "more than the instruments explain: something moved that was not read; the uncertainty is that of \
             the scatter"
                .to_owned(),
        ));
    }
    if outcome.changed > STEADY {
        rows.push((
            "an average",
            format!(
                "the pressure changed by {:.0} % of itself, so this is no rate at the pressure of the start",
                100.0 * outcome.changed
            ),
        ));
    }
    rows.push(("verdict", outcome.verdict.text().to_owned()));
    if matches!(outcome.verdict, Verdict::CannotTell(Doubt::Unsure)) {
        rows.push((
            "would tell",
            match outcome.longer {
                Some(time) => format!(
                    "a test of {} in all, if the rate stays what it is",
                    time.display(TimeUnit::Minute, 0)
                ),
                None => "no time: the rate is as good as the allowed one; use finer instruments"
                    .to_owned(),
            },
        ));
    }
    if outcome.verdict == Verdict::Tight {
        rows.push((
            "mind",
            "tight says no more than this rate at this pressure; it approves nothing, and the rules that hold \
             where the tank is used go first"
                .to_owned(),
        ));
    }
    format!("\nReadings\n{}", lines(&rows))
}

/// The same as JSON.
#[must_use]
pub fn json(outcome: &Outcome) -> Value {
    let Outcome { leak, allowed, .. } = outcome;
    let mut map = Map::new();
    let mut put = |key: &str, value: Value| {
        map.insert(key.to_owned(), value);
    };
    for (key, rate) in [
        ("rate", leak.rate),
        ("uncertainty", leak.uncertainty),
        ("gauge_only", leak.gauge_only),
        ("allowed", *allowed),
    ] {
        put(&format!("{key}_mol_s"), json!(rate.moles()));
        put(&format!("{key}_sccm"), json!(rate.sccm()));
        put(
            &format!("{key}_pa_m3_s"),
            json!(rate.throughput(outcome.air)),
        );
    }
    put("lasted_s", json!(leak.lasted.si()));
    put("pressure_changed", json!(outcome.changed));
    put("scattered", json!(leak.scattered));
    put("verdict", json!(verdict_name(outcome.verdict)));
    put("says", json!(outcome.verdict.text()));
    if let Some(longer) = outcome.longer {
        put("would_tell_s", json!(longer.si()));
    }
    Value::Object(map)
}
