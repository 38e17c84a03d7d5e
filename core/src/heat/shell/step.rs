//! A step of time.

use heapless::Vec;

use super::super::loss::{Side, radiation};
use super::fresh::{BEADS, GROUPS, ONE, groups, part};
use super::{Fineness, Link, Material, Sheet, Shell, Spot};

/// A film is worked out anew when the sheet's mean temperature has moved by so much, in K, and by this share.
const MOVED: (f64, f64) = (0.5, 0.02);
/// And where no bead is kept apart.
const MOVED_ROUGHLY: (f64, f64) = (4.0, 0.15);

impl<const C: usize, const L: usize> Shell<C, L> {
    pub(super) fn clear(&mut self, ambient: f64, emissivity: f64) {
        self.warmth.clear();
        self.yielding.clear();
        self.area.clear();
        self.links.clear();
        self.sheets.clear();
        self.ambient = ambient;
        self.emissivity = emissivity;
        self.heated = 0.0;
        self.lost = 0.0;
        self.clock = 0.0;
        self.beads = [None; BEADS];
    }

    pub(super) fn set_material(&mut self, material: &Material, square: f64, fineness: &Fineness) {
        self.diffusivity = material.diffusivity();
        self.capacity = material.capacity;
        self.rough = !fineness.beads;
        let resolved = RESOLVED * square;
        self.fresh = resolved * resolved / (2.0 * self.diffusivity);
    }

    pub(super) fn add_cell(&mut self, capacity: f64, area: f64) -> Option<()> {
        self.warmth.push(0.0).ok()?;
        let yielding = if capacity > 0.0 { 1.0 / capacity } else { 0.0 };
        self.yielding.push(yielding).ok()?;
        self.area.push(area as f32).ok()
    }

    /// Adds a link, or makes the one there is stronger.
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
        self.links.push(Link { cells, share }).ok()
    }

    pub(super) fn is_real(&self, cell: u16) -> bool {
        self.yielding
            .get(usize::from(cell))
            .is_some_and(|yielding| *yielding > 0.0)
    }

    /// Turns conductances into what passes in half a step.
    pub(super) fn set_step(&mut self, step: f64) {
        self.step = step;
        let sweep = if self.rough { 1.0 } else { 0.5 };
        for link in &mut self.links {
            let [a, b] = link.cells.map(|cell| {
                self.yielding
                    .get(usize::from(cell))
                    .copied()
                    .unwrap_or_default()
            });
            let both = a + b;
            let exponent = -sweep * step * f64::from(link.share) * both;
            link.share = (-libm::expm1(exponent) / both) as f32;
        }
    }

    /// Lets a step pass, with a heat of so many joules put in at a place on an edge.
    pub fn pass(&mut self, arc: Option<(Spot, f64)>) {
        if self.rough {
            let heat = arc.map(|(spot, heat)| (spot.beside(), heat));
            return self.pass_roughly(heat);
        }
        self.even_out(false);
        self.clock += 0.5 * self.step;
        if let Some((spot, heat)) = arc {
            self.heat(spot, heat);
            self.note(&spot, heat);
        }
        self.lose();
        self.pale();
        self.glow();
        self.even_out(true);
        self.clock += 0.5 * self.step;
        self.forget();
    }

    /// The same with the heat put into two cells, half and half.
    pub(crate) fn pass_at(&mut self, cells: [u16; 2], heat: f64) {
        self.pass_roughly(Some((cells.map(|cell| (usize::from(cell), 0.5)), heat)));
    }

    /// One sweep over the links in place of two: of first order in the step. Steps sweep there and back in turn.
    fn pass_roughly(&mut self, heat: Option<([(usize, f64); 2], f64)>) {
        if let Some((places, heat)) = heat {
            self.put(&places, heat);
        }
        self.lose();
        self.even_out(self.back);
        self.back = !self.back;
        self.clock += self.step;
    }

    pub(super) fn heat(&mut self, spot: Spot, heat: f64) {
        self.put(&spot.takes(), heat);
    }

    fn put(&mut self, places: &[(usize, f64)], heat: f64) {
        for (cell, share) in places {
            if let (Some(warmth), Some(yielding)) =
                (self.warmth.get_mut(*cell), self.yielding.get(*cell))
            {
                *warmth += heat * share * yielding;
            }
        }
        self.heated += heat;
    }

    /// Half a step of conduction, link by link, or back.
    fn even_out(&mut self, back: bool) {
        let Self {
            warmth,
            yielding,
            links,
            ..
        } = self;
        let mut one = |link: &Link| {
            let [a, b] = link.cells.map(usize::from);
            let (Some(ta), Some(tb)) = (warmth.get(a), warmth.get(b)) else {
                return;
            };
            let passed = f64::from(link.share) * (ta - tb);
            let (ya, yb) = (yielding.get(a), yielding.get(b));
            if let (Some(slot), Some(y)) = (warmth.get_mut(a), ya) {
                *slot -= passed * y;
            }
            if let (Some(slot), Some(y)) = (warmth.get_mut(b), yb) {
                *slot += passed * y;
            }
        };
        if back {
            links.iter().rev().for_each(&mut one);
        } else {
            links.iter().for_each(&mut one);
        }
        let alive = groups(&self.beads);
        if alive != [false; GROUPS] {
            even_out_alone(alive, &mut self.own, &self.yielding, &self.links, back);
        }
    }

    /// A step of losses.
    fn lose(&mut self) {
        let Self {
            warmth,
            yielding,
            area,
            sheets,
            ambient,
            emissivity,
            step,
            lost,
            rough,
            beads,
            own,
            ..
        } = self;
        let alive = groups(beads);
        for sheet in sheets {
            if sheet.side == Side::Still {
                continue;
            }
            let [from, to] = sheet.cells.map(usize::from);
            let count = to - from;
            let cells = warmth
                .iter_mut()
                .zip(yielding.iter())
                .zip(area.iter())
                .enumerate()
                .skip(from)
                .take(count);
            let mut mean = (0.0, 0.0_f64);
            let film = f64::from(sheet.film);
            let known = sheet.at >= 0.0;
            for (cell, ((warmth, yielding), area)) in cells {
                let area = f64::from(*area);
                mean.0 += *warmth * area;
                mean.1 += area;
                if !known || !(*yielding > 0.0) {
                    continue;
                }
                let rate = area * (film + radiation(*emissivity, *warmth, *ambient));
                // e^(−x) to second order, and above zero for any x: a sliver under the arc may be very hot.
                let x = *step * rate * *yielding;
                let left = 1.0 / (1.0 + x + 0.5 * x * x);
                if alive != [false; GROUPS] {
                    let left = (left as f32 * ONE) as i32;
                    for own in kept(alive, own) {
                        if let Some(own) = own.get_mut(cell) {
                            *own = part(*own, left);
                        }
                    }
                }
                let cooler = *warmth * left;
                if !*rough {
                    *lost += (*warmth - cooler) / *yielding;
                }
                *warmth = cooler;
            }
            let by = if *rough { MOVED_ROUGHLY } else { MOVED };
            refresh(sheet, mean.0 / mean.1, *ambient, by);
        }
    }
}

