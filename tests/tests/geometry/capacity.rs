//! Capacities, liquids and dip charts against published figures; the source stands beside each check.
//!
//! `data/geometry/checks.json` holds figures gathered and evaluated apart from this project, each with
//! its source and tolerance.

use seamwright_core::body::{SheetPlan, Solid};
use seamwright_core::capacity::{
    Dipped, Drawing, ExpansionError, FillTo, Lean, LeanRange, Outcome, Pool, Stick, Warming,
    linear_expansion,
};
use seamwright_core::compartment::{Compartments, Mouth};
use seamwright_core::fitting::Inner;
use seamwright_core::geom::Vector;
use seamwright_core::input::{Block, Cut, Sized};
use seamwright_core::tables::{Contents, Family, GlycolShare, Liquid, LiquidError, Petroleum};
use seamwright_core::units::{Density, Length, Temperature, TemperatureUnit};
use seamwright_tests::Outcome as Done;
use seamwright_tests::amounts::{celsius, degrees, in_litres, in_mm, lean, litres, mm};
use seamwright_tests::checks::{expect, expect_near, geometry, number, numbers, tolerance};
use seamwright_tests::near::{Tolerance, near};
use seamwright_tests::published::{computed, from_memory};
use serde_json::Value;

/// The space inside a box of these inside sizes in mm, with cuts.
fn space(size: [f64; 3], cuts: &[Cut]) -> Solid {
    let [length, width, height] = size.map(mm);
    let block = Block {
        sized: Sized::Inside,
        length,
        width,
        height,
        cuts: heapless::Vec::from_slice(cuts).unwrap(),
    };
    block.body(&SheetPlan::uniform(mm(2.0))).unwrap().inside
}

/// A point given in mm from the lowest, leftmost, front corner of the space, in tank axes.
fn point(inside: &Solid, from_corner: [f64; 3]) -> Vector {
    let [x, y, z] = from_corner.map(|value| value / 1e3);
    corner(inside) + Vector::new(x, y, z)
}

fn corner(inside: &Solid) -> Vector {
    let low = |x, y, z| inside.extent(Vector::new(x, y, z)).0;
    Vector::new(low(1.0, 0.0, 0.0), low(0.0, 1.0, 0.0), low(0.0, 0.0, 1.0))
}

fn three(value: &Value) -> [f64; 3] {
    numbers(value).try_into().unwrap()
}

/// Rows `lean-box-5` to `lean-box-30`: clip and divergence theorem, checked there against manifold3d.
#[test]
pub(super) fn what_can_be_drawn_from_a_leaning_box() -> Done {
    for id in ["lean-box-5", "lean-box-10", "lean-box-20", "lean-box-30"] {
        let row = geometry(id);
        let (inputs, expected) = (&row["inputs"], &row["expected"]);
        let inside = space(three(&inputs["inside"]), &[]);
        let filler = [point(&inside, three(&inputs["filler_point"]))];
        let leaning = lean(number(&inputs["pitch_deg"]), 0.0);
        let marks = Pool::new(&inside, leaning).marks(&filler)?;
        let full = number(&expected["V_at_filler_l"]);
        expect(&row, "V_at_filler_l", in_litres(marks.full.volume))?;
        near(
            id,
            in_litres(marks.gas),
            45.0 - full,
            Tolerance {
                relative: 0.0,
                absolute: 1e-9,
            },
        )?;
        for end in ["low", "high"] {
            let outlet = point(&inside, three(&inputs[format!("outlet_{end}")]));
            let parted = Compartments::of(&inside, &Inner::default())?;
            let outlet = [parted.pick_up(Mouth::point(outlet))?];
            let drawing = Drawing::new(&inside, &parted, FillTo::LowestOpening, &outlet, &filler)?;
            let drawn = drawing.at(leaning);
            let figure = |what: &str| format!("{what}_{end}_outlet_l");
            expect(&row, &figure("dead"), in_litres(drawn.dead))?;
            expect(&row, &figure("usable"), in_litres(drawn.usable))?;
            near(
                id,
                in_litres(drawn.spilt),
                45.0 - full,
                Tolerance {
                    relative: 0.0,
                    absolute: 1e-9,
                },
            )?;
        }
    }
    Ok(())
}

