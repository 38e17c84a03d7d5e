//! The tank's mass, where it hangs, and what its mounts bear.

use core::fmt;

use heapless::Vec;

use crate::geom::Vector;
use crate::units::input::{Input, InputError, check};
use crate::units::{Area, Length, Mass, Volume};

/// Mounts that a tank may have.
pub const MAX_MOUNTS: usize = 8;

/// A mass and its centre, gathered piece by piece.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Balance {
    mass: f64,
    moment: Vector,
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
    /// [`InputError`] for a mass below zero or above 1000 t, or a coordinate past 1 km.
    pub fn point(&mut self, mass: Mass, at: Vector) -> Result<(), InputError> {
        let mass = check(Input::Mass, mass.si())?;
        for coordinate in [at.x, at.y, at.z] {
            check(Input::Place, coordinate)?;
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
    ) -> Result<(), InputError> {
        let thickness = check(Input::Thickness, thickness.si())?;
        let density = check(Input::Density, density)?;
        self.point(Mass::from_kilograms(area.si() * thickness * density), at)
    }

    /// Adds liquid of `volume` with the centroid `at`, its density in kg/m³.
    ///
    /// # Errors
    /// As [`point`](Self::point), and for a density past its limits.
    pub fn liquid(&mut self, volume: Volume, density: f64, at: Vector) -> Result<(), InputError> {
        let density = check(Input::Density, density)?;
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
    pub bearing: f64,
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

/// Why mounts cannot bear a tank.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum MountError {
    /// A figure past its limits: a coordinate, or the number of mounts.
    Input(InputError),
    /// The tank has no mass.
    NoMass,
    /// All mounts lie on one line, about which nothing keeps the tank from tipping.
    OneLine,
    /// The tank lifts off a mount.
    LiftsOff {
        /// The mount, counted from 1.
        mount: u8,
        /// The force in newtons with which it must be held down.
        force: f64,
    },
}

impl From<InputError> for MountError {
    fn from(error: InputError) -> Self {
        Self::Input(error)
    }
}

impl fmt::Display for MountError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Input(error) => error.fmt(f),
            Self::NoMass => f.write_str("the tank has no mass"),
            Self::OneLine => f.write_str(
                "the mounts lie on one line, and the tank would tip about it: set one beside the line",
            ),
            Self::LiftsOff { mount, force } => write!(
                f,
                "the tank lifts off mount {mount}, which must hold it down with {force:.0} N: bolt it for that, or move the mounts"
            ),
        }
    }
}

impl core::error::Error for MountError {}

/// Mounts count as on one line where their spread across it is below this share of that along it.
const ONE_LINE: f64 = 1e-4;

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
/// [`MountError`], but for lifting off: see [`Reactions::all_bear`].
pub fn reactions(
    balance: &Balance,
    felt: Vector,
    mounts: &[Vector],
) -> Result<Reactions, MountError> {
    let count = u32::try_from(mounts.len()).unwrap_or(u32::MAX);
    let count = check(Input::Mounts, f64::from(count))?;
    check(Input::Gravity, felt.length())?;
    let centre = balance.centre().ok_or(MountError::NoMass)?;
    let mut sum = Vector::ZERO;
    for mount in mounts {
        for coordinate in [mount.x, mount.y, mount.z] {
            check(Input::Place, coordinate)?;
        }
        sum = sum + *mount;
    }
    let middle = sum * (1.0 / count);
    let weight = felt * balance.mass;
    // What the mounts must give about their middle.
    let moment = -(centre - middle).cross(weight);
    let turn = if mounts.len() == 1 {
        Vector::ZERO
    } else {
        turn(mounts, middle, moment).ok_or(MountError::OneLine)?
    };
    let down = weight.unit().unwrap_or(Vector::ZERO);
    let mut all = Vec::new();
    for mount in mounts {
        let force = weight * (-1.0 / count) + turn.cross(*mount - middle);
        // Their number was checked above.
        let _ = all.push(Reaction {
            force,
            bearing: -force.dot(down),
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

/// The turn that gives the mounts `moment` about their middle, or `None` where they lie on one line.
fn turn(mounts: &[Vector], middle: Vector, moment: Vector) -> Option<Vector> {
    let (mut xx, mut yy, mut zz) = (0.0, 0.0, 0.0);
    let (mut xy, mut xz, mut yz) = (0.0, 0.0, 0.0);
    for mount in mounts {
        let r = *mount - middle;
        xx += r.x * r.x;
        yy += r.y * r.y;
        zz += r.z * r.z;
        xy += r.x * r.y;
        xz += r.x * r.z;
        yz += r.y * r.z;
    }
    let a = Vector::new(yy + zz, -xy, -xz);
    let b = Vector::new(-xy, xx + zz, -yz);
    let c = Vector::new(-xz, -yz, xx + yy);
    let size = xx + yy + zz;
    let (bc, ca, ab) = (b.cross(c), c.cross(a), a.cross(b));
    let determinant = a.dot(bc);
    // On one line the least of its three values is zero; the others are the spread along the line.
    if !(determinant > ONE_LINE * ONE_LINE * size * size * size) {
        return None;
    }
    let by = 1.0 / determinant;
    Some(bc * (moment.x * by) + ca * (moment.y * by) + ab * (moment.z * by))
}

impl Reactions {
    /// Whether every mount is pressed and none must hold the tank down.
    ///
    /// # Errors
    /// [`MountError::LiftsOff`] for the mount that is pulled hardest.
    pub fn all_bear(&self) -> Result<(), MountError> {
        let mut worst = None;
        let mut least = 0.0;
        for (number, mount) in (1u8..).zip(&self.mounts) {
            if mount.bearing < least {
                least = mount.bearing;
                worst = Some(MountError::LiftsOff {
                    mount: number,
                    force: -least,
                });
            }
        }
        worst.map_or(Ok(()), Err)
    }
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
        assert!((got.mounts[0].bearing - 50.0).abs() < 1e-12);
    }

    #[test]
    fn refused() {
        let line = [0.0, 0.3, 0.7].map(|x| Vector::new(x, 2.0 * x, 0.1));
        let full = at(5.0, 0.2, 0.0, 0.1);
        assert_eq!(reactions(&full, DOWN, &line), Err(MountError::OneLine));
        assert_eq!(reactions(&full, DOWN, &line[..2]), Err(MountError::OneLine));
        let same = [line[0]; 4];
        assert_eq!(reactions(&full, DOWN, &same), Err(MountError::OneLine));
        let error = |mounts: &[Vector]| match reactions(&full, DOWN, mounts) {
            Err(MountError::Input(error)) => Some(error.input),
            _ => None,
        };
        assert_eq!(error(&[]), Some(Input::Mounts));
        assert_eq!(error(&[Vector::ZERO; 9]), Some(Input::Mounts));
        assert_eq!(
            error(&[Vector::new(f64::NAN, 0.0, 0.0)]),
            Some(Input::Place)
        );
        assert_eq!(
            reactions(&Balance::NOTHING, DOWN, &line),
            Err(MountError::NoMass)
        );
        let mut none = Balance::NOTHING;
        let heavy = none.point(Mass::from_kilograms(-1.0), Vector::ZERO);
        assert_eq!(heavy.unwrap_err().input, Input::Mass);
        assert_eq!(Balance::NOTHING.centre(), None);
    }
}
