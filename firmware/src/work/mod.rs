//! An open job as its pages see it: the tank, the order of its stitches, the units, and what pages share.

mod order;
mod thinker;

pub use order::{Order, Origin, Takes};
pub use thinker::{NoPlanner, Think, Thinker};

use seamwright_core::tank::Tank;

use crate::amount::Units;
use crate::picture::telling_side;

/// What is chosen on one page and seen on others.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Shared {
    quarters: u8,
    seam: usize,
}

impl Shared {
    /// Before a job is opened: all zeros.
    pub(crate) const NEW: Self = Self {
        quarters: 0,
        seam: 0,
    };

    /// What is chosen when a job is opened.
    pub(crate) fn at_first(tank: &Tank) -> Self {
        Self {
            quarters: telling_side(&tank.body().outside),
            seam: 0,
        }
    }
}

/// An open job as the pages see it.
#[derive(Clone, Copy, Debug)]
pub struct Work<'a> {
    tank: &'a Tank,
    order: Order<'a>,
    units: Units,
    shared: Shared,
}

impl<'a> Work<'a> {
    pub(crate) const fn new(
        tank: &'a Tank,
        order: Order<'a>,
        units: Units,
        shared: Shared,
    ) -> Self {
        Self {
            tank,
            order,
            units,
            shared,
        }
    }

    /// What pages share, as one of them has left it.
    pub(crate) const fn shared(&self) -> Shared {
        self.shared
    }

    /// The tank.
    #[must_use]
    pub const fn tank(&self) -> &'a Tank {
        self.tank
    }

    /// The order of its stitches.
    #[must_use]
    pub const fn order(&self) -> Order<'a> {
        self.order
    }

    /// The units shown.
    #[must_use]
    pub const fn units(&self) -> Units {
        self.units
    }

    /// Quarter turns by which one has walked round the tank.
    #[must_use]
    pub const fn quarters(&self) -> u8 {
        self.shared.quarters
    }

    /// Walks on round the tank by so many quarter turns.
    pub(crate) const fn walk_round(&mut self, quarters: u8) {
        self.shared.quarters = self.shared.quarters.wrapping_add(quarters) % 4;
    }

    /// The seam chosen, by its place in the order of the tank's seams.
    #[must_use]
    pub const fn seam(&self) -> usize {
        self.shared.seam
    }

    /// Chooses a seam.
    pub(crate) const fn choose_seam(&mut self, seam: usize) {
        self.shared.seam = seam;
    }
}
