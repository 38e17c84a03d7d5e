//! Edges of a `[[baffle]]` that are bent over: `flange`, `flanged`, `flange_side`.

use seamwright_core::fitting::FlangeCut;
use seamwright_core::input::WallSet;
use seamwright_core::input::limits::SIZE;
use seamwright_core::units::range::Value;
use toml::de::DeValue;

use super::extras::limits::kept;
use super::faces::faces_in;
use super::reader::{Reader, Section, Word, called};
use super::words::every_face;
use crate::diagnostics::Problem;

/// What a job file may say of the edges with flanges.
const EXAMPLE: &str = "flanged = [\"bottom\", \"front\"]";
/// The edges that meet no wall.
const OPEN: [&str; 2] = ["gap_below", "gap_above"];

/// The side of its axis to which a flange points.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum FlangeSide {
    Low,
    High,
}

impl Word for FlangeSide {
    fn all() -> Vec<Self> {
        vec![Self::Low, Self::High]
    }

    fn word(self) -> String {
        match self {
            Self::Low => "low",
            Self::High => "high",
        }
        .to_owned()
    }
}

/// `flange` with what goes with it.
pub(super) fn flange<'t>(reader: &mut Reader<'t>, section: &Section<'t>) -> Option<FlangeCut> {
    let width = kept(reader, section, "flange", SIZE, Value::Length);
    let side: Option<FlangeSide> = reader.word(section, "flange_side");
    let mut cut = FlangeCut {
        width: width.unwrap_or_default(),
        high: side == Some(FlangeSide::High),
        walls: WallSet::NONE,
        below: false,
        above: false,
    };
    edges(reader, section, &mut cut);
    if section.has("flange") {
        return width.map(|_| cut);
    }
    for key in ["flanged", "flange_side"] {
        if let Some(span) = section.place(key) {
            let path = section.path_of(key);
            let problem = Problem::new(span, format!("{} needs flange beside it", called(&path)))
                .label("of flanges without a width")
                .help("write how wide they are: flange = \"20 mm\"");
            reader.problem(problem);
        }
    }
    None
}

/// `flanged = ["bottom", …]`.
fn edges<'t>(reader: &mut Reader<'t>, section: &Section<'t>, cut: &mut FlangeCut) {
    let Some(value) = reader.value(section, "flanged") else {
        return;
    };
    let path = section.path_of("flanged");
    let wrong = |span, what: String| {
        Problem::new(span, what)
            .label("no edge")
            .help(format!("write, for example, {EXAMPLE}"))
    };
    let what = format!(
        "{} must be a list of walls, or of gap_below and gap_above",
        called(&path)
    );
    let DeValue::Array(named) = value.get_ref() else {
        reader.problem(wrong(value.span(), what));
        return;
    };
    if named.is_empty() {
        reader.problem(wrong(value.span(), what));
    }
    for edge in named.iter() {
        let DeValue::String(text) = edge.get_ref() else {
            let what = "an edge is named in quotes".to_owned();
            reader.problem(wrong(edge.span(), what));
            continue;
        };
        let [below, above] = OPEN.map(|open| open == text.trim());
        cut.below |= below;
        cut.above |= above;
        if below || above {
            let name = text.trim();
            reader.spans.put(format!("{path}.{name}"), edge.span());
            continue;
        }
        let known = every_face();
        let Some([face]) = faces_in::<1>(reader, text, &edge.span(), &path, "bottom", &known)
        else {
            continue;
        };
        cut.walls.add(face);
        reader.spans.put(format!("{path}.{face}"), edge.span());
    }
}
