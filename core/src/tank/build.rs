//! A tank made from a draft: its inputs checked, its body built, everything in it placed.

use super::ranged::{Bounds, Inspection};
use super::{Assumed, Job, JobError, Problem, blame};
use crate::blank::PanelPlan;
use crate::body::{Body, ShapeError};
use crate::capacity::{Capacity, CapacityError, Space, Stick};
use crate::fitting::{Baffle, BaffleCut, Fitting, Inner, PlaceError, PlugWelds, RoomError};
use crate::input::{Draft, Face, Field, Shape};
use crate::seam::{Division, Seam};
use crate::units::range::{OutOfRange, Value};
use crate::units::{Length, Volume};

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
    /// How plug welds are laid out, where it may have some.
    pub(crate) plugs: PlugRows,
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
        tank.rebuild_noting(draft, &Cutting::NONE, assumed)?;
        Ok(tank)
    }

    /// [`Tank::build_noting`] with baffles that are cut: the first cut is the first baffle's, and so on.
    ///
    /// ```
    /// # use seamwright_core::prelude::*;
    /// # use seamwright_core::fitting::BaffleCut;
    /// # use seamwright_core::input::{Across, BaffleDraft};
    /// # let mm = |value| Length::new(value, LengthUnit::Millimetre);
    /// # let outside = Block::new(mm(320.0), mm(180.0), mm(160.0));
    /// # let mut draft = Draft::new("Header tank", outside, StockDraft::of(Alloy::A5754, mm(2.0)))?;
    /// draft.baffles.push(BaffleDraft::new(Across::Length, mm(160.0))).ok();
    /// // 176 x 156 mm inside, of which the lowest 36 mm are left open.
    /// let cut = BaffleCut { gap_below: mm(36.0), ..BaffleCut::default() };
    /// let tank = Tank::build_cut(&draft, &[cut], |_| ())?;
    /// let baffle = tank.inner().baffles().first().ok_or("no baffle")?;
    /// assert!((baffle.area() - 0.176 * 0.120).abs() < 1e-12);
    /// # Ok::<(), Box<dyn core::error::Error>>(())
    /// ```
    ///
    /// # Errors
    /// [`JobError`] names the input at fault, its value and its limit.
    pub fn build_cut(
        draft: &Draft,
        cuts: &[BaffleCut],
        assumed: impl FnMut(Assumed),
    ) -> Result<Self, JobError> {
        let mut tank = Self::EMPTY;
        tank.rebuild_noting(draft, &Cutting::of(cuts), assumed)?;
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
        plugs: PlugRows::NONE,
    };

    /// Makes this the tank of a draft, in its place. After an error it is of no use until it is made
    /// again.
    ///
    /// # Errors
    /// [`JobError`] names the input at fault, its value and its limit.
    pub fn rebuild(&mut self, draft: &Draft) -> Result<(), JobError> {
        self.rebuild_noting(draft, &Cutting::NONE, |_| ())
    }

    /// [`Tank::rebuild`] with baffles that are cut, as in [`Tank::build_cut`].
    ///
    /// # Errors
    /// [`JobError`] names the input at fault, its value and its limit.
    pub fn rebuild_cut(&mut self, draft: &Draft, cuts: &[BaffleCut]) -> Result<(), JobError> {
        self.rebuild_noting(draft, &Cutting::of(cuts), |_| ())
    }

    fn rebuild_noting(
        &mut self,
        draft: &Draft,
        cutting: &Cutting<'_>,
        assumed: impl FnMut(Assumed),
    ) -> Result<(), JobError> {
        self.job.take(draft, assumed)?;
        self.plugs = cutting.plugs;
        self.make_by(Some(&Full {
            joints: Self::check_joints,
            fold: fold_body,
            cutting,
        }))?;
        self.check_free()?;
        self.check_plugs()?;
        self.check_room()
    }

    /// Looks whether every baffle meets the walls that it is to be free of.
    fn check_free(&self) -> Result<(), JobError> {
        let baffles = self.inner.baffles().iter().zip(&self.job.baffles);
        for ((baffle, draft), number) in baffles.zip(1_u8..) {
            for wall in draft.free.walls() {
                let places = 0..baffle.seam_count();
                let mut walls = places.map(|at| baffle.wall(&self.body.inside, at));
                if walls.all(|other| other != Some(wall)) {
                    return Err(JobError {
                        field: Field::BaffleFree(number, wall),
                        problem: Problem::NotAtBaffle(wall),
                    });
                }
            }
        }
        Ok(())
    }

    /// Looks whether every fitting and every hole of a baffle has the room that it takes. A gauge leaves it
    /// out: its jobs come from a laptop, which has looked.
    fn check_room(&self) -> Result<(), JobError> {
        let plan = self.plan();
        for (fitting, number) in self.fittings().zip(1_u8..) {
            let blame = |error| JobError {
                field: blame::fitting(number, &error),
                problem: Problem::Place(error),
            };
            let before = self.fittings().zip(1_u8..number);
            let stubs = before.filter_map(|(other, number)| Some((number, other.stub()?)));
            let drafts = self.job.fittings.iter().take(usize::from(number - 1));
            fitting.check_face(&plan).map_err(blame)?;
            if let Some(other) = fitting.runs_into(&plan, drafts) {
                return Err(blame(PlaceError::Overlap { other }));
            }
            fitting
                .check_room(&plan, &self.inner, stubs)
                .map_err(|error| blame(PlaceError::Room(error)))?;
        }
        for (baffle, number) in self.inner.baffles().iter().zip(1_u8..) {
            baffle.check_holes().map_err(|(error, hole)| JobError {
                field: Field::BaffleHoleAt(number, hole),
                problem: Problem::Place(error),
            })?;
        }
        Ok(())
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
    pub fn make(&mut self) -> Result<(), JobError> {
        self.make_by(Some(&Full {
            joints: Self::check_joints,
            fold: fold_body,
            cutting: &Cutting::NONE,
        }))
    }

    /// [`Tank::make`] on a machine without the flash for round folds: a job that
    /// has any is refused. Joints and blanks are not looked at: whoever sent the job has done so.
    ///
    /// # Errors
    /// [`JobError`] names the input at fault, its value and its limit.
    pub fn make_unfolded(&mut self) -> Result<(), JobError> {
        self.make_by(None)
    }

    #[inline(never)]
    fn make_by(&mut self, full: Option<&Full<'_>>) -> Result<(), JobError> {
        self.make_body(full.map(|full| full.fold))?;
        if let Some(full) = full {
            (full.joints)(self)?;
        }
        self.place()?;
        if let Some(full) = full {
            (full.cutting.cut)(self, full.cutting.cuts)?;
        }
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
            let mut look = Inspection::default();
            look.hold(Field::Reaches, reaches, &Bounds::of(range, Value::Volume));
            look.outcome()?;
            self.capacity.usable = reaches;
        }
        self.check_counts()?;
        self.set_rod()
    }

    /// The body, its folds as round as the sheet is bent.
    #[inline(never)]
    fn make_body(&mut self, fold: Option<Folding>) -> Result<(), JobError> {
        let Self { job, body, .. } = self;
        // Sharp first: what is wrong with that is the outline's, and not the bends'.
        job.shape.make(&job.sheet, body).map_err(|error| JobError {
            field: blame::shape(&error),
            problem: Problem::Shape(error),
        })?;
        if job.joints.folds().is_empty() {
            return Ok(());
        }
        match fold {
            Some(fold) => fold(job, body),
            None => Err(JobError {
                field: Field::Fold(1),
                problem: Problem::NoRoomForFold,
            }),
        }
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
            if let Some(stub) = fitting.stub() {
                // As many as there may be fittings.
                let _ = inner.stubs.push(stub);
            }
        }
        for (draft, number) in job.baffles.iter().zip(1_u8..) {
            let thickness = draft.thickness.unwrap_or(job.thickness);
            let baffle = Baffle::place(body, draft, thickness).map_err(|error| JobError {
                field: blame::baffle(number, &job.shape, draft.across, &error),
                problem: Problem::Place(error),
            })?;
            let _ = inner.baffles.push(baffle);
        }
        Ok(())
    }
}

