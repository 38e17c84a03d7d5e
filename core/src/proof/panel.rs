//! Whether a flat panel bears its load, and what would mend one that does not.

use core::fmt;

use super::input::{Input, InputError, check};
use super::load::Pressing;
use super::plate::{
    Bending, Enclosing, Held, OutlineError, Ramp, Sides, clamped, enclosing, held, stiffness,
    supported,
};
use crate::quantity::{Length, Pressure};

/// What a sheet is made of, as strength goes.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Metal {
    modulus: f64,
    poisson: f64,
    strength: f64,
}

impl Metal {
    /// From Young's modulus, Poisson's ratio (0.15 to 0.45), and the strength that may be used: beside a
    /// seam that of the welded sheet, not of the sheet as bought.
    ///
    /// # Errors
    /// [`InputError`] for a figure past its limits.
    pub fn new(modulus: Pressure, poisson: f64, strength: Pressure) -> Result<Self, InputError> {
        Ok(Self {
            modulus: check(Input::Modulus, modulus.si())?,
            poisson: check(Input::Poisson, poisson)?,
            strength: check(Input::Strength, strength.si())?,
        })
    }
}

/// A flat panel and what presses on it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Panel {
    /// The rectangle that stands for it.
    pub shape: Enclosing,
    /// The pressure over that.
    pub ramp: Ramp,
    thickness: f64,
    metal: Metal,
}

/// Why a panel cannot be judged.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum PanelError {
    /// A figure past its limits.
    Input(InputError),
    /// The outline is no panel.
    Outline(OutlineError),
}

impl From<InputError> for PanelError {
    fn from(error: InputError) -> Self {
        Self::Input(error)
    }
}

impl From<OutlineError> for PanelError {
    fn from(error: OutlineError) -> Self {
        Self::Outline(error)
    }
}

impl fmt::Display for PanelError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Input(error) => error.fmt(f),
            Self::Outline(error) => error.fmt(f),
        }
    }
}

impl core::error::Error for PanelError {}

/// Which of the two edge conditions rules.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum Bound {
    /// Edges free to turn: the middle is worst.
    Supported,
    /// Edges held from turning: the edge itself, beside the seam, is worst.
    Clamped,
}

/// How a panel bears its load. A welded edge is held from turning in part, so that stress and bulge lie
/// between the two bounds of each.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Strength {
    /// Highest bending stress, edges free to turn, by bending alone. Where edges cannot pull inward,
    /// stretching adds up to 4 % to it while the bulge is below a quarter of the thickness; see `stress_held`.
    pub stress_supported: Pressure,
    /// Highest bending stress, edges held from turning, by bending alone. Stretching adds up to 1 % to it
    /// before it takes off from it.
    pub stress_clamped: Pressure,
    /// Bulge, edges free to turn, by bending alone: the safe figure where edges can pull inward.
    pub bulge_supported: Length,
    /// Bulge, edges held from turning, by bending alone.
    pub bulge_clamped: Length,
    /// Stiffening where the edges cannot pull inward, edges free to turn.
    pub held_supported: Held,
    /// The same, edges held from turning.
    pub held_clamped: Held,
    /// Highest stress in the middle with edges free to turn but not to pull inward: what is left of the
    /// bending stress, and the stretching stress: up to 25 % above numerical solutions, 1 % below at the most.
    pub stress_held: Pressure,
    /// Strength over the highest of the three stresses; without end under no pressure.
    pub reserve: f64,
    /// Which edges that is for.
    pub ruling: Bound,
    /// Whether the bulge passes half the thickness, so that bending alone overstates it and
    /// `held_supported` and `held_clamped` tell more.
    pub bulges: bool,
    /// Whether the panel has an inside corner, at which this says nothing: round it well, or strengthen it.
    pub inside_corner: bool,
}

/// What would give a panel the reserve that is wanted.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Mend {
    /// The sheet that gives it, the panel as it is.
    pub thickness: Length,
    /// The reserve that the sheet as it is would have with a baffle or stiffener across the middle of the
    /// long side, one stiff enough to count as an edge.
    pub halved: f64,
}

/// How far apart baffles or stiffeners may stand.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum Spacing {
    /// None is needed, however long the panel.
    Any,
    /// No farther than this.
    AtMost(Length),
}

