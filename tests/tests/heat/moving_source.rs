//! Moving-source temperatures against published figures and independent evaluations; the source stands
//! beside each check. Rows named `T3.…` are of `data/welding/checks.json`.

use std::f64::consts::PI;

use proptest::prelude::*;
use seamwright_core::heat::moving::adams::Regime;
use seamwright_core::heat::moving::{Moving, MovingSource, Rosenthal, WeldedPlate};
use seamwright_core::units::{
    Angle, AngleUnit, Figure, Length, LengthUnit, LineEnergyUnit, Speed, SpeedUnit, Temperature,
    TemperatureUnit,
};
use seamwright_tests::Outcome;
use seamwright_tests::amounts::{celsius, mm};
use seamwright_tests::checks::{expect, input, welding};
use seamwright_tests::near::{Tolerance, near};
use seamwright_tests::published::{computed, from_memory};
use serde_json::Value;

fn degrees(temperature: Temperature) -> f64 {
    temperature.in_unit(TemperatureUnit::Celsius)
}

/// A source over a plate as the rows give it, in SI except for the temperatures.
fn moving(q: f64, v: f64, k: f64, rho_c: f64, d: f64, start: f64) -> Moving {
    let source = MovingSource {
        power: q,
        travel: Speed::from_metres_per_second(v),
    };
    let plate = WeldedPlate {
        thickness: Length::from_metres(d),
        conductivity: k,
        heat_capacity: rho_c,
        start: celsius(start),
    };
    Moving::new(source, plate).unwrap()
}

fn thin_row(check: &Value) -> Result<Rosenthal, String> {
    let rho_c = input(check, "rho")? * input(check, "c")?;
    let [q, v, k, d] = ["q_W", "v_m_s", "k", "d_m"].map(|key| input(check, key));
    Ok(moving(q?, v?, k?, rho_c, d?, 20.0).thin(2).unwrap())
}

fn rise_at(field: &Rosenthal, check: &Value) -> Result<f64, String> {
    let [xi, y] = ["xi_m", "y_m"].map(|key| input(check, key));
    let place = field.at(Length::from_metres(xi?), Length::from_metres(y?));
    Ok(place.unwrap().si() - 293.15)
}

/// Rosenthal's thin plate with scipy's K0.
#[test]
pub(super) fn thin_plate_at_places() -> Outcome {
    for id in [
        "T3.rosthin.-0.01_0",
        "T3.rosthin.0_0.01",
        "T3.rosthin.-0.02_0.01",
        "T3.rosthin.0.01_0",
    ] {
        let check = welding(id);
        expect(&check, "dT_K", rise_at(&thin_row(&check)?, &check)?)?;
    }
    // references.md, "Moving source": 425.818 °C, computed with scipy.
    let field = moving(1_000.0, 0.005, 138.0, 2_680.0 * 900.0, 0.003, 25.0).thin(2)?;
    let got = degrees(field.at(mm(-20.0), mm(10.0))?);
    computed("Rosenthal thin plate; scipy").near(
        "20 mm behind and 10 mm beside an arc of 1000 W at 5 mm/s, sheet of 3 mm aluminium: °C",
        got,
        425.818,
        Tolerance::absolute(6e-4),
    )?;
    Ok(())
}

/// Rosenthal's thick plate, plain arithmetic.
#[test]
pub(super) fn thick_plate_at_places() -> Outcome {
    for id in [
        "T3.rosthick.-0.02_0",
        "T3.rosthick.0_0.01",
        "T3.rosthick.-0.02_0.01",
    ] {
        let check = welding(id);
        let [q, v, k, a] = ["q_W", "v_m_s", "k", "a_m2_s"].map(|key| input(&check, key));
        let k = k?;
        let plate = moving(q?, v?, k, k / a?, 0.05, 20.0);
        let flat = plate.thick(Angle::new(180.0, AngleUnit::Degree))?;
        let rise = rise_at(&flat, &check)?;
        expect(&check, "dT_K", rise)?;
        // A source on the edge of a wedge counts as P π / θ: Grong, chapter 1 (from memory).
        for angle in [90.0, 270.0] {
            let wedge = plate.thick(Angle::new(angle, AngleUnit::Degree))?;
            let expected = rise * 180.0 / angle;
            near(
                "wedge",
                rise_at(&wedge, &check)?,
                expected,
                Tolerance::relative(1e-12),
            )?;
        }
    }
    Ok(())
}

