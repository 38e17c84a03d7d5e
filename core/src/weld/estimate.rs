//! What an order takes, estimated from what each of its stitches does to the metal.

use heapless::Vec;

use super::laid::{Directed, LaidStitch};
use super::planner::Planner;
use super::procedure::Procedure;
use super::response::{AGES, YOUNGEST, age, row};
use super::simulation::Record;
use crate::arc::duty::PERIOD;
use crate::tank::Tank;

/// Bits of a float below the two that part a doubling in four.
const BELOW: u32 = 21;
/// Rates of loss that are tried beside that of a lone stitch's heat, as far below it as a quarter of them, in 1/s.
const FADING: f32 = 5e-5;
/// How many of them.
const FADINGS: usize = 80;
/// The share of what was amiss in a simulation that is believed.
const BELIEVED: f32 = 0.7;
/// The shortest wait, in s.
const SHORTEST: f32 = 2.0;
/// The longest time between two looks at metal that cools, in s.
const LONGEST: f32 = 240.0;
/// Most looks in a wait.
const LOOKS: u8 = 60;

/// A stitch that is welded.
#[derive(Clone, Copy, Debug)]
pub(super) struct Done {
    /// Where its row of the table begins.
    row: usize,
    /// When its arc was lit, from the first arc of the job, in s.
    lit: f32,
    /// When it went out.
    out: f32,
    /// How long was waited for it, in s.
    pub(super) wait: f32,
}

/// What is welded so far, in order.
pub(super) type Course<const STITCHES: usize> = Vec<Done, STITCHES>;

/// What each stitch does, as it was computed.
#[derive(Clone, Copy, Debug)]
pub(super) struct Responses<'a> {
    /// A row for each stitch: for each stitch, for each age, how warm it makes its two ends, in K.
    pub(super) table: &'a [f32],
    /// The rate at which heat that is older than the last age is lost, in 1/s.
    pub(super) decay: f32,
}

/// Judges orders.
#[derive(Debug)]
pub(super) struct Estimate<'a, const STITCHES: usize> {
    responses: Responses<'a>,
    /// The stitches by their numbers.
    pub(super) stitches: Vec<LaidStitch, STITCHES>,
    procedure: Procedure,
    /// How long each stitch's arc burns, in s.
    arcs: Vec<f32, STITCHES>,
    /// By what the figures of an age and of the next are multiplied: what simulated orders taught.
    believed: [[f32; 2]; AGES],
    decay: f32,
    /// By how much it was out the last time, in K: the root of the mean square.
    error: f32,
    /// How much warmer than estimated the two ends of each stitch were in simulations, in K.
    amiss: Vec<[f32; 2], STITCHES>,
}

impl<'a, const STITCHES: usize> Estimate<'a, STITCHES> {
    /// By a table that was filled for the tank that `planner` has laid out.
    pub(super) fn new(
        tank: &Tank,
        planner: &mut Planner<STITCHES>,
        responses: Responses<'a>,
    ) -> Self {
        let (workspace, procedure) = planner.laid_out();
        let mut arcs = Vec::new();
        let mut amiss = Vec::new();
        for stitch in &workspace.stitches {
            let edge = tank.edge_of_seam(usize::from(stitch.seam));
            let length = edge.map_or(0.0, |edge| stitch.lies(edge.length().si()).1);
            // One for each stitch.
            let _ = arcs.push((length / procedure.travel) as f32);
            let _ = amiss.push([0.0; 2]);
        }
        Self {
            responses,
            stitches: workspace.stitches.clone(),
            procedure: *procedure,
            arcs,
            believed: [[1.0; 2]; AGES],
            decay: responses.decay,
            error: 0.0,
            amiss,
        }
    }

    fn arc(&self, directed: Directed) -> f32 {
        self.arcs.get(directed.place()).copied().unwrap_or_default()
    }

    /// The time of the arcs and moves of stitches, in s.
    pub(super) fn least(&self, order: &[Directed]) -> f32 {
        let moving = self.procedure.moving as f32;
        order.iter().map(|one| self.arc(*one) + moving).sum()
    }

