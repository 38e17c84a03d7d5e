//! What a person should know of the work on a tank: what the weld plan, the equipment and the rod at hand call for.

use core::fmt;

use super::notice::Severity;
use super::process::ProcessWork;
use super::strong::StrengthNotice;
use crate::arc::duty::{Allowed, DutyError, PERIOD};
use crate::arc::{Equipment, RatedPart};
use crate::build::{BaffleEdge, EdgeRemedies};
use crate::filler::FillerReason;
use crate::heat::BurnThrough;
use crate::input::{Face, FittingDraft};
use crate::mass::{BalanceError, MountsEnvelope};
use crate::seam::SeamMark;
use crate::strength::{JoinedWalls, StrengthError};
use crate::tables::Filler;
use crate::tank::{Reach, Tank};
use crate::units::{
    CurrentUnit, Length, LengthUnit, RatioUnit, SpeedUnit, Temperature, TemperatureUnit, Time,
    TimeUnit,
};
use crate::weld::{BusyStretch, HeldMetal, WeldPlan, WeldStep};

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
    /// Edges of baffles that were left free because nothing reaches them.
    pub left_free: &'a [BaffleEdge],
    /// How the tank is parted, where that was found.
    pub reach: Option<&'a Reach<'a>>,
    /// The wire, the coating and the purge.
    pub process: ProcessWork<'a>,
    /// What its walls bear together in use, where that was found: whether walls and seams are strong enough is told then.
    pub bears: Option<Result<&'a JoinedWalls, StrengthError>>,
    /// What its mounts bear at the worst, where that was found: whether it lifts off them or tips is told then.
    pub stands: Option<Result<&'a MountsEnvelope, BalanceError>>,
}

/// One thing to know of the work.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum WorkNotice {
    /// Walls or seams are too weak, or cannot be judged.
    Strength(StrengthNotice),
    /// The arc melts a wider band than the sheet carries.
    BurnsThrough(BurnThrough),
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
    /// There are more stitches than a gauge's order may have ([`WeldStep::MOST`]): it shows all but the order.
    OrderNotOnGauge {
        /// How many stitches there are.
        stitches: u32,
        /// The least `stitch_max`, in whole millimetres, with which the order would go along.
        stitch_max: Option<Length>,
    },
    /// Hand and torch do not reach the edge of a baffle when both of its sides stand.
    EdgeOutOfReach {
        /// The edge.
        edge: BaffleEdge,
        /// Its seam.
        seam: SeamMark,
        /// What shops do with it.
        remedies: EdgeRemedies,
    },
    /// No edge of a baffle is welded: each is left free or out of reach.
    BaffleLoose {
        /// Which, counted from 1.
        baffle: u8,
    },
    /// Seams inside lie so far in that the welder has to lean or climb in.
    WorkWithin {
        /// The first of them.
        seam: SeamMark,
    },
    /// The order keeps metal longer than its alloy may stay so warm.
    HeldTooLong(HeldMetal),
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
            Self::Strength(notice) => notice.code(),
            Self::BurnsThrough(_) => "burns-through",
            Self::FillerRuledOut { .. } => "filler-ruled-out",
            Self::CurrentPastRating { .. } => "current-past-rating",
            Self::DutyOverrun { .. } => "duty-overrun",
            Self::DutyRests { .. } => "duty-rests",
            Self::OrderNotOnGauge { .. } => "order-not-on-gauge",
            Self::EdgeOutOfReach { .. } => "edge-out-of-reach",
            Self::BaffleLoose { .. } => "baffle-loose",
            Self::WorkWithin { .. } => "work-within",
            Self::HeldTooLong(_) => "held-too-long",
            Self::AirNeedsWayOut { .. } => "air-needs-a-way-out",
        }
    }

    /// How much it matters.
    #[must_use]
    pub const fn severity(&self) -> Severity {
        match self {
            Self::BurnsThrough(burnt) if !burnt.certain => Severity::Caution,
            Self::Strength(_)
            | Self::BurnsThrough(_)
            | Self::BaffleLoose { .. }
            | Self::FillerRuledOut { .. }
            | Self::CurrentPastRating { .. } => Severity::Warning,
            Self::DutyOverrun { .. }
            | Self::EdgeOutOfReach { .. }
            | Self::WorkWithin { .. }
            | Self::HeldTooLong(_)
            | Self::AirNeedsWayOut { .. } => Severity::Caution,
            Self::DutyRests { .. } | Self::OrderNotOnGauge { .. } => Severity::Info,
        }
    }
}

