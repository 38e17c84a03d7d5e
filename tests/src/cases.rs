//! The reference tanks of `data/geometry/geometry.json`: bodies whose volumes, areas, edges and fills
//! were computed by scipy's half-space intersection and trimesh, apart from this project.

use std::fmt::Write as _;
use std::path::PathBuf;

use seamwright_core::body::{Block, Cut, Sized};
use seamwright_core::job::{ArcDraft, Draft, FillDraft, JointsDraft, Name, StockDraft, WeldDraft};
use seamwright_core::quantity::Length;
use serde_json::Value;

/// A file under `tests/data`.
#[must_use]
pub fn data(path: &str) -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR"))
        .join("data")
        .join(path)
}

/// Every case whose shape is a block.
///
/// # Errors
/// What is wrong with the data file.
pub fn blocks() -> Result<Vec<Value>, Box<dyn std::error::Error>> {
    let text = std::fs::read_to_string(data("geometry/geometry.json"))?;
    let all: Value = serde_json::from_str(&text)?;
    let cases = all["cases"].as_array().ok_or("no cases")?;
    let blocks: Vec<_> = cases
        .iter()
        .filter(|case| case["job"]["shape"]["kind"] == "block")
        .cloned()
        .collect();
    if blocks.len() < 20 {
        return Err(format!(
            "only {} block cases: the data file is not whole",
            blocks.len()
        )
        .into());
    }
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
    let (shape, stock) = (&case["job"]["shape"], &case["job"]["stock"]);
    let text = |value: &Value| value.as_str().map(str::to_owned).ok_or("not a string");
    let length = |value: &Value| -> Result<Length, Box<dyn std::error::Error>> {
        Ok(Length::parse(&text(value)?)?)
    };
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
    let sized = if shape["sized"] == "inside" {
        Sized::Inside
    } else {
        Sized::Outside
    };
    Ok(Draft {
        name: Name::try_from(text(&case["name"])?.as_str()).map_err(|_| "the name is too long")?,
        shape: Block {
            sized,
            length: length(&shape["length"])?,
            width: length(&shape["width"])?,
            height: length(&shape["height"])?,
            cuts,
        },
        stock: StockDraft {
            alloy: text(&stock["alloy"])?.parse()?,
            temper: Some(text(&stock["temper"])?.parse()?),
            thickness: length(&stock["thickness"])?,
            faces: heapless::Vec::new(),
        },
        joints: JointsDraft::default(),
        fill: FillDraft::default(),
        arc: ArcDraft::default(),
        weld: WeldDraft::default(),
    })
}
