//! Dividing a tank into cells, a sheet or an edge at a time, so that it can be laid aside between any two.

use super::super::loss::Facing;
use super::clip::Outline;
use super::corner::corner_excesses;
use super::flat::{area, normal, perimeter, plate, solid_height, wall};
use super::grid::{Grid, Turning, Unrolled, mean_width};
use super::{Fineness, Material, Mesh, MeshError, Shell, ShellInput};
use crate::body::FlatForm;
use crate::build::MAX_STAGES;

/// Ratio of the squares' widths from one try at a mesh to the next.
const COARSER: f64 = 1.08;
/// Most tries after the first; then there is no mesh.
const TRIES: u8 = 119;

/// How far a mesh is.
#[derive(Clone, Copy, Debug)]
pub struct Building {
    fineness: Fineness,
    /// Width of the squares at the rims, in m, in this try.
    rim: f64,
    tries: u8,
    part: Part,
}

/// What is made next.
#[derive(Clone, Copy, Debug)]
enum Part {
    /// The sheets are laid flat.
    Sheets,
    /// They are divided, as coarsely as it takes.
    Squares,
    /// The cells of this sheet.
    Sheet(usize),
    /// The links across this edge of the walls, if it is joined in this stage.
    Edge { stage: u8, place: usize },
    /// The links across this edge of this baffle, which is the next in the list of all edges, if it is joined in this
    /// stage.
    Within {
        stage: u8,
        baffle: usize,
        place: usize,
        next: usize,
    },
}

impl ShellInput<'_> {
    /// The stage in which the edge at a place of the list of all is joined.
    fn stage_of(&self, place: usize) -> u8 {
        self.joined.get(place).copied().unwrap_or(0)
    }

    /// Ends a stage and those after it in which no edge is joined; the next in which some is.
    fn end_stage<const C: usize, const L: usize>(
        &self,
        stage: u8,
        shell: &mut Shell<C, L>,
    ) -> Option<u8> {
        let mut stage = stage;
        while usize::from(stage) <= MAX_STAGES {
            shell.end_stage(stage);
            stage += 1;
            if usize::from(stage) <= MAX_STAGES && self.joined.contains(&stage) {
                return Some(stage);
            }
        }
        None
    }
}

impl Building {
    /// With nothing made yet.
    #[must_use]
    pub const fn new(fineness: &Fineness) -> Self {
        Self {
            fineness: *fineness,
            rim: fineness.rim,
            tries: 0,
            part: Part::Sheets,
        }
    }

    /// Begins another try with wider squares.
    fn coarser(&mut self) {
        self.rim *= COARSER;
        self.tries = self.tries.saturating_add(1);
        self.part = Part::Squares;
    }
}

impl Mesh {
    /// Divides a tank into cells that `shell` has room for, as fine as is asked or, where that is more than there
    /// is room for, as fine as it goes.
    ///
    /// # Errors
    /// [`MeshError`] where there is not even room for a few cells a sheet.
    pub fn build<const C: usize, const L: usize>(
        &mut self,
        of: &ShellInput<'_>,
        fineness: &Fineness,
        shell: &mut Shell<C, L>,
    ) -> Result<(), MeshError> {
        let mut building = Building::new(fineness);
        while !self.go_on(&mut building, of, shell)? {}
        Ok(())
    }

    /// Does one part of what [`Mesh::build`] does and tells whether that was the last. Mesh, tank and shell must be
    /// the same from the first part to the last.
    ///
    /// # Errors
    /// As for [`Mesh::build`].
    #[inline(never)]
    pub fn go_on<const C: usize, const L: usize>(
        &mut self,
        building: &mut Building,
        of: &ShellInput<'_>,
        shell: &mut Shell<C, L>,
    ) -> Result<bool, MeshError> {
        let made = match building.part {
            Part::Sheets => {
                self.lay(of).ok_or(MeshError::TooMany)?;
                Some(Part::Squares)
            }
            Part::Squares => {
                let most = C.min(building.fineness.cells);
                while self
                    .divide_by(building.rim)
                    .is_none_or(|cells| cells > most)
                {
                    if building.tries >= TRIES {
                        return Err(MeshError::TooMany);
                    }
                    building.coarser();
                }
                shell.clear(of.ambient, of.material.emissivity);
                Some(Part::Sheet(0))
            }
            Part::Sheet(place) if place < self.grids.len() => {
                let made = self.sheet(place, of, shell);
                made.map(|()| Part::Sheet(place + 1))
            }
            Part::Sheet(_) => Some(Part::Edge { stage: 0, place: 0 }),
            Part::Edge { stage, place } if place < of.body.outside.edge_count() => {
                let joined = match of.body.outside.edge_at(place) {
                    Some(edge) if of.stage_of(place) == stage => self.join(of, &edge, shell),
                    _ => Some(()),
                };
                let place = place + 1;
                joined.map(|()| Part::Edge { stage, place })
            }
            Part::Edge { stage, place } => Some(Part::Within {
                stage,
                baffle: 0,
                place: 0,
                next: place,
            }),
            Part::Within {
                stage,
                baffle,
                place,
                next,
            } => {
                let Some(plate) = of.baffles.get(baffle) else {
                    if let Some(stage) = of.end_stage(stage, shell) {
                        building.part = Part::Edge { stage, place: 0 };
                        return Ok(false);
                    }
                    self.finish(of, building, shell);
                    return Ok(true);
                };
                // There are at most four.
                let number = (baffle + 1) as u8;
                let joined = match plate.edge(&of.body.inside, number, place) {
                    Some(edge) if of.stage_of(next) == stage => self.join(of, &edge, shell),
                    _ => Some(()),
                };
                let last = place + 1 >= plate.seam_count();
                joined.map(|()| Part::Within {
                    stage,
                    baffle: if last { baffle + 1 } else { baffle },
                    place: if last { 0 } else { place + 1 },
                    next: next + 1,
                })
            }
        };
        match made {
            Some(part) => building.part = part,
            // No room for it.
            None if building.tries < TRIES => building.coarser(),
            None => return Err(MeshError::TooMany),
        }
        Ok(false)
    }

