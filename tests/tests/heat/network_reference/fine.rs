//! A closed box of thin sheet by finite volumes on one fine even grid, explicit in time: written apart from
//! `core`, with data structures and relations of its own.

use seamwright_core::heat::Melting;

/// What the sheet is made of, SI units.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Metal {
    pub(crate) conductivity: f64,
    pub(crate) capacity: f64,
    pub(crate) emissivity: f64,
    pub(crate) melting: Melting,
}

/// An arc that runs along an edge from one place to another.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Run {
    pub(crate) start: f64,
    pub(crate) lasts: f64,
    pub(crate) power: f64,
    pub(crate) from: [f64; 3],
    pub(crate) to: [f64; 3],
}

impl Run {
    pub(crate) fn place(&self, time: f64) -> [f64; 3] {
        let share = ((time - self.start) / self.lasts).clamp(0.0, 1.0);
        [0, 1, 2].map(|n| self.from[n] + share * (self.to[n] - self.from[n]))
    }
}

#[derive(Clone, Copy, Debug)]
pub(crate) struct Fine {
    pub(crate) size: [f64; 3],
    pub(crate) thickness: f64,
    pub(crate) metal: Metal,
    pub(crate) cell: f64,
    pub(crate) ambient: f64,
}

struct Panel {
    /// Its first cell, its halo included.
    first: usize,
    axis: usize,
    side: usize,
    /// Axes along its rows and across them.
    along: [usize; 2],
    counts: [usize; 2],
}

impl Panel {
    /// The cell at so many cells along x, y and z of the box.
    fn cell(&self, at: [usize; 3]) -> usize {
        let [u, v] = self.along;
        self.first + (at[v] + 1) * (self.counts[0] + 2) + at[u] + 1
    }
}

/// W/(m² K), of a panel at its mean temperature: Churchill and Chu 1975 for upright ones; `McAdams` and Lloyd and
/// Moran for level ones, by area over perimeter. Air by Sutherland's law with constants of F. White, Viscous
/// Fluid Flow (from memory), an ideal gas of 1006.5 J/(kg K).
fn film(axis: usize, side: usize, size: [f64; 3], warmth: f64, ambient: f64) -> f64 {
    let warmth = warmth.max(0.01);
    let t = ambient + warmth / 2.0;
    let law = |at_zero: f64, s: f64| at_zero * (t / 273.15).powf(1.5) * (273.15 + s) / (t + s);
    let density = 101_325.0 / (287.05 * t);
    let viscosity = law(1.716e-5, 110.4) / density;
    let lambda = law(0.024_1, 194.0);
    let diffusivity = lambda / (density * 1006.5);
    let rayleigh = |length: f64| 9.81 / t * warmth * length.powi(3) / (viscosity * diffusivity);
    if axis == 2 {
        let length = size[0] * size[1] / (2.0 * (size[0] + size[1]));
        let ra = rayleigh(length);
        let nu = match side {
            1 if ra < 1e7 => 0.54 * ra.powf(0.25),
            1 => 0.15 * ra.powf(1.0 / 3.0),
            _ => 0.27 * ra.powf(0.25),
        };
        return nu * lambda / length;
    }
    let prandtl = viscosity / diffusivity;
    let below = (1.0 + (0.492 / prandtl).powf(9.0 / 16.0)).powf(8.0 / 27.0);
    let nu = (0.825 + 0.387 * rayleigh(size[2]).powf(1.0 / 6.0) / below).powi(2);
    nu * lambda / size[2]
}

impl Fine {
    fn panels(&self) -> Vec<Panel> {
        let mut first = 0;
        let mut all = Vec::new();
        for axis in 0..3 {
            for side in 0..2 {
                let along = [[1, 2], [0, 2], [0, 1]][axis];
                let counts = along.map(|n| (self.size[n] / self.cell).round() as usize);
                all.push(Panel {
                    first,
                    axis,
                    side,
                    along,
                    counts,
                });
                first += (counts[0] + 2) * (counts[1] + 2);
            }
        }
        all
    }

    /// How warm the metal is where each run starts, just before it, in K; and the heat balance: in, kept, lost.
    pub(crate) fn starts(&self, runs: &[Run]) -> (Vec<f64>, [f64; 3]) {
        self.watched(runs, &[], f64::INFINITY, |_, _| ())
    }

