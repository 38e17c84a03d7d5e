//! The reference tanks through the built program: a job file in, `plan --json` and `fill --json` out,
//! against the figures that scipy's half-space intersection and trimesh computed apart from this project.

use std::io::Write as _;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};

use seamwright_tests::cases::{self, tolerance};
use seamwright_tests::near::{Tolerance, near};
use serde_json::{Value, json};

type Result<T> = std::result::Result<T, Box<dyn std::error::Error>>;

/// Depths, level and leaning, over all of them.
const FILLS: usize = 390;

const EXACT: Tolerance = Tolerance::relative(1e-9);

/// The program that `tests/all.sh` names: the one that `cargo test --workspace` builds before it runs any
/// test, so never an older one.
fn program() -> Result<PathBuf> {
    let named = std::env::var_os("SEAMWRIGHT_BIN")
        .ok_or("SEAMWRIGHT_BIN names no program: run the tests by tests/all.sh")?;
    let path = PathBuf::from(named);
    if path.is_file() {
        Ok(path)
    } else {
        Err(format!(
            "SEAMWRIGHT_BIN names {}, which is not a file",
            path.display()
        )
        .into())
    }
}

/// Runs it on a job file given on standard input and reads the one object that it prints.
fn answer(program: &Path, arguments: &[String], job: &str) -> Result<Value> {
    let mut child = Command::new(program)
        .args(arguments)
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()?;
    child
        .stdin
        .take()
        .ok_or("no standard input")?
        .write_all(job.as_bytes())?;
    let output = child.wait_with_output()?;
    if !output.status.success() || !output.stderr.is_empty() {
        return Err(format!(
            "{arguments:?}: {}\n{}",
            output.status,
            String::from_utf8_lossy(&output.stderr)
        )
        .into());
    }
    Ok(serde_json::from_slice(&output.stdout)?)
}

fn number(value: &Value) -> Result<f64> {
    value
        .as_f64()
        .ok_or_else(|| format!("{value} is not a number").into())
}

fn list(value: &Value) -> Result<&Vec<Value>> {
    value
        .as_array()
        .ok_or_else(|| format!("{value} is not a list").into())
}

fn point(value: &Value) -> Result<[f64; 3]> {
    let coordinates = list(value)?
        .iter()
        .map(number)
        .collect::<Result<Vec<f64>>>()?;
    coordinates
        .try_into()
        .map_err(|_| "a point has three coordinates".into())
}

/// A plane of the outside body in metres, from the job's own words: outward normal and a point. The reference
/// blocks are all sized outside, so that their planes are the tank's own.
fn plane(case: &Value, face: &str) -> Result<([f64; 3], [f64; 3])> {
    let shape = &case["job"]["shape"];
    if shape["sized"] != "outside" {
        return Err("this check knows the planes of tanks sized outside only".into());
    }
    let metres = |value: &Value| -> Result<f64> {
        let text = value
            .as_str()
            .and_then(|text| text.strip_suffix(" mm"))
            .ok_or("not in mm")?;
        Ok(text.parse::<f64>()? / 1e3)
    };
    if shape["kind"] == "taper" {
        return taper_plane(shape, face, &metres);
    }
    let [x, y, z] = [
        metres(&shape["length"])?,
        metres(&shape["width"])?,
        metres(&shape["height"])?,
    ];
    Ok(match face {
        "left" => ([-1.0, 0.0, 0.0], [0.0; 3]),
        "right" => ([1.0, 0.0, 0.0], [x, 0.0, 0.0]),
        "front" => ([0.0, -1.0, 0.0], [0.0; 3]),
        "back" => ([0.0, 1.0, 0.0], [0.0, y, 0.0]),
        "bottom" => ([0.0, 0.0, -1.0], [0.0; 3]),
        "top" => ([0.0, 0.0, 1.0], [0.0, 0.0, z]),
        cut => {
            let place: usize = cut.strip_prefix("cut ").ok_or("an unknown face")?.parse()?;
            let cut = &shape["cut"][place - 1];
            let normal = point(&cut["normal"])?;
            let length = normal.iter().map(|n| n * n).sum::<f64>().sqrt();
            let through = [
                metres(&cut["through"][0])?,
                metres(&cut["through"][1])?,
                metres(&cut["through"][2])?,
            ];
            (normal.map(|n| n / length), through)
        }
    })
}

