//! Strength, leak test, balance, cautions and pours, as the program tells them, against published worked
//! examples and hand geometry; the source stands beside each check.

mod dangers;
mod leak;
mod mass;
mod pours;
mod seams;
mod strength;
mod words;

use seamwright::diagnostics::Source;
use seamwright::job_file::JobFile;
use seamwright_core::tank::Tank;
use serde_json::Value;

use crate::support::{near, number, seamwright, told};

/// Standard gravity, m/s²: 3rd CGPM, 1901.
const G: f64 = 9.806_65;

/// What the program answers to a job on its standard input.
fn answer(job: &str, arguments: &[&str]) -> String {
    let output = seamwright(arguments).write_stdin(job).output().unwrap();
    assert!(output.status.success(), "{}", told(&output));
    assert!(output.stderr.is_empty(), "{}", told(&output));
    String::from_utf8(output.stdout).unwrap()
}

fn object(job: &str, arguments: &[&str]) -> Value {
    serde_json::from_str(&answer(job, arguments)).unwrap()
}

fn plan(job: &str) -> Value {
    object(job, &["plan", "-", "--json"])
}

fn tank(job: &str) -> Tank {
    let source = Source {
        name: "job".to_owned(),
        text: job.to_owned(),
    };
    JobFile::read(source).unwrap().tank(|_| ()).unwrap()
}

/// A block of a steel of which E is 210 `GPa` and ν is 0.3 (EN 1993-1-1, 3.2.6).
fn steel(length: f64, width: f64, height: f64, thickness: f64, more: &str) -> String {
    format!(
        "name = \"T\"\n[shape]\nkind = \"block\"\nsized = \"outside\"\nlength = \"{length} mm\"\nwidth = \"{width} mm\"\n\
         height = \"{height} mm\"\n[stock]\nalloy = \"low-carbon steel\"\nthickness = \"{thickness} mm\"\n{more}"
    )
}

fn face<'a>(plan: &'a Value, name: &str) -> &'a Value {
    let panels = plan["proof"]["panels"].as_array().unwrap();
    panels.iter().find(|panel| panel["face"] == name).unwrap()
}
