//! Running the program as a user does.

use std::path::{Path, PathBuf};
use std::process::Output;

use assert_cmd::Command;
use serde_json::Value;

/// The example job files.
pub(crate) const EXAMPLES: [&str; 3] = ["header-tank", "log-splitter-reservoir", "rinse-tank"];

/// A job that plans, table by table, for tests to spoil.
pub(crate) const NAME: &str = "name = \"Test tank\"\n";
pub(crate) const SHAPE: &str =
    "\n[shape]\nkind = \"block\"\nlength = \"320 mm\"\nwidth = \"180 mm\"\nheight = \"160 mm\"\n";
pub(crate) const STOCK: &str = "\n[stock]\nalloy = \"5754\"\nthickness = \"2 mm\"\n";

/// The path of an example.
pub(crate) fn example(name: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join(format!("examples/{name}.toml"))
}

/// The text of an example.
pub(crate) fn example_text(name: &str) -> String {
    std::fs::read_to_string(example(name)).unwrap()
}

/// The program, with no terminal and no environment that changes what it prints.
pub(crate) fn seamwright(arguments: &[&str]) -> Command {
    let mut command = Command::new(assert_cmd::cargo::cargo_bin!("seamwright"));
    command.args(arguments).env_remove("NO_COLOR");
    command
}

/// Runs the program in `folder`.
pub(crate) fn run(folder: &Path, arguments: &[&str]) -> Output {
    seamwright(arguments).current_dir(folder).output().unwrap()
}

/// What the program prints, with nothing amiss.
pub(crate) fn good(arguments: &[&str]) -> String {
    let output = seamwright(arguments).output().unwrap();
    assert!(output.status.success(), "{}", told(&output));
    assert!(output.stderr.is_empty(), "{}", told(&output));
    String::from_utf8(output.stdout).unwrap()
}

/// A number of the program's JSON.
pub(crate) fn number(value: &Value) -> f64 {
    let number = value.as_f64();
    number.unwrap_or_else(|| panic!("{value} is no number"))
}

/// Insists that a figure is within a share of the one that is wanted.
pub(crate) fn near(what: &str, got: f64, want: f64, share: f64) {
    assert!(
        (got - want).abs() <= share * want.abs(),
        "{what}: got {got}, expected {want}"
    );
}

/// Exit status and both streams, for a snapshot.
pub(crate) fn told(output: &Output) -> String {
    let text = |bytes: &[u8]| String::from_utf8(bytes.to_vec()).unwrap();
    let (out, err) = (text(&output.stdout), text(&output.stderr));
    let code = output.status.code().unwrap();
    let mut told = format!("exit {code}\n");
    for (name, text) in [("stdout", out), ("stderr", err)] {
        if !text.is_empty() {
            told.push_str(&format!("{name}:\n{text}"));
        }
    }
    told
}

/// Every line of a text without the spaces at its end, which editors and Git may take away.
pub(crate) fn trimmed(text: &str) -> String {
    text.lines()
        .map(|line| format!("{}\n", line.trim_end()))
        .collect()
}
