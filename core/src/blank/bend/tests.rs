//! Bends: what is refused, and what must hold of any bend. Published figures are in the `tests` crate.

extern crate std;

use std::string::ToString;

use super::*;
use crate::tables::minimum_radius;
use crate::tables::{Alloy, Temper};
use crate::units::{Angle, AngleUnit, Length, LengthUnit, Ratio};

fn mm(value: f64) -> Length {
    Length::new(value, LengthUnit::Millimetre)
}

fn inch(value: f64) -> Length {
    Length::new(value, LengthUnit::Inch)
}

fn degrees(value: f64) -> Angle {
    Angle::new(value, AngleUnit::Degree)
}

fn bend(t: f64, r: f64, turn: f64) -> Bend {
    let rule = BendRule::KFactor(Ratio::from_share(0.44));
    Bend::new(mm(t), mm(r), degrees(turn), rule).unwrap()
}

fn is_near(a: f64, b: f64) -> bool {
    libm::fabs(a - b) <= 1e-12 * libm::fmax(1.0, libm::fabs(b))
}

#[test]
fn what_no_press_can_do_is_refused_by_name() {
    let k = |share| BendRule::KFactor(Ratio::from_share(share));
    let refused = |t, r, turn, rule| {
        Bend::new(mm(t), mm(r), degrees(turn), rule)
            .unwrap_err()
            .field
    };
    assert_eq!(refused(0.0, 3.0, 90.0, k(0.44)), BendField::Thickness);
    assert_eq!(refused(f64::NAN, 3.0, 90.0, k(0.44)), BendField::Thickness);
    assert_eq!(refused(2.0, -0.1, 90.0, k(0.44)), BendField::InsideRadius);
    assert_eq!(refused(2.0, 3.0, 0.0, k(0.44)), BendField::Turn);
    assert_eq!(refused(2.0, 3.0, 180.0, k(0.44)), BendField::Turn);
    assert_eq!(refused(2.0, 3.0, f64::NAN, k(0.44)), BendField::Turn);
    assert_eq!(refused(2.0, 3.0, 90.0, k(0.51)), BendField::KFactor);
    assert_eq!(refused(2.0, 3.0, 90.0, k(0.049)), BendField::KFactor);
    assert_eq!(
        refused(2.0, 0.0, 90.0, BendRule::Din6935),
        BendField::InsideRadius
    );
    assert_eq!(
        refused(2.0, 0.15, 90.0, BendRule::Din6935),
        BendField::InsideRadius
    );
    assert!(Bend::new(mm(2.0), mm(0.16), degrees(90.0), BendRule::Din6935).is_ok());
    assert!(Bend::new(mm(2.0), mm(0.0), degrees(90.0), k(0.33)).is_ok());

    let error = Bend::new(mm(2.0), mm(3.0), degrees(90.0), k(0.6)).unwrap_err();
    assert_eq!(
        error.to_string(),
        "K-factor of the bend: 60.0 % is out of range: it must be at most 50.0 %"
    );
    let error = Bend::new(mm(2.0), mm(3.0), degrees(190.0), k(0.4)).unwrap_err();
    assert_eq!(
        error.to_string(),
        "turn of the bend: 190.00° is out of range: it must be below 180.00°"
    );
}

#[test]
fn din_6935_keeps_within_the_factor_at_every_radius_it_takes() {
    for step in 0..2_000 {
        let r = 0.16 * libm::pow(10.0, f64::from(step) / 1_000.0);
        let bend = Bend::new(mm(2.0), mm(r), degrees(90.0), BendRule::Din6935).unwrap();
        let [least, most] = K_FACTOR;
        assert!(
            bend.k() >= least && bend.k() <= most,
            "r {r}: {:?}",
            bend.k()
        );
    }
}

