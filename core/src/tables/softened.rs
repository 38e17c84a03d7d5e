//! How far beside a seam aluminium is softened.

use super::{Family, Process, Source, Sourced};
use crate::units::{Length, LengthUnit, Temperature, TemperatureUnit};

const fn mm(value: f64) -> Length {
    Length::new(value, LengthUnit::Millimetre)
}

/// Metal up to this temperature before a run makes the zone no wider.
const COOL: Temperature = Temperature::new(60.0, TemperatureUnit::Celsius);
/// For each of so many kelvins over that, the zone is once more as wide.
const TWICE: f64 = 120.0;

/// How far from the middle of a butt, or from the root of a fillet, the sheet counts as softened, for metal that is at
/// `interpass` before a run: EN 1999-1-1, 6.1.6.3. TIG 30 mm up to 6 mm of sheet; MIG 20 mm, and 30, 35 and 40 mm from 6,
/// 12 and 25 mm on (these three from memory). Over 60 °C it is wider by `1 + (T − 60 °C) / 120 K`, the factor for 3xxx,
/// 5xxx and 6xxx alloys (from memory). `None` of steels, of TIG on more than 6 mm, for which the standard has none, and of
/// processes that it does not name.
#[must_use]
pub fn softened_width(
    process: Process,
    family: Family,
    thickness: Length,
    interpass: Temperature,
) -> Option<Sourced<Length>> {
    if family != Family::Aluminium {
        return None;
    }
    let thin = thickness <= mm(6.0);
    let width = match process {
        Process::TigAc | Process::TigDc if thin => 30.0,
        Process::Mig if thin => 20.0,
        Process::Mig if thickness <= mm(12.0) => 30.0,
        Process::Mig if thickness <= mm(25.0) => 35.0,
        Process::Mig => 40.0,
        _ => return None,
    };
    let over = interpass.si() - COOL.si();
    let wider = if over > 0.0 { 1.0 + over / TWICE } else { 1.0 };
    Some(Sourced::new(mm(width * wider), Source::En1999Width))
}
