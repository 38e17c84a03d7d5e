//! The stitches of a tank by number, and whether an order welds each of them once.

use super::WeldStep;
use crate::input::limits::MAX_STITCHES;
use crate::seam::{Division, Seam};
use crate::tank::Tank;

/// One stitch of a tank.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Stitch {
    /// The place of its seam in the list of seams.
    pub place: usize,
    /// Its seam.
    pub seam: Seam,
    /// The stitches of that seam.
    pub division: Division,
    /// Which of them it is, from 0.
    pub number: u16,
}

impl Tank {
    /// The stitch of a number: counted from 0, seam by seam, as a [`WeldStep`] has it.
    #[must_use]
    pub fn stitch(&self, run: u8) -> Option<Stitch> {
        let mut before = 0;
        for (place, seam) in self.seams().enumerate() {
            let Some(division) = self.division(&seam) else {
                continue;
            };
            let number = u16::from(run) - before;
            if number < division.count {
                return Some(Stitch {
                    place,
                    seam,
                    division,
                    number,
                });
            }
            before += division.count;
        }
        None
    }

    /// Whether an order welds every stitch of this tank once, and nothing else.
    #[must_use]
    pub fn is_order(&self, steps: impl Iterator<Item = WeldStep>) -> bool {
        let count: u32 = self
            .seams()
            .filter_map(|seam| self.division(&seam))
            .map(|division| u32::from(division.count))
            .sum();
        let mut seen = [false; MAX_STITCHES as usize];
        let mut welded = 0;
        for step in steps {
            match seen.get_mut(usize::from(step.stitch)) {
                Some(slot) if !*slot && u32::from(step.stitch) < count => *slot = true,
                _ => return false,
            }
            welded += 1;
        }
        welded == count && count > 0
    }
}
