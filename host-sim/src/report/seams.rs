//! The seams, each with its tacks and stitches.

use seamwright_core::build::SeamStages;
use seamwright_core::geom::Vector;
use seamwright_core::seam::Seam;
use seamwright_core::tank::Tank;
use seamwright_core::units::{AngleUnit, LengthUnit};
use serde_json::json;

use super::Units;
use super::model::{Cell, Row, Section, Table, left, right, said, word};
use super::stages;

pub(crate) fn section(tank: &Tank, units: Units) -> Section {
    let columns = [
        left("seam"),
        left("between"),
        left("joint"),
        right("length"),
        right("angle"),
        right("tacks"),
        right("stitches"),
        right("of").on_sheet(None),
        right("stage"),
    ];
    let order = tank.build_order();
    let seams = tank.seams().zip(0..);
    let rows = seams.map(|(seam, place)| row(tank, &seam, order.of_seam(place), units));
    let mut section = Section::new("Seams, tacks and stitches").on_sheet("Seams");
    section.table(Table::new(columns, rows).keyed("seams"));
    if tank.plug_holes().next().is_some() {
        section.flush(
            "plugs: each hole in the wall is filled from outside until it is fused to the edge behind it, one far from the \
             last; the plan takes as much rod and arc for it as for a fillet with as much metal, and the heat of a seam \
             welded through at most: let the metal cool to its limit before the next",
        );
    }
    section
}

fn row(tank: &Tank, seam: &Seam, stages: Option<SeamStages>, units: Units) -> Row {
    let [a, b] = seam.faces;
    let angle = seam.dihedral.display(AngleUnit::Degree, 1);
    let tacks = tank.tacks(seam).map(|tacks| {
        let pitch = tacks.pitch.display(LengthUnit::Millimetre, 0);
        said(tacks.count).on_sheet(format!("{} at {pitch}", tacks.count))
    });
    let plugs = tank.plug_welds(seam);
    let stitches = tank.division(seam).map(|division| {
        if let Some(plugs) = plugs {
            let hole = plugs.diameter.display(LengthUnit::Millimetre, 1);
            return [
                said(division.count).on_sheet(format!("{} plugs of {hole}", plugs.count)),
                said(format!("plug {hole}")).data(
                    "plugs",
                    json!({
                        "count": plugs.count,
                        "diameter_m": plugs.diameter.si(),
                        "pitch_m": plugs.pitch.si(),
                        "first_m": plugs.first.si(),
                    }),
                ),
            ];
        }
        let length = division.length.display(LengthUnit::Millimetre, 0);
        [
            said(division.count).on_sheet(format!("{} of {length}", division.count)),
            said(units.length(division.length)),
        ]
    });
    let [stitches, of] = stitches.unwrap_or_default();
    let welded = stages.map_or(0, |stages| stages.welded);
    let stage = if welded > 0 {
        said(welded)
    } else {
        Cell::default()
    };
    let mut stage = stage;
    for (key, value) in stages::of_seam(stages) {
        stage = stage.data(key, value);
    }
    vec![
        word("mark", seam.mark),
        said(format!("{a} - {b}")).data("between", [a.to_string(), b.to_string()]),
        word("joint", seam.joint_name()).data("welded", seam.welded),
        Cell::of("length_m", seam.length, units, Units::length).data(
            "ends_m",
            json!(seam.ends.map(|Vector { x, y, z }| [x, y, z])),
        ),
        said(angle).data("dihedral_deg", seam.dihedral.in_unit(AngleUnit::Degree)),
        tacks.unwrap_or_default(),
        stitches,
        of,
        stage,
    ]
}
