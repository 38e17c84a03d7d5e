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
pub(crate) struct Pull {
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
        Self::over(runs.iter().map(|run| run.arm().length()).sum())
    }

    /// Of welds whose arms, each times the weld's length, come to `whole` in all.
    pub(crate) const fn over(whole: f64) -> Self {
        Self {
            moment: Vector::ZERO,
            whole,
            most: 0.0,
        }
    }

    /// The same welds, none of them made.
    pub(super) const fn anew(&self) -> Self {
        Self::over(self.whole)
    }

    /// How lopsided it would be with one more stitch.
    pub(super) fn with(&self, run: &Run) -> f64 {
        self.with_arm(run.arm())
    }

    /// The same of any weld, by its arm.
    pub(crate) fn with_arm(&self, arm: Vector) -> f64 {
        if self.whole > 0.0 {
            (self.moment + arm).length() / self.whole
        } else {
            0.0
        }
    }

    pub(super) fn weld(&mut self, run: &Run) {
        self.add(run.arm());
    }

    /// Takes one more weld in.
    pub(crate) fn add(&mut self, arm: Vector) {
        self.most = libm::fmax(self.most, self.with_arm(arm));
        self.moment = self.moment + arm;
    }

    /// The most lopsided so far.
    pub(crate) const fn most(&self) -> f64 {
        self.most
    }
}
