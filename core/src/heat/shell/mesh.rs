//! The cells of a tank: its sheets laid flat, a grid on each, and the links across its edges.

use core::fmt;

use heapless::Vec;

use super::super::loss::Facing;
use super::clip::{self, Outline};
use super::corner::EdgeCorners;
use super::disc::divide_disc;
use super::films::Films;
use super::grid::{Grid, Turning, Unrolled};
use super::rates::Takes;
use super::spot::{EdgePlace, SheetPlace};
use super::{MAX_SHEETS, Material, Sheet, Shell, Spot};
use crate::body::{Body, Edge, MAX_EDGES, Path};
use crate::fitting::Baffle;
use crate::input::Face;
use crate::units::Length;

/// What a mesh is made of.
#[derive(Clone, Copy, Debug)]
pub struct ShellInput<'a> {
    /// The tank; its outside is what is divided.
    pub body: &'a Body,
    /// The thickness of each wall.
    pub sheet: &'a crate::body::SheetPlan,
    /// Plates across its inside.
    pub baffles: &'a [Baffle],
    /// The metal.
    pub material: Material,
    /// Temperature of the air and all around, in K.
    pub ambient: f64,
    /// The stage of building, up to [`MAX_STAGES`](crate::build::MAX_STAGES), by which the two sides of each edge stand
    /// against each other: 0 from the start, [`NEVER`] where they do not. The edges of the body in its order, then those
    /// of each baffle; what is not in the list stands from the start.
    pub joined: &'a [u8],
}

/// No stage: the sides of an edge do not touch.
pub const NEVER: u8 = u8::MAX;

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
    /// The walls, then the baffles.
    pub(super) grids: Vec<Grid, MAX_SHEETS>,
    /// How many of them are walls.
    pub(super) walls: usize,
    /// The corners at the ends of edges; none where beads are not tracked.
    pub(super) corners: Vec<EdgeCorners, MAX_EDGES>,
}

/// How finely a tank is divided, in place and in time.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Fineness {
    /// Width of the squares at the rims of the sheets, in m, where there is room for it.
    pub rim: f64,
    /// Most cells, where the shell has room for more.
    pub cells: usize,
    /// Longest step, in s.
    pub longest: f64,
    /// Whether the last few beads are tracked beside the cells (`beads`).
    pub beads: bool,
}

impl Fineness {
    /// With beads tracked, steps of at most two seconds, and squares of `rim` metres at the rims.
    #[must_use]
    pub const fn with_rim(rim: f64) -> Self {
        Self {
            rim,
            cells: usize::MAX,
            longest: 2.0,
            beads: true,
        }
    }
}

impl Mesh {
    /// Nothing yet.
    #[must_use]
    pub const fn new() -> Self {
        Self {
            grids: Vec::new(),
            walls: 0,
            corners: Vec::new(),
        }
    }

