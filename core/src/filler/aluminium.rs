//! Marks of fillers on aluminium.

use super::{
    Cracking, FillerReason, FillerService, Finding, WARM_MAGNESIUM, WeldMetal, fair, good, poor,
    ruled_out, strength,
};
use crate::tables::{Alloy, Filler};

/// More magnesium than this in the sheet and silicon filler is forbidden; from `LINE` on it is second
/// choice: Mathers (2002), p. 49, has "more than 2 to 2.5 %".
const NO_SILICON: f64 = 0.025;
const LINE: f64 = 0.02;
/// Makes of Al-Mg within this of each other count as matched. Chosen so that the columns of Mathers, table
/// 3.3, come out.
const MATCH: f64 = 0.008;
/// From here on an Al-Mg sheet has its own corrosion class; 1xxx and 3xxx have less. Chosen between 3103
/// and 5005.
const AL_MG: f64 = 0.005;
/// A sheet whose nominal magnesium is over the limit by this little may as well be under it: 5754.
const BORDER: f64 = 0.035;

fn magnesium(alloy: Alloy) -> f64 {
    alloy.metal().magnesium().value.nominal.si()
}

fn heat_treatable(alloy: Alloy) -> bool {
    alloy.metal().heat_treatable()
}

/// 1xxx and 3xxx.
fn unalloyed(alloy: Alloy) -> bool {
    magnesium(alloy) < AL_MG && !heat_treatable(alloy)
}

/// A finding for each criterion, in its order.
pub(super) fn findings(
    sheets: [Alloy; 2],
    filler: Option<Filler>,
    metal: WeldMetal,
    service: &FillerService,
) -> [Finding; 6] {
    let [base, other] = sheets;
    let worse = |judge: &dyn Fn(Alloy) -> Finding| judge(base).or(judge(other));
    [
        worse(&|sheet| cracking(sheet, filler, metal)),
        strength(sheets, filler),
        worse(&|sheet| ductility(sheet, filler)),
        worse(&|sheet| corrosion(sheet, filler)),
        worse(&|sheet| temperature(sheet, filler, service)),
        worse(&|sheet| colour(sheet, filler, service)),
    ]
}

fn cracking(sheet: Alloy, filler: Option<Filler>, metal: WeldMetal) -> Finding {
    let mg = magnesium(sheet);
    let chemistry = metal.cracking();
    let Some(filler) = filler else {
        return match chemistry {
            _ if heat_treatable(sheet) => ruled_out(FillerReason::HeatTreatedUnfilled),
            Cracking::Sensitive => ruled_out(FillerReason::HotShortUnfilled),
            // The sheet of a pair that is in the range by itself cracks at its own edge.
            _ if (AL_MG..=NO_SILICON).contains(&mg) => ruled_out(FillerReason::HotShortUnfilled),
            Cracking::Near => poor(FillerReason::WeldMetalNear),
            Cracking::Clear | Cracking::Plain => fair(FillerReason::PlainUnfilled),
        };
    };
    if filler.is_silicon() && mg > NO_SILICON {
        return ruled_out(FillerReason::SiliconOnMagnesium);
    }
    if filler == Filler::R1100 && (mg >= LINE || heat_treatable(sheet)) {
        return ruled_out(FillerReason::PureOnAlloyed);
    }
    let by_chemistry = match chemistry {
        Cracking::Clear => good(FillerReason::WeldMetalClear),
        Cracking::Plain => fair(FillerReason::WeldMetalPlain),
        Cracking::Near => fair(FillerReason::WeldMetalNear),
        Cracking::Sensitive => poor(FillerReason::WeldMetalCracks),
    };
    if filler.is_magnesium() && heat_treatable(sheet) {
        by_chemistry.or(fair(FillerReason::MagnesiumOnHeatTreated))
    } else if filler.is_silicon() && mg >= LINE {
        by_chemistry.or(fair(FillerReason::SiliconOnTheLine))
    } else {
        by_chemistry
    }
}

fn ductility(sheet: Alloy, filler: Option<Filler>) -> Finding {
    match filler {
        None => fair(FillerReason::StretchesLess),
        Some(Filler::R4047) => poor(FillerReason::MuchSilicon),
        Some(Filler::R4043) if magnesium(sheet) >= LINE => poor(FillerReason::SiliconOnTheLine),
        Some(Filler::R4043) => fair(FillerReason::SiliconStretch),
        Some(Filler::R5356 | Filler::R5554) if !unalloyed(sheet) => good(FillerReason::Stretches),
        Some(Filler::R1100) if unalloyed(sheet) => good(FillerReason::Stretches),
        Some(_) => fair(FillerReason::StretchesLess),
    }
}

fn corrosion(sheet: Alloy, filler: Option<Filler>) -> Finding {
    let mg = magnesium(sheet);
    let Some(filler) = filler else {
        return good(FillerReason::Matched);
    };
    let matched = if heat_treatable(sheet) {
        filler.is_silicon()
    } else if unalloyed(sheet) {
        filler == Filler::R1100
    } else {
        if filler.is_silicon() && mg >= LINE {
            return poor(FillerReason::SiliconOnAlMg);
        }
        let apart = filler.magnesium().value.si() - mg;
        (-MATCH..=MATCH).contains(&apart)
    };
    if matched {
        good(FillerReason::Matched)
    } else {
        fair(FillerReason::Unmatched)
    }
}

fn temperature(sheet: Alloy, filler: Option<Filler>, service: &FillerService) -> Finding {
    if service.temperature.is_none() {
        return good(FillerReason::NotAsked);
    }
    if !service.is_warm() {
        return good(FillerReason::Cool);
    }
    let of_filler = filler.map_or(0.0, |filler| filler.magnesium().value.si());
    if of_filler > WARM_MAGNESIUM {
        return ruled_out(FillerReason::WarmFiller);
    }
    match magnesium(sheet) {
        mg if mg > BORDER => poor(FillerReason::WarmSheet),
        mg if mg > WARM_MAGNESIUM => fair(FillerReason::WarmSheetBorder),
        _ => good(FillerReason::WarmSafe),
    }
}

fn colour(sheet: Alloy, filler: Option<Filler>, service: &FillerService) -> Finding {
    if !service.anodised {
        return good(FillerReason::NotAsked);
    }
    match filler {
        None => good(FillerReason::ColourMatches),
        Some(rod) if rod.is_silicon() => poor(FillerReason::ColourGrey),
        Some(Filler::R5356 | Filler::R5554) if !unalloyed(sheet) => {
            good(FillerReason::ColourMatches)
        }
        Some(Filler::R1100) if unalloyed(sheet) => good(FillerReason::ColourMatches),
        Some(_) => fair(FillerReason::ColourNear),
    }
}
