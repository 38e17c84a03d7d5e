//! How the table keeps its figures.

use super::{Content, Source, Sourced, Temper, celsius};
use crate::units::{Ratio, Temperature};

/// A whole number of a unit that the field says, and its source.
#[derive(Clone, Copy, Debug)]
pub(super) struct Figure(pub(super) u16, pub(super) Source);

impl Figure {
    /// Divided rather than multiplied by a part: a quotient of whole numbers is rounded once, to the same
    /// double as the decimal written out.
    pub(super) fn over(self, parts: f64) -> Sourced<f64> {
        Sourced::new(f64::from(self.0) / parts, self.1)
    }

    pub(super) fn times(self, unit: f64) -> Sourced<f64> {
        Sourced::new(f64::from(self.0) * unit, self.1)
    }

    pub(super) fn celsius(self) -> Sourced<Temperature> {
        Sourced::new(celsius(f64::from(self.0)), self.1)
    }
}

/// Least, most and nominal in hundredths of a per cent, and the source.
#[derive(Clone, Copy, Debug)]
pub(super) struct Share(
    pub(super) u16,
    pub(super) u16,
    pub(super) u16,
    pub(super) Source,
);

impl Share {
    pub(super) fn content(self) -> Sourced<Content> {
        let share = |hundredths: u16| Ratio::from_share(f64::from(hundredths) / 1e4);
        let content = Content {
            least: share(self.0),
            most: share(self.1),
            nominal: share(self.2),
        };
        Sourced::new(content, self.3)
    }
}

/// Tempers that count alike.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Hardness {
    /// O, H111, H112, F and annealed steel; F and H112 promise no more.
    Soft,
    /// H12, H22, H32, and H116 and H321, which have the strength of H32.
    Quarter,
    /// H14, H24, H34.
    Half,
    /// H16, H26, H36.
    ThreeQuarters,
    /// H18, H28, H38.
    Full,
    /// T4.
    T4,
    /// T5.
    T5,
    /// T6 and T651.
    T6,
}

impl Hardness {
    pub(super) const fn of(temper: Temper) -> Self {
        match temper {
            Temper::F | Temper::O | Temper::H111 | Temper::H112 | Temper::Annealed => Self::Soft,
            Temper::H116 | Temper::H321 | Temper::H12 | Temper::H22 | Temper::H32 => Self::Quarter,
            Temper::H14 | Temper::H24 | Temper::H34 => Self::Half,
            Temper::H16 | Temper::H26 | Temper::H36 => Self::ThreeQuarters,
            Temper::H18 | Temper::H28 | Temper::H38 => Self::Full,
            Temper::T4 => Self::T4,
            Temper::T5 => Self::T5,
            Temper::T6 | Temper::T651 => Self::T6,
        }
    }
}
