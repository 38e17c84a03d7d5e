//! Whether a flat panel bears its load, and what would mend one that does not.

mod round;
mod spacing;
#[cfg(test)]
mod tests;

pub use round::RoundPanel;
pub use spacing::{Spacing, baffle_spacing};

use super::error::PanelError;
use super::limits;
use super::load::Pressing;
use super::plate::{
    Bending, Eased, Enclosing, Held, Ramp, Sides, clamped, disc_held, enclosing, held, stiffness,
    supported,
};
use crate::units::range::RangeError;
use crate::units::{Length, Pressure};

/// What a sheet is made of, as strength goes.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct PanelMetal {
    modulus: f64,
    poisson: f64,
    strength: f64,
}

impl PanelMetal {
    /// From Young's modulus, Poisson's ratio (0.15 to 0.45), and the strength that may be used: beside a
    /// seam that of the welded sheet, not of the sheet as bought.
    ///
    /// # Errors
    /// [`RangeError`] for a figure past its limits.
    pub fn new(modulus: Pressure, poisson: f64, strength: Pressure) -> Result<Self, RangeError> {
        Ok(Self {
            modulus: limits::modulus(modulus)?,
            poisson: limits::poisson(poisson)?,
            strength: limits::strength(strength)?,
        })
    }
}

/// A flat panel and what presses on it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct FlatPanel {
    /// The rectangle that stands for it.
    pub shape: Enclosing,
    /// The pressure over that.
    pub ramp: Ramp,
    thickness: f64,
    metal: PanelMetal,
}

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
pub struct PanelStrength {
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
    /// Highest stress, edges free to turn and to pull inward: what stretching leaves of `stress_supported`.
    pub eased_supported: Pressure,
    /// The same of `stress_clamped`, edges held from turning and free to pull inward.
    pub eased_clamped: Pressure,
    /// Strength over the highest of `stress_held` and the two eased stresses, for whether its edges can pull inward is not
    /// known; without end under no pressure.
    pub reserve: f64,
    /// Which edges that is for.
    pub ruling: Bound,
    /// Whether the bulge passes half the thickness, so that bending alone overstates it and
    /// `held_supported` and `held_clamped` tell more.
    pub bulges: bool,
    /// Whether the panel has an inside corner, at which this says nothing: round it well, or strengthen it.
    pub inside_corner: bool,
}

impl FlatPanel {
    /// A panel with the corners `outline`, in metres in its own plane, under `pressing` in the same
    /// coordinates.
    ///
    /// # Errors
    /// [`PanelError`] for a figure past its limits or an outline without area; for a highest pressure
    /// below zero or above 100 bar, [`Figure::Pressure`](crate::units::Figure::Pressure).
    pub fn new(
        outline: &[[f64; 2]],
        thickness: Length,
        metal: PanelMetal,
        pressing: Pressing,
    ) -> Result<Self, PanelError> {
        let thickness = limits::thickness(thickness)?;
        let shape = enclosing(outline)?;
        limits::size(shape.sides.short())?;
        limits::size(shape.sides.long())?;
        let ramp = shape.ramp(pressing.at_origin.si(), pressing.slope);
        limits::pressure(ramp.most())?;
        Ok(Self {
            shape,
            ramp,
            thickness,
            metal,
        })
    }

    /// Its sheet.
    #[must_use]
    pub const fn thickness(&self) -> Length {
        Length::from_metres(self.thickness)
    }

    /// How it bears its load.
    #[must_use]
    pub fn strength(&self) -> PanelStrength {
        let bent = Bent::of(self.shape.sides, self.ramp, self.metal);
        bent.strength(self.thickness, self.shape.inside_corner)
    }

    /// The sheet that would give it the reserve `target`, the panel as it is.
    ///
    /// Bending stress goes with one over the thickness squared; what stretching makes of it is found by going round.
    ///
    /// # Errors
    /// [`RangeError`] for a target below 0.1 or above 100.
    pub fn mend(&self, target: f64) -> Result<Length, RangeError> {
        let target = limits::reserve(target)?;
        let bent = Bent::of(self.shape.sides, self.ramp, self.metal);
        let needed = bent.thickness_for(target, self.thickness);
        Ok(Length::from_metres(needed))
    }

    /// The even pressure that leaves it the reserve `target`, whatever presses on it as it is: at most
    /// 100 bar.
    ///
    /// Bending stress goes with the pressure; what stretching makes of it is found by going round.
    ///
    /// # Errors
    /// [`RangeError`] for a target below 0.1 or above 100.
    pub fn takes(&self, target: f64) -> Result<Pressure, RangeError> {
        let allowed = self.metal.strength / limits::reserve(target)?;
        let one = Bent::of(self.shape.sides, Ramp::even(1.0), self.metal);
        let t = self.thickness;
        let short = |pressure: f64| allowed / one.times(pressure).stresses(t).worst();
        let mut pressure = allowed / one.stresses(t).by_bending();
        for _ in 0..ROUNDS {
            pressure *= short(pressure);
        }
        // Stress grows more slowly than pressure, so that this errs on the safe side too.
        pressure *= libm::fmin(short(pressure), 1.0);
        Ok(Pressure::from_pascals(libm::fmin(pressure, MOST)))
    }
}

