//! What of the liquid reaches the pick-ups, found once for all that tell of it.

use seamwright_core::capacity::WorstUsable;
use seamwright_core::tank::{Reach, ShutAir};

use super::Asked;

/// How the tank is parted, what is drawn at its worst lean, and the air that stays shut in.
#[derive(Debug)]
pub(crate) struct Drawn<'a> {
    /// The compartments and what reaches the pick-ups.
    pub(crate) reach: Box<Reach<'a>>,
    /// At the worst lean, where the job allows any.
    pub(crate) worst: Option<WorstUsable>,
    /// Air shut in at the worst lean for that.
    pub(crate) air: Option<ShutAir>,
}

impl<'a> Drawn<'a> {
    /// Of a tank; `None` where it has compartments that cannot be drawn from, which is told as the job is read.
    pub(crate) fn of(asked: &Asked<'a>) -> Option<Self> {
        let reach = Box::new(asked.tank.reach(&asked.extras.plumbing).ok()?);
        Some(Self {
            worst: reach.worst(),
            air: reach.worst_shut_air(),
            reach,
        })
    }
}
