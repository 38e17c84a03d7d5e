//! The fresh beads of a shell: what the grid makes of them, and what is read in its place.
//!
//! A picture of the cells for each bead would be more than a gauge has room for, and heat goes through all of them
//! alike, so that beads share: the last is alone in its picture, the others are together in two. What is left of
//! the heat of a group is known from its cells; what of it is each bead's, from how fast the sheets beside it lose
//! heat. A group is forgotten once its beads are old enough in the mean for the grid to show them.
//!
//! Of a bead on an edge that shares no sheet with a place it is not known how far it is away over the sheets. What
//! the grid makes of it there is kept: as much of its group's picture as is not due to the others, and no more
//! than a point of its heat makes so far off in a straight line.

use super::super::loss::Facing;
use super::bead::{Bead, MetalNow};
use super::films::FILM;
use super::whole::{MOST, ONE, PARTS, kelvin, share};
use super::{Sheet, Shell, Spot};

/// Most beads tracked one by one.
pub(super) const BEADS: usize = 11;
/// Groups they share.
pub(super) const GROUPS: usize = 3;
/// Most beads in a group, so that with two groups full there is room for one more bead.
const MOST_TOGETHER: u8 = (BEADS as u8 - 1) / 2;
/// Where no cell would lose more than this share of a group's heat in a second by what its beads radiate beyond the cells,
/// that is left out from then on.
const LEAST_EXTRA: f64 = 5e-6;
/// Fixed-point one of how narrowly heat lies together.
const CROWD: f64 = 65_536.0;

/// A tenth of a kelvin in parts of [`PARTS`].
const LEAST: i32 = 1_638;

/// Whether each group has beads.
pub(super) fn groups(beads: &[Bead]) -> [bool; GROUPS] {
    let mut alive = [false; GROUPS];
    for bead in beads {
        if let Some(slot) = alive.get_mut(usize::from(bead.group)) {
            *slot = true;
        }
    }
    alive
}

/// What is asked of a group when room is made.
#[derive(Clone, Copy)]
struct Group {
    /// When its last bead was laid, in s; minus infinity without beads.
    laid: f64,
    /// How many beads it has.
    beads: u8,
    number: u8,
}

/// What leaves a shell, in W.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Leaving {
    /// To the air, by convection.
    pub air: f64,
    /// By radiation of the cells at their means.
    pub radiation: f64,
    /// By radiation of the fresh beads beyond that of their cells.
    pub glow: f64,
}

impl<const C: usize, const L: usize> Shell<C, L> {
    /// The metal and the time, as beads ask for them.
    fn now(&self) -> MetalNow {
        MetalNow {
            time: self.clock,
            step: self.step,
            diffusivity: self.diffusivity,
            capacity: self.capacity,
        }
    }

    /// The beads of a group.
    fn group(&self, number: u8) -> impl Iterator<Item = &Bead> {
        let beads = self.beads.iter();
        beads.filter(move |bead| bead.group == number)
    }

    /// Energy of a group in the cells, in J.
    fn in_cells(&self, number: u8) -> f64 {
        let own = self
            .group_warmth
            .get(usize::from(number))
            .into_iter()
            .flatten();
        let sum: u64 = own
            .zip(&self.weight)
            .map(|(own, weight)| u64::from(own.unsigned_abs()) * u64::from(*weight))
            .fold(0, u64::wrapping_add);
        sum as f64 * self.unit
    }

    /// Energy of a group in the cells, as a share of what its beads hold by their own count.
    fn left(&self, number: u8) -> f64 {
        let held: f64 = self.group(number).map(Bead::heat_left).sum();
        if held > 0.0 {
            self.in_cells(number) / held
        } else {
            0.0
        }
    }

    /// Lets each bead lose heat as fast as its two sheets do over a step: what is left of a group is shared out among its
    /// beads by that.
    pub(super) fn cool_beads(&mut self) {
        let Self {
            beads,
            sheets,
            rates,
            ..
        } = self;
        for bead in beads {
            let mut loss = 0.0;
            for place in bead.sheets() {
                let Some(sheet) = sheets.get(usize::from(place)) else {
                    continue;
                };
                if sheet.side != Facing::Still {
                    let film = sheet.takes.film(sheet.films.at(sheet.mean));
                    // A mean that whole numbers are not good for is one of a tank that glows all over.
                    let mean = sheet.mean.unsigned_abs().min(sheet.takes.until);
                    let share = f64::from(sheet.takes.speed(rates, mean, film)) / ONE;
                    loss += 0.5 * share / sheet.bare;
                }
            }
            bead.apply_loss(loss, self.capacity);
        }
    }

    /// How much more narrowly the heat of a group's beads lies together than its cells show: the mean of its beads, by
    /// their heat; `None` where it has none.
    fn crowd(&self, number: u8) -> Option<f64> {
        let now = self.now();
        let (mut sum, mut whole) = (0.0, 0.0);
        for bead in self.group(number) {
            let heat = bead.heat();
            sum += heat * bead.crowd(&now, self.square);
            whole += heat;
        }
        (whole > 0.0).then(|| sum / whole)
    }

