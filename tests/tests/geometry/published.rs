//! Bodies and blanks against published figures; the source stands beside each check.
//!
//! `data/geometry/checks.json` holds figures gathered and evaluated apart from this project, each with its
//! source and tolerance; the tests below name those they use.

use seamwright_core::blank::{Joints, PanelPlan};
use seamwright_core::body::{Body, SheetPlan};
use seamwright_core::capacity::{Lean, Pool};
use seamwright_core::geom::Vector;
use seamwright_core::input::{Block, Cut, Face, Joint, Sized, Taper};
use seamwright_core::units::{Angle, AngleUnit, Density, Length, LengthUnit, VolumeUnit};
use seamwright_tests::Outcome;
use seamwright_tests::amounts::mm;
use seamwright_tests::checks::{expect, expect_near, geometry, number};
use seamwright_tests::near::{Tolerance, near};

fn block(size: [f64; 3], unit: LengthUnit, cuts: &[Cut]) -> Block {
    let [length, width, height] = size.map(|side| Length::new(side, unit));
    Block {
        sized: Sized::Outside,
        length,
        width,
        height,
        cuts: heapless::Vec::from_slice(cuts).unwrap(),
    }
}

fn body(block: &Block, thickness: f64) -> Body {
    block.body(&SheetPlan::uniform(mm(thickness))).unwrap()
}

/// Machinery's Handbook, volumes of solids, wedge: base 4 x 3, ridge 5, height 4.5, all inches: 29.25 in³
/// (from memory). Here it is a box cut four times, two of the planes leaning outward.
#[test]
pub(super) fn the_handbook_wedge() -> Outcome {
    let wedge = geometry("wedge-machinery");
    let inch = |value: f64| Length::new(value, LengthUnit::Inch);
    let plane = |normal, [x, y, z]: [f64; 3]| Cut::Plane {
        normal,
        through: [inch(x), inch(y), inch(z)],
    };
    let cuts = [
        plane([0.0, -4.5, 1.5], [0.0, 0.0, 0.0]),
        plane([0.0, 4.5, 1.5], [0.0, 3.0, 0.0]),
        plane([-4.5, 0.0, -0.5], [0.5, 0.0, 0.0]),
        plane([4.5, 0.0, -0.5], [4.5, 0.0, 0.0]),
    ];
    let solid = body(&block([5.0, 3.0, 4.5], LengthUnit::Inch, &cuts), 1.0).outside;
    let got = solid.volume().in_unit(VolumeUnit::CubicInch);
    expect(&wedge, "volume_in3", got)?;
    Ok(())
}

/// CRC Standard Mathematical Tables, regular octahedron: volume √2/3 a³, dihedral 109.4712°. Here every
/// corner of a cube is cut away until no face of the cube is left, so each vertex has four faces.
#[test]
pub(super) fn the_octahedron_within_a_cube() -> Outcome {
    let octahedron = geometry("octa-dihedral");
    let side = 1_000.0;
    let mut cuts = Vec::new();
    for x in [Face::Left, Face::Right] {
        for y in [Face::Front, Face::Back] {
            for z in [Face::Bottom, Face::Top] {
                cuts.push(Cut::Corner {
                    faces: [x, y, z],
                    legs: [mm(side); 3],
                });
            }
        }
    }
    let solid = body(&block([side; 3], LengthUnit::Millimetre, &cuts), 1.0).outside;
    assert_eq!(
        (
            solid.faces().len(),
            solid.edges().count(),
            solid.vertices().len()
        ),
        (8, 12, 6)
    );
    let edge = 0.5 * std::f64::consts::SQRT_2;
    expect(&octahedron, "volume", solid.volume().si() / edge.powi(3))?;
    for edge in solid.edges() {
        let dihedral = edge.dihedral.in_unit(AngleUnit::Degree);
        expect(&octahedron, "dihedral_deg", dihedral)?;
    }
    Ok(())
}

/// Prismatoid formula `V = h/6 (A₁ + 4 Aₘ + A₂)` (CRC Standard Mathematical Tables; Machinery's Handbook, both from
/// memory): row `frustum-prismatoid`, a taper from 200 mm square to 400 mm square.
#[test]
pub(super) fn a_taper_is_a_prismatoid() -> Outcome {
    let row = geometry("frustum-prismatoid");
    let given = |key: &str| number(&row["inputs"][key]);
    let side = |key: &str| [mm(given(key).sqrt()); 2];
    let taper = Taper {
        sized: Sized::Outside,
        base: side("A1"),
        top: side("A2"),
        height: mm(given("h")),
        shift: [mm(0.0); 2],
    };
    let body = taper.body(&SheetPlan::uniform(mm(3.0)))?;
    expect(&row, "volume_mm3", body.outside.volume().si() * 1e9)?;
    Ok(())
}

