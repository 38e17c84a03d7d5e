//! Settings that burn through are told as NO before all else, and more heat is not planned as colder metal.

use std::fs;

use crate::support::{number, run, told};
use serde_json::Value;

/// A drip tray's sump of 1 mm stainless steel, for a boat's bilge, welded at 60 A. At 250 mm/min that is a published
/// set-up (national welding handbook (China), vol. 1, p. 150, carried on to 1 mm); at 130 mm/min nobody has published it.
fn sump(per_minute: u32) -> String {
    format!(
        "name = \"Bilge sump\"\n\n[shape]\nkind = \"block\"\nsized = \"inside\"\nlength = \"200 mm\"\nwidth = \"100 mm\"\nheight = \"100 mm\"\n\n[stock]\nalloy = \"304\"\nthickness = \"1 mm\"\n\n[arc]\ncurrent = \"60 A\"\ntravel = \"{per_minute} mm/min\"\n"
    )
}

/// The plan of a job as text and as JSON, and its sheet.
fn asked(job: &str) -> (String, Value, String) {
    let folder = tempfile::tempdir().unwrap();
    fs::write(folder.path().join("sump.toml"), job).unwrap();
    let good = |arguments: &[&str]| {
        let output = run(folder.path(), arguments);
        assert!(output.status.success(), "{}", told(&output));
        String::from_utf8(output.stdout).unwrap()
    };
    let text = good(&["plan", "sump.toml"]);
    let object = serde_json::from_str(&good(&["plan", "sump.toml", "--json"])).unwrap();
    good(&["sheet", "sump.toml", "--out", "cut"]);
    let pages = fs::read_dir(folder.path().join("cut")).unwrap();
    let page = pages
        .map(|entry| entry.unwrap().path())
        .find(|path| path.extension().is_some_and(|one| one == "html"))
        .unwrap();
    (text, object, fs::read_to_string(page).unwrap())
}

#[test]
fn what_burns_through_is_told_first() {
    let (text, object, page) = asked(&sump(130));
    // The name and its line, then the verdict.
    let lines: Vec<&str> = text.lines().filter(|line| !line.is_empty()).collect();
    assert_eq!(lines[2], "Verdict", "{text}");
    assert!(
        lines[3].contains("NO: 60 A at 130 mm/min burn through 1.0 mm"),
        "{text}"
    );
    let verdict = &object["verdict"];
    assert_eq!(verdict["says"], "NO");
    assert_eq!(verdict["code"], "burns-through");
    let [band, most] = ["molten_width_m", "molten_width_most_m"].map(|key| number(&verdict[key]));
    assert!(band > most && (most - 12.5e-3).abs() < 1e-9);
    let notices = object["notices"].as_array().unwrap();
    assert!(notices.iter().any(|one| one["code"] == "burns-through"));
    let [no, first] = ["NO: 60 A", "Cautions"].map(|word| page.find(word).unwrap());
    assert!(no < first);
    // And over the order itself.
    let order = text.split("Order of the stitches").nth(1).unwrap();
    assert!(
        order.trim_start().starts_with("NO: not to be welded so."),
        "{order}"
    );

    let (text, object, page) = asked(&sump(250));
    assert!(!text.contains("NO: ") && !page.contains("NO: "));
    assert_eq!(object["verdict"], Value::Null);
}

/// Half the speed is twice the heat for each metre: the metal is not cooler, and the job waits longer for it. Of the power
/// that the metal takes up, the same (`band`).
#[test]
fn more_heat_is_not_planned_as_colder_metal() {
    let [hot, cool] = [130, 250].map(|per_minute| {
        let folder = tempfile::tempdir().unwrap();
        fs::write(folder.path().join("sump.toml"), sump(per_minute)).unwrap();
        let output = run(folder.path(), &["plan", "sump.toml", "--json"]);
        serde_json::from_slice::<Value>(&output.stdout).unwrap()
    });
    let of = |plan: &Value, key: &str| number(&plan["welding"]["this_order"][key]);
    let hottest = "hottest_start_over_ambient_k";
    assert!(
        of(&hot, hottest) > 0.95 * of(&cool, hottest),
        "{} {}",
        of(&hot, hottest),
        of(&cool, hottest)
    );
    // The order that waits least is another at each speed, and may wait for nothing; seam by seam is one order.
    assert!(of(&hot, "wait_s") >= of(&cool, "wait_s"));
    let plain = |plan: &Value| number(&plan["welding"]["seam_by_seam"]["wait_s"]);
    assert!(plain(&hot) > plain(&cool));
    for plan in [&hot, &cool] {
        let band = plan["welding"]["band"].as_array().unwrap();
        let waits: Vec<f64> = band
            .iter()
            .map(|end| number(&end["order"]["wait_s"]))
            .collect();
        assert!(waits[0] <= waits[1], "{waits:?}");
    }
}