/// The highest of Rosenthal's thin plate in passing, found by scipy's minimiser when the row was made.
#[test]
pub(super) fn peaks_beside_the_seam() -> Outcome {
    for id in [
        "T3.rosthin.peak.10",
        "T3.rosthin.peak.20",
        "T3.rosthin.peak.40",
    ] {
        let check = welding(id);
        let (field, y) = (thin_row(&check)?, mm(input(&check, "y_mm")?));
        let peak = field.peak(y)?;
        expect(&check, "dTpeak_K", peak.temperature.si() - 293.15)?;
        // By plain search as well, and no neighbour may be hotter.
        let behind = peak.after.si() * 0.005;
        let top = field.at(Length::from_metres(-behind), y)?.si();
        near(
            "place",
            top,
            peak.temperature.si(),
            Tolerance::relative(1e-12),
        )?;
        for off in [0.999, 1.001] {
            assert!(field.at(Length::from_metres(-behind * off), y)?.si() < top);
        }
        // The band hotter than that peak ends there.
        let width = field.width_above(peak.temperature)?;
        near("width", width.si(), 2.0 * y.si(), Tolerance::relative(1e-9))?;
    }
    Ok(())
}

/// 304, 1.5 mm: the melt by full Rosenthal (scipy).
#[test]
pub(super) fn the_melt_in_thin_stainless() -> Outcome {
    let check = welding("T3.meltwidth.304");
    let [q, v, k, d] = ["q_W", "v_m_s", "k", "d_m"].map(|key| input(&check, key));
    let rho_c = input(&check, "rho")? * input(&check, "c")?;
    let plate = moving(q?, v?, k?, rho_c, d?, input(&check, "T0")?);
    let melting = celsius(input(&check, "Tm")?);
    let width = plate.thin(2)?.width_above(melting)?;
    expect(
        &check,
        "width_full_mm",
        width.in_unit(LengthUnit::Millimetre),
    )?;
    Ok(())
}

/// The fast limit of the band in sheet that gets so many kelvins warmer, `2 Q / (√(2πe) ρc d ΔT)`, of heat for each
/// metre, heat capacity and thickness: Adams, Welding Journal 37 (1958) (from memory).
fn fast_width([per_metre, rho_c, d]: [f64; 3], rise: f64) -> f64 {
    2.0 * per_metre / ((2.0 * PI * 1.0_f64.exp()).sqrt() * rho_c * d * rise)
}

/// 5052, 3.2 mm, 831.6 W: references-welding.md, section 3, independent evaluation with scipy: the melt
/// 6.88 mm wide in full, where the fast limit has 16.96 mm.
#[test]
pub(super) fn the_melt_in_aluminium() -> Outcome {
    let plate = moving(831.6, 0.005, 138.0, 2_680.0 * 880.0, 0.0032, 20.0);
    // The row does not say which end of 607 to 649 °C it took; its fast width gives it back.
    let melting = celsius(649.0);
    let width = plate
        .thin(2)?
        .width_above(melting)?
        .in_unit(LengthUnit::Millimetre);
    let fast = 1e3 * fast_width([831.6 / 0.005, 2_680.0 * 880.0, 0.0032], 649.0 - 20.0);
    computed("Rosenthal thin plate; scipy").near(
        "Melt of 832 W at 5 mm/s in 3.2 mm of 5052: width, mm",
        width,
        6.88,
        Tolerance::absolute(0.01),
    )?;
    near(
        "fast",
        fast,
        16.96,
        Tolerance {
            relative: 0.0,
            absolute: 0.01,
        },
    )?;
    Ok(())
}

