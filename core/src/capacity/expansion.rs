//! A liquid that warms in its tank: whether the headspace takes what it grows.

use core::fmt;

use super::Pool;
use crate::tables::{Contents, Family, LiquidError};
use crate::units::range::{Limit, OutOfRange, Value};
use crate::units::{Length, Temperature, TemperatureUnit, Volume};

/// Halvings between two temperatures, past the last bit of the difference.
const HALVINGS: u32 = 60;
/// Volumes may pass a limit by this share, for rounding.
const SLACK: f64 = 1e-9;
/// The greatest linear expansion taken for that of a sheet, per kelvin; zinc, the liveliest of the
/// trade's metals, has 30e-6 (CRC Handbook, from memory).
const MOST_LINEAR: f64 = 1e-4;

/// Linear expansion of sheet for each kelvin near room temperature.
///
/// Aluminium 23.1e-6 (CRC Handbook, from memory); austenitic stainless 16.0e-6 (EN 10088-1, from memory);
/// low-carbon steel 12.0e-6 (EN 1993-1-1, 3.2.6, from memory).
#[must_use]
pub const fn linear_expansion(family: Family) -> f64 {
    match family {
        Family::Aluminium => 23.1e-6,
        Family::Stainless => 16.0e-6,
        Family::Steel => 12.0e-6,
    }
}

/// What warms, from what to what, and in how much room.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Warming {
    /// The liquid.
    pub contents: Contents,
    /// Poured in, at the temperature `from`.
    pub fill: Volume,
    /// What the tank takes before it runs over, measured at `from`: up to the full mark, or to the brim.
    pub room: Volume,
    /// Temperature when it is filled.
    pub from: Temperature,
    /// The hottest it gets.
    pub hottest: Temperature,
    /// Linear expansion of the sheet for each kelvin ([`linear_expansion`]), 0 to 1e-4; zero leaves the
    /// growth of the tank out, which is the careful side: liquid can warm before its tank does.
    pub linear: f64,
}

/// What the headspace does with the growth; volumes at the hottest.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum Outcome {
    /// It fits, with so much room left.
    Fits(Volume),
    /// This volume runs out of an open tank. A shut tank full of liquid bursts.
    Spills(Volume),
}

/// A liquid that has warmed.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Expansion {
    /// Volume of the liquid at the hottest as a share of what was poured in.
    pub growth: f64,
    /// Volume of the tank at the hottest as a share of what it was: 1 + 3 α ΔT.
    pub shell: f64,
    /// The liquid at the hottest, spilt or not.
    pub hot: Volume,
    /// The room at the hottest.
    pub room: Volume,
    /// Fits or spills.
    pub outcome: Outcome,
    /// How much the surface rises, up to where it runs over; negative where the liquid shrinks. In the
    /// measure of the tank as it was when filled.
    pub rise: Length,
    /// The temperature at which the room is full; `None` where it is not, up to the highest temperature
    /// for which the liquid has figures.
    pub full_at: Option<Temperature>,
}

/// Why nothing can be said about the growth.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum ExpansionError {
    /// A temperature outside the figures of the liquid.
    Liquid(LiquidError),
    /// The room is more than the tank holds, or not above zero.
    Room(OutOfRange),
    /// The fill is more than the room, or not above zero.
    Fill(OutOfRange),
    /// The hottest is colder than the filling.
    Cooler {
        /// When it is filled.
        from: Temperature,
        /// The hottest that was given.
        hottest: Temperature,
    },
    /// A linear expansion of the sheet below zero, above 1e-4, or not a number.
    Linear(f64),
}

impl fmt::Display for ExpansionError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let celsius = |value: &Temperature| value.display(TemperatureUnit::Celsius, 1);
        match self {
            Self::Liquid(error) => error.fmt(f),
            Self::Room(error) => write!(f, "the room: {error}"),
            Self::Fill(error) => write!(f, "the fill: {error}"),
            Self::Cooler { from, hottest } => write!(
                f,
                "the hottest is {}: it must be at least the {} of the filling",
                celsius(hottest),
                celsius(from)
            ),
            Self::Linear(value) => write!(
                f,
                "the linear expansion is {} millionths per kelvin: it must be from 0 to 100",
                crate::units::Decimal::new(value * 1e6, 1)
            ),
        }
    }
}

