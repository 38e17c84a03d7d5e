//! What must hold for any tank, on thousands of random ones.

use proptest::prelude::*;
use seamwright_core::body::SheetPlan;
use seamwright_core::capacity::{Lean, Pool};
use seamwright_core::geom::Vector;
use seamwright_core::input::{Block, Cut, Draft, Face, Shape, Sized};
use seamwright_core::tank::Tank;
use seamwright_core::units::{Length, Volume};
use seamwright_tests::amounts::{degrees, mm};
use seamwright_tests::random_jobs::Jobs;

/// A draft that makes a tank, and the tank.
fn tank() -> impl Strategy<Value = (Draft, Tank)> {
    any::<u64>().prop_map(|seed| {
        Jobs::blocks(seed)
            .find_map(|draft| Tank::build(&draft).ok().map(|tank| (draft, tank)))
            .unwrap()
    })
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 1_000, ..ProptestConfig::default() })]

    /// Volume never exceeds the box that holds it, and the sheet takes less than its outside area by
    /// the greatest thickness (Steiner's formula for convex bodies, first term).
    #[test]
    fn volumes_stay_within_their_bounds((_, tank) in tank()) {
        let body = tank.body();
        let span = |axis| { let (low, high) = body.outside.extent(axis); high - low };
        let around = span(Vector::new(1.0, 0.0, 0.0)) * span(Vector::new(0.0, 1.0, 0.0)) * span(Vector::new(0.0, 0.0, 1.0));
        let (outside, inside) = (body.outside.volume().si(), body.inside.volume().si());
        prop_assert!(outside <= around * (1.0 + 1e-12));
        prop_assert!(inside > 0.0 && inside < outside);
        // Where sheets differ, a thick one reaches past its own face behind a thinner neighbour: the
        // thickest bounds them all.
        let thickest = tank.panels().map(|panel| panel.thickness.si()).fold(0.0, f64::max);
        let sheet: f64 = tank.panels().map(|panel| panel.outside_area.si() * thickest).sum();
        prop_assert!(outside - inside <= sheet * (1.0 + 1e-9), "{} > {sheet}", outside - inside);
        // A square-cut blank stands on its inside face; beside a much thinner sheet at an obtuse corner it
        // reaches past the outside of that sheet, and only then may the blanks hold more than the body.
        let normal = |face: Face| body.outside.face(face).unwrap().normal();
        let proud = tank.panels().any(|a| tank.panels().any(|b| {
            a.thickness.si() * normal(a.face()).dot(normal(b.face())) > b.thickness.si() * (1.0 + 1e-12)
        }));
        let blanks: f64 = tank.panels().map(|panel| panel.blank_area.si() * panel.thickness.si()).sum();
        prop_assert!(proud || blanks <= outside - inside, "blanks {} overfill the sheet", blanks);
    }

    /// A closed surface: V − E + F = 2 (Euler), and the area vectors of the faces cancel.
    #[test]
    fn bodies_are_closed((_, tank) in tank()) {
        for solid in [&tank.body().outside, &tank.body().inside] {
            prop_assert_eq!(solid.vertices().len() + solid.faces().len(), solid.edges().count() + 2);
            let (mut sum, mut area) = (Vector::ZERO, 0.0);
            for view in solid.faces() {
                sum = sum + view.normal() * view.area().si();
                area += view.area().si();
            }
            prop_assert!(sum.length() <= 1e-11 * area, "{:?} of {}", sum, area);
            let centre = solid.centroid();
            prop_assert!(solid.faces().all(|view| view.plane().distance(centre) < 0.0));
        }
    }

    /// Liquid: empty at nothing, full at the brim, more with depth, the surface its slope; and depth from
    /// volume is the inverse of volume from depth.
    #[test]
    fn fill_grows_and_inverts((_, tank) in tank(), pitch in -90.0..90.0_f64, roll in -90.0..90.0_f64, share in 0.001..0.999_f64) {
        let pool = tank.pool(Lean::new(degrees(pitch), degrees(roll)).unwrap());
        let full = pool.full_depth().si();
        let at = |share: f64| pool.at(Length::from_metres(full * share)).unwrap();
        prop_assert!(at(0.0).volume.si() <= 1e-12 * pool.brim().si());
        prop_assert!((at(1.0).volume.si() - pool.brim().si()).abs() <= 1e-15 * pool.brim().si());
        let steps: Vec<f64> = (0..=40).map(|step| at(f64::from(step) / 40.0).volume.si()).collect();
        prop_assert!(steps.windows(2).all(|pair| pair[0] <= pair[1]), "{:?}", steps);

        let level = at(share);
        let back = pool.depth_for(level.volume).unwrap();
        // Where the surface is a sliver a volume's last bits span more depth; the volume must come back.
        let again = pool.at(back).unwrap().volume.si();
        prop_assert!((again - level.volume.si()).abs() <= 1e-14 * pool.brim().si());
        prop_assert!((back.si() - level.depth.si()).abs() <= 1e-9 * full, "{} m, {} m", back.si(), level.depth.si());

        let step = 1e-6 * full;
        let near_by = |depth: f64| pool.at(Length::from_metres(depth)).unwrap();
        let depth = level.depth.si();
        let slope = (near_by(depth + step).volume.si() - near_by(depth - step).volume.si()) / (2.0 * step);
        // Between the surfaces at either end of the step, up to the rounding of the difference.
        let surfaces = [near_by(depth - step), level, near_by(depth + step)].map(|level| level.surface.si());
        let (least, most) = surfaces.iter().fold((f64::INFINITY, 0.0_f64), |(a, b), s| (a.min(*s), b.max(*s)));
        let rounding = 1e-13 * pool.brim().si() / step + 1e-3 * most;
        prop_assert!(slope >= least - rounding && slope <= most + rounding, "slope {}, surfaces {:?}", slope, surfaces);
    }

    /// The two pieces of a cut sum to the whole.
    #[test]
    fn pieces_sum_to_the_whole(size in prop::array::uniform3(50.0..900.0_f64), normal in prop::array::uniform3(-1.0..1.0_f64), through in prop::array::uniform3(0.1..0.9_f64)) {
        prop_assume!(normal.iter().any(|n| n.abs() > 1e-3));
        let [length, width, height] = size.map(mm);
        let point = [0, 1, 2].map(|axis| mm(size[axis] * through[axis]));
        let whole = Block { sized: Sized::Outside, length, width, height, cuts: heapless::Vec::new() };
        let piece = |normal: [f64; 3]| {
            let cuts = heapless::Vec::from_slice(&[Cut::Plane { normal, through: point }]).unwrap();
            // The thinnest sheet there is: only the outside counts here.
            Block { cuts, ..whole.clone() }.body(&SheetPlan::uniform(mm(1e-6))).unwrap().outside
        };
        let (kept, off) = (piece(normal), piece(normal.map(|n| -n)));
        let all = length.si() * width.si() * height.si();
        let sum = kept.volume().si() + off.volume().si();
        prop_assert!((sum - all).abs() <= 1e-12 * all, "{sum} of {all}");
        let face = |solid: &seamwright_core::body::Solid| solid.face(Face::Cut(1)).unwrap().area().si();
        prop_assert!((face(&kept) - face(&off)).abs() <= 1e-11 * face(&kept), "the cut face differs");
        // And the part kept is what the whole holds below the same plane.
        let box_solid = whole.body(&SheetPlan::uniform(mm(1e-6))).unwrap().outside;
        let up = Vector::new(normal[0], normal[1], normal[2]).unit().unwrap();
        let [x, y, z] = point.map(Length::si);
        let (below, surface) = box_solid.below(up, up.dot(Vector::new(x, y, z)));
        prop_assert!((below - kept.volume().si()).abs() <= 1e-12 * all);
        prop_assert!((surface - face(&kept)).abs() <= 1e-9 * surface);
    }

    /// Turning the tank's description about the vertical by half a turn changes no figure of the whole.
    #[test]
    fn half_a_turn_changes_nothing((draft, tank) in tank()) {
        let turned = |face: Face| match face {
            Face::Front => Face::Back,
            Face::Back => Face::Front,
            Face::Left => Face::Right,
            Face::Right => Face::Left,
            other => other,
        };
        let mut other = draft.clone();
        let Shape::Block(block) = &mut other.shape else {
            return Err(TestCaseError::reject("no block"));
        };
        let size = [block.length, block.width].map(Length::si);
        for cut in &mut block.cuts {
            match cut {
                Cut::Edge { faces, .. } => *faces = faces.map(turned),
                Cut::Corner { faces, .. } => *faces = faces.map(turned),
                Cut::Plane { normal: [x, y, _], through: [px, py, _] } => {
                    (*x, *y) = (-*x, -*y);
                    *px = Length::from_metres(size[0] - px.si());
                    *py = Length::from_metres(size[1] - py.si());
                }
            }
        }
        for (face, _) in &mut other.stock.faces {
            *face = turned(*face);
        }
        let other = Tank::build(&other).unwrap();
        let close = |a: f64, b: f64| (a - b).abs() <= 1e-10 * a.abs().max(b.abs());
        prop_assert!(close(tank.body().inside.volume().si(), other.body().inside.volume().si()));
        prop_assert!(close(tank.totals().seam.si(), other.totals().seam.si()));
        prop_assert!(close(tank.totals().mass.si(), other.totals().mass.si()));
        prop_assert!(close(tank.capacity().usable.si(), other.capacity().usable.si()));
    }

    /// Stitches make up their seam, and none is longer than the limit.
    #[test]
    fn stitches_make_up_their_seam((_, tank) in tank()) {
        for seam in tank.seams().filter(|seam| seam.welded) {
            let division = tank.division(&seam).unwrap();
            let runs: Vec<[Length; 2]> = division.runs().collect();
            let sum: f64 = runs.iter().map(|[from, to]| to.si() - from.si()).sum();
            prop_assert!((sum - seam.length.si()).abs() <= 1e-12 * sum);
            prop_assert!(division.length.si() <= tank.job().stitch_max().si() * (1.0 + 1e-8));
            let one_fewer = f64::from(division.count - 1) * tank.job().stitch_max().si();
            prop_assert!(division.count == 1 || one_fewer < seam.length.si());
        }
    }
}

#[test]
fn volumes_that_do_not_fit_are_refused() {
    let (_, tank) = Jobs::blocks(1)
        .find_map(|draft| Tank::build(&draft).ok().map(|tank| (draft, tank)))
        .unwrap();
    let pool: Pool<'_> = tank.pool(Lean::LEVEL);
    let brim = pool.brim().si();
    for wrong in [-1e-9, brim * 1.001, f64::NAN, f64::INFINITY] {
        assert!(
            pool.depth_for(Volume::from_cubic_metres(wrong)).is_err(),
            "{wrong}"
        );
        let depth = pool.full_depth().si() * wrong / brim;
        assert!(pool.at(Length::from_metres(depth)).is_err(), "{wrong}");
    }
    assert!(Lean::new(degrees(90.1), degrees(0.0)).is_err());
    assert!(Lean::new(degrees(0.0), degrees(f64::NAN)).is_err());
}
