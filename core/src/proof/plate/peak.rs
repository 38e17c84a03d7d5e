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
const LOOKS: u8 = 9;
/// Parabolas laid through the best three points.
const FITS: u8 = 2;

/// The largest of `value`, its sign left off, between `from` and `to`, and where it lies.
pub(super) fn along(value: &mut dyn FnMut(f64) -> f64, from: f64, to: f64) -> (f64, f64) {
    let step = (to - from) / f64::from(LOOKS + 1);
    let (mut at, mut most) = (from, -1.0);
    for look in 1..=LOOKS {
        let here = from + step * f64::from(look);
        let height = libm::fabs(value(here));
        if height > most {
            (at, most) = (here, height);
        }
    }
    let mut reach = 0.5 * step;
    for _ in 0..FITS {
        let low = libm::fabs(value(at - reach));
        let high = libm::fabs(value(at + reach));
        let bend = low - 2.0 * most + high;
        if bend < 0.0 {
            let shift = 0.5 * (low - high) / bend;
            let there = at + reach * libm::fmax(-1.0, libm::fmin(1.0, shift));
            let height = libm::fabs(value(there));
            if height > most {
                (at, most) = (there, height);
            }
        }
        reach *= 0.4;
    }
    (at, most)
}

/// The largest over the plate, its sign left off: along the middle line, across there, and along again.
pub(super) fn over(value: &mut dyn FnMut(Spot) -> f64, ratio: f64) -> f64 {
    let half = 0.5 * ratio;
    let (y, _) = along(&mut |y| value(Spot { x: 0.5, y }), -half, half);
    let (x, _) = along(&mut |x| value(Spot { x, y }), 0.0, 1.0);
    let (_, most) = along(&mut |y| value(Spot { x, y }), -half, half);
    most
}