    /// What is left to do when all cells and links are made.
    fn finish<const C: usize, const L: usize>(
        &mut self,
        of: &ShellInput<'_>,
        building: &Building,
        shell: &mut Shell<C, L>,
    ) {
        let (material, rim) = (&of.material, building.rim);
        self.corners.clear();
        if building.fineness.beads {
            let grids = &self.grids;
            let sheet = |face| grids.iter().position(|grid| grid.face == face);
            corner_excesses(&of.body.outside, sheet, &mut self.corners);
        }
        shell.set_material(material, mean_width(&self.grids), &building.fineness);
        shell.set_step(step(material, rim, building.fineness.longest));
    }

    /// Lays the sheets flat; `None` where there are too many.
    fn lay(&mut self, of: &ShellInput<'_>) -> Option<()> {
        self.grids.clear();
        let solid = &of.body.outside;
        let mut outline = Outline::new();
        for view in solid.faces() {
            let thickness = of.sheet.of(view.face()).si();
            let (unrolled, size) = wall(solid, &view, &mut outline);
            let swell = view.area().si() / area(&outline);
            let disc = match (&unrolled.0, solid.turned()) {
                (Unrolled::End { axes, .. }, Some((.., axis))) => {
                    Some(Turning::of(axis, axes.right, axes.up))
                }
                _ => None,
            };
            let swell = if disc.is_some() { 1.0 } else { swell };
            let grid = Grid::new(unrolled, (size, disc), thickness, swell);
            self.grids.push(grid).ok()?;
        }
        self.walls = self.grids.len();
        for baffle in of.baffles {
            let (unrolled, size) = plate(baffle, &mut outline);
            let disc = match (baffle.plate(), solid.turned()) {
                (FlatForm::Disc { .. }, Some((.., axis))) => {
                    let [_, right, up] = baffle.frame([0.0; 2]);
                    Some(Turning::of(axis, right, up))
                }
                _ => None,
            };
            let grid = Grid::new(unrolled, (size, disc), baffle.thickness().si(), 1.0);
            self.grids.push(grid).ok()?;
        }
        Some(())
    }

    /// Divides each sheet into squares of about `rim` metres at its rims, and counts them all; `None` where they are more
    /// than any shell has room for.
    fn divide_by(&mut self, rim: f64) -> Option<usize> {
        let mut first = 0_u16;
        for grid in &mut self.grids {
            grid.first = first;
            grid.divide_by(rim);
            first = first.checked_add(grid.count())?;
        }
        Some(usize::from(first))
    }

    /// The cells of a wall or a baffle; `None` where there is no room for them.
    fn sheet<const C: usize, const L: usize>(
        &self,
        place: usize,
        of: &ShellInput<'_>,
        shell: &mut Shell<C, L>,
    ) -> Option<()> {
        let solid = &of.body.outside;
        let grid = self.grids.get(place)?;
        let mut outline = Outline::new();
        let side = if let Some(view) = solid.faces().nth(place) {
            let _ = wall(solid, &view, &mut outline);
            let (low, high) = solid_height(&outline, grid);
            let area = view.area().si();
            Facing::of(normal(solid, &view), high - low, area, perimeter(&outline))
        } else {
            let baffle = of.baffles.get(place.checked_sub(self.walls)?)?;
            let _ = plate(baffle, &mut outline);
            Facing::Still
        };
        self.divide(of, grid, &outline, side, shell)
    }
}

/// How long a step may be, in s: heat spreads about the width of a square at the rim in it.
fn step(material: &Material, rim: f64, longest: f64) -> f64 {
    const SHORTEST: f64 = 0.1;
    let step = 0.5 * rim * rim / material.diffusivity();
    libm::fmin(libm::fmax(step, SHORTEST), longest)
}
