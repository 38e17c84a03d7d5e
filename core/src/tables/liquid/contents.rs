//! A liquid of the table, or a petroleum product whose density was measured.

use super::{Liquid, LiquidError, Petroleum};
use crate::units::{Density, Temperature};

/// What is in a tank.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum Contents {
    /// A liquid of the table.
    Liquid(Liquid),
    /// A petroleum product of known density.
    Petroleum(Petroleum),
}

impl Contents {
    /// Its density at `temperature`.
    ///
    /// # Errors
    /// [`LiquidError::Temperature`] outside [`Contents::range`].
    pub fn density(self, temperature: Temperature) -> Result<Density, LiquidError> {
        match self {
            Self::Liquid(liquid) => liquid.density(temperature),
            Self::Petroleum(petroleum) => petroleum.density(temperature),
        }
    }

    /// The temperatures between which it has figures, both included.
    #[must_use]
    pub const fn range(self) -> [Temperature; 2] {
        match self {
            Self::Liquid(liquid) => liquid.range(),
            Self::Petroleum(_) => super::FARTHEST,
        }
    }

    /// Its volume at `to` as a share of its volume at `from`.
    ///
    /// # Errors
    /// [`LiquidError::Temperature`] where either lies outside [`Contents::range`].
    pub fn growth(self, from: Temperature, to: Temperature) -> Result<f64, LiquidError> {
        Ok(self.density(from)?.si() / self.density(to)?.si())
    }
}

impl From<Liquid> for Contents {
    fn from(liquid: Liquid) -> Self {
        Self::Liquid(liquid)
    }
}

impl From<Petroleum> for Contents {
    fn from(petroleum: Petroleum) -> Self {
        Self::Petroleum(petroleum)
    }
}
