//! Which panels are put on last, and in which order baffles are set in, so that hand and torch reach the most.
//!
//! Every panel is tried as the last one, and where that leaves edges unreached every pair of panels; baffles all at once,
//! and where that leaves edges unreached one after another in every order. Work is bounded: 16 panels, 120 pairs, 24
//! orders; nothing of it is done for a tank without baffles.

use heapless::Vec;

use super::reach::{Mouths, bit};
use super::stage::PanelSet;
use crate::blank::{Groups, PanelMark};
use crate::body::Edge;
use crate::input::Face;
use crate::input::limits::{MAX_BAFFLES, MAX_FACES};
use crate::tank::Tank;
use crate::tank::within::of_walls;

/// Below this much more reached, in m, one sequence is no better than another.
const MARGIN: f64 = 1e-6;

/// In which order a tank is closed.
#[derive(Clone, Debug)]
pub(super) struct Sequence {
    /// The panels that are put on after the baffles, the last last.
    pub(super) last: Vec<PanelMark, MAX_FACES>,
    /// The baffles, counted from 1, in the order in which they are set in.
    pub(super) baffles: Vec<u8, MAX_BAFFLES>,
    /// Whether every edge is reached as well with all baffles set in at once.
    pub(super) together: bool,
    /// Length of the edges that are to be welded and are not reached, in m.
    pub(super) unreached: f64,
}

impl Sequence {
    /// The best there is.
    #[inline(never)]
    pub(super) fn of(tank: &Tank, groups: &Groups) -> Self {
        let usual = usual(tank, groups);
        if tank.inner().baffles().is_empty() {
            return usual;
        }
        let mut best = usual.assessed(tank, groups);
        if !(best.unreached > MARGIN) {
            return best;
        }
        let count = groups.count();
        for single in (0..count).rev() {
            best.improve(tank, groups, &[PanelMark::at(single)]);
        }
        if !(best.unreached > MARGIN) {
            return best;
        }
        for last in (0..count).rev() {
            for first in (0..count).rev().filter(|first| *first != last) {
                best.improve(tank, groups, &[first, last].map(PanelMark::at));
            }
        }
        best
    }

    /// Takes another choice of last panels where that reaches more.
    fn improve(&mut self, tank: &Tank, groups: &Groups, last: &[PanelMark]) {
        let Ok(last) = Vec::from_slice(last) else {
            return;
        };
        let other = Self {
            last,
            baffles: Vec::new(),
            together: true,
            unreached: 0.0,
        };
        if !other.rest_holds(tank, groups) {
            return;
        }
        let other = other.assessed(tank, groups);
        if other.unreached < self.unreached - MARGIN {
            *self = other;
        }
    }

    /// The panels that are put on last.
    pub(super) fn closers(&self) -> PanelSet {
        let mut all = PanelSet::NONE;
        for mark in &self.last {
            all.add(*mark);
        }
        all
    }

    /// Whether the panels that are put up first hold together.
    fn rest_holds(&self, tank: &Tank, groups: &Groups) -> bool {
        let off = self.closers();
        let mut held = PanelSet::NONE;
        let mut rest = (0..groups.count())
            .map(PanelMark::at)
            .filter(|mark| !off.has(*mark));
        let Some(first) = rest.next() else {
            return false;
        };
        held.add(first);
        // Each round holds one more panel at least, or none is left to be held.
        for _ in 0..groups.count() {
            for seam in tank.seams().filter(of_walls) {
                let [a, b] = seam.mark.panels;
                if !off.has(a) && !off.has(b) && (held.has(a) || held.has(b)) {
                    held.add(a);
                    held.add(b);
                }
            }
        }
        rest.all(|mark| held.has(mark))
    }

    /// With the order of its baffles, and what is not reached.
    fn assessed(mut self, tank: &Tank, groups: &Groups) -> Self {
        let count = u8::try_from(tank.inner().baffles().len()).unwrap_or(0);
        let all = (1..=count).fold(0, |set, number| set | bit(number));
        let off = self.closers();
        let open = Mouths::of(tank, groups, off);
        // What reaches them from the start does not hang on the order of the baffles.
        let after = self.unreached_after(tank, groups, all);
        let at_once = unreached(tank, groups, &open, off, |_| all);
        self.baffles = rising(count);
        self.together = true;
        self.unreached = at_once + after;
        if count < 2 || !(at_once > MARGIN) {
            return self;
        }
        let mut least = at_once;
        each_order(count, |order| {
            let set_by = |number: u8| {
                let place = order.iter().position(|one| *one == number);
                let before = order.iter().take(place.map_or(0, |place| place + 1));
                before.fold(0, |set, one| set | bit(*one))
            };
            let left = unreached(tank, groups, &open, off, set_by);
            if left < least - MARGIN {
                least = left;
                self.baffles.clear();
                let _ = self.baffles.extend_from_slice(order);
                self.together = false;
            }
        });
        self.unreached = least + after;
        self
    }

