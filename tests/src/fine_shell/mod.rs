//! A whole tank by finite elements: what its sheets are warmed by a weld plan's own stitches, for comparison.
//!
//! Written apart from `core`'s shell, with another method throughout. Each sheet, laid flat without change of length (a
//! drum's wall unrolled, the side of a rounded profile with half of the bend at either hand, a dished end where it is),
//! is cut into triangles of a few millimetres by a Delaunay refinement of the `spade` crate, with nodes along every seam
//! and along every line at which a baffle or a fitting stands. Linear elements with lumped masses (O. Zienkiewicz and
//! R. Taylor, The Finite Element Method, vol. 1, ch. 3 and 17, from memory); nodes of two sheets at a seam are one from
//! the stage of building on by which the seam stands. Time goes in steps of the two-stage, second-order, L-stable
//! diagonally implicit Runge-Kutta method (R. Alexander, SIAM J. Numer. Anal. 14 (1977), p. 1006), solved by conjugate
//! gradients; losses to the air and by radiation after each. The arc is a line of heat that moves along the nodes.
//!
//! What a sheet loses by convection is `core`'s own relation, which other tests hold against its sources; where metal
//! melts and boils is `core`'s table.

// A reference that cannot go on stops its test at once.
#![allow(clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

mod chart;
mod conduct;
pub mod follow;
pub mod table;
mod triangles;

use seamwright_core::body::Edge;
use seamwright_core::heat::loss::{Facing, STEFAN_BOLTZMANN};
use seamwright_core::heat::shell::Material;
use seamwright_core::input::Face;
use seamwright_core::tank::Tank;
use seamwright_core::units::Length;

use self::chart::{Chart, Run};
use self::conduct::Conduction;
use self::triangles::Triangles;

/// An arc along a seam.
#[derive(Clone, Copy, Debug)]
pub struct Weld {
    /// The place of its seam in [`Tank::seams`].
    pub seam: usize,
    /// The stage of building, from 1.
    pub stage: u8,
    /// Where it begins and ends, in m from the seam's first end.
    pub from: f64,
    /// As `from`.
    pub to: f64,
    /// When it is lit, in s.
    pub start: f64,
    /// How long it burns, in s.
    pub burns: f64,
    /// Heat that the metal takes up, in W.
    pub power: f64,
}

/// How warm the metal is along a stitch just before its arc is lit, in K over the surroundings.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Warmth {
    /// Where it starts.
    pub start: f64,
    /// The hottest along it.
    pub most: f64,
}

/// One sheet in triangles.
struct Sheet {
    /// Its first node among all.
    first: usize,
    side: Facing,
    /// Node and outside area, in m², of each of its nodes.
    outside: Vec<(usize, f64)>,
}

/// The nodes of one seam on its two sheets.
struct Line {
    length: f64,
    /// The second is empty where it lies on one sheet alone.
    nodes: [Vec<usize>; 2],
    /// By which stage its sides stand; `None` where they never do.
    joined: Option<u8>,
    /// What each of the two takes of the arc, by its thickness.
    shares: [f64; 2],
}

/// A tank in triangles.
pub struct FineShell {
    sheets: Vec<Sheet>,
    lines: Vec<Option<Line>>,
    /// Heat capacity of each node, in J/K.
    capacity: Vec<f64>,
    /// Entries of the conductance matrix above its diagonal, in W/K.
    links: Vec<(usize, usize, f64)>,
    material: Material,
    ambient: f64,
}

impl core::fmt::Debug for FineShell {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        write!(f, "{} nodes", self.capacity.len())
    }
}

/// A tank's heat so far.
struct State {
    /// Of each node, as warmth in K if metal neither melted nor boiled.
    heat: Vec<f64>,
    put_in: f64,
    lost: f64,
    clock: f64,
}

/// Heat balance at the end, in J.
#[derive(Clone, Copy, Debug)]
pub struct Balance {
    /// What the arcs gave.
    pub put_in: f64,
    /// What is left in the metal.
    pub kept: f64,
    /// What has gone to the air and by radiation.
    pub lost: f64,
}

