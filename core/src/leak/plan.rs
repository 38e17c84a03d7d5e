//! How a tank is tested: by what, why so, and at what pressure.

use super::decay::{HIGHEST, above, barometer, range, volume};
use super::{
    Decay, Instruments, LeakError, LeakRate, MEASURE, Medium, Rule, StoredEnergy, WATER, What,
    force, head_for, hold, pressure_under,
};
use crate::units::range::{Limit, OutOfRange, Value};
use crate::units::{Area, Energy, Length, Mass, Pressure, Temperature, Time, Volume};

/// No test with air is proposed above this: the 35 kPa (5 psi) at which 46 CFR 119.435 goes to water.
pub const AIR_MOST: Pressure = Pressure::from_pascals(35_000.0);
/// No test with air is proposed that stores more: above 100 kJ a university's safety office calls stored
/// energy highly hazardous.
pub const ENERGY_MOST: Energy = Energy::from_joules(100_000.0);
/// A decay that takes longer is not proposed: the air in a shop does not stay as it is for longer than an
/// hour (common practice, no source).
pub const LONGEST: Time = Time::from_seconds(3_600.0);

/// The relief valve opens at this multiple of the test pressure, or at what the weakest panel takes where
/// that comes first (common practice, no source).
const RELIEF: f64 = 1.1;

/// How a leak is found.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum Method {
    /// Filled with water, with more in a standpipe where the pressure asks for it; the seams are watched.
    WaterHead,
    /// Air of low pressure, and soap on the seams.
    AirSoap,
    /// Air of low pressure, and a gauge that is read over a time.
    PressureDecay,
}

impl Method {
    /// The words for it.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::WaterHead => "head of water",
            Self::AirSoap => "low air and soap",
            Self::PressureDecay => "pressure decay",
        }
    }
}

/// Why a method was chosen.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum Reason {
    /// The rule asks for air or inert gas.
    RuleGas,
    /// The rule asks for water.
    RuleWater,
    /// Water stores next to nothing.
    WaterSafest,
    /// The pressure is low enough for air, and the tank should stay dry.
    LowAndDry,
    /// A leak rate in figures was asked for, and the gauge shows it in time.
    Figure,
    /// A leak rate was asked for, but the gauge would take too long; so the place is looked for instead.
    TooSlow,
}

impl Reason {
    /// The reason in words.
    #[must_use]
    pub const fn text(self) -> &'static str {
        match self {
            Self::RuleGas => "the rule asks for air or inert gas",
            Self::RuleWater => "the rule asks for water",
            Self::WaterSafest => "water stores next to nothing if a seam gives",
            Self::LowAndDry => "at 1/2 psi or less air and soap do, and the tank stays dry",
            Self::Figure => "a leak rate was asked for, and the gauge shows it in time",
            Self::TooSlow => "a gauge takes over an hour to show that leak here: look for it",
        }
    }
}

/// A leak that a gauge should show, and what it is read with.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Sought {
    /// The leak.
    pub leak: LeakRate,
    /// How near the instruments read.
    pub instruments: Instruments,
    /// Of the air in the tank.
    pub temperature: Temperature,
}

/// What a leak test must know of a tank.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Vessel {
    /// All that it holds.
    pub volume: Volume,
    /// From the lowest to the highest inside point, as it stands for the test.
    pub height: Length,
    /// From the lowest point to where it overflows: the top of the filler or of the vent, at least the
    /// height.
    pub head: Length,
    /// The panel with the largest area.
    pub panel: Area,
    /// The even gauge pressure that its weakest panel takes.
    pub weakest: Pressure,
    /// Of the liquid it is for, in kg/m³, 500 to 2000.
    pub density: f64,
    /// It should see no water: it is for fuel or oil.
    pub keep_dry: bool,
}

/// How a tank is tested.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Plan {
    /// By what.
    pub method: Method,
    /// Why.
    pub reason: Reason,
    /// Gauge pressure: of the air, or of the water at the lowest point.
    pub pressure: Pressure,
    /// Where the relief valve opens; above the pressure, unless the weakest panel takes no more.
    pub relief: Pressure,
    /// The top of a column of water over the lowest point that makes this pressure: for a head of water,
    /// the standpipe; for air, a water manometer that lets it off before any panel does.
    pub water_level: Length,
    /// Of the tank full of water; the bench must carry it.
    pub water: Mass,
    /// What air at this pressure stores, and water.
    pub energy: StoredEnergy,
    /// On the largest panel, in newtons.
    pub force: f64,
    /// How long it stands before the seams are looked over.
    pub hold: Time,
    /// How long a gauge takes to show the leak that was sought; `None` where none was.
    pub decay: Option<Time>,
}

