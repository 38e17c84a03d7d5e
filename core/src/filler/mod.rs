//! Which filler for which sheets and process: a set of marks with reasons, not one answer.
//!
//! Each filler is marked on six criteria; a rule of metallurgy can rule it out altogether. Marks come from
//! rules rather than from a table of pairs, so that each can say why; the pairs that books print are what
//! the tests hold them to. Of two different sheets the worse side counts, and the chemistry is that of both
//! in equal parts. What is best is then a matter of weights, which [`FillerVerdict::score`] tells.
//!
//! This chooses among names; it qualifies nothing. A vessel under pressure, or one that a code or a
//! classification society covers, needs a procedure qualified under it.

mod aluminium;
mod fusing;
mod reason;
mod steel;
mod weld_metal;

use crate::geom::sort::insertion;
use crate::tables::{Alloy, Family, Filler, Process, Source, Sourced};
use crate::units::range::{Limit, OutOfRange, Value, within};
use crate::units::{Ratio, Temperature, TemperatureUnit};

pub use fusing::FUSED_MOST;
pub use reason::FillerReason;
pub use weld_metal::{Cracking, WeldMetal};

/// Above this a metal with more than 3 % magnesium is not to be used for long: Mathers (2002), p. 49;
/// Corrosion 15 (1959).
pub const WARM: Sourced<Temperature> = Sourced::new(
    Temperature::new(65.0, TemperatureUnit::Celsius),
    Source::Corrosion1959,
);
/// Most magnesium of a metal that is warmer than [`WARM`].
const WARM_MAGNESIUM: f64 = 0.03;
/// How much of a TIG bead with filler is molten base where nobody says; 30 to 50 % is usual. Common
/// practice, no source.
pub const USUAL_DILUTION: Ratio = Ratio::from_share(0.4);

/// On what a filler is judged.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum Criterion {
    /// Freedom from cracks as the bead freezes.
    Cracking,
    /// Strength of the bead beside that of the sheet next to it.
    Strength,
    /// How far it stretches before it breaks.
    Ductility,
    /// Resistance to corrosion, salt water being the hard case.
    Corrosion,
    /// Whether it bears the service temperature.
    Temperature,
    /// Whether it looks like the sheet after anodising.
    Colour,
}

impl Criterion {
    /// Every criterion, in the order of [`FillerVerdict::findings`].
    pub const ALL: [Self; 6] = [
        Self::Cracking,
        Self::Strength,
        Self::Ductility,
        Self::Corrosion,
        Self::Temperature,
        Self::Colour,
    ];

    /// Its name.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Cracking => "cracking",
            Self::Strength => "strength",
            Self::Ductility => "ductility",
            Self::Corrosion => "corrosion",
            Self::Temperature => "temperature",
            Self::Colour => "colour",
        }
    }

    /// How much it counts. Our own choice: a tank must first of all not crack and not leak.
    const fn weight(self) -> u8 {
        match self {
            Self::Cracking => 3,
            Self::Strength | Self::Corrosion | Self::Colour => 2,
            Self::Ductility | Self::Temperature => 1,
        }
    }
}

/// A mark, from bad to good.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum Mark {
    /// Not to be used.
    RuledOut,
    /// Only where this criterion is secondary.
    Poor,
    /// It will do.
    Fair,
    /// As good as there is.
    Good,
}

impl Mark {
    const fn points(self) -> u8 {
        match self {
            Self::RuledOut => 0,
            Self::Poor => 1,
            Self::Fair => 2,
            Self::Good => 3,
        }
    }
}

/// A mark and why.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Finding {
    /// The mark.
    pub mark: Mark,
    /// Why; of two sheets, the one with the worse mark speaks.
    pub reason: FillerReason,
}

const fn good(reason: FillerReason) -> Finding {
    Finding {
        mark: Mark::Good,
        reason,
    }
}

const fn fair(reason: FillerReason) -> Finding {
    Finding {
        mark: Mark::Fair,
        reason,
    }
}

const fn poor(reason: FillerReason) -> Finding {
    Finding {
        mark: Mark::Poor,
        reason,
    }
}

const fn ruled_out(reason: FillerReason) -> Finding {
    Finding {
        mark: Mark::RuledOut,
        reason,
    }
}

impl Finding {
    /// The worse of two; of two alike the first.
    fn or(self, other: Self) -> Self {
        if other.mark < self.mark { other } else { self }
    }
}