/// Two planes sloped φ₁ and φ₂ whose edges in plan meet at 90°: cos θ = −cos φ₁ cos φ₂; 45° and 45° give
/// 120° (derived, evaluated apart).
#[test]
pub(super) fn the_hip_of_a_hopper() -> Outcome {
    let hip = geometry("hip-hopper-dihedral");
    let leg = [mm(100.0); 2];
    let cuts = [
        Cut::Edge {
            faces: [Face::Bottom, Face::Front],
            legs: leg,
        },
        Cut::Edge {
            faces: [Face::Bottom, Face::Left],
            legs: leg,
        },
    ];
    let solid = body(
        &block([400.0, 300.0, 200.0], LengthUnit::Millimetre, &cuts),
        2.0,
    )
    .outside;
    let hips: Vec<_> = solid
        .edges()
        .filter(|edge| edge.faces == [Face::Cut(1), Face::Cut(2)])
        .collect();
    assert_eq!(hips.len(), 1);
    let dihedral = hips[0].dihedral.in_unit(AngleUnit::Degree);
    let close = Tolerance::relative(1e-12);
    expect_near(&hip, "dihedral_deg", dihedral, close)?;
    Ok(())
}

/// A leaning box: volume under the plane through its filler and under those through its outlets, checked
/// apart by clipping with manifold3d.
#[test]
pub(super) fn a_leaning_box_to_its_filler_and_outlets() -> Outcome {
    for id in ["lean-box-5", "lean-box-10", "lean-box-20", "lean-box-30"] {
        let lean_box = geometry(id);
        let inputs = &lean_box["inputs"];
        let size = [0, 1, 2].map(|axis| number(&inputs["inside"][axis]));
        let mut tank = block(size, LengthUnit::Millimetre, &[]);
        tank.sized = Sized::Inside;
        let inside = body(&tank, 2.0).inside;
        let pitch = Angle::new(number(&inputs["pitch_deg"]), AngleUnit::Degree);
        let pool = Pool::new(&inside, Lean::new(pitch, Angle::default())?);
        // The end x = 0 is low, so the lowest inside point is the inside corner that points count from.
        let below = |point: &str| -> Result<f64, Box<dyn std::error::Error>> {
            let [x, y, z] = [0, 1, 2].map(|axis| mm(number(&inputs[point][axis])).si());
            let depth = Length::from_metres(pool.up().dot(Vector::new(x, y, z)));
            Ok(pool.at(depth)?.volume.in_unit(VolumeUnit::Litre))
        };
        for (point, figure) in [
            ("filler_point", "V_at_filler_l"),
            ("outlet_low", "dead_low_outlet_l"),
            ("outlet_high", "dead_high_outlet_l"),
        ] {
            expect(&lean_box, figure, below(point)?)?;
        }
    }
    Ok(())
}

/// Open corners whose square-cut edges touch inside: each panel gives way by t cot(θ/2), 3 mm sheet
/// (derived; verified apart with shapely). A block with one edge off at 45° has both a 90° and a 135° corner
/// on its top panel.
#[test]
fn open_corners_take_their_setback_off_the_blank() -> Outcome {
    let deduct = |id| number(&geometry(id)["expected"]["edge_to_edge_deduct_each"]);
    let (square, blunt) = (deduct("corner-90"), deduct("corner-135"));
    let cut = Cut::Edge {
        faces: [Face::Top, Face::Back],
        legs: [mm(50.0); 2],
    };
    let body = body(
        &block([400.0, 200.0, 150.0], LengthUnit::Millimetre, &[cut]),
        3.0,
    );
    let sheet = SheetPlan::uniform(mm(3.0));
    let joints = Joints::of(Joint::OpenCorner);
    let plan = PanelPlan {
        body: &body,
        sheet: &sheet,
        joints: &joints,
        allowances: &[],
    };
    let top = plan
        .panels(Density::from_kilograms_per_cubic_metre(2_700.0))
        .find(|panel| panel.face() == Face::Top)
        .unwrap();
    let expected = (400.0 - 2.0 * square) * (200.0 - 50.0 - square - blunt);
    near(
        "blank of the top",
        top.blank_area.si() * 1e6,
        expected,
        Tolerance::relative(1e-12),
    )?;
    near(
        "its mass",
        top.mass.si(),
        expected * 1e-6 * 3e-3 * 2_700.0,
        Tolerance::relative(1e-12),
    )?;
    Ok(())
}
