//! What a welder sets beside current and voltage, what is usual where nobody says, and what speaks against it.

use core::fmt;

use heapless::Vec;

use super::gas::{GasFault, ShieldGas};
use super::melting::{MeltingFeed, MeltingSource, melting_feeds};
use super::transfer::{
    StickOut, Transfer, WireCurrents, transition, usual_stick_out, wire_currents,
};
use crate::supply::filler::Rod;
use crate::supply::{KitDraft, KitError};
use crate::tank::Tank;
use crate::units::{
    Area, AreaUnit, Current, CurrentUnit, Length, LengthUnit, Ratio, RatioUnit, Speed, SpeedUnit,
};

/// A feed this far off every published one is told, as a share: twice what those differ by among themselves at most.
/// Common practice, no source.
const FEED_OFF: f64 = 0.3;
/// A wire that fills less than this share of a bead leaves it hollow: common practice, no source. One that fills more than
/// [`OVERFILLED`] heaps it up more than published set-ups do, which on thin sheet come to three times what it wants.
const UNDERFILLED: f64 = 0.8;
/// See [`UNDERFILLED`].
const OVERFILLED: f64 = 3.5;

/// What a person says of the wire's arc, beside its current and voltage.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct WireArcDraft {
    /// How fast the wire is fed.
    pub feed: Option<Speed>,
    /// How metal goes over.
    pub transfer: Option<Transfer>,
    /// From contact tip to work.
    pub stick_out: Option<Length>,
    /// The gas.
    pub gas: Option<ShieldGas>,
}

/// What nobody said of it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum WireAssumed {
    /// The feed: the middle of those that are published for the current.
    Feed,
    /// The transfer that is likely at the current.
    Transfer,
    /// The middle of the usual stick-out.
    StickOut,
    /// The usual gas.
    Gas,
}

impl WireAssumed {
    /// Its key in a job file.
    #[must_use]
    pub const fn key(self) -> &'static str {
        match self {
            Self::Feed => "arc.wire_feed",
            Self::Transfer => "arc.transfer",
            Self::StickOut => "arc.stick_out",
            Self::Gas => "arc.gas",
        }
    }

    /// Where the value is from.
    #[must_use]
    pub const fn source(self) -> &'static str {
        match self {
            Self::Feed => "the middle of what is published for the current",
            Self::Transfer => {
                "what is likely at this current in this gas: common practice, no source"
            }
            Self::StickOut => "the middle of what is published for the transfer",
            Self::Gas => "common practice, no source",
        }
    }
}

/// What speaks against it.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum WireFault {
    /// The gas.
    Gas {
        /// The gas.
        gas: &'static str,
        /// What speaks against it.
        fault: GasFault,
    },
    /// Too little current for spray.
    NoSprayYet {
        /// The current.
        current: Current,
        /// Where spray begins.
        transition: Current,
    },
    /// Spray and pulses want a gas that is mostly argon.
    NoSprayInGas,
    /// So much current that short circuits turn into spray.
    PastShortCircuits {
        /// The current.
        current: Current,
        /// Where spray begins.
        transition: Current,
    },
    /// Large drops fall where they like.
    Globular,
    /// A current that this wire is not used with.
    PastWire {
        /// The current.
        current: Current,
        /// The least that the wire is used with.
        least: Current,
        /// The most.
        most: Current,
    },
    /// A distance from contact tip to work that is not usual.
    StickOut {
        /// The distance.
        own: Length,
        /// The shortest that is usual.
        least: Length,
        /// The longest.
        most: Length,
    },
    /// A feed that no published relation gives for the current.
    Feed {
        /// The feed.
        own: Speed,
        /// The nearest of the published ones.
        nearest: Speed,
        /// Who says so.
        source: MeltingSource,
        /// By how much the own is more, as a share of that; less where it is below 0.
        off: Ratio,
    },
    /// The wire fills less of a bead than the joint wants.
    Underfilled(WireFill),
    /// It fills much more.
    Overfilled(WireFill),
}

/// What the wire fills against what the joints want.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct WireFill {
    /// The section that feed and travel fill.
    pub fills: Area,
    /// The least section that a seam wants.
    pub least: Area,
    /// The greatest.
    pub most: Area,
    /// The travel at which the greatest would just be filled.
    pub travel: Speed,
}

/// A wire's arc with all that nobody said filled in, and what is published of it.
#[derive(Clone, Debug, PartialEq)]
pub struct WireArc {
    /// Diameter of the wire.
    pub diameter: Length,
    /// The gas.
    pub gas: ShieldGas,
    /// How metal goes over.
    pub transfer: Transfer,
    /// From contact tip to work.
    pub stick_out: Length,
    /// What of that is usual.
    pub usual_stick_out: StickOut,
    /// The feed; `None` where nobody said and nothing is published.
    pub feed: Option<Speed>,
    /// What is published of it.
    pub published: Vec<MeltingFeed, 2>,
    /// Where spray begins; `None` where it is not printed.
    pub transition: Option<Current>,
    /// What the wire is used with; `None` where it is not printed.
    pub currents: Option<WireCurrents>,
    /// What the wire fills; `None` without a feed or beads.
    pub fill: Option<WireFill>,
    /// What nobody said.
    pub assumed: Vec<WireAssumed, 4>,
    /// What speaks against it.
    pub faults: Vec<WireFault, 8>,
}

