//! What is welded with: what the job says of it, and what is usual where it does not.

use seamwright_core::supply::{AllUse, Kit, KitChoice, KitDraft, KitError, SeamUse};
use seamwright_core::tank::Tank;
use seamwright_core::units::range::RangeError;

use crate::job_file::Extras;

/// Why nothing can be told.
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

pub(super) fn chosen(tank: &Tank, extras: &Extras) -> Result<KitChoice, Missing> {
    let supply = &extras.supply;
    let draft = KitDraft {
        filler: supply.filler,
        rod_diameter: supply.rod_diameter,
        rod_length: supply.rod_length,
        stub: supply.stub,
        waste: supply.waste,
        gas_flow: supply.gas_flow,
        pre_flow: supply.pre_flow,
        post_flow: supply.post_flow,
    };
    Ok(tank.kit(&draft)?)
}

pub(super) fn uses(tank: &Tank, kit: &Kit) -> Result<(Vec<SeamUse>, AllUse), RangeError> {
    let by_seam = tank.supplies(kit).collect::<Result<Vec<_>, _>>()?;
    Ok((by_seam, tank.supply_in_all(kit)?))
}