    /// How warm the two ends of a stitch are at a time, in K over the surroundings.
    fn warmths(&self, done: &[Done], stitch: usize, now: f32) -> [f32; 2] {
        let across = 2 * AGES * stitch;
        let [mut ahead, mut back] = self.amiss.get(stitch).copied().unwrap_or_default();
        for Done { row, out, .. } in done {
            let seconds = now - out;
            let (number, part, left) = place(seconds, self.decay);
            let from = row + across + 2 * number;
            let four = self.responses.table.get(from..from + 4);
            let (Some(&[a, b, c, d]), Some([here, next])) = (four, self.believed.get(number))
            else {
                continue;
            };
            let [here, next] = [left * (1.0 - part) * here, left * part * next];
            ahead += here * a + next * c;
            back += here * b + next * d;
        }
        [ahead, back]
    }

    /// Judges an order from its place `from` on, where `course` has what comes before: sets the directions of its
    /// stitches, as the plan's own choice does, and the course; gives the time that it takes, in s, or where that is past
    /// `most`, some time past it.
    pub(super) fn judge(
        &self,
        order: &mut [Directed],
        from: usize,
        most: f32,
        course: &mut Course<STITCHES>,
    ) -> f32 {
        // Cooler by what the estimate may be out: near the end metal cools by a kelvin in minutes.
        let limit = self.procedure.limit as f32 - self.error;
        let moving = self.procedure.moving as f32;
        let wide = row(self.stitches.len());
        course.truncate(from);
        let mut clock = course.last().map_or(-moving, |done| done.out);
        let mut rest = self.least(order.get(from..).unwrap_or_default());
        for at in from..order.len() {
            let Some((before, [one, ..])) = order.split_at_mut_checked(at) else {
                break;
            };
            let Some(stitch) = self.stitches.get(one.place()) else {
                continue;
            };
            let arc = self.arc(*one);
            let soonest = clock + moving;
            let mut now = soonest;
            let [ahead, back] = self.warmths(course, one.place(), now);
            let reversed = self.forced(*one, stitch, before).unwrap_or(back < ahead);
            *one = Directed::new(one.stitch(), reversed);
            let mut warmth = if reversed { back } else { ahead };
            let mut ahead = 2.0 * SHORTEST;
            let mut looks = 0;
            while warmth > limit && looks < LOOKS {
                looks += 1;
                let [first, second] = self.warmths(course, one.place(), now + ahead);
                let next = if reversed { second } else { first };
                now += ahead;
                let fallen = warmth - next;
                if next <= limit {
                    now -= ahead * (limit - next) / fallen;
                    break;
                }
                ahead = if fallen > 0.0 {
                    (ahead * (next - limit) / fallen).clamp(SHORTEST, LONGEST)
                } else {
                    2.0 * ahead
                };
                warmth = next;
            }
            if let Some(share) = self.procedure.arc_share {
                now = rested(course, now, arc, share as f32 * PERIOD.si() as f32);
            }
            rest -= arc + moving;
            clock = now + arc;
            // One for each stitch.
            let _ = course.push(Done {
                row: one.place() * wide,
                lit: now,
                out: clock,
                wait: now - soonest,
            });
            if clock + rest > most {
                return clock + rest;
            }
        }
        clock
    }

    /// Whether a stitch is to be welded backwards, where that does not hang on warmth: towards a neighbour that is welded
    /// before where the job asks for that, and else away from a corner.
    fn forced(&self, one: Directed, stitch: &LaidStitch, before: &[Directed]) -> Option<bool> {
        if self.procedure.back_step {
            let [after, earlier] = [one.stitch().checked_add(1), one.stitch().checked_sub(1)]
                .map(|other| {
                    let place = usize::from(other?);
                    let other = self.stitches.get(place)?;
                    let welded = || before.iter().any(|welded| welded.place() == place);
                    Some(other.seam == stitch.seam && welded())
                })
                .map(Option::unwrap_or_default);
            if earlier != after {
                return Some(earlier);
            }
        }
        match [false, true].map(|reversed| stitch.is_corner(reversed)) {
            [true, false] => Some(true),
            [false, true] => Some(false),
            _ => None,
        }
    }

