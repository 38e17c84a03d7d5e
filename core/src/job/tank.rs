//! A job and its body, and every stage that follows from the two.

use super::{Assumed, Draft, Field, Job, JobError, Problem, blame};
use crate::body::{Body, Edge, Face, Solid};
use crate::bound::OutOfRange;
use crate::capacity::{
    Capacity, CapacityError, Dip, DipError, Dipped, Drawing, Expansion, ExpansionError, FillTo,
    Lean, LeanRange, Level, Pool, Space, Stick, Warming, WorstUsable, linear_expansion,
};
use crate::fixture::{Baffle, Fitting, Inner, PlaceError};
use crate::fold::minimum_radius;
use crate::geom::Vector;
use crate::heat::arc::Arc;
use crate::joint::Meeting;
use crate::notice::Notice;
use crate::panel::{Blank, BlankError, Panel, Plan};
use crate::quantity::{Area, Energy, Length, Mass, Time, Volume};
use crate::seam::{self, Seam, Tacks};
use crate::stitch::{Division, MAX_STITCHES};

/// Marks that a dip chart may have.
pub const MAX_MARKS: u16 = 1_000;

/// A tank: a checked job with its body. Stages that are cheap to compute are computed when asked for,
/// so that on a small machine nothing but the body is held; about 12 KiB.
#[derive(Clone, Debug, PartialEq)]
pub struct Tank {
    job: Job,
    body: Body,
    inner: Inner,
    capacity: Capacity,
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
        self.check_counts()
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
        };
        for (draft, number) in job.fittings.iter().zip(1_u8..) {
            let blame = |error| JobError {
                field: Field::Fitting(number),
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
            let baffle = Baffle::place(body, draft, thickness).map_err(|error| JobError {
                field: Field::Baffle(number),
                problem: Problem::Place(error),
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

    /// The dip chart of the level tank: from empty to full in steps of the job's own, the last step
    /// shorter where it must be.
    pub fn dip(&self) -> impl Iterator<Item = Level> {
        let pool = self.pool(Lean::LEVEL);
        let full = pool.full_depth();
        let step = self.job.dip_step.si();
        let steps = crate::split::pieces(full.si(), step);
        // `check_counts` has seen to it that these are at most MAX_MARKS.
        let whole = steps as u16;
        (0..=whole).filter_map(move |n| {
            let depth = if n == whole {
                full
            } else {
                Length::from_metres(f64::from(n) * step)
            };
            pool.at(depth).ok()
        })
    }

    /// What can be drawn at the worst of the leans that the job allows; `None` where it allows none. No
    /// opening is taken to spill. Needs some 2,000 clips of the body: a laptop's work.
    #[must_use]
    pub fn worst_usable(&self) -> Option<WorstUsable> {
        let [pitch, roll] = self.job.leans();
        if pitch.si() == 0.0 && roll.si() == 0.0 {
            return None;
        }
        let leans = LeanRange::either_way(pitch, roll).ok()?;
        let drawing = Drawing::new(
            self.space(),
            FillTo::Volume(self.capacity.fill),
            self.pick_up_point(),
            &[],
        );
        Some(drawing.ok()?.worst(leans))
    }

    /// Where the pick-up draws: over the middle of the plan where the job says no place.
    #[must_use]
    pub fn pick_up_point(&self) -> Vector {
        let inside = &self.body.inside;
        let (x, y) = match self.job.pick_up_at {
            Some([x, y]) => (x.si(), y.si()),
            None => {
                let middle = |axis: Vector| {
                    let (low, high) = inside.extent(axis);
                    0.5 * (low + high)
                };
                (
                    middle(Vector::new(1.0, 0.0, 0.0)),
                    middle(Vector::new(0.0, 1.0, 0.0)),
                )
            }
        };
        let (low, _) = inside.extent(Vector::new(0.0, 0.0, 1.0));
        Vector::new(x, y, low + self.job.pick_up.si())
    }

    /// The dip rod where the job puts it, read at a lean; `None` where the job puts it nowhere.
    ///
    /// # Errors
    /// [`DipError`] where the rod says nothing at that lean; a place over no liquid is refused when the
    /// tank is built.
    #[must_use]
    pub fn dip_rod(&self, lean: Lean) -> Option<Result<Dipped<'_>, DipError>> {
        let [x, y] = self.job.dip_at?;
        let stick = Stick::upright(&self.body.inside, x, y).ok()?;
        Some(Dipped::new(self.pool(lean), &stick))
    }

    /// How many marks the job's own dip chart has: from empty to full by depth, or by round volume where
    /// the job asks for that.
    #[must_use]
    pub fn dip_count(&self) -> u16 {
        let steps = match self.job.dip_volume {
            Some(step) => libm::floor(self.capacity.brim.si() / step.si() * (1.0 + 1e-12)),
            None => crate::split::pieces(self.capacity.full_depth.si(), self.job.dip_step.si()),
        };
        // `check_counts` has seen to it that these are at most MAX_MARKS.
        (steps as u16).saturating_add(1)
    }

    /// One mark of that chart, counted from 0: what the rod reads where the job puts one, or else the
    /// depth; and what the tank holds then. `None` past the last, or where the rod is dry.
    #[must_use]
    pub fn dip_mark(&self, place: u16) -> Option<Dip> {
        if place >= self.dip_count() {
            return None;
        }
        let pool = self.pool(Lean::LEVEL);
        let level = match self.job.dip_volume {
            Some(step) => {
                let volume = Volume::from_cubic_metres(libm::fmin(
                    f64::from(place) * step.si(),
                    pool.brim().si(),
                ));
                let depth = pool.depth_for(volume).ok()?;
                Level {
                    depth,
                    volume,
                    surface: Area::default(),
                }
            }
            None => {
                let depth = f64::from(place) * self.job.dip_step.si();
                let full = pool.full_depth().si();
                pool.at(Length::from_metres(libm::fmin(depth, full))).ok()?
            }
        };
        let reading = match self.dip_rod(Lean::LEVEL) {
            Some(rod) => rod.ok()?.reading(level.volume).ok()?,
            None => level.depth,
        };
        Some(Dip {
            reading,
            volume: level.volume,
        })
    }

    /// The growth of the liquid from filling to its hottest, into what the fill leaves free, the growth
    /// of the tank itself counted; `None` where the job names no liquid or no hottest temperature.
    #[must_use]
    pub fn expansion(&self) -> Option<Result<Expansion, ExpansionError>> {
        let [from, hottest] = self.job.temperatures()?;
        let warming = Warming {
            contents: self.job.liquid?.into(),
            fill: self.capacity.fill,
            room: self.capacity.brim,
            from,
            hottest,
            linear: linear_expansion(self.job.alloy.family()),
        };
        Some(warming.expand(&self.pool(Lean::LEVEL)))
    }

    /// What the panels and seams follow from.
    #[must_use]
    pub const fn plan(&self) -> Plan<'_> {
        Plan {
            body: &self.body,
            sheet: &self.job.sheet,
            joints: &self.job.joints,
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
        let within = (0..self.seams_within()).filter_map(|place| self.seam_within(place));
        self.plan().seams().chain(within)
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

    /// Calls `show` for every notice of this tank.
    pub fn each_notice(&self, mut show: impl FnMut(Notice)) {
        for panel in self.panels() {
            let least = self.job.tack_length(panel.thickness);
            let mark = panel.mark;
            let walls = panel
                .faces
                .iter()
                .copied()
                .filter(|face| !matches!(face, Face::Baffle(_)));
            for face in walls {
                match self.body.inside.face(face) {
                    None => show(Notice::FaceLost { mark, face }),
                    Some(view) if view.outline().next().is_some() => {
                        let across = narrowest(view.normal(), view.outline());
                        if across < least {
                            show(Notice::SmallFace {
                                mark,
                                face,
                                across,
                                least,
                            });
                        }
                    }
                    // The round wall and the ends of a drum are never smaller than the drum.
                    Some(_) => {}
                }
            }
        }
        self.each_bend_notice(&mut show);
        self.each_fitting_notice(&mut show);
        for seam in self.seams().filter(|seam| seam.welded) {
            let least = self.job.tack_length(seam.thicker);
            if seam.length < least {
                show(Notice::SmallEdge {
                    mark: seam.mark,
                    length: seam.length,
                    least,
                });
            }
        }
        if let Some((of, target)) = self.job.target {
            let holds = self.capacity.of(of);
            if holds < target {
                show(Notice::TargetMissed { of, target, holds });
            }
        }
        show(Notice::VentBeforeWelding);
        show(Notice::ArcAndFume);
        show(Notice::UsedTank);
    }

    /// Bends tighter than their sheet takes.
    fn each_bend_notice(&self, show: &mut impl FnMut(Notice)) {
        // Wider than this many thicknesses, any sheet bends: common practice, no source.
        const WIDE: f64 = 4.0;
        let plan = self.plan();
        let mut unknown = false;
        for edge in self.body.outside.edges() {
            if self.job.joints.at(&edge) != Meeting::Folded {
                continue;
            }
            let Ok(bend) = plan.bend(&edge) else { continue };
            let least = self
                .job
                .temper
                .and_then(|temper| minimum_radius(self.job.alloy, temper, bend.thickness()));
            match least {
                Some(least) if bend.inside_radius() < least.radius => show(Notice::TightBend {
                    faces: edge.faces,
                    radius: bend.inside_radius(),
                    least: least.radius,
                }),
                Some(_) => {}
                None if bend.inside_radius().si() < WIDE * bend.thickness().si() && !unknown => {
                    // Once is enough: it says the same of every bend.
                    unknown = true;
                    show(Notice::BendUnknown {
                        faces: edge.faces,
                        radius: bend.inside_radius(),
                    });
                }
                None => {}
            }
        }
    }

    /// Holes nearer to something than they should be.
    fn each_fitting_notice(&self, show: &mut impl FnMut(Notice)) {
        let plan = self.plan();
        for (fitting, number) in self.fittings().zip(1_u8..) {
            let before = (1_u8..)
                .zip(&self.job.fittings)
                .take(usize::from(number - 1));
            fitting.each_close(&plan, before, |close| {
                show(Notice::HoleClose {
                    fitting: number,
                    face: fitting.face(),
                    to: close.to,
                    distance: close.distance,
                    least: close.least,
                });
            });
        }
    }

    /// Every edge that is named is there, every joint suits its edge, every panel comes out of flat sheet.
    #[inline(never)]
    fn check_joints(&self) -> Result<(), JobError> {
        let joints = &self.job.joints;
        let outside = &self.body.outside;
        let named = |faces: [Face; 2], field: Field| match outside.edge_between(faces) {
            None => Err(JobError {
                field,
                problem: Problem::NoSuchEdge(faces),
            }),
            Some(edge) if edge.radius.si() > 0.0 => Err(JobError {
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
        for edge in outside.edges() {
            let own = joints
                .own()
                .iter()
                .zip(1_u8..)
                .find(|(own, _)| crate::joint::same(own.faces, edge.faces));
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
            .edges()
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

    fn check_counts(&self) -> Result<(), JobError> {
        let mut stitches = 0_u32;
        for seam in self.seams().filter(|seam| seam.welded) {
            let more = self
                .division(&seam)
                .map_or(u32::from(MAX_STITCHES) + 1, |d| u32::from(d.count));
            stitches = stitches.saturating_add(more);
            if self.tacks(&seam).is_none() {
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
        if let Some([x, y]) = self.job.dip_at
            && Stick::upright(&self.body.inside, x, y).is_err()
        {
            return Err(JobError {
                field: Field::DipAt,
                problem: Problem::OverNoLiquid,
            });
        }
        let marks = crate::split::pieces(self.capacity.full_depth.si(), self.job.dip_step.si());
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

/// The least distance between two parallel lines that hold a convex outline, one of them along a side.
fn narrowest(normal: Vector, outline: impl Iterator<Item = Vector> + Clone) -> Length {
    let mut least = f64::INFINITY;
    let first = outline.clone().next();
    let ahead = outline.clone().skip(1).chain(first);
    for (here, next) in outline.clone().zip(ahead) {
        let Some(inward) = normal.cross(next - here).unit() else {
            continue;
        };
        let reach = outline
            .clone()
            .map(|corner| inward.dot(corner - here))
            .fold(0.0, libm::fmax);
        least = libm::fmin(least, reach);
    }
    Length::from_metres(least)
}

impl From<OutOfRange> for Problem {
    fn from(error: OutOfRange) -> Self {
        Self::OutOfRange(error)
    }
}
