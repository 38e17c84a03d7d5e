//! Argon behind the seams of stainless steel: how much, how long before the first arc, and through which openings.
//!
//! Gas that comes in mixes with all that is there, and as much of the mixture goes out: oxygen falls as
//! `c = c₀ exp(−Q t / V)` (own formula, of a vessel that is stirred well). Argon that lies down in still air and lifts the
//! air out does it in one change of the volume; the truth lies between, nearer to the formula the harder the gas blows.
//! Compartments in a row are clean sooner than one vessel of all their volume, so that the formula for all of it errs on
//! the safe side, but for a compartment through which nothing flows.

use heapless::Vec;

use crate::compartment::{Compartments, MAX_PIECES};
use crate::geom::Vector;
use crate::input::limits::{GAS_FLOW, PURGE_OXYGEN};
use crate::tables::Family;
use crate::tank::{Reach, Tank};
use crate::units::flow::Flow;
use crate::units::range::RangeError;
use crate::units::{Figure, Ratio, Time, Volume};

/// Oxygen in dry air, by volume: 20.95 % (CRC Handbook of Chemistry and Physics, from memory).
pub const OXYGEN_IN_AIR: Ratio = Ratio::from_share(0.2095);

/// How much oxygen may be left where nobody says: 0.1 %, common practice, no source. API RP 582 lets austenitic roots have
/// 0.5 % (as a forum of inspectors reprints it), pipes for clean gases are held to 0.01 % and less (from memory).
pub const USUAL_OXYGEN: Ratio = Ratio::from_share(0.001);

/// The flow before welding where nobody says: 15 L/min, common practice, no source; a forum of inspectors has 12 to 18.
pub const USUAL_FLOW: Flow = Flow::from_litres_per_minute(15.0);

/// The flow that is kept while seams are welded where nobody says: just enough to feel it leave, common practice, no source.
pub const USUAL_HOLD_FLOW: Flow = Flow::from_litres_per_minute(5.0);

/// How often a textbook on backing gas has the volume changed as a rule of thumb (read): four times.
pub const RULE_OF_CHANGES: f64 = 4.0;

/// What a person says of it.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct PurgeDraft {
    /// Flow before the first arc.
    pub flow: Option<Flow>,
    /// Flow while seams are welded.
    pub hold_flow: Option<Flow>,
    /// Oxygen that may be left.
    pub oxygen: Option<Ratio>,
}

/// What nobody said.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PurgeAssumed {
    /// [`USUAL_FLOW`].
    Flow,
    /// [`USUAL_HOLD_FLOW`].
    HoldFlow,
    /// [`USUAL_OXYGEN`].
    Oxygen,
}

impl PurgeAssumed {
    /// Its key in a job file.
    #[must_use]
    pub const fn key(self) -> &'static str {
        match self {
            Self::Flow => "purge.flow",
            Self::HoldFlow => "purge.hold_flow",
            Self::Oxygen => "purge.oxygen",
        }
    }

    /// Where the value is from.
    #[must_use]
    pub const fn source(self) -> &'static str {
        match self {
            Self::Flow => "15 L/min: common practice, no source",
            Self::HoldFlow => "5 L/min: common practice, no source",
            Self::Oxygen => {
                "0.1 %: common practice, no source; API RP 582 allows 0.5 % (as a forum of inspectors reprints it)"
            }
        }
    }
}

/// One compartment.
#[derive(Clone, Debug, PartialEq)]
pub struct PurgeRoom {
    /// What it holds.
    pub volume: Volume,
    /// Fitting through which gas goes in, counted from 1: the one that opens lowest.
    pub inlet: Option<u8>,
    /// Fitting through which air goes out: the one that opens highest, where that is another.
    pub outlet: Option<u8>,
    /// Compartments that it is open to, counted from 0.
    pub open_to: Vec<u8, 8>,
}

impl PurgeRoom {
    /// Whether gas flows through it: it has two openings at least.
    #[must_use]
    pub fn is_flushed(&self) -> bool {
        let fittings = usize::from(self.inlet.is_some()) + usize::from(self.outlet.is_some());
        fittings + self.open_to.len() >= 2
    }
}

/// A purge.
#[derive(Clone, Debug, PartialEq)]
pub struct Purge {
    /// Its compartments, in the order of [`Compartments`].
    pub rooms: Vec<PurgeRoom, MAX_PIECES>,
    /// All that they hold.
    pub volume: Volume,
    /// Flow before the first arc.
    pub flow: Flow,
    /// Flow while seams are welded.
    pub hold_flow: Flow,
    /// Oxygen that may be left.
    pub oxygen: Ratio,
    /// How often the volume is changed.
    pub changes: f64,
    /// How long until it may be welded.
    pub time: Time,
    /// Oxygen that the [rule](RULE_OF_CHANGES) leaves.
    pub by_rule: Ratio,
    /// Gas until it may be welded.
    pub before: Volume,
    /// How long it is held.
    pub held: Time,
    /// Gas while it is held.
    pub while_held: Volume,
    /// What nobody said.
    pub assumed: Vec<PurgeAssumed, 3>,
}

