//! What sheet may be coated with, and what that does under an arc.

/// What a sheet is coated with.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum Coating {
    /// Zinc.
    Galvanised,
    /// Paint, primer or powder.
    Painted,
}

impl Coating {
    /// Every coating.
    pub const ALL: [Self; 2] = [Self::Galvanised, Self::Painted];

    /// Its name.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Galvanised => "galvanised",
            Self::Painted => "painted",
        }
    }

    /// What the arc makes of it.
    #[must_use]
    pub const fn harms(self) -> &'static str {
        match self {
            Self::Galvanised => {
                "zinc boils at 907 °C, below where steel melts: its fume brings metal fume fever, and blows holes in the bead"
            }
            Self::Painted => {
                "paint, primer and powder burn to fume that may hold isocyanates, lead or chromates, and leave pores in the bead"
            }
        }
    }
}