/// The same rows again: a pick-up near one end leaves most behind when that end is up, so over ±10° the
/// worst is the row's outlet at the high end.
#[test]
fn the_worst_of_a_range_is_the_row_with_the_outlet_high() -> Done {
    for (id, most) in [
        ("lean-box-5", 5.0),
        ("lean-box-10", 10.0),
        ("lean-box-20", 20.0),
    ] {
        let row = geometry(id);
        let inside = space(three(&row["inputs"]["inside"]), &[]);
        let outlet = point(&inside, three(&row["inputs"]["outlet_low"]));
        let leans = LeanRange::new([degrees(-most), degrees(most)], [degrees(0.0); 2])?;
        let parted = Compartments::of(&inside, &Inner::default())?;
        let outlet = [parted.pick_up(Mouth::point(outlet))?];
        let fill = FillTo::Volume(litres(40.0));
        let worst = Drawing::new(&inside, &parted, fill, &outlet, &[])?.worst(leans);
        let expected = number(&row["expected"]["dead_high_outlet_l"]);
        near(
            id,
            in_litres(worst.most_dead.dead),
            expected,
            tolerance(&row),
        )?;
        near(
            id,
            in_litres(worst.least.usable),
            40.0 - expected,
            tolerance(&row),
        )?;
        near(
            id,
            in_litres(worst.after_all),
            40.0 - expected,
            tolerance(&row),
        )?;
        assert_eq!(worst.most_dead.lean, lean(-most, 0.0));
    }
    Ok(())
}

/// Row `lean-closed-form`: V = L W h while the surface meets the four walls only. The depths at the two
/// ends, measured along the walls, are what upright sticks there read.
#[test]
pub(super) fn sticks_at_both_ends_of_a_leaning_box() -> Done {
    let row = geometry("lean-closed-form");
    let (inputs, expected) = (&row["inputs"], &row["expected"]);
    let (length, width) = (number(&inputs["L"]), number(&inputs["W"]));
    let inside = space([length, width, 250.0], &[]);
    let pool = Pool::new(&inside, lean(number(&inputs["pitch_deg"]), 0.0));
    let origin = corner(&inside);
    let full = litres(number(&expected["volume_l"]));
    for (x, depth, end) in [
        (0.0, number(&expected["depth_low"]), Some("depth_low")),
        (length, number(&expected["depth_high"]), Some("depth_high")),
        (0.5 * length, number(&inputs["mean_depth"]), None),
    ] {
        let stick = Stick::upright(
            &inside,
            Length::from_metres(origin.x + x / 1e3),
            Length::from_metres(origin.y + 0.1),
        )?;
        let dipped = Dipped::new(pool, &stick)?;
        let reading = in_mm(dipped.reading(full)?);
        match end {
            Some(end) => expect(&row, end, reading)?,
            None => near("in the middle", reading, depth, tolerance(&row))?,
        }
        expect(&row, "volume_l", in_litres(dipped.volume(mm(depth))?))?;
    }
    Ok(())
}

/// Liquid in the low corner only: V = W h² / (2 tan θ) while h / tan θ ≤ L (a triangular prism; any
/// handbook of mensuration). At 10° with 60 mm at the low wall of a 300 mm wide tank: 3.0625 L.
#[test]
fn a_pool_in_the_low_corner() -> Done {
    let inside = space([600.0, 300.0, 250.0], &[]);
    let origin = corner(&inside);
    let stick = Stick::upright(
        &inside,
        Length::from_metres(origin.x),
        Length::from_metres(origin.y),
    )?;
    for angle in [10.0_f64, 25.0, 45.0] {
        let dipped = Dipped::new(Pool::new(&inside, lean(angle, 0.0)), &stick)?;
        for height in [5.0_f64, 60.0, 100.0] {
            let expected = 300.0 * height * height / (2.0 * angle.to_radians().tan()) / 1e6;
            near(
                "corner pool",
                in_litres(dipped.volume(mm(height))?),
                expected,
                Tolerance::relative(1e-11),
            )?;
        }
    }
    let dipped = Dipped::new(Pool::new(&inside, lean(10.0, 0.0)), &stick)?;
    near(
        "printed figure",
        in_litres(dipped.volume(mm(60.0))?),
        3.0625,
        Tolerance::relative(2e-5),
    )?;
    Ok(())
}

