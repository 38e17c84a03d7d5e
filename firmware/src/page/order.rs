//! The order of the stitches: what the whole takes, then one stitch after another, each seen on the tank.

use core::fmt::Write;
use core::marker::PhantomData;

use embedded_graphics::draw_target::DrawTarget;
use embedded_graphics::geometry::Point;
use embedded_graphics::pixelcolor::Gray4;
use seamwright_core::seam::Seam;
use seamwright_core::tank::Tank;
use seamwright_core::units::Length;
use seamwright_core::weld::{Progress, StepCause, WAYS, WeldStep};

use super::parts::{BODY_TOP, Prose, RIGHT, figure, foot, title, view};
use crate::amount::{Amount, Units};
use crate::buttons::Step;
use crate::ink;
use crate::page::{IsPage, Kind, Turn};
use crate::pen::Pen;
use crate::picture::{Style, edges, stretch};
use crate::text::Letters;
use crate::work::{Order, Origin, Work};

/// What stands on the page where there is no order, or one of another tank.
const NONE: [&str; 3] = [
    "No order yet. Send",
    "the job again, and",
    "it will come along.",
];
const OTHER: [&str; 3] = [
    "What came of an order",
    "is not whole, or not",
    "of this job. Send it.",
];

/// What stands there of a job that has more stitches than an order may have.
const TOO_MANY: [&str; 3] = [
    "Over 256 stitches:",
    "their order is in the",
    "plan on the laptop.",
];

const LOOKING: [&str; 3] = [
    "Looking for an order.",
    "The first will be",
    "here in some seconds.",
];

/// A line of this page.
type Line = heapless::String<40>;

/// The page of the order, with the stitch that is shown, from 1; 0 is the whole.
#[derive(Debug)]
pub struct OrderPage<K> {
    stitch: u16,
    kind: PhantomData<K>,
}

impl<K: Kind> IsPage for OrderPage<K> {
    const NAME: &'static str = "order";
    const NEW: Self = Self {
        stitch: 0,
        kind: PhantomData,
    };

    fn start(&mut self, _: &Tank) {
        self.stitch = 0;
    }

    #[inline(never)]
    fn draw<D>(&self, pen: &mut Pen<'_, D>, work: &Work<'_>) -> Result<(), D::Error>
    where
        D: DrawTarget<Color = Gray4>,
    {
        let order = work.order();
        if !order.fits(work.tank()) {
            title(pen, "Weld order")?;
            let said = match Self::origin(&order) {
                _ if work.tank().totals().stitches > WeldStep::MOST as u32 => TOO_MANY,
                Origin::Own(Progress::Failed(error)) => {
                    return Prose::of(error).draw(pen, "none found", 0);
                }
                Origin::Own(_) => LOOKING,
                Origin::Sent if order.count() == 0 => NONE,
                Origin::Sent => OTHER,
            };
            for (line, y) in said
                .into_iter()
                .zip((BODY_TOP + 2..).step_by(Letters::Small.height() as usize + 2))
            {
                pen.text(Point::new(0, y), line, Letters::Small, ink::PLAIN)?;
            }
            return Ok(());
        }
        // An order that changed may have become shorter.
        let place = usize::from(self.stitch).min(order.count());
        match place.checked_sub(1).and_then(|place| order.step(place)) {
            Some(step) => one(pen, work, (place, step), work.units()),
            None => whole(pen, work, Self::origin(&order)),
        }
    }

    /// Down is onward, a repeat by ten.
    fn step(&mut self, step: Step, work: &mut Work<'_>) {
        let by = if step.coarse { 10 } else { 1 };
        self.stitch = if step.up {
            self.stitch.saturating_sub(by)
        } else {
            // At most 256.
            (self.stitch + by).min(work.order().count() as u16)
        };
    }

    /// Back to the whole.
    fn select(&mut self, _: &mut Work<'_>) -> Turn {
        self.stitch = 0;
        Turn::Stay
    }

    /// While a stitch is shown, so that the order does not change under the welder's hands.
    fn holds_order(&self) -> bool {
        self.stitch != 0
    }
}

impl<K: Kind> OrderPage<K> {
    /// Which stitch is shown, from 1; 0 for the whole.
    #[cfg(test)]
    pub(crate) const fn stitch(&self) -> u16 {
        self.stitch
    }

    /// Where an order is from. A gauge that plans none does not ask, so that its program lacks the words for it.
    const fn origin(order: &Order<'_>) -> Origin {
        if K::PLANS {
            order.origin()
        } else {
            Origin::Sent
        }
    }
}

/// What the whole order takes.
fn whole<D>(pen: &mut Pen<'_, D>, work: &Work<'_>, origin: Origin) -> Result<(), D::Error>
where
    D: DrawTarget<Color = Gray4>,
{
    let order = work.order();
    let mut line = Line::new();
    let _ = match origin {
        Origin::Sent => line.push_str("Order as sent").is_ok(),
        Origin::Own(Progress::Tried(some)) if usize::from(some) < WAYS.len() => {
            write!(line, "Order, {some} of {}", WAYS.len()).is_ok()
        }
        Origin::Own(Progress::Tried(_)) => line.push_str("Weld order").is_ok(),
        Origin::Own(_) => line.push_str("Order, rough").is_ok(),
    };
    title(pen, &line)?;
    let Some(takes) = order.takes(work.tank()) else {
        return Ok(());
    };
    figure(pen, Amount::time(takes.job).figure())?;
    line.clear();
    let _ = write!(line, "waits {} of it", Amount::time(takes.waits).text());
    pen.text(foot(0), &line, Letters::Small, ink::PLAIN)?;
    line.clear();
    let hottest = Amount::temperature(takes.hottest.starts_at(), work.units()).text();
    let _ = write!(line, "hottest start {hottest}");
    pen.text(foot(1), &line, Letters::Small, ink::PLAIN)
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
    // Who rests stands in the title; a wait for the metal, which a feel of it may shorten, is told by its word alone.
    let what = match step.cause {
        None | Some(StepCause::Metal) => "Weld",
        Some(StepCause::PowerSource) => "Source",
        Some(StepCause::Torch) => "Torch",
    };
    let _ = write!(line, "{what} {place}/{}", work.order().count());
    title(pen, &line)?;
    let wait = Amount::wait(step.waits(), step.cause);
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
    let [from, to] = [from, to].map(|end| Amount::length(end, units));
    let (start, unit) = (from.text(), from.figure().unit);
    let bare = start.strip_suffix(unit).unwrap_or(&start);
    let _ = write!(line, "{bare}to {}", to.text());
    let mut short = Line::new();
    let _ = write!(short, "from {start}");
    let choices = [line.as_str(), &short];
    pen.fitting(foot(1), RIGHT as u32, &choices, Letters::Small, ink::PLAIN)
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
    let mut welded = [false; WeldStep::MOST];
    for before in work.order().steps().take(place.saturating_sub(1)) {
        if let Some(slot) = welded.get_mut(usize::from(before.stitch)) {
            *slot = true;
        }
    }
    let view = view(work, &wait.figure());
    if let Some(view) = &view {
        pen.claim(view.extent());
        edges(
            pen.target(),
            &tank.body().outside,
            view,
            Style::Ground,
            None,
        )?;
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
            let now = run == u16::from(step.stitch);
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
