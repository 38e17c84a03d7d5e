//! A job and its body, and every stage that follows from the two.

use super::{Assumed, Job, JobError, Problem, blame};
use crate::arc::Arc;
use crate::blank::panel::{Blank, BlankError, Groups, Panel, Plan};
use crate::body::{Body, Edge, Solid};
use crate::capacity::{Capacity, CapacityError, Lean, Pool, Space, Stick};
use crate::fitting::{Baffle, Fitting, Inner, PlaceError};
use crate::input::{Draft, Face, Field};
use crate::seam::Division;
use crate::seam::{self, Seam, Tacks};
use crate::units::range::OutOfRange;
use crate::units::{Energy, Length, Mass, Time};

/// Marks that a dip chart may have.
pub const MAX_MARKS: u16 = 1_000;

/// A tank: a checked job with its body. Stages that are cheap to compute are computed when asked for,
/// so that on a small machine nothing but the body is held; about 12 KiB.
#[derive(Clone, Debug, PartialEq)]
pub struct Tank {
    pub(crate) job: Job,
    pub(crate) body: Body,
    pub(crate) inner: Inner,
    pub(crate) capacity: Capacity,
    /// Where the dip rod stands, once found: for some bodies a long search.
    pub(crate) rod: Option<Stick>,
}

/// Sums over the whole job.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
pub struct Totals {
    /// Welded seams together.
    pub seam: Length,
    /// Tacks.
    pub tacks: u32,
    /// Stitches.
    pub stitches: u32,
    /// Time with the arc burning along seams, tacks not counted.
    pub arc: Time,
    /// Heat input along all seams.
    pub heat: Energy,
    /// All blanks together.
    pub mass: Mass,
}

impl Tank {
    /// Checks a draft and builds its body.
    ///
    /// # Errors
    /// [`JobError`] names the input at fault, its value and its limit.
    pub fn build(draft: &Draft) -> Result<Self, JobError> {
        Self::build_noting(draft, |_| ())
    }

    /// The same, calling `assumed` for every value that the draft leaves to its default.
    ///
    /// # Errors
    /// [`JobError`] names the input at fault, its value and its limit.
    pub fn build_noting(draft: &Draft, assumed: impl FnMut(Assumed)) -> Result<Self, JobError> {
        let mut tank = Self::EMPTY;
        tank.rebuild_noting(draft, assumed)?;
        Ok(tank)
    }

    /// A place for a tank that is about to be made: on a small machine it is built where it stays. It
    /// holds nothing and has no faces.
    /// It is all zeros, down to the tags of its choices, so that a static that holds one takes no flash.
    pub const EMPTY: Self = Self {
        job: Job::EMPTY,
        body: Body::EMPTY,
        inner: Inner::EMPTY,
        capacity: Capacity::NONE,
        rod: None,
    };

    /// Makes this the tank of a draft, in its place. After an error it is of no use until it is made
    /// again.
    ///
    /// # Errors
    /// [`JobError`] names the input at fault, its value and its limit.
    pub fn rebuild(&mut self, draft: &Draft) -> Result<(), JobError> {
        self.rebuild_noting(draft, |_| ())
    }

    fn rebuild_noting(
        &mut self,
        draft: &Draft,
        assumed: impl FnMut(Assumed),
    ) -> Result<(), JobError> {
        self.job.take(draft, assumed)?;
        self.make()
    }

    /// The first half of [`Tank::rebuild`]: checks a draft and takes it in. The tank is of no use until
    /// [`Tank::make`] has made the rest; between the two the draft, some 3 KiB, may go.
    ///
    /// # Errors
    /// [`JobError`] names the input at fault, its value and its limit.
    #[inline(never)]
    pub fn take(&mut self, draft: &Draft) -> Result<(), JobError> {
        self.job.take(draft, |_| ())
    }

