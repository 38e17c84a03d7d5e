//! The order in which a tank is tacked together.
//!
//! Ends of seams first, so that every corner is held; then each tack goes where it halves one of the longest
//! stretches that are still open. Among those, the next is the one that leaves the tacks least lopsided, which is
//! mostly the one across from the last. All of it within a stage of building ([`build`](crate::build)). All of this is common practice, no source; so is the half, from which on a stretch
//! counts as one of the longest. A round seam has no ends: it starts with one tack, goes on with the one across, and
//! the tack beside its first comes last.
//!
//! The measure is that of the stitches, see `pull`, stage by stage: what is not yet there cannot be pulled, so the tacks
//! of a stage are measured about their own middle.

use heapless::Vec;

use super::super::pull::Pull;
use super::halving::Halving;
use crate::body::Edge;
use crate::build::MAX_STAGES;
use crate::geom::Vector;
use crate::seam::{MAX_SEAMS, Tacks};
use crate::units::Length;

/// A stretch is one of the longest if it is more than this share of the longest.
const AS_LONG: f64 = 0.5;

/// One tack, in the order of tacking.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Tack {
    /// The place of its seam in the list of seams.
    pub seam: u8,
    /// Which of its seam's tacks it is, from 0 at the seam's start.
    pub number: u16,
    /// Its middle, from the start of the seam.
    pub at: Length,
    /// The stage of building in which it is due, counted from 1.
    pub stage: u8,
    /// The open stretch that it halves, from middle to middle of the tacks beside it; zero at an end of a seam.
    pub open: Length,
}

/// What is left to tack; about 14 KiB, so a small machine gives it a place of its own.
#[derive(Clone, Debug)]
pub struct Tacking {
    rows: Vec<SeamTacks, MAX_SEAMS>,
    sums: EachStage<StageSum>,
}

/// The tacks of one stage together.
#[derive(Clone, Copy, Debug)]
struct StageSum {
    /// Mean of their places, weighed by their lengths.
    middle: Vector,
    /// How lopsided those are that are made.
    pull: Pull,
}

impl StageSum {
    const NONE: Self = Self {
        middle: Vector::ZERO,
        pull: Pull::over(0.0),
    };
}

/// Something for each stage by its number, from 0 for none.
type EachStage<T> = [T; MAX_STAGES + 1];

/// What a stage has.
fn entry<T: Copy>(all: &EachStage<T>, stage: u8) -> Option<T> {
    all.get(usize::from(stage)).copied()
}

/// Mutable [`entry`].
fn entry_mut<T>(all: &mut EachStage<T>, stage: u8) -> Option<&mut T> {
    all.get_mut(usize::from(stage))
}

impl Default for Tacking {
    fn default() -> Self {
        Self::new()
    }
}

/// One seam's tacks.
#[derive(Clone, Copy, Debug)]
pub(super) struct SeamTacks {
    seam: u8,
    stage: u8,
    tacks: Tacks,
    /// Whether it can pull what stands to one side: a ring in a panel by itself cannot.
    pulls: bool,
    /// Whether its first and its second end are still to be tacked.
    ends: [bool; 2],
    /// From the middle of the stage's tacks to a tack, times the length of a tack, in m²: to the tacks at its two ends;
    /// once both are made the first entry is that of its next tack.
    arms: [Vector; 2],
    halving: Halving,
    /// The next tack between its ends, and how many pitches are open there.
    next: Option<(u16, u16)>,
}

impl SeamTacks {
    /// The tacks of a seam, none of them made.
    pub(super) fn new(seam: u8, (stage, pulls): (u8, bool), tacks: Tacks, round: bool) -> Self {
        let mut halving = Halving::of(tacks.count, round);
        let next = halving.next();
        Self {
            seam,
            stage,
            tacks,
            pulls,
            ends: [tacks.count > 0, tacks.count > 1 && !round],
            arms: [Vector::ZERO; 2],
            halving,
            next,
        }
    }

    fn is_left(&self) -> bool {
        self.ends[0] || self.ends[1] || self.next.is_some()
    }

    /// Length of the open stretch that its next tack halves, in m.
    fn open(&self) -> f64 {
        self.next
            .map_or(0.0, |(_, gaps)| f64::from(gaps) * self.tacks.pitch.si())
    }

    /// Where the middle of one of its tacks lies, from the start of the seam.
    fn at(&self, number: u16) -> Length {
        let first = self.tacks.first.si();
        Length::from_metres(first + f64::from(number) * self.tacks.pitch.si())
    }

    /// From `middle` to one of its tacks, times the length of a tack, in m².
    fn arm(&self, edge: &Edge, number: u16, middle: Vector) -> Vector {
        if !self.pulls {
            return Vector::ZERO;
        }
        (edge.at(self.at(number)) - middle) * self.tacks.length.si()
    }
}

impl Tacking {
    /// With nothing to tack.
    #[must_use]
    pub const fn new() -> Self {
        Self {
            rows: Vec::new(),
            sums: [StageSum::NONE; MAX_STAGES + 1],
        }
    }

    pub(super) fn clear(&mut self) {
        self.rows.clear();
        self.sums = [StageSum::NONE; MAX_STAGES + 1];
    }

    /// Adds the tacks of one more seam.
    pub(super) fn push(&mut self, row: SeamTacks) {
        // There are as many places as a tank may have seams.
        let _ = self.rows.push(row);
    }