/// A plate known by its heat input only.
fn adams(q_j_mm: f64, k_j_mm: f64, rho_c_j_mm3: f64, d_mm: f64, start: f64) -> Moving {
    moving(
        q_j_mm * 5.0,
        0.005,
        k_j_mm * 1e3,
        rho_c_j_mm3 * 1e9,
        d_mm * 1e-3,
        start,
    )
}

/// Adams' relative thickness, after a problem of Parmar's.
#[test]
pub(super) fn relative_thickness() -> Outcome {
    let check = welding("T3.cool.thin");
    let [u, i, eta, v, d, k, rho_c, start, at] =
        ["U", "I", "eta", "v_mm_s", "h_mm", "k", "rhoC", "T0", "Tc"]
            .map(|key| input(&check, key).unwrap());
    let plate = moving(u * i * eta, v * 1e-3, k * 1e3, rho_c * 1e9, d * 1e-3, start);
    let at = celsius(at);
    let line = plate
        .line_energy()
        .in_unit(LineEnergyUnit::JoulePerMillimetre);
    expect(&check, "Hnet", line)?;
    expect(&check, "tau", plate.relative_thickness(at)?)?;
    assert_eq!(plate.regime(at)?, Regime::Thin);
    Ok(())
}

/// AWS Welding Handbook, vol. 1 (from memory): thin below 0.6, thick above 0.9, split at 0.75.
#[test]
fn regimes() -> Outcome {
    let regime = |d: f64| adams(720.0, 0.028, 0.0044, d, 25.0).regime(celsius(550.0));
    // τ = d √(0.0044 · 525 / 720), d in mm.
    let d = |tau: f64| tau / (0.0044_f64 * 525.0 / 720.0).sqrt();
    assert_eq!(regime(d(0.59))?, Regime::Thin);
    assert_eq!(regime(d(0.61))?, Regime::RatherThin);
    assert_eq!(regime(d(0.74))?, Regime::RatherThin);
    assert_eq!(regime(d(0.76))?, Regime::RatherThick);
    assert_eq!(regime(d(0.91))?, Regime::Thick);
    assert!(regime(d(0.74))?.is_thin() && !regime(d(0.76))?.is_thin());
    Ok(())
}

/// The field of a fast arc is that of Adams' and Rosenthal's limits (AWS Welding Handbook, vol. 1, from memory): in sheet
/// the band `2 Q / (√(2πe) ρc d ΔT)`, in thick metal the hottest in passing `2/(πe) Q/(ρc y²)`.
#[test]
pub(super) fn a_fast_arc_comes_to_the_published_limits() -> Outcome {
    // Stainless at a metre a second: v r / 2a is some thousands a few millimetres off.
    let (per_metre, rho_c, d) = (60_000.0, 4.74e6, 0.0015);
    let plate = moving(per_metre, 1.0, 25.0, rho_c, d, 20.0);
    let width = plate.thin(2)?.width_above(celsius(500.0))?.si();
    let fast = fast_width([per_metre, rho_c, d], 480.0);
    let limits = from_memory("Fast limits of Adams and Rosenthal, AWS Welding Handbook, vol. 1");
    limits.near(
        "Arc of 60 kJ/m at 1 m/s, 1.5 mm of stainless steel: band 480 K warmer, m",
        width,
        fast,
        Tolerance::relative(2e-3),
    )?;
    let thick = plate.thick(Angle::from_radians(PI))?;
    let peak = thick.peak(mm(5.0))?.temperature.si() - 293.15;
    let fast = 2.0 / (PI * 1.0_f64.exp()) * per_metre / (rho_c * 0.005_f64.powi(2));
    limits.near(
        "Arc of 60 kJ/m at 1 m/s, thick: rise 5 mm beside it, K",
        peak,
        fast,
        Tolerance::relative(1e-3),
    )?;
    Ok(())
}

