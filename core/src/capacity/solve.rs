//! Which value of one dimension gives a wanted figure.
//!
//! Every evaluation usually builds a whole tank, and some values of the dimension make none; so the
//! search spends few evaluations, never more than [`MOST_EVALUATIONS`], and takes a refusal for an
//! answer. It uses no random numbers: equal inputs give equal outputs.

use core::fmt;

/// The most that one search calls its function.
pub const MOST_EVALUATIONS: u32 = 460;

/// How near the figure comes to the target, as a share of the target.
pub const NEARNESS: f64 = 1e-12;

/// Pieces into which the workable part of the range is divided to find where the figure crosses the
/// target. A figure that goes past the target and back within one piece may go unseen, unless that is
/// its highest or lowest place.
const PIECES: u32 = 32;
/// Places tried when none is known to work.
const TRIES: u32 = 64;
/// Halvings towards the last place that works: past the last bit of most doubles.
const EDGE_HALVINGS: u32 = 56;
/// Steps of the search for a highest or lowest place; each takes 38 % off the piece.
const PEAK_STEPS: u32 = 60;
/// Steps inside one bracket. Every third step halves it at least, so 180 pass the last bit.
const ROOT_STEPS: u32 = 180;
/// A figure that ends further than this share from the target has jumped over it.
const JUMP: f64 = 1e-9;

/// A value of the dimension and the figure that it gives.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Sample {
    /// The dimension, in the unit of the range.
    pub at: f64,
    /// The figure, in the unit of the target.
    pub gives: f64,
}

/// Why no value of the dimension was found.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum SolveError<E> {
    /// The range is empty, turned round, or not finite.
    Range {
        /// Its lower end.
        low: f64,
        /// Its upper end.
        high: f64,
    },
    /// The target is not a finite number.
    Target(f64),
    /// The start lies outside the range.
    Start(f64),
    /// No place that was tried works: the refusal of the first, and where that was.
    NothingWorks {
        /// The place.
        at: f64,
        /// Why it does not work.
        error: E,
    },
    /// The target lies outside what the workable part of the range gives.
    Unreachable {
        /// The target.
        target: f64,
        /// The lowest figure found.
        least: Sample,
        /// The highest figure found.
        most: Sample,
        /// What stops smaller values of the dimension, unless the range itself does.
        below: Option<E>,
        /// What stops larger values of the dimension, unless the range itself does.
        above: Option<E>,
    },
    /// The figure leaps over the target between two neighbouring values of the dimension.
    Leaps {
        /// The last value on one side.
        low: Sample,
        /// The first value on the other.
        high: Sample,
    },
    /// The figure crosses the target where the dimension does not work.
    Gap {
        /// A place in the gap.
        at: f64,
        /// Why it does not work.
        error: E,
    },
}

impl<E: fmt::Display> fmt::Display for SolveError<E> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Range { low, high } => {
                write!(f, "{low} to {high} is no range: it must rise and be finite")
            }
            Self::Target(target) => write!(f, "the target is {target}: it must be finite"),
            Self::Start(start) => write!(f, "the start {start} must lie in the range"),
            Self::NothingWorks { at, error } => {
                write!(f, "nothing in the range works; at {at}: {error}")
            }
            Self::Unreachable {
                target,
                least,
                most,
                below,
                above,
            } => {
                write!(
                    f,
                    "{target} is out of reach: from {} at {} to {} at {} can be had",
                    least.gives, least.at, most.gives, most.at
                )?;
                if let Some(error) = below {
                    write!(f, "; smaller does not work: {error}")?;
                }
                if let Some(error) = above {
                    write!(f, "; larger does not work: {error}")?;
                }
                Ok(())
            }
            Self::Leaps { low, high } => write!(
                f,
                "the figure leaps from {} to {} near {}",
                low.gives, high.gives, low.at
            ),
            Self::Gap { at, error } => {
                write!(f, "the target is met only where {at} fails: {error}")
            }
        }
    }
}

impl<E: core::error::Error> core::error::Error for SolveError<E> {}

/// The value of a dimension within `range` (both ends allowed) at which `f` gives `target`.
///
/// A place that works is looked for in the middle of the range first, then at its quarters, eighths and
/// so on, 64 places at most; the rest is [`solve_from`] with that place as the start.
///
/// # Errors
/// [`SolveError`] says which input is wrong, or which figures can be had and where.
pub fn solve<E>(
    range: (f64, f64),
    target: f64,
    mut f: impl FnMut(f64) -> Result<f64, E>,
) -> Result<f64, SolveError<E>> {
    check(range, target)?;
    let (low, high) = range;
    let mut refusal = None;
    for n in 1..=TRIES {
        let at = low + (high - low) * halves(n);
        match f(at) {
            Ok(_) => return solve_from(at, range, target, f),
            Err(error) => refusal = refusal.or(Some((at, error))),
        }
    }
    // TRIES is above zero, so there is a refusal.
    match refusal {
        Some((at, error)) => Err(SolveError::NothingWorks { at, error }),
        None => Err(SolveError::Range { low, high }),
    }
}

