//! The welding as it stands: what the choice of the next stitch asks for.

use super::laid::LaidStitch;
use super::procedure::Procedure;
use super::pull::Pull;
use super::workspace::Workspace;

/// The welding as it stands when the next stitch is to be chosen.
pub(super) struct State<'a, const STITCHES: usize, const CELLS: usize, const LINKS: usize> {
    pub(super) workspace: &'a Workspace<STITCHES, CELLS, LINKS>,
    /// Whether each stitch is still to be welded.
    pub(super) left: &'a [bool],
    /// How many are welded.
    pub(super) welded: usize,
    pub(super) panels: &'a Panels,
    pub(super) pull: &'a Pull,
    pub(super) procedure: &'a Procedure,
}

/// How many stitches each panel has, and how many of them are welded.
pub(super) type Panels = [[u16; 2]; PANELS];
/// Marks of panels lie below this: walls and baffles to 25, fittings from 27.
const PANELS: usize = 48;
/// No stitches at any panel.
pub(super) const NO_PANELS: Panels = [[0; 2]; PANELS];

/// Adds one to a count of both panels beside a stitch: 0 for those it has, 1 for those that are welded.
pub(super) fn count(panels: &mut Panels, stitch: &LaidStitch, which: usize) {
    let [one, other] = stitch.panels;
    let both = [Some(one), (other != one).then_some(other)];
    for panel in both.into_iter().flatten() {
        let slot = panels.get_mut(usize::from(panel));
        if let Some(slot) = slot.and_then(|counts| counts.get_mut(which)) {
            *slot += 1;
        }
    }
}

impl<const STITCHES: usize, const CELLS: usize, const LINKS: usize>
    State<'_, STITCHES, CELLS, LINKS>
{
    /// The earliest turn of which a stitch is left.
    pub(super) fn turn(&self) -> Option<u8> {
        self.candidates().map(|(_, stitch)| stitch.turn()).min()
    }

    /// The stitches that are left, by their numbers.
    pub(super) fn candidates(&self) -> impl Iterator<Item = (u16, LaidStitch)> + '_ {
        (0_u16..)
            .zip(&self.workspace.stitches)
            .zip(self.left)
            .filter(|(_, left)| **left)
            .map(|((number, stitch), _)| (number, *stitch))
    }

    /// The share of a panel's stitches that is welded, 0 to 1.
    pub(super) fn progress(&self, panel: u8) -> f64 {
        let counts = self.panels.get(usize::from(panel));
        let counts = counts.copied().unwrap_or_default();
        f64::from(counts[1]) / f64::from(counts[0].max(1))
    }

    /// Whether a stitch is on the same seam and welded already; numbers count all seams' stitches, so those of neighbours
    /// on a seam follow one another.
    pub(super) fn is_welded(&self, stitch: &LaidStitch, other: Option<u16>) -> bool {
        let Some(place) = other.map(usize::from) else {
            return false;
        };
        let other = self.workspace.stitches.get(place);
        other.is_some_and(|other| other.seam == stitch.seam)
            && self.left.get(place).is_some_and(|left| !left)
    }
}
