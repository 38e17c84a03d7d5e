//! A weld plan as it is read: its stitches in the order of welding, what it takes, and what other orders would.

use heapless::Vec;

use super::held::HeldMetal;
use super::laid::Directed;
use super::rest::ArcShare;
use super::simulation::Record;
use super::step::{StepCause, WeldStep};
use super::stitches::Stitch;
use super::totals::{OrderTotals, UptakeTotals};
use super::wait::{StitchWait, WaitCause, WaitPart, WarmPlace};
use crate::heat::TemperatureRise;
use crate::input::limits::MAX_STITCHES;
use crate::seam::SeamMark;
use crate::tank::Tank;
use crate::units::{Energy, Length, Temperature, Time};

/// Stitches in the order of welding.
pub(super) type Records<const STITCHES: usize> = Vec<Record, STITCHES>;

/// A weld plan: the order of the stitches of one tank, with the waits between, and what it takes. It has room for as many
/// stitches as the [`Planner`](super::Planner) that made it, which are those of any job if it is not said.
#[derive(Clone, Debug, PartialEq)]
pub struct WeldPlan<const STITCHES: usize = { MAX_STITCHES as usize }> {
    pub(super) records: Records<STITCHES>,
    /// The stitches as they go to a gauge.
    steps: Vec<WeldStep, STITCHES>,
    pub(super) totals: OrderTotals,
    pub(super) seam_by_seam: Option<OrderTotals>,
    /// At the lower and the upper end of the band of the arc's share.
    pub(super) band: [Option<UptakeTotals>; 2],
    pub(super) ambient: Temperature,
    pub(super) arc_share: Option<ArcShare>,
    pub(super) interpass: Temperature,
    /// One, if it was counted: an empty list is all zeros, which an option is not.
    pub(super) held: Vec<HeldMetal, 1>,
}

/// One stitch of a plan.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PlannedStitch {
    /// Its place in the order, from 1.
    pub order: u16,
    /// The stage of building in which it is welded, counted from 1.
    pub stage: u8,
    /// The place of its seam in [`Tank::seams`].
    pub seam_place: usize,
    /// The mark of its seam.
    pub seam: SeamMark,
    /// Where it starts, from its seam's first end.
    pub from: Length,
    /// Where it ends, from its seam's first end: less than `from` where it is welded backwards.
    pub to: Length,
    /// When its arc is lit, from the first arc of the job.
    pub start: Time,
    /// How long its arc burns.
    pub arc: Time,
    /// Heat input, with the efficiency of the job's process.
    pub heat_input: Energy,
    /// What is waited for before it.
    pub wait: StitchWait,
    /// How warm the metal is where it starts, just before the arc.
    pub start_temperature: Temperature,
    /// How warm the hottest metal along it is then; `None` where that was not looked for, as a gauge does not.
    pub hottest_along: Option<Temperature>,
}

impl<const STITCHES: usize> WeldPlan<STITCHES> {
    /// With no stitch: a place to write to.
    pub(super) const EMPTY: Self = Self {
        records: Vec::new(),
        steps: Vec::new(),
        totals: OrderTotals::NONE,
        seam_by_seam: None,
        band: [None; 2],
        ambient: Temperature::from_kelvins(0.0),
        arc_share: None,
        interpass: Temperature::from_kelvins(0.0),
        held: Vec::new(),
    };

    /// How many stitches it has.
    #[must_use]
    pub fn count(&self) -> usize {
        self.records.len()
    }

    /// Its stitches in the order of welding. `tank` is the one that was planned.
    pub fn stitches<'a>(&'a self, tank: &'a Tank) -> impl Iterator<Item = PlannedStitch> + 'a {
        (1_u16..)
            .zip(&self.records)
            .filter_map(move |(order, record)| self.stitch(order, record, tank))
    }

    /// The stitch along which the metal is hottest just before its arc; `None` where that was not looked for.
    #[must_use]
    pub fn hottest_along(&self, tank: &Tank) -> Option<PlannedStitch> {
        let looked = self
            .records
            .iter()
            .zip(1_u16..)
            .filter(|(record, _)| record.most > 0.0);
        let (record, order) = looked.reduce(|most, next| {
            if next.0.most > most.0.most {
                next
            } else {
                most
            }
        })?;
        self.stitch(order, record, tank)
    }

    /// What the whole order takes.
    #[must_use]
    pub const fn totals(&self) -> &OrderTotals {
        &self.totals
    }

    /// What welding seam by seam would take, each from its start to its end in the order of [`Tank::seams`]; `None` where
    /// the plan was made without comparisons, or where that takes more than a day or a wait of over two hours.
    #[must_use]
    pub const fn seam_by_seam(&self) -> Option<&OrderTotals> {
        self.seam_by_seam.as_ref()
    }

