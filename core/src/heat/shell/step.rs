//! A step of time.

use super::beads::groups;
use super::hot::Hot;
use super::rates::Rates;
use super::whole::{MOST, PARTS, turned};
use super::{Fineness, Link, Material, OFF, Shell, Spot};
use crate::build::MAX_STAGES;

impl<const C: usize, const L: usize> Shell<C, L> {
    /// Takes all cells, links and sheets away; `ambient` is in K, `emissivity` 0 to 1.
    pub(super) fn clear(&mut self, ambient: f64, emissivity: f64) {
        self.warmth.clear();
        self.inverse_capacity.clear();
        self.weight.clear();
        self.off.clear();
        self.links.clear();
        self.by_stage = [0; MAX_STAGES + 1];
        self.closed = 0;
        self.sheets.clear();
        self.ambient = ambient;
        self.emissivity = emissivity;
        self.heated = 0.0;
        self.lost = 0.0;
        self.waiting = 0.0;
        self.turn = 0;
        self.clock = 0.0;
        self.beads.clear();
    }

    /// Sets the metal, and how long beads are tracked among squares of `square` metres in the mean.
    pub(super) fn set_material(&mut self, material: &Material, square: f64, fineness: &Fineness) {
        self.diffusivity = material.diffusivity();
        self.capacity = material.capacity;
        self.hot = Hot::new(&material.melting, self.ambient, material.emissivity);
        self.rates = Rates::new(&self.hot, fineness.beads);
        self.rough = !fineness.beads;
        self.square = square;
        let resolved = RESOLVED * square;
        self.bead_age_limit = resolved * resolved / (2.0 * self.diffusivity);
    }

    /// Adds a cell of `capacity` J/K, whose metal lies so far off the middle of its square, in widths of that; `None` where
    /// there is no room.
    pub(super) fn add_cell(&mut self, capacity: f64, off: [f64; 2]) -> Option<()> {
        self.warmth.push(0).ok()?;
        self.weight.push(0).ok()?;
        let inverse_capacity = if capacity > 0.0 { 1.0 / capacity } else { 0.0 };
        self.inverse_capacity.push(inverse_capacity).ok()?;
        self.off.push(off.map(|off| (OFF * off) as i8)).ok()
    }

    /// Adds a link of `conductance` W/K between two cells, or to the one that they have; `None` where there is no room.
    pub(super) fn add_link(&mut self, cells: [u16; 2], conductance: f64) -> Option<()> {
        let [a, b] = cells;
        let known = self
            .links
            .iter_mut()
            .rev()
            .take(RECENT)
            .find(|link| link.cells == [a, b] || link.cells == [b, a]);
        if let Some(link) = known {
            link.conduct(link.conductance() + conductance as f32);
            return Some(());
        }
        let gives = [0; 2];
        let mut link = Link { cells, gives };
        link.conduct(conductance as f32);
        self.links.push(link).ok()
    }

    /// Takes down that all links up to here are joined by a stage.
    pub(super) fn end_stage(&mut self, stage: u8) {
        let count = self.links.len();
        if let Some(slot) = self.by_stage.get_mut(usize::from(stage)) {
            // A shell has some hundreds.
            *slot = count as u16;
        }
        self.closed = count;
    }

    /// How far a cell's metal lies off the middle of its square, in widths of that.
    pub(super) fn off(&self, cell: u16) -> [f64; 2] {
        let off = self.off.get(usize::from(cell)).copied();
        off.unwrap_or_default().map(|off| f64::from(off) / OFF)
    }

    /// Whether a cell has metal in it.
    pub(super) fn is_real(&self, cell: u16) -> bool {
        self.inverse_capacity
            .get(usize::from(cell))
            .is_some_and(|inverse_capacity| *inverse_capacity > 0.0)
    }

    /// Sets the length of a step, in s, and turns the links' conductances into what passes in half a step.
    pub(super) fn set_step(&mut self, step: f64) {
        self.step = step;
        let sweep = if self.rough { 1.0 } else { 0.5 };
        for link in &mut self.links {
            let [a, b] = link.cells.map(|cell| {
                self.inverse_capacity
                    .get(usize::from(cell))
                    .copied()
                    .unwrap_or_default()
            });
            let both = a + b;
            let share = -libm::expm1(-sweep * step * f64::from(link.conductance()) * both) / both;
            // The one of more capacity by whole parts, the other by the same energy: what one gives the other gets.
            let give = |less: f64, more: f64| {
                let whole = libm::round(share * less * GIVES);
                [whole, whole * (more / less)].map(|gives| gives as i32)
            };
            link.gives = if a < b {
                give(a, b)
            } else {
                let [less, more] = give(b, a);
                [more, less]
            };
        }
        self.set_losses();
    }

    /// Lets a step of time pass, with heat put in at a place on an edge, in J.
    pub fn pass(&mut self, arc: Option<(Spot, f64)>) {
        if self.rough {
            let heat = arc.map(|(spot, heat)| (spot.beside(), heat));
            return self.pass_roughly(heat);
        }
        self.even_out(false);
        self.clock += 0.5 * self.step;
        self.put_waiting();
        if let Some((spot, heat)) = arc {
            self.heat(spot, heat);
            self.track(&spot, heat);
        }
        self.lose();
        self.cool_beads();
        self.radiate_from_beads();
        self.even_out(true);
        self.clock += 0.5 * self.step;
        self.forget_old_groups();
    }

