//! A stage of building, and a seam's place among them.

use crate::blank::PanelMark;
use crate::input::Face;
use crate::input::limits::MAX_BAFFLES;

/// Stages that a tank may have: one of each kind, and one for each baffle and for each of up to two panels that close it.
pub const MAX_STAGES: usize = 8 + MAX_BAFFLES;

/// What is done in a stage.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum BuildWork {
    /// Fittings are welded into panels that still lie flat, with both sides open.
    FlatFittings,
    /// Panels are bent and rolled.
    Forming,
    /// The long seam of a wrapper or of a drum's wall, or the corners of a pan, are tacked and welded while both sides are
    /// open.
    LongSeams,
    /// Fittings are welded into walls that had to be rolled or dished first, while the tank is open.
    FormedFittings,
    /// The walls are tacked together round the side that stays open.
    Walls,
    /// Baffles are set in, tacked and welded through the open side.
    Baffles,
    /// What closes the tank is put on and tacked.
    Closing,
    /// The seams of the walls are welded from outside.
    OutsideSeams,
}

impl BuildWork {
    /// The words for it.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::FlatFittings => "fittings into flat panels",
            Self::Forming => "bends and rolls",
            Self::LongSeams => "seams of formed panels",
            Self::FormedFittings => "fittings into formed walls",
            Self::Walls => "walls up and tacked",
            Self::Baffles => "baffles in",
            Self::Closing => "closing the tank",
            Self::OutsideSeams => "outside seams",
        }
    }
}

/// Panels and fittings by their marks.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct PanelSet(u64);

impl PanelSet {
    /// None.
    pub const NONE: Self = Self(0);

    const fn bit(mark: PanelMark) -> u64 {
        // Marks end below 43.
        match 1_u64.checked_shl(mark.place() as u32) {
            Some(bit) => bit,
            None => 0,
        }
    }

    /// Adds one.
    pub const fn add(&mut self, mark: PanelMark) {
        self.0 |= Self::bit(mark);
    }

    /// All but one.
    #[must_use]
    pub const fn without(self, mark: PanelMark) -> Self {
        Self(self.0 & !Self::bit(mark))
    }

    /// Whether it is among them.
    #[must_use]
    pub const fn has(self, mark: PanelMark) -> bool {
        self.0 & Self::bit(mark) != 0
    }

    /// Whether there is none.
    #[must_use]
    pub const fn is_empty(self) -> bool {
        self.0 == 0
    }

    /// All of them, in the order of their marks.
    pub fn marks(self) -> impl Iterator<Item = PanelMark> {
        (0..64)
            .map(PanelMark::at)
            .filter(move |mark| self.has(*mark))
    }
}

/// A stage of building.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct BuildStage {
    /// What is done.
    pub work: BuildWork,
    /// The panels and fittings that it is done to: set in, bent, put up or put on; of the last stage none.
    pub panels: PanelSet,
}

/// From where a seam is welded.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum WeldAccess {
    /// From either side: its panel lies open.
    BothSides,
    /// From outside.
    Outside,
    /// From inside, by hand and torch through the place of this face, which is not on yet, or through the bore of this
    /// fitting.
    Inside(Face),
    /// From nowhere: when both of its panels stand, no opening for hand and torch is in reach.
    Nowhere,
}

/// A seam's place in the building.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct SeamStages {
    /// The stage, counted from 1, by whose end its two sides stand against each other.
    pub joined: u8,
    /// The stage, counted from 1, in which it is welded; 0 for a fold, and where nothing reaches it.
    pub welded: u8,
    /// From where; `None` for a fold and for an edge that is not welded.
    pub from: Option<WeldAccess>,
    /// Whether it is farther from that opening than hand and torch reach, so that the welder has to lean or climb in.
    pub within: bool,
}

impl SeamStages {
    /// Whether it is to be welded and nothing reaches it.
    #[must_use]
    pub fn is_unreached(&self) -> bool {
        self.from == Some(WeldAccess::Nowhere)
    }
}