    /// The second half: makes body, fittings and baffles, and looks at every joint and blank.
    ///
    /// # Errors
    /// [`JobError`] names the input at fault, its value and its limit.
    #[inline(never)]
    pub fn make(&mut self) -> Result<(), JobError> {
        self.job
            .shape
            .make(&self.job.sheet, &mut self.body)
            .map_err(|error| JobError {
                field: blame::shape(&error),
                problem: Problem::Shape(error),
            })?;
        self.check_joints()?;
        self.place()?;
        let (headspace, neck) = (self.job.headspace, self.job.neck);
        let space = Space::new(&self.body.inside, &self.inner);
        self.capacity =
            Capacity::level(space, headspace, neck, self.job.pick_up).map_err(|error| {
                let (field, error) = match error {
                    CapacityError::PickUp(error) => (Field::PickUp, error),
                    CapacityError::Neck(error) => (Field::Neck, error),
                };
                JobError {
                    field,
                    problem: Problem::OutOfRange(error),
                }
            })?;
        self.check_counts()?;
        self.set_rod()
    }

    /// Finds where the dip rod stands.
    fn set_rod(&mut self) -> Result<(), JobError> {
        self.rod = match self.job.dip_at {
            None => None,
            Some([x, y]) => {
                Some(
                    Stick::upright(&self.body.inside, x, y).map_err(|_| JobError {
                        field: Field::DipAt,
                        problem: Problem::OverNoLiquid,
                    })?,
                )
            }
        };
        Ok(())
    }

    /// Finds where the fittings and the baffles sit.
    #[inline(never)]
    fn place(&mut self) -> Result<(), JobError> {
        self.inner = Inner::EMPTY;
        let Self {
            job, body, inner, ..
        } = self;
        let plan = Plan {
            body,
            sheet: &job.sheet,
            joints: &job.joints,
            larger: &[],
        };
        for (draft, number) in job.fittings.iter().zip(1_u8..) {
            let blame = |error| JobError {
                field: blame::fitting(number, &error),
                problem: Problem::Place(error),
            };
            let fitting = Fitting::place(&plan, draft).map_err(blame)?;
            let before = job.fittings.iter().take(usize::from(number - 1));
            if let Some(other) = fitting.runs_into(&plan, before) {
                return Err(blame(PlaceError::Overlap { other }));
            }
            if let Some(stub) = fitting.stub() {
                // As many as there may be fittings.
                let _ = inner.stubs.push(stub);
            }
        }
        for (draft, number) in job.baffles.iter().zip(1_u8..) {
            let thickness = draft.thickness.unwrap_or(job.thickness);
            let baffle = Baffle::place(body, draft, thickness).map_err(|(error, hole)| {
                let field = match hole {
                    Some(hole) => Field::BaffleHoleAt(number, hole),
                    None => blame::baffle(number, &job.shape, draft.across, &error),
                };
                JobError {
                    field,
                    problem: Problem::Place(error),
                }
            })?;
            let _ = inner.baffles.push(baffle);
        }
        Ok(())
    }