proptest! {
    /// Peaks by a plain search along a line beside the seam, in both forms.
    #[test]
    fn no_place_on_the_line_is_hotter_than_its_peak(
        power in 200.0_f64..4_000.0,
        speed in 0.5_f64..20.0,
        k in 10.0_f64..230.0,
        rho_c in 2.0e6_f64..5.0e6,
        y in 0.5_f64..80.0,
        sheets in 1_u8..4,
        wedge in 30.0_f64..330.0,
        thin: bool,
    ) {
        let plate = moving(power, speed * 1e-3, k, rho_c, 0.002, 20.0);
        let field = if thin {
            plate.thin(sheets).unwrap()
        } else {
            plate.thick(Angle::new(wedge, AngleUnit::Degree)).unwrap()
        };
        let peak = field.peak(mm(y)).unwrap();
        let behind = peak.after.si() * speed;
        prop_assume!(behind < 9e4);
        let at = |behind: f64| field.at(mm(-behind), mm(y)).unwrap().si() - 293.15;
        let top = peak.temperature.si() - 293.15;
        prop_assert!((at(behind) - top).abs() <= 1e-9 * top + 1e-9);
        for step in 0..40 {
            // The field ends at 100 m.
            let place = (1.3_f64.powi(step - 30) * (behind + 0.01 * y)).min(9e4);
            prop_assert!(at(place) <= top * (1.0 + 1e-12) + 1e-9, "{} at {place}", at(place));
        }
        // And it falls off further out.
        prop_assert!(field.peak(mm(y * 1.01)).unwrap().temperature < peak.temperature);
        if top > 0.5 && top < 4_000.0 {
            let width = field.width_above(peak.temperature).unwrap();
            prop_assert!((width.in_unit(LengthUnit::Millimetre) / (2.0 * y) - 1.0).abs() < 1e-7);
        }
    }
}

/// What is refused names its field.
#[test]
fn refusals() {
    let source = MovingSource {
        power: 1_000.0,
        travel: Speed::new(200.0, SpeedUnit::MillimetrePerMinute),
    };
    let plate = WeldedPlate {
        thickness: mm(2.0),
        conductivity: 138.0,
        heat_capacity: 2.4e6,
        start: celsius(20.0),
    };
    let field = |source, plate| Moving::new(source, plate).unwrap_err().figure;
    assert_eq!(
        field(
            MovingSource {
                power: 0.0,
                ..source
            },
            plate
        ),
        Figure::Power
    );
    assert_eq!(
        field(
            MovingSource {
                travel: Speed::default(),
                ..source
            },
            plate
        ),
        Figure::Travel
    );
    assert_eq!(
        field(
            source,
            WeldedPlate {
                thickness: mm(0.0),
                ..plate
            }
        ),
        Figure::Thickness
    );
    assert_eq!(
        field(
            source,
            WeldedPlate {
                conductivity: f64::NAN,
                ..plate
            }
        ),
        Figure::Conductivity
    );
    // Per gram instead of per cubic metre.
    assert_eq!(
        field(
            source,
            WeldedPlate {
                heat_capacity: 880.0,
                ..plate
            }
        ),
        Figure::HeatCapacity
    );
    assert_eq!(
        field(
            source,
            WeldedPlate {
                start: celsius(-100.0),
                ..plate
            }
        ),
        Figure::Start
    );
    let moving = Moving::new(source, plate).unwrap();
    assert_eq!(moving.thin(0).unwrap_err().figure, Figure::Sheets);
    assert_eq!(
        moving.thick(Angle::default()).unwrap_err().figure,
        Figure::Angle
    );
    let thin = moving.thin(2).unwrap();
    assert_eq!(
        thin.at(mm(0.0), mm(0.0)).unwrap_err().figure,
        Figure::Distance
    );
    assert_eq!(thin.peak(mm(0.0)).unwrap_err().figure, Figure::Distance);
    assert_eq!(
        thin.width_above(celsius(20.0)).unwrap_err().figure,
        Figure::Rise
    );
}
