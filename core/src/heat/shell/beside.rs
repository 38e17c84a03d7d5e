//! Which cells lie about a place on an edge.

use super::Shell;
use super::grid::Grid;
use super::spot::CellsAbout;
use crate::body::{Edge, Path};
use crate::units::Length;

/// A place on an edge among the cells of one of its sheets.
struct EdgeOnSheet {
    /// The cell beside it.
    cell: u16,
    square: [u16; 2],
    /// Where the place lies on the sheet laid flat, in m, and the direction of the edge there.
    here: [f64; 2],
    ahead: [f64; 2],
    /// From the place to the middle of the square, in m.
    from: [f64; 2],
}

impl EdgeOnSheet {
    /// How far the middle of its square lies further along the edge than the place, in m.
    fn along(&self) -> f64 {
        self.from[0] * self.ahead[0] + self.from[1] * self.ahead[1]
    }

    /// How far the middle of its square lies away from the edge, in m.
    fn away(&self) -> f64 {
        libm::fabs(self.from[0] * self.ahead[1] - self.from[1] * self.ahead[0])
    }
}

impl Grid {
    fn here<const C: usize, const L: usize>(
        &self,
        edge: &Edge,
        at: f64,
        far: bool,
        shell: &Shell<C, L>,
    ) -> EdgeOnSheet {
        let (here, ahead) = self.run_at(edge, at, far);
        let square = self.square(here);
        let mut cell = self.cell(square);
        if !shell.is_real(cell) {
            cell = self.nearest(here, shell).unwrap_or(cell);
        }
        EdgeOnSheet {
            cell,
            square,
            here,
            ahead,
            from: self.from(square, shell.off(cell), here),
        }
    }

    /// The cell beside a place on an edge of this sheet, `at` metres along the edge, and how far its middle lies away from
    /// the edge, in m. On a drum's wall `far` takes the upper side of the closing seam.
    pub(super) fn beside<const C: usize, const L: usize>(
        &self,
        edge: &Edge,
        at: f64,
        far: bool,
        shell: &Shell<C, L>,
    ) -> (u16, f64) {
        let here = self.here(edge, at, far, shell);
        (here.cell, here.away())
    }

    /// The cells on both sides of a place on an edge that runs within this sheet, by [`beside`](Self::beside)'s terms.
    pub(super) fn astride<const C: usize, const L: usize>(
        &self,
        edge: &Edge,
        at: f64,
        shell: &Shell<C, L>,
    ) -> [(u16, f64); 2] {
        let here = self.here(edge, at, false, shell);
        let (cell, away) = self.across(&here, shell);
        [(here.cell, here.away()), (cell, away)]
    }

    /// The cells about a place on an edge, by [`beside`](Self::beside)'s terms; whether the edge runs within this sheet.
    pub(super) fn about<const C: usize, const L: usize>(
        &self,
        edge: &Edge,
        at: f64,
        (far, within): (bool, bool),
        shell: &Shell<C, L>,
    ) -> CellsAbout {
        let near = self.here(edge, at, far, shell);
        let along = near.along() / self.stretch();
        let second = |here: &EdgeOnSheet| {
            if within {
                self.across(here, shell).0
            } else {
                self.behind(here, shell)
            }
        };
        let own = [near.cell, second(&near)];
        let whole = edge.length().si();
        let [one, other] = self.spans(near.square, near.here, near.ahead);
        let width = libm::fmin(one, other) / self.stretch();
        let mut about = CellsAbout {
            cells: [own; 3],
            shares: [1.0, 0.0, 0.0],
            second: if within {
                let (own, other) = (near.away(), self.across(&near, shell).1);
                (own / libm::fmax(own + other, 1e-9)) as f32
            } else {
                -1.0 / 6.0
            },
            keeps: 1.0,
            on: false,
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
            let next = self.here(edge, there, far, shell);
            if next.cell != near.cell {
                *cells = [next.cell, second(&next)];
                *middle = Some(beyond + next.along() / self.stretch());
            }
        }
        about.weigh(middles, width);
        about
    }

    /// The cell behind the one at a place, seen from the edge.
    fn behind<const C: usize, const L: usize>(&self, at: &EdgeOnSheet, shell: &Shell<C, L>) -> u16 {
        let EdgeOnSheet {
            here, ahead, from, ..
        } = at;
        let side = from[0] * -ahead[1] + from[1] * ahead[0];
        let reach = libm::copysign(3.0 * at.away(), side);
        let there = [here[0] - ahead[1] * reach, here[1] + ahead[0] * reach];
        let cell = self.cell(self.square(there));
        if shell.is_real(cell) { cell } else { at.cell }
    }

    /// The cell across the edge from the one at a place, and how far its middle lies away from the edge, in m.
    fn across<const C: usize, const L: usize>(
        &self,
        at: &EdgeOnSheet,
        shell: &Shell<C, L>,
    ) -> (u16, f64) {
        let EdgeOnSheet {
            here, ahead, from, ..
        } = at;
        let normal = [-ahead[1], ahead[0]];
        let side = from[0] * normal[0] + from[1] * normal[1];
        let [one, other] = self.spans(at.square, *here, normal);
        // Half the width of the square across the edge; the next begins so much beyond the line.
        let half = 0.5 * libm::fmin(one, other);
        let reach = -libm::copysign(half - libm::fabs(side) + 1e-4, side);
        let there = [here[0] + normal[0] * reach, here[1] + normal[1] * reach];
        let square = self.square(there);
        let cell = self.cell(square);
        if !shell.is_real(cell) || cell == at.cell {
            return (at.cell, at.away());
        }
        let [x, y] = self.from(square, shell.off(cell), *here);
        (cell, libm::fabs(x * normal[0] + y * normal[1]))
    }

    /// Where a place on an edge lies on the sheet laid flat, in m, and the direction of the edge there.
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

    /// The cell with metal in it that lies nearest to a place, in m on the sheet laid flat: for a square that a cut leaves
    /// without metal.
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
