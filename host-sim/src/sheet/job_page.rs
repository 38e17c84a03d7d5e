//! The page that hangs beside the work: one HTML file with its own style and no scripts.

use maud::{DOCTYPE, Markup, PreEscaped, html};

/// Figures large enough to read a metre off, black on white, A4 when printed.
const STYLE: &str = include_str!("job_page.css");

/// A job sheet.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct JobPage {
    /// The job's name.
    pub title: String,
    /// What the page says, in the order of the work.
    pub sections: Vec<Section>,
}

/// A part of a job sheet.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Section {
    /// Its heading.
    pub heading: String,
    /// What it holds.
    pub pieces: Vec<Piece>,
}

/// How much a caution weighs.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Weight {
    /// Worth knowing.
    Advice,
    /// The work may fail.
    Caution,
    /// Somebody may be hurt.
    Danger,
}

impl Weight {
    /// The word that is printed, so that a page without colour says the same.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Advice => "Advice",
            Self::Caution => "Caution",
            Self::Danger => "Danger",
        }
    }

    const fn class(self) -> &'static str {
        match self {
            Self::Advice => "note advice",
            Self::Caution => "note caution",
            Self::Danger => "note danger",
        }
    }
}

/// A thing in a section.
#[derive(Clone, Debug, PartialEq)]
pub enum Piece {
    /// A paragraph.
    Text(String),
    /// A table; its columns of figures are set to the right.
    Table {
        /// The columns' names.
        head: Vec<String>,
        /// The rows.
        rows: Vec<Vec<String>>,
    },
    /// Names and values, shown large.
    Facts(Vec<(String, String)>),
    /// A drawing.
    Figure {
        /// An SVG element of this crate's making: it goes into the page as it is.
        svg: String,
        /// What it shows.
        caption: String,
    },
    /// A warning.
    Caution {
        /// How much it weighs.
        weight: Weight,
        /// What it says.
        text: String,
    },
    /// A warning with what it rests on.
    Sourced {
        /// How much it weighs.
        weight: Weight,
        /// What it says.
        text: String,
        /// What it rests on.
        source: String,
    },
}

impl JobPage {
    /// The page as an HTML file.
    pub fn html(&self) -> String {
        html! {
            (DOCTYPE)
            html lang="en" {
                head {
                    meta charset="utf-8";
                    meta name="viewport" content="width=device-width, initial-scale=1";
                    title { (self.title) }
                    style { (PreEscaped(STYLE)) }
                }
                body {
                    header { h1 { (self.title) } }
                    main {
                        @for section in &self.sections {
                            section {
                                h2 { (section.heading) }
                                @for piece in &section.pieces { (show(piece)) }
                            }
                        }
                    }
                }
            }
        }
        .into_string()
    }
}

fn show(piece: &Piece) -> Markup {
    match piece {
        Piece::Text(text) => html! { p { (text) } },
        Piece::Table { head, rows } => table(head, rows),
        Piece::Facts(facts) => html! {
            dl {
                @for (name, value) in facts {
                    div { dt { (name) } dd { (value) } }
                }
            }
        },
        Piece::Figure { svg, caption } => html! {
            figure {
                (PreEscaped(bare(svg)))
                figcaption { (caption) }
            }
        },
        Piece::Caution { weight, text } => html! {
            p class=(weight.class()) role="note" { strong { (weight.word()) } " " (text) }
        },
        Piece::Sourced {
            weight,
            text,
            source,
        } => html! {
            p class=(weight.class()) role="note" {
                strong { (weight.word()) } " " (text) " " cite { "[" (source) "]" }
            }
        },
    }
}

fn table(head: &[String], rows: &[Vec<String>]) -> Markup {
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
