//! The window shows what the gauge draws, cell for cell.

use seamwright::input;
use seamwright::job_file::JobFile;
use seamwright_firmware::buttons::{Button, Event};
use seamwright_firmware::frame::Frame;
use seamwright_firmware::gauge::Gauge;
use vt100::{Color, Screen};

use super::window::{Size, Window, bench};
use crate::{HEADER, RINSE};

const UP: (&str, Event) = ("\x1b[A", Event::Press(Button::Up));
const DOWN: (&str, Event) = ("\x1b[B", Event::Press(Button::Down));
const RIGHT: (&str, Event) = ("\x1b[C", Event::Press(Button::Right));
const LEFT: (&str, Event) = ("\x1b[D", Event::Press(Button::Left));
const ENTER: (&str, Event) = ("\r", Event::Press(Button::Select));
const ESCAPE: (&str, Event) = ("\x1b", Event::Hold);
const BACKSPACE: (&str, Event) = ("\x7f", Event::Hold);

/// Through every page of a job, with a choice or two on each, and to the settings and back.
const WALK: &[(&str, Event)] = &[
    ENTER, UP, RIGHT, DOWN, DOWN, RIGHT, UP, UP, ENTER, UP, ENTER, DOWN, RIGHT, DOWN, ENTER, ENTER,
    RIGHT, RIGHT, RIGHT, DOWN, LEFT, ESCAPE, DOWN, ENTER, RIGHT, BACKSPACE, UP, ENTER,
];

/// A gauge that was given the same jobs.
fn gauge_with(jobs: &[&str]) -> Gauge {
    let mut gauge = Gauge::new();
    for job in jobs {
        let draft = JobFile::read(input::read(job).unwrap()).unwrap().draft;
        gauge.keep(&draft).unwrap();
    }
    for _ in jobs {
        gauge.handle(UP.1);
    }
    gauge
}

fn drawn(gauge: &Gauge) -> Frame {
    let mut frame = Frame::new();
    let Ok(_) = gauge.draw(&mut frame);
    frame
}

fn level(frame: &Frame, x: u16, y: u16) -> u8 {
    frame.level(x.into(), y.into()).unwrap()
}

/// How bright a grey of the 256-colour palette is, 0 to 255: 232 to 255 are 8, 18 … 238; 16 and 231
/// are the black and the white of the colour cube. Source: `XTerm`'s 256colres, from memory.
fn brightness(colour: Color) -> Option<i32> {
    match colour {
        Color::Idx(16) => Some(0),
        Color::Idx(231) => Some(255),
        Color::Idx(index @ 232..) => Some(8 + 10 * (i32::from(index) - 232)),
        _ => None,
    }
}

/// Whether a cell's colour is the grey of a display's pixel and of no other level: half a step of the
/// palette's ramp is allowed, and levels are 17 apart.
fn is_grey(colour: Color, level: u8) -> bool {
    let wanted = 17 * i32::from(level);
    brightness(colour).is_some_and(|shown| (shown - wanted).abs() <= 5)
}

/// Whether the middle of the screen shows the frame as half blocks, each pixel in its grey.
fn shows_half_blocks(screen: &Screen, (columns, rows): Size, frame: &Frame) -> bool {
    let (left, top) = ((columns - 128) / 2, (rows - 32) / 2);
    (0..32).all(|y| {
        (0..128).all(|x| {
            let cell = screen.cell(top + y, left + x).unwrap();
            cell.contents() == "\u{2580}"
                && is_grey(cell.fgcolor(), level(frame, x, 2 * y))
                && is_grey(cell.bgcolor(), level(frame, x, 2 * y + 1))
        })
    })
}

