//! Tanks put together again from their blanks. With closed corners at square corners every bit of sheet is one
//! panel's or another's, so the blanks' sheet is that between the outside and the inside body, to the last
//! digits, and every blank lies within the outside body with its outer face on it.

use proptest::prelude::*;
use seamwright_core::blank::{Axes, Blank, Joints, PanelPlan};
use seamwright_core::body::SheetPlan;
use seamwright_core::geom::Vector;
use seamwright_core::input::Axis;
use seamwright_core::input::Block;
use seamwright_core::input::Drum;
use seamwright_core::input::Ends;
use seamwright_core::input::Joint;
use seamwright_core::input::Profile;
use seamwright_core::input::ProfilePoint;
use seamwright_core::input::Shape;
use seamwright_core::input::Sized;
use seamwright_core::units::Density;
use seamwright_tests::amounts::mm;

/// The sheet of all blanks, by their areas and by their laid-out outlines, and that between the two bodies.
fn sheets(shape: &Shape, sheet: &SheetPlan) -> [f64; 3] {
    let body = shape.body(sheet).unwrap();
    let joints = Joints::of(Joint::ClosedCorner);
    let plan = PanelPlan {
        body: &body,
        sheet,
        joints: &joints,
        allowances: &[],
    };
    let mut blank = Blank::new();
    let (mut by_area, mut by_outline) = (0.0, 0.0);
    for panel in plan.panels(Density::from_kilograms_per_cubic_metre(1.0)) {
        by_area += panel.blank_area.si() * panel.thickness.si();
        plan.blank(&panel, &mut blank).unwrap();
        by_outline += blank.area().si() * panel.thickness.si();
    }
    let between = body.outside.volume().si() - body.inside.volume().si();
    [by_area, by_outline, between]
}

fn all_alike([a, b, c]: [f64; 3]) -> Result<(), TestCaseError> {
    let close = |x: f64, y: f64| (x - y).abs() <= 1e-10 * y.abs();
    prop_assert!(close(a, b), "areas {a}, outlines {b}");
    prop_assert!(close(b, c), "blanks {b}, bodies {c}");
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 500, ..ProptestConfig::default() })]

    #[test]
    fn boxes(
        size in prop::array::uniform3(60.0..900.0_f64),
        thickness in 0.8..6.0_f64,
        inside in any::<bool>(),
    ) {
        let [length, width, height] = size.map(mm);
        let sized = if inside { Sized::Inside } else { Sized::Outside };
        let shape = Shape::Block(Block { sized, length, width, height, cuts: heapless::Vec::new() });
        let sheet = SheetPlan::uniform(mm(thickness));
        all_alike(sheets(&shape, &sheet))?;

        let body = shape.body(&sheet).unwrap();
        let joints = Joints::of(Joint::ClosedCorner);
        let plan = PanelPlan { body: &body, sheet: &sheet, joints: &joints, allowances: &[] };
        let mut blank = Blank::new();
        let (mut low, mut high) = (Vector::new(1e9, 1e9, 1e9), Vector::new(-1e9, -1e9, -1e9));
        for panel in plan.panels(Density::from_kilograms_per_cubic_metre(1.0)) {
            plan.blank(&panel, &mut blank).unwrap();
            let view = body.outside.face(panel.face()).unwrap();
            let axes = Axes::of(view.normal(), view.outline());
            // Where the blank's own lower left lies on the face.
            let origin = blank.place(&body, panel.face(), axes.origin).unwrap();
            for node in blank.outline() {
                let point = axes.lift([node.x - origin[0], node.y - origin[1]]);
                prop_assert!(view.plane().distance(point).abs() < 1e-12);
                for face in body.outside.faces() {
                    prop_assert!(face.plane().distance(point) < 1e-12, "past the {}", face.face());
                }
                low = Vector::new(low.x.min(point.x), low.y.min(point.y), low.z.min(point.z));
                high = Vector::new(high.x.max(point.x), high.y.max(point.y), high.z.max(point.z));
            }
        }
        // The panels reach every outside face of the body.
        for (axis, got) in [
            (Vector::new(1.0, 0.0, 0.0), (low.x, high.x)),
            (Vector::new(0.0, 1.0, 0.0), (low.y, high.y)),
            (Vector::new(0.0, 0.0, 1.0), (low.z, high.z)),
        ] {
            let (from, to) = body.outside.extent(axis);
            prop_assert!((got.0 - from).abs() < 1e-12 && (got.1 - to).abs() < 1e-12);
        }
    }

    /// A rolled wrapper keeps its length on the middle of its sheet (DIN 6935 for a radius above five
    /// sheets), which is where an annulus has its area.
    #[test]
    fn wrappers(
        size in prop::array::uniform3(200.0..900.0_f64),
        thickness in 0.8..4.0_f64,
        share in 0.1..0.45_f64,
    ) {
        let [length, width, height] = size;
        let radius = (share * length.min(height)).max(7.0 * thickness);
        let corner = |x: f64, z: f64| ProfilePoint { x: mm(x), z: mm(z), radius: mm(radius) };
        let outline = [
            corner(0.0, 0.0),
            corner(length, 0.0),
            corner(length, height),
            corner(0.0, height),
        ];
        let shape = Shape::Profile(Profile {
            sized: Sized::Outside,
            outline: outline.into_iter().collect(),
            width: mm(width),
        });
        all_alike(sheets(&shape, &SheetPlan::uniform(mm(thickness))))?;
    }

    #[test]
    fn flat_ended_drums(
        diameter in 80.0..900.0_f64,
        length in 80.0..900.0_f64,
        thickness in 0.8..6.0_f64,
        lying in any::<bool>(),
    ) {
        let shape = Shape::Drum(Drum {
            sized: Sized::Outside,
            diameter: mm(diameter),
            length: mm(length),
            axis: if lying { Axis::Lying } else { Axis::Upright },
            ends: Ends::Flat,
        });
        all_alike(sheets(&shape, &SheetPlan::uniform(mm(thickness))))?;
    }
}
