//! How warm the metal of a tank is to be before an arc, against what is published for its alloy.

use crate::tables::preheat::{interpass_limit, least_temperature};
use crate::tank::Tank;

/// The warmest that a job lets the metal be where a stitch starts, against the published limit.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum InterpassChoice {
    /// Warmer than is published.
    Above,
    /// What is published.
    AsPublished,
    /// Cooler than it need be.
    Below,
}

impl Tank {
    /// Whether the air and the sheet are colder than the first arc should find them
    /// ([`least_temperature`]), so that the sheet is to be warmed and dried.
    #[must_use]
    pub fn is_too_cold(&self) -> bool {
        self.job.welding.ambient < least_temperature(self.job.alloy).value
    }

    /// How its [`interpass_max`](Self::interpass_max) stands against the limit of its alloy ([`interpass_limit`]).
    #[must_use]
    pub fn interpass_choice(&self) -> InterpassChoice {
        let (own, limit) = (self.interpass_max(), interpass_limit(self.job.alloy).value);
        if own > limit {
            InterpassChoice::Above
        } else if own < limit {
            InterpassChoice::Below
        } else {
            InterpassChoice::AsPublished
        }
    }
}
