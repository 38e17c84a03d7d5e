//! Pattern files read back by readers that share nothing with their writers, and measured.

// A helper that cannot go on stops its test at once.
#![allow(clippy::unwrap_used, clippy::panic, clippy::indexing_slicing)]

mod cut_files;
mod laid;
mod paper;

use seamwright::sheet::pattern::{Bend, Draft, Hole, MarkLine, Node, Note, Pattern};

/// The title of the piece: signs that each kind of file has to write in its own way.
const ODD: &str = "Front & back <b>, (é) \\ %% ^ 100 % Łódź";

/// 410 by 300 mm, with a rounded corner of 40 mm (a quarter circle: bulge tan 22.5°) and a half-round
/// notch of 30 mm radius in the top edge (bulge -1).
fn piece() -> Pattern {
    let n = |x: f64, y: f64, bulge: f64| Node { x, y, bulge };
    Pattern::build(Draft {
        mark: "P1".into(),
        title: ODD.into(),
        outline: vec![
            n(0.0, 0.0, 0.0),
            n(410.0, 0.0, 0.0),
            n(410.0, 260.0, (std::f64::consts::PI / 8.0).tan()),
            n(370.0, 300.0, 0.0),
            n(230.0, 300.0, -1.0),
            n(170.0, 300.0, 0.0),
            n(0.0, 300.0, 0.0),
        ],
        holes: vec![Hole {
            at: [80.0, 60.0],
            diameter: 38.0,
            label: "filler".into(),
        }],
        bends: vec![Bend {
            ends: [[0.0, 20.0], [410.0, 20.0]],
            label: "90° up".into(),
            up: true,
        }],
        lines: vec![MarkLine {
            ends: [[120.0, 40.0], [120.0, 160.0]],
        }],
        notes: vec![Note {
            at: [200.0, 100.0],
            height: 8.0,
            angle_deg: 0.0,
            text: "outside".into(),
        }],
        ..Draft::default()
    })
    .unwrap()
}

fn block(mark: &str, width: f64, height: f64) -> Pattern {
    let corners = [[0.0, 0.0], [width, 0.0], [width, height], [0.0, height]];
    Pattern::build(Draft {
        mark: mark.into(),
        outline: corners.map(|[x, y]| Node::corner(x, y)).to_vec(),
        ..Draft::default()
    })
    .unwrap()
}

fn near(a: f64, b: f64, within: f64) -> bool {
    (a - b).abs() <= within
}
