//! The page of a tile, and the pages that map them.

use super::super::layer::Layer;
use super::super::pattern::{Extents, MarkLine, Pattern};
use super::super::words::{heading, wide};
use super::grid::{Grid, Tile};
use super::pen::{BOLD, PLAIN, Pen};
use super::{BAR, Drawn, Print};

/// Room over the window for the heading, mm.
const HEAD: f64 = 12.0;
/// Room under it for the level bar, and left of it for the upright one, mm.
const FOOT: f64 = 14.0;
const SIDE: f64 = 12.0;
/// Room right of the window for a neighbour's name, mm.
const NAME: f64 = 5.0;
/// Maps on a page, and how many beside each other.
pub(super) const CELLS: usize = 6;
const BESIDE: usize = 2;
/// Height of the head of a page of maps, mm.
const TOP: f64 = 78.0;

const BLACK: [u8; 3] = [0, 0, 0];
const GREY: [u8; 3] = [80, 80, 80];
const PALE: [u8; 3] = [140, 140, 140];
const FAINT: [u8; 3] = [130, 130, 130];

type Laid<'a> = (&'a Pattern, [f64; 2], Grid);

/// Lower left corner and size of the window of a page of `size`, mm.
pub(super) fn window(size: [f64; 2], print: &Print) -> ([f64; 2], [f64; 2]) {
    let m = print.margin;
    (
        [m + SIDE, m + FOOT],
        [
            size[0] - 2.0 * m - SIDE - NAME,
            size[1] - 2.0 * m - HEAD - FOOT,
        ],
    )
}

/// One page of a piece.
pub(super) fn sheet(
    pattern: &Pattern,
    size: [f64; 2],
    grid: &Grid,
    tile: Tile,
    print: &Print,
) -> Drawn {
    let (low, room) = window(size, print);
    let frame = Extents {
        low,
        high: [low[0] + room[0], low[1] + room[1]],
    };
    let seen = grid.seen(tile);
    let mut pen = Pen::new();
    pen.stroke_as(FAINT, 0.13, &[]);
    pen.frame(frame);
    pen.through(frame, 1.0, seen.low, low, |pen| {
        pen.stroke_as(GREY, 0.18, &[]);
        for [x, y] in grid.crosses(tile) {
            pen.line([[x - 4.0, y], [x + 4.0, y]]);
            pen.line([[x, y - 4.0], [x, y + 4.0]]);
        }
        pen.piece(pattern, &grid.marks.lines);
        pen.words(&grid.marks.words);
    });
    head(&mut pen, pattern, grid, tile, frame);
    neighbours(&mut pen, grid, tile, frame);
    bars(&mut pen, frame);
    Drawn {
        size,
        content: pen.done(),
    }
}

fn head(pen: &mut Pen, pattern: &Pattern, grid: &Grid, tile: Tile, frame: Extents) {
    pen.fill_as(BLACK);
    let y = frame.high[1] + 5.5;
    // The piece first and the word "page" before the tag: pieces have letters for marks too.
    let place = format!(
        "page {} of {} × {}; 1:1",
        tile.tag(),
        grid.rows,
        grid.columns
    );
    // Bold letters are about a tenth wider.
    let left = frame.high[0] - 1.1 * wide(&place, 3.5);
    pen.say(BOLD, [left, y], 3.5, 0.0, &place);
    let room = (left - 6.0 - frame.low[0]) / 1.1;
    let name = fitted(&heading(pattern), 4.5, room);
    pen.say(BOLD, [frame.low[0], y], 4.5, 0.0, &name);
}

