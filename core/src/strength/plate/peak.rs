//! The highest point of a smooth field over a plate, or along one of its edges.

/// A point: x from 0 to 1 over the short side, y from minus to plus half the ratio of the sides.
#[derive(Clone, Copy, Debug)]
pub(super) struct Spot {
    pub(super) x: f64,
    pub(super) y: f64,
}

impl Spot {
    pub(super) const MIDDLE: Self = Self { x: 0.5, y: 0.0 };
}

/// Points that a line is looked at first, between its ends.
const LOOKS: u8 = 7;
/// How much nearer each further parabola looks.
const NEARER: f64 = 0.4;

/// The highest point found so far.
#[derive(Clone, Copy)]
struct Top {
    at: f64,
    most: f64,
}

impl Top {
    /// Lays `fits` parabolas through the top and two points beside it, the first `reach` away.
    fn climb(&mut self, value: &mut dyn FnMut(f64) -> f64, mut reach: f64, fits: u8) {
        for _ in 0..fits {
            let low = libm::fabs(value(self.at - reach));
            let high = libm::fabs(value(self.at + reach));
            let bend = low - 2.0 * self.most + high;
            if bend < 0.0 {
                let shift = 0.5 * (low - high) / bend;
                let there = self.at + reach * libm::fmax(-1.0, libm::fmin(1.0, shift));
                let height = libm::fabs(value(there));
                if height > self.most {
                    *self = Self {
                        at: there,
                        most: height,
                    };
                }
            }
            reach *= NEARER;
        }
    }
}

/// Where a line from `from` to `to` is looked at, and the distance between two looks.
fn looks(from: f64, to: f64) -> (impl Iterator<Item = f64>, f64) {
    let step = (to - from) / f64::from(LOOKS + 1);
    (
        (1..=LOOKS).map(move |look| from + step * f64::from(look)),
        step,
    )
}

/// The largest of `value`, its sign left off, between `from` and `to`.
pub(super) fn along(value: &mut dyn FnMut(f64) -> f64, from: f64, to: f64) -> f64 {
    let mut top = Top {
        at: from,
        most: -1.0,
    };
    let (all, step) = looks(from, to);
    for at in all {
        let most = libm::fabs(value(at));
        if most > top.most {
            top = Top { at, most };
        }
    }
    top.climb(value, 0.5 * step, 2);
    top.most
}

/// The largest of each of three fields over the plate, its sign left off: along the middle line, across
/// there, and once more along. A field that is zero everywhere is not looked into.
pub(super) fn over(value: &mut dyn FnMut(Spot) -> [f64; 3], ratio: f64) -> [f64; 3] {
    let mut tops = [Top { at: 0.0, most: 0.0 }; 3];
    let (all, step) = looks(-0.5 * ratio, 0.5 * ratio);
    for y in all {
        for (top, height) in tops.iter_mut().zip(value(Spot { x: 0.5, y })) {
            if libm::fabs(height) > top.most {
                *top = Top {
                    at: y,
                    most: libm::fabs(height),
                };
            }
        }
    }
    let mut found = [0.0; 3];
    for (which, (found, mut top)) in found.iter_mut().zip(tops).enumerate() {
        if top.most == 0.0 {
            continue;
        }
        let mut one = |spot| value(spot).get(which).copied().unwrap_or(0.0);
        top.climb(&mut |y| one(Spot { x: 0.5, y }), 0.5 * step, 2);
        let mut side = Top {
            at: 0.5,
            most: top.most,
        };
        side.climb(&mut |x| one(Spot { x, y: top.at }), 0.2, 2);
        let mut last = Top {
            at: top.at,
            most: side.most,
        };
        last.climb(&mut |y| one(Spot { x: side.at, y }), 0.1 * step, 1);
        *found = last.most;
    }
    found
}

#[cfg(test)]
mod tests {
    use super::super::{Part, Ramp, Sides, clamped, levy::field, supported};
    use super::{Spot, along};

    /// The search finds what looking everywhere finds, to a tenth of a per cent.
    #[test]
    fn finds_the_highest_point() {
        for ratio in [1.0, 1.3, 2.0, 3.0, 5.0, 8.0, 10.0] {
            for (across, tilt) in [
                (0.0, 0.5),
                (0.5, 0.0),
                (0.25, 0.25),
                (-0.1, 0.4),
                (0.4, -0.1),
            ] {
                let at = |spot| {
                    let even = field(Part::Even, ratio, 0.3, spot);
                    let short = field(Part::Across, ratio, 0.3, spot);
                    let long = field(Part::Along, ratio, 0.3, spot);
                    let sum = |pick: fn(&super::super::Field) -> f64| {
                        (0.5 * pick(&even) + across * pick(&short) + tilt * pick(&long)).abs()
                    };
                    (sum(|f| f.w), sum(|f| f.across).max(sum(|f| f.along)))
                };
                let (mut w, mut moment) = (0.0_f64, 0.0_f64);
                for i in 1..60 {
                    for j in 1..200 {
                        let x = f64::from(i) / 60.0;
                        let y = (f64::from(j) / 200.0 - 0.5) * ratio;
                        // Right at the edges the series is slow, and nothing is highest there.
                        if y.abs() > 0.5 * ratio - 0.05 {
                            continue;
                        }
                        let (here, bent) = at(Spot { x, y });
                        (w, moment) = (w.max(here), moment.max(bent));
                    }
                }
                let ramp = Ramp {
                    mean: 0.5,
                    across,
                    along: tilt,
                };
                let got = supported(Sides::new(1.0, ratio).unwrap(), ramp, 0.3);
                assert!(
                    got.deflection > 0.999 * w && got.deflection < 1.002 * w,
                    "{ratio} {ramp:?} {w} {got:?}"
                );
                assert!(
                    got.moment > 0.998 * moment && got.moment < 1.003 * moment,
                    "{ratio} {ramp:?} {moment} {got:?}"
                );
            }
        }
    }

    /// More pressure anywhere, more of everything: a ramp lies between two even pressures.
    #[test]
    fn a_ramp_lies_between() {
        for ratio in [1.0, 1.7, 4.0, 5.5, 20.0] {
            let sides = Sides::new(0.3, 0.3 * ratio).unwrap();
            let ramp = Ramp {
                mean: 3.0,
                across: 0.7,
                along: -1.1,
            };
            let (low, high) = (Ramp::even(1.2), Ramp::even(4.8));
            let bent =
                [low, ramp, high].map(|ramp| (supported(sides, ramp, 0.3), clamped(sides, ramp)));
            for pair in bent.windows(2) {
                assert!(pair[0].0.moment < pair[1].0.moment && pair[0].1.moment < pair[1].1.moment);
                assert!(pair[0].0.deflection < pair[1].0.deflection);
                assert!(pair[0].1.deflection < pair[1].1.deflection);
            }
        }
    }

    #[test]
    fn a_parabola_is_found_at_once() {
        let most = along(&mut |x| 2.0 - (x - 0.37) * (x - 0.37), 0.0, 1.0);
        assert!((most - 2.0).abs() < 1e-12);
    }
}
