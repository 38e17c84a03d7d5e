//! What a report tells of the work on a tank: settings, ratings, the bill, charts, the weakest seam, notices.

use core::hint::black_box;

use seamwright_core::advice::process::ProcessWork;
use seamwright_core::advice::work::Work;
use seamwright_core::arc::Equipment;
use seamwright_core::capacity::{Calibration, DipStep, Lean};
use seamwright_core::strength::Trial;
use seamwright_core::supply::cost::Prices;
use seamwright_core::supply::{BillDraft, KitDraft};
use seamwright_core::tank::{OwnSettings, Tank};
use seamwright_core::units::{Length, Ratio, Time, Volume};
use seamwright_core::weld::WeldPlan;

/// Reaches all of it for one tank.
pub(crate) fn prove(tank: &Tank) {
    let own = black_box(OwnSettings::default());
    for group in tank.seam_groups() {
        black_box(tank.seam_settings(group, &own));
        black_box(tank.seams_in(group).count());
    }
    charts(tank);
    black_box((
        tank.cautions(),
        tank.leak_test_cautions(None, black_box(true)),
    ));
    black_box((tank.sheet_area(), tank.over_all(), tank.passages().count()));
    black_box((tank.is_too_cold(), tank.interpass_choice()));
    let _ = black_box(tank.weakest_seam(black_box(Trial::Use)));
    let _ = black_box(tank.full_mount_loads());
    if let Ok(field) = tank.field_about_seam(black_box(Ratio::from_share(0.4))) {
        let _ = black_box((field.molten_width(), field.relative_thickness()));
        black_box(field.reach(black_box(tank.interpass_max())));
    }
    for stitch in tank.seam_stitches() {
        black_box(stitch);
    }
    let equipment = black_box(Equipment::default());
    if let Ok(chosen) = tank.kit(&black_box(KitDraft::default()))
        && let Ok(used) = tank.supply_in_all(&chosen.kit)
    {
        let _ = black_box(tank.bill(&BillDraft {
            used: &used,
            equipment: &equipment,
            plan: None,
            larger: &[],
            other: black_box(Time::from_seconds(600.0)),
            purge: black_box(Volume::from_cubic_metres(0.1)),
            purging: black_box(Time::from_seconds(300.0)),
            prices: Some(black_box(Prices::default())),
        }));
    }
}

/// What its plan calls for.
pub(crate) fn prove_notices(tank: &Tank, plan: &WeldPlan, equipment: &Equipment) {
    let work = Work {
        equipment,
        filler: black_box(None),
        plan: Some(plan),
        left_free: &[],
        reach: None,
        process: black_box(ProcessWork::default()),
        bears: None,
        stands: None,
    };
    tank.each_work_notice(&work, |notice| {
        black_box(notice.code());
    });
}

fn charts(tank: &Tank) {
    let Ok(scale) = tank.dip_scale(black_box(Lean::LEVEL)) else {
        return;
    };
    let calibration = black_box(Calibration::NONE);
    for step in [
        DipStep::Reading(Length::from_metres(0.01)),
        DipStep::Volume(Volume::from_cubic_metres(1e-3)),
    ] {
        let step = black_box(step);
        for mark in scale.marks(step).into_iter().flatten() {
            black_box(mark);
        }
        let right = scale.marks_set_right(step, &calibration);
        for mark in right.into_iter().flatten() {
            black_box(mark);
        }
    }
}
