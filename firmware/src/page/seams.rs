//! The seams, one at a time: how long, between which faces, at what angle.

use core::fmt::Write;

use embedded_graphics::draw_target::DrawTarget;
use embedded_graphics::pixelcolor::Gray4;
use seamwright_core::tank::Tank;

use super::parts::{RIGHT, choose, chosen, figure, foot, heading, title, view};
use crate::amount::Amount;
use crate::buttons::Step;
use crate::ink;
use crate::page::{IsPage, Turn};
use crate::pen::Pen;
use crate::picture::{Style, edges};
use crate::text::Letters;
use crate::work::Work;

/// The page of the seams. Which of them is chosen holds for every page that shows a seam.
#[derive(Debug)]
pub struct SeamsPage;

impl IsPage for SeamsPage {
    const NAME: &'static str = "seams";
    const NEW: Self = Self;

    fn start(&mut self, _: &Tank) {}

    #[inline(never)]
    fn draw<D>(&self, pen: &mut Pen<'_, D>, work: &Work<'_>) -> Result<(), D::Error>
    where
        D: DrawTarget<Color = Gray4>,
    {
        let units = work.units();
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
        pen.text(foot(1), seam.joint_name(), Letters::Small, ink::PLAIN)?;
        let angle = Amount::angle(seam.dihedral).text();
        pen.text_to(RIGHT, foot(1).y, &angle, Letters::Small, ink::BRIGHT)?;
        Ok(())
    }

    fn step(&mut self, step: Step, work: &mut Work<'_>) {
        choose(step, work);
    }

    /// To how the seam is stitched, which is the next page.
    fn select(&mut self, _: &mut Work<'_>) -> Turn {
        Turn::On
    }
}
