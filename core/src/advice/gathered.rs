//! The cautions that belong to one tank and its test, gathered from their lists.

use heapless::Vec;

use super::caution::{Caution, Cautions, always, for_alloy, for_leak_test, for_liquid};
use super::notice::Severity;
use crate::leak::{LeakRule, Method};
use crate::tank::Tank;

/// Cautions, none of them twice, the widest one last.
pub type CautionList = Vec<Caution, { Caution::ALL.len() }>;

impl Caution {
    /// How much it matters: a warning tells of the work itself, a caution of rules that go before anything here.
    #[must_use]
    pub const fn severity(self) -> Severity {
        match self {
            Self::LocalCode | Self::FuelUs | Self::FuelEu | Self::FuelUk | Self::DrinkingWater => {
                Severity::Caution
            }
            _ => Severity::Warning,
        }
    }
}

/// All of some lists, each once. Whoever reads to the end has the widest one last.
fn gathered(lists: impl IntoIterator<Item = Cautions>) -> CautionList {
    let mut all = CautionList::new();
    let mut widest = None;
    for caution in lists.into_iter().flatten() {
        if caution == Caution::LocalCode {
            widest = Some(caution);
        } else if !all.contains(&caution) {
            // There is room for every caution once.
            let _ = all.push(caution);
        }
    }
    all.extend(widest);
    all
}

impl Tank {
    /// All cautions that belong to making this tank and testing it. Where no leak test can be proposed, whoever tests
    /// in spite of that may do so with air or with water.
    ///
    /// ```
    /// # use seamwright_core::prelude::*;
    /// # let mm = |value| Length::new(value, LengthUnit::Millimetre);
    /// # let outside = Block::new(mm(320.0), mm(180.0), mm(160.0));
    /// # let draft = Draft::new("Header tank", outside, StockDraft::of(Alloy::A5754, mm(2.0)))?;
    /// # let tank = Tank::build(&draft)?;
    /// let first = tank.cautions()[0];
    /// assert!(first.whole().ends_with("Local codes and licensed practice go first."));
    /// assert!(!first.source().is_empty());
    /// # Ok::<(), Box<dyn core::error::Error>>(())
    /// ```
    #[must_use]
    pub fn cautions(&self) -> CautionList {
        let [test, other] = match self.leak_plan(LeakRule::default()) {
            Ok(plan) => [Some(plan.method), None],
            Err(_) => [Some(Method::AirSoap), Some(Method::WaterHead)],
        };
        let tests = test.into_iter().chain(other).map(for_leak_test);
        let own = [always(), for_alloy(self.job.alloy)].into_iter();
        gathered(own.chain(self.job.liquid.map(for_liquid)).chain(tests))
    }

    /// The cautions that belong to one leak test of this tank: by the method that was proposed, `None` where none was,
    /// and by a gauge with air where readings of one were taken.
    #[must_use]
    pub fn leak_test_cautions(&self, proposed: Option<Method>, was_read: bool) -> CautionList {
        let read = was_read.then_some(Method::PressureDecay);
        let methods = proposed.into_iter().chain(read).map(for_leak_test);
        gathered(methods.chain(self.job.liquid.map(for_liquid)))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::tables::Liquid;

    #[test]
    fn each_once_and_the_widest_last() {
        let air = for_leak_test(Method::AirSoap);
        let both = gathered([air.clone(), for_liquid(Liquid::Water), air]);
        let told = [
            Caution::PressureTest,
            Caution::DrinkingWater,
            Caution::LocalCode,
        ];
        assert_eq!(both, told);
        let lists = Liquid::ALL.into_iter().map(for_liquid);
        let all = gathered(lists.chain([always()]));
        assert_eq!(all.last(), Some(&Caution::LocalCode));
    }
}
