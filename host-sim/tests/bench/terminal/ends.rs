//! However a session ends, the terminal is as it was.

use std::io::Write;
use std::thread;
use std::time::{Duration, Instant};

use super::stand_in;
use super::window::{LIMIT, Window, bench, is_raw, modes, pty, signal, status_of};
use crate::HEADER;

#[test]
fn by_a_key() {
    for key in ["q", "Q", "\x03", "\x04"] {
        let mut window = Window::run(bench(&[HEADER]), (80, 24));
        window.wait_until_taken();
        window.type_in(key);
        let (status, text) = window.left_as_it_was();
        assert_eq!((status, text.trim()), (0, ""), "{key:?}");
    }
}

#[test]
fn by_a_signal_with_128_and_its_number() {
    // Numbers of signal.h, POSIX.1-2017 by way of `kill -l`.
    for (name, number) in [("HUP", 1), ("INT", 2), ("QUIT", 3), ("TERM", 15)] {
        let window = Window::run(bench(&[HEADER]), (130, 40));
        window.wait_until_taken();
        signal(window.child(), name);
        let (status, text) = window.left_as_it_was();
        assert_eq!((status, text.trim()), (128 + number, ""), "{name}");
    }
}

#[test]
fn by_a_panic_whose_message_can_be_read() {
    let mut window = Window::run(stand_in::command(), (130, 40));
    window.wait_until_taken();
    window.type_in("\r");
    let (status, text) = window.left_as_it_was();
    assert_eq!(status, 101, "{text}");
    assert!(text.contains(stand_in::LAST_WORDS), "{text}");
}

#[test]
fn by_a_window_that_is_closed() {
    assert_eq!(closed_after(""), 128 + 1, "hung up");
}

#[test]
fn by_a_window_that_is_closed_while_it_quits() {
    // Either may come first.
    let status = closed_after("q");
    assert!(matches!(status, 0 | 1 | 129), "{status}");
}

/// How the bench ends when a key is typed and the window closed at once.
fn closed_after(key: &str) -> u32 {
    // Nobody reads this one's output, so that closing it closes the line; a small window's picture
    // fits into the line's own memory.
    let line = pty((40, 10));
    let mut child = line.slave.spawn_command(bench(&[HEADER])).unwrap();
    let end = Instant::now() + LIMIT;
    while !is_raw(&modes(&*line.master)) {
        assert!(Instant::now() < end, "the bench never took the terminal");
        thread::sleep(Duration::from_millis(5));
    }
    thread::sleep(Duration::from_millis(200));
    if !key.is_empty() {
        let mut keys = line.master.take_writer().unwrap();
        keys.write_all(key.as_bytes()).unwrap();
    }
    drop(line);
    status_of(&mut *child)
}
