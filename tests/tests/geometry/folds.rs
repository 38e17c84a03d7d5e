//! Folds are round: a body that is folded against the same body drawn with the radii that its folds have,
//! against closed forms, and against a sum over its cross-section that knows nothing of it.

use std::f64::consts::{FRAC_PI_2, PI};

use seamwright_core::capacity::Pool;
use seamwright_core::geom::Vector;
use seamwright_core::input::{Across, BaffleDraft, Block, Cut, Draft, Face, Shape, StockDraft};
use seamwright_core::tables::Alloy;
use seamwright_core::tank::Tank;
use seamwright_tests::Outcome;
use seamwright_tests::amounts::{lean, mm};
use seamwright_tests::jobs;
use seamwright_tests::near::{Tolerance, near};

/// A box of 400 x 300 x 200 mm in 2 mm sheet with these edges folded round `radius` mm.
fn folded(folds: &[[Face; 2]], radius: f64, cuts: &[Cut]) -> Tank {
    let mut block = Block::new(mm(400.0), mm(300.0), mm(200.0));
    block.cuts = cuts.iter().copied().collect();
    let stock = StockDraft::of(Alloy::A5754, mm(2.0));
    let mut draft = Draft::new("folded", Shape::Block(block), stock).unwrap();
    draft.joints.folds = folds.iter().copied().collect();
    draft.joints.bend_radius = Some(mm(radius));
    Tank::build(&draft).unwrap()
}

/// The same outline in x and z, 300 mm wide: its corners at the bottom drawn round, or sharp and folded.
fn profile(corner: &str, joints: &str) -> Tank {
    jobs::tank(&format!(
        "name = \"p\"\n[shape]\nkind = \"profile\"\nwidth = \"300 mm\"\noutline = [[\"0 mm\", \"0 mm\"{corner}], \
         [\"400 mm\", \"0 mm\"{corner}], [\"400 mm\", \"200 mm\"], [\"0 mm\", \"200 mm\"]]\n\
         [stock]\nalloy = \"5754\"\nthickness = \"2 mm\"\n{joints}"
    ))
}

#[test]
fn folded_is_drawn_round() -> Outcome {
    let tight = Tolerance::relative(1e-9);
    let block = folded(
        &[[Face::Bottom, Face::Left], [Face::Bottom, Face::Right]],
        30.0,
        &[],
    );
    let sharp =
        "[joints]\nfolds = [\"side 1 side 2\", \"side 4 side 1\"]\nbend_radius = \"30 mm\"\n";
    let drawn = profile(", \"r 32 mm\"", "");
    for (what, tank) in [("block", &block), ("profile", &profile("", sharp))] {
        let brim = drawn.capacity().brim.si();
        near(what, tank.capacity().brim.si(), brim, tight)?;
        for (pitch, roll) in [
            (0.0, 0.0),
            (20.0, 0.0),
            (0.0, 15.0),
            (17.0, -9.0),
            (1e-6, 0.0),
        ] {
            let lean = lean(pitch, roll);
            let (own, other) = (
                Pool::new(tank.inside(), lean),
                Pool::new(drawn.inside(), lean),
            );
            near(what, own.full_depth().si(), other.full_depth().si(), tight)?;
            for n in 0..=40 {
                let depth = mm(1e3 * other.full_depth().si() * f64::from(n) / 40.0);
                let (own, other) = (own.at(depth), other.at(depth));
                let (own, other) = (own.map_err(|_| "past")?, other.map_err(|_| "past")?);
                let off = own.volume.si() - other.volume.si();
                assert!(
                    off.abs() < 1e-9 * brim,
                    "{what} {pitch} {roll} {n}: {off:e}"
                );
            }
        }
        let (own, other) = (tank.inside().centroid(), drawn.inside().centroid());
        assert!((own - other).length() < 1e-9, "{what}: {own:?}");
        near(what, tank.sheet_area().si(), drawn.sheet_area().si(), tight)?;
        near(
            what,
            tank.totals().mass.si(),
            drawn.totals().mass.si(),
            tight,
        )?;
        near(
            what,
            tank.totals().seam.si(),
            drawn.totals().seam.si(),
            tight,
        )?;
        let lengths = |tank: &Tank| {
            let mut all: Vec<_> = tank.seams().map(|seam| seam.length.si()).collect();
            all.sort_by(f64::total_cmp);
            all
        };
        for (own, other) in lengths(tank).into_iter().zip(lengths(&drawn)) {
            near(what, own, other, tight)?;
        }
        // The inside of an end: a rectangle less two corners of (1 − π/4) r².
        let end = tank.panels().next().ok_or("no front")?;
        let corners = 2.0 * (1.0 - 0.25 * PI) * 0.030 * 0.030;
        near(what, end.blank_area.si(), 0.396 * 0.196 - corners, tight)?;
        // Its seam along the bottom runs half round both bends of 32 mm outside.
        let bottom = 0.400 - 2.0 * 0.032 + FRAC_PI_2 * 0.032;
        assert!(
            lengths(tank)
                .iter()
                .any(|length| (length - bottom).abs() < 1e-12),
            "{what}"
        );
    }
    Ok(())
}