/// A box is the same upside down, so half of it lies below the plane through its middle, at any lean.
#[test]
fn half_full_at_half_depth() -> Done {
    let inside = space([600.0, 300.0, 250.0], &[]);
    for pitch in [-80.0, -33.0, 0.0, 7.0, 90.0] {
        for roll in [-61.0, 0.0, 3.0, 45.0] {
            let pool = Pool::new(&inside, lean(pitch, roll));
            let middle = Length::from_metres(0.5 * pool.full_depth().si());
            near(
                "half",
                in_litres(pool.at(middle)?.volume),
                22.5,
                Tolerance::relative(1e-12),
            )?;
        }
    }
    Ok(())
}

/// Rows `api-petrol`, `api-diesel`, `api-kerosene`: API MPMS 11.1 / ASTM D1250 (1980); constants from
/// memory there too.
#[test]
pub(super) fn petroleum_by_the_1980_tables() -> Done {
    for (id, liquid) in [
        ("api-petrol", Liquid::Petrol),
        ("api-diesel", Liquid::Diesel),
        ("api-kerosene", Liquid::Kerosene),
    ] {
        let row = geometry(id);
        let measured = Petroleum::refined(number(&row["inputs"]["rho15"]))?;
        assert_eq!(liquid.petroleum(), Some(measured));
        expect(&row, "alpha15", measured.alpha())?;
        for hot in numbers(&row["inputs"]["T"]) {
            let figure = format!("VCF{hot}");
            expect(&row, &figure, measured.to_base(celsius(hot))?)?;
            let grown = liquid.growth(celsius(15.0), celsius(hot))?;
            expect(&row, &figure, 1.0 / grown)?;
        }
    }
    Ok(())
}

/// The bands of table 54B (from memory) were fitted apart but meet where they change: a wrong constant
/// would leave a step. Lubricating oil: 0.6278 / 875 = 7.175e-4, growth 1.84 % from 15 to 40 °C.
#[test]
pub(super) fn the_bands_of_the_tables_meet() -> Done {
    for edge in [770.0, 787.5, 838.5] {
        let below = Petroleum::refined(edge - 0.01)?.alpha();
        let above = Petroleum::refined(edge + 0.01)?.alpha();
        near("alpha", above, below, Tolerance::relative(5e-3))?;
    }
    let oil = Liquid::HydraulicOil;
    from_memory("API MPMS 11.1, table 54D: 0.6278/ρ").near(
        "Lubricating oil of 875 kg/m³, growth from 15 to 40 °C",
        oil.growth(celsius(15.0), celsius(40.0))? - 1.0,
        0.0184,
        Tolerance::relative(5e-3),
    )?;
    assert_eq!(
        Petroleum::refined(600.0),
        Err(LiquidError::Density {
            value: 600.0,
            least: 653.0,
            most: 1075.0
        })
    );
    assert!(Petroleum::lubricating(f64::NAN).is_err());
    Ok(())
}

/// Row `water-rho`: IAPWS-95. Also ASME steam tables as Crane TP-410 prints them, lb/ft³ (from memory):
/// 62.414 at 32 °F, 61.996 at 100 °F.
#[test]
pub(super) fn water() -> Done {
    let row = geometry("water-rho");
    let density = |at: f64| Liquid::Water.density(celsius(at)).map(Density::si);
    for (n, at) in numbers(&row["inputs"]["T_C"]).into_iter().enumerate() {
        expect(&row, &format!("rho/{n}"), density(at)?)?;
    }
    for (at, key) in [
        (20.0, "beta20_1e6"),
        (60.0, "beta60_1e6"),
        (80.0, "beta80_1e6"),
    ] {
        let beta = (density(at - 0.5)? - density(at + 0.5)?) / density(at)?;
        expect_near(&row, key, beta * 1e6, Tolerance::relative(3e-3))?;
    }
    let growth = Liquid::Water.growth(celsius(20.0), celsius(95.0))?;
    expect(&row, "V95_over_V20", growth)?;
    for (fahrenheit, pounds) in [(32.0, 62.414), (100.0, 61.996)] {
        let at = Temperature::new(fahrenheit, TemperatureUnit::Fahrenheit);
        let expected = pounds * 0.453_592_37 / 0.028_316_846_592;
        from_memory("ASME steam tables, as Crane TP-410 prints them").near(
            &format!("Water at {fahrenheit} °F: density, kg/m³"),
            Liquid::Water.density(at)?.si(),
            expected,
            Tolerance::relative(2e-4),
        )?;
    }
    Ok(())
}

