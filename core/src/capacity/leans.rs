//! A range of leans, and the worst place in it.

use super::Lean;
use crate::units::range::{Limit, OutOfRange, Value};
use crate::units::{Angle, AngleUnit};

/// Widest step between the leans that a search tries first.
const STEP: Angle = Angle::new(5.0, AngleUnit::Degree);
/// Starts from which a search goes on.
const STARTS: usize = 4;
/// A search stops when its steps are this small, in radians.
const FINEST: f64 = 1e-9;
/// Most moves from one start.
const MOVES: u32 = 120;

/// All leans between two pitches and two rolls.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct LeanRange {
    low: Lean,
    high: Lean,
}

impl LeanRange {
    /// From the least pitch and roll to the most; equal ones leave that angle fixed.
    ///
    /// # Errors
    /// [`OutOfRange`] where an angle is past ±90°, or a least is above its most.
    pub fn new(pitch: [Angle; 2], roll: [Angle; 2]) -> Result<Self, OutOfRange> {
        let low = Lean::new(pitch[0], roll[0])?;
        let high = Lean::new(pitch[1], roll[1])?;
        for [least, most] in [pitch, roll] {
            if least > most {
                return Err(OutOfRange {
                    value: Value::Angle(least),
                    limit: Limit::AtMost(Value::Angle(most)),
                });
            }
        }
        Ok(Self { low, high })
    }

    /// Up to `pitch` and `roll` either way.
    ///
    /// # Errors
    /// [`OutOfRange`] where one is below zero or above 90°.
    pub fn either_way(pitch: Angle, roll: Angle) -> Result<Self, OutOfRange> {
        let both = |angle: Angle| [Angle::from_radians(-angle.si()), angle];
        Self::new(both(pitch), both(roll))
    }

    /// The least pitch and the least roll.
    #[must_use]
    pub const fn low(self) -> Lean {
        self.low
    }

    /// The greatest pitch and the greatest roll.
    #[must_use]
    pub const fn high(self) -> Lean {
        self.high
    }

    /// The lean of this range where `figure` is least, and what it is there.
    ///
    /// The figures that depend on a lean here are volumes below a plane through a fixed point. Such a
    /// volume has a slope everywhere (the moment of the liquid's surface about the point), but may have
    /// several low places, so no corner of the range need be the worst. First an even grid is tried, its
    /// steps 5° at most, ends included; from the four lowest places of it that do not touch, steps
    /// along and across, halved whenever none helps, go down to 1e-9 rad. What could be missed is a
    /// hollow narrower than 5° that none of those starts runs into.
    ///
    /// Cost: grid of at most 37 × 37 evaluations (±15° both ways: 49), and at most 4 × 8 × 120 after;
    /// usually about 700 in all.
    pub(crate) fn least(self, mut figure: impl FnMut(Lean) -> f64) -> (Lean, f64) {
        let rows = count(self.low.pitch(), self.high.pitch());
        let columns = count(self.low.roll(), self.high.roll());
        let size = [
            (self.high.pitch().si() - self.low.pitch().si()) / f64::from(rows.max(1)),
            (self.high.roll().si() - self.low.roll().si()) / f64::from(columns.max(1)),
        ];
        let mut starts: heapless::Vec<Place, STARTS> = heapless::Vec::new();
        for row in 0..=rows {
            for column in 0..=columns {
                let at = [
                    on(self.low.pitch(), self.high.pitch(), row, rows),
                    on(self.low.roll(), self.high.roll(), column, columns),
                ];
                let Some(value) = self.figure(&mut figure, at) else {
                    continue;
                };
                keep(&mut starts, Place { at, value }, size);
            }
        }
        let mut best: Option<Place> = None;
        for start in &starts {
            let end = self.downhill(&mut figure, *start, size);
            if best.is_none_or(|best| end.value < best.value) {
                best = Some(end);
            }
        }
        let Some(best) = best else {
            return (self.low, figure(self.low));
        };
        let lean = Lean::new(
            Angle::from_radians(best.at[0]),
            Angle::from_radians(best.at[1]),
        );
        (lean.unwrap_or(self.low), best.value)
    }

    fn downhill(self, figure: &mut impl FnMut(Lean) -> f64, start: Place, size: [f64; 2]) -> Place {
        const AROUND: [[f64; 2]; 8] = [
            [1.0, 0.0],
            [-1.0, 0.0],
            [0.0, 1.0],
            [0.0, -1.0],
            [1.0, 1.0],
            [1.0, -1.0],
            [-1.0, 1.0],
            [-1.0, -1.0],
        ];
        let mut best = start;
        let mut step = 0.5;
        for _ in 0..MOVES {
            let from = best;
            for [along, across] in AROUND {
                let at = [
                    inside(
                        from.at[0] + along * step * size[0],
                        self.low.pitch(),
                        self.high.pitch(),
                    ),
                    inside(
                        from.at[1] + across * step * size[1],
                        self.low.roll(),
                        self.high.roll(),
                    ),
                ];
                if same(at, from.at) {
                    continue;
                }
                if let Some(value) = self.figure(figure, at)
                    && value < best.value
                {
                    best = Place { at, value };
                }
            }
            if same(best.at, from.at) {
                step *= 0.5;
                if step * libm::fmax(size[0], size[1]) < FINEST {
                    break;
                }
            }
        }
        best
    }

    fn figure(self, figure: &mut impl FnMut(Lean) -> f64, at: [f64; 2]) -> Option<f64> {
        let lean = Lean::new(Angle::from_radians(at[0]), Angle::from_radians(at[1])).ok()?;
        Some(figure(lean))
    }
}

#[derive(Clone, Copy)]
struct Place {
    at: [f64; 2],
    value: f64,
}

/// Steps between two angles: none where they are equal, else two at least.
fn count(low: Angle, high: Angle) -> u32 {
    let span = high.si() - low.si();
    if span > 0.0 {
        // At most 180° / 5° = 36.
        (libm::ceil(span / STEP.si() - 1e-9) as u32).max(2)
    } else {
        0
    }
}

/// The `n`th of `count` steps; both ends exactly.
fn on(low: Angle, high: Angle, n: u32, count: u32) -> f64 {
    if n == 0 {
        low.si()
    } else if n == count {
        high.si()
    } else {
        low.si() + (high.si() - low.si()) * f64::from(n) / f64::from(count)
    }
}

/// A step past the end of the range ends there.
fn inside(at: f64, low: Angle, high: Angle) -> f64 {
    libm::fmin(libm::fmax(at, low.si()), high.si())
}

/// Keeps the lowest places of which no two are neighbours on the grid.
fn keep(starts: &mut heapless::Vec<Place, STARTS>, new: Place, size: [f64; 2]) {
    let touches = |old: &Place| {
        libm::fabs(old.at[0] - new.at[0]) <= 1.5 * size[0]
            && libm::fabs(old.at[1] - new.at[1]) <= 1.5 * size[1]
    };
    if starts
        .iter()
        .any(|old| touches(old) && old.value <= new.value)
    {
        return;
    }
    starts.retain(|old| !touches(old));
    if starts.is_full() {
        let worst = starts.iter_mut().max_by(|a, b| a.value.total_cmp(&b.value));
        if let Some(worst) = worst
            && worst.value > new.value
        {
            *worst = new;
        }
        return;
    }
    // There is room: the list is not full.
    let _ = starts.push(new);
}

/// Bit equality, meant: whether a step was cut off at the end of the range, or not taken.
#[expect(clippy::float_cmp, reason = "asks whether anything changed")]
fn same(a: [f64; 2], b: [f64; 2]) -> bool {
    a == b
}
