//! The tank as a conducting shell: cells across its sheets, joined along its seams, losing heat outside.
//!
//! Each sheet, laid flat, is divided by a grid; a cell is what of a square lies on the sheet. Heat is
//! conducted between neighbours, `G = λ d w / s` for sheet `d`, common side `w` and distance `s` between
//! centroids, and across every edge of the tank whose two sides stand by then ([`Shell::stand_at`]) from sheet to sheet:
//! those are taken as closed, which tacked ones nearly are not. The outside of a wall loses heat to still air ([`loss`](super::loss)); its
//! inside and a baffle lose none. Properties of the metal are those at room temperature, all through.
//!
//! Time goes in equal steps. In a step the two cells of every link even out as they would alone,
//! `ΔE = (1 − e^(−t G (1/A + 1/B))) AB/(A + B) (T_a − T_b)` with heat capacities A and B, in the order
//! of the links and then back: splitting after G. Strang, SIAM J. Numer. Anal. 5 (1968), p. 506, of second
//! order in the step and, unlike an explicit scheme, stable with cells of any smallness, as cuts leave
//! them.
//!
//! What is done to every cell and link in a step is done in whole numbers (`whole`), of which a chip without floating point
//! does some dozens in the time of one double: temperatures in 1/16,384 K, what a link gives as a share of the difference,
//! what a sheet radiates as a cubic in its warmth (`rates`). Each exchange rounds to a part on both sides, evenly up and
//! down, so that energy is kept to 1e-6 or so, and where heat warms a tank by a kelvin or two all through to 1e-4; no
//! rounding makes a cell colder for more heat. What would warm a sliver of a cell past 65,535 K goes to the cells beside it.
//!
//! Beside a stitch laid a minute ago temperature changes within less than a cell, in stainless steel above all:
//! [`Shell::warmth_at`] puts a closed form in the place of what the grid makes of the last few beads, which also
//! lose what they radiate by being hotter than their cells' means (`bead`, `beads`). The heat of an arc is shared
//! between the two squares along the edge whose middles it lies between, so that its centre is where it was put.
//!
//! Where heat crosses an edge to and fro, squares out of line on its two sides would spread it along the edge: ends and discs
//! of drums are divided into rings, and into sectors that are in line with the squares of the wall (`disc`). On a line within
//! a sheet, of a baffle or where a wrapper closes, heat goes to the squares on both sides of it, and is read from both.
//!
//! How near that comes, by the `tests` crate's finite elements, on 24 tanks of all kinds in aluminium, stainless and plain
//! steel, at 1,048 starts of stitches at which the metal was more than 5 K over the air: with 1,000 cells half within 0.6 %
//! of the rise, 95 of 100 within 5 %, the worst 20 % off (2 K of 9); with a gauge's 224 half within 1.5 %, 95 of 100 within
//! 12 %, and one of 40 over 15 %, nearly all on stainless steel, where a square is wider than the heat of a minute spreads.

mod bead;
mod beads;
mod beside;
mod build;
mod clip;
mod corner;
mod disc;
mod films;
mod flat;
mod grid;
mod hot;
mod lose;
mod mesh;
mod rates;
mod spot;
mod step;
#[cfg(test)]
mod tests;
mod whole;

pub use beads::Leaving;
pub use build::Building;
pub use mesh::{Fineness, Mesh, MeshError, NEVER, ShellInput};
pub use spot::Spot;

use heapless::Vec;

use self::bead::Bead;
use self::beads::{BEADS, GROUPS};
use self::films::Films;
use self::hot::Hot;
use self::rates::{Rates, Takes};
use self::whole::kelvin;
use super::loss::Facing;
use super::melting::Melting;
use crate::build::MAX_STAGES;
use crate::input::limits::{MAX_BAFFLES, MAX_FACES};
use crate::tables::{Alloy, Temper};

/// Sheets that a tank may have: its walls and its baffles.
pub const MAX_SHEETS: usize = MAX_FACES + MAX_BAFFLES;

/// What the sheets are made of.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Material {
    /// Thermal conductivity, in W/(m K).
    pub conductivity: f64,
    /// Heat capacity by volume, in J/(m³ K): density times specific heat.
    pub capacity: f64,
    /// Emissivity of the outside for heat radiation, 0 to 1.
    pub emissivity: f64,
    /// How it melts and boils.
    pub melting: Melting,
}

