//! Compartments: pieces that drain into each other while the tank stands level.

use heapless::Vec;

use super::{Compartments, DoorKind, MAX_PIECES};
use crate::geom::Vector;
use crate::units::{Length, Volume};

/// A piece whose floor is no further than this under its lowest open side, in metres, has no pool of its own.
const SAME: f64 = 1e-9;

/// Up while the tank stands level.
const UP: Vector = Vector::new(0.0, 0.0, 1.0);

/// One compartment.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Compartment {
    /// What it holds to the brim; what stands in it beside baffles is not taken off.
    pub volume: Volume,
    /// The box about it: where it begins along x, y and z, from the outside corner of the tank.
    pub low: [Length; 3],
    /// Where it ends.
    pub high: [Length; 3],
}

/// A way from one compartment to another.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Way {
    /// The other compartment, counted from 0.
    pub to: usize,
    /// What it is.
    pub kind: DoorKind,
    /// Its lowest point while the tank stands level, on the outside's z: liquid runs through down to here.
    pub low: Length,
    /// Its highest point: air gets through up to here.
    pub high: Length,
}

impl Compartments {
    /// How many compartments there are.
    #[must_use]
    pub fn count(&self) -> usize {
        self.rooms
            .iter()
            .map(|room| usize::from(*room) + 1)
            .max()
            .unwrap_or(0)
    }

    /// The compartment that a piece belongs to, counted from 0.
    pub(crate) fn room_of(&self, piece: usize) -> usize {
        self.rooms.get(piece).copied().map_or(0, usize::from)
    }

