//! One try at laying pieces down.

use guillotiere::{AllocatorOptions, AtlasAllocator, Size, size2};

use super::super::pattern::Pattern;
use super::{Item, Placement, Rules, Sheet, Stock};

/// The packer counts in whole units; 20 to the millimetre lose at most 0.05 mm a piece.
const UNITS: f64 = 20.0;
/// Thicknesses nearer than this are the same, mm.
const SAME: f64 = 0.001;

/// Which piece comes first, and how it is first tried.
#[derive(Clone, Copy)]
pub(super) struct Order {
    by_area: bool,
    turned_first: bool,
}

impl Order {
    pub(super) const ALL: [Self; 4] = [
        Self::of(true, false),
        Self::of(true, true),
        Self::of(false, false),
        Self::of(false, true),
    ];

    const fn of(by_area: bool, turned_first: bool) -> Self {
        Self {
            by_area,
            turned_first,
        }
    }

    fn key(self, pattern: &Pattern) -> f64 {
        let extents = pattern.extents_with_holes();
        let [a, b] = [extents.width(), extents.height()];
        if self.by_area { a * b } else { a.max(b) }
    }
}

/// What a try came to.
pub(super) struct Try<'a> {
    pub(super) sheets: Vec<Sheet<'a>>,
    pub(super) left: Vec<&'a Pattern>,
}

impl Try<'_> {
    pub(super) fn left_area(&self) -> f64 {
        self.left.iter().map(|pattern| pattern.area()).sum()
    }

    pub(super) fn sheet_area(&self) -> f64 {
        self.sheets.iter().map(Sheet::area).sum()
    }

    pub(super) fn offcut_area(&self) -> f64 {
        let areas = self
            .sheets
            .iter()
            .map(|sheet| sheet.offcut[0] * sheet.offcut[1]);
        areas.fold(0.0, f64::max)
    }
}

struct Open<'a> {
    sheet: Sheet<'a>,
    packer: AtlasAllocator,
}

pub(super) fn pack<'a>(
    items: &[Item<'a>],
    stock: &'a [Stock],
    rules: &Rules,
    order: Order,
) -> Try<'a> {
    let mut pieces: Vec<(&'a Pattern, f64)> = items
        .iter()
        .flat_map(|item| std::iter::repeat_n((item.pattern, item.thickness), item.count))
        .collect();
    // A stable sort: like pieces stay as listed.
    pieces.sort_by(|a, b| order.key(b.0).total_cmp(&order.key(a.0)));
    let mut open: Vec<Open<'a>> = Vec::new();
    let mut left = Vec::new();
    for (pattern, thickness) in pieces {
        let fits = |kind: &Stock| (kind.thickness - thickness).abs() <= SAME;
        let lies = open
            .iter_mut()
            .filter(|open| fits(open.sheet.stock))
            .any(|open| lay(open, pattern, rules, order));
        if !lies && !begin(&mut open, stock, fits, pattern, rules, order) {
            left.push(pattern);
        }
    }
    let sheets = open.into_iter().map(|open| close(open, rules)).collect();
    Try { sheets, left }
}

/// Opens the first kind of sheet that is left and takes the piece.
fn begin<'a>(
    open: &mut Vec<Open<'a>>,
    stock: &'a [Stock],
    fits: impl Fn(&Stock) -> bool,
    pattern: &'a Pattern,
    rules: &Rules,
    order: Order,
) -> bool {
    for kind in stock.iter().filter(|kind| fits(kind)) {
        let begun = open
            .iter()
            .filter(|open| std::ptr::eq(open.sheet.stock, kind))
            .count();
        if begun >= kind.count {
            continue;
        }
        // The gap after the last piece may hang over the margin.
        let room = |long: f64| down(long - 2.0 * rules.margin + rules.gap);
        let (length, width) = (room(kind.length), room(kind.width));
        if length < 1 || width < 1 {
            continue;
        }
        let options = AllocatorOptions {
            small_size_threshold: 1,
            large_size_threshold: 2,
            ..AllocatorOptions::default()
        };
        let mut fresh = Open {
            sheet: Sheet {
                stock: kind,
                number: begun + 1,
                placements: Vec::new(),
                offcut: [0.0; 2],
            },
            packer: AtlasAllocator::with_options(size2(length, width), &options),
        };
        if lay(&mut fresh, pattern, rules, order) {
            open.push(fresh);
            return true;
        }
    }
    false
}

fn lay<'a>(open: &mut Open<'a>, pattern: &'a Pattern, rules: &Rules, order: Order) -> bool {
    let ways: &[bool] = match (rules.turning, order.turned_first) {
        (false, _) => &[false],
        (true, false) => &[false, true],
        (true, true) => &[true, false],
    };
    for turned in ways {
        let mut placed = Placement {
            pattern,
            at: [0.0; 2],
            turned: *turned,
        };
        let [width, height] = placed.size();
        let size: Size = size2(up(width + rules.gap), up(height + rules.gap));
        if let Some(found) = open.packer.allocate(size) {
            let corner = found.rectangle.min;
            placed.at = [
                rules.margin + f64::from(corner.x) / UNITS,
                rules.margin + f64::from(corner.y) / UNITS,
            ];
            open.sheet.placements.push(placed);
            return true;
        }
    }
    false
}

fn close<'a>(open: Open<'a>, rules: &Rules) -> Sheet<'a> {
    let Open { mut sheet, packer } = open;
    let size = packer.size();
    let mut best = [0.0; 2];
    packer.for_each_free_rectangle(|free| {
        // The strip added for the last gap is no metal within the margin.
        let strip = |end: i32, all: i32| if end == all { rules.gap } else { 0.0 };
        let long = f64::from(free.width()) / UNITS - strip(free.max.x, size.width);
        let wide = f64::from(free.height()) / UNITS - strip(free.max.y, size.height);
        if long > 0.0 && wide > 0.0 && long * wide > best[0] * best[1] {
            best = [long, wide];
        }
    });
    sheet.offcut = best;
    sheet
}

/// Whole units that hold `long`; a hair over a unit is rounding, not length.
fn up(long: f64) -> i32 {
    (long * UNITS - 1e-6).ceil() as i32
}

fn down(long: f64) -> i32 {
    (long * UNITS + 1e-6).floor() as i32
}
