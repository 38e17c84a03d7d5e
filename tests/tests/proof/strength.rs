//! Strength and balance against published and independent figures; the source stands beside each check.
//!
//! `data/geometry/checks.json` holds figures gathered and evaluated apart from this project, each with
//! its source and tolerance. Figures of Roark, Timoshenko, Levy and the codes are from memory.

use seamwright_core::geom::Vector;
use seamwright_core::mass::balance::{Balance, reactions};
use seamwright_core::strength::load::{Load, Pressing};
use seamwright_core::strength::panel::{Bound, FlatPanel, PanelMetal};
use seamwright_core::strength::plate::stiffness;
use seamwright_core::strength::wall::{Dish, cylinder, disc, dish};
use seamwright_core::strength::weld::{Along, WELD_FACTOR, Weld, seam};
use seamwright_core::tables::Alloy;
use seamwright_core::units::constant::GRAVITY;
use seamwright_core::units::{Area, Pressure, PressureUnit, Volume, VolumeUnit};
use seamwright_tests::Outcome;
use seamwright_tests::amounts::{in_mm, in_mpa, mm, mpa};
use seamwright_tests::checks::{
    expect, expect_between, expect_near, expected, geometry, number, source,
};
use seamwright_tests::near::{Tolerance, near};
use seamwright_tests::published::{computed, from_memory};

/// A rectangle's corners from the origin.
fn rectangle(a: f64, b: f64) -> [[f64; 2]; 4] {
    [[0.0, 0.0], [a, 0.0], [a, b], [0.0, b]]
}

#[test]
pub(super) fn worked_panel() -> Outcome {
    let check = geometry("panel-example");
    let given = |key: &str| number(&check["inputs"][key]);
    let metal = PanelMetal::new(mpa(given("E_MPa")), given("nu"), mpa(80.0))?;
    let outline = rectangle(given("a") * 1e-3, given("b") * 1e-3);
    let panel = FlatPanel::new(
        &outline,
        mm(given("t")),
        metal,
        Pressing::even(mpa(given("q_MPa"))),
    )?;
    let got = panel.strength();
    expect(&check, "w_linear_ss", in_mm(got.bulge_supported))?;
    expect(&check, "sigma_linear_ss", in_mpa(got.stress_supported))?;
    expect(&check, "w_linear_cl", in_mm(got.bulge_clamped))?;
    let clamped = in_mpa(got.stress_clamped);
    expect_near(&check, "sigma_edge_cl", clamped, Tolerance::relative(1e-3))?;
    assert_eq!(got.ruling, Bound::Supported);
    assert!(got.bulges && !got.inside_corner);
    // What rules lies between bending alone and von Kármán's plate whose edges cannot pull in.
    let straight = expected(&check, "sigma_linear_ss")?;
    let stretched = expected(&geometry("panel-large"), "ss_centre_MPa")?;
    assert!(got.reserve > 80.0 / straight && got.reserve < 80.0 / stretched);

    // The same panel by von Kármán's equations: never below, and near.
    let large = geometry("panel-large");
    let bulge = got.held_supported.bulge * 1e3;
    expect_between(&large, "ss_w_mm", bulge, [0.0, 0.05])?;
    let bulge = got.held_clamped.bulge * 1e3;
    expect_between(&large, "cl_w_mm", bulge, [0.0, 0.05])?;
    let stress = in_mpa(got.stress_held);
    expect_between(&large, "ss_centre_MPa", stress, [0.0, 0.15])?;
    // Bending alone is on the safe side of the edge stress.
    expect_between(&large, "cl_edge_MPa", clamped, [0.0, 0.10])?;
    Ok(())
}

#[test]
pub(super) fn discs() -> Outcome {
    // Radius 200 mm, 4 mm, 30 kPa, 70 GPa; the coefficients are the case file's.
    let (a, t, p, e) = (0.2_f64, 0.004, 3e4, 7e10);
    let got = disc(mm(200.0), mm(4.0), mpa(7e4), 0.3, mpa(0.03))?;
    let d = stiffness(e, 0.3, t);
    let (free, fixed) = (geometry("circ-ss"), geometry("circ-cl"));
    let bulge = p * a.powi(4) / d;
    expect(&free, "w_D_qa4", got.bulge_supported.si() / bulge)?;
    expect(&fixed, "w_D_qa4", got.bulge_clamped.si() / bulge)?;
    let slim = p * (a / t) * (a / t);
    expect(&free, "sigma_t2_qa2", got.stress_supported.si() / slim)?;
    expect(&fixed, "sigma_edge_t2_qa2", got.stress_clamped.si() / slim)?;
    Ok(())
}

