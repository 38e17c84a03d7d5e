//! How warm each stitch alone makes the places where the others start, while time goes by.
//!
//! Conduction is linear and losses nearly so, hence what an order makes of the metal is nearly the sum of what its
//! stitches do. From a table of that, an order is judged in microseconds ([`estimate`](super::estimate)), where following
//! its heat takes milliseconds. Each stitch is burnt on its own on cold sheets, divided as coarsely as steps of [`STEP`] need
//! it, with what stands in its own stage of building.

use core::ops::Range;

use heapless::Vec;

use super::laid::LaidStitch;
use super::options::PlanOptions;
use super::planner::Planner;
use super::procedure::{Procedure, material};
use super::workspace::{PlanError, Workspace};
use crate::heat::shell::{Fineness, Spot};
use crate::tank::Tank;

/// Ages at which the warmth is looked at, from the end of a stitch's arc: four to each doubling, from [`YOUNGEST`] on.
pub(super) const AGES: usize = 29;
/// The first of them, in s.
pub(super) const YOUNGEST: f32 = 8.0;
/// Length of a step of the shell, in s: each age is a whole number of them.
const STEP: f64 = 2.0;
/// From this age to the last, three doublings on, the rate at which the whole cools in the end is taken.
const LATE: usize = AGES - 13;

/// The age of this number, in s.
pub(super) fn age(number: usize) -> f32 {
    let quarters = (4 + number % 4) << (number / 4);
    0.25 * YOUNGEST * quarters as f32
}

/// How many figures the table of a tank with so many stitches has.
pub(super) const fn figures(count: usize) -> usize {
    count * row(count)
}

/// How many figures of it belong to one stitch: how warm it makes the two ends of each other, at each age.
pub(super) const fn row(count: usize) -> usize {
    2 * AGES * count
}

/// The two ends of each stitch.
type Ends<const STITCHES: usize> = Vec<[Option<Spot>; 2], STITCHES>;

impl<const STITCHES: usize> Planner<STITCHES> {
    /// Fills the rows of those stitches, in K over the surroundings; the sum of the rates at which their heat is lost in the
    /// end, in 1/s.
    pub(super) fn respond(
        &mut self,
        tank: &Tank,
        options: &PlanOptions,
        sources: Range<usize>,
        rows: &mut [f32],
    ) -> Result<f32, PlanError> {
        let spread = libm::sqrt(2.0 * STEP * material(tank).diffusivity());
        let fineness = Fineness {
            // A hair wider, lest a step be that much shorter.
            rim: libm::fmax(options.cell_width.si(), 1.001 * spread),
            longest: STEP,
            ..options.fineness()
        };
        self.lay_out_as(tank, options, &fineness)?;
        let (workspace, procedure) = self.laid_out();
        let mut ends = Ends::<STITCHES>::new();
        for stitch in &workspace.stitches {
            let edge = tank.edge_of_seam(usize::from(stitch.seam));
            // There is one for each stitch.
            let _ = ends.push([false, true].map(|reversed| {
                let edge = edge.as_ref()?;
                workspace.start_of(stitch, reversed, edge)
            }));
        }
        let mut decay = 0.0;
        let wide = row(ends.len()).max(1);
        for (source, row) in sources.zip(rows.chunks_exact_mut(wide)) {
            row.fill(0.0);
            if let Some(stitch) = workspace.stitches.get(source).copied() {
                decay += respond_to(tank, &stitch, workspace, procedure, &ends, row);
            }
        }
        Ok(decay)
    }
}

/// Burns one stitch and fills its row; the rate at which its heat is lost in the end, in 1/s.
fn respond_to<const STITCHES: usize>(
    tank: &Tank,
    stitch: &LaidStitch,
    workspace: &mut Workspace<STITCHES>,
    procedure: &Procedure,
    ends: &Ends<STITCHES>,
    row: &mut [f32],
) -> f32 {
    let Some(edge) = tank.edge_of_seam(usize::from(stitch.seam)) else {
        return 0.0;
    };
    let Workspace { mesh, shell, .. } = workspace;
    shell.rest();
    shell.stand_at(stitch.stage);
    let step = shell.step_length();
    let (from, length) = stitch.lies(edge.length().si());
    let arc = length / procedure.travel;
    let parts = libm::fmax(libm::ceil(arc / step), 1.0);
    let heat = procedure.power * arc / parts;
    let mut part = 0.5;
    while part < parts {
        let spot = mesh.spot(&edge, from + length * part / parts, shell);
        shell.pass(spot.map(|spot| (spot, heat)));
        part += 1.0;
    }
    let mut passed = 0.0;
    let mut late = 0.0;
    for number in 0..AGES {
        let then = f64::from(age(number));
        while passed + 0.5 * step < then {
            shell.pass(None);
            passed += step;
        }
        if number == LATE {
            late = shell.energy();
        }
        for (ends, row) in ends.iter().zip(row.chunks_exact_mut(2 * AGES)) {
            let slots = row.iter_mut().skip(2 * number);
            for (slot, spot) in slots.zip(ends) {
                *slot = spot.map_or(0.0, |spot| shell.warmth_at(spot)) as f32;
            }
        }
    }
    let left = shell.energy() / late;
    if left > 0.0 && left < 1.0 {
        -libm::log(left) as f32 / (age(AGES - 1) - age(LATE))
    } else {
        0.0
    }
}
