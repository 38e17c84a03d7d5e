//! In which order a tank goes together: what is put on when, when each seam can be reached, and from which side.
//!
//! Work follows the metal: fittings while their panel is flat and open on both sides, bends and rolls, the long seam of a
//! wrapper or drum, the walls round the side that stays open, baffles through that side, the panel that closes the tank,
//! and the seams outside. [`Tank::build_order`](crate::tank::Tank::build_order) finds which panel is best put on last:
//! the one without which a hand and a torch reach the most.
//!
//! Where to look:
//!
//! - What there is to know of a stage and of a seam: `stage`.
//! - Whether hand and torch reach a seam: `reach`, through which openings: `mouth`.
//! - Which panels are put on last where nothing stands within: `closing`.
//! - Which order of panels and baffles reaches the most: `sequence`; the stages that follow from it: `order`.
//! - How an edge that nothing reaches may be held all the same: [`EdgeRemedies`]; leaving it free: `free`.

mod closing;
mod free;
mod mouth;
mod order;
mod reach;
mod sequence;
mod stage;

pub use crate::fitting::{EdgeRemedies, PlugWelds, SlotWelds};
pub use free::BaffleEdge;
pub use order::BuildOrder;
pub use stage::{BuildStage, BuildWork, MAX_STAGES, PanelSet, SeamStages, WeldAccess};
