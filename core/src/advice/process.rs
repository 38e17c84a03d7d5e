//! What a person should know of the process: metal, gas and wire that do not go together, coatings, and argon behind seams.

use core::fmt;

use super::notice::Severity;
use crate::gmaw::{WireArc, WireFault};
use crate::purge::Purge;
use crate::tables::{Coating, Family, Process};
use crate::tank::Tank;
use crate::units::{Length, LengthUnit};

/// How far beside a seam zinc and paint are taken off at least: 50 mm, AWS D19.0 (from memory) has 50 to 100 mm.
pub const BARE_LEAST: Length = Length::new(50.0, LengthUnit::Millimetre);

/// A coated sheet.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CoatedSheet {
    /// With what.
    pub coating: Coating,
    /// How far beside each seam it is ground away; `None` where nobody said.
    pub bare: Option<Length>,
}

/// What a job says of its process beyond the arc itself.
#[derive(Clone, Copy, Debug, Default)]
pub struct ProcessWork<'a> {
    /// The wire's arc, where there is one.
    pub wire: Option<&'a WireArc>,
    /// The coating of the sheet, where it has one.
    pub coated: Option<CoatedSheet>,
    /// The purge, where one is planned.
    pub purge: Option<&'a Purge>,
}

/// One thing to know of the process.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum ProcessNotice {
    /// The process is none for this metal.
    NotForMetal {
        /// The process.
        process: Process,
    },
    /// Something of the wire's arc.
    Wire(WireFault),
    /// The sheet is coated, and nobody said that the coating is off.
    Coated {
        /// With what.
        coating: Coating,
    },
    /// The coating is said to be off beside the seams.
    CoatingOff {
        /// With what.
        coating: Coating,
        /// How far.
        bare: Length,
    },
    /// Stainless steel whose seams have no argon behind them in this job.
    NoPurge,
    /// Argon in a tank: it stifles, and it must get out while the last seam is closed.
    PurgeNeedsVent,
    /// A compartment through which no purge gas flows.
    PurgeStands {
        /// Which, counted from 1.
        compartment: u8,
    },
    /// A purge of a metal that wants none.
    PurgeUnwanted,
}

