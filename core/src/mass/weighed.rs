//! What a tank weighs, where it hangs and what its mounts bear.
//!
//! The sheet is all that lies between the outside and the inside of the body, corners filled with weld;
//! laps and flanges on top of that, and what fittings weigh more than the sheet that their holes take
//! out, are not counted. The liquid's centre is that of the inside below its surface, standing level;
//! what stands within is taken off its volume only.

use core::fmt;

use heapless::Vec;

use super::balance::{Balance, Reactions, reactions};
use super::error::BalanceError;
use super::liquid_centre;
use crate::body::FlatForm;
use crate::capacity::Lean;
use crate::fitting::Baffle;
use crate::geom::Vector;
use crate::input::limits::MAX_MOUNTS;
use crate::tank::Tank;
use crate::units::constant::GRAVITY;
use crate::units::{Force, ForceUnit, Length, Mass, Torque, Volume};

/// What one mount bears of a tank.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct MountLoad {
    /// How hard it pushes, square to the plane of the mounts, or upwards where they lie in none; the tank standing level
    /// and still.
    pub still: Force,
    /// The least of that, of all that was tried: below zero the mount must hold the tank.
    pub least: Force,
    /// The most of it.
    pub most: Force,
    /// The largest force in any direction.
    pub force: Force,
}

/// A mount that must hold the tank down, at some lean and acceleration of the job. Its `Display` says so, and what to
/// do.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct LiftedMount {
    /// Which mount, counted from 1.
    pub mount: u8,
    /// The force with which it must hold the tank down.
    pub force: Force,
}

impl fmt::Display for LiftedMount {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(
            f,
            "the tank lifts off mount {}, which must hold it down with {}: bolt it for that, or move the mounts",
            self.mount,
            self.force.display(ForceUnit::Newton, 0)
        )
    }
}

/// What all mounts bear, in the order of the job.
#[derive(Clone, Debug, Default, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
pub struct MountLoads {
    /// Each mount.
    pub mounts: Vec<MountLoad, MAX_MOUNTS>,
    /// The largest moment that a single mount must bear besides; zero for three and more.
    pub moment: Torque,
}

impl MountLoads {
    /// The mounts that must hold the tank down, in their order.
    pub fn lifted(&self) -> impl Iterator<Item = LiftedMount> + '_ {
        let numbered = (1_u8..).zip(&self.mounts);
        numbered.filter_map(|(mount, load)| {
            let force = Force::from_newtons(-load.least.si());
            (load.least.si() < 0.0).then_some(LiftedMount { mount, force })
        })
    }
}

/// Where the middle of a plate lies, in its own plane.
fn middle(plate: &FlatForm) -> [f64; 2] {
    match plate {
        FlatForm::Corners(corners) => {
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
        FlatForm::Outline(section) => section.centroid(),
        FlatForm::Disc { centre, .. } => *centre,
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
    /// ```
    /// # use seamwright_core::prelude::*;
    /// # let mm = |value| Length::new(value, LengthUnit::Millimetre);
    /// # let outside = Block::new(mm(320.0), mm(180.0), mm(160.0));
    /// # let draft = Draft::new("Header tank", outside, StockDraft::of(Alloy::A5754, mm(2.0)))?;
    /// # let tank = Tank::build(&draft)?;
    /// let empty = tank.empty_balance()?;
    /// let sheet = 0.320 * 0.180 * 0.160 - 0.316 * 0.176 * 0.156;
    /// let kilograms = sheet * tank.job().alloy().density().si();
    /// assert!((empty.mass().si() - kilograms).abs() < 1e-9);
    /// # Ok::<(), Box<dyn core::error::Error>>(())
    /// ```
    ///
    /// # Errors
    /// [`BalanceError::Range`] for a mass or a coordinate past its limits.
    pub fn empty_balance(&self) -> Result<Balance, BalanceError> {
        let density = self.job.alloy.density().si();
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
            if let Some((volume, middle)) = baffle.flange_middle() {
                balance.point(Mass::from_kilograms(density * volume), middle)?;
            }
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
        if let Some(centre) =
            liquid_centre::below(&self.body.inside, pool.up(), pool.height_of(depth))
        {
            balance.liquid(liquid, self.liquid_density()?.si(), centre)?;
        }
        Ok(balance)
    }

    /// What the mounts of the job bear of a tank that weighs so, its liquid taken to stay where it is: still,
    /// and at the worst of the job's leans and accelerations, all of them in full. Empty where the job names no mount.
    ///
    /// Other fills can be worse, and liquid with room to run shifts: that is [`mounts_envelope`](Self::mounts_envelope),
    /// for which a gauge is too slow.
    ///
    /// # Errors
    /// [`BalanceError`] where mounts cannot bear a tank; not where it lifts off one, which
    /// [`MountLoad::least`] shows.
    pub fn mount_loads(&self, balance: &Balance) -> Result<MountLoads, BalanceError> {
        let mut loads = MountLoads::default();
        if self.job.service.mounts.is_empty() {
            return Ok(loads);
        }
        let footing = self.footing()?;
        let mounts = footing.mounts();
        let push = |force: Vector| Force::from_newtons(force.dot(footing.normal));
        let still = reactions(balance, Vector::new(0.0, 0.0, -GRAVITY), mounts)?;
        for reaction in &still.mounts {
            // As many as the mounts.
            let _ = loads.mounts.push(MountLoad {
                still: push(reaction.force),
                least: push(reaction.force),
                most: push(reaction.force),
                force: Force::from_newtons(reaction.force.length()),
            });
        }
        let mut moment_most = still.moment.length();
        let mut failed = None;
        self.sway()
            .each(|felt| match reactions(balance, felt, mounts) {
                Ok(Reactions { mounts, moment }) => {
                    moment_most = libm::fmax(moment_most, moment.length());
                    for (load, reaction) in loads.mounts.iter_mut().zip(&mounts) {
                        let (bearing, force) = (push(reaction.force).si(), reaction.force.length());
                        load.least = Force::from_newtons(libm::fmin(load.least.si(), bearing));
                        load.most = Force::from_newtons(libm::fmax(load.most.si(), bearing));
                        load.force = Force::from_newtons(libm::fmax(load.force.si(), force));
                    }
                }
                Err(error) => failed = Some(error),
            });
        loads.moment = Torque::from_newton_metres(moment_most);
        failed.map_or(Ok(loads), Err)
    }

    /// What they bear of the tank full to the brim; `None` where that cannot be weighed.
    ///
    /// # Errors
    /// As [`mount_loads`](Self::mount_loads).
    #[must_use]
    pub fn full_mount_loads(&self) -> Option<Result<MountLoads, BalanceError>> {
        let full = self.laden_balance(self.capacity.brim).ok()?;
        Some(self.mount_loads(&full))
    }

    /// Where the mounts of the job are, in the order of [`MountLoads`].
    #[must_use]
    pub fn mounts(&self) -> &[[Length; 3]] {
        &self.job.service.mounts
    }
}
