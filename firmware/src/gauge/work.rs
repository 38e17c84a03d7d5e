//! An open job: its tank, the page that is turned to, and what was chosen on each page.

use seamwright_core::input::Measure;
use seamwright_core::tank::Tank;

use super::filling::{Filling, Step};
#[cfg(feature = "full")]
use super::found::Found;
use super::order::Order;
use crate::amount::Units;
use crate::buttons::{Button, Event};
use crate::page::{Page, Reading, notices};
use crate::picture::telling_side;

/// What was chosen in an open job; it stays chosen while the job is open.
#[derive(Clone, Copy, Debug)]
pub(super) struct Choices {
    page: Page,
    quarters: u8,
    measure: Measure,
    filling: Filling,
    dip: u16,
    panel: usize,
    seam: usize,
    notice: Reading,
    /// Which stitch of the order, from 1; 0 is the whole.
    stitch: u16,
    /// Whether it has only the pages that every gauge has.
    #[cfg(feature = "full")]
    plain: bool,
}

/// An open job as the pages see it.
#[derive(Clone, Copy, Debug)]
pub struct Work<'a> {
    tank: &'a Tank,
    order: Order<'a>,
    choices: Choices,
    #[cfg(feature = "full")]
    found: &'a Found,
}

impl<'a> Work<'a> {
    pub(super) const fn new(
        tank: &'a Tank,
        order: Order<'a>,
        choices: Choices,
        #[cfg(feature = "full")] found: &'a Found,
    ) -> Self {
        Self {
            tank,
            order,
            choices,
            #[cfg(feature = "full")]
            found,
        }
    }

    /// What the fuller pages have found, and what was chosen on them.
    #[cfg(feature = "full")]
    #[must_use]
    pub const fn found(&self) -> &'a Found {
        self.found
    }

    /// The order of its stitches.
    #[must_use]
    pub const fn order(&self) -> Order<'a> {
        self.order
    }

    /// Which stitch of the order, from 1; 0 is the whole.
    #[must_use]
    pub fn stitch(&self) -> usize {
        // An order that changed may have become shorter.
        usize::from(self.choices.stitch).min(self.order.count())
    }

    /// The tank.
    #[must_use]
    pub const fn tank(&self) -> &'a Tank {
        self.tank
    }

    /// The page turned to.
    #[must_use]
    pub const fn page(&self) -> Page {
        self.choices.page
    }

    /// The pages there are.
    #[must_use]
    pub const fn pages(&self) -> &'static [Page] {
        self.choices.pages()
    }

    /// Quarter turns by which one has walked round the tank.
    #[must_use]
    pub const fn quarters(&self) -> u8 {
        self.choices.quarters
    }

    /// The capacity that is shown large.
    #[must_use]
    pub const fn measure(&self) -> Measure {
        self.choices.measure
    }

    /// Depth and lean on the fill page.
    #[must_use]
    pub const fn filling(&self) -> &Filling {
        &self.choices.filling
    }

    /// The mark of the dip chart chosen, counted from 0.
    #[must_use]
    pub const fn dip(&self) -> u16 {
        self.choices.dip
    }

    /// The panel chosen, by its place in the order of the tank's panels.
    #[must_use]
    pub const fn panel(&self) -> usize {
        self.choices.panel
    }

    /// The seam chosen, by its place in the order of the tank's seams.
    #[must_use]
    pub const fn seam(&self) -> usize {
        self.choices.seam
    }

    /// How far the notices have been read.
    #[must_use]
    pub const fn notice(&self) -> Reading {
        self.choices.notice
    }
}

impl Choices {
    /// What is chosen when a tank is opened.
    pub(super) fn at_first(tank: &Tank, #[cfg(feature = "full")] plain: bool) -> Self {
        Self {
            page: Page::FIRST,
            quarters: telling_side(&tank.body().outside),
            measure: Measure::Usable,
            filling: Filling::at_fill_mark(tank.capacity()),
            dip: 0,
            panel: 0,
            seam: 0,
            notice: Reading::START,
            stitch: 0,
            #[cfg(feature = "full")]
            plain,
        }
    }

