//! Joints against the corner table of `checks.json`, and put together again as cross-sections: another
//! implementation of polygons says whether two sheets touch without overlapping.

use geo::{Area, BooleanOps, Distance, Euclidean, LineString, Polygon};
use proptest::prelude::*;
use seamwright_core::blank::{Allow, BendRule, EdgeFit, JointError, SheetCorner};
use seamwright_core::input::Joint;
use seamwright_core::units::{Angle, AngleUnit, LengthUnit};
use seamwright_tests::Outcome;
use seamwright_tests::amounts::mm;
use seamwright_tests::checks::{expect_near, geometry, number};
use seamwright_tests::near::Tolerance;

fn allow() -> Allow {
    Allow {
        lap: mm(20.0),
        gap: mm(0.0),
        bend_radius: mm(3.0),
        rule: BendRule::Din6935,
    }
}

fn fit(joint: Joint, degrees: f64, sheets: [f64; 2]) -> Result<[EdgeFit; 2], JointError> {
    let corner = SheetCorner {
        dihedral: Angle::new(degrees, AngleUnit::Degree),
        sheets: sheets.map(mm),
    };
    joint.fit(corner, &allow()).map(|fit| fit.sides)
}

/// Rows `corner-60` to `corner-150`: equal sheets of 3 mm, verified with shapely when the table was made
/// (touching, no overlap).
#[test]
pub(super) fn the_corner_table() -> Outcome {
    for id in [
        "corner-60",
        "corner-75",
        "corner-90",
        "corner-120",
        "corner-135",
        "corner-150",
    ] {
        let row = geometry(id);
        let degrees = number(&row["inputs"]["dihedral_deg"]);
        let sheet = number(&row["inputs"]["t"]);
        let deducts = |joint| -> Result<[f64; 2], JointError> {
            let sides = fit(joint, degrees, [sheet; 2])?;
            Ok(sides.map(|side| side.deduct.in_unit(LengthUnit::Millimetre)))
        };
        let close = Tolerance {
            relative: 1e-12,
            absolute: 1e-12,
        };
        for side in deducts(Joint::OpenCorner)? {
            expect_near(&row, "edge_to_edge_deduct_each", side, close)?;
        }
        let [through, gives_way] = deducts(Joint::ClosedCorner)?;
        expect_near(&row, "closed_corner_deduct_A", through, close)?;
        expect_near(&row, "closed_corner_deduct_B", gives_way, close)?;
        let [_, lands] = fit(Joint::Tee, degrees, [sheet; 2])?;
        let tee = lands.deduct.in_unit(LengthUnit::Millimetre);
        expect_near(&row, "tee_deduct_B_bevelled_outer_face", tee, close)?;
        let bevel = lands.bevel.in_unit(AngleUnit::Degree);
        expect_near(&row, "tee_bevel_from_square_deg", bevel, close)?;
    }
    Ok(())
}

/// A sheet in cross-section, its outer face along `direction` from the outside corner; inward is to the
/// side that `turn` says. Its end falls short on the outer face by `outer` and on the inner by `inner`.
fn sheet(direction: f64, inward: f64, thickness: f64, outer: f64, inner: f64) -> Polygon {
    const LONG: f64 = 200.0;
    let (s, c) = direction.sin_cos();
    let (ns, nc) = inward.sin_cos();
    let at = |along: f64, deep: f64| (c * along + nc * deep, s * along + ns * deep);
    let ring = LineString::from(vec![
        at(outer, 0.0),
        at(LONG, 0.0),
        at(LONG, thickness),
        at(inner, thickness),
        at(outer, 0.0),
    ]);
    Polygon::new(ring, vec![])
}

