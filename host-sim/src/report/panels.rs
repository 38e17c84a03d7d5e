//! The panels and the blanks that they are cut as.

use seamwright_core::blank::{CutBlank, Panel};
use seamwright_core::input::Face;
use seamwright_core::units::{AngleUnit, Length, LengthUnit, MassUnit};
use serde_json::{Value, json};

use super::model::{Block, Cell, Data, Row, Section, Seen, Table, left, right, said, word};
use super::{Asked, Units, marking, shrinkage};
use crate::cut::Cut;

/// A panel's pattern for the job sheet.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Drawn {
    /// Width and height of the blank, in mm.
    pub(crate) size: [f64; 2],
    /// Its picture.
    pub(crate) svg: String,
}

/// All panels; `drawn` are the patterns of those that have one, in the same order, for the job sheet.
pub(crate) fn section(
    asked: &Asked<'_>,
    cut: &Cut<'_>,
    drawn: &[Option<Drawn>],
    units: Units,
) -> Section {
    let mut blank = CutBlank::new();
    let panels: Vec<Panel> = cut.panels().collect();
    let mut drawings = drawn.iter().map(Option::as_ref);
    let rows = panels.iter().map(|panel| {
        let laid = cut.blank(panel, &mut blank).is_ok() && !blank.is_empty();
        let laid = laid.then_some(&blank);
        let mut cells = row(panel, laid, drawings.next().flatten(), units);
        let marking = laid.map(|blank| marking::data(cut, panel, blank));
        if let Some(last) = cells.pop() {
            cells.push(last.maybe("marking", marking));
        }
        cells
    });
    let columns = [
        left("mark"),
        left("faces"),
        left("made"),
        right("sheet"),
        right("blank"),
        right("mass"),
    ];
    let mut section = Section::new("Panels, cut square for open corners").on_sheet("Panels");
    section.table(Table::new(columns, rows).keyed("panels"));
    section.only(Seen::Sheet);
    section.line(format!(
        "All blanks together {}. Marks are on the outside. Two panels meet where their edges carry the same \
         seam mark, tick to tick: the ticks stand a third of the way along, so they meet one way round only.",
        cut.mass().display(MassUnit::Kilogram, 3)
    ));
    let allowed = shrinkage::allowed(asked.tank, asked.extras, Units::Metric);
    if let Some(text) = allowed {
        section.caution(text);
    }
    for (panel, drawn) in panels.iter().zip(drawn) {
        if let Some(drawn) = drawn {
            let caption = format!("Panel {}, not to scale here", panel.mark);
            section.add(Block::Picture(drawn.svg.clone(), caption));
        }
    }
    section
}

fn row(panel: &Panel, blank: Option<&CutBlank>, drawn: Option<&Drawn>, units: Units) -> Row {
    let size = blank.map_or_else(
        || "-".to_owned(),
        |blank| {
            let sides = blank.size();
            sides
                .map(|side| units.length(Length::from_metres(side)))
                .join(" x ")
        },
    );
    let on_sheet = match drawn {
        Some(Drawn { size: [w, h], .. }) => format!("{w:.1} mm x {h:.1} mm"),
        None => "buy it, or have it spun".to_owned(),
    };
    let sheet = panel.thickness.display(LengthUnit::Millimetre, 2);
    let mut flat = blank.map(layout).unwrap_or_default();
    flat.insert("area_m2".to_owned(), json!(panel.blank_area.si()));
    let faces: Vec<String> = panel.faces.iter().map(ToString::to_string).collect();
    vec![
        word("mark", panel.mark),
        said(few(&panel.faces))
            .on_sheet(faces.join(", "))
            .data("face", panel.face().to_string())
            .data("faces", faces),
        word("made", panel.making.name()),
        Cell::of("thickness_m", panel.thickness, units, Units::thickness).on_sheet(sheet),
        said(size)
            .on_sheet(on_sheet)
            .data("blank", flat)
            .data("outside_area_m2", panel.outside_area.si()),
        Cell::of("mass_kg", panel.mass, units, Units::mass),
    ]
}

/// The faces of a panel: `front`, or `side 1 to side 6`.
fn few(faces: &[Face]) -> String {
    match faces {
        [first, .., last] if faces.len() > 3 => format!("{first} to {last}"),
        few => few
            .iter()
            .map(ToString::to_string)
            .collect::<Vec<_>>()
            .join(", "),
    }
}

/// A blank as it is cut. `bulges` go with `outline_m`: for each point the tangent of a quarter of the
/// angle that the side after it sweeps.
fn layout(blank: &CutBlank) -> Data {
    let nodes: Vec<_> = blank.outline().collect();
    let outline: Vec<[f64; 2]> = nodes.iter().map(|node| [node.x, node.y]).collect();
    let bulges: Vec<f64> = nodes.iter().map(|node| node.bulge).collect();
    let folds = blank.bends().map(|bend| {
        json!({
            "between": bend.faces.map(|face| face.to_string()),
            "ends_m": bend.ends,
            "angle_deg": bend.turn.in_unit(AngleUnit::Degree),
            "towards": bend.towards,
            "inside_radius_m": bend.radius.si(),
            "allowance_m": bend.allowance.si(),
        })
    });
    let reliefs = blank
        .reliefs()
        .iter()
        .map(|relief| json!({ "at_m": relief.at, "diameter_m": relief.diameter.si() }));
    Data::from_iter([
        ("size_m".to_owned(), json!(blank.size())),
        ("outline_m".to_owned(), json!(outline)),
        ("bulges".to_owned(), json!(bulges)),
        ("folds".to_owned(), folds.collect::<Value>()),
        ("reliefs".to_owned(), reliefs.collect::<Value>()),
    ])
}
