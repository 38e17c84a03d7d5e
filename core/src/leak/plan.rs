//! How a tank is tested: by what, why so, and at what pressure.

use super::decay::{HIGHEST, barometer, volume};
use super::{
    Decay, Instruments, LeakError, LeakRate, LeakRule, MEASURE, Medium, PressureLimit,
    StoredEnergy, force, head_for, hold, pressure_under,
};
use crate::input::Face;
use crate::seam::SeamMark;
use crate::strength::Compliance;
use crate::units::constant::WATER;
use crate::units::range::{Limit, OutOfRange, RangeError, Value};
use crate::units::{
    Area, Energy, Figure, Force, Length, Mass, Pressure, Temperature, Time, Volume,
};

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
pub enum MethodReason {
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

impl MethodReason {
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
    /// Temperature of the air in the tank.
    pub temperature: Temperature,
}

/// What a leak test must know of a tank.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Vessel {
    /// All that it holds.
    pub volume: Volume,
    /// By how much that grows with the pressure in it.
    pub compliance: Compliance,
    /// From the lowest to the highest inside point, as it stands for the test.
    pub height: Length,
    /// From the lowest point to where it overflows: the top of the filler or of the vent, at least the
    /// height.
    pub head: Length,
    /// The panel with the largest area.
    pub panel: Area,
    /// The even gauge pressure that its weakest wall takes, or its weakest seam where that takes less.
    pub weakest: Pressure,
    /// Which wall that is; `None` where every wall takes more than is counted with.
    pub weakest_wall: Option<Face>,
    /// The seam that takes less than that wall.
    pub weakest_seam: Option<SeamMark>,
    /// Density of the liquid it is for, in kg/m³, 500 to 2000.
    pub density: f64,
    /// It should see no water: it is for fuel or oil.
    pub keep_dry: bool,
}

