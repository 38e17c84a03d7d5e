//! The panels, one at a time: the blank to cut, its size, and what it makes.

use core::fmt::Write;

use embedded_graphics::draw_target::DrawTarget;
use embedded_graphics::pixelcolor::Gray4;
use seamwright_core::blank::{Blank, Making, Panel};
use seamwright_core::tank::Tank;
use seamwright_core::units::Length;

use super::parts::{RIGHT, along, beside, figure, foot, title};
use crate::amount::{Amount, Units};
use crate::buttons::Step;
use crate::ink;
use crate::page::IsPage;
use crate::pen::Pen;
use crate::picture::blank;
use crate::text::Letters;
use crate::work::Work;

/// A line at the foot; the longest has 60 bytes.
type Line = heapless::String<96>;

/// The page of the panels, with the one that is chosen, by its place in the order of the tank's panels.
#[derive(Debug)]
pub struct PanelsPage {
    panel: usize,
}

impl IsPage for PanelsPage {
    const NAME: &'static str = "panels";
    const NEW: Self = Self { panel: 0 };

    fn start(&mut self, _: &Tank) {
        self.panel = 0;
    }

    /// Draws the page: the width of the blank large, its outline beside it, its height and what it makes at
    /// the foot.
    #[inline(never)]
    fn draw<D>(&self, pen: &mut Pen<'_, D>, work: &Work<'_>) -> Result<(), D::Error>
    where
        D: DrawTarget<Color = Gray4>,
    {
        let units = work.units();
        let tank = work.tank();
        let Some(panel) = tank.panels().nth(self.panel) else {
            return title(pen, "Panels");
        };
        let mut heading = heapless::String::<32>::new();
        let count = tank.panel_count();
        let _ = write!(heading, "Panel {} {}/{count}", panel.mark, self.panel + 1);
        title(pen, &heading)?;

        let size = outline(pen, work, &panel, units)?;
        let mut first = Line::new();
        match size {
            Some([_, height]) => {
                let _ = write!(first, "by {}", Amount::length(height, units).text());
            }
            None => {
                let _ = first.push_str("buy or have it spun");
            }
        }
        pen.text(foot(0), &first, Letters::Small, ink::BRIGHT)?;
        let sheet = Amount::thickness(panel.thickness, units).text();
        let mass = Amount::mass(panel.mass, units).text();
        let [mut long, mut short] = [const { Line::new() }; 2];
        let face = panel.face();
        match panel.faces.len() {
            1 => {
                let _ = write!(long, "{face}, {sheet}, {mass}");
                let _ = write!(short, "{face}, {sheet}");
            }
            some => {
                let _ = write!(long, "{some} faces, {sheet}, {mass}");
                let _ = write!(short, "{some} faces, {sheet}");
            }
        }
        pen.fitting(
            foot(1),
            RIGHT as u32,
            &[&long, &short],
            Letters::Small,
            ink::PLAIN,
        )
    }

    fn step(&mut self, step: Step, work: &mut Work<'_>) {
        self.panel = along(self.panel, step.up, work.tank().panel_count());
    }
}

/// Draws figure and outline, and tells the size of the blank; `None` for a dished end, whose diameter
/// is shown.
// Out of line: the blank is some 7 KiB of stack.
#[inline(never)]
fn outline<D>(
    pen: &mut Pen<'_, D>,
    work: &Work<'_>,
    panel: &Panel,
    units: Units,
) -> Result<Option<[Length; 2]>, D::Error>
where
    D: DrawTarget<Color = Gray4>,
{
    let mut flat = Blank::new();
    // Every blank of an open job has been laid out once.
    let laid = work.tank().blank(panel, &mut flat).is_ok() && !flat.is_empty();
    if !laid || panel.making == Making::Dished {
        let across = work
            .tank()
            .body()
            .outside
            .turned()
            .map_or(0.0, |(turned, ..)| 2.0 * turned.radius());
        let amount = Amount::length(Length::from_metres(across), units);
        figure(pen, amount.figure())?;
        return Ok(None);
    }
    let size = flat.size().map(Length::from_metres);
    let [width, _] = size;
    let amount = Amount::length(width, units);
    let area = beside(&amount.figure(), RIGHT);
    pen.claim(area);
    blank(pen.target(), &flat, area)?;
    figure(pen, amount.figure())?;
    Ok(Some(size))
}
