//! The leak test: how it is run, and what its readings say.
//!
//! A [`Vessel`] and a [`LeakRule`] give a [`LeakPlan`]: the method, with its reason, and the pressure, never above
//! what the weakest panel takes, with the [`PressureLimit`] that set it. [`StoredEnergy`] says what the air would let go at once, [`Decay`] how
//! long a gauge needs before it shows a leak. [`Leak`] is what the readings of a test come to, with its
//! uncertainty, and [`LeakVerdict`] what may be said of the tank.
//!
//! A test under pressure can kill: air lets its energy go at once where a seam gives. What this module
//! says is arithmetic on published figures. Local codes and licensed practice go first.

mod decay;
mod energy;
mod error;
mod head;
mod limit;
mod plan;
mod rate;
mod reading;
mod reading_error;
mod rule;
#[cfg(test)]
mod tests;
mod vessel;

pub use decay::{Decay, Instruments, MEASURE, USUAL_BAROMETER_STEP, USUAL_THERMOMETER};
pub use energy::{StoredEnergy, force, weighs};
pub use error::LeakError;
pub use head::{head_for, pressure_under};
pub use limit::PressureLimit;
pub use plan::{AIR_MOST, ENERGY_MOST, LONGEST, LeakPlan, Method, MethodReason, Sought, Vessel};
pub use rate::LeakRate;
pub use reading::{Doubt, Leak, LeakVerdict, MOST_READINGS, Reading};
pub use reading_error::ReadingError;
pub use rule::{LeakRule, Medium, hold};
pub use vessel::BAROMETER;