impl WireArc {
    /// By how much the published feeds differ, as a share of the least; `None` where there are not two.
    #[must_use]
    pub fn published_apart(&self) -> Option<Ratio> {
        let [one, other] = self.published.as_slice() else {
            return None;
        };
        let (a, b) = (one.feed.si(), other.feed.si());
        Some(Ratio::from_share(libm::fmax(a, b) / libm::fmin(a, b) - 1.0))
    }

    /// By how much its feed is more than a published one, as a share of that.
    #[must_use]
    pub fn feed_off(&self, published: &MeltingFeed) -> Option<Ratio> {
        let feed = self.feed?;
        Some(Ratio::from_share(feed.si() / published.feed.si() - 1.0))
    }
}

impl Tank {
    /// The wire's arc of this tank; `None` where its process feeds none.
    ///
    /// # Errors
    /// [`KitError`] where no wire is said and none is published for the sheet, or the wire is past its limits.
    pub fn wire_arc(
        &self,
        draft: &WireArcDraft,
        kit: &KitDraft,
    ) -> Option<Result<WireArc, KitError>> {
        let process = self.arc().process;
        process.feeds_wire().then(|| self.wired(draft, kit))
    }

    fn wired(&self, draft: &WireArcDraft, kit: &KitDraft) -> Result<WireArc, KitError> {
        let (arc, family) = (self.arc(), self.job().alloy().family());
        let (process, current) = (arc.process, arc.current);
        let diameter = self.wire_diameter(kit.wire_diameter)?;
        let mut assumed = Vec::new();
        // One for each of four, in room for four.
        let mut note = |one| {
            let _ = assumed.push(one);
        };
        let gas = draft.gas.unwrap_or_else(|| {
            note(WireAssumed::Gas);
            ShieldGas::usual(process, family)
        });
        let transition = transition(process, family, diameter);
        let transfer = draft.transfer.unwrap_or_else(|| {
            note(WireAssumed::Transfer);
            Transfer::likely(process, gas, current, transition)
        });
        let usual = usual_stick_out(process, transfer);
        let stick_out = draft.stick_out.unwrap_or_else(|| {
            note(WireAssumed::StickOut);
            Length::from_metres(0.5 * (usual.least.si() + usual.most.si()))
        });
        let published = melting_feeds(process, family, diameter, current, stick_out);
        let feed = draft.feed.or_else(|| {
            let all = published.iter().map(|one| one.feed.si());
            let count = published.len();
            (count > 0).then(|| {
                note(WireAssumed::Feed);
                Speed::from_metres_per_second(all.sum::<f64>() / count as f64)
            })
        });
        let mut wired = WireArc {
            diameter,
            gas,
            transfer,
            stick_out,
            usual_stick_out: usual,
            feed,
            published,
            transition,
            currents: wire_currents(process, family, transfer, diameter),
            fill: self.wire_fill(feed, kit),
            assumed,
            faults: Vec::new(),
        };
        wired.faults = self.wire_faults(&wired, draft);
        Ok(wired)
    }

    /// What a feed fills against what the welded seams want.
    fn wire_fill(&self, feed: Option<Speed>, kit: &KitDraft) -> Option<WireFill> {
        let rod: Rod = self.kit(kit).ok()?.kit.rod;
        let travel = self.arc().travel;
        let fills = rod.filled(feed?, travel);
        let sections = self
            .seams()
            .filter_map(|seam| self.bead(&seam)?.ok())
            .map(|bead| bead.section().si());
        let ends = sections.fold(None, |ends: Option<[f64; 2]>, one| {
            let [least, most] = ends.unwrap_or([one; 2]);
            Some([libm::fmin(least, one), libm::fmax(most, one)])
        });
        let [least, most] = ends.filter(|[least, _]| *least > 0.0)?;
        Some(WireFill {
            fills,
            least: Area::from_square_metres(least),
            most: Area::from_square_metres(most),
            travel: Speed::from_metres_per_second(travel.si() * fills.si() / most),
        })
    }