/// What a machine with room for it does besides.
struct Full<'a> {
    joints: fn(&Tank) -> Result<(), JobError>,
    fold: Folding,
    cutting: &'a Cutting<'a>,
}

/// How baffles are cut. A program that never makes a tank with cuts does not hold what bends and plugs them.
struct Cutting<'a> {
    cuts: &'a [BaffleCut],
    cut: fn(&mut Tank, &[BaffleCut]) -> Result<(), JobError>,
    plugs: PlugRows,
}

impl Cutting<'_> {
    /// Nothing is cut but loose edges.
    const NONE: Self = Self {
        cuts: &[],
        cut: cut_rims,
        plugs: PlugRows::NONE,
    };
}

impl<'a> Cutting<'a> {
    /// As a job says, baffle by baffle.
    fn of(cuts: &'a [BaffleCut]) -> Self {
        Self {
            cuts,
            cut: cut_and_bend,
            plugs: if cuts.iter().all(|cut| cut.plugged.is_empty()) {
                PlugRows::NONE
            } else {
                PlugRows::SOME
            },
        }
    }
}

/// Cuts the baffles and bends their edges over.
fn cut_and_bend(tank: &mut Tank, cuts: &[BaffleCut]) -> Result<(), JobError> {
    cut_rims(tank, cuts)?;
    tank.bend_baffles(cuts)
}