fn neighbours(pen: &mut Pen, grid: &Grid, tile: Tile, frame: Extents) {
    pen.fill_as(GREY);
    let [x, y] = [
        f64::midpoint(frame.low[0], frame.high[0]),
        f64::midpoint(frame.low[1], frame.high[1]),
    ];
    let places = [
        (0, -1, [x, frame.high[1] + 2.2], 0.0),
        (0, 1, [x + 30.0, frame.low[1] - 2.2], 0.0),
        (-1, 0, [frame.low[0] - 2.2, y + 70.0], 90.0),
        (1, 0, [frame.high[0] + 2.2, y], 90.0),
    ];
    for (right, down, middle, angle) in places {
        if let Some(other) = grid.beside(tile, right, down) {
            let words = format!("overlaps page {}", other.tag());
            pen.say_around(middle, 2.5, angle, &words);
        }
    }
}

/// The two bars to measure: bottom left, level and upright, with a tick at every 10 mm.
fn bars(pen: &mut Pen, frame: Extents) {
    let start = [frame.low[0], frame.low[1] - 7.0];
    bar(pen, start, [1.0, 0.0]);
    pen.fill_as(BLACK);
    pen.say(
        PLAIN,
        [start[0] + 1.0, start[1] - 6.0],
        2.5,
        0.0,
        "Measure both bars before cutting: each must be 100 mm. If not, print again at 100 %, \"actual size\".",
    );
    let start = [frame.low[0] - 6.5, frame.low[1]];
    bar(pen, start, [0.0, 1.0]);
    pen.say_around([start[0] - 3.2, start[1] + 50.0], 2.5, 90.0, "100 mm");
}

fn bar(pen: &mut Pen, [x, y]: [f64; 2], [ux, uy]: [f64; 2]) {
    pen.stroke_as(BLACK, 0.2, &[]);
    pen.line([[x, y], [x + BAR * ux, y + BAR * uy]]);
    for tick in 0..=10_u8 {
        let along = f64::from(tick) * BAR / 10.0;
        let long = if tick.is_multiple_of(5) { 2.5 } else { 1.2 };
        let foot = [x + along * ux, y + along * uy];
        pen.line([foot, [foot[0] + long * uy, foot[1] + long * ux]]);
    }
}

