//! Carbon equivalents: one figure for how readily a steel hardens beside a weld.

use core::fmt;

use crate::units::Ratio;
use crate::units::range::{Limit, OutOfRange, Value, within};

/// An element of a steel's composition.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
#[expect(missing_docs, reason = "the element itself")]
pub enum Element {
    Carbon,
    Silicon,
    Manganese,
    Chromium,
    Molybdenum,
    Vanadium,
    Nickel,
    Copper,
    Boron,
}

impl Element {
    /// Its symbol.
    #[must_use]
    pub const fn symbol(self) -> &'static str {
        match self {
            Self::Carbon => "C",
            Self::Silicon => "Si",
            Self::Manganese => "Mn",
            Self::Chromium => "Cr",
            Self::Molybdenum => "Mo",
            Self::Vanadium => "V",
            Self::Nickel => "Ni",
            Self::Copper => "Cu",
            Self::Boron => "B",
        }
    }
}

/// A composition as the mill's certificate has it, shares by mass.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
#[expect(missing_docs, reason = "the elements themselves")]
pub struct Composition {
    pub carbon: Ratio,
    pub silicon: Ratio,
    pub manganese: Ratio,
    pub chromium: Ratio,
    pub molybdenum: Ratio,
    pub vanadium: Ratio,
    pub nickel: Ratio,
    pub copper: Ratio,
    pub boron: Ratio,
}

/// A composition that is none of an unalloyed or low-alloy steel.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct NotLowAlloy {
    /// The element that is out of range.
    pub element: Element,
    /// Its share and the limit.
    pub range: OutOfRange,
}

impl fmt::Display for NotLowAlloy {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(
            f,
            "{}: {}; a carbon equivalent is for unalloyed and low-alloy steel",
            self.element.symbol(),
            self.range
        )
    }
}

impl core::error::Error for NotLowAlloy {}

/// Carbon equivalents, in per cent by mass as the standards write them.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct CarbonEquivalent {
    /// CE of the IIW: C + Mn/6 + (Cr + Mo + V)/5 + (Ni + Cu)/15; EN 1011-2, annex C (from memory).
    pub iiw: f64,
    /// `P_cm` of Ito and Bessyo: C + Si/30 + (Mn + Cu + Cr)/20 + Ni/60 + Mo/15 + V/10 + 5 B (from memory).
    pub pcm: f64,
    /// CET: C + (Mn + Mo)/10 + (Cr + Cu)/20 + Ni/40; EN 1011-2, annex C (from memory).
    pub cet: f64,
}

impl Composition {
    /// The most of each element that is taken for an unalloyed or low-alloy steel, per cent by mass: the
    /// widest of the ranges that EN 1011-2, annex C, gives for CE and CET (from memory), with room for
    /// boron in high-strength steel.
    pub const MOST: [(Element, f64); 9] = [
        (Element::Carbon, 0.5),
        (Element::Silicon, 0.8),
        (Element::Manganese, 1.9),
        (Element::Chromium, 1.5),
        (Element::Molybdenum, 0.75),
        (Element::Vanadium, 0.18),
        (Element::Nickel, 2.5),
        (Element::Copper, 0.7),
        (Element::Boron, 0.01),
    ];

    const fn of(&self, element: Element) -> Ratio {
        match element {
            Element::Carbon => self.carbon,
            Element::Silicon => self.silicon,
            Element::Manganese => self.manganese,
            Element::Chromium => self.chromium,
            Element::Molybdenum => self.molybdenum,
            Element::Vanadium => self.vanadium,
            Element::Nickel => self.nickel,
            Element::Copper => self.copper,
            Element::Boron => self.boron,
        }
    }

    /// Its carbon equivalents.
    ///
    /// # Errors
    /// [`NotLowAlloy`] with the first element below none or above [`MOST`](Self::MOST); carbon must be
    /// above none, or the composition was never filled in.
    pub fn carbon_equivalent(&self) -> Result<CarbonEquivalent, NotLowAlloy> {
        let none = Ratio::from_share(0.0);
        for (element, most) in Self::MOST {
            let share = self.of(element);
            within(share, none, Ratio::from_share(most / 100.0), Value::Ratio)
                .map_err(|range| NotLowAlloy { element, range })?;
        }
        if !(self.carbon > none) {
            return Err(NotLowAlloy {
                element: Element::Carbon,
                range: OutOfRange {
                    value: Value::Ratio(self.carbon),
                    limit: Limit::Above(Value::Ratio(none)),
                },
            });
        }
        let percent = |element| self.of(element).si() * 100.0;
        let (c, si, mn) = (
            percent(Element::Carbon),
            percent(Element::Silicon),
            percent(Element::Manganese),
        );
        let (cr, mo, v) = (
            percent(Element::Chromium),
            percent(Element::Molybdenum),
            percent(Element::Vanadium),
        );
        let (ni, cu, b) = (
            percent(Element::Nickel),
            percent(Element::Copper),
            percent(Element::Boron),
        );
        Ok(CarbonEquivalent {
            iiw: c + mn / 6.0 + (cr + mo + v) / 5.0 + (ni + cu) / 15.0,
            pcm: c + si / 30.0 + (mn + cu + cr) / 20.0 + ni / 60.0 + mo / 15.0 + v / 10.0 + 5.0 * b,
            cet: c + (mn + mo) / 10.0 + (cr + cu) / 20.0 + ni / 40.0,
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_no_low_alloy_steel_is_named() {
        let plain = Composition {
            carbon: Ratio::from_share(0.0015),
            ..Composition::default()
        };
        assert!(plain.carbon_equivalent().is_ok());
        assert_eq!(
            Composition::default()
                .carbon_equivalent()
                .unwrap_err()
                .element,
            Element::Carbon
        );
        let stainless = Composition {
            chromium: Ratio::from_share(0.18),
            ..plain
        };
        assert_eq!(
            stainless.carbon_equivalent().unwrap_err().element,
            Element::Chromium
        );
        let nothing = Composition {
            boron: Ratio::from_share(f64::NAN),
            ..plain
        };
        assert_eq!(
            nothing.carbon_equivalent().unwrap_err().element,
            Element::Boron
        );
    }
}
