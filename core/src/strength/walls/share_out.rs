//! What the walls of a tank bear together, load by load; what pressure they take, and what sheet would mend them.

use super::super::elastic::SHAKEN_DOWN;
use super::super::error::StrengthError;
use super::super::plate::MOST_MORE_EASED;
use super::bearing::TEST_RESERVE;
use super::joined::{Shares, WallShare};
use super::judge::Judge;
use super::shared::Walls;
use crate::input::Face;
use crate::units::Length;

/// An outline that fills this share of its rectangle is one.
const RECTANGLE: f64 = 0.999;
/// How often the sheet that mends a wall, or the pressure that one takes, is set right at the most.
const ROUNDS: u8 = 10;
/// Nearer than this share it is right.
const RIGHT: f64 = 1e-3;
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

    /// How much of what it may bear in a test each wall does under an even pressure; and the most of them.
    fn used(
        &self,
        walls: &mut Walls,
        shares: &mut Shares,
        pressure: f64,
    ) -> Result<f64, StrengthError> {
        walls.press_evenly(pressure);
        for share in &mut shares.walls {
            share.used = 0.0;
        }
        let mut lacking = None;
        shares.swept = [0.0; 2];
        walls.each(self.poisson(), |part, borne| {
            let sheet = self.tank.job.thickness_of(part.face);
            match self.strength(sheet) {
                Ok(strength) => {
                    let allowed = strength.yield_strength.si();
                    let used = libm::fmax(
                        TEST_RESERVE * borne.stress / allowed,
                        borne.hole / (SHAKEN_DOWN * allowed),
                    );
                    if let Some(share) = shares.wall_of(part.face) {
                        share.used = libm::fmax(share.used, used);
                    }
                }
                Err(error) => lacking = Some(error),
            }
            let [stretched, bent] = &mut shares.swept;
            *stretched += borne.swept[0] / pressure;
            *bent += borne.swept[1] / pressure;
        });
        match lacking {
            Some(error) => Err(error),
            None => Ok(shares
                .walls
                .iter()
                .map(|share| share.used)
                .fold(0.0, libm::fmax)),
        }
    }

    /// Finds the even pressure that leaves the weakest wall what a test wants; of the others no more than what they take
    /// for sure, since stress grows with pressure at most [`MOST_MORE_EASED`] times as much as in a straight line.
    fn takes(&self, walls: &mut Walls, shares: &mut Shares) -> Result<(), StrengthError> {
        let mut pressure = 1.0;
        let mut most = self.used(walls, shares, pressure)?;
        for _ in 0..ROUNDS {
            if libm::fabs(most - 1.0) < RIGHT || !(most > 0.0) {
                break;
            }
            let next = libm::fmin(pressure / most, MOST);
            if next >= MOST && pressure >= MOST {
                break;
            }
            pressure = next;
            most = self.used(walls, shares, pressure)?;
        }
        let sure = libm::fmin(pressure * (1.0 - RIGHT) / libm::fmax(1.0, most), MOST);
        for share in &mut shares.walls {
            let straight = pressure / (MOST_MORE_EASED * share.used);
            share.takes = libm::fmin(libm::fmax(sure, straight), MOST);
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
