//! Laying a tank out for its simulation: its sheets in cells and its stitches among them, a part at a time.

use super::laid::{LaidStitch, tenths};
use super::procedure::material;
use super::workspace::{PlanError, Workspace};
use crate::blank::{Groups, PanelMark};
use crate::body::{Edge, Path};
use crate::build::WeldAccess;
use crate::geom::Vector;
use crate::heat::shell::{Building, Fineness, NEVER, ShellInput};
use crate::input::Face;
use crate::seam::{Division, Seam};
use crate::tank::Tank;
use crate::tank::within::of_walls;
use crate::units::Length;

/// How far a tank is laid out.
#[derive(Clone, Copy, Debug)]
pub(super) struct Layout {
    part: Part,
    /// Height of the highest seam of the walls so far, in m, and its middle stitch.
    highest: (f64, u16),
}

/// What is done next.
#[derive(Clone, Copy, Debug)]
enum Part {
    /// In which order the tank goes together; then the cells, as finely as this.
    Build(Fineness),
    /// The cells.
    Mesh(Building),
    /// The stitches of the seam at this place.
    Seam {
        place: usize,
        count: usize,
        groups: Groups,
    },
}

impl Layout {
    /// With nothing done yet, as fine as is asked or as there is room for.
    pub(super) const fn new(fineness: &Fineness) -> Self {
        Self {
            part: Part::Build(*fineness),
            highest: (f64::NEG_INFINITY, 0),
        }
    }

    /// Does one part, some hundredths of the whole, and tells whether that was the last. Tank and workspace must be the
    /// same from the first part to the last.
    #[inline(never)]
    pub(super) fn go_on<const STITCHES: usize, const CELLS: usize, const LINKS: usize>(
        &mut self,
        tank: &Tank,
        workspace: &mut Workspace<STITCHES, CELLS, LINKS>,
    ) -> Result<bool, PlanError> {
        match &mut self.part {
            Part::Build(fineness) => {
                let building = Building::new(fineness);
                tank.write_build_order(&mut workspace.build);
                list_joined(tank, workspace);
                self.part = Part::Mesh(building);
                Ok(false)
            }
            Part::Mesh(building) => {
                if go_on_with_mesh(tank, building, workspace)? {
                    workspace.stitches.clear();
                    self.part = Part::Seam {
                        place: 0,
                        count: tank.seam_count(),
                        groups: tank.plan().groups(),
                    };
                }
                Ok(false)
            }
            Part::Seam {
                place,
                count,
                groups,
            } => {
                let Ok(next) = u8::try_from(*place) else {
                    return Err(PlanError::TooMany);
                };
                if place >= count {
                    finish(self.highest, workspace);
                    return Ok(true);
                }
                *place += 1;
                if let Some((seam, edge)) = tank.seam_at(groups, usize::from(next)) {
                    lay_seam(tank, (next, &seam, &edge), &mut self.highest, workspace)?;
                }
                Ok(false)
            }
        }
    }
}

fn go_on_with_mesh<const STITCHES: usize, const CELLS: usize, const LINKS: usize>(
    tank: &Tank,
    building: &mut Building,
    workspace: &mut Workspace<STITCHES, CELLS, LINKS>,
) -> Result<bool, PlanError> {
    let ware = ShellInput {
        body: tank.body(),
        sheet: tank.job().sheet(),
        baffles: tank.inner().baffles(),
        material: material(tank),
        ambient: tank.job().welding().ambient.si(),
        joined: &workspace.joined,
    };
    workspace
        .mesh
        .go_on(building, &ware, &mut workspace.shell)
        .map_err(|_| PlanError::Mesh)
}

/// Lists by which stage the sides of each edge stand, for the mesh, which knows no line that closes a wrapper.
fn list_joined<const STITCHES: usize, const CELLS: usize, const LINKS: usize>(
    tank: &Tank,
    workspace: &mut Workspace<STITCHES, CELLS, LINKS>,
) {
    workspace.joined.clear();
    let walls = tank.body().outside.edge_count();
    let within = tank.seam_count() - tank.seams_within();
    for ((seam, stages), place) in tank.seams().zip(workspace.build.seams()).zip(0..) {
        if place >= walls && place < within {
            continue;
        }
        let free = !seam.welded && matches!(seam.faces, [_, Face::Baffle(_)]);
        let joined = if free { NEVER } else { stages.joined };
        // As many as there may be seams.
        let _ = workspace.joined.push(joined);
    }
}

