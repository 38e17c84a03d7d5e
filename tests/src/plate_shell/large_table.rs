//! What single plates and the walls of tanks bear when they deflect by several thicknesses, as text.

use std::fmt::Write as _;

use seamwright_core::tank::Tank;

use super::large::{Large, Rest, work};
use super::single::{DRAWN, Edges, InPlane, Pressed, Single};
use super::sparse::SIX;
use super::table::Five;
use super::tank::{Load, loaded, shell_drawn};
use super::{Deflections, Elastic, Movement, Named, PlateShell};

/// How much longer than wide plates are.
pub const RATIOS: [f64; 4] = [1.0, 1.5, 2.0, 3.0];
/// Bulges in thicknesses that loads would give if all were linear.
pub const LINEAR: [f64; 6] = [0.5, 1.0, 2.0, 4.0, 8.0, 16.0];
/// Triangles across a plate, of the coarser and the finer mesh.
pub const PIECES: [f64; 2] = [20.0, 40.0];
/// The plates' Poisson's ratio; their modulus is of no account.
pub const METAL: Elastic = Elastic {
    modulus: 7e10,
    poisson: 0.33,
};
/// Even pressures in tanks, in kPa.
pub const PRESSURES: [f64; 5] = [2.0, 5.0, 10.0, 20.0, 35.0];
/// A tank's even pressure rises no more once a wall bears this von Mises stress, in N/mm².
pub const ENOUGH: f64 = 450.0;

/// A plate's edges: whether they turn, and what they do in the plane.
pub const EDGES: [Edges; 4] = [
    edges(true, InPlane::Fixed),
    edges(true, InPlane::Free),
    edges(false, InPlane::Fixed),
    edges(false, InPlane::Free),
];

const fn edges(turn: bool, in_plane: InPlane) -> Edges {
    Edges { turn, in_plane }
}

/// A plate and its loads.
#[derive(Clone, Debug, PartialEq)]
pub struct PlateLines {
    /// How much longer than wide.
    pub ratio: f64,
    /// Whether its edges turn freely.
    pub turn: bool,
    /// The word of what they do in the plane.
    pub in_plane: String,
    /// How many nodes the finer mesh has.
    pub nodes: usize,
    /// Each load.
    pub loads: Vec<LoadLine>,
}

/// A plate under one load.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LoadLine {
    /// What is found.
    pub pressed: Pressed,
    /// By how much the coarser mesh is off in bulge, stress and inside, in %.
    pub off: [f64; 3],
}

/// A tank under one load.
#[derive(Clone, Debug, PartialEq)]
pub struct TankLines {
    /// The name of its job file, without its ending.
    pub tank: String,
    /// `linear`, an even pressure in kPa, or `water`.
    pub load: String,
    /// How many nodes.
    pub nodes: usize,
    /// By how much it grows, in m³.
    pub volume: f64,
    /// Whether it is stiff against every small movement.
    pub steady: bool,
    /// Its walls and baffles.
    pub walls: Vec<SheetLine>,
}

/// A wall, a part of one, or a baffle.
#[derive(Clone, Debug, PartialEq)]
pub struct SheetLine {
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
}

/// All that a file holds.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct LargeTable {
    /// Single plates.
    pub plates: Vec<PlateLines>,
    /// Tanks, load by load.
    pub tanks: Vec<TankLines>,
}

/// A plate under all its loads, on two meshes of so many triangles across.
#[must_use]
pub fn plate(ratio: f64, edges: Edges, pieces: [f64; 2], linear: &[f64]) -> PlateLines {
    let [coarse, fine] = pieces.map(|pieces| Single::new(ratio, pieces, METAL, edges));
    let pressures: Vec<f64> = linear.iter().map(|by| fine.pressure_at(*by)).collect();
    let both = coarse.pressed(&pressures).into_iter();
    let off = |of: f64, from: f64| 100.0 * (of / from - 1.0);
    PlateLines {
        ratio,
        turn: edges.turn,
        in_plane: edges.in_plane.word().into(),
        nodes: fine.nodes(),
        loads: both
            .zip(fine.pressed(&pressures))
            .map(|(coarse, pressed)| LoadLine {
                pressed,
                off: [
                    off(coarse.bulge, pressed.bulge),
                    off(coarse.stress, pressed.stress),
                    off(coarse.inside, pressed.inside),
                ],
            })
            .collect(),
    }
}

