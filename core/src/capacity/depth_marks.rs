//! Dip charts of a tank without a stick: marks by the depth over the lowest inside point.

use super::dip::{Dip, DipError};
use super::pool::Pool;
use crate::units::range::{Limit, OutOfRange, Value};
use crate::units::{Length, Volume};

/// Steps that a chart by depth may have.
pub const MAX_DEPTH_STEPS: u16 = 1_000;

/// A multiple this share of the whole below the top is the top.
const HAIR: f64 = 1e-12;

impl<'a> Pool<'a> {
    /// Marks at whole multiples of a depth, from the lowest inside point to the brim, which is the last of them.
    ///
    /// # Errors
    /// [`DipError`] where the step is not above zero or makes more than [`MAX_DEPTH_STEPS`] steps; the least step that
    /// it names then is in whole hundredths of a millimetre.
    pub fn every(&self, step: Length) -> Result<impl Iterator<Item = Dip> + use<'a>, DipError> {
        let full = self.full_depth();
        let steps = steps(full.si(), step.si(), Value::Length(step), |most| {
            let least = libm::ceil(1e5 * full.si() / most) * 1e-5;
            Value::Length(Length::from_metres(least))
        })?;
        let this = *self;
        Ok((0..=steps).filter_map(move |n| {
            let reading = libm::fmin(f64::from(n) * step.si(), full.si());
            let reading = Length::from_metres(reading);
            let volume = this.at(reading).ok()?.volume;
            Some(Dip { reading, volume })
        }))
    }

    /// Marks at whole multiples of a volume, from none to the brim, which is the last of them. A depth is found for
    /// each mark: about seven clips of the body.
    ///
    /// # Errors
    /// As [`every`](Self::every); the least step is in whole millilitres.
    pub fn every_volume(
        &self,
        step: Volume,
    ) -> Result<impl Iterator<Item = Dip> + use<'a>, DipError> {
        let brim = self.brim();
        let steps = steps(brim.si(), step.si(), Value::Volume(step), |most| {
            let least = libm::ceil(1e6 * brim.si() / most) * 1e-6;
            Value::Volume(Volume::from_cubic_metres(least))
        })?;
        let this = *self;
        let below = (0..steps.max(1)).filter_map(move |n| {
            let volume = Volume::from_cubic_metres(f64::from(n) * step.si());
            let reading = this.depth_for(volume).ok()?;
            Some(Dip { reading, volume })
        });
        Ok(below.chain(core::iter::once(Dip {
            reading: self.full_depth(),
            volume: brim,
        })))
    }
}

/// How many steps cover the whole, rounding at its top left off.
fn steps(
    whole: f64,
    step: f64,
    value: Value,
    least: impl Fn(f64) -> Value,
) -> Result<u32, DipError> {
    if !(step > 0.0 && step.is_finite()) {
        let none = match value {
            Value::Volume(_) => Value::Volume(Volume::default()),
            _ => Value::Length(Length::default()),
        };
        let limit = Limit::Above(none);
        return Err(DipError::Step(OutOfRange { value, limit }));
    }
    let steps = whole / step;
    let most = f64::from(MAX_DEPTH_STEPS);
    if steps > most {
        let limit = Limit::AtLeast(least(most));
        return Err(DipError::TooMany(OutOfRange { value, limit }));
    }
    // At most a thousand.
    Ok(libm::ceil(steps * (1.0 - HAIR)) as u32)
}
