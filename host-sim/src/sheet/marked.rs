//! What is marked on a panel, as rows of a table and as a dimensioned drawing.
//!
//! Corners are C, holes H, bends B in the order in which they are made, scribed lines S, first ends of seams E: the
//! same marks stand in the drawing and in the table. All is measured from the left and the lower edge of the blank.

use std::fmt::Write as _;

use seamwright_core::blank::{CutBlank, Panel};
use seamwright_core::marking::{HoleUse, ScribeUse};
use seamwright_core::units::{AngleUnit, LengthUnit};

use super::layer::Layer;
use super::pattern::Pattern;
use super::svg::{colour, mm, outline};
use super::words::wide;
use crate::cut::Cut;

/// One thing that is marked.
#[derive(Clone, Debug, PartialEq)]
pub struct Marked {
    /// Its mark.
    pub mark: String,
    /// What it is.
    pub what: String,
    /// Where it is, or where its ends are, in mm.
    pub at: Vec<[f64; 2]>,
    /// What else there is to know.
    pub note: String,
    /// Further lines that go with it: the tangent lines of a bend, in mm.
    pub beside: Vec<[[f64; 2]; 2]>,
}

fn one(value: f64) -> String {
    format!("{value:.1}")
}

/// All that is marked on a panel.
#[must_use]
pub fn rows(cut: &Cut<'_>, panel: &Panel, blank: &CutBlank) -> Vec<Marked> {
    let marker = cut.tank().marker(cut.larger(), panel, blank);
    let to_mm = |at: [f64; 2]| at.map(|c| c * 1e3);
    let mut rows = Vec::new();
    let nodes: Vec<_> = blank.outline().collect();
    for (node, number) in nodes.iter().zip(1..) {
        let next = if number == nodes.len() { 1 } else { number + 1 };
        let note = if node.bulge == 0.0 {
            String::new()
        } else {
            format!("an arc from here to C{next}")
        };
        rows.push(Marked {
            mark: format!("C{number}"),
            what: "corner".to_owned(),
            at: vec![to_mm([node.x, node.y])],
            note,
            beside: Vec::new(),
        });
    }
    let names: Vec<String> = cut
        .tank()
        .fittings()
        .map(|fitting| fitting.name().to_owned())
        .collect();
    for (hole, number) in marker.holes().zip(1..) {
        let what = match hole.what {
            HoleUse::Fitting(place) => names
                .get(usize::from(place).saturating_sub(1))
                .cloned()
                .unwrap_or_default(),
            HoleUse::Baffle(_) => "hole".to_owned(),
            HoleUse::Relief => "relief of two bends".to_owned(),
            HoleUse::Plug(number) => format!("plug weld, baffle {number}"),
        };
        let bore = hole.diameter.display(LengthUnit::Millimetre, 1);
        rows.push(Marked {
            mark: format!("H{number}"),
            what: what.clone(),
            at: vec![to_mm(hole.at)],
            note: format!("bore {bore}"),
            beside: Vec::new(),
        });
    }
    let bends: Vec<_> = marker.bends().collect();
    let order = marker.bend_order();
    for (step, number) in order.iter().zip(1..) {
        let Some(bend) = bends.get(usize::from(step.bend)) else {
            continue;
        };
        let line = &bend.line;
        let in_way = step.blocked_by.and_then(|other| {
            let place = order.iter().position(|step| step.bend == other)?;
            Some(format!(
                "; a straight blade meets B{}: take a gooseneck",
                place + 1
            ))
        });
        let tangents = bend.tangents.map(|line| line.map(to_mm));
        let from = tangents.map(|[[ax, ay], [bx, by]]| {
            if (ax - bx).abs() < (ay - by).abs() {
                format!("x {}", one(ax))
            } else {
                format!("y {}", one(ay))
            }
        });
        rows.push(Marked {
            mark: format!("B{number}"),
            what: format!("bend {} - {}", line.faces[0], line.faces[1]),
            at: line.ends.map(to_mm).to_vec(),
            note: format!(
                "{} {}, inside radius {}; tangent lines at {} and {}{}",
                line.turn.display(AngleUnit::Degree, 1),
                if line.towards { "up" } else { "down" },
                line.radius.display(LengthUnit::Millimetre, 1),
                from[0],
                from[1],
                in_way.unwrap_or_default()
            ),
            beside: tangents.to_vec(),
        });
    }
    for (scribe, number) in marker.scribes().zip(1..) {
        let (what, note) = match scribe.what {
            ScribeUse::Baffle(baffle, far) => (
                format!("baffle {baffle}"),
                format!(
                    "on the inside, {} face of its sheet",
                    if far { "far" } else { "near" }
                ),
            ),
            ScribeUse::Flange(baffle) => (
                format!("baffle {baffle}"),
                "on the inside, free edge of its flange".to_owned(),
            ),
            ScribeUse::Quarter(n) => (
                "quarter line".to_owned(),
                format!("{}° from the long seam", 90 * u16::from(n)),
            ),
        };
        rows.push(Marked {
            mark: format!("S{number}"),
            what,
            at: scribe.ends.map(to_mm).to_vec(),
            note,
            beside: Vec::new(),
        });
    }
    for (seam, number) in marker.seams().zip(1..) {
        rows.push(Marked {
            mark: format!("E{number}"),
            what: format!("seam {} begins", seam.mark),
            at: vec![to_mm(seam.first)],
            note: seam.end.name().to_owned(),
            beside: Vec::new(),
        });
    }
    rows
}

