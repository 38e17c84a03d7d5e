//! The words of each list.

use seamwright_core::body::{Face, Sized};
use seamwright_core::capacity::Measure;
use seamwright_core::heat::arc::Process;
use seamwright_core::seam::Joint;
use seamwright_core::stock::{Alloy, Temper};

use super::reader::Word;

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

impl Word for Joint {
    fn all() -> Vec<Self> {
        Self::ALL.to_vec()
    }

    fn word(self) -> String {
        self.name().to_owned()
    }
}

impl Word for Measure {
    fn all() -> Vec<Self> {
        Self::ALL.to_vec()
    }

    fn word(self) -> String {
        self.name().to_owned()
    }
}

impl Word for Process {
    fn all() -> Vec<Self> {
        Self::ALL.to_vec()
    }

    fn word(self) -> String {
        self.name().to_owned()
    }
}

impl Word for Temper {
    fn all() -> Vec<Self> {
        Self::ALL.to_vec()
    }

    fn word(self) -> String {
        self.name().to_owned()
    }
}

impl Word for Alloy {
    fn all() -> Vec<Self> {
        Self::ALL.to_vec()
    }

    fn word(self) -> String {
        self.name().to_owned()
    }

    fn read(text: &str) -> Option<Self> {
        // Also by the names of other standards.
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
