//! The letter of a panel, large, with an arrow to what is up when the tank stands: in its middle, or as near to that as
//! there is room for it between holes, lines and edges.

use seamwright_core::blank::{CutBlank, Making, Panel};

use super::pattern::{Draft, MarkLine, Node, Note, Stamp};

/// Height of the letter of a panel on a piece of ordinary size, in mm.
const LETTER: f64 = 20.0;
/// Places that are tried each way from the middle, a quarter of a letter's box apart.
const STEPS: i32 = 24;

/// Puts the letter of the panel and the arrow to what is up where there is room for them.
pub(super) fn put(panel: &Panel, blank: &CutBlank, draft: &mut Draft) {
    let [width, height] = blank.size().map(|c| c * 1e3);
    let size = LETTER.min(0.2 * width.min(height));
    if size < 2.0 {
        return;
    }
    let text = panel.mark.to_string();
    let wide = super::words::wide(&text, size);
    let small = 0.25 * size;
    // The letter, the word below it, the arrow beside it.
    let half = [0.5 * wide + 0.8 * size, 0.5 * size + 1.8 * small];
    let middle = free_place(draft, middle_of(&draft.outline, [width, height]), half);
    let (notes, lines) = (draft.notes.len(), draft.lines.len());
    draft.notes.push(Note {
        at: [middle[0] - 0.5 * wide, middle[1] - 0.5 * size],
        height: size,
        angle_deg: 0.0,
        text,
    });
    let words = "outside";
    if small >= 2.0 {
        let wide = super::words::wide(words, small);
        draft.notes.push(Note {
            at: [middle[0] - 0.5 * wide, middle[1] - 0.5 * size - 1.8 * small],
            height: small,
            angle_deg: 0.0,
            text: words.to_owned(),
        });
    }
    if panel.making != Making::Rolled {
        let x = middle[0] + 0.5 * wide + 0.4 * size;
        let (low, high) = (middle[1] - 0.5 * size, middle[1] + 0.5 * size);
        let head = 0.2 * size;
        for ends in [
            [[x, low], [x, high]],
            [[x - head, high - head], [x, high]],
            [[x + head, high - head], [x, high]],
        ] {
            draft.lines.push(MarkLine { ends });
        }
    }
    draft.stamp = Stamp {
        notes: notes..draft.notes.len(),
        lines: lines..draft.lines.len(),
    };
}

/// The place nearest to the middle where a box of these halves is free of all that is cut or marked; where there is none,
/// of all that is cut; else the middle.
fn free_place(draft: &Draft, middle: [f64; 2], half: [f64; 2]) -> [f64; 2] {
    let steps = || -STEPS..=STEPS;
    let mut tried: Vec<[i32; 2]> = steps().flat_map(|x| steps().map(move |y| [x, y])).collect();
    let ([across, up], [wide, high]) = (middle, half.map(|half| 0.5 * half));
    let off = |[x, y]: &[i32; 2]| [f64::from(*x) * wide, f64::from(*y) * high];
    let far = |step: &[i32; 2]| {
        let [x, y] = off(step);
        x.hypot(y)
    };
    tried.sort_by(|a, b| far(a).total_cmp(&far(b)));
    let places = tried.iter().map(|step| {
        let [x, y] = off(step);
        [across + x, up + y]
    });
    let uncut = |at: &[f64; 2]| is_uncut(draft, *at, half);
    let unmarked = |at: &[f64; 2]| {
        let bends = draft.bends.iter().map(|bend| bend.ends);
        let lines = draft.lines.iter().map(|line| line.ends);
        bends.chain(lines).all(|ends| !crosses(ends, *at, half))
    };
    let mut clear = places.clone().filter(uncut);
    clear
        .find(unmarked)
        .or_else(|| places.clone().find(uncut))
        .unwrap_or(middle)
}

/// Whether a box lies on the sheet, clear of its holes.
fn is_uncut(draft: &Draft, [x, y]: [f64; 2], half: [f64; 2]) -> bool {
    let [wide, high] = half;
    let on_hole = draft.holes.iter().any(|hole| {
        let [to_x, to_y] = hole.at;
        let off_x = ((to_x - x).abs() - wide).max(0.0);
        let off_y = ((to_y - y).abs() - high).max(0.0);
        off_x.hypot(off_y) <= 0.5 * hole.diameter
    });
    let next = draft.outline.iter().cycle().skip(1);
    let sides = draft.outline.iter().zip(next);
    // With an odd number of sides to the right of its middle it is inside.
    let beyond = sides
        .clone()
        .filter(|(a, b)| (a.y > y) != (b.y > y) && x < a.x + (y - a.y) / (b.y - a.y) * (b.x - a.x));
    let crossed = |(a, b): (&Node, &Node)| crosses([[a.x, a.y], [b.x, b.y]], [x, y], half);
    !on_hole && beyond.count() % 2 == 1 && !sides.clone().any(crossed)
}

/// Whether a straight line passes through a box.
fn crosses([a, b]: [[f64; 2]; 2], at: [f64; 2], half: [f64; 2]) -> bool {
    let (mut from, mut to) = (0.0_f64, 1.0_f64);
    for (((a, b), at), half) in a.into_iter().zip(b).zip(at).zip(half) {
        let (start, way) = (a - at, b - a);
        if way == 0.0 {
            if start.abs() > half {
                return false;
            }
            continue;
        }
        let [one, other] = [-half, half].map(|edge| (edge - start) / way);
        from = from.max(one.min(other));
        to = to.min(one.max(other));
    }
    from <= to
}

/// The centre of area of an outline, its arcs taken as chords; the middle of its box where it has none.
fn middle_of(outline: &[Node], [width, height]: [f64; 2]) -> [f64; 2] {
    let (mut doubled, mut at) = (0.0, [0.0; 2]);
    let next = outline.iter().cycle().skip(1);
    for (a, b) in outline.iter().zip(next) {
        let cross = a.x * b.y - b.x * a.y;
        doubled += cross;
        at = [at[0] + (a.x + b.x) * cross, at[1] + (a.y + b.y) * cross];
    }
    let least = 0.1 * width * height;
    if doubled < least {
        return [0.5 * width, 0.5 * height];
    }
    at.map(|sum| sum / (3.0 * doubled))
}
