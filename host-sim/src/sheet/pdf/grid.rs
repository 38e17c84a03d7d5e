//! Which part of a piece goes on which page.

use std::f64::consts::PI;

use super::super::pattern::{Extents, Note, Pattern, Segment};
use super::super::words::wide;
use super::marks::{Marks, Window, settled};

/// Room kept around a piece so that its lines are whole, mm.
const ROOM: f64 = 3.0;
/// From the strip that two pages share to what is moved off it, mm.
const OFF_JOINT: f64 = 4.0;
/// Letters that name the rows.
const LETTERS: usize = 26;

/// Where the two crosses of an overlap may stand along it, the best first.
const PLACES: [[f64; 5]; 2] = [[0.2, 0.26, 0.14, 0.32, 0.38], [0.8, 0.74, 0.86, 0.68, 0.62]];
/// From a cross's middle to the nearest letters, at least, mm.
const CLEAR: f64 = 5.5;

/// One page's window on the piece.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Tile {
    /// Counted from the top.
    pub(super) row: usize,
    /// Counted from the left.
    pub(super) column: usize,
}

impl Tile {
    /// The row's letters and the column's number, "A1" at the top left.
    pub(super) fn tag(self) -> String {
        let mut letters = Vec::new();
        let mut left = self.row + 1;
        while left > 0 {
            left -= 1;
            letters.push(char::from(b'A' + u8::try_from(left % LETTERS).unwrap_or(0)));
            left /= LETTERS;
        }
        let row: String = letters.iter().rev().collect();
        format!("{row}{}", self.column + 1)
    }
}

/// Windows of one size that cover a piece, each overlapping the next.
#[derive(Clone, Debug)]
pub(super) struct Grid {
    /// Upper left corner of the first window, mm in the piece's axes.
    corner: [f64; 2],
    /// Width and height of a window, mm.
    pub(super) window: [f64; 2],
    /// How much neighbours share, mm.
    overlap: f64,
    pub(super) columns: usize,
    pub(super) rows: usize,
    /// The windows that hold a part of the piece, row by row.
    pub(super) tiles: Vec<Tile>,
    /// The piece's words and scribed lines, off the joints of these windows.
    pub(super) marks: Marks,
}

impl Grid {
    /// How many windows side by side it takes, and across, without looking at which stay blank.
    pub(super) fn count(
        extents: Extents,
        [width, height]: [f64; 2],
        overlap: f64,
    ) -> (usize, usize) {
        let needed = |long: f64, window: f64| {
            let steps = ((long + 2.0 * ROOM - overlap) / (window - overlap)).ceil();
            // At most a few thousand: the reach of a piece over the least window.
            (steps.max(1.0)) as usize
        };
        (
            needed(extents.width(), width),
            needed(extents.height(), height),
        )
    }

    pub(super) fn lay(pattern: &Pattern, window: [f64; 2], overlap: f64) -> Self {
        let extents = pattern.extents_with_holes();
        let (columns, rows) = Self::count(extents, window, overlap);
        let covered = |count: usize, long: f64| count as f64 * (long - overlap) + overlap;
        let aside = (covered(columns, window[0]) - extents.width()) / 2.0;
        let above = (covered(rows, window[1]) - extents.height()) / 2.0;
        let mut grid = Self {
            corner: [extents.low[0] - aside, extents.high[1] + above],
            window,
            overlap,
            columns,
            rows,
            tiles: Vec::new(),
            marks: Marks {
                words: Vec::new(),
                lines: Vec::new(),
            },
        };
        let chords = chords(pattern);
        let all = (0..rows).flat_map(|row| (0..columns).map(move |column| Tile { row, column }));
        grid.tiles = all
            .filter(|tile| holds(grid.seen(*tile), pattern, &chords))
            .collect();
        let windows: Vec<Window> = grid
            .tiles
            .iter()
            .map(|tile| grid.window_of(*tile))
            .collect();
        grid.marks = settled(pattern, &windows, &chords);
        grid
    }

    /// What a page shows, mm in the piece's axes.
    pub(super) fn seen(&self, tile: Tile) -> Extents {
        let [width, height] = self.window;
        let left = self.corner[0] + tile.column as f64 * (width - self.overlap);
        let top = self.corner[1] - tile.row as f64 * (height - self.overlap);
        Extents {
            low: [left, top - height],
            high: [left + width, top],
        }
    }

    /// What a page shows, and that less the strips that it shares with printed neighbours, and a little.
    fn window_of(&self, tile: Tile) -> Window {
        let seen = self.seen(tile);
        let shared = |right: isize, down: isize| match self.beside(tile, right, down) {
            Some(_) => self.overlap + OFF_JOINT,
            None => 0.0,
        };
        let own = Extents {
            low: [seen.low[0] + shared(-1, 0), seen.low[1] + shared(0, 1)],
            high: [seen.high[0] - shared(1, 0), seen.high[1] - shared(0, -1)],
        };
        Window { seen, own }
    }