impl ProcessNotice {
    /// A stable code for programs.
    #[must_use]
    pub const fn code(&self) -> &'static str {
        match self {
            Self::NotForMetal { .. } => "process-not-for-metal",
            Self::Wire(fault) => match fault {
                WireFault::Gas { .. } => "gas-not-for-job",
                WireFault::NoSprayYet { .. } => "no-spray-yet",
                WireFault::NoSprayInGas => "no-spray-in-gas",
                WireFault::PastShortCircuits { .. } => "past-short-circuits",
                WireFault::Globular => "globular",
                WireFault::PastWire { .. } => "current-past-wire",
                WireFault::StickOut { .. } => "stick-out",
                WireFault::Feed { .. } => "feed-against-current",
                WireFault::Underfilled(_) => "beads-underfilled",
                WireFault::Overfilled(_) => "beads-overfilled",
            },
            Self::Coated { .. } => "coated-sheet",
            Self::CoatingOff { .. } => "coating-off",
            Self::NoPurge => "no-purge",
            Self::PurgeNeedsVent => "purge-needs-vent",
            Self::PurgeStands { .. } => "purge-stands",
            Self::PurgeUnwanted => "purge-unwanted",
        }
    }

    /// Whether the job must not be welded so.
    #[must_use]
    pub const fn forbids(&self) -> bool {
        match self {
            Self::NotForMetal { .. } | Self::Coated { .. } => true,
            Self::Wire(fault) => fault.forbids(),
            _ => false,
        }
    }

    /// How much it matters.
    #[must_use]
    pub const fn severity(&self) -> Severity {
        match self {
            _ if self.forbids() => Severity::Warning,
            Self::CoatingOff { .. } => Severity::Warning,
            Self::NoPurge | Self::PurgeUnwanted => Severity::Info,
            _ => Severity::Caution,
        }
    }

    /// Writes it as a sentence about `tank`.
    pub(super) fn write(&self, tank: &Tank, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let mm = |length: &Length| length.display(LengthUnit::Millimetre, 0);
        if self.forbids() {
            f.write_str("NO: ")?;
        }
        match self {
            Self::NotForMetal {
                process: Process::FluxCored,
            } => f.write_str(
                "no flux-cored wire is made for aluminium: weld it with TIG or MIG, in inert gas",
            ),
            Self::NotForMetal { process } => write!(
                f,
                "{} is a process with active gas, which burns {}: weld it with TIG or MIG, in inert gas",
                process.name(),
                tank.job().alloy()
            ),
            Self::Wire(fault) => write!(f, "{fault}"),
            Self::Coated { coating } => write!(
                f,
                "the sheet is {}, and {}. Grind or strip it off for at least {} to each side of every seam, both faces, by a way that makes no dust to breathe, and say so in the job (coating_removed); draw off fume, and wear breathing gear that fits it. Local codes and licensed practice go first",
                coating.name(),
                coating.harms(),
                mm(&BARE_LEAST)
            ),
            Self::CoatingOff { coating, bare } => {
                write!(
                    f,
                    "the sheet is {}, taken off for {} beside each seam: {}. Look that it is off on both faces, also where panels lap, draw off fume at the arc, and wear breathing gear that fits it",
                    coating.name(),
                    mm(bare),
                    coating.harms()
                )?;
                if *bare < BARE_LEAST {
                    write!(
                        f,
                        "; {} are less than the {} that practice takes off at least (AWS D19.0, from memory)",
                        mm(bare),
                        mm(&BARE_LEAST)
                    )?;
                }
                f.write_str("; the seam has lost its coating, and rusts first")
            }
            Self::NoPurge => f.write_str(
                "the back of a seam in stainless steel that was hot in air has a dark skin that rusts: give it argon from behind (a [purge] table reckons it into supplies and time), or flux paste, or reach and clean it afterwards",
            ),
            Self::PurgeNeedsVent => f.write_str(
                "the tank is full of argon, which stifles unseen: nobody leans or climbs in, the room is aired, and the gas is shut off at the end. It lies low and runs into pits. While the last of a seam is closed the way out stays open and the flow is turned down, or the pressure blows through the pool",
            ),
            Self::PurgeStands { compartment } => write!(
                f,
                "no gas flows through compartment {compartment}, which has one opening or none: put the hose into it by itself, or give it a second opening, before the seams about it are welded"
            ),
            Self::PurgeUnwanted => f.write_str(
                "argon behind the seams does nothing for this metal: it is stainless steel that wants it",
            ),
        }
    }
}

impl Tank {
    /// Calls `show` for every notice of the process on this tank.
    pub fn each_process_notice(&self, work: &ProcessWork<'_>, mut show: impl FnMut(ProcessNotice)) {
        let (process, family) = (self.arc().process, self.job().alloy().family());
        if family == Family::Aluminium && matches!(process, Process::Mag | Process::FluxCored) {
            show(ProcessNotice::NotForMetal { process });
        }
        if let Some(wire) = work.wire {
            for fault in &wire.faults {
                show(ProcessNotice::Wire(*fault));
            }
        }
        match work.coated {
            Some(CoatedSheet {
                coating,
                bare: None,
            }) => show(ProcessNotice::Coated { coating }),
            Some(CoatedSheet {
                coating,
                bare: Some(bare),
            }) => show(ProcessNotice::CoatingOff { coating, bare }),
            None => {}
        }
        match work.purge {
            Some(purge) => {
                if !self.wants_purge() {
                    show(ProcessNotice::PurgeUnwanted);
                }
                show(ProcessNotice::PurgeNeedsVent);
                for (room, compartment) in purge.rooms.iter().zip(1_u8..) {
                    if !room.is_flushed() {
                        show(ProcessNotice::PurgeStands { compartment });
                    }
                }
            }
            None if self.wants_purge() => show(ProcessNotice::NoPurge),
            None => {}
        }
    }
}
