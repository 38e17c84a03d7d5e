//! Fresh beads, finer than the grid can show them.
//!
//! A cell knows only its mean, and along a stitch just laid in a poor conductor temperature falls from its highest
//! to nothing within less than a cell. So for each of the last few beads the shell keeps, beside the temperatures
//! of all, what the grid makes of that bead alone; at a place near it that part is taken off again and what a
//! line of heat makes of a sheet is put in its place (H. Carslaw and J. Jaeger, Conduction of Heat in Solids,
//! 2nd ed., §10.3, from memory): `ΔT = Q'/(d ρ c √(4πat)) e^(−y²/4at) ½[erf((x − x₁)/√4at) − erf((x − x₂)/√4at)]`,
//! with x along the edge and y from it over the sheets laid flat. As the bead ages the two come together, and it
//! is forgotten. The heat itself is all in the cells throughout.
//!
//! At a corner of a tank less than a full turn of sheet, Θ, is left to take the heat: at the very corner it is
//! warmer by 2π/Θ (Carslaw's wedge, from memory). The third more that three right angles make is added as an
//! image beyond the corner.
//!
//! Radiation goes with the fourth power of temperature, so that a bead loses more than its cells at their means:
//! for some seconds several times as much, by some 4 % of the heat of a stitch on stainless steel of 2 mm.

use super::{Shell, Spot};
use crate::heat::loss::STEFAN_BOLTZMANN;
use core::f64::consts::PI;

/// Beads that are kept apart.
pub(super) const BEADS: usize = 3;
/// 2π/Θ − 1 for three right angles.
const CORNER: f64 = 1.0 / 3.0;
/// A piece of arc that starts no further than this from the last, in m, goes on with its bead.
const APART: f64 = 0.03;
/// A bead is taken as so many pieces, each of its own age.
const PIECES: u8 = 4;
/// Less than this share of a bead's heat in a step is let be.
const GLOW: f64 = 1e-6;

/// A bead laid lately.
#[derive(Clone, Copy, Debug)]
pub(super) struct Bead {
    first: Spot,
    /// Where the last piece lay along the edge, in m.
    last: f64,
    /// When the first and the last piece were laid, in s.
    times: [f64; 2],
    /// Heat of the first and of the last piece, in J.
    ends: [f64; 2],
    /// Of all, in J.
    heat: f64,
}

/// Where and when a bead was laid.
struct Span {
    /// Its ends along the edge, in m.
    from: f64,
    to: f64,
    /// When the arc stood there, in s.
    start: f64,
    end: f64,
}

impl Bead {
    const fn new(spot: Spot, time: f64, heat: f64) -> Self {
        Self {
            first: spot,
            last: spot.at,
            times: [time; 2],
            ends: [heat; 2],
            heat,
        }
    }

    /// Goes on with a piece, if it can be one of this bead.
    fn go_on(&mut self, spot: &Spot, time: f64, step: f64, heat: f64) -> bool {
        let ahead = spot.at - self.last;
        let next = self.first.along(spot).is_some()
            && libm::fabs(ahead) <= APART
            && time - self.times[1] < 1.5 * step
            && ahead * (self.last - self.first.at) >= 0.0;
        if next {
            self.last = spot.at;
            self.times[1] = time;
            self.ends[1] = heat;
            self.heat += heat;
        }
        next
    }

    /// From the middles of its pieces to its ends: the arc goes evenly and gives heat evenly, so that a piece is as
    /// long as its heat goes, the last one less or more than the others; but the first burns through a whole step.
    fn span(&self, step: f64) -> Span {
        let [first, last] = self.ends;
        let between = self.heat - 0.5 * (first + last);
        let pace = if between > 0.0 {
            0.5 * (self.last - self.first.at) / between
        } else {
            0.0
        };
        let start = self.times[0] - 0.5 * step;
        Span {
            from: self.first.at - pace * first,
            to: self.last + pace * last,
            start,
            end: start + step * self.heat / first,
        }
    }

    /// How warm it makes a place at a time, in K, had nothing been lost; nothing where it is not known how far
    /// the two are apart.
    fn at(
        &self,
        spot: &Spot,
        time: f64,
        step: f64,
        diffusivity: f64,
        capacity: f64,
    ) -> Option<f64> {
        let edge = &self.first;
        let [x, y] = edge.offset_to(spot)?;
        let span = self.span(step);
        let (wide, lasted) = (span.to - span.from, span.end - span.start);
        let mut sum = 0.0;
        for n in 0..PIECES {
            let share = (f64::from(n) + 0.5) / f64::from(PIECES);
            let centre = span.from + share * wide;
            let age = time - (span.start + share * lasted);
            let spread = libm::sqrt(4.0 * diffusivity * libm::fmax(age, 0.1));
            let half = libm::fmax(0.5 * libm::fabs(wide) / f64::from(PIECES), 1e-4);
            // Heat for each metre, over the sheet's heat capacity for each square metre.
            let strength = self.heat / f64::from(PIECES) / (2.0 * half * edge.thickness * capacity);
            let line = |x: f64, y: f64| {
                let between = libm::erf((x - centre + half) / spread)
                    - libm::erf((x - centre - half) / spread);
                0.5 * between * libm::exp(-(y * y) / (spread * spread))
            };
            let mut shape = line(x, y);
            if edge.cornered {
                let beyond = libm::hypot(x - edge.whole, y);
                shape += CORNER * (line(-libm::hypot(x, y), 0.0) + line(edge.whole + beyond, 0.0));
            }
            sum += strength / (libm::sqrt(PI) * spread) * shape;
        }
        Some(sum)
    }
}