/// A tank under 1 kPa as if it were linear, under even pressures in kPa until it has borne enough, and full of water; a
/// mesh of about so many nodes.
#[must_use]
pub fn tank(name: &str, tank: &Tank, nodes: f64, pressures: &[f64]) -> Vec<TankLines> {
    let shell = shell_drawn(tank, nodes, DRAWN);
    let (even, held) = loaded(tank, &shell, Load::Even);
    let linear = shell.moved(&even, &held);
    let held = held_freely(&shell, held, Load::Even);
    let lines = |load: String, moved: &[Movement], kind: Deflections, steady: bool| {
        lines(name, load, &shell, moved, kind, steady)
    };
    let mut all = vec![lines("linear".into(), &linear, Deflections::Small, true)];
    let large = Large::new(&shell, held);
    let mut moved = vec![[0.0; SIX]; shell.nodes()];
    for pressure in pressures {
        let rest = large.rest(&moved, &times(&even, *pressure));
        moved = rest.moved;
        let kind = Deflections::Large;
        all.push(lines(pressure.to_string(), &moved, kind, rest.steady));
        let most = |walls: &[SheetLine]| walls.iter().map(|w| w.stress).fold(0.0, f64::max);
        if all.last().is_some_and(|last| most(&last.walls) > ENOUGH) {
            break;
        }
    }
    let (water, held) = loaded(tank, &shell, Load::Water);
    let held = held_freely(&shell, held, Load::Water);
    let rest = Large::new(&shell, held).rest(&vec![[0.0; SIX]; shell.nodes()], &water);
    all.push(lines(
        Load::Water.word().into(),
        &rest.moved,
        Deflections::Large,
        rest.steady,
    ));
    all
}

/// Where the sheets of a tank come to rest under an even pressure in kPa.
#[must_use]
pub fn rest_under(tank: &Tank, shell: &PlateShell, pressure: f64) -> Rest {
    let (even, held) = loaded(tank, shell, Load::Even);
    let held = held_freely(shell, held, Load::Even);
    let from = vec![[0.0; SIX]; shell.nodes()];
    Large::new(shell, held).rest(&from, &times(&even, pressure))
}

/// What is held for a load, with the tank kept in its place and from turning by shifts of three far corners only, which
/// bear no force. A corner held against turning would do in the linear case; but it turns a little beside the tank as a
/// whole, and with moderate turns a tank that turns as one piece is strained.
fn held_freely(shell: &PlateShell, mut held: Vec<[bool; SIX]>, load: Load) -> Vec<[bool; SIX]> {
    for by in &mut held {
        let stands = by[2] && load == Load::Water;
        *by = [false; SIX];
        by[2] = stands;
    }
    let farthest = |way: [f64; 3]| -> usize {
        let along = |at: &[f64; 3]| (0..3).map(|k| way[k] * at[k]).sum::<f64>();
        let all = shell.places().iter().enumerate();
        let most = all.max_by(|a, b| along(a.1).total_cmp(&along(b.1)));
        most.expect("a node").0
    };
    let corners = [
        ([-1.0, -1.0, -1.0], [true, true, true]),
        ([1.0, -1.0, -1.0], [false, true, true]),
        ([-1.0, 1.0, -1.0], [false, false, true]),
    ];
    for (way, shifts) in corners {
        held[farthest(way)][..3].copy_from_slice(&shifts);
    }
    held
}

/// Forces so many times as large.
fn times(forces: &[Movement], by: f64) -> Vec<Movement> {
    let all = forces.iter();
    all.map(|force| force.map(|part| by * part)).collect()
}

fn lines(
    name: &str,
    load: String,
    shell: &PlateShell,
    moved: &[Movement],
    kind: Deflections,
    steady: bool,
) -> TankLines {
    let found = shell.found_after(moved, 0.0, kind);
    let walls = found
        .iter()
        .zip(shell.sheets())
        .map(|(found, sheet)| SheetLine {
            face: Named(sheet.face).to_string(),
            part: sheet.part,
            thickness: 1e3 * sheet.thickness,
            stress: 1e-6 * found.stress,
            inside: 1e-6 * found.inside,
            moment: found.moment,
            deflection: 1e3 * found.deflection,
        });
    TankLines {
        tank: name.into(),
        load,
        nodes: shell.nodes(),
        volume: work(&shell.pressed(|_| 1.0), moved),
        steady,
        walls: walls.collect(),
    }
}

