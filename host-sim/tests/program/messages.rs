//! Every family of message about a job file, as the program prints it. The accepted texts are in
//! `snapshots/`; whoever changes one reads it as the person would who has to mend the file.

mod parts;
mod shapes;
mod supplies;

use std::fs;

use crate::support::{EXAMPLES, NAME, SHAPE, STOCK, example_text, run, told, trimmed};

/// Plans a job given as bytes and compares all that the program says with the snapshot.
fn check_bytes(name: &str, job: &[u8]) {
    let folder = tempfile::tempdir().unwrap();
    fs::write(folder.path().join("tank.toml"), job).unwrap();
    let output = run(folder.path(), &["plan", "tank.toml"]);
    let told = trimmed(&told(&output));
    assert!(told.starts_with("exit 2\nstderr:\n"), "{name}: {told}");
    assert!(!told.contains('\u{1b}'), "{name}: colour in a pipe");
    // Line and column are told, and there is a caret under the place.
    assert!(
        told.contains("--> tank.toml:") && told.contains('^'),
        "{name}: {told}"
    );
    insta::assert_snapshot!(name, told);
}

fn check(name: &str, job: &str) {
    check_bytes(name, job.as_bytes());
}

/// The job with one line more in `[shape]`, `[stock]` or below all.
fn with_shape(line: &str) -> String {
    format!("{NAME}{SHAPE}{line}\n{STOCK}")
}

fn with_cut(cut: &str) -> String {
    with_shape(&format!("\n[[shape.cut]]\n{cut}"))
}

fn with_stock(line: &str) -> String {
    format!("{NAME}{SHAPE}{STOCK}{line}\n")
}

fn with_table(table: &str) -> String {
    with_stock(&format!("\n{table}"))
}

fn replaced(from: &str, to: &str) -> String {
    let job = with_stock("");
    let spoilt = job.replacen(from, to, 1);
    assert_ne!(job, spoilt, "nothing to replace");
    spoilt
}

#[test]
fn the_job_that_these_tests_spoil_plans() {
    let folder = tempfile::tempdir().unwrap();
    fs::write(folder.path().join("tank.toml"), with_stock("")).unwrap();
    let output = run(folder.path(), &["plan", "tank.toml"]);
    assert!(output.status.success(), "{}", told(&output));
}

#[test]
fn quantities_that_do_not_read() {
    check("bare-number", &replaced("\"320 mm\"", "320"));
    check("bare-decimal", &replaced("\"2 mm\"", "2.5"));
    check("number-without-unit", &replaced("\"320 mm\"", "\"320\""));
    check("wrong-unit", &replaced("\"320 mm\"", "\"320 A\""));
    check("unknown-unit", &replaced("\"320 mm\"", "\"320 mn\""));
    check("far-unit", &replaced("\"320 mm\"", "\"320 cubits\""));
    check("decimal-comma", &replaced("\"320 mm\"", "\"320,5 mm\""));
    check("thousands-comma", &replaced("\"320 mm\"", "\"1,320 mm\""));
    check(
        "ambiguous-gallon",
        &with_table("[fill]\ntarget = \"1.4 gal\""),
    );
    check("no-number", &replaced("\"320 mm\"", "\"about a foot\""));
    check("empty-quantity", &replaced("\"320 mm\"", "\"\""));
    check(
        "fraction-of-millimetres",
        &replaced("\"320 mm\"", "\"320 1/2 mm\""),
    );
    check(
        "fraction-too-large",
        &replaced("\"320 mm\"", "\"12 9/8 in\""),
    );
    check("list-for-quantity", &replaced("\"320 mm\"", "[\"320 mm\"]"));
    check("true-for-quantity", &replaced("\"320 mm\"", "true"));
    check(
        "celsius-for-volume",
        &with_table("[fill]\ntarget = \"65 °C\""),
    );
}

