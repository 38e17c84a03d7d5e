//! Heat at the corners of a tank, where sheets meet that are less, or more, than a full turn together.
//!
//! Round a corner of Θ in all, laid flat, heat spreads as on a cone (H. Carslaw, Proc. London Math. Soc. 30 (1899),
//! p. 121; H. Carslaw and J. Jaeger, Conduction of Heat in Solids, 2nd ed., §14.14; both from memory): with r and r′
//! the distances of a place and of a point of heat from it, β the angle between them and z = r r′/(2at), what a
//! point makes is `e^(−(r² + r′²)/4at)/(4πat)` times `(2π/Θ) (I₀(z) + 2 Σ I_{νn}(z) cos νnβ)`, ν = 2π/Θ. Of this
//! `e^(z cos β)` comes straight; the rest, in terms of `e^(−z)`, is 2π/Θ − 1 where either is at the corner, falls as
//! 1/√z along the edge, and tends to a half where the way round the other side becomes as straight as the first,
//! at β = Θ − π.

use core::f64::consts::PI;

use heapless::Vec;

use super::spot::EXCESS_SCALE;
use crate::body::{MAX_EDGES, Path, Solid};
use crate::geom::Vector;
use crate::input::Face;

/// The corners at the two ends of an edge: the sheets that the edge joins, and the excess of each corner in parts of
/// [`EXCESS_SCALE`].
#[derive(Clone, Copy, Debug)]
pub(super) struct EdgeCorners {
    pub(super) sheets: [u8; 2],
    pub(super) ends: [i8; 2],
}

/// Adds the corners of every edge of a tank that ends at corners to `all`.
pub(super) fn corner_excesses(
    solid: &Solid,
    sheet: impl Fn(Face) -> Option<usize>,
    all: &mut Vec<EdgeCorners, MAX_EDGES>,
) {
    for edge in solid.edges() {
        let [one, other] = edge.faces;
        if edge.path == Path::Straight && one != other {
            // There are no more edges than that, and some twenty sheets.
            let _ = all.push(EdgeCorners {
                sheets: edge.faces.map(|face| sheet(face).unwrap_or_default() as u8),
                ends: edge
                    .ends
                    .map(|end| (EXCESS_SCALE * excess(corner(solid, end))) as i8),
            });
        }
    }
}

/// Sum of the angles of the sheets at a corner, in radians; three right angles where no sheet has a corner there.
fn corner(solid: &Solid, at: Vector) -> f64 {
    let mut sum = 0.0;
    for view in solid.faces() {
        let last = view.outline().last();
        let before = last.into_iter().chain(view.outline());
        let after = view.outline().skip(1).chain(view.outline().take(1));
        for ((before, here), after) in before.zip(view.outline()).zip(after) {
            let from = here - at;
            if from.dot(from) > 1e-12 {
                continue;
            }
            let (a, b) = (after - here, before - here);
            let turn = libm::atan2(a.cross(b).dot(view.normal()), a.dot(b));
            sum += if turn < 0.0 { turn + 2.0 * PI } else { turn };
        }
    }
    if sum > 0.0 { sum } else { 1.5 * PI }
}

/// Excess of a corner whose sheets, laid flat, fill `angle` radians in all: 2π/Θ − 1, the share of heat at the corner
/// itself beyond that in an unbroken sheet. A corner of less than 124°, sharper than tanks have, is taken as one of 124°.
fn excess(angle: f64) -> f64 {
    libm::fmin(2.0 * PI / angle - 1.0, 1.9)
}

/// What comes round a corner of this excess, in terms of `e^(−z)`; `cosine` is that of the angle β between the two
/// places seen from the corner. For three right angles it is within 0.04 of the integral that the series stands for, by
/// the integral itself at 0 to 90° and z up to 6.
pub(super) fn round_corner(excess: f64, cosine: f64, z: f64) -> f64 {
    let ahead = excess / libm::sqrt(1.0 + 1.6 * z);
    let beside = 0.5 - (0.5 - excess) / libm::sqrt(1.0 + 3.6 * z);
    // 1 − cos β over 1 − cos(Θ − π).
    let most = 1.0 + libm::cos(2.0 * PI / (1.0 + excess));
    let turned = libm::fmin((1.0 - cosine) / libm::fmax(most, 0.1), 1.0);
    ahead + (beside - ahead) * turned * turned
}

#[cfg(test)]
mod tests {
    extern crate std;

    use super::*;

    /// The integral that the rest of the series stands for: `−(1/2Θ) ∫ e^(−z (cosh y − 1)) Re Σ cot(π/Θ (π ± β + i y)) dy`
    /// over all y, by the trapezoidal rule.
    fn integral(angle: f64, beta: f64, z: f64) -> f64 {
        let step = 2e-3;
        let mut sum = 0.0;
        for n in -6_000_i32..=6_000 {
            let y = step * f64::from(n);
            let fall = (-z * (y.cosh() - 1.0)).exp();
            for away in [PI - beta, PI + beta] {
                let (u, v) = (2.0 * PI / angle * away, 2.0 * PI / angle * y);
                // Re cot((u + i v)/2) = sin u / (cosh v − cos u).
                sum += fall * u.sin() / (v.cosh() - u.cos()) * step;
            }
        }
        -sum / (2.0 * angle)
    }

    #[test]
    fn what_comes_round_a_box_corner_is_as_the_integral_has_it() {
        let angle = 1.5 * PI;
        for degrees in [0.0_f64, 30.0, 60.0, 80.0, 89.0] {
            let beta = degrees.to_radians();
            for z in [0.01, 0.1, 0.3, 1.0, 2.0, 4.0, 6.0] {
                let wanted = integral(angle, beta, z);
                let found = round_corner(1.0 / 3.0, beta.cos(), z);
                assert!(
                    (found - wanted).abs() < 0.04,
                    "{degrees} {z}: {found} for {wanted}"
                );
            }
        }
    }
}
