//! What the tank weighs: empty, at the fill mark, at the brim; where it hangs, and what its mounts bear.

use core::fmt::Write;

use embedded_graphics::draw_target::DrawTarget;
use embedded_graphics::pixelcolor::Gray4;
use seamwright_core::units::{Length, LengthUnit};

use super::holds::filled;
use super::layout::{RIGHT, figure, foot, title};
use super::prose::Prose;
use super::seams::view;
use crate::amount::{Amount, Units};
use crate::gauge::{Masses, Mounts, Weighed, Work};
use crate::ink;
use crate::pen::Pen;
use crate::picture::{Style, edges};
use crate::text::Letters;

/// A line of this page.
type Line = heapless::String<64>;

/// The states that a tank is weighed in.
const STATES: [&str; 3] = ["Mass, empty", "Mass, filled", "Mass, brimful"];

/// Why a figure is not known.
fn why(masses: &Masses, piece: usize) -> Option<(&'static str, Prose)> {
    if let Some(state) = masses.states.get(piece) {
        let error = state.as_ref().err()?;
        return Some(("It cannot be weighed", Prose::of(error)));
    }
    match &masses.mounts {
        Some(Ok(_)) => None,
        Some(Err(error)) => Some(("They cannot bear it", Prose::of(error))),
        None => Some(("Not known", Prose::of("the full tank cannot be weighed"))),
    }
}

/// Screenfuls of a piece.
pub(crate) fn parts(masses: &Masses, piece: usize) -> usize {
    why(masses, piece).map_or(1, |(_, prose)| prose.parts())
}

/// Draws the page.
#[inline(never)]
pub(super) fn draw<D>(pen: &mut Pen<'_, D>, work: &Work<'_>, units: Units) -> Result<(), D::Error>
where
    D: DrawTarget<Color = Gray4>,
{
    let read = work.found().mass();
    let Some(masses) = work.found().masses() else {
        return title(pen, "Mass");
    };
    title(pen, STATES.get(read.piece).copied().unwrap_or("Mounts"))?;
    if let Some((heading, prose)) = why(masses, read.piece) {
        return prose.draw(pen, heading, read.part);
    }
    match (masses.states.get(read.piece), &masses.mounts) {
        (Some(Ok(weighed)), _) => one(pen, work, (read.piece, weighed), units),
        (None, Some(Ok(mounts))) => on_mounts(pen, work, mounts, units),
        // Said already.
        _ => Ok(()),
    }
}

/// One state: its mass large, the tank as full as it is beside it, its centre of gravity at the foot.
fn one<D>(
    pen: &mut Pen<'_, D>,
    work: &Work<'_>,
    (state, weighed): (usize, &Weighed),
    units: Units,
) -> Result<(), D::Error>
where
    D: DrawTarget<Color = Gray4>,
{
    let amount = Amount::weight(weighed.mass, units);
    let capacity = work.tank().capacity();
    let depth = match state {
        0 => None,
        1 => Some(capacity.fill_depth),
        _ => Some(capacity.full_depth),
    };
    match depth {
        Some(depth) => filled(pen, work, &amount, depth)?,
        None => {
            if let Some(view) = view(work, &amount.figure()) {
                pen.claim(view.extent());
                let outside = &work.tank().body().outside;
                edges(pen.target(), outside, &view, Style::Ground, None)?;
            }
        }
    }
    figure(pen, amount.figure())?;
    let Some(centre) = weighed.centre else {
        return Ok(());
    };
    let [x, y, z] = [centre.x, centre.y, centre.z].map(|at| {
        let amount = Amount::column_length(Length::from_metres(at), units);
        amount.text()
    });
    let unit = match units {
        Units::Metric => "mm",
        Units::Inch => "in",
    };
    let mut lines = [const { Line::new() }; 5];
    let [first, brief, second, shorter, shortest] = &mut lines;
    let _ = write!(first, "centre {x} {unit} right");
    let _ = write!(second, "{y} back and {z} up");
    let _ = write!(shorter, "{y} back, {z} up");
    // Great lengths in sixteenths are long.
    let [x, y, z] = [centre.x, centre.y, centre.z].map(|at| {
        let length = Length::from_metres(at);
        match units {
            Units::Metric => Amount::length(length, units),
            Units::Inch => Amount::of(length.in_unit(LengthUnit::Inch), 1, ""),
        }
    });
    let _ = write!(brief, "centre {} right", x.number());
    let _ = write!(shortest, "{}; {} up", y.number(), z.number());
    pen.fitting(
        foot(0),
        RIGHT as u32,
        &[&*first, &*brief],
        Letters::Small,
        ink::PLAIN,
    )?;
    pen.fitting(
        foot(1),
        RIGHT as u32,
        &[&*second, &*shorter, &*shortest],
        Letters::Small,
        ink::PLAIN,
    )
}

/// The mount that bears most, and one that must hold the tank down.
fn on_mounts<D>(
    pen: &mut Pen<'_, D>,
    work: &Work<'_>,
    mounts: &Mounts,
    units: Units,
) -> Result<(), D::Error>
where
    D: DrawTarget<Color = Gray4>,
{
    let (number, force) = mounts.heaviest;
    figure(pen, Amount::force(force, units).figure())?;
    let mut line = Line::new();
    let count = work.tank().mounts().len();
    let _ = write!(line, "mount {number} of {count}, full");
    pen.text(foot(0), &line, Letters::Small, ink::PLAIN)?;
    line.clear();
    match mounts.lifts {
        Some((number, held)) => {
            let held = Amount::force(held, units).text();
            let mut short = Line::new();
            let _ = write!(line, "{number} lifts: hold {held}");
            let _ = write!(short, "{number} lifts: {held}");
            let choices = [&*line, &*short];
            pen.fitting(foot(1), RIGHT as u32, &choices, Letters::Small, ink::BRIGHT)
        }
        None => pen.text(foot(1), "at its worst", Letters::Small, ink::PLAIN),
    }
}
