//! A decoder that knows only what the documents' tables say.
//!
//! A type is a heading `### Name` and the table under it. `| field | type | … |` is a structure, whose
//! fields follow one another; `| number | kind | carries | … |` a choice: its number, then what it
//! carries (nothing, a type, types in brackets, or fields as `name: type`).

use std::collections::{BTreeMap, BTreeSet};

use serde_json::{Map, Value, json};

enum Table {
    Structure(Vec<(String, String)>),
    Choice(Vec<(String, String)>),
}

/// Every type of the documents.
pub(crate) struct Tables(BTreeMap<String, Table>);

impl Tables {
    pub(crate) fn of(text: &str) -> Self {
        let mut tables = BTreeMap::new();
        for part in text.split("\n### ").skip(1) {
            let name = part.lines().next().unwrap().trim_matches('`');
            let mut rows = part
                .lines()
                .skip_while(|line| !line.starts_with('|'))
                .take_while(|line| line.starts_with('|'))
                .map(cells);
            let Some(head) = rows.next() else { continue };
            let rows: Vec<_> = rows.skip(1).collect();
            let table = match head.iter().map(String::as_str).collect::<Vec<_>>()[..] {
                ["field", "type", ..] => {
                    let field = |row: &Vec<String>| (row[0].clone(), row[1].clone());
                    Table::Structure(rows.iter().map(field).collect())
                }
                ["number", "kind", "carries", ..] => {
                    for (number, row) in rows.iter().enumerate() {
                        assert_eq!(row[0], number.to_string(), "{name}");
                    }
                    let kind = |row: &Vec<String>| (row[1].clone(), row[2].clone());
                    Table::Choice(rows.iter().map(kind).collect())
                }
                _ => continue,
            };
            let before = tables.insert(name.to_owned(), table);
            assert!(before.is_none(), "{name} has two tables");
        }
        Self(tables)
    }

    /// Every kind of every choice, as `Choice::Kind`.
    pub(crate) fn kinds(&self) -> impl Iterator<Item = String> {
        self.0.iter().flat_map(|(name, table)| match table {
            Table::Structure(_) => Vec::new(),
            Table::Choice(kinds) => kinds
                .iter()
                .map(|(kind, _)| format!("{name}::{kind}"))
                .collect(),
        })
    }

    /// The value of type `kind` at the start of `bytes`, and what follows it.
    pub(crate) fn decode<'a>(
        &self,
        kind: &str,
        bytes: &'a [u8],
        met: &mut BTreeSet<String>,
    ) -> (Value, &'a [u8]) {
        if let Some(inner) = kind.strip_prefix("option ") {
            return match bytes[0] {
                0 => (Value::Null, &bytes[1..]),
                1 => self.decode(inner, &bytes[1..], met),
                other => panic!("{other} is no option"),
            };
        }
        if let Some(inner) = kind.strip_prefix("list of ") {
            let (count, rest) = varint(bytes);
            return self.row((0..count).map(|_| inner), rest, met);
        }
        if let Some((count, inner)) = kind.split_once(" × ") {
            let count: usize = count.parse().expect(kind);
            return self.row((0..count).map(|_| inner), bytes, met);
        }
        if let Some(inner) = kind.strip_prefix('(') {
            let inner = inner.strip_suffix(')').expect(kind);
            return self.row(inner.split(", "), bytes, met);
        }
        match kind {
            "u8" => (json!(bytes[0]), &bytes[1..]),
            "bool" => (json!(bytes[0] == 1), &bytes[1..]),
            "u16" | "u32" => {
                let (value, rest) = varint(bytes);
                (json!(value), rest)
            }
            "i16" => {
                // Zigzag: 0, -1, 1, -2, …
                let (value, rest) = varint(bytes);
                let half = i64::try_from(value >> 1).unwrap();
                (json!(if value & 1 == 0 { half } else { -half - 1 }), rest)
            }
            "f64" => {
                let (value, rest) = bytes.split_first_chunk().unwrap();
                (json!(f64::from_le_bytes(*value)), rest)
            }
            "text" => {
                let (count, rest) = varint(bytes);
                let (text, rest) = rest.split_at(count as usize);
                (json!(str::from_utf8(text).unwrap()), rest)
            }
            name => self.named(name, bytes, met),
        }
    }

    fn named<'a>(
        &self,
        name: &str,
        bytes: &'a [u8],
        met: &mut BTreeSet<String>,
    ) -> (Value, &'a [u8]) {
        match self
            .0
            .get(name)
            .unwrap_or_else(|| panic!("no table of {name}"))
        {
            Table::Structure(fields) => self.fields(fields, bytes, met),
            Table::Choice(kinds) => {
                let (number, rest) = varint(bytes);
                let (kind, carries) = &kinds[number as usize];
                met.insert(format!("{name}::{kind}"));
                if carries.is_empty() {
                    return (json!(kind), rest);
                }
                let (value, rest) = if carries.contains(':') {
                    let field = |part: &str| {
                        let (name, kind) = part.split_once(": ").unwrap();
                        (name.to_owned(), kind.to_owned())
                    };
                    let fields: Vec<_> = carries.split(", ").map(field).collect();
                    self.fields(&fields, rest, met)
                } else {
                    self.decode(carries, rest, met)
                };
                (json!({ kind.as_str(): value }), rest)
            }
        }
    }

    fn fields<'a>(
        &self,
        fields: &[(String, String)],
        mut bytes: &'a [u8],
        met: &mut BTreeSet<String>,
    ) -> (Value, &'a [u8]) {
        let mut object = Map::new();
        for (name, kind) in fields {
            let (value, rest) = self.decode(kind, bytes, met);
            object.insert(name.clone(), value);
            bytes = rest;
        }
        (Value::Object(object), bytes)
    }

    fn row<'a, 'k>(
        &self,
        kinds: impl Iterator<Item = &'k str>,
        mut bytes: &'a [u8],
        met: &mut BTreeSet<String>,
    ) -> (Value, &'a [u8]) {
        let mut row = Vec::new();
        for kind in kinds {
            let (value, rest) = self.decode(kind, bytes, met);
            row.push(value);
            bytes = rest;
        }
        (Value::Array(row), bytes)
    }
}