impl Bead {
    /// What it radiates, in W, beyond what it would if that went with its warmth `T`: of `ε σ ((T₀ + T)⁴ − T₀⁴)`
    /// the terms above the first, over a line of its length and the bell of `T` across it.
    fn glow(
        &self,
        time: f64,
        step: f64,
        shine: f64,
        ambient: f64,
        diffusivity: f64,
        capacity: f64,
    ) -> f64 {
        let span = self.span(step);
        let length = span.to - span.from;
        // While it is laid its heat is as old as a step or two.
        let age = time - 0.5 * (span.start + span.end);
        let wide = libm::sqrt(4.0 * PI * diffusivity * libm::fmax(age, 2.0 * step));
        // It widens past its ends as well.
        let long = libm::hypot(length, wide);
        let lies = self.heat / (long * self.first.thickness * capacity);
        let top = lies / wide;
        // ∫ e^(−n y²/4at) dy = √(4πat/n).
        let sum = 6.0 * ambient * ambient * libm::sqrt(0.5)
            + 4.0 * ambient * top * libm::sqrt(1.0 / 3.0)
            + 0.5 * top * top;
        long * shine * lies * top * sum
    }
}

impl<const C: usize, const L: usize> Shell<C, L> {
    /// Takes from the fresh beads what they radiate by being hotter than their cells.
    pub(super) fn glow(&mut self) {
        let shine = self.emissivity * STEFAN_BOLTZMANN;
        let ambient = self.ambient;
        for (bead, own) in self.beads.iter().zip(&mut self.own) {
            let Some(bead) = bead else { continue };
            // What is in it, in J, and what its cells have lost for it in the same terms, in W.
            let (mut energy, mut seen) = (0.0, 0.0);
            for ((own, yielding), area) in own.iter().zip(&self.yielding).zip(&self.area) {
                let own = f64::from(*own);
                if own > 0.1 && *yielding > 0.0 {
                    energy += own / yielding;
                    let terms = 6.0 * ambient * ambient + own * (4.0 * ambient + own);
                    seen += f64::from(*area) * shine * own * own * terms;
                }
            }
            let whole = bead.glow(
                self.clock,
                self.step,
                shine,
                ambient,
                self.diffusivity,
                self.capacity,
            );
            let more = libm::fmax(whole - seen, 0.0) * self.step;
            let share = more / (energy + more);
            if !(share > GLOW) {
                continue;
            }
            for ((own, yielding), warmth) in
                own.iter_mut().zip(&self.yielding).zip(&mut self.warmth)
            {
                let less = f64::from(*own) * share;
                if *own > 0.1 && *yielding > 0.0 {
                    *own -= less as f32;
                    *warmth -= less;
                    self.lost += less / yielding;
                }
            }
        }
    }

    /// Notes a piece of arc, and what of its heat the grid is given.
    pub(super) fn note(&mut self, spot: &Spot, heat: f64) {
        if !spot.seam {
            return;
        }
        let (time, step) = (self.clock, self.step);
        let going = self.beads.iter_mut().position(|bead| {
            bead.as_mut()
                .is_some_and(|bead| bead.go_on(spot, time, step, heat))
        });
        let place = going.unwrap_or_else(|| {
            // A free place, or that of the oldest.
            let since = |bead: &Option<Bead>| bead.map_or(f64::NEG_INFINITY, |bead| bead.times[1]);
            let mut oldest = 0;
            let mut least = f64::INFINITY;
            for (place, bead) in self.beads.iter().enumerate() {
                if since(bead) < least {
                    least = since(bead);
                    oldest = place;
                }
            }
            if let (Some(slot), Some(own)) = (self.beads.get_mut(oldest), self.own.get_mut(oldest))
            {
                *slot = Some(Bead::new(*spot, time, heat));
                own.clear();
                // As many as there are cells, so it fits.
                let _ = own.resize(self.warmth.len(), 0.0);
            }
            oldest
        });
        if let Some(own) = self.own.get_mut(place) {
            for (cell, share) in spot.takes() {
                if let (Some(own), Some(yielding)) = (own.get_mut(cell), self.yielding.get(cell)) {
                    *own += (heat * share * yielding) as f32;
                }
            }
        }
    }

    /// Forgets beads that the grid shows well enough.
    pub(super) fn forget(&mut self) {
        for bead in &mut self.beads {
            if bead.is_some_and(|bead| self.clock - bead.times[1] > self.fresh) {
                *bead = None;
            }
        }
    }

    /// How warm the metal is at a place on an edge, in K over the surroundings.
    #[must_use]
    pub fn warmth_at(&self, spot: Spot) -> f64 {
        let mut alone = 0.0;
        let mut apart = [None; BEADS];
        let beads = self.beads.iter().zip(&self.own).zip(&mut apart);
        for ((bead, own), slot) in beads {
            let Some(bead) = bead else { continue };
            let Some(whole) = bead.at(
                &spot,
                self.clock,
                self.step,
                self.diffusivity,
                self.capacity,
            ) else {
                continue;
            };
            let left: f64 = own
                .iter()
                .zip(&self.yielding)
                .filter(|(_, yielding)| **yielding > 0.0)
                .map(|(own, yielding)| f64::from(*own) / yielding)
                .sum();
            alone += whole * left / bead.heat;
            *slot = Some(own);
        }
        // The grid's view of all the rest.
        let rest = spot.read(|cell| {
            let own = apart.iter().flatten();
            let beads = own.filter_map(|own| own.get(usize::from(cell)).copied());
            self.warmth(cell) - beads.map(f64::from).sum::<f64>()
        });
        rest + alone
    }
}
