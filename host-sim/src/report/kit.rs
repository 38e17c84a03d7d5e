//! What is welded with: what the job says of it, and what is usual where it does not.

use seamwright_core::supply::{AllUse, KitChoice, KitError, SeamUse};
use seamwright_core::tank::Tank;
use seamwright_core::units::range::RangeError;

use crate::job_file::Extras;

/// What a tank takes of rod and gas.
pub(super) struct Taken {
    pub(super) chosen: KitChoice,
    pub(super) by_seam: Vec<SeamUse>,
    pub(super) all: AllUse,
}

/// Why nothing can be told.
#[derive(Clone)]
pub(super) struct Missing(KitError);

impl From<KitError> for Missing {
    fn from(error: KitError) -> Self {
        Self(error)
    }
}

impl From<RangeError> for Missing {
    fn from(error: RangeError) -> Self {
        Self(error.into())
    }
}

impl Missing {
    pub(super) fn text(&self) -> String {
        format!("not known: {}", self.0)
    }
}

pub(super) fn taken(tank: &Tank, extras: &Extras) -> Result<Taken, Missing> {
    let chosen = tank.kit(&extras.supply.kit)?;
    let by_seam = tank.supplies(&chosen.kit).collect::<Result<Vec<_>, _>>()?;
    let all = tank.supply_in_all(&chosen.kit)?;
    Ok(Taken {
        chosen,
        by_seam,
        all,
    })
}
