//! Decimal printing by exact integer arithmetic.
//!
//! The general float printer of `core::fmt` costs a device about 10 kB of flash; this one takes the
//! double apart and makes its decimals in a `u128`. It rounds the exact binary value, half to even,
//! as `core::fmt` does (checked against it in the `tests` crate), with one difference: a number that
//! rounds to zero has no minus sign.
//!
//! Range: magnitudes below 2^64 (1.8e19) and up to [`MAX_PLACES`] decimals. Outside, what is printed
//! is true though less exact: `>1.8e19`, `<-1.8e19`, and `no value` for what is not a number.

use core::fmt;

/// The most decimals that are printed; a request for more prints this many.
pub const MAX_PLACES: u8 = 20;

/// The bits of a fraction in fixed point: four short of `u128`, which leaves room for a digit.
const POINT: u32 = 124;

/// A sign, 20 digits, a point and 20 more is the longest.
const LONGEST_NUMBER: usize = 48;

/// A printed number, as text in place.
pub type NumberText = heapless::String<LONGEST_NUMBER>;

/// A printed number with its unit, as text in place.
pub type UnitText = heapless::String<64>;

/// A number to be printed to a fixed count of decimals.
///
/// `Display` obeys the width, fill, alignment, `+` and `0` of a format string.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Decimal {
    value: f64,
    places: u8,
}

/// The printed form before it is text.
enum Form {
    Digits {
        negative: bool,
        whole: u64,
        digits: [u8; MAX_PLACES as usize],
    },
    OffScale {
        negative: bool,
    },
    NoValue,
}

impl Decimal {
    /// `value` to `places` decimals, at most [`MAX_PLACES`].
    #[must_use]
    pub const fn new(value: f64, places: u8) -> Self {
        Self {
            value,
            places: if places > MAX_PLACES {
                MAX_PLACES
            } else {
                places
            },
        }
    }

    /// `value` with as few decimals as show at least `figures` significant figures.
    ///
    /// The whole part is always written out: three figures of 1234.5 are `1234`, of 12.345 `12.3`,
    /// of 0.012345 `0.0123`. Zero shows `figures - 1` decimals. At most [`MAX_PLACES`] decimals.
    #[must_use]
    pub fn with_figures(value: f64, figures: u8) -> Self {
        let enough =
            |places: &u8| Self::new(value, *places).figures_shown() >= usize::from(figures);
        let places = if value == 0.0 {
            figures.saturating_sub(1)
        } else {
            (0..MAX_PLACES).find(enough).unwrap_or(MAX_PLACES)
        };
        Self::new(value, places)
    }

    /// How many decimals are printed.
    #[must_use]
    pub const fn places(self) -> u8 {
        self.places
    }

    /// As text, without `core::fmt`.
    #[must_use]
    pub fn text(self) -> NumberText {
        let mut text = NumberText::new();
        if self.write_magnitude(&mut text) {
            let mut signed = NumberText::new();
            put(&mut signed, "-");
            put(&mut signed, &text);
            text = signed;
        }
        text
    }

    /// Writes the number without its minus sign, and says whether it needs one.
    fn write_magnitude(self, text: &mut NumberText) -> bool {
        match self.form() {
            Form::NoValue => {
                put(text, "no value");
                false
            }
            Form::OffScale { negative } => {
                put(text, if negative { "<-1.8e19" } else { ">1.8e19" });
                false
            }
            Form::Digits {
                negative,
                whole,
                digits,
            } => {
                put_whole(text, whole);
                if self.places > 0 {
                    put(text, ".");
                }
                for digit in digits.iter().take(usize::from(self.places)) {
                    put_digit(text, *digit);
                }
                negative
            }
        }
    }

    /// Takes the double apart and rounds it.
    fn form(self) -> Form {
        const MANTISSA_BITS: u32 = f64::MANTISSA_DIGITS - 1;
        let bits = self.value.to_bits();
        let negative = bits >> 63 == 1;
        let raw_exponent = ((bits >> MANTISSA_BITS) & 0x7ff) as i32;
        let fraction_field = bits & ((1 << MANTISSA_BITS) - 1);
        if raw_exponent == 0x7ff && fraction_field != 0 {
            return Form::NoValue;
        }
        // The value is mantissa * 2^exponent.
        let (mantissa, exponent) = match raw_exponent {
            0 => (fraction_field, -1074),
            _ => (fraction_field | (1 << MANTISSA_BITS), raw_exponent - 1075),
        };
        let (whole, fraction) = match exponent {
            12.. => return Form::OffScale { negative },
            0..12 => (mantissa << exponent, 0),
            -63..0 => {
                let below = exponent.unsigned_abs();
                let fraction = mantissa & ((1 << below) - 1);
                (mantissa >> below, u128::from(fraction) << (POINT - below))
            }
            -124..-63 => (0, u128::from(mantissa) << (POINT - exponent.unsigned_abs())),
            // Less than 2^-72, far under half of the twentieth decimal.
            _ => (0, 0),
        };
        round(negative, whole, fraction, self.places)
    }

