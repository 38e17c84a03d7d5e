//! The reference tanks of `data/geometry/geometry.json`: bodies whose volumes, areas, edges and fills
//! were computed by scipy's half-space intersection and trimesh, apart from this project.

use std::fmt::Write as _;
use std::path::PathBuf;

use seamwright_core::input::{
    Axis, Block, Cut, Draft, Drum, Ends, Profile, ProfilePoint, Shape, Sized, StockDraft, Taper,
};
use seamwright_core::units::Length;
use serde_json::Value;

use crate::jobs;
use crate::near::Tolerance;

/// A file under `tests/data`.
#[must_use]
pub fn data(path: &str) -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR"))
        .join("data")
        .join(path)
}

/// Every case.
///
/// # Errors
/// What is wrong with the data file.
pub fn all() -> Result<Vec<Value>, Box<dyn std::error::Error>> {
    let text = std::fs::read_to_string(data("geometry/geometry.json"))?;
    let all: Value = serde_json::from_str(&text)?;
    let cases = all["cases"].as_array().ok_or("no cases")?.clone();
    if cases.len() < CASES {
        return Err(format!("only {} cases: the data file is not whole", cases.len()).into());
    }
    Ok(cases)
}

/// Cases in the data file; a number of its own here, so that a file cut short is noticed.
pub const CASES: usize = 38;

/// Every case whose shape is a block.
///
/// # Errors
/// What is wrong with the data file.
pub fn blocks() -> Result<Vec<Value>, Box<dyn std::error::Error>> {
    let mut blocks = all()?;
    blocks.retain(|case| case["job"]["shape"]["kind"] == "block");
    Ok(blocks)
}

/// The job of a case as a job file.
///
/// # Errors
/// What the case lacks.
pub fn job_file(case: &Value) -> Result<String, Box<dyn std::error::Error>> {
    // JSON's strings, numbers and lists are TOML's as well; only the tables differ.
    let mut text = String::new();
    writeln!(text, "name = {}", case["name"])?;
    for table in ["shape", "stock"] {
        writeln!(text, "[{table}]")?;
        for (key, value) in case["job"][table].as_object().ok_or("a table is missing")? {
            if key != "cut" {
                writeln!(text, "{key} = {value}")?;
            }
        }
        for cut in case["job"][table]["cut"].as_array().into_iter().flatten() {
            writeln!(text, "[[shape.cut]]")?;
            for (key, value) in cut.as_object().ok_or("a cut is no table")? {
                writeln!(text, "{key} = {value}")?;
            }
        }
    }
    Ok(text)
}

/// The job of a case as a draft, read without the job file's reader.
///
/// # Errors
/// What the case lacks.
pub fn draft(case: &Value) -> Result<Draft, Box<dyn std::error::Error>> {
    let stock = &case["job"]["stock"];
    let stock = StockDraft {
        alloy: text(&stock["alloy"])?.parse()?,
        temper: Some(text(&stock["temper"])?.parse()?),
        thickness: length(&stock["thickness"])?,
        faces: heapless::Vec::new(),
    };
    let name = text(&case["name"])?;
    Ok(jobs::bare(name, shape(&case["job"]["shape"])?, stock))
}

/// How near a case's figures are: 1e-9, but where polygons of many sides stood for the round ones.
#[must_use]
pub fn tolerance(case: &Value) -> Tolerance {
    Tolerance::relative(case["rel_tol"].as_f64().unwrap_or(1e-9))
}

fn text(value: &Value) -> Result<&str, &'static str> {
    value.as_str().ok_or("not a string")
}

fn length(value: &Value) -> Result<Length, Box<dyn std::error::Error>> {
    Ok(Length::parse(text(value)?)?)
}

fn pair(value: &Value) -> Result<[Length; 2], Box<dyn std::error::Error>> {
    Ok([length(&value[0])?, length(&value[1])?])
}

fn shape(shape: &Value) -> Result<Shape, Box<dyn std::error::Error>> {
    let sized = if shape["sized"] == "inside" {
        Sized::Inside
    } else {
        Sized::Outside
    };
    Ok(match text(&shape["kind"])? {
        "block" => Shape::Block(block(shape, sized)?),
        "taper" => Shape::Taper(Taper {
            sized,
            base: pair(&shape["base"])?,
            top: pair(&shape["top"])?,
            height: length(&shape["height"])?,
            shift: pair(&shape["shift"])?,
        }),
        "profile" => {
            let mut outline = heapless::Vec::new();
            for point in shape["outline"].as_array().ok_or("no outline")? {
                let radius = match point[2].as_str() {
                    Some(radius) => Length::parse(radius.trim_start_matches("r "))?,
                    None => Length::default(),
                };
                let [x, z] = pair(point)?;
                outline
                    .push(ProfilePoint { x, z, radius })
                    .map_err(|_| "more than twelve points")?;
            }
            Shape::Profile(Profile {
                sized,
                outline,
                width: length(&shape["width"])?,
            })
        }
        "drum" => Shape::Drum(Drum {
            sized,
            diameter: length(&shape["diameter"])?,
            length: length(&shape["length"])?,
            axis: if shape["axis"] == "lying" {
                Axis::Lying
            } else {
                Axis::Upright
            },
            ends: match text(&shape["ends"])? {
                "flat" => Ends::Flat,
                "hemispherical" => Ends::Hemispherical,
                "ellipsoidal 2:1" => Ends::Ellipsoidal,
                other => return Err(format!("no such ends: {other}").into()),
            },
        }),
        other => return Err(format!("no such kind: {other}").into()),
    })
}

fn block(shape: &Value, sized: Sized) -> Result<Block, Box<dyn std::error::Error>> {
    let mut cuts = heapless::Vec::new();
    for cut in shape["cut"].as_array().into_iter().flatten() {
        let mut normal = [0.0; 3];
        let mut through = [Length::default(); 3];
        for axis in 0..3 {
            normal[axis] = cut["normal"][axis].as_f64().ok_or("no normal")?;
            through[axis] = length(&cut["through"][axis])?;
        }
        cuts.push(Cut::Plane { normal, through })
            .map_err(|_| "more than eight cuts")?;
    }
    Ok(Block {
        sized,
        length: length(&shape["length"])?,
        width: length(&shape["width"])?,
        height: length(&shape["height"])?,
        cuts,
    })
}
