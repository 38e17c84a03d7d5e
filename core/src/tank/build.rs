//! A tank made from a draft: its inputs checked, its body built, everything in it placed.

use super::ranged::ranged;
use super::{Assumed, Job, JobError, Problem, blame};
use crate::blank::PanelPlan;
use crate::body::Body;
use crate::capacity::{Capacity, CapacityError, Space, Stick};
use crate::fitting::{Baffle, Fitting, Inner, PlaceError};
use crate::input::{Draft, Field};
use crate::units::Volume;
use crate::units::range::{OutOfRange, Value};

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

impl Tank {
    /// Checks a draft and builds its body.
    ///
    /// ```
    /// # use seamwright_core::prelude::*;
    /// # let mm = |value| Length::new(value, LengthUnit::Millimetre);
    /// # let outside = Block::new(mm(320.0), mm(180.0), mm(160.0));
    /// # let draft = Draft::new("Header tank", outside, StockDraft::of(Alloy::A5754, mm(2.0)))?;
    /// let tank = Tank::build(&draft)?;
    /// assert_eq!(tank.job().name(), "Header tank");
    /// assert_eq!((tank.panels().count(), tank.seams().count()), (6, 12));
    /// # Ok::<(), Box<dyn core::error::Error>>(())
    /// ```
    ///
    /// # Errors
    /// [`JobError`] names the input at fault, its value and its limit.
    pub fn build(draft: &Draft) -> Result<Self, JobError> {
        Self::build_noting(draft, |_| ())
    }

    /// [`Tank::build`], calling `assumed` for every value that the draft leaves to its default.
    ///
    /// ```
    /// # use seamwright_core::prelude::*;
    /// # let mm = |value| Length::new(value, LengthUnit::Millimetre);
    /// # let outside = Block::new(mm(320.0), mm(180.0), mm(160.0));
    /// # let draft = Draft::new("Header tank", outside, StockDraft::of(Alloy::A5754, mm(2.0)))?;
    /// // What the draft leaves open is told, with what was taken and why.
    /// let mut taken = 0;
    /// Tank::build_noting(&draft, |_| taken += 1)?;
    /// assert!(taken > 0);
    /// # Ok::<(), Box<dyn core::error::Error>>(())
    /// ```
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
        if let Some(reaches) = self.job.reaches {
            let range = (Volume::default(), self.capacity.fill);
            self.capacity.usable = ranged(Field::Reaches, reaches, range, Value::Volume)?;
        }
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
        let plan = PanelPlan {
            body,
            sheet: &job.sheet,
            joints: &job.joints,
            allowances: &[],
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
            for (wall, place) in draft.free.iter().zip(1_u8..) {
                let mut walls = (0..baffle.seam_count()).map(|at| baffle.wall(&body.inside, at));
                if walls.all(|other| other != Some(*wall)) {
                    return Err(JobError {
                        field: Field::BaffleFree(number, place),
                        problem: Problem::NotAtBaffle(*wall),
                    });
                }
            }
            let _ = inner.baffles.push(baffle);
        }
        Ok(())
    }
}

impl From<OutOfRange> for Problem {
    fn from(error: OutOfRange) -> Self {
        Self::OutOfRange(error)
    }
}
