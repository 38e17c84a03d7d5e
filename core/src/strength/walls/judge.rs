//! What every wall of a tank is judged by: its load, its metal, its strength beside a weld.

use super::super::error::StrengthError;
use super::super::load::{Load, Sway};
use super::super::panel::PanelMetal;
use super::bearing::Trial;
use super::joined::JoinedWalls;
use crate::geom::Vector;
use crate::tables::metal::{HeatedMetal, Strength};
use crate::tank::Tank;
use crate::units::range::RangeError;
use crate::units::{Length, Pressure, Ratio};

/// What is added to every pressure, in pascals: a face at the brim must not fall below zero by rounding.
pub(super) const HAIR: f64 = 1e-3;

/// Metal that keeps all it has.
const COLD: HeatedMetal = HeatedMetal {
    strength: Ratio::from_share(1.0),
    modulus: Ratio::from_share(1.0),
    source: None,
};

/// What every face of a tank is judged by.
#[derive(Clone, Copy)]
pub(super) struct Judge<'a> {
    pub(super) tank: &'a Tank,
    pub(super) trial: Trial,
    pub(super) density: f64,
    pub(super) sway: Sway,
    /// What the metal keeps in service; in a test it is as cold as the shop.
    heated: HeatedMetal,
    /// What its walls bear together, where that is known by now.
    pub(super) joined: Option<&'a JoinedWalls>,
}

impl<'a> Judge<'a> {
    /// A judge by what the walls bear together.
    pub(super) fn by(tank: &'a Tank, joined: &'a JoinedWalls) -> Result<Self, StrengthError> {
        let judge = Self::new(tank, joined.trial())?;
        Ok(Self {
            joined: Some(joined),
            ..judge
        })
    }

    /// A judge of single walls.
    pub(super) fn new(tank: &'a Tank, trial: Trial) -> Result<Self, StrengthError> {
        Ok(Self {
            tank,
            trial,
            density: tank.liquid_density()?.si(),
            sway: tank.sway(),
            heated: match trial {
                Trial::Use => tank.heated()?,
                Trial::Test(_) => COLD,
            },
            joined: None,
        })
    }

    /// The pressure on top of the liquid.
    pub(super) fn over(&self) -> Pressure {
        let over = match self.trial {
            Trial::Use => self.tank.job.service.pressure,
            Trial::Test(pressure) => pressure,
        };
        Pressure::from_pascals(over.si() + HAIR)
    }

    /// The load that tries a wall with these corners hardest, liquid filling the space whose corners are
    /// `inside`.
    pub(super) fn load(&self, inside: &[Vector], corners: &[Vector]) -> Result<Load, RangeError> {
        match self.trial {
            Trial::Use => self.sway.worst(self.density, self.over(), inside, corners),
            Trial::Test(_) => Load::even(self.over()),
        }
    }

    /// The liquid's load on a baffle: the gas that a cap holds presses on both of its sides.
    pub(super) fn liquid(&self, inside: &[Vector], corners: &[Vector]) -> Result<Load, RangeError> {
        let hair = Pressure::from_pascals(HAIR);
        self.sway.worst(self.density, hair, inside, corners)
    }

    pub(super) fn strength(&self, thickness: Length) -> Result<Strength, StrengthError> {
        let job = &self.tank.job;
        let metal = job.alloy.metal();
        let welded = metal.as_welded_by(job.arc.process, job.temper, None, thickness);
        let cold = welded.ok_or(StrengthError::Unknown)?;
        Ok(Strength {
            ultimate: self.when_hot(cold.ultimate),
            yield_strength: self.when_hot(cold.yield_strength),
            ..cold
        })
    }

    /// What is left of a strength at 20 °C.
    pub(super) fn when_hot(&self, cold: Pressure) -> Pressure {
        Pressure::from_pascals(cold.si() * self.heated.strength.si())
    }

    pub(super) fn modulus(&self) -> Pressure {
        let cold = self.tank.job.alloy.metal().modulus().value;
        Pressure::from_pascals(cold * self.heated.modulus.si())
    }

    pub(super) fn poisson(&self) -> f64 {
        self.tank.job.alloy.metal().poisson().value
    }

    pub(super) fn metal(&self, thickness: Length) -> Result<PanelMetal, StrengthError> {
        let yielding = self.strength(thickness)?.yield_strength;
        Ok(PanelMetal::new(self.modulus(), self.poisson(), yielding)?)
    }
}
