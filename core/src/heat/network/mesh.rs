//! The cells of a tank: its sheets laid flat, a grid on each, and the links across its edges.

use core::f64::consts::PI;
use core::fmt;

use heapless::Vec;

use super::clip::{Outline, within};
use super::grid::{Grid, Lie, count_for, size_of};
use super::spot::Place;
use super::{MAX_SHEETS, Material, Sheet, Shell, Spot};
use crate::body::{Body, Edge, Face, FaceView, Path, Solid};
use crate::fixture::{Baffle, Plate};
use crate::geom::Vector;
use crate::heat::loss::Side;
use crate::panel::Axes;

/// What a mesh is made of.
#[derive(Clone, Copy, Debug)]
pub struct Ware<'a> {
    /// The tank; its outside is what is divided.
    pub body: &'a Body,
    /// The thickness of each wall.
    pub sheet: &'a crate::body::Sheet,
    /// Plates across its inside.
    pub baffles: &'a [Baffle],
    /// The metal.
    pub material: Material,
    /// Of the air and all around, in K.
    pub ambient: f64,
}

/// Why there is no mesh.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum MeshError {
    /// The shell has too few cells or links for even the coarsest grid.
    TooMany,
}

impl fmt::Display for MeshError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("the tank has more walls than there are cells to divide it into")
    }
}

impl core::error::Error for MeshError {}

/// The sheets of a tank with their grids.
#[derive(Clone, Debug, Default)]
pub struct Mesh {
    grids: Vec<Grid, MAX_SHEETS>,
    walls: usize,
}

/// Steps of a grid's refinement, each square so much wider than before.
const COARSER: f64 = 1.08;

impl Mesh {
    /// Divides a tank into cells that `shell` has room for, squares at the rims of the sheets about `rim`
    /// metres wide or, where that is more than there is room for, as fine as it goes.
    ///
    /// # Errors
    /// [`MeshError`] where there is not even room for a few cells a sheet.
    pub fn build<const C: usize, const L: usize>(
        &mut self,
        of: &Ware<'_>,
        rim: f64,
        shell: &mut Shell<C, L>,
    ) -> Result<(), MeshError> {
        let mut rim = rim;
        for _ in 0..120 {
            let fits =
                self.lay(of, rim).is_some_and(|cells| cells <= C) && self.fill(of, shell).is_some();
            if fits {
                shell.set_step(self.step(of, rim));
                shell.set_material(&of.material, rim);
                return Ok(());
            }
            rim *= COARSER;
        }
        Err(MeshError::TooMany)
    }

    /// How long a step may be: heat goes about a square's width in it.
    fn step(&self, of: &Ware<'_>, rim: f64) -> f64 {
        const LONGEST: f64 = 2.0;
        const SHORTEST: f64 = 0.1;
        let step = 0.5 * rim * rim / of.material.diffusivity();
        libm::fmin(libm::fmax(step, SHORTEST), LONGEST)
    }

    /// Lays the sheets flat and counts their squares.
    fn lay(&mut self, of: &Ware<'_>, rim: f64) -> Option<usize> {
        self.grids.clear();
        let solid = &of.body.outside;
        let mut first = 0_u16;
        let mut add = |grids: &mut Vec<Grid, MAX_SHEETS>, mut grid: Grid| {
            grid.first = first;
            grid.counts = grid.size.map(|size| count_for(size, rim));
            first = first.checked_add(grid.count())?;
            grids.push(grid).ok()
        };
        let mut outline = Outline::new();
        for view in solid.faces() {
            let thickness = of.sheet.of(view.face()).si();
            let (lie, size) = wall(solid, &view, &mut outline);
            let swell = view.area().si() / area(&outline);
            add(&mut self.grids, Grid::new(lie, size, thickness, swell))?;
        }
        self.walls = self.grids.len();
        for baffle in of.baffles {
            let (lie, size) = plate(baffle, &mut outline);
            let thickness = baffle.thickness().si();
            add(&mut self.grids, Grid::new(lie, size, thickness, 1.0))?;
        }
        Some(usize::from(first))
    }

