//! Baffles that cannot be cut or bent as the job says.

use seamwright_core::fitting::{CutFault, PlaceError, RoomError};
use seamwright_core::input::Field;

use super::super::reader::called;
use super::{Given, path, short};
use crate::diagnostics::Problem;

impl Given<'_> {
    /// A baffle that cannot be cut as the job says, shown at the key that says so.
    pub(super) fn cut(&self, field: Field, error: &PlaceError) -> Problem {
        let PlaceError::Room(RoomError::Cut { fault, limit }) = *error else {
            return Problem::new(self.place(&path(field)), error.to_string());
        };
        let table = path(field);
        let limit = short(limit);
        let is_flange = is_of_flange(fault);
        let (key, label, help) = match fault {
            CutFault::Clearance => (
                "clearance".to_owned(),
                format!("half of its width, {limit}, or more"),
                format!("write less than {limit}: a millimetre or two lets a baffle in"),
            ),
            CutFault::Level => (
                "gap_below".to_owned(),
                "a level baffle has no below and above".to_owned(),
                "leave it open by holes or notches".to_owned(),
            ),
            CutFault::Gaps => (
                "gap_below".to_owned(),
                format!("nothing is left of its {limit} of height"),
                format!(
                    "`gap_below`, `gap_above` and twice the clearance together must be less than {limit}"
                ),
            ),
            CutFault::Parted => (
                "gap_below".to_owned(),
                "what is left is in more than one piece".to_owned(),
                "leave less open, or cut it open by holes and notches".to_owned(),
            ),
            CutFault::Corner => (
                "corner_notch".to_owned(),
                format!("larger than its side takes; less than {limit}"),
                format!("write less than {limit}"),
            ),
            CutFault::Bend => (
                "corner_notch".to_owned(),
                format!("ends within the bend; at least {limit}"),
                format!(
                    "write {limit} or more, or leave it out: the corner is round as the bend is"
                ),
            ),
            CutFault::Round => (
                "corner_notch".to_owned(),
                "a round baffle has no corners".to_owned(),
                "cut it a [[baffle.notch]] at its rim, or leave a gap".to_owned(),
            ),
            CutFault::Wide(notch) => (
                format!("notch.{notch}.width"),
                format!("wider than the straight side there takes; less than {limit}"),
                format!("write less than {limit}, or move it along its wall"),
            ),
            CutFault::Deep(notch) => (
                format!("notch.{notch}.depth"),
                "it runs out of the plate, or into another".to_owned(),
                "make it less deep, or move it".to_owned(),
            ),
            CutFault::Plugs(wall) => (
                format!("plugs.{wall}"),
                format!("no straight edge at the {wall} with room for a plug weld: {limit}"),
                "a plug wants three of its diameters: hold that edge otherwise".to_owned(),
            ),
            CutFault::NoPlugs(wall) => (
                format!("plugs.{wall}"),
                format!("it does not meet the {wall}, or is left free of it"),
                "name a wall that it meets, and name it once".to_owned(),
            ),
            CutFault::PlugAtFitting(wall, fitting) => (
                format!("plugs.{wall}"),
                format!("a plug of {limit} would lie at the hole of fitting {fitting}"),
                "move the fitting or the baffle, or hold that edge otherwise".to_owned(),
            ),
            CutFault::Corners => (
                "corner_notch".to_owned(),
                "more than twelve corners".to_owned(),
                "an outline may have twelve corners, and each notch takes some: leave some out"
                    .to_owned(),
            ),
            flange => flange_fault(flange, &limit),
        };
        // Of two gaps the one that the job gives; else the baffle as a whole.
        let others = if is_flange {
            ["flange"; 2]
        } else {
            ["gap_above", "notch.1"]
        };
        let at = core::iter::once(key.as_str())
            .chain(others)
            .find_map(|key| self.spans.exact(&format!("{table}.{key}")))
            .unwrap_or_else(|| self.place(&table));
        Problem::new(at, format!("{} cannot be cut so", called(&table)))
            .label(label)
            .help(help)
    }
}

