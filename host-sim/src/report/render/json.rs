//! Sections as one JSON object.

use serde_json::{Value, json};

use crate::report::model::{Block, Data, Notice, Row, Section, Table};

/// The object of all sections, each at its place.
#[must_use]
pub fn object(sections: &[Section]) -> Value {
    let mut whole = Data::new();
    for section in sections.iter().filter(|one| !one.words_only) {
        let mut data = section.data.clone();
        for (_, block) in &section.blocks {
            put(&mut data, block);
        }
        let nested = section.place.iter().rev().fold(data, |inner, key| {
            Data::from_iter([((*key).to_owned(), Value::Object(inner))])
        });
        merge(&mut whole, nested);
    }
    Value::Object(whole)
}

/// Adds keys; an object that both have becomes one of all their keys.
fn merge(into: &mut Data, from: Data) {
    for (key, value) in from {
        match (into.get_mut(&key), value) {
            (Some(Value::Object(known)), Value::Object(more)) => merge(known, more),
            (_, value) => {
                into.insert(key, value);
            }
        }
    }
}

fn put(data: &mut Data, block: &Block) {
    match block {
        Block::Facts { rows, .. } => {
            for (_, cell) in rows {
                merge(data, cell.data.clone());
            }
        }
        Block::Table(table) => match table.key {
            Some(key) => {
                data.insert(key.to_owned(), list(table));
            }
            None => table.rows.iter().for_each(|row| merge(data, of_row(row))),
        },
        Block::Notices(Some(key), all) => {
            data.insert((*key).to_owned(), all.iter().map(notice).collect());
        }
        Block::Notices(None, _) | Block::Plain(_) | Block::Line(..) | Block::Picture(..) => {}
    }
}

/// The rows of a table as a list of objects.
#[must_use]
pub fn list(table: &Table) -> Value {
    let rows = table.rows.iter().map(of_row);
    rows.map(Value::Object).collect()
}

fn of_row(row: &Row) -> Data {
    let mut data = Data::new();
    for cell in row {
        merge(&mut data, cell.data.clone());
    }
    data
}

fn notice(notice: &Notice) -> Value {
    let mut data = Data::new();
    let mut put = |key: &str, text: &str| data.insert(key.to_owned(), json!(text));
    put("code", notice.code);
    put("text", &notice.text);
    match notice.source {
        Some(source) => put("source", source),
        None => put("severity", notice.severity.name()),
    };
    Value::Object(data)
}
