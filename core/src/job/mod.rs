//! The checked inputs of one tank, and the stages run over them.
//!
//! A [`Draft`] is plain data, as a job file or the wire brings it. [`Job::check`] fills in what
//! practice can supply (each default is told as an [`Assumed`]) and refuses what is out of range;
//! [`Tank::build`] adds the body, from which every later stage follows.

mod assumed;
mod balance;
mod blame;
mod buildable;
mod check;
mod draft;
mod error;
mod filling;
mod joints;
mod laying;
mod leak;
mod liquid;
mod notices;
mod order;
mod planner;
mod shrink;
mod sizes;
mod strength;
mod supplies;
mod tacking;
mod tank;
mod welding;
mod within;

pub use assumed::Assumed;
pub use balance::{BalanceError, MountLoad, MountLoads};
pub use check::{
    CURRENT, EFFICIENCY, HEADSPACE_MOST, Job, LEAN_MOST, REACH, SIZE, TEMPERATURE, THICKNESS,
    TRAVEL, VOLTAGE,
};
pub use draft::{
    Across, ArcDraft, BaffleDraft, Draft, FillDraft, FittingDraft, HoleDraft, JointsDraft, Label,
    MAX_BAFFLE_HOLES, MAX_BAFFLES, MAX_FITTINGS, MAX_LABEL, MAX_MOUNTS, MAX_NAME, Name, StockDraft,
    UseDraft, WeldDraft,
};
pub use error::{Field, JobError, Problem};
pub use filling::FUSED_MOST;
pub use joints::{BEND_RADIUS, GAP, LAP};
pub use laying::LayingOut;
pub use leak::{BAROMETER, TestError};
pub use order::Stitch;
pub use planner::{Planner, Progress, Steps};
pub use shrink::{Draw, Larger, MAX_LARGER, Shrinkage};
pub use strength::{Bearing, Cure, Form, RESERVE, StrengthError, TEST_RESERVE, Trial};
pub use supplies::{AllUse, Kit, SeamTime, SeamUse, WASTE};
pub use tacking::TackOrder;
pub use tank::{MAX_MARKS, Tank, Totals};
pub use welding::{
    ACCELERATION_MOST, AMBIENT, EMISSIVITY, INTERPASS_MOST, MOVING, PRESSURE_MOST, SERVICE,
    Service, Welding, uptake_band, usual_uptake,
};
