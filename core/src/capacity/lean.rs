//! How the tank stands.

use crate::geom::Vector;
use crate::units::range::{OutOfRange, Value, within};
use crate::units::{Angle, AngleUnit};

/// The attitude of the tank: `pitch` above zero lifts the right end, `roll` above zero lifts the back.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Lean {
    pitch: Angle,
    roll: Angle,
}

impl Lean {
    /// Upright.
    pub const LEVEL: Self = Self {
        pitch: Angle::from_radians(0.0),
        roll: Angle::from_radians(0.0),
    };

    /// The most that a tank may lean either way: on its side.
    pub const MOST: Angle = Angle::new(90.0, AngleUnit::Degree);

    /// From pitch and roll, each from −90° to 90°.
    ///
    /// # Errors
    /// [`OutOfRange`] for the angle past its limit.
    pub fn new(pitch: Angle, roll: Angle) -> Result<Self, OutOfRange> {
        let least = Angle::from_radians(-Self::MOST.si());
        let pitch = within(pitch, least, Self::MOST, Value::Angle)?;
        let roll = within(roll, least, Self::MOST, Value::Angle)?;
        Ok(Self { pitch, roll })
    }

    /// The pitch.
    #[must_use]
    pub const fn pitch(self) -> Angle {
        self.pitch
    }

    /// The roll.
    #[must_use]
    pub const fn roll(self) -> Angle {
        self.roll
    }

    /// The direction that is up, in tank axes: `(sin p, cos p sin r, cos p cos r)`, of unit length.
    #[must_use]
    pub fn up(self) -> Vector {
        let (sp, cp) = libm::sincos(self.pitch.si());
        let (sr, cr) = libm::sincos(self.roll.si());
        Vector::new(sp, cp * sr, cp * cr)
    }
}
