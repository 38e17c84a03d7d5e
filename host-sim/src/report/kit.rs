//! What is welded with: what the job says of it, and what is usual where it does not.

use seamwright_core::supply::filler::{DEPOSITION, Rod, RodDraft, STUB};
use seamwright_core::supply::gas::{Shield, USUAL_PRE_FLOW, usual_post_flow};
use seamwright_core::supply::{AllUse, Kit, SeamUse, WASTE};
use seamwright_core::tables::Filler;
use seamwright_core::tank::Tank;
use seamwright_core::units::flow::Flow;
use seamwright_core::units::refuse::Refused;
use seamwright_core::units::{Length, LengthUnit, Time};

use super::settings;
use crate::job_file::Extras;

/// A rod as it is sold: common practice, no source.
const USUAL_LENGTH: Length = Length::new(1.0, LengthUnit::Metre);

/// What is welded with, and which of it the job does not say.
pub(super) struct Chosen {
    pub(super) filler: Filler,
    pub(super) diameter: Length,
    pub(super) length: Length,
    pub(super) flow: Flow,
    pub(super) flows: [Time; 2],
    pub(super) kit: Kit,
    pub(super) assumed: Vec<(&'static str, &'static str)>,
}

/// What a tank takes of it.
pub(super) struct Taken {
    pub(super) chosen: Chosen,
    pub(super) by_seam: Vec<SeamUse>,
    pub(super) all: AllUse,
}

/// Why nothing can be told.
#[derive(Clone)]
pub(super) enum Missing {
    /// The key to give.
    Key(&'static str),
    Refused(Refused),
}

impl From<Refused> for Missing {
    fn from(refused: Refused) -> Self {
        Self::Refused(refused)
    }
}

impl Missing {
    pub(super) fn text(&self) -> String {
        match self {
            Self::Key(key) => {
                format!("not known: give {key}, for which nothing is published for this sheet")
            }
            Self::Refused(refused) => format!("not known: {refused}"),
        }
    }
}

fn chosen(tank: &Tank, extras: &Extras) -> Result<Chosen, Missing> {
    let supply = &extras.supply;
    let mut assumed = Vec::new();
    let mut note = |key, source| assumed.push((key, source));
    let best = || {
        let all = tank.fillers().ok()?;
        all.iter()
            .find_map(|verdict| verdict.filler.filter(|_| !verdict.ruled_out()))
    };
    let filler = match supply.filler {
        Some(filler) => filler,
        None => {
            note("filler", "the best of those judged");
            best().ok_or(Missing::Key("supply.filler"))?
        }
    };
    let diameter = match supply.rod_diameter {
        Some(diameter) => diameter,
        None => {
            note("rod_diameter", "the largest that is suggested");
            settings::usual_rod(tank).ok_or(Missing::Key("supply.rod_diameter"))?
        }
    };
    let length = supply.rod_length.unwrap_or_else(|| {
        note("rod_length", "common practice, no source");
        USUAL_LENGTH
    });
    let stub = supply.stub.unwrap_or_else(|| {
        note(
            "stub",
            "50 mm of 1 m (from memory), at most half of the rod",
        );
        if STUB.si() > 0.5 * length.si() {
            Length::from_metres(0.5 * length.si())
        } else {
            STUB
        }
    });
    let waste = supply.waste.unwrap_or_else(|| {
        note("waste", "common practice, no source");
        WASTE
    });
    let flow = match supply.gas_flow {
        Some(flow) => flow,
        None => {
            note("gas_flow", "the middle of what is suggested");
            settings::usual_flow(tank).ok_or(Missing::Key("supply.gas_flow"))?
        }
    };
    let pre = supply.pre_flow.unwrap_or_else(|| {
        note("pre_flow", "common practice, no source");
        USUAL_PRE_FLOW
    });
    let post = supply.post_flow.unwrap_or_else(|| {
        note(
            "post_flow",
            "a second for each 10 A, at least 8 s: common practice, no source",
        );
        usual_post_flow(tank.arc().current)
    });
    let rod = Rod::new(&RodDraft {
        diameter,
        length,
        stub,
        density: filler.density().value,
        deposition: DEPOSITION,
    })?;
    let shield = Shield::new(flow, pre, post)?;
    Ok(Chosen {
        filler,
        diameter,
        length,
        flow,
        flows: [pre, post],
        kit: Kit { rod, waste, shield },
        assumed,
    })
}

pub(super) fn taken(tank: &Tank, extras: &Extras) -> Result<Taken, Missing> {
    let chosen = chosen(tank, extras)?;
    let by_seam = tank.supplies(&chosen.kit).collect::<Result<Vec<_>, _>>()?;
    let all = tank.supply_in_all(&chosen.kit)?;
    Ok(Taken {
        chosen,
        by_seam,
        all,
    })
}