/// What the joint has to bear, checked.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct FillerService {
    temperature: Option<Temperature>,
    anodised: bool,
    dilution: Ratio,
    process: Process,
}

impl FillerService {
    /// Nothing said: no service temperature, not anodised, the usual dilution, TIG.
    pub const UNSAID: Self = Self {
        temperature: None,
        anodised: false,
        dilution: USUAL_DILUTION,
        process: Process::TigDc,
    };

    /// With the greatest temperature at which the tank is kept for long, −200 to 500 °C, and whether it is
    /// anodised after welding.
    ///
    /// # Errors
    /// [`OutOfRange`] with a temperature outside those.
    pub fn new(temperature: Option<Temperature>, anodised: bool) -> Result<Self, OutOfRange> {
        let celsius = |value| Temperature::new(value, TemperatureUnit::Celsius);
        if let Some(at) = temperature {
            within(at, celsius(-200.0), celsius(500.0), Value::Temperature)?;
        }
        Ok(Self {
            temperature,
            anodised,
            ..Self::UNSAID
        })
    }

    /// The service with the process that welds.
    #[must_use]
    pub const fn with_process(self, process: Process) -> Self {
        Self { process, ..self }
    }

    /// The service with another share of molten base in the bead, above 0 and at most 1.
    ///
    /// # Errors
    /// [`OutOfRange`] with a share outside those.
    pub fn with_dilution(self, dilution: Ratio) -> Result<Self, OutOfRange> {
        let none = Ratio::from_share(0.0);
        if !(dilution > none) {
            return Err(OutOfRange {
                value: Value::Ratio(dilution),
                limit: Limit::Above(Value::Ratio(none)),
            });
        }
        let dilution = within(dilution, none, Ratio::from_share(1.0), Value::Ratio)?;
        Ok(Self { dilution, ..self })
    }

    /// The share of molten base in a bead with filler.
    #[must_use]
    pub const fn dilution(&self) -> Ratio {
        self.dilution
    }

    fn is_warm(&self) -> bool {
        self.temperature.is_some_and(|at| at > WARM.value)
    }
}

/// What is to be said of one filler in one joint.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct FillerVerdict {
    /// The filler; `None` is the edges fused without any.
    pub filler: Option<Filler>,
    /// A finding for each of [`Criterion::ALL`].
    pub findings: [Finding; 6],
    /// What the bead is made of; `None` where the sheets are not both of aluminium.
    pub weld_metal: Option<WeldMetal>,
}

impl Finding {
    /// Whether it tells something: not that nothing was asked, or that a rule is of another metal.
    #[must_use]
    pub const fn tells(self) -> bool {
        !matches!(
            self.reason,
            FillerReason::NotAsked | FillerReason::OtherSteels
        )
    }
}

impl FillerVerdict {
    /// Whether it is ruled out as one of another family of metals or another form, which is not worth a word.
    #[must_use]
    pub fn is_out_of_place(&self) -> bool {
        matches!(
            self.worst().reason,
            FillerReason::OtherMetal | FillerReason::OtherForm
        )
    }

    /// Each criterion with its finding.
    pub fn each(&self) -> impl Iterator<Item = (Criterion, Finding)> {
        Criterion::ALL.into_iter().zip(self.findings)
    }

    /// The finding on one criterion.
    #[must_use]
    pub const fn on(&self, criterion: Criterion) -> Finding {
        let [
            cracking,
            strength,
            ductility,
            corrosion,
            temperature,
            colour,
        ] = self.findings;
        match criterion {
            Criterion::Cracking => cracking,
            Criterion::Strength => strength,
            Criterion::Ductility => ductility,
            Criterion::Corrosion => corrosion,
            Criterion::Temperature => temperature,
            Criterion::Colour => colour,
        }
    }

    /// The finding with the worst mark, the first of several.
    #[must_use]
    pub fn worst(&self) -> Finding {
        let [first, rest @ ..] = self.findings;
        rest.into_iter().fold(first, Finding::or)
    }

    /// Whether a rule forbids it.
    #[must_use]
    pub fn ruled_out(&self) -> bool {
        self.worst().mark == Mark::RuledOut
    }

