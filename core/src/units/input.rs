//! What the strength and balance calculations are given, and between which limits.

use core::fmt;

/// Width over height of a plate with a free top, the least and the most: a narrower plate has its worst
/// near the base, where the series has too few terms; a wider one is a shelf from its base.
pub const OPEN_RATIO: (f64, f64) = (0.2, 5.0);

/// A figure that goes into the calculations of strength and balance.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum Input {
    /// Thickness of the sheet.
    Thickness,
    /// A side of a panel, or a radius.
    Size,
    /// Young's modulus.
    Modulus,
    /// Poisson's ratio.
    Poisson,
    /// Strength beside the seam, or of the filler in shear.
    Strength,
    /// A pressure from within.
    Pressure,
    /// Density of the liquid.
    Density,
    /// What is felt as gravity.
    Gravity,
    /// The reserve that is wanted.
    Reserve,
    /// The crown radius of a dished end over its diameter.
    Crown,
    /// The knuckle radius of a dished end over its crown radius.
    Knuckle,
    /// Throat, leg or face of a weld.
    Throat,
    /// A force for each metre of seam.
    LineForce,
    /// A mass.
    Mass,
    /// A coordinate.
    Place,
    /// How many mounts there are.
    Mounts,
    /// The width of a plate with a free top edge over its height.
    Spread,
}

impl Input {
    /// Its name, its SI unit, and its limits in that unit.
    ///
    /// The limits keep out slips of the unit, and what the formulas do not hold for; common practice, no
    /// source, but for Poisson's ratio (below 0.15 the corners of a plate rule, see
    /// [`supported`](super::plate::supported())) and the dished end (ASME VIII-1, UG-32, from memory: crown
    /// at most the diameter, knuckle at least 6 % of it).
    const fn about(self) -> (&'static str, &'static str, f64, f64) {
        match self {
            Self::Thickness => ("the thickness", "m", 1e-4, 0.1),
            Self::Size => ("the side or radius", "m", 1e-3, 100.0),
            Self::Modulus => ("Young's modulus", "Pa", 1e9, 1e12),
            Self::Poisson => ("Poisson's ratio", "", 0.15, 0.45),
            Self::Strength => ("the strength", "Pa", 1e6, 3e9),
            Self::Pressure => ("the pressure", "Pa", 0.0, 1e7),
            Self::Density => ("the density", "kg/m³", 0.0, 3e4),
            Self::Gravity => ("the acceleration felt", "m/s²", 0.0, 1e3),
            Self::Reserve => ("the reserve", "", 0.1, 100.0),
            Self::Crown => ("the crown radius over the diameter", "", 0.5, 1.0),
            Self::Knuckle => ("the knuckle radius over the crown radius", "", 0.06, 1.0),
            Self::Throat => ("the throat of the weld", "m", 1e-4, 0.1),
            Self::LineForce => ("the force on the seam", "N/m", 0.0, 1e8),
            Self::Mass => ("the mass", "kg", 0.0, 1e6),
            Self::Place => ("the coordinate", "m", -1e3, 1e3),
            Self::Mounts => ("the number of mounts", "", 1.0, 8.0),
            Self::Spread => {
                let (least, most) = OPEN_RATIO;
                ("the width over the height", "", least, most)
            }
        }
    }
}

/// A figure that is not a number, or past its limit.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct InputError {
    /// Which one.
    pub input: Input,
    /// What it is, in its SI unit.
    pub value: f64,
    /// The least allowed.
    pub least: f64,
    /// The most allowed.
    pub most: f64,
}

impl fmt::Display for InputError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let (name, unit, ..) = self.input.about();
        let Self {
            value, least, most, ..
        } = self;
        write!(
            f,
            "{name} is {value} {unit}: it must be from {least} to {most} {unit}"
        )
    }
}

impl core::error::Error for InputError {}

/// Lets a figure through where it keeps its limits; one that is not a number keeps none.
pub(crate) fn check(input: Input, value: f64) -> Result<f64, InputError> {
    let (_, _, least, most) = input.about();
    if value >= least && value <= most {
        Ok(value)
    } else {
        Err(refused(input, value))
    }
}

/// The error for a figure.
pub(crate) const fn refused(input: Input, value: f64) -> InputError {
    let (_, _, least, most) = input.about();
    InputError {
        input,
        value,
        least,
        most,
    }
}
