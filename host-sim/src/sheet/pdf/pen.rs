//! Drawing on a page in millimetres.

use std::f64::consts::{FRAC_PI_4, TAU};

use pdf_writer::types::LineCapStyle;
use pdf_writer::{Content, Name, Str};

use super::super::layer::Layer;
use super::super::pattern::{Extents, MarkLine, Note, Pattern, Segment};
use super::super::words::{CAPITAL, wide};

/// PDF's unit: 72 to the inch of 25.4 mm (ISO 32000-1, 8.3.2.3).
const POINTS_PER_MM: f64 = 72.0 / 25.4;
/// Resource names of the two fonts.
pub(super) const PLAIN: Name<'static> = Name(b"F1");
pub(super) const BOLD: Name<'static> = Name(b"F2");

/// A length in mm as PDF points.
pub(super) fn points(mm: f64) -> f32 {
    (mm * POINTS_PER_MM) as f32
}

/// A page being drawn. Positions are mm; `scale` and `shift` take a piece's position to the page's.
pub(super) struct Pen {
    content: Content,
    scale: f64,
    shift: [f64; 2],
}

impl Pen {
    pub(super) fn new() -> Self {
        Self {
            content: Content::new(),
            scale: 1.0,
            shift: [0.0; 2],
        }
    }

    pub(super) fn done(self) -> Vec<u8> {
        self.content.finish().into_vec()
    }

    /// Draws what `draw` draws with `from` of the piece at `to` of the page, clipped to `window` (page).
    pub(super) fn through(
        &mut self,
        window: Extents,
        scale: f64,
        from: [f64; 2],
        to: [f64; 2],
        draw: impl FnOnce(&mut Self),
    ) {
        self.content.save_state();
        self.box_path(window);
        self.content.clip_nonzero().end_path();
        self.scale = scale;
        self.shift = [to[0] - scale * from[0], to[1] - scale * from[1]];
        draw(self);
        self.scale = 1.0;
        self.shift = [0.0; 2];
        self.content.restore_state();
    }

    fn at(&self, [x, y]: [f64; 2]) -> (f32, f32) {
        (
            points(self.scale * x + self.shift[0]),
            points(self.scale * y + self.shift[1]),
        )
    }

    pub(super) fn stroke_as(&mut self, [red, green, blue]: [u8; 3], width: f64, dashes: &[f64]) {
        let part = |value: u8| f32::from(value) / 255.0;
        self.content
            .set_stroke_rgb(part(red), part(green), part(blue))
            .set_line_width(points(width))
            .set_line_cap(LineCapStyle::ButtCap)
            .set_dash_pattern(dashes.iter().map(|long| points(*long)), 0.0);
    }

    pub(super) fn fill_as(&mut self, [red, green, blue]: [u8; 3]) {
        let part = |value: u8| f32::from(value) / 255.0;
        self.content
            .set_fill_rgb(part(red), part(green), part(blue));
    }

    pub(super) fn line(&mut self, [from, to]: [[f64; 2]; 2]) {
        let ((ax, ay), (bx, by)) = (self.at(from), self.at(to));
        self.content.move_to(ax, ay).line_to(bx, by).stroke();
    }

    fn box_path(&mut self, area: Extents) {
        let (x, y) = self.at(area.low);
        let (right, top) = self.at(area.high);
        self.content.rect(x, y, right - x, top - y);
    }

    pub(super) fn frame(&mut self, area: Extents) {
        self.box_path(area);
        self.content.stroke();
    }

    /// Words whose letters stand on `at`, capitals `height` mm tall on the page.
    pub(super) fn say(
        &mut self,
        font: Name,
        at: [f64; 2],
        height: f64,
        angle_deg: f64,
        text: &str,
    ) {
        let (x, y) = self.at(at);
        let (sin, cos) = angle_deg.to_radians().sin_cos();
        let (sin, cos) = (sin as f32, cos as f32);
        self.content
            .begin_text()
            .set_font(font, points(height / CAPITAL))
            .set_text_matrix([cos, sin, -sin, cos, x, y])
            .show(Str(&encoded(text)))
            .end_text();
    }

    /// Words around `middle`.
    pub(super) fn say_around(&mut self, middle: [f64; 2], height: f64, angle_deg: f64, text: &str) {
        let back = wide(text, height) / 2.0;
        let (sin, cos) = angle_deg.to_radians().sin_cos();
        let at = [
            middle[0] - back * cos + height / 2.0 * sin,
            middle[1] - back * sin - height / 2.0 * cos,
        ];
        self.say(PLAIN, at, height, angle_deg, text);
    }