    /// The count of significant figures that this shows.
    fn figures_shown(self) -> usize {
        match self.form() {
            Form::Digits { whole, digits, .. } => match whole.checked_ilog10() {
                Some(power) => power as usize + 1 + usize::from(self.places),
                None => {
                    let shown = digits.iter().take(usize::from(self.places));
                    shown.skip_while(|digit| **digit == 0).count()
                }
            },
            Form::OffScale { .. } | Form::NoValue => usize::MAX,
        }
    }
}

/// Makes `places` decimals of a fixed-point fraction and rounds the last, half to even.
fn round(negative: bool, mut whole: u64, mut fraction: u128, places: u8) -> Form {
    const HALF: u128 = 1 << (POINT - 1);
    let mut digits = [0; MAX_PLACES as usize];
    // Only whether it is odd counts.
    let mut last = (whole & 1) as u8;
    for digit in digits.iter_mut().take(usize::from(places)) {
        fraction *= 10;
        last = (fraction >> POINT) as u8;
        *digit = last;
        fraction &= (1 << POINT) - 1;
    }
    let mut carry = fraction > HALF || (fraction == HALF && last % 2 == 1);
    for digit in digits.iter_mut().take(usize::from(places)).rev() {
        if !carry {
            break;
        }
        carry = *digit == 9;
        *digit = if carry { 0 } else { *digit + 1 };
    }
    // A whole part beside a fraction has at most 53 bits, so this cannot overflow.
    whole += u64::from(carry);
    let zero = whole == 0 && digits.iter().all(|digit| *digit == 0);
    Form::Digits {
        negative: negative && !zero,
        whole,
        digits,
    }
}

/// Appends a piece. The buffers here are longer than the longest text, so nothing is lost.
pub(super) fn put<const N: usize>(text: &mut heapless::String<N>, piece: &str) {
    text.push_str(piece).unwrap_or_default();
}

fn put_digit<const N: usize>(text: &mut heapless::String<N>, digit: u8) {
    text.push(char::from(b'0' + digit)).unwrap_or_default();
}

/// Appends a whole number.
pub(super) fn put_whole<const N: usize>(text: &mut heapless::String<N>, whole: u64) {
    let mut digits = [0; 20];
    let mut left = whole;
    let mut count = 0;
    for digit in digits.iter_mut().rev() {
        *digit = (left % 10) as u8;
        left /= 10;
        count += 1;
        if left == 0 {
            break;
        }
    }
    for digit in digits.iter().skip(digits.len() - count) {
        put_digit(text, *digit);
    }
}

impl fmt::Display for Decimal {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let mut text = NumberText::new();
        let negative = self.write_magnitude(&mut text);
        if text.starts_with(|c: char| c.is_ascii_digit()) {
            f.pad_integral(!negative, "", &text)
        } else {
            f.pad(&text)
        }
    }
}

/// A printed number and the symbol of its unit: "320.0 mm".
///
/// A space stands between them except before the degree of an angle (SI brochure, 9th edition,
/// section 5.4.3, from memory). `Display` obeys the width, fill and alignment of a format string.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct WithUnit {
    number: Decimal,
    symbol: &'static str,
}

impl WithUnit {
    /// `number` of the unit with `symbol`, which is one of this crate's and so fits the buffer.
    pub(crate) const fn new(number: Decimal, symbol: &'static str) -> Self {
        Self { number, symbol }
    }

    /// The number alone.
    #[must_use]
    pub const fn number(self) -> Decimal {
        self.number
    }

    /// The symbol alone.
    #[must_use]
    pub const fn symbol(self) -> &'static str {
        self.symbol
    }

    /// As text, without `core::fmt`.
    #[must_use]
    pub fn text(self) -> UnitText {
        let mut text = UnitText::new();
        put(&mut text, &self.number.text());
        if self.symbol != "°" {
            put(&mut text, " ");
        }
        put(&mut text, self.symbol);
        text
    }
}

impl fmt::Display for WithUnit {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(&self.text())
    }
}