impl FineShell {
    /// Cuts a tank into triangles of about `width` metres.
    ///
    /// # Panics
    /// Where a sheet cannot be laid flat.
    #[must_use]
    pub fn new(tank: &Tank, width: f64) -> Self {
        let job = tank.job();
        let material = Material::of(job.alloy(), job.temper(), tank.emissivity().si());
        let charts = Chart::all(tank);
        let mut runs: Vec<Vec<Run>> = charts.iter().map(|_| Vec::new()).collect();
        let order = tank.build_order();
        let (mut seams, mut lines) = (Vec::new(), Vec::new());
        for (place, seam) in tank.seams().enumerate() {
            let edge = tank.edge_of_seam(place).expect("an edge");
            let stages = order.of_seam(place);
            let free = !seam.welded && matches!(seam.faces, [_, Face::Baffle(_)]);
            let joined = if free {
                None
            } else {
                Some(stages.map_or(0, |stages| stages.joined))
            };
            seams.push((edge, joined));
        }
        for (edge, _) in &seams {
            lines.push(lay(tank, &charts, edge, width, &mut runs));
        }
        let mut shell = Self {
            sheets: Vec::new(),
            lines: Vec::new(),
            capacity: Vec::new(),
            links: Vec::new(),
            material,
            ambient: job.welding().ambient.si(),
        };
        let mut places: Vec<Vec<Vec<usize>>> = Vec::new();
        for (chart, runs) in charts.iter().zip(&runs) {
            let all = chart.with_rim(runs, width);
            let cut = Triangles::of(chart, &all, width);
            places.push(cut.runs.clone());
            shell.add(chart, &cut);
        }
        for ((edge, joined), on) in seams.iter().zip(lines) {
            let nodes = on.map(|on| {
                on.map(|(sheet, run)| {
                    let first = shell.sheets[sheet].first;
                    places[sheet][run].iter().map(|node| first + node).collect()
                })
            });
            let [Some(a), b] = nodes else {
                shell.lines.push(None);
                continue;
            };
            let thick = on.map(|on| on.map_or(0.0, |(sheet, _)| charts[sheet].thickness));
            let sum = thick[0] + thick[1];
            shell.lines.push(Some(Line {
                length: edge.length().si(),
                nodes: [a, b.unwrap_or_default()],
                joined: *joined,
                shares: thick.map(|thick| thick / sum),
            }));
        }
        shell
    }

    /// How many nodes it has.
    #[must_use]
    pub fn nodes(&self) -> usize {
        self.capacity.len()
    }

    fn add(&mut self, chart: &Chart, cut: &Triangles) {
        let first = self.capacity.len();
        let mut outside = vec![0.0; cut.points.len()];
        self.capacity.resize(first + cut.points.len(), 0.0);
        for triangle in &cut.triangles {
            let [a, b, c] = triangle.map(|node| cut.places[node]);
            let (area, cotangents) = shape([a, b, c]);
            for (n, cotangent) in cotangents.into_iter().enumerate() {
                let (i, j) = (triangle[(n + 1) % 3], triangle[(n + 2) % 3]);
                let conductance = 0.5 * self.material.conductivity * chart.thickness * cotangent;
                self.links.push((first + i, first + j, conductance));
                let third = area / 3.0;
                self.capacity[first + triangle[n]] +=
                    third * chart.thickness * self.material.capacity;
                outside[triangle[n]] += third;
            }
        }
        self.sheets.push(Sheet {
            first,
            side: chart.side,
            outside: if chart.side == Facing::Still {
                Vec::new()
            } else {
                let with = outside.into_iter().enumerate();
                with.filter(|(_, area)| *area > 0.0)
                    .map(|(node, area)| (first + node, area))
                    .collect()
            },
        });
    }

    /// Which node stands for each at a stage of building.
    fn merged(&self, stage: u8) -> Vec<usize> {
        fn root(of: &mut [usize], node: usize) -> usize {
            let mut at = node;
            while of[at] != at {
                of[at] = of[of[at]];
                at = of[at];
            }
            at
        }
        let mut of: Vec<usize> = (0..self.capacity.len()).collect();
        for line in self.lines.iter().flatten() {
            if line.joined.is_some_and(|joined| joined <= stage) {
                for (a, b) in line.nodes[0].iter().zip(&line.nodes[1]) {
                    let (a, b) = (root(&mut of, *a), root(&mut of, *b));
                    of[a.max(b)] = a.min(b);
                }
            }
        }
        (0..of.len()).map(|node| root(&mut of, node)).collect()
    }

