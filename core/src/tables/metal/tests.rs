//! Every row is whole and hangs together; the figures themselves are checked against published ones in
//! the `tests` crate.

use super::super::{Family, Filler};
use super::*;
use crate::units::{Length, LengthUnit};

#[test]
fn every_row_is_whole() {
    for alloy in Alloy::ALL {
        let metal = alloy.metal();
        assert!(metal.solidus().value < metal.liquidus().value, "{alloy}");
        for temper in Temper::ALL.iter().copied().map(Some).chain([None]) {
            let conductivity = alloy.conductivity(temper).value;
            assert!((10.0..240.0).contains(&conductivity), "{alloy} {temper:?}");
            for strength in metal.strengths(temper) {
                assert!(
                    strength.yield_strength < strength.ultimate,
                    "{alloy} {temper:?}"
                );
            }
        }
        let thin = Length::new(2.0, LengthUnit::Millimetre);
        assert!(metal.as_welded(None, None, thin).is_some(), "{alloy}");
        let magnesium = metal.magnesium().value;
        assert!(magnesium.least <= magnesium.nominal && magnesium.nominal <= magnesium.most);
    }
}

#[test]
fn a_weld_is_nowhere_stronger_than_the_sheet() {
    let thin = Length::new(2.0, LengthUnit::Millimetre);
    for alloy in Alloy::ALL {
        for temper in Temper::ALL {
            let Some(sheet) = alloy.metal().strength(Some(*temper)) else {
                continue;
            };
            let welded = alloy.metal().as_welded(Some(*temper), None, thin);
            let welded = welded.unwrap_or_else(|| panic!("{alloy} {temper}"));
            assert!(
                welded.yield_strength <= sheet.yield_strength,
                "{alloy} {temper}"
            );
            assert!(welded.ultimate <= sheet.ultimate, "{alloy} {temper}");
        }
    }
}

#[test]
fn what_is_not_known_is_none() {
    assert_eq!(Alloy::A5754.metal().strength(None), None);
    assert_eq!(Alloy::A6061.metal().strength(Some(Temper::O)), None);
    // Only typical figures are known, which nobody guarantees.
    let hard = Alloy::A5052.metal();
    assert_eq!(hard.strength(Some(Temper::H38)), None);
    assert_eq!(hard.strengths(Some(Temper::H38)).count(), 1);
    assert_eq!(Filler::R5556.melting(), None);
    assert_eq!(Filler::R4047.shear(), None);
}

#[test]
fn names_read_back() {
    for filler in Filler::ALL {
        assert_eq!(filler.name().parse(), Ok(*filler));
    }
    assert_eq!("ER5356".parse(), Ok(Filler::R5356));
    assert!("5654".parse::<Filler>().is_err());
}

#[test]
fn only_the_heat_treatable_have_silicon_and_magnesium() {
    for alloy in Alloy::ALL {
        if alloy.family() == Family::Aluminium {
            let metal = alloy.metal();
            let both = metal.magnesium().value.nominal.si() > 0.0
                && metal.silicon().value.nominal.si() > 0.0;
            assert_eq!(both, metal.heat_treatable(), "{alloy}");
        }
    }
}
