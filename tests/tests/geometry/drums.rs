//! Drums against published figures: D. Jones's worked examples, the exact forms of dished ends, and a
//! leaning cylinder summed by scipy apart from this project.

use seamwright_core::body::SheetPlan;
use seamwright_core::body::turned::{Head, Turned};
use seamwright_core::capacity::Pool;
use seamwright_core::input::{Axis, Drum, Ends, Shape, Sized};
use seamwright_core::units::{Volume, VolumeUnit};
use seamwright_tests::Outcome;
use seamwright_tests::amounts::{self, lean, mm};
use seamwright_tests::checks::{expect, expect_near, geometry, number};
use seamwright_tests::near::{Tolerance, near};

/// Metres in so many inches.
fn inch(value: f64) -> f64 {
    amounts::inch(value).si()
}

fn gallons(volume: f64) -> f64 {
    Volume::from_cubic_metres(volume).in_unit(VolumeUnit::UsGallon)
}

/// D. Jones, "Computing fluid tank volumes" (Chemical Processing), as the docstrings of the library
/// `fluids` 1.3.1 repeat them: a lying tank of 108 in by 156 in, filled 36 in deep; upright ones of
/// 132 in, filled 24 in deep.
#[test]
pub(super) fn jones_worked_examples() -> Outcome {
    let close = Tolerance::relative(1e-9);
    let lying = |head: Head| {
        let tank = Turned::new(inch(54.0), inch(156.0), [head; 2]).unwrap();
        gallons(tank.below(0.0, 1.0, inch(36.0 - 54.0)).0)
    };
    for (id, head) in [
        ("jones-horiz_ellipsoidal", Head::Dome { depth: inch(42.0) }),
        (
            "jones-horiz_torispherical",
            Head::Torispherical {
                crown: inch(108.0),
                knuckle: inch(0.06 * 108.0),
            },
        ),
    ] {
        expect_near(&geometry(id), "US_gal", lying(head), close)?;
    }
    let upright = |head: Head| {
        let tank = Turned::new(inch(66.0), inch(100.0), [head, Head::Flat]).unwrap();
        gallons(tank.below(1.0, 0.0, inch(24.0) - tank.head_depth(0)).0)
    };
    for (id, head) in [
        (
            "jones-vertical_ellipsoidal",
            Head::Dome { depth: inch(33.0) },
        ),
        (
            "jones-vertical_torispherical",
            Head::Torispherical {
                crown: inch(132.0),
                knuckle: inch(0.06 * 132.0),
            },
        ),
    ] {
        expect_near(&geometry(id), "US_gal", upright(head), close)?;
    }
    Ok(())
}

/// Depth, volume and surface of dished ends: exact geometry by quadrature; DIN 28011 gives its depth as
/// 0.1935 D and its volume as 0.1 D³, rounded (from memory).
#[test]
pub(super) fn dished_ends() -> Outcome {
    let heads = [
        (
            "head-asme-fd",
            Head::Torispherical {
                crown: 1.0,
                knuckle: 0.06,
            },
        ),
        (
            "head-din28011",
            Head::Torispherical {
                crown: 1.0,
                knuckle: 0.1,
            },
        ),
        ("head-2to1", Head::Dome { depth: 0.25 }),
    ];
    for (id, head) in heads {
        let row = geometry(id);
        let tank = Turned::new(0.5, 1.0, [head, Head::Flat]).unwrap();
        let wall = std::f64::consts::PI * 0.25;
        for (what, got) in [
            ("depth_over_D", tank.head_depth(0)),
            ("V_over_D3", tank.volume() - wall),
            ("area_over_D2", tank.head_area(0)),
        ] {
            expect(&row, what, got)?;
        }
    }
    Ok(())
}

/// The circular segment: a quarter of the depth holds 0.1955 of the whole (tables of partial volumes of
/// lying cylinders print 0.1955).
#[test]
pub(super) fn a_quarter_deep() -> Outcome {
    let tank = Turned::new(0.5, 2.0, [Head::Flat; 2]).unwrap();
    let share = tank.below(0.0, 1.0, -0.25).0 / tank.volume();
    let close = Tolerance::relative(1e-12);
    expect_near(&geometry("hcyl-quarter"), "fill_fraction", share, close)?;
    Ok(())
}

/// Rows `hcyl-inv-…`: how deep a lying cylinder is when so much of it is filled, the circular segment turned round by
/// bisection apart from this project.
#[test]
pub(super) fn depth_for_a_share() -> Outcome {
    let drum = Shape::Drum(Drum {
        sized: Sized::Inside,
        diameter: mm(500.0),
        length: mm(800.0),
        axis: Axis::Lying,
        ends: Ends::Flat,
    });
    let body = drum.body(&SheetPlan::uniform(mm(2.0)))?;
    let pool = Pool::new(&body.inside, lean(0.0, 0.0));
    let whole = body.inside.volume().si();
    for id in [
        "hcyl-inv-0.01",
        "hcyl-inv-0.05",
        "hcyl-inv-0.2",
        "hcyl-inv-0.25",
        "hcyl-inv-0.3",
    ] {
        let row = geometry(id);
        let share = number(&row["inputs"]["fill_fraction"]);
        let depth = pool.depth_for(Volume::from_cubic_metres(share * whole))?;
        expect(&row, "h_over_D", depth.si() / 0.5)?;
    }
    Ok(())
}

