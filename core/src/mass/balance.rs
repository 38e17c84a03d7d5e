//! The tank's mass, where it hangs, and what its mounts bear.

use heapless::Vec;

use super::error::BalanceError;
use super::footing::{Footing, place};

pub use super::footing::MAX_MOUNTS;
use crate::geom::Vector;
use crate::units::range::RangeError;
use crate::units::{Area, Figure, Force, Length, Mass, Volume};

/// A density in kg/m³: nothing that a tank is made of or holds is heavier than 30 000.
fn density_of(kilograms: f64) -> Result<f64, RangeError> {
    Figure::Density.within(kilograms, 0.0, 3e4)
}

/// A mass and its centre, gathered piece by piece.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Balance {
    pub(super) mass: f64,
    pub(super) moment: Vector,
}

impl Balance {
    /// Nothing yet.
    pub const NOTHING: Self = Self {
        mass: 0.0,
        moment: Vector::ZERO,
    };

    /// Adds a mass at a point in tank axes, in metres.
    ///
    /// # Errors
    /// [`RangeError`] for a mass below zero or above 1000 t, or a coordinate past 1 km.
    pub fn point(&mut self, mass: Mass, at: Vector) -> Result<(), RangeError> {
        let mass = Figure::Mass.within(mass.si(), 0.0, 1e6)?;
        for coordinate in [at.x, at.y, at.z] {
            place(coordinate)?;
        }
        self.mass += mass;
        self.moment = self.moment + at * mass;
        Ok(())
    }

    /// Adds sheet of `area` with the centroid `at`, its density in kg/m³: `ρ A t`.
    ///
    /// # Errors
    /// As [`point`](Self::point), and for thickness or density past their limits.
    pub fn sheet(
        &mut self,
        area: Area,
        thickness: Length,
        density: f64,
        at: Vector,
    ) -> Result<(), RangeError> {
        let thickness = Figure::Thickness.within(thickness.si(), 1e-4, 0.1)?;
        let density = density_of(density)?;
        self.point(Mass::from_kilograms(area.si() * thickness * density), at)
    }

    /// Adds liquid of `volume` with the centroid `at`, its density in kg/m³.
    ///
    /// # Errors
    /// As [`point`](Self::point), and for a density past its limits.
    pub fn liquid(&mut self, volume: Volume, density: f64, at: Vector) -> Result<(), RangeError> {
        let density = density_of(density)?;
        self.point(Mass::from_kilograms(volume.si() * density), at)
    }

    /// All of it.
    #[must_use]
    pub const fn mass(&self) -> Mass {
        Mass::from_kilograms(self.mass)
    }

    /// The centre of gravity, in metres, or `None` of no mass.
    #[must_use]
    pub fn centre(&self) -> Option<Vector> {
        (self.mass > 0.0).then(|| self.moment * (1.0 / self.mass))
    }
}

/// What one mount bears.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Reaction {
    /// The force with which it pushes on the tank, in newtons in tank axes.
    pub force: Vector,
    /// The part of that which pushes up, against the load: below zero where the tank would lift off and
    /// the mount must hold it down.
    pub bearing: Force,
}

/// What all mounts bear, in the order they were given.
#[derive(Clone, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
pub struct Reactions {
    /// Each mount.
    pub mounts: Vec<Reaction, MAX_MOUNTS>,
    /// The moment in N·m that a single mount must bear besides; zero for three and more.
    pub moment: Vector,
}