    /// The same; `see` is shown how warm the metal is at some places on its edges, and for how long since it was last
    /// shown, every so many seconds.
    pub(crate) fn watched(
        &self,
        runs: &[Run],
        places: &[[f64; 3]],
        every: f64,
        mut see: impl FnMut(&[f64], f64),
    ) -> (Vec<f64>, [f64; 3]) {
        let panels = self.panels();
        let last = panels.last().unwrap();
        let total = last.first + (last.counts[0] + 2) * (last.counts[1] + 2);
        let whole = self.size.map(|size| (size / self.cell).round() as usize);

        // What a halo cell sees: the cell round the corner.
        let mut seen = Vec::new();
        for panel in &panels {
            let stands = if panel.side == 1 {
                whole[panel.axis] - 1
            } else {
                0
            };
            for place in 0..2 {
                let (across, other) = (panel.along[place], panel.along[1 - place]);
                for side in 0..2 {
                    let round = &panels[2 * across + side];
                    for n in 0..whole[other] {
                        let mut at = [0; 3];
                        at[panel.axis] = stands;
                        at[other] = n;
                        at[across] = if side == 1 { whole[across] - 1 } else { 0 };
                        let own = panel.cell(at);
                        let pitch = if place == 0 { 1 } else { panel.counts[0] + 2 };
                        let halo = if side == 1 { own + pitch } else { own - pitch };
                        seen.push((halo, round.cell(at)));
                    }
                }
            }
        }

        let of_edge = |at: [f64; 3]| self.of_edge(&panels, whole, at);
        let places: Vec<Vec<_>> = places.iter().map(|at| of_edge(*at).collect()).collect();
        let (mut warmth, mut since) = (Vec::new(), 0.0);
        let holds = self.metal.capacity * self.thickness * self.cell * self.cell;
        let mut old = vec![0.0; total];
        let mut new = vec![0.0; total];
        let mut balance = [0.0; 3];
        let mut found = Vec::new();
        let a = self.metal.conductivity / self.metal.capacity;
        for (n, run) in runs.iter().enumerate() {
            let read: f64 = of_edge(run.from)
                .map(|(cell, share)| share * old[cell])
                .sum();
            found.push(read);
            let Some(next) = runs.get(n + 1) else { break };
            let span = next.start - run.start;
            let steps = (span / (0.2 * self.cell * self.cell / a)).ceil();
            let step = span / steps;
            let rate = a * step / (self.cell * self.cell);
            for count in 0..steps as u32 {
                let time = run.start + f64::from(count) * step;
                for (halo, cell) in &seen {
                    old[*halo] = old[*cell];
                }
                for panel in &panels {
                    balance[2] += holds * self.advance(panel, &old, &mut new, rate, step);
                }
                let burns = (run.start + run.lasts - time).clamp(0.0, step);
                if burns > 0.0 {
                    let heat = run.power * burns;
                    balance[0] += heat;
                    for (cell, share) in of_edge(run.place(time + 0.5 * burns)) {
                        new[cell] += share * heat / holds;
                    }
                }
                std::mem::swap(&mut old, &mut new);
                since += step;
                if since >= every {
                    warmth.clear();
                    let read = |at: &Vec<(usize, f64)>| -> f64 {
                        at.iter().map(|(cell, share)| share * old[*cell]).sum()
                    };
                    warmth.extend(places.iter().map(read));
                    see(&warmth, since);
                    since = 0.0;
                }
            }
        }
        for panel in &panels {
            for row in 0..panel.counts[1] {
                let from = panel.first + (row + 1) * (panel.counts[0] + 2) + 1;
                balance[1] += holds * old[from..from + panel.counts[0]].iter().sum::<f64>();
            }
        }
        (found, balance)
    }

    /// How warm metal is with a heat that would make it `heat` kelvin warmer than the air without melting and boiling.
    fn metal_at(&self, heat: f64) -> f64 {
        let Melting {
            liquidus,
            fusion,
            boiling,
        } = self.metal.melting;
        let solid = heat.min(liquidus - self.ambient);
        let liquid = (heat - fusion).min(boiling - self.ambient);
        solid.max(liquid)
    }

    /// One step of a panel; what it lost, in K of one cell.
    fn advance(&self, panel: &Panel, old: &[f64], new: &mut [f64], rate: f64, step: f64) -> f64 {
        let [across, high] = panel.counts;
        let pitch = across + 2;
        let row = |n: usize| panel.first + n * pitch + 1;
        let sum: f64 = (1..=high)
            .map(|n| old[row(n)..row(n) + across].iter().sum::<f64>())
            .sum();
        let mean = sum / (across * high) as f64;
        let film = film(panel.axis, panel.side, self.size, mean, self.ambient);
        let holds = self.metal.capacity * self.thickness;
        let sigma = 5.670_374e-8 * self.metal.emissivity;
        let cold = self.ambient.powi(4);
        let mut lost = 0.0;
        for n in 1..=high {
            let cells = &old[row(n)..row(n) + across];
            let below = &old[row(n - 1)..row(n - 1) + across];
            let above = &old[row(n + 1)..row(n + 1) + across];
            let left = &old[row(n) - 1..row(n) - 1 + across];
            let right = &old[row(n) + 1..row(n) + 1 + across];
            let out = &mut new[row(n)..row(n) + across];
            for (((((out, own), below), above), left), right) in out
                .iter_mut()
                .zip(cells)
                .zip(below)
                .zip(above)
                .zip(left)
                .zip(right)
            {
                let hot = self.metal_at(*own);
                let square = (self.ambient + hot) * (self.ambient + hot);
                let loss = step / holds * (film * hot + sigma * (square * square - cold));
                lost += loss;
                *out = own + rate * (below + above + left + right - 4.0 * own) - loss;
            }
        }
        lost
    }

    /// The cells beside a place on an edge of the box and their shares: both panels, and along the edge the two
    /// middles it lies between.
    fn of_edge(
        &self,
        panels: &[Panel],
        whole: [usize; 3],
        at: [f64; 3],
    ) -> impl Iterator<Item = (usize, f64)> + use<> {
        let end = |n: usize| at[n].abs() < 1e-9 || (at[n] - self.size[n]).abs() < 1e-9;
        // At a corner any of its edges will do.
        let along = (0..3).find(|n| !end(*n)).unwrap_or(0);
        let mut low = [0; 3];
        for n in 0..3 {
            low[n] = if at[n] < 0.5 * self.size[n] {
                0
            } else {
                whole[n] - 1
            };
        }
        let share = at[along] / self.cell - 0.5;
        let place = (share.floor().max(0.0) as usize).min(whole[along] - 2);
        let share = (share - place as f64).clamp(0.0, 1.0);
        let mut found = Vec::new();
        for axis in (0..3).filter(|n| *n != along) {
            let panel = &panels[2 * axis + usize::from(low[axis] > 0)];
            for (step, part) in [(0, 1.0 - share), (1, share)] {
                let mut cell = low;
                cell[along] = place + step;
                found.push((panel.cell(cell), 0.5 * part));
            }
        }
        found.into_iter()
    }
}
