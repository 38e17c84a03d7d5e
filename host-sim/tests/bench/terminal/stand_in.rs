//! An instrument that breaks when a button is pressed, since the gauge has no way to.
//!
//! It runs in a process of its own: this very test program, told by its environment to be it.

use portable_pty::CommandBuilder;
use seamwright::bench::{Instrument, run};
use seamwright_firmware::buttons::Event;
use seamwright_firmware::frame::Frame;

use super::window::plain;

pub(crate) const LAST_WORDS: &str = "the stand-in broke as it was meant to";

const TOLD: &str = "SEAMWRIGHT_TEST_STAND_IN";
const NAME: &str = "terminal::stand_in::breaks_where_it_is_told_to";

struct Breaks;

impl Instrument for Breaks {
    fn handle(&mut self, _: Event) {
        panic!("{LAST_WORDS}");
    }

    fn draw(&mut self, _: &mut Frame) {}
}

/// What runs it.
pub(crate) fn command() -> CommandBuilder {
    let mut command = CommandBuilder::new(std::env::current_exe().unwrap());
    command.args([NAME, "--exact", "--nocapture"]);
    command.env(TOLD, "1");
    plain(command)
}

/// Not told to, it has nothing to do; `terminal::ends::by_a_panic_whose_message_can_be_read` tells it.
#[test]
fn breaks_where_it_is_told_to() {
    if std::env::var_os(TOLD).is_some() {
        run(&mut Breaks, true).unwrap();
    }
}
