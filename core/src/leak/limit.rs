//! Which of its limits set a pressure of a leak test.

use crate::input::Face;
use crate::seam::SeamMark;

/// Which of its limits set a pressure of a leak test: the one without which the pressure would be another.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum PressureLimit {
    /// The fixed pressure of the rule.
    RuleFigure,
    /// The rule's multiple of the head that the tank's own liquid makes.
    RuleHeads,
    /// The head of water that wets the highest seam, where the rule asks for less.
    FullOfWater,
    /// The pressure that the weakest wall takes: which wall, where it is one of the tank's own.
    WeakestWall(Option<Face>),
    /// The pressure that the weakest seam takes, where that is less.
    WeakestSeam(SeamMark),
    /// The usual margin of a relief valve over the pressure of the test.
    OverTest,
}

impl PressureLimit {
    /// The limit in words, as the end of "set by".
    #[must_use]
    pub const fn text(self) -> &'static str {
        match self {
            Self::RuleFigure => "the rule's own figure",
            Self::RuleHeads => "the rule's multiple of the tank's own head",
            Self::FullOfWater => "the tank full of water, which wets its highest seam",
            Self::WeakestWall(_) => "what the weakest wall takes",
            Self::WeakestSeam(_) => "what the weakest seam takes",
            Self::OverTest => "a tenth over the test pressure",
        }
    }

    /// The limit as one word for programs.
    #[must_use]
    pub const fn key(self) -> &'static str {
        match self {
            Self::RuleFigure => "rule-figure",
            Self::RuleHeads => "rule-heads",
            Self::FullOfWater => "full-of-water",
            Self::WeakestWall(_) => "weakest-wall",
            Self::WeakestSeam(_) => "weakest-seam",
            Self::OverTest => "over-test",
        }
    }
}
