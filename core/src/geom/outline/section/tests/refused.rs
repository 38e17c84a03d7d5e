//! Outlines and sheets that are refused, and how.

use super::std::string::ToString;

use super::super::{Section, SectionCorner, SectionError};
use super::support::{corners, section};
use crate::units::Length;

fn refused(outline: &[[f64; 3]]) -> SectionError {
    Section::new(&corners(outline)).unwrap_err()
}

#[test]
fn counts_and_numbers() {
    assert_eq!(
        refused(&[[0.0, 0.0, 0.0], [1.0, 0.0, 0.0]]),
        SectionError::TooFew { corners: 2 }
    );
    assert_eq!(
        Section::new(&[SectionCorner::default(); 13]).unwrap_err(),
        SectionError::TooMany { corners: 13 }
    );
    for bad in [f64::NAN, f64::INFINITY, -1e7] {
        for axis in 0..3 {
            let mut outline = [[0.0, 0.0, 0.0], [1.0, 0.0, 0.0], [0.0, 1.0, 0.0]];
            outline[1][axis] = bad;
            assert_eq!(refused(&outline), SectionError::NotFinite { corner: 2 });
        }
    }
}

#[test]
fn corners_that_are_none() {
    assert_eq!(
        refused(&[
            [0.0, 0.0, 0.0],
            [1.0, 0.0, 0.0],
            [1.0, 1e-10, 0.0],
            [0.0, 1.0, 0.0]
        ]),
        SectionError::ZeroSide { corners: [2, 3] }
    );
    assert_eq!(
        refused(&[
            [0.0, 0.0, 0.0],
            [1.0, 0.0, 0.0],
            [1.0, 1.0, 0.0],
            [0.0, 0.0, 0.0]
        ]),
        SectionError::ZeroSide { corners: [4, 1] }
    );
    assert_eq!(
        refused(&[
            [0.0, 0.0, 0.0],
            [0.5, 0.0, 0.0],
            [1.0, 0.0, 0.0],
            [1.0, 1.0, 0.0]
        ]),
        SectionError::Straight { corner: 2 }
    );
    assert_eq!(
        refused(&[
            [0.0, 0.0, 0.0],
            [2.0, 0.0, 0.0],
            [1.0, 0.0, 0.0],
            [1.0, 1.0, 0.0]
        ]),
        SectionError::TurnsBack { corner: 2 }
    );
}

#[test]
fn radii() {
    let error = refused(&[[0.0, 0.0, 0.0], [0.3, 0.0, -0.025], [0.3, 0.2, 0.0]]);
    assert!(matches!(error, SectionError::Radius { corner: 2, .. }));
    assert!(error.to_string().contains("-25.00 mm is negative"));
}

#[test]
fn largest_radius_that_fits() {
    let with = |radius: f64| {
        [
            [0.0, 0.0, 0.05],
            [0.3, 0.0, 0.02],
            [0.3, 0.2, radius],
            [0.0, 0.2, 0.05],
        ]
    };
    let SectionError::Radius { most, corner, .. } = refused(&with(0.19)) else {
        panic!("another error");
    };
    assert_eq!(corner, 3);
    assert!(libm::fabs(most.si() - 0.18) < 1e-15);
    assert!(Section::new(&corners(&with(most.si()))).is_ok());
    assert!(Section::new(&corners(&with(most.si() + 1e-9))).is_err());
}

#[test]
fn crossings() {
    // A bow tie.
    assert_eq!(
        refused(&[
            [0.0, 0.0, 0.0],
            [1.0, 1.0, 0.0],
            [1.0, 0.0, 0.0],
            [0.0, 1.0, 0.0]
        ]),
        SectionError::Crossing { sides: [1, 3] }
    );
    // A corner that touches a side.
    assert_eq!(
        refused(&[
            [0.0, 0.0, 0.0],
            [4.0, 0.0, 0.0],
            [4.0, 2.0, 0.0],
            [2.0, 0.0, 0.0],
            [0.0, 2.0, 0.0],
        ]),
        SectionError::Crossing { sides: [1, 3] }
    );
    // Two inside corners that would meet if sharp, and keep clear when rounded.
    let neck = |radius: f64| {
        [
            [0.0, 0.0, 0.0],
            [2.0, 1.1, radius],
            [4.0, 0.0, 0.0],
            [4.0, 2.0, 0.0],
            [2.0, 0.9, radius],
            [0.0, 2.0, 0.0],
        ]
    };
    assert!(matches!(refused(&neck(0.0)), SectionError::Crossing { .. }));
    assert!(matches!(refused(&neck(0.1)), SectionError::Crossing { .. }));
    let open = section(&neck(1.0));
    assert!(open.area() > 0.0);
    // An arc that bulges into a side across: rounded, the outside corner of a notch keeps clear of it.
    let arc_side = |gap: f64| {
        [
            [0.0, 0.0, 0.0],
            [4.0, 0.0, 0.0],
            [4.0, 3.0, 0.0],
            [2.0, gap, 0.4],
            [0.0, 3.0, 0.0],
        ]
    };
    // The arc lifts the point of the notch by r (1 / sin α - 1), α half the angle of the notch.
    let lift = |gap: f64| {
        let half = libm::atan2(2.0, 3.0 - gap);
        0.4 * (1.0 / libm::sin(half) - 1.0)
    };
    let gap = -0.9 * lift(0.0);
    assert!(lift(gap) + gap > 0.0);
    assert!(Section::new(&corners(&arc_side(gap))).is_ok());
    assert!(matches!(
        refused(&arc_side(-1.3 * lift(0.0))),
        SectionError::Crossing { .. }
    ));
}

