//! What a job may say: its inputs as plain data, how much of each there may be, and the name of each.
//!
//! - [`Draft`] is the whole job, as a job file or the wire brings it: unchecked.
//! - [`Shape`] is the body as its maker describes it: a [`Block`] with plane [`Cut`]s, a [`Profile`], a
//!   [`Taper`] or a [`Drum`]. [`body`](crate::body) makes the solid from it.
//! - [`Joint`] says how the panels meet along an edge. [`blank`](crate::blank) works out what that costs
//!   each panel.
//! - [`limits`] has the least and the most of every input.
//! - [`Field`] names an input as a job file does, for an error to say which one it means.
//!
//! [`tank`](crate::tank) checks a draft and fills in what it leaves out.

mod block;
mod draft;
mod drum;
mod face;
mod field;
mod joint;
pub mod limits;
mod measure;
mod profile;
#[cfg(feature = "serde")]
mod read;
mod shape;
mod sized;
mod taper;
mod too_many;
mod walls;

pub use block::{Block, Cut};
pub use draft::{
    Across, ArcDraft, BaffleDraft, Draft, FillDraft, FittingDraft, HoleDraft, JointsDraft, Label,
    Name, StockDraft, UseDraft, WeldDraft,
};
pub use drum::{Axis, Drum, Ends};
pub use face::{Face, NotAFace};
pub use field::Field;
pub use joint::{Joint, OwnJoint};
pub use measure::Measure;
pub use profile::{Profile, ProfilePoint};
pub use shape::Shape;
pub use sized::Sized;
pub use taper::Taper;
pub use too_many::TooMany;
pub use walls::WallSet;