/// Whether it shows the frame as braille: dots 1 to 8 stand for 0x01 to 0x80, dots 1-2-3-7 down the
/// left, 4-5-6-8 down the right. Source: The Unicode Standard, 21.1 Braille.
fn shows_braille(screen: &Screen, (columns, rows): Size, frame: &Frame) -> bool {
    let (left, top) = ((columns - 64) / 2, (rows - 16) / 2);
    (0..16).all(|y| {
        (0..64).all(|x| {
            let sign = screen.cell(top + y, left + x).unwrap().contents();
            let dots = sign.chars().next().map_or(0, u32::from);
            let bits = [[0x01, 0x02, 0x04, 0x40], [0x08, 0x10, 0x20, 0x80]];
            (0..2).all(|dx| {
                (0..4).all(|dy| {
                    let lit = dots & bits[usize::from(dx)][usize::from(dy)] != 0;
                    dots & !0xFF == 0x2800 && lit == (level(frame, 2 * x + dx, 4 * y + dy) >= 5)
                })
            })
        })
    })
}

fn says(screen: &Screen, text: &str) -> bool {
    screen.contents().contains(text)
}

#[test]
fn half_blocks_in_greys_after_every_key() {
    let size = (132, 36);
    let mut gauge = gauge_with(&[HEADER]);
    let mut window = Window::run(bench(&[HEADER]), size);
    window.wait("the first picture", |screen| {
        shows_half_blocks(screen, size, &drawn(&gauge)) && says(screen, "q: quit")
    });
    window.wait_until_taken();
    for (step, (bytes, event)) in WALK.iter().enumerate() {
        window.type_in(bytes);
        gauge.handle(*event);
        let frame = drawn(&gauge);
        window.wait(&format!("step {step}, {event:?}"), |screen| {
            shows_half_blocks(screen, size, &frame)
        });
    }
    window.type_in("q");
    assert_eq!(window.left_as_it_was().0, 0);
}

#[test]
fn braille_in_a_common_window() {
    let size = (80, 24);
    let mut gauge = gauge_with(&[RINSE, HEADER]);
    let mut window = Window::run(bench(&[RINSE, HEADER]), size);
    window.wait_until_taken();
    for (step, (bytes, event)) in [[DOWN].as_slice(), WALK].concat().iter().enumerate() {
        window.type_in(bytes);
        gauge.handle(*event);
        let frame = drawn(&gauge);
        window.wait(&format!("step {step}, {event:?}"), |screen| {
            shows_braille(screen, size, &frame) && says(screen, "q: quit")
        });
    }
}

#[test]
fn no_colour_means_braille_however_large_the_window() {
    let size = (140, 40);
    let mut command = bench(&[HEADER]);
    command.env("NO_COLOR", "1");
    let window = Window::run(command, size);
    let frame = drawn(&gauge_with(&[HEADER]));
    window.wait("braille", |screen| shows_braille(screen, size, &frame));
}

#[test]
fn the_window_may_change_its_size_at_any_time() {
    let (large, common, small) = ((130, 33), (80, 24), (40, 10));
    let mut gauge = gauge_with(&[HEADER]);
    let mut window = Window::run(bench(&[HEADER]), large);
    window.wait_until_taken();
    window.type_in(ENTER.0);
    gauge.handle(ENTER.1);
    for _ in 0..2 {
        let frame = drawn(&gauge);
        window.wait("half blocks", |screen| {
            shows_half_blocks(screen, large, &frame)
        });
        window.resize(common);
        window.wait("braille", |screen| shows_braille(screen, common, &frame));
        window.resize(small);
        window.wait("why nothing is drawn", |screen| {
            let text = screen.contents().replace('\n', " ");
            text.contains("needs 64 x 16") && text.contains("has 40 x 10")
        });
        // The gauge goes on while it is not seen.
        window.type_in(RIGHT.0);
        gauge.handle(RIGHT.1);
        window.resize((1, 1));
        window.resize(large);
    }
    window.wait("half blocks", |screen| {
        shows_half_blocks(screen, large, &drawn(&gauge))
    });
    window.type_in("q");
    assert_eq!(window.left_as_it_was().0, 0);
}
