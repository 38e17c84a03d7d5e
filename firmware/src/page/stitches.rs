//! How a seam is tacked and stitched.

use core::fmt::Write;

use embedded_graphics::draw_target::DrawTarget;
use embedded_graphics::pixelcolor::Gray4;
use seamwright_core::stitch::Division;

use super::layout::{RIGHT, figure, foot, title};
use super::seams::{chosen, heading, view};
use crate::amount::{Amount, Units};
use crate::gauge::Work;
use crate::ink;
use crate::pen::Pen;
use crate::picture::{Style, edges, stitches};
use crate::text::Letters;

/// Draws the page: number and length of the seam's stitches large, tacks and sums at the foot.
pub(super) fn draw<D>(pen: &mut Pen<'_, D>, work: &Work, units: Units) -> Result<(), D::Error>
where
    D: DrawTarget<Color = Gray4>,
{
    let tank = work.tank();
    let Some((seam, division)) = chosen(work).and_then(|seam| Some((seam, tank.division(&seam)?)))
    else {
        return title(pen, "Stitches");
    };
    title(pen, &heading("Stitch", &seam, work))?;
    let amount = Amount::times(division.count, division.length, units);
    picture(pen, work, &amount, division)?;
    figure(pen, amount.figure())?;

    if let Some(tacks) = tank.tacks(&seam) {
        let [mut long, mut short] = [const { heapless::String::<48>::new() }; 2];
        let word = if tacks.count == 1 { "tack" } else { "tacks" };
        let _ = write!(short, "{} {word}", tacks.count);
        let _ = long.push_str(&short);
        if tacks.count > 1 {
            let _ = write!(long, " at {}", Amount::length(tacks.pitch, units).text());
        }
        pen.fitting(
            foot(0),
            RIGHT as u32,
            &[&long, &short],
            Letters::Small,
            ink::PLAIN,
        )?;
    }
    let totals = tank.totals();
    let [mut long, mut short] = [const { heapless::String::<48>::new() }; 2];
    let _ = write!(long, "job {}, {} tacks", totals.stitches, totals.tacks);
    let _ = write!(short, "job {}, {}", totals.stitches, totals.tacks);
    pen.fitting(
        foot(1),
        RIGHT as u32,
        &[&long, &short],
        Letters::Small,
        ink::PLAIN,
    )
}

fn picture<D>(
    pen: &mut Pen<'_, D>,
    work: &Work,
    amount: &Amount,
    division: Division,
) -> Result<(), D::Error>
where
    D: DrawTarget<Color = Gray4>,
{
    let outside = &work.tank().body().outside;
    let (Some(view), Some(edge)) = (
        view(work, &amount.figure()),
        outside.edges().nth(work.seam()),
    ) else {
        return Ok(());
    };
    pen.claim(view.extent());
    edges(pen.target(), outside, &view, Style::Ground, None)?;
    stitches(pen.target(), &view, &edge, division)
}
