//! The panels of a tank as pieces: their blanks with holes, bend lines and match marks.
//!
//! Match marks are ours. A panel carries its own letter in its middle, large, with an arrow to what is up
//! when the tank stands. Beside each edge stands the mark of its seam, which names the mate, and a tick
//! runs in from the edge a third of the way along the seam from its start: on both panels of a seam the
//! ticks meet, and since a third is no middle, one way round only. All marks are on the outside.

use seamwright_core::blank::{CutBlank, Panel};
use seamwright_core::body::{Edge, Path};
use seamwright_core::geom::Vector;
use seamwright_core::input::Face;
use seamwright_core::tank::Tank;
use seamwright_core::units::{AngleUnit, Length, LengthUnit};

use super::letter;
use super::marked::{self, Marked};
use super::pattern::{Bend, Draft, Fault, Hole, MarkLine, Node, Note, Pattern};
use crate::cut::Cut;

/// A panel with its piece.
#[derive(Clone, Debug)]
pub struct Piece {
    /// The panel.
    pub panel: Panel,
    /// Its sheet, in mm.
    pub thickness: f64,
    /// What is cut; `None` for a dished end, which is bought or spun.
    pub pattern: Option<Pattern>,
    /// What is marked on it.
    pub marked: Vec<Marked>,
}

/// Height of the marks along edges, in mm.
const EDGE_MARK: f64 = 5.0;
/// Length of a tick, in mm.
const TICK: f64 = 10.0;
/// Half of what the marks of an edge stand further in where it ends in a flange, at most, in mm.
const FLANGE_ROOM: f64 = 16.0;
/// Length of the arrowhead at the first end of a seam, in mm.
const FIRST: f64 = 5.0;
/// Where along its seam a tick stands.
const AT: f64 = 1.0 / 3.0;

fn mm(length: Length) -> f64 {
    length.in_unit(LengthUnit::Millimetre)
}

/// The pieces of a tank, in the order of its panels.
///
/// # Errors
/// [`Fault`] where a piece is past what the files can hold.
pub fn pieces(cut: &Cut<'_>) -> Result<Vec<Piece>, Fault> {
    let mut blank = CutBlank::new();
    cut.panels()
        .map(|panel| {
            let laid = cut.blank(&panel, &mut blank).is_ok() && !blank.is_empty();
            let (pattern, marked) = if laid {
                let marked = marked::rows(cut, &panel, &blank);
                (Some(Pattern::build(draft(cut, &panel, &blank))?), marked)
            } else {
                (None, Vec::new())
            };
            Ok(Piece {
                marked,
                thickness: mm(panel.thickness),
                panel,
                pattern,
            })
        })
        .collect()
}

fn draft(cut: &Cut<'_>, panel: &Panel, blank: &CutBlank) -> Draft {
    let tank = cut.tank();
    let faces: Vec<String> = panel.faces.iter().map(ToString::to_string).collect();
    let mut draft = Draft {
        mark: panel.mark.to_string(),
        title: title(&faces),
        outline: blank
            .outline()
            .map(|node| Node {
                x: node.x * 1e3,
                y: node.y * 1e3,
                bulge: node.bulge,
            })
            .collect(),
        ..Draft::default()
    };
    for bend in blank.bends() {
        let radius = mm(bend.radius);
        draft.bends.push(Bend {
            ends: bend.ends.map(|end| end.map(|c| c * 1e3)),
            label: format!(
                "{:.1}° {} r {}",
                bend.turn.in_unit(AngleUnit::Degree),
                if bend.towards { "up" } else { "down" },
                number(radius)
            ),
            up: bend.towards,
        });
    }
    for relief in blank.reliefs() {
        draft.holes.push(Hole {
            at: relief.at.map(|c| c * 1e3),
            diameter: mm(relief.diameter),
            label: String::new(),
        });
    }
    fittings(tank, panel, blank, &mut draft);
    baffle_holes(tank, panel, blank, &mut draft);
    plug_holes(tank, panel, blank, &mut draft);
    edges(cut, panel, blank, &mut draft);
    scribed(cut, panel, blank, &mut draft);
    letter::put(panel, blank, &mut draft);
    draft
}

