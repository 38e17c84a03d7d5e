//! Pictures as text: one sign a pixel, from `.` (dark) over `1` to `e` up to `#` (full).

use std::fmt::Write;

use seamwright_firmware::frame::{Frame, HEIGHT, WIDTH};

const SIGNS: [char; 16] = [
    '.', '1', '2', '3', '4', '5', '6', '7', '8', '9', 'a', 'b', 'c', 'd', 'e', '#',
];

/// The picture, one line a row.
pub(crate) fn of(frame: &Frame) -> String {
    let mut art = String::new();
    for y in 0..HEIGHT {
        for x in 0..WIDTH {
            let level = frame.level(x, y).expect("within the picture");
            art.push(SIGNS[usize::from(level)]);
        }
        art.push('\n');
    }
    art
}

/// Where two pictures differ: how many pixels, and the rows around the first.
pub(crate) fn difference(was: &str, is: &str) -> String {
    let (was, is): (Vec<_>, Vec<_>) = (was.lines().collect(), is.lines().collect());
    if was.len() != is.len() {
        return format!("{} rows, not {}", is.len(), was.len());
    }
    let pixels: usize = was
        .iter()
        .zip(&is)
        .map(|(a, b)| a.chars().zip(b.chars()).filter(|(a, b)| a != b).count())
        .sum();
    let mut text = format!("{pixels} pixels differ; the first rows that do:\n");
    for (row, (a, b)) in was
        .iter()
        .zip(&is)
        .enumerate()
        .filter(|(_, (a, b))| a != b)
        .take(6)
    {
        writeln!(text, "{row:2} was {a}\n    is {b}").expect("a string takes all");
    }
    text
}

#[test]
fn every_grey_has_its_own_sign() {
    let distinct: std::collections::BTreeSet<_> = SIGNS.into_iter().collect();
    assert_eq!(distinct.len(), 16);
}
