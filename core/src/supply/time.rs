//! How long a job takes.

use crate::input::limits::JOB_TIME;
use crate::units::Figure;
use crate::units::Time;
use crate::units::range::RangeError;

/// The parts of a job's time.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Parts {
    /// With the arc burning.
    pub arc: Time,
    /// Waiting for the metal to cool.
    pub wait: Time,
    /// Moving from stitch to stitch.
    pub moves: Time,
    /// Rests that the duty cycle asks for.
    pub rest: Time,
    /// All else: setting up, cleaning, fitting.
    pub other: Time,
}

/// A job's time.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct JobTime {
    /// With the arc burning.
    pub arc: Time,
    /// Between arcs. The power source rests while the welder waits or moves, so of the two the longer
    /// counts: never less than is needed, a little more where a rest falls due between waits.
    pub between: Time,
    /// From start to end.
    pub total: Time,
}

impl Parts {
    /// Puts the parts together.
    ///
    /// # Errors
    /// [`RangeError`] for a part outside 0 to 1000 h.
    pub fn job(&self) -> Result<JobTime, RangeError> {
        let hours = |time: Time| Figure::Time.within(time.si(), JOB_TIME.0.si(), JOB_TIME.1.si());
        let arc = hours(self.arc)?;
        let idle = hours(self.wait)? + hours(self.moves)?;
        let rest = hours(self.rest)?;
        let between = if rest > idle { rest } else { idle };
        Ok(JobTime {
            arc: self.arc,
            between: Time::from_seconds(between),
            total: Time::from_seconds(arc + between + hours(self.other)?),
        })
    }
}
