//! Discs and dished ends in rings and sectors.

use core::f64::consts::FRAC_PI_2;

use super::grid::{Grid, Unrolled};
use super::{Material, Shell};
use crate::body::turned::Turned;

/// Pieces of a meridian.
const PIECES: usize = 48;

/// A dished end from its pole to its rim: at each point the distance from the pole along the sheet and that from the
/// axis, in m.
pub(super) struct Meridian([[f64; 2]; PIECES + 1]);

impl Meridian {
    /// That of the first or the second end of a drum.
    pub(super) fn of(turned: &Turned, end: usize) -> Self {
        let depth = turned.head_depth(end);
        let mut points = [[0.0; 2]; PIECES + 1];
        let mut before = [0.0, depth];
        let mut along = 0.0;
        for (n, point) in (0_u32..).zip(&mut points) {
            let share = f64::from(n) / PIECES as f64;
            // Points lie closer to one another towards the rim, where a dish is bent most.
            let out = depth * libm::cos(FRAC_PI_2 * share);
            let radius = if depth > 0.0 && n > 0 {
                turned.head_radius_at(end, out)
            } else {
                turned.radius() * share
            };
            if n > 0 {
                along += libm::hypot(radius - before[0], out - before[1]);
            }
            before = [radius, out];
            *point = [along, radius];
        }
        Self(points)
    }

    /// That of a flat disc.
    fn flat(radius: f64) -> Self {
        let point = |n: usize| radius * n as f64 / PIECES as f64;
        Self(core::array::from_fn(|n| [point(n), point(n)]))
    }

    /// From the pole to the rim along the sheet, in m.
    pub(super) fn length(&self) -> f64 {
        let [.., [length, _]] = self.0;
        length
    }

    /// Distance from the axis at a distance from the pole, in m.
    fn radius(&self, along: f64) -> f64 {
        let mut pairs = self.0.iter().zip(self.0.iter().skip(1));
        let [.., [_, rim]] = self.0;
        pairs
            .find(|(_, to)| to[0] >= along)
            .map_or(rim, |(from, to)| {
                let share = (along - from[0]) / libm::fmax(to[0] - from[0], 1e-12);
                from[1] + share * (to[1] - from[1])
            })
    }

    /// Mean of a function of the distance from the axis over a stretch of the meridian.
    fn mean(&self, from: f64, to: f64, of: impl Fn(f64) -> f64) -> f64 {
        const PARTS: u8 = 16;
        let at = |n: u8| from + (to - from) * (f64::from(n) + 0.5) / f64::from(PARTS);
        (0..PARTS).map(|n| of(self.radius(at(n)))).sum::<f64>() / f64::from(PARTS)
    }
}

/// Adds the cells of a disc to a shell, with the links between them; `None` where there is no room.
///
/// With r the distance from the axis and s that from the pole along the sheet, a ring's sector of the angle φ has the area
/// `φ ∫ r ds`, the conductance to the next ring `λ d φ / ∫ ds/r` from middle to middle, and that round the ring `λ d ∫ ds/r / φ`
/// from rim to rim.
pub(super) fn divide_disc<const C: usize, const L: usize>(
    (material, turned): (&Material, Option<&Turned>),
    grid: &Grid,
    shell: &mut Shell<C, L>,
) -> Option<()> {
    let [rings, sectors] = grid.counts;
    let conductance = material.conductivity * grid.thickness;
    let meridian = match (turned, &grid.unrolled) {
        (Some(turned), Unrolled::End { second, .. }) => Meridian::of(turned, usize::from(*second)),
        _ => Meridian::flat(0.5 * grid.size[0]),
    };
    for sector in 0..sectors {
        let mut within: Option<f64> = None;
        for ring in 0..rings {
            let [[low, from], [high, to]] = grid.rectangle([ring, sector]);
            let (turn, middle, wide) = (to - from, 0.5 * (low + high), high - low);
            let area = turn * wide * meridian.mean(low, high, |radius| radius);
            let cell = grid.cell([ring, sector]);
            let capacity = material.capacity * area * grid.thickness;
            shell.add_cell(capacity, [0.0; 2])?;
            let over = |from: f64, to: f64| {
                (to - from) * meridian.mean(from, to, |radius| 1.0 / libm::fmax(radius, 1e-6))
            };
            if let Some(within) = within {
                let lead = conductance * turn / over(within, middle);
                shell.add_link([cell.wrapping_sub(1), cell], lead)?;
            }
            within = Some(middle);
            let lead = conductance * over(low, high) / turn;
            if sector > 0 {
                shell.add_link([grid.cell([ring, sector - 1]), cell], lead)?;
            }
            if sector > 1 && sector + 1 == sectors {
                shell.add_link([cell, grid.cell([ring, 0])], lead)?;
            }
        }
    }
    Some(())
}
