//! The measures of what a tank holds.

/// Which capacity a target is set for.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum Measure {
    /// All that the tank holds.
    // From 1, so that no measure at all is zero: see `Tank::EMPTY`.
    Brim = 1,
    /// Up to the fill mark.
    Fill,
    /// Between the pick-up and the fill mark.
    #[default]
    Usable,
}

impl Measure {
    /// Every measure.
    pub const ALL: [Self; 3] = [Self::Brim, Self::Fill, Self::Usable];

    /// The word for it.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Brim => "brim",
            Self::Fill => "fill",
            Self::Usable => "usable",
        }
    }
}