#[test]
fn no_corner_is_given_where_there_is_none_to_measure_from() {
    assert!(bend(2.0, 3.0, 170.0).setback().is_some());
    assert!(bend(2.0, 3.0, 170.1).setback().is_none());
    assert!(bend(2.0, 3.0, 170.1).deduction().is_none());
    // The compensation needs no corner at these turns.
    let hem = bend(2.0, 3.0, 179.0).compensation().si();
    let arc = 179.0 / 180.0 * PI * 0.003_88;
    assert!(is_near(hem, arc - 0.01));
}

#[test]
fn the_three_ways_to_a_blank_agree() {
    for turn in [15.0, 30.0, 45.0, 89.0, 90.0] {
        let bend = bend(2.0, 3.0, turn);
        let (setback, legs) = (bend.setback().unwrap().si(), [0.05, 0.07]);
        let [a, b] = legs;
        let by_flats = (a - setback) + bend.allowance().si() + (b - setback);
        let by_deduction = a + b - bend.deduction().unwrap().si();
        let by_compensation = a + b + bend.compensation().si();
        assert!(is_near(by_flats, by_deduction), "{turn}");
        assert!(is_near(by_flats, by_compensation), "{turn}");
    }
    // By the standard a bend of less than 15° takes nothing from its legs.
    assert!(is_near(bend(2.0, 3.0, 14.9).compensation().si(), 0.0));
}

#[test]
fn a_bend_in_two_halves_is_as_long_as_the_whole() {
    let (whole, half) = (bend(1.6, 2.4, 80.0), bend(1.6, 2.4, 40.0));
    assert!(is_near(whole.allowance().si(), 2.0 * half.allowance().si()));
    assert!(is_near(
        whole.neutral_radius().si(),
        0.002_4 + 0.44 * 0.001_6
    ));
}

#[test]
fn thicker_sheet_never_takes_a_tighter_bend() {
    let mut rows = 0;
    for alloy in Alloy::ALL {
        for temper in Temper::ALL {
            let mut last = 0.0;
            for step in 1..1_400 {
                let t = 0.01 * f64::from(step);
                let Some(least) = minimum_radius(*alloy, *temper, mm(t)) else {
                    continue;
                };
                rows += u32::from(step == 1);
                assert!(least.radius.si() >= last, "{alloy}-{temper} {t} mm");
                assert!(is_near(least.times * mm(t).si(), least.radius.si()));
                last = least.radius.si();
            }
        }
    }
    // Three grades of steel take the row of the unnamed one.
    assert_eq!(rows, 17 + 3, "one for each temper of each row");
}

#[test]
fn where_the_table_ends_nothing_is_guessed() {
    let least = |alloy, temper, t| minimum_radius(alloy, temper, t);
    assert!(least(Alloy::A5052, Temper::H32, inch(0.5)).is_some());
    assert!(least(Alloy::A5052, Temper::H32, inch(0.53)).is_none());
    assert!(least(Alloy::A5086, Temper::H32, inch(0.27)).is_none());
    assert!(least(Alloy::A5052, Temper::H38, inch(0.1)).is_none());
    assert!(least(Alloy::A6063, Temper::T6, inch(0.1)).is_none());
    assert!(least(Alloy::A5052, Temper::H32, mm(0.0)).is_none());
    assert!(least(Alloy::A5052, Temper::H32, mm(f64::NAN)).is_none());
}

#[test]
fn between_two_columns_the_thicker_holds() {
    let times = |t| minimum_radius(Alloy::A5052, Temper::H32, t).unwrap().times;
    assert!(is_near(times(inch(0.062_5)), 1.0));
    // Sold as 0.063 in, and called 1/16.
    assert!(is_near(times(inch(0.063)), 1.0));
    assert!(is_near(times(mm(2.0)), 1.5));
}

#[test]
fn the_notch_is_wider_than_the_sheet_and_reaches_past_the_bend() {
    let notch = relief(&bend(2.0, 3.0, 90.0));
    assert!(is_near(notch.width.si(), 0.003));
    assert!(is_near(notch.depth.si(), 0.005));
}