/// Round walls by the thin-wall rules of any textbook, `p r/t`, `p r/2t` (r to the middle of the sheet),
/// and by Lamé's exact stress at the inner face of a thick cylinder; a torisphere with crown D and knuckle
/// 6 % has M = 1.77 (ASME VIII-1, table 1-4.2, from memory), a hemisphere 1.
#[test]
pub(super) fn round_walls() -> Outcome {
    let (r, t, p) = (0.15, 0.002, 5e4);
    let hoop = cylinder(mm(150.0), mm(2.0), Pressure::from_pascals(p))?;
    near(
        "round",
        hoop.round.si(),
        p * (r + 0.5 * t) / t,
        Tolerance::relative(2e-3),
    )?;
    near(
        "along",
        hoop.along.si(),
        p * (r + 0.5 * t) / (2.0 * t),
        Tolerance::relative(2e-2),
    )?;
    let (inner, outer) = (r * r, (r + t) * (r + t));
    let lame = p * (outer + inner) / (outer - inner);
    let exact = computed("Lamé, thick cylinder");
    let what =
        |figure: &str| format!("Round wall, 150 mm inside radius, 2 mm, 50 kPa: {figure}, Pa");
    exact.near(
        &what("stress around"),
        hoop.round.si(),
        lame,
        Tolerance::relative(2e-3),
    )?;
    let ends = p * inner / (outer - inner);
    exact.near(
        &what("stress along"),
        hoop.along.si(),
        ends,
        Tolerance::relative(1e-2),
    )?;

    let at = |kind| dish(kind, mm(150.0), mm(2.0), Pressure::from_pascals(p)).map(Pressure::si);
    let torisphere = |knuckle| Dish::Torisphere {
        crown: mm(300.0),
        knuckle: mm(knuckle),
    };
    let hemisphere = at(Dish::Hemisphere)?;
    computed("Thin wall, p r/2t").near(
        "Hemisphere, 150 mm inside radius, 2 mm, 50 kPa: stress, Pa",
        hemisphere,
        p * (r + 0.5 * t) / (2.0 * t),
        Tolerance::relative(5e-3),
    )?;
    let code = from_memory("ASME VIII-1, UG-32 and appendix 1-4");
    code.near(
        "2:1 end, 150 mm inside radius, 2 mm, 50 kPa: stress, Pa",
        at(Dish::TwoToOne)?,
        p * 0.3 / (2.0 * t),
        Tolerance::relative(2e-3),
    )?;
    // p (L M/2t + 0.1), solved for M.
    for (knuckle, factor) in [(18.0, 1.77), (30.0, 1.54)] {
        code.near(
            &format!("Torisphere, crown 300 mm, knuckle {knuckle} mm: M of table 1-4.2"),
            (at(torisphere(knuckle))? * 2.0 / p - 0.2) / 150.0,
            factor,
            Tolerance::relative(2e-3),
        )?;
    }
    let half = Dish::Torisphere {
        crown: mm(150.0),
        knuckle: mm(150.0),
    };
    near(
        "as a hemisphere",
        at(half)?,
        hemisphere,
        Tolerance::relative(1e-12),
    )?;
    assert!(at(torisphere(10.0)).is_err());
    Ok(())
}

#[test]
pub(super) fn head_of_water() -> Outcome {
    let check = geometry("hydro-head");
    let height = number(&check["inputs"]["h"]);
    let inside = [Vector::ZERO, Vector::new(0.3, 0.2, height)];
    let down = Vector::new(0.0, 0.0, -GRAVITY);
    let zero = Pressure::from_pascals(0.0);
    let load = Load::liquid(number(&check["inputs"]["rho"]), down, zero, &inside)?;
    expect(&check, "p", load.at(Vector::ZERO).si())?;
    near(
        "brim",
        load.at(inside[1]).si(),
        0.0,
        Tolerance {
            relative: 0.0,
            absolute: 1e-9,
        },
    )?;
    Ok(())
}

/// T11.panelforce of `data/welding/checks.json`: 0.2 bar on 400 x 600 mm pushes with 4800 N.
#[test]
fn air_on_a_panel() -> Outcome {
    let (a, b) = (0.4, 0.6);
    let corners = rectangle(a, b).map(|[x, y]| Vector::new(x, y, 0.0));
    let load = Load::even(Pressure::new(0.2, PressureUnit::Bar))?;
    let ends = load.ends(&corners).unwrap();
    near(
        "force",
        ends.mean.si() * a * b,
        4800.0,
        Tolerance::relative(1e-12),
    )?;
    assert_eq!(ends.least, ends.most);
    Ok(())
}

