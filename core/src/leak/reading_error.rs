//! Why the readings of a leak test say nothing.

use core::fmt;

use super::LeakRate;
use crate::units::range::OutOfRange;

/// Why the readings of a leak test say nothing. Readings count from 1.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum ReadingError {
    /// Fewer than two readings, or more than are taken.
    Count(OutOfRange),
    /// The volume of the tank.
    Volume(OutOfRange),
    /// A reading is not later than the one before it, or its time cannot be.
    Time {
        /// Which.
        reading: u16,
        /// Its time, and the limit.
        error: OutOfRange,
    },
    /// A gauge pressure that is zero, or on the other side of zero than the first, or cannot be.
    Gauge {
        /// Which.
        reading: u16,
        /// The pressure, and the limit.
        error: OutOfRange,
    },
    /// A temperature outside −50 to 150 °C.
    Temperature {
        /// Which.
        reading: u16,
        /// The temperature, and the limit.
        error: OutOfRange,
    },
    /// A barometer outside 50 to 110 kPa: at the height of the shop, not reduced to the sea.
    Barometer {
        /// Which.
        reading: u16,
        /// The pressure, and the limit.
        error: OutOfRange,
    },
    /// An allowed leak rate that is not above zero.
    Allowed(LeakRate),
}

impl fmt::Display for ReadingError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let (reading, what, error) = match self {
            Self::Count(error) => return write!(f, "the number of readings: {error}"),
            Self::Volume(error) => return write!(f, "the volume: {error}"),
            Self::Allowed(value) => {
                return write!(f, "the allowed leak rate is {value}: it must be above 0");
            }
            Self::Time { reading, error } => (reading, "time", error),
            Self::Gauge { reading, error } => (reading, "gauge pressure", error),
            Self::Temperature { reading, error } => (reading, "temperature", error),
            Self::Barometer { reading, error } => (reading, "barometer", error),
        };
        write!(f, "reading {reading}, {what}: {error}")
    }
}

impl core::error::Error for ReadingError {}