/// A bottom with four folds: at a height z over it the space is set back by w = r − √(2 r z − z²) all round,
/// so that ∫ w = (1 − π/4) r² and ∫ w² = (5/3 − π/2) r³ from 0 to r.
#[test]
fn a_pan_by_its_layers() -> Outcome {
    let (length, width, r) = (0.396, 0.296, 0.030);
    let tank = folded(
        &[
            [Face::Bottom, Face::Left],
            [Face::Bottom, Face::Right],
            [Face::Bottom, Face::Front],
            [Face::Bottom, Face::Back],
        ],
        30.0,
        &[],
    );
    let lost = 2.0 * (length + width) * (1.0 - 0.25 * PI) * r * r
        - 4.0 * (5.0 / 3.0 - FRAC_PI_2) * r * r * r;
    let brim = length * width * 0.196 - lost;
    near(
        "brim",
        tank.capacity().brim.si(),
        brim,
        Tolerance::relative(1e-9),
    )?;
    let pool = Pool::new(tank.inside(), lean(0.0, 0.0));
    let layer = |z: f64| {
        let w = if z < r {
            r - (2.0 * r * z - z * z).sqrt()
        } else {
            0.0
        };
        (length - 2.0 * w) * (width - 2.0 * w)
    };
    for depth in [0.002, 0.010, 0.030, 0.100] {
        // The substitution z = r (1 − cos a) takes the root at the bottom away.
        let steps = 20_000_u32;
        let most = if depth < r {
            (1.0 - depth / r).acos()
        } else {
            FRAC_PI_2
        };
        let mut sum = 0.0;
        for n in 0..steps {
            let a = most * (f64::from(n) + 0.5) / f64::from(steps);
            sum += layer(r * (1.0 - a.cos())) * r * a.sin() * most / f64::from(steps);
        }
        sum += length * width * f64::max(depth - r, 0.0);
        let held = pool.at(mm(1e3 * depth)).map_err(|_| "past")?.volume.si();
        near("layer", held, sum, Tolerance::relative(1e-8))?;
    }
    // The corners that are welded end at the bends' relief: 200 mm less 32.
    let corner = tank
        .seams()
        .find(|seam| seam.faces == [Face::Front, Face::Left]);
    near(
        "corner",
        corner.ok_or("no corner")?.length.si(),
        0.168,
        Tolerance::relative(1e-9),
    )?;
    Ok(())
}

/// A fold that ends at a slanting face, at a lean, against lengths along the fold summed over the
/// cross-section.
#[test]
fn a_fold_to_a_slanting_end() -> Outcome {
    let cut = Cut::Plane {
        normal: [-1.0, 0.3, -0.5],
        through: [mm(60.0), mm(100.0), mm(60.0)],
    };
    let tank = folded(&[[Face::Bottom, Face::Front]], 40.0, &[cut]);
    let normal = Vector::new(-1.0, 0.3, -0.5).unit().ok_or("no normal")?;
    let past = normal.dot(Vector::new(0.060, 0.100, 0.060)) - 0.002;
    let (r, t) = (0.040, 0.002);
    for (pitch, roll, share) in [
        (0.0, 0.0, 0.3),
        (12.0, 0.0, 0.2),
        (-25.0, 10.0, 0.5),
        (0.0, 0.0, 1.0),
    ] {
        let lean = lean(pitch, roll);
        let up = lean.up();
        let pool = Pool::new(tank.inside(), lean);
        let depth = mm(1e3 * share * pool.full_depth().si());
        let level = pool.height_of(depth);
        let n = 1_500_u32;
        let (wide, high) = (0.296, 0.196);
        let mut sum = 0.0;
        for i in 0..n {
            for k in 0..n {
                let y = t + wide * (f64::from(i) + 0.5) / f64::from(n);
                let z = t + high * (f64::from(k) + 0.5) / f64::from(n);
                let (v, w) = (t + r - y, t + r - z);
                if v > 0.0 && w > 0.0 && v.hypot(w) > r {
                    continue;
                }
                // normal · p ≤ past and up · p ≤ level, along x.
                let (mut low, mut most) = (t, 0.398);
                for (slope, rest) in [
                    (normal.x, past - normal.y * y - normal.z * z),
                    (up.x, level - up.y * y - up.z * z),
                ] {
                    if slope > 0.0 {
                        most = f64::min(most, rest / slope);
                    } else if slope < 0.0 {
                        low = f64::max(low, rest / slope);
                    } else if rest < 0.0 {
                        most = low;
                    }
                }
                sum += f64::max(most - low, 0.0);
            }
        }
        sum *= wide * high / f64::from(n) / f64::from(n);
        let held = pool.at(depth).map_err(|_| "past")?.volume.si();
        near("slant", held, sum, Tolerance::relative(2e-5))?;
    }
    Ok(())
}

/// A baffle is cut to the inside of the bends.
#[test]
fn a_baffle_meets_round_folds() -> Outcome {
    let mut draft = jobs::read(
        "name = \"b\"\n[shape]\nkind = \"block\"\nlength = \"400 mm\"\nwidth = \"300 mm\"\nheight = \"200 mm\"\n\
         [stock]\nalloy = \"5754\"\nthickness = \"2 mm\"\n[joints]\nfolds = [\"bottom front\", \"bottom back\"]\n\
         bend_radius = \"30 mm\"\n",
    )
    .draft;
    let _ = draft
        .baffles
        .push(BaffleDraft::new(Across::Length, mm(200.0)));
    let tank = Tank::build(&draft).unwrap();
    let baffle = tank.inner().baffles().first().ok_or("no baffle")?;
    let area = 0.296 * 0.196 - 2.0 * (1.0 - 0.25 * PI) * 0.030 * 0.030;
    near("area", baffle.area(), area, Tolerance::relative(1e-9))?;
    let seams: f64 = tank
        .seams()
        .filter(|seam| seam.faces[1] == Face::Baffle(1))
        .map(|seam| seam.length.si())
        .sum();
    let round = 2.0 * (0.296 + 0.196) - 2.0 * (2.0 - FRAC_PI_2) * 0.030;
    near("round", seams, round, Tolerance::relative(1e-9))?;
    Ok(())
}
