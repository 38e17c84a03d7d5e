//! Columns that line up.

use std::fmt::Write as _;

/// How a column stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Side {
    Left,
    Right,
}

/// Rows under their heads, two spaces in, two between columns.
pub(super) fn table<const N: usize>(heads: [(&str, Side); N], rows: &[[String; N]]) -> String {
    let width = |text: &str| text.chars().count();
    let widths: [usize; N] = std::array::from_fn(|column| {
        let head = heads.get(column).map_or(0, |(head, _)| width(head));
        rows.iter()
            .filter_map(|row| row.get(column))
            .map(|cell| width(cell))
            .fold(head, usize::max)
    });
    let mut text = String::new();
    let heads_row = heads.map(|(head, _)| head.to_owned());
    for row in std::iter::once(&heads_row).chain(rows) {
        let mut line = String::from(" ");
        for ((cell, (_, side)), wide) in row.iter().zip(heads).zip(widths) {
            let pad = wide.saturating_sub(width(cell));
            let (before, after) = match side {
                Side::Left => (0, pad),
                Side::Right => (pad, 0),
            };
            let _ = write!(line, " {:before$}{cell}{:after$} ", "", "");
        }
        text.push_str(line.trim_end());
        text.push('\n');
    }
    text
}

/// A name and its figures, one to a line; each broken by `broken`, which is told how far in it stands.
pub(super) fn facts(rows: &[(&str, String)], broken: impl Fn(&str, usize) -> String) -> String {
    let names = rows.iter().map(|(name, _)| name.chars().count());
    let wide = names.fold(0, usize::max);
    let mut text = String::new();
    for (name, value) in rows {
        let pad = wide - name.chars().count();
        let value = broken(value, wide + 4);
        let _ = writeln!(text, "  {name}{:pad$}  {value}", "");
    }
    text
}

/// A text broken into lines of at most `most` signs, the second and later ones `indent` in.
pub(super) fn wrapped(text: &str, most: usize, indent: usize) -> String {
    let mut lines = String::new();
    let mut used = 0;
    for word in text.split_whitespace() {
        let wide = word.chars().count();
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

    #[test]
    fn columns_line_up_by_signs_not_bytes() {
        let rows = [
            ["A".to_owned(), "90.0°".to_owned()],
            ["BC".to_owned(), "135.0°".to_owned()],
        ];
        let text = table([("mark", Side::Left), ("angle", Side::Right)], &rows);
        assert_eq!(text, "  mark   angle\n  A      90.0°\n  BC    135.0°\n");
    }

    #[test]
    fn long_texts_are_broken_between_words() {
        assert_eq!(wrapped("one two three", 8, 2), "one two\n  three");
        assert_eq!(wrapped("", 8, 2), "");
    }
}
