//! The emulated board starts, shows a picture, answers its buttons and comes back from a reset.

use seamwright_firmware::buttons::Button;
use seamwright_tests::board::{Board, Failure};

/// Fails unless `held`.
fn insist(held: bool, what: &str) -> Result<(), Failure> {
    if held {
        Ok(())
    } else {
        Err(Failure::new(what))
    }
}

#[test]
fn no_button_that_reads_low_at_power_on_is_taken_for_pressed() -> Result<(), Failure> {
    let mut board = Board::start()?;
    let early = board.log.lines();
    let pressed = early.iter().find(|line| line.message.contains("Press"));
    let result = insist(pressed.is_none(), "a button pressed itself at power-on");
    result.map_err(|failure| board.explain(failure))
}

#[test]
fn every_button_is_read_on_its_own() -> Result<(), Failure> {
    let mut board = Board::start()?;
    for button in Button::ALL {
        let mark = board.log.mark();
        board.press(button)?;
        let lines = board.log.lines();
        let presses: Vec<_> = lines
            .iter()
            .skip(mark)
            .filter(|line| line.message.contains("Press"))
            .collect();
        let told = format!("Press({button:?})");
        let right = matches!(presses.as_slice(), [line] if line.message.contains(&told));
        insist(right, &format!("{told} was not the one event")).map_err(|f| board.explain(f))?;
    }
    board.hold(Button::Select, "a hold", |line| {
        line.message.contains("Hold")
    })?;
    Ok(())
}

#[test]
fn the_display_takes_every_command() -> Result<(), Failure> {
    let mut board = Board::start()?;
    board.press(Button::Down)?;
    let messages = board.emulator_messages();
    // QEMU tells of a command byte that its display does not know. It always says one other thing.
    let silent = messages
        .lines()
        .all(|line| line == "Timer with period zero, disabling");
    insist(silent, &messages)
}

#[test]
fn a_reset_starts_afresh_and_draws_the_same_picture() -> Result<(), Failure> {
    let mut board = Board::start()?;
    let before = board.screen()?;
    board.press(Button::Right)?;
    board.reset()?;
    board.screen()?.expect(&before)
}