    fn wire_faults(&self, wired: &WireArc, draft: &WireArcDraft) -> Vec<WireFault, 8> {
        let (arc, family) = (self.arc(), self.job().alloy().family());
        let (process, current) = (arc.process, arc.current);
        let mut faults = Vec::new();
        // At most one of gas, transfer in gas, transfer at the current, current of the wire, stick-out, feed and fill.
        let mut say = |one| {
            let _ = faults.push(one);
        };
        if let Some(fault) = wired.gas.fault(process, family) {
            let gas = wired.gas.name();
            say(WireFault::Gas { gas, fault });
        }
        let solid = process != crate::tables::Process::FluxCored;
        if solid
            && wired.gas == ShieldGas::C1
            && matches!(wired.transfer, Transfer::Spray | Transfer::Pulsed)
        {
            say(WireFault::NoSprayInGas);
        }
        match (wired.transfer, wired.transition) {
            (Transfer::Spray, Some(transition)) if current < transition => {
                say(WireFault::NoSprayYet {
                    current,
                    transition,
                });
            }
            (Transfer::ShortCircuiting, Some(transition)) if current >= transition => {
                say(WireFault::PastShortCircuits {
                    current,
                    transition,
                });
            }
            (Transfer::Globular, _) if solid => say(WireFault::Globular),
            _ => {}
        }
        if let Some(WireCurrents { least, most, .. }) = wired.currents
            && !(current >= least && current <= most)
        {
            say(WireFault::PastWire {
                current,
                least,
                most,
            });
        }
        let StickOut { least, most, .. } = wired.usual_stick_out;
        let own = wired.stick_out;
        if !(own >= least && own <= most) {
            say(WireFault::StickOut { own, least, most });
        }
        if let Some(own) = draft.feed {
            let nearest = wired
                .published
                .iter()
                .map(|one| (own.si() / one.feed.si() - 1.0, one))
                .reduce(|best, next| {
                    if libm::fabs(next.0) < libm::fabs(best.0) {
                        next
                    } else {
                        best
                    }
                });
            if let Some((off, one)) = nearest
                && libm::fabs(off) > FEED_OFF
            {
                say(WireFault::Feed {
                    own,
                    nearest: one.feed,
                    source: one.source,
                    off: Ratio::from_share(off),
                });
            }
        }
        if let Some(fill) = wired.fill {
            if fill.fills.si() < UNDERFILLED * fill.most.si() {
                say(WireFault::Underfilled(fill));
            } else if fill.fills.si() > OVERFILLED * fill.most.si() {
                say(WireFault::Overfilled(fill));
            }
        }
        faults
    }
}

impl WireFault {
    /// Whether the job must not be welded so.
    #[must_use]
    pub const fn forbids(&self) -> bool {
        matches!(self, Self::Gas { fault, .. } if fault.forbids())
    }
}

impl fmt::Display for WireFault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let amps = |current: &Current| current.display(CurrentUnit::Ampere, 0);
        let mm = |length: &Length| length.display(LengthUnit::Millimetre, 0);
        let metres = |feed: &Speed| 60.0 * feed.si();
        let square = |area: &Area| area.display(AreaUnit::SquareMillimetre, 1);
        match self {
            Self::Gas { gas, fault } => write!(f, "the gas {gas} {}", fault.text()),
            Self::NoSprayYet {
                current,
                transition,
            } => write!(
                f,
                "{} make no spray with this wire, which begins at {}: take a thinner wire, more current, pulses or short circuits",
                amps(current),
                amps(transition)
            ),
            Self::NoSprayInGas => f.write_str(
                "there is no spray and no pulse in carbon dioxide: both want at least 80 % of argon; take M20 or M21 with little carbon dioxide, or short circuits",
            ),
            Self::PastShortCircuits {
                current,
                transition,
            } => write!(
                f,
                "at {} this wire no longer dips: above {} in gas that is mostly argon drops go over as spray, which is hot for thin sheet; take less current or a thicker wire",
                amps(current),
                amps(transition)
            ),
            Self::Globular => f.write_str(
                "drops larger than the wire spatter and fall only downwards; short circuits, spray or pulses are better for sheet (common practice, no source)",
            ),
            Self::PastWire {
                current,
                least,
                most,
            } => write!(
                f,
                "this wire is used with {} to {}, and the job has {}: take another wire or another current",
                amps(least),
                amps(most),
                amps(current)
            ),
            Self::StickOut { own, least, most } => write!(
                f,
                "{} from contact tip to work, where {} to {} are usual: longer it takes current and gas from the pool, shorter it burns the tip",
                mm(own),
                mm(least),
                mm(most)
            ),
            Self::Feed {
                own,
                nearest,
                off,
                ..
            } => write!(
                f,
                "a feed of {:.1} m/min is {} {} than {:.1} m/min, the nearest that is published for this wire and current: read both off the machine while it welds, for one of them sets the other",
                metres(own),
                Ratio::from_share(libm::fabs(off.si())).display(RatioUnit::Percent, 0),
                if off.si() < 0.0 { "less" } else { "more" },
                metres(nearest)
            ),
            Self::Underfilled(fill) => write!(
                f,
                "at this feed and travel the wire fills {}, and the largest bead wants {}: at {} it would be full",
                square(&fill.fills),
                square(&fill.most),
                fill.travel.display(SpeedUnit::MillimetrePerMinute, 0)
            ),
            Self::Overfilled(fill) => write!(
                f,
                "at this feed and travel the wire fills {}, and the largest bead wants {}: it is heaped up, with its heat; at {} it would just be full",
                square(&fill.fills),
                square(&fill.most),
                fill.travel.display(SpeedUnit::MillimetrePerMinute, 0)
            ),
        }
    }
}
