//! What the readings of a leak test come to.

use super::decay::{HIGHEST, volume_in, within_air, within_outside};
use super::{Instruments, LeakRate, ReadingError};
use crate::strength::Compliance;
use crate::units::constant::GAS;
use crate::units::range::{Limit, OutOfRange, Value, within};
use crate::units::{Pressure, Ratio, Temperature, Time, Volume};

/// Readings that one test may have.
pub const MOST_READINGS: u16 = 1_000;

/// The part of what an instrument may be off by that counts as its standard uncertainty where it is off at random: all values
/// within are equally likely, a/√3 (JCGM 100:2008, 4.3.7, from memory).
const RECTANGULAR: f64 = 0.577_350_269_189_625_8;
/// Student's t for 95 % within, two-sided, at 1 to 10 degrees of freedom (JCGM 100:2008, table G.2, from memory).
const STUDENT: [f64; 10] = [12.71, 4.31, 3.19, 2.78, 2.58, 2.45, 2.37, 2.31, 2.27, 2.23];
/// A rate is one at the pressure of the test while that changes by no more than this share: common practice, no source.
const STEADY: f64 = 0.1;
/// Times are within a week of their zero.
const WEEK: Time = Time::from_seconds(604_800.0);

/// One reading of the instruments.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Reading {
    /// From any zero.
    pub time: Time,
    /// By the gauge, against the air outside; below zero in a tank that is drawn empty.
    pub gauge: Pressure,
    /// Temperature of the air in the tank.
    pub temperature: Temperature,
    /// The air outside, as it is at the tank.
    pub barometer: Pressure,
}

impl Reading {
    /// Absolute pressure in pascals.
    const fn pressure(&self) -> f64 {
        self.gauge.si() + self.barometer.si()
    }
}

/// A leak as it was measured.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Leak {
    /// With temperature and barometer made good; positive in the direction in which the pressure drives it.
    pub rate: LeakRate,
    /// Its expanded uncertainty: the truth is within plus or minus this while every instrument stays within what it may be off
    /// by, however it drifts there; with 95 % where readings scatter more than that.
    pub uncertainty: LeakRate,
    /// What the gauge alone would have said.
    pub gauge_only: LeakRate,
    /// Temperature of the air at the first reading, to give rates in Pa·m³/s.
    pub air: Temperature,
    /// From the first reading to the last.
    pub lasted: Time,
    /// The readings scatter about their line more than the instruments explain, and the uncertainty is
    /// that of the scatter: something moved that was not read.
    pub scattered: bool,
    /// The share of the gauge pressure that was gone, or added, by the last reading.
    pub gauge_change: Ratio,
    /// The share of the leak that walls which draw in hide from the gauge, at least and at most: counted in the rate and in
    /// its uncertainty.
    pub hidden: [Ratio; 2],
}

/// What may be said of a tank.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum LeakVerdict {
    /// Even with the uncertainty it leaks no more than is allowed.
    Tight,
    /// Even with the uncertainty it leaks more than is allowed.
    Leaks,
    /// Neither.
    CannotTell(Doubt),
}

/// Why nothing can be told.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum Doubt {
    /// The allowed rate lies within the uncertainty: a longer test tells ([`Leak::time_to_tell`]).
    Unsure,
    /// The tank seems to gain air against its own pressure: the thermometer does not follow the air in it,
    /// or the panels still settle. Let it stand, and read again.
    Gains,
}

impl LeakVerdict {
    /// The verdict in words.
    #[must_use]
    pub const fn text(self) -> &'static str {
        match self {
            Self::Tight => "tight",
            Self::Leaks => "leaks",
            Self::CannotTell(Doubt::Unsure) => "cannot tell: test for longer",
            Self::CannotTell(Doubt::Gains) => "cannot tell: it seems to gain air",
        }
    }
}

