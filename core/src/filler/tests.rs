//! What a rule says whatever the figures; the choices themselves are checked against published tables in
//! the `tests` crate.

use super::*;

fn every_pair() -> impl Iterator<Item = (Alloy, Alloy)> {
    let all = Alloy::ALL.iter().copied();
    all.flat_map(|base| Alloy::ALL.iter().map(move |other| (base, *other)))
}

fn hot() -> FillerService {
    FillerService::new(Some(Temperature::new(80.0, TemperatureUnit::Celsius)), true).unwrap()
}

#[test]
fn the_order_of_the_sheets_is_nothing() {
    for service in [FillerService::UNSAID, hot()] {
        for (base, other) in every_pair() {
            let marks =
                |a, b| ranked(a, b, &service).map(|v| (v.filler, v.findings.map(|f| f.mark)));
            assert_eq!(marks(base, other), marks(other, base), "{base} {other}");
        }
    }
}

#[test]
fn the_best_is_the_first_of_the_ranked() {
    for service in [FillerService::UNSAID, hot()] {
        for (base, other) in every_pair() {
            let [first, rest @ ..] = ranked(base, other, &service);
            let first = (!first.ruled_out()).then_some(first);
            assert_eq!(best(base, other, &service), first, "{base} {other}");
            for pair in rest.windows(2) {
                assert!(!pair[1].before(&pair[0]));
            }
        }
    }
}

#[test]
fn every_candidate_is_judged_once() {
    let ranked = ranked(Alloy::A5052, Alloy::A6061, &FillerService::UNSAID);
    for filler in Filler::ALL.iter().copied().map(Some).chain([None]) {
        assert_eq!(ranked.iter().filter(|v| v.filler == filler).count(), 1);
    }
}

#[test]
fn every_pair_of_one_family_has_a_filler() {
    for service in [FillerService::UNSAID, hot()] {
        for (base, other) in every_pair() {
            let aluminium = |alloy: Alloy| alloy.family() == Family::Aluminium;
            let chosen = best(base, other, &service);
            assert_eq!(
                chosen.is_some(),
                aluminium(base) == aluminium(other),
                "{base} {other}"
            );
            if let Some(verdict) = chosen {
                assert!(verdict.filler.is_some(), "{base} {other}");
            }
        }
    }
}

#[test]
fn a_service_is_checked() {
    let celsius = |value| Some(Temperature::new(value, TemperatureUnit::Celsius));
    assert!(FillerService::new(celsius(500.5), false).is_err());
    assert!(FillerService::new(celsius(f64::NAN), false).is_err());
    assert!(FillerService::new(celsius(-201.0), false).is_err());
    for share in [0.0, -0.1, 1.1, f64::NAN] {
        assert!(
            FillerService::UNSAID
                .with_dilution(Ratio::from_share(share))
                .is_err()
        );
    }
    assert!(
        FillerService::UNSAID
            .with_dilution(Ratio::from_share(1.0))
            .is_ok()
    );
}

#[test]
fn reasons_have_texts_of_their_own() {
    for (n, reason) in FillerReason::ALL.iter().enumerate() {
        assert!(
            FillerReason::ALL
                .iter()
                .skip(n + 1)
                .all(|other| other.text() != reason.text())
        );
    }
}
