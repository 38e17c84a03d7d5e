//! Panels judged, mended and parted by baffles.

use super::*;
use crate::units::{Figure, LengthUnit, PressureUnit};

fn mm(value: f64) -> Length {
    Length::new(value, LengthUnit::Millimetre)
}

fn mpa(value: f64) -> Pressure {
    Pressure::new(value, PressureUnit::Megapascal)
}

fn sheet() -> PanelMetal {
    PanelMetal::new(mpa(70_000.0), 0.33, mpa(80.0)).unwrap()
}

fn panel(a: f64, b: f64, t: f64, pressing: Pressing) -> FlatPanel {
    let outline = [[0.0, 0.0], [a, 0.0], [a, b], [0.0, b]];
    FlatPanel::new(&outline, mm(t), sheet(), pressing).unwrap()
}

fn near(got: f64, want: f64, share: f64) {
    assert!((got / want - 1.0).abs() < share, "{got} against {want}");
}

/// What mends a panel does: its reserve, computed anew, is the one asked for.
#[test]
fn mended() {
    let pressing = Pressing {
        at_origin: Pressure::from_pascals(1_000.0),
        slope: [0.0, 9_000.0],
    };
    for (a, b, t) in [(0.6, 0.3, 2.0), (0.3, 0.6, 2.0), (0.4, 0.4, 1.5)] {
        let weak = panel(a, b, t, pressing);
        let t = weak.mend(3.0).unwrap().in_unit(LengthUnit::Millimetre);
        near(panel(a, b, t, pressing).strength().reserve, 3.0, 1e-4);
    }
}

#[test]
fn spacing_gives_the_reserve() {
    let p = Pressure::from_pascals(15_000.0);
    for width in [150.0, 300.0, 600.0] {
        for target in [1.0, 2.0, 4.0] {
            let Spacing::AtMost(span) =
                baffle_spacing(mm(width), mm(2.0), sheet(), p, target).unwrap()
            else {
                let long = panel(0.001 * width, 0.01 * width, 2.0, Pressing::even(p));
                assert!(long.strength().reserve > 0.99 * target);
                continue;
            };
            let got = panel(0.001 * width, span.si(), 2.0, Pressing::even(p)).strength();
            assert!(
                got.reserve >= target && got.reserve < 1.01 * target,
                "{width} {target} {span:?} {got:?}"
            );
        }
    }
    let still = baffle_spacing(
        mm(300.0),
        mm(2.0),
        sheet(),
        Pressure::from_pascals(0.0),
        2.0,
    );
    assert_eq!(still, Ok(Spacing::Any));
}

#[test]
fn nothing_presses() {
    let got = panel(0.4, 0.3, 2.0, Pressing::even(Pressure::from_pascals(0.0)));
    let strength = got.strength();
    assert!(strength.reserve.is_infinite() && !strength.bulges);
    assert!(got.mend(2.0).unwrap().si() < 1e-12);
}

#[test]
fn refused() {
    let even = Pressing::even(Pressure::from_pascals(1e3));
    let square = [[0.0, 0.0], [1.0, 0.0], [1.0, 1.0], [0.0, 1.0]];
    let outline = |points: &[[f64; 2]]| match FlatPanel::new(points, mm(2.0), sheet(), even) {
        Err(error) if error.is_of_outline() => Some(error),
        _ => None,
    };
    assert_eq!(
        outline(&square[..2]),
        Some(PanelError::TooFew { corners: 2 })
    );
    assert_eq!(
        outline(&[[0.0, 0.0], [1.0, 1.0], [2.0, 2.0]]),
        Some(PanelError::NoArea)
    );
    assert_eq!(outline(&[[0.5, 0.5]; 5]), Some(PanelError::NoArea));
    assert_eq!(
        outline(&[[0.0, 0.0], [1.0, f64::NAN], [2.0, 2.0]]),
        Some(PanelError::NotFinite)
    );
    assert_eq!(outline(&square), None);
    let input = |t: f64, p: f64| match FlatPanel::new(
        &square,
        mm(t),
        sheet(),
        Pressing::even(Pressure::from_pascals(p)),
    ) {
        Err(PanelError::Range(error)) => Some(error.figure),
        _ => None,
    };
    assert_eq!(input(0.0, 1e3), Some(Figure::Thickness));
    assert_eq!(input(2.0, f64::NAN), Some(Figure::Pressure));
    assert_eq!(input(2.0, -5.0), Some(Figure::Pressure));
    assert_eq!(
        PanelMetal::new(mpa(70_000.0), 0.1, mpa(80.0))
            .unwrap_err()
            .figure,
        Figure::Poisson
    );
    assert_eq!(
        PanelMetal::new(mpa(70.0), 0.3, mpa(80.0))
            .unwrap_err()
            .figure,
        Figure::Modulus
    );
    assert!(panel(0.4, 0.3, 2.0, even).mend(0.0).is_err());
}
