//! What a person should know of the work on a tank: what the weld plan, the equipment and the rod at hand call for.

use super::notice::Severity;
use crate::arc::duty::{Allowed, DutyError, PERIOD};
use crate::arc::{Equipment, RatedPart};
use crate::filler::FillerReason;
use crate::input::{Face, FittingDraft};
use crate::seam::SeamMark;
use crate::tables::Filler;
use crate::tank::Tank;
use crate::units::Time;
use crate::weld::{BusyStretch, WeldPlan};

/// Rests shorter than this are no news: common practice, no source.
const LEAST_RESTS: Time = Time::from_seconds(30.0);
/// A plan goes in whole steps of time, so that an arc may burn for this long more than is allowed.
const STEP: Time = Time::from_seconds(1.0);

/// With what, and in which order, a tank is welded.
#[derive(Clone, Copy, Debug)]
pub struct Work<'a> {
    /// Ratings of power source and torch.
    pub equipment: &'a Equipment,
    /// The filler at hand.
    pub filler: Option<Filler>,
    /// The weld plan, where there is one.
    pub plan: Option<&'a WeldPlan>,
}

/// One thing to know of the work.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum WorkNotice {
    /// The filler at hand must not be used for this tank.
    FillerRuledOut {
        /// The filler.
        filler: Filler,
        /// What rules it out.
        reason: FillerReason,
    },
    /// The current is more than a part of the equipment is rated for.
    CurrentPastRating {
        /// The part.
        part: RatedPart,
        /// The current, and the most that is rated.
        error: DutyError,
    },
    /// The plan burns the arc for longer in some ten minutes than power source and torch may: a single stitch is longer.
    DutyOverrun {
        /// The ten minutes in which it burns longest.
        busiest: BusyStretch,
        /// The share of ten minutes that is allowed.
        allowed: Allowed,
        /// The same as a time.
        stretch: Time,
    },
    /// Power source or torch makes the job longer.
    DutyRests {
        /// What the plan waits for them alone.
        rests: Time,
        /// The share of ten minutes that is allowed.
        allowed: Allowed,
    },
    /// Every tank: the last seam shuts it, and the air in it is hot. [`Tank::passages`] says what may be left open.
    AirNeedsWayOut {
        /// The seam of the last stitch, where there is a plan.
        last: Option<SeamMark>,
    },
}

impl WorkNotice {
    /// A stable code for programs.
    #[must_use]
    pub const fn code(&self) -> &'static str {
        match self {
            Self::FillerRuledOut { .. } => "filler-ruled-out",
            Self::CurrentPastRating { .. } => "current-past-rating",
            Self::DutyOverrun { .. } => "duty-overrun",
            Self::DutyRests { .. } => "duty-rests",
            Self::AirNeedsWayOut { .. } => "air-needs-a-way-out",
        }
    }

    /// How much it matters.
    #[must_use]
    pub const fn severity(&self) -> Severity {
        match self {
            Self::FillerRuledOut { .. } | Self::CurrentPastRating { .. } => Severity::Warning,
            Self::DutyOverrun { .. } | Self::AirNeedsWayOut { .. } => Severity::Caution,
            Self::DutyRests { .. } => Severity::Info,
        }
    }
}

impl Tank {
    /// The fittings with a passage into the tank, through which air gets out while it is open.
    pub fn passages(&self) -> impl Iterator<Item = &FittingDraft> {
        let within = |face: Face| matches!(face, Face::Baffle(_));
        let fittings = self.job.fittings.iter();
        fittings.filter(move |fitting| fitting.bore.si() > 0.0 && !within(fitting.face))
    }

    /// Calls `show` for every notice of the work on this tank.
    pub fn each_work_notice(&self, work: &Work<'_>, mut show: impl FnMut(WorkNotice)) {
        if let Some(filler) = work.filler
            && let Ok(verdict) = self.judged(Some(filler))
            && verdict.ruled_out()
        {
            let reason = verdict.worst().reason;
            show(WorkNotice::FillerRuledOut { filler, reason });
        }
        let arc = self.arc();
        for rated in work.equipment.rated(arc.process) {
            if let Err(error) = rated.plate.allowed(arc.current) {
                let part = rated.part;
                show(WorkNotice::CurrentPastRating { part, error });
            }
        }
        if let Some(plan) = work.plan {
            self.each_duty_notice(work.equipment, plan, &mut show);
        }
        let last = work.plan.and_then(|plan| plan.stitches(self).last());
        show(WorkNotice::AirNeedsWayOut {
            last: last.map(|last| last.seam),
        });
    }

    /// What power source and torch make of the plan.
    fn each_duty_notice(
        &self,
        equipment: &Equipment,
        plan: &WeldPlan,
        show: &mut impl FnMut(WorkNotice),
    ) {
        let Some(run) = self.arc_and_rest(equipment) else {
            return;
        };
        let (allowed, stretch) = (run.allowed, run.stretch);
        if let Some(busiest) = plan.busiest_stretch(self, PERIOD)
            && busiest.burns.si() > stretch.si() + STEP.si()
        {
            show(WorkNotice::DutyOverrun {
                busiest,
                allowed,
                stretch,
            });
        }
        let rests = plan.totals().rests();
        if rests >= LEAST_RESTS {
            show(WorkNotice::DutyRests { rests, allowed });
        }
    }
}
