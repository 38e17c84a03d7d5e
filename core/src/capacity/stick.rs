//! A dip stick: where it stands in the tank, and from where it reads.

use core::fmt;

use super::touch::leaves;
use crate::body::Solid;
use crate::geom::Vector;
use crate::units::Length;

/// A tip this share of the line inside the tank further out still counts as touching.
const SLACK: f64 = 1e-9;

/// Why no stick stands there.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum StickError {
    /// The point or the direction is not finite, or the direction has no length.
    NoLine,
    /// The line misses the tank, or only touches it.
    Misses,
}

impl fmt::Display for StickError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::NoLine => "the stick has no place: its point and direction must be finite",
            Self::Misses => "the stick is beside the tank: put it where the tank is below it",
        })
    }
}

impl core::error::Error for StickError {}

/// A straight stick in a tank; it turns with the tank.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Stick {
    tip: Vector,
    along: Vector,
    reach: f64,
}

impl Stick {
    /// Upright in tank axes at `x`, `y`, standing on the bottom below.
    ///
    /// # Errors
    /// [`StickError`] where there is no tank above that place.
    pub fn upright(inside: &Solid, x: Length, y: Length) -> Result<Self, StickError> {
        let up = Vector::new(0.0, 0.0, 1.0);
        Self::standing(inside, Vector::new(x.si(), y.si(), 0.0), up)
    }

    /// On the line through a point (metres, tank axes; anywhere on it) along a direction of any length
    /// that goes from the tip up, pushed down until it touches.
    ///
    /// What it touches is the hull of the inside, which is the inside itself unless the body has inside
    /// corners and one of them juts into the line. About
    /// 12,000 calls of [`Solid::extent`]: milliseconds on a laptop, some seconds on a machine without a
    /// floating-point unit.
    ///
    /// # Errors
    /// [`StickError`] where there is no such line, or it misses the tank.
    pub fn standing(inside: &Solid, through: Vector, along: Vector) -> Result<Self, StickError> {
        let (through, along, from, to) = line(inside, through, along)?;
        Ok(Self {
            tip: through + along * from,
            along,
            reach: to - from,
        })
    }

    /// Its lower end, in metres in tank axes.
    #[must_use]
    pub const fn tip(&self) -> Vector {
        self.tip
    }

    /// From the tip up, of unit length.
    #[must_use]
    pub const fn along(&self) -> Vector {
        self.along
    }

    /// What it reads where it leaves the tank; its tip reads zero.
    #[must_use]
    pub const fn top_reading(&self) -> Length {
        Length::from_metres(self.reach)
    }
}

/// A line, its direction of unit length, and where it enters and leaves the body.
fn line(
    inside: &Solid,
    through: Vector,
    along: Vector,
) -> Result<(Vector, Vector, f64, f64), StickError> {
    let along = along.unit().ok_or(StickError::NoLine)?;
    if !super::openings::finite(through) {
        return Err(StickError::NoLine);
    }
    let from = -leaves(inside, through, -along);
    let to = leaves(inside, through, along);
    let (low, high) = inside.extent(along);
    if to - from > SLACK * (high - low) {
        Ok((through, along, from, to))
    } else {
        Err(StickError::Misses)
    }
}