/// The same for a taper: a wall leans by what its top stands off its base.
fn taper_plane(
    shape: &Value,
    face: &str,
    metres: &dyn Fn(&Value) -> Result<f64>,
) -> Result<([f64; 3], [f64; 3])> {
    let height = metres(&shape["height"])?;
    let (axis, far) = match face {
        "left" => (0, false),
        "right" => (0, true),
        "front" => (1, false),
        "back" => (1, true),
        "bottom" => return Ok(([0.0, 0.0, -1.0], [0.0; 3])),
        "top" => return Ok(([0.0, 0.0, 1.0], [0.0, 0.0, height])),
        other => return Err(format!("a taper has no {other}").into()),
    };
    let base = metres(&shape["base"][axis])?;
    let top = metres(&shape["top"][axis])?;
    let shift = metres(&shape["shift"][axis])?;
    let near_top = 0.5 * (base - top) + shift;
    let (low, high, sense) = if far {
        (base, near_top + top, 1.0)
    } else {
        (0.0, near_top, -1.0)
    };
    let lean = (high - low) / height;
    let length = (1.0 + lean * lean).sqrt();
    let (mut normal, mut point) = ([0.0; 3], [0.0; 3]);
    normal[axis] = sense / length;
    normal[2] = -sense * lean / length;
    point[axis] = low;
    Ok((normal, point))
}

fn check_plan(case: &Value, plan: &Value) -> Result<()> {
    let body = &plan["body"];
    near(
        "outside volume",
        number(&body["outside_m3"])? * 1e9,
        number(&case["outside_volume_mm3"])?,
        EXACT,
    )?;
    for (what, value) in [
        ("inside volume", &body["inside_m3"]),
        ("brim", &plan["capacity"]["brim_m3"]),
    ] {
        near(
            what,
            number(value)? * 1e9,
            number(&case["inside_volume_mm3"])?,
            EXACT,
        )?;
    }
    let centroid = point(&body["inside_centroid_m"])?;
    for (got, expected) in centroid
        .into_iter()
        .zip(point(&case["inside_centroid_mm"])?)
    {
        near("inside centroid", got * 1e3, expected, EXACT)?;
    }

    let panels = list(&plan["panels"])?;
    let names: Vec<&Value> = panels.iter().map(|panel| &panel["face"]).collect();
    if json!(names) != case["faces"] {
        return Err(format!("faces {names:?}, expected {}", case["faces"]).into());
    }
    let mut whole = 0.0;
    for (panel, area) in panels.iter().zip(list(&case["outside_area_mm2"])?) {
        near(
            &format!("area of {}", panel["face"]),
            number(&panel["outside_area_m2"])? * 1e6,
            number(area)?,
            EXACT,
        )?;
        whole += number(area)?;
    }
    near(
        "sheet area",
        number(&body["sheet_area_m2"])? * 1e6,
        whole,
        EXACT,
    )?;

    let (seams, edges) = (list(&plan["seams"])?, list(&case["edges"])?);
    if seams.len() != edges.len() {
        return Err(format!("{} seams, expected {}", seams.len(), edges.len()).into());
    }
    let size = list(&plan["seams"])?
        .iter()
        .flat_map(|seam| list(&seam["ends_m"]))
        .flatten();
    let size = size
        .map(point)
        .collect::<Result<Vec<_>>>()?
        .into_iter()
        .flatten()
        .fold(0.0, f64::max);
    let mut seam_length = 0.0;
    for (seam, edge) in seams.iter().zip(edges) {
        let name = seam["between"].to_string();
        if seam["between"] != edge["faces"] {
            return Err(format!("seam {name} where {} was expected", edge["faces"]).into());
        }
        let length = number(&seam["length_m"])? * 1e3;
        near(
            &format!("length of {name}"),
            length,
            number(&edge["length_mm"])?,
            EXACT,
        )?;
        seam_length += length;
        near(
            &format!("angle of {name}"),
            number(&seam["dihedral_deg"])?,
            number(&edge["dihedral_deg"])?,
            EXACT,
        )?;
        let ends = [point(&seam["ends_m"][0])?, point(&seam["ends_m"][1])?];
        let apart = (0..3)
            .map(|axis| (ends[1][axis] - ends[0][axis]).powi(2))
            .sum::<f64>()
            .sqrt();
        near(&format!("ends of {name}"), apart * 1e3, length, EXACT)?;
        for face in list(&seam["between"])? {
            let (normal, through) = plane(case, face.as_str().ok_or("a face is a name")?)?;
            for end in ends {
                let off: f64 = (0..3)
                    .map(|axis| normal[axis] * (end[axis] - through[axis]))
                    .sum();
                let tolerance = Tolerance {
                    relative: 0.0,
                    absolute: 1e-9 * size,
                };
                near(
                    &format!("end of {name} off the plane of {face}"),
                    off,
                    0.0,
                    tolerance,
                )?;
            }
        }
    }
    near(
        "all seams",
        number(&plan["totals"]["seam_m"])? * 1e3,
        seam_length,
        EXACT,
    )?;
    Ok(())
}

