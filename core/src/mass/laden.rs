//! A tank with any fill of its liquid, whose surface stands square to what it feels as gravity.

use super::balance::Balance;
use super::error::BalanceError;
use crate::body::Solid;
use crate::capacity::Lean;
use crate::fitting::Inner;
use crate::geom::Vector;
use crate::tank::Tank;
use crate::units::Volume;

/// Halvings of the height that find a fill.
const HALVINGS: u32 = 52;

/// Less liquid than this share of the brim counts as none.
const DROP: f64 = 1e-9;

/// The empty tank, and the liquid that it may hold.
pub(super) struct Laden<'a> {
    inside: &'a Solid,
    inner: &'a Inner,
    brim: f64,
    density: f64,
    empty: Balance,
}

impl<'a> Laden<'a> {
    /// # Errors
    /// [`BalanceError`] for a liquid without a density, or a figure past its limits.
    pub(super) fn new(tank: &'a Tank) -> Result<Self, BalanceError> {
        Ok(Self {
            inside: &tank.body().inside,
            inner: tank.inner(),
            brim: tank.pool(Lean::LEVEL).brim().si(),
            density: tank.liquid_density()?.si(),
            empty: tank.empty_balance()?,
        })
    }

    pub(super) const fn density(&self) -> f64 {
        self.density
    }

    /// With the surface at a share of the whole height along `up`, a unit direction; and what liquid that is.
    ///
    /// What stands within is taken off the volume only. At a share of one it is full to the brim.
    pub(super) fn at(&self, up: Vector, share: f64) -> (Balance, Volume) {
        let (low, high) = self.inside.extent(up);
        let level = low + share * (high - low);
        let (about, moment) = self.inside.moment_below(up, level);
        // The moment takes arcs by chords; the volume is exact.
        let (whole, _) = self.inside.below(up, level);
        // What stands within and folds at a lean are counted to a few millionths, so that the brim may seem passed.
        let held = libm::fmin(whole - self.inner.below(up, level), self.brim);
        // Of less the middle is all rounding, and it weighs nothing.
        let least = DROP * self.brim;
        if !(about > least && held > least) {
            return (self.empty, Volume::from_cubic_metres(0.0));
        }
        let balance = Balance {
            mass: self.empty.mass + self.density * held,
            moment: self.empty.moment + moment * (self.density * held / about),
        };
        (balance, Volume::from_cubic_metres(held))
    }

    /// With a volume of liquid, no more than it takes; to the last bits of the height.
    pub(super) fn holding(&self, up: Vector, liquid: Volume) -> Balance {
        let (mut low, mut high) = (0.0, 1.0);
        for _ in 0..HALVINGS {
            let middle = 0.5 * (low + high);
            if self.at(up, middle).1 < liquid {
                low = middle;
            } else {
                high = middle;
            }
        }
        self.at(up, high).0
    }
}
