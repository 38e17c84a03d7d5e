//! What the arc is set to: each setting against the range that is published for this metal, sheet and joint.
//!
//! Up and down go through the settings of one kind of seam, then of the next; select reads whose figures they are.

use core::fmt::Write;

use embedded_graphics::draw_target::DrawTarget;
use embedded_graphics::geometry::Point;
use embedded_graphics::pixelcolor::Gray4;
use heapless::Vec;
use seamwright_core::heat::arc::Process;
use seamwright_core::heat::flow::Flow;
use seamwright_core::heat::ranges::{self, Fit, Range, SeamKind, Source, Sources};
use seamwright_core::job::Tank;
use seamwright_core::quantity::{Current, Length, Speed};
use seamwright_core::stock::Family;

use super::layout::{BODY_TOP, FIGURE_TOP, RIGHT, figure, foot, title};
use super::prose::Prose;
use crate::amount::{Amount, Units};
use crate::figures::Figure;
use crate::gauge::Work;
use crate::ink;
use crate::pen::Pen;
use crate::text::Letters;

/// A line of this page.
type Line = heapless::String<64>;

/// Kinds of seams that settings tell apart, with all thicknesses that occur; more than any tank has.
const MOST_KINDS: usize = 24;
/// A value this share off an end of a range lies at it: sizes bought in inches are a hair off the millimetres of a
/// table.
const SLACK: f64 = 0.01;

/// What stands on the page where nothing is published.
const NONE: [&str; 2] = ["Nothing is published", "for sheet like this."];

/// A setting.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Setting {
    Current,
    Tungsten,
    Nozzle,
    Rod,
    Gas,
    Travel,
}

impl Setting {
    const ALL: [Self; 6] = [
        Self::Current,
        Self::Tungsten,
        Self::Nozzle,
        Self::Rod,
        Self::Gas,
        Self::Travel,
    ];

    const fn name(self) -> &'static str {
        match self {
            Self::Current => "Current",
            Self::Tungsten => "Tungsten",
            Self::Nozzle => "Gas nozzle",
            Self::Rod => "Filler rod",
            Self::Gas => "Gas flow",
            Self::Travel => "Travel",
        }
    }
}

/// Seams that settings do not tell apart.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Kind {
    seam: SeamKind,
    /// The thinner sheet, which burns through first.
    thickness: Length,
}

const fn kind_name(seam: SeamKind) -> &'static str {
    match seam {
        SeamKind::Butt => "butt",
        SeamKind::Corner => "corner",
        SeamKind::Fillet => "fillet",
    }
}

/// A source in as few letters as tell it.
const fn short(source: Source) -> &'static str {
    match source {
        Source::Nimi => "NIMI",
        Source::MathersButt
        | Source::MathersFillet
        | Source::MathersNozzle
        | Source::MathersElectrode => "Mathers",
        Source::GasHandbook => "gas maker",
        Source::NationalHandbook => "China",
        Source::Aws => "AWS A5.12",
        Source::Practice => "practice",
        Source::Beyond => "past table",
    }
}

/// One setting for one kind of seam: the published range, and the job's own value.
#[derive(Clone, Debug)]
struct Row {
    setting: Setting,
    kind: Kind,
    /// In SI.
    range: Option<[f64; 2]>,
    sources: Sources,
    /// In SI.
    own: Option<f64>,
}

fn kinds(tank: &Tank) -> Vec<Kind, MOST_KINDS> {
    let mut all: Vec<Kind, MOST_KINDS> = Vec::new();
    for seam in tank.seams() {
        let Some(joint) = seam.joint else {
            continue;
        };
        let kind = Kind {
            seam: SeamKind::of(joint),
            thickness: seam.thinner,
        };
        if !all.contains(&kind) {
            // More room than there are.
            let _ = all.push(kind);
        }
    }
    all
}

