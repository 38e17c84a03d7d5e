//! What is asked and what is answered.

use heapless::{String, Vec};
use serde::{Deserialize, Serialize};

use super::Fault;
use crate::blank::Panel;
use crate::capacity::{Capacity, Level};
use crate::geom::Vector;
use crate::input::Draft;
use crate::seam::{Division, Seam, Tacks};
use crate::tank::{JobError, Tank, Totals};
use crate::units::{Angle, LineEnergy, Ratio, Volume};
use crate::weld::WeldStep;

/// The version of this protocol; both sides must speak the same.
pub const PROTOCOL: u16 = 5;

/// Panels or seams in one reply.
pub const BATCH: usize = 4;

/// Steps of an order in one request.
pub const STEPS: usize = 48;

/// A short name in a reply.
pub type Text = String<32>;

/// What the laptop asks. New kinds are added at the end; none is ever moved.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum Request {
    /// Who are you?
    Hello,
    /// Put this job on the gauge's shelf.
    Keep(#[serde(deserialize_with = "Draft::read")] Draft),
    /// Clear the shelf.
    Forget,
    /// Compute this job and hold it for the requests below.
    Compute(#[serde(deserialize_with = "Draft::read")] Draft),
    /// Up to [`BATCH`] panels of the held job.
    Panels {
        /// The first, counted from 0.
        from: u8,
    },
    /// Up to [`BATCH`] seams of the held job.
    Seams {
        /// The first, counted from 0.
        from: u8,
    },
    /// The liquid in the held job's tank.
    Level {
        /// Above zero lifts the right end.
        pitch: Angle,
        /// Above zero lifts the back.
        roll: Angle,
        /// Depth as a share of the full depth at that lean.
        share: Ratio,
    },
    /// How the gauge is doing.
    Status,
    /// Put some steps of the order of its stitches beside a job on the shelf; those before `from` went before.
    Order {
        /// The job's place on the shelf, counted from 0.
        place: u8,
        /// The place of the first of these steps in the order, counted from 0.
        from: u16,
        /// The steps.
        steps: Vec<WeldStep, STEPS>,
    },
}

/// What the gauge answers. New kinds are added at the end; none is ever moved.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[expect(
    clippy::large_enum_variant,
    reason = "without allocation a batch lives in its message"
)]
pub enum Reply {
    /// To [`Request::Hello`].
    Hello {
        /// [`PROTOCOL`] of the gauge.
        protocol: u16,
        /// The board it runs on.
        board: Text,
        /// The version of its program.
        version: Text,
    },
    /// The job stands on the shelf at this place, counted from 0.
    Kept {
        /// The place.
        place: u8,
    },
    /// The shelf is full; nothing was lost.
    ShelfFull {
        /// How many jobs it takes.
        most: u8,
    },
    /// The shelf is clear.
    Forgot,
    /// To [`Request::Compute`].
    Computed(Summary),
    /// The job cannot be computed, or not be kept.
    Refused(JobError),
    /// To [`Request::Panels`]; empty past the last.
    Panels(Vec<Panel, BATCH>),
    /// To [`Request::Seams`]; empty past the last.
    Seams(Vec<SeamReport, BATCH>),
    /// To [`Request::Level`]; `None` where the lean or the depth is out of range.
    Level(Option<Level>),
    /// No job is held: ask [`Request::Compute`] first.
    NothingHeld,
    /// To [`Request::Status`].
    Status(Status),
    /// What came could not be read.
    Unread(Fault),
    /// To [`Request::Order`]: so many steps stand beside the job now. Fewer than were sent where steps before them are
    /// missing or no such job is on the shelf.
    Ordered {
        /// How many.
        steps: u16,
    },
}

/// The figures of a job as a whole.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Summary {
    /// Over the sheet.
    pub outside: Volume,
    /// Within the sheet.
    pub inside: Volume,
    /// Centre of the inside.
    pub centroid: Vector,
    /// What it holds.
    pub capacity: Capacity,
    /// Energy of the arc for each length, without a factor.
    pub arc_energy: LineEnergy,
    /// Heat input for each length, with the factor of EN 1011-1.
    pub heat_input: LineEnergy,
    /// Sums.
    pub totals: Totals,
    /// How many panels there are.
    pub panels: u8,
    /// How many seams there are.
    pub seams: u8,
}

/// A seam with its tacks and stitches.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct SeamReport {
    /// The seam.
    pub seam: Seam,
    /// Its tacks.
    pub tacks: Option<Tacks>,
    /// Its stitches.
    pub stitches: Option<Division>,
}

/// What the gauge counts. Counters wrap; sizes are in bytes.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Status {
    /// Button events handled.
    pub events: u32,
    /// Redraws that sent anything.
    pub redraws: u32,
    /// Bytes that the last redraw sent to the display, commands included.
    pub last_redraw_bytes: u32,
    /// Bytes sent to the display since the start.
    pub display_bytes: u32,
    /// Clock ticks from the last button event to its last pixel; the board says what a tick is.
    pub last_redraw_ticks: u32,
    /// Clock ticks that the last [`Request::Compute`] took.
    pub last_compute_ticks: u32,
    /// The deepest that the stack has been.
    pub stack_high_water: u32,
    /// What the stack may use.
    pub stack_size: u32,
    /// Bytes that the link lost because they came faster than they were read.
    pub link_lost: u32,
}

/// The figures of a tank as a whole.
#[must_use]
pub fn summary(tank: &Tank) -> Summary {
    let body = tank.body();
    let count = |n: usize| u8::try_from(n).unwrap_or(u8::MAX);
    Summary {
        outside: body.outside.volume(),
        inside: body.inside.volume(),
        centroid: body.inside.centroid(),
        capacity: *tank.capacity(),
        arc_energy: tank.arc().arc_energy(),
        heat_input: tank.arc().heat_input(),
        totals: tank.totals(),
        panels: count(tank.panel_count()),
        seams: count(tank.seam_count()),
    }
}

impl SeamReport {
    /// One seam of a tank.
    #[must_use]
    pub fn of(tank: &Tank, seam: Seam) -> Self {
        Self {
            seam,
            tacks: tank.tacks(&seam),
            stitches: tank.division(&seam),
        }
    }
}
