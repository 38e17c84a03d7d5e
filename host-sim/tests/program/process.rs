//! MIG, MAG and flux-cored wire, argon behind seams and coated sheet, from job file to report, JSON and job sheet.

use std::fs;

use crate::support::{NAME, SHAPE, near, number, run, told};
use serde_json::Value;

const STEEL: &str = "\n[stock]\nalloy = \"S235JR\"\nthickness = \"1.6 mm\"\n";
const MAG: &str = "\n[arc]\nprocess = \"mag\"\ncurrent = \"100 A\"\ntravel = \"900 mm/min\"\nwire = \"0.8 mm\"\n\
    wire_feed = \"5 m/min\"\n\n[supply]\nspool = \"5 kg\"\nwaste = \"0 %\"\n";

/// The plan of a job as text and as JSON, and its sheet.
fn asked(job: &str) -> (String, Value, String) {
    let folder = tempfile::tempdir().unwrap();
    fs::write(folder.path().join("bin.toml"), job).unwrap();
    let good = |arguments: &[&str]| {
        let output = run(folder.path(), arguments);
        assert!(output.status.success(), "{}", told(&output));
        String::from_utf8(output.stdout).unwrap()
    };
    let text = good(&["plan", "bin.toml"]);
    let object = serde_json::from_str(&good(&["plan", "bin.toml", "--json"])).unwrap();
    good(&["sheet", "bin.toml", "--out", "cut"]);
    let page = fs::read_to_string(folder.path().join("cut/job.html")).unwrap();
    (text, object, page)
}

fn codes(object: &Value) -> Vec<&str> {
    let notices = object["notices"].as_array().unwrap();
    notices
        .iter()
        .map(|one| one["code"].as_str().unwrap())
        .collect()
}

/// IEC 60974-1 (from memory): 14 V + 0.05 V/A; EN 1011-1, table 1: 0.8; 5 m/min of 0.8 mm wire at 900 mm/min, 95 % of it.
#[test]
fn a_mag_job_from_file_to_sheet() {
    let (text, object, page) = asked(&format!("{NAME}{SHAPE}{STEEL}{MAG}"));
    let arc = &object["arc"];
    assert_eq!(
        (&arc["process"], &arc["process_iso_4063"]),
        (&"mag".into(), &135.into())
    );
    near("volts", number(&arc["voltage_v"]), 19.0, 1e-12);
    near(
        "heat input",
        number(&arc["heat_input_j_m"]),
        0.8 * 1_900.0 / 0.015,
        1e-9,
    );
    let wire = &object["wire"];
    let section = 0.25 * std::f64::consts::PI * 0.64e-6;
    near(
        "fills",
        number(&wire["fills_m2"]),
        section * 0.95 * 5.0 / 0.9,
        1e-9,
    );
    assert_eq!(wire["gas"], "M21");
    assert_eq!(wire["transfer"], "short-circuiting");
    assert_eq!(wire["published"].as_array().unwrap().len(), 2);
    let totals = &object["supply"]["totals"];
    // As long as the arc burns wire comes, whatever the beads want.
    let fed = 5.0 / 60.0 * number(&totals["arc_s"]);
    near("wire", number(&totals["wire_m"]), fed, 1e-9);
    near(
        "used",
        number(&totals["wire_with_waste_kg"]),
        fed * section * 7_850.0,
        1e-9,
    );
    let amounts = &object["supply"]["amounts"];
    near(
        "billed",
        number(&amounts["filler_kg"]),
        fed * section * 7_850.0,
        1e-9,
    );
    assert_eq!(totals["spools"], 1);
    assert_eq!(totals.get("rods"), None);
    let settings = &object["settings"]["by_joint"][0];
    assert!(settings.get("tungsten_m").is_none() && settings.get("wire_m").is_some());
    assert!(number(&settings["current_a"]["apart"]["by"]) > 0.3);
    assert_eq!(object["filler"]["ranked"][0]["en_iso"][0], "EN ISO 14341-A");
    assert_eq!(object.get("verdict"), None);
    for words in [
        "Wire and gas",
        "mag (135 of ISO 4063)",
        "carbon equivalent",
        "sources differ by",
    ] {
        assert!(text.contains(words), "{words}\n{text}");
    }
    assert!(page.contains("Wire and gas") && page.contains("EN ISO 14341-A"));
}