    /// Adds the cells of one sheet to a shell, with the links between them; `None` where there is no room.
    pub(super) fn divide<const C: usize, const L: usize>(
        &self,
        of: &ShellInput<'_>,
        grid: &Grid,
        outline: &Outline,
        side: Facing,
        shell: &mut Shell<C, L>,
    ) -> Option<()> {
        if grid.disc.is_some() {
            let turned = of.body.outside.turned().map(|(turned, ..)| turned);
            divide_disc((&of.material, turned), grid, shell)?;
            return end_sheet(grid, (side, &of.material), shell);
        }
        let [across, high] = grid.counts;
        let conductance = of.material.conductivity * grid.thickness;
        // Centroids of the squares below and to the left, in m, and the lengths of the sides they share with the next.
        let mut below: Vec<([f64; 2], f64), 201> = Vec::new();
        for up in 0..high {
            let mut left: Option<([f64; 2], f64)> = None;
            for right in 0..across {
                let [low, far] = grid.rectangle([right, up]);
                let part = clip::within(outline, low, far);
                let least = 1e-6 * (far[0] - low[0]) * (far[1] - low[1]);
                let real = part.area > least;
                let area = if real { part.area * grid.swell } else { 0.0 };
                let cell = grid.cell([right, up]);
                let off = |axis: usize| {
                    let of = |pair: &[f64; 2]| pair.get(axis).copied().unwrap_or_default();
                    let middle = 0.5 * (of(&low) + of(&far));
                    (of(&part.centroid) - middle) / (of(&far) - of(&low))
                };
                shell.add_cell(
                    of.material.capacity * area * grid.thickness,
                    if real { [off(0), off(1)] } else { [0.0; 2] },
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
        end_sheet(grid, (side, &of.material), shell)
    }

    /// Links the cells of the two sheets at an edge; `None` where there is no room.
    pub(super) fn join<const C: usize, const L: usize>(
        &self,
        of: &ShellInput<'_>,
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
            let (other, second) = b.beside(edge, at, same, shell);
            let pairs = if within(edge) {
                // The wall's own links carry what goes straight on.
                a.astride(edge, at, shell).map(Some)
            } else {
                [Some(a.beside(edge, at, false, shell)), None]
            };
            // Of three sheets that meet in a line each two exchange by the products of their conductances over the sum
            // of all; two by those one after the other, which is the same.
            let lead = |thickness: f64, away: f64| {
                of.material.conductivity * piece * thickness / libm::fmax(away, 1e-6)
            };
            let own = lead(b.thickness, second);
            let sum = own
                + pairs
                    .iter()
                    .flatten()
                    .map(|(_, first)| lead(a.thickness, *first))
                    .sum::<f64>();
            for (one, first) in pairs.into_iter().flatten() {
                if one != other {
                    shell.add_link([one, other], own * lead(a.thickness, first) / sum)?;
                }
            }
        }
        Some(())
    }

    /// The grids of the two faces of an edge, `None` in the place of a fitting; `None` where the first is one.
    fn sheets_of(&self, faces: [Face; 2]) -> Option<[Option<&Grid>; 2]> {
        let found = faces.map(|face| self.grid_of(face));
        (found[0].is_some()).then_some(found)
    }

    /// The grid of a wall or a baffle.
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

    /// The cells on the two sides of the place at `at` metres along an edge: those of its [`Mesh::spot`].
    #[must_use]
    pub fn cells_at<const C: usize, const L: usize>(
        &self,
        edge: &Edge,
        at: f64,
        shell: &Shell<C, L>,
    ) -> Option<[u16; 2]> {
        let [first, second] = self.sheets_of(edge.faces)?;
        let a = first?;
        let b = second.unwrap_or(a);
        let same = second.is_some() && edge.faces[0] == edge.faces[1];
        let (one, _) = a.beside(edge, at, false, shell);
        let (other, _) = b.beside(edge, at, same, shell);
        Some([one, other])
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
        let within = within(edge);
        // A wall that goes on beyond the line takes heat on both sides of it.
        let alone = second.is_none() || edge.faces[0] == edge.faces[1];
        let sheets = if within && !alone { 2.0 } else { 1.0 };
        let whole = sheets * a.thickness + b.thickness;
        let share = sheets * a.thickness / whole;
        let place = |grid: &Grid, far: bool| {
            let (here, ahead) = grid.run_at(edge, at, far);
            let sheet = self
                .grids
                .iter()
                .position(|other| other.first == grid.first);
            SheetPlace {
                // There are no more than some twenty.
                sheet: sheet.unwrap_or_default() as u8,
                here: here.map(|at| at as f32),
                ahead: ahead.map(|at| at as f32),
            }
        };
        let straight = !matches!(edge.path, Path::Round(_));
        let point = edge.at(Length::from_metres(at));
        let sides = [place(a, false), place(b, same)];
        let sheets = sides.map(|side| side.sheet);
        let known = self.corners.iter().find(|known| known.sheets == sheets);
        let corners = known.map(|known| known.ends);
        Some(Spot {
            about: [
                a.about(edge, at, (false, within), shell),
                b.about(edge, at, (same, within && alone), shell),
            ],
            first: (255.0 * share) as u8,
            on_edge: EdgePlace {
                sides,
                place: [point.x, point.y, point.z].map(|at| at as f32),
                at,
                whole: edge.length().si(),
                thickness: (0.5 * whole) as f32,
                straight,
                closed: matches!(edge.path, Path::Round(_)),
                corners,
            },
            tracked: second.is_some(),
        })
    }
}

/// Notes a sheet whose cells are made; `None` where there is no room.
fn end_sheet<const C: usize, const L: usize>(
    grid: &Grid,
    (side, material): (Facing, &Material),
    shell: &mut Shell<C, L>,
) -> Option<()> {
    let from = grid.first;
    let bare = if side == Facing::Still {
        0.0
    } else {
        1.0 / (material.capacity * grid.thickness)
    };
    shell
        .sheets
        .push(Sheet {
            side,
            cells: [from, from + grid.count()],
            mean: 0,
            films: Films::of(side, shell.ambient),
            takes: Takes::NONE,
            bare,
            even: 0.0,
        })
        .ok()
}

/// Whether an edge runs within the sheet of its first face, and not along its rim: that of a baffle or a fitting, and the
/// line that closes a wrapper.
fn within(edge: &Edge) -> bool {
    let [one, other] = edge.faces;
    matches!(other, Face::Baffle(_) | Face::Fitting(_)) || (one == other && one != Face::Shell)
}

impl Grid {
    pub(super) fn new(
        (unrolled, face): (Unrolled, Face),
        (size, disc): ([f64; 2], Option<Turning>),
        thickness: f64,
        swell: f64,
    ) -> Self {
        Self {
            unrolled,
            face,
            size,
            counts: [1, 1],
            disc,
            first: 0,
            thickness,
            swell,
        }
    }
}
