//! The `leak` command.

use clap::{Args, ValueEnum};
use seamwright_core::leak::{
    BAROMETER, Instruments, LeakRule, USUAL_BAROMETER_STEP, USUAL_THERMOMETER,
};
use seamwright_core::units::{Length, Pressure};

use super::{answer, computed, option};
use crate::failure::Failure;
use crate::readings;
use crate::report::leak::Asked;
use crate::report::{self, Units};

#[derive(Debug, Args)]
pub(super) struct Arguments {
    /// The job file, or - for standard input
    job: String,
    /// The rule that it is tested by
    #[arg(long, value_enum, default_value_t)]
    rule: RuleName,
    /// How high over the lowest inside point filler or vent overflow, where they rise above the tank
    #[arg(long)]
    overflow: Option<String>,
    /// The barometer at the tank; one atmosphere where nobody has read it
    #[arg(long)]
    barometer: Option<String>,
    /// Time, gauge, air in the tank and barometer, as "0 min, 20.0 kPa, 21.3 °C, 1013 hPa"; two or more
    #[arg(long, value_name = "READING", requires_all = ["gauge_steps", "allow"])]
    reading: Vec<String>,
    /// The smallest step that the gauge is read to, such as "0.1 kPa"
    #[arg(long, value_name = "PRESSURE", requires = "reading")]
    gauge_steps: Option<String>,
    /// How near the thermometer tells the air in the tank, such as "0.5 K"; 0.5 K where nobody says
    #[arg(long, value_name = "DIFFERENCE", requires = "reading")]
    thermometer_near: Option<String>,
    /// The smallest step that the barometer is read to; 1 hPa where nobody says
    #[arg(long, value_name = "PRESSURE", requires = "reading")]
    barometer_steps: Option<String>,
    /// The leak rate that is allowed, such as "2 sccm" or "0.003 Pa m³/s"
    #[arg(long, value_name = "RATE", requires = "reading")]
    allow: Option<String>,
    /// Print one JSON object in SI units instead of a report
    #[arg(long)]
    json: bool,
    /// The units of the report
    #[arg(long, value_enum, default_value_t)]
    units: Units,
}

/// A rule that a tank is tested by.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, ValueEnum)]
enum RuleName {
    /// No published rule: 1.5 times the tank's own head
    #[default]
    OwnHead,
    /// Fuel system of a boat, United States: 33 CFR 183.542
    BoatFuelUs,
    /// Diesel tank apart from the hull, United States: 46 CFR 58.50-10
    DieselUs,
    /// Diesel tank that is part of the hull, United States: 46 CFR 119.435
    IntegralDieselUs,
    /// Fuel tank of a small craft, European Union and United Kingdom: ISO 21487
    SmallCraft,
    /// Leak test after repair, light aircraft
    LightAircraft,
}

impl From<RuleName> for LeakRule {
    fn from(name: RuleName) -> Self {
        match name {
            RuleName::OwnHead => Self::OwnHead,
            RuleName::BoatFuelUs => Self::BoatFuelUs,
            RuleName::DieselUs => Self::DieselUs,
            RuleName::IntegralDieselUs => Self::IntegralDieselUs,
            RuleName::SmallCraft => Self::SmallCraft,
            RuleName::LightAircraft => Self::LightAircraft,
        }
    }
}

/// Runs it.
pub(super) fn leak(arguments: &Arguments) -> Result<(), Failure> {
    let given = |name, text: &Option<String>| -> Result<Option<Pressure>, Failure> {
        text.as_deref().map(|text| option(name, text)).transpose()
    };
    let overflow: Option<Length> = arguments
        .overflow
        .as_deref()
        .map(|text| option("--overflow", text))
        .transpose()?;
    let outside = given("--barometer", &arguments.barometer)?;
    let readings = arguments
        .reading
        .iter()
        .map(|text| readings::reading(text))
        .collect::<Result<Vec<_>, Failure>>()?;
    let tank = computed(&arguments.job)?;
    let rule = LeakRule::from(arguments.rule);
    let asked = Asked {
        rule,
        overflow,
        outside: outside.unwrap_or(BAROMETER),
    };
    let planned = report::leak::plan(&tank, asked);
    let outcome = match (&arguments.gauge_steps, &arguments.allow) {
        (Some(steps), Some(allow)) => {
            let gauge: Pressure = option("--gauge-steps", steps)?;
            let kelvins = match &arguments.thermometer_near {
                Some(text) => readings::kelvins("--thermometer-near", text)?,
                None => USUAL_THERMOMETER,
            };
            let barometer = given("--barometer-steps", &arguments.barometer_steps)?
                .unwrap_or(USUAL_BAROMETER_STEP);
            let instruments = Instruments::of_steps(gauge, kelvins, barometer);
            let allow = readings::Rate::parse("--allow", allow)?;
            Some(report::readings::read(
                &tank,
                &readings,
                instruments,
                |air| allow.of_air(air),
            )?)
        }
        _ => None,
    };
    let units = arguments.units;
    let sections = report::leak::answer(&tank, &asked, &planned, outcome.as_ref(), units)?;
    answer(&sections, arguments.json)
}