    /// Welds one stitch after the other, with the metal's warmth along each before its arc, and the balance at the end.
    ///
    /// # Panics
    /// Where the nodes do not allow it.
    #[must_use]
    pub fn weld(&self, welds: &[Weld], longest: f64) -> (Vec<Warmth>, Balance) {
        let mut state = State {
            heat: vec![0.0; self.capacity.len()],
            put_in: 0.0,
            lost: 0.0,
            clock: 0.0,
        };
        let mut found = Vec::new();
        let mut stage = None;
        let mut conduction = None;
        for weld in welds {
            if let Some(conduction) = &mut conduction {
                self.wait(conduction, &mut state, weld.start, longest);
            }
            if stage != Some(weld.stage) {
                stage = Some(weld.stage);
                conduction = Some(Conduction::new(
                    &self.merged(weld.stage),
                    &self.capacity,
                    &self.links,
                    &mut state.heat,
                ));
            }
            let Some(conduction) = &mut conduction else {
                continue;
            };
            found.push(self.along(weld, &state));
            let count = (weld.burns / (0.5_f64).min(longest)).ceil().max(4.0);
            let step = weld.burns / count;
            for n in 0..count as usize {
                let share = |n: usize| weld.from + (weld.to - weld.from) * n as f64 / count;
                let mut source = vec![0.0; self.capacity.len()];
                self.spread(weld, share(n), share(n + 1), &mut source);
                self.pass(conduction, &mut state, step, Some((&source, weld.power)));
            }
        }
        let kept = self.capacity.iter().zip(&state.heat).map(|(c, t)| c * t);
        let balance = Balance {
            put_in: state.put_in,
            kept: kept.sum(),
            lost: state.lost,
        };
        (found, balance)
    }

    fn wait(&self, conduction: &mut Conduction, state: &mut State, until: f64, longest: f64) {
        let mut step = 0.25_f64.min(longest);
        while until - state.clock > 1e-9 {
            let left = until - state.clock;
            let bit = if left < 1.5 * step { left } else { step };
            self.pass(conduction, state, bit, None);
            step = (1.15 * step).min(longest);
        }
    }

    fn along(&self, weld: &Weld, state: &State) -> Warmth {
        let Some(line) = self.lines.get(weld.seam).and_then(Option::as_ref) else {
            panic!("no line for seam {}", weld.seam);
        };
        let at = |place: f64| {
            let mut sum = 0.0;
            for (nodes, share) in line.nodes.iter().zip(line.shares) {
                if nodes.is_empty() {
                    continue;
                }
                let pieces = nodes.len() - 1;
                let x = (place / line.length * pieces as f64).clamp(0.0, pieces as f64);
                let n = (x.floor() as usize).min(pieces - 1);
                let rest = x - n as f64;
                sum +=
                    share * ((1.0 - rest) * state.heat[nodes[n]] + rest * state.heat[nodes[n + 1]]);
            }
            sum
        };
        let most = (0..=20)
            .map(|n| at(weld.from + (weld.to - weld.from) * f64::from(n) / 20.0))
            .fold(0.0, f64::max);
        Warmth {
            start: at(weld.from),
            most,
        }
    }

    /// Shares of the heat of an arc that goes from one place to another along its line.
    fn spread(&self, weld: &Weld, from: f64, to: f64, source: &mut [f64]) {
        let Some(line) = self.lines.get(weld.seam).and_then(Option::as_ref) else {
            return;
        };
        for (nodes, share) in line.nodes.iter().zip(line.shares) {
            if nodes.is_empty() {
                continue;
            }
            let pieces = nodes.len() - 1;
            let place = |at: f64| (at / line.length * pieces as f64).clamp(0.0, pieces as f64);
            let (low, high) = (place(from.min(to)), place(from.max(to)));
            let whole = (high - low).max(1e-12);
            for n in (low.floor() as usize).min(pieces - 1)..pieces {
                let (a, b) = (low.max(n as f64), high.min(n as f64 + 1.0));
                if b <= a {
                    break;
                }
                let middle = 0.5 * (a + b) - n as f64;
                let part = share * (b - a) / whole;
                source[nodes[n]] += part * (1.0 - middle);
                source[nodes[n + 1]] += part * middle;
            }
        }
    }

