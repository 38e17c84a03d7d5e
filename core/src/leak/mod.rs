//! The leak test: how it is run, and what its readings say.
//!
//! A [`Vessel`] and a [`Rule`] give a [`Plan`]: the method, with its reason, and the pressure, never above
//! what the weakest panel takes. [`StoredEnergy`] says what the air would let go at once, [`Decay`] how
//! long a gauge needs before it shows a leak. [`Leak`] is what the readings of a test come to, with its
//! uncertainty, and [`Verdict`] what may be said of the tank.
//!
//! A test under pressure can kill: air lets its energy go at once where a seam gives. What this module
//! says is arithmetic on published figures. Local codes and licensed practice go first.

mod decay;
mod energy;
mod error;
mod head;
mod plan;
mod rate;
mod reading;
mod reading_error;
mod rule;
mod soap;
#[cfg(test)]
mod tests;
mod vessel;

pub use decay::{Decay, Instruments, MEASURE};
pub use energy::{StoredEnergy, force, weighs};
pub use error::{LeakError, What};
pub use head::{GRAVITY, WATER, head_for, pressure_under};
pub use plan::{AIR_MOST, ENERGY_MOST, LONGEST, Method, Plan, Reason, Sought, Vessel};
pub use rate::{GAS, LeakRate};
pub use reading::{Doubt, Leak, MOST_READINGS, Reading, Verdict};
pub use reading_error::ReadingError;
pub use rule::{Medium, Rule, hold};
pub use soap::bubble_time;
pub use vessel::{BAROMETER, TestError};