/// Two rounded inside corners from opposite sides: their arcs touch when the centres are two radii
/// apart.
#[test]
fn arcs_that_meet() {
    let waist = |gap: f64| {
        [
            [-3.0, -3.0, 0.0],
            [0.0, -gap, 0.5],
            [3.0, -3.0, 0.0],
            [3.0, 3.0, 0.0],
            [0.0, gap, 0.5],
            [-3.0, 3.0, 0.0],
        ]
    };
    // Half the waist is gap + r (1 / cos 45° - 1) for sides at about 45°.
    assert!(Section::new(&corners(&waist(-0.15))).is_ok());
    assert!(matches!(
        refused(&waist(-0.3)),
        SectionError::Crossing { .. }
    ));
}

#[test]
fn sheets() {
    let square = section(&[
        [0.0, 0.0, 0.004],
        [0.1, 0.0, 0.0],
        [0.1, 0.1, 0.0],
        [0.0, 0.1, 0.0],
    ]);
    assert_eq!(
        square.inward(&[0.002; 3]).unwrap_err(),
        SectionError::SheetCount { sides: 4, given: 3 }
    );
    assert_eq!(
        square.inward(&[0.002, f64::NAN, 0.002, 0.002]).unwrap_err(),
        SectionError::SheetNotFinite { side: 2 }
    );
    assert_eq!(
        square.inward(&[0.005; 4]).unwrap_err(),
        SectionError::RadiusUnderSheet {
            corner: 1,
            radius: Length::from_metres(0.004),
            sheet: Length::from_metres(0.005),
        }
    );
    assert_eq!(
        square.inward(&[0.002, 0.002, 0.002, 0.003]).unwrap_err(),
        SectionError::UnequalSheets {
            corner: 1,
            sheets: [Length::from_metres(0.003), Length::from_metres(0.002)],
        }
    );
    // Sharp corners let sheets differ: 100 less 2 and 3 one way, 2 and 1 the other.
    let mixed = square.inward(&[0.002, 0.003, 0.001, 0.002]).unwrap();
    assert!(libm::fabs(mixed.sharp_length(0) - 0.095) < 1e-15);
    assert!(libm::fabs(mixed.sharp_length(1) - 0.097) < 1e-15);
    assert!(libm::fabs(mixed.radius(0) - 0.002) < 1e-17);
    // A radius of just the sheet leaves the inside sharp.
    let sharp = square.inward(&[0.004; 4]).unwrap();
    assert!(!sharp.is_rounded());
}

#[test]
fn sheet_too_thick() {
    let triangle = section(&[[0.0, 0.0, 0.0], [0.3, 0.0, 0.0], [0.0, 0.4, 0.0]]);
    // The inscribed circle of a 3-4-5 triangle has radius 1: up to it something is left.
    assert!(triangle.inward(&[0.0999; 3]).is_ok());
    assert!(matches!(
        triangle.inward(&[0.1001; 3]).unwrap_err(),
        SectionError::SideVanishes { .. }
    ));
    // A neck of 10 mm between two rooms closes when the sheet is over 5 mm.
    let rooms = section(&[
        [0.0, 0.0, 0.0],
        [0.1, 0.0, 0.0],
        [0.1, 0.045, 0.0],
        [0.2, 0.045, 0.0],
        [0.2, 0.0, 0.0],
        [0.3, 0.0, 0.0],
        [0.3, 0.1, 0.0],
        [0.2, 0.1, 0.0],
        [0.2, 0.055, 0.0],
        [0.1, 0.055, 0.0],
        [0.1, 0.1, 0.0],
        [0.0, 0.1, 0.0],
    ]);
    assert!(rooms.inward(&[0.004; 12]).is_ok());
    let error = rooms.inward(&[0.006; 12]).unwrap_err();
    assert!(matches!(error, SectionError::Thick { .. }), "{error}");
    // Just closed counts as closed.
    let error = rooms.inward(&[0.005; 12]).unwrap_err();
    assert_eq!(
        error,
        SectionError::Thick {
            sides: [2, 9],
            sheets: [Length::from_metres(0.005); 2],
        }
    );
    assert_eq!(
        error.to_string(),
        "the sheet leaves nothing between side 2 (5.00 mm thick) and side 9 (5.00 mm thick); use thinner sheet or a larger outline"
    );
}

#[test]
fn small() {
    assert!(size_of::<Section>() <= 400);
}
