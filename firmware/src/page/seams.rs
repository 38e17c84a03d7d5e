//! The seams, one at a time: how long, between which faces, at what angle.

use core::fmt::Write;

use embedded_graphics::draw_target::DrawTarget;
use embedded_graphics::pixelcolor::Gray4;
use seamwright_core::capacity::Lean;
use seamwright_core::seam::{Seam, joint_name};

use super::layout::{RIGHT, beside, figure, foot, title};
use crate::amount::{Amount, Units};
use crate::figures::Figure;
use crate::gauge::Work;
use crate::ink;
use crate::pen::Pen;
use crate::picture::{Look, Style, View, edges};
use crate::text::Letters;

/// Signs of a heading beside the marks of the pages.
const MOST_HEADING: usize = 15;

/// Draws the page.
#[inline(never)]
pub(super) fn draw<D>(pen: &mut Pen<'_, D>, work: &Work<'_>, units: Units) -> Result<(), D::Error>
where
    D: DrawTarget<Color = Gray4>,
{
    let Some(seam) = chosen(work) else {
        return title(pen, "Seams");
    };
    title(pen, &heading("Seam", &seam, work))?;
    let amount = Amount::length(seam.length, units);
    if let Some(view) = view(work, &amount.figure()) {
        pen.claim(view.extent());
        edges(
            pen.target(),
            &work.tank().body().outside,
            &view,
            Style::Ground,
            work.tank().edge_of_seam(work.seam()).as_ref(),
        )?;
    }
    figure(pen, amount.figure())?;

    let [a, b] = seam.faces;
    let mut between = heapless::String::<32>::new();
    let _ = write!(between, "{a} to {b}");
    pen.text(foot(0), &between, Letters::Small, ink::PLAIN)?;
    pen.text(foot(1), joint_name(seam.joint), Letters::Small, ink::PLAIN)?;
    let angle = Amount::angle(seam.dihedral).text();
    pen.text_to(RIGHT, foot(1).y, &angle, Letters::Small, ink::BRIGHT)?;
    Ok(())
}

/// The seam that is chosen.
pub(super) fn chosen(work: &Work<'_>) -> Option<Seam> {
    work.tank().seams().nth(work.seam())
}

/// A word, the seam's mark, and its place in the list.
pub(super) fn heading(word: &str, seam: &Seam, work: &Work<'_>) -> heapless::String<40> {
    let mut heading = heapless::String::new();
    let count = work.tank().seam_count();
    let _ = write!(heading, "{word} {} {}/{count}", seam.mark, work.seam() + 1);
    // Beside the marks of the pages there is room for so much; what counts is the seam's own mark.
    if heading.len() > MOST_HEADING {
        heading.clear();
        let _ = write!(heading, "{word} {}", seam.mark);
    }
    heading
}

/// The tank beside a figure.
pub(super) fn view(work: &Work<'_>, figure: &Figure<'_>) -> Option<View> {
    let look = Look {
        lean: Lean::LEVEL,
        quarters: work.quarters(),
    };
    View::fit(&work.tank().body().outside, look, beside(figure, RIGHT))
}