    /// Makes the cells and their links; `None` where there is no room for them.
    #[inline(never)]
    fn fill<const C: usize, const L: usize>(
        &self,
        of: &Ware<'_>,
        shell: &mut Shell<C, L>,
    ) -> Option<()> {
        shell.clear(of.ambient, of.material.emissivity);
        let solid = &of.body.outside;
        let mut outline = Outline::new();
        for (view, grid) in solid.faces().zip(&self.grids) {
            let _ = wall(solid, &view, &mut outline);
            let (low, high) = solid_height(&outline, grid);
            let area = view.area().si();
            let side = Side::of(normal(solid, &view), high - low, area, perimeter(&outline));
            self.divide(of, grid, &outline, side, shell)?;
        }
        for (baffle, grid) in of.baffles.iter().zip(self.grids.iter().skip(self.walls)) {
            let _ = plate(baffle, &mut outline);
            self.divide(of, grid, &outline, Side::Still, shell)?;
        }
        for edge in solid.edges() {
            self.join(of, &edge, shell)?;
        }
        for (baffle, number) in of.baffles.iter().zip(1_u8..) {
            for place in 0..baffle.seam_count() {
                if let Some(edge) = baffle.edge(&of.body.inside, number, place) {
                    self.join(of, &edge, shell)?;
                }
            }
        }
        Some(())
    }

    /// The cells of one sheet.
    fn divide<const C: usize, const L: usize>(
        &self,
        of: &Ware<'_>,
        grid: &Grid,
        outline: &Outline,
        side: Side,
        shell: &mut Shell<C, L>,
    ) -> Option<()> {
        let [across, high] = grid.counts;
        let conductance = of.material.conductivity * grid.thickness;
        // Of the squares below and to the left: their centroids and the runs they share with the next.
        let mut below: Vec<([f64; 2], f64), 201> = Vec::new();
        for up in 0..high {
            let mut left: Option<([f64; 2], f64)> = None;
            for right in 0..across {
                let [low, far] = grid.rectangle([right, up]);
                let part = within(outline, low, far);
                let least = 1e-6 * (far[0] - low[0]) * (far[1] - low[1]);
                let real = part.area > least;
                let area = if real { part.area * grid.swell } else { 0.0 };
                let cell = grid.cell([right, up]);
                shell.add_cell(
                    of.material.capacity * area * grid.thickness,
                    if side == Side::Still { 0.0 } else { area },
                )?;
                let mut link = |from: Option<([f64; 2], f64)>, other: u16, axis: usize| {
                    let Some((centroid, run)) = from else {
                        return Some(());
                    };
                    let of = |pair: &[f64; 2]| pair.get(axis).copied().unwrap_or_default();
                    let apart = of(&part.centroid) - of(&centroid);
                    if real && run > 0.0 && apart > 0.0 {
                        shell.add_link([other, cell], conductance * run / apart)?;
                    }
                    Some(())
                };
                link(left, cell.wrapping_sub(1), 0)?;
                let under = below.get(usize::from(right)).copied();
                link(under, cell.wrapping_sub(across), 1)?;
                let [run_right, run_up] = part.runs;
                left = real.then_some((part.centroid, run_right));
                let own = (part.centroid, if real { run_up } else { 0.0 });
                match below.get_mut(usize::from(right)) {
                    Some(slot) => *slot = own,
                    None => below.push(own).ok()?,
                }
            }
        }
        let from = grid.first;
        shell
            .sheets
            .push(Sheet {
                side,
                cells: [from, from + grid.count()],
                at: -1.0,
                film: 0.0,
            })
            .ok()
    }

