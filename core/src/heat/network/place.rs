//! Which cells lie about a place on an edge.

use super::Shell;
use super::grid::Grid;
use super::spot::About;
use crate::body::{Edge, Path};
use crate::quantity::Length;

impl Grid {
    /// The cell beside a place on an edge of this sheet, and how far its middle is from the place, along the
    /// edge and away from it.
    pub(super) fn beside<const C: usize, const L: usize>(
        &self,
        edge: &Edge,
        at: f64,
        far: bool,
        shell: &Shell<C, L>,
    ) -> (u16, [f64; 2]) {
        let (here, ahead) = self.run_at(edge, at, far);
        let square = self.square(here);
        let [low, high] = self.rectangle(square);
        let middle = [0.5 * (low[0] + high[0]), 0.5 * (low[1] + high[1])];
        let from = [middle[0] - here[0], middle[1] - here[1]];
        let away = libm::fabs(from[0] * ahead[1] - from[1] * ahead[0]);
        let along = from[0] * ahead[0] + from[1] * ahead[1];
        let mut cell = self.cell(square);
        if !shell.is_real(cell) {
            cell = self.nearest(here, shell).unwrap_or(cell);
        }
        (cell, [along, away])
    }

    /// The cells about a place on an edge.
    pub(super) fn about<const C: usize, const L: usize>(
        &self,
        edge: &Edge,
        at: f64,
        far: bool,
        shell: &Shell<C, L>,
    ) -> About {
        let (near, [along, _]) = self.beside(edge, at, far, shell);
        let own = [near, self.behind(edge, at, far, shell)];
        let whole = edge.length().si();
        let (here, ahead) = self.run_at(edge, at, far);
        let [low, high] = self.rectangle(self.square(here));
        // How far the edge runs through the square.
        let through = |n: usize| {
            let of = |pair: &[f64; 2]| pair.get(n).copied().unwrap_or_default();
            (of(&high) - of(&low)) / libm::fmax(libm::fabs(of(&ahead)), 1e-6)
        };
        let width = libm::fmin(through(0), through(1));
        let mut about = About {
            cells: [own; 3],
            shares: [1.0, 0.0, 0.0],
        };
        let mut middles = [Some(along), None, None];
        for ((cells, middle), side) in about
            .cells
            .iter_mut()
            .zip(&mut middles)
            .skip(1)
            .zip([-1.0, 1.0])
        {
            // A hair into the next.
            let beyond = along + side * (0.5 * width + 1e-4);
            let mut there = at + beyond;
            if matches!(edge.path, Path::Round(_)) {
                there -= whole * libm::floor(there / whole);
            }
            if there < 0.0 || there > whole {
                continue;
            }
            let (next, [further, _]) = self.beside(edge, there, far, shell);
            if next != near {
                *cells = [next, self.behind(edge, there, far, shell)];
                *middle = Some(beyond + further);
            }
        }
        about.weigh(middles, width);
        about
    }

    /// The cell behind that one, seen from the edge.
    fn behind<const C: usize, const L: usize>(
        &self,
        edge: &Edge,
        at: f64,
        far: bool,
        shell: &Shell<C, L>,
    ) -> u16 {
        let (near, [_, away]) = self.beside(edge, at, far, shell);
        let (here, ahead) = self.run_at(edge, at, far);
        let [low, high] = self.rectangle(self.square(here));
        let middle = [0.5 * (low[0] + high[0]), 0.5 * (low[1] + high[1])];
        let side = (middle[0] - here[0]) * -ahead[1] + (middle[1] - here[1]) * ahead[0];
        let reach = libm::copysign(3.0 * away, side);
        let there = [here[0] - ahead[1] * reach, here[1] + ahead[0] * reach];
        let cell = self.cell(self.square(there));
        if shell.is_real(cell) { cell } else { near }
    }

    /// Where a place on an edge lies on the sheet, and the direction of the edge there.
    pub(super) fn run_at(&self, edge: &Edge, at: f64, far: bool) -> ([f64; 2], [f64; 2]) {
        let whole = edge.length().si();
        let step = 1e-3 * whole;
        let place = |at: f64| self.flat(edge.at(Length::from_metres(at)), far);
        let (from, to) = if at + step <= whole {
            (at, at + step)
        } else {
            (at - step, at)
        };
        let (a, b) = (place(from), place(to));
        let [dx, dy] = [b[0] - a[0], b[1] - a[1]];
        let length = libm::sqrt(dx * dx + dy * dy);
        let ahead = if length > 0.0 {
            [dx / length, dy / length]
        } else {
            [1.0, 0.0]
        };
        (place(at), ahead)
    }

    /// The cell with metal in it that is nearest to a place: where a cut leaves none at the place itself.
    fn nearest<const C: usize, const L: usize>(
        &self,
        at: [f64; 2],
        shell: &Shell<C, L>,
    ) -> Option<u16> {
        let mut best = None;
        let mut least = f64::INFINITY;
        let [across, high] = self.counts;
        for up in 0..high {
            for right in 0..across {
                let cell = self.cell([right, up]);
                if !shell.is_real(cell) {
                    continue;
                }
                let [low, far] = self.rectangle([right, up]);
                let [x, y] = [
                    0.5 * (low[0] + far[0]) - at[0],
                    0.5 * (low[1] + far[1]) - at[1],
                ];
                let square = x * x + y * y;
                if square < least {
                    least = square;
                    best = Some(cell);
                }
            }
        }
        best
    }
}
