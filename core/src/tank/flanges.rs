//! Whether the flanges of flanged laps find room.

use super::{JobError, Problem, Tank};
use crate::blank::{CutBlank, PanelPlan};
use crate::input::Field;
use crate::units::Length;
use crate::units::range::{Limit, OutOfRange, Value};

/// Halvings of a length: to a thousandth of a millimetre from the longest lap.
const HALVINGS: u8 = 20;

impl Tank {
    /// Whether every flange finds room along its side and on the wall on which it comes to lie.
    ///
    /// # Errors
    /// The lap, with the longest for which they all find room.
    pub fn check_flanges(&self) -> Result<(), JobError> {
        if self.too_long(&self.plan())?.is_none() {
            return Ok(());
        }
        let lap = self.job.joints.allow.lap;
        let mut joints = self.job.joints.clone();
        let (mut fits, mut not) = (0.0, lap.si());
        for _ in 0..HALVINGS {
            let middle = 0.5 * (fits + not);
            joints.allow.lap = Length::from_metres(middle);
            let plan = PanelPlan {
                joints: &joints,
                ..self.plan()
            };
            // Shorter than its bend takes, a flange is refused as well, for that.
            match self.too_long(&plan) {
                Ok(Some(())) => not = middle,
                Ok(None) | Err(_) => fits = middle,
            }
        }
        Err(JobError {
            field: Field::Lap,
            problem: Problem::OutOfRange(OutOfRange {
                value: Value::Length(lap),
                limit: Limit::AtMost(Value::Length(Length::from_metres(fits))),
            }),
        })
    }

    /// Whether any flange is too long.
    fn too_long(&self, plan: &PanelPlan<'_>) -> Result<Option<()>, JobError> {
        let mut blank = CutBlank::new();
        for panel in plan.panels(self.job.alloy().density()) {
            if !plan.is_flanged(&panel) {
                continue;
            }
            let found = plan.long_flange(&panel, &mut blank);
            let found = found.map_err(|error| JobError {
                field: Field::Lap,
                problem: Problem::Blank(error),
            })?;
            if found.is_some() {
                return Ok(Some(()));
            }
        }
        Ok(None)
    }
}
