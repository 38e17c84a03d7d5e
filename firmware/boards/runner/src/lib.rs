//! What every board does in its main loop.
//!
//! A board sets its chip up, implements [`Machine`], and a [`Glass`] and [`Keys`] from the gauge
//! library; then it calls [`Runner::start`] once and [`Runner::step`] for ever. So the loop that the
//! tests drive on the emulated board is the loop of the others too.
#![no_std]

mod contacts;
mod machine;

pub use machine::{Machine, Stack};

use seamwright_firmware::{
    buttons::{Debouncer, Event, Keys},
    frame::Frame,
    gauge::Gauge,
    glass::{Glass, Sent, Shown},
};

use contacts::Contacts;

/// After a display did not answer, it is tried again so much later.
const RETRY_MS: u64 = 1_000;

/// Everything large, so that a board can give it a static place instead of stack.
#[derive(Debug)]
pub struct Memory {
    gauge: Gauge,
    frame: Frame,
    shown: Shown,
}

impl Default for Memory {
    fn default() -> Self {
        Self::new()
    }
}

impl Memory {
    /// An empty gauge and a dark picture.
    #[must_use]
    pub const fn new() -> Self {
        Self {
            gauge: Gauge::new(),
            frame: Frame::new(),
            shown: Shown::new(),
        }
    }
}

/// The gauge at work on one board.
#[derive(Debug)]
pub struct Runner<'a, M> {
    memory: &'a mut Memory,
    machine: M,
    debouncer: Debouncer,
    contacts: Contacts,
    /// When a picture that could not be sent is to be tried again.
    retry_at: Option<u64>,
}

/// What one redraw took, in the machine's ticks.
#[derive(Clone, Copy, Debug, Default)]
struct Redraw {
    draw: u32,
    send: u32,
    sent: Sent,
}

impl<'a, M: Machine> Runner<'a, M> {
    /// Shows the first picture.
    pub fn start(memory: &'a mut Memory, machine: M, glass: &mut impl Glass) -> Self {
        let mut runner = Self {
            memory,
            machine,
            debouncer: Debouncer::new(),
            contacts: Contacts::new(),
            retry_at: None,
        };
        let first = runner.redraw(glass);
        let ticks = runner.machine.ticks();
        let Stack { high_water, size } = runner.machine.stack();
        defmt::info!(
            "first picture: ticks={=u32} draw={=u32} send={=u32} bytes={=u32} stack={=u32} of={=u32}",
            ticks,
            first.draw,
            first.send,
            first.sent.bytes,
            high_water,
            size
        );
        runner
    }

    /// Reads the buttons, acts on them, answers what the link has brought.
    pub fn step(&mut self, keys: &mut impl Keys, glass: &mut impl Glass) {
        let now = self.machine.milliseconds();
        if let Ok(reading) = keys.read() {
            // The debouncer's clock may wrap.
            for event in self.debouncer.poll(now as u32, reading) {
                let begun = self.machine.ticks();
                self.act(event);
                let handled = self.machine.ticks().wrapping_sub(begun);
                let redraw = self.redraw(glass);
                defmt::info!(
                    "{}: handle={=u32} draw={=u32} send={=u32} windows={=u32} bytes={=u32} stack={=u32}",
                    event,
                    handled,
                    redraw.draw,
                    redraw.send,
                    redraw.sent.windows,
                    redraw.sent.bytes,
                    self.machine.stack().high_water
                );
            }
            self.contacts.watch(now, reading);
        }
        if self.retry_at.is_some_and(|at| at <= now) {
            self.redraw(glass);
        }
    }

    // The next two are kept out of their caller, and so out of each other's stack: computing a tank
    // and drawing one both need much, at different times.

    #[inline(never)]
    fn act(&mut self, event: Event) {
        self.memory.gauge.handle(event);
    }

    /// Draws what the gauge shows and sends what is new of it.
    #[inline(never)]
    fn redraw(&mut self, glass: &mut impl Glass) -> Redraw {
        let begun = self.machine.ticks();
        self.memory.frame.wipe();
        // A frame takes every pixel; what runs into what, the gauge logs itself.
        let Ok(_) = self.memory.gauge.draw(&mut self.memory.frame);
        let drawn = self.machine.ticks();
        let sent = match self.memory.shown.show(&self.memory.frame, glass) {
            Ok(sent) => {
                self.retry_at = None;
                sent
            }
            Err(_) => {
                if self.retry_at.is_none() {
                    defmt::warn!("the display does not answer");
                }
                // It may have lost power: its memory is no longer known.
                self.memory.shown.forget();
                self.retry_at = Some(self.machine.milliseconds().saturating_add(RETRY_MS));
                Sent::default()
            }
        };
        let send = self.machine.ticks().wrapping_sub(drawn);
        Redraw {
            draw: drawn.wrapping_sub(begun),
            send,
            sent,
        }
    }
}
