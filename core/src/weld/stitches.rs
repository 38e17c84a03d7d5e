//! The stitches of a tank by number, and whether an order welds each of them once.

use super::WeldStep;
use crate::seam::{Division, Seam, SeamMark};
use crate::tank::Tank;
use crate::units::{Energy, Length, Time};

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

/// One stitch of a seam, whenever it is welded.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SeamStitch {
    /// The mark of its seam.
    pub seam: SeamMark,
    /// Where it begins, from its seam's first end.
    pub from: Length,
    /// Where it ends.
    pub to: Length,
    /// How long its arc burns.
    pub arc: Time,
    /// Heat input, with the efficiency of the job's process.
    pub heat_input: Energy,
}

impl Tank {
    /// The stitch of a number: counted from 0, seam by seam, as a [`WeldStep`] has it.
    #[must_use]
    pub fn stitch(&self, run: u16) -> Option<Stitch> {
        let mut before = 0;
        for (place, seam) in self.seams().enumerate() {
            let Some(division) = self.division(&seam) else {
                continue;
            };
            let number = run - before;
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

    /// Every stitch of its seams, seam by seam, whether or not there is a plan that orders them.
    pub fn seam_stitches(&self) -> impl Iterator<Item = SeamStitch> {
        let arc = *self.arc();
        self.seams()
            .filter_map(|seam| Some((seam, self.division(&seam)?)))
            .flat_map(move |(seam, division)| {
                division.runs().map(move |[from, to]| {
                    let length = Length::from_metres(to.si() - from.si());
                    SeamStitch {
                        seam: seam.mark,
                        from,
                        to,
                        arc: arc.time_along(length),
                        heat_input: arc.heat_along(length),
                    }
                })
            })
    }

    /// Whether an order welds every stitch of this tank once, and nothing else.
    #[must_use]
    pub fn is_order(&self, steps: impl Iterator<Item = WeldStep>) -> bool {
        let count: u32 = self
            .seams()
            .filter_map(|seam| self.division(&seam))
            .map(|division| u32::from(division.count))
            .sum();
        let mut seen = [false; WeldStep::MOST];
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