    /// What is not reached of the edges that meet a panel put on last, in m: each is welded when that panel is on and the
    /// next ones are not.
    fn unreached_after(&self, tank: &Tank, groups: &Groups, all: u8) -> f64 {
        let mut off = self.closers();
        let mut sum = 0.0;
        for closer in &self.last {
            off = off.without(*closer);
            let open = Mouths::of(tank, groups, off);
            each_edge(tank, groups, |edge, number, panel| {
                if panel == *closer && open.to(tank, edge, number, all).is_none() {
                    sum += edge.length().si();
                }
            });
        }
        sum
    }
}

/// The panels put on last where nothing within has a say in it, with baffles in the order of the job.
#[inline(never)]
fn usual(tank: &Tank, groups: &Groups) -> Sequence {
    let mut last = Vec::new();
    let others = tank.all_but_the_wrapper(groups);
    if others.is_empty() {
        // As many as there are panels.
        let _: Result<(), _> = tank
            .highest_lid()
            .into_iter()
            .try_for_each(|lid| last.push(lid));
    } else {
        let _: Result<(), _> = others.marks().try_for_each(|mark| last.push(mark));
    }
    let count = u8::try_from(tank.inner().baffles().len()).unwrap_or(0);
    Sequence {
        last,
        baffles: rising(count),
        together: true,
        unreached: 0.0,
    }
}

/// The numbers from 1 to `count`.
fn rising(count: u8) -> Vec<u8, MAX_BAFFLES> {
    let mut all = Vec::new();
    // There are at most as many baffles.
    let _: Result<(), u8> = (1..=count).try_for_each(|number| all.push(number));
    all
}

/// Shows every edge of a baffle that is to be welded, with the number of its baffle and the panel it meets.
pub(super) fn each_edge(tank: &Tank, groups: &Groups, mut see: impl FnMut(&Edge, u8, PanelMark)) {
    for place in 0..tank.seams_within() {
        let Some((edge, _)) = tank.edge_within(place) else {
            continue;
        };
        let [wall, Face::Baffle(number)] = edge.faces else {
            continue;
        };
        if tank.is_free(number, wall) || tank.is_plugged(number, wall) {
            continue;
        }
        if let Some(panel) = tank.panel_of_wall(groups, wall) {
            see(&edge, number, PanelMark::at(panel));
        }
    }
}

/// The length of the edges that are not reached among those that meet no panel of `off`, in m; `set_by` tells which
/// baffles stand when one is welded.
fn unreached(
    tank: &Tank,
    groups: &Groups,
    open: &Mouths,
    off: PanelSet,
    set_by: impl Fn(u8) -> u8,
) -> f64 {
    let mut sum = 0.0;
    each_edge(tank, groups, |edge, number, panel| {
        if !off.has(panel) && open.to(tank, edge, number, set_by(number)).is_none() {
            sum += edge.length().si();
        }
    });
    sum
}

/// Shows every order of the numbers from 1 to `count`, which is at most four, the rising one first.
fn each_order(count: u8, mut see: impl FnMut(&[u8])) {
    let most = u32::from(count).pow(u32::from(count));
    for code in 0..most {
        let mut rest = code;
        let mut order = Vec::<u8, MAX_BAFFLES>::new();
        for _ in 0..count {
            let by = u32::from(count).max(1);
            // Below `count`, so it fits.
            let number = (rest % by) as u8 + 1;
            rest /= by;
            if !order.contains(&number) {
                let _ = order.push(number);
            }
        }
        if order.len() == usize::from(count) {
            see(&order);
        }
    }
}

#[cfg(test)]
mod tests {
    extern crate std;

    use std::collections::BTreeSet;

    use super::each_order;

    #[test]
    fn every_order_comes_once() {
        for (count, orders) in [(1, 1), (2, 2), (3, 6), (4, 24)] {
            let mut seen = BTreeSet::new();
            let mut shown = 0;
            each_order(count, |order| {
                shown += 1;
                seen.insert(order.to_vec());
            });
            assert_eq!((shown, seen.len()), (orders, orders));
        }
    }
}
