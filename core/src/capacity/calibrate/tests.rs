use super::*;
use crate::units::{LengthUnit, VolumeUnit};

fn l(value: f64) -> Volume {
    Volume::new(value, VolumeUnit::Litre)
}

fn mm(value: f64) -> Length {
    Length::new(value, LengthUnit::Millimetre)
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

/// A lying cylinder, 200 mm across and 300 mm long: by the textbook's segment (CRC Standard Mathematical
/// Tables, from memory).
fn cylinder(depth: Length) -> Option<Volume> {
    let (r, h) = (0.1, depth.si());
    (0.0..=0.2).contains(&h).then(|| {
        let d = r - h;
        let segment = r * r * libm::acos(d / r) - d * libm::sqrt(r * r - d * d);
        Volume::from_cubic_metres(0.3 * segment)
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
}

#[test]
fn finds_how_a_rod_stands_in_a_round_tank() {
    // The rod reads 4 mm too little, the tank holds 1.5 % more and 0.1 L is in the pipe below it.
    for (off, depths) in [
        (4.0, [20.0, 60.0, 110.0, 150.0]),
        (-3.0, [5.0, 60.0, 110.0, 199.0]),
    ] {
        let pours = depths.map(|depth| Pour {
            depth: mm(depth),
            measured: l(0.1 + 1.015 * cylinder(mm(depth + off)).map_or(0.0, |v| v.si() * 1e3)),
        });
        let brim = cylinder(mm(200.0)).unwrap();
        let got = calibrate_with_zero(&cylinder, &pours, brim, mm(15.0)).unwrap();
        close(got.calibration.zero.si(), off * 1e-3, 1e-7);
        close(got.calibration.scale, 1.015, 1e-5);
        close(got.calibration.offset.si(), 0.000_1, 1e-8);
        let depth = got.calibration.depth(mm(90.0));
        let volume = got.calibration.volume(cylinder(depth).unwrap()).unwrap();
        close(
            volume.si(),
            1e-4 + 1.015 * cylinder(mm(90.0 + off)).unwrap().si(),
            1e-8,
        );
    }
}

#[test]
fn refuses_a_zero_that_pours_cannot_tell() {
    let model = |depth: Length| {
        (0.0..=0.3)
            .contains(&depth.si())
            .then(|| l(depth.si() * 40.0))
    };
    let pours = [50.0, 120.0, 200.0].map(|depth| Pour {
        depth: mm(depth),
        measured: l(depth * 0.04 + 0.2),
    });
    let straight = calibrate_with_zero(&model, &pours, l(12.0), mm(15.0));
    assert_eq!(straight, Err(CalibrateError::Straight));
    // Off by 30 mm where 15 mm were allowed.
    let pours = [20.0, 60.0, 110.0, 150.0].map(|depth| Pour {
        depth: mm(depth),
        measured: cylinder(mm(depth + 30.0)).unwrap(),
    });
    let far = calibrate_with_zero(&cylinder, &pours, l(9.5), mm(15.0));
    assert!(matches!(far, Err(CalibrateError::ZeroFar(_))), "{far:?}");
    let two = calibrate_with_zero(&cylinder, &pours[..2], l(9.5), mm(15.0));
    assert!(matches!(two, Err(CalibrateError::Count(_))), "{two:?}");
    let none = calibrate_with_zero(&cylinder, &pours, l(9.5), mm(f64::NAN));
    assert!(matches!(none, Err(CalibrateError::Most(_))), "{none:?}");
    let mut high = pours;
    high[3].depth = mm(201.0);
    let outside = calibrate_with_zero(&cylinder, &high, l(9.5), mm(15.0));
    assert!(matches!(
        outside,
        Err(CalibrateError::Outside { pour: 4, .. })
    ));
    high[3].depth = mm(110.0);
    let equal = calibrate_with_zero(&cylinder, &high, l(9.5), mm(15.0));
    assert!(matches!(equal, Err(CalibrateError::Depth { pour: 4, .. })));
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