/// Whether a fault is one of flanges.
const fn is_of_flange(fault: CutFault) -> bool {
    matches!(
        fault,
        CutFault::FlangeShort
            | CutFault::FlangeLong(_)
            | CutFault::FlangeLongOpen
            | CutFault::FlangeOnBaffle(..)
            | CutFault::FlangeOnFitting(..)
            | CutFault::FlangeNarrow(_)
            | CutFault::FlangeHole(_)
            | CutFault::FlangeLeans(_)
            | CutFault::FlangeNowhere(_)
            | CutFault::FlangeNoGap(_)
            | CutFault::FlangePlugged(_)
            | CutFault::FlangeRound
    )
}

/// What of a baffle's flanges does not fit: at which key, what is wrong there, and what to do.
fn flange_fault(fault: CutFault, limit: &str) -> (String, String, String) {
    let width = || "flange".to_owned();
    let at_most = |what: String| {
        let help = format!(
            "write {limit} or less, move the baffle, bend the flanges to the other side with `flange_side`, or leave that edge out of `flanged`"
        );
        (width(), what, help)
    };
    match fault {
        CutFault::FlangeShort => (
            width(),
            format!("no wider than its bend, which takes {limit}"),
            format!("write more than {limit}: three or four thicknesses more lie flat"),
        ),
        CutFault::FlangeLong(wall) => at_most(format!(
            "wider than there is room for on the {wall}: {limit} at most"
        )),
        CutFault::FlangeLongOpen => at_most(format!(
            "wider than there is room for over the opening: {limit} at most"
        )),
        CutFault::FlangeOnBaffle(wall, other) => at_most(format!(
            "on the {wall} it runs into baffle {other}: {limit} at most"
        )),
        CutFault::FlangeOnFitting(wall, other) => at_most(format!(
            "on the {wall} it runs into fitting {other}: {limit} at most"
        )),
        CutFault::FlangeNarrow(wall) => (
            wall.map_or_else(width, |wall| format!("flanged.{wall}")),
            format!(
                "the edge {} is too short: less than {limit} is left between the ends of its flange",
                wall.map_or("over the opening".to_owned(), |wall| format!(
                    "at the {wall}"
                ))
            ),
            "leave that edge out of `flanged`".to_owned(),
        ),
        CutFault::FlangeHole(hole) => (
            format!("hole.{hole}.at"),
            format!("it reaches {limit} into the bend of a flange, or past it"),
            format!("move it in by {limit} and rather two thicknesses more, or make it smaller"),
        ),
        CutFault::FlangeLeans(wall) => (
            format!("flanged.{wall}"),
            format!(
                "the {wall} is round, or does not stand square to the baffle: no flange lies flat there"
            ),
            "list in `flanged` the edges at walls that stand square to it".to_owned(),
        ),
        CutFault::FlangePlugged(wall) => (
            format!("plugs.{wall}"),
            format!("a flange lies along the {wall}, and is welded there along its free edge"),
            "leave that wall out of `plugs`, or list in `flanged` the other edges".to_owned(),
        ),
        CutFault::FlangeNowhere(wall) => (
            format!("flanged.{wall}"),
            format!("the baffle has no straight edge at the {wall}"),
            "name walls that it meets; an edge over what is left open is gap_below or gap_above"
                .to_owned(),
        ),
        CutFault::FlangeNoGap(above) => {
            let gap = if above { "gap_above" } else { "gap_below" };
            (
                format!("flanged.{gap}"),
                format!("it has no straight edge there without a {gap}"),
                format!("write a {gap}, or name the wall"),
            )
        }
        _ => (
            width(),
            "in a drum no edge of a baffle is straight along a wall".to_owned(),
            "leave `flange` out, or weld the disc round its rim".to_owned(),
        ),
    }
}