impl WorkNotice {
    /// Writes it as a sentence about `tank`.
    pub(super) fn write(&self, tank: &Tank, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let current = tank.arc().current.display(CurrentUnit::Ampere, 0);
        let percent = |allowed: &Allowed| allowed.duty.display(RatioUnit::Percent, 0);
        match self {
            Self::Strength(notice) => notice.write(f),
            Self::BurnsThrough(burnt) => write_burnt(tank, burnt, f),
            Self::FillerRuledOut { filler, reason } => write!(
                f,
                "the filler {filler} that the job names is ruled out for this tank: {reason}; take one of those that the plan ranks"
            ),
            Self::CurrentPastRating { part, error } => {
                write!(f, "the {} does not carry this arc: {error}", part.name())
            }
            Self::DutyOverrun {
                busiest,
                allowed,
                stretch,
            } => write!(
                f,
                "in the ten minutes from minute {:.0} of the weld plan the arc burns {:.0} s, and at {current} the power source and torch allow {} of ten minutes, {:.0} s: rest longer there, or weld with less current",
                busiest.from.in_unit(TimeUnit::Minute),
                busiest.burns.si(),
                percent(allowed),
                stretch.si(),
            ),
            Self::DutyRests { rests, allowed } => write!(
                f,
                "at {current} the power source and torch allow the arc {} of any ten minutes: the weld plan waits {:.0} min for them alone; with a higher rating or less current the job is so much shorter",
                percent(allowed),
                rests.in_unit(TimeUnit::Minute),
            ),
            Self::OrderNotOnGauge {
                stitches,
                stitch_max,
            } => write_not_on_gauge(*stitches, *stitch_max, f),
            Self::EdgeOutOfReach {
                edge,
                seam,
                remedies,
            } => write_out_of_reach(tank, (*edge, *seam), remedies, f),
            Self::BaffleLoose { baffle } => write!(
                f,
                "NO: nothing holds baffle {baffle}: each of its edges is left free or out of reach. Weld one, move it to where hand and torch reach it, give a hatch, or hold it by plug or slot welds and judge those yourself"
            ),
            Self::WorkWithin { seam } => write!(
                f,
                "seam {seam} lies farther in than hand and torch reach: whoever welds it leans or climbs in. Shielding gas is heavier than air and gathers there unseen, and takes the air to breathe: blow air in, have someone stand by outside, and follow the local rules for confined spaces"
            ),
            Self::HeldTooLong(held) => write_held(tank, held, f),
            Self::AirNeedsWayOut { last } => write_way_out(tank, *last, f),
        }
    }
}

/// The metal stays too long where it must not.
fn write_held(tank: &Tank, held: &HeldMetal, f: &mut fmt::Formatter<'_>) -> fmt::Result {
    let shown = |at: Temperature| at.display(TemperatureUnit::Celsius, 0);
    let minutes = |time: Time| time.display(TimeUnit::Minute, 0);
    let (alloy, at) = (
        tank.job().alloy(),
        held.at.display(LengthUnit::Millimetre, 0),
    );
    write!(
        f,
        "the order keeps seam {} at {at} for {} ",
        held.seam,
        minutes(held.longest)
    )?;
    match held.band.to {
        Some(to) => write!(f, "between {} and {}", shown(held.band.from), shown(to))?,
        None => write!(f, "at {} or more", shown(held.band.from))?,
    }
    write!(
        f,
        ", where {alloy} may stay {} in all ({}): ",
        minutes(held.band.most),
        held.band.source,
    )?;
    f.write_str(if tank.job().welding().interpass_max.is_some() {
        "without an interpass_max of its own the order looks for waits that keep to it; or let the tank cool down between its stages, or keep to a procedure that was tested"
    } else {
        "no wait between the stitches makes it short enough; weld faster or in thicker sheet, let the tank cool down between its stages, blow it cool, or keep to a procedure that was tested"
    })
}

/// A gauge has no room for the order.
fn write_not_on_gauge(
    stitches: u32,
    stitch_max: Option<Length>,
    f: &mut fmt::Formatter<'_>,
) -> fmt::Result {
    write!(
        f,
        "a gauge has room for an order of {} stitches, and this job has {stitches}: it shows the job without its order, which is in the plan and on the job sheet",
        WeldStep::MOST,
    )?;
    match stitch_max {
        Some(most) => write!(
            f,
            "; with a stitch_max of {} under [weld] the order would go along, with more heat in each stitch",
            most.display(LengthUnit::Millimetre, 0),
        ),
        None => f.write_str("; no stitch_max would make them few enough"),
    }
}

