//! How the panels bear what the tank holds, the weakest first: by how much, under what, and what would mend it.

use core::fmt::Write;

use embedded_graphics::draw_target::DrawTarget;
use embedded_graphics::pixelcolor::Gray4;
use heapless::Vec;
use seamwright_core::input::Face;
use seamwright_core::input::limits::{MAX_BAFFLES, MAX_FACES};
use seamwright_core::strength::panel::Spacing;
use seamwright_core::strength::{
    Bearing, Cure, ElasticPeak, JoinedWalls, RESERVE, StrengthError, Trial, WallForm,
};
use seamwright_core::tank::Tank;
use seamwright_core::units::{Decimal, Length, Pressure};

use super::parts::{
    Known, Prose, RIGHT, Reading, count, faces, figure, foot, title, view, working,
};
use crate::amount::{Amount, Units};
use crate::buttons::Step;
use crate::ink;
use crate::page::{IsPage, Progress, Turn};
use crate::pen::Pen;
use crate::picture::{Style, edges, panel};
use crate::text::Letters;
use crate::work::Work;

/// A line of this page.
type Line = heapless::String<64>;
/// What is said of a panel.
type Text = heapless::String<560>;

/// Panels and baffles that a tank may have.
const MOST_PANELS: usize = MAX_FACES + MAX_BAFFLES;

/// How a panel bears what the tank holds, as far as its page tells.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Borne {
    /// What it was taken as.
    pub(crate) form: WallForm,
    /// Its sheet.
    pub(crate) thickness: Length,
    /// The highest pressure on it.
    pub(crate) pressure: Pressure,
    /// The stress that rules, and whether that is of the walls together.
    pub(crate) stress: Pressure,
    pub(crate) together: bool,
    /// The highest stress of a short stretch, where that is known.
    pub(crate) elastic: Option<ElasticPeak>,
    /// It has a hole too wide for that.
    pub(crate) wide_hole: bool,
    /// Yield strength beside a weld over the highest stress.
    pub(crate) reserve: f64,
    /// What would mend it; `None` where it has the reserve that is wanted.
    pub(crate) cure: Option<Cure>,
    /// It has an inside corner, at which this says nothing.
    pub(crate) inside_corner: bool,
    /// A dished end so thin that it may wrinkle.
    pub(crate) may_wrinkle: bool,
}

impl From<Bearing> for Borne {
    fn from(bearing: Bearing) -> Self {
        Self {
            form: bearing.form,
            thickness: bearing.thickness,
            pressure: bearing.pressure,
            stress: bearing.ruling_stress(),
            together: bearing.joined.is_some(),
            elastic: bearing.elastic,
            wide_hole: bearing.wide_hole,
            reserve: bearing.reserve,
            cure: bearing.cure,
            inside_corner: bearing.inside_corner,
            may_wrinkle: bearing.may_wrinkle,
        }
    }
}

/// A panel and how it bears.
pub(crate) type Panel = (Face, Result<Borne, StrengthError>);

/// Screenfuls of a panel: its figure, and what is said of it.
fn parts(tank: &Tank, (face, borne): &Panel, units: Units) -> usize {
    match borne {
        Ok(borne) => 1 + Prose::of(told(tank, *face, borne, units)).parts(),
        Err(error) => Prose::of(error).parts(),
    }
}

/// The page of the strength: which panel is shown, in the order of their reserve, which screenful of what is said of it,
/// and what was worked out. Each wall takes a small chip about a second.
#[derive(Debug)]
pub struct StrengthPage {
    read: Reading,
    judging: Judging,
}

impl IsPage for StrengthPage {
    const NAME: &'static str = "strength";
    const NEW: Self = Self {
        read: Reading::START,
        judging: Judging::NOTHING,
    };
    const LASTS: bool = true;

    fn start(&mut self, _: &Tank) {
        self.read = Reading::START;
        self.judging.clear();
    }

