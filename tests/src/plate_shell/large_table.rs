//! What the walls of tanks bear as they stretch, as text: one tank after another, under one pressure after another.

use std::fmt::Write as _;

use super::{Found, Named, PlateShell};

/// The even pressures, in Pa.
pub const PRESSURES: [f64; 5] = [500.0, 2_000.0, 5_000.0, 10_000.0, 20_000.0];

/// One sheet under one pressure.
#[derive(Clone, Debug, PartialEq)]
pub struct Stretched {
    /// Its tank.
    pub tank: String,
    /// The pressure, in Pa.
    pub pressure: f64,
    /// The volume that all walls of the tank sweep, in cm³.
    pub swept: f64,
    /// Its wall or baffle, and which part of it.
    pub face: String,
    /// Which part of it.
    pub part: u8,
    /// Highest von Mises stress anywhere, N/mm².
    pub stress: f64,
    /// The same away from the edges.
    pub inside: f64,
    /// Largest deflection, mm; above zero outward.
    pub deflection: f64,
}

/// Writes a tank's lines.
#[must_use]
pub fn written(name: &str, shell: &PlateShell, found: &[(f64, Vec<Found>)]) -> String {
    let mut text = String::new();
    for (pressure, (swept, sheets)) in PRESSURES.iter().zip(found) {
        let _ = writeln!(
            text,
            "tank {name} {pressure} {} {:.3}",
            shell.nodes(),
            1e6 * swept
        );
        for (sheet, found) in shell.sheets().iter().zip(sheets) {
            let _ = writeln!(
                text,
                "wall {} {} {:.3} {:.3} {:.4}",
                Named(sheet.face),
                sheet.part,
                1e-6 * found.stress,
                1e-6 * found.inside,
                1e3 * found.deflection
            );
        }
    }
    text
}

/// Reads a table; lines that begin with `#` are not of it.
///
/// # Panics
/// Where a line is not as [`written`] has it.
#[must_use]
pub fn read(text: &str) -> Vec<Stretched> {
    let mut all = Vec::new();
    let mut tank = (String::new(), 0.0, 0.0);
    for line in text.lines().filter(|line| !line.starts_with('#')) {
        let words: Vec<&str> = line.split(' ').collect();
        let number = |n: usize| words[n].parse::<f64>().expect("a number");
        match words[0] {
            "tank" => tank = (words[1].into(), number(2), number(4)),
            "wall" => all.push(Stretched {
                tank: tank.0.clone(),
                pressure: tank.1,
                swept: tank.2,
                face: words[1].into(),
                part: words[2].parse().expect("a part"),
                stress: number(3),
                inside: number(4),
                deflection: number(5),
            }),
            other => panic!("{other} begins no line"),
        }
    }
    all
}
