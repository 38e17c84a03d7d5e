//! Whether a flat disc bears its load.

use super::super::limits;
use super::super::plate::{Bending, Tilt, disc_clamped, disc_reaction, disc_supported};
use super::{Bent, PanelMetal, PanelStrength, Span};
use crate::units::range::RangeError;
use crate::units::{Length, Pressure};

/// A flat disc and what presses on it: a baffle across a drum.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct RoundPanel {
    radius: f64,
    tilt: Tilt,
    thickness: f64,
    metal: PanelMetal,
}

impl RoundPanel {
    /// A disc under a pressure that is `mean` in its middle and `rise` more at one place of its rim, as much less
    /// at the opposite one.
    ///
    /// # Errors
    /// [`RangeError`] for a figure past its limits; [`Figure::Pressure`](crate::units::Figure::Pressure) where the pressure falls below zero at the
    /// rim or passes 100 bar.
    pub fn new(
        radius: Length,
        thickness: Length,
        metal: PanelMetal,
        mean: Pressure,
        rise: Pressure,
    ) -> Result<Self, RangeError> {
        let tilt = Tilt {
            mean: mean.si(),
            rise: rise.si(),
        };
        limits::pressure(tilt.rise)?;
        limits::pressure(tilt.mean - tilt.rise)?;
        limits::pressure(tilt.most())?;
        Ok(Self {
            radius: limits::size(radius.si())?,
            tilt,
            thickness: limits::thickness(thickness)?,
            metal,
        })
    }

    /// The highest pressure on it.
    #[must_use]
    pub fn most(&self) -> Pressure {
        Pressure::from_pascals(self.tilt.most())
    }

    fn bent(&self) -> Bent {
        Bent {
            span: Span::Disc(self.radius),
            level: 0.0,
            metal: self.metal,
            free: disc_supported(self.radius, self.tilt, self.metal.poisson),
            fixed: self.clamped(),
        }
    }

    /// What bends it where its edge is held from turning.
    #[must_use]
    pub fn clamped(&self) -> Bending {
        disc_clamped(self.radius, self.tilt)
    }

    /// What it hands to its edge at the most, in N/m.
    #[must_use]
    pub fn reaction(&self) -> f64 {
        disc_reaction(self.radius, self.tilt)
    }

    /// How it bears its load.
    #[must_use]
    pub fn strength(&self) -> PanelStrength {
        self.bent().strength(self.thickness, false)
    }

    /// The thickness that would give it the reserve `target`, all else as it is.
    ///
    /// # Errors
    /// [`RangeError`] for a target below 0.1 or above 100.
    pub fn mend(&self, target: f64) -> Result<Length, RangeError> {
        let target = limits::reserve(target)?;
        let needed = self.bent().thickness_for(target, self.thickness);
        Ok(Length::from_metres(needed))
    }
}
