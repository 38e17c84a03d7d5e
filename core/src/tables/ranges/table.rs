//! The rows, and how they are read.

use super::{Apart, Range, RangeSource, Sources};
use crate::units::Ratio;

/// Rows of one source, in tenths: thickness in mm, least and most value.
pub(super) struct Rows {
    pub(super) source: RangeSource,
    pub(super) rows: &'static [[u16; 3]],
}

/// How a value between two rows is found.
#[derive(Clone, Copy, PartialEq)]
pub(super) enum Between {
    /// Straight lines; past the ends in proportion to the sheet.
    Proportion,
    /// Straight lines; past the ends the last row as it is.
    Line,
    /// All that either neighbour gives: for sizes that are made in steps.
    Neighbours,
}

/// How far past its ends a table serves, as a share.
const REACH: f64 = 1.2;
/// Thinnest and thickest sheet where no table reaches, in mm.
const SERVED: (f64, f64) = (0.5, 10.0);
/// A sheet is listed to a tenth of a millimetre: 1.6 mm read from inches is 1.6 mm still.
const ROUNDING: f64 = 1e-6;

impl Rows {
    fn row(row: &[u16; 3]) -> [f64; 3] {
        row.map(|tenths| f64::from(tenths) / 10.0)
    }

    /// Least and most at a thickness, and how far past the rows it is: 1 where it is among them.
    fn at(&self, t: f64, how: Between) -> Option<(f64, f64, f64)> {
        for (a, b) in self.rows.iter().zip(self.rows.iter().skip(1)) {
            let ([t0, least0, most0], [t1, least1, most1]) = (Self::row(a), Self::row(b));
            if t >= t0 - ROUNDING && t <= t1 + ROUNDING {
                let along = (t - t0) / (t1 - t0);
                return Some(if how != Between::Neighbours {
                    let line = |a: f64, b: f64| a + (b - a) * along;
                    (line(least0, least1), line(most0, most1), 1.0)
                } else if t <= t0 + ROUNDING {
                    (least0, most0, 1.0)
                } else if t >= t1 - ROUNDING {
                    (least1, most1, 1.0)
                } else {
                    (libm::fmin(least0, least1), libm::fmax(most0, most1), 1.0)
                });
            }
        }
        let (first, last) = (Self::row(self.rows.first()?), Self::row(self.rows.last()?));
        let [at, least, most] = if t < last[0] { first } else { last };
        let ratio = t / at;
        let past = if libm::fabs(t - at) <= ROUNDING {
            1.0
        } else if ratio < 1.0 {
            1.0 / ratio
        } else {
            ratio
        };
        let factor = if how == Between::Proportion {
            ratio
        } else {
            1.0
        };
        Some((least * factor, most * factor, past))
    }
}

/// Middles that differ by no more than this share are one: figures are printed to three digits.
const ALIKE: f64 = 1e-3;

/// The least and the greatest of the middles that sources give.
#[derive(Default)]
struct Middles {
    least: Option<(f64, RangeSource)>,
    most: Option<(f64, RangeSource)>,
}

impl Middles {
    fn take(&mut self, middle: f64, source: RangeSource) {
        if self.least.is_none_or(|(least, _)| middle < least) {
            self.least = Some((middle, source));
        }
        if self.most.is_none_or(|(most, _)| middle > most) {
            self.most = Some((middle, source));
        }
    }

    /// `None` where they are one, or of one source.
    fn apart(&self) -> Option<Apart<f64>> {
        let ((least, least_by), (most, most_by)) = (self.least?, self.most?);
        let by = most / least - 1.0;
        (by > ALIKE && least_by != most_by).then(|| Apart {
            least,
            least_by,
            most,
            most_by,
            by: Ratio::from_share(by),
        })
    }
}

