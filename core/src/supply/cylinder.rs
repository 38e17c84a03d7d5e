//! What a cylinder of argon holds, as a real gas.
//!
//! The compressibility `Z = p V / n R T` is a table worked out from the equation of state of Tegeler, Span
//! and Wagner (J. Phys. Chem. Ref. Data 28, 1999) with the `CoolProp` library, with straight lines between its points:
//! within 0.3 %. An ideal gas would understate a cylinder at 200 bar by 6 to 7 %. For mixtures the table
//! does not hold.

use crate::input::limits::{CYLINDER, CYLINDER_GAUGE};
use crate::units::range::RangeError;
use crate::units::{Figure, Pressure, PressureUnit, Ratio, Temperature, TemperatureUnit, Volume};

/// The gauge pressure of a cylinder as it is filled: common practice, no source.
pub const USUAL_FILLING: Pressure = Pressure::new(200.0, PressureUnit::Bar);
/// The gauge pressure at which a cylinder is changed: common practice, no source.
pub const CHANGE_OVER: Pressure = Pressure::new(10.0, PressureUnit::Bar);

/// One standard atmosphere, in pascals.
const ATMOSPHERE: f64 = 101_325.0;
/// What volumes of gas refer to: 15 °C.
const REFERENCE: f64 = 288.15;
/// `Z` at 15 °C and one atmosphere.
const REFERENCE_Z: f64 = 0.999_25;

/// Between columns, in pascals: 25 bar, absolute, from 0.
const STEP: f64 = 25e5;
/// Between rows, in kelvins: 15 K, from 0 °C.
const ROWS: (f64, f64) = (273.15, 15.0);

/// Ten thousand times `Z`.
const Z: [[u16; 15]; 4] = [
    [
        10_000, 9_776, 9_574, 9_399, 9_258, 9_156, 9_096, 9_081, 9_109, 9_179, 9_286, 9_426, 9_593,
        9_784, 9_995,
    ],
    [
        10_000, 9_825, 9_670, 9_540, 9_439, 9_369, 9_334, 9_333, 9_368, 9_435, 9_533, 9_659, 9_808,
        9_978, 10_166,
    ],
    [
        10_000, 9_864, 9_748, 9_653, 9_583, 9_540, 9_524, 9_537, 9_578, 9_646, 9_739, 9_856, 9_992,
        10_147, 10_318,
    ],
    [
        10_000, 9_897, 9_811, 9_745, 9_700, 9_678, 9_678, 9_703, 9_750, 9_820, 9_911, 10_022,
        10_150, 10_293, 10_451,
    ],
];

/// `Z` at an absolute pressure and a temperature, both within the table.
fn compressibility(pressure: f64, temperature: f64) -> f64 {
    let (zero, step) = ROWS;
    let (column, across) = split(pressure / STEP);
    let (row, down) = split((temperature - zero) / step);
    let along = |row: &[u16; 15]| {
        let mut pair = row.iter().skip(column).map(|z| f64::from(*z) / 1e4);
        let first = pair.next().unwrap_or(1.0);
        first + (pair.next().unwrap_or(first) - first) * across
    };
    let mut rows = Z.iter().skip(row).map(along);
    let first = rows.next().unwrap_or(1.0);
    first + (rows.next().unwrap_or(first) - first) * down
}

/// The whole part of a small number at or above 0, and the rest.
fn split(value: f64) -> (usize, f64) {
    let whole = libm::floor(value);
    (whole as usize, value - whole)
}

/// A cylinder of argon.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Cylinder {
    water: f64,
}

impl Cylinder {
    /// A cylinder by its water capacity, as stamped on it.
    ///
    /// # Errors
    /// [`RangeError`] for a capacity outside 0.1 to 200 L.
    pub fn new(water: Volume) -> Result<Self, RangeError> {
        Ok(Self {
            water: Figure::Water.within(water.si(), CYLINDER.0.si(), CYLINDER.1.si())?,
        })
    }

    /// All that is in it, as gas at 15 °C and 101.325 kPa, when the gauge shows `gauge` and the cylinder is
    /// at `temperature`.
    ///
    /// # Errors
    /// [`RangeError`] for a gauge pressure outside 0 to 300 bar or a temperature outside 0 to 45 °C.
    pub fn contents(
        &self,
        gauge: Pressure,
        temperature: Temperature,
    ) -> Result<Volume, RangeError> {
        let absolute =
            Figure::CylinderGauge.within(gauge.si(), 0.0, CYLINDER_GAUGE.1.si())? + ATMOSPHERE;
        let t = Figure::GasTemperature.within(temperature.si(), 273.15, 318.15)?;
        let ratio = absolute / ATMOSPHERE * REFERENCE / t;
        let z = compressibility(absolute, t);
        Ok(Volume::from_cubic_metres(
            self.water * ratio * REFERENCE_Z / z,
        ))
    }

    /// What can be drawn down to a gauge pressure at which it is to be changed.
    ///
    /// # Errors
    /// As [`contents`](Self::contents), and where `left` is above `gauge`.
    pub fn usable(
        &self,
        gauge: Pressure,
        left: Pressure,
        temperature: Temperature,
    ) -> Result<Volume, RangeError> {
        Figure::CylinderGauge.within(left.si(), 0.0, gauge.si())?;
        let full = self.contents(gauge, temperature)?.si();
        let rest = self.contents(left, temperature)?.si();
        Ok(Volume::from_cubic_metres(full - rest))
    }

    /// How much of what the cylinder gives some gas is, down to where it is [changed](CHANGE_OVER), at 15 °C: more than
    /// one where it needs a second. `gauge` is what its gauge shows, [`USUAL_FILLING`] where nobody says.
    ///
    /// ```
    /// use seamwright_core::supply::cylinder::Cylinder;
    /// use seamwright_core::units::{Volume, VolumeUnit};
    ///
    /// let cylinder = Cylinder::new(Volume::new(20.0, VolumeUnit::Litre))?;
    /// let share = cylinder.share_of(Volume::new(500.0, VolumeUnit::Litre), None)?;
    /// // An ideal gas would give 20 L × 190 = 3800 L; argon at 200 bar gives some per cent more.
    /// assert!(share.si() < 500.0 / 3_800.0 && share.si() > 0.9 * 500.0 / 3_800.0);
    /// # Ok::<(), seamwright_core::units::range::RangeError>(())
    /// ```
    ///
    /// # Errors
    /// As [`contents`](Self::contents).
    pub fn share_of(&self, gas: Volume, gauge: Option<Pressure>) -> Result<Ratio, RangeError> {
        let gauge = gauge.unwrap_or(USUAL_FILLING);
        let left = if CHANGE_OVER < gauge {
            CHANGE_OVER
        } else {
            Pressure::default()
        };
        let at = Temperature::new(15.0, TemperatureUnit::Celsius);
        let usable = self.usable(gauge, left, at)?;
        Ok(Ratio::from_share(gas.si() / usable.si()))
    }
}