    /// What this order takes at the two ends of the band in which the share of the arc's power that the metal takes up
    /// is likely to lie, the lower first ([`uptake_band`](crate::arc::uptake_band)). An end at which the metal never
    /// cools is left out.
    pub fn band(&self) -> impl Iterator<Item = &UptakeTotals> {
        self.band.iter().flatten()
    }

    /// The warmest that the metal is where a stitch starts: the limit to which the plan keeps.
    #[must_use]
    pub const fn interpass_max(&self) -> Temperature {
        self.interpass
    }

    /// How long it holds the metal of the seams where the alloy must not stay; `None` of an alloy that may stay anywhere, and
    /// where it was not counted ([`Tank::weld_plan_held`]).
    #[must_use]
    pub fn held(&self) -> Option<&HeldMetal> {
        self.held.first()
    }

    /// The order as a gauge keeps it; empty where it has more than [`WeldStep::MOST`] stitches.
    #[must_use]
    pub fn steps(&self) -> &[WeldStep] {
        &self.steps
    }

    /// Takes away all stitches.
    pub(super) fn clear(&mut self) {
        self.records.clear();
        self.steps.clear();
        self.totals = OrderTotals::NONE;
    }

    /// Puts an order in the place of the one there is.
    pub(super) fn put(&mut self, records: &Records<STITCHES>, totals: OrderTotals) {
        self.clear();
        self.totals = totals;
        for record in records {
            let directed = record.directed;
            let Ok(number) = u8::try_from(directed.stitch()) else {
                // A part of an order must not be taken for the whole.
                self.steps.clear();
                break;
            };
            let wait = (
                Time::from_seconds(f64::from(record.wait)),
                self.cause(record),
            );
            let stitch = (number, directed.reversed());
            let step = WeldStep::of(stitch, wait, self.over_ambient(record.warmth));
            // There is as much room as for the records.
            let _ = self.steps.push(step);
        }
        self.records.clone_from(records);
    }

    /// The stitches by their numbers.
    pub(super) fn order(&self) -> impl Iterator<Item = Directed> + '_ {
        self.records.iter().map(|record| record.directed)
    }

    fn stitch(&self, order: u16, record: &Record, tank: &Tank) -> Option<PlannedStitch> {
        let Stitch {
            place,
            seam,
            division,
            number,
        } = tank.stitch(record.directed.stitch())?;
        let whole = tank.edge_of_seam(place)?.length().si();
        let [first, second] = division.run_of(number, whole).map(Length::from_metres);
        let length = Length::from_metres(second.si() - first.si());
        let (from, to) = if record.directed.reversed() {
            (second, first)
        } else {
            (first, second)
        };
        let arc = tank.arc();
        Some(PlannedStitch {
            order,
            stage: record.stage,
            seam_place: place,
            seam: seam.mark,
            from,
            to,
            start: Time::from_seconds(f64::from(record.start)),
            arc: arc.time_along(length),
            heat_input: arc.heat_along(length),
            wait: self.wait(order, record, tank, (seam.mark, from)),
            start_temperature: self.over_ambient(record.warmth),
            hottest_along: (record.most > 0.0).then(|| self.over_ambient(record.most)),
        })
    }

    fn over_ambient(&self, kelvins: f32) -> Temperature {
        TemperatureRise::from_kelvins(f64::from(kelvins)).above(self.ambient)
    }

    /// What a wait ends with: of metal and rest, the rest is the later.
    fn cause(&self, record: &Record) -> Option<StepCause> {
        let rest = self.arc_share.filter(|_| record.rest > 0.0);
        let metal = record.wait > record.rest;
        rest.map(|share| share.part.into())
            .or_else(|| metal.then_some(StepCause::Metal))
    }

    fn wait(
        &self,
        order: u16,
        record: &Record,
        tank: &Tank,
        (seam, at): (SeamMark, Length),
    ) -> StitchWait {
        let [wait, rest] = [record.wait, record.rest].map(f64::from);
        let part = |cause: WaitCause, seconds: f64| {
            let lasts = Time::from_seconds(seconds);
            (seconds > 0.0).then_some(WaitPart { cause, lasts })
        };
        let moving = if order > 1 {
            tank.job().welding().moving.si()
        } else {
            0.0
        };
        let temperature = self.over_ambient(record.too_warm);
        let warm = WarmPlace {
            seam,
            at,
            temperature,
        };
        StitchWait {
            move_part: part(WaitCause::Move, moving),
            metal_part: part(WaitCause::WarmMetal(warm), wait - rest),
            rest_part: self
                .arc_share
                .and_then(|share| part(WaitCause::Rest(share.part), rest)),
            beside_move: Time::from_seconds(wait),
        }
    }
}
