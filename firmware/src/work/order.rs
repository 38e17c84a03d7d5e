//! The order in which an open job's stitches are welded, wherever it came from.

use seamwright_core::tank::Tank;
use seamwright_core::units::Time;
use seamwright_core::weld::Progress;
use seamwright_core::weld::WeldStep;

/// Where an order came from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Origin {
    /// It was sent with the job.
    Sent,
    /// The gauge found it, as far as it has come.
    Own(Progress),
}

/// An order.
#[derive(Clone, Copy, Debug)]
pub struct Order<'a> {
    steps: Steps<'a>,
    origin: Origin,
}

#[derive(Clone, Copy, Debug)]
enum Steps<'a> {
    /// As they stand on the shelf.
    Packed(&'a [u8]),
    Planned(&'a [WeldStep]),
}

/// What a whole order takes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Takes {
    /// From the first arc to the end of the last.
    pub job: Time,
    /// Of the waits.
    pub waits: Time,
    /// The step with the hottest start.
    pub hottest: WeldStep,
}

impl<'a> Order<'a> {
    /// One that came with the job, as the shelf has it.
    pub(crate) const fn sent(packed: &'a [u8]) -> Self {
        Self {
            steps: Steps::Packed(packed),
            origin: Origin::Sent,
        }
    }

    /// One of the gauge's own.
    pub(super) const fn planned(steps: &'a [WeldStep], origin: Origin) -> Self {
        Self {
            steps: Steps::Planned(steps),
            origin,
        }
    }

    /// Where it came from.
    #[must_use]
    pub const fn origin(&self) -> Origin {
        self.origin
    }

    /// How many steps it has.
    #[must_use]
    pub const fn count(&self) -> usize {
        match self.steps {
            Steps::Packed(bytes) => bytes.len() / WeldStep::BYTES,
            Steps::Planned(steps) => steps.len(),
        }
    }

    /// The step at a place, counted from 0.
    #[must_use]
    pub fn step(&self, place: usize) -> Option<WeldStep> {
        match self.steps {
            Steps::Packed(bytes) => {
                let at = place * WeldStep::BYTES;
                let packed = bytes.get(at..at + WeldStep::BYTES)?;
                packed.try_into().ok().map(WeldStep::unpack)
            }
            Steps::Planned(steps) => steps.get(place).copied(),
        }
    }

    /// The steps.
    pub fn steps(self) -> impl Iterator<Item = WeldStep> + 'a {
        (0..self.count()).filter_map(move |place| self.step(place))
    }

    /// Whether it is one of this tank.
    #[must_use]
    pub fn fits(&self, tank: &Tank) -> bool {
        tank.is_order(self.steps())
    }

    /// What it takes on this tank; `None` where it has no step.
    #[must_use]
    pub fn takes(&self, tank: &Tank) -> Option<Takes> {
        let hottest = self.steps().max_by_key(|step| step.warmth)?;
        let waits: u32 = self.steps().map(|step| u32::from(step.wait)).sum();
        let waits = f64::from(waits);
        // From the end of one stitch to the next there are as many ways as stitches but one.
        let moves = self.count().saturating_sub(1) as f64;
        let moving = moves * tank.job().welding().moving.si();
        Some(Takes {
            job: Time::from_seconds(tank.totals().arc.si() + moving + waits),
            waits: Time::from_seconds(waits),
            hottest,
        })
    }
}