/// Row `meg50`, and the propylene figures that `CoolProp` gives for Melinder's data: 1039.1 at 20 °C,
/// 983.2 at 95 °C. A coolant without glycol is water, so the share's ends must meet.
#[test]
pub(super) fn glycol_mixtures() -> Done {
    let row = geometry("meg50");
    let ethylene = Liquid::EthyleneGlycol(GlycolShare::HALF);
    let propylene = Liquid::PropyleneGlycol(GlycolShare::HALF);
    let growth = |liquid: Liquid| liquid.growth(celsius(20.0), celsius(95.0));
    expect(&row, "rho20", ethylene.density(celsius(20.0))?.si())?;
    expect(&row, "rho95", ethylene.density(celsius(95.0))?.si())?;
    expect(&row, "expansion_20_95", growth(ethylene)? - 1.0)?;
    computed("Melinder's data through CoolProp").near(
        "Water with 50 % propylene glycol: growth from 20 to 95 °C",
        growth(propylene)? - 1.0,
        0.0569,
        Tolerance::relative(3e-3),
    )?;
    let thin = Liquid::EthyleneGlycol(GlycolShare::new(1)?);
    let between = thin.density(celsius(20.0))?.si();
    assert!(between > 998.2 && between < 1000.0, "{between}");
    for percent in [0, 61, 255] {
        assert_eq!(
            GlycolShare::new(percent),
            Err(LiquidError::Glycol { value: percent })
        );
    }
    Ok(())
}

#[test]
fn liquids_by_name_and_in_range() -> Done {
    for liquid in Liquid::ALL {
        assert_eq!(liquid.to_string().parse(), Ok(liquid));
        assert!(!liquid.source().is_empty() && !liquid.caution().is_empty());
        let [least, most] = liquid.range();
        for edge in [least, most] {
            assert!(liquid.density(edge)?.si() > 500.0);
        }
        for out in [least.si() - 0.1, most.si() + 0.1, f64::NAN] {
            let refused = liquid.density(Temperature::from_kelvins(out));
            assert!(matches!(refused, Err(LiquidError::Temperature { .. })));
        }
    }
    assert_eq!("gasoline".parse(), Ok(Liquid::Petrol));
    for wrong in [
        "ethylene glycol",
        "propylene glycol 61 %",
        "glycol 50 %",
        "50 %",
        "milk",
    ] {
        assert!(wrong.parse::<Liquid>().is_err(), "{wrong}");
    }
    let text = serde_json::to_string(&Liquid::Petrol)?;
    assert_eq!(serde_json::from_str::<Liquid>(&text)?, Liquid::Petrol);
    assert!(serde_json::from_str::<Liquid>("{\"EthyleneGlycol\":90}").is_err());
    Ok(())
}

