//! The keyboard as the gauge's five buttons.

use crossterm::event::{KeyCode, KeyEvent, KeyEventKind, KeyModifiers};
use seamwright_firmware::buttons::{Button, Event};

/// What a key asks for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Wish {
    /// A thumb on a button.
    Button(Event),
    /// The end of the session.
    Quit,
}

/// What `key` asks for, if anything. A terminal does not tell when a key is let go, so what a held
/// Enter means on the gauge has keys of its own: Escape and Backspace.
#[must_use]
pub fn wish(key: KeyEvent) -> Option<Wish> {
    if key.kind == KeyEventKind::Release {
        return None;
    }
    let press = |button| Some(Wish::Button(Event::Press(button)));
    match key.code {
        KeyCode::Char('c' | 'd') if key.modifiers.contains(KeyModifiers::CONTROL) => {
            Some(Wish::Quit)
        }
        KeyCode::Char('q' | 'Q') => Some(Wish::Quit),
        KeyCode::Up => press(Button::Up),
        KeyCode::Down => press(Button::Down),
        KeyCode::Left => press(Button::Left),
        KeyCode::Right => press(Button::Right),
        KeyCode::Enter => press(Button::Select),
        KeyCode::Esc | KeyCode::Backspace => Some(Wish::Button(Event::Hold)),
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn key(code: KeyCode) -> Option<Wish> {
        wish(KeyEvent::new(code, KeyModifiers::NONE))
    }

    #[test]
    fn each_button_has_a_key() {
        assert_eq!(
            key(KeyCode::Enter),
            Some(Wish::Button(Event::Press(Button::Select)))
        );
        assert_eq!(
            key(KeyCode::Left),
            Some(Wish::Button(Event::Press(Button::Left)))
        );
        assert_eq!(key(KeyCode::Esc), Some(Wish::Button(Event::Hold)));
        assert_eq!(key(KeyCode::Char('x')), None);
    }

    #[test]
    fn quitting() {
        assert_eq!(key(KeyCode::Char('q')), Some(Wish::Quit));
        assert_eq!(key(KeyCode::Char('c')), None);
        assert_eq!(
            wish(KeyEvent::new(KeyCode::Char('c'), KeyModifiers::CONTROL)),
            Some(Wish::Quit)
        );
    }

    #[test]
    fn letting_go_is_not_a_press() {
        let up = KeyEvent::new_with_kind(KeyCode::Up, KeyModifiers::NONE, KeyEventKind::Release);
        assert_eq!(wish(up), None);
    }
}