/// Adds the stitches of one seam, and remembers the middle one of the highest seam between two walls.
fn lay_seam<const STITCHES: usize, const CELLS: usize, const LINKS: usize>(
    tank: &Tank,
    (place, seam, edge): (u8, &Seam, &Edge),
    highest: &mut (f64, u16),
    workspace: &mut Workspace<STITCHES, CELLS, LINKS>,
) -> Result<(), PlanError> {
    let Some(division) = tank.division(seam) else {
        return Ok(());
    };
    let centre = tank.body().outside.centroid();
    let first = u16::try_from(workspace.stitches.len()).unwrap_or(u16::MAX);
    add_stitches((place, seam), edge, (&division, centre), workspace)?;
    let stages = workspace.build.of_seam(usize::from(place));
    if of_walls(seam) && stages.is_some_and(|stages| stages.from == Some(WeldAccess::Outside)) {
        let [a, b] = edge.ends;
        let height = 0.5 * (a.z + b.z);
        if height > highest.0 {
            *highest = (height, first + division.count / 2);
        }
    }
    Ok(())
}

/// Adds the stitches of one seam; their middles are measured from `centre`.
fn add_stitches<const STITCHES: usize, const CELLS: usize, const LINKS: usize>(
    (place, seam): (u8, &Seam),
    edge: &Edge,
    (division, centre): (&Division, Vector),
    workspace: &mut Workspace<STITCHES, CELLS, LINKS>,
) -> Result<(), PlanError> {
    let whole = edge.length().si();
    let round = matches!(edge.path, Path::Round(_));
    let count = division.count;
    let spaced = division.pitch > division.length;
    let stages = workspace.build.of_seam(usize::from(place));
    let stage = stages.map_or(0, |stages| stages.welded);
    let cells_at = |at: f64, workspace: &Workspace<STITCHES, CELLS, LINKS>| {
        let cells = workspace.mesh.cells_at(edge, at, &workspace.shell);
        cells.ok_or(PlanError::Mesh)
    };
    let mut begins = cells_at(0.0, workspace)?;
    for n in 0..count {
        let (length, middle, ends);
        if spaced {
            let [from, to] = division.run_of(n, whole);
            (length, middle) = (to - from, 0.5 * (from + to));
            ends = [cells_at(from, workspace)?, cells_at(to, workspace)?];
        } else {
            // Where one ends, the next begins.
            let part = |of: f64| whole * of / f64::from(count);
            (length, middle) = (whole / f64::from(count), part(f64::from(n) + 0.5));
            let end = cells_at(part(f64::from(n + 1)), workspace)?;
            ends = [begins, end];
            begins = end;
        }
        let stitch = LaidStitch {
            seam: place,
            number: n,
            of: count,
            length: length as f32,
            pitch: if spaced {
                division.pitch.si() as f32
            } else {
                0.0
            },
            stage,
            last: false,
            panels: seam.mark.panels.map(PanelMark::place),
            ends,
            round,
            middle: tenths(edge.at(Length::from_metres(middle)) - centre),
        };
        workspace
            .stitches
            .push(stitch)
            .map_err(|_| PlanError::TooMany)?;
    }
    Ok(())
}

/// Measures the middles of the stitches from their mean, so that all together pull to no side, and has the job end at the
/// highest stitch.
fn finish<const STITCHES: usize, const CELLS: usize, const LINKS: usize>(
    highest: (f64, u16),
    workspace: &mut Workspace<STITCHES, CELLS, LINKS>,
) {
    let mut mean = [0_i32; 3];
    for stitch in &workspace.stitches {
        for (sum, value) in mean.iter_mut().zip(stitch.middle) {
            *sum += i32::from(value);
        }
    }
    let count = i32::try_from(workspace.stitches.len()).unwrap_or(1).max(1);
    for stitch in &mut workspace.stitches {
        for (value, sum) in stitch.middle.iter_mut().zip(mean) {
            *value = value.saturating_sub(i16::try_from(sum / count).unwrap_or(0));
        }
    }
    if let Some(stitch) = workspace.stitches.get_mut(usize::from(highest.1))
        && highest.0.is_finite()
    {
        stitch.last = true;
    }
}
