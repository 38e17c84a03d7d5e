//! Bends in sheet: how much flat sheet each takes, how tight it may be, and the notches at its ends.
//!
//! A bend takes the sheet round an inside radius through an angle, its *turn*: 0 is flat sheet, 90° the
//! square corner of a box. The angle between the two legs afterwards, the opening angle of DIN 6935, is
//! 180° less the turn.
//!
//! The figures are a place to start from. Sheet differs from lot to lot and press from press, so a blank
//! that must fit is worked out from a strip of the same sheet, bent in the same tools and measured.

use core::f64::consts::PI;
use core::fmt;

use crate::units::range::{Limit, OutOfRange, Value, within};
use crate::units::{Angle, AngleUnit, Length, Ratio};

mod notch;
#[cfg(test)]
mod tests;

pub use notch::{BendNotch, relief};

/// The least and the greatest K-factor that [`Bend::new`] takes. At 50 % the neutral line lies in the
/// middle of the sheet, where it stays in a very wide bend; it moves towards the inside as the bend
/// tightens. The lower bound is common practice, no source.
pub const K_FACTOR: [Ratio; 2] = [Ratio::from_share(0.05), Ratio::from_share(0.5)];

/// The greatest turn whose outside legs meet in a corner that can be measured from: the corner runs away
/// without bound as the turn nears 180°. Where to stop is common practice, no source.
pub const MOST_SETBACK_TURN: Angle = Angle::new(170.0, AngleUnit::Degree);

const THICKNESS: [Length; 2] = [Length::from_metres(0.000_1), Length::from_metres(0.05)];
const MOST_RADIUS: Length = Length::from_metres(10.0);

/// Below this turn a bend takes the sheet all the way of its two legs: DIN 6935 sets its compensation
/// to zero from an opening angle of 165° up.
const LEAST_COMPENSATED_TURN: f64 = Angle::new(15.0, AngleUnit::Degree).si();

/// Where the neutral line of a bend lies: the one line in the sheet that keeps its length.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum BendRule {
    /// At this share of the thickness from the inside of the bend, within [`K_FACTOR`].
    KFactor(Ratio),
    /// At `k/2` of the thickness, with `k = 0.65 + 0.5 · lg(r/s)` and `k = 1` for `r/s > 5`: DIN 6935
    /// (from memory). That standard is for steel; on other metals it is an estimate.
    Din6935,
}

/// An input of a bend.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum BendField {
    /// The thickness of the sheet.
    Thickness,
    /// The inside radius.
    InsideRadius,
    /// The turn.
    Turn,
    /// The K-factor.
    KFactor,
}

impl fmt::Display for BendField {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Thickness => "thickness",
            Self::InsideRadius => "inside radius",
            Self::Turn => "turn",
            Self::KFactor => "K-factor",
        })
    }
}

/// A bend that cannot be.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct BendError {
    /// The input at fault.
    pub field: BendField,
    /// Its value and the limit.
    pub problem: OutOfRange,
}

impl fmt::Display for BendError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} of the bend: {}", self.field, self.problem)
    }
}

impl core::error::Error for BendError {}

/// Names the input at fault.
fn at(field: BendField) -> impl Fn(OutOfRange) -> BendError {
    move |problem| BendError { field, problem }
}

/// Lets a thickness through that [`Bend::new`] takes.
fn thickness_checked(thickness: Length) -> Result<Length, BendError> {
    let [least, most] = THICKNESS;
    within(thickness, least, most, Value::Length).map_err(at(BendField::Thickness))
}

/// Lets a radius through from `least` to the greatest that is taken.
fn radius_checked(radius: Length, least: Length) -> Result<Length, BendError> {
    within(radius, least, MOST_RADIUS, Value::Length).map_err(at(BendField::InsideRadius))
}

/// Lets a turn through above zero and below `end`.
fn turn_checked(turn: Angle, end: Angle) -> Result<Angle, BendError> {
    let limit = if turn > Angle::from_radians(0.0) && turn < end {
        return Ok(turn);
    } else if turn >= end {
        Limit::Below(Value::Angle(end))
    } else {
        Limit::Above(Value::Angle(Angle::from_radians(0.0)))
    };
    Err(at(BendField::Turn)(OutOfRange {
        value: Value::Angle(turn),
        limit,
    }))
}

/// The K-factor to start from where none was measured: 33 % for an inside radius below one thickness,
/// 40 % up to three, 45 % above. Common practice, no source.
#[must_use]
pub fn usual_k(thickness: Length, inside_radius: Length) -> Ratio {
    let (t, r) = (thickness.si(), inside_radius.si());
    Ratio::from_share(if r < t {
        0.33
    } else if r <= 3.0 * t {
        0.40
    } else {
        0.45
    })
}

/// A face of the sheet at a bend.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum BendFace {
    /// The face that is stretched, at `r + t` from the bend's axis.
    Outer,
    /// The face that lies on the tool, at `r`.
    Inner,
}

/// A bend.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Bend {
    thickness: f64,
    inside_radius: f64,
    turn: f64,
    /// Distance of the neutral line from the inside, as a share of the thickness.
    k: f64,
}