impl Material {
    /// An alloy in a temper, with the emissivity of its outside: 0 to 1.
    #[must_use]
    pub fn of(alloy: Alloy, temper: Option<Temper>, emissivity: f64) -> Self {
        let metal = alloy.metal();
        let heat_capacity = metal.heat_capacity().value;
        Self {
            conductivity: alloy.conductivity(temper).value,
            capacity: alloy.density().si() * heat_capacity,
            emissivity,
            melting: Melting::of(alloy.family(), metal.liquidus().value.si(), heat_capacity),
        }
    }

    /// Diffusivity, in m²/s.
    #[must_use]
    pub fn diffusivity(&self) -> f64 {
        self.conductivity / self.capacity
    }
}

/// Fixed-point scale of how far metal lies off the middle of its square (1/254).
const OFF: f64 = 254.0;

/// Two cells between which heat is conducted.
#[derive(Clone, Copy, Debug)]
struct Link {
    cells: [u16; 2],
    /// What each of the two gives or gets in half a step, as a share of the difference of their temperatures, in parts of
    /// 2³¹. While the mesh is made the first holds the bits of the conductance between the two, an `f32` in W/K.
    gives: [i32; 2],
}

/// A sheet as it loses heat.
#[derive(Clone, Copy, Debug)]
struct Sheet {
    /// How it stands in the air.
    side: Facing,
    /// Its first cell and the one after its last.
    cells: [u16; 2],
    /// Its mean temperature at the last step, in parts of a kelvin over the air.
    mean: i32,
    /// Heat transfer by convection.
    films: Films,
    /// What a W/m² takes from it in a step.
    takes: Takes,
    /// Its outside for its heat capacity, in m² K/J.
    bare: f64,
    /// 1 / the sum of its cells' weights.
    even: f64,
}

/// The state of a shell of up to `C` cells with up to `L` links between them: some 30 bytes a cell and 12
/// a link. Temperatures are kept over the surroundings.
#[derive(Debug)]
pub struct Shell<const C: usize, const L: usize> {
    /// Temperature of each cell, in [`PARTS`](whole::PARTS) of a kelvin over the surroundings, 0 to [`MOST`](whole::MOST).
    warmth: Vec<i32, C>,
    /// 1 / heat capacity of each cell, in K/J; zero for a cell of which nothing lies on the sheet.
    inverse_capacity: Vec<f64, C>,
    /// Heat capacity of each cell, in parts of 2³² of that of the whole.
    weight: Vec<u32, C>,
    /// From the middle of each cell's square to that of the metal in it, to the right and up, in parts of [`OFF`] of the
    /// square's width.
    off: Vec<[i8; 2], C>,
    /// Between neighbours on a sheet first, then across edges in the order of the stages in which they are joined.
    links: Vec<Link, L>,
    /// How many links there are by the end of each stage.
    by_stage: [u16; MAX_STAGES + 1],
    /// How many of them conduct now.
    closed: usize,
    sheets: Vec<Sheet, MAX_SHEETS>,
    /// Temperature of the surroundings, in K.
    ambient: f64,
    /// Emissivity of the outside, 0 to 1.
    emissivity: f64,
    /// Where the metal melts and boils.
    hot: Hot,
    /// What it radiates.
    rates: Rates,
    /// Length of a step, in s.
    step: f64,
    /// Heat put in so far, in J.
    heated: f64,
    /// Heat lost so far, in J. Not counted when [`Fineness::beads`] is false; stays 0.
    lost: f64,
    /// Heat put in for which there was no room in any cell yet, in J, and the cell that it waits at.
    waiting: f64,
    waits_at: u16,
    /// From where shares are rounded up ([`turned`](whole::turned)).
    turn: u32,
    /// Energy of one part of a kelvin in a cell of weight one, in J.
    unit: f64,
    /// Time since everything was cold, in s.
    clock: f64,
    /// Mean width of the squares, in m.
    square: f64,
    /// Mean age at which the beads of a group are forgotten, in s.
    bead_age_limit: f64,
    /// Whether steps are long and beads not tracked.
    rough: bool,
    /// Whether the next rough step sweeps over the links from the last to the first.
    back: bool,
    /// Diffusivity of the metal, in m²/s.
    diffusivity: f64,
    /// Heat capacity of the metal by volume, in J/(m³ K).
    capacity: f64,
    /// The beads that are tracked.
    beads: Vec<Bead, BEADS>,
    /// Temperature that each group of beads alone makes in each cell, as those are.
    group_warmth: [Vec<i32, C>; GROUPS],
}