/// The two sheets of a joint, the second longer by `more`; both in an open corner, where one alone would
/// only stand out into the groove.
fn sections(joint: Joint, degrees: f64, sheets: [f64; 2], more: f64) -> [Polygon; 2] {
    let [a, b] = fit(joint, degrees, sheets).unwrap();
    let theta = degrees.to_radians();
    let deduct = |side: EdgeFit| side.deduct.in_unit(LengthUnit::Millimetre);
    // A bevelled end runs along the other sheet's inner face.
    let slant = if b.bevel.si() > 0.0 {
        sheets[1] / theta.tan()
    } else {
        0.0
    };
    let both = if joint == Joint::OpenCorner {
        more
    } else {
        0.0
    };
    let quarter = std::f64::consts::FRAC_PI_2;
    [
        sheet(0.0, quarter, sheets[0], deduct(a) - both, deduct(a) - both),
        sheet(
            theta,
            theta - quarter,
            sheets[1],
            deduct(b) - more,
            deduct(b) - more + slant,
        ),
    ]
}

const CORNERS: [Joint; 4] = [
    Joint::OpenCorner,
    Joint::HalfOpenCorner,
    Joint::ClosedCorner,
    Joint::Tee,
];

proptest! {
    #![proptest_config(ProptestConfig { cases: 2_000, ..ProptestConfig::default() })]

    /// Put together, two sheets touch and do not overlap; a little longer, and they would.
    #[test]
    fn sheets_meet_without_overlap(
        which in 0..CORNERS.len(),
        degrees in 40.0..150.0_f64,
        thickness in 1.0..6.0_f64,
    ) {
        // Square cuts of sheets that differ much stand proud at blunt corners; equal ones never do.
        let sheets = [thickness; 2];
        let [a, b] = sections(CORNERS[which], degrees, sheets, 0.0);
        let overlap = a.intersection(&b).unsigned_area();
        prop_assert!(overlap < 1e-6, "{:?}: {} mm² of overlap", CORNERS[which], overlap);
        let apart = Euclidean.distance(&a, &b);
        prop_assert!(apart < 1e-6, "{:?}: {} mm apart", CORNERS[which], apart);
        let [a, b] = sections(CORNERS[which], degrees, sheets, 0.05);
        let longer = a.intersection(&b).unsigned_area();
        prop_assert!(longer > 1e-6, "{:?}: 0.05 mm longer is not felt", CORNERS[which]);
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 1_000, ..ProptestConfig::default() })]

    /// The same at an inside corner of the body.
    #[test]
    fn sheets_meet_at_inside_corners(
        which in 0..3_usize,
        degrees in 210.0..320.0_f64,
        thickness in 1.0..6.0_f64,
    ) {
        let [a, b] = sections(CORNERS[which], degrees, [thickness; 2], 0.0);
        let overlap = a.intersection(&b).unsigned_area();
        prop_assert!(overlap < 1e-6, "{:?}: {} mm² of overlap", CORNERS[which], overlap);
        let apart = Euclidean.distance(&a, &b);
        prop_assert!(apart < 1e-6, "{:?}: {} mm apart", CORNERS[which], apart);
    }
}

#[test]
fn joints_that_do_not_suit_are_refused() {
    for joint in [Joint::Butt, Joint::JoggleLap] {
        assert!(matches!(
            fit(joint, 90.0, [2.0; 2]),
            Err(JointError::NotFlat { .. })
        ));
        assert!(fit(joint, 180.0, [2.0; 2]).is_ok());
    }
    for joint in CORNERS {
        assert!(matches!(
            fit(joint, 180.0, [2.0; 2]),
            Err(JointError::NoCorner { .. })
        ));
        assert!(matches!(
            fit(joint, 5.0, [2.0; 2]),
            Err(JointError::TooSharp { .. })
        ));
    }
    let corner = SheetCorner {
        dihedral: Angle::new(90.0, AngleUnit::Degree),
        sheets: [mm(2.0); 2],
    };
    let short = Allow {
        lap: mm(4.0),
        ..allow()
    };
    assert!(matches!(
        Joint::FlangedLap.fit(corner, &short),
        Err(JointError::ShortFlange { .. })
    ));
}