    /// Sets the arms of all tacks, about the middle of each stage's.
    pub(super) fn set_arms(&mut self, edge_of: impl Fn(u8) -> Option<Edge>) {
        let mut sums: EachStage<(Vector, f64)> = [(Vector::ZERO, 0.0); MAX_STAGES + 1];
        self.each(&edge_of, |row, edge, number| {
            let Some((sum, length)) = entry_mut(&mut sums, row.stage) else {
                return;
            };
            *sum = *sum + edge.at(row.at(number)) * row.tacks.length.si();
            *length += row.tacks.length.si();
        });
        let middles = sums.map(|(sum, length)| match length > 0.0 {
            true => sum * (1.0 / length),
            false => sum,
        });
        let mut wholes: EachStage<f64> = [0.0; MAX_STAGES + 1];
        self.each(&edge_of, |row, edge, number| {
            let middle = entry(&middles, row.stage).unwrap_or(Vector::ZERO);
            if let Some(whole) = entry_mut(&mut wholes, row.stage) {
                *whole += row.arm(edge, number, middle).length();
            }
        });
        for (sum, (middle, whole)) in self.sums.iter_mut().zip(middles.into_iter().zip(wholes)) {
            *sum = StageSum {
                middle,
                pull: Pull::over(whole),
            };
        }
        for row in &mut self.rows {
            if let Some(edge) = edge_of(row.seam) {
                let sum = entry(&self.sums, row.stage).unwrap_or(StageSum::NONE);
                let middle = sum.middle;
                let ends = [0, row.tacks.count.saturating_sub(1)];
                row.arms = ends.map(|number| row.arm(&edge, number, middle));
            }
        }
    }

    /// Shows `see` every tack with its seam, seam by seam.
    fn each(
        &self,
        edge_of: &impl Fn(u8) -> Option<Edge>,
        mut see: impl FnMut(&SeamTacks, &Edge, u16),
    ) {
        for row in &self.rows {
            if let Some(edge) = edge_of(row.seam) {
                (0..row.tacks.count).for_each(|number| see(row, &edge, number));
            }
        }
    }

    /// The largest pull to one side so far in any stage, 0 to about 1.
    pub(super) fn most(&self) -> f64 {
        let all = self.sums.iter().map(|sum| sum.pull.most());
        all.fold(0.0, libm::fmax)
    }

    /// The largest pull on the way if each stage were tacked seam by seam, each seam from its start to its end.
    pub(super) fn seam_by_seam(&self, edge_of: &impl Fn(u8) -> Option<Edge>) -> f64 {
        let mut plain = Self {
            rows: Vec::new(),
            sums: self.sums,
        };
        for sum in &mut plain.sums {
            sum.pull = sum.pull.unwelded();
        }
        self.each(edge_of, |row, edge, number| {
            if let Some(sum) = entry_mut(&mut plain.sums, row.stage) {
                sum.pull.add(row.arm(edge, number, sum.middle));
            }
        });
        plain.most()
    }

    /// Makes the next tack; `None` where all are made.
    pub(super) fn next(&mut self, edge_of: impl Fn(u8) -> Option<Edge>) -> Option<Tack> {
        let left = self.rows.iter().filter(|row| row.is_left());
        let stage = left.map(|row| row.stage).min()?;
        let (place, end) = self.best_end(stage).or_else(|| self.best_between(stage))?;
        let row = self.rows.get_mut(place)?;
        let last = row.tacks.count.saturating_sub(1);
        let (number, open, arm) = match end {
            Some(end) => {
                let arm = if end { row.arms[1] } else { row.arms[0] };
                let [first, second] = &mut row.ends;
                *(if end { second } else { first }) = false;
                (if end { last } else { 0 }, 0.0, arm)
            }
            None => {
                let (number, _) = row.next?;
                let (open, arm) = (row.open(), row.arms[0]);
                row.next = row.halving.next();
                (number, open, arm)
            }
        };
        let sum = entry_mut(&mut self.sums, stage)?;
        sum.pull.add(arm);
        if let ([false, false], Some((next, _))) = (row.ends, row.next)
            && let Some(edge) = edge_of(row.seam)
        {
            row.arms[0] = row.arm(&edge, next, sum.middle);
        }
        Some(Tack {
            seam: row.seam,
            number,
            at: row.at(number),
            stage,
            open: Length::from_metres(open),
        })
    }

    /// The seam of whose ends one leaves the least pull, by its place, with `Some(true)` for its second end.
    fn best_end(&self, stage: u8) -> Option<(usize, Option<bool>)> {
        let rows = self.rows.iter().zip(0_usize..);
        let ends = rows
            .filter(|(row, _)| row.stage == stage)
            .flat_map(|(row, place)| {
                let both = row.ends.into_iter().zip(row.arms).zip([false, true]);
                both.filter(|((left, _), _)| *left)
                    .map(move |((_, arm), end)| (arm, (place, Some(end))))
            });
        self.least(stage, ends)
    }

    /// The seam whose next tack halves one of the longest stretches and leaves the least pull, by its place.
    fn best_between(&self, stage: u8) -> Option<(usize, Option<bool>)> {
        let rows = || {
            let rows = self.rows.iter().zip(0_usize..);
            rows.filter(|(row, _)| row.stage == stage && row.next.is_some())
        };
        let longest = rows().map(|(row, _)| row.open()).fold(0.0, libm::fmax);
        let long = rows().filter(|(row, _)| row.open() > AS_LONG * longest);
        self.least(stage, long.map(|(row, place)| (row.arms[0], (place, None))))
    }

    /// The thing whose arm leaves the least pull among pairs of an arm and a thing; the first of equals.
    fn least<T>(&self, stage: u8, all: impl Iterator<Item = (Vector, T)>) -> Option<T> {
        let so_far = entry(&self.sums, stage)?.pull;
        let mut best = None;
        let mut least = f64::INFINITY;
        for (arm, one) in all {
            let pull = so_far.with_arm(arm);
            if pull < least {
                least = pull;
                best = Some(one);
            }
        }
        best
    }
}
