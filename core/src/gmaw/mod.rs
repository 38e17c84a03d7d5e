//! Arcs that are fed with wire: gas, transfer, stick-out, and how fast the wire must come for the current and for the bead.
//!
//! None of it changes the tank or its heat; it is what a welder sets beside current and voltage, and what is checked
//! against them.

mod arc;
mod gas;
mod melting;
mod transfer;

pub use arc::{WireArc, WireArcDraft, WireAssumed, WireFault, WireFill};
pub use gas::{GasFault, ShieldGas};
pub use melting::{MeltingFeed, MeltingSource, melting_feeds};
pub use transfer::{
    StickOut, TRANSITION_SOURCE, Transfer, WireCurrents, transition, usual_stick_out, wire_currents,
};
