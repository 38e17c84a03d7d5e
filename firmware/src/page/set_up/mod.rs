//! What the arc is set to: each setting against the range that is published for this metal, sheet and joint.
//!
//! Up and down go through the settings of one kind of seam, then of the next; select reads whose figures they are.

mod row;

use core::fmt::Write;

use embedded_graphics::draw_target::DrawTarget;
use embedded_graphics::geometry::Point;
use embedded_graphics::pixelcolor::Gray4;
use heapless::Vec;
use seamwright_core::tables::ranges::{RangeFit, RangeSource};
use seamwright_core::tables::{Family, Process, ranges};
use seamwright_core::tank::Tank;

use super::parts::{BODY_TOP, FIGURE_TOP, Prose, RIGHT, Reading, figure, foot, title};
use crate::amount::{Amount, Units};
use crate::buttons::Step;
use crate::figures::Figure;
use crate::ink;
use crate::page::{IsPage, Turn};
use crate::pen::Pen;
use crate::text::Letters;
use crate::work::Work;
use row::{Row, Setting, count, kind_name, row, short};

/// A line of this page.
type Line = heapless::String<64>;

/// What stands on the page where nothing is published.
const NONE: [&str; 2] = ["Nothing is published", "for sheet like this."];

/// Screenfuls of a row: its figure, and its sources.
fn parts(tank: &Tank, place: usize) -> usize {
    match row(tank, place) {
        Some(row) if row.range.is_some() => 1 + Prose::of(row.told()).parts(),
        _ => 1,
    }
}

/// The page of the settings: which is shown, as one row of all kinds of seams, and whether its sources are read.
#[derive(Debug)]
pub struct SetUpPage {
    read: Reading,
}

impl IsPage for SetUpPage {
    const NAME: &'static str = "set-up";
    const NEW: Self = Self {
        read: Reading::START,
    };
    const LASTS: bool = true;

    fn start(&mut self, _: &Tank) {
        self.read = Reading::START;
    }

    #[inline(never)]
    fn draw<D>(&self, pen: &mut Pen<'_, D>, work: &Work<'_>) -> Result<(), D::Error>
    where
        D: DrawTarget<Color = Gray4>,
    {
        let units = work.units();
        let read = self.read;
        let Some(row) = row(work.tank(), read.piece) else {
            return title(pen, "Set-up");
        };
        title(pen, row.setting.name())?;
        if let Some(part) = read.part.checked_sub(1) {
            return Prose::of(row.told()).draw(pen, "Figures are from", part);
        }
        let span = row.span(units);
        match (row.own, &span) {
            (Some(own), _) => {
                let amount = row.amount(own, units);
                figure(pen, amount.figure())?;
                if row.setting == Setting::Current {
                    beside(pen, work.tank(), RIGHT - amount.figure().width() as i32)?;
                }
            }
            (None, Some(span)) if fits(span.figure()) => figure(pen, span.figure())?,
            (None, Some(span)) if fits(bare(span)) => figure(pen, bare(span))?,
            (None, Some(_)) => {
                let least = row.range.map(|[least, _]| row.amount(least, units));
                if let Some(least) = least {
                    figure(pen, least.figure())?;
                }
            }
            (None, None) => {
                for (line, y) in NONE.into_iter().zip((BODY_TOP + 4..).step_by(11)) {
                    pen.text(Point::new(0, y), line, Letters::Small, ink::PLAIN)?;
                }
            }
        }
        against(pen, work.tank(), &row, units)?;
        where_from(pen, &row, units)
    }

    fn step(&mut self, step: Step, work: &mut Work<'_>) {
        self.read.step(step.up, count(work.tank()));
    }

    /// Reads on through its sources.
    fn select(&mut self, work: &mut Work<'_>) -> Turn {
        self.read.read_on(parts(work.tank(), self.read.piece));
        Turn::Stay
    }
}

/// Whether a figure fits the display.
fn fits(figure: Figure<'_>) -> bool {
    figure.width() <= RIGHT as u32
}

/// The figure of a range that leaves its unit to the foot.
fn bare(span: &Amount) -> Figure<'_> {
    Figure::plain(span.number(), "")
}

