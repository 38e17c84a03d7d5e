//! What the walls of a tank bear together, load by load; what pressure they take, and what sheet would mend them.

use super::super::elastic::SHAKEN_DOWN;
use super::super::error::StrengthError;
use super::bearing::TEST_RESERVE;
use super::joined::{Shares, WallShare};
use super::judge::Judge;
use super::parts::Walls;
use crate::input::Face;
use crate::units::Length;

/// An outline that fills this share of its rectangle is one.
const RECTANGLE: f64 = 0.999;
/// How often the sheet that mends a wall, or the pressure that one takes, is set right at the most.
const ROUNDS: u8 = 10;
/// Nearer than this share it is right.
const RIGHT: f64 = 1e-3;
/// A wall that does less than this share of the most that any wall does will not be the weakest.
const CLOSE: f64 = 0.7;
/// No wall is said to take more, in pascals.
const MOST: f64 = 1e7;

impl Judge<'_> {
    /// Goes through all loads, and mends what has not the reserve that is wanted.
    #[inline(never)]
    pub(super) fn shared_out(&self, walls: &mut Walls) -> Result<Shares, StrengthError> {
        let mut shares = walls.shares();
        shares.at_most = walls.parts.iter().any(|part| part.shape.filled < RECTANGLE);
        for load in 0..walls.loads.len() {
            walls.press(load);
            walls.tell(&mut shares, self.poisson());
        }
        let wanted = self.trial.wanted();
        for place in 0..shares.walls.len() {
            let Some(share) = shares.walls.get(place).copied() else {
                continue;
            };
            let sheet = self.tank.job.thickness_of(share.face);
            if self.strength(sheet)?.yield_strength.si() < wanted * share.stress {
                let mended = self.mended(walls, &share, sheet)?;
                if let Some(share) = shares.walls.get_mut(place) {
                    share.mended = Some(mended);
                }
            }
        }
        self.takes(walls, &mut shares)?;
        Ok(shares)
    }

    /// How much of what it may bear in a test each wall does under an even pressure; and the most of them. Walls that had
    /// less than [`CLOSE`] of the most before are passed over.
    fn used(
        &self,
        walls: &mut Walls,
        shares: &mut Shares,
        pressure: f64,
        before: f64,
    ) -> Result<f64, StrengthError> {
        walls.press_evenly(pressure);
        for share in &mut shares.walls {
            share.close = share.used >= CLOSE * before;
            share.used = if share.close { 0.0 } else { share.used };
        }
        shares.swept = walls.swept().map(|volume| volume / pressure);
        let mut most = 0.0;
        for slab in 0..walls.parts.len() {
            let Some(part) = walls.parts.get(slab).filter(|part| part.load.is_some()) else {
                continue;
            };
            let Some(share) = shares.wall_of(part.face).filter(|share| share.close) else {
                continue;
            };
            let sheet = self.tank.job.thickness_of(part.face);
            let allowed = self.strength(sheet)?.yield_strength.si();
            // What is worst at its edges by bending alone stays so: stretching eases its middle more.
            let (stress, hole) = if before > 0.0 && share.edges_rule {
                (
                    walls.edge(slab, part),
                    walls.hole(slab, part, self.poisson()),
                )
            } else {
                let borne = walls.borne(slab, part, self.poisson());
                share.edges_rule &= borne.at_edges;
                (borne.stress, borne.hole)
            };
            let used = libm::fmax(
                TEST_RESERVE * stress / allowed,
                hole / (SHAKEN_DOWN * allowed),
            );
            // Past its bulge nothing is eased: no test goes there.
            let used = libm::fmax(used, walls.bulge_of(slab));
            share.used = libm::fmax(share.used, used);
            most = libm::fmax(most, used);
        }
        Ok(most)
    }

    /// Finds the even pressure that leaves the weakest wall what a test wants; the others take as much for sure.
    #[inline(never)]
    fn takes(&self, walls: &mut Walls, shares: &mut Shares) -> Result<(), StrengthError> {
        let mut pressure = 1.0;
        walls.net.scale(0.0);
        let mut most = self.used(walls, shares, pressure, 0.0)?;
        for _ in 0..ROUNDS {
            let next = libm::fmin(pressure / most, MOST);
            if libm::fabs(next / pressure - 1.0) < RIGHT {
                break;
            }
            walls.net.scale(next / pressure);
            pressure = next;
            most = self.used(walls, shares, pressure, most)?;
        }
        // What the others take is more, but what they have in reserve does not go with the pressure alone.
        let sure = libm::fmin(pressure / libm::fmax(1.0, most), MOST);
        for share in &mut shares.walls {
            let weakest = share.used >= most;
            share.takes = if weakest { sure * (1.0 - RIGHT) } else { sure };
        }
        Ok(())
    }

    /// The sheet that gives a wall the reserve that is wanted, whether the others stay as they are or become as much
    /// thicker.
    #[inline(never)]
    fn mended(
        &self,
        walls: &mut Walls,
        share: &WallShare,
        sheet: Length,
    ) -> Result<Length, StrengthError> {
        let alone = self.thicker(walls, share, sheet, |face| face == share.face)?;
        let alike = self.thicker(walls, share, sheet, |_| true)?;
        Ok(Length::from_metres(libm::fmax(alone, alike)))
    }

    /// That sheet, in metres, if the picked faces become as much thicker.
    fn thicker(
        &self,
        walls: &mut Walls,
        share: &WallShare,
        sheet: Length,
        picked: impl Fn(Face) -> bool,
    ) -> Result<f64, StrengthError> {
        let parts = walls.parts.clone();
        let (modulus, poisson) = (self.modulus().si(), self.poisson());
        let (mut times, mut stress) = (1.0, share.stress);
        for _ in 0..ROUNDS {
            let strength = self.strength(Length::from_metres(times * sheet.si()))?;
            let short = self.trial.wanted() * stress / strength.yield_strength.si();
            if short <= 1.0 && short > 1.0 - RIGHT {
                break;
            }
            times *= libm::sqrt(short) * (1.0 + 0.25 * RIGHT);
            for (slab, part) in parts.iter().enumerate() {
                if picked(part.face) {
                    walls.resheet(slab, times * part.thickness, modulus, poisson);
                }
            }
            stress = 0.0;
            for load in 0..walls.loads.len() {
                walls.press(load);
                stress = libm::fmax(stress, walls.stress_of(share.face, poisson));
            }
        }
        for (slab, part) in parts.iter().enumerate() {
            walls.resheet(slab, part.thickness, modulus, poisson);
        }
        let strength = self.strength(Length::from_metres(times * sheet.si()))?;
        let short = self.trial.wanted() * stress / strength.yield_strength.si();
        Ok(sheet.si() * times * libm::fmax(1.0, short))
    }
}