impl Panel {
    /// A panel with the corners `outline`, in metres in its own plane, under `pressing` in the same
    /// coordinates.
    ///
    /// # Errors
    /// [`PanelError`] for a figure past its limits or an outline without area; for a highest pressure
    /// below zero or above 100 bar, [`Input::Pressure`].
    pub fn new(
        outline: &[[f64; 2]],
        thickness: Length,
        metal: Metal,
        pressing: Pressing,
    ) -> Result<Self, PanelError> {
        let thickness = check(Input::Thickness, thickness.si())?;
        let shape = enclosing(outline)?;
        check(Input::Size, shape.sides.short())?;
        check(Input::Size, shape.sides.long())?;
        let ramp = shape.ramp(pressing.at_origin.si(), pressing.slope);
        check(Input::Pressure, ramp.most())?;
        Ok(Self {
            shape,
            ramp,
            thickness,
            metal,
        })
    }

    /// How it bears its load.
    #[must_use]
    pub fn strength(&self) -> Strength {
        let sides = self.shape.sides;
        let bent = Bent::of(sides, self.ramp, self.metal);
        let t = self.thickness;
        let stresses = bent.stresses(t);
        let d = stiffness(self.metal.modulus, self.metal.poisson, t);
        let bulge_fixed = bent.fixed.bulge(d);
        let bulge_free = bent.free.bulge(d);
        Strength {
            stress_supported: Pressure::from_pascals(stresses.free),
            stress_clamped: Pressure::from_pascals(stresses.fixed),
            bulge_supported: Length::from_metres(bulge_free),
            bulge_clamped: Length::from_metres(bulge_fixed),
            held_supported: stresses.held,
            held_clamped: held(sides, bulge_fixed, t, self.metal.modulus, true),
            stress_held: Pressure::from_pascals(stresses.stretched),
            reserve: self.metal.strength / stresses.worst(),
            ruling: stresses.ruling(),
            bulges: bulge_free > 0.5 * t,
            inside_corner: self.shape.inside_corner,
        }
    }

    /// What would give it the reserve `target`.
    ///
    /// Bending stress goes with one over the thickness squared; what stretching adds is found by going round.
    ///
    /// # Errors
    /// [`InputError`] for a target below 0.1 or above 100.
    pub fn mend(&self, target: f64) -> Result<Mend, InputError> {
        let target = check(Input::Reserve, target)?;
        let bent = Bent::of(self.shape.sides, self.ramp, self.metal);
        let mut t = self.thickness;
        for _ in 0..ROUNDS {
            let reserve = self.metal.strength / bent.stresses(t).worst();
            if !reserve.is_finite() {
                t = 0.0;
                break;
            }
            t *= libm::sqrt(target / reserve);
        }
        let (sides, ramp) = self.half();
        let half = Bent::of(sides, ramp, self.metal).stresses(self.thickness);
        Ok(Mend {
            thickness: Length::from_metres(t),
            halved: self.metal.strength / half.worst(),
        })
    }

    /// The half of the long side where the pressure is higher.
    fn half(&self) -> (Sides, Ramp) {
        let (short, long) = (self.shape.sides.short(), 0.5 * self.shape.sides.long());
        let along = 0.5 * libm::fabs(self.ramp.along);
        let mean = self.ramp.mean + along;
        let across = self.ramp.across;
        let sides = Sides::new(short, long).unwrap_or(self.shape.sides);
        let ramp = if short <= long {
            Ramp {
                mean,
                across,
                along,
            }
        } else {
            Ramp {
                mean,
                across: along,
                along: across,
            }
        };
        (sides, ramp)
    }
}

/// How often [`Panel::mend`] goes round.
const ROUNDS: u8 = 12;

/// What bends a panel, with edges free to turn and held: for any thickness.
struct Bent {
    sides: Sides,
    metal: Metal,
    free: Bending,
    fixed: Bending,
}

/// Its stresses at one thickness, in pascals.
struct Stresses {
    free: f64,
    fixed: f64,
    held: Held,
    stretched: f64,
}

impl Bent {
    fn of(sides: Sides, ramp: Ramp, metal: Metal) -> Self {
        Self {
            sides,
            metal,
            free: supported(sides, ramp, metal.poisson),
            fixed: clamped(sides, ramp),
        }
    }

    fn stresses(&self, t: f64) -> Stresses {
        let Metal {
            modulus, poisson, ..
        } = self.metal;
        let bulge = self.free.bulge(stiffness(modulus, poisson, t));
        let held = held(self.sides, bulge, t, modulus, false);
        let free = self.free.stress(t);
        Stresses {
            free,
            fixed: self.fixed.stress(t),
            held,
            stretched: free * held.share + held.stretch,
        }
    }
}

