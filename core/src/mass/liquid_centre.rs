//! Where the middle of a liquid lies that fills a body up to a level, at any lean.

use crate::body::Solid;
use crate::geom::Vector;

/// The middle of what lies below `level`, a height from the origin along the unit direction `up` in metres; `None` where
/// nothing does.
pub(super) fn below(solid: &Solid, up: Vector, level: f64) -> Option<Vector> {
    let (volume, moment) = solid.moment_below(up, level);
    (volume > 0.0).then(|| moment * (1.0 / volume))
}
