//! A dipstick's marks at full size: a strip to stick on a rod, or to scribe one by.
//!
//! A strip longer than a page goes on beside itself and on the next page; the pieces overlap, and a dashed
//! line across each end says where one is laid on the other.

use pdf_writer::Name;

use super::super::pattern::Extents;
use super::super::words::wide;
use super::page::{bars, fitted, window};
use super::pen::{BOLD, PLAIN, Pen};
use super::{Drawn, Fault, MOST_PAGES, Print, file};

/// Width of the strip, and of the column that it stands in, mm.
const WIDTH: f64 = 50.0;
const COLUMN: f64 = 57.0;
/// Bare strip over the last mark, mm.
const SPARE: f64 = 12.0;
/// Room for the names of the joins under and over a piece, mm.
const NAMES: f64 = 6.0;
/// Length of a mark, mm.
const LONG: f64 = 14.0;
/// Height of a label's capitals at the most and at the least, and the least from one label to the next, mm.
const LABEL: [f64; 2] = [2.8, 1.9];
const APART: f64 = 4.0;
/// Height of the capitals beside a label, and the gap before and after one, mm.
const ASIDE: f64 = 1.9;
const GAP: f64 = 1.5;
/// Thickness of a mark, mm; its middle counts.
const LINE: f64 = 0.18;

const BLACK: [u8; 3] = [0, 0, 0];
const GREY: [u8; 3] = [110, 110, 110];

/// One mark of a rod.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Mark {
    /// From the foot of the rod, mm.
    pub at: f64,
    /// What stands beside it, large.
    pub label: String,
    /// What stands beside that, small.
    pub aside: String,
}

/// The height at which every label leaves room for what stands beside it.
fn lettering(marks: &[Mark]) -> f64 {
    let [most, least] = LABEL;
    let fits = |mark: &Mark| {
        let room = WIDTH - LONG - 2.0 * GAP - 0.5 - wide(&mark.aside, ASIDE);
        room / (1.1 * wide(&mark.label, 1.0))
    };
    marks.iter().map(fits).fold(most, f64::min).max(least)
}

/// A part of the strip on paper.
struct Part {
    /// Which, counted from 0.
    number: usize,
    /// The stretch of the rod that it shows, mm from its foot.
    low: f64,
    high: f64,
}

/// How a strip of a length parts, each part `tall`, neighbours sharing `overlap`.
fn parts(length: f64, tall: f64, overlap: f64) -> Result<Vec<Part>, Fault> {
    let step = tall - overlap;
    let count = ((length - overlap) / step).ceil().max(1.0);
    // Two or more parts go on a page.
    let fits = count <= 2.0 * MOST_PAGES as f64;
    if !fits {
        return Err(Fault::Pages {
            mark: "dipstick".to_owned(),
            count: if count < 1e9 {
                count as usize
            } else {
                usize::MAX
            },
        });
    }
    Ok((0..count as usize)
        .map(|number| {
            let low = number as f64 * step;
            Part {
                number,
                low,
                high: length.min(low + tall),
            }
        })
        .collect())
}

/// A strip with marks at their true places, the lowest first, as a PDF file. `note` says what the marks
/// rest on. The same marks give the same bytes.
///
/// # Errors
/// No marks, or too many pages.
pub fn strip(title: &str, note: &str, marks: &[Mark], print: &Print) -> Result<Vec<u8>, Fault> {
    let Some(last) = marks.last() else {
        return Err(Fault::Nothing);
    };
    let size = print.paper.size();
    let (low, [room, height]) = window(size, print);
    let beside = ((room / COLUMN) as usize).max(1);
    let parts = parts(last.at + SPARE, height - 2.0 * NAMES, print.overlap)?;
    let count = parts.len();
    let label = lettering(marks);
    let pages = count.div_ceil(beside);
    let drawn: Vec<Drawn> = parts
        .chunks(beside)
        .zip(1_usize..)
        .map(|(some, page)| {
            let mut pen = Pen::new();
            let frame = Extents {
                low,
                high: [low[0] + room, low[1] + height],
            };
            head(
                &mut pen,
                frame,
                &format!("Dipstick: {title}"),
                note,
                [page, pages],
            );
            for (part, column) in some.iter().zip(0_u8..) {
                let foot = [low[0] + f64::from(column) * COLUMN, low[1] + NAMES];
                piece(&mut pen, part, count, (marks, label), foot, print.overlap);
            }
            bars(&mut pen, frame);
            Drawn {
                size,
                content: pen.done(),
            }
        })
        .collect();
    Ok(file(&format!("Dipstick: {title}"), &drawn))
}