/// The figures of a round body: volumes; of a profile also the outline that the front's seams follow.
fn check_round(case: &Value, plan: &Value) -> Result<()> {
    for (key, value) in [
        ("outside_volume_mm3", &plan["body"]["outside_m3"]),
        ("inside_volume_mm3", &plan["body"]["inside_m3"]),
        ("inside_volume_mm3", &plan["capacity"]["brim_m3"]),
    ] {
        if !case[key].is_null() {
            near(
                key,
                number(value)? * 1e9,
                number(&case[key])?,
                tolerance(case),
            )?;
        }
    }
    if !case["outline_length_mm"].is_null() {
        let mut around = 0.0;
        for seam in list(&plan["seams"])? {
            if list(&seam["between"])?.iter().any(|face| face == "front") {
                around += number(&seam["length_m"])?;
            }
        }
        near(
            "outline",
            around * 1e3,
            number(&case["outline_length_mm"])?,
            tolerance(case),
        )?;
        let front = &list(&plan["panels"])?[0];
        near(
            "end",
            number(&front["outside_area_m2"])? * 1e6,
            number(&case["end_area_mm2"])?,
            tolerance(case),
        )?;
    }
    Ok(())
}

fn check(program: &Path, case: &Value) -> Result<usize> {
    let job = cases::job_file(case)?;
    let plan = answer(program, &["plan", "-", "--json"].map(str::to_owned), &job)?;
    if case["faces"].is_null() {
        check_round(case, &plan)?;
    } else {
        check_plan(case, &plan)?;
    }
    let near_enough = tolerance(case);
    let fills = list(&case["fills"])?;
    for fill in fills {
        let depth = number(&fill["depth_mm"])?;
        let mut arguments = vec![
            "fill".to_owned(),
            "-".to_owned(),
            "--json".to_owned(),
            format!("--depth={depth:?} mm"),
        ];
        for (option, key) in [("pitch", "pitch_deg"), ("roll", "roll_deg")] {
            arguments.push(format!("--{option}={} deg", number(&fill[key])?));
        }
        let got = answer(program, &arguments, &job)?;
        let volume = number(&got["volume_m3"])?;
        near(
            &format!("fill {fill}"),
            volume * 1e9,
            number(&fill["volume_mm3"])?,
            near_enough,
        )?;
        near("depth", number(&got["depth_m"])? * 1e3, depth, EXACT)?;
        let brim = number(&case["inside_volume_mm3"])?;
        near("brim", number(&got["brim_m3"])? * 1e9, brim, near_enough)?;
        near(
            "fraction",
            number(&got["fraction"])?,
            number(&fill["volume_mm3"])? / brim,
            near_enough,
        )?;
    }
    Ok(fills.len())
}

#[test]
fn every_reference_tank_comes_out_of_the_program() {
    let program = program().unwrap();
    let cases = cases::all().unwrap();
    let (mut wrong, mut fills) = (Vec::new(), 0);
    for case in &cases {
        match check(&program, case) {
            Ok(checked) => fills += checked,
            Err(error) => wrong.push(format!("{}: {error}", case["name"])),
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
    assert_eq!((cases.len(), fills), (cases::CASES, FILLS));
}
