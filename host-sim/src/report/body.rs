//! The tank: its size, its sheet and what it displaces.

use seamwright_core::input::{Ends, Shape, Sized};
use seamwright_core::tank::Tank;
use seamwright_core::units::Length;

use super::Units;
use super::model::{Cell, Section, said};

pub(super) fn section(tank: &Tank, units: Units) -> Section {
    let (job, body) = (tank.job(), tank.body());
    let temper = job
        .temper()
        .map(|temper| format!(" {temper}"))
        .unwrap_or_default();
    let own: String = tank
        .panels()
        .filter(|panel| panel.thickness != job.thickness())
        .map(|panel| format!("; {} {}", panel.face(), units.thickness(panel.thickness)))
        .collect();
    let sheet = format!(
        "{}{temper}, {}{own}",
        job.alloy(),
        units.thickness(job.thickness())
    );
    let centroid = body.inside.centroid();
    let volume = Cell::of("outside_m3", body.outside.volume(), units, Units::volume);
    let over_all = tank.over_all().map(|length| units.length(length));
    let mut section = Section::new("Tank").at(&["body"]);
    section.fact("size", described(job.shape(), units));
    section.fact("over all", over_all.join(" x "));
    section.fact(
        "sheet",
        said(sheet).data("sheet_area_m2", tank.sheet_area().si()),
    );
    section.fact("volume outside", volume);
    section.put("inside_m3", body.inside.volume().si());
    section.put("inside_centroid_m", [centroid.x, centroid.y, centroid.z]);
    section
}

/// The sizes as the job gives them.
fn described(shape: &Shape, units: Units) -> String {
    let sized = match shape.sized() {
        Sized::Outside => "outside",
        Sized::Inside => "inside",
    };
    let sizes = |sizes: &[Length]| {
        sizes
            .iter()
            .map(|size| units.length(*size))
            .collect::<Vec<_>>()
            .join(" x ")
    };
    match shape {
        Shape::Block(block) => {
            let cuts = match block.cuts.len() {
                0 => String::new(),
                1 => ", one cut".to_owned(),
                many => format!(", {many} cuts"),
            };
            let size = sizes(&[block.length, block.width, block.height]);
            format!("{size} {sized}{cuts}")
        }
        Shape::Profile(profile) => {
            let rounded = profile
                .outline
                .iter()
                .filter(|point| point.radius.si() > 0.0)
                .count();
            let rounded = match rounded {
                0 => String::new(),
                some => format!(", {some} of them rounded"),
            };
            format!(
                "profile of {} corners{rounded}, {} wide {sized}",
                profile.outline.len(),
                units.length(profile.width)
            )
        }
        Shape::Taper(taper) => format!(
            "{} below, {} above, {} high {sized}",
            sizes(&taper.base),
            sizes(&taper.top),
            units.length(taper.height)
        ),
        Shape::Drum(drum) => {
            let ends = match drum.ends {
                Ends::Torispherical { crown, knuckle } => format!(
                    "torispherical ends of crown {} and knuckle {}",
                    units.length(crown),
                    units.length(knuckle)
                ),
                ends => format!("{} ends", ends.name()),
            };
            format!(
                "{} drum, {} across, {} long {sized}, {ends}",
                drum.axis.name(),
                units.length(drum.diameter),
                units.length(drum.length)
            )
        }
    }
}
