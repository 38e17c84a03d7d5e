//! What is welded with: what the job says of it, and what is usual where it does not.

use seamwright_core::supply::{AllUse, KitChoice, KitDraft, KitError, SeamUse};
use seamwright_core::tables::Classified;
use seamwright_core::tank::Tank;
use seamwright_core::units::range::RangeError;

use super::Asked;
use super::model::{Section, said};
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
    // The wire that is used goes by its feed, said or published.
    let kit = &extras.supply.kit;
    let wire = tank.wire_arc(&extras.wire_arc, kit).transpose()?;
    let chosen = tank.kit(&KitDraft {
        wire_feed: wire.and_then(|wire| wire.feed),
        ..*kit
    })?;
    let by_seam = tank.supplies(&chosen.kit).collect::<Result<Vec<_>, _>>()?;
    let all = tank.supply_in_all(&chosen.kit)?;
    Ok(Taken {
        chosen,
        by_seam,
        all,
    })
}

/// The standards of a filler and the symbol in each.
pub(super) fn classified(classified: &Classified) -> String {
    let [en, symbol] = classified.en_iso;
    let [aws, class] = classified.aws;
    format!("{en}: {symbol}; {aws}: {class}")
}

/// The filler that is taken, as it is ordered.
pub(crate) fn section(asked: &Asked<'_>) -> Section {
    let mut section = Section::new("Filler to order");
    match taken(asked.tank, asked.extras) {
        Ok(Taken { chosen, .. }) => {
            let by = chosen.filler.classified(asked.tank.arc().process);
            section.fact(
                "ordered as",
                said(format!("{} (from memory)", classified(&by))),
            );
        }
        Err(missing) => section.line(missing.text()),
    }
    section
}
