//! Heat lost from the outside of a sheet: natural convection in still air, and radiation.

use crate::geom::Vector;

/// Stefan-Boltzmann constant, W/(m² K⁴): CODATA 2018, exact.
pub const STEFAN_BOLTZMANN: f64 = 5.670_374_419e-8;
/// Standard gravity, m/s²: exact by definition.
const GRAVITY: f64 = 9.806_65;

/// Dry air at 1 atm: temperature (K), conductivity (W/(m K)), kinematic viscosity and diffusivity (m²/s):
/// F. Incropera and D. `DeWitt`, Fundamentals of Heat and Mass Transfer, table A.4 (as several public sources
/// quote it; the book itself not read).
const AIR: [(f64, [f64; 3]); 9] = [
    (250.0, [0.0223, 11.44e-6, 15.9e-6]),
    (300.0, [0.0263, 15.89e-6, 22.5e-6]),
    (350.0, [0.0300, 20.92e-6, 29.9e-6]),
    (400.0, [0.0338, 26.41e-6, 38.3e-6]),
    (450.0, [0.0373, 32.39e-6, 47.2e-6]),
    (500.0, [0.0407, 38.79e-6, 56.7e-6]),
    (600.0, [0.0469, 52.69e-6, 76.9e-6]),
    (700.0, [0.0524, 68.10e-6, 98.0e-6]),
    (800.0, [0.0573, 84.93e-6, 120.0e-6]),
];

/// Air at a film temperature.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Air {
    /// In W/(m K).
    pub conductivity: f64,
    /// Kinematic viscosity, in m²/s.
    pub viscosity: f64,
    /// Thermal diffusivity, in m²/s.
    pub diffusivity: f64,
    /// Volume expansion, in 1/K: of an ideal gas.
    pub expansion: f64,
}

impl Air {
    /// At a temperature in K, by straight lines through the table from 250 to 800 K; beyond them the outermost
    /// line goes on.
    #[must_use]
    pub fn at(film: f64) -> Self {
        let mut lines = AIR.iter().zip(AIR.iter().skip(1));
        let last = AIR.len() - 2;
        let line = (0..last)
            .zip(lines.by_ref())
            .find(|(_, (_, to))| film <= to.0)
            .map(|(_, line)| line)
            .or_else(|| lines.next());
        let [conductivity, viscosity, diffusivity] = match line {
            Some(((t0, low), (t1, high))) => {
                let share = (film - t0) / (t1 - t0);
                core::array::from_fn(|n| {
                    let of = |row: &[f64; 3]| row.get(n).copied().unwrap_or_default();
                    of(low) + share * (of(high) - of(low))
                })
            }
            None => [0.0; 3],
        };
        Self {
            conductivity,
            viscosity,
            diffusivity,
            expansion: 1.0 / film,
        }
    }

    /// Rayleigh number for a size in m and a difference of temperature in K.
    #[must_use]
    pub fn rayleigh(&self, size: f64, warmth: f64) -> f64 {
        GRAVITY * self.expansion * warmth * size * size * size / (self.viscosity * self.diffusivity)
    }

    /// Prandtl number.
    #[must_use]
    pub fn prandtl(&self) -> f64 {
        self.viscosity / self.diffusivity
    }
}

/// Nusselt number of a vertical plate in still air, by its height; any Rayleigh number: S. Churchill and
/// H. Chu, Int. J. Heat Mass Transfer 18 (1975), p. 1323, eq. 9:
/// `{0.825 + 0.387 Ra^(1/6) / [1 + (0.492/Pr)^(9/16)]^(8/27)}²`.
#[must_use]
pub fn vertical_nusselt(rayleigh: f64, prandtl: f64) -> f64 {
    let beside = libm::pow(1.0 + libm::pow(0.492 / prandtl, 9.0 / 16.0), 8.0 / 27.0);
    let root = 0.825 + 0.387 * libm::pow(libm::fmax(rayleigh, 0.0), 1.0 / 6.0) / beside;
    root * root
}