#[test]
fn keys_and_tables() {
    check("unknown-key-near", &replaced("length", "lenght"));
    check("unknown-key-far", &with_shape("colour = \"red\""));
    check("key-of-another-table", &with_shape("thickness = \"2 mm\""));
    check(
        "unknown-key-at-top",
        &format!("colour = \"red\"\n{}", with_stock("")),
    );
    check("unknown-table", &with_table("[solder]\nrod = \"2 mm\""));
    check(
        "unknown-table-near",
        &with_table("[wled]\nstitch_max = \"80 mm\""),
    );
    check("missing-key", &replaced("width = \"180 mm\"\n", ""));
    check("missing-table", &format!("{NAME}{SHAPE}"));
    check("empty-file", "");
    check("duplicate-key", &with_shape("length = \"300 mm\""));
    check("table-twice", &with_table("[stock]\nalloy = \"5052\""));
    check(
        "table-that-is-text",
        &with_table("").replacen(NAME, &format!("{NAME}arc = \"85 A\"\n"), 1),
    );
    check(
        "list-that-is-a-table",
        &with_shape("\n[shape.cut]\nedge = \"top back\""),
    );
}

#[test]
fn text_that_is_not_toml() {
    check("no-quotes", &replaced("\"320 mm\"", "320 mm"));
    check("word-without-quotes", &replaced("\"block\"", "block"));
    check("open-quote", &replaced("\"320 mm\"", "\"320 mm"));
    check(
        "inch-sign-in-quotes",
        &replaced("\"320 mm\"", "\"12 5/8\"\""),
    );
    check("no-value", &replaced("\"320 mm\"", ""));
    check(
        "no-equals",
        &replaced("length = \"320 mm\"", "length \"320 mm\""),
    );
    check("open-table", &replaced("[shape]", "[shape"));
    check_bytes("not-utf8", b"name = \"Tank\"\n[weld]\n# warm: 60 \xB0C\n");
    check_bytes("utf16", b"\xFF\xFEn\0a\0m\0e\0");
}

#[test]
fn words_of_a_list() {
    check("kind-unknown", &replaced("\"block\"", "\"box\""));
    check("kind-near", &replaced("\"block\"", "\"blok\""));
    check("sized", &with_shape("sized = \"inner\""));
    check("alloy", &replaced("\"5754\"", "\"5745\""));
    check("temper", &with_stock("temper = \"H23\""));
    check("joint", &with_table("[joints]\ndefault = \"lap\""));
    check("process", &with_table("[arc]\nprocess = \"mma\""));
    check(
        "target-of",
        &with_table("[fill]\ntarget = \"5 L\"\ntarget_of = \"useable\""),
    );
    check(
        "target-of-nothing",
        &with_table("[fill]\ntarget_of = \"fill\""),
    );
    check("word-that-is-a-number", &replaced("\"5754\"", "5754"));
}

