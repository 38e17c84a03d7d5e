//! `[joints]`: how edges are welded, which are folded.

use seamwright_core::input::limits::{MAX_FOLDS, MAX_OWN_JOINTS};
use seamwright_core::input::{Joint, JointsDraft, OwnJoint};
use seamwright_core::units::Ratio;
use toml::de::DeValue;

use super::faces::faces_in;
use super::reader::{Reader, Section, Word, called, no_such_word};
use super::words::every_face;
use crate::diagnostics::Problem;

const EDGE: &str = "bottom front";

pub(super) fn read<'t>(reader: &mut Reader<'t>, section: &Section<'t>) -> JointsDraft {
    JointsDraft {
        default: reader.word(section, "default"),
        own: own(reader, section),
        folds: folds(reader, section),
        bend_radius: reader.quantity(section, "bend_radius"),
        k_factor: reader
            .number(section, "k_factor", "0.42")
            .map(Ratio::from_share),
        lap: reader.quantity(section, "lap"),
        gap: reader.quantity(section, "gap"),
    }
}

/// `[joints.edges]`: its keys are edges.
fn own<'t>(
    reader: &mut Reader<'t>,
    section: &Section<'t>,
) -> heapless::Vec<OwnJoint, MAX_OWN_JOINTS> {
    let mut all = heapless::Vec::new();
    let Some(value) = reader.value(section, "edges") else {
        return all;
    };
    let DeValue::Table(table) = value.get_ref() else {
        let problem = Problem::new(value.span(), "`joints.edges` must be a table")
            .label("not a table")
            .help("head it with [joints.edges] and write, for example, \"bottom front\" = \"closed corner\"");
        reader.problem(problem);
        return all;
    };
    for (key, value) in table {
        let path = "joints.edges";
        let Some(faces) = faces_in::<2>(
            reader,
            key.get_ref(),
            &key.span(),
            path,
            EDGE,
            &every_face(),
        ) else {
            continue;
        };
        let DeValue::String(text) = value.get_ref() else {
            let problem = Problem::new(value.span(), "a joint is named by a text in quotes")
                .label("no text")
                .help("write, for example, \"bottom front\" = \"closed corner\"");
            reader.problem(problem);
            continue;
        };
        let Some(joint) = Joint::read(text) else {
            let words: Vec<String> = Joint::all().into_iter().map(Word::word).collect();
            let problem = no_such_word(value.span(), path, text, words.iter().map(String::as_str));
            reader.problem(problem);
            continue;
        };
        if all.push(OwnJoint { faces, joint }).is_err() {
            let problem = Problem::new(
                key.span(),
                format!("{MAX_OWN_JOINTS} edges may have a joint of their own"),
            )
            .label("one too many")
            .help("make the joint that most edges have the default");
            reader.problem(problem);
            return all;
        }
        reader
            .spans
            .put(format!("joints.edges.{}", all.len()), key.span());
    }
    all
}

/// `folds = ["bottom front", …]`.
fn folds<'t>(
    reader: &mut Reader<'t>,
    section: &Section<'t>,
) -> heapless::Vec<[seamwright_core::input::Face; 2], MAX_FOLDS> {
    let mut all = heapless::Vec::new();
    let Some(value) = reader.value(section, "folds") else {
        return all;
    };
    let path = section.path_of("folds");
    let example = "folds = [\"bottom front\", \"bottom back\"]";
    let DeValue::Array(edges) = value.get_ref() else {
        let problem = Problem::new(
            value.span(),
            format!("{} must be a list of edges", called(&path)),
        )
        .label("no list")
        .help(format!("write, for example, {example}"));
        reader.problem(problem);
        return all;
    };
    for edge in edges.iter() {
        let DeValue::String(text) = edge.get_ref() else {
            let problem = Problem::new(edge.span(), "an edge is named by its two faces, in quotes")
                .label("no text")
                .help(format!("write, for example, {example}"));
            reader.problem(problem);
            continue;
        };
        let Some(faces) = faces_in::<2>(reader, text, &edge.span(), &path, EDGE, &every_face())
        else {
            continue;
        };
        if all.push(faces).is_err() {
            let problem = Problem::new(edge.span(), format!("{MAX_FOLDS} edges may be folded"))
                .label("one too many")
                .help("weld some of them");
            reader.problem(problem);
            return all;
        }
        reader
            .spans
            .put(format!("{path}.{}", all.len()), edge.span());
    }
    all
}
