//! Which filler, and why: down the ranking, and reason by reason.

use core::fmt::Write;

use embedded_graphics::draw_target::DrawTarget;
use embedded_graphics::geometry::Point;
use embedded_graphics::pixelcolor::Gray4;
use seamwright_core::filler::{Criterion, FillerReason, FillerVerdict, Finding, Mark};
use seamwright_core::tank::Tank;

use super::parts::{FIGURE_TOP, Prose, RIGHT, Reading, foot, title};
use crate::buttons::Step;
use crate::ink;
use crate::page::{IsPage, Turn};
use crate::pen::Pen;
use crate::text::Letters;
use crate::work::Work;

/// A line of this page.
type Line = heapless::String<48>;

const fn mark_name(mark: Mark) -> &'static str {
    match mark {
        Mark::RuledOut => "out",
        Mark::Poor => "poor",
        Mark::Fair => "fair",
        Mark::Good => "good",
    }
}

fn name(verdict: &FillerVerdict) -> &'static str {
    verdict.filler.map_or("no rod", |filler| filler.name())
}

/// Those that are of the sheet's own family of metals and made for the process, the best first.
fn fillers(tank: &Tank) -> impl Iterator<Item = FillerVerdict> {
    let all = tank.fillers();
    all.into_iter()
        .flatten()
        .filter(|verdict| !verdict.is_out_of_place())
}

/// How many are shown.
fn count(tank: &Tank) -> usize {
    fillers(tank).count()
}

/// What tells something of a filler: the finding that counted most first, then the others.
fn findings(verdict: &FillerVerdict) -> impl Iterator<Item = (Criterion, Finding)> {
    let worst = verdict.worst();
    let tells = |finding: &Finding| {
        !matches!(
            finding.reason,
            FillerReason::NotAsked | FillerReason::OtherSteels
        )
    };
    let first = verdict.each().find(|(_, finding)| *finding == worst);
    let rest = verdict
        .each()
        .filter(move |one| Some(*one) != first && tells(&one.1));
    first.into_iter().chain(rest)
}

/// Screenfuls of a filler: its name, and those of each finding.
fn parts(tank: &Tank, place: usize) -> usize {
    let Some(verdict) = fillers(tank).nth(place) else {
        return 1;
    };
    let of = |(_, finding): (Criterion, Finding)| Prose::of(finding.reason).parts();
    1 + findings(&verdict).map(of).sum::<usize>()
}

/// The page of the fillers: which of the ranking is shown, and which of its reasons.
#[derive(Debug)]
pub struct FillerPage {
    read: Reading,
}

impl IsPage for FillerPage {
    const NAME: &'static str = "filler";
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
        let read = self.read;
        let tank = work.tank();
        let Some(verdict) = fillers(tank).nth(read.piece) else {
            return title(pen, "No filler");
        };
        let mut heading = Line::new();
        let _ = write!(heading, "Filler {}/{}", read.piece + 1, count(tank));
        match read.part.checked_sub(1) {
            None => {
                title(pen, &heading)?;
                whole(pen, &verdict)
            }
            Some(part) => {
                title(pen, name(&verdict))?;
                why(pen, &verdict, part)
            }
        }
    }

    fn step(&mut self, step: Step, work: &mut Work<'_>) {
        self.read.step(step.up, count(work.tank()));
    }

    /// Reads on through its reasons.
    fn select(&mut self, work: &mut Work<'_>) -> Turn {
        self.read.read_on(parts(work.tank(), self.read.piece));
        Turn::Stay
    }
}

/// Its name large, its points, and what counted most.
fn whole<D>(pen: &mut Pen<'_, D>, verdict: &FillerVerdict) -> Result<(), D::Error>
where
    D: DrawTarget<Color = Gray4>,
{
    pen.word(Point::new(0, FIGURE_TOP), name(verdict))?;
    let worst = verdict.worst();
    let mut points = Line::new();
    let _ = write!(points, "{}/33", verdict.score());
    let out = worst.mark == Mark::RuledOut;
    // What is ruled out has no points worth a look.
    let beside = if out {
        ["ruled", "out"]
    } else {
        [mark_name(worst.mark), &points]
    };
    for (text, y) in beside.into_iter().zip((FIGURE_TOP + 4..).step_by(11)) {
        pen.text_to(RIGHT, y, text, Letters::Small, ink::PLAIN)?;
    }
    let mut line = Line::new();
    if let Some((criterion, finding)) = findings(verdict).next() {
        let _ = if finding.mark == Mark::Good {
            write!(line, "good in all")
        } else {
            write!(line, "{}: {}", criterion.name(), mark_name(finding.mark))
        };
    }
    let grey = if out { ink::BRIGHT } else { ink::PLAIN };
    pen.text(foot(0), &line, Letters::Small, grey)?;
    pen.text(foot(1), "select: why", Letters::Small, ink::DIM)
}

/// One screenful of its reasons.
fn why<D>(pen: &mut Pen<'_, D>, verdict: &FillerVerdict, part: usize) -> Result<(), D::Error>
where
    D: DrawTarget<Color = Gray4>,
{
    let mut left = part;
    for (criterion, finding) in findings(verdict) {
        let prose = Prose::of(finding.reason);
        if left < prose.parts() {
            let mut heading = Line::new();
            let _ = write!(heading, "{}: {}", criterion.name(), mark_name(finding.mark));
            return prose.draw(pen, &heading, left);
        }
        left -= prose.parts();
    }
    Ok(())
}
