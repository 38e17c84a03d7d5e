//! Thumbs on the emulated buttons.

use seamwright_firmware::buttons::Button;
use serde_json::json;

use super::{Board, Face, Failure, Line};

/// A quick tap, and the least between two.
pub const TAP_MS: u8 = 40;

/// The key that works a button of the emulated board.
const fn key(button: Button) -> &'static str {
    match button {
        Button::Up => "up",
        Button::Down => "down",
        Button::Left => "left",
        Button::Right => "right",
        Button::Select => "ctrl",
    }
}

const fn bit(button: Button) -> u8 {
    1 << button as u8
}

impl Board {
    /// Presses a button and lets go. Returns when the board has acted on both and redrawn.
    ///
    /// # Errors
    /// When the board does not see it.
    pub fn press(&mut self, button: Button) -> Result<(), Failure> {
        if matches!(self.face, Face::Line(_)) {
            // In the board's own time: held by ours, it would be held long while the board is at work.
            let mark = self.log.mark();
            self.thumb(&[(&[button], TAP_MS), (&[], TAP_MS)])?;
            let wanted = format!("Press({button:?})");
            self.wait_for_line(mark, &wanted, |line| line.message.starts_with(&wanted))?;
            return Ok(());
        }
        self.push(button)?;
        self.let_go(button)
    }

    /// Keeps a button down until the board logs a line that `until` takes, then lets go. Returns that
    /// line.
    ///
    /// # Errors
    /// When the board does not see the button, or no such line comes.
    pub fn hold(
        &mut self,
        button: Button,
        what: &str,
        until: impl Fn(&Line) -> bool,
    ) -> Result<Line, Failure> {
        let mark = self.log.mark();
        self.push(button)?;
        let line = self.wait_for_line(mark, what, until)?;
        self.let_go(button)?;
        Ok(line)
    }

    /// Pushes a button down and keeps it there. Returns when the board has acted on it.
    ///
    /// # Errors
    /// When the board does not see it.
    pub fn push(&mut self, button: Button) -> Result<(), Failure> {
        self.move_buttons(&[(button, true)])
    }

    /// Lets a button go. Returns when the board has acted on it.
    ///
    /// # Errors
    /// When the board does not see it.
    pub fn let_go(&mut self, button: Button) -> Result<(), Failure> {
        self.move_buttons(&[(button, false)])
    }

    /// Moves several buttons in the same instant. Returns when the board has acted on it.
    ///
    /// # Errors
    /// When the board does not see it.
    pub fn move_buttons(&mut self, moves: &[(Button, bool)]) -> Result<(), Failure> {
        let mark = self.log.mark();
        let before = self.held;
        for &(button, down) in moves {
            if down {
                self.held |= bit(button);
            } else {
                self.held &= !bit(button);
            }
        }
        self.send_keys(moves)?;
        if self.held == before {
            Ok(())
        } else {
            self.wait_until_settled(mark)
        }
    }

    /// Presses and releases every key once. A line of the emulated board reads low from power-on until
    /// its key's first release, and the press before it changes nothing.
    pub(super) fn let_go_of_all(&mut self) -> Result<(), Failure> {
        if matches!(self.face, Face::Line(_)) {
            // Long enough to be seen open.
            return self.thumb(&[([].as_slice(), TAP_MS)]);
        }
        for down in [true, false] {
            self.send_keys(&Button::ALL.map(|button| (button, down)))?;
        }
        self.wait_until_settled(self.started)
    }

    fn send_keys(&mut self, moves: &[(Button, bool)]) -> Result<(), Failure> {
        if let Face::Line(front) = &mut self.face {
            return front.move_contacts(&[(self.held, 1)]);
        }
        let events: Vec<_> = moves
            .iter()
            .map(|&(button, down)| {
                json!({ "type": "key", "data": { "down": down, "key": { "type": "qcode", "data": key(button) } } })
            })
            .collect();
        self.execute("input-send-event", &json!({ "events": events }))?;
        Ok(())
    }

    /// Has the buttons' line moved in the board's own time: the buttons that are closed, and for how many
    /// milliseconds before what follows. Waits for nothing; what comes last stays. Only with the full gauge.
    ///
    /// # Errors
    /// When the line is gone, or the board's buttons are not at the end of one.
    pub fn thumb(&mut self, moves: &[(&[Button], u8)]) -> Result<(), Failure> {
        let Face::Line(front) = &mut self.face else {
            return Err(Failure::new("this board's buttons are its own"));
        };
        let closed = |buttons: &[Button]| buttons.iter().fold(0, |all, one| all | bit(*one));
        let moves: Vec<_> = moves
            .iter()
            .map(|(buttons, ms)| (closed(buttons), *ms))
            .collect();
        front.move_contacts(&moves)
    }

    /// Waits for so many presses, counted from `mark`, and returns their lines.
    ///
    /// # Errors
    /// When fewer come in time.
    pub fn presses(&mut self, mark: usize, count: usize) -> Result<Vec<Line>, Failure> {
        let is_press = |line: &Line| line.message.starts_with("Press");
        let mut from = mark;
        loop {
            let lines = self.log.lines();
            let seen: Vec<_> = lines
                .iter()
                .skip(mark)
                .filter(|line| is_press(line))
                .cloned()
                .collect();
            if seen.len() >= count {
                return Ok(seen);
            }
            from = from.max(lines.len());
            self.wait_for_line(from, "another press", is_press)?;
        }
    }

    fn wait_until_settled(&mut self, mark: usize) -> Result<(), Failure> {
        let held = u64::from(self.held);
        let what = format!("button lines settled with closed={held}");
        self.wait_for_line(mark, &what, |line| {
            line.message.starts_with("buttons settled") && line.figure("closed") == Some(held)
        })?;
        Ok(())
    }
}