    /// Joins the two sheets at an edge.
    fn join<const C: usize, const L: usize>(
        &self,
        of: &Ware<'_>,
        edge: &Edge,
        shell: &mut Shell<C, L>,
    ) -> Option<()> {
        let Some(sheets) = self.sheets_of(edge.faces) else {
            return Some(());
        };
        let whole = edge.length().si();
        let finest = sheets
            .iter()
            .flatten()
            .flat_map(|grid| grid.counts)
            .max()
            .unwrap_or(1);
        let samples = 3 * finest;
        let piece = whole / f64::from(samples);
        for sample in 0..samples {
            let at = (f64::from(sample) + 0.5) * piece;
            let [Some(a), Some(b)] = sheets else { continue };
            let same = edge.faces[0] == edge.faces[1];
            let (one, [_, first]) = a.beside(edge, at, false, shell);
            let (other, [_, second]) = b.beside(edge, at, same, shell);
            // Both halves of the way in one row.
            let resists = first / a.thickness + second / b.thickness;
            if one != other && resists > 0.0 {
                let conductance = of.material.conductivity * piece / resists;
                shell.add_link([one, other], conductance)?;
            }
        }
        Some(())
    }

    /// The grids of two faces; of a fitting, none.
    fn sheets_of(&self, faces: [Face; 2]) -> Option<[Option<&Grid>; 2]> {
        let found = faces.map(|face| self.grid_of(face));
        (found[0].is_some()).then_some(found)
    }

    fn grid_of(&self, face: Face) -> Option<&Grid> {
        match face {
            Face::Baffle(number) => self
                .grids
                .get(self.walls + usize::from(number.saturating_sub(1))),
            Face::Fitting(_) => None,
            wall => self
                .grids
                .iter()
                .take(self.walls)
                .find(|grid| grid.face == wall),
        }
    }

    /// The place at `at` metres along an edge.
    #[must_use]
    pub fn spot<const C: usize, const L: usize>(
        &self,
        edge: &Edge,
        at: f64,
        shell: &Shell<C, L>,
    ) -> Option<Spot> {
        let [first, second] = self.sheets_of(edge.faces)?;
        let a = first?;
        let b = second.unwrap_or(a);
        let same = second.is_some() && edge.faces[0] == edge.faces[1];
        let share = a.thickness / (a.thickness + b.thickness);
        let place = |grid: &Grid, far: bool| {
            let (here, ahead) = grid.run_at(edge, at, far);
            let sheet = self
                .grids
                .iter()
                .position(|other| other.first == grid.first);
            Place {
                // There are no more than some twenty.
                sheet: sheet.unwrap_or_default() as u8,
                here,
                ahead,
            }
        };
        let wall = |face: Face| !matches!(face, Face::Baffle(_) | Face::Fitting(_));
        let straight = edge.path == Path::Straight;
        Some(Spot {
            about: [
                a.about(edge, at, false, shell),
                b.about(edge, at, same, shell),
            ],
            first: (255.0 * share) as u8,
            sides: [place(a, false), place(b, same)],
            at,
            whole: edge.length().si(),
            thickness: 0.5 * (a.thickness + b.thickness),
            seam: edge.faces.into_iter().all(wall),
            straight,
            closed: matches!(edge.path, Path::Round(_)),
            cornered: straight && edge.faces[0] != edge.faces[1],
        })
    }
}

impl Grid {
    fn new((lie, face): (Lie, Face), size: [f64; 2], thickness: f64, swell: f64) -> Self {
        Self {
            lie,
            face,
            size,
            counts: [1, 1],
            first: 0,
            thickness,
            swell,
        }
    }
}

