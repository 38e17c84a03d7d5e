//! What the leak test says in whole sentences.

use core::fmt::Write;

use seamwright_core::leak::{Doubt, LeakPlan, LeakRate, LeakVerdict, Method};
use seamwright_core::units::{Decimal, Time};

use super::scene::{Outcome, Scene, Seen, Sheet, Site, View};
use super::state::LeakTest;
use crate::amount::Amount;

/// A rate is one at the pressure of the test while that changes by no more than this share: see `Leak::of`.
const STEADY: f64 = 0.1;

/// A rate of more sccm than this is told in standard litres a minute.
const WIDE: f64 = 10_000.0;

/// A line of a screen.
pub(super) type Line = heapless::String<48>;
/// Sentences.
pub(super) type Text = heapless::String<400>;

/// Sentences with their heading.
pub(super) struct Words {
    pub(super) heading: &'static str,
    pub(super) text: Text,
}

fn words(heading: &'static str, say: impl FnOnce(&mut Text) -> core::fmt::Result) -> Option<Words> {
    let mut text = Text::new();
    // What has no room is cut at the end; the longest is far from it.
    let _ = say(&mut text);
    Some(Words { heading, text })
}

/// What a scene says in sentences; `None` of one that shows a figure.
pub(super) fn of(test: &LeakTest, site: &Site<'_>, scene: &Scene) -> Option<Words> {
    match scene {
        Scene::Refused(why) => words("No test is proposed", |text| text.write_str(why)),
        Scene::Ready(plan) => words("Get ready", |text| ready(text, plan, site)),
        Scene::Plan(plan, Sheet::Seam) => words("Mind a seam", |text| {
            let Some(seam) = site.seam.flatten() else {
                return Ok(());
            };
            let reserve = seam.bears.si() / plan.pressure.si();
            write!(
                text,
                "{} has a reserve of {} only at this pressure: weld it from both sides, or test with less.",
                seam.mark,
                Amount::reserve(reserve).number()
            )
        }),
        Scene::Plan(plan, Sheet::Why) => words("Why so", |text| {
            write!(
                text,
                "{}. Pressure set by {}. Rule: {}. The head is counted to the highest inside point: where filler or vent rise above it, plan on the laptop.",
                plan.reason.text(),
                plan.pressure_limit.text(),
                test.rule().source()
            )
        }),
        Scene::Plan(_, Sheet::Over) => words("Another way", |text| {
            text.write_str("Select to choose the rule and the way anew.")
        }),
        Scene::Watch(View::Over) | Scene::Seen(_, _, View::Over) => words("A new test", |text| {
            text.write_str(
                "Select begins a new test: readings and timer go, and the cautions come anew.",
            )
        }),
        Scene::Seen(_, seen, View::Words) => words("What that says", |text| saw(text, *seen)),
        Scene::Watch(View::Verdict) => match test.outcome(site)? {
            Err(error) => words("Readings say nothing", |text| write!(text, "{error}")),
            Ok(_) => None,
        },
        Scene::Watch(View::Words) => match test.outcome(site)? {
            Err(_) => words("Readings say nothing", |text| {
                text.write_str("Begin a new test, and read the instruments one after the other.")
            }),
            Ok(outcome) => words("What that says", |text| say(text, &outcome, changed(test))),
        },
        _ => None,
    }
}

fn ready(text: &mut Text, plan: &LeakPlan, site: &Site<'_>) -> core::fmt::Result {
    let units = site.units;
    let pressure = Amount::pressure(plan.pressure, units).text();
    match plan.method {
        Method::WaterHead => {
            let level = Amount::length(plan.water_level, units).text();
            let height = site
                .vessel
                .as_ref()
                .map_or(0.0, |vessel| vessel.height.si());
            // By more than what the last bits may differ.
            let above = if plan.water_level.si() > height * (1.0 + 1e-6) {
                " (in a standpipe above the tank)"
            } else {
                ""
            };
            write!(
                text,
                "Fill with water to {level} over the lowest inside point{above}, let all air out. Select starts the timer."
            )
        }
        Method::AirSoap => write!(
            text,
            "Relief valve fitted, nobody near. Raise slowly to {pressure}, no more, and shut it. Select starts the timer."
        ),
        Method::PressureDecay => write!(
            text,
            "Relief valve fitted, nobody near. Raise slowly to {pressure}, no more, shut it, let it settle {}. Select as you read the gauge.",
            Amount::time(plan.hold).text()
        ),
    }
}

