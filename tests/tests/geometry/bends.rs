//! Bends and blanks against published figures; the source stands beside each check.
//!
//! `data/geometry/checks.json` holds figures gathered and evaluated apart from this project.

use seamwright_core::blank::unfold::{FoldLink, PartSide, Unfolded, unfold};
use seamwright_core::blank::{Bend, BendRule};
use seamwright_core::geom::outline::Node;
use seamwright_core::tables::{Alloy, Temper, minimum_radius};
use seamwright_core::units::{Length, Ratio};
use seamwright_tests::Outcome;
use seamwright_tests::amounts::{degrees, in_inch, in_mm, inch, mm};
use seamwright_tests::checks::{expect, expect_near, geometry, number};
use seamwright_tests::near::{Tolerance, near};
use seamwright_tests::published::{from_memory, seen};

const fn k(share: f64) -> BendRule {
    BendRule::KFactor(Ratio::from_share(share))
}

const fn within(absolute: f64) -> Tolerance {
    Tolerance {
        relative: 0.0,
        absolute,
    }
}

/// Machinery's Handbook, sheet metal bending (from memory): allowance, outside setback and deduction of
/// one bend, evaluated apart from this project.
#[test]
pub(super) fn allowance_setback_and_deduction() -> Outcome {
    let check = geometry("kfactor-90");
    let inputs = &check["inputs"];
    let bend = Bend::new(
        mm(number(&inputs["t"])),
        mm(number(&inputs["R"])),
        degrees(number(&inputs["A_deg"])),
        k(number(&inputs["K"])),
    )?;
    expect(&check, "BA", in_mm(bend.allowance()))?;
    expect(&check, "OSSB", in_mm(bend.setback().unwrap()))?;
    expect(&check, "BD", in_mm(bend.deduction().unwrap()))?;

    // The same formulas at 45°, to the four decimals kept of them.
    let bend = Bend::new(mm(2.0), mm(4.0), degrees(45.0), k(0.42))?;
    near("BA", in_mm(bend.allowance()), 3.8013, within(5e-5))?;
    near("OSSB", in_mm(bend.setback().unwrap()), 2.4853, within(5e-5))?;
    near("BD", in_mm(bend.deduction().unwrap()), 1.1692, within(5e-5))?;
    Ok(())
}

/// Machinery's Handbook (from memory): sheet in a 90° bend, 0.55 T + 1.57 R for soft brass and copper,
/// 0.64 T + 1.57 R for half-hard copper, soft steel and aluminium, 0.71 T + 1.57 R for hard metals. The
/// K-factors that these stand for are 0.350, 0.407 and 0.452; 1.57 is π/2 to half a thousandth.
#[test]
pub(super) fn handbook_rules_for_a_right_angle() -> Outcome {
    for (id, factor, share) in [
        ("mh-bend-soft", 0.55, 0.350),
        ("mh-bend-half-hard", 0.64, 0.407),
        ("mh-bend-hard", 0.71, 0.452),
    ] {
        let check = geometry(id);
        let (t, r) = (number(&check["inputs"]["T"]), number(&check["inputs"]["R"]));
        let bend = Bend::new(inch(t), inch(r), degrees(90.0), k(share))?;
        let close = Tolerance::relative(1e-3);
        expect_near(&check, "L", in_inch(bend.allowance()), close)?;
        // Other proportions, by the handbook's formula itself.
        for (t, r) in [(0.0625, 0.25), (0.19, 0.0), (0.125, 0.5)] {
            let bend = Bend::new(inch(t), inch(r), degrees(90.0), k(share))?;
            let expected = factor * t + 1.57 * r;
            near(
                id,
                in_inch(bend.allowance()),
                expected,
                // The handbook prints its factors to two places, and K here to three.
                Tolerance::relative(1.5e-3),
            )?;
        }
    }
    Ok(())
}