    /// A piece with its holes, its folds and these scribed lines.
    pub(super) fn piece(&mut self, pattern: &Pattern, lines: &[MarkLine]) {
        for layer in Layer::ALL {
            self.stroke_as(layer.rgb(), layer.width(), layer.dashes());
            match layer {
                Layer::Text => {}
                Layer::Cut => self.outline(pattern),
                Layer::Holes => {
                    for hole in pattern.holes() {
                        self.circle(hole.at, hole.diameter / 2.0);
                    }
                }
                Layer::BendUp | Layer::BendDown => {
                    let bends = pattern.bends().iter();
                    for bend in bends.filter(|bend| Layer::of_bend(bend.up) == layer) {
                        self.line(bend.ends);
                    }
                }
                Layer::Mark => {
                    for mark in lines {
                        self.line(mark.ends);
                    }
                }
            }
        }
    }

    /// The words on a piece.
    pub(super) fn words(&mut self, words: &[Note]) {
        self.fill_as(Layer::Text.rgb());
        for note in words {
            let Note {
                at,
                height,
                angle_deg,
                text,
            } = note;
            self.say(PLAIN, *at, *height, *angle_deg, text);
        }
    }

    fn outline(&mut self, pattern: &Pattern) {
        let mut begun = false;
        for segment in pattern.segments() {
            if !begun {
                let (x, y) = self.at(segment.from());
                self.content.move_to(x, y);
                begun = true;
            }
            match segment {
                Segment::Line { to, .. } => {
                    let (x, y) = self.at(to);
                    self.content.line_to(x, y);
                }
                Segment::Arc {
                    to,
                    centre,
                    radius,
                    start,
                    sweep,
                    ..
                } => self.arc(centre, radius, start, sweep, to),
            }
        }
        self.content.close_path().stroke();
    }

    /// A circle, and a cross at its centre to set a punch on.
    fn circle(&mut self, [x, y]: [f64; 2], radius: f64) {
        let from = [x + radius, y];
        let (px, py) = self.at(from);
        self.content.move_to(px, py);
        self.arc([x, y], radius, 0.0, TAU, from);
        self.content.close_path().stroke();
        let reach = radius.min(3.0);
        self.line([[x - reach, y], [x + reach, y]]);
        // Short upwards, where the hole's label stands.
        self.line([[x, y - reach], [x, y + reach.min(0.9)]]);
    }

    /// An arc as cubics of at most 45°, each with control points (4/3) tan(angle/4) of the radius along
    /// the tangents: off the circle by under 1/200 000 of its radius (the usual fit through the middle).
    fn arc(&mut self, [cx, cy]: [f64; 2], radius: f64, start: f64, sweep: f64, to: [f64; 2]) {
        let count = (sweep.abs() / FRAC_PI_4).ceil().max(1.0) as u32;
        let step = sweep / f64::from(count);
        let reach = radius * 4.0 / 3.0 * (step / 4.0).tan();
        for part in 1..=count {
            let (a, b) = (
                start + step * f64::from(part - 1),
                start + step * f64::from(part),
            );
            let end = if part == count {
                to
            } else {
                [cx + radius * b.cos(), cy + radius * b.sin()]
            };
            let (x1, y1) = self.at([
                cx + radius * a.cos() - reach * a.sin(),
                cy + radius * a.sin() + reach * a.cos(),
            ]);
            let (x2, y2) = self.at([end[0] + reach * b.sin(), end[1] - reach * b.cos()]);
            let (x3, y3) = self.at(end);
            self.content.cubic_to(x1, y1, x2, y2, x3, y3);
        }
    }
}

/// `text` in the encoding of PDF's core fonts (`WinAnsiEncoding`, ISO 32000-1 annex D). A sign that it
/// lacks is spelt with signs that it has, or becomes a question mark.
pub(super) fn encoded(text: &str) -> Vec<u8> {
    const MORE: [(char, u8); 15] = [
        ('€', 0x80),
        ('…', 0x85),
        ('Š', 0x8a),
        ('Œ', 0x8c),
        ('Ž', 0x8e),
        ('‘', 0x91),
        ('’', 0x92),
        ('“', 0x93),
        ('”', 0x94),
        ('•', 0x95),
        ('–', 0x96),
        ('—', 0x97),
        ('š', 0x9a),
        ('œ', 0x9c),
        ('ž', 0x9e),
    ];
    let mut bytes = Vec::with_capacity(text.len());
    for sign in text.chars() {
        let known = MORE.iter().find(|(known, _)| *known == sign);
        match (u32::from(sign), known) {
            (_, Some((_, code))) => bytes.push(*code),
            (0x2300, None) => bytes.push(0xd8),
            (code @ (0x20..=0x7e | 0xa0..=0xff), None) => {
                bytes.push(u8::try_from(code).unwrap_or(b'?'));
            }
            _ => match deunicode::deunicode_char(sign) {
                Some(spelt) => {
                    bytes.extend(spelt.bytes().filter(|byte| (0x20..0x7f).contains(byte)));
                }
                None => bytes.push(b'?'),
            },
        }
    }
    bytes
}
