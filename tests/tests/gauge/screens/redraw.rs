//! Partial redraw equals full redraw, and what it costs.

use std::convert::Infallible;

use seamwright_firmware::buttons::{Button, Event};
use seamwright_firmware::frame::{FRAME_BYTES, Frame, HEIGHT, ROW_BYTES, Window};
use seamwright_firmware::gauge::Gauge;
use seamwright_firmware::glass::{Cost, Glass, Shown};

use super::demo;
use super::thumb::shown;
use super::walk::{Dice, any_job};

/// Bytes that set a window of an SSD0323: a command and two ends for columns and for rows.
const COMMAND_BYTES: usize = 6;

/// A display's memory, which takes a window's bytes as an SSD0323 does: from its first row and column
/// on, back to its first column at each end of row. At power-on it holds anything.
struct Replay {
    memory: [[u8; ROW_BYTES]; HEIGHT as usize],
}

impl Replay {
    const fn at_power_on() -> Self {
        Self {
            memory: [[0xA5; ROW_BYTES]; HEIGHT as usize],
        }
    }
}

impl Glass for Replay {
    type Error = Infallible;

    const COST: Cost = Cost::new(COMMAND_BYTES as u8, 1, 1);

    fn send(&mut self, frame: &Frame, window: Window) -> Result<usize, Infallible> {
        let bytes: Vec<u8> = frame.bytes_of(window).flatten().copied().collect();
        assert_eq!(bytes.len(), window.bytes(), "a window is sent whole");
        let width = usize::from(window.right() - window.left()) + 1;
        for (row, bytes) in (usize::from(window.top())..).zip(bytes.chunks(width)) {
            let left = usize::from(window.left());
            self.memory[row][left..left + width].copy_from_slice(bytes);
        }
        Ok(bytes.len() + COMMAND_BYTES)
    }
}

#[test]
fn what_is_sent_makes_the_picture_whatever_was_shown_before() {
    for seed in 1..25 {
        let mut dice = Dice::new(seed * 104_729);
        let mut gauge = Gauge::new();
        let (mut sent, mut glass) = (Shown::new(), Replay::at_power_on());
        for step in 0..400 {
            match dice.roll(60) {
                0 => drop(gauge.keep(&any_job(&mut dice))),
                1 if step > 200 => gauge.forget(),
                2 => sent.forget(),
                _ => gauge.handle(dice.event()),
            }
            let frame = shown(&gauge);
            let Ok(cost) = sent.show(&frame, &mut glass);
            assert_eq!(&glass.memory, frame.rows(), "seed {seed}, step {step}");
            assert!(cost.bytes as usize <= FRAME_BYTES + COMMAND_BYTES);
        }
    }
}

/// Other ways to group the same changes, to measure against.
struct Rivals {
    /// Bytes that differ and one command: no grouping can be cheaper.
    least: usize,
    /// One window around everything.
    around: usize,
    /// One window for every run of changed bytes in every row.
    runs: usize,
}

fn rivals(now: &Frame, before: &Frame) -> Rivals {
    let mut changed = Vec::new();
    let mut runs = 0;
    for (y, (now, before)) in now.rows().iter().zip(before.rows()).enumerate() {
        let mut last = None;
        for x in (0..ROW_BYTES).filter(|x| now[*x] != before[*x]) {
            if last.is_none_or(|last| last + 1 != x) {
                runs += COMMAND_BYTES;
            }
            runs += 1;
            last = Some(x);
            changed.push((x, y));
        }
    }
    let span = |pick: fn(&(usize, usize)) -> usize| {
        let low = changed.iter().map(pick).min().unwrap_or(0);
        let high = changed.iter().map(pick).max().unwrap_or(0);
        high - low + 1
    };
    if changed.is_empty() {
        return Rivals {
            least: 0,
            around: 0,
            runs: 0,
        };
    }
    Rivals {
        least: changed.len() + COMMAND_BYTES,
        around: span(|at| at.0) * span(|at| at.1) + COMMAND_BYTES,
        runs,
    }
}

/// The thumb of someone who reads a job from end to end: what each kind of redraw costs.
#[test]
fn grouping_sends_few_bytes() {
    let mut rows = [("turn a page", [0_usize; 5]), ("up or down", [0; 5])];
    for (_, draft) in demo::tanks() {
        let mut gauge = Gauge::new();
        gauge.keep(&draft).expect("room on the shelf");
        let (mut sent, mut glass) = (Shown::new(), Replay::at_power_on());
        let Ok(_) = sent.show(&shown(&gauge), &mut glass);
        let mut act = |gauge: &mut Gauge, button, row: usize| {
            gauge.handle(Event::Press(button));
            let frame = shown(gauge);
            let rivals = rivals(&frame, sent.picture());
            let Ok(cost) = sent.show(&frame, &mut glass);
            let cost = cost.bytes as usize;
            assert!(
                cost <= rivals.around && cost <= rivals.runs,
                "grouping lost to a plain way"
            );
            let sums = &mut rows[row].1;
            for (sum, more) in
                sums.iter_mut()
                    .zip([1, cost, rivals.least, rivals.around, rivals.runs])
            {
                *sum += more;
            }
        };
        act(&mut gauge, Button::Select, 0);
        for _ in 0..6 {
            for button in [Button::Down, Button::Down, Button::Down, Button::Up] {
                act(&mut gauge, button, 1);
            }
            act(&mut gauge, Button::Right, 0);
        }
    }
    println!("bytes a redraw      sent   least  one window  every run");
    let mean = rows.map(|(name, [count, sums @ ..])| {
        let [sent, least, around, runs] = sums.map(|sum| sum / count);
        println!("{name:14} {sent:9} {least:7} {around:11} {runs:10}");
        sent
    });
    // A page turned is a new picture but for its ground; a step changes a figure and a little more.
    let [turn, step] = mean;
    let whole = FRAME_BYTES + COMMAND_BYTES;
    assert!(
        turn < whole * 6 / 10 && step < whole * 2 / 10,
        "{turn} and {step} bytes"
    );
}
