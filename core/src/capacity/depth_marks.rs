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

#[cfg(test)]
mod tests {
    extern crate std;

    use std::vec::Vec;

    use super::*;
    use crate::capacity::{Calibration, DipScale, DipStep, Lean, Pour, PourError};
    use crate::input::{Block, Draft, Sized, StockDraft};
    use crate::tables::Alloy;
    use crate::tank::Tank;
    use crate::units::{LengthUnit, VolumeUnit};

    fn mm(value: f64) -> Length {
        Length::new(value, LengthUnit::Millimetre)
    }

    fn litres(value: f64) -> Volume {
        Volume::new(value, VolumeUnit::Litre)
    }

    /// 400 mm by 250 mm by 103 mm within: a litre on each 10 mm, 10.3 L.
    fn tank() -> Tank {
        let mut inside = Block::new(mm(400.0), mm(250.0), mm(103.0));
        inside.sized = Sized::Inside;
        let stock = StockDraft::of(Alloy::A5754, mm(2.0));
        Tank::build(&Draft::new("Header tank", inside, stock).unwrap()).unwrap()
    }

    fn shown(marks: impl Iterator<Item = Dip>) -> Vec<[i64; 2]> {
        // In tenths of a millimetre and in hundredths of a litre.
        let of = |dip: Dip| [dip.reading.si() * 1e4, dip.volume.si() * 1e5];
        marks
            .map(|dip| of(dip).map(|value| libm::round(value) as i64))
            .collect()
    }

    #[test]
    fn marks_of_a_box_by_hand() {
        let tank = tank();
        let pool = tank.pool(Lean::LEVEL);
        let wanted = [[0, 0], [500, 500], [1_000, 1_000], [1_030, 1_030]];
        assert_eq!(shown(pool.every(mm(50.0)).unwrap()), wanted);
        assert_eq!(shown(pool.every_volume(litres(5.0)).unwrap()), wanted);
        // A whole number of steps ends at the brim once.
        assert_eq!(pool.every(mm(51.5)).unwrap().count(), 3);
        assert_eq!(pool.every_volume(litres(20.0)).unwrap().count(), 2);
    }

    #[test]
    fn steps_that_do_not_do() {
        let tank = tank();
        let pool = tank.pool(Lean::LEVEL);
        let error = |step| pool.every(step).err().unwrap();
        for step in [0.0, -1.0, f64::NAN, f64::INFINITY] {
            assert!(matches!(error(mm(step)), DipError::Step(_)), "{step}");
        }
        // 103 mm in a thousand steps are 0.103 mm each, so 0.11 in whole hundredths.
        let DipError::TooMany(told) = error(mm(0.1)) else {
            panic!("a step too fine is told");
        };
        let Limit::AtLeast(Value::Length(least)) = told.limit else {
            panic!("the least step is told");
        };
        assert!((least.si() - 0.000_11).abs() < 1e-12);
        let fine = pool.every_volume(Volume::from_cubic_metres(1e-6)).err();
        assert!(matches!(fine, Some(DipError::TooMany(_))));
    }

    /// By hand: a tank that holds 2 % more than its model and 0.1 L besides.
    #[test]
    fn pours_set_a_chart_right() {
        let tank = tank();
        let scale = tank.dip_scale(Lean::LEVEL).unwrap();
        assert!(matches!(scale, DipScale::Depth(_)));
        let pour = |depth: f64, measured: f64| Pour {
            depth: mm(depth),
            measured: litres(measured),
        };
        let brim = tank.capacity().brim;
        let fit = scale
            .set_right(&[pour(20.0, 2.14), pour(60.0, 6.22)], brim)
            .unwrap();
        let Calibration { offset, scale: by } = fit.found.calibration;
        assert!((by - 1.02).abs() < 1e-9 && (offset.si() - 1e-4).abs() < 1e-12);
        let right = |step| {
            let found = scale.marks_set_right(step, &fit.found.calibration);
            shown(found.unwrap())
        };
        let by_reading = right(DipStep::Reading(mm(50.0)));
        let wanted = [[0, 10], [500, 520], [1_000, 1_030], [1_030, 1_061]];
        assert_eq!(by_reading, wanted);
        // (5.2 − 0.1) / 1.02 = 5 L by the model, 50 mm; below 0.1 L there is no level.
        let by_volume = right(DipStep::Volume(litres(5.2)));
        assert_eq!(by_volume, [[500, 520], [1_010, 1_040]]);
        let past = scale.set_right(&[pour(20.0, 2.0), pour(104.0, 10.4)], brim);
        assert!(matches!(past, Err(PourError::Reading { pour: 2, .. })));
        let many = scale.set_right(&[pour(20.0, 2.0); 17], brim);
        assert!(matches!(many, Err(PourError::Calibrate(_))));
    }
}
