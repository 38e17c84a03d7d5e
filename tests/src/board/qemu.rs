//! The emulator as a child process: started with sockets of its own, killed when dropped.

use std::{
    fs::{self, File},
    os::unix::net::UnixStream,
    path::{Path, PathBuf},
    process::{Child, Command, Stdio},
    thread,
    time::{Duration, Instant},
};

use tempfile::TempDir;

use super::failure::{During as _, Failure};

/// The longest that QEMU may take to open its sockets.
const START_LIMIT: Duration = Duration::from_secs(20);

/// What the emulator can be.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Machine {
    /// The LM3S6965 evaluation board, with a display and buttons of its own.
    Lm3s6965,
    /// Arm's MPS2 board with the AN385 image; display and buttons are at the end of a serial line.
    Mps2,
}

impl Machine {
    /// QEMU's name for it, and its serial lines.
    const fn of(self) -> (&'static str, &'static [&'static str]) {
        match self {
            Self::Lm3s6965 => ("lm3s6965evb", &["link", "log"]),
            Self::Mps2 => ("mps2-an385", &["link", "front", "log"]),
        }
    }
}

/// How the emulated machine is to be run.
#[derive(Clone, Debug)]
pub struct Setup {
    /// Which it is.
    pub machine: Machine,
    /// The program in its flash.
    pub elf: PathBuf,
    /// An instruction takes 2 to the power of this many nanoseconds of the machine's time.
    pub shift: u8,
    /// Whether the machine waits in real time while its core sleeps. Without, its time leaps ahead,
    /// and a key held for a moment may be held for minutes.
    pub sleep: bool,
}

/// A running emulator, not yet told to execute anything.
#[derive(Debug)]
pub(super) struct Qemu {
    child: Child,
    folder: TempDir,
}

impl Qemu {
    /// Starts the machine, stopped before its first instruction.
    pub(super) fn start(setup: &Setup) -> Result<Self, Failure> {
        // A unix socket's path may have about 100 bytes, so the folder's name is short.
        let folder =
            TempDir::with_prefix("sw-").during("making a folder for the emulator's sockets")?;
        let errors = File::create(folder.path().join("stderr"))
            .during("making a file for the emulator's messages")?;
        let socket = |name: &str| {
            format!(
                "unix:{},server=on,wait=off",
                folder.path().join(name).display()
            )
        };
        let sleep = if setup.sleep { "on" } else { "off" };

        let (name, lines) = setup.machine.of();
        let mut command = Command::new("qemu-system-arm");
        command
            .args([
                "-machine", name, "-display", "none", "-monitor", "none", "-S",
            ])
            .arg("-kernel")
            .arg(&setup.elf)
            .args(["-icount", &format!("shift={},sleep={sleep}", setup.shift)])
            .args(["-qmp", &socket("qmp")])
            .args(
                lines
                    .iter()
                    .flat_map(|line| ["-serial".to_owned(), socket(line)]),
            )
            .stdin(Stdio::null())
            .stdout(Stdio::null())
            .stderr(errors);
        let child = command
            .spawn()
            .during("starting qemu-system-arm (tests/all.sh installs it)")?;
        Ok(Self { child, folder })
    }

    /// Connects to one of the machine's sockets, waiting until it is there.
    pub(super) fn connect(&mut self, name: &str) -> Result<UnixStream, Failure> {
        let path = self.folder.path().join(name);
        let end = Instant::now() + START_LIMIT;
        loop {
            let error = match UnixStream::connect(&path) {
                Ok(stream) => return Ok(stream),
                Err(error) => error,
            };
            if let Some(status) = self.exit_status() {
                let failure = Failure::new(format!("the emulator ended at once ({status})"));
                return Err(failure.with_context(&self.told()));
            }
            if Instant::now() > end {
                let failure = Failure::new(format!(
                    "the emulator's socket {name} did not open: {error}"
                ));
                return Err(failure.with_context(&self.told()));
            }
            thread::sleep(Duration::from_millis(5));
        }
    }

    /// A folder that lives as long as the machine.
    pub(super) fn folder(&self) -> &Path {
        self.folder.path()
    }

    /// What QEMU wrote to its standard error.
    ///
    /// It says "Timer with period zero, disabling" at every start of the LM3S6965; that is harmless.
    pub(super) fn messages(&self) -> String {
        fs::read_to_string(self.folder.path().join("stderr")).unwrap_or_default()
    }

    /// The same, to tell what happened.
    pub(super) fn told(&self) -> String {
        format!("emulator's messages:\n{}", self.messages())
    }

    /// How the process ended, if it has.
    pub(super) fn exit_status(&mut self) -> Option<String> {
        self.child
            .try_wait()
            .ok()
            .flatten()
            .map(|status| status.to_string())
    }
}

impl Drop for Qemu {
    fn drop(&mut self) {
        // Nothing useful can be done about a failure here; a process that is gone already is one.
        let _ = self.child.kill();
        let _ = self.child.wait();
    }
}
