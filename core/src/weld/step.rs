//! One stitch of an order as it is carried to the gauge and kept there.

use crate::arc::RatedPart;
use crate::units::{Temperature, TemperatureUnit, Time, TimeUnit};

/// The bit of the packed word that says which way.
const REVERSED: u16 = 0x8000;
/// The lowest of the two bits that say what the wait is for.
const CAUSE: u16 = 0x2000;
/// The bits of the wait itself.
const WAIT: u16 = CAUSE - 1;

/// What a step waits for, besides the move.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum StepCause {
    /// The metal where it starts is above the interpass limit.
    Metal,
    /// The power source must rest, longer than the metal must cool.
    PowerSource,
    /// The torch must rest, longer than the metal must cool.
    Torch,
}

impl From<RatedPart> for StepCause {
    fn from(part: RatedPart) -> Self {
        match part {
            RatedPart::PowerSource => Self::PowerSource,
            RatedPart::Torch => Self::Torch,
        }
    }
}

/// One stitch of an order, in whole seconds and degrees.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct WeldStep {
    /// Which of the tank's stitches: counted from 0, seam by seam as the tank lists them.
    pub stitch: u8,
    /// Whether it is welded from its seam's end towards its start.
    pub reversed: bool,
    /// Waited before it, besides moving, in s; up to 8,191.
    pub wait: u16,
    /// What that wait is for; `None` where there is none, or where nobody says.
    pub cause: Option<StepCause>,
    /// The metal where it starts, just before the arc, in °C.
    pub warmth: i16,
}

impl WeldStep {
    /// Bytes that a step takes on the shelf.
    pub const BYTES: usize = 5;
    /// Steps that an order may have: a step's number is one byte, and a gauge's memory small. A job may have more
    /// stitches ([`MAX_STITCHES`](crate::input::limits::MAX_STITCHES)); their order is the laptop's alone.
    pub const MOST: usize = 256;

    /// A stitch, by its number and whether it is welded backwards, with its wait rounded up to whole seconds and the
    /// metal at its start to the nearest degree.
    #[must_use]
    pub fn of(
        (stitch, reversed): (u8, bool),
        (wait, cause): (Time, Option<StepCause>),
        start: Temperature,
    ) -> Self {
        let wait = libm::ceil(wait.si());
        let warmth = libm::round(start.in_unit(TemperatureUnit::Celsius));
        Self {
            stitch,
            reversed,
            // A plan waits two hours at most, and no metal starts over the highest interpass limit.
            wait: libm::fmin(wait, f64::from(WAIT)) as u16,
            cause,
            warmth: warmth as i16,
        }
    }

    /// What is waited before it.
    #[must_use]
    pub const fn waits(&self) -> Time {
        Time::new(self.wait as f64, TimeUnit::Second)
    }

    /// The metal where it starts.
    #[must_use]
    pub const fn starts_at(&self) -> Temperature {
        Temperature::new(self.warmth as f64, TemperatureUnit::Celsius)
    }

    /// Packed for the shelf; of the wait, what is over 8,191 s is lost.
    #[must_use]
    pub const fn pack(&self) -> [u8; Self::BYTES] {
        let way = if self.reversed { REVERSED } else { 0 };
        let cause = match self.cause {
            None => 0,
            Some(StepCause::Metal) => CAUSE,
            Some(StepCause::PowerSource) => 2 * CAUSE,
            Some(StepCause::Torch) => 3 * CAUSE,
        };
        let [a, b] = (self.wait & WAIT | cause | way).to_le_bytes();
        let [c, d] = self.warmth.to_le_bytes();
        [self.stitch, a, b, c, d]
    }

    /// Unpacked again.
    #[must_use]
    pub const fn unpack([stitch, a, b, c, d]: [u8; Self::BYTES]) -> Self {
        let word = u16::from_le_bytes([a, b]);
        Self {
            stitch,
            reversed: word & REVERSED != 0,
            wait: word & WAIT,
            cause: match (word & !REVERSED) / CAUSE {
                1 => Some(StepCause::Metal),
                2 => Some(StepCause::PowerSource),
                3 => Some(StepCause::Torch),
                _ => None,
            },
            warmth: i16::from_le_bytes([c, d]),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn packed_and_unpacked_is_the_same() {
        let causes = [StepCause::Metal, StepCause::PowerSource, StepCause::Torch].map(Some);
        for cause in causes.into_iter().chain([None]) {
            for reversed in [false, true] {
                for wait in [0, 1, 7_200, 8_191] {
                    for warmth in [-30, 0, 99, 500] {
                        let step = WeldStep {
                            stitch: 255,
                            reversed,
                            wait,
                            cause,
                            warmth,
                        };
                        assert_eq!(WeldStep::unpack(step.pack()), step);
                    }
                }
            }
        }
    }

    #[test]
    fn a_wait_is_rounded_up_and_a_temperature_to_the_nearest() {
        let wait = Time::new(6.1, TimeUnit::Second);
        let start = Temperature::new(90.4, TemperatureUnit::Celsius);
        let step = WeldStep::of((3, true), (wait, Some(RatedPart::Torch.into())), start);
        assert_eq!((step.stitch, step.reversed), (3, true));
        assert_eq!((step.wait, step.warmth), (7, 90));
        assert_eq!(step.cause, Some(StepCause::Torch));
    }
}
