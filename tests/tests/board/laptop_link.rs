//! Jobs go from the laptop's own link code to the emulated board, and the display shows them.

use std::io::{self, Read, Write};
use std::os::unix::net::{UnixListener, UnixStream};
use std::thread;
use std::time::Duration;

use seamwright::link;
use seamwright_firmware::buttons::{Button, Event};
use seamwright_firmware::frame::Frame;
use seamwright_firmware::gauge::Gauge;
use seamwright_firmware::page::Small;
use seamwright_tests::board::{Board, Failure, Port, Screen};
use seamwright_tests::jobs;

/// How long a read of a port waits, as the laptop's own ports do.
const READ_LIMIT: Duration = Duration::from_millis(20);

fn failed(error: impl std::fmt::Display) -> Failure {
    Failure::new(error.to_string())
}

fn shows(board: &mut Board, gauge: &Gauge<Small>) -> Result<(), Failure> {
    let mut frame = Frame::new();
    let Ok(_) = gauge.draw(&mut frame);
    board.screen()?.expect(&Screen::from_frame(&frame))
}

#[test]
fn jobs_stand_on_the_shelf_in_the_order_sent() -> Result<(), Failure> {
    let mut board = Board::start()?;
    board.link.set_time_limit(READ_LIMIT);
    let mut gauge = Gauge::<Small>::new();
    for (place, name) in (0..).zip(jobs::EXAMPLES) {
        let draft = jobs::example(name).draft;
        let kept = link::send_job(&mut board.link, &draft, &[]).map_err(failed)?;
        assert_eq!(kept.place, place);
        assert_eq!(kept.board, "LM3S6965 evaluation board");
        gauge.keep(&draft).map_err(|_| failed("no room"))?;
        shows(&mut board, &gauge)?;
    }

    // A corrected job takes the place of the one it corrects, and is computed and drawn anew if open.
    board.press(Button::Select)?;
    gauge.handle(Event::Press(Button::Select));
    shows(&mut board, &gauge)?;
    let mut corrected = jobs::example("rinse-tank").draft;
    if let seamwright_core::input::Shape::Block(block) = &mut corrected.shape {
        block.cuts.clear();
    }
    let kept = link::send_job(&mut board.link, &corrected, &[]).map_err(failed)?;
    assert_eq!(kept.place, 2);
    gauge.keep(&corrected).map_err(|_| failed("no room"))?;
    shows(&mut board, &gauge)
}

#[test]
fn a_job_arrives_through_noise() -> Result<(), Failure> {
    let mut board = Board::start()?;
    board.link.set_time_limit(READ_LIMIT);
    // As of a cable plugged in while the line was busy: no end of a frame in it.
    board.link.write_all(&[0x5A; 700]).map_err(failed)?;
    let draft = jobs::example("header-tank").draft;
    let kept = link::send_job(&mut board.link, &draft, &[]).map_err(failed)?;
    assert_eq!(kept.place, 0);
    Ok(())
}

/// The whole command, by a socket as the emulator offers one.
#[test]
fn the_command_sends_by_a_socket() -> Result<(), Failure> {
    let mut board = Board::start()?;
    board.link.set_time_limit(READ_LIMIT);
    let folder = tempfile::TempDir::with_prefix("sw-").map_err(failed)?;
    let path = folder.path().join("gauge");
    let listener = UnixListener::bind(&path).map_err(failed)?;
    let draft = jobs::example("header-tank").draft;

    let kept = thread::scope(|scope| {
        let relay = scope.spawn(|| pass_on(&listener.accept()?.0, &mut board.link));
        let kept = link::command(&draft, &[], &format!("unix:{}", path.display())).map_err(failed);
        relay
            .join()
            .map_err(|_| failed("the relay broke"))?
            .map_err(failed)?;
        kept
    })?;
    assert_eq!(
        kept.to_string(),
        format!(
            "The job is number 1 on the gauge's shelf (LM3S6965 evaluation board, program {}).",
            env!("CARGO_PKG_VERSION")
        )
    );

    let mut gauge = Gauge::<Small>::new();
    gauge.keep(&draft).map_err(|_| failed("no room"))?;
    shows(&mut board, &gauge)
}

/// Carries bytes both ways between a laptop's socket and the board, until the laptop hangs up.
fn pass_on(mut laptop: &UnixStream, board: &mut Port) -> io::Result<()> {
    laptop.set_read_timeout(Some(Duration::from_millis(5)))?;
    board.set_time_limit(Duration::from_millis(5));
    let mut bytes = [0; 512];
    loop {
        match laptop.read(&mut bytes) {
            Ok(0) => return Ok(()),
            Ok(count) => board.write_all(bytes.get(..count).unwrap_or_default())?,
            Err(error) if is_patience(&error) => {}
            Err(error) => return Err(error),
        }
        match board.read(&mut bytes) {
            Ok(count) => laptop.write_all(bytes.get(..count).unwrap_or_default())?,
            Err(error) if is_patience(&error) => {}
            Err(error) => return Err(error),
        }
    }
}

fn is_patience(error: &io::Error) -> bool {
    matches!(
        error.kind(),
        io::ErrorKind::WouldBlock | io::ErrorKind::TimedOut
    )
}
