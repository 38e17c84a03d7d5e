//! Where the words of a piece stand: its notes, and the labels of its holes and bends.

use super::pattern::{Bend, Hole, Note, Pattern};

/// Height of a label's capitals, mm.
pub(super) const LABEL: f64 = 3.5;
/// Height of a capital over the size of the type: 0.718 in the metrics of Helvetica, a core font of PDF.
pub(super) const CAPITAL: f64 = 0.718;

/// All words on `pattern`, each turned so that it reads from below or from the right.
pub(super) fn words(pattern: &Pattern) -> Vec<Note> {
    let holes = pattern.holes().iter().filter_map(hole);
    let bends = pattern.bends().iter().filter_map(bend);
    pattern
        .notes()
        .iter()
        .cloned()
        .chain(holes)
        .chain(bends)
        .collect()
}

/// The mark and title, as one line.
pub(super) fn heading(pattern: &Pattern) -> String {
    if pattern.title().trim().is_empty() {
        return pattern.mark().to_owned();
    }
    format!("{}  {}", pattern.mark(), pattern.title())
}

/// About how wide `text` is in a plain sans serif, in mm, at capitals of `height` mm.
pub(super) fn wide(text: &str, height: f64) -> f64 {
    text.chars().map(em).sum::<f64>() * height / CAPITAL
}

/// About how wide a sign is, over the size of the type: good enough to centre by.
fn em(sign: char) -> f64 {
    match sign {
        'i' | 'j' | 'l' | '\'' | '|' => 0.22,
        ' ' | '.' | ',' | ':' | ';' | '!' | 'f' | 't' | 'I' | '/' => 0.28,
        'r' | '-' | '(' | ')' | '[' | ']' | '°' | '"' => 0.34,
        'c' | 'k' | 's' | 'v' | 'x' | 'y' | 'z' | 'J' => 0.5,
        'm' | 'M' | '%' | '@' => 0.86,
        'w' | 'G' | 'O' | 'Q' | 'C' | 'D' | 'H' | 'N' | 'R' | 'U' => 0.73,
        'W' => 0.94,
        other if other.is_uppercase() => 0.66,
        other if other.is_ascii() || other.is_alphabetic() && u32::from(other) < 0x2000 => 0.556,
        _ => 1.0,
    }
}

/// Beside a large hole's rim, clear of it.
fn hole(hole: &Hole) -> Option<Note> {
    let Hole {
        at: [x, y],
        diameter,
        label,
    } = hole;
    if label.trim().is_empty() {
        return None;
    }
    let inside = wide(label, LABEL) + 2.0 < diameter * 0.9;
    let at = if inside {
        [x - wide(label, LABEL) / 2.0, y + 2.0]
    } else {
        [x + diameter / 2.0 + 1.5, y - LABEL / 2.0]
    };
    Some(Note {
        at,
        height: LABEL,
        angle_deg: 0.0,
        text: label.clone(),
    })
}

/// Along the fold, above its middle.
fn bend(bend: &Bend) -> Option<Note> {
    if bend.label.trim().is_empty() {
        return None;
    }
    let [[ax, ay], [bx, by]] = bend.ends;
    // Leftward lines are read from their other end.
    let (dx, dy) = if bx < ax - 1e-6 || ((bx - ax).abs() <= 1e-6 && by < ay) {
        (ax - bx, ay - by)
    } else {
        (bx - ax, by - ay)
    };
    let long = dx.hypot(dy);
    let (ux, uy) = (dx / long, dy / long);
    let back = wide(&bend.label, LABEL) / 2.0;
    let above = 1.2;
    Some(Note {
        at: [
            f64::midpoint(ax, bx) - ux * back - uy * above,
            f64::midpoint(ay, by) - uy * back + ux * above,
        ],
        height: LABEL,
        angle_deg: uy.atan2(ux).to_degrees(),
        text: bend.label.clone(),
    })
}
