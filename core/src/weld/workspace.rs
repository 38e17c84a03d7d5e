//! What a simulation works on: the heat of a tank's sheets and its stitches.

use core::fmt;

use heapless::Vec;

use super::laid::LaidStitch;
use super::options::{GAUGE_CELLS, GAUGE_LINKS};
use crate::body::Edge;
use crate::build::BuildOrder;
use crate::heat::shell::{Mesh, Shell, Spot};
use crate::seam::MAX_SEAMS;

/// Why there is no plan.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum PlanError {
    /// The metal does not come below the interpass limit within two hours, or the job not to its end within a day.
    NeverCool,
    /// The tank has more stitches than the planner has room for.
    TooMany,
    /// The tank has more walls than cells.
    Mesh,
}

impl fmt::Display for PlanError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::NeverCool => {
                "no order of welding: the metal needs over two hours to cool below the interpass limit, or the job over a day; raise the limit, weld in cooler air, or check current and travel"
            }
            Self::TooMany => "more stitches than a plan may have: make stitch_max longer",
            Self::Mesh => "the tank has more walls than its heat can be followed in",
        })
    }
}

impl core::error::Error for PlanError {}

/// A tank laid out in cells, with its stitches, as many as there is room for.
#[derive(Debug)]
pub(super) struct Workspace<
    const STITCHES: usize,
    const CELLS: usize = GAUGE_CELLS,
    const LINKS: usize = GAUGE_LINKS,
> {
    /// Its sheets, divided into cells.
    pub(super) mesh: Mesh,
    /// The heat in the cells.
    pub(super) shell: Shell<CELLS, LINKS>,
    /// In which order it goes together.
    pub(super) build: BuildOrder,
    /// The stage by which the sides of each edge stand, as the mesh asks.
    pub(super) joined: Vec<u8, MAX_SEAMS>,
    /// Its stitches, seam by seam.
    pub(super) stitches: Vec<LaidStitch, STITCHES>,
}

impl<const STITCHES: usize, const CELLS: usize, const LINKS: usize>
    Workspace<STITCHES, CELLS, LINKS>
{
    /// With no tank in it.
    pub(super) const fn new() -> Self {
        Self {
            mesh: Mesh::new(),
            shell: Shell::new(),
            build: BuildOrder::NONE,
            joined: Vec::new(),
            stitches: Vec::new(),
        }
    }

    /// The place on an edge where one of its stitches starts.
    pub(super) fn start_of(
        &self,
        stitch: &LaidStitch,
        reversed: bool,
        edge: &Edge,
    ) -> Option<Spot> {
        let (from, length) = stitch.lies(edge.length().si());
        let at = if stitch.pitch > 0.0 {
            from + if reversed { length } else { 0.0 }
        } else {
            length * f64::from(stitch.number + u16::from(reversed))
        };
        self.mesh.spot(edge, at, &self.shell)
    }

    /// The mean of the cells where a stitch starts, in K over the surroundings: good enough to choose by.
    pub(super) fn rough_warmth(&self, stitch: &LaidStitch, reversed: bool) -> f64 {
        let [ahead, back] = stitch.ends;
        let end = if reversed { back } else { ahead };
        let [a, b] = end.map(|cell| self.shell.warmth(cell));
        0.5 * (a + b)
    }
}
