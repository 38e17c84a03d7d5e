//! The way of an edge as short straight steps.

use seamwright_core::body::{Edge, Path};
use seamwright_core::geom::Vector;
use seamwright_core::units::Length;

/// Steps in a whole circle, and in half of a rounded corner.
const ROUND: u16 = 28;
const CORNER: u16 = 3;

/// The steps of an edge: from point to point.
pub(super) fn steps(edge: &Edge) -> impl Iterator<Item = [Vector; 2]> + use<> {
    let edge = *edge;
    let [start, end] = edge.straight();
    let turned = move |turn: Option<seamwright_core::body::ArcPath>, count: u16| {
        (0..count).filter_map(move |n| {
            let turn = turn?;
            let at = |n: u16| turn.at(turn.sweep * f64::from(n) / f64::from(count));
            Some([at(n), at(n + 1)])
        })
    };
    let (before, middle, after, round) = match edge.path {
        Path::Straight => (None, Some([start, end]), None, None),
        Path::Rounded([before, after]) => (before, Some([start, end]), after, None),
        Path::Round(turn) => (None, None, None, Some(turn)),
    };
    turned(before, CORNER)
        .chain(middle)
        .chain(turned(after, CORNER))
        .chain(turned(round, ROUND))
}

/// The part of an edge between two distances from its start, as steps.
pub(super) fn part(edge: &Edge, from: f64, to: f64) -> impl Iterator<Item = [Vector; 2]> + use<> {
    let edge = *edge;
    let count = match edge.path {
        Path::Straight => 1,
        Path::Rounded(_) | Path::Round(_) => 8_u16,
    };
    (0..count).map(move |n| {
        let at = |n: u16| {
            let share = f64::from(n) / f64::from(count);
            edge.at(Length::from_metres(from + (to - from) * share))
        };
        [at(n), at(n + 1)]
    })
}