/// Rows `api-*`, the warming that fills a headspace of 5 %; growth of an aluminium tank by 40 K, 0.28 %
/// (3 × 23.1e-6 × 40, CRC Handbook's coefficient from memory).
#[test]
pub(super) fn the_temperature_that_fills_the_headspace() -> Done {
    let inside = space([600.0, 300.0, 250.0], &[]);
    let pool = Pool::new(&inside, Lean::LEVEL);
    for id in ["api-petrol", "api-diesel", "api-kerosene"] {
        let row = geometry(id);
        let oil = Petroleum::refined(number(&row["inputs"]["rho15"]))?;
        let mut warming = Warming {
            contents: Contents::from(oil),
            fill: litres(0.95 * 45.0),
            room: pool.brim(),
            from: celsius(15.0),
            hottest: celsius(40.0),
            linear: 0.0,
        };
        let grown = warming.expand(&pool)?;
        let full = grown
            .full_at
            .ok_or("never full")?
            .in_unit(TemperatureUnit::Celsius);
        let warming_to_full = "dT_K_from15_filling_5pct_ullage";
        expect_near(
            &row,
            warming_to_full,
            full - 15.0,
            Tolerance::relative(1e-9),
        )?;
        let hot = 0.95 * 45.0 / number(&row["expected"]["VCF40"]);
        near(id, in_litres(grown.hot), hot, Tolerance::relative(1e-9))?;
        let Outcome::Fits(left) = grown.outcome else {
            return Err("it fits at 40 °C".into());
        };
        near(id, in_litres(left), 45.0 - hot, Tolerance::relative(1e-8))?;
        // A box rises by the growth over its plan.
        let rise = (hot - 0.95 * 45.0) / (6.0 * 3.0) * 100.0;
        near(id, in_mm(grown.rise), rise, Tolerance::relative(1e-8))?;

        warming.hottest = celsius(100.0);
        let spilt = warming.expand(&pool)?;
        let hot = 0.95 * 45.0 / number(&row["expected"]["VCF100"]);
        let Outcome::Spills(over) = spilt.outcome else {
            return Err("it spills at 100 °C".into());
        };
        near(id, in_litres(over), hot - 45.0, Tolerance::relative(1e-8))?;
        near(
            id,
            in_mm(spilt.rise),
            0.05 * 250.0,
            Tolerance::relative(1e-9),
        )?;

        warming.linear = linear_expansion(Family::Aluminium);
        warming.hottest = celsius(55.0);
        let with_tank = warming.expand(&pool)?;
        from_memory("CRC Handbook, 23.1e-6/K").near(
            "Aluminium tank 40 K warmer: growth of its contents",
            with_tank.shell - 1.0,
            0.0028,
            Tolerance::absolute(5e-5),
        )?;
        assert!(with_tank.full_at > grown.full_at);
    }
    Ok(())
}

/// EN 1991-1-5, table C.1 (from memory), per kelvin: structural steel 12, stainless 16, aluminium 24 millionths, round
/// figures that suit any alloy.
#[test]
pub(super) fn expansion_of_the_sheet() -> Done {
    for (family, millionths) in [
        (Family::Steel, 12.0),
        (Family::Stainless, 16.0),
        (Family::Aluminium, 24.0),
    ] {
        from_memory("EN 1991-1-5, table C.1").near(
            &format!("Expansion of sheet, {family:?}, 1e-6/K"),
            1e6 * linear_expansion(family),
            millionths,
            Tolerance::relative(0.04),
        )?;
    }
    Ok(())
}

#[test]
fn growth_refuses_what_makes_no_sense() -> Done {
    let inside = space([600.0, 300.0, 250.0], &[]);
    let pool = Pool::new(&inside, Lean::LEVEL);
    let good = Warming {
        contents: Liquid::Water.into(),
        fill: litres(40.0),
        room: litres(44.0),
        from: celsius(20.0),
        hottest: celsius(80.0),
        linear: 0.0,
    };
    // Water grows by 2.7 % to 80 °C (row `water-rho`): 41.1 L, and by 4.2 % to 100 °C: never 44 L.
    assert_eq!(good.expand(&pool)?.full_at, None);
    let refused = |change: &dyn Fn(&mut Warming)| {
        let mut warming = good;
        change(&mut warming);
        warming.expand(&pool).unwrap_err()
    };
    assert!(matches!(
        refused(&|w| w.room = litres(45.1)),
        ExpansionError::Room(_)
    ));
    assert!(matches!(
        refused(&|w| w.fill = litres(44.1)),
        ExpansionError::Fill(_)
    ));
    assert!(matches!(
        refused(&|w| w.fill = litres(f64::NAN)),
        ExpansionError::Fill(_)
    ));
    assert!(matches!(
        refused(&|w| w.hottest = celsius(19.0)),
        ExpansionError::Cooler { .. }
    ));
    assert!(matches!(
        refused(&|w| w.hottest = celsius(101.0)),
        ExpansionError::Liquid(_)
    ));
    assert!(matches!(
        refused(&|w| w.linear = 0.1),
        ExpansionError::Linear(_)
    ));
    Ok(())
}
