//! How warm the metal of a tank is to be before an arc, against what is published for its alloy.

use crate::tables::preheat::{interpass_limit, least_temperature};
use crate::tank::Tank;

/// The warmest that a job lets the metal be where a stitch starts, against the published limit.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum InterpassChoice {
    /// Warmer than is published.
    Above,
    /// What is published.
    AsPublished,
    /// Cooler than it need be.
    Below,
}

impl Tank {
    /// Whether the air and the sheet are colder than the first arc should find them
    /// ([`least_temperature`]), so that the sheet is to be warmed and dried.
    #[must_use]
    pub fn is_too_cold(&self) -> bool {
        self.job.welding.ambient < least_temperature(self.job.alloy).value
    }

    /// How its [`interpass_max`](Self::interpass_max) stands against the limit of its alloy ([`interpass_limit`]).
    #[must_use]
    pub fn interpass_choice(&self) -> InterpassChoice {
        let (own, limit) = (self.interpass_max(), interpass_limit(self.job.alloy).value);
        if own > limit {
            InterpassChoice::Above
        } else if own < limit {
            InterpassChoice::Below
        } else {
            InterpassChoice::AsPublished
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::input::{Block, Draft, StockDraft};
    use crate::tables::Alloy;
    use crate::units::{Length, LengthUnit, Temperature, TemperatureUnit};

    /// Austenitic stainless steel: between runs 150 °C at most (EN 1011-3), before the first 10 °C at least (common
    /// practice, no source).
    #[test]
    fn a_job_against_what_is_published() {
        let mm = |value| Length::new(value, LengthUnit::Millimetre);
        let at = |degrees| Temperature::new(degrees, TemperatureUnit::Celsius);
        let tank = |ambient, interpass| {
            let outside = Block::new(mm(320.0), mm(180.0), mm(160.0));
            let stock = StockDraft::of(Alloy::S304L, mm(1.5));
            let mut draft = Draft::new("Rinse tank", outside, stock).unwrap();
            draft.weld.ambient = Some(at(ambient));
            draft.weld.interpass_max = interpass;
            Tank::build(&draft).unwrap()
        };
        assert!(tank(9.0, None).is_too_cold() && !tank(10.0, None).is_too_cold());
        let choice = |own: Option<f64>| tank(20.0, own.map(at)).interpass_choice();
        assert_eq!(choice(None), InterpassChoice::AsPublished);
        assert_eq!(choice(Some(150.0)), InterpassChoice::AsPublished);
        assert_eq!(choice(Some(151.0)), InterpassChoice::Above);
        assert_eq!(choice(Some(120.0)), InterpassChoice::Below);
    }
}
