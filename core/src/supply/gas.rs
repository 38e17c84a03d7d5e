//! Shielding gas: `V = flow · (t_arc + n (t_pre + t_post))`. Every start of the arc pays for its pre- and
//! post-flow, so that short stitches cost gas.

use crate::input::limits::{GAS_FLOW, POST_FLOW, PRE_FLOW};
use crate::units::flow::Flow;
use crate::units::range::RangeError;
use crate::units::{Current, Figure, Ratio, Time, Volume};

/// Gas as set on the machine.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Shield {
    flow: f64,
    pre: f64,
    post: f64,
}

/// Post-flow for a current: a second for each 10 A, at least 8 s: common practice, no source.
#[must_use]
pub fn usual_post_flow(current: Current) -> Time {
    let seconds = 0.1 * current.si();
    Time::from_seconds(if seconds > 8.0 { seconds } else { 8.0 })
}

/// Post-flow where the electrode is a wire, which needs no gas to cool: common practice, no source.
pub const WIRE_POST_FLOW: Time = Time::from_seconds(2.0);

/// Pre-flow, from 0.3 to 1 s: common practice, no source.
pub const USUAL_PRE_FLOW: Time = Time::from_seconds(0.5);

impl Shield {
    /// A flow, and how long it runs before and after the arc.
    ///
    /// # Errors
    /// [`RangeError`] for a flow outside 1 to 50 L/min, a pre-flow outside 0 to 60 s, or a post-flow outside 0
    /// to 120 s.
    pub fn new(flow: Flow, pre: Time, post: Time) -> Result<Self, RangeError> {
        let litre = 1.0 / 60_000.0;
        let (least, most) = GAS_FLOW;
        Ok(Self {
            flow: Figure::Flow.within(flow.si(), least * litre, most * litre)?,
            pre: Figure::PreFlow.within(pre.si(), PRE_FLOW.0.si(), PRE_FLOW.1.si())?,
            post: Figure::PostFlow.within(post.si(), POST_FLOW.0.si(), POST_FLOW.1.si())?,
        })
    }

    /// What an arc time with so many starts uses.
    ///
    /// # Errors
    /// [`RangeError`] for an arc time outside 0 to 100 h.
    pub fn used(&self, arc: Time, starts: u32) -> Result<Gas, RangeError> {
        let arc = Figure::ArcTime.within(arc.si(), 0.0, 360_000.0)?;
        let idle = f64::from(starts) * (self.pre + self.post);
        Ok(Gas {
            arc: Volume::from_cubic_metres(self.flow * arc),
            idle: Volume::from_cubic_metres(self.flow * idle),
        })
    }
}

/// Gas used, at 15 °C and 101.325 kPa.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Gas {
    /// While the arc burns.
    pub arc: Volume,
    /// Before and after.
    pub idle: Volume,
}

impl Gas {
    /// Both.
    #[must_use]
    pub fn total(&self) -> Volume {
        Volume::from_cubic_metres(self.arc.si() + self.idle.si())
    }

    /// The share of all that runs before and after the arc; 0 where none runs.
    #[must_use]
    pub fn idle_share(&self) -> Ratio {
        let total = self.total().si();
        Ratio::from_share(if total > 0.0 {
            self.idle.si() / total
        } else {
            0.0
        })
    }

    /// With that of another seam.
    #[must_use]
    pub fn and(&self, other: &Self) -> Self {
        let sum = |a: Volume, b: Volume| Volume::from_cubic_metres(a.si() + b.si());
        Self {
            arc: sum(self.arc, other.arc),
            idle: sum(self.idle, other.idle),
        }
    }
}