/// Nusselt number of a warm plate that faces up, by area over perimeter: J. Lloyd and W. Moran (1974),
/// `0.54 Ra^(1/4)` up to 1e7 and `0.15 Ra^(1/3)` above, where it jumps by 8 %; and at least that of still air
/// over a disc.
#[must_use]
pub fn upward_nusselt(rayleigh: f64) -> f64 {
    let nusselt = if rayleigh <= 1e7 {
        0.54 * libm::sqrt(libm::sqrt(libm::fmax(rayleigh, 0.0)))
    } else {
        0.15 * libm::cbrt(rayleigh)
    };
    libm::fmax(LEAST_NUSSELT, nusselt)
}

/// Nusselt number of a warm plate that faces down, by area over perimeter: `0.27 Ra^(1/4)` (W. `McAdams`, Heat
/// Transmission, 3rd ed. 1954, p. 180), and at least that of still air.
#[must_use]
pub fn downward_nusselt(rayleigh: f64) -> f64 {
    let root = libm::sqrt(libm::sqrt(libm::fmax(rayleigh, 0.0)));
    libm::fmax(LEAST_NUSSELT, 0.27 * root)
}

/// Conduction alone from one side of a disc into the half space: `4 r λ ΔT` over its area `π r²`, with the size
/// `r/2`: `Nu = 2/π` (M. Yovanovich, from memory).
const LEAST_NUSSELT: f64 = 2.0 / core::f64::consts::PI;

/// How a sheet stands in the air.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Facing {
    /// No loss: the inside of the tank.
    Still,
    /// A heat transfer that is known, in W/(m² K), whatever the temperature.
    Known(f64),
    /// Upright, or steeper than 60° from level: its height in m.
    Upright(f64),
    /// Facing up: area over perimeter, in m.
    Up(f64),
    /// Facing down: area over perimeter, in m.
    Down(f64),
}

impl Facing {
    /// A wall with this outward normal, height, area and perimeter. Walls that lean more than 60° from
    /// level count as upright, all others as level: which relation holds between, no source read gives.
    #[must_use]
    pub fn of(normal: Vector, height: f64, area: f64, perimeter: f64) -> Self {
        // The cosine of 60°.
        if libm::fabs(normal.z) < 0.5 {
            Self::Upright(height)
        } else if normal.z > 0.0 {
            Self::Up(area / perimeter)
        } else {
            Self::Down(area / perimeter)
        }
    }

    /// Heat transfer by convection, in W/(m² K), from a sheet so many kelvin warmer than air of `ambient`
    /// kelvin. A sheet that is no warmer than the air gives what 0.01 K would.
    #[must_use]
    pub fn film(self, warmth: f64, ambient: f64) -> f64 {
        let warmth = libm::fmax(warmth, 0.01);
        let air = Air::at(ambient + 0.5 * warmth);
        let (size, nusselt) = match self {
            Self::Still => return 0.0,
            Self::Known(film) => return film,
            Self::Upright(size) => (
                size,
                vertical_nusselt(air.rayleigh(size, warmth), air.prandtl()),
            ),
            Self::Up(size) => (size, upward_nusselt(air.rayleigh(size, warmth))),
            Self::Down(size) => (size, downward_nusselt(air.rayleigh(size, warmth))),
        };
        nusselt * air.conductivity / size
    }
}

/// Heat transfer by radiation to surroundings of `ambient` kelvin, in W/(m² K), from a grey sheet so many
/// kelvin warmer: `ε σ (T² + T₀²)(T + T₀)`.
#[must_use]
pub fn radiation(emissivity: f64, warmth: f64, ambient: f64) -> f64 {
    let hot = ambient + warmth;
    emissivity * STEFAN_BOLTZMANN * (hot * hot + ambient * ambient) * (hot + ambient)
}
