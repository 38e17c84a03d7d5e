//! A thumb on the gauge.

use seamwright_firmware::buttons::{Button, Event};
use seamwright_firmware::frame::Frame;
use seamwright_firmware::gauge::Gauge;
use seamwright_firmware::pen::Faults;

/// Presses buttons one after the other.
pub(crate) fn press(gauge: &mut Gauge, buttons: &[Button]) {
    for button in buttons {
        gauge.handle(Event::Press(*button));
    }
}

/// Draws what the gauge shows, and insists that all of it is within the edges and apart.
pub(crate) fn shown(gauge: &Gauge) -> Frame {
    let mut frame = Frame::new();
    let faults = gauge.draw(&mut frame).expect("a frame takes all");
    let context = || {
        format!(
            "on {:?}, {:?}, jobs {:#?}",
            gauge.screen(),
            gauge.units(),
            gauge.names().collect::<Vec<_>>()
        )
    };
    assert_eq!(faults, Faults::default(), "{}", context());
    assert_eq!(frame.strays(), 0, "pixels outside {}", context());
    frame
}
