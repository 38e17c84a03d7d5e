//! How two panels meet along an edge, and what each of them gives up for it.
//!
//! A panel is first thought of as running to the sharp outside edge. Each joint then says by how much
//! its edge falls short of that (or runs past it), measured along the outer face, square to the edge.
//!
//! The relations are plane trigonometry on the cross-section of a corner: two sheets whose outer faces
//! meet at an interior angle θ, the foot of the inside corner lying `(t_other + t_own cos θ) / sin θ`
//! from the outside corner. An inside corner of the body (θ above 180°) is the same corner seen from the
//! other side of the sheet. Names of joints are those of AWS A3.0 (from memory).

mod fit;
mod joints;

pub use fit::{
    Allow, EdgeFit, FLAT_WITHIN, JOGGLE_RAMP, JointError, JointFit, SHARPEST, SheetCorner,
};
pub(crate) use joints::is_same_edge;
pub use joints::{Joints, Meeting};
