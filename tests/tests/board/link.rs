//! The link of the emulated board: who it is, what it counts, and that noise on the line does no harm.

use std::io::Write as _;

use seamwright_core::wire::{PROTOCOL, Reply, Request, Status};
use seamwright_firmware::buttons::Button;
use seamwright_tests::board::{Board, Failure};

fn status(board: &mut Board) -> Result<Status, Failure> {
    match board.ask(&Request::Status)? {
        Reply::Status(status) => Ok(status),
        other => Err(Failure::new(format!("no status but {other:?}"))),
    }
}

#[test]
fn it_tells_who_it_is() -> Result<(), Failure> {
    let mut board = Board::start()?;
    let reply = board.ask(&Request::Hello)?;
    let Reply::Hello {
        protocol,
        board: name,
        ..
    } = reply
    else {
        return Err(Failure::new(format!("no greeting but {reply:?}")));
    };
    assert_eq!(protocol, PROTOCOL);
    assert_eq!(name, "LM3S6965 evaluation board");
    Ok(())
}

#[test]
fn noise_is_answered_and_the_next_request_is_read() -> Result<(), Failure> {
    let mut board = Board::start()?;
    // More than the board queues, with no zero that would close a frame, then one zero.
    let mut noise = vec![0xA5; 5_000];
    noise.push(0);
    board
        .link
        .write_all(&noise)
        .map_err(|error| Failure::new(error.to_string()))?;
    // The answer to the noise comes first.
    let reply = board.ask(&Request::Hello)?;
    assert!(matches!(reply, Reply::Unread(_)), "{reply:?}");
    Ok(())
}

#[test]
fn it_counts_presses_redraws_and_stack() -> Result<(), Failure> {
    let mut board = Board::start()?;
    let before = status(&mut board)?;
    // An empty shelf: select opens the settings, right changes the units.
    board.press(Button::Select)?;
    board.press(Button::Right)?;
    let after = status(&mut board)?;
    assert_eq!(after.events, before.events + 2);
    assert_eq!(after.redraws, before.redraws + 2);
    assert!(after.display_bytes > before.display_bytes + after.last_redraw_bytes);
    assert!(after.last_redraw_ticks > 0);
    assert_eq!(after.link_lost, 0);
    assert!(
        (1..after.stack_size).contains(&after.stack_high_water),
        "{after:?}"
    );
    // The chip has 64 KiB.
    assert!(after.stack_size < 65_536);
    Ok(())
}