/// What the groups of beads make of the cells, where there are any.
fn kept<const C: usize>(
    alive: [bool; GROUPS],
    own: &mut [Vec<i32, C>],
) -> impl Iterator<Item = &mut Vec<i32, C>> {
    alive
        .into_iter()
        .zip(own)
        .filter_map(|(alive, own)| alive.then_some(own))
}

/// The same half step for what the beads alone make of the cells.
#[inline(never)]
fn even_out_alone<const C: usize>(
    alive: [bool; GROUPS],
    own: &mut [Vec<i32, C>],
    yielding: &[f64],
    links: &[Link],
    back: bool,
) {
    let mut one = |link: &Link| {
        let [a, b] = link.cells.map(usize::from);
        // What each of the two gives or gets, as a share of their difference.
        let mut shares = None;
        for own in kept(alive, own) {
            let (Some(ta), Some(tb)) = (own.get(a), own.get(b)) else {
                return;
            };
            let apart = ta.wrapping_sub(*tb);
            // Most of the tank knows nothing of a bead.
            if apart == 0 {
                continue;
            }
            let [fa, fb] = *shares.get_or_insert_with(|| {
                [a, b].map(|cell| {
                    let yielding = yielding.get(cell).copied().unwrap_or_default();
                    (link.share * yielding as f32 * ONE) as i32
                })
            });
            if let Some(slot) = own.get_mut(a) {
                *slot = slot.wrapping_sub(part(apart, fa));
            }
            if let Some(slot) = own.get_mut(b) {
                *slot = slot.wrapping_add(part(apart, fb));
            }
        }
    };
    if back {
        links.iter().rev().for_each(&mut one);
    } else {
        links.iter().for_each(&mut one);
    }
}

/// A bead is kept apart until it has spread so many times as wide as a square is in the mean.
const RESOLVED: f64 = 2.0;

/// So many of the last links are looked through for one between the same two cells.
const RECENT: usize = 64;

fn refresh(sheet: &mut Sheet, mean: f64, ambient: f64, by: (f64, f64)) {
    let moved = libm::fabs(mean - f64::from(sheet.at));
    if sheet.at < 0.0 || moved > by.0 + by.1 * libm::fabs(mean) {
        sheet.at = libm::fmax(mean, 0.0) as f32;
        sheet.film = sheet.side.film(mean, ambient) as f32;
    }
}