#[test]
fn figures_out_of_range() {
    check("length-too-small", &replaced("\"320 mm\"", "\"0.5 mm\""));
    check("length-too-large", &replaced("\"320 mm\"", "\"320 m\""));
    check(
        "length-too-large-in-inches",
        &replaced("\"320 mm\"", "\"100 ft\""),
    );
    check("length-negative", &replaced("\"320 mm\"", "\"-320 mm\""));
    check("thickness-too-thick", &replaced("\"2 mm\"", "\"2 in\""));
    check(
        "leg-zero",
        &with_cut("edge = \"top back\"\nlegs = [\"20 mm\", \"0 mm\"]"),
    );
    check(
        "through-too-far",
        &with_cut("normal = [0, 1, 1]\nthrough = [\"0 mm\", \"140 m\", \"160 mm\"]"),
    );
    check(
        "headspace-too-large",
        &with_table("[fill]\nheadspace = \"95 %\""),
    );
    check(
        "pick-up-above-fill-mark",
        &with_table("[fill]\npick_up = \"155 mm\""),
    );
    check(
        "dip-step-too-fine",
        &with_table("[fill]\ndip_step = \"0.1 mm\""),
    );
    check(
        "dip-volume-zero",
        &with_table("[fill]\ndip_volume = \"0 L\""),
    );
    check(
        "dip-volume-too-fine",
        &with_table("[fill]\ndip_volume = \"2 mL\""),
    );
    check(
        "current-too-large",
        &with_table("[arc]\ncurrent = \"900 A\""),
    );
    check(
        "voltage-too-small",
        &with_table("[arc]\nvoltage = \"1.4 V\""),
    );
    check(
        "travel-too-fast",
        &with_table("[arc]\ntravel = \"190 mm/s\""),
    );
    check(
        "efficiency-over-one",
        &with_table("[arc]\nefficiency = \"120 %\""),
    );
    check(
        "too-many-stitches",
        &with_table("[weld]\nstitch_max = \"2 mm\""),
    );
    check(
        "too-many-stitches-by-default",
        &replaced("\"320 mm\"", "\"20 m\"").replace("\"180 mm\"", "\"2 m\""),
    );
    check(
        "too-many-tacks",
        &replaced("\"320 mm\"", "\"12 m\"").replace(
            STOCK,
            &format!("{STOCK}\n[weld]\nstitch_max = \"10 m\"\ntack_pitch = \"1 mm\"\n"),
        ),
    );
    check("no-starting-current", &replaced("\"2 mm\"", "\"0.4 mm\""));
    check(
        "no-starting-travel",
        &format!(
            "{}\n[arc]\ncurrent = \"20 A\"\n",
            replaced("\"2 mm\"", "\"12 mm\"")
        ),
    );
}

#[test]
fn names() {
    check("name-missing", &with_stock("").replacen(NAME, "", 1));
    check("name-empty", &replaced("Test tank", ""));
    check("name-blank", &replaced("Test tank", "   "));
    check("name-too-long", &replaced("Test tank", &"long ".repeat(14)));
    check("name-with-tab", &replaced("Test tank", "Test\\ttank"));
    check("name-that-is-a-number", &replaced("\"Test tank\"", "7"));
}

#[test]
fn several_problems_in_one_file() {
    let job = with_shape("colour = \"red\"")
        .replacen("\"320 mm\"", "320", 1)
        .replacen("\"160 mm\"", "\"16 gal\"", 1)
        .replacen("\"5754\"", "\"5745\"", 1)
        + "\n[fill]\npick_up = \"12,5 mm\"\nliquid = \"oil\"\n\n[arc]\nproces = \"tig ac\"\n";
    check("several-problems", &job);
    let many: String = (0..30).map(|n| format!("key{n:02} = 1\n")).collect();
    check("very-many-problems", &format!("{many}{}", with_stock("")));
}

#[test]
fn every_example_spoilt_in_one_place_is_told_at_that_line() {
    for name in EXAMPLES {
        let text = example_text(name);
        for (number, line) in (1..).zip(text.lines()) {
            // Every quantity of the examples, its unit taken away.
            let Some((key, value)) = line.split_once(" = \"").filter(|(_, value)| {
                value.starts_with(|sign: char| sign.is_ascii_digit()) && value.contains(' ')
            }) else {
                continue;
            };
            let Some((quantity, rest)) = value.split_once('"') else {
                continue;
            };
            let Some((figure, _)) = quantity.rsplit_once(' ') else {
                continue;
            };
            let spoilt = text.replacen(line, &format!("{key} = \"{figure}\"{rest}"), 1);
            let folder = tempfile::tempdir().unwrap();
            fs::write(folder.path().join("tank.toml"), spoilt).unwrap();
            let told = told(&run(folder.path(), &["plan", "tank.toml"]));
            let column = format!("{key} = \"{figure}").chars().count() + 1;
            assert!(told.starts_with("exit 2\n"), "{name}:{number}: {told}");
            assert!(
                told.contains(&format!("tank.toml:{number}:")),
                "{name}:{number}:{column}: {told}"
            );
        }
    }
}
