//! Settings to start from where the job names none: published points, and straight lines between them.
//!
//! Beyond the published thicknesses a current goes on in proportion to the sheet and a travel speed
//! stays what it was, down to 0.5 mm and up to 10 mm; the source then says so. Past those there is no
//! starting value and the job must name its own.

use crate::tables::Family;
use crate::units::{Current, CurrentUnit, Length, LengthUnit, Speed, SpeedUnit};

/// A starting value and where it is from.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Start<T> {
    /// The value.
    pub value: T,
    /// Its source.
    pub source: &'static str,
}

/// Thinnest and thickest sheet for which there is a starting value, in mm.
const REACH: (f64, f64) = (0.5, 10.0);

/// Points `(thickness in mm, value)` in ascending order, and their source.
struct Table {
    points: &'static [(f64, f64)],
    source: &'static str,
    /// The source to name beyond the first and the last point.
    beyond: &'static str,
}

/// Middles of the ranges for fillets.
const ALUMINIUM_CURRENT: Table = Table {
    points: &[(1.6, 70.0), (3.2, 135.0), (4.8, 212.5), (6.0, 277.5)],
    source: "middle of a gas maker's handbook range for AC fillets on aluminium at this thickness",
    beyond: "common practice, no source: in proportion to the sheet from the nearest published thickness",
};
const STAINLESS_CURRENT: Table = Table {
    points: &[(1.6, 60.0), (3.2, 95.0), (4.8, 132.5)],
    source: "middle of a gas maker's handbook range for DC on stainless steel at this thickness",
    beyond: "common practice, no source: in proportion to the sheet from the nearest published thickness",
};
const STEEL_CURRENT: Table = Table {
    points: &[(1.6, 60.0), (3.2, 105.0), (4.8, 155.0)],
    source: "middle of a gas maker's handbook range for DC on carbon steel at this thickness",
    beyond: "common practice, no source: in proportion to the sheet from the nearest published thickness",
};
const ALUMINIUM_TRAVEL: Table = Table {
    points: &[(1.6, 190.0), (2.0, 200.0), (3.2, 230.0), (4.8, 280.0)],
    source: "G. Mathers, The Welding of Aluminium and its Alloys (2002), fig. 6.8, fillets",
    beyond: "common practice, no source: the speed of the nearest published thickness",
};
const STAINLESS_TRAVEL: Table = Table {
    points: &[(1.5, 250.0), (3.2, 250.0), (4.8, 200.0)],
    source: "national welding handbook (China), vol. 1, 2nd ed., p. 150, corner joints on stainless steel",
    beyond: "common practice, no source: the speed of the nearest published thickness",
};
const STEEL_TRAVEL: Table = Table {
    points: &[(1.6, 250.0), (3.2, 250.0)],
    source: "common practice, no source: middle of 200 to 300 mm/min",
    beyond: "common practice, no source: the speed of the nearest published thickness",
};

/// A current for a family of metals at a sheet thickness; `None` past 0.5 to 10 mm.
#[must_use]
pub fn current(family: Family, thickness: Length) -> Option<Start<Current>> {
    let table = match family {
        Family::Aluminium => ALUMINIUM_CURRENT,
        Family::Stainless => STAINLESS_CURRENT,
        Family::Steel => STEEL_CURRENT,
    };
    let t = reached(thickness)?;
    if let Some(value) = between(table.points, t) {
        return Some(Start {
            value: Current::new(value, CurrentUnit::Ampere),
            source: table.source,
        });
    }
    let (at, value) = nearest(table.points, t)?;
    Some(Start {
        value: Current::new(value * t / at, CurrentUnit::Ampere),
        source: table.beyond,
    })
}

/// A travel speed for a family of metals at a sheet thickness; `None` past 0.5 to 10 mm.
#[must_use]
pub fn travel(family: Family, thickness: Length) -> Option<Start<Speed>> {
    let table = match family {
        Family::Aluminium => ALUMINIUM_TRAVEL,
        Family::Stainless => STAINLESS_TRAVEL,
        Family::Steel => STEEL_TRAVEL,
    };
    let t = reached(thickness)?;
    let unit = SpeedUnit::MillimetrePerMinute;
    if let Some(value) = between(table.points, t) {
        return Some(Start {
            value: Speed::new(value, unit),
            source: table.source,
        });
    }
    let (_, value) = nearest(table.points, t)?;
    Some(Start {
        value: Speed::new(value, unit),
        source: table.beyond,
    })
}

/// A sheet is listed to a tenth of a millimetre: 1.6 mm read from inches is 1.6 mm still.
const ROUNDING: f64 = 1e-6;

/// The thickness in millimetres, where there is a starting value for it at all.
fn reached(thickness: Length) -> Option<f64> {
    let t = thickness.in_unit(LengthUnit::Millimetre);
    let (least, most) = REACH;
    (t >= least - ROUNDING && t <= most + ROUNDING).then_some(t)
}

/// Straight lines between the points; nothing beyond the first and the last.
fn between(points: &[(f64, f64)], t: f64) -> Option<f64> {
    points
        .iter()
        .zip(points.iter().skip(1))
        .find_map(|((t0, v0), (t1, v1))| {
            let inside = t >= t0 - ROUNDING && t <= t1 + ROUNDING;
            inside.then(|| v0 + (v1 - v0) * (t - t0) / (t1 - t0))
        })
}

/// The first or the last point, whichever is nearer.
fn nearest(points: &[(f64, f64)], t: f64) -> Option<(f64, f64)> {
    let (first, last) = (points.first()?, points.last()?);
    Some(if t < first.0 { *first } else { *last })
}
