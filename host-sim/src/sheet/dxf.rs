//! Cut files for laser, water jet, plasma and router.
//!
//! A drawing of the year 2000 kind (`AC1015`), the oldest that has the one-piece polyline with arcs,
//! in millimetres (`$INSUNITS` 4, `$MEASUREMENT` 1). The outline is one closed LWPOLYLINE with bulges,
//! so no arc is cut into chords; nothing is drawn twice. Layers are [`Layer`]'s. The mark and title
//! stand under the piece on layer TEXT.

use std::fmt::Write as _;
use std::io;

use dxf::entities::{Circle, Entity, EntityType, Line, LwPolyline, Text};
use dxf::enums::{AcadVersion, DrawingUnits, Units};
use dxf::tables;
use dxf::{Color, Drawing, Handle, LwPolylineVertex, Point};

use super::layer::Layer;
use super::pattern::{Note, Pattern};
use super::words::{self, heading};

/// Height of the mark and title under the piece, mm.
const HEADING: f64 = 6.0;
/// Handles set aside for tables; a drawing has nine.
const TABLES: u64 = 9;

/// `pattern` as a DXF file. The same pattern gives the same bytes.
///
/// # Errors
/// Whatever the writer reports.
pub fn pattern(pattern: &Pattern) -> io::Result<Vec<u8>> {
    let mut drawing = Drawing::new();
    settings(&mut drawing, pattern);
    for layer in Layer::ALL {
        drawing.add_layer(tables::Layer {
            name: layer.name().into(),
            color: Color::from_index(layer.index()),
            line_type_name: "CONTINUOUS".into(),
            ..tables::Layer::default()
        });
    }
    let extents = pattern.extents();
    let below = Note {
        at: [extents.low[0], extents.low[1] - 2.0 * HEADING],
        height: HEADING,
        angle_deg: 0.0,
        text: heading(pattern),
    };
    add(&mut drawing, Layer::Cut, outline(pattern));
    for hole in pattern.holes() {
        let circle = Circle::new(point(hole.at), hole.diameter / 2.0);
        add(&mut drawing, Layer::Holes, EntityType::Circle(circle));
    }
    for bend in pattern.bends() {
        add(&mut drawing, Layer::of_bend(bend.up), line(bend.ends));
    }
    for mark in pattern.lines() {
        add(&mut drawing, Layer::Mark, line(mark.ends));
    }
    for note in words::words(pattern).iter().chain([&below]) {
        add(&mut drawing, Layer::Text, text(note));
    }
    let first = drawing.header.next_available_handle;
    drawing.header.next_available_handle = Handle(first.0 + TABLES);
    let mut bytes = Vec::new();
    drawing.save(&mut bytes).map_err(io::Error::other)?;
    let text = String::from_utf8(bytes).map_err(io::Error::other)?;
    Ok(with_table_handles(&text, first.0).into_bytes())
}

/// `text` with a handle for each table, from `handle` on: the writer leaves them out, and readers
/// that keep a register of handles have to mend the file.
fn with_table_handles(text: &str, mut handle: u64) -> String {
    let mut done = String::with_capacity(text.len() + 256);
    let mut lines = text.split_inclusive('\n');
    let mut in_head = false;
    while let (Some(code), Some(value)) = (lines.next(), lines.next()) {
        done.push_str(code);
        done.push_str(value);
        match (code.trim(), value.trim()) {
            ("0", "TABLE") => in_head = true,
            ("2", _) if in_head => {
                let _ = write!(done, "  5\r\n{handle:X}\r\n");
                handle += 1;
                in_head = false;
            }
            _ => {}
        }
    }
    done
}

/// Writes `pattern` as a DXF file into `out`.
///
/// # Errors
/// Whatever `out` or the writer reports.
pub fn write(pattern: &Pattern, mut out: impl io::Write) -> io::Result<()> {
    out.write_all(&self::pattern(pattern)?)
}

fn settings(drawing: &mut Drawing, pattern: &Pattern) {
    let header = &mut drawing.header;
    header.version = AcadVersion::R2000;
    header.drawing_units = DrawingUnits::Metric;
    header.default_drawing_units = Units::Millimeters;
    let extents = pattern.extents();
    header.minimum_drawing_extents = point(extents.low);
    header.maximum_drawing_extents = point(extents.high);
    // The day and two random numbers would make every file differ.
    header.creation_date = Default::default();
    header.creation_date_universal = Default::default();
    header.update_date = Default::default();
    header.update_date_universal = Default::default();
    header.fingerprint_guid = Default::default();
    header.version_guid = Default::default();
}

fn add(drawing: &mut Drawing, layer: Layer, specific: EntityType) {
    let mut entity = Entity::new(specific);
    entity.common.layer = layer.name().into();
    drawing.add_entity(entity);
}

const fn point([x, y]: [f64; 2]) -> Point {
    Point { x, y, z: 0.0 }
}

fn outline(pattern: &Pattern) -> EntityType {
    let mut polyline = LwPolyline {
        vertices: pattern
            .outline()
            .iter()
            .map(|node| LwPolylineVertex {
                x: node.x,
                y: node.y,
                bulge: node.bulge,
                ..LwPolylineVertex::default()
            })
            .collect(),
        ..LwPolyline::default()
    };
    polyline.set_is_closed(true);
    EntityType::LwPolyline(polyline)
}

fn line([from, to]: [[f64; 2]; 2]) -> EntityType {
    EntityType::Line(Line::new(point(from), point(to)))
}

fn text(note: &Note) -> EntityType {
    EntityType::Text(Text {
        location: point(note.at),
        text_height: note.height,
        rotation: note.angle_deg,
        value: plain(&note.text),
        ..Text::default()
    })
}

/// `text` so that TEXT shows it as it is: there `%%` starts a code, of which `%%%` is a plain
/// percent sign, and `^` one that a following space makes plain. The degree, diameter and plus-minus
/// signs have codes that every reader knows; other signs past ASCII the writer turns into `\U+XXXX`.
fn plain(text: &str) -> String {
    let percent = if text.contains("%%") { "%%%" } else { "%" };
    let mut done = String::with_capacity(text.len() + 8);
    for sign in text.chars() {
        match sign {
            '%' => done.push_str(percent),
            '^' => done.push_str("^ "),
            '°' => done.push_str("%%d"),
            'Ø' | '⌀' => done.push_str("%%c"),
            '±' => done.push_str("%%p"),
            other => done.push(other),
        }
    }
    done
}