/// What `mounts` bear of a tank with its mass and centre in `balance`, which feels `felt` m/s² as gravity
/// (see [`Sway::each`](crate::strength::load::Sway::each)).
///
/// The tank is taken as rigid and every mount as equally stiff in every direction: each bears an equal
/// share of the force, and of the moment about their middle as much as a small turn of the tank presses or
/// pulls it: `Rᵢ = F/n + θ × rᵢ`, `(Σ |r|² 1 − r rᵀ) θ = M` (a bolt group, as in textbooks of machine
/// elements; the least squares of all distributions that balance). The upright forces on three mounts in one
/// plane are those of statics alone. With four or more a stiff tank on an uneven base rocks on three, or
/// even two, of them: then one can bear twice its share. One mount bears all, with a moment.
///
/// # Errors
/// [`BalanceError`]; not where a mount must hold the tank down, which [`Reaction::bearing`] shows.
pub fn reactions(
    balance: &Balance,
    felt: Vector,
    mounts: &[Vector],
) -> Result<Reactions, BalanceError> {
    let centre = balance.centre().ok_or(BalanceError::NoMass);
    let footing = Footing::new(mounts).map_err(|error| match (error, &centre) {
        // Of no mass there is nothing to bear, wherever the mounts are.
        (BalanceError::OneLine, Err(none)) => *none,
        _ => error,
    })?;
    Figure::Gravity.within(felt.length(), 0.0, 1e3)?;
    let centre = centre?;
    let weight = felt * balance.mass;
    // What the mounts must give about their middle.
    let moment = -(centre - footing.middle).cross(weight);
    let turn = footing.turn(moment);
    let down = weight.unit().unwrap_or(Vector::ZERO);
    let mut all = Vec::new();
    for force in footing.forces(weight, turn) {
        // As many as the mounts, whose number was checked.
        let _ = all.push(Reaction {
            force,
            bearing: Force::from_newtons(-force.dot(down)),
        });
    }
    let moment = if mounts.len() == 1 {
        moment
    } else {
        Vector::ZERO
    };
    Ok(Reactions {
        mounts: all,
        moment,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn at(mass: f64, x: f64, y: f64, z: f64) -> Balance {
        let mut balance = Balance::NOTHING;
        balance
            .point(Mass::from_kilograms(mass), Vector::new(x, y, z))
            .unwrap();
        balance
    }

    const DOWN: Vector = Vector::new(0.0, 0.0, -10.0);

    /// What the mounts give balances what they bear, in force and in moment, for any place of mounts and any
    /// load: the conditions of statics, which the kernel does not use in this form.
    #[test]
    fn forces_and_moments_balance() {
        let balance = at(12.0, 0.3, -0.1, 0.4);
        let all = [
            Vector::new(0.0, 0.0, 0.0),
            Vector::new(0.5, 0.1, 0.0),
            Vector::new(0.1, 0.4, 0.05),
            Vector::new(0.6, 0.5, 0.3),
            Vector::new(-0.2, 0.2, 0.1),
            Vector::new(0.2, -0.3, 0.5),
            Vector::new(0.9, 0.0, 0.2),
            Vector::new(0.3, 0.3, -0.3),
        ];
        for count in [1, 3, 4, 5, 8] {
            let felt = Vector::new(3.0, -4.0, -9.0);
            let mounts = &all[..count];
            let got = reactions(&balance, felt, mounts).unwrap();
            let weight = felt * 12.0;
            let centre = balance.centre().unwrap();
            let (mut force, mut moment) = (weight, centre.cross(weight) + got.moment);
            for (mount, reaction) in mounts.iter().zip(&got.mounts) {
                force = force + reaction.force;
                moment = moment + mount.cross(reaction.force);
            }
            assert!(
                force.length() < 1e-9 && moment.length() < 1e-9,
                "{count}: {force:?} {moment:?}"
            );
        }
    }

    #[test]
    fn one_mount_bears_a_moment() {
        let mount = [Vector::new(0.0, 0.0, 0.0)];
        let got = reactions(&at(5.0, 0.2, 0.0, 0.1), DOWN, &mount).unwrap();
        // 50 N at 0.2 m to the right turns the tank about +y; the mount turns it back.
        assert!((got.moment.y + 10.0).abs() < 1e-12 && got.moment.x.abs() < 1e-12);
        assert!((got.mounts[0].bearing.si() - 50.0).abs() < 1e-12);
    }

    #[test]
    fn refused() {
        let line = [0.0, 0.3, 0.7].map(|x| Vector::new(x, 2.0 * x, 0.1));
        let full = at(5.0, 0.2, 0.0, 0.1);
        assert_eq!(reactions(&full, DOWN, &line), Err(BalanceError::OneLine));
        assert_eq!(
            reactions(&full, DOWN, &line[..2]),
            Err(BalanceError::OneLine)
        );
        let same = [line[0]; 4];
        assert_eq!(reactions(&full, DOWN, &same), Err(BalanceError::OneLine));
        let error = |mounts: &[Vector]| match reactions(&full, DOWN, mounts) {
            Err(BalanceError::Range(error)) => Some(error.figure),
            _ => None,
        };
        assert_eq!(error(&[]), Some(Figure::Mounts));
        assert_eq!(error(&[Vector::ZERO; 9]), Some(Figure::Mounts));
        assert_eq!(
            error(&[Vector::new(f64::NAN, 0.0, 0.0)]),
            Some(Figure::Place)
        );
        assert_eq!(
            reactions(&Balance::NOTHING, DOWN, &line),
            Err(BalanceError::NoMass)
        );
        let mut none = Balance::NOTHING;
        let heavy = none.point(Mass::from_kilograms(-1.0), Vector::ZERO);
        assert_eq!(heavy.unwrap_err().figure, Figure::Mass);
        assert_eq!(Balance::NOTHING.centre(), None);
    }
}