impl Vessel {
    /// The test by a rule, with the barometer as it stands; by a gauge where a leak rate is sought, the
    /// rule leaves the choice and the gauge is quick enough.
    ///
    /// # Errors
    /// [`LeakError`] names a figure that is out of range, and refuses a pressure above what the weakest
    /// panel takes, or air above [`AIR_MOST`] or [`ENERGY_MOST`].
    pub fn plan(
        &self,
        rule: Rule,
        outside: Pressure,
        sought: Option<&Sought>,
    ) -> Result<Plan, LeakError> {
        self.check()?;
        barometer(outside)?;
        let mut pressure = rule.pressure(pressure_under(self.head, self.density));
        if matches!(rule, Rule::LightAircraft) {
            // A most, so that a tank that takes less is tested with less.
            pressure = least(pressure, self.weakest);
        }
        let decay = match sought {
            Some(sought) => Some(
                Decay::new(self.volume, pressure, outside, sought.temperature)?.time_to_see(
                    sought.leak,
                    &sought.instruments,
                    MEASURE,
                )?,
            ),
            None => None,
        };
        let (method, reason) = self.choose(rule, pressure, decay);
        if matches!(method, Method::WaterHead) {
            // The highest seam must be wet too.
            let full = pressure_under(self.height, WATER);
            pressure = Pressure::from_pascals(libm::fmax(pressure.si(), full.si()));
        }
        at_most(pressure, self.weakest, Value::Pressure).map_err(LeakError::TooWeak)?;
        let energy = StoredEnergy::new(self.volume, pressure, outside)?;
        if !matches!(method, Method::WaterHead) {
            at_most(pressure, AIR_MOST, Value::Pressure).map_err(LeakError::TooMuchAir)?;
            at_most(energy.air, ENERGY_MOST, Value::Energy).map_err(LeakError::TooMuchEnergy)?;
        }
        let relief = Pressure::from_pascals(RELIEF * pressure.si());
        Ok(Plan {
            method,
            reason,
            pressure,
            relief: least(relief, self.weakest),
            water_level: head_for(pressure, WATER),
            water: Mass::from_kilograms(self.volume.si() * WATER),
            energy,
            force: force(pressure, self.panel),
            hold: hold(self.volume),
            decay,
        })
    }

    fn choose(&self, rule: Rule, pressure: Pressure, decay: Option<Time>) -> (Method, Reason) {
        match rule.medium() {
            Medium::Gas => return (Method::AirSoap, Reason::RuleGas),
            Medium::Water => return (Method::WaterHead, Reason::RuleWater),
            Medium::Either => {}
        }
        let low = self.keep_dry && pressure <= Rule::AIRCRAFT;
        match decay {
            Some(time) if time <= LONGEST && pressure <= AIR_MOST => {
                (Method::PressureDecay, Reason::Figure)
            }
            Some(time) if !(time <= LONGEST) => {
                let method = if low {
                    Method::AirSoap
                } else {
                    Method::WaterHead
                };
                (method, Reason::TooSlow)
            }
            _ if low => (Method::AirSoap, Reason::LowAndDry),
            _ => (Method::WaterHead, Reason::WaterSafest),
        }
    }

    fn check(&self) -> Result<(), LeakError> {
        let (none, most) = (Length::from_metres(0.0), Length::from_metres(100.0));
        volume(self.volume)?;
        above(self.height, none, most, Value::Length).map_err(range(What::Height))?;
        // The height of a tank that overflows at its highest point may differ in its last bits.
        if !(self.head.si() >= self.height.si() * (1.0 - 1e-9) && self.head <= most) {
            return Err(LeakError::Range {
                what: What::Head,
                error: OutOfRange {
                    value: Value::Length(self.head),
                    limit: Limit::AtLeast(Value::Length(self.height)),
                },
            });
        }
        let (none, most) = (Area::from_square_metres(0.0), Area::from_square_metres(1e4));
        above(self.panel, none, most, Value::Area).map_err(range(What::Panel))?;
        let none = Pressure::from_pascals(0.0);
        above(self.weakest, none, HIGHEST, Value::Pressure).map_err(range(What::Weakest))?;
        if !(self.density >= 500.0 && self.density <= 2_000.0) {
            return Err(LeakError::Density(self.density));
        }
        Ok(())
    }
}

fn least(a: Pressure, b: Pressure) -> Pressure {
    Pressure::from_pascals(libm::fmin(a.si(), b.si()))
}

fn at_most<T: Copy + PartialOrd>(
    value: T,
    most: T,
    show: fn(T) -> Value,
) -> Result<(), OutOfRange> {
    if value <= most {
        Ok(())
    } else {
        Err(OutOfRange {
            value: show(value),
            limit: Limit::AtMost(show(most)),
        })
    }
}
