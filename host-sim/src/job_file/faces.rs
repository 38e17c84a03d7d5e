//! Faces named in one text: `"top back"`, `"side 2 front"`.

use std::ops::Range;

use seamwright_core::input::Face;

use super::reader::{Reader, Section, called, no_such_word};
use crate::diagnostics::Problem;

/// `N` faces in the text under `name`, out of those `known`.
pub(super) fn faces<'t, const N: usize>(
    reader: &mut Reader<'t>,
    section: &Section<'t>,
    name: &str,
    example: &str,
    known: &[Face],
) -> Option<[Face; N]> {
    let (text, span) = reader.text(section, name, example)?;
    let path = section.path_of(name);
    faces_in(reader, text, &span, &path, example, known)
}

/// `N` faces in a text that stands at `span`.
pub(super) fn faces_in<const N: usize>(
    reader: &mut Reader<'_>,
    text: &str,
    span: &Range<usize>,
    path: &str,
    example: &str,
    known: &[Face],
) -> Option<[Face; N]> {
    let mut faces = Vec::new();
    let mut words = text.split_whitespace().peekable();
    while let Some(word) = words.next() {
        // A cut and a side have a number after them.
        let mut named = word.to_owned();
        if matches!(word, "cut" | "side")
            && let Some(number) = words.next_if(|next| next.parse::<u8>().is_ok())
        {
            named = format!("{word} {number}");
        }
        match named.parse::<Face>() {
            Ok(face) if known.contains(&face) => faces.push(face),
            _ => {
                // A face that only another body has is read, and told of when the shape is looked at.
                let has = |face: &&Face| reader.faces.contains(face);
                let all: Vec<String> = known.iter().filter(has).map(Face::to_string).collect();
                let problem = no_such_word(
                    within(span, text, word),
                    path,
                    &named,
                    all.iter().map(String::as_str),
                );
                reader.problem(problem);
                return None;
            }
        }
    }
    let found = faces.len();
    let faces = <[Face; N]>::try_from(faces).ok();
    if faces.is_none() {
        let many = if N == 1 {
            "one face".to_owned()
        } else {
            format!("{N} faces")
        };
        let problem = Problem::new(span.clone(), format!("{} names {many}", called(path)))
            .label(format!("{found} found, {N} needed"))
            .help(format!("write, for example, \"{example}\""));
        reader.problem(problem);
    }
    faces
}

/// The place of a word inside a quoted text, as far as the text has no escapes.
fn within(span: &Range<usize>, text: &str, word: &str) -> Range<usize> {
    let quoted = span.len() == text.len() + 2;
    match text.find(word) {
        Some(at) if quoted => span.start + 1 + at..span.start + 1 + at + word.len(),
        _ => span.clone(),
    }
}
