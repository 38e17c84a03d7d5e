//! Beads, rod, gas, cylinders and money against published figures, plain geometry and another
//! implementation of polygons. Rows named `T9.…` are of `data/welding/checks.json`.

use std::f64::consts::PI;

use geo::{Area as _, LineString, Polygon};
use proptest::prelude::*;
use seamwright_core::blank::{Allow, BendRule, SheetCorner};
use seamwright_core::input::Joint;
use seamwright_core::supply::Bead;
use seamwright_core::supply::cost::{Amounts, Costs, ITEMS, Prices};
use seamwright_core::supply::cylinder::Cylinder;
use seamwright_core::supply::filler::{Rod, RodDraft, RodUse};
use seamwright_core::supply::gas::{Gas, Shield, usual_post_flow};
use seamwright_core::supply::section::{
    BeadFace, BeadForm, Cap, edge, fillet, of_joint, square_butt,
};
use seamwright_core::supply::time::Parts;
use seamwright_core::units::flow::Flow;
use seamwright_core::units::range::Limit;
use seamwright_core::units::{
    AreaUnit, Current, Energy, EnergyUnit, Figure, Length, LengthUnit, Mass, MassUnit, Pressure,
    PressureUnit, Ratio, Temperature, TemperatureUnit, Time, TimeUnit, Volume, VolumeUnit,
};
use seamwright_tests::Outcome;
use seamwright_tests::amounts::{degrees, mm};
use seamwright_tests::checks::{expect, expect_near, input, welding};
use seamwright_tests::near::{Tolerance, near};
use seamwright_tests::published::{common_practice, computed};

const EXACT: Tolerance = Tolerance::relative(1e-12);

fn mm2(area: seamwright_core::units::Area) -> f64 {
    area.in_unit(AreaUnit::SquareMillimetre)
}

fn litres(volume: Volume) -> f64 {
    volume.in_unit(VolumeUnit::Litre)
}

fn allow(gap: f64) -> Allow {
    Allow {
        lap: mm(20.0),
        gap: mm(gap),
        bend_radius: mm(3.0),
        rule: BendRule::Din6935,
    }
}

fn form(face: BeadFace) -> BeadForm {
    BeadForm {
        cap: Cap {
            width: mm(5.0),
            height: mm(1.0),
        },
        root: Cap {
            width: mm(3.0),
            height: mm(0.5),
        },
        leg: mm(3.0),
        face,
    }
}

fn at(joint: Joint, angle: f64, sheets: [f64; 2], gap: f64, face: BeadFace) -> f64 {
    let corner = SheetCorner {
        dihedral: degrees(angle),
        sheets: sheets.map(mm),
    };
    mm2(of_joint(joint, corner, &allow(gap), &form(face)).unwrap())
}

/// Mathers, The Welding of Aluminium and its Alloys (2002), p. 88: an 8 mm leg takes over 80 % more than one
/// of 6 mm (his figure has the caps with it); plain geometry gives 78 %.
#[test]
pub(super) fn fillets_of_eight_and_six() -> Outcome {
    let check = welding("T9.fillet86");
    let [big, small] = ["z1", "z2"].map(|key| mm(input(&check, key).unwrap()));
    let flat = |leg| mm2(fillet(leg, degrees(90.0), BeadFace::Flat).unwrap());
    expect(&check, "area_ratio", flat(big) / flat(small))?;
    // z²/2; and with a convex face ⅔ · √2 z · h more.
    near("z = 4", flat(mm(4.0)), 8.0, EXACT)?;
    let convex = mm2(fillet(mm(4.0), degrees(90.0), BeadFace::Convex(mm(0.6)))?);
    near(
        "convex",
        convex,
        8.0 + 2.0 / 3.0 * 4.0 * 2.0_f64.sqrt() * 0.6,
        EXACT,
    )?;
    // An equilateral triangle of side 4.
    let tight = mm2(fillet(mm(4.0), degrees(60.0), BeadFace::Flat)?);
    near("60°", tight, 4.0 * 3.0_f64.sqrt(), EXACT)?;
    Ok(())
}

