//! What the readings of a leak test come to.

use seamwright_core::leak::{
    Doubt, Instruments, Leak, LeakRate, LeakVerdict, Reading, ReadingError,
};
use seamwright_core::strength::{Compliance, JoinedWalls, Trial};
use seamwright_core::tank::Tank;
use seamwright_core::units::range::RangeError;
use seamwright_core::units::{Pressure, Ratio, Temperature, TemperatureUnit, Time, TimeUnit};

use super::Units;
use super::model::{Block, Section, said, word};
use crate::failure::Failure;

/// What readings come to.
#[derive(Clone, Copy, Debug)]
pub struct Outcome {
    /// The leak.
    pub leak: Leak,
    /// The rate allowed.
    pub allowed: LeakRate,
    /// What may be said.
    pub verdict: LeakVerdict,
    /// How long the test must last in all to tell, where that can be said.
    pub longer: Option<Time>,
    /// How near the instruments read.
    pub instruments: Instruments,
    /// It is known how its walls give way.
    pub walls_known: bool,
}

/// Reads a test.
///
/// # Errors
/// What is wrong with the readings or the instruments.
pub fn read(
    tank: &Tank,
    readings: &[Reading],
    instruments: Result<Instruments, RangeError>,
    allowed: impl Fn(Temperature) -> LeakRate,
) -> Result<Outcome, Failure> {
    let instruments = instruments
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
    let walls = tank.joined_walls(Trial::Test(Pressure::default()));
    let compliance = walls
        .as_ref()
        .map_or(Compliance::RIGID, JoinedWalls::compliance);
    let leak = Leak::of(tank.capacity().brim, compliance, readings, &instruments).map_err(wrong)?;
    let allowed = allowed(leak.air);
    let verdict = leak.judge(allowed).map_err(wrong)?;
    Ok(Outcome {
        leak,
        allowed,
        verdict,
        longer: leak.time_to_tell(allowed),
        instruments,
        walls_known: walls.is_ok(),
    })
}

const fn verdict_name(verdict: LeakVerdict) -> &'static str {
    match verdict {
        LeakVerdict::Tight => "tight",
        LeakVerdict::Leaks => "leaks",
        LeakVerdict::CannotTell(_) => "cannot tell",
    }
}

/// What the readings come to.
pub(super) fn section(outcome: &Outcome, units: Units) -> Section {
    let Outcome { leak, allowed, .. } = outcome;
    let mut section = Section::new("Readings").at(&["readings"]);
    section.add(Block::Facts {
        rows: Vec::new(),
        broken: true,
        head: None,
    });
    let mut fact = |name, key: &str, rate: LeakRate, [before, after]: [&str; 2]| {
        let (sccm, flow) = (rate.sccm(), rate.throughput(leak.air));
        let text = format!("{before}{sccm:.3} sccm ({flow:.3e} Pa m³/s){after}");
        let cell = said(text)
            .data(&format!("{key}_mol_s"), rate.moles())
            .data(&format!("{key}_sccm"), sccm)
            .data(&format!("{key}_pa_m3_s"), flow);
        section.fact(name, cell);
    };
    let good = ["", ", temperature and barometer made good"];
    fact("leak rate", "rate", leak.rate, good);
    let near = [
        "± ",
        ", while the instruments are off by no more than stated",
    ];
    fact("uncertainty", "uncertainty", leak.uncertainty, near);
    fact("by the gauge alone", "gauge_only", leak.gauge_only, [""; 2]);
    fact("allowed", "allowed", *allowed, [""; 2]);
    let air = leak.air.display(TemperatureUnit::Celsius, 1);
    section.fact("air at the start", air);
    let lasted = said(leak.lasted.display(TimeUnit::Minute, 1));
    section.fact("lasted", lasted.data("lasted_s", leak.lasted.si()));
    let near = &outcome.instruments;
    let instruments = format!(
        "gauge within {}, air within {} K, barometer within {}",
        units.pressure(near.gauge()),
        near.kelvins(),
        units.pressure(near.barometer())
    );
    section.fact("instruments", instruments);
    section.put("pressure_changed", leak.gauge_change.si());
    section.put("scattered", leak.scattered);
    judged(&mut section, outcome);
    section
}

/// What takes something from the rate, the verdict, and what that is worth.
fn judged(section: &mut Section, outcome: &Outcome) {
    if outcome.leak.scattered {
        section.fact(
            "scatter",
            "more than the instruments explain: something moved that was not read; the uncertainty has \
             the scatter in it, with 95 %",
        );
    }
    let [least, most] = outcome.leak.hidden.map(Ratio::si);
    let walls = if outcome.walls_known {
        said(format!(
            "they draw in as the pressure falls and hide {:.1} to {:.1} % of a leak from the gauge, which is counted",
            100.0 * least,
            100.0 * most
        ))
        .data("walls_hide_at_least", least)
        .data("walls_hide_at_most", most)
    } else {
        said(
            "taken as stiff, for what they bear is not known: walls that bulge less as the pressure falls hide a part of a leak, \
             up to a quarter in thin tanks",
        )
    };
    section.fact("walls", walls);
    if outcome.leak.is_average() {
        let told = format!(
            "the pressure changed by {:.0} % of itself, so this is no rate at the pressure of the start",
            100.0 * outcome.leak.gauge_change.si()
        );
        section.fact("an average", told);
    }
    let verdict = word("says", outcome.verdict.text());
    section.fact(
        "verdict",
        verdict.data("verdict", verdict_name(outcome.verdict)),
    );
    if let Some(longer) = outcome.longer {
        section.put("would_tell_s", longer.si());
    }
    if matches!(outcome.verdict, LeakVerdict::CannotTell(Doubt::Unsure)) {
        let told = match outcome.longer {
            Some(time) => format!(
                "a test of {} in all, if the rate stays what it is",
                time.display(TimeUnit::Minute, 0)
            ),
            None => {
                "no time: the rate is as good as the allowed one; use finer instruments".to_owned()
            }
        };
        section.fact("would tell", told);
    }
    if outcome.verdict == LeakVerdict::Tight {
        section.fact(
            "mind",
            "tight says no more than this rate at this pressure; it approves nothing, and the rules that hold \
             where the tank is used go first",
        );
    }
}
