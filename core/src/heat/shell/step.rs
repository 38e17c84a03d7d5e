//! A step of time.

use heapless::Vec;

use super::super::loss::{Facing, radiation};
use super::beads::{GROUPS, ONE, groups, scaled};
use super::hot::{AT_ONCE, Hot};
use super::{Fineness, Link, Material, OFF, Shell, Spot};
use crate::build::MAX_STAGES;

impl<const C: usize, const L: usize> Shell<C, L> {
    /// Takes all cells, links and sheets away; `ambient` is in K, `emissivity` 0 to 1.
    pub(super) fn clear(&mut self, ambient: f64, emissivity: f64) {
        self.warmth.clear();
        self.inverse_capacity.clear();
        self.area.clear();
        self.off.clear();
        self.links.clear();
        self.by_stage = [0; MAX_STAGES + 1];
        self.closed = 0;
        self.sheets.clear();
        self.ambient = ambient;
        self.emissivity = emissivity;
        self.heated = 0.0;
        self.lost = 0.0;
        self.clock = 0.0;
        self.beads.clear();
    }

    /// Sets the metal, and how long beads are tracked among squares of `square` metres in the mean.
    pub(super) fn set_material(&mut self, material: &Material, square: f64, fineness: &Fineness) {
        self.diffusivity = material.diffusivity();
        self.capacity = material.capacity;
        self.hot = Hot::new(&material.melting, self.ambient, material.emissivity);
        self.rough = !fineness.beads;
        self.square = square;
        let resolved = RESOLVED * square;
        self.bead_age_limit = resolved * resolved / (2.0 * self.diffusivity);
    }

    /// Adds a cell of `capacity` J/K with an outside of `area` m², whose metal lies so far off the middle of its square, in
    /// widths of that; `None` where there is no room.
    pub(super) fn add_cell(&mut self, capacity: f64, area: f64, off: [f64; 2]) -> Option<()> {
        self.warmth.push(0.0).ok()?;
        let inverse_capacity = if capacity > 0.0 { 1.0 / capacity } else { 0.0 };
        self.inverse_capacity.push(inverse_capacity).ok()?;
        self.area.push(area as f32).ok()?;
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
            link.share += conductance as f32;
            return Some(());
        }
        let share = conductance as f32;
        let gives = [0; 2];
        self.links
            .push(Link {
                cells,
                share,
                gives,
            })
            .ok()
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
            let exponent = -sweep * step * f64::from(link.share) * both;
            link.share = (-libm::expm1(exponent) / both) as f32;
            let share = link.share;
            link.gives =
                [a, b].map(|inverse_capacity| (share * inverse_capacity as f32 * ONE) as i32);
        }
    }

    /// Lets a step of time pass, with heat put in at a place on an edge, in J.
    pub fn pass(&mut self, arc: Option<(Spot, f64)>) {
        if self.rough {
            let heat = arc.map(|(spot, heat)| (spot.beside(), heat));
            return self.pass_roughly(heat);
        }
        self.even_out(false);
        self.clock += 0.5 * self.step;
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

    /// Puts heat into cells, in J, each with its share of it.
    fn put(&mut self, places: impl Iterator<Item = (usize, f64)>, heat: f64) {
        for (cell, share) in places {
            if let (Some(warmth), Some(inverse_capacity)) =
                (self.warmth.get_mut(cell), self.inverse_capacity.get(cell))
            {
                *warmth += heat * share * inverse_capacity;
            }
        }
        self.heated += heat;
    }

    /// Half a step of conduction, from the first link to the last, or back.
    fn even_out(&mut self, back: bool) {
        let Self {
            warmth,
            inverse_capacity,
            links,
            closed,
            ..
        } = self;
        let links = links.get(..*closed).unwrap_or(links);
        if back {
            for link in links.iter().rev() {
                exchange(link, warmth, inverse_capacity);
            }
        } else {
            for link in links {
                exchange(link, warmth, inverse_capacity);
            }
        }
        let alive = groups(&self.beads);
        if alive != [false; GROUPS] {
            even_out_alone(
                alive,
                &mut self.group_warmth,
                self.links.get(..self.closed).unwrap_or(&self.links),
                back,
            );
        }
    }

    /// A step of losses to the air and by radiation.
    fn lose(&mut self) {
        let Self {
            warmth,
            inverse_capacity,
            area,
            sheets,
            ambient,
            emissivity,
            hot,
            step,
            lost,
            rough,
            beads,
            group_warmth: own,
            ..
        } = self;
        let alive = groups(beads);
        for sheet in sheets {
            if sheet.side == Facing::Still {
                continue;
            }
            let [from, to] = sheet.cells.map(usize::from);
            let count = to - from;
            let cells = warmth
                .iter_mut()
                .zip(inverse_capacity.iter())
                .zip(area.iter())
                .enumerate()
                .skip(from)
                .take(count);
            let mut mean = (0.0, 0.0_f64);
            let film = sheet.films.at(f64::from(sheet.mean));
            for (cell, ((warmth, inverse_capacity), area)) in cells {
                let area = f64::from(*area);
                mean.0 += *warmth * area;
                mean.1 += area;
                if !(*inverse_capacity > 0.0) {
                    continue;
                }
                let rate = area * (film + radiation(*emissivity, *warmth, *ambient));
                let x = *step * rate * *inverse_capacity;
                let left = if (x > AT_ONCE && *warmth > COLD) || *warmth > hot.melts {
                    hot.left(*warmth, film, *step * area * *inverse_capacity) / *warmth
                } else {
                    // e^(−x) to second order.
                    1.0 / (1.0 + x + 0.5 * x * x)
                };
                if alive != [false; GROUPS] {
                    let left = (left as f32 * ONE) as i32;
                    for own in alive_groups(alive, own) {
                        if let Some(own) = own.get_mut(cell) {
                            *own = scaled(*own, left);
                        }
                    }
                }
                let cooler = *warmth * left;
                if !*rough {
                    *lost += (*warmth - cooler) / *inverse_capacity;
                }
                *warmth = cooler;
            }
            sheet.mean = libm::fmax(mean.0 / mean.1, 0.0) as f32;
        }
    }
}