/// Cuts the rims of the baffles, of which some may have nothing to be cut but a loose edge.
fn cut_rims(tank: &mut Tank, cuts: &[BaffleCut]) -> Result<(), JobError> {
    let Tank {
        job, body, inner, ..
    } = &mut *tank;
    let baffles = inner.baffles.iter_mut().zip(&job.baffles);
    for (((baffle, draft), place), number) in baffles.zip(0..).zip(1_u8..) {
        let plain = BaffleCut::default();
        let cut = cuts.get::<usize>(place).unwrap_or(&plain);
        baffle
            .cut(&body.inside, draft.free, cut)
            .map_err(|(fault, limit)| JobError {
                field: Field::Baffle(number),
                problem: Problem::Place(PlaceError::Room(RoomError::Cut {
                    fault,
                    limit: Length::from_metres(limit),
                })),
            })?;
    }
    Ok(())
}

/// Rounds the folds of a job's body, which is sharp.
type Folding = fn(&Job, &mut Body) -> Result<(), JobError>;

impl From<OutOfRange> for Problem {
    fn from(error: OutOfRange) -> Self {
        Self::OutOfRange(error)
    }
}

/// Bends the folds of a body that is sharp.
fn fold_body(job: &Job, body: &mut Body) -> Result<(), JobError> {
    let (folds, radius) = (job.joints.folds(), job.joints.allow().bend_radius);
    let of_end = |fold: &&[Face; 2]| fold.iter().any(|face| !matches!(face, Face::Side(_)));
    let end = folds.iter().find(of_end);
    if let (Shape::Profile(profile), None) = (&job.shape, end) {
        return match profile.folded(folds, radius, &job.sheet, &body.outside) {
            None => Ok(()),
            Some(bent) => bent.make(&job.sheet, body).map_err(|error| JobError {
                field: Field::BendRadius,
                problem: Problem::Shape(ShapeError::Profile(error)),
            }),
        };
    }
    let Some(faces) = end else { return Ok(()) };
    if body.outside.rounded().is_some() {
        return Err(JobError {
            field: Field::Fold(1),
            problem: Problem::FoldBesideRound(*faces),
        });
    }
    body.fold(folds, radius, &job.sheet);
    Ok(())
}

/// How plugs are laid out, by functions that a program whose tanks have none, as a small gauge's, does not hold.
#[derive(Debug)]
pub(crate) struct Plugs {
    pub(super) welds: fn(&Tank, &Seam) -> Option<PlugWelds>,
    pub(super) division: fn(&Tank, &Seam) -> Option<Division>,
    pub(super) filled: fn(&Tank, &Seam) -> Option<Length>,
}

/// Those functions; none where a tank has no plugs.
#[derive(Clone, Copy, Debug, Default)]
pub(crate) struct PlugRows(pub(super) Option<&'static Plugs>);

impl PartialEq for PlugRows {
    fn eq(&self, other: &Self) -> bool {
        self.0.is_some() == other.0.is_some()
    }
}

impl PlugRows {
    /// A tank without.
    const NONE: Self = Self(None);
}
