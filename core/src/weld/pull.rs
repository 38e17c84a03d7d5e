//! How lopsided the welding is on its way.
//!
//! Every stitch shrinks along and across itself in proportion to its heat, which is the same for each metre.
//! What is welded on one side before the other bends the tank that way, so the measure is the first moment of
//! the welded length about the middle of the tank, `|Σ l r| / Σ l |r|`: sums of what is welded so far above,
//! of the whole below. It is 0 for welds in opposite pairs and reaches about one half when one side is welded
//! whole before the other is begun. A stated measure of this project, not a prediction of distortion.

use super::laid::LaidStitch;
use crate::geom::Vector;

/// The pull of the welds made so far.
#[derive(Clone, Copy, Debug)]
pub(super) struct Pull {
    /// Sum of the arms of what is welded, each times its length (of stitches all alike: of one).
    moment: Vector,
    /// The sum of the lengths of the arms of all welds, each times its weld's length.
    whole: f64,
    /// The most lopsided so far, 0 to about 1.
    most: f64,
}

impl Pull {
    pub(super) const NONE: Self = Self {
        moment: Vector::ZERO,
        whole: 0.0,
        most: 0.0,
    };

    /// The pull of stitches, none of them welded.
    pub(super) fn of(stitches: &[LaidStitch]) -> Self {
        Self::over(stitches.iter().map(|stitch| stitch.arm().length()).sum())
    }

    /// The pull of welds whose arms, each times the weld's length, come to `whole` in all; none of them welded.
    pub(super) const fn over(whole: f64) -> Self {
        Self {
            moment: Vector::ZERO,
            whole,
            most: 0.0,
        }
    }

    /// The same welds, none of them made.
    pub(super) const fn unwelded(&self) -> Self {
        Self::over(self.whole)
    }

    /// How lopsided it would be with this stitch welded as well, 0 to about 1.
    pub(super) fn with(&self, stitch: &LaidStitch) -> f64 {
        self.with_arm(stitch.arm())
    }

    /// How lopsided it would be with a weld of this arm made as well, 0 to about 1.
    pub(super) fn with_arm(&self, arm: Vector) -> f64 {
        if self.whole > 0.0 {
            (self.moment + arm).length() / self.whole
        } else {
            0.0
        }
    }

    /// Takes a stitch in as welded.
    pub(super) fn weld(&mut self, stitch: &LaidStitch) {
        self.add(stitch.arm());
    }

    /// Takes a weld of this arm in as made.
    pub(super) fn add(&mut self, arm: Vector) {
        self.most = libm::fmax(self.most, self.with_arm(arm));
        self.moment = self.moment + arm;
    }

    /// The most lopsided so far, 0 to about 1.
    pub(super) const fn most(&self) -> f64 {
        self.most
    }
}