/// The span of all tables that reach a thickness; failing that, of the nearest one. Tables of one group are for the same
/// seam: how far sources lie apart is found in each group, and the greatest of that is told.
pub(super) fn span(groups: &[&[&Rows]], t: f64, how: Between) -> Option<Range<f64>> {
    let mut range: Option<Range<f64>> = None;
    let mut nearest: Option<(f64, Range<f64>)> = None;
    let mut apart: Option<Apart<f64>> = None;
    for group in groups {
        let mut middles = Middles::default();
        for table in *group {
            let (least, most, past) = table.at(t, how)?;
            let mut sources = Sources::default().with(table.source);
            if past > 1.0 {
                sources = sources.with(RangeSource::Beyond);
            }
            let own = Range {
                least,
                most,
                sources,
                apart: None,
            };
            if past <= REACH {
                middles.take(0.5 * (least + most), table.source);
                range = Some(range.map_or(own, |range| Range {
                    least: libm::fmin(range.least, least),
                    most: libm::fmax(range.most, most),
                    sources: range.sources.and(sources),
                    apart: None,
                }));
            }
            if nearest.is_none_or(|(so_far, _)| past < so_far) {
                nearest = Some((past, own));
            }
        }
        let own = middles.apart();
        if own.is_some_and(|own| apart.is_none_or(|apart| own.by > apart.by)) {
            apart = own;
        }
    }
    let (low, high) = SERVED;
    let served = t >= low - ROUNDING && t <= high + ROUNDING;
    // A table's own rows serve wherever they lie; beyond them only the thicknesses of sheet.
    match range {
        Some(range) if served || !range.sources.has(RangeSource::Beyond) => {
            Some(Range { apart, ..range })
        }
        _ if served => nearest.map(|(_, own)| own),
        _ => None,
    }
}

/// Electrodes of one source, in tenths of a millimetre and amperes.
pub(super) struct Electrodes {
    source: RangeSource,
    rows: &'static [[u16; 3]],
}

/// The diameters that carry a current by any of the tables.
pub(super) fn electrodes(tables: &[&Electrodes], amperes: f64) -> Option<Range<f64>> {
    let mut range: Option<Range<f64>> = None;
    for table in tables {
        for [tenths, least, most] in table.rows {
            if amperes >= f64::from(*least) && amperes <= f64::from(*most) {
                let d = f64::from(*tenths) / 10.0;
                let sources = Sources::default().with(table.source);
                let own = range.unwrap_or(Range {
                    least: d,
                    most: d,
                    sources,
                    apart: None,
                });
                // Several sizes carry a current by one source too: that is no disagreement.
                range = Some(Range {
                    least: libm::fmin(own.least, d),
                    most: libm::fmax(own.most, d),
                    sources: own.sources.and(sources),
                    apart: None,
                });
            }
        }
    }
    range
}

/// Zirconiated, balanced square wave.
pub(super) const ELECTRODES_MATHERS: Electrodes = Electrodes {
    source: RangeSource::MathersElectrode,
    rows: &[
        [10, 20, 50],
        [16, 50, 80],
        [24, 80, 160],
        [32, 160, 225],
        [40, 225, 330],
        [50, 330, 400],
    ],
};
/// With oxides, balanced wave.
pub(super) const ELECTRODES_AWS_AC: Electrodes = Electrodes {
    source: RangeSource::Aws,
    rows: &[
        [10, 20, 60],
        [16, 60, 120],
        [24, 100, 180],
        [32, 160, 250],
        [40, 200, 320],
        [50, 290, 390],
    ],
};
/// With oxides, electrode negative, argon.
pub(super) const ELECTRODES_AWS_DC: Electrodes = Electrodes {
    source: RangeSource::Aws,
    rows: &[
        [10, 15, 80],
        [16, 70, 150],
        [24, 150, 250],
        [32, 250, 400],
        [40, 400, 500],
        [50, 500, 750],
    ],
};