    #[inline(never)]
    fn draw<D>(&self, pen: &mut Pen<'_, D>, work: &Work<'_>) -> Result<(), D::Error>
    where
        D: DrawTarget<Color = Gray4>,
    {
        let units = work.units();
        if let Some(progress) = self.progress(work.tank()) {
            return working(pen, "Reserve", "walls tried", progress);
        }
        let (read, panels) = (self.read, self.judging.panels());
        let Some((face, borne)) = panels.get(read.piece) else {
            return title(pen, "Strength");
        };
        let mut heading = Line::new();
        let _ = write!(heading, "Reserve {}/{}", read.piece + 1, panels.len());
        title(pen, &heading)?;
        let mut which = Line::new();
        let _ = write!(which, "{face}");
        let borne = match borne {
            Ok(borne) => borne,
            Err(error) => return Prose::of(error).draw(pen, &which, read.part),
        };
        if let Some(part) = read.part.checked_sub(1) {
            let said = told(work.tank(), *face, borne, units);
            return Prose::of(said).draw(pen, &which, part);
        }
        let amount = Amount::reserve(borne.reserve);
        picture(pen, work, *face, &amount)?;
        figure(pen, amount.figure())?;
        let pressure = Amount::pressure(borne.pressure, units).text();
        let mut short = which.clone();
        let _ = write!(which, " bears {pressure}");
        let _ = write!(short, ": {pressure}");
        pen.fitting(
            foot(0),
            RIGHT as u32,
            &[&which, &short],
            Letters::Small,
            ink::PLAIN,
        )?;
        let mut line = Line::new();
        let grey = match borne.cure {
            Some(cure) => {
                let sheet = Amount::thickness_up(cure.thickness, units).text();
                let _ = write!(line, "too weak: {sheet}");
                ink::BRIGHT
            }
            None => {
                let _ = write!(line, "enough: {} wanted", Decimal::new(RESERVE, 1));
                ink::PLAIN
            }
        };
        pen.text(foot(1), &line, Letters::Small, grey)
    }

    fn step(&mut self, step: Step, _: &mut Work<'_>) {
        self.read.step(step.up, self.judging.panels().len());
    }

    /// Reads on through what is said of the panel.
    fn select(&mut self, work: &mut Work<'_>) -> Turn {
        let panel = self.judging.panels().get(self.read.piece);
        let parts = panel.map_or(1, |panel| parts(work.tank(), panel, work.units()));
        self.read.read_on(parts);
        Turn::Stay
    }

    fn progress(&self, tank: &Tank) -> Option<Progress> {
        let done = self.judging.done();
        let of = count(tank);
        (!self.judging.is_done()).then_some(Progress { done, of })
    }

    fn work_on(&mut self, tank: &Tank) {
        self.judging.go_on(tank);
    }
}

/// The tank with the panel picked out.
fn picture<D>(
    pen: &mut Pen<'_, D>,
    work: &Work<'_>,
    face: Face,
    amount: &Amount,
) -> Result<(), D::Error>
where
    D: DrawTarget<Color = Gray4>,
{
    let tank = work.tank();
    let outside = &tank.body().outside;
    let Some(view) = view(work, &amount.figure()) else {
        return Ok(());
    };
    pen.claim(view.extent());
    edges(pen.target(), outside, &view, Style::Ground, None)?;
    panel(pen.target(), tank, &view, face)
}

/// Under what, and what would mend it.
fn told(tank: &Tank, face: Face, borne: &Borne, units: Units) -> Text {
    let mut text = Text::new();
    // The longest is some 500 bytes.
    let _ = say(&mut text, tank, face, borne, units);
    text
}

