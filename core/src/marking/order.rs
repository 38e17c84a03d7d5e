//! In which order the bends of a blank are made, and whether each can be reached.
//!
//! The model is a press brake, or a finger brake, with a straight blade: the blade stands in the plane square to
//! the sheet through the bend line, over the length of the line, and both sides of the sheet rise by half the
//! turn. A flange that is already up on one side and runs along the line must not come through that plane:
//! seen from the line, its free edge rises with its side. Flanges beside the ends of the line do not count, for
//! fingers or a blade of the line's length leave them room, nor do those bent the other way, which hang below.
//! Common practice, no source.

use core::f64::consts::PI;

use heapless::Vec;

use super::{MarkedBend, Marker};
use crate::blank::{MAX_CUT_FLANGES, MAX_PARTS};

/// Bends of one blank.
const MOST: usize = MAX_PARTS + MAX_CUT_FLANGES;
/// Lines that run side by side to within this sine count as parallel.
const PARALLEL: f64 = 0.1;

/// One bend in its turn.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct BendStep {
    /// The bend, by its place among [`Marker::bends`].
    pub bend: u8,
    /// The bend made before it that stands in its way, if one does: take a gooseneck blade or a finger brake
    /// open at the back there, or weld that corner instead.
    pub blocked_by: Option<u8>,
}

/// All bends of a blank in the order in which they are made.
pub type BendOrder = Vec<BendStep, MOST>;

/// What is beyond one bend as seen from another, in metres square to the other's line.
#[derive(Clone, Copy)]
struct Beyond {
    /// From the other's line to this one.
    off: f64,
    /// From this line to the free edge beyond it.
    high: f64,
}

impl Marker<'_> {
    /// The bends in the order in which they are made: the narrowest flange first, and what stands in nobody's way
    /// before what does.
    #[must_use]
    pub fn bend_order(self) -> BendOrder {
        let mut all = Vec::<MarkedBend, MOST>::new();
        // As many as there may be bends.
        for bend in self.bends() {
            let _ = all.push(bend);
        }
        let mut order = BendOrder::new();
        let mut left = Vec::<u8, MOST>::new();
        let count = u8::try_from(all.len()).unwrap_or(0);
        let _ = (0..count).try_for_each(|bend| left.push(bend));
        let done = |order: &BendOrder, bend: u8| self.blocked(&all, order, bend);
        while !left.is_empty() {
            // Of those within reach the one that, once made, blocks the fewest that are left; the narrowest of these.
            let mut best: Option<(usize, usize, f64)> = None;
            for (place, bend) in left.iter().enumerate() {
                if done(&order, *bend).is_some() {
                    continue;
                }
                let mut after = order.clone();
                let _ = after.push(BendStep {
                    bend: *bend,
                    blocked_by: None,
                });
                let others = left.iter().filter(|other| *other != bend);
                let blocks = others
                    .filter(|other| done(&after, **other).is_some())
                    .count();
                let narrow = self.narrow(&all, *bend);
                let better = best.is_none_or(|(_, least, width)| {
                    blocks < least || (blocks == least && narrow < width - 1e-9)
                });
                if better {
                    best = Some((place, blocks, narrow));
                }
            }
            let place = best.map_or(0, |(place, ..)| place);
            let Some(bend) = left.get(place).copied() else {
                break;
            };
            let step = BendStep {
                bend,
                blocked_by: done(&order, bend),
            };
            left.retain(|other| *other != bend);
            if order.push(step).is_err() {
                break;
            }
        }
        order
    }

    /// The bend made already that stands in the way of another.
    fn blocked(&self, all: &[MarkedBend], order: &BendOrder, bend: u8) -> Option<u8> {
        let own = all.get(usize::from(bend))?;
        let rise = 0.5 * own.line.turn.si();
        order.iter().map(|step| step.bend).find(|other| {
            let Some(that) = all.get(usize::from(*other)) else {
                return false;
            };
            if that.line.towards != own.line.towards {
                return false;
            }
            let Some(beyond) = self.beyond(own, that) else {
                return false;
            };
            let (sine, cosine) = libm::sincos(that.line.turn.si());
            let angle = libm::atan2(beyond.high * sine, beyond.off + beyond.high * cosine);
            angle + rise > 0.5 * PI + 1e-9
        })
    }

    /// How far the free edge beyond a bend is from its line, on the narrower side, in metres.
    fn narrow(&self, all: &[MarkedBend], bend: u8) -> f64 {
        let Some(own) = all.get(usize::from(bend)) else {
            return f64::INFINITY;
        };
        libm::fmin(self.reach(own, 1.0), self.reach(own, -1.0))
    }

    /// How far the blank goes on to one side of a line, in metres.
    fn reach(&self, bend: &MarkedBend, side: f64) -> f64 {
        let ([ax, ay], [ux, uy], long) = frame(bend);
        self.blank.outline().fold(0.0, |most, node| {
            let (x, y) = (node.x - ax, node.y - ay);
            let along = x * ux + y * uy;
            if along < -1e-6 || along > long + 1e-6 {
                return most;
            }
            libm::fmax(most, side * (y * ux - x * uy))
        })
    }

    /// What is beyond `that` as seen from `own`; `None` where it does not run along it.
    fn beyond(&self, own: &MarkedBend, that: &MarkedBend) -> Option<Beyond> {
        let ([ax, ay], [ux, uy], long) = frame(own);
        let (_, [vx, vy], _) = frame(that);
        if libm::fabs(ux * vy - uy * vx) > PARALLEL {
            return None;
        }
        let ends = that.line.ends.map(|[x, y]| {
            let (x, y) = (x - ax, y - ay);
            [x * ux + y * uy, y * ux - x * uy]
        });
        let [low, high] = if ends[0][0] < ends[1][0] {
            [ends[0][0], ends[1][0]]
        } else {
            [ends[1][0], ends[0][0]]
        };
        if high < 1e-6 || low > long - 1e-6 {
            return None;
        }
        let off = 0.5 * (ends[0][1] + ends[1][1]);
        let side = if off > 0.0 { 1.0 } else { -1.0 };
        let along_that = if ux * vx + uy * vy > 0.0 { side } else { -side };
        Some(Beyond {
            off: libm::fabs(off),
            high: self.reach(that, along_that),
        })
    }
}

/// Where a bend line begins, its unit direction and its length.
fn frame(bend: &MarkedBend) -> ([f64; 2], [f64; 2], f64) {
    let [[ax, ay], [bx, by]] = bend.line.ends;
    let long = libm::fmax(libm::hypot(bx - ax, by - ay), f64::MIN_POSITIVE);
    ([ax, ay], [(bx - ax) / long, (by - ay) / long], long)
}
