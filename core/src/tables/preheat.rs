//! How warm the metal should and may be before a run.
//!
//! Limits of standards differ with their edition and with the qualified procedure, which goes before
//! anything here.

use super::{Alloy, Family, Source, Sourced};
use crate::units::{Temperature, TemperatureUnit, Time, TimeUnit};

/// Nominal magnesium above which AWS D1.2 limits an Al-Mg alloy.
const MUCH_MAGNESIUM: f64 = 0.03;

const fn celsius(value: f64) -> Temperature {
    Temperature::new(value, TemperatureUnit::Celsius)
}

/// The limit of AWS D1.2 for heat-treatable alloys and for Al-Mg above 3 %: 120 °C (250 °F), preheat and
/// interpass alike, as a guide to preheat reprints it.
const D1_2: Sourced<Temperature> = Sourced::new(celsius(120.0), Source::AwsD1Point2Preheat);

/// Whether AWS D1.2 limits preheat and interpass: heat-treatable aluminium, and Al-Mg of nominally more
/// than 3 % magnesium.
#[must_use]
pub fn is_sensitive(alloy: Alloy) -> bool {
    let metal = alloy.metal();
    metal.heat_treatable() || metal.magnesium().value.nominal.si() > MUCH_MAGNESIUM
}

/// The warmest that the metal should be as the next run starts.
///
/// Heat-treatable aluminium 100 °C and other aluminium 120 °C (EN 1011-4); Al-Mg above 3 % 120 °C
/// (AWS D1.2, the same figure); austenitic stainless 150 °C (EN 1011-3; American practice has 175 °C);
/// low-carbon steel 250 °C, common practice without a source.
#[must_use]
pub fn interpass_limit(alloy: Alloy) -> Sourced<Temperature> {
    match alloy.family() {
        Family::Aluminium if alloy.metal().heat_treatable() => {
            Sourced::new(celsius(100.0), Source::En1011Part4)
        }
        Family::Aluminium if is_sensitive(alloy) => D1_2,
        Family::Aluminium => Sourced::new(celsius(120.0), Source::En1011Part4),
        Family::Stainless => Sourced::new(celsius(150.0), Source::En1011Part3),
        Family::Steel => Sourced::new(celsius(250.0), Source::Practice),
    }
}

/// The warmest that the metal should be made before the first run; `None` where no preheat is to be given
/// at all, as with austenitic stainless steel (EN 1011-3, from memory), and where it is a matter of the
/// steel's carbon equivalent: EN 1011-2 or AWS D1.1 and a qualified procedure say.
#[must_use]
pub fn preheat_limit(alloy: Alloy) -> Option<Sourced<Temperature>> {
    match alloy.family() {
        Family::Aluminium if is_sensitive(alloy) => Some(D1_2),
        Family::Aluminium => Some(Sourced::new(celsius(120.0), Source::En1011Part4)),
        Family::Stainless | Family::Steel => None,
    }
}

/// How long in all a sensitive alloy may be kept at its limit: 15 min (AWS D1.2); `None` where no such
/// limit is known.
#[must_use]
pub fn hold_limit(alloy: Alloy) -> Option<Sourced<Time>> {
    is_sensitive(alloy).then_some(Sourced::new(
        Time::new(15.0, TimeUnit::Minute),
        Source::AwsD1Point2Preheat,
    ))
}

/// Temperatures at which an alloy is not to be kept: 5086, 66 to 204 °C (150 to 400 °F), naval practice
/// (NAVSEA table V). 5083 has more magnesium and is no better, but the table does not name it: it is
/// taken along as common practice.
#[must_use]
pub const fn avoid(alloy: Alloy) -> Option<Sourced<[Temperature; 2]>> {
    let range = [celsius(66.0), celsius(204.0)];
    match alloy {
        Alloy::A5086 => Some(Sourced::new(range, Source::Navsea)),
        Alloy::A5083 => Some(Sourced::new(range, Source::Practice)),
        _ => None,
    }
}

/// Temperatures at which an alloy is not to stay for long.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct HoldBand {
    /// From here.
    pub from: Temperature,
    /// To here; `None` for all above.
    pub to: Option<Temperature>,
    /// How long it may stay there in all.
    pub most: Time,
    /// Who says so of the temperatures.
    pub source: Source,
}

/// Where, and for how long at most, an alloy may be held: within what it is to [`avoid`], else at the limit of AWS D1.2 for
/// preheat and interpass or above, for [`hold_limit`]. `None` where no such limit is known. That the quarter of an hour
/// of the one counts for the temperatures of the other is common practice, without a source.
#[must_use]
pub fn hold_band(alloy: Alloy) -> Option<HoldBand> {
    let most = hold_limit(alloy)?.value;
    Some(match avoid(alloy) {
        Some(range) => {
            let [from, to] = range.value;
            HoldBand {
                from,
                to: Some(to),
                most,
                source: range.source,
            }
        }
        None => HoldBand {
            from: D1_2.value,
            to: None,
            most,
            source: D1_2.source,
        },
    })
}

/// The coldest that the metal should be before the first run: dry above all.
///
/// Al-Mg alloys with more than 3 % magnesium 16 °C (NAVSEA table V, which names 5086); low-carbon steel
/// 0 °C, below which it is warmed to 20 °C or more (AWS D1.1); anything else 10 °C, so that it is free of
/// dew, common practice without a source.
#[must_use]
pub fn least_temperature(alloy: Alloy) -> Sourced<Temperature> {
    match alloy {
        Alloy::A5086 => Sourced::new(celsius(16.0), Source::Navsea),
        steel if matches!(steel.family(), Family::Steel) => {
            Sourced::new(celsius(0.0), Source::AwsD1Point1)
        }
        _ if alloy.family() == Family::Aluminium
            && !alloy.metal().heat_treatable()
            && is_sensitive(alloy) =>
        {
            Sourced::new(celsius(16.0), Source::Practice)
        }
        _ => Sourced::new(celsius(10.0), Source::Practice),
    }
}
