//! What metal keeps of its strength and stiffness when it is hot.
//!
//! Of aluminium the shares are those of the standard for fire, of tests of hours, of steel those of the standards for
//! pressure vessels. What creeps in years under a steady load gives way at less: nothing is said past [`hottest`], where codes for
//! pressure vessels end or creep begins.

use super::super::{Alloy, Family, Source};
use crate::units::{Ratio, Temperature, TemperatureUnit};

/// What a metal keeps when it is hot.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct HeatedMetal {
    /// Of its yield strength at 20 °C; taken for the ultimate strength too.
    pub strength: Ratio,
    /// Of its modulus of elasticity.
    pub modulus: Ratio,
    /// What both rest on; `None` at 20 °C or below, where they are whole.
    pub source: Option<Source>,
}

/// Temperature in °C, what is kept of yield strength and of modulus there, in hundredths.
type Row = (u16, u8, u8);

/// EN 1999-1-2, table 1b, the lower limit of all alloys and tempers, and table 2.
const ALUMINIUM: [Row; 6] = [
    (20, 100, 100),
    (50, 96, 99),
    (100, 90, 97),
    (150, 75, 93),
    (200, 50, 86),
    (205, 47, 85),
];
/// EN 10028-7, least yield of 1.4307, of 200 N/mm² at 20 °C; EN 1993-1-2, annex C, its modulus.
const S304: [Row; 8] = [
    (20, 100, 100),
    (100, 73, 96),
    (150, 66, 94),
    (200, 59, 92),
    (250, 54, 90),
    (300, 50, 88),
    (350, 47, 86),
    (400, 44, 84),
];
/// The same of 1.4404, of 220 N/mm².
const S316: [Row; 8] = [
    (20, 100, 100),
    (100, 75, 96),
    (150, 69, 94),
    (200, 62, 92),
    (250, 57, 90),
    (300, 53, 88),
    (350, 51, 86),
    (400, 49, 84),
];
/// EN 10028-2, least yield of P235GH up to 16 mm, of 235 N/mm² at 20 °C; EN 1993-1-2, table 3.1, its modulus.
const STEEL: [Row; 7] = [
    (20, 100, 100),
    (100, 91, 100),
    (150, 84, 95),
    (200, 77, 90),
    (250, 71, 85),
    (300, 65, 80),
    (370, 58, 73),
];

const fn rows(alloy: Alloy) -> (&'static [Row], Source) {
    match alloy {
        Alloy::S304 | Alloy::S304L => (&S304, Source::En10028Stainless),
        Alloy::S316 | Alloy::S316L => (&S316, Source::En10028Stainless),
        _ if matches!(alloy.family(), Family::Aluminium) => (&ALUMINIUM, Source::En1999Fire),
        _ => (&STEEL, Source::En10028Steel),
    }
}

/// The hottest for which [`Alloy::heated`] has figures: aluminium 205 °C, where the tables of ASME II-D end, plain steel 370 °C,
/// where creep begins by the same (both from memory), stainless steel 400 °C, the hottest service of a job.
fn hottest(rows: &[Row]) -> Temperature {
    let most = rows.last().map_or(20, |row| row.0);
    Temperature::new(f64::from(most), TemperatureUnit::Celsius)
}

impl Alloy {
    /// What its sheet keeps at a temperature, lines between the rows of the tables: EN 1999-1-2, lower limit of all
    /// alloys; EN 10028-2 and -7 (all from memory). `None` past [`Alloy::hottest_known`], and of a temperature that is no number.
    ///
    /// ```
    /// use seamwright_core::prelude::*;
    ///
    /// let hot = |celsius| Alloy::A5083.heated(Temperature::new(celsius, TemperatureUnit::Celsius));
    /// assert!((hot(150.0).unwrap().strength.si() - 0.75).abs() < 1e-12);
    /// assert_eq!(hot(300.0), None);
    /// ```
    #[must_use]
    pub fn heated(self, at: Temperature) -> Option<HeatedMetal> {
        let (rows, source) = rows(self);
        let celsius = at.in_unit(TemperatureUnit::Celsius);
        let [first, rest @ ..] = rows else {
            return None;
        };
        let mut below = *first;
        let share = |hundredths: f64| Ratio::from_share(0.01 * hundredths);
        if celsius <= f64::from(below.0) {
            return Some(HeatedMetal {
                strength: share(100.0),
                modulus: share(100.0),
                source: None,
            });
        }
        for above in rest {
            let [from, to] = [below.0, above.0].map(f64::from);
            // A hair more than the last is that still: a job's kelvins are not quite its degrees.
            if celsius <= to + 1e-9 {
                let along = (celsius - from) / (to - from);
                let between =
                    |a: u8, b: u8| share(f64::from(a) + along * (f64::from(b) - f64::from(a)));
                return Some(HeatedMetal {
                    strength: between(below.1, above.1),
                    modulus: between(below.2, above.2),
                    source: Some(source),
                });
            }
            below = *above;
        }
        None
    }

    /// The hottest for which [`Alloy::heated`] has figures.
    #[must_use]
    pub fn hottest_known(self) -> Temperature {
        let (rows, _) = rows(self);
        hottest(rows)
    }
}