    /// Learns from an order that was simulated: how much more or less of the heat is there, how much faster the whole
    /// loses it than one stitch alone, and how warm each place was beside that.
    pub(super) fn learn(&mut self, records: &[Record]) {
        let wide = row(self.stitches.len());
        let mut course = Course::<STITCHES>::new();
        let mut sums = [[0.0_f32; 2]; FADINGS];
        let fading = |number: usize| FADING * (number as f32 - (FADINGS / 4) as f32);
        let mut all = 0.0;
        for record in records {
            let mut guessed = [0.0_f32; FADINGS];
            let end = usize::from(record.directed.reversed());
            for Done { row, out, .. } in &course {
                let seconds = record.start - out;
                let (number, part, left) = place(seconds, self.responses.decay);
                let from = row + 2 * (AGES * record.directed.place() + number) + end;
                let three = self.responses.table.get(from..from + 3);
                let Some(&[a, _, c]) = three else { continue };
                let warmth = left * (a + part * (c - a));
                for (number, sum) in guessed.iter_mut().enumerate() {
                    *sum += warmth * faded(fading(number) * seconds);
                }
            }
            for ([with, own], guess) in sums.iter_mut().zip(guessed) {
                *with += guess * record.warmth;
                *own += guess * guess;
            }
            all += record.warmth * record.warmth;
            let arc = self.arc(record.directed);
            // One for each stitch.
            let _ = course.push(Done {
                row: record.directed.place() * wide,
                lit: record.start,
                out: record.start + arc,
                wait: 0.0,
            });
        }
        let mut least = f32::INFINITY;
        let mut found = (1.0, 0.0);
        for (number, [with, own]) in sums.into_iter().enumerate() {
            let gain = if own > 0.0 { with / own } else { 1.0 };
            let error = all - gain * with;
            if error < least {
                least = error;
                found = (gain, fading(number));
            }
        }
        let (gain, fading) = found;
        let at = |number: usize| gain * faded(fading * age(number));
        for (number, both) in self.believed.iter_mut().enumerate() {
            *both = [at(number), at(number + 1)];
        }
        self.decay = self.responses.decay + fading;
        let mut squares = 0.0;
        for (at, record) in records.iter().enumerate() {
            let place = record.directed.place();
            let before = course.get(..at).unwrap_or_default();
            let guessed = self.warmths(before, place, record.start);
            let end = usize::from(record.directed.reversed());
            let amiss = self.amiss.get_mut(place).and_then(|both| both.get_mut(end));
            if let (Some(slot), Some(guess)) = (amiss, guessed.get(end)) {
                let error = record.warmth - guess;
                *slot += BELIEVED * error;
                squares += error * error;
            }
        }
        self.error = libm::sqrtf(squares / records.len().max(1) as f32);
    }
}

/// When an arc of `arc` seconds may be lit, from `now` on, where the arc may burn for so much of any ten minutes; as
/// [`RecentArcs`](super::rest::RecentArcs) has it.
fn rested(course: &[Done], now: f32, arc: f32, allowed: f32) -> f32 {
    let mut now = now;
    loop {
        let from = now + arc - PERIOD.si() as f32;
        let late = course.iter().rev().take_while(|done| done.out > from);
        let burnt: f32 = late
            .map(|done| done.out - if done.lit > from { done.lit } else { from })
            .sum();
        let over = burnt + arc - allowed;
        if !(burnt > 0.0) || over <= 0.1 {
            return now;
        }
        // No less than that must pass: a second takes away a second of arc at most.
        now += over;
    }
}

/// What is left after `x` times the time in which a share 1/e is.
fn faded(x: f32) -> f32 {
    1.0 / (1.0 + x + 0.5 * x * x)
}

/// Between which ages so many seconds lie, how far from the one to the next, and what of the heat is left since the last.
#[inline]
fn place(seconds: f32, decay: f32) -> (usize, f32, f32) {
    const LAST: usize = AGES - 1;
    let ratio = seconds * (1.0 / YOUNGEST);
    // Ages go by quarters of doublings, as floats do by their bits.
    let bits = if ratio > 1.0 { ratio } else { 1.0 }.to_bits();
    let number = ((bits >> BELOW) - (1.0_f32.to_bits() >> BELOW)) as usize;
    if number < LAST {
        let part = (bits & ((1 << BELOW) - 1)) as f32 * (1.0 / (1_u32 << BELOW) as f32);
        (number, part, 1.0)
    } else {
        // e to that, to the eighth part and back.
        let eighth = 1.0 + 0.125 * decay * (seconds - age(LAST));
        let quarter = eighth * eighth;
        let half = quarter * quarter;
        (LAST - 1, 1.0, 1.0 / (half * half))
    }
}