/// Lines of baffles and quarters, and a small ring at the first end of each seam.
fn scribed(cut: &Cut<'_>, panel: &Panel, blank: &CutBlank, draft: &mut Draft) {
    let marker = cut.tank().marker(cut.larger(), panel, blank);
    let to_mm = |at: [f64; 2]| at.map(|c| c * 1e3);
    for scribe in marker.scribes() {
        let [a, b] = scribe.ends.map(to_mm);
        if (a[0] - b[0]).hypot(a[1] - b[1]) > super::pattern::LEAST_LENGTH {
            draft.lines.push(MarkLine { ends: [a, b] });
        }
    }
    for seam in marker.seams() {
        let ([x, y], [to_x, to_y]) = (to_mm(seam.first), to_mm(seam.last));
        let long = (to_x - x).hypot(to_y - y);
        if long < 4.0 * FIRST {
            continue;
        }
        // An arrowhead along the seam, from its first end.
        let (ux, uy) = ((to_x - x) / long, (to_y - y) / long);
        let tip = [x + FIRST * ux, y + FIRST * uy];
        for side in [0.4, -0.4] {
            let back = [x - side * FIRST * uy, y + side * FIRST * ux];
            draft.lines.push(MarkLine { ends: [back, tip] });
        }
    }
}

fn title(faces: &[String]) -> String {
    match faces {
        [first, .., last] if faces.len() > 3 => format!("{first} to {last}"),
        few => few.join(", "),
    }
}

/// A number of millimetres without idle zeros.
fn number(value: f64) -> String {
    let text = format!("{value:.2}");
    text.trim_end_matches('0').trim_end_matches('.').to_owned()
}

fn fittings(tank: &Tank, panel: &Panel, blank: &CutBlank, draft: &mut Draft) {
    for (fitting, number) in tank.fittings().zip(1..) {
        if !panel.faces.contains(&fitting.face()) {
            continue;
        }
        let at = if fitting.face() == Face::Shell {
            let [along, round] = fitting.at().map(Length::si);
            blank.place_round(along, round)
        } else {
            blank.place(tank.body(), fitting.face(), fitting.centre)
        };
        if let Some(at) = at {
            draft.holes.push(Hole {
                at: at.map(|c| c * 1e3),
                diameter: mm(fitting.hole()),
                label: format!("{number} {}", fitting.name()),
            });
        }
    }
}

fn baffle_holes(tank: &Tank, panel: &Panel, blank: &CutBlank, draft: &mut Draft) {
    let Face::Baffle(number) = panel.face() else {
        return;
    };
    let place = usize::from(number).saturating_sub(1);
    let Some(baffle) = tank.inner().baffles().get(place) else {
        return;
    };
    for hole in baffle.holes() {
        let [x, y] = hole.at;
        if let Some(at) = blank.place(tank.body(), panel.face(), Vector::new(x, y, 0.0)) {
            draft.holes.push(Hole {
                at: at.map(|c| c * 1e3),
                diameter: 2e3 * hole.radius,
                label: String::new(),
            });
        }
    }
}

/// Holes in a wall for the plug welds that hold a baffle.
fn plug_holes(tank: &Tank, panel: &Panel, blank: &CutBlank, draft: &mut Draft) {
    for hole in tank
        .plug_holes()
        .filter(|hole| panel.faces.contains(&hole.wall))
    {
        if let Some(at) = blank.place(tank.body(), hole.wall, hole.centre) {
            draft.holes.push(Hole {
                at: at.map(|c| c * 1e3),
                diameter: mm(hole.diameter),
                label: String::new(),
            });
        }
    }
}

