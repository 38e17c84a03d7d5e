//! Dip charts: what is in the tank for a reading on its stick.
//!
//! A stick reads the length along itself from its tip, or from its datum, up to where it is wet. At a
//! lean the liquid wets it higher or lower than level, and below its tip it says nothing at all: that
//! much may be in the tank while the stick comes out dry.

use core::fmt;

use super::{Pool, Stick};
use crate::units::range::{Limit, OutOfRange, Value};
use crate::units::{Length, Volume};

/// Marks that one chart may have.
pub const MAX_DIPS: u16 = 1_000;

/// The flattest that a stick may lie to the level: the sine of 1°. Flatter, a millimetre of liquid
/// moves the mark by more than 57 mm.
const FLATTEST: f64 = 0.017_452_406_437_283_51;
/// A last whole step this share of a step short of the end is the end.
const HAIR: f64 = 1e-9;
/// Readings and volumes may pass an end by this share of the whole, for rounding.
const SLACK: f64 = 1e-9;

/// One mark of a chart.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Dip {
    /// On the stick.
    pub reading: Length,
    /// In the tank.
    pub volume: Volume,
}

/// Why there is no such chart or mark.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum DipError {
    /// The stick lies within 1° of level at this lean, or points down.
    TooFlat,
    /// The tank is full before the liquid comes to the tip of the stick.
    NeverWet,
    /// The reading is not on the stick between dry and full.
    Reading(OutOfRange),
    /// The volume is not between what the stick shows first and what it shows last.
    Volume(OutOfRange),
    /// The step is not above zero.
    Step(OutOfRange),
    /// The step makes more marks than a chart may have.
    TooMany(OutOfRange),
}

impl fmt::Display for DipError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::TooFlat => {
                f.write_str("the stick lies too flat to read: it must stand 1° at least off level")
            }
            Self::NeverWet => f.write_str(
                "the stick is never wet: at this lean the tank is full before the liquid comes to its tip",
            ),
            Self::Reading(error) => write!(f, "the reading: {error}"),
            Self::Volume(error) => write!(f, "the volume by the stick: {error}"),
            Self::Step(error) => write!(f, "the step between marks: {error}"),
            Self::TooMany(error) => write!(f, "the step between marks is too small: {error}"),
        }
    }
}

impl core::error::Error for DipError {}

/// A stick in a tank at a lean.
#[derive(Clone, Copy, Debug)]
pub struct Dipped<'a> {
    pool: Pool<'a>,
    /// Depth of the liquid when the stick reads zero; may be below the tank.
    zero: f64,
    /// Rise of the liquid for each metre along the stick.
    rise: f64,
    first: Dip,
    last: Dip,
}

impl<'a> Dipped<'a> {
    /// A stick in the liquid of `pool`.
    ///
    /// # Errors
    /// [`DipError::TooFlat`] or [`DipError::NeverWet`], where there is nothing to read.
    pub fn new(pool: Pool<'a>, stick: &Stick) -> Result<Self, DipError> {
        let rise = pool.up().dot(stick.along());
        if !(rise >= FLATTEST) {
            return Err(DipError::TooFlat);
        }
        let tip = pool.depth_of(stick.tip());
        let full = pool.full_depth();
        let zero = tip.si();
        let reading = |depth: f64| Length::from_metres((depth - zero) / rise);
        if !(tip < full) {
            return Err(DipError::NeverWet);
        }
        // A tip that touches the lowest point, but for rounding, is wet from the first drop.
        let first = libm::fmax(tip.si(), 0.0);
        let top = tip.si() + stick.top_reading().si() * rise;
        let last = libm::fmin(top, full.si());
        let dip = |depth: f64| Dip {
            reading: reading(depth),
            volume: pool.up_to(Length::from_metres(depth)).volume,
        };
        Ok(Self {
            pool,
            zero,
            rise,
            first: dip(first),
            last: dip(last),
        })
    }

    /// Where the stick is first wet; its volume is what the stick never shows.
    #[must_use]
    pub const fn first(&self) -> Dip {
        self.first
    }

    /// Where the stick leaves the tank, or the tank is full if that comes first. A leaning tank may take
    /// more than its stick can show.
    #[must_use]
    pub const fn last(&self) -> Dip {
        self.last
    }

    /// What is in the tank when the stick is wet up to `reading`.
    ///
    /// # Errors
    /// [`DipError::Reading`] outside [`Dipped::first`] to [`Dipped::last`].
    pub fn volume(&self, reading: Length) -> Result<Volume, DipError> {
        let slack = SLACK * (self.last.reading.si() - self.first.reading.si());
        let value = between(
            reading.si(),
            self.first.reading.si(),
            self.last.reading.si(),
            slack,
        )
        .map_err(|side| {
            DipError::Reading(OutOfRange {
                value: Value::Length(reading),
                limit: side.limit(
                    Value::Length(self.first.reading),
                    Value::Length(self.last.reading),
                ),
            })
        })?;
        let depth = Length::from_metres(self.zero + value * self.rise);
        Ok(self.pool.up_to(depth).volume)
    }