/// A wall laid flat: its outline is written to `outline`.
fn wall(solid: &Solid, view: &FaceView<'_>, outline: &mut Outline) -> ((Lie, Face), [f64; 2]) {
    outline.clear();
    let face = view.face();
    let lie = if let Some((turned, start, axis)) = solid.turned() {
        let along = axis.along();
        if face == Face::Shell {
            let size = [turned.length(), 2.0 * PI * turned.radius()];
            let corners = [[0.0, 0.0], [size[0], 0.0], size, [0.0, size[1]]];
            let _ = outline.extend_from_slice(&corners);
            Lie::Wall {
                start,
                along,
                seam: axis.to_seam(),
                radius: turned.radius(),
            }
        } else {
            let disc = libm::sqrt(view.area().si() / PI);
            let normal = view.normal();
            let far = normal.dot(along) > 0.0;
            let centre = if far {
                start + along * turned.length()
            } else {
                start
            };
            const SIDES: u8 = 24;
            for n in 0..SIDES {
                let (sine, cosine) = libm::sincos(2.0 * PI * f64::from(n) / f64::from(SIDES));
                let _ = outline.push([disc * (1.0 + cosine), disc * (1.0 + sine)]);
            }
            Lie::End {
                axes: Axes::of(normal, core::iter::once(Vector::ZERO)),
                centre,
                scale: disc / turned.radius(),
            }
        }
    } else {
        let axes = Axes::of(view.normal(), view.outline());
        for corner in view.outline() {
            let _ = outline.push(axes.flat(corner));
        }
        Lie::Plane(axes)
    };
    ((lie, face), size_of(outline))
}

/// A baffle as it stands.
fn plate(baffle: &Baffle, outline: &mut Outline) -> ((Lie, Face), [f64; 2]) {
    outline.clear();
    match baffle.plate() {
        Plate::Corners(corners) => {
            let _ = outline.extend_from_slice(corners);
        }
        Plate::Outline(section) => {
            for place in 0..section.len() {
                let _ = outline.push(section.at(place));
            }
        }
        Plate::Disc { centre, radius } => {
            const SIDES: u8 = 24;
            for n in 0..SIDES {
                let (sine, cosine) = libm::sincos(2.0 * PI * f64::from(n) / f64::from(SIDES));
                let _ = outline.push([centre[0] + radius * cosine, centre[1] + radius * sine]);
            }
        }
    }
    let low = outline.iter().fold([f64::INFINITY; 2], |[u, w], [x, y]| {
        [libm::fmin(u, *x), libm::fmin(w, *y)]
    });
    for point in outline.iter_mut() {
        *point = [point[0] - low[0], point[1] - low[1]];
    }
    if area(outline) < 0.0 {
        outline.reverse();
    }
    let [origin, right, up] = baffle.frame(low);
    let lie = Lie::Plane(Axes { origin, right, up });
    // Its number is its place among the baffles; it is asked for by that.
    ((lie, Face::Baffle(0)), size_of(outline))
}

/// The outward normal; a drum's wall counts as upright where its axis is, and else as its side.
fn normal(solid: &Solid, view: &FaceView<'_>) -> Vector {
    match solid.turned() {
        Some((_, _, axis)) if view.face() == Face::Shell => {
            let along = axis.along();
            // Across the axis and level.
            if along.z > 0.5 {
                Vector::new(0.0, 1.0, 0.0)
            } else {
                Vector::new(0.0, along.x, 0.0)
            }
        }
        _ => view.normal(),
    }
}

fn area(outline: &Outline) -> f64 {
    let next = outline.iter().skip(1).chain(outline.first());
    outline
        .iter()
        .zip(next)
        .map(|(a, b)| 0.5 * (a[0] * b[1] - b[0] * a[1]))
        .sum()
}

fn perimeter(outline: &Outline) -> f64 {
    let next = outline.iter().skip(1).chain(outline.first());
    outline
        .iter()
        .zip(next)
        .map(|(a, b)| libm::hypot(b[0] - a[0], b[1] - a[1]))
        .sum()
}

/// Lowest and highest of a sheet that stands, along its own up.
fn solid_height(outline: &Outline, grid: &Grid) -> (f64, f64) {
    match grid.lie {
        // Round a lying drum the air rises over half its girth; along an upright one over its length.
        Lie::Wall { along, .. } => (
            0.0,
            if along.z > 0.5 {
                grid.size[0]
            } else {
                0.5 * grid.size[1]
            },
        ),
        Lie::Plane(_) | Lie::End { .. } => {
            outline.iter().fold((0.0, 0.0), |(low, high), [_, y]| {
                (libm::fmin(low, *y), libm::fmax(high, *y))
            })
        }
    }
}
