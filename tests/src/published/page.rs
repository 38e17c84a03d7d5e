//! The page of all checks against published figures, `host-sim/docs/checks.md`.
//!
//! Each program of tests has a part of it, between two marks, and makes that part from what its checks tell; the count
//! at the head is of the page's own lines. A part that is not as it comes out fails its program, unless it is to be
//! rewritten: `SEAMWRIGHT_REWRITE_CHECKS=1 cargo test -p seamwright-tests the_page_of_checks`.

use std::path::{Path, PathBuf};

use super::line::Line;
use super::{Basis, told_by};
use crate::Outcome;

/// Checks of one kind, with what the page says above their table.
#[derive(Clone, Copy, Debug)]
pub struct Subject {
    /// The heading.
    pub title: &'static str,
    /// What it is that is checked.
    pub about: &'static str,
    /// The checks, in the order of their lines.
    pub checks: &'static [fn() -> Outcome],
}

/// The page.
#[must_use]
pub fn path() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../host-sim/docs/checks.md")
}

/// Holds a program's part of the page to what its checks tell, or rewrites it.
///
/// # Errors
/// What a check found, or the first line of the page that is not as it comes out.
pub fn hold(part: &str, subjects: &[Subject]) -> Outcome {
    let stands = std::fs::read_to_string(path())?;
    let page = with_part(&stands, part, &told(subjects)?)?;
    let page = with_head(&page)?;
    if std::env::var_os("SEAMWRIGHT_REWRITE_CHECKS").is_some() {
        std::fs::write(path(), page)?;
        return Ok(());
    }
    let mut pairs = page.lines().zip(stands.lines()).enumerate();
    let differs = pairs.find(|(_, (ours, theirs))| ours != theirs);
    match differs {
        _ if page == stands => Ok(()),
        Some((n, (ours, theirs))) => Err(format!(
            "host-sim/docs/checks.md, line {}:\n{theirs}\ncomes out as\n{ours}\n(SEAMWRIGHT_REWRITE_CHECKS=1 rewrites it)",
            n + 1
        )
        .into()),
        None => Err("host-sim/docs/checks.md ends elsewhere (SEAMWRIGHT_REWRITE_CHECKS=1 rewrites it)".into()),
    }
}

/// The text of a part.
fn told(subjects: &[Subject]) -> Outcome<String> {
    let mut text = String::new();
    for subject in subjects {
        let lines = told_by(|| subject.checks.iter().try_for_each(|check| check()))?;
        if lines.is_empty() {
            return Err(format!("{}: its checks tell nothing", subject.title).into());
        }
        text.push_str(&format!(
            "\n## {}\n\n{}\n\n{TOP}\n",
            subject.title, subject.about
        ));
        for line in Line::worst_of_each(lines) {
            text.push_str(&line.text());
            text.push('\n');
        }
    }
    text.push('\n');
    Ok(text)
}

const TOP: &str = "| Figure | Source | There | Here | Off | Seen |\n|---|---|---|---|---|---|";

/// Puts `text` between two marks.
fn with_part(page: &str, part: &str, text: &str) -> Result<String, String> {
    let (from, to) = (
        format!("<!-- {part} -->\n"),
        format!("<!-- end of {part} -->"),
    );
    let (before, rest) = page
        .split_once(&from)
        .ok_or_else(|| format!("the page has no {from}"))?;
    let (_, after) = rest
        .split_once(&to)
        .ok_or_else(|| format!("the page has no {to}"))?;
    Ok(format!("{before}{from}{text}{to}{after}"))
}

/// What the head says of a subject.
#[derive(Default)]
struct Count {
    title: String,
    of: [usize; Basis::ALL.len()],
    /// The largest share in percent, as it is printed, and the largest of those that are meant.
    worst: [Option<(f64, String)>; 2],
}