    /// The marks as points, 0 for ruled out to 3 for good, times the weights: cracking 3, strength,
    /// corrosion and colour 2, ductility and temperature 1. At most 33; the weights are our own choice.
    #[must_use]
    pub fn score(&self) -> u8 {
        self.each().fold(0, |sum: u8, (criterion, finding)| {
            sum.saturating_add(criterion.weight().saturating_mul(finding.mark.points()))
        })
    }

    /// Whether it goes before another: by the worst mark, then by the score.
    fn before(&self, other: &Self) -> bool {
        let rank = |verdict: &Self| (verdict.worst().mark, verdict.score());
        rank(self) > rank(other)
    }
}

/// How many can be judged: each filler, and none.
pub const MANY: usize = Filler::ALL.len() + 1;

/// Everything that can be judged; of those with equal marks the first here goes first: what is sold
/// everywhere before what is not (common practice, no source), and any filler before none.
const CANDIDATES: [Option<Filler>; MANY] = [
    Some(Filler::R1100),
    Some(Filler::R4043),
    Some(Filler::R5356),
    Some(Filler::R5183),
    Some(Filler::R5556),
    Some(Filler::R5554),
    Some(Filler::R4047),
    Some(Filler::Er308L),
    Some(Filler::Er316L),
    Some(Filler::Er309L),
    Some(Filler::Er70s2),
    Some(Filler::Er70s6),
    Some(Filler::E71t1),
    Some(Filler::E308Lt1),
    Some(Filler::E316Lt1),
    Some(Filler::E309Lt1),
    None,
];

/// Judges one filler, or the edges fused without any, in a joint of two sheets.
#[must_use]
pub fn judge(
    base: Alloy,
    other: Alloy,
    filler: Option<Filler>,
    service: &FillerService,
) -> FillerVerdict {
    let aluminium = |alloy: Alloy| alloy.family() == Family::Aluminium;
    let both = aluminium(base) && aluminium(other);
    let weld_metal = both.then(|| WeldMetal::of(base, other, filler, service.dilution));
    let findings = if aluminium(base) != aluminium(other) {
        [ruled_out(FillerReason::NotFused); 6]
    } else if filler.is_some_and(|rod| (rod.family() == Family::Aluminium) != both) {
        [ruled_out(FillerReason::OtherMetal); 6]
    } else if filler.is_some_and(|rod| !rod.is_for(service.process)) {
        [ruled_out(FillerReason::OtherForm); 6]
    } else if filler.is_none() && service.process.feeds_wire() {
        [ruled_out(FillerReason::WireIsElectrode); 6]
    } else if let Some(metal) = weld_metal {
        aluminium::findings([base, other], filler, metal, service)
    } else {
        steel::findings([base, other], filler)
    };
    FillerVerdict {
        filler,
        findings,
        weld_metal,
    }
}

/// Every filler, and none, judged and ranked, the best first: by its worst mark, then by
/// [`FillerVerdict::score`], then by how common it is. The same inputs give the same order.
#[must_use]
pub fn ranked(base: Alloy, other: Alloy, service: &FillerService) -> [FillerVerdict; MANY] {
    let mut verdicts = CANDIDATES.map(|filler| judge(base, other, filler, service));
    insertion(&mut verdicts, FillerVerdict::before);
    verdicts
}

/// The first of [`ranked`], without ranking the rest; `None` where every one is ruled out.
#[must_use]
pub fn best(base: Alloy, other: Alloy, service: &FillerService) -> Option<FillerVerdict> {
    CANDIDATES
        .into_iter()
        .map(|filler| judge(base, other, filler, service))
        .filter(|verdict| !verdict.ruled_out())
        .reduce(|best, next| if next.before(&best) { next } else { best })
}

/// The bead beside the weaker sheet as welded.
fn strength([base, other]: [Alloy; 2], filler: Option<Filler>) -> Finding {
    let Some(filler) = filler else {
        return fair(FillerReason::FusedStrength);
    };
    // The highest that a source promises of the sheet: a rod is not good for falling short of it.
    let sheet = |alloy: Alloy| {
        alloy.metal().welded().fold(0.0, |most, row| {
            libm::fmax(most, row.strength.ultimate.si())
        })
    };
    let share = filler.ultimate().value.si() / libm::fmin(sheet(base), sheet(other));
    if share >= 1.0 {
        good(FillerReason::AsStrong)
    } else if share >= 0.6 {
        fair(FillerReason::Weaker)
    } else {
        poor(FillerReason::MuchWeaker)
    }
}

#[cfg(test)]
mod tests;
