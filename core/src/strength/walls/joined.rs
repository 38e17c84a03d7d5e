//! What the walls of a tank bear together, found once for all that is asked of them.

use super::super::error::StrengthError;
use super::bearing::Trial;
use super::drum_wall::Rims;
use super::judge::Judge;
use super::shared::Shares;
use crate::tank::Tank;

/// What the walls of a tank bear together: of flat ones the moments that their seams hand on, of a drum the elastic stress
/// of its ends and of the shell beside them. Some 3 KiB.
///
/// [`Tank::bearing`] and [`Tank::seam_bearing`] find it anew each time; whoever asks for more than one wall or seam finds
/// it once.
#[derive(Clone, Debug, PartialEq)]
pub struct JoinedWalls {
    trial: Trial,
    pub(super) shares: Shares,
    /// Of 1 Pa.
    pub(super) rims: Option<Rims>,
}

impl JoinedWalls {
    /// What they are tried with.
    #[must_use]
    pub const fn trial(&self) -> Trial {
        self.trial
    }
}

impl Tank {
    /// What its walls bear together.
    ///
    /// # Errors
    /// [`StrengthError`] where its metal or its load is not known.
    pub fn joined_walls(&self, trial: Trial) -> Result<JoinedWalls, StrengthError> {
        let judge = Judge::new(self, trial)?;
        Ok(JoinedWalls {
            trial,
            shares: judge.shares()?,
            rims: judge.rims(None),
        })
    }
}
