//! In which stretch of a plan the arc burns longest.

use heapless::Vec;

use super::plan::WeldPlan;
use crate::tank::Tank;
use crate::units::Time;

/// A stretch of a weld plan, and how much of it the arc burns.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct BusyStretch {
    /// When it begins, from the first arc of the job.
    pub from: Time,
    /// How long the arc burns in it.
    pub burns: Time,
}

impl<const STITCHES: usize> WeldPlan<STITCHES> {
    /// The stretch of so long a time in which the arc of this plan burns longest, the first of equals; `None` of a plan
    /// without stitches. `tank` is the one that was planned.
    ///
    /// With [`PERIOD`](crate::arc::duty::PERIOD) it tells whether the plan keeps to the ratings of power source and torch.
    #[must_use]
    pub fn busiest_stretch(&self, tank: &Tank, period: Time) -> Option<BusyStretch> {
        let mut arcs = Vec::<[f64; 2], STITCHES>::new();
        for one in self.stitches(tank) {
            // A plan has no more stitches than there is room for.
            let _ = arcs.push([one.start.si(), one.arc.si()]);
        }
        busiest(&arcs, period.si())
    }
}

/// Of each arc its start and its length, in s. The stretch begins with an arc or ends with one, so no other stretches
/// need be looked at.
fn busiest(arcs: &[[f64; 2]], period: f64) -> Option<BusyStretch> {
    let ends = |[start, arc]: &[f64; 2]| [*start, start + arc - period];
    let burns = |from: f64| {
        let within = |[start, arc]: &[f64; 2]| {
            let end = libm::fmin(start + arc, from + period);
            libm::fmax(end - libm::fmax(*start, from), 0.0)
        };
        arcs.iter().map(within).sum::<f64>()
    };
    let (from, burns) = arcs
        .iter()
        .flat_map(ends)
        .map(|from| libm::fmax(from, 0.0))
        .map(|from| (from, burns(from)))
        .reduce(|best, other| if other.1 > best.1 { other } else { best })?;
    Some(BusyStretch {
        from: Time::from_seconds(from),
        burns: Time::from_seconds(burns),
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    /// By hand: of arcs 0 to 4, 10 to 16 and 21 to 23, ten seconds hold the second one at most, thirteen from 10 on
    /// the last two, and more than all of them all.
    #[test]
    fn the_busiest_stretch_by_hand() {
        let all = [[0.0, 4.0], [10.0, 6.0], [21.0, 2.0]];
        let found = |period| busiest(&all, period).map(|one| [one.from.si(), one.burns.si()]);
        assert_eq!(found(10.0).map(|[_, burns]| burns), Some(6.0));
        assert_eq!(found(13.0), Some([10.0, 8.0]));
        assert_eq!(found(100.0), Some([0.0, 12.0]));
        assert_eq!(busiest(&[], 10.0), None);
    }
}
