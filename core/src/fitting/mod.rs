//! What is set into the walls and stands across the inside: fittings and baffles.
//!
//! A fitting is a hole, a circular seam and the volume of what stands in; a baffle is a plate that fills
//! the inside at one place, less its holes, welded all round.

mod baffle;
mod beyond;
mod cut;
mod error;
mod flange;
mod room;
mod set_in;
mod stand;

pub use baffle::{Baffle, BaffleHole};
pub(crate) use baffle::{Flanges, axes};
pub use beyond::{EdgeRemedies, PlugWelds, SlotWelds};
pub use cut::{BaffleCut, FlangeCut, MAX_NOTCHES, Notch};
pub use error::{CutFault, PlaceError, RoomError};
pub(crate) use flange::Bending;
pub use room::FaceBox;
pub use set_in::{Clearance, Fitting, MIN_TO_BEND, MIN_TO_HOLE, MIN_TO_SEAM, Near};

pub use stand::{MAX_OPENING, Opening, Openings, StandLine};

use heapless::Vec;

use crate::geom::Vector;
use crate::input::limits::{MAX_BAFFLES, MAX_FITTINGS};

/// What stands within the tank and takes room there; about 3 KiB.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Inner {
    /// The baffles.
    pub(crate) baffles: Vec<Baffle, MAX_BAFFLES>,
    /// The parts of fittings that stand in.
    pub(crate) stubs: Vec<set_in::Stub, MAX_FITTINGS>,
}

impl Inner {
    /// Nothing.
    pub(crate) const EMPTY: Self = Self {
        baffles: Vec::new(),
        stubs: Vec::new(),
    };

    /// The baffles.
    #[must_use]
    pub fn baffles(&self) -> &[Baffle] {
        &self.baffles
    }

    /// All that they take, in m³.
    #[must_use]
    pub fn displaced(&self) -> f64 {
        let baffles: f64 = self.baffles.iter().map(Baffle::displaced).sum();
        let stubs: f64 = self.stubs.iter().map(set_in::Stub::displaced).sum();
        let flanges: f64 = self.baffles.iter().map(Baffle::flange_volume).sum();
        baffles + flanges + stubs
    }

    /// What they take (m³) below the plane `up · p = level`, for a unit `up` and a level in metres.
    #[must_use]
    pub fn below(&self, up: Vector, level: f64) -> f64 {
        let below = |b: &Baffle| b.below(up, level) + b.flanges_below(up, level);
        let baffles: f64 = self.baffles.iter().map(below).sum();
        let stubs: f64 = self.stubs.iter().map(|s| s.below(up, level)).sum();
        baffles + stubs
    }
}
