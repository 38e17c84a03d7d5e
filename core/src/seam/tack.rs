//! Tacks: how many, how long, and where.

use crate::units::Length;

/// A tack is this many thicknesses long: G. Mathers, The Welding of Aluminium and its Alloys (2002),
/// p. 88. On steels, where a tack of four thicknesses is enough, this is longer than asked for.
pub const TACK_LENGTH: f64 = 8.0;

/// Tacks stand at most this many thicknesses apart: Mathers, p. 88, closer on thin sheet. On stainless
/// sheet of 2 to 3 mm common practice, no source, gives 70 to 120 mm, which this meets.
pub const TACK_PITCH: f64 = 35.0;

/// The tacks of one seam: equally spaced, the outer two a half tack in from the ends so that each lies
/// wholly on the seam.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Tacks {
    /// How many.
    pub count: u16,
    /// Length of each; the whole seam where that is shorter.
    pub length: Length,
    /// Centre of the first, from the start of the seam.
    pub first: Length,
    /// From centre to centre; zero for a single tack.
    pub pitch: Length,
}

impl Tacks {
    /// Most tacks on one seam; past it the pitch asked for is finer than the count can say.
    pub const MOST: u16 = 9_999;

    /// Spaces tacks of `length` at most `pitch` apart along a seam of `seam`. One tack in the middle
    /// does for a seam of two tacks' length or less. `None` where more than [`Tacks::MOST`] would be
    /// needed. All lengths must be above zero.
    #[must_use]
    pub fn spaced(seam: Length, length: Length, pitch: Length) -> Option<Self> {
        let (whole, tack) = (seam.si(), length.si());
        if whole <= 2.0 * tack {
            let length = Length::from_metres(libm::fmin(whole, tack));
            let first = Length::from_metres(0.5 * whole);
            return Some(Self {
                count: 1,
                length,
                first,
                pitch: Length::default(),
            });
        }
        let run = whole - tack;
        let gaps = crate::geom::split::pieces(run, pitch.si());
        if !(gaps < f64::from(Self::MOST)) {
            return None;
        }
        // Whole and below 9999, so the conversion is exact.
        let count = gaps as u16 + 1;
        Some(Self {
            count,
            length,
            first: Length::from_metres(0.5 * tack),
            pitch: Length::from_metres(run / gaps),
        })
    }

    /// Centres of the tacks, from the start of the seam.
    pub fn centres(self) -> impl Iterator<Item = Length> {
        (0..self.count)
            .map(move |n| Length::from_metres(self.first.si() + f64::from(n) * self.pitch.si()))
    }
}