impl Stresses {
    /// The highest with edges free to turn: whether they can pull inward is not known.
    fn middle(&self) -> f64 {
        libm::fmax(self.free, self.stretched)
    }

    fn worst(&self) -> f64 {
        libm::fmax(self.middle(), self.fixed)
    }

    fn ruling(&self) -> Bound {
        if self.middle() >= self.fixed {
            Bound::Supported
        } else {
            Bound::Clamped
        }
    }
}

/// Looks at the spacing at the most; each brings it nearer from the safe side.
const LOOKS: u8 = 16;
/// Stress in a strip over `p b²/t²`, with what stretching can add.
const STRIP: f64 = 0.75 * 1.05;
/// The spacing is given no nearer than this share.
const NEAR: f64 = 1e-3;

/// The farthest that baffles or stiffeners may stand apart along a wall that is `across` wide, under the
/// same pressure everywhere (take the highest), for the reserve `target`: each stands for an edge of the
/// panels on both sides of it.
///
/// # Errors
/// [`InputError`] for a figure past its limits.
pub fn baffle_spacing(
    across: Length,
    thickness: Length,
    metal: Metal,
    pressure: Pressure,
    target: f64,
) -> Result<Spacing, InputError> {
    let width = check(Input::Size, across.si())?;
    let t = check(Input::Thickness, thickness.si())?;
    let p = check(Input::Pressure, pressure.si())?;
    let allowed = metal.strength / check(Input::Reserve, target)?;
    // No plate is stressed more than a strip of its short side, `0.75 p b²/t²`, and stretching adds up to
    // 5 % to that (see `Strength`), so this span is always safe.
    let mut safe = t * libm::sqrt(allowed / (STRIP * p));
    if !(safe < width) {
        return Ok(Spacing::Any);
    }
    let over = |span: f64| {
        let Some(sides) = Sides::new(span, width) else {
            return -1.0;
        };
        Bent::of(sides, Ramp::even(p), metal).stresses(t).worst() / allowed - 1.0
    };
    // Past ten widths a plate is a strip of its width.
    let mut unsafe_ = 10.0 * width;
    let (mut low, mut high) = (over(safe), over(unsafe_));
    if high <= 0.0 {
        return Ok(Spacing::Any);
    }
    for look in 0..LOOKS {
        if unsafe_ - safe < NEAR * safe {
            break;
        }
        // By turns a straight line between the two and the middle of their ratio, so that neither end sticks.
        let straight = safe + (unsafe_ - safe) * (-low) / (high - low);
        let next = if look % 2 == 0 && straight > safe && straight < unsafe_ {
            straight
        } else {
            libm::sqrt(safe * unsafe_)
        };
        let value = over(next);
        if value <= 0.0 {
            (safe, low) = (next, value);
        } else {
            (unsafe_, high) = (next, value);
        }
    }
    Ok(Spacing::AtMost(Length::from_metres(safe)))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::{LengthUnit, PressureUnit};

    fn mm(value: f64) -> Length {
        Length::new(value, LengthUnit::Millimetre)
    }

    fn mpa(value: f64) -> Pressure {
        Pressure::new(value, PressureUnit::Megapascal)
    }

    fn sheet() -> Metal {
        Metal::new(mpa(70_000.0), 0.33, mpa(80.0)).unwrap()
    }

    fn panel(a: f64, b: f64, t: f64, pressing: Pressing) -> Panel {
        let outline = [[0.0, 0.0], [a, 0.0], [a, b], [0.0, b]];
        Panel::new(&outline, mm(t), sheet(), pressing).unwrap()
    }

    fn near(got: f64, want: f64, share: f64) {
        assert!((got / want - 1.0).abs() < share, "{got} against {want}");
    }

    /// What mends a panel does: its reserve, computed anew, is the one asked for.
    #[test]
    fn mended() {
        let pressing = Pressing {
            at_origin: Pressure::from_pascals(1_000.0),
            slope: [0.0, 9_000.0],
        };
        for (a, b, t) in [(0.6, 0.3, 2.0), (0.3, 0.6, 2.0), (0.4, 0.4, 1.5)] {
            let weak = panel(a, b, t, pressing);
            let mend = weak.mend(3.0).unwrap();
            let t = mend.thickness.in_unit(LengthUnit::Millimetre);
            near(panel(a, b, t, pressing).strength().reserve, 3.0, 1e-4);
        }
        // Half of the panel with the baffle, where the pressure is higher.
        let weak = panel(0.3, 0.6, 2.0, pressing);
        let half = Pressing {
            at_origin: Pressure::from_pascals(1_000.0 + 2_700.0),
            ..pressing
        };
        let half = panel(0.3, 0.3, 2.0, half).strength();
        near(weak.mend(2.0).unwrap().halved, half.reserve, 1e-6);
        // A square: its half is twice as long as wide, the same way round or the other.
        let weak = panel(0.4, 0.4, 2.0, pressing).mend(2.0).unwrap().halved;
        let upper = Pressing {
            at_origin: Pressure::from_pascals(1_000.0 + 1_800.0),
            ..pressing
        };
        let halves = [panel(0.4, 0.2, 2.0, upper), panel(0.2, 0.4, 2.0, pressing)];
        assert!(
            halves
                .iter()
                .any(|half| (half.strength().reserve / weak - 1.0).abs() < 1e-6)
        );
    }

    #[test]
    fn spacing_gives_the_reserve() {
        let p = Pressure::from_pascals(15_000.0);
        for width in [150.0, 300.0, 600.0] {
            for target in [1.0, 2.0, 4.0] {
                let Spacing::AtMost(span) =
                    baffle_spacing(mm(width), mm(2.0), sheet(), p, target).unwrap()
                else {
                    let long = panel(0.001 * width, 0.01 * width, 2.0, Pressing::even(p));
                    assert!(long.strength().reserve > 0.99 * target);
                    continue;
                };
                let got = panel(0.001 * width, span.si(), 2.0, Pressing::even(p)).strength();
                assert!(
                    got.reserve >= target && got.reserve < 1.01 * target,
                    "{width} {target} {span:?} {got:?}"
                );
            }
        }
        let still = baffle_spacing(
            mm(300.0),
            mm(2.0),
            sheet(),
            Pressure::from_pascals(0.0),
            2.0,
        );
        assert_eq!(still, Ok(Spacing::Any));
    }

    #[test]
    fn nothing_presses() {
        let got = panel(0.4, 0.3, 2.0, Pressing::even(Pressure::from_pascals(0.0)));
        let strength = got.strength();
        assert!(strength.reserve.is_infinite() && !strength.bulges);
        let mend = got.mend(2.0).unwrap();
        assert!(mend.thickness.si() < 1e-12 && mend.halved.is_infinite());
    }

    #[test]
    fn refused() {
        let even = Pressing::even(Pressure::from_pascals(1e3));
        let square = [[0.0, 0.0], [1.0, 0.0], [1.0, 1.0], [0.0, 1.0]];
        let outline = |points: &[[f64; 2]]| match Panel::new(points, mm(2.0), sheet(), even) {
            Err(PanelError::Outline(error)) => Some(error),
            _ => None,
        };
        assert_eq!(
            outline(&square[..2]),
            Some(OutlineError::TooFew { corners: 2 })
        );
        assert_eq!(
            outline(&[[0.0, 0.0], [1.0, 1.0], [2.0, 2.0]]),
            Some(OutlineError::NoArea)
        );
        assert_eq!(outline(&[[0.5, 0.5]; 5]), Some(OutlineError::NoArea));
        assert_eq!(
            outline(&[[0.0, 0.0], [1.0, f64::NAN], [2.0, 2.0]]),
            Some(OutlineError::NotFinite)
        );
        assert_eq!(outline(&square), None);
        let input = |t: f64, p: f64| match Panel::new(
            &square,
            mm(t),
            sheet(),
            Pressing::even(Pressure::from_pascals(p)),
        ) {
            Err(PanelError::Input(error)) => Some(error.input),
            _ => None,
        };
        assert_eq!(input(0.0, 1e3), Some(Input::Thickness));
        assert_eq!(input(2.0, f64::NAN), Some(Input::Pressure));
        assert_eq!(input(2.0, -5.0), Some(Input::Pressure));
        assert_eq!(
            Metal::new(mpa(70_000.0), 0.1, mpa(80.0)).unwrap_err().input,
            Input::Poisson
        );
        assert_eq!(
            Metal::new(mpa(70.0), 0.3, mpa(80.0)).unwrap_err().input,
            Input::Modulus
        );
        assert!(panel(0.4, 0.3, 2.0, even).mend(0.0).is_err());
    }
}
