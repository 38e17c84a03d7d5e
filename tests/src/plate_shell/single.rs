//! A rectangular plate by itself under even pressure, deflecting by several thicknesses.

use seamwright_core::geom::Vector;
use seamwright_core::input::Face;

use super::large::{Large, work};
use super::sparse::SIX;
use super::{Deflections, Elastic, Found, Movement, PlateShell, Sheet};

/// Thickness, in m. Figures without units do not hang on it.
pub const THICK: f64 = 0.001;
/// The shorter side, in m.
pub const SHORT: f64 = 0.2;

/// By what share triangles are narrower at the edges: what is held bends in a narrow strip there once it is stretched.
pub const DRAWN: f64 = 0.75;

/// What an edge does in the plate's plane.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum InPlane {
    /// It stays where it is.
    Fixed,
    /// It slides along itself.
    Slides,
    /// It moves as it likes: neither pull nor shear on it.
    Free,
}

impl InPlane {
    /// Its word in a table.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Fixed => "fixed",
            Self::Slides => "slides",
            Self::Free => "free",
        }
    }
}

/// A plate's edges, all four alike.
#[derive(Clone, Copy, Debug)]
pub struct Edges {
    /// Whether they turn freely or not at all.
    pub turn: bool,
    /// What they do in the plane.
    pub in_plane: InPlane,
}

/// A plate in triangles.
#[derive(Debug)]
pub struct Single {
    shell: PlateShell,
    metal: Elastic,
    ratio: f64,
    turn: bool,
    held: Vec<[bool; SIX]>,
}

/// A plate under one pressure, in figures without units: stresses are σ b²/(E t²).
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pressed {
    /// p b⁴/(E t⁴).
    pub pressure: f64,
    /// What w/t at the middle would be if it were linear.
    pub linear: f64,
    /// w/t at the middle.
    pub bulge: f64,
    /// Highest von Mises stress anywhere.
    pub stress: f64,
    /// The same of what is at least half as far from all edges as the middle is.
    pub inside: f64,
    /// Half way along a long edge: von Mises, bending and membrane stress across the edge. Where it turns there is no
    /// bending: what the triangles have left of it is told, but not in the von Mises stress.
    pub edge: [f64; 3],
    /// In the middle: von Mises, bending and membrane stress across the plate.
    pub middle: [f64; 3],
    /// Volume swept, in a b t.
    pub volume: f64,
    /// Whether it is stiff against every small movement.
    pub steady: bool,
}

impl Single {
    /// `ratio` times as long as wide, in `pieces` triangles across.
    #[must_use]
    pub fn new(ratio: f64, pieces: f64, metal: Elastic, edges: Edges) -> Self {
        let long = ratio * SHORT;
        let outline = [[0.0, 0.0], [long, 0.0], [long, SHORT], [0.0, SHORT]];
        let sheet = Sheet {
            face: Face::Top,
            part: 1,
            thickness: THICK,
            normal: Vector::new(0.0, 0.0, 1.0),
            outline: outline.map(|[x, y]| Vector::new(x, y, 0.0)).to_vec(),
            beside: vec![Face::Front; 4],
            holes: Vec::new(),
            pressed: true,
        };
        let shell = PlateShell::drawn(vec![sheet], metal, SHORT / pieces, DRAWN);
        let mut held = vec![[false; SIX]; shell.nodes()];
        for node in shell.rims(|_| true) {
            let [x, y, _] = shell.places()[node];
            let at = |along: f64, end: f64| along.min(end - along) < 1e-9;
            let (along_x, along_y) = (at(y, SHORT), at(x, long));
            let fixed = edges.in_plane == InPlane::Fixed;
            let slides = edges.in_plane == InPlane::Slides;
            held[node] = [
                fixed || slides && along_y,
                fixed || slides && along_x,
                true,
                !edges.turn,
                !edges.turn,
                false,
            ];
        }
        if edges.in_plane == InPlane::Free {
            let node = |x: f64, y: f64| {
                let near = |at: &[f64; 3]| (at[0] - x).hypot(at[1] - y) < 1e-9;
                shell.places().iter().position(near).expect("a node")
            };
            let (middle, beside) = (node(0.5 * long, 0.5 * SHORT), node(long, 0.5 * SHORT));
            held[middle][0] = true;
            held[middle][1] = true;
            held[beside][1] = true;
        }
        Self {
            shell,
            metal,
            ratio,
            turn: edges.turn,
            held,
        }
    }

    /// How many nodes it has.
    #[must_use]
    pub fn nodes(&self) -> usize {
        self.shell.nodes()
    }

    /// p b⁴/(E t⁴) at which the linear bulge is `linear` thicknesses.
    #[must_use]
    pub fn pressure_at(&self, linear: f64) -> f64 {
        linear / self.linear().0
    }

    /// Linear w/t and what is found for p b⁴/(E t⁴) = 1.
    #[must_use]
    pub fn linear(&self) -> (f64, Found) {
        let unit = self.unit();
        let forces = self.shell.pressed(|_| unit);
        let moved = self.shell.moved(&forces, &self.held);
        let found = self.shell.found(&moved, 0.0).swap_remove(0);
        (self.bulge(&moved), found)
    }

    /// Under each of some values of p b⁴/(E t⁴), which rise.
    ///
    /// # Panics
    /// Where the plate comes to no rest.
    #[must_use]
    pub fn pressed(&self, pressures: &[f64]) -> Vec<Pressed> {
        let large = Large::new(&self.shell, self.held.clone());
        let (linear, _) = self.linear();
        let mut moved = vec![[0.0; SIX]; self.shell.nodes()];
        let mut all = Vec::new();
        for pressure in pressures {
            let unit = self.unit();
            let rest = large.rest(&moved, &self.shell.pressed(|_| unit * pressure));
            moved = rest.moved;
            let found = &self
                .shell
                .found_after(&moved, 0.0, Deflections::Large)
                .swap_remove(0);
            let each = self.metal.modulus * (THICK / SHORT).powi(2);
            let half = 0.5 * self.ratio * SHORT;
            let at = |y: f64, bent: bool| -> [f64; 3] {
                let kind = Deflections::Large;
                let within = self.shell.within(0, [half, y], &moved, kind);
                let stress = if bent {
                    within.stress
                } else {
                    within.stretched()
                };
                [stress, within.bending[1], within.membrane[1]].map(|part| part / each)
            };
            let swept = work(&self.shell.pressed(|_| 1.0), &moved);
            all.push(Pressed {
                pressure: *pressure,
                linear: linear * pressure,
                bulge: self.bulge(&moved),
                stress: found.stress / each,
                inside: found.inside / each,
                edge: at(0.0, !self.turn),
                middle: at(0.5 * SHORT, true),
                volume: swept / (self.ratio * SHORT * SHORT * THICK),
                steady: rest.steady,
            });
        }
        all
    }

    /// The pressure in Pa for which p b⁴/(E t⁴) = 1.
    fn unit(&self) -> f64 {
        self.metal.modulus * (THICK / SHORT).powi(4)
    }

    fn bulge(&self, moved: &[Movement]) -> f64 {
        let middle = [0.5 * self.ratio * SHORT, 0.5 * SHORT];
        let far = |at: &[f64; 3]| (at[0] - middle[0]).hypot(at[1] - middle[1]);
        let both = self.shell.places().iter().zip(moved);
        let (_, by) = both
            .min_by(|a, b| far(a.0).total_cmp(&far(b.0)))
            .expect("a node");
        by[2] / THICK
    }
}
