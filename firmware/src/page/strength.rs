//! How the panels bear what the tank holds, the weakest first: by how much, under what, and what would mend it.

use core::fmt::Write;

use embedded_graphics::draw_target::DrawTarget;
use embedded_graphics::pixelcolor::Gray4;
use seamwright_core::capacity::Lean;
use seamwright_core::input::Face;
use seamwright_core::strength::RESERVE;
use seamwright_core::strength::panel::Spacing;
use seamwright_core::tank::Tank;
use seamwright_core::units::Decimal;

use super::Page;
use super::layout::{RIGHT, beside, figure, foot, title};
use super::prose::Prose;
use super::working;
use crate::amount::{Amount, Units};
use crate::gauge::{Borne, Panel, Work};
use crate::ink;
use crate::pen::Pen;
use crate::picture::{Look, Style, View, edges, panel};
use crate::text::Letters;

/// A line of this page.
type Line = heapless::String<64>;
/// What is said of a panel.
type Text = heapless::String<400>;

/// Screenfuls of a panel: its figure, and what is said of it.
pub(crate) fn parts(tank: &Tank, (face, borne): &Panel, units: Units) -> usize {
    match borne {
        Ok(borne) => 1 + Prose::of(told(tank, *face, borne, units)).parts(),
        Err(error) => Prose::of(error).parts(),
    }
}

/// Draws the page.
#[inline(never)]
pub(super) fn draw<D>(pen: &mut Pen<'_, D>, work: &Work<'_>, units: Units) -> Result<(), D::Error>
where
    D: DrawTarget<Color = Gray4>,
{
    if let Some(progress) = work.found().progress(Page::Strength, work.tank()) {
        return working::draw(pen, Page::Strength, progress);
    }
    let (read, panels) = (work.found().panel(), work.found().panels());
    let Some((face, borne)) = panels.get(read.piece) else {
        return title(pen, "Strength");
    };
    let mut heading = Line::new();
    let _ = write!(heading, "Reserve {}/{}", read.piece + 1, panels.len());
    title(pen, &heading)?;
    let mut which = Line::new();
    let _ = write!(which, "{face}");
    let borne = match borne {
        Ok(borne) => borne,
        Err(error) => return Prose::of(error).draw(pen, &which, read.part),
    };
    if let Some(part) = read.part.checked_sub(1) {
        let said = told(work.tank(), *face, borne, units);
        return Prose::of(said).draw(pen, &which, part);
    }
    let amount = Amount::reserve(borne.reserve);
    picture(pen, work, *face, &amount)?;
    figure(pen, amount.figure())?;
    let pressure = Amount::pressure(borne.pressure, units).text();
    let mut short = which.clone();
    let _ = write!(which, " bears {pressure}");
    let _ = write!(short, ": {pressure}");
    pen.fitting(
        foot(0),
        RIGHT as u32,
        &[&which, &short],
        Letters::Small,
        ink::PLAIN,
    )?;
    let mut line = Line::new();
    let grey = match borne.cure {
        Some(cure) => {
            let sheet = Amount::thickness_up(cure.thickness, units).text();
            let _ = write!(line, "too weak: {sheet}");
            ink::BRIGHT
        }
        None => {
            let _ = write!(line, "enough: {} wanted", Decimal::new(RESERVE, 1));
            ink::PLAIN
        }
    };
    pen.text(foot(1), &line, Letters::Small, grey)
}

/// The tank with the panel picked out.
fn picture<D>(
    pen: &mut Pen<'_, D>,
    work: &Work<'_>,
    face: Face,
    amount: &Amount,
) -> Result<(), D::Error>
where
    D: DrawTarget<Color = Gray4>,
{
    let tank = work.tank();
    let outside = &tank.body().outside;
    let look = Look {
        lean: Lean::LEVEL,
        quarters: work.quarters(),
    };
    let Some(view) = View::fit(outside, look, beside(&amount.figure(), RIGHT)) else {
        return Ok(());
    };
    pen.claim(view.extent());
    edges(pen.target(), outside, &view, Style::Ground, None)?;
    panel(pen.target(), tank, &view, face)
}

/// Under what, and what would mend it.
fn told(tank: &Tank, face: Face, borne: &Borne, units: Units) -> Text {
    let mut text = Text::new();
    // The longest is some 330 bytes.
    let _ = say(&mut text, tank, face, borne, units);
    text
}

fn say(text: &mut Text, tank: &Tank, face: Face, borne: &Borne, units: Units) -> core::fmt::Result {
    let job = tank.job();
    let sheet = Amount::thickness(borne.thickness, units).text();
    write!(text, "{sheet}, taken as a {}, ", borne.form.name())?;
    match job.liquid() {
        Some(liquid) => write!(text, "brimful of {liquid}")?,
        None => text.write_str("brimful of water")?,
    }
    if job.leans().iter().any(|lean| lean.si() > 0.0) {
        text.write_str(", at the worst lean")?;
    }
    let service = job.service();
    if service.acceleration.iter().any(|g| g.si() > 0.0) {
        text.write_str(", shaken")?;
    }
    if service.pressure.si() > 0.0 {
        let held = Amount::pressure(service.pressure, units).text();
        write!(text, ", the cap holding {held}")?;
    }
    text.write_str(".")?;
    if let Some(cure) = borne.cure {
        let sheet = Amount::thickness_up(cure.thickness, units).text();
        write!(text, " {sheet} sheet would do")?;
        if let Some(Spacing::AtMost(apart)) = cure.spacing {
            let what = if matches!(face, Face::Baffle(_)) {
                "stiffeners"
            } else {
                "baffles or stiffeners"
            };
            let apart = Amount::length(apart, units).text();
            write!(text, ", or {what} at most {apart} apart")?;
        }
        text.write_str(".")?;
    }
    if borne.inside_corner {
        text.write_str(" It has an inside corner: round it well, or strengthen it.")?;
    }
    if borne.may_wrinkle {
        text.write_str(" So thin a dished end may wrinkle at its knuckle.")?;
    }
    Ok(())
}