/// references-welding.md, section 9: g t + ⅔ w h of cap and root; t²/2 flat and πt²/4 round for an open
/// corner; ⅔ · 2 t h for two edges.
#[test]
fn sections_of_the_formulas() -> Outcome {
    let cap = |w: f64, h: f64| Cap {
        width: mm(w),
        height: mm(h),
    };
    let butt = mm2(square_butt(mm(3.0), mm(1.0), cap(6.0, 1.2), cap(4.0, 0.6))?);
    near("butt", butt, 3.0 + 2.0 / 3.0 * (7.2 + 2.4), EXACT)?;
    near(
        "edge",
        mm2(edge([mm(2.0); 2], mm(1.0))?),
        2.0 / 3.0 * 4.0,
        EXACT,
    )?;
    let open = |face| at(Joint::OpenCorner, 90.0, [2.0; 2], 0.0, face);
    near("flat", open(BeadFace::Flat), 2.0, EXACT)?;
    near("round", open(BeadFace::Round), PI, EXACT)?;
    // Half of one end is covered: a triangle of t by t/2 is left.
    let half = at(Joint::HalfOpenCorner, 90.0, [2.0; 2], 0.0, BeadFace::Flat);
    near("half-open corner", half, 1.0, EXACT)?;
    // At 120° by hand: the end of the covering sheet, 2 high, and the other toe 3√3/4 away from it.
    let wide = at(Joint::HalfOpenCorner, 120.0, [2.0; 2], 0.0, BeadFace::Flat);
    near(
        "wide half-open corner",
        wide,
        0.75 * 3.0_f64.sqrt(),
        Tolerance::relative(1e-9),
    )?;
    // Nothing is open at a closed corner: the cap alone.
    let full = at(Joint::ClosedCorner, 90.0, [2.0; 2], 0.0, BeadFace::Flat);
    near(
        "closed corner",
        full,
        2.0 / 3.0 * 5.0,
        Tolerance::relative(1e-9),
    )?;
    // A tee is a fillet in the supplement of the dihedral.
    let tee = at(Joint::Tee, 120.0, [2.0; 2], 0.0, BeadFace::Flat);
    near("tee", tee, 4.5 * 60.0_f64.to_radians().sin(), EXACT)?;
    // Beside a quarter bend of outer radius 5: the square less the quarter circle.
    let flange = at(Joint::FlangedLap, 90.0, [2.0; 2], 0.0, BeadFace::Flat);
    near("flange", flange, 25.0 * (1.0 - PI / 4.0), EXACT)?;
    let convex = at(
        Joint::FlangedLap,
        90.0,
        [2.0; 2],
        0.0,
        BeadFace::Convex(mm(0.6)),
    );
    near("convex", convex - flange, 2.0 / 3.0 * 5.0 * 0.6, EXACT)?;
    // A joggle is a lap: a fillet as high as the sheet.
    near(
        "joggle",
        at(Joint::JoggleLap, 180.0, [2.0, 3.0], 0.0, BeadFace::Flat),
        2.0,
        EXACT,
    )?;
    let butt = at(Joint::Butt, 180.0, [2.0, 3.0], 0.5, BeadFace::Flat);
    near("butt", butt, 1.0 + 2.0 / 3.0 * (5.0 + 1.5), EXACT)?;
    // An inside corner of the body takes a fillet outside.
    let inside = at(Joint::OpenCorner, 270.0, [2.0; 2], 0.0, BeadFace::Round);
    near("inside corner", inside, 4.5, EXACT)?;
    Ok(())
}

proptest! {
    /// An open corner without a gap is the triangle between its square ends, drawn with the `geo` crate;
    /// filled round it is a polygon of many points about the root.
    #[test]
    fn open_corners_drawn(angle in 25.0_f64..160.0, a in 1.0_f64..6.0, b in 1.0_f64..6.0) {
        let theta = angle.to_radians();
        // From the root the ends run square to their sheets: their angle is the supplement.
        let open = PI - theta;
        let end = |share: f64| {
            let (s, t) = (open * share, open * (1.0 - share));
            // Between the two ends as an affine image of a circle's arc.
            let (wa, wb) = (t.sin() / open.sin(), s.sin() / open.sin());
            (wa * a + wb * b * open.cos(), wb * b * open.sin())
        };
        let fan = |steps: i32| {
            let mut points = vec![(0.0, 0.0)];
            points.extend((0..=steps).map(|k| end(f64::from(k) / f64::from(steps))));
            Polygon::new(LineString::from(points), vec![]).unsigned_area()
        };
        let flat = at(Joint::OpenCorner, angle, [a, b], 0.0, BeadFace::Flat);
        prop_assert!((flat - fan(1)).abs() < 1e-9, "{flat} {}", fan(1));
        let round = at(Joint::OpenCorner, angle, [a, b], 0.0, BeadFace::Round);
        prop_assert!((round / fan(4_000) - 1.0).abs() < 1e-6, "{round} {}", fan(4_000));
        // A gap adds what it opens.
        prop_assert!(at(Joint::OpenCorner, angle, [a, b], 0.5, BeadFace::Flat) > flat);
    }
}

