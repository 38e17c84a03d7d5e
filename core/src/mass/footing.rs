//! How mounts share what they bear: worked out once for their places, whatever the load.

use heapless::Vec;

use super::error::BalanceError;
use crate::geom::Vector;
use crate::units::Figure;
use crate::units::range::RangeError;

/// Mounts that a tank may have.
pub const MAX_MOUNTS: usize = 8;
/// Mounts count as on one line where their spread across it is below this share of that along it.
const ONE_LINE: f64 = 1e-4;
/// Mounts count as in one plane where they are off it by at most this share of their spread.
const ONE_PLANE: f64 = 0.01;
/// A plane of mounts counts as a floor where its normal leans from upright by less than 60°.
const FLOOR: f64 = 0.5;
/// Lines along which a tank may tip over: one for each mount at most.
pub(super) type TipLines = Vec<TipLine, MAX_MOUNTS>;

/// A line through two outer mounts, over which a tank that stands loose may tip.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct TipLine {
    /// The two mounts, counted from 0.
    pub(super) ends: [u8; 2],
    start: Vector,
    along: Vector,
}

impl TipLine {
    /// The moment (N·m) about the line with which a load, and its moment about the origin, keeps the tank down; below zero
    /// it tips over.
    pub(super) fn holding_moment(&self, load: Vector, moment: Vector) -> f64 {
        -self.along.dot(moment - self.start.cross(load))
    }
}

/// Where a tank stands.
#[derive(Clone, Debug)]
pub(super) struct Footing {
    mounts: Vec<Vector, MAX_MOUNTS>,
    pub(super) middle: Vector,
    /// The columns of the inverse of `Σ |r|² 1 − r rᵀ`; `None` of a single mount.
    inverse: Option<[Vector; 3]>,
    /// The way in which mounts push: the normal of their plane, or upwards.
    pub(super) normal: Vector,
    /// Whether they stand on a floor, rather than hang on an upright wall.
    pub(super) floor: bool,
}

impl Footing {
    /// # Errors
    /// [`BalanceError::Range`] for their number or a coordinate, [`BalanceError::OneLine`].
    pub(super) fn new(mounts: &[Vector]) -> Result<Self, BalanceError> {
        let count = u32::try_from(mounts.len()).unwrap_or(u32::MAX);
        let count = Figure::Mounts.within(f64::from(count), 1.0, MAX_MOUNTS as f64)?;
        let mut sum = Vector::ZERO;
        let mut own = Vec::new();
        for mount in mounts {
            for coordinate in [mount.x, mount.y, mount.z] {
                place(coordinate)?;
            }
            sum = sum + *mount;
            // Their number was checked above.
            let _ = own.push(*mount);
        }
        let middle = sum * (1.0 / count);
        let inverse = match mounts.len() {
            1 => None,
            _ => Some(inverse(mounts, middle).ok_or(BalanceError::OneLine)?),
        };
        let up = Vector::new(0.0, 0.0, 1.0);
        let normal = normal(mounts, middle).unwrap_or(up);
        Ok(Self {
            mounts: own,
            middle,
            inverse,
            normal,
            floor: is_floor(normal),
        })
    }

    /// The same, its wall's normal turned to the side on which the tank hangs.
    pub(super) fn facing(mut self, tank: Vector) -> Self {
        if !self.floor && self.normal.dot(tank - self.middle) < 0.0 {
            self.normal = -self.normal;
        }
        self
    }

    pub(super) fn mounts(&self) -> &[Vector] {
        &self.mounts
    }

    /// The small turn of the tank by which the mounts give `moment` about their middle.
    pub(super) fn turn(&self, moment: Vector) -> Vector {
        self.inverse.map_or(Vector::ZERO, |[x, y, z]| {
            x * moment.x + y * moment.y + z * moment.z
        })
    }

