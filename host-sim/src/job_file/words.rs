//! The words of each list.

use seamwright_core::gmaw::{ShieldGas, Transfer};
use seamwright_core::input::limits::{MAX_CUTS, MAX_SIDES};
use seamwright_core::input::{Across, Axis, Face, Joint, Measure, Sized};
use seamwright_core::tables::{Alloy, Coating, Filler, Liquid, Process, Temper};

use super::reader::Word;

/// Whether something is so.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum YesNo {
    Yes,
    No,
}

impl From<YesNo> for bool {
    fn from(word: YesNo) -> Self {
        word == YesNo::Yes
    }
}

impl Word for YesNo {
    fn all() -> Vec<Self> {
        vec![Self::Yes, Self::No]
    }

    fn word(self) -> String {
        match self {
            Self::Yes => "yes",
            Self::No => "no",
        }
        .to_owned()
    }
}

impl Word for Sized {
    fn all() -> Vec<Self> {
        vec![Self::Outside, Self::Inside]
    }

    fn word(self) -> String {
        match self {
            Self::Outside => "outside",
            Self::Inside => "inside",
        }
        .to_owned()
    }
}

/// The names of a list that core keeps; read as it reads them where `by parse` stands, which knows more names.
macro_rules! listed {
    ($($list:ty $(, by $read:ident)?;)+) => {
        $(impl Word for $list {
            fn all() -> Vec<Self> {
                Self::ALL.to_vec()
            }

            fn word(self) -> String {
                self.name().to_owned()
            }

            $(fn read(text: &str) -> Option<Self> {
                text.$read().ok()
            })?
        })+
    };
}

listed! {
    Joint;
    Measure;
    Process;
    Transfer;
    ShieldGas;
    Coating;
    Temper;
    Axis;
    Across;
    // Also by the names of other standards.
    Alloy, by parse;
    // With or without ER.
    Filler, by parse;
}

/// The forms of a drum's ends.
pub(super) const ENDS: [&str; 4] = ["flat", "hemispherical", "ellipsoidal 2:1", "torispherical"];

/// Every face that a body can have.
pub(super) fn every_face() -> Vec<Face> {
    let numbered = |most: usize| 1..=u8::try_from(most).unwrap_or(0);
    let mut all = Face::BOX.to_vec();
    all.extend(numbered(MAX_CUTS).map(Face::Cut));
    all.extend(numbered(MAX_SIDES).map(Face::Side));
    all.push(Face::Shell);
    all
}

impl Word for Liquid {
    fn all() -> Vec<Self> {
        Self::ALL.to_vec()
    }

    fn word(self) -> String {
        match self {
            Self::EthyleneGlycol(share) | Self::PropyleneGlycol(share) => {
                format!("{} {share}", self.name())
            }
            plain => plain.name().to_owned(),
        }
    }

    fn read(text: &str) -> Option<Self> {
        text.parse().ok()
    }
}

impl Word for Face {
    fn all() -> Vec<Self> {
        Self::BOX.to_vec()
    }

    fn word(self) -> String {
        self.to_string()
    }
}