/// What beads take of a rod.
fn total(rod: &Rod, beads: &[Bead]) -> RodUse {
    let melted = beads.iter().map(|bead| rod.melted(bead).si()).sum();
    rod.bought(Length::from_metres(melted)).unwrap()
}

fn rod(d: f64, density: f64, stub: f64, deposition: f64) -> Rod {
    Rod::new(&RodDraft {
        diameter: mm(d),
        length: mm(1_000.0),
        stub: mm(stub),
        density,
        deposition: Ratio::from_share(deposition),
    })
    .unwrap()
}

/// Rows `T9.rodmass.…`: geometry. The rows are rounded to hundredths, which for the thinnest is more than
/// its own tolerance.
#[test]
pub(super) fn mass_of_a_metre_of_rod() -> Outcome {
    for id in [
        "T9.rodmass.1",
        "T9.rodmass.1.6",
        "T9.rodmass.2.4",
        "T9.rodmass.3.2",
    ] {
        let check = welding(id);
        let rod = rod(input(&check, "d_mm")?, input(&check, "rho")?, 0.0, 1.0);
        let rounding = Tolerance::absolute(0.005);
        expect_near(&check, "g_per_m", rod.mass_per_metre() * 1e3, rounding)?;
    }
    Ok(())
}

/// references-welding.md, section 9: a fillet of 4 mm takes 1768 mm of 2.4 mm rod and 21.6 g for each metre,
/// computed apart. (21.6 g is 8 mm² of 2700 kg/m³.)
#[test]
pub(super) fn rod_for_a_fillet() -> Outcome {
    let square = SheetCorner {
        dihedral: degrees(90.0),
        sheets: [mm(4.0); 2],
    };
    let form = BeadForm {
        leg: mm(4.0),
        ..form(BeadFace::Flat)
    };
    let metre = Bead::of_joint(Joint::Tee, square, &allow(0.0), &form, mm(1_000.0))?;
    let all = total(&rod(2.4, 2_700.0, 0.0, 1.0), &[metre]);
    let close = Tolerance {
        relative: 0.0,
        absolute: 0.5,
    };
    let apart = computed("geometry, computed apart");
    let what = |figure: &str| format!("Fillet of 4 mm, a metre of it with 2.4 mm rod: {figure}");
    let length = all.melted.in_unit(LengthUnit::Millimetre);
    apart.near(&what("rod, mm"), length, 1_768.0, close)?;
    let mass = all.melted_mass.in_unit(MassUnit::Gram);
    apart.near(&what("mass, g"), mass, 21.6, EXACT)?;
    assert_eq!(all.rods, 2);
    // Three seams of it are 5305 mm at 100 %, 5584 mm at 95 %: six rods of 950 mm. One seam at a time
    // would be two each as well, but of three at 100 % with no stub the remainders are used up.
    let part = total(&rod(2.4, 2_700.0, 50.0, 0.95), &[metre; 3]);
    near(
        "melted",
        part.melted.in_unit(LengthUnit::Millimetre),
        3.0 * 1_768.388 / 0.95,
        Tolerance::relative(1e-6),
    )?;
    assert_eq!(part.rods, 6);
    near(
        "bought",
        part.bought_mass.in_unit(MassUnit::Gram),
        6.0 * PI * 1.44 * 2.7,
        EXACT,
    )?;
    assert_eq!(
        total(&rod(2.4, 2_700.0, 50.0, 0.95), &[]),
        RodUse::default()
    );
    // A bead that takes exactly one rod takes no second.
    let exact = Bead::new(
        seamwright_core::units::Area::new(PI * 1.44, AreaUnit::SquareMillimetre),
        mm(1_000.0),
    )?;
    assert_eq!(total(&rod(2.4, 2_700.0, 0.0, 1.0), &[exact]).rods, 1);
    Ok(())
}

