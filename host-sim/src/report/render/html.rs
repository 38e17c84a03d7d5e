//! Sections as the job sheet that hangs beside the work: one HTML file with its own style and no scripts.

use maud::{DOCTYPE, Markup, PreEscaped, html};
use seamwright_core::advice::notice::Severity;

use super::text::has_words;
use crate::report::model::{Block, Cell, Notice, Section, Seen, Table};

/// Figures large enough to read a metre off, black on white, A4 when printed.
const STYLE: &str = include_str!("page.css");

/// The page as an HTML file.
#[must_use]
pub fn page(title: &str, sections: &[Section]) -> String {
    html! {
        (DOCTYPE)
        html lang="en" {
            head {
                meta charset="utf-8";
                meta name="viewport" content="width=device-width, initial-scale=1";
                title { (title) }
                style { (PreEscaped(STYLE)) }
            }
            body {
                header { h1 { (title) } }
                main {
                    @for section in sections {
                        section {
                            h2 { (section.sheet) }
                            @for (seen, block) in &section.blocks {
                                @if *seen != Seen::Report { (show(block)) }
                            }
                        }
                    }
                }
            }
        }
    }
    .into_string()
}

fn show(block: &Block) -> Markup {
    match block {
        Block::Plain(text) | Block::Line(text, _) => html! { p { (text) } },
        Block::Facts {
            rows, head: None, ..
        } => html! {
            dl {
                @for (name, cell) in rows {
                    div { dt { (name) } dd { (on_sheet(cell)) } }
                }
            }
        },
        Block::Facts {
            rows,
            head: Some(head),
            ..
        } => {
            let rows = rows.iter().map(|(name, cell)| vec![*name, on_sheet(cell)]);
            table(&["", head], &rows.collect::<Vec<_>>())
        }
        Block::Table(table) => of_table(table),
        Block::Notices(_, all) => html! {
            @for one in all.iter().filter(|one| !one.told) { (notice(one)) }
        },
        Block::Picture(svg, caption) => html! {
            figure {
                (PreEscaped(bare(svg)))
                figcaption { (caption) }
            }
        },
    }
}

/// The word is printed, so that a page without colour says the same.
fn notice(notice: &Notice) -> Markup {
    let (word, class) = match notice.severity {
        Severity::Info => ("Advice", "note advice"),
        Severity::Caution => ("Caution", "note caution"),
        Severity::Warning => ("Danger", "note danger"),
    };
    html! {
        p class=(class) role="note" {
            strong { (word) } " " (notice.text)
            @if let Some(source) = notice.source { " " cite { "[" (source) "]" } }
        }
    }
}

fn on_sheet(cell: &Cell) -> &str {
    cell.sheet.as_ref().unwrap_or(&cell.text)
}

fn of_table(whole: &Table) -> Markup {
    let columns = whole.columns.iter().enumerate();
    let (places, heads): (Vec<usize>, Vec<&str>) = columns
        .filter_map(|(place, column)| Some((place, column.sheet?)))
        .unzip();
    let rows = whole.rows.iter().filter(|row| has_words(row));
    let rows: Vec<Vec<&str>> = rows
        .map(|row| {
            let cells = places.iter().map(|place| row.get(*place));
            cells.map(|cell| cell.map_or("", on_sheet)).collect()
        })
        .collect();
    table(&heads, &rows)
}

/// A table; its columns of figures are set to the right.
fn table(head: &[&str], rows: &[Vec<&str>]) -> Markup {
    let numbers: Vec<bool> = (0..head.len())
        .map(|column| {
            let mut cells = rows.iter().filter_map(|row| row.get(column)).peekable();
            cells.peek().is_some() && cells.all(|cell| is_figure(cell))
        })
        .collect();
    let class = |column: usize| {
        let figures = numbers.get(column).copied().unwrap_or(false);
        figures.then_some("figure")
    };
    html! {
        table {
            thead {
                tr {
                    @for (column, name) in head.iter().enumerate() {
                        th scope="col" class=[class(column)] { (name) }
                    }
                }
            }
            tbody {
                @for row in rows {
                    tr {
                        @for (column, cell) in row.iter().enumerate() {
                            td class=[class(column)] { (cell) }
                        }
                    }
                }
            }
        }
    }
}

/// Whether a cell begins as a number does, or is empty.
fn is_figure(cell: &str) -> bool {
    let cell = cell
        .trim()
        .trim_start_matches(['-', '−', '+', '±', '<', '>', '≤', '≥']);
    cell.is_empty() || cell.starts_with(|sign: char| sign.is_ascii_digit())
}

/// An SVG file without the line that says it is XML, which HTML does not know.
fn bare(svg: &str) -> &str {
    let svg = svg.trim();
    match svg
        .strip_prefix("<?xml")
        .and_then(|rest| rest.split_once("?>"))
    {
        Some((_, rest)) => rest.trim_start(),
        None => svg,
    }
}
