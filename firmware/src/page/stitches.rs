//! How a seam is tacked and stitched.

use core::fmt::Write;

use embedded_graphics::draw_target::DrawTarget;
use embedded_graphics::pixelcolor::Gray4;
use seamwright_core::seam::{Division, Seam};
use seamwright_core::tank::Tank;

use super::parts::{RIGHT, choose, chosen, figure, foot, heading, title, view};
use crate::amount::{Amount, Units};
use crate::buttons::Step;
use crate::ink;
use crate::page::{IsPage, Turn};
use crate::pen::Pen;
use crate::picture::{Style, edges, stitches};
use crate::text::Letters;
use crate::work::Work;

/// A line at the foot; the longest has 48 bytes.
type Line = heapless::String<64>;

/// The page of the stitches of the seam that is chosen.
#[derive(Debug)]
pub struct StitchesPage;

impl IsPage for StitchesPage {
    const NAME: &'static str = "stitches";
    const NEW: Self = Self;

    fn start(&mut self, _: &Tank) {}

    /// Draws the page: number and length of the seam's stitches large, tacks and sums at the foot.
    #[inline(never)]
    fn draw<D>(&self, pen: &mut Pen<'_, D>, work: &Work<'_>) -> Result<(), D::Error>
    where
        D: DrawTarget<Color = Gray4>,
    {
        let units = work.units();
        let tank = work.tank();
        let Some(seam) = chosen(work) else {
            return title(pen, "Stitches");
        };
        title(pen, &heading("Stitch", &seam, work))?;
        let Some(division) = tank.division(&seam) else {
            return pen.text(foot(0), "a fold: no weld here", Letters::Small, ink::PLAIN);
        };
        let mut amount = Amount::times(division.count, division.length, units);
        // On the longest of seams only the length fits large, and the number goes to the foot.
        let fits = amount.figure().width() <= RIGHT as u32;
        if !fits {
            amount = Amount::length(division.length, units);
        }
        picture(pen, work, &amount, division)?;
        figure(pen, amount.figure())?;

        let [tacks, few_tacks] = tacks_line(work, &seam, units);
        foot_line(pen, 0, &[&tacks, &few_tacks])?;
        let totals = tank.totals();
        let [mut long, mut short] = [const { Line::new() }; 2];
        if fits {
            let _ = write!(long, "job {}, {} tacks", totals.stitches, totals.tacks);
            let _ = write!(short, "job {}, {}", totals.stitches, totals.tacks);
        } else {
            let _ = write!(long, "{} stitches", division.count);
        }
        foot_line(pen, 1, &[&long, &short])
    }

    fn step(&mut self, step: Step, work: &mut Work<'_>) {
        choose(step, work);
    }

    /// Back to the seam, which is the page before.
    fn select(&mut self, _: &mut Work<'_>) -> Turn {
        Turn::Back
    }
}

/// The seam's tacks: how many and how far apart, and the same without the distance.
fn tacks_line(work: &Work<'_>, seam: &Seam, units: Units) -> [Line; 2] {
    let [mut long, mut short] = [const { Line::new() }; 2];
    if let Some(tacks) = work.tank().tacks(seam) {
        let word = if tacks.count == 1 { "tack" } else { "tacks" };
        let _ = write!(short, "{} {word}", tacks.count);
        let _ = long.push_str(&short);
        if tacks.count > 1 {
            let pitch = Amount::length(tacks.pitch, units).text();
            let _ = write!(long, " at {pitch}");
        }
    }
    [long, short]
}

/// The first of `choices` that fits a foot line.
fn foot_line<D>(pen: &mut Pen<'_, D>, line: usize, choices: &[&str]) -> Result<(), D::Error>
where
    D: DrawTarget<Color = Gray4>,
{
    pen.fitting(
        foot(line),
        RIGHT as u32,
        choices,
        Letters::Small,
        ink::PLAIN,
    )
}

fn picture<D>(
    pen: &mut Pen<'_, D>,
    work: &Work<'_>,
    amount: &Amount,
    division: Division,
) -> Result<(), D::Error>
where
    D: DrawTarget<Color = Gray4>,
{
    let outside = &work.tank().body().outside;
    let (Some(view), Some(edge)) = (
        view(work, &amount.figure()),
        work.tank().edge_of_seam(work.seam()),
    ) else {
        return Ok(());
    };
    pen.claim(view.extent());
    edges(pen.target(), outside, &view, Style::Ground, None)?;
    stitches(pen.target(), &view, &edge, division)
}
