//! In which order the tank goes together: the stages, and what is welded in each from which side.

use seamwright_core::build::{BuildOrder, BuildStage, BuildWork, SeamStages, WeldAccess};
use seamwright_core::input::Face;
use seamwright_core::tank::Tank;
use serde_json::{Value, json};

use super::model::{Section, Table, left, right, said, word};

/// Stage by stage.
pub(crate) fn section(tank: &Tank) -> Section {
    let order = tank.build_order();
    let mut section = Section::new("How it goes together");
    let columns = [
        right("stage"),
        left("work"),
        left("on"),
        left("weld"),
        left("welded from"),
    ];
    let stages = (1_u8..).zip(order.stages());
    let rows = stages.map(|(number, stage)| {
        let welds = welds(tank, &order, number);
        let from = sides(&welds, tank);
        let seams: Vec<String> = welds.iter().map(|(mark, _)| mark.clone()).collect();
        let on = on(stage);
        vec![
            said(number).data("number", number),
            word("name", stage.work.name()),
            said(on_words(stage, &on)).data("adds", on),
            said(match (stage.work, seams.as_slice()) {
                (_, []) => "-".to_owned(),
                (BuildWork::OutsideSeams, all) => format!("{} seams", all.len()),
                (_, all) => all.join(", "),
            })
            .data("welds", seams.clone()),
            said(from.join(", ")).data("welded_from", sides_data(&welds)),
        ]
    });
    section.table(Table::new(columns, rows).keyed("stages"));
    section.line(
        "One stage is done before the next is begun: a seam behind a panel that is on cannot be tacked, welded or looked at. Within a stage weld in the order of the stitches below. Look at every seam inside, and take out what must not stay, before the tank is closed.",
    );
    section
}

/// The seams that are welded in a stage, by mark, and from where.
fn welds(tank: &Tank, order: &BuildOrder, number: u8) -> Vec<(String, WeldAccess)> {
    let seams = tank.seams().zip(order.seams());
    seams
        .filter(|(_, stages)| stages.welded == number)
        .filter_map(|(seam, stages)| Some((seam.mark.to_string(), stages.from?)))
        .collect()
}

/// Marks of the panels, numbers of the fittings.
fn on(stage: &BuildStage) -> Vec<String> {
    stage.panels.marks().map(|mark| mark.to_string()).collect()
}

fn on_words(stage: &BuildStage, on: &[String]) -> String {
    let what = match stage.work {
        BuildWork::FlatFittings | BuildWork::FormedFittings if on.len() == 1 => "fitting",
        BuildWork::FlatFittings | BuildWork::FormedFittings => "fittings",
        BuildWork::OutsideSeams => return "the whole tank".to_owned(),
        _ if on.len() == 1 => "panel",
        _ => "panels",
    };
    format!("{what} {}", on.join(", "))
}

/// From where, in words, each once.
fn sides(welds: &[(String, WeldAccess)], tank: &Tank) -> Vec<String> {
    let mut all: Vec<String> = Vec::new();
    let mut through: Vec<String> = Vec::new();
    for (_, from) in welds {
        let (list, one) = match from {
            WeldAccess::Inside(face) => (&mut through, opening(*face, tank)),
            other => (&mut all, side_word(*other).to_owned()),
        };
        if !list.contains(&one) {
            list.push(one);
        }
    }
    if !through.is_empty() {
        all.push(format!("inside, through the {}", through.join(" and the ")));
    }
    if all.is_empty() {
        all.push("-".to_owned());
    }
    all
}

fn sides_data(welds: &[(String, WeldAccess)]) -> Vec<&'static str> {
    let mut all = Vec::new();
    for (_, from) in welds {
        let side = side_word(*from);
        if !all.contains(&side) {
            all.push(side);
        }
    }
    all
}

/// From where a seam is welded, in a word for programs.
fn side_word(from: WeldAccess) -> &'static str {
    match from {
        WeldAccess::BothSides => "both sides",
        WeldAccess::Outside => "outside",
        WeldAccess::Inside(_) => "inside",
        WeldAccess::Nowhere => "nowhere",
    }
}

/// Through what hand and torch reach in.
fn opening(face: Face, tank: &Tank) -> String {
    let Face::Fitting(number) = face else {
        return format!("open {face}");
    };
    let place = usize::from(number).checked_sub(1);
    let fitting = place.and_then(|place| tank.job().fittings().get(place));
    fitting.map_or_else(String::new, |fitting| {
        crate::diagnostics::clean(&fitting.name).into_owned()
    })
}

/// What programs are told of a seam's place in the building.
pub(super) fn of_seam(stages: Option<SeamStages>) -> Vec<(&'static str, Value)> {
    let Some(stages) = stages else {
        return Vec::new();
    };
    let mut told = Vec::new();
    if let Some(from) = stages.from {
        told.push(("welded_from", json!(side_word(from))));
        if let WeldAccess::Inside(face) = from {
            told.push(("through", json!(face.to_string())));
        }
    }
    if stages.welded > 0 {
        told.push(("stage", json!(stages.welded)));
    }
    told
}