/// How many rows there are.
pub(crate) fn count(tank: &Tank) -> usize {
    kinds(tank).len() * Setting::ALL.len()
}

fn row(tank: &Tank, place: usize) -> Option<Row> {
    let settings = Setting::ALL.len();
    let kind = *kinds(tank).get(place / settings)?;
    let setting = *Setting::ALL.get(place % settings)?;
    let (arc, family, t) = (tank.arc(), tank.job().alloy().family(), kind.thickness);
    fn si<T>(range: Option<Range<T>>, of: impl Fn(&T) -> f64) -> Option<([f64; 2], Sources)> {
        let range = range?;
        Some(([of(&range.least), of(&range.most)], range.sources))
    }
    let (found, own) = match setting {
        Setting::Current => (
            si(ranges::current(family, t, kind.seam), |i| i.si()),
            Some(arc.current.si()),
        ),
        Setting::Tungsten => (si(ranges::tungsten(family, t), |d| d.si()), None),
        Setting::Nozzle => (si(ranges::nozzle(family, t), |d| d.si()), None),
        Setting::Rod => (si(ranges::rod(family, t, kind.seam), |d| d.si()), None),
        Setting::Gas => (si(ranges::gas(family, t), |flow| flow.si()), None),
        Setting::Travel => (
            si(ranges::travel(family, t, kind.seam), |v| v.si()),
            Some(arc.travel.si()),
        ),
    };
    Some(Row {
        setting,
        kind,
        range: found.map(|(range, _)| range),
        sources: found.map_or(Sources::default(), |(_, sources)| sources),
        own,
    })
}

impl Row {
    fn fit(&self) -> Option<Fit> {
        let ([least, most], own) = (self.range?, self.own?);
        let near = |end: f64| libm::fabs(own - end) <= SLACK * libm::fabs(own);
        Some(if near(least) || near(most) {
            Fit::Within
        } else if own < least {
            Fit::Below
        } else if own > most {
            Fit::Above
        } else {
            Fit::Within
        })
    }

    fn amount(&self, value: f64, units: Units) -> Amount {
        match self.setting {
            Setting::Current => Amount::current(Current::from_amperes(value)),
            Setting::Tungsten | Setting::Nozzle | Setting::Rod => {
                Amount::thickness(Length::from_metres(value), units)
            }
            Setting::Gas => Amount::flow(Flow::from_si(value), units),
            Setting::Travel => Amount::speed(Speed::from_metres_per_second(value), units),
        }
    }

    /// The range as one.
    fn span(&self, units: Units) -> Option<Amount> {
        let [least, most] = self.range?.map(|end| self.amount(end, units));
        Some(Amount::span(&least, &most))
    }

    /// All its sources, in full.
    fn told(&self) -> heapless::String<400> {
        let mut text = heapless::String::new();
        for (source, place) in self.sources.iter().zip(0..) {
            // The longest three of them have 250 bytes.
            let _ = write!(
                text,
                "{}{}",
                if place > 0 { "; " } else { "" },
                source.name()
            );
        }
        let _ = text.push('.');
        text
    }
}

/// Screenfuls of a row: its figure, and its sources.
pub(crate) fn parts(tank: &Tank, place: usize) -> usize {
    match row(tank, place) {
        Some(row) if row.range.is_some() => 1 + Prose::of(row.told()).parts(),
        _ => 1,
    }
}

/// Draws the page.
#[inline(never)]
pub(super) fn draw<D>(pen: &mut Pen<'_, D>, work: &Work<'_>, units: Units) -> Result<(), D::Error>
where
    D: DrawTarget<Color = Gray4>,
{
    let read = work.found().setting();
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
                Some(Fit::Within) | None => ("in", ink::PLAIN),
                Some(Fit::Below) => ("under", ink::BRIGHT),
                Some(Fit::Above) => ("over", ink::BRIGHT),
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
    let mut named: Vec<&str, { Source::ALL.len() }> = Vec::new();
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