/// How often [`FlatPanel::mend`] and [`FlatPanel::takes`] go round.
const ROUNDS: u8 = 24;
/// No panel is said to take more, in pascals: 100 bar, the most that may be asked of one.
const MOST: f64 = 1e7;

/// What a panel spans.
#[derive(Clone, Copy)]
enum Span {
    Rectangle(Sides),
    /// With this radius.
    Disc(f64),
}

impl Span {
    /// What stretching eases it by where its edges may pull inward; nothing of a disc.
    fn eased(self, held: f64, bulge: f64) -> Eased {
        match self {
            Self::Rectangle(sides) => Eased::of(sides, held, bulge),
            Self::Disc(_) => Eased::NONE,
        }
    }

    fn held(self, linear: f64, t: f64, modulus: f64, clamped: bool) -> Held {
        match self {
            Self::Rectangle(sides) => held(sides, linear, t, modulus, clamped),
            Self::Disc(radius) => disc_held(radius, linear, t, modulus, clamped),
        }
    }
}

/// What bends a panel, with edges free to turn and held: for any thickness.
struct Bent {
    span: Span,
    /// The mean of the pressure over its highest: by so much of what an even one is eased.
    level: f64,
    metal: PanelMetal,
    free: Bending,
    fixed: Bending,
}

/// Its stresses at one thickness, in pascals.
struct Stresses {
    free: f64,
    fixed: f64,
    eased_free: f64,
    eased_fixed: f64,
    held: Held,
    stretched: f64,
}

impl Bent {
    fn of(sides: Sides, ramp: Ramp, metal: PanelMetal) -> Self {
        Self {
            span: Span::Rectangle(sides),
            level: ramp.level(),
            metal,
            free: supported(sides, ramp, metal.poisson),
            fixed: clamped(sides, ramp),
        }
    }

    /// The same under so many times the pressure.
    fn times(&self, by: f64) -> Self {
        let times = |bending: &Bending| Bending {
            moment: by * bending.moment,
            deflection: by * bending.deflection,
        };
        Self {
            free: times(&self.free),
            fixed: times(&self.fixed),
            ..*self
        }
    }

    /// What is left of a stress of which an even pressure would leave a share: what is uneven of it is not eased.
    fn left(&self, share: f64) -> f64 {
        1.0 - self.level * (1.0 - share)
    }

    fn stresses(&self, t: f64) -> Stresses {
        let PanelMetal {
            modulus, poisson, ..
        } = self.metal;
        let d = stiffness(modulus, poisson, t);
        let bulge = self.free.bulge(d);
        let held = self.span.held(bulge, t, modulus, false);
        let (free, fixed) = (self.free.stress(t), self.fixed.stress(t));
        let bulge_fixed = self.fixed.bulge(d);
        Stresses {
            free,
            fixed,
            eased_free: free * self.left(self.span.eased(0.0, bulge / t).inside),
            eased_fixed: fixed * self.left(self.span.eased(1.0, bulge_fixed / t).edge),
            held,
            stretched: free * held.share + held.stretch,
        }
    }

    fn strength(&self, t: f64, inside_corner: bool) -> PanelStrength {
        let PanelMetal {
            modulus,
            poisson,
            strength,
        } = self.metal;
        let stresses = self.stresses(t);
        let d = stiffness(modulus, poisson, t);
        let bulge_fixed = self.fixed.bulge(d);
        let bulge_free = self.free.bulge(d);
        PanelStrength {
            stress_supported: Pressure::from_pascals(stresses.free),
            stress_clamped: Pressure::from_pascals(stresses.fixed),
            bulge_supported: Length::from_metres(bulge_free),
            bulge_clamped: Length::from_metres(bulge_fixed),
            held_supported: stresses.held,
            held_clamped: self.span.held(bulge_fixed, t, modulus, true),
            stress_held: Pressure::from_pascals(stresses.stretched),
            eased_supported: Pressure::from_pascals(stresses.eased_free),
            eased_clamped: Pressure::from_pascals(stresses.eased_fixed),
            reserve: strength / stresses.worst(),
            ruling: stresses.ruling(),
            bulges: bulge_free > 0.5 * t,
            inside_corner,
        }
    }

    /// The thickness that gives the reserve `target`, looked for from `t` on.
    fn thickness_for(&self, target: f64, mut t: f64) -> f64 {
        for _ in 0..ROUNDS {
            let reserve = self.metal.strength / self.stresses(t).worst();
            if !reserve.is_finite() {
                return 0.0;
            }
            t *= libm::sqrt(target / reserve);
        }
        t
    }
}

impl Stresses {
    /// The highest with edges free to turn: whether they can pull inward is not known.
    fn middle(&self) -> f64 {
        libm::fmax(self.eased_free, self.stretched)
    }

    fn worst(&self) -> f64 {
        libm::fmax(self.middle(), self.eased_fixed)
    }

    /// Without what stretching makes of it.
    fn by_bending(&self) -> f64 {
        libm::fmax(self.free, self.fixed)
    }

    fn ruling(&self) -> Bound {
        if self.middle() >= self.eased_fixed {
            Bound::Supported
        } else {
            Bound::Clamped
        }
    }
}
