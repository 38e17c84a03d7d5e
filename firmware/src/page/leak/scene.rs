//! What a leak test shows.

use heapless::Vec;
use seamwright_core::advice::caution::{Caution, for_leak_test, for_liquid};
use seamwright_core::leak::{
    Leak, LeakError, LeakPlan, LeakRate, LeakRule, LeakVerdict, Method, Vessel,
};
use seamwright_core::seam::SeamMark;
use seamwright_core::strength::StrengthError;
use seamwright_core::tables::Liquid;
use seamwright_core::units::{Pressure, Time};

use super::typed::{Ask, Field};
use crate::amount::Units;

/// More cautions than belong to any test.
const MOST_CAUTIONS: usize = 10;

/// What is tested, and the units that it is typed in.
#[derive(Clone, Copy, Debug)]
pub struct Site<'a> {
    /// What the test must know of the tank.
    pub vessel: &'a Result<Vessel, StrengthError>,
    /// The seam that bears least of an even pressure, where one can be judged; `None` while they are being tried.
    pub seam: Option<Option<WeakSeam>>,
    /// What the tank is for.
    pub liquid: Option<Liquid>,
    /// Units.
    pub units: Units,
}

/// A seam, and the even pressure at which it has no reserve left: a reserve of 1, as `SeamStrength` has it.
#[derive(Clone, Copy, Debug)]
pub struct WeakSeam {
    /// Its mark.
    pub mark: SeamMark,
    /// The pressure; its reserve at another is the ratio of the two, for plates and welds are taken as elastic.
    pub bears: Pressure,
}

/// How a leak is looked for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[repr(u8)]
pub enum Way {
    /// The seams are looked over.
    Look,
    /// A gauge is read.
    Measure,
}

/// What was seen on the seams.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[repr(u8)]
pub enum Seen {
    /// Nothing.
    Dry,
    /// A leak.
    Leak,
    /// They have not been looked over yet.
    NotYet,
}

/// What becomes of a reading that has been typed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[repr(u8)]
pub enum Fate {
    /// It counts.
    Keep,
    /// It is typed again, with the time at which it was taken.
    Again,
    /// It is forgotten.
    Drop,
}

/// One screen of the plan.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Sheet {
    /// A seam that has too little reserve in it.
    Seam,
    /// By what, and at what pressure.
    Pressure,
    /// Where the relief valve opens.
    Relief,
    /// What the air stores.
    Energy,
    /// What the water weighs.
    Weight,
    /// How long it is held.
    Hold,
    /// How long a gauge takes to show the leak that is sought.
    Shows,
    /// Why so.
    Why,
    /// To begin over.
    Over,
}

/// One view of a test that is under way, or over.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum View {
    /// The timer.
    Timer,
    /// What may be said of the tank, and how long to wait where nothing can.
    Verdict,
    /// The same in words.
    Words,
    /// To begin over.
    Over,
}

/// What a page shows.
#[derive(Clone, Copy, Debug)]
pub enum Scene {
    /// By which rule, and which way; the line that is being chosen.
    Choose(LeakRule, Way, u8),
    /// No test is proposed.
    Refused(&'static str),
    /// A caution to acknowledge: which, and how many there are.
    Caution(Caution, u8, u8),
    /// What is sought, and what it is read with.
    Ask(Ask),
    /// The seams are still being tried, and before that nothing is put under pressure.
    Wait,
    /// A screen of the plan.
    Plan(LeakPlan, Sheet),
    /// What to do before it begins.
    Ready(LeakPlan),
    /// The timer runs and the seams are looked over when it is time.
    Hold(LeakPlan),
    /// What was seen, as it is being chosen.
    Look(LeakPlan, Seen),
    /// A test that is over.
    Seen(LeakPlan, Seen, View),
    /// A reading as it is typed.
    Type(LeakPlan, Field),
    /// What becomes of it.
    Decide(Fate),
    /// Readings are taken.
    Watch(View),
}

/// What readings come to.
#[derive(Clone, Copy, Debug)]
pub struct Outcome {
    /// The leak.
    pub leak: Leak,
    /// What may be said.
    pub verdict: LeakVerdict,
    /// The rate that counts as tight.
    pub allowed: LeakRate,
    /// How long the test must last in all to tell, where that can be said.
    pub tells: Option<Time>,
}

/// What belongs to a test, none twice, the widest last.
pub(super) fn cautions(
    method: Method,
    way: Way,
    liquid: Option<Liquid>,
) -> Vec<Caution, MOST_CAUTIONS> {
    let mut all = Vec::new();
    let mut add = |caution: Caution| {
        if caution != Caution::LocalCode && !all.contains(&caution) {
            // More room than there are.
            let _ = all.push(caution);
        }
    };
    for_leak_test(method).for_each(&mut add);
    if way == Way::Measure {
        // Whatever the plan says then, a gauge is read on air.
        for_leak_test(Method::PressureDecay).for_each(&mut add);
    }
    if let Some(liquid) = liquid {
        for_liquid(liquid).for_each(&mut add);
    }
    let _ = all.push(Caution::LocalCode);
    all
}

/// The screens of a plan.
pub(super) fn sheets(plan: &LeakPlan, way: Way, site: &Site<'_>) -> impl Iterator<Item = Sheet> {
    let weak = site.seam.flatten();
    let weak = weak.filter(|seam| plan.pressure > seam.bears);
    let first = weak.map(|_| Sheet::Seam);
    first
        .into_iter()
        .chain(usual(plan.method, way).iter().copied())
}

/// The screens of a plan that no seam is too weak for.
const fn usual(method: Method, way: Way) -> &'static [Sheet] {
    use Sheet::{Energy, Hold, Over, Pressure, Relief, Shows, Weight, Why};
    match (method, way) {
        (Method::WaterHead, Way::Look) => &[Pressure, Weight, Hold, Why, Over],
        (Method::WaterHead, Way::Measure) => &[Why, Shows, Pressure, Weight, Hold, Over],
        (Method::AirSoap, Way::Look) => &[Pressure, Relief, Energy, Hold, Why, Over],
        (Method::AirSoap, Way::Measure) => &[Why, Shows, Pressure, Relief, Energy, Hold, Over],
        (Method::PressureDecay, _) => &[Pressure, Relief, Energy, Hold, Shows, Why, Over],
    }
}

/// Why no test is proposed, without a figure: none is to be named here.
pub(super) const fn refusal(error: &LeakError) -> &'static str {
    match error {
        LeakError::Strength(StrengthError::Unknown) => {
            "No source has the strength of this alloy beside a weld, so that no wall may be put under pressure."
        }
        LeakError::Strength(StrengthError::Liquid(_)) => {
            "The liquid has no density at the job's temperature. Mend the job and send it again."
        }
        LeakError::Strength(
            StrengthError::Panel(_) | StrengthError::FreeEdge | StrengthError::TooHot { .. },
        ) => {
            "A wall cannot be judged, so that none may be put under pressure. The strength page says which."
        }
        LeakError::TooWeak(_) => {
            "The weakest wall or seam does not take this test. Stiffen it, use thicker sheet, or choose another rule."
        }
        LeakError::TooMuchAir(_) => {
            "Too much for a test with air: prove it with water, or choose another rule."
        }
        LeakError::TooMuchEnergy(_) => {
            "The air in it would store too much: prove it with water, or choose another rule."
        }
        LeakError::Range(_) => {
            "A figure of this tank is past what a leak test is reckoned for. The laptop says which."
        }
    }
}
