//! How long an order holds metal where its alloy must not stay, as a figure.

use crate::seam::SeamMark;
use crate::tables::preheat::HoldBand;
use crate::units::{Length, Time};

/// How long an order keeps the metal of a tank's seams where it must not stay.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct HeldMetal {
    /// The temperatures, and how long it may stay there.
    pub band: HoldBand,
    /// How long it stays there where it stays longest.
    pub longest: Time,
    /// The seam where that is.
    pub seam: SeamMark,
    /// How far from the seam's first end.
    pub at: Length,
    /// What it would be at the published interpass limit, where the plan waits for cooler metal to keep it shorter.
    pub instead: Option<HeldInstead>,
}

/// What an order takes and how long it holds the metal without waits for cooler metal.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct HeldInstead {
    /// How long the metal stays where it stays longest.
    pub longest: Time,
    /// How long the job takes.
    pub job: Time,
}

impl HeldMetal {
    /// Whether it stays no longer than it may.
    #[must_use]
    pub fn is_kept(&self) -> bool {
        self.longest <= self.band.most
    }
}