    /// The page turned to.
    pub(super) const fn page(&self) -> Page {
        self.page
    }

    /// Which stitch of the order is shown, from 1; 0 for the whole.
    #[cfg(feature = "full")]
    pub(super) const fn stitch(&self) -> u16 {
        self.stitch
    }

    /// The pages there are.
    #[cfg(feature = "full")]
    const fn pages(&self) -> &'static [Page] {
        if self.plain { Page::PLAIN } else { Page::ALL }
    }

    /// The pages there are.
    #[cfg(not(feature = "full"))]
    const fn pages(&self) -> &'static [Page] {
        Page::PLAIN
    }

    pub(super) fn handle(&mut self, event: Event, tank: &Tank, steps: usize, units: Units) {
        let with = (tank, steps);
        match event {
            Event::Press(Button::Left) => self.page = self.page.before(self.pages()),
            Event::Press(Button::Right) => self.page = self.page.after(self.pages()),
            Event::Press(Button::Select) => self.select(),
            _ => {
                if let Some(step) = Step::of(event) {
                    self.step(step, with, units);
                }
            }
        }
    }

    fn select(&mut self) {
        match self.page {
            Page::Fill => self.filling.next(),
            // From a seam to how it is stitched and back.
            Page::Seams => self.page = Page::Stitches,
            Page::Stitches => self.page = Page::Seams,
            // Back to the whole.
            Page::Order => self.stitch = 0,
            Page::Tank | Page::Holds | Page::Dip | Page::Panels | Page::Heat | Page::Notices => {}
            // Chosen with what they have found.
            #[cfg(feature = "full")]
            Page::SetUp | Page::Filler | Page::Mass | Page::Strength | Page::Leak => {}
        }
    }

    fn step(&mut self, step: Step, (tank, steps): (&Tank, usize), units: Units) {
        match self.page {
            Page::Tank => {
                let by = if step.up { 1 } else { 3 };
                self.quarters = (self.quarters + by) % 4;
            }
            Page::Holds => self.measure = neighbour(self.measure, step.up),
            Page::Fill => self.filling.change(step, tank, units),
            Page::Dip => {
                // A repeat goes by ten, to get through a long chart.
                let by = if step.coarse { 10 } else { 1 };
                let last = tank.dip_count().saturating_sub(1);
                self.dip = if step.up {
                    self.dip.saturating_add(by).min(last)
                } else {
                    self.dip.saturating_sub(by)
                };
            }
            Page::Panels => {
                let last = tank.panel_count().saturating_sub(1);
                self.panel = if step.up {
                    self.panel.saturating_sub(1)
                } else {
                    (self.panel + 1).min(last)
                };
            }
            Page::Seams | Page::Stitches => {
                let last = tank.seam_count().saturating_sub(1);
                self.seam = if step.up {
                    self.seam.saturating_sub(1)
                } else {
                    (self.seam + 1).min(last)
                };
            }
            Page::Order => {
                // Down is onward, a repeat by ten.
                let by = if step.coarse { 10 } else { 1 };
                self.stitch = if step.up {
                    self.stitch.saturating_sub(by)
                } else {
                    // At most 256.
                    (self.stitch + by).min(steps as u16)
                };
            }
            Page::Heat => {}
            // Chosen with what they have found.
            #[cfg(feature = "full")]
            Page::SetUp | Page::Filler | Page::Mass | Page::Strength | Page::Leak => {}
            Page::Notices => {
                self.notice = if step.up {
                    notices::before(tank, self.notice)
                } else {
                    notices::after(tank, self.notice)
                };
            }
        }
    }
}

/// The measure above or below in the list that the page shows.
fn neighbour(measure: Measure, up: bool) -> Measure {
    let place = Measure::ALL.iter().position(|known| *known == measure);
    let next = match (place, up) {
        (Some(place), true) => place.checked_sub(1),
        (Some(place), false) => Some(place + 1),
        (None, _) => None,
    };
    next.and_then(|next| Measure::ALL.get(next))
        .copied()
        .unwrap_or(measure)
}
