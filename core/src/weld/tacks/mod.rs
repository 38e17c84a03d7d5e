//! The order of the tacks: `tacking` has the rules and the work, `halving` the order along one seam, `order` asks them of
//! a tank.

mod halving;
mod order;
mod tacking;

pub use order::TackOrder;
pub use tacking::{Tack, Tacking};