/// The pages of maps.
pub(super) fn overview(title: &str, laid: &[Laid<'_>], print: &Print) -> Vec<Drawn> {
    let size = print.paper.size();
    laid.chunks(CELLS)
        .map(|some| {
            let mut pen = Pen::new();
            introduce(&mut pen, title, laid, size, print);
            for (place, laid) in some.iter().enumerate() {
                let (column, row) = (place % BESIDE, place / BESIDE);
                let wide = (size[0] - 2.0 * print.margin - 6.0) / BESIDE as f64;
                let tall = (size[1] - 2.0 * print.margin - TOP) / CELLS.div_ceil(BESIDE) as f64;
                let left = print.margin + column as f64 * (wide + 6.0);
                let top = size[1] - print.margin - TOP - row as f64 * tall;
                let cell = Extents {
                    low: [left, top - tall + 6.0],
                    high: [left + wide, top],
                };
                map(&mut pen, laid, cell);
            }
            Drawn {
                size,
                content: pen.done(),
            }
        })
        .collect()
}

fn introduce(pen: &mut Pen, title: &str, laid: &[Laid<'_>], size: [f64; 2], print: &Print) {
    let (x, top) = (print.margin, size[1] - print.margin);
    let room = size[0] - 2.0 * x;
    pen.fill_as(BLACK);
    pen.say(BOLD, [x, top - 8.0], 6.0, 0.0, &fitted(title, 6.6, room));
    let pages: usize = laid.iter().map(|(_, _, grid)| grid.tiles.len()).sum();
    let lines = [
        format!(
            "Full-size patterns: {} pieces on {pages} pages after the maps.",
            laid.len()
        ),
        "1  Print every page at 100 % (\"actual size\"), not fitted to the paper.".into(),
        "2  Measure both bars on every page with a steel rule: each must be 100 mm.".into(),
        format!(
            "3  Lay neighbouring pages over each other by {} mm, cross on cross, and tape them.",
            print.overlap
        ),
        "4  Check the joined pattern with the sizes in the job sheet, then prick it through."
            .into(),
        "Paper stretches with damp; cut metal from it only after measuring again on the metal."
            .into(),
        "Cut edges are sharp: gloves while handling, deburr before fitting.".into(),
    ];
    for (line, y) in lines
        .iter()
        .zip((0..).map(|n| top - 18.0 - 6.0 * f64::from(n)))
    {
        pen.say(PLAIN, [x, y], 3.0, 0.0, line);
    }
    let y = top - 65.0;
    let keys = [
        (Layer::Cut, "cut"),
        (Layer::Holes, "hole"),
        (Layer::BendUp, "fold up"),
        (Layer::BendDown, "fold down"),
        (Layer::Mark, "scribe"),
    ];
    for ((layer, name), left) in keys.iter().zip((0..).map(|n| x + 38.0 * f64::from(n))) {
        pen.stroke_as(layer.rgb(), layer.width(), layer.dashes());
        pen.line([[left, y + 1.2], [left + 14.0, y + 1.2]]);
        pen.say(PLAIN, [left + 15.5, y], 2.5, 0.0, name);
    }
}

/// A small picture of a piece under the windows of its pages, each with its tag.
fn map(pen: &mut Pen, (pattern, _, grid): &Laid<'_>, cell: Extents) {
    pen.fill_as(BLACK);
    let name = fitted(&heading(pattern), 3.3, cell.width());
    pen.say(BOLD, [cell.low[0], cell.high[1] - 4.0], 3.0, 0.0, &name);
    let extents = pattern.extents_with_holes();
    let pages = grid.tiles.len();
    let size = format!(
        "{:.1} × {:.1} mm, {pages} {}",
        extents.width(),
        extents.height(),
        if pages == 1 { "page" } else { "pages" }
    );
    pen.say(PLAIN, [cell.low[0], cell.high[1] - 9.0], 2.5, 0.0, &size);
    let room = Extents {
        low: cell.low,
        high: [cell.high[0], cell.high[1] - 12.0],
    };
    let first = grid.seen(Tile { row: 0, column: 0 });
    let last = grid.seen(Tile {
        row: grid.rows.saturating_sub(1),
        column: grid.columns.saturating_sub(1),
    });
    let whole = Extents {
        low: [first.low[0], last.low[1]],
        high: [last.high[0], first.high[1]],
    };
    let scale = (room.width() / whole.width()).min(room.height() / whole.height());
    let corner = [room.low[0], room.high[1] - scale * whole.height()];
    pen.through(room, scale, whole.low, corner, |pen| {
        for tile in &grid.tiles {
            let seen = grid.seen(*tile);
            pen.stroke_as(GREY, 0.1, &[]);
            pen.frame(seen);
            let tag = tile.tag();
            let height = (seen.width().min(seen.height()) * scale * 0.3).clamp(1.0, 4.0);
            let at = [
                f64::midpoint(seen.low[0], seen.high[0]) - wide(&tag, height) / 2.0 / scale,
                f64::midpoint(seen.low[1], seen.high[1]) - height / 2.0 / scale,
            ];
            pen.fill_as(PALE);
            pen.say(BOLD, at, height, 0.0, &tag);
        }
        // Over the tags, so that no line of it is lost; without the arrow, too small to tell here.
        let stamp = pattern.stamp();
        let lines = grid.marks.lines.iter().enumerate();
        let lines: Vec<MarkLine> = lines
            .filter(|(place, _)| !stamp.lines.contains(place))
            .map(|(_, line)| *line)
            .collect();
        pen.piece(pattern, &lines);
    });
}

/// `text`, or as much of its start as is no wider than `room`, with dots.
fn fitted(text: &str, height: f64, room: f64) -> String {
    if wide(text, height) <= room {
        return text.to_owned();
    }
    let mut short = text.to_owned();
    while !short.is_empty() && wide(&short, height) + wide("…", height) > room {
        short.pop();
    }
    short.push('…');
    short
}