    /// What each mount gives against a load, with that turn.
    pub(super) fn forces(&self, load: Vector, turn: Vector) -> impl Iterator<Item = Vector> + '_ {
        let share = load * (-1.0 / f64::from(u32::try_from(self.mounts.len()).unwrap_or(1)));
        let each = self.mounts.iter();
        each.map(move |mount| share + turn.cross(*mount - self.middle))
    }

    /// The lines over which the tank may tip: the sides of the outline that its mounts have seen along their normal. None
    /// of a single mount, which bears a moment, and of mounts on a wall, on which a tank hangs.
    pub(super) fn tip_lines(&self) -> TipLines {
        let mut lines = TipLines::new();
        if self.mounts.len() < 3 || !self.floor {
            return lines;
        }
        for (start, first) in self.mounts.iter().zip(0_u8..) {
            for (end, second) in self.mounts.iter().zip(0_u8..) {
                let Some(along) = (*end - *start).unit() else {
                    continue;
                };
                let run = (*end - *start).dot(along);
                let inward = self.normal.cross(along);
                let slack = 1e-9 * run;
                // All others stand to the inner side, or between the two.
                let outer = self.mounts.iter().all(|other| {
                    let off = *other - *start;
                    let place = off.dot(along);
                    let beside = off.dot(inward);
                    beside > slack || (beside >= -slack && place >= -slack && place <= run + slack)
                });
                if outer {
                    // No more than there are mounts: a convex outline has as many sides as corners.
                    let _ = lines.push(TipLine {
                        ends: [first, second],
                        start: *start,
                        along,
                    });
                }
            }
        }
        lines
    }
}

/// Whether mounts that push so stand on a floor.
pub(super) fn is_floor(normal: Vector) -> bool {
    normal.z >= FLOOR
}

/// A coordinate in metres: no tank reaches farther than a kilometre from its origin.
pub(super) fn place(metres: f64) -> Result<f64, RangeError> {
    Figure::Place.within(metres, -1e3, 1e3)
}

/// The columns of the inverse of `Σ |r|² 1 − r rᵀ` about the middle, or `None` where the mounts lie on one line.
fn inverse(mounts: &[Vector], middle: Vector) -> Option<[Vector; 3]> {
    let (mut xx, mut yy, mut zz) = (0.0, 0.0, 0.0);
    let (mut xy, mut xz, mut yz) = (0.0, 0.0, 0.0);
    for mount in mounts {
        let r = *mount - middle;
        xx += r.x * r.x;
        yy += r.y * r.y;
        zz += r.z * r.z;
        xy += r.x * r.y;
        xz += r.x * r.z;
        yz += r.y * r.z;
    }
    let a = Vector::new(yy + zz, -xy, -xz);
    let b = Vector::new(-xy, xx + zz, -yz);
    let c = Vector::new(-xz, -yz, xx + yy);
    let size = xx + yy + zz;
    let (bc, ca, ab) = (b.cross(c), c.cross(a), a.cross(b));
    let determinant = a.dot(bc);
    // On one line the least of its three values is zero; the others are the spread along the line.
    if !(determinant > ONE_LINE * ONE_LINE * size * size * size) {
        return None;
    }
    let by = 1.0 / determinant;
    Some([bc * by, ca * by, ab * by])
}

/// The normal of the plane that the mounts lie in, upwards where it leans at all that way; `None` where there is none.
fn normal(mounts: &[Vector], middle: Vector) -> Option<Vector> {
    let spread = mounts
        .iter()
        .map(|mount| (*mount - middle).length())
        .fold(0.0, libm::fmax);
    let mut widest = Vector::ZERO;
    for first in mounts {
        for second in mounts {
            let across = (*first - middle).cross(*second - middle);
            if across.length() > widest.length() {
                widest = across;
            }
        }
    }
    let normal = widest.unit()?;
    let flat = mounts
        .iter()
        .all(|mount| libm::fabs(normal.dot(*mount - middle)) <= ONE_PLANE * spread);
    let up = if normal.z < 0.0 { -normal } else { normal };
    flat.then_some(up)
}
