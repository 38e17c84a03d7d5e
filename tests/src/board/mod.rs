//! The emulated boards, driven as hands, eyes and a cable would drive real ones.
//!
//! [`Board::start`] runs the firmware in QEMU's `lm3s6965evb` and waits for its first picture;
//! [`Board::start_full`] does the same with the full gauge in `mps2-an385`. Then:
//! [`press`](Board::press) and [`hold`](Board::hold) work the buttons, [`screen`](Board::screen) looks
//! at the display, [`link`](Board::link) is the cable to a laptop and [`log`](Board::log) what the
//! firmware tells of itself.
//!
//! Nothing here waits for a guessed time. The firmware logs when its button lines have settled, which
//! is after it has acted on a press and redrawn; the harness waits for that line. Every wait has a
//! limit in real time, long enough for a busy machine, and a failure tells what the emulator and the
//! board last said.

mod buttons;
mod failure;
mod front;
mod heat;
mod inbox;
mod log;
mod pair;
mod program;
mod qemu;
mod qmp;
mod screen;
mod serial;
mod talk;

pub use buttons::TAP_MS;
pub use failure::Failure;
pub use heat::{HEAT_INSTRUCTIONS_PER_TICK, HeatBoard, HeatPlan};
pub use log::{Line, Log};
pub use pair::Pair;
pub use program::{Section, lm3s6965_elf, mps2_elf, pico_elf, sections};
pub use qemu::{Machine, Setup};
pub use screen::Screen;
pub use serial::Port;

use std::{
    fs,
    time::{Duration, Instant},
};

use serde_json::{Value, json};

use failure::During as _;
use front::Front;
use qemu::Qemu;
use qmp::Qmp;

/// The longest real time that the board may take to do what is waited for.
const LIMIT: Duration = Duration::from_secs(60);

/// How often a wait looks whether the board is still there to be waited for.
const LOOK: Duration = Duration::from_millis(250);

/// Instructions for each tick of the board's own tick counter, with `shift` 0: the counter runs at
/// 50 MHz of the machine's time, in which an instruction takes 1 ns.
pub const INSTRUCTIONS_PER_TICK: u64 = 20;

/// Of the board with the full gauge an instruction takes 2 to the power of this many nanoseconds: about as
/// fast as the chips that it is meant for, 62.5 million a second.
pub const FULL_SHIFT: u8 = 4;

/// Instructions that so many ticks of the full gauge's counter are: 25 million a second of the machine's
/// time, in which an instruction takes 16 ns.
#[must_use]
pub const fn full_instructions(ticks: u64) -> u64 {
    ticks * 40 / (1 << FULL_SHIFT)
}

/// A running board. Dropping it ends the emulator.
#[derive(Debug)]
pub struct Board {
    /// The serial link that a laptop would use.
    pub link: Port,
    /// What the firmware logs.
    pub log: Log,
    qmp: Qmp,
    qemu: Qemu,
    /// Where the log stood when the firmware last started.
    started: usize,
    held: u8,
    face: Face,
}

/// How a board shows and feels.
#[derive(Debug)]
enum Face {
    /// The emulator has its display and its buttons; this many pictures were taken.
    Own { dumps: u32 },
    /// Over a serial line.
    Line(Front),
}

impl Board {
    /// Starts the firmware whose path `tests/all.sh` gives, and waits for its first picture.
    ///
    /// # Errors
    /// When the path is not given, the emulator does not start, or no picture comes.
    pub fn start() -> Result<Self, Failure> {
        Self::start_with(&Setup {
            machine: Machine::Lm3s6965,
            elf: lm3s6965_elf()?,
            shift: 0,
            sleep: true,
        })
    }

    /// The same with the full gauge.
    ///
    /// # Errors
    /// As for [`start`](Self::start).
    pub fn start_full() -> Result<Self, Failure> {
        Self::start_with(&Setup {
            machine: Machine::Mps2,
            elf: mps2_elf()?,
            shift: FULL_SHIFT,
            sleep: true,
        })
    }

