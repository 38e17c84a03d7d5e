//! `[shape]`: which body, and its sizes.

mod block;
mod drum;
mod profile;
mod taper;

use seamwright_core::input::Shape;
use seamwright_core::units::Quantity;

use super::reader::{Reader, Section, called, no_such_word};
use super::schema::{SHAPE, kind_of_key};
use crate::diagnostics::Problem;

/// The kinds of body, as the file writes them.
pub(super) const KINDS: [&str; 4] = ["block", "profile", "taper", "drum"];

pub(super) fn read<'t>(reader: &mut Reader<'t>, section: &Section<'t>) -> Option<Shape> {
    let kind = kind(reader, section)?;
    for key in SHAPE.keys {
        if !kind_of_key(key.name).is_none_or(|kinds| kinds.contains(&kind))
            && let Some(span) = section.place(key.name)
        {
            let problem = Problem::new(span, format!("a {kind} has no `{}`", key.name))
                .label("belongs to another kind of body")
                .help("take it out, or change `kind`");
            reader.problem(problem);
        }
    }
    let sized = if section.has("sized") {
        reader.word(section, "sized")
    } else {
        Some(Default::default())
    };
    match kind {
        "profile" => profile::read(reader, section, sized).map(Shape::Profile),
        "taper" => taper::read(reader, section, sized).map(Shape::Taper),
        "drum" => drum::read(reader, section, sized).map(Shape::Drum),
        _ => block::read(reader, section, sized).map(Shape::Block),
    }
}

fn kind<'t>(reader: &mut Reader<'t>, section: &Section<'t>) -> Option<&'static str> {
    let (text, span) = reader.text(section, "kind", "block")?;
    let found = KINDS
        .into_iter()
        .find(|kind| kind.eq_ignore_ascii_case(text.trim()));
    if found.is_none() {
        let problem = no_such_word(span, "shape.kind", text, KINDS.into_iter());
        reader.problem(problem);
    }
    found
}

/// A quantity that this kind of body cannot do without.
fn size<'t, Q: Quantity>(
    reader: &mut Reader<'t>,
    section: &Section<'t>,
    name: &str,
    example: &str,
) -> Option<Q> {
    wanted(reader, section, name, &format!("{name} = \"{example}\""));
    reader.quantity(section, name)
}

/// Says so where a key that this kind of body cannot do without is missing.
fn wanted<'t>(reader: &mut Reader<'t>, section: &Section<'t>, name: &str, example: &str) {
    if section.has(name) {
        return;
    }
    let problem = Problem::new(
        section.at.clone(),
        format!("{} is missing", called(&section.path_of(name))),
    )
    .label("not found in this table")
    .help(format!("add {example}, with your own figure"));
    reader.problem(problem);
}