    /// The neighbour so many columns to the right and rows down, if it is printed.
    pub(super) fn beside(&self, tile: Tile, right: isize, down: isize) -> Option<Tile> {
        let beside = Tile {
            row: tile.row.checked_add_signed(down)?,
            column: tile.column.checked_add_signed(right)?,
        };
        self.tiles.contains(&beside).then_some(beside)
    }

    /// The middles of the crosses that `tile` shares with its neighbours. The two pages of an overlap
    /// find the same points, for each point is reckoned from the left or upper page of the two. A cross
    /// moves out of the way of words where there is room.
    pub(super) fn crosses(&self, tile: Tile) -> Vec<[f64; 2]> {
        let words = &self.marks.words;
        let mut found = Vec::new();
        let pairs = [
            (Some(tile), self.beside(tile, 1, 0), true),
            (self.beside(tile, -1, 0), Some(tile), true),
            (Some(tile), self.beside(tile, 0, 1), false),
            (self.beside(tile, 0, -1), Some(tile), false),
        ];
        for (first, second, across) in pairs {
            let (Some(first), Some(_)) = (first, second) else {
                continue;
            };
            let seen = self.seen(first);
            let at = |part: f64| {
                if across {
                    [
                        seen.high[0] - self.overlap / 2.0,
                        seen.low[1] + part * self.window[1],
                    ]
                } else {
                    [
                        seen.low[0] + part * self.window[0],
                        seen.low[1] + self.overlap / 2.0,
                    ]
                }
            };
            for places in PLACES {
                let mut spots = places.iter().map(|part| at(*part));
                let free = spots.find(|at| words.iter().all(|note| clear(*at, note)));
                found.extend(free.or_else(|| places.first().map(|part| at(*part))));
            }
        }
        found
    }
}

/// Whether a cross at a point keeps clear of the box around a note.
fn clear([x, y]: [f64; 2], note: &Note) -> bool {
    let (sin, cos) = note.angle_deg.to_radians().sin_cos();
    let (dx, dy) = (x - note.at[0], y - note.at[1]);
    // Along the line of the letters and square to it.
    let (along, above) = (dx * cos + dy * sin, dy * cos - dx * sin);
    let past = |value: f64, long: f64| (value - value.clamp(0.0, long)).abs();
    past(along, wide(&note.text, note.height)).hypot(past(above, note.height)) >= CLEAR
}

/// The outline as chords of at most 2°, to ask where it runs; never to draw it.
fn chords(pattern: &Pattern) -> Vec<[[f64; 2]; 2]> {
    let mut found = Vec::new();
    for segment in pattern.segments() {
        match segment {
            Segment::Line { from, to } => found.push([from, to]),
            Segment::Arc {
                from,
                centre: [cx, cy],
                radius,
                start,
                sweep,
                ..
            } => {
                let count = (sweep.abs() / (PI / 90.0)).ceil().max(1.0) as u32;
                let mut last = from;
                for part in 1..=count {
                    let angle = start + sweep * f64::from(part) / f64::from(count);
                    let next = [cx + radius * angle.cos(), cy + radius * angle.sin()];
                    found.push([last, next]);
                    last = next;
                }
            }
        }
    }
    found
}

/// Whether any part of the piece shows in the window: its edge, its inside, or a hole.
fn holds(seen: Extents, pattern: &Pattern, chords: &[[[f64; 2]; 2]]) -> bool {
    let middle = [
        f64::midpoint(seen.low[0], seen.high[0]),
        f64::midpoint(seen.low[1], seen.high[1]),
    ];
    let hole_shows = pattern.holes().iter().any(|hole| {
        let r = hole.diameter / 2.0;
        (0..2).all(|axis| {
            let (at, low, high) = if axis == 0 {
                (hole.at[0], seen.low[0], seen.high[0])
            } else {
                (hole.at[1], seen.low[1], seen.high[1])
            };
            at + r > low && at - r < high
        })
    });
    hole_shows || chords.iter().any(|chord| crosses(seen, *chord)) || inside(middle, chords)
}

/// Whether a chord enters the window: the part of it between each pair of sides, narrowed in turn.
pub(super) fn crosses(seen: Extents, [a, b]: [[f64; 2]; 2]) -> bool {
    let (mut from, mut to) = (0.0_f64, 1.0_f64);
    let sides = [
        (a[0], b[0] - a[0], seen.low[0], seen.high[0]),
        (a[1], b[1] - a[1], seen.low[1], seen.high[1]),
    ];
    for (start, long, low, high) in sides {
        if long.abs() < 1e-12 {
            if start < low || start > high {
                return false;
            }
            continue;
        }
        let (p, q) = ((low - start) / long, (high - start) / long);
        from = from.max(p.min(q));
        to = to.min(p.max(q));
    }
    from <= to
}

/// Whether a ray to the right leaves the outline an odd number of times.
pub(super) fn inside([x, y]: [f64; 2], chords: &[[[f64; 2]; 2]]) -> bool {
    let hits = chords.iter().filter(|[a, b]| {
        (a[1] > y) != (b[1] > y) && x < a[0] + (y - a[1]) / (b[1] - a[1]) * (b[0] - a[0])
    });
    hits.count() % 2 == 1
}
