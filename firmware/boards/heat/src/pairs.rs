//! Pairs of doubles on which sums, differences and products are tried, and one number for what comes out of many of
//! them. The emulated chip and the machine that tests it both have this file, so that the two can be compared.

/// Pairs of each kind, except of [`Kind::Special`].
const EACH: u32 = 100_000;

/// Values that have something special about them; each goes with each other, with both signs.
const SPECIAL: [u64; 32] = [
    0x0000_0000_0000_0000, // zero
    0x0000_0000_0000_0001, // the least of all
    0x0000_0000_0000_0002,
    0x0000_0000_FFFF_FFFF, // subnormal, in the lower word
    0x0000_0001_0000_0000, // and in the upper
    0x0008_0000_0000_0000,
    0x000F_FFFF_FFFF_FFFF, // the largest subnormal
    0x0010_0000_0000_0000, // the least with all its places
    0x0010_0000_0000_0001,
    0x001F_FFFF_FFFF_FFFF,
    0x0020_0000_0000_0000,
    0x0340_0000_0000_0000, // 2^-971, 2^53 above the least
    0x1FF8_0000_0000_0000, // about the root of the least
    0x3CA0_0000_0000_0000, // half of the last place of one
    0x3CA0_0000_0000_0001,
    0x3CB0_0000_0000_0000, // the last place of one
    0x3DF0_0000_0000_0001, // a word below one, with a last place of its own
    0x3FE0_0000_0000_0000, // one half
    0x3FEF_FFFF_FFFF_FFFF, // just below one
    0x3FF0_0000_0000_0000, // one
    0x3FF0_0000_0000_0001, // just above
    0x3FF8_0000_0000_0000, // one and a half
    0x3FFF_FFFF_FFFF_FFFD, // below two, past which the one a word below takes it
    0x4330_0000_0000_0001, // 2^52 + 1
    0x4340_0000_0000_0000, // 2^53
    0x5FEF_FFFF_FFFF_FFFF, // about the root of the largest
    0x7CA0_0000_0000_0000, // half of the last place of the largest
    0x7FDF_FFFF_FFFF_FFFF,
    0x7FEF_FFFF_FFFF_FFFF, // the largest
    0x7FF0_0000_0000_0000, // infinity
    0x7FF0_0000_0000_0001, // no number, signalling
    0x7FF8_0000_0000_0000, // no number, quiet
];

const SIGN: u64 = 1 << 63;
const FRACTION: u64 = (1 << 52) - 1;

/// What is special about pairs.
#[derive(Clone, Copy, Debug)]
pub(crate) enum Kind {
    /// One of the values above with another.
    Special,
    /// Any bits.
    Any,
    /// Of sizes near to each other, so that sums have carries and borrows.
    Near,
    /// Few bits set, so that results are halfway between two doubles.
    Ties,
    /// Nearly the same size, so that in differences little is left.
    Cancelling,
    /// Sums and differences at the lower end, products across it.
    Least,
    /// The same at the upper end.
    Largest,
    /// Ordinary figures, from a thousandth to a thousand.
    Ordinary,
}

impl Kind {
    /// All.
    pub(crate) const ALL: [Self; 8] = [
        Self::Special,
        Self::Any,
        Self::Near,
        Self::Ties,
        Self::Cancelling,
        Self::Least,
        Self::Largest,
        Self::Ordinary,
    ];

