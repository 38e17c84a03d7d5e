//! The bench gauge, live in the terminal.
//!
//! The same library that runs on the device draws into its frame; [`picture`] puts the frame into
//! characters and [`keys`] makes buttons of the arrow keys. Whatever ends the session (a key, a
//! signal, an error, a panic), the terminal is put back as it was.

mod keyboard;
pub mod keys;
pub mod picture;
mod shelf;
mod signals;

pub use picture::compose;
pub use shelf::stocked;

use std::io::{self, IsTerminal};
use std::process::ExitCode;
use std::thread;
use std::time::{Duration, Instant};

use ratatui::DefaultTerminal;
use seamwright_core::input::Draft;
use seamwright_firmware::buttons::Event;
use seamwright_firmware::frame::Frame;

use crate::failure::Failure;
use keyboard::Keyboard;
use keys::Wish;
use signals::Signals;

/// How long the loop waits for a key before it looks for signals and a changed size again.
const BEAT: Duration = Duration::from_millis(40);

/// What the bench can run: the gauge, or a stand-in for a test of the terminal.
pub trait Instrument {
    /// A thumb on a button.
    fn handle(&mut self, event: Event);
    /// Draws what it shows now into a dark frame.
    fn draw(&mut self, frame: &mut Frame);
    /// Takes in a clock of milliseconds that goes on.
    fn tick(&mut self, _: u64) {}
    /// Thinks for a moment while no key comes, and tells whether there is more to think about.
    fn think(&mut self) -> bool {
        false
    }
}

/// How a session ended.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Ended {
    /// The user asked.
    Quit,
    /// This signal came.
    Signal(i32),
}

impl Ended {
    /// The exit status that tells of it: 0, or 128 and the signal's number, as shells count.
    #[must_use]
    pub fn status(self) -> u8 {
        match self {
            Self::Quit => 0,
            Self::Signal(signal) => u8::try_from(signal).unwrap_or(0).saturating_add(128),
        }
    }
}

/// Runs the gauge with these jobs on its shelf, each with the path it was read from. `colour` allows
/// greys. The exit status is that of [`Ended::status`].
///
/// # Errors
/// Bad input: no terminal to run in, or jobs that the shelf does not take (see [`stocked`]). Anything
/// else: the terminal failed.
pub fn command(drafts: Vec<(String, Draft)>, colour: bool) -> Result<ExitCode, Failure> {
    let mut gauge = stocked(drafts)?;
    if !io::stdout().is_terminal() {
        return Err(Failure::input(
            "the bench draws on a terminal, and standard output is none",
            "run it without > or |; `seamwright shots` draws the screens into files",
        ));
    }
    if !io::stdin().is_terminal() {
        return Err(Failure::input(
            "the bench takes its keys from a terminal, and standard input is none",
            "run it without < or |, and give job files by their paths",
        ));
    }
    match run(&mut gauge, colour) {
        Ok(ended) => Ok(ExitCode::from(ended.status())),
        Err(error) => Err(Failure::other(
            format!("the terminal failed: {error}"),
            "try another terminal window",
        )),
    }
}

/// Runs `instrument` in the terminal on standard output until the user quits or a signal comes.
/// `colour` allows greys.
///
/// # Errors
/// Whatever the terminal reports; it has been put back as far as it lets.
pub fn run(instrument: &mut dyn Instrument, colour: bool) -> io::Result<Ended> {
    let signals = Signals::watch()?;
    // Also hooks panics, so that the message appears on a terminal that is itself again.
    let mut terminal = ratatui::try_init().inspect_err(|_| {
        // It may have got half-way. The first error is the one to tell.
        let _ = ratatui::try_restore();
    })?;
    let ended = session(&mut terminal, instrument, &signals, colour);
    let restored = ratatui::try_restore().and_then(|()| terminal.show_cursor());
    if restored.is_err() {
        // Dropping it would try once more, and panic where standard error is that terminal too.
        std::mem::forget(terminal);
    }
    match ended {
        // The terminal may be gone; its errors are no news then.
        Ok(Ended::Signal(signal)) => Ok(Ended::Signal(signal)),
        Ok(Ended::Quit) => restored.map(|()| Ended::Quit),
        Err(error) => {
            // A terminal that goes away fails and sends a signal, in either order.
            thread::sleep(BEAT);
            signals.caught().map(Ended::Signal).ok_or(error)
        }
    }
}

fn session(
    terminal: &mut DefaultTerminal,
    instrument: &mut dyn Instrument,
    signals: &Signals,
    colour: bool,
) -> io::Result<Ended> {
    let keyboard = Keyboard::open()?;
    let mut frame = Frame::new();
    let begun = Instant::now();
    loop {
        // Drawn anew at every beat, whether it asks for that or not.
        instrument.tick(u64::try_from(begun.elapsed().as_millis()).unwrap_or(u64::MAX));
        frame.wipe();
        instrument.draw(&mut frame);
        terminal.draw(|screen| compose(&frame, screen.area(), screen.buffer_mut(), colour))?;
        let wait = if instrument.think() {
            Duration::ZERO
        } else {
            BEAT
        };
        let mut next = keyboard.next(wait)?;
        if let Some(signal) = signals.caught() {
            return Ok(Ended::Signal(signal));
        }
        // All keys that have come, before the next picture.
        while let Some(key) = next {
            match keys::wish(key) {
                Some(Wish::Button(event)) => instrument.handle(event),
                Some(Wish::Quit) => {
                    keyboard.close();
                    return Ok(Ended::Quit);
                }
                None => {}
            }
            next = keyboard.next(Duration::ZERO)?;
        }
    }
}