/// The search from a dimension that is known to work, such as the dimension as it stands.
///
/// 1. Where an end of the range does not work, the last place that does is found by halving between it
///    and the start, so the workable part is taken to be one piece around the start.
/// 2. That part is sampled at 33 places and the start. `f` need not be monotone: of all neighbouring
///    pairs on the two sides of the target the one nearest to the start is taken, so that the dimension
///    changes least. Samples that do not work are left out, and with them the gap around them.
/// 3. Where no pair is found, the highest (or lowest) sample is followed to the top between its
///    neighbours; if that passes the target there is a pair after all.
/// 4. In the pair, regula falsi with the Illinois rule (M. Dowell and P. Jarratt, BIT 11, 1971, 168),
///    with a halving whenever two steps did not halve the bracket, until the figure is within
///    [`NEARNESS`] of the target or the bracket is down to neighbouring numbers.
///
/// `f` gives a finite number or refuses; a figure that is not a number is never taken for an answer.
///
/// # Errors
/// [`SolveError`] says which input is wrong, or which figures can be had and where. The figures of
/// [`SolveError::Unreachable`] are those of the samples and of step 3, so an excursion inside one
/// thirty-second of the range can be missed.
pub fn solve_from<E>(
    start: f64,
    range: (f64, f64),
    target: f64,
    mut f: impl FnMut(f64) -> Result<f64, E>,
) -> Result<f64, SolveError<E>> {
    check(range, target)?;
    if !(start >= range.0 && start <= range.1) {
        return Err(SolveError::Start(start));
    }
    let first =
        sample(&mut f, start).map_err(|error| SolveError::NothingWorks { at: start, error })?;
    if near(first.gives, target) {
        return Ok(start);
    }
    let (low, below) = edge(&mut f, first, range.0);
    let (high, above) = edge(&mut f, first, range.1);
    let mut survey = Survey::new(first);
    survey.take(low);
    survey.walk(&mut f, (low, first), target);
    survey.restart(first);
    survey.walk(&mut f, (first, high), target);

    // The target may be just what the highest or the lowest place gives.
    if survey.pair.is_none()
        && let Some(end) = [survey.least, survey.most]
            .into_iter()
            .find(|end| near(end.gives, target))
    {
        return Ok(end.at);
    }
    if survey.pair.is_none() {
        let up = target > survey.most.gives;
        let best = if up { survey.most } else { survey.least };
        let step = (high.at - low.at) / f64::from(PIECES);
        let span = (
            libm::fmax(low.at, best.at - step),
            libm::fmin(high.at, best.at + step),
        );
        let peak = peak(&mut f, best, span, up);
        if up {
            survey.most = peak;
        } else {
            survey.least = peak;
        }
        if (up && peak.gives >= target) || (!up && peak.gives <= target) {
            survey.pair = Some((first, peak));
        }
    }
    match survey.pair {
        Some((a, b)) => root(&mut f, a, b, target),
        None => Err(SolveError::Unreachable {
            target,
            least: survey.least,
            most: survey.most,
            below,
            above,
        }),
    }
}

fn check<E>((low, high): (f64, f64), target: f64) -> Result<(), SolveError<E>> {
    if !(low.is_finite() && high.is_finite() && low < high) {
        return Err(SolveError::Range { low, high });
    }
    if !target.is_finite() {
        return Err(SolveError::Target(target));
    }
    Ok(())
}

/// 1/2, 1/4, 3/4, 1/8, 5/8, …: the bits of `n` read backwards (van der Corput).
fn halves(n: u32) -> f64 {
    f64::from(n.reverse_bits()) / 4_294_967_296.0
}

fn near(gives: f64, target: f64) -> bool {
    libm::fabs(gives - target) <= NEARNESS * libm::fabs(target)
}

fn sample<E>(f: &mut impl FnMut(f64) -> Result<f64, E>, at: f64) -> Result<Sample, E> {
    f(at).map(|gives| Sample { at, gives })
}

/// The furthest place towards `end` that works, and what stops it from going further.
fn edge<E>(
    f: &mut impl FnMut(f64) -> Result<f64, E>,
    start: Sample,
    end: f64,
) -> (Sample, Option<E>) {
    let mut refusal = match sample(f, end) {
        Ok(found) => return (found, None),
        Err(error) => error,
    };
    let (mut good, mut bad) = (start, end);
    for _ in 0..EDGE_HALVINGS {
        let middle = 0.5 * (good.at + bad);
        if is(middle, good.at) || is(middle, bad) {
            break;
        }
        match sample(f, middle) {
            Ok(found) => good = found,
            Err(error) => {
                bad = middle;
                refusal = error;
            }
        }
    }
    (good, Some(refusal))
}

/// What the samples along the workable part have shown.
struct Survey {
    start: f64,
    last: Option<Sample>,
    least: Sample,
    most: Sample,
    pair: Option<(Sample, Sample)>,
}

impl Survey {
    fn new(start: Sample) -> Self {
        Self {
            start: start.at,
            last: None,
            least: start,
            most: start,
            pair: None,
        }
    }

    fn restart(&mut self, from: Sample) {
        self.last = Some(from);
    }

