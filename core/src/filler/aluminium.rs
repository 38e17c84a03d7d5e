//! Marks of fillers on aluminium.

use super::{
    Cracking, Finding, Reason, Service, WARM_MAGNESIUM, WeldMetal, fair, good, poor, ruled_out,
    strength,
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
    service: &Service,
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
            _ if heat_treatable(sheet) => ruled_out(Reason::HeatTreatedUnfilled),
            Cracking::Sensitive => ruled_out(Reason::HotShortUnfilled),
            // The sheet of a pair that is in the range by itself cracks at its own edge.
            _ if (AL_MG..=NO_SILICON).contains(&mg) => ruled_out(Reason::HotShortUnfilled),
            Cracking::Near => poor(Reason::WeldMetalNear),
            Cracking::Clear | Cracking::Plain => fair(Reason::PlainUnfilled),
        };
    };
    if filler.is_silicon() && mg > NO_SILICON {
        return ruled_out(Reason::SiliconOnMagnesium);
    }
    if filler == Filler::R1100 && (mg >= LINE || heat_treatable(sheet)) {
        return ruled_out(Reason::PureOnAlloyed);
    }
    let by_chemistry = match chemistry {
        Cracking::Clear => good(Reason::WeldMetalClear),
        Cracking::Plain => fair(Reason::WeldMetalPlain),
        Cracking::Near => fair(Reason::WeldMetalNear),
        Cracking::Sensitive => poor(Reason::WeldMetalCracks),
    };
    if filler.is_magnesium() && heat_treatable(sheet) {
        by_chemistry.or(fair(Reason::MagnesiumOnHeatTreated))
    } else if filler.is_silicon() && mg >= LINE {
        by_chemistry.or(fair(Reason::SiliconOnTheLine))
    } else {
        by_chemistry
    }
}

fn ductility(sheet: Alloy, filler: Option<Filler>) -> Finding {
    match filler {
        None => fair(Reason::StretchesLess),
        Some(Filler::R4047) => poor(Reason::MuchSilicon),
        Some(Filler::R4043) if magnesium(sheet) >= LINE => poor(Reason::SiliconOnTheLine),
        Some(Filler::R4043) => fair(Reason::SiliconStretch),
        Some(Filler::R5356 | Filler::R5554) if !unalloyed(sheet) => good(Reason::Stretches),
        Some(Filler::R1100) if unalloyed(sheet) => good(Reason::Stretches),
        Some(_) => fair(Reason::StretchesLess),
    }
}

fn corrosion(sheet: Alloy, filler: Option<Filler>) -> Finding {
    let mg = magnesium(sheet);
    let Some(filler) = filler else {
        return good(Reason::Matched);
    };
    let matched = if heat_treatable(sheet) {
        filler.is_silicon()
    } else if unalloyed(sheet) {
        filler == Filler::R1100
    } else {
        if filler.is_silicon() && mg >= LINE {
            return poor(Reason::SiliconOnAlMg);
        }
        let apart = filler.magnesium().value.si() - mg;
        (-MATCH..=MATCH).contains(&apart)
    };
    if matched {
        good(Reason::Matched)
    } else {
        fair(Reason::Unmatched)
    }
}

fn temperature(sheet: Alloy, filler: Option<Filler>, service: &Service) -> Finding {
    if service.temperature.is_none() {
        return good(Reason::NotAsked);
    }
    if !service.is_warm() {
        return good(Reason::Cool);
    }
    let of_filler = filler.map_or(0.0, |filler| filler.magnesium().value.si());
    if of_filler > WARM_MAGNESIUM {
        return ruled_out(Reason::WarmFiller);
    }
    match magnesium(sheet) {
        mg if mg > BORDER => poor(Reason::WarmSheet),
        mg if mg > WARM_MAGNESIUM => fair(Reason::WarmSheetBorder),
        _ => good(Reason::WarmSafe),
    }
}

fn colour(sheet: Alloy, filler: Option<Filler>, service: &Service) -> Finding {
    if !service.anodised {
        return good(Reason::NotAsked);
    }
    match filler {
        None => good(Reason::ColourMatches),
        Some(rod) if rod.is_silicon() => poor(Reason::ColourGrey),
        Some(Filler::R5356 | Filler::R5554) if !unalloyed(sheet) => good(Reason::ColourMatches),
        Some(Filler::R1100) if unalloyed(sheet) => good(Reason::ColourMatches),
        Some(_) => fair(Reason::ColourNear),
    }
}
