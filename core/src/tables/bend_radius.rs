//! How tightly a sheet may be bent cold.

use super::{Alloy, Temper};
use crate::units::Length;

/// A sheet this much thicker than a column of the table still counts to it: sheet sold as 0.063 in,
/// 0.190 in or 3.2 mm is the trade's 1/16, 3/16 or 1/8 in. Common practice, no source.
const SOLD_AS: f64 = 1.025;

/// The smallest inside radius of a bend.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BendMinimum {
    /// In thicknesses of the sheet asked about.
    pub times: f64,
    /// The inside radius.
    pub radius: Length,
    /// The table that the figure is from.
    pub source: BendTable,
    /// The thickest sheet of the table's column that the figure is from.
    pub column: Length,
}

/// A column's greatest thickness, in 64ths of an inch, and the radius there in thicknesses.
type Column = (f64, f64);

struct Row {
    alloy: Alloy,
    tempers: &'static [Temper],
    columns: &'static [Column],
    table: BendTable,
}

/// A table of the smallest inside radii of bends.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum BendTable {
    /// A reprint on the web of what is understood to be the Aluminum Association's table.
    Reprint,
    /// The table of the reprint, where it prints two figures the larger of them.
    ReprintLarger,
    /// The Aluminum Association's table, from memory.
    Association,
    /// EN 485-2, from memory.
    En485,
    /// What the trade does.
    Practice,
}

impl BendTable {
    /// The source in words.
    #[must_use]
    pub const fn text(self) -> &'static str {
        match self {
            Self::Reprint => {
                "table of 90° cold bends at bjg-design.com, understood to be the Aluminum Association's (attribution from memory)"
            }
            Self::ReprintLarger => {
                "table of 90° cold bends at bjg-design.com, understood to be the Aluminum Association's (attribution from memory); at 1/8 in the larger figure of that page's second list"
            }
            Self::Association => "Aluminum Association, 90° cold bends (from memory)",
            Self::En485 => "EN 485-2, 90° bends (from memory)",
            Self::Practice => "common practice, no source",
        }
    }

    /// Whether its figures were written down from memory of that source.
    #[must_use]
    pub const fn is_from_memory(self) -> bool {
        !matches!(self, Self::Reprint | Self::ReprintLarger)
    }
}

const fn row(
    alloy: Alloy,
    tempers: &'static [Temper],
    columns: &'static [Column],
    table: BendTable,
) -> Row {
    Row {
        alloy,
        tempers,
        columns,
        table,
    }
}

