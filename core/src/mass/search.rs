//! The search over every fill, lean and acceleration.

use crate::strength::load::Sway;

/// Steps of height in which fills are scanned.
const LEVELS: u32 = 16;
/// Halvings of a step before a climb ends.
const HALVINGS: u32 = 9;
/// Most rounds of a climb.
const ROUNDS: u32 = 80;
/// Shares of the job's accelerations that are scanned, all of them at once; each is searched from by itself.
const SHAKEN: [f64; STARTS] = [0.0, 0.5, 1.0];
/// Places from which a climb begins: the worst of each of those shares.
pub(super) const STARTS: usize = 3;
/// Shares of the most lean that are scanned.
const LEANS: [f64; 5] = [-1.0, -0.5, 0.0, 0.5, 1.0];

/// Pitch and roll in radians, accelerations along x, y and z in standard gravities, and the share of the height that is
/// filled.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Place([f64; 6]);

impl Place {
    /// Still, level and empty.
    pub(super) const EMPTY: Self = Self([0.0; 6]);

    pub(super) const fn pitch(&self) -> f64 {
        let [pitch, ..] = self.0;
        pitch
    }

    pub(super) const fn roll(&self) -> f64 {
        let [_, roll, ..] = self.0;
        roll
    }

    pub(super) const fn shaken(&self) -> [f64; 3] {
        let [_, _, x, y, z, _] = self.0;
        [x, y, z]
    }

    pub(super) const fn share(&self) -> f64 {
        let [.., share] = self.0;
        share
    }
}

/// All places that a sway allows.
pub(super) struct Search {
    low: [f64; 6],
    high: [f64; 6],
}

impl Search {
    pub(super) fn new(sway: &Sway) -> Self {
        let [x, y, z] = [sway.shaken.x, sway.shaken.y, sway.shaken.z];
        let most = [sway.pitch.si(), sway.roll.si(), x, y, z];
        let [pitch, roll, x, y, z] = most;
        Self {
            low: [-pitch, -roll, -x, -y, -z, 0.0],
            high: [pitch, roll, x, y, z, 1.0],
        }
    }

    /// Calls `see` with the places of the scan, each with the number of the start that it may be.
    pub(super) fn each(&self, mut see: impl FnMut(usize, &Place)) {
        let [pitch, roll, x, y, z, _] = self.high;
        let leans = |most: f64| -> &[f64] { if most == 0.0 { &[0.0] } else { &LEANS } };
        let ways = |most: f64| -> &[f64] { if most == 0.0 { &[0.0] } else { &[-1.0, 1.0] } };
        let still = x == 0.0 && y == 0.0 && z == 0.0;
        let mut filled = |start: usize, lean: [f64; 2], shaken: [f64; 3]| {
            let ([pitch, roll], [x, y, z]) = (lean, shaken);
            for level in 0..=LEVELS {
                let share = f64::from(level) / f64::from(LEVELS);
                see(start, &Place([pitch, roll, x, y, z, share]));
            }
        };
        for p in leans(pitch) {
            for r in leans(roll) {
                let lean = [p * pitch, r * roll];
                filled(0, lean, [0.0; 3]);
                for (start, share) in SHAKEN.into_iter().enumerate().skip(1) {
                    if still {
                        continue;
                    }
                    for a in ways(x) {
                        for b in ways(y) {
                            for c in ways(z) {
                                let way = [a * x, b * y, c * z];
                                filled(start, lean, way.map(|most| share * most));
                            }
                        }
                    }
                }
            }
        }
    }

    /// From a place uphill: a step either way in each figure, halved where none helps.
    pub(super) fn climb(
        &self,
        from: Place,
        value: f64,
        mut figure: impl FnMut(&Place) -> f64,
    ) -> (f64, Place) {
        let (mut best, mut place) = (value, from);
        // Half of the scan's own steps, and a quarter of the way between two accelerations.
        let mut part = 1.0;
        let mut halved = 0;
        for _ in 0..ROUNDS {
            let before = best;
            for axis in 0..6 {
                for sense in [1.0, -1.0] {
                    let next = self.moved(place, axis, sense * part);
                    if next == place {
                        continue;
                    }
                    let value = figure(&next);
                    if value > best {
                        (best, place) = (value, next);
                        break;
                    }
                }
            }
            if best <= before {
                part *= 0.5;
                halved += 1;
                if halved == HALVINGS {
                    break;
                }
            }
        }
        (best, place)
    }

    /// A place moved along one figure, no farther than its end.
    fn moved(&self, place: Place, axis: usize, part: f64) -> Place {
        let mut moved = place;
        let limits = self.low.iter().zip(&self.high);
        for ((own, (low, high)), at) in moved.0.iter_mut().zip(limits).zip(0..) {
            if at == axis {
                let scanned = if axis == 5 {
                    1.0 / f64::from(LEVELS)
                } else {
                    0.25 * (high - low)
                };
                let to = *own + 0.5 * part * scanned;
                *own = libm::fmin(libm::fmax(to, *low), *high);
            }
        }
        moved
    }
}