/// Row `T9.gasuse`, and the same section's 41 % before and after the arc.
#[test]
pub(super) fn gas_of_a_stitched_job() -> Outcome {
    let check = welding("T9.gasuse");
    let [flow, arc, n, pre, post] =
        ["flow_L_min", "arc_s", "n", "pre_s", "post_s"].map(|key| input(&check, key).unwrap());
    let shield = Shield::new(
        Flow::from_litres_per_minute(flow),
        Time::from_seconds(pre),
        Time::from_seconds(post),
    )?;
    let gas = shield.used(Time::from_seconds(arc), n as u32)?;
    expect(&check, "L", litres(gas.total()))?;
    near(
        "share",
        gas.idle_share().si(),
        0.41,
        Tolerance {
            relative: 0.0,
            absolute: 0.005,
        },
    )?;
    let twice = gas.and(&gas);
    near("sum", litres(twice.total()), 170.0, EXACT)?;
    assert_eq!(Gas::default().idle_share(), Ratio::from_share(0.0));
    let trade = common_practice("a second for each 10 A, at least 8 s");
    for (amperes, seconds) in [(60.0, 8.0), (120.0, 12.0)] {
        trade.near(
            &format!("Gas after an arc of {amperes} A, s"),
            usual_post_flow(Current::from_amperes(amperes)).si(),
            seconds,
            EXACT,
        )?;
    }
    Ok(())
}

/// Argon's equation of state (Tegeler, Span, Wagner) by `CoolProp`: rows `T9.argon.…` at 15 °C, and further
/// states worked out the same way between the table's own points. Within 0.3 %, as the module says.
#[test]
pub(super) fn contents_of_cylinders() -> Outcome {
    let bar = |value| Pressure::new(value, PressureUnit::Bar);
    let celsius = |value| Temperature::new(value, TemperatureUnit::Celsius);
    for id in [
        "T9.argon.10L.200bar",
        "T9.argon.50L.150bar",
        "T9.argon.50L.200bar",
        "T9.argon.50L.230bar",
    ] {
        let check = welding(id);
        let [water, p, t] =
            ["V_water_L", "p_bar_gauge", "T_C"].map(|key| input(&check, key).unwrap());
        let cylinder = Cylinder::new(Volume::new(water, VolumeUnit::Litre))?;
        let got = litres(cylinder.contents(bar(p), celsius(t))?);
        let close = Tolerance::relative(3e-3);
        expect_near(&check, "L_at_15C_101325Pa", got, close)?;
    }
    let ten = Cylinder::new(Volume::new(10.0, VolumeUnit::Litre))?;
    for (p, t, expected) in COOLPROP {
        let got = litres(ten.contents(bar(p), celsius(t))?);
        computed("argon equation of state (Tegeler/Span/Wagner) via CoolProp").near(
            "Argon in 10 L of water at 12 to 288 bar and 5 to 43 °C: contents, L",
            got,
            expected,
            Tolerance::relative(3e-3),
        )?;
    }
    // Row T9.argon.rho: 1.6686 kg/m³ at 15 °C and 1 bar, and so at one atmosphere in proportion; a
    // cylinder at no gauge pressure holds its own volume.
    near(
        "empty",
        litres(ten.contents(bar(0.0), celsius(15.0))?),
        10.0,
        Tolerance::relative(1e-3),
    )?;
    let usable = litres(ten.usable(bar(200.0), bar(10.0), celsius(15.0))?);
    let full = litres(ten.contents(bar(200.0), celsius(15.0))?);
    let rest = litres(ten.contents(bar(10.0), celsius(15.0))?);
    near("usable", usable, full - rest, EXACT)?;
    assert!((108.0..112.0).contains(&rest));
    let refused = ten.contents(bar(301.0), celsius(15.0)).unwrap_err();
    assert_eq!(
        (refused.figure, refused.limit),
        (Figure::CylinderGauge, Limit::AtMost(300e5))
    );
    assert_eq!(
        ten.contents(bar(100.0), celsius(50.0)).unwrap_err().figure,
        Figure::GasTemperature
    );
    assert!(ten.usable(bar(50.0), bar(60.0), celsius(15.0)).is_err());
    Ok(())
}

/// `(gauge bar, °C, litres at 15 °C and 101 325 Pa in 10 L of water)`.
const COOLPROP: [(f64, f64, f64); 8] = [
    (12.0, 20.0, 127.243),
    (37.0, 5.0, 400.620),
    (110.0, 22.0, 1127.274),
    (137.0, 15.0, 1456.230),
    (163.0, 38.0, 1557.392),
    (212.0, 8.0, 2318.902),
    (262.0, 22.0, 2612.246),
    (288.0, 43.0, 2579.395),
];