    /// The fittings, in the order of the job.
    pub fn fittings(&self) -> impl Iterator<Item = Fitting<'_>> {
        let plan = self.plan();
        self.job
            .fittings
            .iter()
            .filter_map(move |draft| Fitting::place(&plan, draft).ok())
    }

    /// What stands within: baffles, and parts of fittings.
    #[must_use]
    pub const fn inner(&self) -> &Inner {
        &self.inner
    }

    /// The space that holds liquid: the inside less what stands in it.
    #[must_use]
    pub const fn space(&self) -> Space<'_> {
        Space::new(&self.body.inside, &self.inner)
    }

    /// The checked inputs.
    #[must_use]
    pub const fn job(&self) -> &Job {
        &self.job
    }

    /// Outside and inside of the sheet.
    #[must_use]
    pub const fn body(&self) -> &Body {
        &self.body
    }

    /// What the sheet encloses.
    #[must_use]
    pub const fn inside(&self) -> &Solid {
        &self.body.inside
    }

    /// What it holds when it stands level.
    #[must_use]
    pub const fn capacity(&self) -> &Capacity {
        &self.capacity
    }

    /// The liquid in it, at a lean.
    #[must_use]
    pub fn pool(&self, lean: Lean) -> Pool<'_> {
        Pool::new(self.space(), lean)
    }

    /// What the panels and seams follow from.
    #[must_use]
    pub const fn plan(&self) -> Plan<'_> {
        Plan {
            body: &self.body,
            sheet: &self.job.sheet,
            joints: &self.job.joints,
            larger: &[],
        }
    }

    /// The panels, in the order of their first faces, and the baffles after them.
    pub fn panels(&self) -> impl Iterator<Item = Panel> {
        let baffles = u8::try_from(self.inner.baffles().len()).unwrap_or(0);
        self.plan()
            .panels(self.job.alloy.density())
            .chain((0..baffles).filter_map(|place| self.baffle_panel(place)))
    }

    /// The blank of a panel, laid flat, written to `blank`.
    ///
    /// # Errors
    /// None for a panel of this tank: [`Tank::build`] has looked at every one.
    pub fn blank(&self, panel: &Panel, blank: &mut Blank) -> Result<(), BlankError> {
        match panel.face() {
            Face::Baffle(number) => {
                let place = usize::from(number.saturating_sub(1));
                match self.inner.baffles().get(place) {
                    Some(baffle) => blank.lay_plate(number, baffle.plate()),
                    None => Ok(()),
                }
            }
            _ => self.plan().blank(panel, blank),
        }
    }

    /// The seams and folds: of the body, in the order of the edges of its outside, the line along which
    /// a wrapper is closed after them; then those of baffles and of fittings.
    pub fn seams(&self) -> impl Iterator<Item = Seam> {
        let groups = self.plan().groups();
        let within =
            (0..self.seams_within()).filter_map(move |place| self.seam_within(&groups, place));
        self.plan().seams().chain(within)
    }

    /// The seam at a place of the list and the way that it runs, for whoever goes through them one at a time and
    /// keeps the groups of this tank's panels.
    pub(crate) fn seam_at(&self, groups: &Groups, place: usize) -> Option<(Seam, Edge)> {
        let plan = self.plan();
        let own = seam::count(&plan, groups);
        if place < own {
            let edge = seam::edge_of(&plan, groups, place)?;
            return Some((plan.seam(groups, place, &edge), edge));
        }
        let (edge, _) = self.edge_within(place - own)?;
        Some((self.seam_within(groups, place - own)?, edge))
    }

    /// How many panels there are.
    #[must_use]
    pub fn panel_count(&self) -> usize {
        usize::from(self.plan().groups().count()) + self.inner.baffles().len()
    }

    /// How many seams and folds there are.
    #[must_use]
    pub fn seam_count(&self) -> usize {
        let plan = self.plan();
        seam::count(&plan, &plan.groups()) + self.seams_within()
    }

    /// The way that the seam at a place of the list runs.
    #[must_use]
    pub fn edge_of_seam(&self, place: usize) -> Option<Edge> {
        let plan = self.plan();
        let groups = plan.groups();
        let own = seam::count(&plan, &groups);
        if place < own {
            return seam::edge_of(&plan, &groups, place);
        }
        self.edge_within(place - own).map(|(edge, _)| edge)
    }

    /// The tacks of a seam; a fold has none.
    #[must_use]
    pub fn tacks(&self, seam: &Seam) -> Option<Tacks> {
        seam.joint?;
        Tacks::spaced(
            seam.length,
            self.job.tack_length(seam.thicker),
            self.job.tack_pitch(seam.thinner),
        )
    }

    /// The stitches of a seam; a fold has none.
    #[must_use]
    pub fn division(&self, seam: &Seam) -> Option<Division> {
        seam.joint?;
        Division::of(seam.length, self.job.stitch_max)
    }

    /// Settings of the arc.
    #[must_use]
    pub const fn arc(&self) -> &Arc {
        &self.job.arc
    }

    /// Sums over the whole job.
    #[must_use]
    pub fn totals(&self) -> Totals {
        let mut totals = Totals::default();
        for seam in self.seams().filter(|seam| seam.welded) {
            totals.seam = Length::from_metres(totals.seam.si() + seam.length.si());
            totals.tacks += self.tacks(&seam).map_or(0, |tacks| u32::from(tacks.count));
            totals.stitches += self
                .division(&seam)
                .map_or(0, |division| u32::from(division.count));
        }
        totals.arc = self.arc().time_along(totals.seam);
        totals.heat = self.arc().heat_along(totals.seam);
        totals.mass = Mass::from_kilograms(self.panels().map(|panel| panel.mass.si()).sum());
        totals
    }
}

impl From<OutOfRange> for Problem {
    fn from(error: OutOfRange) -> Self {
        Self::OutOfRange(error)
    }
}
