//! How much glycol a coolant holds.

use core::fmt;

use super::error::{LEAST_GLYCOL, LiquidError, MOST_GLYCOL};

/// Glycol in a coolant, in whole per cent of its mass, 1 to 60; as near as a refractometer reads.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(
    feature = "serde",
    derive(serde::Serialize, serde::Deserialize),
    serde(try_from = "u8", into = "u8")
)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct GlycolShare(u8);

impl GlycolShare {
    /// Half and half by mass.
    pub const HALF: Self = Self(50);
    /// The least, in per cent.
    pub const LEAST: u8 = LEAST_GLYCOL;
    /// The most that the tables hold, in per cent.
    pub const MOST: u8 = MOST_GLYCOL;

    /// From per cent of the mass.
    ///
    /// # Errors
    /// [`LiquidError::Glycol`] outside 1 to 60.
    pub fn new(percent: u8) -> Result<Self, LiquidError> {
        if (Self::LEAST..=Self::MOST).contains(&percent) {
            Ok(Self(percent))
        } else {
            Err(LiquidError::Glycol { value: percent })
        }
    }

    /// Per cent of the mass.
    #[must_use]
    pub const fn percent(self) -> u8 {
        self.0
    }
}

impl TryFrom<u8> for GlycolShare {
    type Error = LiquidError;

    fn try_from(percent: u8) -> Result<Self, LiquidError> {
        Self::new(percent)
    }
}

impl From<GlycolShare> for u8 {
    fn from(share: GlycolShare) -> Self {
        share.0
    }
}

impl fmt::Display for GlycolShare {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} %", self.0)
    }
}