const fn steady(so: bool) -> &'static str {
    if so { "steady" } else { "buckles" }
}

/// Writes a plate's lines.
#[must_use]
pub fn plate_written(plate: &PlateLines) -> String {
    let mut text = String::new();
    let turn = if plate.turn { "turns" } else { "held" };
    let _ = writeln!(
        text,
        "plate {} {turn} {} {}",
        plate.ratio, plate.in_plane, plate.nodes
    );
    for LoadLine { pressed, off } in &plate.loads {
        let [edge, middle] = [pressed.edge, pressed.middle];
        let figures = [
            pressed.pressure,
            pressed.linear,
            pressed.bulge,
            pressed.stress,
            pressed.inside,
            edge[0],
            edge[1],
            edge[2],
            middle[0],
            middle[1],
            middle[2],
            pressed.volume,
        ];
        text.push_str("load");
        for figure in figures {
            let _ = write!(text, " {}", Five(figure));
        }
        let [bulge, stress, inside] = off;
        let _ = writeln!(
            text,
            " {} {bulge:.1} {stress:.1} {inside:.1}",
            steady(pressed.steady)
        );
    }
    text
}

/// Writes a tank's lines under one load.
#[must_use]
pub fn tank_written(tank: &TankLines) -> String {
    let mut text = String::new();
    let _ = writeln!(
        text,
        "tank {} {} {} {:.4e} {}",
        tank.tank,
        tank.load,
        tank.nodes,
        tank.volume,
        steady(tank.steady)
    );
    for wall in &tank.walls {
        let _ = writeln!(
            text,
            "wall {} {} {:.2} {} {} {} {}",
            wall.face,
            wall.part,
            wall.thickness,
            Five(wall.stress),
            Five(wall.inside),
            Five(wall.moment),
            Five(wall.deflection),
        );
    }
    text
}

/// Reads a table; lines that begin with `#` are not of it.
///
/// # Panics
/// Where a line is not as [`plate_written`] or [`tank_written`] have it.
#[must_use]
pub fn read(text: &str) -> LargeTable {
    let mut all = LargeTable::default();
    for line in text.lines().filter(|line| !line.starts_with('#')) {
        let words: Vec<&str> = line.split(' ').collect();
        let number = |n: usize| words[n].parse::<f64>().expect("a number");
        let is_steady = |n: usize| match words[n] {
            "steady" => true,
            "buckles" => false,
            other => panic!("{other} is neither steady nor does it buckle"),
        };
        match words[0] {
            "plate" => all.plates.push(PlateLines {
                ratio: number(1),
                turn: words[2] == "turns",
                in_plane: words[3].into(),
                nodes: words[4].parse().expect("a count"),
                loads: Vec::new(),
            }),
            "load" => {
                let pressed = Pressed {
                    pressure: number(1),
                    linear: number(2),
                    bulge: number(3),
                    stress: number(4),
                    inside: number(5),
                    edge: [number(6), number(7), number(8)],
                    middle: [number(9), number(10), number(11)],
                    volume: number(12),
                    steady: is_steady(13),
                };
                let off = [number(14), number(15), number(16)];
                let plate = all.plates.last_mut().expect("a plate");
                plate.loads.push(LoadLine { pressed, off });
            }
            "tank" => all.tanks.push(TankLines {
                tank: words[1].into(),
                load: words[2].into(),
                nodes: words[3].parse().expect("a count"),
                volume: number(4),
                steady: is_steady(5),
                walls: Vec::new(),
            }),
            "wall" => {
                let tank = all.tanks.last_mut().expect("a tank");
                tank.walls.push(SheetLine {
                    face: words[1].into(),
                    part: words[2].parse().expect("a part"),
                    thickness: number(3),
                    stress: number(4),
                    inside: number(5),
                    moment: number(6),
                    deflection: number(7),
                });
            }
            other => panic!("{other} begins no line"),
        }
    }
    all
}