fn head(pen: &mut Pen, frame: Extents, title: &str, note: &str, [page, pages]: [usize; 2]) {
    pen.fill_as(BLACK);
    let place = format!("page {page} of {pages}; 1:1");
    let y = frame.high[1] + 6.5;
    // Bold letters are about a tenth wider.
    let left = frame.high[0] - 1.1 * wide(&place, 3.5);
    pen.say(BOLD, [left, y], 3.5, 0.0, &place);
    let room = (left - 6.0 - frame.low[0]) / 1.1;
    pen.say(BOLD, [frame.low[0], y], 4.5, 0.0, &fitted(title, 4.5, room));
    let note = fitted(note, 2.5, frame.width());
    pen.say(PLAIN, [frame.low[0], frame.high[1] + 1.2], 2.5, 0.0, &note);
}

/// One part of the strip, its lower left corner at `foot` of the page; labels are `label` high.
fn piece(
    pen: &mut Pen,
    part: &Part,
    count: usize,
    (marks, label): (&[Mark], f64),
    foot: [f64; 2],
    overlap: f64,
) {
    let at = |y: f64| foot[1] + y - part.low;
    let [left, right] = [foot[0], foot[0] + WIDTH];
    let (bottom, top) = (at(part.low), at(part.high));
    pen.stroke_as(BLACK, LINE, &[]);
    pen.line([[left, bottom], [left, top]]);
    pen.stroke_as(GREY, LINE, &[]);
    pen.line([[right, bottom], [right, top]]);
    let mut say = |font: Name, x: f64, y: f64, height: f64, text: &str, rgb: [u8; 3]| {
        pen.fill_as(rgb);
        pen.say(font, [x, y - height / 2.0], height, 0.0, text);
    };
    // The words at the foot stand over its line.
    let clear = |y: f64| y.max(bottom + 0.5 + label / 2.0);
    let mut labelled = f64::NEG_INFINITY;
    let shown = || {
        marks
            .iter()
            .filter(|mark| mark.at >= part.low - 1e-9 && mark.at <= part.high + 1e-9)
    };
    for mark in shown() {
        if mark.at - labelled >= APART {
            labelled = mark.at;
            let x = left + LONG + GAP;
            say(BOLD, x, clear(at(mark.at)), label, &mark.label, BLACK);
            // Bold letters are about a tenth wider.
            let x = x + 1.1 * wide(&mark.label, label) + GAP;
            let room = right - 0.5 - x;
            let aside = fitted(&mark.aside, ASIDE, room);
            say(PLAIN, x, clear(at(mark.at)), ASIDE, &aside, GREY);
        }
    }
    let mut name = |y: f64, text: &str| say(PLAIN, left, y, 2.2, text, BLACK);
    let last = part.number + 1 == count;
    if part.number == 0 {
        name(bottom - 3.0, "foot of the rod: 0 mm, cut here");
    } else {
        name(
            bottom - 3.0,
            &format!("part {}, on top of part {}", part.number + 1, part.number),
        );
    }
    if !last {
        name(
            top + 3.0,
            &format!("part {} goes on, dashes on dashes", part.number + 2),
        );
    }
    pen.stroke_as(BLACK, LINE, &[]);
    for mark in shown() {
        pen.line([[left, at(mark.at)], [left + LONG, at(mark.at)]]);
    }
    if part.number == 0 {
        pen.line([[left, bottom], [right, bottom]]);
    }
    pen.stroke_as(GREY, LINE, &[2.0, 1.5]);
    if part.number > 0 {
        let y = at(part.low + overlap / 2.0);
        pen.line([[left, y], [right, y]]);
    }
    if !last {
        let y = at(part.high - overlap / 2.0);
        pen.line([[left, y], [right, y]]);
    }
}