impl Leak {
    /// The leak of a tank of a volume by two or more readings.
    ///
    /// The moles in the tank at each reading are n = p V / (R T), p the gauge and the barometer together:
    /// 40 CFR 1065.644. The rate is the slope of n over the time by least squares, which for two readings
    /// is their difference over the time between them.
    ///
    /// What an instrument is off by does not average away: a coarse gauge rounds a slow fall alike at every reading, a
    /// thermometer lags all the time, and both may drift from one end of what they may be off by to the other. So a reading
    /// counts with the whole of it, whichever way does most to the slope: `Σ |w| a`, with the weights `w` of least squares
    /// and for `a` the root of the squares of gauge, thermometer and barometer. Scatter about the line beyond what
    /// instruments explain at random, `a/√3`, is random: its standard deviation times Student's t (JCGM 100:2008, annex G, from
    /// memory) comes to that as the root of the squares.
    ///
    /// The volume is V + C p, p the gauge pressure: as air leaks out, walls that bulge draw in and keep the pressure up. The rate is
    /// that of the middle of the [`Compliance`], and what either end of it makes of the slope adds to the uncertainty. V itself
    /// counts as exact: an error of it is the same share of the rate. Panels that bulge take some minutes to settle. The slope is an average; it says the rate at the pressure of
    /// the test while the pressure falls by no more than about a tenth of itself.
    ///
    /// # Errors
    /// [`ReadingError`] names the reading, its value and the limit.
    pub fn of(
        volume: Volume,
        compliance: Compliance,
        readings: &[Reading],
        instruments: &Instruments,
    ) -> Result<Self, ReadingError> {
        volume_in(volume).map_err(ReadingError::Volume)?;
        let first = check(readings)?;
        let (least, most) = (compliance.least(), compliance.most());
        let gives = 0.5 * (least + most);
        // Of a reading, per kelvin: what it holds, and what a pascal more or less of it is.
        let scale = |reading: &Reading| (volume.si() + gives * reading.gauge.si()) / GAS;
        let moles =
            |reading: &Reading| scale(reading) * reading.pressure() / reading.temperature.si();
        let doubted = |reading: &Reading| {
            0.5 * (most - least) * reading.gauge.si() * reading.pressure()
                / (GAS * reading.temperature.si())
        };
        let count = readings.len() as f64;
        let mean = |of: &dyn Fn(&Reading) -> f64| readings.iter().map(of).sum::<f64>() / count;
        let time = mean(&|reading| reading.time.si());
        let held = mean(&moles);
        let spread: f64 = readings.iter().map(|r| square(r.time.si() - time)).sum();
        let (mut slope, mut gauge_slope, mut doubt) = (0.0, 0.0, 0.0);
        let (mut drift, mut variance) = (0.0, 0.0);
        for reading in readings {
            let weight = (reading.time.si() - time) / spread;
            slope += weight * (moles(reading) - held);
            gauge_slope += weight * (reading.gauge.si() - first.gauge.si());
            doubt += weight * doubted(reading);
            let kelvins = reading.temperature.si();
            let per_pascal = scale(reading) + gives * reading.pressure() / GAS;
            let off = per_pascal / kelvins * instruments.nearness(reading.pressure(), kelvins);
            drift += libm::fabs(weight) * off;
            variance += square(weight * off * RECTANGULAR);
        }
        let scatter = if readings.len() > 2 {
            let off = |r: &Reading| moles(r) - held - slope * (r.time.si() - time);
            let squares: f64 = readings.iter().map(|r| square(off(r))).sum();
            squares / (count - 2.0) / spread
        } else {
            0.0
        };
        let beyond = libm::sqrt(libm::fmax(scatter - variance, 0.0));
        let random = student(readings.len()) * beyond;
        // A tank that was drawn empty leaks inwards.
        let outward = if first.gauge.si() > 0.0 { -1.0 } else { 1.0 };
        let last = readings.last().unwrap_or(first);
        Ok(Self {
            rate: LeakRate::from_moles(outward * slope),
            uncertainty: LeakRate::from_moles(libm::hypot(drift, random) + libm::fabs(doubt)),
            gauge_only: LeakRate::from_throughput(
                outward * gauge_slope * volume.si(),
                first.temperature,
            ),
            air: first.temperature,
            lasted: Time::from_seconds(last.time.si() - first.time.si()),
            scattered: scatter > variance,
            gauge_change: Ratio::from_share(libm::fabs(last.gauge.si() / first.gauge.si() - 1.0)),
            hidden: compliance.hides(volume, Pressure::from_pascals(first.pressure())),
        })
    }

    /// Whether the pressure changed by so much of itself, a tenth, that the rate is an average and none at the pressure
    /// of the start.
    #[must_use]
    pub fn is_average(&self) -> bool {
        self.gauge_change.si() > STEADY
    }

