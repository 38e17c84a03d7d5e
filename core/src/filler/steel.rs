//! Marks of fillers on stainless and carbon steel.

use super::{FillerReason, Finding, Mark, fair, good, poor, ruled_out, strength};
use crate::tables::{Alloy, Family, Filler};

/// A finding for each criterion, in its order.
pub(super) fn findings(sheets: [Alloy; 2], filler: Option<Filler>) -> [Finding; 6] {
    let [base, other] = sheets;
    let like = filler.map(Filler::solid);
    let carbon = |sheet: Alloy| sheet.family() == Family::Steel;
    let carbons = (carbon(base), carbon(other));
    let molybdenum = |sheet: Alloy| matches!(sheet, Alloy::S316 | Alloy::S316L);
    let (cracking, corrosion) = match carbons {
        (false, false) => stainless(like, [molybdenum(base), molybdenum(other)]),
        (true, true) => (plain(like), fair(FillerReason::Rusts)),
        _ => (mixed(like), fair(FillerReason::Rusts)),
    };
    let bead = strength(sheets, filler);
    let bead = Finding {
        reason: match bead.reason {
            FillerReason::AsStrong => FillerReason::SteelStrong,
            FillerReason::Weaker => FillerReason::SteelWeaker,
            other => other,
        },
        ..bead
    };
    let ductility = if cracking.mark == Mark::Good {
        good(cracking.reason)
    } else {
        fair(cracking.reason)
    };
    [
        cracking,
        bead,
        ductility,
        corrosion,
        good(FillerReason::OtherSteels),
        good(FillerReason::OtherSteels),
    ]
}

/// Stainless on stainless: cracks, corrosion.
fn stainless(filler: Option<Filler>, molybdenum: [bool; 2]) -> (Finding, Finding) {
    let cracking = match filler {
        None => fair(FillerReason::StainlessUnfilled),
        Some(rod) if rod.family() == Family::Steel => ruled_out(FillerReason::SteelOnStainless),
        Some(Filler::Er309L) => fair(FillerReason::Overalloyed),
        Some(_) => good(FillerReason::MadeForIt),
    };
    let corrosion = match (filler, molybdenum) {
        (None | Some(Filler::Er316L), _) | (_, [false, false]) => good(FillerReason::MadeForIt),
        (_, [true, true]) => poor(FillerReason::LessMolybdenum),
        _ => fair(FillerReason::OneSideMolybdenum),
    };
    (cracking, corrosion)
}

/// Stainless on carbon steel.
fn mixed(filler: Option<Filler>) -> Finding {
    match filler {
        Some(Filler::Er309L) => good(FillerReason::MadeForBoth),
        Some(rod) if rod.family() == Family::Steel => ruled_out(FillerReason::SteelOnStainless),
        _ => ruled_out(FillerReason::Hardens),
    }
}

/// Carbon steel on carbon steel.
fn plain(filler: Option<Filler>) -> Finding {
    match filler {
        None => poor(FillerReason::NotDeoxidised),
        Some(rod) if rod.family() == Family::Steel => good(FillerReason::Deoxidised),
        Some(Filler::Er309L) => fair(FillerReason::Overalloyed),
        Some(_) => ruled_out(FillerReason::Hardens),
    }
}
