//! What a program that plans a tank nearly always needs, in one `use`.
//!
//! ```
//! use seamwright_core::prelude::*;
//!
//! let mm = |value| Length::new(value, LengthUnit::Millimetre);
//! let box_of = Block::new(mm(320.0), mm(180.0), mm(160.0));
//! let draft = Draft::new("Header tank", box_of, StockDraft::of(Alloy::A5754, mm(2.0)))?;
//! let tank = Tank::build(&draft)?;
//! assert_eq!(tank.seams().count(), 12);
//! # Ok::<(), Box<dyn core::error::Error>>(())
//! ```
//!
//! Each name is documented where it lives; nothing here has a second meaning there.

pub use crate::advice::Advice;
pub use crate::blank::{Blank, Panel};
pub use crate::capacity::{Capacity, Lean};
pub use crate::input::{
    ArcDraft, BaffleDraft, Block, Cut, Draft, Drum, Face, FillDraft, FittingDraft, Joint,
    JointsDraft, Profile, Shape, Sized, StockDraft, Taper, UseDraft, WeldDraft,
};
pub use crate::leak::LeakRule;
pub use crate::seam::Seam;
pub use crate::strength::Trial;
pub use crate::tables::{Alloy, Filler, Liquid, Process, Temper};
pub use crate::tank::{JobError, Tank};
pub use crate::units::{
    Angle, AngleUnit, Energy, EnergyUnit, Length, LengthUnit, LineEnergy, LineEnergyUnit, Mass,
    MassUnit, Pressure, PressureUnit, Ratio, RatioUnit, Temperature, TemperatureUnit, Time,
    TimeUnit, Volume, VolumeUnit,
};
pub use crate::weld::{PlanError, PlanOptions, PlannedStitch, Planner, WaitCause, WeldPlan};
