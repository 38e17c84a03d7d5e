//! What the walls of tanks bear, as text: one tank after another.

use std::fmt::Write as _;

use super::tank::{Load, bear, shell};
use super::{Along, Found, Named, PlateShell};
use seamwright_core::tank::Tank;

/// About how many nodes the coarser and the finer mesh have.
pub const NODES: [f64; 2] = [4000.0, 16_000.0];

/// One edge of a sheet.
#[derive(Clone, Debug, PartialEq)]
pub struct EdgeLine {
    /// What it meets there.
    pub beside: String,
    /// Highest von Mises stress, N/mm².
    pub stress: f64,
    /// Moment across the edge, N m/m; above zero with the inner surface in tension.
    pub moment: f64,
    /// By how much the coarser mesh's stress is off, in %.
    pub off: f64,
}

/// One sheet.
#[derive(Clone, Debug, PartialEq)]
pub struct WallLine {
    /// Its wall or baffle.
    pub face: String,
    /// Which part of it.
    pub part: u8,
    /// How thick it is, in mm.
    pub thickness: f64,
    /// Highest von Mises stress anywhere, N/mm².
    pub stress: f64,
    /// The same away from the edges.
    pub inside: f64,
    /// Largest principal moment there, N m/m; above zero with the outer surface in tension.
    pub moment: f64,
    /// Largest deflection from the plane of its edges, mm; above zero outward.
    pub deflection: f64,
    /// By how much the coarser mesh is off in `stress`, `inside` and `deflection`, in %.
    pub off: [f64; 3],
    /// Its edges.
    pub edges: Vec<EdgeLine>,
}

/// One tank under one load.
#[derive(Clone, Debug, PartialEq)]
pub struct Entry {
    /// The name of its job file, without its ending.
    pub tank: String,
    /// The word of its load.
    pub load: String,
    /// How many nodes the finer mesh has.
    pub nodes: usize,
    /// Its sheets.
    pub walls: Vec<WallLine>,
}

impl Entry {
    /// A sheet by its face and part.
    #[must_use]
    pub fn wall(&self, face: &str, part: u8) -> Option<&WallLine> {
        let mut all = self.walls.iter();
        all.find(|wall| wall.face == face && wall.part == part)
    }
}

/// Both loads of a tank on two meshes of about so many nodes, the coarser first.
#[must_use]
pub fn entries(name: &str, tank: &Tank, nodes: [f64; 2]) -> Vec<Entry> {
    let shells = nodes.map(|nodes| shell(tank, nodes));
    // About an inside corner as much is left out on both.
    let clear = 1.5 * shells[0].width();
    Load::ALL
        .into_iter()
        .map(|load| {
            let [coarse, fine] = [0, 1].map(|n: usize| bear(tank, &shells[n], load, clear));
            let both = coarse.iter().zip(&fine);
            Entry {
                tank: name.into(),
                load: load.word().into(),
                nodes: shells[1].nodes(),
                walls: both
                    .enumerate()
                    .map(|(place, (coarse, fine))| wall(&shells[1], place, coarse, fine))
                    .collect(),
            }
        })
        .collect()
}

/// In %; of what rounding has left of nothing, nothing.
fn off(coarse: f64, fine: f64) -> f64 {
    if fine.abs() < 1e-9 {
        0.0
    } else {
        100.0 * (coarse / fine - 1.0)
    }
}

fn wall(shell: &PlateShell, place: usize, coarse: &Found, fine: &Found) -> WallLine {
    let sheet = &shell.sheets()[place];
    let edge = |(coarse, fine): (&Along, &Along)| EdgeLine {
        beside: Named(fine.beside).to_string(),
        stress: 1e-6 * fine.stress,
        moment: fine.moment,
        off: off(coarse.stress, fine.stress),
    };
    WallLine {
        face: Named(sheet.face).to_string(),
        part: sheet.part,
        thickness: 1e3 * sheet.thickness,
        stress: 1e-6 * fine.stress,
        inside: 1e-6 * fine.inside,
        moment: fine.moment,
        deflection: 1e3 * fine.deflection,
        off: [
            off(coarse.stress, fine.stress),
            off(coarse.inside, fine.inside),
            off(coarse.deflection, fine.deflection),
        ],
        edges: coarse.edges.iter().zip(&fine.edges).map(edge).collect(),
    }
}

/// Writes a tank's lines for one load.
#[must_use]
pub fn written(entry: &Entry) -> String {
    let mut text = String::new();
    let _ = writeln!(text, "tank {} {} {}", entry.tank, entry.load, entry.nodes);
    for wall in &entry.walls {
        let [stress, inside, deflection] = wall.off;
        let _ = writeln!(
            text,
            "wall {} {} {:.2} {} {} {} {} {stress:.1} {inside:.1} {deflection:.1}",
            wall.face,
            wall.part,
            wall.thickness,
            Five(wall.stress),
            Five(wall.inside),
            Five(wall.moment),
            Five(wall.deflection),
        );
        for edge in &wall.edges {
            let _ = writeln!(
                text,
                "edge {} {} {} {:.1}",
                edge.beside,
                Five(edge.stress),
                Five(edge.moment),
                edge.off
            );
        }
    }
    text
}

/// A number to five places that count; what rounding has left of nothing is nothing.
pub(super) struct Five(pub(super) f64);

impl std::fmt::Display for Five {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        if self.0.abs() < 1e-7 {
            return f.write_str("0");
        }
        let size = self.0.abs().max(1e-5).log10().floor() as i32;
        let places = usize::try_from(4 - size).unwrap_or(0);
        write!(f, "{:.places$}", self.0)
    }
}

/// Reads a table; lines that begin with `#` are not of it.
///
/// # Panics
/// Where a line is not as [`written`] has it.
#[must_use]
pub fn read(text: &str) -> Vec<Entry> {
    let mut all: Vec<Entry> = Vec::new();
    for line in text.lines().filter(|line| !line.starts_with('#')) {
        let words: Vec<&str> = line.split(' ').collect();
        let number = |n: usize| words[n].parse::<f64>().expect("a number");
        match words[0] {
            "tank" => all.push(Entry {
                tank: words[1].into(),
                load: words[2].into(),
                nodes: words[3].parse().expect("a count"),
                walls: Vec::new(),
            }),
            "wall" => all.last_mut().expect("a tank").walls.push(WallLine {
                face: words[1].into(),
                part: words[2].parse().expect("a part"),
                thickness: number(3),
                stress: number(4),
                inside: number(5),
                moment: number(6),
                deflection: number(7),
                off: [number(8), number(9), number(10)],
                edges: Vec::new(),
            }),
            "edge" => {
                let walls = &mut all.last_mut().expect("a tank").walls;
                walls.last_mut().expect("a wall").edges.push(EdgeLine {
                    beside: words[1].into(),
                    stress: number(2),
                    moment: number(3),
                    off: number(4),
                });
            }
            other => panic!("{other} begins no line"),
        }
    }
    all
}
