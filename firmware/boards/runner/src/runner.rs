//! The loop itself.

use seamwright_core::wire::Status;
use seamwright_firmware::{
    buttons::Event,
    glass::{Glass, Sent},
    link::Answer,
    page::Kind,
};

use crate::{Hand, Machine, Memory, Stack, contacts::Contacts};

/// After a display did not answer, it is tried again so much later.
const RETRY_MS: u64 = 1_000;

/// The gauge at work on one board.
#[derive(Debug)]
pub struct Runner<'a, K: Kind, M> {
    memory: &'a mut Memory<K>,
    machine: M,
    contacts: Contacts,
    status: Status,
    /// When a picture that could not be sent is to be tried again.
    retry_at: Option<u64>,
    thoughts: Thoughts,
}

/// What thinking took since that was told last, in the machine's ticks.
#[derive(Clone, Copy, Debug, Default)]
struct Thoughts {
    all: u32,
    longest: u32,
}

/// What one redraw took, in the machine's ticks.
#[derive(Clone, Copy, Debug, Default)]
struct Redraw {
    draw: u32,
    send: u32,
    sent: Sent,
}

impl<'a, K: Kind, M: Machine> Runner<'a, K, M> {
    /// Shows the first picture.
    pub fn start(memory: &'a mut Memory<K>, machine: M, glass: &mut impl Glass) -> Self {
        let mut runner = Self {
            memory,
            machine,
            contacts: Contacts::new(),
            status: Status::default(),
            retry_at: None,
            thoughts: Thoughts::default(),
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

    /// Reads the buttons, acts on them, answers what the link has brought, thinks for a moment. Tells
    /// whether there is more to think about, so that the board does not sleep.
    pub fn step(&mut self, hand: &mut impl Hand, glass: &mut impl Glass) -> bool {
        let now = self.machine.milliseconds();
        if let Some(look) = hand.look(now) {
            for (event, at) in look.events {
                self.act(event, at, glass);
            }
            self.contacts.watch(now, look.reading);
        }
        while let Some(byte) = self.machine.receive() {
            self.take(byte, glass);
        }
        if self.memory.gauge.has_thoughts() {
            self.think(glass);
        }
        let working = self.memory.gauge.is_working();
        if self.memory.gauge.tick(now) || self.retry_at.is_some_and(|at| at <= now) {
            self.redraw(glass);
        }
        if working && !self.memory.gauge.is_working() {
            defmt::info!("worked out: at={=u32}", self.machine.ticks());
        }
        self.memory.gauge.has_thoughts() || self.memory.gauge.is_working()
    }

    #[inline(never)]
    fn think(&mut self, glass: &mut impl Glass) {
        let begun = self.machine.ticks();
        let thought = self.memory.gauge.think();
        let took = self.machine.ticks().wrapping_sub(begun);
        self.thoughts.all = self.thoughts.all.wrapping_add(took);
        self.thoughts.longest = self.thoughts.longest.max(took);
        if thought {
            let redraw = self.redraw(glass);
            defmt::info!(
                "thought: at={=u32} draw={=u32} send={=u32} shown={=u32} thinking={=u32} longest={=u32} stack={=u32}",
                self.machine.ticks(),
                redraw.draw,
                redraw.send,
                self.status.display_bytes,
                self.thoughts.all,
                self.thoughts.longest,
                self.machine.stack().high_water
            );
            self.thoughts = Thoughts::default();
        }
    }

    // Out of line, as is what follows: what one of them needs of the stack the others need not carry.
    #[inline(never)]
    fn act(&mut self, event: Event, at: u32, glass: &mut impl Glass) {
        let late = (self.machine.milliseconds() as u32).wrapping_sub(at);
        let begun = self.machine.ticks();
        self.handle(event);
        let handled = self.machine.ticks().wrapping_sub(begun);
        let redraw = self.redraw(glass);
        self.status.events = self.status.events.wrapping_add(1);
        self.status.last_redraw_ticks = self.machine.ticks().wrapping_sub(begun);
        defmt::info!(
            "{}: at={=u32} late={=u32} handle={=u32} draw={=u32} send={=u32} windows={=u32} bytes={=u32} stack={=u32}",
            event,
            begun,
            late,
            handled,
            redraw.draw,
            redraw.send,
            redraw.sent.windows,
            redraw.sent.bytes,
            self.machine.stack().high_water
        );
    }

    /// Takes a byte from the link. A request is answered once the display shows what it changed.
    #[inline(never)]
    fn take(&mut self, byte: u8, glass: &mut impl Glass) {
        if byte == 0 {
            // A request may be complete, and it may ask for these.
            let Stack { high_water, size } = self.machine.stack();
            self.status.stack_high_water = high_water;
            self.status.stack_size = size;
            self.status.link_lost = self.machine.link_lost();
        }
        let begun = self.machine.ticks();
        let Some(answer) = self.answer(byte) else {
            return;
        };
        if answer.computed {
            self.status.last_compute_ticks = self.machine.ticks().wrapping_sub(begun);
        }
        self.redraw(glass);
        self.machine.send(self.memory.link.frame());
    }

    // Computing a tank and drawing one both need much, at different times.

    #[inline(never)]
    fn handle(&mut self, event: Event) {
        self.memory.gauge.handle(event);
    }

    #[inline(never)]
    fn answer(&mut self, byte: u8) -> Option<Answer> {
        self.memory
            .link
            .take(byte, &mut self.memory.gauge, &self.status)
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
                self.count(sent);
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

    fn count(&mut self, sent: Sent) {
        if sent.bytes > 0 {
            self.status.redraws = self.status.redraws.wrapping_add(1);
            self.status.last_redraw_bytes = sent.bytes;
            self.status.display_bytes = self.status.display_bytes.wrapping_add(sent.bytes);
        }
    }
}
