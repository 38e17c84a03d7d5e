//! Fractions of an inch, as a tape shows them.
//!
//! Rounding is to the nearest division, and from half way to the even one: NIST SP 811 (2008),
//! section B.7.1, and ASTM E29, rounding method (both from memory). A length is held in metres, which
//! cannot hold most fractions of an inch exactly; one that is nearer to half way than a part in 10^12
//! of itself counts as half way.

use core::fmt;

use super::print::{put, put_whole};
use super::{Length, LengthUnit};

/// The smallest division of the tape.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum InchStep {
    /// 1/2 in.
    Half,
    /// 1/4 in.
    Quarter,
    /// 1/8 in.
    Eighth,
    /// 1/16 in.
    Sixteenth,
    /// 1/32 in.
    ThirtySecond,
    /// 1/64 in.
    SixtyFourth,
}

impl InchStep {
    /// Every step, the coarsest first.
    pub const ALL: [Self; 6] = [
        Self::Half,
        Self::Quarter,
        Self::Eighth,
        Self::Sixteenth,
        Self::ThirtySecond,
        Self::SixtyFourth,
    ];

    /// How many of it make an inch.
    #[must_use]
    pub const fn denominator(self) -> u8 {
        match self {
            Self::Half => 2,
            Self::Quarter => 4,
            Self::Eighth => 8,
            Self::Sixteenth => 16,
            Self::ThirtySecond => 32,
            Self::SixtyFourth => 64,
        }
    }
}

/// A printed fraction, as text in place.
pub type FractionText = heapless::String<40>;

/// Inches and a reduced fraction: 12 5/8 in.
///
/// `Display` writes "12 5/8 in", "5/8 in", "0 in", and obeys the width, fill and alignment of a
/// format string.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct InchFraction {
    /// Whether it is below zero; never of zero itself.
    pub negative: bool,
    /// The whole inches.
    pub whole: u32,
    /// The part of an inch: less than `denominator`, and 0 when there is none.
    pub numerator: u8,
    /// 1 when there is no part, else 2 to 64 and reduced.
    pub denominator: u8,
}

impl InchFraction {
    /// `length` to the nearest `step`, from half way to the even one.
    ///
    /// `None` if it is not a number, or not below 2^32 - 1 inches (about 109,000 km).
    #[must_use]
    pub fn nearest(length: Length, step: InchStep) -> Option<Self> {
        let denominator = step.denominator();
        let exact = length.in_unit(LengthUnit::Inch) * f64::from(denominator);
        // So that the count of inches fits in 32 bits.
        if exact.is_nan() || libm::fabs(exact) >= f64::from(u32::MAX) * f64::from(denominator) {
            return None;
        }
        let steps = round_half_even(exact);
        let count = libm::fabs(steps) as u64;
        let part = (count % u64::from(denominator)) as u8;
        let whole = (count / u64::from(denominator)) as u32;
        // Both are powers of two times an odd number, so the common factor is a power of two.
        let shift = (part | denominator).trailing_zeros();
        Some(Self {
            negative: steps < 0.0,
            whole,
            numerator: part >> shift,
            denominator: denominator >> shift,
        })
    }

    /// The length that it stands for, exact but for the rounding to a double.
    #[must_use]
    pub fn length(self) -> Length {
        let inches =
            f64::from(self.whole) + f64::from(self.numerator) / f64::from(self.denominator);
        Length::new(
            if self.negative { -inches } else { inches },
            LengthUnit::Inch,
        )
    }

    /// The number without the unit: "12 5/8".
    #[must_use]
    pub fn number(self) -> FractionText {
        let mut text = FractionText::new();
        if self.negative {
            put(&mut text, "-");
        }
        put_mixed(&mut text, self.whole, self.numerator, self.denominator);
        text
    }

    /// The number with the unit, without `core::fmt`.
    #[must_use]
    pub fn text(self) -> FractionText {
        let mut text = self.number();
        put(&mut text, " in");
        text
    }
}

impl fmt::Display for InchFraction {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(&self.text())
    }
}

/// Feet, inches and a reduced fraction: 3 ft 2 5/8 in.
///
/// `Display` writes "3 ft 2 5/8 in", "3 ft 0 5/8 in", "3 ft 0 in", and "2 5/8 in" below a foot; it
/// obeys the width, fill and alignment of a format string.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct FeetInches {
    /// Whether it is below zero; never of zero itself.
    pub negative: bool,
    /// The whole feet.
    pub feet: u32,
    /// The whole inches beyond them, 0 to 11.
    pub inches: u8,
    /// The part of an inch: less than `denominator`, and 0 when there is none.
    pub numerator: u8,
    /// 1 when there is no part, else 2 to 64 and reduced.
    pub denominator: u8,
}

impl FeetInches {
    /// `length` to the nearest `step` of an inch, from half way to the even one.
    ///
    /// `None` if it is not a number, or not below 2^32 - 1 inches (about 109,000 km).
    #[must_use]
    pub fn nearest(length: Length, step: InchStep) -> Option<Self> {
        InchFraction::nearest(length, step).map(Self::from)
    }

    /// With the units, without `core::fmt`.
    #[must_use]
    pub fn text(self) -> FractionText {
        let mut text = FractionText::new();
        if self.negative {
            put(&mut text, "-");
        }
        if self.feet > 0 {
            put_whole(&mut text, u64::from(self.feet));
            put(&mut text, " ft ");
            // As on a drawing: 1 ft 0 5/8 in leaves no doubt that no inch was forgotten.
            if self.inches == 0 && self.numerator > 0 {
                put(&mut text, "0 ");
            }
        }
        put_mixed(
            &mut text,
            u32::from(self.inches),
            self.numerator,
            self.denominator,
        );
        put(&mut text, " in");
        text
    }
}

impl From<InchFraction> for FeetInches {
    fn from(fraction: InchFraction) -> Self {
        let InchFraction {
            negative,
            whole,
            numerator,
            denominator,
        } = fraction;
        Self {
            negative,
            feet: whole / 12,
            inches: (whole % 12) as u8,
            numerator,
            denominator,
        }
    }
}

impl fmt::Display for FeetInches {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(&self.text())
    }
}

/// "12 5/8", "5/8", "12" or "0".
fn put_mixed(text: &mut FractionText, whole: u32, numerator: u8, denominator: u8) {
    if whole > 0 || numerator == 0 {
        put_whole(text, u64::from(whole));
    }
    if whole > 0 && numerator > 0 {
        put(text, " ");
    }
    if numerator > 0 {
        put_whole(text, u64::from(numerator));
        put(text, "/");
        put_whole(text, u64::from(denominator));
    }
}

/// The nearest whole number, from half way to the even one.
fn round_half_even(value: f64) -> f64 {
    const NEAR: f64 = 1e-12;
    let below = libm::floor(value);
    let half = below + 0.5;
    if libm::fabs(value - half) > NEAR * libm::fabs(value) {
        return libm::floor(value + 0.5);
    }
    // The only even number of the two next to it.
    2.0 * libm::floor(below / 2.0 + 0.5)
}
