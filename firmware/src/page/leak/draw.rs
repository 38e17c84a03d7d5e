//! How a leak test looks, scene by scene.

use core::fmt::Write;

use embedded_graphics::draw_target::DrawTarget;
use embedded_graphics::geometry::Point;
use embedded_graphics::pixelcolor::Gray4;
use seamwright_core::advice::caution::Caution;
use seamwright_core::leak::{LeakPlan, LeakRule, Method};
use seamwright_core::units::{Length, LengthUnit, Mass, MassUnit, Time};

use super::scene::{Fate, Scene, Seen, Sheet, Site, View, Way};
use super::state::LeakTest;
use super::typed::{Ask, Field, Typed};
use super::words::{self, Line, Words};
use crate::amount::{Amount, Units};
use crate::ink;
use crate::page::Progress;
use crate::page::parts::{
    BODY_TOP, FIGURE_TOP, FOOT, Prose, RAIL, RIGHT, figure, foot, how_far, row, timer, title,
    working,
};
use crate::pen::Pen;
use crate::text::{Letters, wrap};

/// A time past this is told as more than this: no air stays as it is for so long.
const LONGEST_TOLD: Time = Time::from_seconds(3.6e5);
/// Letters in a line beside the rail.
const COLUMNS: usize = Letters::Small.fitting(RIGHT as u32 - RAIL);
/// Lines of a caution in a screenful, over the line that says what the button does.
const LINES: usize = 4;
/// Height of a line.
const LINE: i32 = Letters::Small.height() as i32;

/// Screenfuls of what a test shows.
pub(super) fn parts(test: &LeakTest, site: &Site<'_>) -> usize {
    let scene = test.scene(site);
    match scene {
        Scene::Caution(caution, ..) => caution_parts(caution),
        _ => match words::of(test, site, &scene) {
            Some(Words { text, .. }) => Prose::of(text).parts(),
            None => 1,
        },
    }
}

/// Draws how far the walls and seams are tried.
pub(super) fn trying<D>(pen: &mut Pen<'_, D>, progress: Progress) -> Result<(), D::Error>
where
    D: DrawTarget<Color = Gray4>,
{
    working(pen, "Leak test", "walls, seams tried", progress)
}

/// Draws what the test shows.
pub(super) fn scene<D>(
    pen: &mut Pen<'_, D>,
    test: &LeakTest,
    site: &Site<'_>,
    progress: Progress,
) -> Result<(), D::Error>
where
    D: DrawTarget<Color = Gray4>,
{
    let units = site.units;
    let scene = test.scene(site);
    if let Some(Words { heading, text }) = words::of(test, site, &scene) {
        title(pen, "Leak test")?;
        return Prose::of(text).draw(pen, heading, test.part());
    }
    match scene {
        Scene::Choose(rule, way, line) => choose(pen, rule, way, line),
        Scene::Caution(caution, number, of) => mind(pen, caution, (number, of), test.part()),
        Scene::Ask(field) => ask(pen, test, field, units),
        Scene::Plan(plan, sheet) => planned(pen, &plan, sheet, test, site),
        Scene::Hold(plan) => hold(pen, test, &plan),
        Scene::Look(plan, seen) => look(pen, test.sights(&plan), seen),
        Scene::Seen(plan, seen, _) => saw(pen, &plan, seen, units),
        Scene::Type(plan, field) => typing(pen, test, &plan, field, units),
        Scene::Decide(fate) => decide(pen, test, fate),
        Scene::Watch(View::Timer) => timer_page(pen, test, units),
        Scene::Watch(_) => verdict(pen, test, site),
        Scene::Wait => trying(pen, progress),
        // All of these are words.
        Scene::Refused(_) | Scene::Ready(_) => Ok(()),
    }
}

const fn rule_name(rule: LeakRule) -> &'static str {
    match rule {
        LeakRule::OwnHead => "own head, 1.5 times",
        LeakRule::BoatFuelUs => "US boat fuel",
        LeakRule::DieselUs => "US diesel tank",
        LeakRule::IntegralDieselUs => "US diesel, in hull",
        LeakRule::SmallCraft => "EU/UK small craft",
        LeakRule::LightAircraft => "aircraft repair",
    }
}

