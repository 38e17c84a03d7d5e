//! The planner alone on the emulated chip, and other programs to try or measure one thing: a job goes in over the serial
//! line, lines of text come out.

use std::{
    env,
    io::{BufRead as _, BufReader, Write as _},
    path::PathBuf,
    process::{Child, ChildStdin, ChildStdout, Command, Stdio},
    sync::mpsc,
    thread,
    time::Duration,
};

use seamwright_core::input::Draft;
use seamwright_core::wire::{Request, encode};

use super::failure::{During as _, Failure};

/// Instructions for each tick: the board's clock of 25 MHz ticks every 40 ns, and with `shift` 0 an instruction takes
/// 1 ns.
pub const HEAT_INSTRUCTIONS_PER_TICK: u64 = 40;

/// The longest real time between two lines.
const LIMIT: Duration = Duration::from_secs(300);

/// The chip with the planner's program.
#[derive(Debug)]
pub struct HeatBoard {
    child: Child,
    to: ChildStdin,
    from: mpsc::Receiver<String>,
}

/// What the planner told of one job.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct HeatPlan {
    /// The figures of its lines, by their names.
    pub figures: Vec<(String, String)>,
    /// Its stitches: place of the seam, and the bits of from, to, start, wait and temperature at the start, in SI units.
    pub stitches: Vec<String>,
}

impl HeatPlan {
    /// A figure by its name.
    #[must_use]
    pub fn figure(&self, name: &str) -> Option<&str> {
        let found = self.figures.iter().find(|(own, _)| own == name);
        found.map(|(_, value)| value.as_str())
    }
}

impl HeatBoard {
    /// Starts the planner, whose path `tests/all.sh` gives.
    ///
    /// # Errors
    /// When the path is not given or the emulator does not start.
    pub fn start() -> Result<Self, Failure> {
        Self::start_of("SEAMWRIGHT_HEAT_ELF")
    }

    /// Starts the program that measures pages.
    ///
    /// # Errors
    /// As [`HeatBoard::start`].
    pub fn start_pages() -> Result<Self, Failure> {
        Self::start_of("SEAMWRIGHT_PAGES_ELF")
    }

    /// Starts the program that tries doubles.
    ///
    /// # Errors
    /// As [`HeatBoard::start`].
    pub fn start_doubles() -> Result<Self, Failure> {
        Self::start_of("SEAMWRIGHT_DOUBLES_ELF")
    }

    fn start_of(variable: &str) -> Result<Self, Failure> {
        let elf = env::var_os(variable).map(PathBuf::from).ok_or_else(|| {
            Failure::new(format!(
                "{variable} is not set: run tests/all.sh, which builds it"
            ))
        })?;
        let mut child = Command::new("qemu-system-arm")
            .args(["-M", "mps2-an385", "-display", "none", "-monitor", "none"])
            .args(["-icount", "shift=0", "-serial", "stdio", "-kernel"])
            .arg(elf)
            .stdin(Stdio::piped())
            .stdout(Stdio::piped())
            .stderr(Stdio::null())
            .spawn()
            .during("starting qemu-system-arm")?;
        let none = || Failure::new("the emulator has no serial line");
        let to = child.stdin.take().ok_or_else(none)?;
        let out: ChildStdout = child.stdout.take().ok_or_else(none)?;
        let (send, from) = mpsc::channel();
        thread::spawn(move || {
            for line in BufReader::new(out).lines().map_while(Result::ok) {
                if send.send(line).is_err() {
                    break;
                }
            }
        });
        let mut board = Self { child, to, from };
        board.line()?;
        Ok(board)
    }

    fn line(&mut self) -> Result<String, Failure> {
        self.from
            .recv_timeout(LIMIT)
            .map_err(|_| Failure::new("the planner on the board said nothing more"))
    }

    /// Sends a job to be worked on.
    fn ask(&mut self, draft: Draft) -> Result<(), Failure> {
        let frame = encode(&Request::Compute(draft))
            .map_err(|fault| Failure::new(format!("the job does not fit a frame: {fault}")))?;
        self.to.write_all(&frame).during("sending the job")?;
        self.to.flush().during("sending the job")
    }

    /// Has the pages of a job measured.
    ///
    /// # Errors
    /// When the board refuses it, stops or says nothing in time.
    pub fn pages(&mut self, draft: Draft) -> Result<HeatPlan, Failure> {
        self.ask(draft)?;
        let line = self.line()?;
        let figures = line
            .strip_prefix("pages: ")
            .ok_or_else(|| Failure::new(format!("the board says: {line}")))?;
        let pairs = figures
            .split_whitespace()
            .filter_map(|pair| pair.split_once('='));
        Ok(HeatPlan {
            figures: pairs
                .map(|(name, value)| (name.to_owned(), value.to_owned()))
                .collect(),
            stitches: Vec::new(),
        })
    }

    /// Has doubles added, subtracted and multiplied: a line for each kind of pairs, then the ticks that each of the
    /// three took.
    ///
    /// # Errors
    /// When the board stops or says nothing in time.
    pub fn doubles(&mut self) -> Result<(Vec<String>, Vec<u64>), Failure> {
        self.to.write_all(b"\n").during("asking for doubles")?;
        self.to.flush().during("asking for doubles")?;
        let mut kinds = Vec::new();
        loop {
            let line = self.line()?;
            match line.strip_prefix("ticks ") {
                None => kinds.push(line),
                Some(ticks) => {
                    let ticks = ticks.split_whitespace().map(str::parse);
                    return match ticks.collect() {
                        Ok(ticks) => Ok((kinds, ticks)),
                        Err(_) => Err(Failure::new(format!("the board says: {line}"))),
                    };
                }
            }
        }
    }

    /// Has a job planned.
    ///
    /// # Errors
    /// When the board refuses it, stops or says nothing in time.
    pub fn plan(&mut self, draft: Draft) -> Result<HeatPlan, Failure> {
        self.ask(draft)?;
        let mut plan = HeatPlan::default();
        loop {
            let line = self.line()?;
            if let Some(stitch) = line.strip_prefix("stitch ") {
                plan.stitches.push(stitch.to_owned());
                continue;
            }
            let Some((what, figures)) = line.split_once(": ") else {
                return Err(Failure::new(format!("the board says: {line}")));
            };
            let pairs = figures
                .split_whitespace()
                .filter_map(|pair| pair.split_once('='));
            plan.figures
                .extend(pairs.map(|(name, value)| (format!("{what} {name}"), value.to_owned())));
            match what {
                "first look" | "laid out" => {}
                "planned" => return Ok(plan),
                _ => return Err(Failure::new(format!("the board says: {line}"))),
            }
        }
    }
}

impl Drop for HeatBoard {
    fn drop(&mut self) {
        // It runs for ever otherwise; should it be gone already, so much the better.
        let _ = self.child.kill();
        let _ = self.child.wait();
    }
}