/// How a tank is tested.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct LeakPlan {
    /// By what.
    pub method: Method,
    /// Why.
    pub reason: MethodReason,
    /// Gauge pressure: of the air, or of the water at the lowest point.
    pub pressure: Pressure,
    /// Which of its limits set that.
    pub pressure_limit: PressureLimit,
    /// Where the relief valve opens; above the pressure, unless the weakest panel takes no more.
    pub relief: Pressure,
    /// Which of its limits set that.
    pub relief_limit: PressureLimit,
    /// The top of a column of water over the lowest point that makes this pressure: for a head of water,
    /// the standpipe; for air, a water manometer that lets it off before any panel does.
    pub water_level: Length,
    /// Mass of the water that fills the tank; the bench must carry it.
    pub water: Mass,
    /// What air at this pressure stores, and water.
    pub energy: StoredEnergy,
    /// On the largest panel.
    pub force: Force,
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
    /// wall or seam takes, or air above [`AIR_MOST`] or [`ENERGY_MOST`].
    pub fn plan(
        &self,
        rule: LeakRule,
        outside: Pressure,
        sought: Option<&Sought>,
    ) -> Result<LeakPlan, LeakError> {
        self.check()?;
        barometer(outside)?;
        let weakest = (
            self.weakest,
            match self.weakest_seam {
                Some(seam) => PressureLimit::WeakestSeam(seam),
                None => PressureLimit::WeakestWall(self.weakest_wall),
            },
        );
        let mut set = rule.set_by(pressure_under(self.head, self.density));
        if matches!(rule, LeakRule::LightAircraft) {
            // A most, so that a tank that takes less is tested with less.
            set = lower(set, weakest);
        }
        let (mut pressure, mut pressure_limit) = set;
        let decay = match sought {
            Some(sought) => Some(
                Decay::new(self.volume, pressure, outside, sought.temperature)?
                    .giving(self.compliance)
                    .time_to_see(sought.leak, &sought.instruments, MEASURE)?,
            ),
            None => None,
        };
        let (method, reason) = self.choose(rule, pressure, decay);
        if matches!(method, Method::WaterHead) {
            // The highest seam must be wet too.
            let full = pressure_under(self.height, WATER);
            if full > pressure {
                (pressure, pressure_limit) = (full, PressureLimit::FullOfWater);
            }
        }
        at_most(pressure, self.weakest, Value::Pressure).map_err(LeakError::TooWeak)?;
        let energy = StoredEnergy::new(self.volume, pressure, outside)?;
        if !matches!(method, Method::WaterHead) {
            at_most(pressure, AIR_MOST, Value::Pressure).map_err(LeakError::TooMuchAir)?;
            at_most(energy.air, ENERGY_MOST, Value::Energy).map_err(LeakError::TooMuchEnergy)?;
        }
        let over = Pressure::from_pascals(RELIEF * pressure.si());
        let (relief, relief_limit) = lower((over, PressureLimit::OverTest), weakest);
        Ok(LeakPlan {
            method,
            reason,
            pressure,
            pressure_limit,
            relief,
            relief_limit,
            water_level: head_for(pressure, WATER),
            water: Mass::from_kilograms(self.volume.si() * WATER),
            energy,
            force: force(pressure, self.panel),
            hold: hold(self.volume),
            decay,
        })
    }

    /// The same vessel, one of its seams taking only so much; as it is where that is no less than its weakest wall takes.
    #[must_use]
    pub fn with_seam(self, seam: SeamMark, takes: Pressure) -> Self {
        if takes < self.weakest {
            Self {
                weakest: takes,
                weakest_seam: Some(seam),
                ..self
            }
        } else {
            self
        }
    }

    /// What can be done instead of a test that cannot be: of the other rules the one with the highest pressure, air of
    /// no more than the weakest wall and seam take and soap on the seams being the last resort.
    ///
    /// It proves less than the rule that was asked for, and does not satisfy it.
    #[must_use]
    pub fn instead_of(&self, rule: LeakRule, outside: Pressure) -> Option<(LeakRule, LeakPlan)> {
        let mut best: Option<(LeakRule, LeakPlan)> = None;
        for other in LeakRule::ALL {
            if other == rule {
                continue;
            }
            let Ok(plan) = self.plan(other, outside, None) else {
                continue;
            };
            if best.is_none_or(|(_, old)| old.pressure < plan.pressure) {
                best = Some((other, plan));
            }
        }
        best
    }

    fn choose(
        &self,
        rule: LeakRule,
        pressure: Pressure,
        decay: Option<Time>,
    ) -> (Method, MethodReason) {
        match rule.medium() {
            Medium::Gas => return (Method::AirSoap, MethodReason::RuleGas),
            Medium::Water => return (Method::WaterHead, MethodReason::RuleWater),
            Medium::Either => {}
        }
        let low = self.keep_dry && pressure <= LeakRule::AIRCRAFT;
        match decay {
            Some(time) if time <= LONGEST && pressure <= AIR_MOST => {
                (Method::PressureDecay, MethodReason::Figure)
            }
            Some(time) if !(time <= LONGEST) => {
                let method = if low {
                    Method::AirSoap
                } else {
                    Method::WaterHead
                };
                (method, MethodReason::TooSlow)
            }
            _ if low => (Method::AirSoap, MethodReason::LowAndDry),
            _ => (Method::WaterHead, MethodReason::WaterSafest),
        }
    }

    fn check(&self) -> Result<(), RangeError> {
        /// Metres: no tank is higher.
        const MOST: f64 = 100.0;
        volume(self.volume)?;
        let height = Figure::InsideHeight.above(self.height.si(), 0.0, MOST)?;
        // The height of a tank that overflows at its highest point may differ in its last bits.
        if !(self.head.si() >= height * (1.0 - 1e-9)) {
            return Err(RangeError {
                figure: Figure::OverflowHead,
                value: self.head.si(),
                limit: Limit::AtLeast(height),
            });
        }
        Figure::OverflowHead.within(self.head.si(), 0.0, MOST)?;
        Figure::LargestPanel.above(self.panel.si(), 0.0, 1e4)?;
        Figure::WeakestWall.above(self.weakest.si(), 0.0, HIGHEST.si())?;
        Figure::Density.within(self.density, 500.0, 2_000.0)?;
        Ok(())
    }
}

/// The lower of two pressures, and what sets it.
fn lower<T>(one: (Pressure, T), other: (Pressure, T)) -> (Pressure, T) {
    if other.0 < one.0 { other } else { one }
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