#[test]
pub(super) fn a_fillet_across_its_throat() -> Outcome {
    let check = geometry("fillet-al");
    let given = |key: &str| number(&check["inputs"][key]);
    near(
        "factor",
        WELD_FACTOR,
        given("gMw"),
        Tolerance::relative(1e-12),
    )?;
    let load = Along {
        pull: given("F_N") / (given("L_mm") * 1e-3),
        ..Along::default()
    };
    let weld = Weld::Fillet {
        leg: mm(given("a_mm") * 2f64.sqrt()),
    };
    let got = seam(weld, load, mpa(given("fw")))?;
    expect(&check, "sigma_comp", in_mpa(got.forces))?;
    expect(&check, "util", 1.0 / got.reserve_forces)?;
    expect(&check, "allow", got.reserve * in_mpa(got.with_moment))?;
    Ok(())
}

#[test]
pub(super) fn mass_of_sheet() -> Outcome {
    for (id, alloys) in [
        ("mass-5083", &[Alloy::A5083][..]),
        ("mass-5754", &[Alloy::A5754]),
        ("mass-6061/6082", &[Alloy::A6061, Alloy::A6082]),
        ("mass-3003", &[Alloy::A3003]),
        ("mass-316L", &[Alloy::S316L]),
        ("mass-mild steel", &[Alloy::LowCarbonSteel, Alloy::S235]),
    ] {
        let check = geometry(id);
        for alloy in alloys {
            let figure = format!("Density of {alloy}, kg/m³");
            let (ours, printed) = (alloy.density().si(), number(&check["inputs"]["rho"]));
            source(&check)?.near(&figure, ours, printed, Tolerance::relative(0.005))?;
        }
        let mut balance = Balance::NOTHING;
        let thickness = mm(number(&check["inputs"]["t_mm"]));
        let density = number(&check["inputs"]["rho"]);
        balance.sheet(
            Area::from_square_metres(1.0),
            thickness,
            density,
            Vector::ZERO,
        )?;
        expect(&check, "kg_per_m2", balance.mass().si())?;
    }
    Ok(())
}

/// Statics by hand: 10 kg of sheet at (0, 0, 0.1) and 20 L of water at (0.3, 0, 0.1): centre x = 0.2.
/// Mounts at x = 0 (two, y = ±0.2) and x = 0.6: moments about y give 200 N/3 on the single one.
#[test]
fn three_mounts_by_statics() -> Outcome {
    let mut balance = Balance::NOTHING;
    balance.sheet(
        Area::from_square_metres(1.25),
        mm(4.0),
        2000.0,
        Vector::new(0.0, 0.0, 0.1),
    )?;
    let water = Volume::new(20.0, VolumeUnit::Litre);
    balance.liquid(water, 1000.0, Vector::new(0.3, 0.0, 0.1))?;
    let tight = Tolerance::relative(1e-12);
    near("x", balance.centre().unwrap().x, 0.2, tight)?;
    let felt = Vector::new(0.0, 0.0, -10.0);
    let mounts = [
        Vector::new(0.0, -0.2, 0.0),
        Vector::new(0.0, 0.2, 0.0),
        Vector::new(0.6, 0.0, 0.0),
    ];
    let got = reactions(&balance, felt, &mounts)?;
    for (mount, want) in got.mounts.iter().zip([100.0, 100.0, 100.0]) {
        near("bears", mount.bearing.si(), want, tight)?;
    }

    // With the single mount at x = 0.3 it bears two thirds of 300 N; at 0.15 more than all, and the two
    // others hold down: 300 · 0.2/0.15 = 400 N, and −50 N each.
    let moved = [mounts[0], mounts[1], Vector::new(0.15, 0.0, 0.0)];
    let got = reactions(&balance, felt, &moved)?;
    near("bears", got.mounts[2].bearing.si(), 400.0, tight)?;
    near("held down", got.mounts[0].bearing.si(), -50.0, tight)?;

    // Four at the corners of a rectangle: each side by its lever, halved (any textbook of statics).
    let four =
        [[0.0, -0.2], [0.0, 0.2], [0.5, -0.2], [0.5, 0.2]].map(|[x, y]| Vector::new(x, y, 0.1));
    let got = reactions(&balance, felt, &four)?;
    for (mount, want) in got.mounts.iter().zip([90.0, 90.0, 60.0, 60.0]) {
        near("bears", mount.bearing.si(), want, tight)?;
    }
    Ok(())
}
