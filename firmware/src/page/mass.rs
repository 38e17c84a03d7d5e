//! What the tank weighs: empty, at the fill mark, at the brim; where it hangs, and what its mounts bear.

use core::fmt::Write;

use embedded_graphics::draw_target::DrawTarget;
use embedded_graphics::pixelcolor::Gray4;
use seamwright_core::geom::Vector;
use seamwright_core::mass::BalanceError;
use seamwright_core::mass::balance::Balance;
use seamwright_core::tank::Tank;
use seamwright_core::units::{Length, LengthUnit, Mass};

use super::parts::{Known, Prose, RIGHT, Reading, figure, filled, foot, title, view};
use crate::amount::{Amount, Units};
use crate::buttons::Step;
use crate::ink;
use crate::page::{IsPage, Turn};
use crate::pen::Pen;
use crate::picture::{Style, edges};
use crate::text::Letters;
use crate::work::Work;

/// A line of this page.
type Line = heapless::String<64>;

/// The states that a tank is weighed in.
const STATES: [&str; 3] = ["Mass, empty", "Mass, filled", "Mass, brimful"];

/// What a tank weighs and where.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Weighed {
    /// All of it.
    pub(crate) mass: Mass,
    /// Its centre of gravity, in metres; `None` of no mass.
    pub(crate) centre: Option<Vector>,
}

/// The mounts of a full tank.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Mounts {
    /// The one that bears most, counted from 1, and what, in newtons.
    pub(crate) heaviest: (u8, f64),
    /// One that must hold the tank down, and with how many newtons.
    pub(crate) lifts: Option<(u8, f64)>,
}

/// Masses of a tank.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Masses {
    /// Empty, at the fill mark, at the brim.
    pub(crate) states: [Result<Weighed, BalanceError>; 3],
    /// Its mounts, where the job has any.
    pub(crate) mounts: Option<Result<Mounts, BalanceError>>,
}

/// Why a figure is not known.
fn why(masses: &Masses, piece: usize) -> Option<(&'static str, Prose)> {
    if let Some(state) = masses.states.get(piece) {
        let error = state.as_ref().err()?;
        return Some(("It cannot be weighed", Prose::of(error)));
    }
    match &masses.mounts {
        Some(Ok(_)) => None,
        Some(Err(error)) => Some(("They cannot bear it", Prose::of(error))),
        None => Some(("Not known", Prose::of("the full tank cannot be weighed"))),
    }
}

/// Screenfuls of a piece.
fn parts(masses: &Masses, piece: usize) -> usize {
    why(masses, piece).map_or(1, |(_, prose)| prose.parts())
}

/// The page of the masses: which is shown (empty, at the fill mark, at the brim, on the mounts), which screenful of why
/// it is not known, and what was worked out.
#[derive(Debug)]
pub struct MassPage {
    read: Reading,
    masses: Known<Masses>,
}

impl IsPage for MassPage {
    const NAME: &'static str = "mass";
    const NEW: Self = Self {
        read: Reading::START,
        masses: Known::Not,
    };
    const LASTS: bool = true;

    fn start(&mut self, _: &Tank) {
        self.read = Reading::START;
        self.masses = Known::Not;
    }

    #[inline(never)]
    fn draw<D>(&self, pen: &mut Pen<'_, D>, work: &Work<'_>) -> Result<(), D::Error>
    where
        D: DrawTarget<Color = Gray4>,
    {
        let units = work.units();
        let read = self.read;
        let Some(masses) = self.masses.get() else {
            return title(pen, "Mass");
        };
        title(pen, STATES.get(read.piece).copied().unwrap_or("Mounts"))?;
        if let Some((heading, prose)) = why(masses, read.piece) {
            return prose.draw(pen, heading, read.part);
        }
        match (masses.states.get(read.piece), &masses.mounts) {
            (Some(Ok(weighed)), _) => one(pen, work, (read.piece, weighed), units),
            (None, Some(Ok(mounts))) => on_mounts(pen, work, mounts, units),
            // Said already.
            _ => Ok(()),
        }
    }

    fn step(&mut self, step: Step, work: &mut Work<'_>) {
        let states = STATES.len();
        let mounted = !work.tank().mounts().is_empty();
        self.read.step(step.up, states + usize::from(mounted));
    }

    /// Reads on through why it is not known.
    fn select(&mut self, _: &mut Work<'_>) -> Turn {
        let parts = |masses: &Masses| parts(masses, self.read.piece);
        self.read.read_on(self.masses.get().map_or(1, parts));
        Turn::Stay
    }

    fn prepare(&mut self, tank: &Tank) {
        if self.masses.get().is_none() {
            self.masses = Known::Is(weigh(tank));
        }
    }
}