impl core::error::Error for ExpansionError {}

impl Warming {
    /// What happens in `pool`, the tank as it stands while it warms.
    ///
    /// Growth by the ratio of the published densities; the tank by 3 α ΔT. Vapour pressure, and gas that
    /// comes out of the liquid, are not in it.
    ///
    /// # Errors
    /// [`ExpansionError`] names what is out of range.
    pub fn expand(&self, pool: &Pool<'_>) -> Result<Expansion, ExpansionError> {
        self.check(pool)?;
        let growth = self.growth(self.hottest)?;
        let shell = self.shell(self.hottest);
        let hot = self.fill.si() * growth;
        let room = self.room.si() * shell;
        let outcome = if hot <= room {
            Outcome::Fits(Volume::from_cubic_metres(room - hot))
        } else {
            Outcome::Spills(Volume::from_cubic_metres(hot - room))
        };
        let depth = |volume: f64| {
            pool.depth_for(Volume::from_cubic_metres(volume))
                .map_err(ExpansionError::Fill)
        };
        let before = depth(self.fill.si())?;
        let after = depth(libm::fmin(hot / shell, self.room.si()))?;
        Ok(Expansion {
            growth,
            shell,
            hot: Volume::from_cubic_metres(hot),
            room: Volume::from_cubic_metres(room),
            outcome,
            rise: Length::from_metres(after.si() - before.si()),
            full_at: self.full_at()?,
        })
    }

    /// The temperature at which the room is full. The liquid outgrows its tank by more with every
    /// degree (water after it has shrunk up to 4 °C), so halving finds it.
    fn full_at(&self) -> Result<Option<Temperature>, ExpansionError> {
        let full = |at: Temperature| -> Result<bool, ExpansionError> {
            Ok(self.fill.si() * self.growth(at)? >= self.room.si() * self.shell(at))
        };
        if full(self.from)? {
            return Ok(Some(self.from));
        }
        let [_, top] = self.contents.range();
        if !full(top)? {
            return Ok(None);
        }
        let (mut low, mut high) = (self.from.si(), top.si());
        for _ in 0..HALVINGS {
            let middle = 0.5 * (low + high);
            if full(Temperature::from_kelvins(middle))? {
                high = middle;
            } else {
                low = middle;
            }
        }
        Ok(Some(Temperature::from_kelvins(high)))
    }

    fn growth(&self, at: Temperature) -> Result<f64, ExpansionError> {
        self.contents
            .growth(self.from, at)
            .map_err(ExpansionError::Liquid)
    }

    fn shell(&self, at: Temperature) -> f64 {
        1.0 + 3.0 * self.linear * (at.si() - self.from.si())
    }

    fn check(&self, pool: &Pool<'_>) -> Result<(), ExpansionError> {
        up_to(self.room, pool.brim()).map_err(ExpansionError::Room)?;
        up_to(self.fill, self.room).map_err(ExpansionError::Fill)?;
        if !(self.linear >= 0.0 && self.linear <= MOST_LINEAR) {
            return Err(ExpansionError::Linear(self.linear));
        }
        if self.hottest < self.from {
            return Err(ExpansionError::Cooler {
                from: self.from,
                hottest: self.hottest,
            });
        }
        Ok(())
    }
}

/// Lets a volume through that is above zero and at most `most`.
fn up_to(value: Volume, most: Volume) -> Result<(), OutOfRange> {
    let none = Volume::from_cubic_metres(0.0);
    let limit = if value.si() > most.si() * (1.0 + SLACK) {
        Limit::AtMost(Value::Volume(most))
    } else if value > none {
        return Ok(());
    } else {
        Limit::Above(Value::Volume(none))
    };
    Err(OutOfRange {
        value: Value::Volume(value),
        limit,
    })
}
