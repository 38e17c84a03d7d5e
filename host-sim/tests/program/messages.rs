//! Every family of message about a job file, as the program prints it. The accepted texts are in
//! `snapshots/`; whoever changes one reads it as the person would who has to mend the file.

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
    check("process", &with_table("[arc]\nprocess = \"mig\""));
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
fn cuts_that_do_not_read() {
    check(
        "cut-two-ways",
        &with_cut("edge = \"top back\"\nlegs = [\"20 mm\", \"20 mm\"]\nnormal = [0, 1, 1]"),
    );
    check("cut-no-way", &with_cut("legs = [\"20 mm\", \"20 mm\"]"));
    check(
        "cut-mixed",
        &with_cut(
            "edge = \"top back\"\nlegs = [\"20 mm\", \"20 mm\"]\nthrough = [\"0 mm\", \"0 mm\", \"0 mm\"]",
        ),
    );
    check(
        "cut-one-leg",
        &with_cut("edge = \"top back\"\nlegs = [\"20 mm\"]"),
    );
    check(
        "cut-three-legs-for-an-edge",
        &with_cut("edge = \"top back\"\nlegs = [\"20 mm\", \"20 mm\", \"20 mm\"]"),
    );
    check(
        "cut-two-legs-for-a-corner",
        &with_cut("corner = \"right back top\"\nlegs = [\"20 mm\", \"20 mm\"]"),
    );
    check("cut-no-legs", &with_cut("edge = \"top back\""));
    check("cut-no-point", &with_cut("normal = [0, 1, 1]"));
    check(
        "cut-legs-as-text",
        &with_cut("edge = \"top back\"\nlegs = \"20 mm\""),
    );
    check(
        "cut-normal-with-units",
        &with_cut(
            "normal = [\"0 mm\", \"1 mm\", \"1 mm\"]\nthrough = [\"0 mm\", \"140 mm\", \"160 mm\"]",
        ),
    );
    check(
        "cut-normal-not-finite",
        &with_cut("normal = [0, inf, 1]\nthrough = [\"0 mm\", \"140 mm\", \"160 mm\"]"),
    );
    check(
        "cut-face-unknown",
        &with_cut("edge = \"top rear\"\nlegs = [\"20 mm\", \"20 mm\"]"),
    );
    check(
        "cut-face-near",
        &with_cut("edge = \"top bakc\"\nlegs = [\"20 mm\", \"20 mm\"]"),
    );
    check(
        "cut-one-face",
        &with_cut("edge = \"top\"\nlegs = [\"20 mm\", \"20 mm\"]"),
    );
    let nine = "\n[[shape.cut]]\nedge = \"top back\"\nlegs = [\"1 mm\", \"1 mm\"]\n".repeat(9);
    check("nine-cuts", &with_shape(&nine));
}

#[test]
fn cuts_that_make_no_tank() {
    check(
        "cut-no-edge",
        &with_cut("edge = \"left right\"\nlegs = [\"20 mm\", \"20 mm\"]"),
    );
    check(
        "cut-no-corner",
        &with_cut("corner = \"left right top\"\nlegs = [\"20 mm\", \"20 mm\", \"20 mm\"]"),
    );
    check(
        "cut-no-direction",
        &with_cut("normal = [0, 0, 0]\nthrough = [\"0 mm\", \"140 mm\", \"160 mm\"]"),
    );
    check(
        "cut-removes-nothing",
        &with_cut("normal = [0, 0, 1]\nthrough = [\"0 mm\", \"0 mm\", \"200 mm\"]"),
    );
    check(
        "cut-removes-nothing-more",
        &with_cut(
            "edge = \"top back\"\nlegs = [\"60 mm\", \"60 mm\"]\n\n[[shape.cut]]\nedge = \"top back\"\nlegs = [\"40 mm\", \"40 mm\"]",
        ),
    );
    check(
        "cut-removes-all",
        &with_cut("normal = [0, 0, -1]\nthrough = [\"0 mm\", \"0 mm\", \"200 mm\"]"),
    );
    check(
        "cut-removes-all-by-legs",
        &with_cut("edge = \"top back\"\nlegs = [\"2 m\", \"2 m\"]"),
    );
    check(
        "cut-swallowed",
        &with_cut(
            "edge = \"top back\"\nlegs = [\"20 mm\", \"20 mm\"]\n\n[[shape.cut]]\nedge = \"top back\"\nlegs = [\"60 mm\", \"60 mm\"]",
        ),
    );
    check(
        "cut-sheet-fills",
        &with_cut("normal = [0, 0, 1]\nthrough = [\"0 mm\", \"0 mm\", \"3 mm\"]"),
    );
}