fn saw(text: &mut Text, seen: Seen) -> core::fmt::Result {
    text.write_str(if seen == Seen::Dry {
        "No leak that the eye finds, at this pressure. It approves nothing: the rules that hold where the tank is used go first. Let the pressure off slowly."
    } else {
        "Let the pressure off before anything is tightened, struck or welded. Mark the place, dry and vent the tank, mend it, test it anew."
    })
}

/// The share of the gauge pressure that was gone, or added, by the last reading.
fn changed(test: &LeakTest) -> f64 {
    match test.readings() {
        [first, .., last] => libm::fabs(last.gauge.si() / first.gauge.si() - 1.0),
        _ => 0.0,
    }
}

/// A rate in sccm to three figures, no finer than a hundredth.
fn rate(rate: LeakRate) -> Decimal {
    let value = rate.sccm();
    let three = Decimal::with_figures(value, 3);
    if three.places() > 2 {
        Decimal::new(value, 2)
    } else {
        three
    }
}

/// The verdict as one word.
pub(super) const fn verdict(outcome: &Outcome) -> &'static str {
    match outcome.verdict {
        LeakVerdict::Tight => "TIGHT",
        LeakVerdict::Leaks => "LEAKS",
        LeakVerdict::CannotTell(_) => "UNSURE",
    }
}

/// How much longer the test must last, where that can be said.
fn longer(outcome: &Outcome) -> Option<Time> {
    let tells = outcome.tells?;
    Some(Time::from_seconds(libm::fmax(
        tells.si() - outcome.leak.lasted.si(),
        0.0,
    )))
}

/// The rate with its uncertainty, and what is to be done.
pub(super) fn figures(outcome: &Outcome) -> [Line; 2] {
    let mut lines = [const { Line::new() }; 2];
    let [first, second] = &mut lines;
    let (own, unsure) = (outcome.leak.rate, outcome.leak.uncertainty);
    let largest = libm::fmax(libm::fabs(own.sccm()), unsure.sccm());
    // Where the thermometer was off by much in a tank that is soft, by litres for cubic centimetres.
    let (own, unsure, unit) = if largest < WIDE {
        (rate(own), rate(unsure), "sccm")
    } else {
        let litres = |rate: LeakRate| Decimal::new(1e-3 * rate.sccm(), 0);
        (litres(own), litres(unsure), "slm")
    };
    let _ = write!(first, "{own} ± {unsure} {unit}");
    let _ = match outcome.verdict {
        LeakVerdict::Tight | LeakVerdict::Leaks => {
            write!(second, "sought {} sccm", rate(outcome.allowed))
        }
        LeakVerdict::CannotTell(Doubt::Gains) => write!(second, "it seems to gain air"),
        LeakVerdict::CannotTell(Doubt::Unsure) => match longer(outcome) {
            Some(time) => write!(second, "wait {} more", Amount::time(time).text()),
            None => write!(second, "no wait would tell"),
        },
    };
    lines
}

fn say(text: &mut Text, outcome: &Outcome, changed: f64) -> core::fmt::Result {
    let sought = rate(outcome.allowed);
    match outcome.verdict {
        LeakVerdict::Tight => write!(
            text,
            "It loses no more than the {sought} sccm sought, with about 95 % sureness. That approves nothing: the rules that hold where the tank is used go first."
        )?,
        LeakVerdict::Leaks => write!(
            text,
            "It loses more than the {sought} sccm sought, with about 95 % sureness. Let the pressure off, then look for the place with soap."
        )?,
        LeakVerdict::CannotTell(Doubt::Gains) => text.write_str(
            "It seems to gain air: the thermometer does not follow the air in it, or panels still settle. Let it stand and read again.",
        )?,
        LeakVerdict::CannotTell(Doubt::Unsure) => {
            write!(text, "The {sought} sccm sought lie within what the readings leave open. ")?;
            match longer(outcome) {
                Some(time) => write!(
                    text,
                    "Read again in {}, if the rate stays what it is.",
                    Amount::time(time).text()
                )?,
                None => text.write_str("No time tells: use finer instruments.")?,
            }
        }
    }
    if outcome.leak.scattered {
        text.write_str(" The readings scatter: something moved that was not read.")?;
    }
    if changed > STEADY {
        text.write_str(
            " The pressure has changed by more than a tenth, so that this is an average.",
        )?;
    }
    Ok(())
}
