//! Replies that between them use every kind of everything a gauge can send.

use seamwright_core::blank::{Making, PanelMark};
use seamwright_core::capacity::Lean;
use seamwright_core::input::{Face, Field, Joint};
use seamwright_core::seam::SeamMark;
use seamwright_core::tank::{JobError, Problem, Tank};
use seamwright_core::wire::{Fault, Reply, SeamReport, Status, summary};

use super::drafts::{FACES, example};
use super::errors::{FIELDS, problems};
use super::mm;

/// The header tank with one edge folded, so that there is a seam without tacks and stitches.
fn tank() -> Tank {
    let mut draft = example("header-tank");
    draft.joints.folds.clear();
    draft.joints.folds.extend([[Face::Front, Face::Bottom]]);
    Tank::build(&draft).unwrap()
}

/// Seams by fours, one for each joint and one that is folded.
fn seams(tank: &Tank) -> Vec<Reply> {
    let marked = |seam| {
        let mut report = SeamReport::of(tank, seam);
        report.seam.mark = SeamMark {
            panels: [PanelMark::at(129), PanelMark::at(130)],
            number: 131,
        };
        report
    };
    let fold = tank.seams().find(|seam| !seam.welded).map(marked).unwrap();
    assert_eq!(
        (fold.tacks, fold.stitches, fold.seam.joint),
        (None, None, None)
    );
    let welded = tank.seams().find(|seam| seam.welded).map(marked).unwrap();
    let mut reports: Vec<_> = Joint::ALL
        .map(|joint| {
            let mut report = welded;
            report.seam.joint = Some(joint);
            report.tacks.as_mut().unwrap().count = 9_999;
            report.stitches.as_mut().unwrap().count = 256;
            report
        })
        .into();
    reports.push(fold);
    reports
        .chunks(4)
        .map(|four| Reply::Seams(four.iter().copied().collect()))
        .collect()
}

/// A panel of every making.
fn panels(tank: &Tank) -> Reply {
    let first = tank.panels().next().unwrap();
    let made = |making| {
        let mut panel = first.clone();
        panel.mark = PanelMark::at(131);
        panel.making = making;
        panel.faces = FACES.into_iter().collect();
        panel
    };
    let makings = [Making::Flat, Making::Bent, Making::Rolled, Making::Dished];
    Reply::Panels(makings.into_iter().map(made).collect())
}

/// Numbers here are past 127 where a whole number is, or a byte could not be told from a varint.
pub(crate) fn replies() -> Vec<Reply> {
    let tank = tank();
    let mut summary = summary(&tank);
    (summary.totals.tacks, summary.totals.stitches) = (70_000, 300);
    (summary.panels, summary.seams) = (216, 240);
    let mut replies = vec![
        Reply::Hello {
            protocol: 300,
            board: "bench".try_into().unwrap(),
            version: "0.1.0".try_into().unwrap(),
        },
        Reply::Kept { place: 205 },
        Reply::ShelfFull { most: 206 },
        Reply::Forgot,
        Reply::Computed(summary),
        panels(&tank),
        Reply::Panels(tank.panels().take(4).collect()),
        Reply::Seams(
            tank.seams()
                .take(4)
                .map(|seam| SeamReport::of(&tank, seam))
                .collect(),
        ),
        Reply::Level(Some(tank.pool(Lean::LEVEL).at(mm(50.0)).unwrap())),
        Reply::Level(None),
        Reply::NothingHeld,
        Reply::Ordered { steps: 256 },
        Reply::Status(Status {
            events: 1_000,
            redraws: 2_000,
            last_redraw_bytes: 300,
            display_bytes: 4_000_000_000,
            last_redraw_ticks: 5_000,
            last_compute_ticks: 6_000,
            stack_high_water: 7_000,
            stack_size: 8_000,
            link_lost: 9_000,
        }),
    ];
    replies.extend(seams(&tank));
    let unread = [
        Fault::TooLong,
        Fault::Packing,
        Fault::Checksum,
        Fault::Unknown,
    ];
    replies.extend(unread.map(Reply::Unread));
    let field = Field::Shape;
    replies.extend(
        problems()
            .into_iter()
            .map(|problem| Reply::Refused(JobError { field, problem })),
    );
    let problem = Problem::Unnamed;
    replies.extend(FIELDS.map(|field| Reply::Refused(JobError { field, problem })));
    replies
}
