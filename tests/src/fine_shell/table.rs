//! Stitches with what the fine model makes of them, as text: one tank after another.

use std::fmt::Write as _;

use super::{Warmth, Weld};

/// One tank of a table.
#[derive(Clone, Debug)]
pub struct Entry {
    /// The name of its job file, without its ending.
    pub tank: String,
    /// Its stitches in order.
    pub welds: Vec<Weld>,
    /// The metal along each before its arc, by the fine model.
    pub warmth: Vec<Warmth>,
}

/// Writes a tank's lines.
#[must_use]
pub fn written(entry: &Entry) -> String {
    let mut text = String::new();
    let power = entry.welds.first().map_or(0.0, |weld| weld.power);
    let _ = writeln!(text, "tank {} {power:.3}", entry.tank);
    for (weld, warmth) in entry.welds.iter().zip(&entry.warmth) {
        let _ = writeln!(
            text,
            "{} {} {:.5} {:.5} {:.3} {:.4} {:.3} {:.3}",
            weld.seam,
            weld.stage,
            weld.from,
            weld.to,
            weld.start,
            weld.burns,
            warmth.start,
            warmth.most
        );
    }
    text
}

/// Reads a table; lines that begin with `#` are not of it.
///
/// # Panics
/// Where a line is not as [`written`] has it.
#[must_use]
pub fn read(text: &str) -> Vec<Entry> {
    let mut all: Vec<Entry> = Vec::new();
    let mut power = 0.0;
    for line in text.lines().filter(|line| !line.starts_with('#')) {
        if let Some(head) = line.strip_prefix("tank ") {
            let (tank, watts) = head.split_once(' ').expect("a power");
            power = watts.parse().expect("a power");
            all.push(Entry {
                tank: tank.into(),
                welds: Vec::new(),
                warmth: Vec::new(),
            });
            continue;
        }
        let parts: Vec<f64> = line
            .split(' ')
            .map(|part| part.parse().expect("a number"))
            .collect();
        let entry = all.last_mut().expect("a tank");
        entry.welds.push(Weld {
            seam: parts[0] as usize,
            stage: parts[1] as u8,
            from: parts[2],
            to: parts[3],
            start: parts[4],
            burns: parts[5],
            power,
        });
        entry.warmth.push(Warmth {
            start: parts[6],
            most: parts[7],
        });
    }
    all
}
