//! Whether a tank can be built as it is described: its joints, its blanks, and how many of each thing.

use super::{JobError, Problem, Tank};
use crate::blank::joint::is_same_edge;
use crate::blank::{Blank, BlankError, Meeting};
use crate::input::limits::{MAX_MARKS, MAX_STITCHES};
use crate::input::{Face, Field, Shape};

impl Tank {
    /// Every edge that is named is there, every joint suits its edge, every panel comes out of flat sheet.
    #[inline(never)]
    pub(crate) fn check_joints(&self) -> Result<(), JobError> {
        let joints = &self.job.joints;
        let outside = &self.body.outside;
        // A fold is round too, but not because it is drawn so.
        let is_drawn = |faces: [Face; 2]| match &self.job.shape {
            Shape::Profile(profile) => profile.is_round(faces),
            _ => false,
        };
        let named = |faces: [Face; 2], field: Field| match outside.sharp_edge_between(faces) {
            None => Err(JobError {
                field,
                problem: Problem::NoSuchEdge(faces),
            }),
            Some(_) if is_drawn(faces) => Err(JobError {
                field,
                problem: Problem::EdgeTaken(faces),
            }),
            Some(edge) => Ok(edge),
        };
        for (own, number) in joints.own().iter().zip(1_u8..) {
            named(own.faces, Field::OwnJoint(number))?;
        }
        for (fold, number) in joints.folds().iter().zip(1_u8..) {
            let field = Field::Fold(number);
            named(*fold, field)?;
            let [a, b] = fold.map(|face| self.job.sheet.of(face));
            if a != b {
                return Err(JobError {
                    field,
                    problem: Problem::FoldOfTwoSheets(*fold),
                });
            }
        }
        let plan = self.plan();
        for edge in outside.sharp_edges() {
            let own = joints
                .own()
                .iter()
                .zip(1_u8..)
                .find(|(own, _)| is_same_edge(own.faces, edge.faces));
            plan.check(&edge).map_err(|error| JobError {
                field: match (&error, own) {
                    (BlankError::Joint { .. }, Some((_, number))) => Field::OwnJoint(number),
                    (BlankError::Joint { .. }, None) => Field::JointsDefault,
                    _ => Field::BendRadius,
                },
                problem: Problem::Blank(error),
            })?;
        }
        let bent = outside
            .sharp_edges()
            .any(|edge| joints.at(&edge) == Meeting::Folded);
        if bent { self.check_blanks() } else { Ok(()) }
    }

    /// Lays every bent panel flat.
    #[inline(never)]
    fn check_blanks(&self) -> Result<(), JobError> {
        let mut blank = Blank::new();
        for panel in self.panels() {
            self.blank(&panel, &mut blank).map_err(|error| JobError {
                field: if self.job.joints.folds().is_empty() {
                    Field::Shape
                } else {
                    Field::Fold(1)
                },
                problem: Problem::Blank(error),
            })?;
        }
        Ok(())
    }

    pub(crate) fn check_counts(&self) -> Result<(), JobError> {
        let mut stitches = 0_u32;
        for seam in self.seams().filter(|seam| seam.welded) {
            let more = self
                .division(&seam)
                .map_or(u32::from(MAX_STITCHES) + 1, |d| u32::from(d.count));
            stitches = stitches.saturating_add(more);
            if self.tacks(&seam).is_none() && self.plugs_divided(&seam).is_none() {
                return Err(JobError {
                    field: Field::TackPitch,
                    problem: Problem::TooManyTacks,
                });
            }
        }
        if stitches > u32::from(MAX_STITCHES) {
            let problem = Problem::TooManyStitches {
                needed: stitches,
                most: MAX_STITCHES,
            };
            return Err(JobError {
                field: Field::StitchMax,
                problem,
            });
        }
        let by_volume = self
            .job
            .dip_volume
            .map_or(0.0, |step| self.capacity.brim.si() / step.si());
        if by_volume > f64::from(MAX_MARKS) {
            // At most 8000 m³ in steps of a millilitre: 8e9 is past u32, which then says its most.
            let problem = Problem::TooManyMarks {
                needed: libm::fmin(by_volume, 4e9) as u32,
                most: MAX_MARKS,
            };
            return Err(JobError {
                field: Field::DipVolume,
                problem,
            });
        }
        let marks =
            crate::geom::split::pieces(self.capacity.full_depth.si(), self.job.dip_step.si());
        if marks > f64::from(MAX_MARKS) {
            // A size of at most 20 m in steps of at least 0.1 mm: far below the bound of u32.
            let problem = Problem::TooManyMarks {
                needed: marks as u32,
                most: MAX_MARKS,
            };
            return Err(JobError {
                field: Field::DipStep,
                problem,
            });
        }
        Ok(())
    }
}
