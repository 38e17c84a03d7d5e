//! Words that the joint between two pages would run through, put where one page has them whole.

use super::super::pattern::{Extents, MarkLine, Note, Pattern};
use super::super::words::{wide, words};
use super::grid::{crosses, inside};

/// What a letter may reach under its foot, over its height.
const UNDER: f64 = 0.25;

/// The words and the scribed lines of a piece as its pages show them.
#[derive(Clone, Debug)]
pub(super) struct Marks {
    pub(super) words: Vec<Note>,
    pub(super) lines: Vec<MarkLine>,
}

/// A window of a page: all that it shows, and that less what it shares with its neighbours.
#[derive(Clone, Copy, Debug)]
pub(super) struct Window {
    pub(super) seen: Extents,
    pub(super) own: Extents,
}

/// Moves the piece's letter, with what belongs to it, off the joints, anywhere on the piece; any other
/// words along their own line only, and only where no page has them whole. What finds no free place
/// stays where it is.
pub(super) fn settled(pattern: &Pattern, windows: &[Window], outline: &[[[f64; 2]; 2]]) -> Marks {
    let mut marks = Marks {
        words: words(pattern),
        lines: pattern.lines().to_vec(),
    };
    let stamp = pattern.stamp();
    for place in 0..marks.words.len() {
        if stamp.notes.contains(&place) {
            continue;
        }
        let Some(note) = marks.words.get(place) else {
            continue;
        };
        let area = around(note);
        if windows.iter().any(|window| holds(window.seen, area)) {
            continue;
        }
        let (sin, cos) = note.angle_deg.to_radians().sin_cos();
        let spots = windows
            .iter()
            .filter_map(|window| along(area, [cos, sin], window.own))
            .map(|far| [far * cos, far * sin])
            .collect();
        let lines: Vec<MarkLine> = marks.lines.clone();
        let others = marks.words.iter().enumerate();
        let others: Vec<&Note> = others
            .filter(|(n, _)| *n != place)
            .map(|(_, w)| w)
            .collect();
        if let Some(by) = nearest(spots, |by| {
            let area = moved(area, by);
            on_piece(area, outline) && free(area, pattern, &lines, &others)
        }) && let Some(note) = marks.words.get_mut(place)
        {
            shift(&mut note.at, by);
        }
    }
    stamp_off_joints(&mut marks, pattern, windows, outline);
    marks
}

fn stamp_off_joints(
    marks: &mut Marks,
    pattern: &Pattern,
    windows: &[Window],
    outline: &[[[f64; 2]; 2]],
) {
    let stamp = pattern.stamp();
    let numbered = |lines: &[MarkLine], own: bool| -> Vec<MarkLine> {
        let all = lines.iter().enumerate();
        all.filter(|(n, _)| stamp.lines.contains(n) == own)
            .map(|(_, line)| *line)
            .collect()
    };
    let (own, lines) = (numbered(&marks.lines, true), numbered(&marks.lines, false));
    let areas = marks.words.iter().enumerate();
    let areas = areas
        .filter(|(n, _)| stamp.notes.contains(n))
        .map(|(_, w)| around(w));
    let points = own.iter().flat_map(|line| line.ends);
    let areas = areas.chain(points.map(|at| Extents { low: at, high: at }));
    let Some(area) = areas.reduce(together) else {
        return;
    };
    if windows.iter().any(|window| holds(window.own, area)) {
        return;
    }
    let spots: Vec<[f64; 2]> = windows
        .iter()
        .filter_map(|window| Some((window.own, into(area, window.own)?)))
        .flat_map(|(own, least)| [least, to_middle(area, own)])
        .collect();
    let others = marks.words.iter().enumerate();
    let others: Vec<&Note> = others
        .filter(|(n, _)| !stamp.notes.contains(n))
        .map(|(_, word)| word)
        .collect();
    let by = nearest(spots.clone(), |by| {
        let area = moved(area, by);
        on_piece(area, outline) && free(area, pattern, &lines, &others)
    })
    // Over a hole or a fold it can still be read.
    .or_else(|| nearest(spots, |by| on_piece(moved(area, by), outline)));
    let Some(by) = by else { return };
    for (place, word) in marks.words.iter_mut().enumerate() {
        if stamp.notes.contains(&place) {
            shift(&mut word.at, by);
        }
    }
    for (place, line) in marks.lines.iter_mut().enumerate() {
        if stamp.lines.contains(&place) {
            line.ends.iter_mut().for_each(|end| shift(end, by));
        }
    }
}

fn shift(at: &mut [f64; 2], [dx, dy]: [f64; 2]) {
    *at = [at[0] + dx, at[1] + dy];
}