/// By hand: the rest and the waits run side by side.
#[test]
fn time_and_money() -> Outcome {
    let minutes = |value| Time::new(value, TimeUnit::Minute);
    let parts = Parts {
        arc: minutes(13.0),
        wait: minutes(40.0),
        moves: minutes(5.0),
        rest: minutes(20.0),
        other: minutes(60.0),
    };
    assert_eq!(parts.job()?.total, minutes(118.0));
    let hot = Parts {
        rest: minutes(50.0),
        ..parts
    };
    assert_eq!(hot.job()?.between, minutes(50.0));
    assert_eq!(
        Parts {
            wait: minutes(-1.0),
            ..parts
        }
        .job()
        .unwrap_err()
        .figure,
        Figure::Time
    );

    let amounts = Amounts {
        sheet: Mass::from_kilograms(4.0),
        filler: Mass::new(250.0, MassUnit::Gram),
        gas: Volume::new(850.0, VolumeUnit::Litre),
        labour: minutes(90.0),
        electricity: Energy::new(7_200.0, EnergyUnit::Kilojoule),
    };
    let prices = Prices {
        sheet: Some(9.0),
        filler: Some(20.0),
        gas: Some(10.0),
        labour: None,
        electricity: Some(0.3),
    };
    let costs = Costs::of(&amounts, &prices)?;
    let expected = [Some(36.0), Some(5.0), Some(8.5), None, Some(0.6)];
    for ((item, got), expected) in ITEMS.iter().zip(costs.items).zip(expected) {
        assert_eq!(got.is_some(), expected.is_some(), "{item}");
        near(item, got.unwrap_or(0.0), expected.unwrap_or(0.0), EXACT)?;
    }
    near("total", costs.total(), 50.1, EXACT)?;
    assert!(!costs.is_whole());
    let bad = Prices {
        gas: Some(f64::NAN),
        ..prices
    };
    assert_eq!(Costs::of(&amounts, &bad).unwrap_err().figure, Figure::Price);
    Ok(())
}

/// What is refused names its field.
#[test]
fn refusals() {
    let field = |leg: f64, angle: f64| {
        fillet(mm(leg), degrees(angle), BeadFace::Flat)
            .unwrap_err()
            .figure
    };
    assert_eq!(field(0.0, 90.0), Figure::Leg);
    assert_eq!(field(3.0, 180.0), Figure::Angle);
    let flat = Cap::default();
    assert_eq!(
        square_butt(mm(0.0), mm(0.0), flat, flat)
            .unwrap_err()
            .figure,
        Figure::Thickness
    );
    assert_eq!(
        square_butt(mm(2.0), mm(-1.0), flat, flat)
            .unwrap_err()
            .figure,
        Figure::Gap
    );
    let tall = Cap {
        width: mm(3.0),
        height: mm(30.0),
    };
    assert_eq!(
        square_butt(mm(2.0), mm(0.0), tall, flat)
            .unwrap_err()
            .figure,
        Figure::CapHeight
    );
    let area = fillet(mm(3.0), degrees(90.0), BeadFace::Flat).unwrap();
    assert_eq!(
        Bead::new(area, mm(-1.0)).unwrap_err().figure,
        Figure::SeamLength
    );
    let draft = RodDraft {
        diameter: mm(2.4),
        length: mm(1_000.0),
        stub: mm(600.0),
        density: 2_680.0,
        deposition: Ratio::from_share(1.0),
    };
    assert_eq!(Rod::new(&draft).unwrap_err().figure, Figure::Stub);
    let cubic_centimetres = RodDraft {
        stub: mm(50.0),
        density: 2.68,
        ..draft
    };
    assert_eq!(
        Rod::new(&cubic_centimetres).unwrap_err().figure,
        Figure::Density
    );
    let second = Time::from_seconds(1.0);
    assert_eq!(
        Shield::new(Flow::from_litres_per_minute(0.0), second, second)
            .unwrap_err()
            .figure,
        Figure::Flow
    );
    let corner = SheetCorner {
        dihedral: degrees(90.0),
        sheets: [mm(2.0); 2],
    };
    assert!(
        of_joint(
            Joint::Butt,
            corner,
            &allow(0.0),
            &BeadForm::usual([mm(2.0); 2])
        )
        .is_err()
    );
}