/// Counts the lines of the page's tables.
fn counts(page: &str) -> Result<Vec<Count>, String> {
    let mut all: Vec<Count> = Vec::new();
    for line in page.lines() {
        if let Some(title) = line.strip_prefix("## ") {
            all.push(Count {
                title: title.to_owned(),
                ..Count::default()
            });
        }
        let cells: Vec<&str> = line.split('|').map(str::trim).collect();
        let [_, _, _, _, _, off, seen, _] = cells[..] else {
            continue;
        };
        let Some(basis) = Basis::ALL.iter().position(|one| one.text() == seen) else {
            continue;
        };
        let count = all.last_mut().ok_or("a line stands before all headings")?;
        count.of[basis] += 1;
        if let Some((share, _)) = off.split_once(" %") {
            let share: f64 = share.parse().map_err(|no| format!("{off}: {no}"))?;
            let [plain, meant] = &mut count.worst;
            let worst = if off.contains("meant") { meant } else { plain };
            let further = |(other, _): &(f64, String)| share.abs() > other.abs();
            if worst.as_ref().is_none_or(further) {
                let (shown, _) = off.split_once(',').unwrap_or((off, ""));
                *worst = Some((share, shown.to_owned()));
            }
        }
    }
    all.retain(|count| count.of.iter().any(|of| *of > 0));
    Ok(all)
}

/// Puts the count of its lines at the head of a page.
fn with_head(page: &str) -> Result<String, String> {
    let all = counts(page)?;
    let mut text = String::from("\n| Subject | Lines |");
    for basis in Basis::ALL {
        text.push_str(&format!(" {} |", basis.text()));
    }
    text.push_str(" furthest off | furthest where meant |\n|---|---|---|---|---|---|---|---|\n");
    let mut all_of = Count {
        title: "All".to_owned(),
        ..Count::default()
    };
    for count in &all {
        for (sum, of) in all_of.of.iter_mut().zip(count.of) {
            *sum += of;
        }
        for (furthest, worst) in all_of.worst.iter_mut().zip(&count.worst) {
            let share = |one: &Option<(f64, String)>| one.as_ref().map_or(0.0, |one| one.0.abs());
            if share(worst) > share(furthest) {
                furthest.clone_from(worst);
            }
        }
    }
    for count in all.iter().chain([&all_of]) {
        let lines: usize = count.of.iter().sum();
        let of = count.of.map(|of| of.to_string()).join(" | ");
        let worst = count.worst.each_ref();
        let [plain, meant] = worst.map(|worst| worst.as_ref().map_or("none", |(_, text)| text));
        let title = &count.title;
        text.push_str(&format!(
            "| {title} | {lines} | {of} | {plain} | {meant} |\n"
        ));
    }
    text.push('\n');
    with_part(page, "count", &text)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::near::Tolerance;
    use crate::published::{from_memory, seen};

    const PAGE: &str = "# Checks\n\n<!-- count -->\n<!-- end of count -->\n\n<!-- made up -->\n<!-- end of made up -->\nEnd.\n";

    fn good() -> Outcome {
        seen("a table").near("A figure", 2.002, 2.0, Tolerance::relative(0.01))?;
        from_memory("a book").near("Another", 1.0, 1.0, Tolerance::absolute(0.0))?;
        Ok(())
    }

    fn bad() -> Outcome {
        seen("a table").near("A figure", 2.2, 2.0, Tolerance::relative(0.01))?;
        Ok(())
    }

    fn subject(checks: &'static [fn() -> Outcome]) -> Subject {
        Subject {
            title: "Made up",
            about: "About it.",
            checks,
        }
    }

    #[test]
    fn a_part_is_what_its_checks_tell() {
        let text = told(&[subject(&[good])]).unwrap();
        let page = with_head(&with_part(PAGE, "made up", &text).unwrap()).unwrap();
        assert!(
            page.contains("\n## Made up\n\nAbout it.\n\n| Figure |"),
            "{page}"
        );
        assert!(
            page.contains("\n| A figure | a table | 2 | 2.002 | +0.1 % | seen |\n"),
            "{page}"
        );
        assert!(
            page.contains("\n| Made up | 2 | 1 | 1 | 0 | 0 | +0.1 % | none |\n"),
            "{page}"
        );
        assert!(page.ends_with("<!-- end of made up -->\nEnd.\n"), "{page}");
        // Once more changes nothing.
        let again = with_head(&with_part(&page, "made up", &text).unwrap()).unwrap();
        assert_eq!(again, page);
    }

    #[test]
    fn a_check_that_fails_names_figure_and_source() {
        let told = told(&[subject(&[good, bad])]).unwrap_err().to_string();
        assert!(
            told.starts_with("A figure (no row, a table): got 2.2, expected 2.0"),
            "{told}"
        );
        assert!(self::told(&[subject(&[])]).is_err());
        assert!(with_part(PAGE, "gone", "").is_err());
    }

    #[test]
    fn nothing_is_kept_while_no_page_is_made() {
        good().unwrap();
        assert!(told_by(|| Ok::<(), String>(())).unwrap().is_empty());
    }
}
