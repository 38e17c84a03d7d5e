//! A flat panel of any outline, and the rectangle that stands for it.

use core::fmt;

use super::{Ramp, Sides};

/// A rectangle round an outline.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Enclosing {
    /// Its sides.
    pub sides: Sides,
    /// Its centre, in the outline's own coordinates, in metres.
    pub centre: [f64; 2],
    /// Unit direction of the short side, in the same coordinates.
    pub across: [f64; 2],
    /// Unit direction of the long side.
    pub along: [f64; 2],
    /// The share of it that the outline fills: 1 for a panel that is a rectangle.
    pub filled: f64,
    /// Whether the outline has an inside corner, where theory knows no end to the stress.
    pub inside_corner: bool,
}

/// Why an outline cannot be taken as a plate.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum OutlineError {
    /// Fewer than three corners.
    TooFew {
        /// How many.
        corners: u8,
    },
    /// A coordinate is not a number, or without end.
    NotFinite,
    /// All corners lie on one line.
    NoArea,
}

impl fmt::Display for OutlineError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::TooFew { corners } => {
                write!(
                    f,
                    "the panel has {corners} corners, and must have at least 3"
                )
            }
            Self::NotFinite => f.write_str("a corner of the panel is not a number"),
            Self::NoArea => f.write_str("the panel has no area: all its corners lie on one line"),
        }
    }
}

impl core::error::Error for OutlineError {}

/// A turn whose sine is below this is none.
const STRAIGHT: f64 = 1e-9;

/// The rectangle that stands for an outline, corners in order either way round, in metres: of those that
/// enclose it with one side along one of its sides, the one that bends least.
///
/// A rectangle that encloses the panel bulges more than the panel, its pressure nowhere less. For convex
/// panels with edges free to turn that is sure, by the maximum principle applied twice to Marcus's
/// `∇²M = −p`, `D ∇²w = −M`; so it is for the sum of the two bending moments. For the larger moment by
/// itself, and for edges held from turning, it is usual, not proved: numerical solutions for a triangle, two
/// trapezia and an L bear it out, but that a plate of 3:1 with held edges bulges and bears 0.6 % more than
/// a longer one. At an inside corner the theory's stress has no end, and no rectangle stands for that: see
/// [`Enclosing::inside_corner`]. With edges free to turn the same goes for the twist right at any corner
/// wider than a right angle; a welded edge, which hardly turns there, has little of it.
///
/// # Errors
/// [`OutlineError`].
pub fn enclosing(outline: &[[f64; 2]]) -> Result<Enclosing, OutlineError> {
    if outline.len() < 3 {
        let corners = u8::try_from(outline.len()).unwrap_or(u8::MAX);
        return Err(OutlineError::TooFew { corners });
    }
    if !outline.iter().flatten().all(|c| c.is_finite()) {
        return Err(OutlineError::NotFinite);
    }
    let next = || outline.iter().cycle().skip(1);
    let [first_u, first_v] = outline.first().copied().unwrap_or_default();
    let twice: f64 = outline
        .iter()
        .zip(next())
        .map(|(a, b)| (a[0] - first_u) * (b[1] - first_v) - (b[0] - first_u) * (a[1] - first_v))
        .sum();
    let area = 0.5 * libm::fabs(twice);
    let mut best: Option<Enclosing> = None;
    for (a, b) in outline.iter().zip(next()) {
        let run = [b[0] - a[0], b[1] - a[1]];
        let length = libm::hypot(run[0], run[1]);
        if !(length > 0.0) {
            continue;
        }
        let dir = [run[0] / length, run[1] / length];
        let box_ = around(outline, dir);
        if let Some(found) = box_
            && best
                .as_ref()
                .is_none_or(|old| stiff(found.sides) > stiff(old.sides))
        {
            best = Some(found);
        }
    }
    let mut best = best.ok_or(OutlineError::NoArea)?;
    best.filled = area / (best.sides.short() * best.sides.long());
    if !(best.filled > 1e-6) {
        return Err(OutlineError::NoArea);
    }
    let after = outline.iter().cycle().skip(2);
    best.inside_corner = outline.iter().zip(next()).zip(after).any(|((a, b), c)| {
        let (from, to) = ([b[0] - a[0], b[1] - a[1]], [c[0] - b[0], c[1] - b[1]]);
        let turn = (from[0] * to[1] - from[1] * to[0]) * twice;
        let size = libm::hypot(from[0], from[1]) * libm::hypot(to[0], to[1]) * libm::fabs(twice);
        turn < -STRAIGHT * size
    });
    Ok(best)
}

/// How stiff a rectangle is, up to a factor: the first term of Navier's series.
fn stiff(sides: Sides) -> f64 {
    1.0 / (sides.short() * sides.short()) + 1.0 / (sides.long() * sides.long())
}

/// The rectangle with one side along a unit direction.
fn around(outline: &[[f64; 2]], dir: [f64; 2]) -> Option<Enclosing> {
    let other = [-dir[1], dir[0]];
    let reach = |d: [f64; 2]| {
        outline
            .iter()
            .fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), p| {
                let at = d[0] * p[0] + d[1] * p[1];
                (libm::fmin(low, at), libm::fmax(high, at))
            })
    };
    let ((low, high), (near, far)) = (reach(dir), reach(other));
    let (one, two) = (high - low, far - near);
    let sides = Sides::new(one, two)?;
    let (mid_one, mid_two) = (0.5 * (low + high), 0.5 * (near + far));
    let (across, along) = if one <= two {
        (dir, other)
    } else {
        (other, dir)
    };
    Some(Enclosing {
        sides,
        centre: [
            mid_one * dir[0] + mid_two * other[0],
            mid_one * dir[1] + mid_two * other[1],
        ],
        across,
        along,
        filled: 1.0,
        inside_corner: false,
    })
}

impl Enclosing {
    /// The pressure over this rectangle, from the one at the origin of the outline's coordinates and its
    /// slope along them, in pascals and pascals a metre.
    ///
    /// The same straight line, carried past the panel to the rectangle's corners. Where it would fall below
    /// zero there, it is laid flatter about the corner with the highest pressure until it does not: more
    /// than the panel bears, never less.
    #[must_use]
    pub fn ramp(&self, at_origin: f64, slope: [f64; 2]) -> Ramp {
        let along = |d: [f64; 2]| slope[0] * d[0] + slope[1] * d[1];
        let ramp = Ramp {
            mean: at_origin + along(self.centre),
            across: 0.5 * self.sides.short() * along(self.across),
            along: 0.5 * self.sides.long() * along(self.along),
        };
        let most = ramp.most();
        let least = 2.0 * ramp.mean - most;
        if least >= 0.0 || most <= 0.0 {
            return ramp;
        }
        let flatter = most / (most - least);
        Ramp {
            mean: most - flatter * (most - ramp.mean),
            across: flatter * ramp.across,
            along: flatter * ramp.along,
        }
    }
}