    /// Lets a rough step of time pass, with `heat` joules put into two cells, half into each.
    pub(crate) fn pass_at(&mut self, cells: [u16; 2], heat: f64) {
        self.pass_roughly(Some((cells.map(|cell| (usize::from(cell), 0.5)), heat)));
    }

    /// Lets a rough step of time pass: one sweep over the links in place of two, of first order in the step. Steps sweep
    /// from the first link and from the last in turn.
    fn pass_roughly(&mut self, heat: Option<([(usize, f64); 2], f64)>) {
        self.put_waiting();
        if let Some((places, heat)) = heat {
            self.put(places.into_iter(), heat);
        }
        self.lose();
        self.even_out(self.back);
        self.back = !self.back;
        self.clock += self.step;
    }

    /// Puts heat in at a place on an edge, in J.
    pub(super) fn heat(&mut self, spot: Spot, heat: f64) {
        self.put(spot.heat_shares(), heat);
    }

    /// Puts heat into cells, in J, each with its share of it. What passes the highest temperature in a sliver of a cell goes
    /// to the others, and waits where there is no room in them.
    fn put(&mut self, places: impl Iterator<Item = (usize, f64)> + Clone, heat: f64) {
        self.heated += heat;
        let mut over = 0.0;
        for (cell, share) in places.clone() {
            over += self.put_into(cell, heat * share);
        }
        for (cell, _) in places {
            if !(over > 0.0) {
                return;
            }
            over = self.put_into(cell, over);
            if over > 0.0 {
                // There are no more cells than that.
                self.waits_at = cell as u16;
            }
        }
        self.waiting += over;
    }

    /// Puts heat into a cell, in J; that for which there is no room in it.
    fn put_into(&mut self, cell: usize, heat: f64) -> f64 {
        let slots = (self.warmth.get_mut(cell), self.inverse_capacity.get(cell));
        let (Some(warmth), Some(inverse_capacity)) = slots else {
            return heat;
        };
        if !(*inverse_capacity > 0.0) {
            return heat;
        }
        let more = heat * inverse_capacity * PARTS;
        let room = f64::from(MOST - *warmth);
        if more < room {
            *warmth += (more + 0.5) as i32;
            return 0.0;
        }
        *warmth = MOST;
        (more - room) / (inverse_capacity * PARTS)
    }

    /// Puts heat that waits for room where there is some by now.
    fn put_waiting(&mut self) {
        if self.waiting > 0.0 {
            self.waiting = self.put_into(usize::from(self.waits_at), self.waiting);
        }
    }

    /// Half a step of conduction, from the first link to the last, or back: in all cells, and in what each group of beads
    /// alone makes of them.
    fn even_out(&mut self, back: bool) {
        self.turn = turned(self.turn);
        let turn = self.turn;
        let links = self.links.get(..self.closed).unwrap_or(&self.links);
        even_out(&mut self.warmth, links, (back, turn));
        for (own, alive) in self.group_warmth.iter_mut().zip(groups(&self.beads)) {
            if alive {
                even_out(own, links, (back, turn));
            }
        }
    }
}

impl Link {
    /// The conductance between the two, in W/K, while the mesh is made.
    fn conductance(&self) -> f32 {
        let [bits, _] = self.gives;
        f32::from_bits(bits.cast_unsigned())
    }

    /// Sets that.
    fn conduct(&mut self, conductance: f32) {
        self.gives = [conductance.to_bits().cast_signed(), 0];
    }
}

/// Half a step of conduction along links, from the first to the last, or back.
#[inline(never)]
fn even_out(warmth: &mut [i32], links: &[Link], (back, turn): (bool, u32)) {
    if back {
        for link in links.iter().rev() {
            exchange(link, warmth, turn);
        }
    } else {
        for link in links {
            exchange(link, warmth, turn);
        }
    }
}

/// Half a step of conduction between two cells.
///
/// What one gives and the other gets rises with the difference of the two by no more than the difference does, rounded as
/// it is: neither comes out colder for either having been warmer, nor outside of what the two had.
#[inline(always)]
fn exchange(link: &Link, warmth: &mut [i32], turn: u32) {
    // Written out: what is called for every link of every step is not always made one with its caller.
    let (a, b) = (usize::from(link.cells[0]), usize::from(link.cells[1]));
    let (Some(one), Some(other)) = (warmth.get(a), warmth.get(b)) else {
        return;
    };
    let (one, other) = (*one, *other);
    let apart = one.wrapping_sub(other);
    // Most of the tank knows nothing of a bead.
    if apart == 0 {
        return;
    }
    if let Some(slot) = warmth.get_mut(a) {
        *slot = one.wrapping_sub(given(apart, link.gives[0], turn));
    }
    if let Some(slot) = warmth.get_mut(b) {
        *slot = other.wrapping_add(given(apart, link.gives[1], turn));
    }
}

/// The share of a difference, in parts of 2³¹, rounded up from `turn` on.
#[inline(always)]
fn given(apart: i32, share: i32, turn: u32) -> i32 {
    // The difference of two temperatures has room for that.
    let twice = i64::from(apart.wrapping_mul(2));
    ((twice * i64::from(share) + i64::from(turn)) >> 32) as i32
}

/// Fixed-point one of what a link gives.
const GIVES: f64 = 2_147_483_648.0;

/// Widths of a mean square to which a bead spreads before the grid shows it well enough.
const RESOLVED: f64 = 2.0;

/// How many of the last links are looked through for one between the same two cells.
const RECENT: usize = 64;