fn choose<D>(pen: &mut Pen<'_, D>, rule: LeakRule, way: Way, line: u8) -> Result<(), D::Error>
where
    D: DrawTarget<Color = Gray4>,
{
    title(pen, "Leak test")?;
    row(pen, 0, rule_name(rule), line == 0)?;
    let way = match way {
        Way::Look => "look at the seams",
        Way::Measure => "measure by gauge",
    };
    row(pen, 1, way, line != 0)?;
    let hints = ["up, down: change", "select: next"];
    for (hint, line) in hints.into_iter().zip(0..) {
        pen.text(
            foot(line) + Point::new(1, 0),
            hint,
            Letters::Small,
            ink::DIM,
        )?;
    }
    Ok(())
}

/// The short form first, then all of it.
fn caution_parts(caution: Caution) -> usize {
    1 + wrap(caution.whole(), COLUMNS).count().div_ceil(LINES)
}

fn mind<D>(
    pen: &mut Pen<'_, D>,
    caution: Caution,
    (number, of): (u8, u8),
    part: usize,
) -> Result<(), D::Error>
where
    D: DrawTarget<Color = Gray4>,
{
    let mut heading = Line::new();
    let _ = write!(heading, "Caution {number}/{of}");
    title(pen, &heading)?;
    let (text, skip, grey) = match part.checked_sub(1) {
        None => (caution.short(), 0, ink::BRIGHT),
        Some(screen) => (caution.whole(), screen * LINES, ink::PLAIN),
    };
    let lines = wrap(text, COLUMNS).skip(skip).take(LINES);
    for (line, y) in lines.zip((BODY_TOP..).step_by(LINE as usize)) {
        pen.text(Point::new(0, y), line, Letters::Small, grey)?;
    }
    how_far(pen, BODY_TOP, (part, 1, caution_parts(caution)))?;
    pen.text(foot(1), "select: understood", Letters::Small, ink::DIM)
}

fn ask<D>(pen: &mut Pen<'_, D>, test: &LeakTest, field: Ask, units: Units) -> Result<(), D::Error>
where
    D: DrawTarget<Color = Gray4>,
{
    let (heading, says) = match field {
        Ask::Leak => ("Leak sought", "less counts as tight"),
        Ask::Gauge => ("Gauge steps", "the finest it reads"),
        Ask::Thermometer => ("Thermometer", "near to the air in it"),
        Ask::Barometer => ("Barometer", "the finest it reads"),
    };
    title(pen, heading)?;
    figure(pen, test.asked(units).amount(field, units).figure())?;
    pen.text(foot(0), says, Letters::Small, ink::PLAIN)?;
    pen.text(foot(1), "up/down, then select", Letters::Small, ink::DIM)
}

const fn method_name(method: Method) -> &'static str {
    match method {
        Method::WaterHead => "Head of water",
        Method::AirSoap => "Air and soap",
        Method::PressureDecay => "Air and gauge",
    }
}

/// How high an energy throws something that one knows in the hand.
fn throws(plan: &LeakPlan, units: Units) -> [Line; 2] {
    let kilogram = plan.energy.throws_kilogram();
    let mut lines = [const { Line::new() }; 2];
    let [first, second] = &mut lines;
    let _ = match units {
        Units::Metric => {
            let high = kilogram.display(LengthUnit::Metre, 1).text();
            write!(first, "enough to throw 1 kg").and_then(|()| write!(second, "{high} high"))
        }
        Units::Inch => {
            let pound = Mass::new(1.0, MassUnit::Pound).si();
            let high = Length::from_metres(kilogram.si() / pound);
            let high = high.display(LengthUnit::Foot, 1).text();
            write!(first, "enough to throw 1 lb").and_then(|()| write!(second, "{high} high"))
        }
    };
    lines
}

fn planned<D>(
    pen: &mut Pen<'_, D>,
    plan: &LeakPlan,
    sheet: Sheet,
    test: &LeakTest,
    site: &Site<'_>,
) -> Result<(), D::Error>
where
    D: DrawTarget<Color = Gray4>,
{
    let units = site.units;
    let mut lines = [const { Line::new() }; 2];
    let [first, second] = &mut lines;
    let water = plan.method == Method::WaterHead;
    let pressure = Amount::pressure(plan.pressure, units);
    let (heading, amount) = match sheet {
        Sheet::Pressure if water => {
            let _ = write!(first, "of water over the low");
            let _ = write!(second, "point: {}", pressure.text());
            (
                method_name(plan.method),
                Amount::length(plan.water_level, units),
            )
        }
        Sheet::Pressure => {
            let _ = write!(first, "over the air outside,");
            let _ = write!(second, "raised slowly");
            (method_name(plan.method), pressure)
        }
        Sheet::Relief => {
            let level = Amount::length(plan.water_level, units).text();
            let _ = write!(first, "opens there; or water");
            let _ = write!(second, "column of {level}");
            ("Relief valve", Amount::pressure(plan.relief, units))
        }
        Sheet::Energy => {
            lines = throws(plan, units);
            ("Stored in air", Amount::energy(plan.energy.air))
        }
        Sheet::Weight => {
            let _ = write!(first, "full of water: the");
            let _ = write!(second, "bench must carry it");
            ("It will weigh", Amount::weight(plan.water, units))
        }
        Sheet::Hold => {
            let [one, two] = if plan.method == Method::PressureDecay {
                ["to settle before", "the first reading"]
            } else {
                ["before the seams", "are looked over"]
            };
            let _ = first.push_str(one);
            let _ = second.push_str(two);
            ("It must stand", Amount::time(plan.hold))
        }
        // The last three are words.
        Sheet::Shows | Sheet::Seam | Sheet::Why | Sheet::Over => {
            let leak = test.asked(units).amount(Ask::Leak, units).text();
            let _ = write!(first, "until a gauge shows");
            let _ = write!(second, "{leak}, at least");
            let time = plan.decay.unwrap_or_default();
            if time > LONGEST_TOLD {
                ("More than", Amount::time(LONGEST_TOLD))
            } else {
                ("It will take", Amount::time(time))
            }
        }
    };
    title(pen, heading)?;
    figure(pen, amount.figure())?;
    for (line, place) in lines.iter().zip(0..) {
        pen.text(foot(place), line, Letters::Small, ink::PLAIN)?;
    }
    // More screens of the plan above or below.
    how_far(pen, FOOT[0], test.place(plan, site))
}

fn hold<D>(pen: &mut Pen<'_, D>, test: &LeakTest, plan: &LeakPlan) -> Result<(), D::Error>
where
    D: DrawTarget<Color = Gray4>,
{
    title(pen, "It stands")?;
    timer(pen, test.watch().seconds())?;
    if test.has_stood(plan) {
        let says = "look over every seam";
        pen.text(foot(0), says, Letters::Small, ink::BRIGHT)?;
    } else {
        let mut line = Line::new();
        let _ = write!(line, "of {}", Amount::time(plan.hold).text());
        pen.text(foot(0), &line, Letters::Small, ink::PLAIN)?;
    }
    pen.text(foot(1), "select: what is seen", Letters::Small, ink::DIM)
}

fn look<D>(pen: &mut Pen<'_, D>, sights: &[Seen], seen: Seen) -> Result<(), D::Error>
where
    D: DrawTarget<Color = Gray4>,
{
    title(pen, "Seams")?;
    for (sight, line) in sights.iter().zip(0..) {
        let text = match sight {
            Seen::NotYet => "not looked over yet",
            Seen::Leak => "a seam leaks",
            Seen::Dry => "no seam leaks",
        };
        row(pen, line, text, *sight == seen)?;
    }
    Ok(())
}

fn decide<D>(pen: &mut Pen<'_, D>, test: &LeakTest, fate: Fate) -> Result<(), D::Error>
where
    D: DrawTarget<Color = Gray4>,
{
    let mut heading = Line::new();
    let _ = write!(heading, "Reading {}", test.readings().len() + 1);
    title(pen, &heading)?;
    let all = [
        (Fate::Keep, "keep it"),
        (Fate::Again, "type it again"),
        (Fate::Drop, "drop it"),
    ];
    for ((choice, text), line) in all.into_iter().zip(0..) {
        row(pen, line, text, choice == fate)?;
    }
    Ok(())
}

fn saw<D>(pen: &mut Pen<'_, D>, plan: &LeakPlan, seen: Seen, units: Units) -> Result<(), D::Error>
where
    D: DrawTarget<Color = Gray4>,
{
    title(pen, "By eye")?;
    let mut second = Line::new();
    let (word, first) = if seen == Seen::Dry {
        let _ = write!(
            second,
            "at {}",
            Amount::pressure(plan.pressure, units).text()
        );
        ("TIGHT", "no leak was seen")
    } else {
        let _ = second.push_str("before you mend it");
        ("LEAKS", "let the pressure off")
    };
    pen.word(Point::new(0, FIGURE_TOP), word)?;
    pen.text(foot(0), first, Letters::Small, ink::PLAIN)?;
    pen.text(foot(1), &second, Letters::Small, ink::PLAIN)
}

fn typing<D>(
    pen: &mut Pen<'_, D>,
    test: &LeakTest,
    plan: &LeakPlan,
    field: Field,
    units: Units,
) -> Result<(), D::Error>
where
    D: DrawTarget<Color = Gray4>,
{
    title(
        pen,
        match field {
            Field::Gauge => "Gauge reads",
            Field::Air => "Air in tank",
            Field::Barometer => "Barometer",
        },
    )?;
    let (typed, taken) = test.typed();
    figure(pen, typed.amount(field, &test.asked(units), units).figure())?;
    let mut line = Line::new();
    let seconds = taken / 1_000;
    let number = test.readings().len() + 1;
    let _ = write!(line, "no. {number} at {}:{:02}", seconds / 60, seconds % 60);
    pen.text(foot(0), &line, Letters::Small, ink::PLAIN)?;
    if field == Field::Gauge && typed.gauge > plan.relief {
        let says = "over the relief valve";
        return pen.text(foot(1), says, Letters::Small, ink::BRIGHT);
    }
    pen.text(foot(1), "up/down, then select", Letters::Small, ink::DIM)
}

fn timer_page<D>(pen: &mut Pen<'_, D>, test: &LeakTest, units: Units) -> Result<(), D::Error>
where
    D: DrawTarget<Color = Gray4>,
{
    title(pen, "Since no. 1")?;
    timer(pen, test.watch().seconds())?;
    let mut line = Line::new();
    let count = test.readings().len();
    let _ = write!(line, "{count} read");
    if let Some(last) = test.readings().last() {
        let last = Typed::of(last).amount(Field::Gauge, &test.asked(units), units);
        let _ = write!(line, ": {}", last.text());
    }
    pen.text(foot(0), &line, Letters::Small, ink::PLAIN)?;
    let says = if test.is_full() {
        "no room for more"
    } else {
        "select: read it now"
    };
    pen.text(foot(1), says, Letters::Small, ink::DIM)
}

fn verdict<D>(pen: &mut Pen<'_, D>, test: &LeakTest, site: &Site<'_>) -> Result<(), D::Error>
where
    D: DrawTarget<Color = Gray4>,
{
    title(pen, "By gauge")?;
    // Readings that say nothing are words.
    let Some(Ok(outcome)) = test.outcome(site) else {
        return Ok(());
    };
    pen.word(Point::new(0, FIGURE_TOP), words::verdict(&outcome))?;
    let [rate, then] = words::figures(&outcome);
    pen.text(foot(0), &rate, Letters::Small, ink::PLAIN)?;
    pen.text(foot(1), &then, Letters::Small, ink::BRIGHT)
}
