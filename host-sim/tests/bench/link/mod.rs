//! `seamwright link send` against a gauge's end of the link in this very process, by a socket and by a
//! serial line (a pseudo-terminal).
mod bench_end;

use std::os::unix::net::UnixListener;
use std::path::Path;

use assert_cmd::Command;
use bench_end::{Gauges, serve};
use portable_pty::{PtySize, native_pty_system};

use crate::{HEADER, RINSE};

/// Exit status, standard output, standard error of `seamwright link send`.
fn send(job: &str, port: &str) -> (Option<i32>, String, String) {
    let output = Command::new(env!("CARGO_BIN_EXE_seamwright"))
        .args(["link", "send", job, "--port", port])
        .output()
        .unwrap();
    let text = |bytes| String::from_utf8(bytes).unwrap();
    (
        output.status.code(),
        text(output.stdout),
        text(output.stderr),
    )
}

fn socket_in(folder: &Path) -> (UnixListener, String) {
    let path = folder.join("gauge");
    let listener = UnixListener::bind(&path).unwrap();
    (listener, format!("unix:{}", path.display()))
}

#[test]
fn jobs_by_a_socket() {
    let folder = tempfile::tempdir().unwrap();
    let (listener, port) = socket_in(folder.path());
    let gauges = Gauges::default();
    gauges.serve_each(listener);
    for (job, number, stitches) in [(HEADER, 1, 40), (RINSE, 2, 104), (HEADER, 1, 40)] {
        let (status, out, errors) = send(job, &port);
        assert_eq!((status, errors.as_str()), (Some(0), ""));
        assert_eq!(
            out,
            format!(
                "The job is number {number} on the gauge's shelf, with the order of its {stitches} stitches (test bench, program {}).\n",
                env!("CARGO_PKG_VERSION")
            )
        );
    }
    assert_eq!(
        gauges.names(),
        [
            "Header tank, heating loop of a canal boat",
            "Rinse-water tank, workshop bench"
        ]
    );
}

#[test]
fn a_job_by_a_serial_line() {
    let line = native_pty_system().openpty(PtySize::default()).unwrap();
    let port = line.master.tty_name().unwrap();
    let reader = line.master.try_clone_reader().unwrap();
    let writer = line.master.take_writer().unwrap();
    let gauges = Gauges::default();
    gauges.serve_in_background(reader, writer);
    let (status, out, errors) = send(HEADER, port.to_str().unwrap());
    assert_eq!((status, errors.as_str()), (Some(0), ""));
    assert!(out.contains("number 1 on the gauge's shelf"), "{out}");
    assert_eq!(gauges.names().len(), 1);
}

#[test]
fn a_full_shelf_is_no_fault_of_the_job() {
    let folder = tempfile::tempdir().unwrap();
    let (listener, port) = socket_in(folder.path());
    let gauges = Gauges::default();
    gauges.fill_up(RINSE);
    gauges.serve_each(listener);
    let (status, out, errors) = send(HEADER, &port);
    assert_eq!((status, out.as_str()), (Some(1), ""));
    assert!(
        errors.contains("shelf is full: it takes 6 jobs"),
        "{errors}"
    );
}

/// Before a job goes without the order of its stitches, it is said that it will, and what would have the order go along.
#[test]
fn a_job_of_more_stitches_than_an_order_may_have() {
    let folder = tempfile::tempdir().unwrap();
    let (listener, port) = socket_in(folder.path());
    let gauges = Gauges::default();
    gauges.serve_each(listener);
    let write = |stitch: &str| {
        let job = folder.path().join("many.toml");
        let text = std::fs::read_to_string(RINSE).unwrap();
        assert!(!text.contains("[weld]"));
        std::fs::write(&job, format!("{text}\n[weld]\nstitch_max = \"{stitch}\"\n")).unwrap();
        job.display().to_string()
    };
    let (status, out, errors) = send(&write("12 mm"), &port);
    assert_eq!((status, errors.as_str()), (Some(0), ""));
    let lines: Vec<&str> = out.lines().collect();
    let [mind, kept] = lines[..] else {
        panic!("{out}")
    };
    assert!(
        mind.starts_with("Mind: a gauge has room for an order of 256 stitches, and this job has ")
    );
    assert!(
        kept.starts_with("The job is number 1 on the gauge's shelf (test bench"),
        "{kept}"
    );
    // It is told although nothing could be sent.
    let (status, out, _) = send(&write("12 mm"), "/nowhere");
    assert_eq!((status, out.lines().next()), (Some(2), Some(mind)));
    // What it says helps.
    let (_, after) = mind.split_once("with a stitch_max of ").unwrap();
    let (stitch, _) = after.split_once(" under [weld]").unwrap();
    let (status, out, errors) = send(&write(stitch), &port);
    assert_eq!((status, errors.as_str()), (Some(0), ""));
    assert!(
        out.starts_with("The job is number 1 on the gauge's shelf, with the order of its "),
        "{out}"
    );
}

#[test]
fn ports_with_no_gauge() {
    let folder = tempfile::tempdir().unwrap();
    let missing = folder.path().join("ttyUSB9").display().to_string();
    let (status, out, errors) = send(HEADER, &missing);
    assert_eq!((status, out.as_str()), (Some(2), ""));
    assert!(
        errors.contains(&format!("there is no port `{missing}`")),
        "{errors}"
    );

    let (status, _, errors) = send(HEADER, "/dev/null");
    assert_eq!(status, Some(2));
    assert!(
        errors.contains("`/dev/null` cannot be used as a port"),
        "{errors}"
    );

    // Somebody listens and is no gauge.
    let (listener, port) = socket_in(folder.path());
    let deaf = std::thread::spawn(move || listener.accept().unwrap());
    let (status, _, errors) = send(HEADER, &port);
    assert_eq!(status, Some(1));
    assert!(errors.contains("no gauge answered within 4 s"), "{errors}");
    drop(deaf.join().unwrap());
}

#[test]
fn a_job_that_cannot_be_computed_is_not_sent() {
    let folder = tempfile::tempdir().unwrap();
    let job = folder.path().join("flat.toml");
    let text = std::fs::read_to_string(RINSE).unwrap();
    std::fs::write(&job, text.replace("\"310 mm\"", "\"0 mm\"")).unwrap();
    // The port is not looked at: the job is at fault first.
    let (status, _, errors) = send(job.to_str().unwrap(), "/nowhere");
    assert_eq!(status, Some(2));
    assert!(
        errors.contains("flat.toml:") && errors.contains("0 mm"),
        "{errors}"
    );
}

#[test]
fn a_gauge_that_hangs_up_is_told() {
    let folder = tempfile::tempdir().unwrap();
    let (listener, port) = socket_in(folder.path());
    let gauge = std::thread::spawn(move || {
        let (stream, _) = listener.accept().unwrap();
        // Gone after the first bytes.
        serve(&mut &stream, &mut &stream, &mut |_| None, 3);
    });
    let (status, _, errors) = send(HEADER, &port);
    gauge.join().unwrap();
    assert_eq!(status, Some(1));
    assert!(errors.contains("the other end closed the line"), "{errors}");
}
