//! The shapes that a tank can have, as its maker describes them.

use super::{Block, Drum, Face, Profile, Sized, Taper};

/// A tank's shape, as its maker describes it.
#[derive(Clone, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum Shape {
    /// A box with plane cuts.
    Block(Block),
    /// An outline carried from the front to the back.
    Profile(Profile),
    /// A rectangle below, another above.
    Taper(Taper),
    /// A round wall between two ends.
    Drum(Drum),
}

impl Shape {
    /// What the sizes measure.
    #[must_use]
    pub const fn sized(&self) -> Sized {
        match self {
            Self::Block(block) => block.sized,
            Self::Profile(profile) => profile.sized,
            Self::Taper(taper) => taper.sized,
            Self::Drum(drum) => drum.sized,
        }
    }

    /// The word for its kind.
    #[must_use]
    pub const fn kind(&self) -> &'static str {
        match self {
            Self::Block(_) => "block",
            Self::Profile(_) => "profile",
            Self::Taper(_) => "taper",
            Self::Drum(_) => "drum",
        }
    }

    /// Whether the shape has a face of that name, before sheet and cuts are looked at.
    #[must_use]
    pub fn has(&self, face: Face) -> bool {
        let among = |number: u8, count: usize| (1..=count).contains(&usize::from(number));
        match (self, face) {
            (Self::Block(block), Face::Cut(number)) => among(number, block.cuts.len()),
            (Self::Profile(profile), Face::Side(number)) => among(number, profile.outline.len()),
            (Self::Profile(_), Face::Front | Face::Back) => true,
            (Self::Drum(drum), face) => face == Face::Shell || drum.axis.heads().contains(&face),
            (Self::Profile(_), _) => false,
            (Self::Block(_) | Self::Taper(_), face) => face.axis().is_some(),
        }
    }
}

impl From<Block> for Shape {
    fn from(block: Block) -> Self {
        Self::Block(block)
    }
}

impl From<Profile> for Shape {
    fn from(profile: Profile) -> Self {
        Self::Profile(profile)
    }
}

impl From<Taper> for Shape {
    fn from(taper: Taper) -> Self {
        Self::Taper(taper)
    }
}

impl From<Drum> for Shape {
    fn from(drum: Drum) -> Self {
        Self::Drum(drum)
    }
}