/// The first that will do of some moves, the shortest first.
fn nearest(mut spots: Vec<[f64; 2]>, fits: impl Fn([f64; 2]) -> bool) -> Option<[f64; 2]> {
    spots.sort_by(|a, b| a[0].hypot(a[1]).total_cmp(&b[0].hypot(b[1])));
    spots.into_iter().find(|by| fits(*by))
}

/// The upright box around a note.
fn around(note: &Note) -> Extents {
    let (sin, cos) = note.angle_deg.to_radians().sin_cos();
    let long = wide(&note.text, note.height);
    let corner = |along: f64, up: f64| {
        let at = [
            note.at[0] + along * cos - up * sin,
            note.at[1] + along * sin + up * cos,
        ];
        Extents { low: at, high: at }
    };
    let (foot, head) = (-UNDER * note.height, note.height);
    let some = together(corner(0.0, foot), corner(long, foot));
    together(some, together(corner(0.0, head), corner(long, head)))
}

fn together(a: Extents, b: Extents) -> Extents {
    Extents {
        low: [a.low[0].min(b.low[0]), a.low[1].min(b.low[1])],
        high: [a.high[0].max(b.high[0]), a.high[1].max(b.high[1])],
    }
}

fn moved(area: Extents, by: [f64; 2]) -> Extents {
    let mut area = area;
    shift(&mut area.low, by);
    shift(&mut area.high, by);
    area
}

fn holds(outer: Extents, inner: Extents) -> bool {
    inner.low[0] >= outer.low[0]
        && inner.low[1] >= outer.low[1]
        && inner.high[0] <= outer.high[0]
        && inner.high[1] <= outer.high[1]
}

/// From where to where a move along `direction` brings a box into a window, then the shortest such.
fn along(area: Extents, direction: [f64; 2], window: Extents) -> Option<f64> {
    let (mut least, mut most) = (f64::NEG_INFINITY, f64::INFINITY);
    for axis in 0..2 {
        let (low, high) = if axis == 0 {
            (window.low[0] - area.low[0], window.high[0] - area.high[0])
        } else {
            (window.low[1] - area.low[1], window.high[1] - area.high[1])
        };
        let along = if axis == 0 {
            direction[0]
        } else {
            direction[1]
        };
        if along.abs() < 1e-9 {
            if low > 0.0 || high < 0.0 {
                return None;
            }
            continue;
        }
        let (a, b) = (low / along, high / along);
        least = least.max(a.min(b));
        most = most.min(a.max(b));
    }
    (least <= most).then(|| 0.0_f64.max(least).min(most))
}

/// The shortest move that brings a box into a window, if it has room for it.
fn into(area: Extents, window: Extents) -> Option<[f64; 2]> {
    let right = along(area, [1.0, 0.0], flat(window, area, 1))?;
    let up = along(area, [0.0, 1.0], flat(window, area, 0))?;
    Some([right, up])
}

/// A window that asks nothing along one axis.
fn flat(window: Extents, area: Extents, axis: usize) -> Extents {
    let mut window = window;
    if axis == 0 {
        (window.low[0], window.high[0]) = (area.low[0], area.high[0]);
    } else {
        (window.low[1], window.high[1]) = (area.low[1], area.high[1]);
    }
    window
}

fn to_middle(area: Extents, window: Extents) -> [f64; 2] {
    let middle = |of: Extents| {
        [
            f64::midpoint(of.low[0], of.high[0]),
            f64::midpoint(of.low[1], of.high[1]),
        ]
    };
    let ([fx, fy], [tx, ty]) = (middle(area), middle(window));
    [tx - fx, ty - fy]
}

/// Whether a box lies within the outline.
fn on_piece(area: Extents, outline: &[[[f64; 2]; 2]]) -> bool {
    inside(area.low, outline) && !outline.iter().any(|chord| crosses(area, *chord))
}

/// Whether a box keeps clear of holes, folds, scribed lines and other words.
fn free(area: Extents, pattern: &Pattern, lines: &[MarkLine], others: &[&Note]) -> bool {
    let off_hole = pattern.holes().iter().all(|hole| {
        let [x, y] = hole.at;
        let (dx, dy) = (
            x - x.clamp(area.low[0], area.high[0]),
            y - y.clamp(area.low[1], area.high[1]),
        );
        dx.hypot(dy) >= hole.diameter / 2.0
    });
    let off_words = others.iter().all(|note| {
        let other = around(note);
        other.low[0] >= area.high[0]
            || other.low[1] >= area.high[1]
            || other.high[0] <= area.low[0]
            || other.high[1] <= area.low[1]
    });
    off_hole
        && off_words
        && !lines.iter().any(|line| crosses(area, line.ends))
        && !pattern.bends().iter().any(|bend| crosses(area, bend.ends))
}
