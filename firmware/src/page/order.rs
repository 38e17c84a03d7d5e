//! The order of the stitches: what the whole takes, then one stitch after another, each seen on the tank.

use core::fmt::Write;

use embedded_graphics::draw_target::DrawTarget;
use embedded_graphics::geometry::Point;
use embedded_graphics::pixelcolor::Gray4;
use seamwright_core::quantity::Length;
use seamwright_core::seam::Seam;
use seamwright_core::stitch::{MAX_STITCHES, WeldStep};

use super::layout::{BODY_TOP, FIGURE_TOP, RIGHT, figure, foot, title};
use super::seams::view;
use crate::amount::{Amount, Units};
use crate::gauge::{Origin, Work};
use crate::ink;
use crate::pen::Pen;
use crate::picture::{Style, edges, stretch};
use crate::text::Letters;

/// What stands on the page where there is no order, or one of another tank.
const NONE: [&str; 3] = [
    "No order yet. Send",
    "the job once more: its",
    "order comes along.",
];
const OTHER: [&str; 3] = [
    "What order came is not",
    "whole, or not of this",
    "tank. Send it again.",
];

/// A line of this page.
type Line = heapless::String<40>;

/// Draws the page.
#[inline(never)]
pub(super) fn draw<D>(pen: &mut Pen<'_, D>, work: &Work<'_>, units: Units) -> Result<(), D::Error>
where
    D: DrawTarget<Color = Gray4>,
{
    let order = work.order();
    if !order.fits(work.tank()) {
        title(pen, "Weld order")?;
        let said = if order.count() == 0 { NONE } else { OTHER };
        for (line, y) in said.into_iter().zip((BODY_TOP + 4..).step_by(11)) {
            pen.text(Point::new(0, y), line, Letters::Small, ink::PLAIN)?;
        }
        return Ok(());
    }
    let place = work.stitch();
    match place.checked_sub(1).and_then(|place| order.step(place)) {
        Some(step) => one(pen, work, (place, step), units),
        None => whole(pen, work, units),
    }
}

/// What the whole order takes.
fn whole<D>(pen: &mut Pen<'_, D>, work: &Work<'_>, units: Units) -> Result<(), D::Error>
where
    D: DrawTarget<Color = Gray4>,
{
    let order = work.order();
    let mut line = Line::new();
    let _ = write!(line, "Order of {}", order.count());
    title(pen, &line)?;
    let Some(takes) = order.takes(work.tank()) else {
        return Ok(());
    };
    figure(pen, Amount::time(takes.job).figure())?;
    let waits = Amount::time(takes.waits).text();
    for (text, y) in ["waits", &waits]
        .into_iter()
        .zip((FIGURE_TOP + 7..).step_by(11))
    {
        pen.text_to(RIGHT, y, text, Letters::Small, ink::PLAIN)?;
    }
    line.clear();
    let hottest = Amount::temperature(takes.hottest.starts_at(), units).text();
    let _ = write!(line, "hottest start {hottest}");
    pen.text(foot(0), &line, Letters::Small, ink::PLAIN)?;
    line.clear();
    let _ = match order.origin() {
        Origin::Sent => line.push_str("sent with the job").is_ok(),
        #[cfg(feature = "full")]
        Origin::FirstLook => line.push_str("first look").is_ok(),
        #[cfg(feature = "full")]
        Origin::Tried(some, all) => write!(line, "best of {some}, of {all}").is_ok(),
    };
    pen.text(foot(1), &line, Letters::Small, ink::DIM)
}

/// One stitch.
fn one<D>(
    pen: &mut Pen<'_, D>,
    work: &Work<'_>,
    (place, step): (usize, WeldStep),
    units: Units,
) -> Result<(), D::Error>
where
    D: DrawTarget<Color = Gray4>,
{
    let mut line = Line::new();
    let _ = write!(line, "Weld {place}/{}", work.order().count());
    title(pen, &line)?;
    let wait = Amount::wait(step.waits());
    let found = picture(pen, work, (place, step), &wait)?;
    figure(pen, wait.figure())?;
    let Some((seam, [from, to], [number, of])) = found else {
        return Ok(());
    };
    line.clear();
    let _ = write!(line, "{} {number}/{of}", seam.mark);
    pen.text(foot(0), &line, Letters::Small, ink::BRIGHT)?;
    let start = Amount::temperature(step.starts_at(), units).text();
    pen.text_to(RIGHT, foot(0).y, &start, Letters::Small, ink::PLAIN)?;
    line.clear();
    let [from, to] = [from, to].map(|end| Amount::length(end, units).text());
    let _ = write!(line, "{from} to {to}");
    pen.text(foot(1), &line, Letters::Small, ink::PLAIN)
}

/// A stitch as it is found on the tank: its seam, from where to where it goes along it, and which of how many it is.
type Found = (Seam, [Length; 2], [u16; 2]);

/// Draws the tank with what is welded before a stitch, and the stitch with a dot where it starts.
fn picture<D>(
    pen: &mut Pen<'_, D>,
    work: &Work<'_>,
    (place, step): (usize, WeldStep),
    wait: &Amount,
) -> Result<Option<Found>, D::Error>
where
    D: DrawTarget<Color = Gray4>,
{
    let tank = work.tank();
    let mut welded = [false; MAX_STITCHES as usize];
    for before in work.order().steps().take(place.saturating_sub(1)) {
        if let Some(slot) = welded.get_mut(usize::from(before.run)) {
            *slot = true;
        }
    }
    let view = view(work, &wait.figure());
    if let Some(view) = &view {
        pen.claim(view.extent());
        edges(pen.target(), &tank.body().outside, view, Style::Ground, None)?;
    }
    let mut found = None;
    let mut runs = welded.into_iter().zip(0_u16..);
    for (seam, place) in tank.seams().zip(0..) {
        let Some(division) = tank.division(&seam) else {
            continue;
        };
        let edge = tank.edge_of_seam(place);
        for ([from, to], number) in division.runs().zip(1..) {
            let Some((welded, run)) = runs.next() else {
                return Ok(found);
            };
            let now = run == u16::from(step.run);
            let ends = if now && step.reversed {
                [to, from]
            } else {
                [from, to]
            };
            if now {
                found = Some((seam, ends, [number, division.count]));
            }
            if let (Some(view), Some(edge)) = (&view, &edge)
                && (now || welded)
            {
                stretch(pen.target(), view, edge, ends, now)?;
            }
        }
    }
    Ok(found)
}