#[rustfmt::skip]
static ROWS: [Row; 15] = [
    row(Alloy::A1100, &[Temper::H14], &[(1.0, 0.0), (2.0, 0.0), (4.0, 0.0), (8.0, 1.0), (12.0, 1.0), (16.0, 1.5), (24.0, 2.0), (32.0, 2.5)], BendTable::Reprint),
    row(Alloy::A5052, &[Temper::O], &[(1.0, 0.0), (2.0, 0.0), (4.0, 0.0), (8.0, 0.5), (12.0, 1.0), (16.0, 1.0), (24.0, 1.5), (32.0, 1.5)], BendTable::Reprint),
    row(Alloy::A5052, &[Temper::H32], &[(1.0, 0.0), (2.0, 0.0), (4.0, 1.0), (8.0, 1.5), (12.0, 1.5), (16.0, 1.5), (24.0, 1.5), (32.0, 2.0)], BendTable::Reprint),
    row(Alloy::A5052, &[Temper::H34], &[(1.0, 0.0), (2.0, 1.0), (4.0, 1.5), (8.0, 2.0), (12.0, 2.0), (16.0, 2.5), (24.0, 2.5), (32.0, 3.0)], BendTable::Reprint),
    row(Alloy::A5052, &[Temper::H36], &[(1.0, 1.0), (2.0, 1.0), (4.0, 1.5), (8.0, 2.5), (12.0, 3.0), (16.0, 3.5), (24.0, 4.0), (32.0, 4.5)], BendTable::Reprint),
    row(Alloy::A6061, &[Temper::O], &[(1.0, 0.0), (2.0, 0.0), (4.0, 0.0), (8.0, 1.0), (12.0, 1.0), (16.0, 1.0), (24.0, 1.5), (32.0, 2.0)], BendTable::Reprint),
    row(Alloy::A6061, &[Temper::T4], &[(1.0, 0.0), (2.0, 0.0), (4.0, 1.0), (8.0, 1.5), (12.0, 2.5), (16.0, 3.0), (24.0, 3.5), (32.0, 4.0)], BendTable::Reprint),
    row(Alloy::A6061, &[Temper::T6], &[(1.0, 1.0), (2.0, 1.0), (4.0, 1.5), (8.0, 4.0), (12.0, 3.0), (16.0, 3.5), (24.0, 4.5), (32.0, 5.0)], BendTable::ReprintLarger),
    row(Alloy::A3003, &[Temper::H14], &[(4.0, 0.0), (8.0, 1.0), (16.0, 1.5)], BendTable::Association),
    // The remembered table begins at 3/16 in; its greatest figure stands for thinner sheet too.
    row(Alloy::A5083, &[Temper::H111, Temper::H321], &[(16.0, 2.5)], BendTable::Association),
    row(Alloy::A5086, &[Temper::H32], &[(4.0, 1.5), (8.0, 2.0), (16.0, 2.5)], BendTable::Association),
    row(Alloy::A5454, &[Temper::H32], &[(4.0, 1.0), (8.0, 2.0), (16.0, 2.5)], BendTable::Association),
    row(Alloy::A5754, &[Temper::O, Temper::H111], &[(4.0, 0.5), (8.0, 1.0), (16.0, 1.5)], BendTable::En485),
    // Practice says 0.5 to 1; the larger.
    row(Alloy::S304, &[Temper::Annealed], &[(16.0, 1.0)], BendTable::Practice),
    // Practice says 0.5 to 1 up to 0.15 % carbon and 1.5 for S355; this row's grades lie between.
    row(Alloy::LowCarbonSteel, &[Temper::Annealed], &[(16.0, 1.5)], BendTable::Practice),
];

/// The alloy whose row serves another one: grades as soft as unnamed low-carbon steel take its row.
const fn like(alloy: Alloy) -> Alloy {
    match alloy {
        Alloy::S235 | Alloy::Dc01 | Alloy::Dd11 => Alloy::LowCarbonSteel,
        own => own,
    }
}

/// The smallest inside radius for a cold bend through 90° across the direction of rolling, in sheet of
/// `thickness`; along it, 1.5 times the radius (common practice, no source). Between two columns of a table the thicker one holds, and
/// where sources differ the larger radius.
///
/// `None` where no table has this alloy in this temper, and past the thickest sheet of its table (1/2 in
/// where printed, 1/4 in otherwise): the caller must then ask for a radius and not assume one. Also
/// `None` for a thickness that is not above zero.
#[must_use]
pub fn minimum_radius(alloy: Alloy, temper: Temper, thickness: Length) -> Option<BendMinimum> {
    let t = thickness.si();
    let row = ROWS
        .iter()
        .find(|row| row.alloy == like(alloy) && row.tempers.contains(&temper))?;
    if !(t > 0.0) {
        return None;
    }
    let mut radius = 0.0;
    for &(column, times) in row.columns {
        let thickest = column / 64.0 * 0.0254 * SOLD_AS;
        if t <= thickest {
            // Thicker sheet never takes a tighter bend, even where two lists put together would say so.
            let radius = libm::fmax(radius, times * t);
            return Some(BendMinimum {
                times: radius / t,
                radius: Length::from_metres(radius),
                source: row.table,
                column: Length::from_metres(column / 64.0 * 0.0254),
            });
        }
        radius = libm::fmax(radius, times * thickest);
    }
    None
}
