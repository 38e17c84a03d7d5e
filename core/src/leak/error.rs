//! Why there is no plan for a leak test.

use core::fmt;

use super::LeakRate;
use crate::units::Decimal;
use crate::units::range::OutOfRange;

/// What a figure is of.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum What {
    /// The volume of the air in the tank.
    Volume,
    /// The inside height.
    Height,
    /// The head from the lowest point to the overflow.
    Head,
    /// The area of the largest panel.
    Panel,
    /// The pressure that the weakest panel takes.
    Weakest,
    /// The gauge pressure.
    Gauge,
    /// The pressure of the air outside.
    Barometer,
    /// The temperature of the air in the tank.
    Temperature,
    /// How near the gauge reads.
    GaugeNearness,
    /// How near the barometer reads.
    BarometerNearness,
    /// A time.
    Time,
    /// The diameter of a bubble.
    Bubble,
}

impl What {
    /// The words for it.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Volume => "the volume",
            Self::Height => "the inside height",
            Self::Head => "the head to the overflow",
            Self::Panel => "the largest panel",
            Self::Weakest => "what the weakest panel takes",
            Self::Gauge => "the gauge pressure",
            Self::Barometer => "the barometer",
            Self::Temperature => "the air temperature",
            Self::GaugeNearness => "the nearness of the gauge",
            Self::BarometerNearness => "the nearness of the barometer",
            Self::Time => "the time",
            Self::Bubble => "the bubble",
        }
    }
}

/// Why there is no plan for a leak test.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum LeakError {
    /// A figure that cannot be.
    Range {
        /// Of what.
        what: What,
        /// The figure and its limit.
        error: OutOfRange,
    },
    /// The pressure that the test needs is above what the weakest panel takes.
    TooWeak(OutOfRange),
    /// The pressure that the rule asks of air is above what is proposed here with air.
    TooMuchAir(OutOfRange),
    /// The air would store more than is proposed here.
    TooMuchEnergy(OutOfRange),
    /// A density in kg/m³ that is not from 500 to 2000.
    Density(f64),
    /// A nearness of the thermometer, in kelvins, that is not from 0 to 10.
    Thermometer(f64),
    /// A leak rate that is not above zero.
    Leak(LeakRate),
    /// How often the change must hold the nearness of the reading: not from 1 to 100.
    Measure(f64),
}

impl fmt::Display for LeakError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Range { what, error } => write!(f, "{}: {error}", what.name()),
            Self::TooWeak(error) => write!(
                f,
                "the weakest panel does not take this test: {error}; stiffen it, use thicker sheet, or choose another rule"
            ),
            Self::TooMuchAir(error) => {
                write!(
                    f,
                    "too much for a test with air: {error}; prove it with water"
                )
            }
            Self::TooMuchEnergy(error) => write!(
                f,
                "the air in it would store too much: {error}; prove it with water"
            ),
            Self::Density(value) => write!(
                f,
                "the density is {} kg/m³: it must be from 500 to 2000",
                Decimal::new(*value, 1)
            ),
            Self::Thermometer(value) => write!(
                f,
                "the nearness of the thermometer is {} K: it must be from 0 to 10",
                Decimal::new(*value, 2)
            ),
            Self::Leak(value) => write!(f, "the leak rate is {value}: it must be above 0"),
            Self::Measure(value) => write!(
                f,
                "the change must be {} times the nearness of the reading: it must be from 1 to 100",
                Decimal::new(*value, 1)
            ),
        }
    }
}

impl core::error::Error for LeakError {}