    /// The word for it.
    pub(crate) const fn name(self) -> &'static str {
        match self {
            Self::Special => "special",
            Self::Any => "any",
            Self::Near => "near",
            Self::Ties => "ties",
            Self::Cancelling => "cancelling",
            Self::Least => "least",
            Self::Largest => "largest",
            Self::Ordinary => "ordinary",
        }
    }

    /// How many pairs there are.
    pub(crate) const fn count(self) -> u32 {
        match self {
            Self::Special => 4 * (SPECIAL.len() * SPECIAL.len()) as u32,
            _ => EACH,
        }
    }

    /// The pairs, the same each time.
    pub(crate) fn pairs(self) -> impl Iterator<Item = [f64; 2]> {
        let mut dice = Dice(0x9E37_79B9_7F4A_7C15 ^ self as u64);
        (0..self.count()).map(move |place| self.pair(place, &mut dice).map(f64::from_bits))
    }

    fn pair(self, place: u32, dice: &mut Dice) -> [u64; 2] {
        let [first, second] = [dice.roll(), dice.roll()];
        let near = |exponent: u64, span: u64, dice: &mut Dice| {
            let least = exponent.saturating_sub(span).max(1);
            least + dice.below(exponent.saturating_add(span).min(2046) + 1 - least)
        };
        match self {
            Self::Special => {
                let count = SPECIAL.len() as u32;
                let one = |at: u32, sign: u32| {
                    let bits = SPECIAL.get(at as usize).copied().unwrap_or_default();
                    bits | u64::from(sign & 1) << 63
                };
                let at = place / 4;
                [one(at / count, place), one(at % count, place / 2)]
            }
            Self::Any => [first, second],
            Self::Near => {
                let exponent = dice.below(2047);
                let other = near(exponent, 66, dice);
                [with(first, exponent), with(second, other)]
            }
            Self::Ties => {
                let exponent = 1 + dice.below(2046);
                let other = near(exponent, 56, dice);
                // Of products the exponents must not run off: about one.
                let [exponent, other] = match place % 2 {
                    0 => [exponent, other],
                    _ => [1023, 1023],
                };
                [with(dice.few(), exponent), with(dice.few(), other)]
            }
            Self::Cancelling => {
                let exponent = dice.below(2047);
                let a = with(first, exponent);
                // Its neighbour some last places off, or the one across the next power of two.
                let off = dice.roll() >> (12 + dice.below(52));
                let b = match place % 4 {
                    0 => with(second, near(exponent, 1, dice)),
                    1 => a.wrapping_sub(off),
                    _ => a.wrapping_add(off),
                };
                [a, (b & !SIGN) | (second & SIGN)]
            }
            Self::Least => {
                let exponent = dice.below(2047);
                // Products: the exponents add up to about 1,023, the least that a product keeps all places with.
                let across = (1023 + 5_u64).saturating_sub(exponent);
                match place % 2 {
                    0 => [with(first, dice.below(60)), with(second, dice.below(60))],
                    _ => {
                        let other = across.saturating_sub(dice.below(64)).min(2046);
                        [with(first, exponent), with(second, other)]
                    }
                }
            }
            Self::Largest => {
                let exponent = 1023 + dice.below(1024);
                match place % 2 {
                    0 => [
                        with(first, 2046 - dice.below(60)),
                        with(second, 2046 - dice.below(60)),
                    ],
                    // Products: they add up to about 3,069.
                    _ => [
                        with(first, exponent),
                        with(second, (3067 + dice.below(4) - exponent).min(2046)),
                    ],
                }
            }
            Self::Ordinary => [
                with(first, 1013 + dice.below(20)),
                with(second, 1013 + dice.below(20)),
            ],
        }
    }
}

/// Sign and fraction of `bits` with another exponent.
const fn with(bits: u64, exponent: u64) -> u64 {
    (bits & (SIGN | FRACTION)) | exponent << 52
}

/// Marsaglia's shift registers, "Xorshift RNGs", Journal of Statistical Software 8 (14), 2003: 13, 7, 17 (from memory).
struct Dice(u64);

impl Dice {
    const fn roll(&mut self) -> u64 {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        self.0
    }

    const fn below(&mut self, bound: u64) -> u64 {
        // The upper word decides; bounds are far below it.
        ((self.roll() >> 32) * bound) >> 32
    }

    /// Few bits set, at either end of the fraction.
    const fn few(&mut self) -> u64 {
        let ends = [self.below(40), self.below(40)];
        let [high, low] = [self.roll() << ends[0], self.roll() >> ends[1]];
        match self.below(4) {
            0 => high & (FRACTION << 26),
            1 => low & (FRACTION >> 26),
            2 => (1 << self.below(52)) | (1 << self.below(52)),
            _ => (FRACTION << self.below(52)) ^ (high & SIGN),
        }
    }
}

/// What comes out of the pairs of a kind, as one number: the hash FNV-1a (Fowler, Noll and Vo; from memory), word by
/// word. What is no number counts as the one quiet one, if it is quiet.
pub(crate) fn digest(kind: Kind, of: fn(f64, f64) -> f64) -> u64 {
    kind.pairs().fold(0xCBF2_9CE4_8422_2325, |sum, [a, b]| {
        let result = of(a, b);
        let bits = match result.to_bits() {
            bits if result.is_nan() && bits & (1 << 51) != 0 => 0x7FF8_0000_0000_0000,
            bits => bits,
        };
        (sum ^ bits).wrapping_mul(0x0000_0100_0000_01B3)
    })
}