fn cells(row: &str) -> Vec<String> {
    row.trim_matches('|')
        .split('|')
        .map(|cell| cell.trim().replace('`', ""))
        .collect()
}

/// Seven bits a byte, the lowest first; the top bit says that more follow.
fn varint(bytes: &[u8]) -> (u64, &[u8]) {
    let last = bytes.iter().position(|byte| byte & 0x80 == 0).unwrap();
    let value = bytes[..=last]
        .iter()
        .rev()
        .fold(0, |value, byte| value << 7 | u64::from(byte & 0x7F));
    (value, &bytes[last + 1..])
}

/// Undoes a frame by the document's definition alone: COBS, then the CRC-32.
pub(crate) fn frame_to_message(frame: &[u8]) -> Vec<u8> {
    let (end, mut rest) = frame.split_last().unwrap();
    assert_eq!(*end, 0);
    let mut plain = Vec::new();
    while let Some((code, tail)) = rest.split_first() {
        assert_ne!(*code, 0, "no zero stands inside a frame");
        let (run, next) = tail.split_at(usize::from(*code) - 1);
        plain.extend_from_slice(run);
        if *code < 255 && !next.is_empty() {
            plain.push(0);
        }
        rest = next;
    }
    let (message, sum) = plain.split_last_chunk().unwrap();
    assert_eq!(crc_32(message), u32::from_le_bytes(*sum));
    message.to_vec()
}

/// Bit by bit: polynomial 04C11DB7 reflected, all ones at first and turned over at last.
pub(crate) fn crc_32(bytes: &[u8]) -> u32 {
    let mut sum = u32::MAX;
    for byte in bytes {
        sum ^= u32::from(*byte);
        for _ in 0..8 {
            let carry = if sum & 1 == 1 { 0xEDB8_8320 } else { 0 };
            sum = sum >> 1 ^ carry;
        }
    }
    !sum
}

/// Check value of CRC-32/ISO-HDLC: G. Cook, Catalogue of parametrised CRC algorithms (from memory).
#[test]
fn the_checksum_is_the_published_one() {
    assert_eq!(crc_32(b"123456789"), 0xCBF4_3926);
}

#[test]
fn varints_are_postcards() {
    // Source: postcard wire format 1, "varint(N) encoded integers" (from memory).
    for (value, bytes) in [
        (0, &[0x00][..]),
        (127, &[0x7F]),
        (128, &[0x80, 0x01]),
        (16_383, &[0xFF, 0x7F]),
        (65_535, &[0xFF, 0xFF, 0x03]),
    ] {
        assert_eq!(varint(bytes), (value, &[][..]));
    }
}