    /// How high the stick is wet when `volume` is in the tank.
    ///
    /// # Errors
    /// [`DipError::Volume`] outside [`Dipped::first`] to [`Dipped::last`]: below, the stick is dry.
    pub fn reading(&self, volume: Volume) -> Result<Length, DipError> {
        let refused = |side: Side| {
            DipError::Volume(OutOfRange {
                value: Value::Volume(volume),
                limit: side.limit(
                    Value::Volume(self.first.volume),
                    Value::Volume(self.last.volume),
                ),
            })
        };
        let slack = SLACK * self.pool.brim().si();
        let value = between(
            volume.si(),
            self.first.volume.si(),
            self.last.volume.si(),
            slack,
        )
        .map_err(refused)?;
        let depth = self
            .pool
            .depth_for(Volume::from_cubic_metres(value))
            .map_err(DipError::Volume)?;
        Ok(Length::from_metres((depth.si() - self.zero) / self.rise))
    }

    /// How high the stick is wet when the liquid is `depth` deep; `None` where it is dry, or wet past its
    /// end.
    #[must_use]
    pub fn reading_at(&self, depth: Length) -> Option<Length> {
        let reading = (depth.si() - self.zero) / self.rise;
        let (first, last) = (self.first.reading.si(), self.last.reading.si());
        let slack = SLACK * (last - first);
        let within = reading >= first - slack && reading <= last + slack;
        within.then(|| Length::from_metres(libm::fmin(libm::fmax(reading, first), last)))
    }

    /// Marks at whole multiples of `step` along the stick, from the first wet reading to the last, with
    /// those two as marks of their own where they fall between.
    ///
    /// # Errors
    /// [`DipError`] where the step is not above zero or makes more than [`MAX_DIPS`] marks.
    pub fn every(&self, step: Length) -> Result<impl Iterator<Item = Dip> + use<'a>, DipError> {
        let marks = Marks::new(
            self.first.reading.si(),
            self.last.reading.si(),
            step.si(),
            |si| Value::Length(Length::from_metres(si)),
        )?;
        let this = *self;
        Ok(marks.filter_map(move |mark| match mark {
            Mark::First => Some(this.first),
            Mark::Last => Some(this.last),
            Mark::At(reading) => {
                let reading = Length::from_metres(reading);
                let volume = this.volume(reading).ok()?;
                Some(Dip { reading, volume })
            }
        }))
    }

    /// Marks at whole multiples of a volume, with the first and the last reading as marks of their own
    /// where they fall between. A depth is found for each mark: about seven clips of the body.
    ///
    /// # Errors
    /// [`DipError`] where the step is not above zero or makes more than [`MAX_DIPS`] marks.
    pub fn every_volume(
        &self,
        step: Volume,
    ) -> Result<impl Iterator<Item = Dip> + use<'a>, DipError> {
        let marks = Marks::new(
            self.first.volume.si(),
            self.last.volume.si(),
            step.si(),
            |si| Value::Volume(Volume::from_cubic_metres(si)),
        )?;
        let this = *self;
        Ok(marks.filter_map(move |mark| match mark {
            Mark::First => Some(this.first),
            Mark::Last => Some(this.last),
            Mark::At(volume) => {
                let volume = Volume::from_cubic_metres(volume);
                let reading = this.reading(volume).ok()?;
                Some(Dip { reading, volume })
            }
        }))
    }
}

/// Which end was passed.
#[derive(Clone, Copy)]
enum Side {
    Low,
    High,
}

impl Side {
    fn limit(self, low: Value, high: Value) -> Limit {
        match self {
            Self::Low => Limit::AtLeast(low),
            Self::High => Limit::AtMost(high),
        }
    }
}

/// Lets a value through that is between two ends but for `slack`, which it then takes off.
fn between(value: f64, low: f64, high: f64, slack: f64) -> Result<f64, Side> {
    if value > high + slack {
        Err(Side::High)
    } else if value >= low - slack {
        Ok(libm::fmin(libm::fmax(value, low), high))
    } else {
        Err(Side::Low)
    }
}

/// One mark of a scale.
enum Mark {
    First,
    At(f64),
    Last,
}

/// The whole multiples of a step between two ends, and the ends.
struct Marks {
    /// The next multiple, and the one after the last; whole numbers.
    next: f64,
    end: f64,
    step: f64,
    begun: bool,
    done: bool,
}

impl Marks {
    fn new(first: f64, last: f64, step: f64, show: fn(f64) -> Value) -> Result<Self, DipError> {
        if !(step > 0.0 && step.is_finite()) {
            return Err(DipError::Step(OutOfRange {
                value: show(step),
                limit: Limit::Above(show(0.0)),
            }));
        }
        let most = f64::from(MAX_DIPS - 2);
        if (last - first) / step > most {
            return Err(DipError::TooMany(OutOfRange {
                value: show(step),
                limit: Limit::AtLeast(show((last - first) / most)),
            }));
        }
        // The multiples strictly between the ends.
        Ok(Self {
            next: libm::floor(first / step + HAIR) + 1.0,
            end: libm::ceil(last / step - HAIR),
            step,
            begun: false,
            done: false,
        })
    }
}

impl Iterator for Marks {
    type Item = Mark;

    fn next(&mut self) -> Option<Mark> {
        if !self.begun {
            self.begun = true;
            return Some(Mark::First);
        }
        if self.next < self.end {
            let at = self.next * self.step;
            self.next += 1.0;
            return Some(Mark::At(at));
        }
        if self.done {
            return None;
        }
        self.done = true;
        Some(Mark::Last)
    }
}