fn say(text: &mut Text, tank: &Tank, face: Face, borne: &Borne, units: Units) -> core::fmt::Result {
    let job = tank.job();
    let sheet = Amount::thickness(borne.thickness, units).text();
    write!(text, "{sheet}, taken as a {}, ", borne.form.name())?;
    match job.liquid() {
        Some(liquid) => write!(text, "brimful of {liquid}")?,
        None => text.write_str("brimful of water")?,
    }
    if job.leans().iter().any(|lean| lean.si() > 0.0) {
        text.write_str(", at the worst lean")?;
    }
    let service = job.service();
    if service.acceleration.iter().any(|g| g.si() > 0.0) {
        text.write_str(", shaken")?;
    }
    if service.pressure.si() > 0.0 {
        let held = Amount::pressure(service.pressure, units).text();
        write!(text, ", the cap holding {held}")?;
    }
    let stress = Amount::stress(borne.stress, units).text();
    if borne.together {
        write!(
            text,
            ": {stress}, its seams bearing its neighbours' pull too."
        )?;
    } else {
        write!(text, ": {stress}.")?;
    }
    if let Some(peak) = borne.elastic {
        let stress = Amount::stress(peak.stress, units).text();
        write!(
            text,
            " {stress} {}, before the metal there gives.",
            peak.place.name()
        )?;
    }
    if borne.wide_hole {
        text.write_str(" A wide hole: the stress at its edge is not computed.")?;
    }
    if let Some(cure) = borne.cure {
        let sheet = Amount::thickness_up(cure.thickness, units).text();
        write!(text, " {sheet} sheet would do")?;
        if let Some(Spacing::AtMost(apart)) = cure.spacing {
            let what = if matches!(face, Face::Baffle(_)) {
                "stiffeners"
            } else {
                "baffles or stiffeners"
            };
            let apart = Amount::length(apart, units).text();
            write!(text, ", or {what} at most {apart} apart; then plan anew")?;
        }
        text.write_str(".")?;
    }
    if borne.inside_corner {
        text.write_str(" It has an inside corner: round it well, or strengthen it.")?;
    }
    if borne.may_wrinkle {
        text.write_str(" So thin a dished end may wrinkle at its knuckle.")?;
    }
    Ok(())
}

#[cfg(test)]
impl StrengthPage {
    /// Its panels in the order in which they are shown; none until all are worked out.
    pub(crate) fn panels(&self) -> &[Panel] {
        self.judging.panels()
    }

    /// Which of them is shown, and which screenful of what is said of it.
    pub(crate) const fn read(&self) -> Reading {
        self.read
    }
}

/// The walls of a tank and its baffles, one by one: each takes a small chip about a second.
#[derive(Clone, Debug)]
struct Judging {
    /// What the walls bear together, which comes first.
    joined: Known<Result<JoinedWalls, StrengthError>>,
    /// The place of the next.
    next: u8,
    panels: Vec<Panel, MOST_PANELS>,
    all: bool,
}

impl Judging {
    const NOTHING: Self = Self {
        joined: Known::Not,
        next: 0,
        panels: Vec::new(),
        all: false,
    };

    fn clear(&mut self) {
        self.joined = Known::Not;
        self.next = 0;
        self.panels.clear();
        self.all = false;
    }

    /// Whether all are judged.
    const fn is_done(&self) -> bool {
        self.all
    }

    /// How many are done.
    fn done(&self) -> usize {
        usize::from(self.next)
    }

    /// Those that are judged; once all are, those that cannot be judged first, then the weakest.
    fn panels(&self) -> &[Panel] {
        if self.all { &self.panels } else { &[] }
    }

    /// Judges the next, in use.
    // Out of line, as is what follows: it needs much stack, and only while it works.
    #[inline(never)]
    fn go_on(&mut self, tank: &Tank) {
        let Some(joined) = self.joined.get() else {
            self.joined = Known::Is(tank.joined_walls(Trial::Use));
            return;
        };
        let Some(face) = faces(tank).nth(usize::from(self.next)) else {
            let reserve = |panel: &Panel| match &panel.1 {
                Ok(borne) => borne.reserve,
                Err(_) => f64::NEG_INFINITY,
            };
            let by_reserve = |a: &Panel, b: &Panel| reserve(a).total_cmp(&reserve(b));
            self.panels.sort_unstable_by(by_reserve);
            self.all = true;
            return;
        };
        self.next += 1;
        let bearing = match joined {
            Ok(joined) => tank.bearing_by(face, joined),
            Err(error) => Some(Err(*error)),
        };
        if let Some(bearing) = bearing {
            // More room than there are.
            let _ = self.panels.push((face, bearing.map(Borne::from)));
        }
    }
}