/// Oxygen that is left after so many changes of the volume, of so much at the start.
#[must_use]
pub fn left_after(changes: f64, start: Ratio) -> Ratio {
    Ratio::from_share(start.si() * libm::exp(-changes))
}

impl Purge {
    /// All the gas.
    #[must_use]
    pub fn gas(&self) -> Volume {
        Volume::from_cubic_metres(self.before.si() + self.while_held.si())
    }
}

impl Tank {
    /// Whether the backs of its seams want argon: those of stainless steel.
    #[must_use]
    pub fn wants_purge(&self) -> bool {
        self.job().alloy().family() == Family::Stainless
    }

    /// The purge of the closed tank, parted as `reach` has it, held for as long as its seams are `welding`.
    ///
    /// # Errors
    /// [`RangeError`] for a flow outside 1 to 50 L/min, oxygen outside 0.001 to 5 %, or a time outside 0 to 1000 h.
    pub fn purge(
        &self,
        reach: &Reach<'_>,
        draft: &PurgeDraft,
        welding: Time,
    ) -> Result<Purge, RangeError> {
        let mut assumed = Vec::new();
        // One for each of three, in room for three.
        let mut note = |one| {
            let _ = assumed.push(one);
        };
        let flow = draft.flow.unwrap_or_else(|| {
            note(PurgeAssumed::Flow);
            USUAL_FLOW
        });
        let hold_flow = draft.hold_flow.unwrap_or_else(|| {
            note(PurgeAssumed::HoldFlow);
            USUAL_HOLD_FLOW
        });
        let oxygen = draft.oxygen.unwrap_or_else(|| {
            note(PurgeAssumed::Oxygen);
            USUAL_OXYGEN
        });
        let litre = 1.0 / 60_000.0;
        let (least, most) = GAS_FLOW;
        let within = |flow: Flow| Figure::Flow.within(flow.si(), least * litre, most * litre);
        let (rate, hold_rate) = (within(flow)?, within(hold_flow)?);
        let (least, most) = PURGE_OXYGEN;
        let left = Figure::Oxygen.within(oxygen.si(), least.si(), most.si())?;
        let held = Figure::Time.within(welding.si(), 0.0, 3.6e6)?;
        let rooms = self.purge_rooms(reach);
        let volume: f64 = rooms.iter().map(|room| room.volume.si()).sum();
        let changes = libm::log(OXYGEN_IN_AIR.si() / left);
        Ok(Purge {
            rooms,
            volume: Volume::from_cubic_metres(volume),
            flow,
            hold_flow,
            oxygen,
            changes,
            time: Time::from_seconds(changes * volume / rate),
            by_rule: left_after(RULE_OF_CHANGES, OXYGEN_IN_AIR),
            before: Volume::from_cubic_metres(changes * volume),
            held: welding,
            while_held: Volume::from_cubic_metres(hold_rate * held),
            assumed,
        })
    }

    fn purge_rooms(&self, reach: &Reach<'_>) -> Vec<PurgeRoom, MAX_PIECES> {
        let all: &Compartments = reach.compartments();
        let up = Vector::new(0.0, 0.0, 1.0);
        let mut rooms = Vec::new();
        for number in 0..all.count() {
            let Some(room) = all.compartment(number) else {
                continue;
            };
            // Height, and the fitting that opens there.
            let mut lowest: Option<(f64, u8)> = None;
            let mut highest: Option<(f64, u8)> = None;
            for (fitting, place) in self.fittings().zip(1_u8..) {
                if !(fitting.bore().si() > 0.0) || !reach.opens_into(&fitting, number) {
                    continue;
                }
                let mouth = fitting.mouth();
                let (low, high) = (mouth.low(up), mouth.high(up));
                if lowest.is_none_or(|(at, _)| low < at) {
                    lowest = Some((low, place));
                }
                if highest.is_none_or(|(at, _)| high > at) {
                    highest = Some((high, place));
                }
            }
            let (inlet, outlet) = (lowest.map(|(_, n)| n), highest.map(|(_, n)| n));
            let mut open_to = Vec::new();
            for way in all.ways(number) {
                if let Ok(to) = u8::try_from(way.to)
                    && !open_to.contains(&to)
                {
                    // Those past the last add nothing.
                    let _ = open_to.push(to);
                }
            }
            // As many as there are pieces.
            let _ = rooms.push(PurgeRoom {
                volume: room.volume,
                inlet,
                outlet: outlet.filter(|outlet| Some(*outlet) != inlet),
                open_to,
            });
        }
        rooms
    }
}
