//! A terminal window without a screen: a pseudo-terminal and an emulation of what it would show.

use std::fmt::Debug;
use std::io::{Read, Write};
use std::num::NonZeroU16;
use std::sync::{Arc, Mutex};
use std::thread;
use std::time::{Duration, Instant};

use portable_pty::{Child, CommandBuilder, MasterPty, PtyPair, PtySize, native_pty_system};
use vt100::{Parser, Screen};

/// The longest that a busy machine may take over anything here.
pub(crate) const LIMIT: Duration = Duration::from_secs(30);

/// Columns and rows.
pub(crate) type Size = (u16, u16);

/// `seamwright bench` with these jobs.
pub(crate) fn bench(jobs: &[&str]) -> CommandBuilder {
    let mut command = CommandBuilder::new(env!("CARGO_BIN_EXE_seamwright"));
    command.arg("bench");
    command.args(jobs);
    plain(command)
}

/// An environment that does not depend on who runs the tests.
pub(crate) fn plain(mut command: CommandBuilder) -> CommandBuilder {
    command.env("TERM", "xterm-256color");
    command.env("RUST_BACKTRACE", "0");
    command.env_remove("NO_COLOR");
    command
}

/// A pseudo-terminal of this size.
pub(crate) fn pty(size: Size) -> PtyPair {
    native_pty_system().openpty(pty_size(size)).unwrap()
}

/// The settings of a terminal line, in words that can be compared and searched.
pub(crate) fn modes(terminal: &dyn MasterPty) -> String {
    words(&terminal.get_termios().unwrap())
}

fn words(modes: &impl Debug) -> String {
    format!("{modes:?}")
}

/// Whether a line with these modes hands each key on at once, unseen.
pub(crate) fn is_raw(modes: &str) -> bool {
    !modes.contains("ICANON") && !modes.contains("ECHO ")
}

/// How a process ended, waited for up to [`LIMIT`].
pub(crate) fn status_of(child: &mut dyn Child) -> u32 {
    let end = Instant::now() + LIMIT;
    while Instant::now() < end {
        if let Some(status) = child.try_wait().unwrap() {
            assert_eq!(status.signal(), None, "it ends by itself");
            return status.exit_code();
        }
        thread::sleep(Duration::from_millis(10));
    }
    child.kill().unwrap();
    panic!("it did not end within {LIMIT:?}");
}

/// Sends a signal by the shell's own `kill`, which every machine has.
pub(crate) fn signal(child: &dyn Child, name: &str) {
    let id = child.process_id().unwrap();
    let sent = std::process::Command::new("sh")
        .args(["-c", &format!("kill -{name} {id}")])
        .status();
    assert!(sent.unwrap().success());
}

/// A window with one program in it.
pub(crate) struct Window {
    shown: Arc<Mutex<Parser>>,
    keys: Box<dyn Write + Send>,
    child: Box<dyn Child + Send + Sync>,
    /// Both ends, so that the line outlives the program and its modes can be looked at.
    line: PtyPair,
    modes_before: String,
}

impl Window {
    /// Opens a window and starts a program in it.
    pub(crate) fn run(command: CommandBuilder, size: Size) -> Self {
        let line = pty(size);
        let modes_before = modes(&*line.master);
        assert!(!is_raw(&modes_before));
        let (columns, rows) = size;
        let shown = Arc::new(Mutex::new(Parser::new(one(rows), one(columns), 0)));
        let mut output = line.master.try_clone_reader().unwrap();
        thread::spawn({
            let shown = Arc::clone(&shown);
            move || {
                let mut bytes = [0; 4096];
                while let Ok(count @ 1..) = output.read(&mut bytes) {
                    shown.lock().unwrap().process(&bytes[..count]);
                }
            }
        });
        Self {
            shown,
            keys: line.master.take_writer().unwrap(),
            child: line.slave.spawn_command(command).unwrap(),
            line,
            modes_before,
        }
    }

    /// Types bytes as a keyboard sends them.
    pub(crate) fn type_in(&mut self, bytes: &str) {
        self.keys.write_all(bytes.as_bytes()).unwrap();
        self.keys.flush().unwrap();
    }

    /// Drags the window's corner.
    pub(crate) fn resize(&self, size: Size) {
        let (columns, rows) = size;
        let mut shown = self.shown.lock().unwrap();
        shown.screen_mut().set_size(one(rows), one(columns));
        self.line.master.resize(pty_size(size)).unwrap();
    }

    /// Waits until the window shows what `wanted` takes.
    pub(crate) fn wait(&self, what: &str, wanted: impl Fn(&Screen) -> bool) {
        let end = Instant::now() + LIMIT;
        loop {
            let shown = self.shown.lock().unwrap();
            if wanted(shown.screen()) {
                return;
            }
            assert!(
                Instant::now() < end,
                "waited {LIMIT:?} for {what}; the window shows:\n{}",
                shown.screen().contents()
            );
            drop(shown);
            thread::sleep(Duration::from_millis(5));
        }
    }

    /// Waits until the program has the terminal to itself.
    pub(crate) fn wait_until_taken(&self) {
        self.wait("a screen of its own", |screen| {
            screen.alternate_screen() && screen.hide_cursor()
        });
        assert!(is_raw(&modes(&*self.line.master)));
    }

    /// The program, to send it signals.
    pub(crate) fn child(&self) -> &dyn Child {
        &*self.child
    }

    /// Waits for the program to end, and insists that the terminal is as it was before: main screen,
    /// cursor seen, plain colours, the line's modes the same bit for bit. Returns the exit status and
    /// the text that is left.
    pub(crate) fn left_as_it_was(mut self) -> (u32, String) {
        let status = status_of(&mut *self.child);
        self.wait("the main screen", |screen| {
            !screen.alternate_screen() && !screen.hide_cursor()
        });
        assert_eq!(modes(&*self.line.master), self.modes_before);
        let shown = self.shown.lock().unwrap();
        let screen = shown.screen();
        assert_eq!(screen.fgcolor(), vt100::Color::Default);
        assert_eq!(screen.bgcolor(), vt100::Color::Default);
        assert!(!screen.bold() && !screen.dim() && !screen.inverse());
        (status, screen.contents())
    }
}

impl Drop for Window {
    fn drop(&mut self) {
        // It has ended already, unless the test failed or did not wait for it.
        let _ = self.child.kill();
        let _ = self.child.wait();
    }
}

fn one(cells: u16) -> NonZeroU16 {
    NonZeroU16::new(cells).unwrap()
}

fn pty_size((cols, rows): Size) -> PtySize {
    PtySize {
        rows,
        cols,
        pixel_width: 0,
        pixel_height: 0,
    }
}