    /// Takes from the cells what the beads radiate in a step by being hotter than their cells' means.
    pub(super) fn radiate_from_beads(&mut self) {
        let now = self.now();
        let least = share(LEAST_EXTRA * self.step);
        for number in [0, 1, 2] {
            if !self.group(number).any(|bead| bead.outshines_cells) {
                continue;
            }
            let Some(crowd) = self.crowd(number) else {
                continue;
            };
            if self.glow(number, (CROWD * crowd) as u32, least) {
                continue;
            }
            // It has only less to come.
            for bead in &mut self.beads {
                let cools = now.time - bead.laid() > 2.0 * now.step;
                bead.outshines_cells &= bead.group != number || !cools;
            }
        }
    }

    /// Takes what a group whose heat lies together so narrowly radiates beyond its cells; whether any cell loses more by it
    /// than the share `least`.
    fn glow(&mut self, number: u8, crowd: u32, least: u32) -> bool {
        let Self {
            group_warmth,
            warmth,
            weight,
            sheets,
            rates,
            lost,
            turn,
            unit,
            ..
        } = self;
        let Some(own) = group_warmth.get_mut(usize::from(number)) else {
            return false;
        };
        let (mut marked, mut drops) = (false, 0_u64);
        for sheet in sheets.iter().filter(|sheet| sheet.side != Facing::Still) {
            let [from, to] = sheet.cells.map(usize::from);
            let slots = (own.get_mut(from..to), warmth.get_mut(from..to));
            let (Some(own), Some(warmth)) = slots else {
                continue;
            };
            let weight = weight.get(from..to).unwrap_or_default();
            for ((own, warmth), weight) in own.iter_mut().zip(warmth).zip(weight) {
                if *own <= LEAST {
                    continue;
                }
                let bell = (own.unsigned_abs(), crowd);
                let Some(drop) = sheet.takes.glow(rates, bell, least, *turn) else {
                    continue;
                };
                marked = true;
                // No more than the cell itself has.
                let drop = drop.min(warmth.unsigned_abs());
                *own = own.saturating_sub_unsigned(drop);
                *warmth = warmth.saturating_sub_unsigned(drop);
                drops = drops.wrapping_add(u64::from(drop) * u64::from(*weight));
            }
        }
        *lost += drops as f64 * *unit;
        marked
    }

    /// What leaves the shell at this moment, by its temperatures alone and without the counter of
    /// [`Shell::lost`]: in W.
    #[must_use]
    pub fn leaving(&self) -> Leaving {
        let mut leaving = Leaving::default();
        for sheet in self
            .sheets
            .iter()
            .filter(|sheet| sheet.side != Facing::Still)
        {
            let [from, to] = sheet.cells.map(usize::from);
            let film = f64::from(sheet.films.at(sheet.mean)) / FILM;
            let cells = self.warmth.iter().zip(&self.weight);
            for (warmth, weight) in cells.skip(from).take(to - from) {
                let warmth = self.hot.warmth(kelvin(*warmth));
                let area = self.outside(sheet, *weight);
                leaving.air += area * film * warmth;
                leaving.radiation += area * self.hot.radiates(warmth);
            }
        }
        for number in [0, 1, 2] {
            let outshine = self.group(number).any(|bead| bead.outshines_cells);
            let Some(crowd) = self.crowd(number).filter(|_| outshine) else {
                continue;
            };
            let own = self.group_warmth.get(usize::from(number));
            for sheet in &self.sheets {
                let [from, to] = sheet.cells.map(usize::from);
                let cells = own.into_iter().flatten().zip(&self.weight);
                for (own, weight) in cells.skip(from).take(to - from) {
                    let own = kelvin(*own);
                    let bell = self.hot.over_bell(crowd * own) / crowd;
                    let seen = self.hot.beyond_first(self.hot.warmth(own));
                    let more = self.hot.shine * libm::fmax(bell - seen, 0.0);
                    leaving.glow += self.outside(sheet, *weight) * more;
                }
            }
        }
        leaving
    }

    /// Outside of a cell of a sheet, in m²; none of a sheet that loses nothing.
    fn outside(&self, sheet: &Sheet, weight: u32) -> f64 {
        sheet.bare * self.unit * PARTS * f64::from(weight)
    }