    /// What may be said of the tank against an allowed rate, the uncertainty on the careful side of both
    /// answers. A tank that seems to gain a little counts as one that loses nothing, so that none is tight
    /// by an allowed rate below the uncertainty.
    ///
    /// # Errors
    /// [`ReadingError::Allowed`] where the allowed rate is not above zero.
    pub fn judge(&self, allowed: LeakRate) -> Result<LeakVerdict, ReadingError> {
        if !(allowed.moles() > 0.0) {
            return Err(ReadingError::Allowed(allowed));
        }
        let (rate, unsure) = (self.rate.moles(), self.uncertainty.moles());
        Ok(if rate + unsure < 0.0 {
            LeakVerdict::CannotTell(Doubt::Gains)
        } else if libm::fmax(rate, 0.0) + unsure <= allowed.moles() {
            LeakVerdict::Tight
        } else if rate - unsure > allowed.moles() {
            LeakVerdict::Leaks
        } else {
            LeakVerdict::CannotTell(Doubt::Unsure)
        })
    }

    /// How long the test must last in all before the verdict can fall, if the rate stays what it is: the
    /// uncertainty of two readings goes as one over the time between them. `None` where the rate is as good
    /// as the allowed one, so that no time tells (more than a hundred times as long as this test).
    #[must_use]
    pub fn time_to_tell(&self, allowed: LeakRate) -> Option<Time> {
        let apart = libm::fabs(libm::fmax(self.rate.moles(), 0.0) - allowed.moles());
        let longer = self.uncertainty.moles() / apart;
        (longer <= 100.0).then(|| Time::from_seconds(self.lasted.si() * libm::fmax(longer, 1.0)))
    }
}

/// Student's t for the slope through so many readings.
fn student(readings: usize) -> f64 {
    let freedom = readings.saturating_sub(2);
    let known = freedom.checked_sub(1).and_then(|place| STUDENT.get(place));
    // Past ten it goes to 1.96 a little more slowly than this.
    known.map_or_else(
        || 1.96 + 2.7 / libm::fmax(freedom as f64, 1.0),
        |value| *value,
    )
}

fn square(value: f64) -> f64 {
    value * value
}

/// The first reading, once all of them can be what was read.
fn check(readings: &[Reading]) -> Result<&Reading, ReadingError> {
    let count = u32::try_from(readings.len()).unwrap_or(u32::MAX);
    within(count, 2, u32::from(MOST_READINGS), Value::Count).map_err(ReadingError::Count)?;
    let Some(first) = readings.first() else {
        // Two were counted.
        return Err(ReadingError::Count(OutOfRange {
            value: Value::Count(0),
            limit: Limit::AtLeast(Value::Count(2)),
        }));
    };
    let side = first.gauge.si() > 0.0;
    let mut before: Option<Time> = None;
    for (reading, number) in readings.iter().zip(1_u16..) {
        let time = |error| ReadingError::Time {
            reading: number,
            error,
        };
        let week = Time::from_seconds(-WEEK.si());
        within(reading.time, week, WEEK, Value::Time).map_err(time)?;
        if let Some(before) = before
            && !(reading.time > before)
        {
            return Err(time(OutOfRange {
                value: Value::Time(reading.time),
                limit: Limit::Above(Value::Time(before)),
            }));
        }
        before = Some(reading.time);
        within_air(reading.temperature).map_err(|error| ReadingError::Temperature {
            reading: number,
            error,
        })?;
        within_outside(reading.barometer).map_err(|error| ReadingError::Barometer {
            reading: number,
            error,
        })?;
        check_gauge(reading, side).map_err(|error| ReadingError::Gauge {
            reading: number,
            error,
        })?;
    }
    Ok(first)
}

/// A pressure on the same side of zero as the first, and not below a vacuum.
fn check_gauge(reading: &Reading, over: bool) -> Result<(), OutOfRange> {
    let none = Pressure::from_pascals(0.0);
    let vacuum = Pressure::from_pascals(-reading.barometer.si());
    within(reading.gauge, vacuum, HIGHEST, Value::Pressure)?;
    let limit = match over {
        true if reading.gauge > none => return Ok(()),
        true => Limit::Above(Value::Pressure(none)),
        false if reading.gauge < none => return Ok(()),
        false => Limit::Below(Value::Pressure(none)),
    };
    Err(OutOfRange {
        value: Value::Pressure(reading.gauge),
        limit,
    })
}