macro_rules! rows {
    ($($(#[$doc:meta])* $name:ident: $source:ident, [$([$t:literal, $least:literal, $most:literal]),+];)+) => {
        $($(#[$doc])* const $name: $crate::tables::ranges::table::Rows = $crate::tables::ranges::table::Rows {
            source: $crate::tables::ranges::RangeSource::$source,
            rows: &[$([$t, $least, $most]),+],
        };)+
    };
}

pub(super) use rows;

/// Amperes, in tenths.
pub(super) mod current {
    use super::Rows;

    rows! {
        NIMI_BUTT: Nimi, [[16, 600, 800], [32, 1250, 1450], [48, 1900, 2200], [64, 2600, 3000]];
        NIMI_FILLET: Nimi, [[16, 700, 900], [32, 1400, 1600], [48, 2100, 2400], [64, 2800, 3200]];
        MATHERS: MathersButt, [[8, 550, 550], [12, 1000, 1000]];
        /// Fillets.
        GAS: GasHandbook, [[16, 600, 800], [32, 1250, 1450], [48, 1950, 2300], [60, 2600, 2950]];
        /// 3 mm with a prepared groove.
        NATIONAL: NationalHandbook, [[10, 450, 600], [15, 500, 800], [20, 900, 1200], [30, 1500, 1800]];
        STAINLESS_NATIONAL_BUTT: NationalHandbook,
            [[8, 200, 500], [10, 500, 800], [15, 650, 1050], [24, 850, 1250], [32, 1000, 1350]];
        STAINLESS_NATIONAL_CORNER: NationalHandbook,
            [[15, 750, 1250], [24, 950, 1350], [32, 1150, 1450], [48, 1750, 2500]];
        /// The joint is not said.
        STAINLESS_GAS: GasHandbook, [[16, 500, 700], [32, 850, 1050], [48, 1200, 1450]];
        STEEL_GAS: GasHandbook, [[16, 500, 700], [32, 900, 1200], [48, 1350, 1750]];
        STEEL_PRACTICE: Practice, [[10, 300, 600], [16, 600, 900], [32, 900, 1450]];
    }

    pub(crate) const ALUMINIUM_BUTT: [&Rows; 3] = [&NIMI_BUTT, &MATHERS, &NATIONAL];
    pub(crate) const ALUMINIUM_FILLET: [&Rows; 2] = [&NIMI_FILLET, &GAS];
    pub(crate) const STAINLESS_BUTT: [&Rows; 2] = [&STAINLESS_NATIONAL_BUTT, &STAINLESS_GAS];
    pub(crate) const STAINLESS_CORNER: [&Rows; 2] = [&STAINLESS_NATIONAL_CORNER, &STAINLESS_GAS];
    pub(crate) const STEEL: [&Rows; 2] = [&STEEL_GAS, &STEEL_PRACTICE];
}

/// Millimetres a minute, in tenths.
pub(super) mod travel {
    use super::Rows;

    rows! {
        NIMI: Nimi, [[16, 4000, 4000], [32, 3000, 3000], [48, 2500, 2500], [64, 2500, 2500]];
        MATHERS_BUTT: MathersButt, [[8, 3000, 3000]];
        MATHERS_FILLET: MathersFillet,
            [[16, 1900, 1900], [20, 2000, 2000], [32, 2300, 2300], [48, 2800, 2800], [64, 2000, 2000], [80, 1500, 1500]];
        NATIONAL_BUTT: NationalHandbook,
            [[8, 6600, 6600], [10, 5600, 5600], [15, 3000, 3000], [24, 3000, 3000], [32, 3000, 3000]];
        NATIONAL_CORNER: NationalHandbook,
            [[15, 2500, 2500], [24, 2500, 2500], [32, 2500, 2500], [48, 2000, 2000]];
        PRACTICE: Practice, [[10, 2000, 3000], [32, 2000, 3000]];
    }

    pub(crate) const ALUMINIUM_BUTT: [&Rows; 2] = [&NIMI, &MATHERS_BUTT];
    pub(crate) const ALUMINIUM_FILLET: [&Rows; 2] = [&NIMI, &MATHERS_FILLET];
    pub(crate) const STAINLESS_BUTT: [&Rows; 1] = [&NATIONAL_BUTT];
    pub(crate) const STAINLESS_CORNER: [&Rows; 1] = [&NATIONAL_CORNER];
    pub(crate) const STEEL: [&Rows; 1] = [&PRACTICE];
}

/// Millimetres, in tenths.
pub(super) mod tungsten {
    use super::Rows;

    rows! {
        NIMI: Nimi, [[16, 16, 16], [32, 16, 24], [48, 24, 24], [64, 32, 32]];
        GAS: GasHandbook, [[16, 24, 24], [32, 32, 32]];
        NATIONAL: NationalHandbook, [[8, 10, 10], [15, 16, 16], [32, 16, 16], [48, 32, 32]];
        PRACTICE: Practice, [[10, 10, 16], [16, 16, 24], [32, 16, 24], [48, 24, 32]];
    }

    pub(crate) const ALUMINIUM: [&Rows; 2] = [&NIMI, &GAS];
    pub(crate) const STAINLESS: [&Rows; 1] = [&NATIONAL];
    pub(crate) const STEEL: [&Rows; 1] = [&PRACTICE];
}

/// Millimetres, in tenths.
pub(super) mod nozzle {
    use super::Rows;

    rows! {
        /// Its bands end at 1, 3, 5, 9 and 12 mm; at an end either band holds.
        MATHERS: MathersNozzle,
            [[5, 95, 95], [30, 95, 125], [31, 125, 125], [90, 125, 160], [91, 160, 160], [120, 160, 250],
             [121, 250, 250], [250, 250, 250]];
        /// Cups are numbered in sixteenths of an inch (common practice, no source): 4 to 6, 7 to 8, 8 to 10.
        NIMI: Nimi, [[16, 64, 95], [32, 64, 95], [48, 111, 127], [64, 127, 159]];
        NATIONAL: NationalHandbook, [[10, 80, 120], [30, 80, 120]];
        PRACTICE: Practice, [[5, 64, 127], [100, 64, 127]];
    }

    pub(crate) const ALUMINIUM: [&Rows; 3] = [&MATHERS, &NIMI, &NATIONAL];
    pub(crate) const STEELS: [&Rows; 1] = [&PRACTICE];
}

/// Millimetres, in tenths.
pub(super) mod rod {
    use super::Rows;

    rows! {
        NIMI: Nimi, [[16, 16, 16], [32, 24, 24], [48, 32, 32], [64, 40, 40]];
        MATHERS_BUTT: MathersButt, [[8, 16, 16]];
        MATHERS_FILLET: MathersFillet,
            [[16, 16, 24], [20, 24, 24], [32, 32, 32], [48, 48, 48], [64, 48, 48], [80, 48, 48]];
        GAS: GasHandbook, [[16, 16, 16], [32, 24, 24], [48, 32, 32], [60, 48, 48]];
        NATIONAL: NationalHandbook, [[8, 16, 16], [15, 16, 16], [24, 24, 24], [48, 24, 24]];
        PRACTICE: Practice, [[8, 16, 16], [15, 16, 16], [24, 24, 24], [48, 24, 24]];
    }

    pub(crate) const ALUMINIUM_BUTT: [&Rows; 2] = [&NIMI, &MATHERS_BUTT];
    pub(crate) const ALUMINIUM: [&Rows; 3] = [&NIMI, &MATHERS_FILLET, &GAS];
    pub(crate) const STAINLESS: [&Rows; 1] = [&NATIONAL];
    pub(crate) const STEEL: [&Rows; 1] = [&PRACTICE];
}

/// Litres of argon a minute, in tenths.
pub(super) mod gas {
    use super::Rows;

    rows! {
        NIMI: Nimi, [[16, 70, 70], [32, 70, 70], [48, 65, 80], [64, 85, 85]];
        /// Its bands end at 1, 3, 5, 9 and 12 mm; at an end either band holds.
        MATHERS: MathersNozzle,
            [[5, 34, 34], [10, 34, 45], [11, 45, 45], [30, 45, 56], [31, 56, 56], [50, 56, 70], [51, 70, 70],
             [90, 70, 80], [91, 80, 80], [120, 80, 120], [121, 120, 120], [250, 120, 120]];
        GAS: GasHandbook, [[16, 50, 50], [32, 60, 60], [48, 70, 70], [60, 100, 100]];
        NATIONAL: NationalHandbook, [[10, 70, 120], [30, 70, 120]];
        STAINLESS_NATIONAL: NationalHandbook, [[8, 50, 90], [48, 50, 90]];
        PRACTICE: Practice, [[8, 50, 90], [48, 50, 90]];
    }

    pub(crate) const ALUMINIUM: [&Rows; 4] = [&NIMI, &MATHERS, &GAS, &NATIONAL];
    pub(crate) const STAINLESS: [&Rows; 1] = [&STAINLESS_NATIONAL];
    pub(crate) const STEEL: [&Rows; 1] = [&PRACTICE];
}
