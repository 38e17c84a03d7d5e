//! What leaves a shell in a step of time.
//!
//! On one sheet the share that a cell loses in a step is a function of its warmth and the sheet's film alone: both its
//! outside and its heat capacity go by its area.

use heapless::Vec;

use super::super::loss::Facing;
use super::Shell;
use super::beads::{GROUPS, groups};
use super::films::FILM;
use super::rates::Takes;
use super::whole::{PARTS, kelvin, part_of, share, turned};

/// Sum of the weights of all cells.
const WEIGHTS: f64 = 4_294_967_296.0;

impl<const C: usize, const L: usize> Shell<C, L> {
    /// Sets what leaves in a step, by its length and by the metal.
    pub(super) fn set_losses(&mut self) {
        let capacity = self.capacity();
        self.unit = capacity / (WEIGHTS * PARTS);
        for (weight, inverse_capacity) in self.weight.iter_mut().zip(&self.inverse_capacity) {
            *weight = if *inverse_capacity > 0.0 {
                libm::round(WEIGHTS / (inverse_capacity * capacity)) as u32
            } else {
                0
            };
        }
        for sheet in &mut self.sheets {
            let [from, to] = sheet.cells.map(usize::from);
            let weights = self.weight.get(from..to).unwrap_or_default();
            let sum: f64 = weights.iter().map(|weight| f64::from(*weight)).sum();
            sheet.even = if sum > 0.0 { 1.0 / sum } else { 0.0 };
            sheet.takes = Takes::new(self.step * sheet.bare, &self.hot, &self.rates);
        }
    }

    /// A step of losses to the air and by radiation.
    pub(super) fn lose(&mut self) {
        self.turn = turned(self.turn);
        let alive = groups(&self.beads);
        let Self {
            warmth,
            weight,
            sheets,
            hot,
            rates,
            step,
            lost,
            rough,
            group_warmth,
            turn,
            unit,
            ..
        } = self;
        // Of a group without beads there is nothing to cool.
        let [one, two, three] = group_warmth;
        let all = [one, two, three].into_iter().zip(alive);
        let mut owns = all
            .filter(|(_, alive)| *alive)
            .map(|(own, _)| own.as_mut_slice())
            .collect::<Vec<_, GROUPS>>();
        let mut drops = 0_u64;
        for sheet in sheets {
            if sheet.side == Facing::Still {
                continue;
            }
            let [from, to] = sheet.cells.map(usize::from);
            let (Some(warmth), Some(weight)) = (warmth.get_mut(from..to), weight.get(from..to))
            else {
                continue;
            };
            let film = sheet.films.at(sheet.mean);
            let film_share = sheet.takes.film(film);
            let mut sum = 0_u64;
            for ((warmth, weight), cell) in warmth.iter_mut().zip(weight).zip(from..to) {
                let parts = warmth.unsigned_abs();
                if parts == 0 {
                    continue;
                }
                let weight = u64::from(*weight);
                sum = sum.wrapping_add(u64::from(parts) * weight);
                let loss = sheet.takes.loss(rates, parts, film_share);
                let loss = loss.unwrap_or_else(|| {
                    let heat = kelvin(*warmth);
                    let left = hot.left(heat, f64::from(film) / FILM, *step * sheet.bare);
                    share(1.0 - left / heat)
                });
                let drop = part_of(*warmth, loss, *turn);
                *warmth = warmth.wrapping_sub(drop);
                drops = drops.wrapping_add(u64::from(drop.unsigned_abs()) * weight);
                for own in &mut *owns {
                    if let Some(own) = own.get_mut(cell)
                        && *own != 0
                    {
                        *own = own.wrapping_sub(part_of(*own, loss, *turn));
                    }
                }
            }
            sheet.mean = (sum as f64 * sheet.even) as i32;
        }
        if !*rough && drops > 0 {
            *lost += drops as f64 * *unit;
        }
    }
}