/// DIN 6935: compensation and correction factor (formulas from memory; the sum and the ranges of the
/// opening angle seen on secondary pages), evaluated apart from this project.
#[test]
pub(super) fn din_6935_compensation() -> Outcome {
    for id in [
        "din6935-90-1-1",
        "din6935-90-3-3",
        "din6935-90-6-4",
        "din6935-90-10-4",
        "din6935-120-5-2",
        "din6935-135-3-3",
    ] {
        let check = geometry(id);
        let inputs = &check["inputs"];
        let bend = Bend::new(
            mm(number(&inputs["s"])),
            mm(number(&inputs["r"])),
            degrees(180.0 - number(&inputs["opening_angle_deg"])),
            BendRule::Din6935,
        )?;
        expect(&check, "v", in_mm(bend.compensation()))?;
        expect_near(&check, "K", bend.k().si(), within(1e-12))?;
        expect_near(&check, "k", 2.0 * bend.k().si(), within(1e-12))?;
    }
    // Above five thicknesses the neutral line is the middle of the sheet; from an opening angle of 165°
    // up nothing is taken off (both from memory of the standard).
    let wide = Bend::new(mm(2.0), mm(10.1), degrees(90.0), BendRule::Din6935)?;
    near("k", wide.k().si(), 0.5, within(0.0))?;
    let slight = Bend::new(mm(2.0), mm(4.0), degrees(14.0), BendRule::Din6935)?;
    near("v", in_mm(slight.compensation()), 0.0, within(0.0))?;
    Ok(())
}

/// FAA Aviation Maintenance Technician Handbook, Airframe, sheet metal: a channel of 0.040 in 2024-T3 bent
/// to a radius of 0.16 in, legs of 1.00 in, web of 2.00 in. Setback and flats as printed; the allowance of
/// 0.27 in and the developed width of 3.74 in are from memory and given to two figures.
#[test]
pub(super) fn a_channel_from_the_mechanics_handbook() -> Outcome {
    // The handbook's empirical allowance, 0.01743 R + 0.0078 T for each degree, is this K-factor.
    let bend = Bend::new(inch(0.040), inch(0.16), degrees(90.0), k(0.447))?;
    let setback = in_inch(bend.setback().unwrap());
    let handbook = "FAA, Aviation Maintenance Technician Handbook, Airframe, sheet metal";
    let what = |figure: &str| format!("Channel of 0.040 in 2024-T3, radius 0.16 in: {figure}, in");
    let (printed, remembered) = (seen(handbook), from_memory(handbook));
    printed.near(&what("setback"), setback, 0.2, within(1e-12))?;
    let allowance = in_inch(bend.allowance());
    remembered.near(&what("allowance"), allowance, 0.27, within(0.01))?;
    let corner = |width: f64, height: f64| {
        [(0.0, 0.0), (width, 0.0), (width, height), (0.0, height)]
            .map(|(x, y)| Node::corner(inch(x).si(), inch(y).si()))
    };
    let (leg, web) = (corner(5.0, 1.0 - setback), corner(5.0, 2.0 - 2.0 * setback));
    for (figure, part, expected) in [("flat of a leg", leg, 0.8), ("flat of the web", web, 1.6)] {
        let got = in_inch(Length::from_metres(part[2].y));
        printed.near(&what(figure), got, expected, within(1e-12))?;
    }
    let fold = |side, part| FoldLink {
        parent: PartSide { part: 0, side },
        child: PartSide { part, side: 0 },
        along: 0.0,
        width: bend.allowance().si(),
        turn: bend.turn(),
    };
    let mut flat = Unfolded::new();
    unfold(&[&web, &leg, &leg], &[fold(0, 1), fold(2, 2)], &mut flat)?;
    let width = Length::from_metres(flat.outline().extents().unwrap().height());
    let width = in_inch(width);
    remembered.near(&what("developed width"), width, 3.74, within(0.02))?;
    Ok(())
}

/// A US Navy training text's empirical allowance for each degree, 0.0173 R + 0.0078 T, printed as
/// 0.01743 R + 0.0078 T in the FAA's handbooks: within a hundredth of the formula with K = 0.447.
#[test]
pub(super) fn empirical_allowance_for_each_degree() -> Outcome {
    for (t, r) in [(0.032, 0.125), (0.040, 0.16), (0.064, 0.19), (0.125, 0.25)] {
        for turn in [15.0, 60.0, 90.0, 135.0] {
            let bend = Bend::new(inch(t), inch(r), degrees(turn), k(0.447))?;
            let got = in_inch(bend.allowance());
            for radius_factor in [0.0173, 0.01743] {
                let expected = turn * (radius_factor * r + 0.0078 * t);
                let source =
                    "Empirical allowance of a US Navy training text and the FAA's handbooks";
                let figure = format!("{turn}° of bend, 0.032 to 0.125 in: allowance, in");
                from_memory(source).near(&figure, got, expected, Tolerance::relative(0.01))?;
            }
        }
    }
    Ok(())
}