impl Bend {
    /// A bend of sheet `thickness` thick (0.1 to 50 mm) round `inside_radius` (0 to 10 m) through `turn`
    /// (above 0 and below 180°).
    ///
    /// # Errors
    ///
    /// Names the input that is out of its range. With [`BendRule::Din6935`] the radius must be so large that
    /// the neutral line stays within [`K_FACTOR`]: about 0.08 thicknesses.
    pub fn new(
        thickness: Length,
        inside_radius: Length,
        turn: Angle,
        rule: BendRule,
    ) -> Result<Self, BendError> {
        let thickness = thickness_checked(thickness)?;
        let [least_k, most_k] = K_FACTOR;
        let least_radius = match rule {
            BendRule::KFactor(_) => 0.0,
            // Where the rule gives the least K: 2 K = 0.65 + 0.5 lg(r/s), solved for r.
            BendRule::Din6935 => {
                thickness.si() * libm::pow(10.0, (2.0 * least_k.si() - 0.65) / 0.5)
            }
        };
        let radius = radius_checked(inside_radius, Length::from_metres(least_radius))?;
        let turn = turn_checked(turn, Angle::new(180.0, AngleUnit::Degree))?;
        let k = match rule {
            BendRule::KFactor(k) => within(k, least_k, most_k, Value::Ratio)
                .map_err(at(BendField::KFactor))?
                .si(),
            BendRule::Din6935 => 0.5 * din_6935_k(radius.si() / thickness.si()),
        };
        Ok(Self {
            thickness: thickness.si(),
            inside_radius: radius.si(),
            turn: turn.si(),
            k,
        })
    }

    /// The thickness of the sheet.
    #[must_use]
    pub fn thickness(&self) -> Length {
        Length::from_metres(self.thickness)
    }

    /// The inside radius.
    #[must_use]
    pub fn inside_radius(&self) -> Length {
        Length::from_metres(self.inside_radius)
    }

    /// The turn.
    #[must_use]
    pub fn turn(&self) -> Angle {
        Angle::from_radians(self.turn)
    }

    /// The K-factor: how far from the inside the neutral line lies, as a share of the thickness. Half of
    /// DIN 6935's correction factor `k`.
    #[must_use]
    pub fn k(&self) -> Ratio {
        Ratio::from_share(self.k)
    }

    /// Radius of the neutral line, `r + K · t`.
    #[must_use]
    pub fn neutral_radius(&self) -> Length {
        Length::from_metres(self.neutral())
    }

    /// Bend allowance: the length of the neutral line round the bend, `turn · (r + K · t)` with the turn in
    /// radians. Machinery's Handbook, sheet metal bending (from memory).
    #[must_use]
    pub fn allowance(&self) -> Length {
        Length::from_metres(self.turn * self.neutral())
    }

    /// Outside setback: from where the bend begins to where the two outside faces would meet,
    /// `(r + t) · tan(turn/2)`. Machinery's Handbook (from memory). `None` above [`MOST_SETBACK_TURN`].
    #[must_use]
    pub fn setback(&self) -> Option<Length> {
        (self.turn <= MOST_SETBACK_TURN.si()).then(|| self.setback_on(BendFace::Outer))
    }

    /// The setback on one of the two faces of the sheet, at any turn: from where the bend begins to where
    /// the two legs would meet on that face, `(r + t) · tan(turn/2)` on the outer face of the bend and
    /// `r · tan(turn/2)` on the inner one. Machinery's Handbook (from memory).
    #[must_use]
    pub fn setback_on(&self, face: BendFace) -> Length {
        let radius = match face {
            BendFace::Outer => self.inside_radius + self.thickness,
            BendFace::Inner => self.inside_radius,
        };
        Length::from_metres(radius * libm::tan(0.5 * self.turn))
    }

    /// Bend deduction: what two legs measured to the corner of their outside faces are longer than the
    /// sheet they take, `2 · setback − allowance`. Machinery's Handbook (from memory). `None` where there
    /// is no setback.
    #[must_use]
    pub fn deduction(&self) -> Option<Length> {
        self.setback()
            .map(|setback| Length::from_metres(2.0 * setback.si() - self.allowance().si()))
    }

    /// Compensation `v` of DIN 6935 (from memory), below zero but for turns far above 90°: the sheet is
    /// `a + b + v` long, where the legs `a` and `b` are measured outside, to the corner of the outside faces for turns below 90°
    /// and to the outermost tangent across the leg from 90° on. It has a value at any turn:
    ///
    /// - turn of 90° or more: `turn · (r + K · t) − 2 (r + t)`;
    /// - turn from 15° to 90°: `turn · (r + K · t) − 2 (r + t) tan(turn/2)`;
    /// - turn below 15°: 0.
    #[must_use]
    pub fn compensation(&self) -> Length {
        Length::from_metres(if self.turn < LEAST_COMPENSATED_TURN {
            0.0
        } else if self.turn < 0.5 * PI {
            self.turn * self.neutral() - 2.0 * self.setback_on(BendFace::Outer).si()
        } else {
            self.turn * self.neutral() - 2.0 * (self.inside_radius + self.thickness)
        })
    }

    fn neutral(&self) -> f64 {
        self.inside_radius + self.k * self.thickness
    }
}

/// DIN 6935's correction factor (from memory) for `ratio` = inside radius over thickness.
fn din_6935_k(ratio: f64) -> f64 {
    if ratio > 5.0 {
        1.0
    } else {
        0.65 + 0.5 * libm::log10(ratio)
    }
}