/// Half a step of conduction between two cells.
#[inline(always)]
fn exchange(link: &Link, warmth: &mut [f64], inverse_capacity: &[f64]) {
    let [a, b] = link.cells.map(usize::from);
    let (Ok([ta, tb]), Some(ya), Some(yb)) = (
        warmth.get_disjoint_mut([a, b]),
        inverse_capacity.get(a),
        inverse_capacity.get(b),
    ) else {
        return;
    };
    let passed = f64::from(link.share) * (*ta - *tb);
    *ta -= passed * ya;
    *tb += passed * yb;
}

/// The temperatures in the cells of those groups that have beads.
fn alive_groups<const C: usize>(
    alive: [bool; GROUPS],
    own: &mut [Vec<i32, C>],
) -> impl Iterator<Item = &mut Vec<i32, C>> {
    alive
        .into_iter()
        .zip(own)
        .filter_map(|(alive, own)| alive.then_some(own))
}

/// Half a step of conduction in what the groups of beads alone make of the cells.
#[inline(never)]
fn even_out_alone<const C: usize>(
    alive: [bool; GROUPS],
    own: &mut [Vec<i32, C>],
    links: &[Link],
    back: bool,
) {
    for own in alive_groups(alive, own) {
        if back {
            for link in links.iter().rev() {
                exchange_alone(link, own);
            }
        } else {
            for link in links {
                exchange_alone(link, own);
            }
        }
    }
}

/// Half a step of conduction between two cells in what a group alone makes of them.
#[inline(always)]
fn exchange_alone(link: &Link, own: &mut [i32]) {
    let both = link.cells.map(usize::from);
    let Ok([ta, tb]) = own.get_disjoint_mut(both) else {
        return;
    };
    let apart = ta.wrapping_sub(*tb);
    // Most of the tank knows nothing of a bead.
    if apart == 0 {
        return;
    }
    let [fa, fb] = link.gives;
    *ta = ta.wrapping_sub(scaled(apart, fa));
    *tb = tb.wrapping_add(scaled(apart, fb));
}

/// Metal no warmer than this over the air, in K, loses as good as a share of its heat.
const COLD: f64 = 1.0;

/// Widths of a mean square to which a bead spreads before the grid shows it well enough.
const RESOLVED: f64 = 2.0;

/// How many of the last links are looked through for one between the same two cells.
const RECENT: usize = 64;
