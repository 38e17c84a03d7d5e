//! What is welded with where nobody says: rod or wire, gas and their figures, each with what it rests on.

use heapless::Vec;

use super::filler::{DEPOSITION, Rod, RodDraft, STUB, WireDraft};
use super::gas::{Shield, USUAL_PRE_FLOW, WIRE_POST_FLOW, usual_post_flow};
use super::{Kit, WASTE};
use crate::tables::ranges::{self, Range, SeamKind, Sources, wire};
use crate::tables::{Family, Filler};
use crate::tank::Tank;
use crate::units::flow::Flow;
use crate::units::range::RangeError;
use crate::units::{Length, LengthUnit, Mass, MassUnit, Ratio, Speed, Time};

/// A rod as it is sold: common practice, no source.
pub const USUAL_ROD_LENGTH: Length = Length::new(1.0, LengthUnit::Metre);

/// A spool of wire as it is sold, of 200 mm (EN ISO 544, from memory): what it holds of aluminium, and of steels, is
/// common practice, no source.
#[must_use]
pub const fn usual_spool(family: Family) -> Mass {
    Mass::new(
        match family {
            Family::Aluminium => 2.0,
            Family::Stainless | Family::Steel => 5.0,
        },
        MassUnit::Kilogram,
    )
}

/// What a person says of rod and gas; the rest is taken as is usual.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct KitDraft {
    /// The filler at hand.
    pub filler: Option<Filler>,
    /// Diameter of the rod.
    pub rod_diameter: Option<Length>,
    /// Length of a rod.
    pub rod_length: Option<Length>,
    /// What is thrown away of each rod.
    pub stub: Option<Length>,
    /// Rod on top of what the seams take.
    pub waste: Option<Ratio>,
    /// Flow of gas.
    pub gas_flow: Option<Flow>,
    /// Gas before the arc.
    pub pre_flow: Option<Time>,
    /// Gas after it.
    pub post_flow: Option<Time>,
    /// Diameter of the wire, where the process feeds one.
    pub wire_diameter: Option<Length>,
    /// What is on its spool.
    pub spool: Option<Mass>,
    /// How fast it is fed.
    pub wire_feed: Option<Speed>,
}

/// A figure of the kit that was taken as is usual, and what it rests on.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum KitAssumed {
    /// The best of the fillers that were judged.
    Filler,
    /// The largest rod of the published range.
    RodDiameter(Range<Length>),
    /// [`USUAL_ROD_LENGTH`].
    RodLength,
    /// [`STUB`], at most half of the rod.
    Stub,
    /// [`WASTE`].
    Waste,
    /// The middle of the published range.
    GasFlow(Range<Flow>),
    /// [`USUAL_PRE_FLOW`].
    PreFlow,
    /// [`usual_post_flow`].
    PostFlow,
    /// The largest wire of the published range.
    WireDiameter(Range<Length>),
    /// [`usual_spool`].
    Spool,
    /// [`WIRE_POST_FLOW`].
    WirePostFlow,
}

impl KitAssumed {
    /// The name of the figure, as a job file has it under `supply`, or the path of it where it stands elsewhere.
    #[must_use]
    pub const fn key(&self) -> &'static str {
        match self {
            Self::Filler => "filler",
            Self::RodDiameter(_) => "rod_diameter",
            Self::RodLength => "rod_length",
            Self::Stub => "stub",
            Self::Waste => "waste",
            Self::GasFlow(_) => "gas_flow",
            Self::PreFlow => "pre_flow",
            Self::PostFlow | Self::WirePostFlow => "post_flow",
            Self::WireDiameter(_) => "arc.wire",
            Self::Spool => "spool",
        }
    }

    /// Where the figure is from, in words.
    #[must_use]
    pub const fn source(&self) -> &'static str {
        match self {
            Self::Filler => "the best of those judged",
            Self::RodDiameter(_) | Self::WireDiameter(_) => "the largest that is suggested",
            Self::RodLength | Self::Waste | Self::PreFlow | Self::WirePostFlow => {
                "common practice, no source"
            }
            Self::Spool => "a spool of 200 mm: common practice, no source",
            Self::Stub => "50 mm of 1 m (from memory), at most half of the rod",
            Self::GasFlow(_) => "the middle of what is suggested",
            Self::PostFlow => "a second for each 10 A, at least 8 s: common practice, no source",
        }
    }

    /// The tables of the published range behind it; `None` where there is no range.
    #[must_use]
    pub const fn sources(&self) -> Option<Sources> {
        match self {
            Self::RodDiameter(range) | Self::WireDiameter(range) => Some(range.sources),
            Self::GasFlow(range) => Some(range.sources),
            _ => None,
        }
    }
}

/// How a filler is sold.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Sold {
    /// In rods of a length.
    Rods(Length),
    /// On spools that hold a mass.
    Spools(Mass),
}

/// What a tank is welded with.
#[derive(Clone, Debug, PartialEq)]
pub struct KitChoice {
    /// The filler.
    pub filler: Filler,
    /// Diameter of its rod or wire.
    pub diameter: Length,
    /// How it is sold.
    pub sold: Sold,
    /// Flow of gas.
    pub flow: Flow,
    /// How long the gas runs before and after the arc.
    pub flows: [Time; 2],
    /// Rod and gas to reckon with.
    pub kit: Kit,
    /// What of it nobody said.
    pub assumed: Vec<KitAssumed, 8>,
}

/// Why nothing can be said of rod and gas.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum KitError {
    /// Nothing is published for this sheet, so that this figure must be said: its path in a job file.
    Unknown(&'static str),
    /// A figure past its limits.
    Range(RangeError),
}

