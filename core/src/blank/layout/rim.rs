//! Sides of a plate with their flanges, and the outline that goes about them.

use super::super::edge::Tab;
use super::part::{Line, Part};
use crate::geom::outline::Node;

/// Nodes of a part with its flanges.
pub(super) const MOST_NODES: usize = 96;
/// Width of a slit beside a flange, in thicknesses: that of [`relief`](super::super::bend::relief).
pub(super) const SLIT: f64 = 1.5;
/// Corners nearer than this, in metres, are one.
pub(super) const SAME: f64 = 1e-9;

/// How far from the end of a plain side its flange begins.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct Tip {
    /// At its bend, in metres.
    pub(super) bend: f64,
    /// At its free edge, in metres.
    pub(super) edge: f64,
}

/// One side with its flange.
#[derive(Clone, Copy)]
pub(super) struct Flanged {
    pub(super) line: Line,
    pub(super) tab: Option<Tab>,
    /// Where its plain edge begins and ends.
    pub(super) run: [[f64; 2]; 2],
    pub(super) tips: [Tip; 2],
}

/// How the corner between two sides is cut.
#[derive(Clone, Copy, PartialEq)]
pub(super) enum Corner {
    /// Plainly.
    Plain,
    /// Down to where the bends begin.
    Notch([f64; 2]),
    /// With a slit beside each flange, the edge between them left as it is.
    Slits,
    /// At an inside corner, round the end of a wall that runs on past it: the three corners of the step.
    Step([[f64; 2]; 3]),
}

/// A point of a side: so far along `way` from `base`, so far out of the sheet.
pub(super) fn point(line: &Line, base: [f64; 2], way: f64, along: f64, out: f64) -> [f64; 2] {
    let [x, y] = line.along;
    [
        base[0] + way * along * x + out * y,
        base[1] + way * along * y - out * x,
    ]
}

/// A line moved into the sheet.
pub(super) fn moved(line: &Line, by: f64) -> Line {
    Line {
        at: point(line, line.at, 1.0, 0.0, -by),
        ..*line
    }
}

/// Adds a corner of the outline: the end of the flange before it, the corner, the start of the one after.
pub(super) fn emit(
    part: &mut Part<MOST_NODES>,
    last: &Flanged,
    here: &Flanged,
    kind: Corner,
    nodes: [Option<Node>; 2],
) -> Option<()> {
    let mut put = |node: Node| {
        let again = part.nodes.last().is_some_and(|known| {
            known.bulge == 0.0 && libm::hypot(known.x - node.x, known.y - node.y) < SAME
        });
        if again {
            part.nodes.pop();
        }
        part.nodes.push(node).ok()
    };
    let flat = |[x, y]: [f64; 2]| Node::corner(x, y);
    if let Some(tab) = last.tab {
        let (base, tip) = (last.run[1], last.tips[1]);
        let at = |along: f64, out: f64| flat(point(&last.line, base, -1.0, along, out));
        put(at(tip.edge, tab.out()))?;
        put(at(tip.bend, tab.bend.allowance().si() - tab.deep()))?;
        put(at(tip.bend, -tab.deep()))?;
        if kind == Corner::Slits {
            put(at(0.0, -tab.deep()))?;
        }
        if matches!(kind, Corner::Step(_)) {
            let beside = tip.bend - SLIT * tab.bend.thickness().si();
            put(at(beside, -tab.deep()))?;
            put(at(beside, 0.0))?;
        }
    }
    match kind {
        Corner::Notch(at) => put(flat(at))?,
        Corner::Step(all) => {
            for at in all {
                put(flat(at))?;
            }
        }
        Corner::Plain | Corner::Slits => {
            for node in nodes.into_iter().flatten() {
                put(node)?;
            }
        }
    }
    if let Some(tab) = here.tab {
        let (base, tip) = (here.run[0], here.tips[0]);
        let at = |along: f64, out: f64| flat(point(&here.line, base, 1.0, along, out));
        if kind == Corner::Slits {
            put(at(0.0, -tab.deep()))?;
        }
        if matches!(kind, Corner::Step(_)) {
            let beside = tip.bend - SLIT * tab.bend.thickness().si();
            put(at(beside, 0.0))?;
            put(at(beside, -tab.deep()))?;
        }
        put(at(tip.bend, -tab.deep()))?;
        put(at(tip.bend, tab.bend.allowance().si() - tab.deep()))?;
        put(at(tip.edge, tab.out()))?;
    }
    Some(())
}
