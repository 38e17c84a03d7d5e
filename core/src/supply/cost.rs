//! What it costs: amounts times prices, in whatever money the prices are.

use crate::input::limits::PRICE;
use crate::units::range::RangeError;
use crate::units::{Energy, Figure, Mass, Time, Volume};

/// Items in the order of [`Costs::items`].
pub const ITEMS: [&str; 5] = ["sheet", "filler", "gas", "labour", "electricity"];

/// Unit prices; an item without one is not priced.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
pub struct Prices {
    /// Price of a kilogram of sheet.
    pub sheet: Option<f64>,
    /// Price of a kilogram of filler.
    pub filler: Option<f64>,
    /// Price of a cubic metre of gas.
    pub gas: Option<f64>,
    /// Price of an hour of work.
    pub labour: Option<f64>,
    /// Price of a kilowatt-hour.
    pub electricity: Option<f64>,
}

/// Amounts.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Amounts {
    /// Sheet, offcuts with it.
    pub sheet: Mass,
    /// Filler as bought.
    pub filler: Mass,
    /// Gas.
    pub gas: Volume,
    /// Work.
    pub labour: Time,
    /// Taken from the mains.
    pub electricity: Energy,
}

/// What each item costs.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
pub struct Costs {
    /// In the order of [`ITEMS`]; `None` where there is no price.
    pub items: [Option<f64>; 5],
}

impl Costs {
    /// Amounts times prices.
    ///
    /// # Errors
    /// [`RangeError`] for a price outside 0 to 10⁹, a mass outside 0 to 100 t, a volume outside 0 to 10 000 m³,
    /// a time outside 0 to 10 000 h, or an energy outside 0 to 10¹² J.
    pub fn of(amounts: &Amounts, prices: &Prices) -> Result<Self, RangeError> {
        let rows = [
            (Figure::Mass, amounts.sheet.si(), 1e5, 1.0, prices.sheet),
            (Figure::Mass, amounts.filler.si(), 1e5, 1.0, prices.filler),
            (Figure::GasVolume, amounts.gas.si(), 1e4, 1.0, prices.gas),
            (
                Figure::Time,
                amounts.labour.si(),
                3.6e7,
                3_600.0,
                prices.labour,
            ),
            (
                Figure::Energy,
                amounts.electricity.si(),
                1e12,
                3.6e6,
                prices.electricity,
            ),
        ];
        let mut items = [None; 5];
        for (item, (figure, amount, most, unit, price)) in items.iter_mut().zip(rows) {
            let amount = figure.within(amount, 0.0, most)?;
            if let Some(price) = price {
                let price = Figure::Price.within(price, PRICE.0, PRICE.1)?;
                *item = Some(amount / unit * price);
            }
        }
        Ok(Self { items })
    }

    /// The sum of what is priced.
    #[must_use]
    pub fn total(&self) -> f64 {
        self.items.iter().flatten().sum()
    }

    /// Whether every item has a price.
    #[must_use]
    pub fn is_whole(&self) -> bool {
        self.items.iter().all(Option::is_some)
    }
}