fn heads() -> [Head; 4] {
    [
        Head::Flat,
        Head::Dome { depth: 0.2 },
        Head::Dome { depth: 0.1 },
        Head::Torispherical {
            crown: 0.38,
            knuckle: 0.05,
        },
    ]
}

/// By symmetry a drum with like ends is half full at half its depth, whatever its lean; empty and full
/// at the two ends of its reach; and its volume grows with the level, the surface being its slope.
#[test]
fn any_lean_is_consistent() -> Outcome {
    for head in heads() {
        let tank = Turned::new(0.2, 0.5, [head; 2]).unwrap();
        for degrees in [
            0.0_f64, 1e-9, 1e-4, 1.0, 7.0, 30.0, 45.0, 63.4, 89.0, 89.999, 90.0, 120.0, 180.0,
        ] {
            let (along, across) = degrees.to_radians().sin_cos();
            let across = across.abs();
            let (low, high) = tank.extent(along, across);
            let half = tank.below(along, across, 0.5 * (low + high)).0;
            near(
                &format!("half of {head:?} at {degrees}"),
                half,
                0.5 * tank.volume(),
                Tolerance::relative(1e-10),
            )?;
            assert!(tank.below(along, across, low).0.abs() < 1e-12 * tank.volume());
            near(
                "full",
                tank.below(along, across, high).0,
                tank.volume(),
                Tolerance::relative(1e-12),
            )?;
            let mut last = 0.0;
            for n in 1..200 {
                let level = low + (high - low) * f64::from(n) / 200.0;
                let (volume, surface) = tank.below(along, across, level);
                assert!(
                    volume >= last,
                    "{head:?} {degrees} {level}: {volume} < {last}"
                );
                last = volume;
                let step = 1e-6 * (high - low);
                let more = tank.below(along, across, level + step).0;
                let less = tank.below(along, across, level - step).0;
                let slope = (more - less) / (2.0 * step);
                let largest = 0.5 * tank.volume() / 0.2;
                assert!(
                    (slope - surface).abs() < 2e-3 * largest,
                    "{head:?} at {degrees}, level {level}: slope {slope}, surface {surface}"
                );
            }
        }
    }
    Ok(())
}

/// A leaning ball cut off: the spherical cap `πh²(3R − h)/3` (CRC Standard Mathematical Tables), which
/// two half-round ends on a wall of almost no length make.
#[test]
fn a_ball_leans_without_change() -> Outcome {
    let radius = 0.3;
    let tank = Turned::new(radius, 1e-9, [Head::Dome { depth: radius }; 2]).unwrap();
    for degrees in [0.0_f64, 10.0, 33.0, 60.0, 88.0, 90.0] {
        let (along, across) = degrees.to_radians().sin_cos();
        for share in [0.1, 0.3, 0.5, 0.77, 0.95] {
            let deep = 2.0 * radius * share;
            let cap = std::f64::consts::PI * deep * deep * (3.0 * radius - deep) / 3.0;
            let got = tank.below(along, across, deep - radius).0;
            // The sliver of a wall between the halves holds 3e-10 of a cubic metre.
            near(
                &format!("{degrees} {share}"),
                got,
                cap,
                Tolerance {
                    relative: 1e-11,
                    absolute: 4e-10,
                },
            )?;
        }
    }
    Ok(())
}

#[test]
fn impossible_drums_are_refused() {
    use seamwright_core::body::turned::TurnedError;
    let with = |head| Turned::new(0.5, 1.0, [head; 2]);
    assert!(matches!(
        Turned::new(0.0, 1.0, [Head::Flat; 2]),
        Err(TurnedError::Size { .. })
    ));
    assert!(matches!(
        Turned::new(0.5, f64::NAN, [Head::Flat; 2]),
        Err(TurnedError::Size { .. })
    ));
    assert!(matches!(
        with(Head::Dome { depth: -1.0 }),
        Err(TurnedError::Size { .. })
    ));
    let tori = |crown, knuckle| with(Head::Torispherical { crown, knuckle });
    assert!(matches!(tori(0.4, 0.1), Err(TurnedError::Crown { .. })));
    assert!(matches!(tori(1.0, 0.0), Err(TurnedError::Knuckle { .. })));
    assert!(matches!(tori(1.0, 0.6), Err(TurnedError::Knuckle { .. })));
    assert!(matches!(tori(0.5, 0.5), Err(TurnedError::Knuckle { .. })));
    assert!(tori(0.5, 0.1).is_ok());
}
