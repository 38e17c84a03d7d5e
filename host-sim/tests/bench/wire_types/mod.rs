//! The tables of `core/docs/wire.md` and `core/docs/wire-results.md` are the wire: messages are decoded
//! by nothing but those tables, and every value must come out under the name the documents give it.
//!
//! What the tables say is compared with serde's own view of the same value as JSON, so a field out of
//! order, a wrong number or a missing kind shows.
mod drafts;
mod errors;
mod replies;
mod tables;

use std::collections::BTreeSet;

use seamwright::job_file::JobFile;
use seamwright_core::units::Length;
use seamwright_core::wire::{
    MAX_MESSAGE, MAX_REPLY, MAX_REPLY_FRAME, PROTOCOL, Request, encode, encode_reply,
};
use serde_json::{Value, to_value};
use tables::{Tables, crc_32, frame_to_message};

const TEXT: &str = concat!(
    include_str!("../../../../core/docs/wire.md"),
    "\n",
    include_str!("../../../../core/docs/wire-results.md")
);

fn mm(value: f64) -> Length {
    Length::from_metres(value / 1e3)
}

/// Decodes a message by the tables and compares; the kinds of every enum met go into `met`.
fn check(tables: &Tables, kind: &str, frame: &[u8], value: &Value, met: &mut BTreeSet<String>) {
    let message = frame_to_message(frame);
    let (decoded, rest) = tables.decode(kind, &message, met);
    assert!(rest.is_empty(), "{kind}: {} bytes left over", rest.len());
    assert_eq!(decoded, *value, "{kind}");
}

#[test]
fn every_message_reads_by_the_tables_and_every_row_is_met() {
    let tables = Tables::of(TEXT);
    let mut met = BTreeSet::new();
    for request in drafts::requests() {
        let (frame, value) = (encode(&request).unwrap(), to_value(&request).unwrap());
        check(&tables, "Request", &frame, &value, &mut met);
    }
    for reply in replies::replies() {
        // As the gauge packs it, so that every reply is seen to fit its smaller bound.
        let mut frame = heapless::Vec::<u8, MAX_REPLY_FRAME>::new();
        encode_reply(&reply, &mut frame).unwrap();
        let value = to_value(&reply).unwrap();
        check(&tables, "Reply", &frame, &value, &mut met);
    }
    let missed: Vec<_> = tables.kinds().filter(|kind| !met.contains(kind)).collect();
    assert!(
        missed.is_empty(),
        "documented and never seen on the wire: {missed:?}"
    );
}

#[test]
fn the_numbers_of_the_protocol_are_in_its_text() {
    let thousands = |n: usize| format!("{},{:03}", n / 1_000, n % 1_000);
    for said in [
        format!("# The wire, protocol {PROTOCOL}\n"),
        format!("This protocol's number, {PROTOCOL};"),
        format!("of a request at most {} bytes", thousands(MAX_MESSAGE)),
        format!("of a reply at most {}", thousands(MAX_REPLY)),
        format!("| `TooLong` | over {} bytes |", thousands(MAX_MESSAGE)),
        format!("| `TooLong` |  | Over {} bytes |", thousands(MAX_MESSAGE)),
    ] {
        assert!(TEXT.contains(&said), "{said}");
    }
}

#[test]
fn the_worked_job_is_what_it_says() {
    let (_, text) = TEXT.split_once("### A job, byte by byte").unwrap();
    let job = text.split("```toml\n").nth(1).unwrap();
    let job = job.split("```").next().unwrap();
    let source = seamwright::diagnostics::Source {
        name: "wire.md".to_owned(),
        text: job.to_owned(),
    };
    let draft = JobFile::read(source).unwrap().draft;
    let frame = encode(&Request::Keep(draft)).unwrap();
    let message = frame_to_message(&frame);

    let table = text.split("| bytes |").nth(1).unwrap();
    let rows = table
        .lines()
        .skip(2)
        .take_while(|line| line.starts_with('|'));
    let bytes: Vec<u8> = rows
        .flat_map(|row| hex(row.split('|').nth(1).unwrap()))
        .collect();
    assert_eq!(bytes, message, "{message:02X?}");
    let size = format!("a message of {} bytes", message.len());
    assert!(text.contains(&size), "{size}");
    let sum = format!("Its CRC-32 is {:08X},", crc_32(&message));
    assert!(text.contains(&sum), "{sum}");

    let whole = text.split("```hex\n").nth(1).unwrap();
    let whole = hex(whole.split("```").next().unwrap());
    assert_eq!(whole, frame[..], "{frame:02X?}");
}

fn hex(text: &str) -> Vec<u8> {
    text.replace('`', "")
        .split_whitespace()
        .map(|byte| u8::from_str_radix(byte, 16).unwrap())
        .collect()
}