/// Least radii in thicknesses at 1/16, 1/8, 3/16 and 1/4 in, as values of the Aluminum Association
/// reprinted for designers; 6061-T6 at 1/8 in is 4 by a second list of the same reprint, the larger.
#[test]
pub(super) fn least_radii_of_the_aluminum_association() -> Outcome {
    let rows: [(Alloy, Temper, [f64; 4]); 7] = [
        (Alloy::A1100, Temper::H14, [0.0, 1.0, 1.0, 1.5]),
        (Alloy::A5052, Temper::O, [0.0, 0.5, 1.0, 1.0]),
        (Alloy::A5052, Temper::H32, [1.0, 1.5, 1.5, 1.5]),
        (Alloy::A5052, Temper::H34, [1.5, 2.0, 2.0, 2.5]),
        (Alloy::A6061, Temper::O, [0.0, 1.0, 1.0, 1.0]),
        (Alloy::A6061, Temper::T4, [1.0, 1.5, 2.5, 3.0]),
        (Alloy::A6061, Temper::T6, [1.5, 4.0, 3.0, 3.5]),
    ];
    for (alloy, temper, times) in rows {
        for (thickness, times) in [1.0 / 16.0, 1.0 / 8.0, 3.0 / 16.0, 1.0 / 4.0]
            .into_iter()
            .zip(times)
        {
            let least = minimum_radius(alloy, temper, inch(thickness)).unwrap();
            let figure =
                format!("Least radius of {alloy}-{temper}, 1/16 to 1/4 in, in thicknesses");
            seen("Aluminum Association, as reprinted for designers").near(
                &figure,
                least.times,
                times,
                within(1e-12),
            )?;
            near(
                "radius",
                in_inch(least.radius),
                times * thickness,
                within(1e-12),
            )?;
            assert!(!least.source.is_from_memory());
        }
    }
    // The second list in inches: 1/8 in 6061-T6 on 0.500 in, 5052-H32 on 0.188 in.
    let radius =
        |alloy, temper| in_inch(minimum_radius(alloy, temper, inch(0.125)).unwrap().radius);
    near(
        "6061-T6",
        radius(Alloy::A6061, Temper::T6),
        0.5,
        within(5e-4),
    )?;
    near(
        "5052-H32",
        radius(Alloy::A5052, Temper::H32),
        0.188,
        within(6e-4),
    )?;
    assert!(
        minimum_radius(Alloy::A5086, Temper::H32, inch(0.125))
            .unwrap()
            .source
            .is_from_memory()
    );
    Ok(())
}

/// A box without a lid from five faces, by the rule of Machinery's Handbook (from memory) that a blank is
/// as long as its outside legs less a deduction for each bend; the deduction is the published check's.
#[test]
fn a_box_blank_is_its_outside_less_its_deductions() -> Outcome {
    let check = geometry("kfactor-90");
    let deduction = number(&check["expected"]["BD"]);
    let bend = Bend::new(mm(3.0), mm(3.0), degrees(90.0), k(0.44))?;
    let setback = in_mm(bend.setback().unwrap());
    let (length, width, height) = (300.0, 200.0, 150.0);
    let rectangle = |width: f64, height: f64| {
        [(0.0, 0.0), (width, 0.0), (width, height), (0.0, height)]
            .map(|(x, y)| Node::corner(mm(x).si(), mm(y).si()))
    };
    let (l, w, h) = (
        length - 2.0 * setback,
        width - 2.0 * setback,
        height - setback,
    );
    let parts = [
        rectangle(l, w),
        rectangle(l, h),
        rectangle(w, h),
        rectangle(l, h),
        rectangle(w, h),
    ];
    let parts: Vec<&[Node]> = parts.iter().map(<[Node; 4]>::as_slice).collect();
    let folds: Vec<FoldLink> = (0..4)
        .map(|n| FoldLink {
            parent: PartSide { part: 0, side: n },
            child: PartSide {
                part: n + 1,
                side: 0,
            },
            along: 0.0,
            width: bend.allowance().si(),
            turn: bend.turn(),
        })
        .collect();
    let mut flat = Unfolded::new();
    unfold(&parts, &folds, &mut flat)?;
    let extents = flat.outline().extents().unwrap();
    let size = [extents.width(), extents.height()].map(|metres| in_mm(Length::from_metres(metres)));
    let exact = Tolerance::relative(1e-12);
    near(
        "along",
        size[0],
        length + 2.0 * height - 2.0 * deduction,
        exact,
    )?;
    near(
        "across",
        size[1],
        width + 2.0 * height - 2.0 * deduction,
        exact,
    )?;
    Ok(())
}