    /// Tracks the heat of a step of arc, in J: in a bead, and in what the bead's group makes of the cells.
    pub(super) fn track(&mut self, spot: &Spot, heat: f64) {
        if !spot.tracked {
            return;
        }
        let (time, step, way) = (self.clock, self.step, &spot.on_edge);
        let going = self
            .beads
            .iter_mut()
            .find_map(|bead| bead.extend(way, time, step, heat).then_some(bead.group));
        let number = going.unwrap_or_else(|| {
            let number = self.make_room();
            // Room was made for it.
            let _ = self.beads.push(Bead::new(way, time, heat, number));
            if let Some(own) = self.group_warmth.get_mut(usize::from(number)) {
                own.clear();
                // As many as there are cells, so it fits.
                let _ = own.resize(self.warmth.len(), 0);
            }
            number
        });
        let Some(own) = self.group_warmth.get_mut(usize::from(number)) else {
            return;
        };
        for (cell, share) in spot.heat_shares() {
            if let (Some(own), Some(inverse_capacity)) =
                (own.get_mut(cell), self.inverse_capacity.get(cell))
            {
                let more = (heat * share * inverse_capacity * PARTS + 0.5) as i32;
                // A sliver of a cell has no temperature worth a name: what does not fit is read by the cells. Never more
                // than the cell itself has, or the bead could lose what is not its own.
                *own = own.saturating_add(more).min(MOST);
            }
        }
    }

    /// Makes room for one more bead, in a group without others, and gives the number of that group.
    fn make_room(&mut self) -> u8 {
        let [mut old, mut middle, mut young] = [0, 1, 2].map(|number| Group {
            laid: self
                .group(number)
                .map(Bead::laid)
                .fold(f64::NEG_INFINITY, libm::fmax),
            beads: self.group(number).count() as u8,
            number,
        });
        for _ in 0..2 {
            if middle.laid < old.laid {
                core::mem::swap(&mut old, &mut middle);
            }
            if young.laid < middle.laid {
                core::mem::swap(&mut middle, &mut young);
            }
        }
        if old.beads == 0 {
            return old.number;
        }
        let (into, from) = if old.beads + middle.beads <= MOST_TOGETHER {
            (old, middle)
        } else if middle.beads + young.beads <= MOST_TOGETHER {
            (middle, young)
        } else {
            self.drop_group(old.number);
            return old.number;
        };
        self.join(into.number, from.number);
        from.number
    }

    /// Moves the beads of one group into another.
    fn join(&mut self, into: u8, from: u8) {
        let left = [into, from].map(|number| self.left(number));
        for bead in &mut self.beads {
            for (number, left) in [into, from].into_iter().zip(left) {
                if bead.group == number {
                    bead.left *= left as f32;
                    bead.group = into;
                    break;
                }
            }
        }
        let both = [into, from].map(usize::from);
        if let Ok([into, from]) = self.group_warmth.get_disjoint_mut(both) {
            for (sum, more) in into.iter_mut().zip(from.iter()) {
                *sum = sum.saturating_add(*more).min(MOST);
            }
        }
    }

    /// Forgets the beads of a group.
    fn drop_group(&mut self, number: u8) {
        self.beads.retain(|bead| bead.group != number);
    }

    /// Forgets the groups that are old enough for the grid to show them.
    pub(super) fn forget_old_groups(&mut self) {
        for number in [0, 1, 2] {
            let (mut sum, mut count) = (0.0, 0.0);
            for bead in self.group(number) {
                sum += self.clock - bead.laid();
                count += 1.0;
            }
            if sum > self.bead_age_limit * count {
                self.drop_group(number);
            }
        }
    }

    /// Temperature of the metal at a place on an edge, in K over the surroundings.
    #[must_use]
    pub fn warmth_at(&self, spot: Spot) -> f64 {
        let now = self.now();
        let mut alone = 0.0;
        for (own, number) in self.group_warmth.iter().zip(0_u8..) {
            let (mut known, mut beyond, mut beads) = (0.0, 0.0, false);
            for bead in self.group(number) {
                beads = true;
                match bead.at(&spot.on_edge, &now) {
                    Some(whole) => known += whole * f64::from(bead.left),
                    None => beyond += bead.upper_bound(&spot.on_edge, &now),
                }
            }
            if !beads {
                continue;
            }
            let left = self.left(number);
            known *= left;
            // Of what the grid makes of the group more than that, the beads that are none knows how far off have their
            // part, but no more than they can have.
            let of = |cell: u16| own.get(usize::from(cell)).copied().unwrap_or_default();
            let grid = spot.read(|cell| kelvin(of(cell)));
            let more = libm::fmax(grid - known, 0.0);
            // What glowed away was missing where the bead was hot, and not where the grid still has it.
            let glowed = libm::fmax(1.0 - left, 0.0);
            alone += known + libm::fmax(libm::fmin(more, beyond), glowed * more);
        }
        // The grid's view of all the rest.
        let alive = groups(&self.beads);
        let rest = spot.read(|cell| {
            let own = self
                .group_warmth
                .iter()
                .zip(alive)
                .filter(|(_, alive)| *alive);
            let beads = own.filter_map(|(own, _)| own.get(usize::from(cell)).copied());
            let all = self.warmth.get(usize::from(cell)).copied();
            // Each is far below what an i32 holds, and no group has more than the cell.
            kelvin(beads.fold(all.unwrap_or_default(), i32::wrapping_sub))
        });
        rest + alone
    }
}
