//! Sections as text: two spaces in, two between columns.

use std::fmt::Write as _;

use crate::report::model::{Block, Cell, Notice, Row, Section, Seen, Side, Table};

/// Signs in a line.
const WIDE: usize = 100;

/// All sections, each that says something under its heading.
#[must_use]
pub fn report(sections: &[Section]) -> String {
    sections.iter().map(section).collect()
}

fn section(section: &Section) -> String {
    let seen = section
        .blocks
        .iter()
        .filter(|(seen, _)| *seen != Seen::Sheet);
    let body: String = seen.map(|(_, one)| block(one)).collect();
    if body.is_empty() || section.title.is_empty() {
        body
    } else {
        format!("\n{}\n{body}", section.title)
    }
}

fn block(block: &Block) -> String {
    match block {
        Block::Plain(text) => format!("{text}\n"),
        Block::Line(text, None) => format!("  {text}\n"),
        Block::Line(text, Some(indent)) => format!("  {}\n", wrapped(text, WIDE, *indent)),
        Block::Facts { rows, broken, .. } => facts(rows, *broken),
        Block::Table(table) if table.bare => bare(table),
        Block::Table(table) => columns(table),
        Block::Notices(_, all) => all.iter().filter(|one| !one.told).map(notice).collect(),
        Block::Picture(..) => String::new(),
    }
}

fn notice(notice: &Notice) -> String {
    let Notice { severity, text, .. } = notice;
    match notice.source {
        Some(source) => {
            let source = wrapped(&format!("[{source}]"), WIDE, 4);
            format!("  {}\n    {source}\n", wrapped(text, WIDE, 2))
        }
        None => {
            let text = format!("{}: {text}", severity.name());
            format!("  {}\n", wrapped(&text, WIDE, 4))
        }
    }
}

fn width(text: &str) -> usize {
    text.chars().count()
}

fn widest<'a>(texts: impl Iterator<Item = &'a str>) -> usize {
    texts.map(width).fold(0, usize::max)
}

/// Whether a row is one to show.
pub(super) fn has_words(row: &Row) -> bool {
    row.iter().any(|cell| !cell.text.is_empty())
}

/// Rows under their heads.
fn columns(table: &Table) -> String {
    let heads = table.columns.iter().map(|column| column.head).collect();
    let rows = table.rows.iter().filter(|row| has_words(row));
    let rows = rows.map(|row| row.iter().map(|cell| cell.text.as_str()).collect());
    let lines: Vec<Vec<&str>> = std::iter::once(heads).chain(rows).collect();
    let widths: Vec<usize> = (0..table.columns.len())
        .map(|place| widest(lines.iter().filter_map(|line| line.get(place).copied())))
        .collect();
    let mut text = String::new();
    for line in &lines {
        let mut written = String::from(" ");
        for ((cell, column), wide) in line.iter().zip(&table.columns).zip(&widths) {
            let pad = wide - width(cell);
            let (before, after) = match column.side {
                Side::Left => (0, pad),
                Side::Right => (pad, 0),
            };
            let _ = write!(written, " {:before$}{cell}{:after$} ", "", "");
        }
        text.push_str(written.trim_end());
        text.push('\n');
    }
    text
}

/// Names and values, one to a line.
fn facts(rows: &[(&str, Cell)], broken: bool) -> String {
    let wide = widest(rows.iter().map(|(name, _)| *name));
    let mut text = String::new();
    for (name, cell) in rows {
        let value = if broken {
            hanging(&cell.text, wide + 4)
        } else {
            cell.text.clone()
        };
        let pad = wide - width(name);
        let _ = writeln!(text, "  {name}{:pad$}  {value}", "");
    }
    text
}

/// Rows without heads, the last column broken into lines.
fn bare(table: &Table) -> String {
    let texts = |place: usize| {
        let cells = table.rows.iter().filter_map(move |row| row.get(place));
        cells.map(|cell| cell.text.as_str())
    };
    let last = table.columns.len().saturating_sub(1);
    let widths: Vec<usize> = (0..last).map(|place| widest(texts(place))).collect();
    let indent = widths.iter().map(|wide| wide + 2).sum::<usize>() + 2;
    let mut text = String::new();
    for row in &table.rows {
        text.push_str("  ");
        for (cell, wide) in row.iter().zip(&widths) {
            let pad = wide - width(&cell.text);
            let _ = write!(text, "{}{:pad$}  ", cell.text, "");
        }
        let value = row.get(last).map_or("", |cell| &cell.text);
        let _ = writeln!(text, "{}", hanging(value, indent));
    }
    text
}

/// A text that starts `indent` in, its later lines under its first.
#[must_use]
pub fn hanging(text: &str, indent: usize) -> String {
    wrapped(text, WIDE.saturating_sub(indent), 0).replace('\n', &format!("\n{:indent$}", ""))
}

/// A text broken into lines of at most `most` signs, the second and later ones `indent` in.
fn wrapped(text: &str, most: usize, indent: usize) -> String {
    let mut lines = String::new();
    let mut used = 0;
    for word in text.split_whitespace() {
        let wide = width(word);
        if used > 0 && used + 1 + wide > most {
            let _ = write!(lines, "\n{:indent$}", "");
            used = indent;
        } else if used > 0 {
            lines.push(' ');
            used += 1;
        }
        lines.push_str(word);
        used += wide;
    }
    lines
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::report::model::{left, right};

    #[test]
    fn columns_line_up_by_signs_not_bytes() {
        let rows = [["A", "90.0°"], ["BC", "135.0°"]];
        let rows = rows.map(|row| row.map(Cell::from));
        let table = Table::new([left("mark"), right("angle")], rows);
        assert_eq!(
            columns(&table),
            "  mark   angle\n  A      90.0°\n  BC    135.0°\n"
        );
    }

    #[test]
    fn long_texts_are_broken_between_words() {
        assert_eq!(wrapped("one two three", 8, 2), "one two\n  three");
        assert_eq!(wrapped("", 8, 2), "");
    }
}
