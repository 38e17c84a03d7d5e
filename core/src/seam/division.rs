//! A seam cut into equal stitches, none longer than a limit.

use crate::geom::split::pieces;
use crate::input::limits::MAX_STITCHES;
use crate::units::Length;

/// Equal stitches along one seam, end to end or with gaps between.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Division {
    /// How many.
    pub count: u16,
    /// Length of each.
    pub length: Length,
    /// From the start of one to the start of the next.
    pub pitch: Length,
    /// From the first end of the seam to the start of the first.
    pub lead: Length,
}

impl Division {
    /// The fewest equal stitches of at most `most` along a seam of `seam`, both above zero; `None`
    /// where the seam alone needs more than [`MAX_STITCHES`].
    #[must_use]
    pub fn of(seam: Length, most: Length) -> Option<Self> {
        let count = pieces(seam.si(), most.si());
        if !(count <= f64::from(MAX_STITCHES)) {
            return None;
        }
        let length = Length::from_metres(seam.si() / count);
        // Whole and at most 256, so the conversion is exact.
        Some(Self {
            count: count as u16,
            length,
            pitch: length,
            lead: Length::default(),
        })
    }

    /// Stitches of `length` with gaps of at most `gap` between them along a seam of `seam`, one at either end of it; where
    /// the seam is too short for two with a gap, it is welded through as [`Division::of`] has it. All must be above zero. `None` as there.
    #[must_use]
    pub fn spaced(seam: Length, length: Length, gap: Length, most: Length) -> Option<Self> {
        let run = seam.si() - length.si();
        if !(run > length.si()) {
            return Self::of(seam, most);
        }
        let gaps = pieces(run, length.si() + gap.si());
        if !(gaps < f64::from(MAX_STITCHES)) {
            return None;
        }
        Some(Self {
            count: gaps as u16 + 1,
            length,
            pitch: Length::from_metres(run / gaps),
            lead: Length::default(),
        })
    }

    /// The whole length that is welded.
    #[must_use]
    pub fn welded(&self) -> Length {
        Length::from_metres(f64::from(self.count) * self.length.si())
    }

    /// How much more a metre of weld bears than a metre of seam hands to it: 1 end to end, pitch over length with gaps.
    #[must_use]
    pub fn gathered(&self) -> f64 {
        libm::fmax(self.pitch.si() / self.length.si(), 1.0)
    }

    /// Start and end of a stitch counted from 0, in m, of a seam `whole` metres long.
    pub(crate) fn run_of(&self, number: u16, whole: f64) -> [f64; 2] {
        let part = |pitches: u16| whole * f64::from(pitches) / f64::from(self.count);
        // End to end, the stitches fill the seam to its last bit.
        if self.pitch <= self.length {
            return [part(number), part(number + 1)];
        }
        let from = self.lead.si() + f64::from(number) * self.pitch.si();
        [from, from + self.length.si()]
    }

    /// Start and end of each stitch, from the start of the seam.
    pub fn runs(self) -> impl Iterator<Item = [Length; 2]> {
        let from = move |n: u16| self.lead.si() + f64::from(n) * self.pitch.si();
        let to = move |n: u16| {
            if self.pitch <= self.length {
                from(n + 1)
            } else {
                from(n) + self.length.si()
            }
        };
        (0..self.count).map(move |n| [from(n), to(n)].map(Length::from_metres))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::LengthUnit;

    fn mm(value: f64) -> Length {
        Length::new(value, LengthUnit::Millimetre)
    }

    /// By hand: 40 (60) along 500 mm is five gaps of 92 mm pitch with a weld at either end.
    #[test]
    fn spaced_by_hand() {
        let spaced = Division::spaced(mm(500.0), mm(40.0), mm(60.0), mm(80.0)).unwrap();
        assert_eq!(spaced.count, 6);
        assert!((spaced.pitch.si() - 0.092).abs() < 1e-12);
        let last = spaced.runs().last().unwrap();
        assert!((last[0].si() - 0.460).abs() < 1e-12 && (last[1].si() - 0.500).abs() < 1e-12);
        assert!((spaced.welded().si() - 0.240).abs() < 1e-12);
    }

    #[test]
    fn a_short_seam_is_welded_through() {
        let short = Division::spaced(mm(70.0), mm(40.0), mm(60.0), mm(80.0));
        assert_eq!(short, Division::of(mm(70.0), mm(80.0)));
    }
}
