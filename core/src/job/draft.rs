//! The inputs of one tank as plain data: what a job file says and what the wire carries, unchecked.

use heapless::{String, Vec};

use crate::body::{Block, Face, MAX_FACES};
use crate::capacity::Measure;
use crate::heat::arc::Process;
use crate::quantity::{Current, Length, Ratio, Speed, Voltage, Volume};
use crate::seam::Joint;
use crate::stock::{Alloy, Temper};

/// Bytes that a job's name may have.
pub const MAX_NAME: usize = 64;

/// A job's name.
pub type Name = String<MAX_NAME>;

/// The inputs of one tank. `None` leaves a value to its default, and the plan says which it took.
#[derive(Clone, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Draft {
    /// What the tank is called.
    pub name: Name,
    /// Its body.
    pub shape: Block,
    /// Its sheet.
    pub stock: StockDraft,
    /// How its edges are joined.
    pub joints: JointsDraft,
    /// What it is to hold.
    pub fill: FillDraft,
    /// Settings of the arc.
    pub arc: ArcDraft,
    /// How it is welded.
    pub weld: WeldDraft,
}

/// Sheet.
#[derive(Clone, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct StockDraft {
    /// The alloy.
    pub alloy: Alloy,
    /// Its temper, where it was given.
    pub temper: Option<Temper>,
    /// The thickness all over.
    pub thickness: Length,
    /// Faces of another thickness.
    pub faces: Vec<(Face, Length), MAX_FACES>,
}

/// Joints.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct JointsDraft {
    /// The joint of every edge.
    pub default: Option<Joint>,
}

/// What the tank is to hold.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct FillDraft {
    /// Share of the brim that stays empty.
    pub headspace: Option<Ratio>,
    /// What it should hold.
    pub target: Option<Volume>,
    /// By which measure.
    pub target_of: Option<Measure>,
    /// Height of the pick-up above the lowest inside point.
    pub pick_up: Option<Length>,
    /// Step of the dip chart.
    pub dip_step: Option<Length>,
}

/// Settings of the arc.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct ArcDraft {
    /// The process.
    pub process: Option<Process>,
    /// Mean current.
    pub current: Option<Current>,
    /// Mean arc voltage.
    pub voltage: Option<Voltage>,
    /// Speed along the seam.
    pub travel: Option<Speed>,
    /// Share of the arc energy that counts as heat input.
    pub efficiency: Option<Ratio>,
}

/// How the tank is welded.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct WeldDraft {
    /// Longest stitch.
    pub stitch_max: Option<Length>,
    /// Widest spacing of tacks, centre to centre.
    pub tack_pitch: Option<Length>,
}