/// Active gas on aluminium, cored wire on aluminium, and zinc under the arc are answered with NO before all else.
#[test]
fn what_must_not_be_welded_is_told_first() {
    let aluminium = "\n[stock]\nalloy = \"5754\"\nthickness = \"3 mm\"\n";
    for (stock, arc, code) in [
        (aluminium, "process = \"mag\"", "process-not-for-metal"),
        (
            aluminium,
            "process = \"flux-cored\"",
            "process-not-for-metal",
        ),
        (
            aluminium,
            "process = \"mig\"\ngas = \"M21\"",
            "gas-not-for-job",
        ),
        (
            "\n[stock]\nalloy = \"DC01\"\nthickness = \"1.6 mm\"\ncoating = \"galvanised\"\n",
            "process = \"tig dc\"",
            "coated-sheet",
        ),
    ] {
        let (text, object, page) = asked(&format!("{NAME}{SHAPE}{stock}\n[arc]\n{arc}\n"));
        let lines: Vec<&str> = text.lines().filter(|line| !line.is_empty()).collect();
        assert_eq!(lines[2], "Verdict", "{text}");
        assert!(lines[3].contains("NO: "), "{text}");
        assert_eq!(object["verdict"]["says"], "NO");
        assert_eq!(object["verdict"]["code"], code, "{arc}");
        assert!(codes(&object).contains(&code));
        let [no, first] = ["NO: ", "Cautions"].map(|word| page.find(word).unwrap());
        assert!(no < first);
        let order = text.split("Order of the stitches").nth(1).unwrap();
        assert!(
            order.trim_start().starts_with("NO: not to be welded so."),
            "{order}"
        );
    }
    // With the zinc off it may be welded, with its caution.
    let ground = "\n[stock]\nalloy = \"DC01\"\nthickness = \"1.6 mm\"\ncoating = \"galvanised\"\ncoating_removed = \"60 mm\"\n";
    let (text, object, _) = asked(&format!("{NAME}{SHAPE}{ground}"));
    assert_eq!(object.get("verdict"), None);
    assert!(codes(&object).contains(&"coating-off") && text.contains("907 °C"));
}

/// Argon behind the seams: its gas and time are in the bill; the difference that the table makes is what it tells.
#[test]
fn a_purge_goes_into_the_bill() {
    let stock = "\n[stock]\nalloy = \"304L\"\nthickness = \"1.5 mm\"\n";
    let fittings = "\n[[fitting]]\nname = \"drain\"\nface = \"front\"\nat = [\"60 mm\", \"30 mm\"]\nbore = \"12 mm\"\n\
        \n[[fitting]]\nname = \"neck\"\nface = \"top\"\nat = [\"160 mm\", \"90 mm\"]\nbore = \"40 mm\"\n";
    let prices = "\n[supply.prices]\ncurrency = \"EUR\"\ngas = 10\nlabour = 36\n";
    let job = format!("{NAME}{SHAPE}{stock}{fittings}{prices}");
    let (text, plain, _) = asked(&job);
    assert!(codes(&plain).contains(&"no-purge") && !text.contains("Back purge"));
    let purged = format!("{job}\n[purge]\nflow = \"10 L/min\"\noxygen = \"0.05 %\"\n");
    let (text, object, page) = asked(&purged);
    let purge = &object["purge"];
    let litres = 1e3 * number(&purge["volume_m3"]);
    let changes = (20.95_f64 / 0.05).ln();
    near("changes", number(&purge["changes"]), changes, 1e-9);
    near(
        "time",
        number(&purge["time_s"]),
        changes * litres / 10.0 * 60.0,
        1e-9,
    );
    let amounts = |object: &Value, key: &str| number(&object["supply"]["amounts"][key]);
    let gas = amounts(&object, "gas_m3") - amounts(&plain, "gas_m3");
    near("gas", gas, number(&purge["gas_m3"]), 1e-9);
    let labour = amounts(&object, "labour_s") - amounts(&plain, "labour_s");
    near("labour", labour, number(&purge["time_s"]), 1e-6);
    assert_eq!(purge["compartments"][0]["inlet"], "drain");
    assert_eq!(purge["compartments"][0]["outlet"], "neck");
    assert!(codes(&object).contains(&"purge-needs-vent") && !codes(&object).contains(&"no-purge"));
    assert!(text.contains("ASTM A380 and A967") && page.contains("Back purge"));
}

/// Keys of one process in a job of another are refused, with a way out.
#[test]
fn keys_go_with_their_process() {
    let folder = tempfile::tempdir().unwrap();
    for (more, says) in [
        (
            "[arc]\nwire = \"1.0 mm\"\n",
            "`arc.wire` goes with a wire that is the electrode",
        ),
        (
            "[arc]\nprocess = \"mag\"\ntungsten = \"2.4 mm\"\n",
            "`arc.tungsten` goes with a tungsten and its rod",
        ),
        (
            "[arc]\nprocess = \"mig\"\n[supply]\nrod_length = \"1 m\"\n",
            "`supply.rod_length` goes with a tungsten and its rod",
        ),
        (
            "[arc]\nprocess = \"mig\"\nbalance = \"70 %\"\n",
            "and the process is mig",
        ),
        (
            "[purge]\noxygen = \"21 %\"\n",
            "`purge.oxygen` is too large",
        ),
    ] {
        let job = format!("{NAME}{SHAPE}{STEEL}\n{more}");
        fs::write(folder.path().join("bin.toml"), job).unwrap();
        let output = run(folder.path(), &["plan", "bin.toml"]);
        assert_eq!(output.status.code(), Some(2));
        let text = String::from_utf8(output.stderr).unwrap();
        assert!(text.contains(says), "{says}\n{text}");
    }
    let bare = format!("{NAME}{SHAPE}{STEEL}coating_removed = \"50 mm\"\n");
    fs::write(folder.path().join("bin.toml"), bare).unwrap();
    let output = run(folder.path(), &["plan", "bin.toml"]);
    let text = String::from_utf8(output.stderr).unwrap();
    assert!(
        text.contains("`stock.coating_removed` is of no coating"),
        "{text}"
    );
}