/// Marks and ticks along the edges.
fn edges(cut: &Cut<'_>, panel: &Panel, blank: &CutBlank, draft: &mut Draft) {
    let tank = cut.tank();
    for (seam, place) in tank.seams().zip(0..) {
        if !seam.welded {
            continue;
        }
        let Some(edge) = tank.edge_of_seam(place) else {
            continue;
        };
        let mark = seam.mark.to_string();
        for face in distinct(edge.faces) {
            if !panel.faces.contains(&face) || matches!(face, Face::Baffle(_)) {
                continue;
            }
            // Fittings and baffles stand within their wall: a hole, or no mark, says where.
            if matches!(edge.faces[1], Face::Fitting(_) | Face::Baffle(_)) {
                continue;
            }
            if face == Face::Shell || matches!(edge.path, Path::Round(_)) {
                round_mark(tank, blank, face, &edge, &mark, draft);
                continue;
            }
            let Some(view) = tank.body().outside.face(face) else {
                continue;
            };
            let fit = cut.edge_fit(face, &edge);
            let bevel = fit.bevel.in_unit(AngleUnit::Degree);
            let text = if bevel > 0.5 {
                format!("{mark} bevel {bevel:.0}°")
            } else {
                mark.clone()
            };
            let inward = inward(&edge, view.normal(), view.outline());
            // The line along which a wrapper is closed has an edge of the blank on either side.
            let closing = edge.faces[0] == edge.faces[1];
            let sides: &[f64] = if closing { &[1.0, -1.0] } else { &[1.0] };
            // In the middle of a side that is parted lies that line: the words go beside it.
            let parted = blank.faces().filter(|own| *own == face).count() > 1;
            for side in sides {
                let spot = Spot {
                    tank,
                    blank,
                    face,
                    edge: &edge,
                    inward: inward * *side,
                    words: if parted && !closing { 0.25 } else { 0.5 },
                };
                // Clear of the bend of a flange.
                let from = mm(fit.deduct) + 2.0 * mm(fit.flange).min(FLANGE_ROOM);
                place_mark(&spot, from, &text, draft);
            }
        }
    }
}

/// The marks of a drum's seams: on the blank of its wall, where the axis runs to the right and the way round
/// it up, and on a flat end.
fn round_mark(
    tank: &Tank,
    blank: &CutBlank,
    face: Face,
    edge: &Edge,
    mark: &str,
    draft: &mut Draft,
) {
    let [width, height] = blank.size().map(|c| c * 1e3);
    let far = matches!(edge.faces[0], Face::Top | Face::Right);
    match (edge.path, face) {
        (Path::Round(_), Face::Shell) => {
            let (from, into) = if far { (width, -1.0) } else { (0.0, 1.0) };
            // Seen from outside, from the seam up as its ends are walked: the same third as on the end.
            let at = |share: f64, depth: f64| [from + into * depth, share * height];
            stamp(
                [at(AT, 0.0), at(AT, TICK)],
                [at(0.5, 0.0), at(0.5, 1.0)],
                mark,
                draft,
            );
        }
        (Path::Round(turn), _) => {
            let at = |share: f64, depth: f64| {
                let point = turn.at(share * turn.sweep);
                let inward = (turn.centre - point) * (1.0 / turn.radius);
                // The blank of an end falls short of the outside, or runs past it, by its joint.
                let own = 0.5e-3 * width;
                let point = turn.centre - inward * (own - depth * 1e-3);
                blank
                    .place(tank.body(), face, point)
                    .map(|at| at.map(|c| c * 1e3))
            };
            if let (Some(a), Some(b), Some(c), Some(d)) =
                (at(AT, 0.0), at(AT, TICK), at(0.5, 0.0), at(0.5, 1.0))
            {
                stamp([a, b], [c, d], mark, draft);
            }
        }
        _ => {
            for (from, into) in [(0.0, 1.0), (height, -1.0)] {
                let at = |share: f64, depth: f64| [share * width, from + into * depth];
                stamp(
                    [at(AT, 0.0), at(AT, TICK)],
                    [at(0.5, 0.0), at(0.5, 1.0)],
                    mark,
                    draft,
                );
            }
        }
    }
}

