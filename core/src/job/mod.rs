//! The checked inputs of one tank, and the stages run over them.

mod draft;
mod error;

pub use draft::{ArcDraft, Draft, FillDraft, JointsDraft, MAX_NAME, Name, StockDraft, WeldDraft};
pub use error::{Field, JobError, Problem};