    fn pass(
        &self,
        conduction: &mut Conduction,
        state: &mut State,
        step: f64,
        arc: Option<(&[f64], f64)>,
    ) {
        conduction.step(&mut state.heat, step, arc);
        if let Some((source, power)) = arc {
            state.put_in += power * step * source.iter().sum::<f64>();
        }
        // Losses of each node that stands for others, by the sheets that it lies on.
        let mut films = vec![[0.0; 2]; self.capacity.len()];
        for sheet in &self.sheets {
            let (mut sum, mut area) = (0.0, 0.0);
            for (node, own) in &sheet.outside {
                sum += own * state.heat[*node];
                area += own;
            }
            if area > 0.0 {
                let film = sheet.side.film((sum / area).min(256.0), self.ambient);
                for (node, own) in &sheet.outside {
                    let slot = &mut films[conduction.of[*node]];
                    slot[0] += own;
                    slot[1] += own * film;
                }
            }
        }
        for (node, [area, film]) in films.iter().enumerate() {
            let capacity = conduction.capacity[node];
            if *area <= 0.0 || capacity <= 0.0 {
                continue;
            }
            let before = state.heat[node];
            let after = self.cooled(before, area * step / capacity, film / area);
            state.lost += capacity * (before - after);
            state.heat[node] = after;
        }
        conduction.tell(&mut state.heat);
        state.clock += step;
    }

    /// A node's heat after it has lost for a while.
    fn cooled(&self, heat: f64, takes: f64, film: f64) -> f64 {
        let melting = self.material.melting;
        let melts = melting.liquidus - self.ambient;
        let boils = melting.boiling - self.ambient;
        let warmth = |heat: f64| {
            if heat <= melts {
                heat
            } else {
                (heat - melting.fusion).max(melts).min(boils)
            }
        };
        let shine = self.material.emissivity * STEFAN_BOLTZMANN;
        let parts = if heat > 200.0 { 16 } else { 1 };
        let takes = takes / f64::from(parts);
        let mut left = heat;
        for _ in 0..parts {
            let warm = warmth(left);
            let hot = self.ambient + warm;
            let leaves = film * warm + shine * (hot.powi(4) - self.ambient.powi(4));
            let slope = film + 4.0 * shine * hot.powi(3);
            left -= takes * leaves / (1.0 + 0.5 * takes * slope);
        }
        left
    }
}

/// Lays an edge on the sheets of its two faces: which sheet, and which of the sheet's runs.
fn lay(
    tank: &Tank,
    charts: &[Chart],
    edge: &Edge,
    width: f64,
    runs: &mut [Vec<Run>],
) -> [Option<(usize, usize)>; 2] {
    let length = edge.length().si();
    let pieces = (length / width).ceil().max(2.0) as usize;
    let [one, other] = edge.faces;
    let mut on = [None; 2];
    for (slot, (face, far)) in on.iter_mut().zip([(one, false), (other, one == other)]) {
        let Some(sheet) = charts.iter().position(|chart| chart.face == face) else {
            continue;
        };
        let chart = &charts[sheet];
        if far && face != Face::Shell {
            continue;
        }
        let points = (0..=pieces).map(|n| {
            let share = n as f64 / pieces as f64;
            let at = edge.at(Length::from_metres(share * length));
            chart.flat(tank, edge, at, share, far)
        });
        let run = Run::of(points);
        runs[sheet].push(run);
        *slot = Some((sheet, runs[sheet].len() - 1));
    }
    on
}

/// Area of a triangle, and the cotangents of its angles.
fn shape(corners: [[f64; 3]; 3]) -> (f64, [f64; 3]) {
    let less = |a: [f64; 3], b: [f64; 3]| [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
    let dot = |a: [f64; 3], b: [f64; 3]| a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
    let cross = |a: [f64; 3], b: [f64; 3]| {
        let c = [
            a[1] * b[2] - a[2] * b[1],
            a[2] * b[0] - a[0] * b[2],
            a[0] * b[1] - a[1] * b[0],
        ];
        dot(c, c).sqrt()
    };
    let mut cotangents = [0.0; 3];
    let mut twice = 0.0;
    for (n, slot) in cotangents.iter_mut().enumerate() {
        let (a, b, c) = (corners[n], corners[(n + 1) % 3], corners[(n + 2) % 3]);
        let (u, v) = (less(b, a), less(c, a));
        twice = cross(u, v);
        *slot = dot(u, v) / twice;
    }
    (0.5 * twice, cotangents)
}
