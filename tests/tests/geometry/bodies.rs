//! Bodies of `core` against the reference tanks, straight through the library: scipy's half-space
//! intersection and trimesh computed the expected figures.

use seamwright_core::capacity::Lean;
use seamwright_core::input::Face;
use seamwright_core::tank::Tank;
use seamwright_core::units::{Angle, AngleUnit, Length};
use seamwright_tests::Outcome;
use seamwright_tests::cases::{self, tolerance};
use seamwright_tests::near::{Tolerance, near};
use seamwright_tests::published::{Source, computed};
use serde_json::Value;

const EXACT: Tolerance = Tolerance::relative(1e-9);

/// What computed the figures of a case, and what to call one of them.
fn reference(case: &Value) -> (Source<'static>, impl Fn(&str) -> String) {
    let kind = case["job"]["shape"]["kind"].as_str().unwrap_or("none");
    let by = match kind {
        "profile" => "shapely",
        "drum" => "the library fluids 1.3.1",
        _ => "scipy's half-space intersection and trimesh",
    };
    let all = format!("Reference tanks, each {kind}");
    (computed(by), move |what: &str| format!("{all}: {what}"))
}

fn check(case: &Value) -> Outcome {
    let tank = Tank::build(&cases::draft(case)?)?;
    let (reference, figure) = reference(case);
    let body = tank.body();
    let number = |value: &Value| value.as_f64().ok_or("not a number");

    if !case["outside_volume_mm3"].is_null() {
        reference.near(
            &figure("outside volume, mm³"),
            body.outside.volume().si() * 1e9,
            number(&case["outside_volume_mm3"])?,
            tolerance(case),
        )?;
    }
    reference.near(
        &figure("inside volume, mm³"),
        body.inside.volume().si() * 1e9,
        number(&case["inside_volume_mm3"])?,
        tolerance(case),
    )?;
    let centroid = body.inside.centroid();
    let has_centroid = !case["inside_centroid_mm"].is_null();
    for (axis, got) in [centroid.x, centroid.y, centroid.z]
        .into_iter()
        .enumerate()
        .filter(|_| has_centroid)
    {
        reference.near(
            &figure("centre of the inside, mm"),
            got * 1e3,
            number(&case["inside_centroid_mm"][axis])?,
            EXACT,
        )?;
    }

    rounded(case, &tank)?;
    fills(case, &tank)?;
    if case["faces"].is_null() {
        // The reference of the round shapes has volumes and lengths, no faces.
        return Ok(());
    }

    let names: Vec<String> = body
        .outside
        .faces()
        .map(|view| view.face().to_string())
        .collect();
    let expected: Vec<&str> = case["faces"]
        .as_array()
        .ok_or("no faces")?
        .iter()
        .filter_map(Value::as_str)
        .collect();
    if names != expected {
        return Err(format!("faces: got {names:?}, expected {expected:?}").into());
    }
    for (view, area) in body
        .outside
        .faces()
        .zip(case["outside_area_mm2"].as_array().ok_or("no areas")?)
    {
        reference.near(
            &figure("area of a face, mm²"),
            view.area().si() * 1e6,
            number(area)?,
            EXACT,
        )?;
    }

    let edges = case["edges"].as_array().ok_or("no edges")?;
    if body.outside.edges().count() != edges.len() {
        return Err(format!(
            "{} edges, expected {}",
            body.outside.edges().count(),
            edges.len()
        )
        .into());
    }
    for (got, expected) in body.outside.edges().zip(edges) {
        let faces = got.faces.map(|face| face.to_string());
        if expected["faces"] != serde_json::json!(faces) {
            return Err(format!("edge {faces:?} where {} was expected", expected["faces"]).into());
        }
        reference.near(
            &figure("length of an edge, mm"),
            got.length().si() * 1e3,
            number(&expected["length_mm"])?,
            EXACT,
        )?;
        let degrees = got.dihedral.in_unit(AngleUnit::Degree);
        reference.near(
            &figure("dihedral angle, °"),
            degrees,
            number(&expected["dihedral_deg"])?,
            EXACT,
        )?;
    }

    Ok(())
}

/// The length of a profile's outline and the area of its ends.
fn rounded(case: &Value, tank: &Tank) -> Outcome {
    let (reference, figure) = reference(case);
    let Some(outline) = case["outline_length_mm"].as_f64() else {
        return Ok(());
    };
    let outside = &tank.body().outside;
    let around: f64 = outside
        .edges()
        .filter(|edge| edge.faces.contains(&Face::Front))
        .map(|edge| edge.length().si())
        .sum();
    reference.near(
        &figure("length of the outline, mm"),
        around * 1e3,
        outline,
        tolerance(case),
    )?;
    let end = outside.face(Face::Front).ok_or("no front")?.area().si();
    let expected = case["end_area_mm2"].as_f64().ok_or("no end area")?;
    reference.near(
        &figure("area of an end, mm²"),
        end * 1e6,
        expected,
        tolerance(case),
    )?;
    Ok(())
}

fn fills(case: &Value, tank: &Tank) -> Outcome {
    let (reference, figure) = reference(case);
    let number = |value: &Value| value.as_f64().ok_or("not a number");
    for fill in case["fills"].as_array().ok_or("no fills")? {
        let angle = |key: &str| -> Result<Angle, &str> {
            Ok(Angle::new(number(&fill[key])?, AngleUnit::Degree))
        };
        let pool = tank.pool(Lean::new(angle("pitch_deg")?, angle("roll_deg")?)?);
        let depth = Length::from_metres(number(&fill["depth_mm"])? / 1e3);
        let level = pool.at(depth)?;
        reference.near(
            &figure("volume at a depth and a lean, mm³"),
            level.volume.si() * 1e9,
            number(&fill["volume_mm3"])?,
            tolerance(case),
        )?;
        let back = pool.depth_for(level.volume)?;
        near(
            "depth from volume",
            back.si(),
            depth.si(),
            Tolerance::relative(1e-9),
        )?;
    }
    Ok(())
}

#[test]
pub(super) fn every_reference_tank_comes_out() -> Outcome {
    let mut wrong = Vec::new();
    for case in cases::all()? {
        if let Err(error) = check(&case) {
            wrong.push(format!("{}: {error}", case["name"]));
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
    Ok(())
}
