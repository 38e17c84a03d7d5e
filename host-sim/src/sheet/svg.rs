//! Pieces as true-size drawings for screens, cutters and the web.
//!
//! The drawing's width and height are in millimetres and one unit of its view box is one millimetre,
//! so software that honours units shows it at full size. SVG's y runs down: a point (x, y) of the piece
//! stands at (x, -y). Each [`Layer`] is a group with the layer's name as its `id`.

use std::fmt::Write as _;

use maud::{Markup, PreEscaped, html};

use super::layer::Layer;
use super::pattern::{Note, Pattern, Segment};
use super::words::{CAPITAL, heading, wide, words};

/// Empty room around the piece, mm.
const ROOM: f64 = 5.0;
/// Height of the mark and title under the piece, mm.
const HEADING: f64 = 6.0;

/// `pattern` as an SVG file of its own.
pub fn pattern(pattern: &Pattern) -> String {
    let extents = pattern.extents();
    let title = heading(pattern);
    let width = extents.width().max(wide(&title, HEADING)) + 2.0 * ROOM;
    let height = extents.height() + 2.0 * ROOM + 2.0 * HEADING;
    let below = Note {
        at: [extents.low[0], extents.low[1] - 2.0 * HEADING],
        height: HEADING,
        angle_deg: 0.0,
        text: title.clone(),
    };
    let left = extents.low[0] - ROOM;
    let top = -extents.high[1] - ROOM;
    let drawing = html! {
        svg xmlns="http://www.w3.org/2000/svg" version="1.1"
            width={ (mm(width)) "mm" } height={ (mm(height)) "mm" }
            viewBox={ (mm(left)) " " (mm(top)) " " (mm(width)) " " (mm(height)) } {
            title { (title) }
            (groups(pattern, &[below]))
        }
    };
    format!(
        "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n{}\n",
        drawing.into_string()
    )
}

/// The groups of `pattern` and `more` words, to stand in a drawing whose unit is one millimetre.
fn groups(pattern: &Pattern, more: &[Note]) -> Markup {
    let mut words = words(pattern);
    words.extend_from_slice(more);
    html! {
        @for layer in Layer::ALL {
            @if layer == Layer::Text {
                g id=(layer.name()) fill=(colour(layer)) stroke="none"
                    font-family="Helvetica, Arial, sans-serif" {
                    @for note in &words { (text(note)) }
                }
            } @else {
                g id=(layer.name()) fill="none" stroke=(colour(layer))
                    stroke-width=(mm(layer.width())) stroke-dasharray=[dashes(layer)] {
                    (shapes(pattern, layer))
                }
            }
            "\n"
        }
    }
}

fn shapes(pattern: &Pattern, layer: Layer) -> Markup {
    match layer {
        Layer::Cut => html! { path d=(outline(pattern)) {} },
        Layer::Holes => html! {
            @for hole in pattern.holes() {
                circle cx=(mm(hole.at[0])) cy=(mm(-hole.at[1])) r=(mm(hole.diameter / 2.0)) {}
            }
        },
        Layer::BendUp | Layer::BendDown => html! {
            @for bend in pattern.bends() {
                @if Layer::of_bend(bend.up) == layer { (line(bend.ends)) }
            }
        },
        Layer::Mark => html! {
            @for mark in pattern.lines() { (line(mark.ends)) }
        },
        Layer::Text => html! {},
    }
}

/// The outline as the data of a path, arcs as arcs.
pub(super) fn outline(pattern: &Pattern) -> String {
    let mut data = String::new();
    for segment in pattern.segments() {
        if data.is_empty() {
            let [x, y] = segment.from();
            let _ = write!(data, "M{} {}", mm(x), mm(-y));
        }
        let [x, y] = segment.to();
        match segment {
            Segment::Line { .. } => {
                let _ = write!(data, "L{} {}", mm(x), mm(-y));
            }
            Segment::Arc { radius, sweep, .. } => {
                let large = u8::from(sweep.abs() > std::f64::consts::PI);
                // Anticlockwise stays so to the eye, and SVG's sweep flag means clockwise to the eye.
                let flag = u8::from(sweep < 0.0);
                let r = mm(radius);
                let _ = write!(data, "A{r} {r} 0 {large} {flag} {} {}", mm(x), mm(-y));
            }
        }
    }
    data.push('Z');
    data
}

fn line([[ax, ay], [bx, by]]: [[f64; 2]; 2]) -> Markup {
    html! { line x1=(mm(ax)) y1=(mm(-ay)) x2=(mm(bx)) y2=(mm(-by)) {} }
}

fn text(note: &Note) -> Markup {
    let [x, y] = [mm(note.at[0]), mm(-note.at[1])];
    let turned = note.angle_deg.abs() > 1e-9;
    let turn = turned.then(|| format!("rotate({} {x} {y})", mm(-note.angle_deg)));
    html! {
        text x=(x) y=(y) font-size=(mm(note.height / CAPITAL)) transform=[turn] { (note.text) }
    }
}

pub(super) fn colour(layer: Layer) -> PreEscaped<String> {
    let [red, green, blue] = layer.rgb();
    PreEscaped(format!("#{red:02x}{green:02x}{blue:02x}"))
}

fn dashes(layer: Layer) -> Option<String> {
    let dashes: Vec<String> = layer.dashes().iter().map(|long| mm(*long)).collect();
    (!dashes.is_empty()).then(|| dashes.join(" "))
}

/// A number to a ten-thousandth, without needless noughts.
pub(super) fn mm(value: f64) -> String {
    let text = format!("{value:.4}");
    let text = text.trim_end_matches('0').trim_end_matches('.');
    if text == "-0" {
        "0".into()
    } else {
        text.into()
    }
}
