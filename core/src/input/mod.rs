//! What a job may say: its inputs as plain data, how many of each there may be, and the name of each.

mod draft;
mod field;

pub use draft::{
    Across, ArcDraft, BaffleDraft, Draft, FillDraft, FittingDraft, HoleDraft, JointsDraft, Label,
    MAX_BAFFLE_HOLES, MAX_BAFFLES, MAX_FITTINGS, MAX_LABEL, MAX_MOUNTS, MAX_NAME, Name, StockDraft,
    UseDraft, WeldDraft,
};
pub use field::Field;