/// The drawing of a panel with its marks and its sizes; its words are as large beside it, whatever its size.
#[must_use]
pub fn drawing(pattern: &Pattern, rows: &[Marked]) -> String {
    let extents = pattern.extents();
    let (w, h) = (extents.width(), extents.height());
    let size = w.max(h) / 42.0;
    let room = 5.0 * size;
    let mut body = String::new();
    let line = |body: &mut String, ends: [[f64; 2]; 2], layer: Layer, dashes: &str, thick: f64| {
        let [[ax, ay], [bx, by]] = ends;
        let _ = write!(
            body,
            "<line x1=\"{}\" y1=\"{}\" x2=\"{}\" y2=\"{}\" stroke=\"{}\" stroke-width=\"{}\"{}/>",
            mm(ax),
            mm(-ay),
            mm(bx),
            mm(-by),
            colour(layer).0,
            mm(thick),
            if dashes.is_empty() {
                String::new()
            } else {
                format!(" stroke-dasharray=\"{dashes}\"")
            }
        );
    };
    let thin = size / 16.0;
    let dash = format!("{} {}", mm(0.7 * size), mm(0.35 * size));
    let dots = format!("{} {}", mm(0.15 * size), mm(0.3 * size));
    let mut notes: Vec<([f64; 2], String, Layer)> = Vec::new();
    let mut put = |at: [f64; 2], text: String, layer: Layer| {
        // Words that would lie on others are set a line lower.
        let mut at = at;
        let near = |a: [f64; 2], b: [f64; 2], text: &str| {
            (a[1] - b[1]).abs() < 1.05 * size && (a[0] - b[0]).abs() < wide(text, size) + 0.4 * size
        };
        for _ in 0..6 {
            if !notes
                .iter()
                .any(|(other, said, _)| near(*other, at, said) || near(at, *other, &text))
            {
                break;
            }
            at[1] -= 1.15 * size;
        }
        notes.push((at, text, layer));
    };
    let middle = [0.5 * w, 0.5 * h];
    let inward = |[x, y]: [f64; 2], text: &str| {
        let long = wide(text, size);
        let x = if x < middle[0] {
            x + 0.4 * size
        } else {
            x - long - 0.4 * size
        };
        let y = if y < middle[1] {
            y + 0.4 * size
        } else {
            y - 1.3 * size
        };
        [x, y]
    };
    for row in rows {
        let kind = row.mark.chars().next().unwrap_or(' ');
        match (kind, row.at.as_slice()) {
            ('B', [a, b]) => {
                for ends in &row.beside {
                    line(&mut body, *ends, Layer::BendUp, &dots, thin);
                }
                let layer = if row.note.contains("up,") {
                    Layer::BendUp
                } else {
                    Layer::BendDown
                };
                line(&mut body, [*a, *b], layer, &dash, 1.5 * thin);
                let upright = (a[0] - b[0]).abs() < (a[1] - b[1]).abs();
                let text = format!("{} {}", row.mark, one(if upright { a[0] } else { a[1] }));
                let share = 0.35;
                let at = [a[0] + share * (b[0] - a[0]), a[1] + share * (b[1] - a[1])];
                put(inward(at, &text), text, layer);
            }
            ('S', [a, b]) => {
                line(&mut body, [*a, *b], Layer::Mark, &dash, thin);
                let upright = (a[0] - b[0]).abs() < (a[1] - b[1]).abs();
                let text = format!("{} {}", row.mark, one(if upright { a[0] } else { a[1] }));
                let at = [
                    0.65f64.mul_add(b[0] - a[0], a[0]),
                    0.65f64.mul_add(b[1] - a[1], a[1]),
                ];
                put(inward(at, &text), text, Layer::Mark);
            }
            ('H', [at]) => put(
                [at[0] + 0.4 * size, at[1] - 0.4 * size],
                row.mark.clone(),
                Layer::Holes,
            ),
            _ => {}
        }
    }
    // Corners, and ends of seams, that lie close together are named together: the table has each.
    for (kind, layer) in [('C', Layer::Cut), ('E', Layer::Text)] {
        let mut group: Option<([f64; 2], &str, &str)> = None;
        let own = rows.iter().filter(|row| row.mark.starts_with(kind));
        let mut said = Vec::new();
        for (row, at) in own.filter_map(|row| Some((row, *row.at.first()?))) {
            let _ = write!(
                body,
                "<circle cx=\"{}\" cy=\"{}\" r=\"{}\" fill=\"{}\"/>",
                mm(at[0]),
                mm(-at[1]),
                mm(0.12 * size),
                colour(layer).0
            );
            match &mut group {
                Some((first, _, last))
                    if (at[0] - first[0]).hypot(at[1] - first[1]) < 2.5 * size =>
                {
                    *last = &row.mark;
                }
                _ => said.extend(group.replace((at, &row.mark, &row.mark))),
            }
        }
        said.extend(group);
        for (at, first, last) in said {
            let text = if first == last {
                first.to_owned()
            } else {
                format!("{first} to {last}")
            };
            put(inward(at, &text), text, layer);
        }
    }
    for hole in pattern.holes() {
        let [x, y] = hole.at;
        let r = hole.diameter / 2.0;
        let _ = write!(
            body,
            "<circle cx=\"{}\" cy=\"{}\" r=\"{}\" fill=\"none\" stroke=\"{}\" stroke-width=\"{}\"/>",
            mm(x),
            mm(-y),
            mm(r),
            colour(Layer::Holes).0,
            mm(thin)
        );
        for ends in [
            [[x - 0.6 * r, y], [x + 0.6 * r, y]],
            [[x, y - 0.6 * r], [x, y + 0.6 * r]],
        ] {
            line(&mut body, ends, Layer::Holes, "", 0.7 * thin);
        }
    }
    // Over all, below and to the left; the datum where the two begin.
    let low = -2.2 * size;
    line(&mut body, [[0.0, low], [w, low]], Layer::Text, "", thin);
    line(&mut body, [[low, 0.0], [low, h]], Layer::Text, "", thin);
    for ends in [
        [[0.0, low], [0.0, 0.0]],
        [[w, low], [w, 0.0]],
        [[low, 0.0], [0.0, 0.0]],
        [[low, h], [0.0, h]],
    ] {
        line(&mut body, ends, Layer::Text, &dots, 0.7 * thin);
    }
    let _ = write!(
        body,
        "<circle cx=\"0\" cy=\"0\" r=\"{}\" fill=\"none\" stroke=\"{}\" stroke-width=\"{}\"/>",
        mm(0.45 * size),
        colour(Layer::Text).0,
        mm(1.5 * thin)
    );
    let across = format!("{} mm", one(w));
    notes.push((
        [0.5 * (w - wide(&across, size)), low - 1.5 * size],
        across,
        Layer::Text,
    ));
    notes.push((
        [low, low - 1.5 * size],
        "datum 0, 0".to_owned(),
        Layer::Text,
    ));
    let words: String = notes
        .iter()
        .map(|(at, text, layer)| {
            format!(
                "<text x=\"{}\" y=\"{}\" font-size=\"{}\" fill=\"{}\">{text}</text>",
                mm(at[0]),
                mm(-at[1]),
                mm(size / super::words::CAPITAL),
                colour(*layer).0
            )
        })
        .collect();
    let up = format!("{} mm", one(h));
    let (ux, uy) = (low - 0.6 * size, 0.5 * (h - wide(&up, size)));
    let upright = format!(
        "<text x=\"{x}\" y=\"{y}\" font-size=\"{}\" fill=\"{}\" transform=\"rotate(-90 {x} {y})\">{up}</text>",
        mm(size / super::words::CAPITAL),
        colour(Layer::Text).0,
        x = mm(ux),
        y = mm(-uy)
    );
    format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" version=\"1.1\" width=\"{width}mm\" height=\"{height}mm\" viewBox=\"{left} {top} {width} {height}\"><path d=\"{}\" fill=\"none\" stroke=\"{}\" stroke-width=\"{}\"/>{body}<g font-family=\"Helvetica, Arial, sans-serif\">{words}{upright}</g></svg>",
        outline(pattern),
        colour(Layer::Cut).0,
        mm(1.6 * thin),
        width = mm(w + room + size),
        height = mm(h + room + size),
        left = mm(-room),
        top = mm(-h - size),
    )
}
