//! What may hurt someone, by the result that it belongs to.
//!
//! Each caution has a short form for a small display, a whole one for the job sheet, and where it comes
//! from. None of them teaches how to do dangerous work: local codes and licensed practice go first, and
//! each says so. Lists may share cautions; whoever shows several lists shows each caution once.

mod text;

use core::iter::Copied;
use core::slice::Iter;

use crate::leak::Method;
use crate::tables::{Alloy, Family, Liquid};

/// A few cautions, none of them twice.
pub type Cautions = Copied<Iter<'static, Caution>>;

/// Something that may hurt someone.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum Caution {
    /// A test with air under pressure.
    PressureTest,
    /// A test with water: its weight, and the vacuum when it drains.
    WaterTest,
    /// Tanks that held fuel, oil or anything that gives off vapour.
    UsedTank,
    /// Hot work on a vessel that is shut.
    VentFirst,
    /// Argon where it gathers.
    Argon,
    /// Fume of zinc, cadmium, lead and paint.
    CoatedMetal,
    /// Chlorinated cleaners near an arc.
    ChlorinatedSolvent,
    /// Rays of the arc.
    ArcRays,
    /// Ozone and fume of the arc.
    OzoneFume,
    /// Chromium and nickel in the fume of stainless steel.
    StainlessFume,
    /// Aluminium looks the same hot and cold.
    HotAluminium,
    /// Caustic wash in or on aluminium.
    CausticWash,
    /// Pacemakers and other implants near the arc and its high frequency.
    Implants,
    /// Tanks for drinking water.
    DrinkingWater,
    /// Fuel tanks under the rules of the United States.
    FuelUs,
    /// Fuel tanks under the rules of the European Union.
    FuelEu,
    /// Fuel tanks under the rules of the United Kingdom.
    FuelUk,
    /// Every rule that is not named here.
    LocalCode,
}

impl Caution {
    /// Every caution.
    pub const ALL: [Self; 18] = [
        Self::PressureTest,
        Self::WaterTest,
        Self::UsedTank,
        Self::VentFirst,
        Self::Argon,
        Self::CoatedMetal,
        Self::ChlorinatedSolvent,
        Self::ArcRays,
        Self::OzoneFume,
        Self::StainlessFume,
        Self::HotAluminium,
        Self::CausticWash,
        Self::Implants,
        Self::DrinkingWater,
        Self::FuelUs,
        Self::FuelEu,
        Self::FuelUk,
        Self::LocalCode,
    ];
}

/// What belongs to every welded tank.
pub fn always() -> Cautions {
    const LIST: &[Caution] = &[
        Caution::UsedTank,
        Caution::VentFirst,
        Caution::ArcRays,
        Caution::OzoneFume,
        Caution::ChlorinatedSolvent,
        Caution::CoatedMetal,
        Caution::Argon,
        Caution::Implants,
        Caution::LocalCode,
    ];
    LIST.iter().copied()
}

/// What belongs to a leak test.
pub fn for_leak_test(method: Method) -> Cautions {
    let list: &[Caution] = match method {
        Method::WaterHead => &[Caution::WaterTest, Caution::LocalCode],
        Method::AirSoap | Method::PressureDecay => &[Caution::PressureTest, Caution::LocalCode],
    };
    list.iter().copied()
}

/// What belongs to what a tank holds.
pub fn for_liquid(liquid: Liquid) -> Cautions {
    let list: &[Caution] = if matches!(liquid, Liquid::Petrol | Liquid::Diesel | Liquid::Kerosene) {
        &[
            Caution::UsedTank,
            Caution::FuelUs,
            Caution::FuelEu,
            Caution::FuelUk,
            Caution::LocalCode,
        ]
    } else if matches!(liquid, Liquid::Water) {
        &[Caution::DrinkingWater, Caution::LocalCode]
    } else if liquid.petroleum().is_some() {
        &[Caution::UsedTank, Caution::LocalCode]
    } else {
        &[Caution::LocalCode]
    };
    list.iter().copied()
}

/// What belongs to the metal.
pub fn for_alloy(alloy: Alloy) -> Cautions {
    let list: &[Caution] = match alloy.family() {
        Family::Aluminium => &[Caution::HotAluminium, Caution::CausticWash],
        Family::Stainless => &[Caution::StainlessFume, Caution::Argon],
        _ => &[Caution::CoatedMetal],
    };
    list.iter().copied()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_caution_fits_the_display_and_defers() {
        for caution in Caution::ALL {
            let (short, whole) = (caution.short(), caution.whole());
            assert!(short.is_ascii() && short.len() <= 60, "{short}");
            assert!(whole.len() > short.len(), "{whole}");
            assert!(whole.ends_with(text::DEFER), "{whole}");
            assert!(!caution.source().is_empty());
            assert!(!caution.code().contains(' '));
        }
        for (n, caution) in Caution::ALL.iter().enumerate() {
            assert_eq!(*caution as usize, n, "all, and in order");
            let same = Caution::ALL.iter().filter(|c| c.code() == caution.code());
            assert_eq!(same.count(), 1);
        }
    }

    #[test]
    fn every_caution_belongs_to_something() {
        let methods = [Method::WaterHead, Method::AirSoap, Method::PressureDecay];
        for caution in Caution::ALL {
            let shown = always()
                .chain(methods.into_iter().flat_map(for_leak_test))
                .chain(Liquid::ALL.into_iter().flat_map(for_liquid))
                .chain(Alloy::ALL.iter().copied().flat_map(for_alloy));
            assert!(shown.into_iter().any(|c| c == caution), "{caution:?}");
        }
    }

    #[test]
    fn no_list_shows_a_caution_twice() {
        let lists = [always()]
            .into_iter()
            .chain(Liquid::ALL.into_iter().map(for_liquid))
            .chain(Alloy::ALL.iter().copied().map(for_alloy));
        for list in lists {
            assert!(list.len() > 0);
            for caution in list.clone() {
                assert_eq!(list.clone().filter(|c| *c == caution).count(), 1);
            }
        }
    }

    #[test]
    fn the_right_cautions_for_the_right_tank() {
        let has = |mut list: Cautions, caution| list.any(|c| c == caution);
        assert!(has(for_leak_test(Method::AirSoap), Caution::PressureTest));
        assert!(!has(
            for_leak_test(Method::WaterHead),
            Caution::PressureTest
        ));
        assert!(has(for_liquid(Liquid::Diesel), Caution::FuelUs));
        assert!(!has(for_liquid(Liquid::HydraulicOil), Caution::FuelUs));
        assert!(has(for_liquid(Liquid::Water), Caution::DrinkingWater));
        assert!(has(for_alloy(Alloy::A5052), Caution::CausticWash));
        assert!(has(for_alloy(Alloy::S316L), Caution::StainlessFume));
        assert!(has(for_alloy(Alloy::LowCarbonSteel), Caution::CoatedMetal));
        assert!(!has(for_alloy(Alloy::LowCarbonSteel), Caution::CausticWash));
        assert!(has(always(), Caution::UsedTank));
    }
}
