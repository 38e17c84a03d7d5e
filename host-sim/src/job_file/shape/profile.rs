//! A profile: an outline of points, some of them rounded.

use seamwright_core::input::limits::MAX_SIDES;
use seamwright_core::input::{Profile, ProfilePoint, Sized};
use seamwright_core::units::Length;
use toml::de::DeValue;

use super::super::reader::{Reader, Section, Value, called};
use super::{size, wanted};
use crate::diagnostics::Problem;

const EXAMPLE: &str = "outline = [[\"0 mm\", \"0 mm\"], [\"300 mm\", \"0 mm\", \"r 25 mm\"], [\"300 mm\", \"200 mm\"]]";

pub(super) fn read<'t>(
    reader: &mut Reader<'t>,
    section: &Section<'t>,
    sized: Option<Sized>,
) -> Option<Profile> {
    wanted(reader, section, "outline", EXAMPLE);
    let outline = outline(reader, section);
    let width = size(reader, section, "width", "180 mm");
    Some(Profile {
        sized: sized?,
        outline: outline?,
        width: width?,
    })
}

fn outline<'t>(
    reader: &mut Reader<'t>,
    section: &Section<'t>,
) -> Option<heapless::Vec<ProfilePoint, MAX_SIDES>> {
    let value = reader.value(section, "outline")?;
    let path = section.path_of("outline");
    let DeValue::Array(points) = value.get_ref() else {
        let problem = Problem::new(
            value.span(),
            format!("{} must be a list of points", called(&path)),
        )
        .label("no list")
        .help(format!("write, for example, {EXAMPLE}"));
        reader.problem(problem);
        return None;
    };
    if points.len() > MAX_SIDES || points.len() < 3 {
        let problem = Problem::new(
            value.span(),
            format!("an outline has 3 to {MAX_SIDES} points"),
        )
        .label(format!("{} here", points.len()))
        .help(if points.len() < 3 {
            "add the points that are missing; the last one is joined to the first"
        } else {
            "leave out points, or round a corner instead of stepping round it"
        });
        reader.problem(problem);
        return None;
    }
    let read: Vec<Option<ProfilePoint>> = points
        .iter()
        .zip(1..)
        .map(|(point_value, number)| point(reader, point_value, &path, number))
        .collect();
    read.into_iter()
        .collect::<Option<Vec<_>>>()
        .and_then(|all| heapless::Vec::from_slice(&all).ok())
}

fn point<'t>(
    reader: &mut Reader<'t>,
    value: Value<'t>,
    path: &str,
    number: u32,
) -> Option<ProfilePoint> {
    let path = format!("{path}.{number}");
    reader.spans.put(path.clone(), value.span());
    let wrong = |label: String| {
        Problem::new(value.span(), format!("{} is x, z and perhaps a radius", called(&path)))
            .label(label)
            .help("write [\"300 mm\", \"0 mm\"], or [\"300 mm\", \"0 mm\", \"r 25 mm\"] for a rounded corner")
    };
    let DeValue::Array(parts) = value.get_ref() else {
        let problem = wrong("no list".to_owned());
        reader.problem(problem);
        return None;
    };
    let parts: Vec<Value<'t>> = parts.iter().collect();
    let (x, z, rounded) = match parts.as_slice() {
        [x, z] => (*x, *z, None),
        [x, z, rounded] => (*x, *z, Some(*rounded)),
        other => {
            let problem = wrong(format!("{} values", other.len()));
            reader.problem(problem);
            return None;
        }
    };
    let x = reader.quantity_of(x, &path);
    let z = reader.quantity_of(z, &path);
    let radius = match rounded {
        None => Some(Length::default()),
        Some(value) => radius(reader, value, &path),
    };
    Some(ProfilePoint {
        x: x?,
        z: z?,
        radius: radius?,
    })
}

/// `"r 25 mm"`.
fn radius<'t>(reader: &mut Reader<'t>, value: Value<'t>, path: &str) -> Option<Length> {
    if let DeValue::String(text) = value.get_ref()
        && let Some(rest) = text.trim().strip_prefix('r')
        && let Ok(length) = Length::parse(rest.trim())
    {
        return Some(length);
    }
    let problem = Problem::new(
        value.span(),
        format!(
            "the third value of {} is the radius of its corner",
            called(path)
        ),
    )
    .label("an r, then a length")
    .help("write, for example, \"r 25 mm\"");
    reader.problem(problem);
    None
}