/// A tick, and a mark at the foot of a step from the edge inward.
fn stamp(tick: [[f64; 2]; 2], [foot, inner]: [[f64; 2]; 2], text: &str, draft: &mut Draft) {
    draft.lines.push(MarkLine { ends: tick });
    let up = (inner[1] - foot[1]).atan2(inner[0] - foot[0]);
    let (sine, cosine) = (up - std::f64::consts::FRAC_PI_2).sin_cos();
    let (back, rise) = (0.5 * super::words::wide(text, EDGE_MARK), 0.6 * EDGE_MARK);
    draft.notes.push(Note {
        at: [
            foot[0] + rise * up.cos() - back * cosine,
            foot[1] + rise * up.sin() - back * sine,
        ],
        height: EDGE_MARK,
        angle_deg: up.to_degrees() - 90.0,
        text: text.to_owned(),
    });
}

fn distinct([a, b]: [Face; 2]) -> Vec<Face> {
    if a == b { vec![a] } else { vec![a, b] }
}

/// From an edge into its face, square to the edge.
fn inward(edge: &Edge, normal: Vector, outline: impl Iterator<Item = Vector> + Clone) -> Vector {
    let [start, end] = edge.straight();
    let across = normal.cross(end - start).unit().unwrap_or_default();
    let count = outline.clone().count().max(1) as f64;
    let middle = outline.fold(Vector::ZERO, |sum, p| sum + p) * (1.0 / count);
    if across.dot(middle - start) < 0.0 {
        -across
    } else {
        across
    }
}

/// Where a mark is to stand.
struct Spot<'a> {
    tank: &'a Tank,
    blank: &'a CutBlank,
    face: Face,
    edge: &'a Edge,
    /// Into the face, square to the edge.
    inward: Vector,
    /// Where along the seam the words stand.
    words: f64,
}

fn place_mark(spot: &Spot<'_>, deduct: f64, text: &str, draft: &mut Draft) {
    let Spot {
        tank,
        blank,
        face,
        edge,
        inward,
        words,
    } = *spot;
    let [start, end] = edge.straight();
    let length = (end - start).length() * 1e3;
    let on = |share: f64, depth: f64| {
        let point = start + (end - start) * share + inward * (depth * 1e-3);
        blank
            .place(tank.body(), face, point)
            .map(|at| at.map(|c| c * 1e3))
    };
    // A hair within the edge, so that of a parted side the half is found on which the mark stands.
    let from = deduct.max(0.0) + super::pattern::LEAST_LENGTH;
    // A tick no longer than a fifth of a short edge, so that it stays within its panel.
    let tick = TICK.min(0.2 * length);
    if let (Some(a), Some(b)) = (on(AT, from), on(AT, from + tick))
        && (a[0] - b[0]).hypot(a[1] - b[1]) > super::pattern::LEAST_LENGTH
    {
        draft.lines.push(MarkLine { ends: [a, b] });
    }
    let height = EDGE_MARK.min(0.12 * length);
    if height < 1.0 {
        return;
    }
    // Read along the edge, its foot towards the edge.
    let (Some(a), Some(b)) = (
        on(words, from + 0.6 * height),
        on(words, from + 1.6 * height),
    ) else {
        return;
    };
    let up = (b[1] - a[1]).atan2(b[0] - a[0]).to_degrees() - 90.0;
    let wide = super::words::wide(text, height);
    let (sine, cosine) = up.to_radians().sin_cos();
    draft.notes.push(Note {
        at: [a[0] - 0.5 * wide * cosine, a[1] - 0.5 * wide * sine],
        height,
        angle_deg: up,
        text: text.to_owned(),
    });
}