/// The pool is wider than the sheet carries.
fn write_burnt(tank: &Tank, burnt: &BurnThrough, f: &mut fmt::Formatter<'_>) -> fmt::Result {
    let mm = |length: Length| length.display(LengthUnit::Millimetre, 1);
    let arc = tank.arc();
    let [begin, end] = if burnt.certain {
        ["NO: ", ""]
    } else {
        ["it may be that ", ", and less where less of it is taken up"]
    };
    write!(
        f,
        "{begin}{} at {} burn through {} of sheet: the band that begins to melt would be {} wide with {} of the arc's heat{end}, and no published set-up comes to more than {}; weld with less current, or faster",
        arc.current.display(CurrentUnit::Ampere, 0),
        arc.travel.display(SpeedUnit::MillimetrePerMinute, 0),
        mm(burnt.sheet),
        mm(burnt.band),
        burnt.uptake.display(RatioUnit::Percent, 0),
        mm(burnt.limit),
    )
}

/// An edge that no torch reaches, and what shops do with it.
fn write_out_of_reach(
    tank: &Tank,
    (edge, seam): (BaffleEdge, SeamMark),
    remedies: &EdgeRemedies,
    f: &mut fmt::Formatter<'_>,
) -> fmt::Result {
    let mm = |length: Length| length.display(LengthUnit::Millimetre, 0);
    let welding = tank.job().welding();
    write!(
        f,
        "no order of building lets hand and torch reach seam {seam}, baffle {} at the {} (opening {}, reach {}): it is planned as a loose edge that carries nothing, cut {} short of the wall",
        edge.baffle,
        edge.wall,
        mm(welding.opening),
        mm(welding.reach),
        mm(remedies.clearance),
    )?;
    if let Some(plugs) = remedies.plugs {
        write!(
            f,
            "; or hold it from outside by {} plug welds in holes of {} through the wall, the first {} from the seam's first end",
            plugs.count,
            mm(plugs.diameter),
            mm(plugs.first),
        )?;
        if plugs.count > 1 {
            write!(f, ", {} from centre to centre", mm(plugs.pitch))?;
        }
    }
    if let Some(slots) = remedies.slots {
        write!(
            f,
            "; or by {} slots of {} by {}, or tabs of the baffle through them, {} from centre to centre",
            slots.count,
            mm(slots.length),
            mm(slots.width),
            mm(slots.pitch),
        )?;
    }
    f.write_str("; or weld it here and there before the wall beside it is up, or give a hatch")
}