#[test]
fn faces_and_sheets() {
    check("face-unknown", &with_table("[stock.faces]\nlid = \"3 mm\""));
    check(
        "face-of-no-cut",
        &with_table("[stock.faces]\n\"cut 1\" = \"3 mm\""),
    );
    check(
        "face-ninth-cut",
        &with_table("[stock.faces]\n\"cut 9\" = \"3 mm\""),
    );
    check("face-unknown-of-a-cut-block", &{
        with_cut("edge = \"top back\"\nlegs = [\"20 mm\", \"20 mm\"]")
            + "\n[stock.faces]\nlid = \"3 mm\"\n"
    });
    let outline = with_outline(&corners(&[[0, 0], [300, 0], [0, 200]]));
    check(
        "face-unknown-of-a-profile",
        &format!("{outline}\n[stock.faces]\nlid = \"3 mm\"\n"),
    );
    check(
        "face-unknown-of-a-drum",
        &format!(
            "{NAME}\n[shape]\nkind = \"drum\"\naxis = \"upright\"\ndiameter = \"200 mm\"\nlength = \"300 mm\"\nends = \"flat\"\n{STOCK}\n[[fitting]]\nname = \"vent\"\nface = \"side\"\nat = [\"80 mm\", \"60 mm\"]\nbore = \"8 mm\"\n"
        ),
    );
    check("sheet-eats-inside", &replaced("\"160 mm\"", "\"4 mm\""));
    check(
        "face-sheet-too-thick",
        &with_table("[stock.faces]\nbottom = \"26 mm\""),
    );
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
        &with_table("[weld]\nstitch_max = \"10 mm\""),
    );
    check(
        "too-many-stitches-by-default",
        &replaced("\"320 mm\"", "\"20 m\""),
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

fn with_ratings(name: &str, ratings: &[&str]) -> String {
    let all: String = ratings
        .iter()
        .map(|rating| format!("\n[[arc.{name}]]\n{rating}\n"))
        .collect();
    with_table(&all)
}

#[test]
fn ratings_and_waves() {
    check("torch-as-text", &with_table("[arc]\ntorch = \"150 A\""));
    let rising = [
        "current = \"150 A\"\nduty = \"60 %\"",
        "current = \"200 A\"\nduty = \"80 %\"",
    ];
    check("ratings-that-rise", &with_ratings("power_source", &rising));
    check(
        "rating-without-duty",
        &with_ratings("torch", &["current = \"150 A\""]),
    );
    check(
        "rating-past-all-the-time",
        &with_ratings("torch", &["current = \"150 A\"\nduty = \"120 %\""]),
    );
    let five: Vec<String> = (1..=5)
        .map(|n| format!("current = \"{}0 A\"\nduty = \"{} %\"", 10 + n, 90 - 10 * n))
        .collect();
    let five: Vec<&str> = five.iter().map(String::as_str).collect();
    check("five-ratings", &with_ratings("power_source", &five));
    check(
        "balance-of-direct-current",
        &with_table("[arc]\nprocess = \"tig dc\"\nbalance = \"70 %\""),
    );
    check(
        "frequency-without-balance",
        &with_table("[arc]\nfrequency = \"120 Hz\""),
    );
    check(
        "half-a-wave",
        &with_table(
            "[arc]\nbalance = \"70 %\"\n\n[arc.negative]\ncurrent = \"90 A\"\nvoltage = \"12 V\"",
        ),
    );
    check(
        "frequency-without-unit",
        &with_table("[arc]\nbalance = \"70 %\"\nfrequency = 120"),
    );
    check(
        "frequency-in-another-unit",
        &with_table("[arc]\nbalance = \"70 %\"\nfrequency = \"0.12 kHz\""),
    );
}

#[test]
fn supplies_that_do_not_read() {
    let supply = |lines: &str| with_table(&format!("[supply]\n{lines}"));
    check("filler-unknown", &supply("filler = \"5365\""));
    check("flow-with-a-comma", &supply("gas_flow = \"8,5 L/min\""));
    check("flow-too-large", &supply("gas_flow = \"500 L/min\""));
    check("flow-without-a-number", &supply("gas_flow = \"some\""));
    check(
        "stub-of-the-whole-rod",
        &supply("rod_length = \"300 mm\"\nstub = \"300 mm\""),
    );
    check(
        "pressure-of-no-cylinder",
        &supply("cylinder_pressure = \"200 bar\""),
    );
    check(
        "shrinkage-of-no-allowance",
        &with_table("[weld]\nshrink_by = \"0.8 mm\""),
    );
    check(
        "shrinkage-too-large",
        &with_table("[weld]\nshrink_allowance = \"yes\"\nshrink_by = \"8 cm\""),
    );
    check(
        "shrinkage-into-itself",
        &with_table(
            "[joints]\nfolds = [\"bottom front\", \"bottom back\", \"bottom left\", \"bottom right\"]\nbend_radius = \"2 mm\"\n\n\
             [weld]\nshrink_allowance = \"yes\"\nshrink_by = \"10 mm\"",
        ),
    );
    check(
        "prices-without-currency",
        &supply("\n[supply.prices]\nfiller = 38"),
    );
    check(
        "price-below-zero",
        &supply("\n[supply.prices]\ncurrency = \"GBP\"\nlabour = -35"),
    );
    check(
        "price-as-text",
        &supply("\n[supply.prices]\ncurrency = \"GBP\"\nlabour = \"35 GBP\""),
    );
    check(
        "currency-too-long",
        &supply("\n[supply.prices]\ncurrency = \"pounds sterling\""),
    );
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

/// A profile of these points, every one in a line of its own.
fn with_outline(points: &str) -> String {
    format!(
        "{NAME}\n[shape]\nkind = \"profile\"\nwidth = \"180 mm\"\noutline = [\n{points}]\n{STOCK}"
    )
}
/// Points with no radius, in millimetres.
fn corners(points: &[[i32; 2]]) -> String {
    points
        .iter()
        .map(|[x, z]| format!("    [\"{x} mm\", \"{z} mm\"],\n"))
        .collect()
}

#[test]
fn outlines_that_make_no_tank() {
    check(
        "outline-crosses-itself",
        &with_outline(&corners(&[[0, 0], [300, 200], [300, 0], [0, 200]])),
    );
    check(
        "outline-on-one-line",
        &with_outline(&corners(&[[0, 0], [150, 0], [300, 0], [300, 200]])),
    );
    check(
        "outline-thirteen-points",
        &with_outline(&corners(
            &[0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11].map(|n| [n * 30, n * n * 3]),
        ))
        .replacen(
            "outline = [\n",
            "outline = [\n    [\"0 mm\", \"400 mm\"],\n",
            1,
        ),
    );
    check(
        "outline-two-points",
        &with_outline(&corners(&[[0, 0], [300, 200]])),
    );
    let rounded = |radius: &str| {
        with_outline(&format!(
            "    [\"0 mm\", \"0 mm\"],\n    [\"300 mm\", \"0 mm\", {radius}],\n{}",
            corners(&[[300, 200], [0, 200]])
        ))
    };
    check("outline-radius-too-large", &rounded("\"r 250 mm\""));
    check("outline-radius-in-the-sheet", &rounded("\"r 1 mm\""));
    check("outline-radius-without-r", &rounded("\"25 mm\""));
    check("outline-bare-radius", &rounded("25"));
    check(
        "outline-bare-number",
        &with_outline(
            "    [0, \"0 mm\"],\n    [\"300 mm\", \"0 mm\"],\n    [\"0 mm\", \"200 mm\"],\n",
        ),
    );
    check(
        "outline-point-of-one",
        &with_outline(
            "    [\"0 mm\"],\n    [\"300 mm\", \"0 mm\"],\n    [\"0 mm\", \"200 mm\"],\n",
        ),
    );
}

#[test]
fn keys_of_another_kind_of_body() {
    check("key-of-another-kind", &with_shape("diameter = \"200 mm\""));
    check(
        "drum-with-a-width",
        &format!(
            "{NAME}{}\n{STOCK}",
            SHAPE.replacen("\"block\"", "\"drum\"", 1)
        ),
    );
    check(
        "crown-of-flat-ends",
        &format!(
            "{NAME}\n[shape]\nkind = \"drum\"\naxis = \"upright\"\ndiameter = \"200 mm\"\nlength = \"300 mm\"\nends = \"flat\"\ncrown = \"200 mm\"\n{STOCK}"
        ),
    );
    check(
        "crown-without-ends",
        &format!(
            "{NAME}\n[shape]\nkind = \"drum\"\naxis = \"upright\"\ndiameter = \"200 mm\"\nlength = \"300 mm\"\ncrown = \"200 mm\"\n{STOCK}"
        ),
    );
}

#[test]
fn joints_and_folds() {
    check(
        "folds-close-a-ring",
        &with_table(
            "[joints]\nfolds = [\"bottom left\", \"bottom right\", \"top left\", \"top right\"]",
        ),
    );
    check(
        "butt-on-a-corner",
        &with_table("[joints.edges]\n\"front top\" = \"butt\""),
    );
    check(
        "butt-on-every-corner",
        &with_table("[joints]\ndefault = \"butt\""),
    );
    check(
        "edge-of-faces-that-do-not-meet",
        &with_table("[joints.edges]\n\"left right\" = \"closed corner\""),
    );
    check(
        "edge-of-no-face",
        &with_table("[joints.edges]\n\"front lid\" = \"closed corner\""),
    );
    // Their names in files written before these were the trade's.
    check(
        "joint-by-its-old-name",
        &with_table("[joints]\ndefault = \"half lap\""),
    );
    check(
        "edge-joint-by-its-old-name",
        &with_table("[joints.edges]\n\"front top\" = \"full lap\""),
    );
    check(
        "fold-of-no-edge",
        &with_table("[joints]\nfolds = [\"bottom front\", \"top bottom\"]"),
    );
    check(
        "fold-with-a-joint",
        &with_table(
            "[joints]\nfolds = [\"bottom front\"]\n\n[joints.edges]\n\"front bottom\" = \"closed corner\"",
        ),
    );
    check(
        "fold-of-two-sheets",
        &with_table("[stock.faces]\nbottom = \"3 mm\"\n\n[joints]\nfolds = [\"bottom front\"]"),
    );
}

#[test]
fn fittings_and_baffles() {
    let fitting = |face: &str, at: &str| {
        with_table(&format!(
            "[[fitting]]\nname = \"filler neck\"\nface = \"{face}\"\nat = {at}\nbore = \"38 mm\""
        ))
    };
    check(
        "fitting-over-the-edge",
        &fitting("top", "[\"10 mm\", \"60 mm\"]"),
    );
    check(
        "fitting-off-the-face",
        &fitting("top", "[\"400 mm\", \"60 mm\"]"),
    );
    check(
        "fitting-on-no-face",
        &fitting("cut 1", "[\"80 mm\", \"60 mm\"]"),
    );
    check(
        "fittings-on-each-other",
        &format!(
            "{}\n[[fitting]]\nname = \"vent\"\nface = \"top\"\nat = [\"100 mm\", \"60 mm\"]\nbore = \"8 mm\"\n",
            fitting("top", "[\"80 mm\", \"60 mm\"]")
        ),
    );
    check(
        "fitting-without-a-bore",
        &fitting("top", "[\"80 mm\", \"60 mm\"]").replacen("bore = \"38 mm\"\n", "", 1),
    );
    let baffle = |at: &str| with_table(&format!("[[baffle]]\nacross = \"length\"\nat = {at}"));
    check("baffle-outside", &baffle("\"400 mm\""));
    check("baffle-in-the-sheet", &baffle("\"1 mm\""));
    check(
        "baffle-hole-outside",
        &format!(
            "{}\n[[baffle.hole]]\nat = [\"170 mm\", \"40 mm\"]\ndiameter = \"30 mm\"\n",
            baffle("\"150 mm\"")
        ),
    );
    // The key that the problem tells of has the carets, not the head of its table.
    check(
        "fitting-of-nothing",
        &fitting("top", "[\"80 mm\", \"60 mm\"]").replacen("38 mm", "0 mm", 1),
    );
    check(
        "fitting-with-its-outer-over-the-edge",
        &format!(
            "{}\nouter = \"130 mm\"\n",
            fitting("top", "[\"80 mm\", \"60 mm\"]")
        ),
    );
    check(
        "fitting-at-too-far",
        &fitting("top", "[\"80 mm\", \"60 m\"]"),
    );
    check(
        "fitting-over-a-bend",
        &format!(
            "{}\n[joints]\nfolds = [\"top front\"]\nbend_radius = \"4 mm\"\n",
            fitting("top", "[\"80 mm\", \"23 mm\"]")
        ),
    );
    let hole = |at: &str, diameter: &str| {
        format!(
            "{}\n[[baffle.hole]]\nat = [\"60 mm\", \"40 mm\"]\ndiameter = \"20 mm\"\n\n[[baffle.hole]]\nat = {at}\ndiameter = {diameter}\n",
            baffle("\"150 mm\"")
        )
    };
    check(
        "baffle-second-hole-outside",
        &hole("[\"170 mm\", \"40 mm\"]", "\"30 mm\""),
    );
    check(
        "baffle-hole-of-nothing",
        &hole("[\"120 mm\", \"40 mm\"]", "\"0 mm\""),
    );
    let drum = |table: &str| {
        format!(
            "{NAME}\n[shape]\nkind = \"drum\"\naxis = \"lying\"\ndiameter = \"200 mm\"\nlength = \"300 mm\"\nends = \"ellipsoidal 2:1\"\n{STOCK}\n{table}\n"
        )
    };
    check(
        "baffle-along-a-drum",
        &drum("[[baffle]]\nacross = \"height\"\nat = \"100 mm\""),
    );
    check(
        "baffle-in-a-dished-end",
        &drum("[[baffle]]\nacross = \"length\"\nat = \"20 mm\""),
    );
    check(
        "fitting-off-the-centre-of-an-end",
        &drum(
            "[[fitting]]\nname = \"drain\"\nface = \"right\"\nat = [\"80 mm\", \"100 mm\"]\nbore = \"20 mm\"",
        ),
    );
    check(
        "rod-over-no-liquid",
        &with_table("[fill]\ndip_at = [\"400 mm\", \"90 mm\"]"),
    );
}

#[test]
fn a_wall_that_thinner_sheets_close_over() {
    let job = "name = \"Shallow cut\"\n\n[shape]\nkind = \"block\"\nsized = \"inside\"\nlength = \"116 mm\"\nwidth = \"32 mm\"\n\
               height = \"73 mm\"\n\n[[shape.cut]]\nedge = \"front left\"\nlegs = [\"41.5 mm\", \"1.9 mm\"]\n\n\
               [stock]\nalloy = \"6063\"\nthickness = \"0.9 mm\"\n\n[stock.faces]\nfront = \"4.6 mm\"\n";
    check("a_wall_closed_over", job);
}

#[test]
fn a_fitting_beside_a_corner_of_its_face_is_off_it() {
    // Past two edges at once, and past the tip of a slant: beside the run of every edge that it is past.
    let cut = with_cut(
        "edge = \"top back\"\nlegs = [\"20 mm\", \"20 mm\"]\n\n[[shape.cut]]\ncorner = \"right front top\"\nlegs = [\"300 mm\", \"120 mm\", \"60 mm\"]",
    );
    let fitting = |at: &str| {
        format!("{cut}\n[[fitting]]\nname = \"vent\"\nface = \"top\"\nat = {at}\nbore = \"8 mm\"\n")
    };
    check(
        "fitting-beside-a-corner",
        &fitting("[\"360 mm\", \"190 mm\"]"),
    );
    check(
        "fitting-beside-a-slant",
        &fitting("[\"310 mm\", \"20 mm\"]"),
    );
}