/// One state: its mass large, the tank as full as it is beside it, its centre of gravity at the foot.
fn one<D>(
    pen: &mut Pen<'_, D>,
    work: &Work<'_>,
    (state, weighed): (usize, &Weighed),
    units: Units,
) -> Result<(), D::Error>
where
    D: DrawTarget<Color = Gray4>,
{
    let amount = Amount::weight(weighed.mass, units);
    let capacity = work.tank().capacity();
    let depth = match state {
        0 => None,
        1 => Some(capacity.fill_depth),
        _ => Some(capacity.full_depth),
    };
    match depth {
        Some(depth) => filled(pen, work, &amount, depth)?,
        None => {
            if let Some(view) = view(work, &amount.figure()) {
                pen.claim(view.extent());
                let outside = &work.tank().body().outside;
                edges(pen.target(), outside, &view, Style::Ground, None)?;
            }
        }
    }
    figure(pen, amount.figure())?;
    let Some(centre) = weighed.centre else {
        return Ok(());
    };
    let [x, y, z] = [centre.x, centre.y, centre.z].map(|at| {
        let amount = Amount::column_length(Length::from_metres(at), units);
        amount.text()
    });
    let unit = match units {
        Units::Metric => "mm",
        Units::Inch => "in",
    };
    let mut lines = [const { Line::new() }; 5];
    let [first, brief, second, shorter, shortest] = &mut lines;
    let _ = write!(first, "centre {x} {unit} right");
    let _ = write!(second, "{y} back and {z} up");
    let _ = write!(shorter, "{y} back, {z} up");
    // Great lengths in sixteenths are long.
    let [x, y, z] = [centre.x, centre.y, centre.z].map(|at| {
        let length = Length::from_metres(at);
        match units {
            Units::Metric => Amount::length(length, units),
            Units::Inch => Amount::of(length.in_unit(LengthUnit::Inch), 1, ""),
        }
    });
    let _ = write!(brief, "centre {} right", x.number());
    let _ = write!(shortest, "{}; {} up", y.number(), z.number());
    pen.fitting(
        foot(0),
        RIGHT as u32,
        &[&*first, &*brief],
        Letters::Small,
        ink::PLAIN,
    )?;
    pen.fitting(
        foot(1),
        RIGHT as u32,
        &[&*second, &*shorter, &*shortest],
        Letters::Small,
        ink::PLAIN,
    )
}

/// The mount that bears most, and one that must hold the tank down.
fn on_mounts<D>(
    pen: &mut Pen<'_, D>,
    work: &Work<'_>,
    mounts: &Mounts,
    units: Units,
) -> Result<(), D::Error>
where
    D: DrawTarget<Color = Gray4>,
{
    let (number, force) = mounts.heaviest;
    figure(pen, Amount::force(force, units).figure())?;
    let mut line = Line::new();
    let count = work.tank().mounts().len();
    let _ = write!(line, "mount {number} of {count}, full");
    pen.text(foot(0), &line, Letters::Small, ink::PLAIN)?;
    line.clear();
    match mounts.lifts {
        Some((number, held)) => {
            let held = Amount::force(held, units).text();
            let mut short = Line::new();
            let _ = write!(line, "{number} lifts: hold {held}");
            let _ = write!(short, "{number} lifts: {held}");
            let choices = [&*line, &*short];
            pen.fitting(foot(1), RIGHT as u32, &choices, Letters::Small, ink::BRIGHT)
        }
        // Part full it may be worse, which a gauge has not the time to find.
        None => pen.text(foot(1), "part full: see plan", Letters::Small, ink::PLAIN),
    }
}

#[cfg(test)]
impl MassPage {
    /// What was worked out.
    pub(crate) const fn masses(&self) -> Option<&Masses> {
        self.masses.get()
    }
}

/// Works all of it out.
// Out of line: it needs much stack, and only while it works.
#[inline(never)]
fn weigh(tank: &Tank) -> Masses {
    let weighed = |balance: &Balance| Weighed {
        mass: balance.mass(),
        centre: balance.centre(),
    };
    let capacity = tank.capacity();
    let full = tank.laden_balance(capacity.brim);
    let states = [
        tank.empty_balance().map(|one| weighed(&one)),
        tank.laden_balance(capacity.fill).map(|one| weighed(&one)),
        full.as_ref().map(weighed).map_err(|error| *error),
    ];
    let mounts = match full {
        Ok(full) if !tank.mounts().is_empty() => Some(bear_on_mounts(tank, &full)),
        _ => None,
    };
    Masses { states, mounts }
}

fn bear_on_mounts(tank: &Tank, full: &Balance) -> Result<Mounts, BalanceError> {
    let loads = tank.mount_loads(full)?;
    let mut heaviest = (0, f64::NEG_INFINITY);
    for (load, number) in loads.mounts.iter().zip(1_u8..) {
        if load.force.si() > heaviest.1 {
            heaviest = (number, load.force.si());
        }
    }
    let mut lifts: Option<(u8, f64)> = None;
    for lifted in loads.lifted() {
        let force = lifted.force.si();
        if lifts.is_none_or(|(_, held)| force > held) {
            lifts = Some((lifted.mount, force));
        }
    }
    Ok(Mounts { heaviest, lifts })
}