    /// The pieces of a compartment.
    pub(crate) fn pieces_of(&self, room: usize) -> impl Iterator<Item = usize> + Clone + '_ {
        (0..self.pieces.len()).filter(move |piece| self.room_of(*piece) == room)
    }

    /// One compartment, counted from 0; `None` past the last.
    #[must_use]
    pub fn compartment(&self, room: usize) -> Option<Compartment> {
        (room < self.count()).then(|| {
            let volume: f64 = self.pieces_of(room).map(|piece| self.volume(piece)).sum();
            let [low, high] = self.bounds(self.pieces_of(room));
            Compartment {
                volume: Volume::from_cubic_metres(volume),
                low: low.map(Length::from_metres),
                high: high.map(Length::from_metres),
            }
        })
    }

    /// The box about some pieces.
    pub(crate) fn bounds(&self, pieces: impl Iterator<Item = usize> + Clone) -> [[f64; 3]; 2] {
        let axes = [Vector::new(1.0, 0.0, 0.0), Vector::new(0.0, 1.0, 0.0), UP];
        let all = axes.map(|axis| {
            pieces
                .clone()
                .map(|piece| self.extent(piece, axis))
                .fold([f64::INFINITY, f64::NEG_INFINITY], |known, own| {
                    [libm::fmin(known[0], own[0]), libm::fmax(known[1], own[1])]
                })
        });
        [all.map(|[low, _]| low), all.map(|[_, high]| high)]
    }

    /// The ways from one compartment to others.
    pub fn ways(&self, room: usize) -> impl Iterator<Item = Way> + '_ {
        (0..self.door_count()).filter_map(move |place| {
            let ([a, b], kind) = self.door(place)?;
            let (one, other) = (self.room_of(a), self.room_of(b));
            let to = match (one == room, other == room) {
                (true, false) => other,
                (false, true) => one,
                _ => return None,
            };
            Some(Way {
                to,
                kind,
                low: Length::from_metres(self.sill(place, UP)),
                high: Length::from_metres(-self.sill(place, -UP)),
            })
        })
    }

    /// The pieces that air gets to from one: by any door, and past the rim of every baffle, counted from 1, that `leaks`
    /// tells to be welded not all round.
    pub(crate) fn joined(&self, piece: usize, leaks: impl Fn(u8) -> bool) -> Vec<bool, MAX_PIECES> {
        let mut joined = Vec::new();
        for place in 0..self.pieces.len() {
            // As many as there are pieces.
            let _ = joined.push(place == piece);
        }
        let doors = (0..self.door_count()).filter_map(|place| Some(self.door(place)?.0));
        let slits = self.faced.iter().filter(|(number, _)| leaks(*number));
        let all = doors.chain(slits.map(|(_, pair)| pair.map(usize::from)));
        for _ in 0..self.pieces.len() {
            let mut changed = false;
            for [a, b] in all.clone() {
                let of = |place: usize| joined.get(place).copied().unwrap_or(false);
                let (here, there) = (of(a), of(b));
                for (place, is) in [(a, here), (b, there)] {
                    if !is
                        && (here || there)
                        && let Some(slot) = joined.get_mut(place)
                    {
                        *slot = true;
                        changed = true;
                    }
                }
            }
            if !changed {
                break;
            }
        }
        joined
    }

    /// The compartment that each drains into on its way to some pieces while the tank stands level; `None` for
    /// those that hold the pieces, and where no way leads.
    pub(crate) fn next_on_the_way(&self, to: &[usize]) -> Vec<Option<u8>, MAX_PIECES> {
        let mut next: Vec<Option<u8>, MAX_PIECES> = Vec::new();
        let mut height: Vec<Option<f64>, MAX_PIECES> = Vec::new();
        for room in 0..self.count() {
            let _ = next.push(None);
            let has = to.iter().any(|piece| self.room_of(*piece) == room);
            let _ = height.push(has.then_some(f64::NEG_INFINITY));
        }
        // From the ends of the ways outwards, the lowest door first.
        loop {
            let mut best: Option<(usize, usize, f64)> = None;
            for place in 0..self.door_count() {
                let Some((between, _)) = self.door(place) else {
                    continue;
                };
                let [a, b] = between.map(|piece| self.room_of(piece));
                for (here, there) in [(a, b), (b, a)] {
                    let known = |room: usize| height.get(room).copied().flatten();
                    let (Some(at), None) = (known(there), known(here)) else {
                        continue;
                    };
                    let over = libm::fmax(at, self.sill(place, UP));
                    if best.is_none_or(|(_, _, least)| over < least) {
                        best = Some((here, there, over));
                    }
                }
            }
            let Some((here, there, over)) = best else {
                return next;
            };
            if let (Some(slot), Some(high)) = (next.get_mut(here), height.get_mut(here)) {
                *slot = u8::try_from(there).ok();
                *high = Some(over);
            }
        }
    }

    /// Finds the compartments, numbered from front to back, then from left to right, then from the bottom up.
    pub(super) fn set_rooms(&mut self) {
        let count = self.pieces.len();
        let mut root: Vec<u8, MAX_PIECES> = Vec::new();
        for name in (0..count).filter_map(|n| u8::try_from(n).ok()) {
            // As many as there are pieces.
            let _ = root.push(name);
        }
        for piece in 0..count {
            let [floor, _] = self.extent(piece, UP);
            let mut way: Option<(usize, [f64; 3])> = None;
            for place in 0..self.doors.len() {
                let Some(([a, b], DoorKind::Open)) = self.door(place) else {
                    continue;
                };
                let other = match (a == piece, b == piece) {
                    (true, _) => b,
                    (_, true) => a,
                    _ => continue,
                };
                let over = self.sill(place, UP);
                let [left, _] = self.extent(other, Vector::new(1.0, 0.0, 0.0));
                let [ground, _] = self.extent(other, UP);
                // Of two ways as low the one into the deeper part, then the one to the left.
                let rank = [over, ground, left];
                if over <= floor + SAME && way.is_none_or(|(_, least)| before(&rank, &least)) {
                    way = Some((other, rank));
                }
            }
            if let Some((other, _)) = way {
                let of = |place: usize| root.get(place).copied().unwrap_or_default();
                let (own, new) = (of(piece), of(other));
                for slot in root.iter_mut().filter(|slot| **slot == own) {
                    *slot = new;
                }
            }
        }
        let mut known: Vec<(u8, [f64; 3]), MAX_PIECES> = Vec::new();
        for name in &root {
            if !known.iter().any(|(seen, _)| seen == name) {
                let own = root.iter().enumerate().filter(|(_, other)| *other == name);
                let [low, _] = self.bounds(own.map(|(piece, _)| piece));
                // As many as there are pieces.
                let _ = known.push((*name, [low[1], low[0], low[2]]));
            }
        }
        crate::geom::sort::insertion(&mut known, |(_, a), (_, b)| before(a, b));
        self.rooms.clear();
        for name in &root {
            let place = known.iter().position(|(seen, _)| seen == name);
            let number = place.and_then(|place| u8::try_from(place).ok());
            let _ = self.rooms.push(number.unwrap_or_default());
        }
    }
}

/// Whether the first figure that differs by more than rounding is less.
fn before(a: &[f64; 3], b: &[f64; 3]) -> bool {
    let differ = a.iter().zip(b).find(|(a, b)| libm::fabs(**a - **b) > 1e-6);
    differ.is_some_and(|(a, b)| a < b)
}
