//! What a tank weighs, where it hangs and what its mounts bear.
//!
//! The sheet is all that lies between the outside and the inside of the body, corners filled with weld;
//! laps and flanges on top of that, and what fittings weigh more than the sheet that their holes take
//! out, are not counted. The liquid's centre is that of the inside below its surface, standing level;
//! what stands within is taken off its volume only.

mod wet;

use core::fmt;

use heapless::Vec;

use super::balance::{Balance, MountError, Reactions, reactions};
use crate::body::Plate;
use crate::capacity::Lean;
use crate::fitting::Baffle;
use crate::geom::Vector;
use crate::input::limits::MAX_MOUNTS;
use crate::strength::load::GRAVITY;
use crate::tables::LiquidError;
use crate::tank::Tank;
use crate::units::input::InputError;
use crate::units::range::OutOfRange;
use crate::units::{Length, Mass, Volume};

/// Why a tank cannot be weighed.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum BalanceError {
    /// A figure past its limits.
    Input(InputError),
    /// The liquid has no density at its temperature.
    Liquid(LiquidError),
    /// More than the tank holds, or less than nothing.
    Fill(OutOfRange),
}

impl From<InputError> for BalanceError {
    fn from(error: InputError) -> Self {
        Self::Input(error)
    }
}

impl From<LiquidError> for BalanceError {
    fn from(error: LiquidError) -> Self {
        Self::Liquid(error)
    }
}

impl From<OutOfRange> for BalanceError {
    fn from(error: OutOfRange) -> Self {
        Self::Fill(error)
    }
}

impl fmt::Display for BalanceError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Input(error) => error.fmt(f),
            Self::Liquid(error) => error.fmt(f),
            Self::Fill(error) => error.fmt(f),
        }
    }
}

impl core::error::Error for BalanceError {}

/// What one mount bears of a tank, in newtons.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct MountLoad {
    /// Upwards, the tank standing level and still.
    pub still: f64,
    /// The least against what the tank feels as its weight, at any lean and acceleration of the job:
    /// below zero the mount must hold the tank down.
    pub least: f64,
    /// The most of it.
    pub most: f64,
    /// The largest force in any direction.
    pub force: f64,
}

/// What all mounts bear, in the order of the job.
#[derive(Clone, Debug, Default, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
pub struct MountLoads {
    /// Each mount.
    pub mounts: Vec<MountLoad, MAX_MOUNTS>,
    /// The largest moment in N·m that a single mount must bear besides; zero for three and more.
    pub moment: f64,
}

/// Where the middle of a plate lies, in its own plane.
fn middle(plate: &Plate) -> [f64; 2] {
    match plate {
        Plate::Corners(corners) => {
            let first = corners.first().copied().unwrap_or_default();
            let next = corners.iter().skip(1);
            let (mut area, mut sum) = (0.0, [0.0; 2]);
            for (a, b) in corners.iter().zip(next) {
                let (p, q) = (
                    [a[0] - first[0], a[1] - first[1]],
                    [b[0] - first[0], b[1] - first[1]],
                );
                let twice = p[0] * q[1] - q[0] * p[1];
                area += twice;
                sum = [
                    sum[0] + (p[0] + q[0]) * twice,
                    sum[1] + (p[1] + q[1]) * twice,
                ];
            }
            [
                first[0] + sum[0] / (3.0 * area),
                first[1] + sum[1] / (3.0 * area),
            ]
        }
        Plate::Outline(section) => section.centroid(),
        Plate::Disc { centre, .. } => *centre,
    }
}

/// The middle of a baffle less its holes, in the tank.
fn middle_of(baffle: &Baffle) -> Vector {
    let whole = baffle.plate().area();
    let [u, v] = middle(baffle.plate());
    let (mut area, mut sum) = (whole, [u * whole, v * whole]);
    for hole in baffle.holes() {
        let taken = core::f64::consts::PI * hole.radius * hole.radius;
        area -= taken;
        sum = [sum[0] - taken * hole.at[0], sum[1] - taken * hole.at[1]];
    }
    baffle.frame([sum[0] / area, sum[1] / area])[0]
}

impl Tank {
    /// The tank with nothing in it.
    ///
    /// # Errors
    /// [`BalanceError::Input`] for a mass or a coordinate past its limits.
    pub fn empty_balance(&self) -> Result<Balance, BalanceError> {
        let density = self.job.alloy.density();
        let (outside, inside) = (&self.body.outside, &self.body.inside);
        let (whole, space) = (outside.volume().si(), inside.volume().si());
        let sheet = whole - space;
        let moment = outside.centroid() * whole - inside.centroid() * space;
        let mut balance = Balance::NOTHING;
        balance.point(
            Mass::from_kilograms(density * sheet),
            moment * (1.0 / sheet),
        )?;
        for baffle in self.inner.baffles() {
            let mass = density * baffle.area() * baffle.thickness().si();
            balance.point(Mass::from_kilograms(mass), middle_of(baffle))?;
        }
        Ok(balance)
    }

    /// The tank with a volume of its liquid in it, standing level.
    ///
    /// # Errors
    /// [`BalanceError`] for a volume that it does not hold, a liquid without a density, or a figure past
    /// its limits.
    pub fn laden_balance(&self, liquid: Volume) -> Result<Balance, BalanceError> {
        let mut balance = self.empty_balance()?;
        let pool = self.pool(Lean::LEVEL);
        let depth = pool.depth_for(liquid)?;
        if let Some(centre) = wet::centre(&self.body.inside, pool.height_of(depth)) {
            balance.liquid(liquid, self.liquid_density()?, centre)?;
        }
        Ok(balance)
    }

    /// What the mounts of the job bear of a tank that weighs so, its liquid taken to stay where it is: still,
    /// and at the worst of the job's leans and accelerations. Empty where the job names no mount.
    ///
    /// # Errors
    /// [`MountError`] where mounts cannot bear a tank; not where it lifts off one, which
    /// [`MountLoad::least`] shows.
    pub fn mount_loads(&self, balance: &Balance) -> Result<MountLoads, MountError> {
        let mut loads = MountLoads::default();
        let mut mounts: Vec<Vector, MAX_MOUNTS> = Vec::new();
        for [x, y, z] in &self.job.service.mounts {
            // As many as the job may have.
            let _ = mounts.push(Vector::new(x.si(), y.si(), z.si()));
        }
        if mounts.is_empty() {
            return Ok(loads);
        }
        let still = reactions(balance, Vector::new(0.0, 0.0, -GRAVITY), &mounts)?;
        for reaction in &still.mounts {
            // As many as the mounts.
            let _ = loads.mounts.push(MountLoad {
                still: reaction.bearing,
                least: reaction.bearing,
                most: reaction.bearing,
                force: reaction.force.length(),
            });
        }
        loads.moment = still.moment.length();
        let mut failed = None;
        self.sway()
            .each(|felt| match reactions(balance, felt, &mounts) {
                Ok(Reactions { mounts, moment }) => {
                    loads.moment = libm::fmax(loads.moment, moment.length());
                    for (load, reaction) in loads.mounts.iter_mut().zip(&mounts) {
                        load.least = libm::fmin(load.least, reaction.bearing);
                        load.most = libm::fmax(load.most, reaction.bearing);
                        load.force = libm::fmax(load.force, reaction.force.length());
                    }
                }
                Err(error) => failed = Some(error),
            });
        failed.map_or(Ok(loads), Err)
    }

    /// Where the mounts of the job are, in the order of [`MountLoads`].
    #[must_use]
    pub fn mounts(&self) -> &[[Length; 3]] {
        &self.job.service.mounts
    }
}