    /// Starts a board as set up, waits for its first picture, and lets go of every button once: until
    /// then the emulated lines read as if all were held.
    ///
    /// # Errors
    /// As for [`start`](Self::start).
    pub fn start_with(setup: &Setup) -> Result<Self, Failure> {
        let elf = fs::read(&setup.elf).during(&format!("reading {}", setup.elf.display()))?;
        let mut qemu = Qemu::start(setup)?;
        let qmp = Qmp::open(qemu.connect("qmp")?)?;
        let link = Port::open(qemu.connect("link")?, LIMIT)?;
        let log = Log::open(qemu.connect("log")?, &elf)?;
        let face = match setup.machine {
            Machine::Lm3s6965 => Face::Own { dumps: 0 },
            Machine::Mps2 => Face::Line(Front::open(qemu.connect("front")?)?),
        };
        let mut board = Self {
            link,
            log,
            qmp,
            qemu,
            started: 0,
            held: 0,
            face,
        };
        board.execute("cont", &json!({}))?;
        board.wait_for_first_picture()?;
        board.let_go_of_all()?;
        Ok(board)
    }

    /// What the display shows now.
    ///
    /// # Errors
    /// When the emulator refuses, or shows something that the display cannot.
    pub fn screen(&mut self) -> Result<Screen, Failure> {
        let Face::Own { dumps } = &mut self.face else {
            return self.last_picture();
        };
        *dumps += 1;
        let path = self.qemu.folder().join(format!("screen-{dumps}.ppm"));
        self.execute("screendump", &json!({ "filename": path }))?;
        let ppm = fs::read(&path).during("reading the screen dump")?;
        fs::remove_file(&path).during("removing the screen dump")?;
        Screen::from_ppm(&ppm)
    }

    /// Resets the chip, as its reset button would: the display keeps its memory, the buttons' lines
    /// fall back to reading as held. Returns after the first picture of the new start.
    ///
    /// # Errors
    /// When the emulator refuses, or no picture comes.
    pub fn reset(&mut self) -> Result<(), Failure> {
        self.started = self.log.mark();
        self.held = 0;
        self.execute("system_reset", &json!({}))?;
        self.wait_for_first_picture()?;
        self.let_go_of_all()
    }

    /// Waits for a log line, counted from `mark` (see [`Log::mark`]), that `wanted` takes.
    ///
    /// # Errors
    /// When none comes in time; tells what the board last said.
    pub fn wait_for_line(
        &mut self,
        mark: usize,
        what: &str,
        wanted: impl Fn(&Line) -> bool,
    ) -> Result<Line, Failure> {
        self.wait(what, |board| board.log.wait_from(mark, LOOK, &wanted))
    }

    /// Asks again and again, each time for about as long as a look takes, until there is an answer, the
    /// board has stopped, or the time is up.
    fn wait<R>(
        &mut self,
        what: &str,
        mut ask: impl FnMut(&mut Self) -> Option<R>,
    ) -> Result<R, Failure> {
        let end = Instant::now() + LIMIT;
        loop {
            // Looked at before asking: what a board says before it stops is still an answer.
            let gone = self.qemu.exit_status().is_some() || self.log.tells_of_stop(self.started);
            if let Some(answer) = ask(self) {
                return Ok(answer);
            }
            if gone {
                let failure = Failure::new(format!("the board stopped; waited for {what}"));
                return Err(self.explain(failure));
            }
            if Instant::now() > end {
                let failure = Failure::new(format!("waited {LIMIT:?} for {what}"));
                return Err(self.explain(failure));
            }
        }
    }

    fn wait_for_first_picture(&mut self) -> Result<(), Failure> {
        let is_it = |line: &Line| line.message.starts_with("first picture");
        self.wait_for_line(self.started, "the first picture", is_it)?;
        Ok(())
    }

    /// What QEMU has written to its standard error: an unknown display command shows here.
    #[must_use]
    pub fn emulator_messages(&self) -> String {
        self.qemu.messages()
    }

    fn execute(&mut self, command: &str, arguments: &Value) -> Result<Value, Failure> {
        let answer = self.qmp.execute(command, arguments);
        answer.map_err(|failure| self.explain(failure))
    }

    /// Adds what is known of the board to a failure.
    pub fn explain(&mut self, failure: Failure) -> Failure {
        let state = match self.qemu.exit_status() {
            Some(status) => format!("the emulator has ended ({status})"),
            None => "the emulator is running".to_owned(),
        };
        failure
            .with_context(&state)
            .with_context(&self.qemu.told())
            .with_context(&self.log.tail())
    }
}
