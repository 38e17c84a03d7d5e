//! The bench gauge, live in the terminal.
//!
//! The same library that runs on the device draws into its frame; [`picture`] puts the frame into
//! characters and [`keys`] makes buttons of the arrow keys. Whatever ends the session (a key, a
//! signal, an error, a panic), the terminal is put back as it was.

pub mod keys;
pub mod picture;

use std::io;
use std::sync::Arc;
use std::sync::atomic::{AtomicUsize, Ordering};
use std::time::{Duration, Instant};

use crossterm::event;
use ratatui::DefaultTerminal;
use ratatui::layout::{Alignment, Rect};
use ratatui::style::{Modifier, Style};
use ratatui::widgets::{Paragraph, Wrap};
use seamwright_firmware::buttons::Event;
use seamwright_firmware::frame::Frame;
use signal_hook::SigId;
use signal_hook::consts::{SIGHUP, SIGINT, SIGTERM};

use keys::Wish;
use picture::Grain;

/// How long the loop waits for a key before it looks at the clock and the signals again.
const BEAT: Duration = Duration::from_millis(40);

const HINT: &str = "arrows: turn and choose   Enter: select   Esc: back   q: quit";

/// What the bench can run: the gauge, or a stand-in for a test of the terminal.
pub trait Instrument {
    /// A thumb on a button.
    fn handle(&mut self, event: Event);
    /// Time passes; milliseconds since the start, wrapping.
    fn tick(&mut self, now_ms: u32);
    /// Draws what it shows now into a dark frame.
    fn draw(&mut self, frame: &mut Frame);
}

/// How a session ended.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Ended {
    /// The user asked.
    Quit,
    /// This signal came.
    Signal(i32),
}

/// Runs `instrument` in the terminal on standard output until the user quits or a signal comes.
/// `colour` allows greys.
///
/// # Errors
/// Whatever the terminal reports; it has been put back as far as it lets.
pub fn run(instrument: &mut dyn Instrument, colour: bool) -> io::Result<Ended> {
    let signals = Signals::watch()?;
    // Also hooks panics, so that the message appears on a terminal that is itself again.
    let mut terminal = ratatui::try_init()?;
    let ended = session(&mut terminal, instrument, &signals, colour);
    let restored = ratatui::try_restore();
    let ended = ended?;
    match ended {
        // The terminal may be gone; its errors are no news then.
        Ended::Signal(_) => Ok(ended),
        Ended::Quit => restored.map(|()| ended),
    }
}

fn session(
    terminal: &mut DefaultTerminal,
    instrument: &mut dyn Instrument,
    signals: &Signals,
    colour: bool,
) -> io::Result<Ended> {
    let start = Instant::now();
    let mut frame = Frame::new();
    loop {
        if let Some(signal) = signals.caught() {
            return Ok(Ended::Signal(signal));
        }
        // Wraps after 49 days, as the gauge's own clock does.
        instrument.tick(start.elapsed().as_millis() as u32);
        frame.wipe();
        instrument.draw(&mut frame);
        terminal.draw(|screen| compose(&frame, screen.area(), screen.buffer_mut(), colour))?;
        let mut wait = BEAT;
        while event::poll(wait)? {
            wait = Duration::ZERO;
            let event::Event::Key(key) = event::read()? else {
                continue;
            };
            match keys::wish(key) {
                Some(Wish::Button(event)) => instrument.handle(event),
                Some(Wish::Quit) => return Ok(Ended::Quit),
                None => {}
            }
        }
    }
}

/// The whole screen: the picture in the middle, a line about the keys below it if there is room.
pub fn compose(frame: &Frame, area: Rect, buffer: &mut ratatui::buffer::Buffer, colour: bool) {
    use ratatui::widgets::Widget;

    let Some(grain) = Grain::fitting(area.width, area.height, colour) else {
        let (wide, high) = Grain::Braille.size();
        let text = format!(
            "The gauge needs {wide} x {high} characters; this terminal has {} x {}. Make the window larger, or press q.",
            area.width, area.height
        );
        Paragraph::new(text)
            .wrap(Wrap { trim: true })
            .render(area, buffer);
        return;
    };
    let (wide, high) = grain.size();
    let left = area.x.saturating_add(area.width.saturating_sub(wide) / 2);
    let spare = area.height.saturating_sub(high);
    let top = area.y.saturating_add(spare / 2);
    grain.draw(frame, Rect::new(left, top, wide, high), buffer);
    if spare > 0 {
        let line = Rect::new(area.x, area.bottom().saturating_sub(1), area.width, 1);
        let below = top.saturating_add(high) <= line.y;
        if below {
            let style = Style::new().add_modifier(Modifier::DIM);
            Paragraph::new(HINT)
                .style(style)
                .alignment(Alignment::Center)
                .render(line, buffer);
        }
    }
}

/// The signals that end a session, noted instead of obeyed while the terminal is ours.
#[derive(Debug)]
struct Signals {
    caught: Arc<AtomicUsize>,
    registered: Vec<SigId>,
}

impl Signals {
    fn watch() -> io::Result<Self> {
        let mut signals = Self {
            caught: Arc::new(AtomicUsize::new(0)),
            registered: Vec::new(),
        };
        for signal in [SIGTERM, SIGHUP, SIGINT] {
            let number = usize::try_from(signal).unwrap_or(0);
            signals.registered.push(signal_hook::flag::register_usize(
                signal,
                Arc::clone(&signals.caught),
                number,
            )?);
        }
        Ok(signals)
    }

    fn caught(&self) -> Option<i32> {
        i32::try_from(self.caught.load(Ordering::SeqCst))
            .ok()
            .filter(|signal| *signal != 0)
    }
}

impl Drop for Signals {
    fn drop(&mut self) {
        for id in self.registered.drain(..) {
            signal_hook::low_level::unregister(id);
        }
    }
}
