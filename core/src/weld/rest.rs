//! Rests of power source and torch: in no ten minutes may the arc burn for more than their share.
//!
//! The basis of ten minutes is that of IEC 60974-1 ([`arc::duty`](crate::arc::duty)). Here every stretch of ten minutes
//! that ends with an arc is looked at, for in one of those the arc burns longest.

use heapless::Vec;

use crate::arc::duty::{DutyError, PERIOD, RatingPlate};
use crate::arc::{Arc, Equipment, RatedPart};
use crate::units::{Current, Ratio};

/// Arcs that are kept apart: more in ten minutes are taken as burnt later than they were.
const ARCS: usize = 64;

/// The share of any ten minutes for which the arc may burn, and what sets it.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct ArcShare {
    /// The share.
    pub share: Ratio,
    /// The part that allows no more.
    pub part: RatedPart,
}

impl ArcShare {
    /// The share that the ratings of power source and torch allow of a current: the lesser of the two, of equals the
    /// power source's; `None` where neither is rated. The torch's ratings are those for the job's process.
    ///
    /// # Errors
    /// [`DutyError`] where the current is past a rating.
    pub fn of_ratings(
        power_source: Option<&RatingPlate>,
        torch: Option<&RatingPlate>,
        current: Current,
    ) -> Result<Option<Self>, DutyError> {
        let parts = [
            (RatedPart::PowerSource, power_source),
            (RatedPart::Torch, torch),
        ];
        let mut least: Option<Self> = None;
        for (part, plate) in parts {
            let Some(plate) = plate else { continue };
            let share = plate.allowed(current)?.duty;
            if least.is_none_or(|least| share < least.share) {
                least = Some(Self { share, part });
            }
        }
        Ok(least)
    }

    /// The share that the equipment lets an arc burn; `None` where nothing has a rating for its process.
    ///
    /// # Errors
    /// [`DutyError`] where the current is past a rating.
    pub fn of_equipment(equipment: &Equipment, arc: &Arc) -> Result<Option<Self>, DutyError> {
        let torch = equipment.torch.on(arc.process);
        let torch = torch.as_ref().map(|torch| &torch.plate);
        Self::of_ratings(equipment.power_source.as_ref(), torch, arc.current)
    }
}

/// The arcs of the last ten minutes.
#[derive(Clone, Debug)]
pub(super) struct RecentArcs {
    /// When each began, and for how long it burnt, in s.
    arcs: Vec<[f32; 2], ARCS>,
}

impl RecentArcs {
    pub(super) const fn new() -> Self {
        Self { arcs: Vec::new() }
    }

    pub(super) fn clear(&mut self) {
        self.arcs.clear();
    }

    /// Notes an arc that was lit at `start` and burnt for so long, both in s.
    pub(super) fn note(&mut self, start: f64, burnt: f64) {
        let gone = start + burnt - PERIOD.si();
        self.arcs
            .retain(|[start, burnt]| f64::from(*start) + f64::from(*burnt) > gone);
        if self.arcs.is_full() {
            self.merge();
        }
        // There is room now.
        let _ = self.arcs.push([start as f32, burnt as f32]);
    }

    /// Makes one of the two oldest, which ends when the younger did.
    fn merge(&mut self) {
        let [[_, older], [start, younger], ..] = *self.arcs.as_slice() else {
            return;
        };
        if let Some(slot) = self.arcs.get_mut(1) {
            *slot = [start - older, older + younger];
        }
        self.arcs.remove(0);
    }

    /// Whether an arc of `arc` seconds may be lit at `now`, where the arc may burn for this share of ten minutes. One
    /// that is longer than that may be once nothing else has burnt in the ten minutes that it ends.
    pub(super) fn allow(&self, now: f64, arc: f64, share: f64) -> bool {
        let from = now + arc - PERIOD.si();
        let burnt: f64 = self
            .arcs
            .iter()
            .map(|[start, burnt]| {
                let [start, burnt] = [start, burnt].map(|value| f64::from(*value));
                libm::fmax(start + burnt - libm::fmax(start, from), 0.0)
            })
            .sum();
        burnt <= 0.0 || burnt + arc <= share * PERIOD.si() + 1e-3
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A third of ten minutes is 200 s: four arcs of 50 s may follow one another, the fifth begins when so much of the
    /// first is ten minutes old that the whole is 200 s again: ends 600 s after the first ended.
    #[test]
    fn a_third_of_ten_minutes_by_hand() {
        let mut recent = RecentArcs::new();
        let share = 1.0 / 3.0;
        for start in [0.0, 60.0, 120.0, 180.0] {
            assert!(recent.allow(start, 50.0, share), "{start}");
            recent.note(start, 50.0);
        }
        for (now, may) in [(240.0, false), (599.0, false), (601.0, true)] {
            assert_eq!(recent.allow(now, 50.0, share), may, "{now}");
        }
        // Longer than ten minutes allow: only on its own.
        assert!(!recent.allow(400.0, 300.0, share));
        assert!(recent.allow(530.0, 300.0, share));
    }

    #[test]
    fn more_arcs_than_are_kept_count_all() {
        let mut recent = RecentArcs::new();
        for n in 0..150 {
            recent.note(3.0 * f64::from(n), 1.0);
        }
        // 150 s have burnt by 448 s, all within ten minutes.
        assert!(recent.allow(450.0, 10.0, 161.0 / 600.0));
        assert!(!recent.allow(450.0, 10.0, 159.0 / 600.0));
    }
}
