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

use crate::body::Solid;
use crate::geom::Vector;

/// The angles of the sheets at a corner, laid flat, in all; three right angles where no sheet has a corner there.
pub(super) fn corner(solid: &Solid, at: Vector) -> f64 {
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

/// 2π/Θ − 1, of corners from a sixth of a turn to any.
pub(super) fn adds(angle: f64) -> f64 {
    libm::fmin(2.0 * PI / angle - 1.0, 1.9)
}

/// What comes round a corner that adds so much, in terms of `e^(−z)`: for three right angles within 0.04 of the
/// integral that the series stands for, by the integral itself at 0 to 90° and z up to 6.
pub(super) fn round(adds: f64, cosine: f64, z: f64) -> f64 {
    let ahead = adds / libm::sqrt(1.0 + 1.6 * z);
    let beside = 0.5 - (0.5 - adds) / libm::sqrt(1.0 + 3.6 * z);
    // 1 − cos β over 1 − cos(Θ − π).
    let most = 1.0 + libm::cos(2.0 * PI / (1.0 + adds));
    let turned = libm::fmin((1.0 - cosine) / libm::fmax(most, 0.1), 1.0);
    ahead + (beside - ahead) * turned * turned
}
