//! A baffle that nothing holds is a NO before all else.

use std::fs;

use crate::support::{run, told};
use serde_json::Value;

/// The sump of a parts washer with one baffle.
fn washer(free: &str) -> String {
    format!(
        "name = \"Washer sump\"\n[shape]\nkind = \"block\"\nlength = \"500 mm\"\nwidth = \"400 mm\"\nheight = \"300 mm\"\n[stock]\nalloy = \"5754\"\nthickness = \"2 mm\"\n[[baffle]]\nacross = \"length\"\nat = \"250 mm\"\nfree = [{free}]\n[[baffle.hole]]\nat = [\"200 mm\", \"150 mm\"]\ndiameter = \"60 mm\"\n"
    )
}

fn plan(job: &str) -> (String, Value) {
    let folder = tempfile::tempdir().unwrap();
    fs::write(folder.path().join("washer.toml"), job).unwrap();
    let good = |arguments: &[&str]| {
        let output = run(folder.path(), arguments);
        assert!(output.status.success(), "{}", told(&output));
        String::from_utf8(output.stdout).unwrap()
    };
    let text = good(&["plan", "washer.toml"]);
    let object = good(&["plan", "washer.toml", "--json"]);
    (text, serde_json::from_str(&object).unwrap())
}

#[test]
fn it_is_told_first() {
    let (text, object) = plan(&washer("\"top\", \"bottom\", \"front\", \"back\""));
    let lines: Vec<&str> = text.lines().filter(|line| !line.is_empty()).collect();
    assert_eq!(lines[2], "Verdict", "{text}");
    assert!(lines[3].contains("NO: nothing holds baffle 1"), "{text}");
    assert_eq!(object["verdict"]["says"], "NO");
    assert_eq!(object["verdict"]["code"], "baffle-loose");
    assert_eq!(object["verdict"]["loose_baffles"], serde_json::json!([1]));
    let order = text.split("Order of the stitches").nth(1).unwrap();
    assert!(
        order.trim_start().starts_with("NO: not to be built so."),
        "{order}"
    );

    let (text, object) = plan(&washer("\"top\""));
    assert!(!text.contains("NO: "), "{text}");
    assert_eq!(object["verdict"], Value::Null);
}
