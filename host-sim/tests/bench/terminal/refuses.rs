//! What the bench will not start with, said before it touches anything.

use assert_cmd::Command;
use portable_pty::CommandBuilder;

use super::window::{Window, plain};
use crate::{HEADER, RINSE};

fn bench(jobs: &[&str]) -> (Option<i32>, String) {
    let output = Command::new(env!("CARGO_BIN_EXE_seamwright"))
        .arg("bench")
        .args(jobs)
        .output()
        .unwrap();
    assert!(output.stdout.is_empty(), "nothing is drawn");
    let text = String::from_utf8(output.stderr).unwrap();
    assert!(!text.contains('\x1b'), "no colour to a pipe: {text}");
    (output.status.code(), text)
}

#[test]
fn no_terminal_to_draw_on() {
    let (status, text) = bench(&[HEADER]);
    assert_eq!(status, Some(2));
    assert!(
        text.contains("standard output is none") && text.contains("shots"),
        "{text}"
    );
}

#[test]
fn no_terminal_to_take_keys_from() {
    let mut command = CommandBuilder::new("sh");
    command.args([
        "-c",
        "\"$0\" bench \"$1\" < /dev/null",
        env!("CARGO_BIN_EXE_seamwright"),
        HEADER,
    ]);
    let (status, text) = Window::run(plain(command), (80, 24)).left_as_it_was();
    assert_eq!(status, 2);
    assert!(text.contains("standard input is none"), "{text}");
}

#[test]
fn more_jobs_than_the_shelf_takes() {
    let (status, text) = bench(&[HEADER; 7]);
    assert_eq!(status, Some(2));
    assert!(
        text.contains("7 jobs are given") && text.contains("takes 6"),
        "{text}"
    );
}

#[test]
fn two_jobs_of_one_name() {
    let (status, text) = bench(&[HEADER, RINSE, HEADER]);
    assert_eq!(status, Some(2));
    assert!(text.contains("both called"), "{text}");
}
