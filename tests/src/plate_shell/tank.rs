//! A tank's walls under pressure.

use seamwright_core::geom::Vector;
use seamwright_core::tank::Tank;
use seamwright_core::units::constant::GRAVITY;

use super::sparse::SIX;
use super::{Elastic, Found, Movement, PlateShell, sheets};

/// Density of water, in kg/m³.
pub const WATER: f64 = 1000.0;

/// A wall whose normal is within 55° of straight down carries the tank on its rim.
const LOOKS_DOWN: f64 = 0.5736;

/// What presses on the walls from inside.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Load {
    /// 1 kPa everywhere.
    Even,
    /// Water up to the highest inside point, the tank upright.
    Water,
}

impl Load {
    /// Both.
    pub const ALL: [Self; 2] = [Self::Even, Self::Water];

    /// Its word in a table.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Even => "even",
            Self::Water => "water",
        }
    }
}

/// The shell of a tank in about `nodes` nodes.
#[must_use]
pub fn shell(tank: &Tank, nodes: f64) -> PlateShell {
    shell_drawn(tank, nodes, 0.0)
}

/// As `shell`, with triangles drawn to the edges as [`PlateShell::drawn`] has it.
#[must_use]
pub fn shell_drawn(tank: &Tank, nodes: f64, drawn: f64) -> PlateShell {
    let sheets = sheets(tank);
    let area: f64 = sheets
        .iter()
        .map(|sheet| {
            let mut twice = Vector::ZERO;
            for (n, at) in sheet.outline.iter().enumerate() {
                twice = twice + at.cross(sheet.outline[(n + 1) % sheet.outline.len()]);
            }
            0.5 * twice.length()
        })
        .sum();
    let metal = tank.job().alloy().metal();
    let metal = Elastic {
        modulus: metal.modulus().value,
        poisson: metal.poisson().value,
    };
    PlateShell::drawn(sheets, metal, (area / nodes).sqrt(), drawn)
}

/// What every sheet of a tank's shell bears under a load. Under even pressure, which needs no hand, one corner is held
/// in all six freedoms. Full of water it stands on the rims of every wall that looks down within 55° of straight down,
/// which stay at their height; one corner of them is held against sliding and turning.
///
/// # Panics
/// Where the tank has no wall that looks down.
#[must_use]
pub fn bear(tank: &Tank, shell: &PlateShell, load: Load, clear: f64) -> Vec<Found> {
    let (forces, held) = loaded(tank, shell, load);
    shell.found(&shell.moved(&forces, &held), clear)
}

/// Forces of a load and what is held under it.
pub(super) fn loaded(
    tank: &Tank,
    shell: &PlateShell,
    load: Load,
) -> (Vec<Movement>, Vec<[bool; SIX]>) {
    let mut held = vec![[false; SIX]; shell.nodes()];
    match load {
        Load::Even => {
            held[0] = [true; SIX];
            (shell.pressed(|_| 1000.0), held)
        }
        Load::Water => {
            let up = Vector::new(0.0, 0.0, 1.0);
            let (_, brim) = tank.body().inside.extent(up);
            let stands = shell.rims(|sheet| sheet.pressed && sheet.normal.z < -LOOKS_DOWN);
            for node in &stands {
                held[*node][2] = true;
            }
            held[stands[0]] = [true, true, true, false, false, true];
            let forces = shell.pressed(|at| WATER * GRAVITY * (brim - at.z).max(0.0));
            (forces, held)
        }
    }
}
