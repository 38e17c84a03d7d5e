//! `[[fitting]]` and `[[baffle]]`.

use seamwright_core::fitting::{BaffleCut, MAX_NOTCHES, Notch};
use seamwright_core::input::limits::{
    MAX_BAFFLE_HOLES, MAX_BAFFLES, MAX_FITTINGS, MAX_LABEL, SIZE,
};
use seamwright_core::input::{BaffleDraft, Face, FittingDraft, HoleDraft, Label};
use seamwright_core::units::Length;
use seamwright_core::units::range::Value;

use super::extras::limits::kept;
use super::faces::faces;
use super::reader::{Reader, Section};
use super::schema::{BAFFLE, FITTING, HOLE, NOTCH, Table};
use super::words::every_face;
use super::{baffle_edges, baffle_flanges};
use crate::diagnostics::Problem;

/// Tables under one name, as many as there may be.
pub(super) fn tables<'t>(
    reader: &mut Reader<'t>,
    parent: &Section<'t>,
    name: &str,
    schema: &'static Table,
    most: usize,
) -> Vec<Section<'t>> {
    let mut all = reader.sections(parent, name, schema);
    if let Some(extra) = all.get(most) {
        let problem = Problem::new(
            extra.at.clone(),
            format!("there may be {most} [[{}]] tables", schema.path),
        )
        .label(format!("number {} of {}", most + 1, all.len()))
        .help("leave out those that matter least");
        reader.problem(problem);
    }
    all.truncate(most);
    all
}

pub(super) fn fittings<'t>(
    reader: &mut Reader<'t>,
    top: &Section<'t>,
) -> Option<heapless::Vec<FittingDraft, MAX_FITTINGS>> {
    let sections = tables(reader, top, "fitting", &FITTING, MAX_FITTINGS);
    let all: Vec<Option<FittingDraft>> = sections
        .iter()
        .map(|section| fitting(reader, section))
        .collect();
    all.into_iter().collect::<Option<heapless::Vec<_, _>>>()
}

fn fitting<'t>(reader: &mut Reader<'t>, section: &Section<'t>) -> Option<FittingDraft> {
    let name = label(reader, section);
    let face = faces::<1>(reader, section, "face", "top", &every_face());
    let at = reader.quantities(section, "at", "at = [\"80 mm\", \"60 mm\"]");
    let bore = reader.quantity(section, "bore");
    let outer = reader.quantity(section, "outer");
    let stand_in = reader.quantity(section, "stand_in");
    let [face]: [Face; 1] = face?;
    Some(FittingDraft {
        name: name?,
        face,
        at: at?,
        bore: bore?,
        outer,
        stand_in: stand_in.unwrap_or_default(),
    })
}

fn label<'t>(reader: &mut Reader<'t>, section: &Section<'t>) -> Option<Label> {
    let (text, span) = reader.text(section, "name", "filler neck")?;
    let text = text.trim();
    let fits = !text.is_empty() && !text.chars().any(char::is_control);
    let label = Label::try_from(text).ok().filter(|_| fits);
    if label.is_none() {
        let problem = Problem::new(span, format!("a fitting's name has 1 to {MAX_LABEL} bytes"))
            .label(format!("{} bytes", text.len()))
            .help(
                "name it on one line, in a word or two: it stands beside the hole on the drawing",
            );
        reader.problem(problem);
    }
    label
}

/// The baffles, and how each of them is cut.
pub(super) fn baffles<'t>(
    reader: &mut Reader<'t>,
    top: &Section<'t>,
) -> Option<(heapless::Vec<BaffleDraft, MAX_BAFFLES>, Vec<BaffleCut>)> {
    let sections = tables(reader, top, "baffle", &BAFFLE, MAX_BAFFLES);
    let all: Vec<_> = sections
        .iter()
        .map(|section| (baffle(reader, section), cut(reader, section)))
        .collect();
    let (drafts, cuts): (Vec<_>, Vec<_>) = all.into_iter().unzip();
    Some((
        drafts
            .into_iter()
            .collect::<Option<heapless::Vec<_, _>>>()?,
        cuts.into_iter().collect::<Option<Vec<_>>>()?,
    ))
}

/// A length from `least` up to the largest size.
fn length<'t>(
    reader: &mut Reader<'t>,
    section: &Section<'t>,
    key: &str,
    least: Length,
) -> Option<Length> {
    kept(reader, section, key, (least, SIZE.1), Value::Length)
}

fn cut<'t>(reader: &mut Reader<'t>, section: &Section<'t>) -> Option<BaffleCut> {
    let mut cut = BaffleCut::default();
    for (key, slot) in [
        ("clearance", &mut cut.clearance),
        ("gap_below", &mut cut.gap_below),
        ("gap_above", &mut cut.gap_above),
        ("corner_notch", &mut cut.corner_notch),
    ] {
        *slot = length(reader, section, key, Length::default()).unwrap_or_default();
    }
    cut.flange = baffle_flanges::flange(reader, section);
    cut.plugged = baffle_edges::walls(reader, section, "plugs");
    let sections = tables(reader, section, "notch", &NOTCH, MAX_NOTCHES);
    let notches: Vec<Option<Notch>> = sections
        .iter()
        .map(|section| {
            let at = reader.quantities(section, "at", "at = [\"90 mm\", \"2 mm\"]");
            let width = length(reader, section, "width", SIZE.0);
            let depth = length(reader, section, "depth", SIZE.0);
            Some(Notch {
                at: at?,
                width: width?,
                depth: depth?,
            })
        })
        .collect();
    cut.notches = notches
        .into_iter()
        .collect::<Option<heapless::Vec<_, _>>>()?;
    Some(cut)
}

fn baffle<'t>(reader: &mut Reader<'t>, section: &Section<'t>) -> Option<BaffleDraft> {
    let across = reader.word(section, "across");
    let at = reader.quantity(section, "at");
    let thickness = reader.quantity(section, "thickness");
    let sections = tables(reader, section, "hole", &HOLE, MAX_BAFFLE_HOLES);
    let holes: Vec<Option<HoleDraft>> = sections
        .iter()
        .map(|section| {
            let at = reader.quantities(section, "at", "at = [\"90 mm\", \"40 mm\"]");
            let diameter = reader.quantity(section, "diameter");
            Some(HoleDraft {
                at: at?,
                diameter: diameter?,
            })
        })
        .collect();
    let free = baffle_edges::walls(reader, section, "free");
    let spaced = baffle_edges::spaced(reader, section);
    Some(BaffleDraft {
        across: across?,
        at: at?,
        thickness,
        holes: holes.into_iter().collect::<Option<heapless::Vec<_, _>>>()?,
        free,
        spaced,
    })
}
