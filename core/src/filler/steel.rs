//! Marks of fillers on stainless and carbon steel.

use super::{Finding, Mark, Reason, fair, good, poor, ruled_out, strength};
use crate::tables::{Alloy, Family, Filler};

/// A finding for each criterion, in its order.
pub(super) fn findings(sheets: [Alloy; 2], filler: Option<Filler>) -> [Finding; 6] {
    let [base, other] = sheets;
    let carbon = |sheet: Alloy| sheet.family() == Family::Steel;
    let carbons = (carbon(base), carbon(other));
    let molybdenum = |sheet: Alloy| matches!(sheet, Alloy::S316 | Alloy::S316L);
    let (cracking, corrosion) = match carbons {
        (false, false) => stainless(filler, [molybdenum(base), molybdenum(other)]),
        (true, true) => (plain(filler), fair(Reason::Rusts)),
        _ => (mixed(filler), fair(Reason::Rusts)),
    };
    let bead = strength(sheets, filler);
    let bead = Finding {
        reason: match bead.reason {
            Reason::AsStrong => Reason::SteelStrong,
            Reason::Weaker => Reason::SteelWeaker,
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
        good(Reason::OtherSteels),
        good(Reason::OtherSteels),
    ]
}

/// Stainless on stainless: cracks, corrosion.
fn stainless(filler: Option<Filler>, molybdenum: [bool; 2]) -> (Finding, Finding) {
    let cracking = match filler {
        None => fair(Reason::StainlessUnfilled),
        Some(rod) if rod.family() == Family::Steel => ruled_out(Reason::SteelOnStainless),
        Some(Filler::Er309L) => fair(Reason::Overalloyed),
        Some(_) => good(Reason::MadeForIt),
    };
    let corrosion = match (filler, molybdenum) {
        (None | Some(Filler::Er316L), _) | (_, [false, false]) => good(Reason::MadeForIt),
        (_, [true, true]) => poor(Reason::LessMolybdenum),
        _ => fair(Reason::OneSideMolybdenum),
    };
    (cracking, corrosion)
}

/// Stainless on carbon steel.
fn mixed(filler: Option<Filler>) -> Finding {
    match filler {
        Some(Filler::Er309L) => good(Reason::MadeForBoth),
        Some(rod) if rod.family() == Family::Steel => ruled_out(Reason::SteelOnStainless),
        _ => ruled_out(Reason::Hardens),
    }
}

/// Carbon steel on carbon steel.
fn plain(filler: Option<Filler>) -> Finding {
    match filler {
        None => poor(Reason::NotDeoxidised),
        Some(rod) if rod.family() == Family::Steel => good(Reason::Deoxidised),
        Some(Filler::Er309L) => fair(Reason::Overalloyed),
        Some(_) => ruled_out(Reason::Hardens),
    }
}
