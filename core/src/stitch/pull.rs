//! How lopsided the welding is on its way.
//!
//! Every stitch shrinks along and across itself in proportion to its heat, which is the same for each metre.
//! What is welded on one side before the other bends the tank that way, so the measure is the first moment of
//! the welded length about the middle of the tank, `|Σ l r| / Σ l |r|`: sums of what is welded so far above,
//! of the whole below. It is 0 for welds in opposite pairs and reaches about one half when one side is welded
//! whole before the other is begun. A stated measure of this project, not a prediction of distortion.

use super::run::Run;
use crate::geom::Vector;

/// The pull so far.
#[derive(Clone, Copy, Debug)]
pub(super) struct Pull {
    moment: Vector,
    whole: f64,
    most: f64,
}

impl Pull {
    pub(super) const NONE: Self = Self {
        moment: Vector::ZERO,
        whole: 0.0,
        most: 0.0,
    };

    pub(super) fn of(runs: &[Run]) -> Self {
        let whole = runs.iter().map(|run| run.arm().length()).sum();
        Self {
            moment: Vector::ZERO,
            whole,
            most: 0.0,
        }
    }

    /// How lopsided it would be with one more stitch.
    pub(super) fn with(&self, run: &Run) -> f64 {
        if self.whole > 0.0 {
            (self.moment + run.arm()).length() / self.whole
        } else {
            0.0
        }
    }

    pub(super) fn weld(&mut self, run: &Run) {
        self.most = libm::fmax(self.most, self.with(run));
        self.moment = self.moment + run.arm();
    }

    /// The most lopsided so far.
    pub(super) const fn most(&self) -> f64 {
        self.most
    }
}