impl<const C: usize, const L: usize> Default for Shell<C, L> {
    fn default() -> Self {
        Self::new()
    }
}

impl<const C: usize, const L: usize> Shell<C, L> {
    /// Nothing yet; a place for [`Mesh::build`] to write to.
    #[must_use]
    pub const fn new() -> Self {
        Self {
            warmth: Vec::new(),
            inverse_capacity: Vec::new(),
            weight: Vec::new(),
            off: Vec::new(),
            links: Vec::new(),
            by_stage: [0; MAX_STAGES + 1],
            closed: 0,
            sheets: Vec::new(),
            ambient: 0.0,
            emissivity: 0.0,
            hot: Hot::NONE,
            rates: Rates::NONE,
            step: 0.0,
            heated: 0.0,
            lost: 0.0,
            waiting: 0.0,
            waits_at: 0,
            turn: 0,
            unit: 0.0,
            clock: 0.0,
            square: 0.0,
            bead_age_limit: 0.0,
            rough: false,
            back: false,
            diffusivity: 0.0,
            capacity: 0.0,
            beads: Vec::new(),
            group_warmth: [const { Vec::new() }; GROUPS],
        }
    }

    /// Cools everything to the surroundings.
    pub fn rest(&mut self) {
        self.warmth.fill(0);
        self.heated = 0.0;
        self.lost = 0.0;
        self.waiting = 0.0;
        self.turn = 0;
        self.clock = 0.0;
        self.back = false;
        self.beads.clear();
        for sheet in &mut self.sheets {
            sheet.mean = 0;
        }
    }

    /// Length of a step, in s.
    #[must_use]
    pub const fn step_length(&self) -> f64 {
        self.step
    }

    /// How many cells there are, those off the sheet included.
    #[must_use]
    pub fn cells(&self) -> usize {
        self.warmth.len()
    }

    /// How many links there are.
    #[must_use]
    pub fn links(&self) -> usize {
        self.links.len()
    }

    /// Has heat cross only the edges that are joined by a stage of building: what is put on later does not touch yet.
    pub fn stand_at(&mut self, stage: u8) {
        let all = self.links.len();
        let by_then = self.by_stage.get(usize::from(stage));
        self.closed = by_then.map_or(all, |count| usize::from(*count));
    }

    /// Heat capacity of the whole, in J/K.
    #[must_use]
    pub fn capacity(&self) -> f64 {
        let real = self
            .inverse_capacity
            .iter()
            .filter(|inverse_capacity| **inverse_capacity > 0.0);
        real.map(|inverse_capacity| 1.0 / inverse_capacity).sum()
    }

    /// Energy in it over that at the temperature of the surroundings, in J.
    #[must_use]
    pub fn energy(&self) -> f64 {
        let cells = self.warmth.iter().zip(&self.inverse_capacity);
        let kept: f64 = cells
            .filter(|(warmth, inverse_capacity)| **warmth != 0 && **inverse_capacity > 0.0)
            .map(|(warmth, inverse_capacity)| kelvin(*warmth) / inverse_capacity)
            .sum();
        kept + self.waiting
    }

    /// Heat put in so far, in J.
    #[must_use]
    pub const fn heated(&self) -> f64 {
        self.heated
    }

    /// Heat lost so far, in J. Not counted when [`Fineness::beads`] is false; stays 0.
    #[must_use]
    pub const fn lost(&self) -> f64 {
        self.lost
    }

    /// The warmest cell, in K over the surroundings.
    #[must_use]
    pub fn warmest(&self) -> f64 {
        kelvin(self.warmth.iter().copied().fold(0, i32::max))
    }

    /// How warm a cell is over the surroundings, in K; zero where there is none.
    #[must_use]
    pub fn warmth(&self, cell: u16) -> f64 {
        let parts = self.warmth.get(usize::from(cell)).copied();
        kelvin(parts.unwrap_or_default())
    }
}
