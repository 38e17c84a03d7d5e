use super::*;
use crate::units::VolumeUnit;

fn l(value: f64) -> Volume {
    Volume::new(value, VolumeUnit::Litre)
}

fn close(got: f64, expected: f64, within: f64) {
    assert!(
        libm::fabs(got - expected) <= within,
        "{got} is not {expected}"
    );
}

/// Litres by the model, and measured.
fn set<const N: usize>(pairs: [[f64; 2]; N]) -> [Pair; N] {
    pairs.map(|[model, measured]| Pair {
        model: l(model),
        measured: l(measured),
    })
}

#[test]
fn two_pours_are_met_exactly() {
    let got = calibrate(&set([[2.0, 2.3], [6.0, 6.5]]), l(8.0)).unwrap();
    close(got.calibration.scale, 1.05, 1e-12);
    close(got.calibration.offset.si(), 0.0002, 1e-15);
    close(got.deviation.si(), 0.0, 0.0);
    let seven = got.calibration.volume(l(7.0)).unwrap();
    close(seven.si(), 0.007_55, 1e-15);
    close(got.calibration.model(seven).unwrap().si(), 0.007, 1e-15);
}

#[test]
fn least_squares_of_a_worked_example() {
    // By hand, in litres: x 1 2 3 4, y 1.1 1.9 3.2 4.0: mean 2.5 and 2.55, Sxx 5, Sxy 5, so b = 1.0,
    // a = 0.05; residuals 0.05 -0.15 0.15 -0.05, squares 0.05, deviation sqrt(0.05 / 2).
    let pairs = set([[1.0, 1.1], [2.0, 1.9], [3.0, 3.2], [4.0, 4.0]]);
    let got = calibrate(&pairs, l(5.0)).unwrap();
    close(got.calibration.scale, 1.0, 1e-12);
    close(got.calibration.offset.si(), 0.000_05, 1e-15);
    close(got.deviation.si(), libm::sqrt(0.025) * 1e-3, 1e-15);
    assert!(got.worst == 2 || got.worst == 3);
    close(libm::fabs(got.worst_by.si()), 0.000_15, 1e-15);
    close(got.calibration.residual(pairs[0]).si(), 0.000_05, 1e-15);
    close(got.calibration.corrected(pairs[0]).si(), 0.001_05, 1e-15);
}

#[test]
fn refuses_pours_that_say_nothing() {
    use CalibrateError as E;
    let brim = l(8.0);
    let error = |pairs: &[Pair]| calibrate(pairs, brim).unwrap_err();
    assert!(matches!(error(&set([[2.0, 2.0]])), E::Count(_)));
    assert!(matches!(error(&[set([[2.0, 2.0]])[0]; 17]), E::Count(_)));
    assert!(matches!(
        error(&set([[2.0, 2.0], [8.1, 8.1]])),
        E::Model { pour: 2, .. }
    ));
    assert!(matches!(
        error(&set([[2.0, 2.0], [5.0, 2.0]])),
        E::Measured { pour: 2, .. }
    ));
    assert!(matches!(
        error(&set([[2.0, 0.0], [5.0, 5.0]])),
        E::Measured { pour: 1, .. }
    ));
    assert!(matches!(
        error(&set([[2.0, 2.0], [2.1, 2.2], [5.0, 5.0]])),
        E::TooClose { pour: 2, .. }
    ));
    assert!(matches!(
        error(&set([[2.0, 2.0], [3.5, 3.5]])),
        E::ShortReach(_)
    ));
    assert!(matches!(error(&set([[2.0, 2.0], [6.0, 8.0]])), E::Scale(_)));
    let nan = set([[2.0, 2.0], [6.0, f64::NAN]]);
    assert!(matches!(error(&nan), E::Measured { pour: 2, .. }));
    let none = calibrate(&set([[2.0, 2.0], [6.0, 6.0]]), l(0.0));
    assert!(matches!(none, Err(E::Brim(_))));
    // Below the lowest pour a negative offset gives less than nothing, and that is said.
    let low = calibrate(&set([[2.0, 1.8], [6.0, 5.9]]), brim).unwrap();
    assert!(low.calibration.volume(l(0.1)).is_err());
}
