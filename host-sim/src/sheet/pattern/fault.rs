//! What makes a piece unfit to be drawn.

use std::error::Error;
use std::fmt;

use super::{Draft, LEAST_AREA, LEAST_LENGTH, MOST_BULGE, MOST_SIGNS, REACH};

/// The limit that a value broke.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Limit {
    /// A finite number at most so far from zero.
    Within(f64),
    /// A finite number from the first to the second.
    Between(f64, f64),
    /// At least so many.
    AtLeast(f64),
    /// A text of 1 to so many signs.
    Signs(usize),
    /// A text without tabs, line ends and other control characters.
    OneLine,
    /// An anticlockwise outline of at least [`LEAST_AREA`].
    Anticlockwise,
}

/// A field of a piece, its value, and the limit that it broke.
#[derive(Clone, Debug, PartialEq)]
pub struct Fault {
    /// The piece's mark, as far as it has one.
    pub mark: String,
    /// The field, counted from 1 where there are several.
    pub field: String,
    /// Its value; of a text the number of signs.
    pub value: f64,
    /// What it must be.
    pub limit: Limit,
}

impl Fault {
    pub(super) fn new(mark: &str, field: impl Into<String>, value: f64, limit: Limit) -> Self {
        Self {
            mark: mark.chars().filter(|sign| !sign.is_control()).collect(),
            field: field.into(),
            value,
            limit,
        }
    }
}

impl fmt::Display for Fault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let Self {
            mark, field, value, ..
        } = self;
        write!(f, "piece \"{mark}\", {field}: ")?;
        match self.limit {
            Limit::Within(most) => write!(f, "{value} is not a number within ±{most}"),
            Limit::Between(low, high) => write!(f, "{value} is not from {low} to {high}"),
            Limit::AtLeast(least) => write!(f, "{value} is under {least}"),
            Limit::Signs(most) => write!(f, "{value} signs; it needs 1 to {most}"),
            Limit::OneLine => f.write_str("holds a tab, line end or other control character"),
            Limit::Anticlockwise => write!(
                f,
                "{value} is under {LEAST_AREA}; the outline must enclose an area, anticlockwise"
            ),
        }
    }
}

impl Error for Fault {}

struct Checker<'a> {
    mark: &'a str,
}

impl Checker<'_> {
    fn fault(&self, field: impl Into<String>, value: f64, limit: Limit) -> Fault {
        Fault::new(self.mark, field, value, limit)
    }

    fn within(&self, field: &str, value: f64, most: f64) -> Result<(), Fault> {
        if value.is_finite() && value.abs() <= most {
            return Ok(());
        }
        Err(self.fault(field, value, Limit::Within(most)))
    }

    fn size(&self, field: &str, value: f64) -> Result<(), Fault> {
        if (LEAST_LENGTH..=REACH).contains(&value) {
            return Ok(());
        }
        Err(self.fault(field, value, Limit::Between(LEAST_LENGTH, REACH)))
    }

    fn point(&self, field: &str, [x, y]: [f64; 2]) -> Result<(), Fault> {
        self.within(&format!("{field}, x"), x, REACH)?;
        self.within(&format!("{field}, y"), y, REACH)
    }

    fn line(&self, field: &str, [a, b]: [[f64; 2]; 2]) -> Result<(), Fault> {
        self.point(&format!("{field}, start"), a)?;
        self.point(&format!("{field}, end"), b)?;
        let long = (b[0] - a[0]).hypot(b[1] - a[1]);
        if long < LEAST_LENGTH {
            let field = format!("{field}, length");
            return Err(self.fault(field, long, Limit::AtLeast(LEAST_LENGTH)));
        }
        Ok(())
    }

    fn text(&self, field: &str, text: &str) -> Result<(), Fault> {
        let signs = u32::try_from(text.chars().count()).map_or(f64::INFINITY, f64::from);
        if text.chars().count() > MOST_SIGNS {
            return Err(self.fault(field, signs, Limit::Signs(MOST_SIGNS)));
        }
        // The last two cannot stand in XML.
        let unfit = |sign: char| sign.is_control() || matches!(sign, '\u{fffe}' | '\u{ffff}');
        if text.chars().any(unfit) {
            return Err(self.fault(field, signs, Limit::OneLine));
        }
        Ok(())
    }

    fn words(&self, field: &str, text: &str) -> Result<(), Fault> {
        if text.trim().is_empty() {
            return Err(self.fault(field, 0.0, Limit::Signs(MOST_SIGNS)));
        }
        self.text(field, text)
    }
}

/// All limits but that of the area.
pub(super) fn check(draft: &Draft) -> Result<(), Fault> {
    let checker = Checker { mark: &draft.mark };
    checker.words("mark", &draft.mark)?;
    checker.text("title", &draft.title)?;
    if draft.outline.len() < 2 {
        let count = if draft.outline.is_empty() { 0.0 } else { 1.0 };
        return Err(checker.fault("outline points", count, Limit::AtLeast(2.0)));
    }
    let next = draft.outline.iter().cycle().skip(1);
    for ((count, node), next) in (1..).zip(&draft.outline).zip(next) {
        let field = format!("outline point {count}");
        let here = [node.x, node.y];
        checker.point(&field, here)?;
        checker.within(&format!("{field}, bulge"), node.bulge, MOST_BULGE)?;
        checker.line(&format!("outline edge {count}"), [here, [next.x, next.y]])?;
    }
    for (count, hole) in (1..).zip(&draft.holes) {
        checker.point(&format!("hole {count}"), hole.at)?;
        checker.size(&format!("hole {count}, diameter"), hole.diameter)?;
        checker.text(&format!("hole {count}, label"), &hole.label)?;
    }
    for (count, bend) in (1..).zip(&draft.bends) {
        checker.line(&format!("bend {count}"), bend.ends)?;
        checker.text(&format!("bend {count}, label"), &bend.label)?;
    }
    for (count, line) in (1..).zip(&draft.lines) {
        checker.line(&format!("mark line {count}"), line.ends)?;
    }
    for (count, note) in (1..).zip(&draft.notes) {
        checker.point(&format!("note {count}"), note.at)?;
        checker.size(&format!("note {count}, height"), note.height)?;
        checker.within(&format!("note {count}, angle"), note.angle_deg, 360.0)?;
        checker.words(&format!("note {count}, text"), &note.text)?;
    }
    Ok(())
}
