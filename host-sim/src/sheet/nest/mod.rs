//! Pieces laid on stock sheets, for ordering and for the guillotine.
//!
//! Each piece is taken as the upright rectangle around it, and every plan can be cut by cuts that run
//! right across: what a shear does. Several orders are tried and the best kept, so the plan is good, not
//! the best possible. The same pieces and stock give the same plan.

mod check;
mod draw;
mod pack;

use std::error::Error;
use std::fmt;

pub use draw::draw;

use super::pattern::Pattern;

/// The longest side of a stock sheet, mm.
pub const LONGEST: f64 = 20_000.0;
/// The thickest sheet, mm.
pub const THICKEST: f64 = 50.0;
/// The widest gap and edge margin, mm.
pub const WIDEST: f64 = 100.0;
/// The most pieces in one plan, and the most sheets of one kind that are looked at.
pub const MOST: usize = 2_000;

/// Some pieces that are alike.
#[derive(Clone, Copy, Debug)]
pub struct Item<'a> {
    /// The piece.
    pub pattern: &'a Pattern,
    /// Its thickness, mm.
    pub thickness: f64,
    /// How many.
    pub count: usize,
}

/// Some sheets that are alike. Kinds listed first are used first, so list offcuts first.
#[derive(Clone, Debug, PartialEq)]
pub struct Stock {
    /// What it is called.
    pub name: String,
    /// Upwards in the drawing, mm.
    pub width: f64,
    /// To the right in the drawing, mm.
    pub length: f64,
    /// Its thickness, mm; pieces go on it only if theirs is the same to 0.001 mm.
    pub thickness: f64,
    /// How many there are.
    pub count: usize,
}

/// How pieces may lie.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Rules {
    /// Least gap between pieces, mm: the saw's or torch's width and what it may wander.
    pub gap: f64,
    /// Least distance from the sheet's edge, mm.
    pub margin: f64,
    /// Whether a piece may be turned by 90°; not where the grain or a brushed face matters.
    pub turning: bool,
}

/// Where one piece lies.
#[derive(Clone, Copy, Debug)]
pub struct Placement<'a> {
    /// The piece.
    pub pattern: &'a Pattern,
    /// Lower left corner of its rectangle on the sheet, mm.
    pub at: [f64; 2],
    /// Turned anticlockwise by 90°.
    pub turned: bool,
}

impl Placement<'_> {
    /// Size of its rectangle on the sheet, mm.
    pub fn size(&self) -> [f64; 2] {
        let extents = self.pattern.extents_with_holes();
        if self.turned {
            [extents.height(), extents.width()]
        } else {
            [extents.width(), extents.height()]
        }
    }
}

/// A sheet with pieces on it.
#[derive(Clone, Debug)]
pub struct Sheet<'a> {
    /// The kind of sheet.
    pub stock: &'a Stock,
    /// Counted from 1 within its kind.
    pub number: usize,
    /// What lies on it.
    pub placements: Vec<Placement<'a>>,
    /// Length and width of the largest rectangle left, mm; noughts if none is.
    pub offcut: [f64; 2],
}

impl Sheet<'_> {
    /// Area of the sheet, mm².
    pub fn area(&self) -> f64 {
        self.stock.length * self.stock.width
    }

    /// Area of the pieces on it, holes not taken off, mm².
    pub fn used(&self) -> f64 {
        self.placements
            .iter()
            .map(|placed| placed.pattern.area())
            .sum()
    }
}

/// All pieces on sheets.
#[derive(Clone, Debug)]
pub struct Plan<'a> {
    /// The sheets used.
    pub sheets: Vec<Sheet<'a>>,
}

impl Plan<'_> {
    /// Area of the pieces over the area of the sheets used, 0 to 1.
    pub fn share_used(&self) -> f64 {
        let used: f64 = self.sheets.iter().map(Sheet::used).sum();
        let all: f64 = self.sheets.iter().map(Sheet::area).sum();
        if all > 0.0 { used / all } else { 0.0 }
    }
}

/// Pieces that found no room.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Left {
    /// Their mark.
    pub mark: String,
    /// How many of them.
    pub count: usize,
}

/// Why there is no plan.
#[derive(Clone, Debug, PartialEq)]
pub enum Fault {
    /// A size or count outside its limits.
    Setting {
        /// Which, and of what.
        field: String,
        /// Its value.
        value: f64,
        /// The least and the largest.
        limits: [f64; 2],
    },
    /// The stock of their thickness has no room for some pieces.
    Unplaced(Vec<Left>),
}

impl fmt::Display for Fault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Setting {
                field,
                value,
                limits: [low, high],
            } => write!(f, "{field}: {value} is not from {low} to {high}"),
            Self::Unplaced(left) => {
                f.write_str("no room on stock of their thickness for ")?;
                for (place, Left { mark, count }) in left.iter().enumerate() {
                    let before = if place == 0 { "" } else { ", " };
                    write!(f, "{before}{count} of \"{mark}\"")?;
                }
                f.write_str("; add sheets, or larger ones, or allow turning")
            }
        }
    }
}

impl Error for Fault {}

/// Lays `items` on `stock`.
///
/// # Errors
/// A setting outside its limits, or the pieces that found no room.
pub fn plan<'a>(items: &[Item<'a>], stock: &'a [Stock], rules: &Rules) -> Result<Plan<'a>, Fault> {
    check::check(items, stock, rules)?;
    let tries = pack::Order::ALL.map(|order| pack::pack(items, stock, rules, order));
    let best = tries.into_iter().min_by(|a, b| {
        let (left_a, left_b) = (a.left_area(), b.left_area());
        left_a
            .total_cmp(&left_b)
            .then(a.sheet_area().total_cmp(&b.sheet_area()))
            .then(b.offcut_area().total_cmp(&a.offcut_area()))
    });
    let Some(best) = best else {
        return Ok(Plan { sheets: Vec::new() });
    };
    if best.left.is_empty() {
        return Ok(Plan {
            sheets: best.sheets,
        });
    }
    let mut left: Vec<Left> = Vec::new();
    for pattern in best.left {
        match left.iter_mut().find(|left| left.mark == pattern.mark()) {
            Some(known) => known.count += 1,
            None => left.push(Left {
                mark: pattern.mark().to_owned(),
                count: 1,
            }),
        }
    }
    Err(Fault::Unplaced(left))
}