impl From<RangeError> for KitError {
    fn from(error: RangeError) -> Self {
        Self::Range(error)
    }
}

impl core::fmt::Display for KitError {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        match self {
            Self::Unknown(key) => write!(
                f,
                "give {key}, for which nothing is published for this sheet"
            ),
            Self::Range(error) => error.fmt(f),
        }
    }
}

impl core::error::Error for KitError {}

impl Tank {
    /// Joint and thinner sheet of the first seam, for which ranges are looked up.
    fn first_seam(&self) -> Option<(SeamKind, Length)> {
        self.seams()
            .find_map(|seam| Some((SeamKind::of(seam.joint?), seam.thinner)))
    }

    /// The range of rods that is published for the first seam's joint and thinner sheet.
    fn rods(&self) -> Option<Range<Length>> {
        let (kind, thinner) = self.first_seam()?;
        ranges::rod(self.job.alloy().family(), thinner, kind)
    }

    /// The range of wires that is published for the same.
    fn wires(&self) -> Option<Range<Length>> {
        let (kind, thinner) = self.first_seam()?;
        let process = self.arc().process;
        wire::diameter(process, self.job.alloy().family(), thinner, kind)
    }

    /// The range of gas flows that is published for the job's sheet and process.
    fn gas_flows(&self) -> Option<Range<Flow>> {
        let (family, thickness) = (self.job.alloy().family(), self.job.thickness());
        let process = self.arc().process;
        if process.feeds_wire() {
            let (kind, thinner) = self.first_seam()?;
            wire::gas(process, family, thinner, kind)
        } else {
            ranges::gas(family, thickness)
        }
    }

    /// The diameter of the wire: what a person says, or the largest of the published range.
    ///
    /// # Errors
    /// [`KitError::Unknown`] where nothing is published for the sheet.
    pub fn wire_diameter(&self, own: Option<Length>) -> Result<Length, KitError> {
        match own {
            Some(own) => Ok(own),
            None => {
                let range = self.wires().ok_or(KitError::Unknown("arc.wire"))?;
                Ok(range.most)
            }
        }
    }

    /// What the tank is welded with: what a person says of it, and what is usual where nobody does.
    ///
    /// # Errors
    /// [`KitError`] where nothing is published for the sheet, or a figure is past its limits.
    pub fn kit(&self, draft: &KitDraft) -> Result<KitChoice, KitError> {
        let mut assumed = Vec::new();
        // One for each of eight figures, in room for eight.
        let mut note = |one| {
            let _ = assumed.push(one);
        };
        let process = self.arc().process;
        let filler = match draft.filler {
            Some(filler) => filler,
            None => {
                note(KitAssumed::Filler);
                let all = self
                    .fillers()
                    .map_err(|_| KitError::Unknown("supply.filler"))?;
                all.iter()
                    .find_map(|verdict| verdict.filler.filter(|_| !verdict.ruled_out()))
                    .ok_or(KitError::Unknown("supply.filler"))?
            }
        };
        let density = filler.density().value;
        let (rod, diameter, sold) = if process.feeds_wire() {
            let diameter = self.wire_diameter(draft.wire_diameter)?;
            if let (None, Some(range)) = (draft.wire_diameter, self.wires()) {
                note(KitAssumed::WireDiameter(range));
            }
            let spool = draft.spool.unwrap_or_else(|| {
                note(KitAssumed::Spool);
                usual_spool(filler.family())
            });
            let wire = Rod::wire(&WireDraft {
                diameter,
                spool,
                density,
                process,
            })?;
            (wire, diameter, Sold::Spools(spool))
        } else {
            let diameter = match draft.rod_diameter {
                Some(diameter) => diameter,
                None => {
                    let range = self
                        .rods()
                        .ok_or(KitError::Unknown("supply.rod_diameter"))?;
                    note(KitAssumed::RodDiameter(range));
                    range.most
                }
            };
            let length = draft.rod_length.unwrap_or_else(|| {
                note(KitAssumed::RodLength);
                USUAL_ROD_LENGTH
            });
            let stub = draft.stub.unwrap_or_else(|| {
                note(KitAssumed::Stub);
                if STUB.si() > 0.5 * length.si() {
                    Length::from_metres(0.5 * length.si())
                } else {
                    STUB
                }
            });
            let rod = Rod::new(&RodDraft {
                diameter,
                length,
                stub,
                density,
                deposition: DEPOSITION,
            })?;
            (rod, diameter, Sold::Rods(length))
        };
        let waste = draft.waste.unwrap_or_else(|| {
            note(KitAssumed::Waste);
            WASTE
        });
        let flow = match draft.gas_flow {
            Some(flow) => flow,
            None => {
                let range = self
                    .gas_flows()
                    .ok_or(KitError::Unknown("supply.gas_flow"))?;
                note(KitAssumed::GasFlow(range));
                Flow::from_si(0.5 * (range.least.si() + range.most.si()))
            }
        };
        let pre = draft.pre_flow.unwrap_or_else(|| {
            note(KitAssumed::PreFlow);
            USUAL_PRE_FLOW
        });
        let post = draft.post_flow.unwrap_or_else(|| {
            if process.feeds_wire() {
                note(KitAssumed::WirePostFlow);
                WIRE_POST_FLOW
            } else {
                note(KitAssumed::PostFlow);
                usual_post_flow(self.arc().current)
            }
        });
        let shield = Shield::new(flow, pre, post)?;
        Ok(KitChoice {
            filler,
            diameter,
            sold,
            flow,
            flows: [pre, post],
            kit: Kit {
                rod,
                feed: draft.wire_feed.filter(|_| process.feeds_wire()),
                waste,
                shield,
            },
            assumed,
        })
    }
}
