//! Pieces at full size on office paper.
//!
//! A piece larger than a page runs over several that overlap: printed, laid over each other on their
//! crosses and taped, they make the whole. The file asks viewers not to scale it (`PrintScaling`
//! `None`, ISO 32000-1, 12.2), and because not every one obeys, each page carries two bars of 100 mm to
//! measure before anything is cut. The first page maps the others.
//!
//! Words use the fonts that every viewer has, which know western European letters; others are spelt
//! with those. The document's title keeps every sign.

mod grid;
mod marks;
mod page;
mod pen;

use std::error::Error;
use std::fmt;

use pdf_writer::types::PageLayout;
use pdf_writer::{Finish as _, Name, Pdf, Rect, Ref, TextStr};

use self::grid::Grid;
use self::page::{CELLS, overview, sheet};
use self::pen::{BOLD, PLAIN, points};
use super::pattern::Pattern;

/// The most pages in one file.
pub const MOST_PAGES: usize = 500;
/// The least and largest margin, mm: office printers leave some 4 to 6 mm blank.
pub const MARGIN: [f64; 2] = [4.0, 25.0];
/// The least and largest overlap of pages, mm.
pub const OVERLAP: [f64; 2] = [8.0, 30.0];
/// Length of the bars to measure, mm.
pub const BAR: f64 = 100.0;

/// A size of paper.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Paper {
    /// 210 by 297 mm (ISO 216).
    A4,
    /// 8½ by 11 inches (ANSI/ASME Y14.1, size A).
    Letter,
}

impl Paper {
    /// Width and height upright, mm.
    pub const fn size(self) -> [f64; 2] {
        match self {
            Self::A4 => [210.0, 297.0],
            Self::Letter => [215.9, 279.4],
        }
    }
}

/// How to print.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Print {
    paper: Paper,
    margin: f64,
    overlap: f64,
}

impl Print {
    /// Paper, the margin that the printer leaves blank, and how much neighbouring pages share, mm.
    ///
    /// # Errors
    /// A margin outside [`MARGIN`], an overlap outside [`OVERLAP`].
    pub fn build(paper: Paper, margin: f64, overlap: f64) -> Result<Self, Fault> {
        for (field, value, limits) in [("margin", margin, MARGIN), ("overlap", overlap, OVERLAP)] {
            if !(limits[0]..=limits[1]).contains(&value) {
                return Err(Fault::Setting {
                    field,
                    value,
                    limits,
                });
            }
        }
        Ok(Self {
            paper,
            margin,
            overlap,
        })
    }

    /// The paper.
    pub const fn paper(&self) -> Paper {
        self.paper
    }

    /// The margin, mm.
    pub const fn margin(&self) -> f64 {
        self.margin
    }

    /// The overlap, mm.
    pub const fn overlap(&self) -> f64 {
        self.overlap
    }
}

/// Why there is no file.
#[derive(Clone, Debug, PartialEq)]
pub enum Fault {
    /// A setting of [`Print`] outside its limits, mm.
    Setting {
        /// Which.
        field: &'static str,
        /// Its value.
        value: f64,
        /// The least and the largest.
        limits: [f64; 2],
    },
    /// No piece to print.
    Nothing,
    /// More than [`MOST_PAGES`].
    Pages {
        /// The mark of the piece that went over.
        mark: String,
        /// How many it would have been with that piece.
        count: usize,
    },
}

impl fmt::Display for Fault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Setting {
                field,
                value,
                limits: [low, high],
            } => write!(f, "{field} {value} mm is not from {low} mm to {high} mm"),
            Self::Nothing => f.write_str("0 pieces to print; it needs at least 1"),
            Self::Pages { mark, count } => write!(
                f,
                "piece \"{mark}\" brings the file to {count} pages; at most {MOST_PAGES}: \
                 use the DXF or SVG file, or print fewer pieces at once"
            ),
        }
    }
}

impl Error for Fault {}

/// A page's drawing and size.
struct Drawn {
    size: [f64; 2],
    content: Vec<u8>,
}

/// `patterns` at full size as a PDF file. The same pieces give the same bytes.
///
/// Pages lie on their side where that takes fewer.
///
/// # Errors
/// No pieces, or too many pages.
pub fn patterns(title: &str, patterns: &[Pattern], print: &Print) -> Result<Vec<u8>, Fault> {
    if patterns.is_empty() {
        return Err(Fault::Nothing);
    }
    let mut laid = Vec::new();
    let mut count = patterns.len().div_ceil(CELLS);
    for pattern in patterns {
        let size = turned(pattern, print);
        let window = page::window(size, print);
        let (columns, rows) = Grid::count(pattern.extents_with_holes(), window.1, print.overlap);
        // Before laying them out: blank pages of a huge ring would take long to find.
        let most = columns.saturating_mul(rows);
        let mark = || pattern.mark().to_owned();
        if most > 100 * MOST_PAGES {
            return Err(Fault::Pages {
                mark: mark(),
                count: count + most,
            });
        }
        let grid = Grid::lay(pattern, window.1, print.overlap);
        count += grid.tiles.len();
        if count > MOST_PAGES {
            return Err(Fault::Pages {
                mark: mark(),
                count,
            });
        }
        laid.push((pattern, size, grid));
    }
    let mut pages = overview(title, &laid, print);
    for (pattern, size, grid) in &laid {
        for tile in &grid.tiles {
            pages.push(sheet(pattern, *size, grid, *tile, print));
        }
    }
    Ok(file(title, &pages))
}

/// The page upright, or on its side if that takes fewer.
fn turned(pattern: &Pattern, print: &Print) -> [f64; 2] {
    let [width, height] = print.paper.size();
    let count = |size| {
        let (columns, rows) = Grid::count(
            pattern.extents_with_holes(),
            page::window(size, print).1,
            print.overlap,
        );
        columns.saturating_mul(rows)
    };
    if count([height, width]) < count([width, height]) {
        [height, width]
    } else {
        [width, height]
    }
}

fn file(title: &str, pages: &[Drawn]) -> Vec<u8> {
    let mut next = (1..).map(Ref::new);
    let mut fresh = || next.next().unwrap_or(Ref::new(1));
    let (catalog, tree, info, plain, bold) = (fresh(), fresh(), fresh(), fresh(), fresh());
    let mut pdf = Pdf::new();
    let mut root = pdf.catalog(catalog);
    root.pages(tree).page_layout(PageLayout::SinglePage);
    root.viewer_preferences()
        .pair(Name(b"PrintScaling"), Name(b"None"))
        .pair(Name(b"DisplayDocTitle"), true);
    root.finish();
    pdf.document_info(info)
        .title(TextStr(title))
        .producer(TextStr("Seamwright"));
    for (id, face) in [(plain, "Helvetica"), (bold, "Helvetica-Bold")] {
        pdf.type1_font(id)
            .base_font(Name(face.as_bytes()))
            .encoding_predefined(Name(b"WinAnsiEncoding"));
    }
    let mut kids = Vec::new();
    for page in pages {
        let (id, stream) = (fresh(), fresh());
        kids.push(id);
        let mut entry = pdf.page(id);
        entry
            .parent(tree)
            .media_box(Rect::new(
                0.0,
                0.0,
                points(page.size[0]),
                points(page.size[1]),
            ))
            .contents(stream);
        entry
            .resources()
            .fonts()
            .pair(PLAIN, plain)
            .pair(BOLD, bold);
        entry.finish();
        pdf.stream(stream, &page.content);
    }
    let count = i32::try_from(kids.len()).unwrap_or(i32::MAX);
    pdf.pages(tree).kids(kids).count(count);
    pdf.finish()
}