    fn take(&mut self, found: Sample) {
        if found.gives < self.least.gives {
            self.least = found;
        }
        if found.gives > self.most.gives {
            self.most = found;
        }
        self.last = Some(found);
    }

    /// How far a pair lies from the start.
    fn away(&self, (a, b): (Sample, Sample)) -> f64 {
        libm::fmin(libm::fabs(a.at - self.start), libm::fabs(b.at - self.start))
    }

    /// Samples from one known place to another, half of the pieces on each side of the start.
    fn walk<E>(
        &mut self,
        f: &mut impl FnMut(f64) -> Result<f64, E>,
        (from, to): (Sample, Sample),
        target: f64,
    ) {
        if is(from.at, to.at) {
            return;
        }
        let count = PIECES / 2;
        for n in 1..=count {
            let at = from.at + (to.at - from.at) * f64::from(n) / f64::from(count);
            let found = if n == count { Ok(to) } else { sample(f, at) };
            let Ok(found) = found else {
                self.last = None;
                continue;
            };
            if let Some(last) = self.last
                && (last.gives <= target) != (found.gives <= target)
                && self
                    .pair
                    .is_none_or(|pair| self.away((last, found)) < self.away(pair))
            {
                self.pair = Some((last, found));
            }
            self.take(found);
        }
    }
}

/// The highest (`up`) or lowest place between two, by golden section from the best sample.
fn peak<E>(
    f: &mut impl FnMut(f64) -> Result<f64, E>,
    best: Sample,
    (mut low, mut high): (f64, f64),
    up: bool,
) -> Sample {
    const GOLDEN: f64 = 0.381_966_011_250_105_1;
    let better = |a: f64, b: f64| if up { a > b } else { a < b };
    let mut best = best;
    for _ in 0..PEAK_STEPS {
        // The longer side of the best place is tried.
        let right = high - best.at > best.at - low;
        let at = if right {
            best.at + GOLDEN * (high - best.at)
        } else {
            best.at - GOLDEN * (best.at - low)
        };
        match sample(f, at) {
            Ok(found) if better(found.gives, best.gives) => {
                if right {
                    low = best.at;
                } else {
                    high = best.at;
                }
                best = found;
            }
            _ if right => high = at,
            _ => low = at,
        }
    }
    best
}

/// Which end of the bracket the last step left where it was.
#[derive(Clone, Copy)]
enum Stayed {
    Neither,
    A,
    B,
}

/// The place between two on either side of the target where the target is met.
fn root<E>(
    f: &mut impl FnMut(f64) -> Result<f64, E>,
    a: Sample,
    b: Sample,
    target: f64,
) -> Result<f64, SolveError<E>> {
    let (mut a, mut b) = (a, b);
    // What the rule weighs: an end that stays twice running counts half of what it is off.
    let (mut over_a, mut over_b) = (a.gives - target, b.gives - target);
    let mut stayed = Stayed::Neither;
    let mut width = libm::fabs(b.at - a.at);
    let mut slow = 0;
    for _ in 0..ROOT_STEPS {
        for end in [a, b] {
            if near(end.gives, target) {
                return Ok(end.at);
            }
        }
        let mut at = a.at - over_a * (b.at - a.at) / (over_b - over_a);
        let (low, high) = (libm::fmin(a.at, b.at), libm::fmax(a.at, b.at));
        if slow >= 2 || !(at > low && at < high) {
            at = 0.5 * (a.at + b.at);
            slow = 0;
        }
        if is(at, a.at) || is(at, b.at) {
            break;
        }
        let found = sample(f, at).map_err(|error| SolveError::Gap { at, error })?;
        let over = found.gives - target;
        if (found.gives <= target) == (a.gives <= target) {
            (a, over_a) = (found, over);
            over_b = match stayed {
                Stayed::B => 0.5 * over_b,
                Stayed::A | Stayed::Neither => b.gives - target,
            };
            stayed = Stayed::B;
        } else {
            (b, over_b) = (found, over);
            over_a = match stayed {
                Stayed::A => 0.5 * over_a,
                Stayed::B | Stayed::Neither => a.gives - target,
            };
            stayed = Stayed::A;
        }
        let now = libm::fabs(b.at - a.at);
        slow = if now > 0.5 * width { slow + 1 } else { 0 };
        width = now;
    }
    let (off_a, off_b) = (libm::fabs(a.gives - target), libm::fabs(b.gives - target));
    let (best, off) = if off_b < off_a {
        (b, off_b)
    } else {
        (a, off_a)
    };
    // Near a target of zero the size of the figure on the other side is the measure.
    let scale = libm::fmax(libm::fabs(target), NEARNESS);
    if off <= JUMP * scale {
        return Ok(best.at);
    }
    let (low, high) = if a.at <= b.at { (a, b) } else { (b, a) };
    Err(SolveError::Leaps { low, high })
}

/// Bit equality, meant: a step that no longer changes the value cannot improve it.
#[expect(clippy::float_cmp, reason = "stops when a step changes nothing")]
fn is(a: f64, b: f64) -> bool {
    a == b
}