/// The process and the metal, at the right of the current.
fn beside<D>(pen: &mut Pen<'_, D>, tank: &Tank, room: i32) -> Result<(), D::Error>
where
    D: DrawTarget<Color = Gray4>,
{
    let process = match tank.arc().process {
        Process::TigAc => "TIG AC",
        Process::TigDc => "TIG DC-",
        Process::Mig => "MIG",
        Process::Mag => "MAG",
        Process::FluxCored => "flux-cored",
    };
    let alloy = tank.job().alloy();
    let family = match alloy.family() {
        Family::Aluminium => "Al",
        Family::Stainless => "stainless",
        Family::Steel => "steel",
    };
    let fits = |text: &&str| (Letters::Small.width(text) as i32) < room;
    let metal = [alloy.name(), family].into_iter().find(fits);
    let texts = [process, metal.unwrap_or_default()];
    for (text, y) in texts
        .into_iter()
        .filter(fits)
        .zip((FIGURE_TOP + 7..).step_by(11))
    {
        pen.text_to(RIGHT, y, text, Letters::Small, ink::PLAIN)?;
    }
    Ok(())
}

/// How the job's own value lies against the range, or what else the range is to be held against.
fn against<D>(pen: &mut Pen<'_, D>, tank: &Tank, row: &Row, units: Units) -> Result<(), D::Error>
where
    D: DrawTarget<Color = Gray4>,
{
    let Some(span) = row.span(units) else {
        let says = if row.own.is_some() {
            "no range published"
        } else {
            "try it on scrap"
        };
        return pen.text(foot(0), says, Letters::Small, ink::PLAIN);
    };
    let mut long = Line::new();
    let mut short = Line::new();
    let grey = match (row.own.is_some(), row.fit()) {
        (true, fit) => {
            let (fit, grey) = match fit {
                Some(RangeFit::Within) | None => ("in", ink::PLAIN),
                Some(RangeFit::Below) => ("under", ink::BRIGHT),
                Some(RangeFit::Above) => ("over", ink::BRIGHT),
            };
            let within = if fit == "in" { "in range" } else { fit };
            let _ = write!(long, "{within} {}", span.text());
            let _ = write!(short, "{fit} {}", span.number());
            grey
        }
        (false, _) if !fits(span.figure()) && fits(bare(&span)) => {
            let _ = write!(long, "{}, as published", span.figure().unit);
            ink::PLAIN
        }
        (false, _) if !fits(span.figure()) => {
            let most = row.range.map(|[_, most]| row.amount(most, units).text());
            let _ = write!(long, "to {}", most.unwrap_or_default());
            ink::BRIGHT
        }
        (false, _) if row.setting == Setting::Tungsten => {
            let arc = tank.arc();
            let amperes = Amount::current(arc.current).text();
            match ranges::electrode(arc.process, arc.current) {
                Some(range) => {
                    let [least, most] =
                        [range.least, range.most].map(|d| Amount::thickness(d, units));
                    let carries = Amount::span(&least, &most);
                    let _ = write!(long, "{amperes} wants {}", carries.number());
                    let _ = write!(short, "by A {}", carries.number());
                }
                None => {
                    let _ = write!(long, "none bears {amperes}");
                }
            }
            ink::PLAIN
        }
        (false, _) => {
            let _ = long.push_str("as published");
            ink::PLAIN
        }
    };
    let choices: &[&str] = if short.is_empty() {
        &[&long]
    } else {
        &[&long, &short]
    };
    pen.fitting(foot(0), RIGHT as u32, choices, Letters::Small, grey)
}

/// Kind of seam and sheet, and whose figures they are.
fn where_from<D>(pen: &mut Pen<'_, D>, row: &Row, units: Units) -> Result<(), D::Error>
where
    D: DrawTarget<Color = Gray4>,
{
    let mut kind = Line::new();
    let sheet = Amount::thickness(row.kind.thickness, units).text();
    let _ = write!(kind, "{} {sheet}", kind_name(row.kind.seam));
    let mut named: Vec<&str, { RangeSource::ALL.len() }> = Vec::new();
    for source in row.sources.iter() {
        let name = short(source);
        if !named.contains(&name) {
            // As many as there are.
            let _ = named.push(name);
        }
    }
    let (mut long, mut counted) = (kind.clone(), kind.clone());
    // Sheet is told by its number where there is no room for more.
    let mut brief = Line::new();
    let number = Amount::thickness(row.kind.thickness, units);
    let _ = write!(brief, "{} {}", kind_name(row.kind.seam), number.number());
    match named.as_slice() {
        [] => {}
        [one] => {
            let _ = write!(long, ": {one}");
        }
        [first, rest @ ..] => {
            let _ = write!(long, ": {first}");
            for one in rest {
                let _ = write!(long, ", {one}");
            }
            let _ = write!(counted, ": {first}+{}", rest.len());
            let _ = write!(brief, ": {first}+{}", rest.len());
        }
    }
    pen.fitting(
        foot(1),
        RIGHT as u32,
        &[&long, &counted, &brief, &kind],
        Letters::Small,
        ink::DIM,
    )
}
