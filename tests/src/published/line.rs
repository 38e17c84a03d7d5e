//! A line of the page: a figure there and here, and how far they are apart.

use super::Basis;

/// How far ours is off.
#[derive(Clone, Copy, Debug)]
pub(super) enum Off {
    /// By a share of the printed figure.
    Share(f64),
    /// By an amount, where zero is printed.
    Amount(f64),
    /// By a share that is meant to lie in a band.
    Band { share: f64, least: f64, most: f64 },
    /// One lies within the other's range.
    Within,
    /// Words agree.
    Agrees,
}

/// Differences below this share are those of the last digits of a double.
const NONE: f64 = 5e-10;

impl Off {
    pub(super) fn by(got: f64, expected: f64) -> Self {
        if expected == 0.0 {
            Self::Amount(got)
        } else {
            Self::Share(got / expected - 1.0)
        }
    }

    /// How bad it is, to pick the worst of a kind.
    fn size(self) -> f64 {
        match self {
            Self::Share(share) | Self::Band { share, .. } => share.abs(),
            Self::Amount(amount) => amount.abs(),
            Self::Within | Self::Agrees => 0.0,
        }
    }

    /// Whether it is the worse of two by more than the last digits of a double, which differ from machine to machine.
    fn is_worse_than(self, other: Self) -> bool {
        self.size() > NONE && self.size() > other.size() * (1.0 + 1e-6)
    }

    fn text(self) -> String {
        match self {
            Self::Share(share) if share.abs() < NONE => "none".to_owned(),
            Self::Share(share) => percent(share),
            Self::Amount(amount) if amount.abs() < NONE => "none".to_owned(),
            Self::Amount(amount) => figures(amount),
            Self::Band { share, least, most } => format!(
                "{}, meant {} to {}",
                percent(share),
                percent(least),
                percent(most)
            ),
            Self::Within => "within".to_owned(),
            Self::Agrees => "agrees".to_owned(),
        }
    }
}

/// A line of the page.
#[derive(Clone, Debug)]
pub struct Line {
    pub(super) figure: String,
    pub(super) source: String,
    pub(super) row: Option<String>,
    pub(super) basis: Basis,
    pub(super) there: String,
    pub(super) here: String,
    pub(super) off: Off,
    /// How many figures of the same name it is the worst of.
    pub(super) of: u32,
}

impl Line {
    /// One line for all figures of the same name: the worst.
    pub(super) fn worst_of_each(lines: Vec<Self>) -> Vec<Self> {
        let mut all: Vec<Self> = Vec::new();
        for line in lines {
            let like = |other: &&mut Self| {
                other.figure == line.figure && other.row == line.row && other.source == line.source
            };
            match all.iter_mut().find(like) {
                Some(other) => {
                    let of = other.of + 1;
                    if line.off.is_worse_than(other.off) {
                        *other = line;
                    }
                    other.of = of;
                }
                None => all.push(line),
            }
        }
        all
    }

    /// As a line of a table.
    pub(super) fn text(&self) -> String {
        let mut figure = plain(&self.figure);
        if self.of > 1 {
            figure.push_str(&format!(" (worst of {})", self.of));
        }
        if let Some(row) = &self.row {
            figure.push_str(&format!(" `{row}`"));
        }
        let cells = [
            figure,
            plain(&shown(&self.source)),
            plain(&self.there),
            plain(&self.here),
            self.off.text(),
            self.basis.text().to_owned(),
        ];
        format!("| {} |", cells.join(" | "))
    }
}

