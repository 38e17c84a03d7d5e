//! How high liquid must stand to get from each piece to where it is wanted: the least height over all ways, door by door.

use heapless::Vec;

use super::{Compartments, MAX_DOORS, MAX_PIECES, MAX_PIPES};
use crate::geom::Vector;

/// A height for each piece, along up in metres from the origin; infinite where no way leads.
pub type Heights = Vec<f64, MAX_PIECES>;

impl Compartments {
    /// For each piece the level down to which its liquid gets to one of some places, each the piece that it lies in and its
    /// height along a unit `up`.
    ///
    /// The greatest height on a way counts, and of all ways the one where that is least: the minimax path of a graph
    /// (Pollack, "The maximum capacity through a network", Operations Research 8 (1960) 733, from memory), by
    /// relaxing every door until nothing changes.
    #[must_use]
    pub fn drained_to(&self, up: Vector, places: &[(usize, f64)]) -> Heights {
        self.relaxed(places, |door| self.sill(door, up))
    }

    /// For each piece the level above which its air does not get out by any of some openings, each the piece that it lies in
    /// and its height; minus infinity where no way leads.
    #[must_use]
    pub fn aired_to(&self, up: Vector, places: &[(usize, f64)]) -> Heights {
        let mut turned: Vec<(usize, f64), 32> = Vec::new();
        for (piece, height) in places {
            // A tank has at most sixteen fittings.
            let _ = turned.push((*piece, -height));
        }
        let mut heights = self.relaxed(&turned, |door| self.sill(door, -up));
        heights.iter_mut().for_each(|height| *height = -*height);
        heights
    }

    fn relaxed(&self, places: &[(usize, f64)], sill: impl Fn(usize) -> f64) -> Heights {
        let mut heights = Heights::new();
        // As many as there are pieces.
        let _ = heights.resize(self.pieces.len(), f64::INFINITY);
        for (piece, height) in places {
            if let Some(slot) = heights.get_mut(*piece) {
                *slot = libm::fmin(*slot, *height);
            }
        }
        let mut doors: Vec<([usize; 2], f64), { MAX_DOORS + MAX_PIPES }> = Vec::new();
        for place in 0..self.door_count() {
            if let Some((between, _)) = self.door(place) {
                let _ = doors.push((between, sill(place)));
            }
        }
        // No way passes a piece twice.
        for _ in 0..self.pieces.len() {
            let mut changed = false;
            for ([a, b], over) in &doors {
                let at = |place: usize| heights.get(place).copied().unwrap_or(f64::INFINITY);
                let (here, there) = (at(*a), at(*b));
                let (to_here, to_there) = (libm::fmax(there, *over), libm::fmax(here, *over));
                for (place, old, new) in [(*a, here, to_here), (*b, there, to_there)] {
                    if new < old
                        && let Some(slot) = heights.get_mut(place)
                    {
                        *slot = new;
                        changed = true;
                    }
                }
            }
            if !changed {
                break;
            }
        }
        heights
    }
}