/// The last seam shuts the tank, and the air in it is hot.
fn write_way_out(tank: &Tank, last: Option<SeamMark>, f: &mut fmt::Formatter<'_>) -> fmt::Result {
    f.write_str("the air within needs a way out while the last seam")?;
    if let Some(last) = last {
        write!(f, ", {last},")?;
    }
    f.write_str(" is closed, ")?;
    let mut open = tank.passages();
    let (first, second) = (open.next(), open.next());
    match (first, second) {
        (None, _) => f.write_str(
            "and this job names no fitting with a passage: drill the hole of one, or a small hole that is plugged at the end, before the tank is closed",
        ),
        (Some(one), None) => write!(f, "and {} is the only one: do not plug it", one.name),
        (Some(one), Some(two)) => {
            write!(f, "so keep one of these unplugged: {}, {}", one.name, two.name)?;
            open.try_for_each(|more| write!(f, ", {}", more.name))
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

    /// What a gauge will not show of this job's stitches; `None` where there are no more than its order may have.
    #[must_use]
    pub fn order_not_on_gauge(&self) -> Option<WorkNotice> {
        let stitches = self.totals().stitches;
        let most = WeldStep::MOST as u32;
        (stitches > most).then(|| WorkNotice::OrderNotOnGauge {
            stitches,
            stitch_max: self.stitch_max_for(most),
        })
    }

    /// Calls `show` for every notice of the work on this tank.
    pub fn each_work_notice(&self, work: &Work<'_>, mut show: impl FnMut(WorkNotice)) {
        if let Some(bears) = work.bears {
            self.each_strength_notice(bears, |notice| show(WorkNotice::Strength(notice)));
        }
        if let Some(burnt) = self.burn_through() {
            show(WorkNotice::BurnsThrough(burnt));
        }
        for baffle in self.loose_baffles() {
            show(WorkNotice::BaffleLoose { baffle });
        }
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
        if let Some(held) = work.plan.and_then(WeldPlan::held)
            && !held.is_kept()
        {
            show(WorkNotice::HeldTooLong(*held));
        }
        if let Some(plan) = work.plan {
            self.each_duty_notice(work.equipment, plan, &mut show);
        }
        for edge in self.out_of_reach().chain(work.left_free.iter().copied()) {
            if let (Some(seam), Some(remedies)) = (self.seam_of(edge), self.remedies(edge)) {
                show(WorkNotice::EdgeOutOfReach {
                    edge,
                    seam: seam.mark,
                    remedies,
                });
            }
        }
        let order = self.build_order();
        let mut seams = self.seams().zip(order.seams());
        if let Some((seam, _)) = seams.find(|(_, stages)| stages.within) {
            show(WorkNotice::WorkWithin { seam: seam.mark });
        }
        if let Some(notice) = self.order_not_on_gauge() {
            show(notice);
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

#[cfg(test)]
mod tests {
    extern crate std;

    use std::boxed::Box;
    use std::vec::Vec;

    use super::*;
    use crate::arc::duty::{Rating, RatingPlate};
    use crate::input::{Block, Draft, StockDraft};
    use crate::tables::Alloy;
    use crate::units::{Current, Ratio};
    use crate::weld::{PlanOptions, Planner};

    fn mm(value: f64) -> Length {
        Length::new(value, LengthUnit::Millimetre)
    }

    /// A box of 5086, welded at 100 A.
    fn tank(fittings: &[FittingDraft]) -> Tank {
        let outside = Block::new(mm(320.0), mm(180.0), mm(160.0));
        let stock = StockDraft::of(Alloy::A5086, mm(2.0));
        let mut draft = Draft::new("Header tank", outside, stock).unwrap();
        draft.arc.current = Some(Current::from_amperes(100.0));
        for fitting in fittings {
            draft.fittings.push(fitting.clone()).unwrap();
        }
        Tank::build(&draft).unwrap()
    }

    fn torch(amperes: f64, share: f64) -> Equipment {
        let rating = Rating {
            current: Current::from_amperes(amperes),
            duty: Ratio::from_share(share),
        };
        let mut equipment = Equipment::default();
        equipment.torch.ac = Some(RatingPlate::of(&[rating]).unwrap());
        equipment
    }

    fn told(tank: &Tank, work: &Work<'_>) -> Vec<WorkNotice> {
        let mut all = Vec::new();
        tank.each_work_notice(work, |notice| all.push(notice));
        all
    }

    fn codes(all: &[WorkNotice]) -> Vec<&'static str> {
        all.iter().map(WorkNotice::code).collect()
    }

    /// Metals with much magnesium crack with a rod of silicon: AWS A5.10, annex (from memory). 100 A are past a torch
    /// of 80 A.
    #[test]
    fn rod_and_rating_that_do_not_do() {
        let tank = tank(&[]);
        let (weak, strong) = (torch(80.0, 0.6), torch(100.0, 1.0));
        let mut work = Work {
            equipment: &weak,
            filler: Some(Filler::R4043),
            plan: None,
            left_free: &[],
            reach: None,
            process: ProcessWork::default(),
            bears: None,
            stands: None,
        };
        let all = told(&tank, &work);
        let wanted = [
            "filler-ruled-out",
            "current-past-rating",
            "air-needs-a-way-out",
        ];
        assert_eq!(codes(&all), wanted);
        assert_eq!(all[0].severity(), Severity::Warning);
        work.equipment = &strong;
        work.filler = Some(Filler::R5356);
        assert_eq!(codes(&told(&tank, &work)), ["air-needs-a-way-out"]);
    }

    /// By hand: at a share of 10 % the arc burns a minute of ten, so that the plan must rest for most of its time; a
    /// stitch takes longer than the 6 s that 1 % allows.
    #[test]
    fn rests_and_a_stitch_that_is_longer_than_they_allow() {
        let tank = tank(&[]);
        let told_of = |equipment: &Equipment| {
            let mut planner = Box::new(Planner::new());
            let options = PlanOptions {
                comparisons: false,
                ..PlanOptions::resting(equipment, tank.arc())
            };
            let plan = tank.weld_plan_with(&mut planner, &options).unwrap();
            let work = Work {
                equipment,
                filler: None,
                plan: Some(plan),
                left_free: &[],
                reach: None,
                process: ProcessWork::default(),
                bears: None,
                stands: None,
            };
            let rests = plan.totals().rests();
            (told(&tank, &work), rests)
        };
        let (all, rests) = told_of(&torch(100.0, 0.1));
        assert!(all.iter().any(|one| {
            matches!(one, WorkNotice::DutyRests { rests: told, allowed }
                if *told == rests && allowed.duty == Ratio::from_share(0.1))
        }));
        let (all, _) = told_of(&torch(100.0, 0.01));
        let over = all.iter().find_map(|one| match one {
            WorkNotice::DutyOverrun {
                busiest, stretch, ..
            } => Some((busiest.burns, *stretch)),
            _ => None,
        });
        let (burns, stretch) = over.unwrap();
        assert!((stretch.si() - 6.0).abs() < 1e-9 && burns > stretch);
    }

    #[test]
    fn passages_of_the_walls_only() {
        let at = [mm(100.0), mm(60.0)];
        let bung = |bore| FittingDraft::bung("bung", Face::Top, at, mm(bore), mm(30.0));
        let count = |bore| tank(&[bung(bore).unwrap()]).passages().count();
        // One without a bore is a boss.
        assert_eq!((count(20.0), count(0.0)), (1, 0));
    }
}