/// What of a source's text the page has: up to the first semicolon, past which rows keep notes, and without the numbers
/// that its list of sources had.
fn shown(source: &str) -> String {
    let mut open = 0_i32;
    let end = source.find(|sign: char| {
        open += i32::from(sign == '(') - i32::from(sign == ')');
        sign == ';' && open == 0
    });
    let first = &source[..end.unwrap_or(source.len())];
    let mut text = String::new();
    let mut rest = first;
    while let Some(at) = rest.find(" (S") {
        let (before, after) = rest.split_at(at);
        text.push_str(before);
        let numbered = after.as_bytes().get(3).is_some_and(u8::is_ascii_digit);
        match after.find(')') {
            Some(end) if numbered => rest = &after[end + 1..],
            _ => {
                text.push_str(" (S");
                rest = &after[3..];
            }
        }
    }
    text.push_str(rest);
    text.trim().to_owned()
}

/// Signs that Markdown takes for its own, made plain; a bar would end the cell.
fn plain(text: &str) -> String {
    let mut plain = String::new();
    for sign in text.chars() {
        match sign {
            '|' => plain.push('/'),
            '*' | '_' | '<' | '[' | ']' | '`' => plain.extend(['\\', sign]),
            _ => plain.push(sign),
        }
    }
    plain
}

/// A number to five figures.
pub(super) fn figures(value: f64) -> String {
    rounded(value, 4)
}

/// A share in percent to two figures, with its sign.
fn percent(share: f64) -> String {
    let sign = if share > 0.0 { "+" } else { "" };
    format!("{sign}{} %", rounded(100.0 * share, 1))
}

/// With so many digits behind the first that counts, zeros at the end left out.
fn rounded(value: f64, behind: usize) -> String {
    let text = format!("{value:.behind$e}");
    let Some((mantissa, exponent)) = text.split_once('e') else {
        return text;
    };
    let exponent: i32 = exponent.parse().unwrap_or_default();
    if value == 0.0 {
        return "0".to_owned();
    }
    if (-4..6).contains(&exponent) {
        let decimals = usize::try_from(behind as i32 - exponent).unwrap_or_default();
        // Rounded once, by its own digits: 12345.6 to five is 12346.
        return short(&format!("{value:.decimals$}")).to_owned();
    }
    format!("{}e{exponent}", short(mantissa))
}

/// Without zeros at the end of decimals.
fn short(text: &str) -> &str {
    if text.contains('.') {
        text.trim_end_matches('0').trim_end_matches('.')
    } else {
        text
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_are_short() {
        let all = [
            (0.0, "0"),
            (1.0, "1"),
            (0.453_000_01, "0.453"),
            (12_345.6, "12346"),
            (28e6, "2.8e7"),
            (-0.033_436_637, "-0.033437"),
            (1.778_006_232e-5, "1.778e-5"),
            (0.99999999, "1"),
        ];
        for (value, text) in all {
            assert_eq!(figures(value), text);
        }
        assert_eq!(percent(0.012_34), "+1.2 %");
        assert_eq!(percent(-3.2e-9), "-3.2e-7 %");
    }

    #[test]
    fn a_source_loses_its_notes_and_numbers() {
        assert_eq!(shown("AWS D1.2 (S12); read (Steel too)"), "AWS D1.2");
        assert_eq!(shown("Tables (S1,S2) of (Smith)"), "Tables of (Smith)");
        assert_eq!(shown("A book (one; two); notes"), "A book (one; two)");
    }

    #[test]
    fn the_worst_of_a_kind_stands_for_all() {
        let line = |figure: &str, share| Line {
            figure: figure.to_owned(),
            source: "a table".to_owned(),
            row: None,
            basis: Basis::Seen,
            there: "1".to_owned(),
            here: "1".to_owned(),
            off: Off::Share(share),
            of: 1,
        };
        let all = Line::worst_of_each(vec![
            line("mass | of one", 0.01),
            line("length", 0.0),
            line("mass | of one", -0.02),
            line("mass | of one", 0.02 + 1e-12),
            line("mass | of one", 0.015),
        ]);
        let texts: Vec<String> = all.iter().map(Line::text).collect();
        assert_eq!(
            texts,
            [
                "| mass / of one (worst of 4) | a table | 1 | 1 | -2 % | seen |",
                "| length | a table | 1 | 1 | none | seen |"
            ]
        );
    }
}
