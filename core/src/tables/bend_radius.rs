//! How tightly a sheet may be bent cold.

use super::{Alloy, Temper};
use crate::units::Length;

/// A sheet this much thicker than a column of the table still counts to it: sheet sold as 0.063 in,
/// 0.190 in or 3.2 mm is the trade's 1/16, 3/16 or 1/8 in. Common practice, no source.
const SOLD_AS: f64 = 1.025;

/// The smallest inside radius of a bend.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Minimum {
    /// In thicknesses of the sheet asked about.
    pub times: f64,
    /// The inside radius.
    pub radius: Length,
    /// Where the figure is from.
    pub source: &'static str,
    /// Whether it was written down from memory of that source.
    pub from_memory: bool,
}

/// A column's greatest thickness, in 64ths of an inch, and the radius there in thicknesses.
type Column = (f64, f64);

struct Row {
    alloy: Alloy,
    tempers: &'static [Temper],
    columns: &'static [Column],
    source: &'static str,
    from_memory: bool,
}

const REPRINT: &str = "table of 90° cold bends at bjg-design.com, understood to be the Aluminum Association's (attribution from memory)";
const REPRINT_LARGER: &str = "table of 90° cold bends at bjg-design.com, understood to be the Aluminum Association's (attribution from memory); at 1/8 in the larger figure of that page's second list";
const ASSOCIATION: &str = "Aluminum Association, 90° cold bends (from memory)";
const EN_485_2: &str = "EN 485-2, 90° bends (from memory)";
const PRACTICE: &str = "common practice, no source";

const fn printed(
    alloy: Alloy,
    temper: &'static [Temper],
    columns: &'static [Column],
    source: &'static str,
) -> Row {
    Row {
        alloy,
        tempers: temper,
        columns,
        source,
        from_memory: false,
    }
}

const fn remembered(
    alloy: Alloy,
    tempers: &'static [Temper],
    columns: &'static [Column],
    source: &'static str,
) -> Row {
    Row {
        alloy,
        tempers,
        columns,
        source,
        from_memory: true,
    }
}

#[rustfmt::skip]
static ROWS: [Row; 15] = [
    printed(Alloy::A1100, &[Temper::H14], &[(1.0, 0.0), (2.0, 0.0), (4.0, 0.0), (8.0, 1.0), (12.0, 1.0), (16.0, 1.5), (24.0, 2.0), (32.0, 2.5)], REPRINT),
    printed(Alloy::A5052, &[Temper::O], &[(1.0, 0.0), (2.0, 0.0), (4.0, 0.0), (8.0, 0.5), (12.0, 1.0), (16.0, 1.0), (24.0, 1.5), (32.0, 1.5)], REPRINT),
    printed(Alloy::A5052, &[Temper::H32], &[(1.0, 0.0), (2.0, 0.0), (4.0, 1.0), (8.0, 1.5), (12.0, 1.5), (16.0, 1.5), (24.0, 1.5), (32.0, 2.0)], REPRINT),
    printed(Alloy::A5052, &[Temper::H34], &[(1.0, 0.0), (2.0, 1.0), (4.0, 1.5), (8.0, 2.0), (12.0, 2.0), (16.0, 2.5), (24.0, 2.5), (32.0, 3.0)], REPRINT),
    printed(Alloy::A5052, &[Temper::H36], &[(1.0, 1.0), (2.0, 1.0), (4.0, 1.5), (8.0, 2.5), (12.0, 3.0), (16.0, 3.5), (24.0, 4.0), (32.0, 4.5)], REPRINT),
    printed(Alloy::A6061, &[Temper::O], &[(1.0, 0.0), (2.0, 0.0), (4.0, 0.0), (8.0, 1.0), (12.0, 1.0), (16.0, 1.0), (24.0, 1.5), (32.0, 2.0)], REPRINT),
    printed(Alloy::A6061, &[Temper::T4], &[(1.0, 0.0), (2.0, 0.0), (4.0, 1.0), (8.0, 1.5), (12.0, 2.5), (16.0, 3.0), (24.0, 3.5), (32.0, 4.0)], REPRINT),
    printed(Alloy::A6061, &[Temper::T6], &[(1.0, 1.0), (2.0, 1.0), (4.0, 1.5), (8.0, 4.0), (12.0, 3.0), (16.0, 3.5), (24.0, 4.5), (32.0, 5.0)], REPRINT_LARGER),
    remembered(Alloy::A3003, &[Temper::H14], &[(4.0, 0.0), (8.0, 1.0), (16.0, 1.5)], ASSOCIATION),
    // The remembered table begins at 3/16 in; its greatest figure stands for thinner sheet too.
    remembered(Alloy::A5083, &[Temper::H111, Temper::H321], &[(16.0, 2.5)], ASSOCIATION),
    remembered(Alloy::A5086, &[Temper::H32], &[(4.0, 1.5), (8.0, 2.0), (16.0, 2.5)], ASSOCIATION),
    remembered(Alloy::A5454, &[Temper::H32], &[(4.0, 1.0), (8.0, 2.0), (16.0, 2.5)], ASSOCIATION),
    remembered(Alloy::A5754, &[Temper::O, Temper::H111], &[(4.0, 0.5), (8.0, 1.0), (16.0, 1.5)], EN_485_2),
    // Practice says 0.5 to 1; the larger.
    remembered(Alloy::S304, &[Temper::Annealed], &[(16.0, 1.0)], PRACTICE),
    // Practice says 0.5 to 1 up to 0.15 % carbon and 1.5 for S355; this row's grades lie between.
    remembered(Alloy::LowCarbonSteel, &[Temper::Annealed], &[(16.0, 1.5)], PRACTICE),
];

/// The smallest inside radius for a cold bend through 90° across the direction of rolling, in sheet of
/// `thickness`; along it, 1.5 times the radius (common practice, no source). Between two columns of a table the thicker one holds, and
/// where sources differ the larger radius.
///
/// `None` where no table has this alloy in this temper, and past the thickest sheet of its table (1/2 in
/// where printed, 1/4 in otherwise): the caller must then ask for a radius and not assume one. Also
/// `None` for a thickness that is not above zero.
#[must_use]
pub fn minimum_radius(alloy: Alloy, temper: Temper, thickness: Length) -> Option<Minimum> {
    let t = thickness.si();
    let row = ROWS
        .iter()
        .find(|row| row.alloy == alloy && row.tempers.contains(&temper))?;
    if !(t > 0.0) {
        return None;
    }
    let mut radius = 0.0;
    for &(column, times) in row.columns {
        let thickest = column / 64.0 * 0.0254 * SOLD_AS;
        if t <= thickest {
            // Thicker sheet never takes a tighter bend, even where two lists put together would say so.
            let radius = libm::fmax(radius, times * t);
            return Some(Minimum {
                times: radius / t,
                radius: Length::from_metres(radius),
                source: row.source,
                from_memory: row.from_memory,
            });
        }
        radius = libm::fmax(radius, times * thickest);
    }
    None
}
