//! Any bytes at all, and example job files spoilt in many ways: a tank with finite figures, or a
//! message that points into the file; never a panic.

use std::cell::Cell;
use std::fs;

use crate::support::{EXAMPLES, example_text};
use proptest::prelude::*;
use proptest::test_runner::TestRunner;
use seamwright::diagnostics::Source;
use seamwright::failure::Failure;
use seamwright::job_file::JobFile;
use seamwright::report::{self, Asked, Units};
use seamwright::welding;
use seamwright_core::capacity::Lean;
use seamwright_core::units::{Angle, AngleUnit, Length, Volume};
use serde_json::Value;

/// A failure that a person can act on: bad input, every place inside the text, the message whole.
fn check_failure(failure: &Failure) -> Result<(), TestCaseError> {
    prop_assert_eq!(failure.exit_code(), 2, "{}", failure);
    let Failure::Problems(report) = failure else {
        return Err(TestCaseError::fail(format!(
            "no place in the file: {failure}"
        )));
    };
    prop_assert!(!report.problems().is_empty());
    let text = &report.source().text;
    let lines = text.lines().count().max(1) + 1;
    for problem in report.problems() {
        let places = [
            Some(&problem.span),
            problem.related.as_ref().map(|(span, _)| span),
        ];
        for span in places.into_iter().flatten() {
            prop_assert!(
                text.get(span.clone()).is_some(),
                "{span:?} of {} bytes",
                text.len()
            );
            let (line, column) = report.position(span.start);
            prop_assert!((1..=lines).contains(&line) && column >= 1);
        }
        prop_assert!(!problem.title.trim().is_empty());
        prop_assert!(!problem.label.trim().is_empty(), "no label: {}", failure);
    }
    let plain = failure.render(false);
    prop_assert!(
        !plain
            .chars()
            .any(|sign| sign.is_ascii_control() && sign != '\n'),
        "{plain:?}"
    );
    prop_assert!(!failure.render(true).is_empty());
    Ok(())
}

/// JSON has no word for what is not a number, so such a figure would be `null`.
fn finite(value: &Value) -> bool {
    match value {
        Value::Null => false,
        Value::Array(list) => list.iter().all(finite),
        Value::Object(map) => map.values().all(finite),
        _ => true,
    }
}

/// Reads a text and computes what it says as far as it goes; true if a tank came out.
fn check(read: Result<JobFile, Failure>) -> Result<bool, TestCaseError> {
    let file = match read {
        Ok(file) => file,
        Err(failure) => return check_failure(&failure).map(|()| false),
    };
    let mut assumed = Vec::new();
    let tank = match file.tank(|one| assumed.push(one)) {
        Ok(tank) => tank,
        Err(failure) => return check_failure(&failure).map(|()| false),
    };
    let asked = Asked {
        left_free: &file.left_free,
        tank: &tank,
        assumed: &assumed,
        extras: &file.extras,
        welding: &welding::plan(&tank, &file.extras),
        search: None,
    };
    let plan = report::plan::json(&asked);
    prop_assert!(finite(&plan), "{plan}");
    for units in [Units::Metric, Units::Us, Units::Imperial] {
        let text = report::plan::text(&asked, units);
        // Below the name, which may be any words. So core prints what is no number, or past all scales.
        let figures: String = text.lines().skip(2).collect();
        for sign in ["no value", "1.8e19", "NaN"] {
            prop_assert!(!figures.contains(sign), "{sign} in {text}");
        }
    }
    let capacity = tank.capacity();
    let [brim, fill, usable] = [capacity.brim, capacity.fill, capacity.usable].map(Volume::si);
    prop_assert!(
        0.0 <= usable && usable <= fill && fill <= brim && brim > 0.0,
        "{usable} {fill} {brim}"
    );
    prop_assert!(brim < tank.body().outside.volume().si());
    let lean = Lean::new(
        Angle::new(7.0, AngleUnit::Degree),
        Angle::new(-11.0, AngleUnit::Degree),
    )
    .unwrap();
    let pool = tank.pool(lean);
    let level = pool
        .at(Length::from_metres(0.5 * pool.full_depth().si()))
        .unwrap();
    let filled = report::fill::section(&tank, lean, &level, Units::Metric);
    prop_assert!(finite(&report::render::json::object(&[filled])));
    Ok(true)
}

fn read(text: String) -> Result<JobFile, Failure> {
    JobFile::read(Source {
        name: "tank.toml".into(),
        text,
    })
}

/// Pieces that job files are made of, and that break them.
const PIECES: &[&str] = &[
    "\"",
    "'",
    "\"\"\"",
    "[",
    "]",
    "[[",
    "]]",
    "{",
    "}",
    "=",
    ",",
    ".",
    "#",
    "\n",
    "\\",
    "\\u0000",
    "\t",
    "\u{1b}[31m",
    "°",
    "½",
    "⅝",
    "é",
    "\u{feff}",
    "0",
    "-",
    "+",
    "1e308",
    "1e-308",
    "inf",
    "nan",
    "-0",
    "9999999999999999999999",
    "0x10",
    "true",
    "1979-05-27",
    " mm",
    " in",
    " ft",
    " m",
    " L",
    " gal",
    " US gal",
    " A",
    " V",
    " %",
    " mm/min",
    "name = \"x\"",
    "length = \"1 mm\"",
    "legs = [\"1 mm\", \"1 mm\"]",
    "edge = \"top back\"",
    "normal = [1, 1, 1]",
    "[[shape.cut]]\n",
    "[shape]\n",
    "[stock.faces]\n",
    "\"cut 8\" = \"9 mm\"\n",
    "[fill]\n",
    "[weld]\n",
    "shape.cut",
    "top",
    "bottom",
    "outside",
    "inside",
    "5052",
    "304",
    "300 mm",
    "0.3 mm",
    "20 m",
    "1e6 m",
    "12 5/8 in",
    "3' 2\"",
];

/// One way to spoil a text: where (in thousandths of its length), how much to take out, what to put in.
type Slip = (usize, usize, String);

fn slips() -> impl Strategy<Value = Vec<Slip>> {
    let piece = prop_oneof![
        4 => prop::sample::select(PIECES).prop_map(str::to_owned),
        2 => Just(String::new()),
        1 => "\\PC{0,6}",
        1 => any::<char>().prop_map(String::from),
    ];
    prop::collection::vec((0..1000_usize, 0..40_usize, piece), 1..5)
}

fn spoilt(text: &str, slips: &[Slip]) -> String {
    let mut text: Vec<char> = text.chars().collect();
    for (place, out, piece) in slips {
        let start = place * text.len() / 1000;
        let end = (start + out).min(text.len());
        text.splice(start..end, piece.chars());
    }
    text.into_iter().collect()
}

/// Figures put in the place of an example's own, in the order in which they stand.
fn refigured(text: &str, figures: &[f64]) -> String {
    let mut figures = figures.iter().cycle();
    let mut out = String::new();
    for line in text.lines() {
        let mut line = line.to_owned();
        for unit in [" mm", " in", " %", " L", " A", " V", " mm/min", " in/min"] {
            if let Some((key, value)) = line.clone().split_once(" = \"")
                && let Some((quantity, rest)) = value.split_once('"')
                && quantity.ends_with(unit)
            {
                let figure = figures.next().unwrap();
                line = format!("{key} = \"{figure}{unit}\"{rest}");
                break;
            }
        }
        out.push_str(&line);
        out.push('\n');
    }
    out
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 200, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn examples_with_slips_of_the_pen(name in prop::sample::select(&EXAMPLES[..]), slips in slips()) {
        check(read(spoilt(&example_text(name), &slips)))?;
    }

    #[test]
    fn examples_with_other_figures(
        name in prop::sample::select(&EXAMPLES[..]),
        figures in prop::collection::vec(prop_oneof![1.0..500.0_f64, 1e-3..1e5_f64, prop::num::f64::ANY.prop_filter("JSON-like", |f| f.is_finite())], 1..20),
    ) {
        check(read(refigured(&example_text(name), &figures)))?;
    }

    #[test]
    fn text_made_of_pieces(pieces in prop::collection::vec(prop::sample::select(PIECES), 0..60)) {
        check(read(pieces.concat()))?;
    }

    #[test]
    fn any_text(text in "\\PC{0,200}") {
        check(read(text))?;
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 100, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn any_bytes_in_a_file(bytes in prop::collection::vec(any::<u8>(), 0..400)) {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("tank.toml");
        fs::write(&path, bytes).unwrap();
        check(JobFile::open(path.to_str().unwrap()))?;
    }

    #[test]
    fn examples_with_bytes_changed(
        name in prop::sample::select(&EXAMPLES[..]),
        changes in prop::collection::vec((0..1000_usize, any::<u8>()), 1..4),
    ) {
        let mut bytes = example_text(name).into_bytes();
        let length = bytes.len();
        for (place, byte) in changes {
            bytes[place * length / 1000] = byte;
        }
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("tank.toml");
        fs::write(&path, bytes).unwrap();
        check(JobFile::open(path.to_str().unwrap()))?;
    }
}

/// Any cut that reads, on a box of about these sizes.
fn cut() -> impl Strategy<Value = String> {
    let face = prop::sample::select(&["front", "back", "left", "right", "bottom", "top"][..]);
    let leg = 1.0..400.0_f64;
    let coordinate = -50.0..600.0_f64;
    prop_oneof![
        ([face.clone(), face.clone()], [leg.clone(), leg.clone()]).prop_map(
            |([a, b], [p, q])| format!("edge = \"{a} {b}\"\nlegs = [\"{p} mm\", \"{q} mm\"]")
        ),
        (
            prop::sample::select(&["left", "right"][..]),
            prop::sample::select(&["front", "back"][..]),
            prop::sample::select(&["bottom", "top"][..]),
            [leg.clone(), leg.clone(), leg]
        )
            .prop_map(|(x, y, z, [p, q, r])| format!(
                "corner = \"{x} {y} {z}\"\nlegs = [\"{p} mm\", \"{q} mm\", \"{r} mm\"]"
            )),
        (
            [-1.0..1.0_f64, -1.0..1.0_f64, -1.0..1.0_f64],
            [coordinate.clone(), coordinate.clone(), coordinate]
        )
            .prop_map(|(n, [x, y, z])| format!(
                "normal = {n:?}\nthrough = [\"{x} mm\", \"{y} mm\", \"{z} mm\"]"
            )),
    ]
}

/// A job file that reads, and often makes a tank.
fn job() -> impl Strategy<Value = String> {
    (
        [50.0..600.0_f64, 50.0..600.0_f64, 50.0..600.0_f64],
        prop::bool::ANY,
        prop_oneof![2 => Just(Vec::new()), 3 => prop::collection::vec(cut(), 1..9)],
        0.3..12.0_f64,
        prop::sample::select(&["5754", "304L", "low-carbon steel"][..]),
        (0.0..90.0_f64, 0.0..20.0_f64, 1.0..100.0_f64),
        (20.0..400.0_f64, 10.0..300.0_f64),
    )
        .prop_map(|(size, inside, cuts, sheet, alloy, fill, weld)| {
            let [length, width, height] = size;
            let sized = if inside { "inside" } else { "outside" };
            let cuts: String = cuts.iter().map(|cut| format!("[[shape.cut]]\n{cut}\n")).collect();
            let ((headspace, pick_up, dip_step), (stitch, tack)) = (fill, weld);
            format!(
                "name = \"Any\"\n[shape]\nkind = \"block\"\nsized = \"{sized}\"\nlength = \"{length} mm\"\n\
                 width = \"{width} mm\"\nheight = \"{height} mm\"\n{cuts}[stock]\nalloy = \"{alloy}\"\n\
                 thickness = \"{sheet} mm\"\n[fill]\nheadspace = \"{headspace} %\"\npick_up = \"{pick_up} mm\"\n\
                 dip_step = \"{dip_step} mm\"\n[weld]\nstitch_max = \"{stitch} mm\"\ntack_pitch = \"{tack} mm\"\n"
            )
        })
}

#[test]
fn jobs_that_read_give_finite_figures() {
    const CASES: u32 = 300;
    let config = ProptestConfig {
        cases: CASES,
        failure_persistence: None,
        ..ProptestConfig::default()
    };
    let mut runner = TestRunner::new(config);
    let tanks = Cell::new(0_u32);
    runner
        .run(&job(), |text| {
            tanks.set(tanks.get() + u32::from(check(read(text))?));
            Ok(())
        })
        .unwrap();
    // Enough of each kind, so that neither half of the check stands idle.
    let tanks = tanks.get();
    println!("{tanks} tanks of {CASES} jobs");
    assert!(
        (CASES / 5..CASES * 4 / 5).contains(&tanks),
        "{tanks} tanks of {CASES} jobs"
    );
}

/// A job of each body that no example has, with what goes into and on to it.
const BODIES: [&str; 3] = [
    "name = \"Round cornered\"\n[shape]\nkind = \"profile\"\nwidth = \"180 mm\"\n\
     outline = [[\"0 mm\", \"0 mm\", \"r 25 mm\"], [\"320 mm\", \"0 mm\"], [\"320 mm\", \"180 mm\"], [\"0 mm\", \"180 mm\"]]\n\
     [stock]\nalloy = \"5754\"\nthickness = \"2 mm\"\n[joints]\ndefault = \"closed corner\"\n\
     [[baffle]]\nacross = \"length\"\nat = \"160 mm\"\n[[baffle.hole]]\nat = [\"90 mm\", \"60 mm\"]\ndiameter = \"30 mm\"\n",
    "name = \"Hopper\"\n[shape]\nkind = \"taper\"\nbase = [\"180 mm\", \"160 mm\"]\ntop = [\"320 mm\", \"260 mm\"]\n\
     height = \"270 mm\"\nshift = [\"10 mm\", \"0 mm\"]\n[stock]\nalloy = \"304L\"\nthickness = \"1.5 mm\"\n\
     [joints]\nfolds = [\"bottom front\", \"bottom back\"]\nbend_radius = \"3 mm\"\n\
     [[fitting]]\nname = \"neck\"\nface = \"top\"\nat = [\"160 mm\", \"130 mm\"]\nbore = \"38 mm\"\nstand_in = \"6 mm\"\n",
    "name = \"Pot\"\n[shape]\nkind = \"drum\"\nsized = \"inside\"\naxis = \"lying\"\ndiameter = \"200 mm\"\nlength = \"450 mm\"\n\
     ends = \"torispherical\"\ncrown = \"200 mm\"\nknuckle = \"20 mm\"\n[stock]\nalloy = \"316L\"\nthickness = \"2 mm\"\n\
     [fill]\nliquid = \"diesel\"\ndip_at = [\"200 mm\", \"100 mm\"]\n",
];

#[test]
fn every_other_body_plans_before_it_is_spoilt() {
    for body in BODIES {
        assert!(check(read(body.to_owned())).unwrap(), "{body}");
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 200, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn other_bodies_with_slips_of_the_pen(body in prop::sample::select(&BODIES[..]), slips in slips()) {
        check(read(spoilt(body, &slips)))?;
    }

    #[test]
    fn other_bodies_with_other_figures(
        body in prop::sample::select(&BODIES[..]),
        figures in prop::collection::vec(prop_oneof![1.0..500.0_f64, -50.0..50.0_f64, 1e-3..1e5_f64], 1..20),
        spare in 0..4_usize,
    ) {
        // Some of its lengths, each for another one; the others stand.
        let mut figures = figures.iter().cycle();
        let mut text = String::new();
        for (number, part) in body.split(" mm\"").enumerate() {
            if number > 0 {
                text.push_str(" mm\"");
            }
            match part.rsplit_once('"') {
                Some((before, figure)) if number % 4 == spare && figure.parse::<f64>().is_ok() => {
                    text.push_str(&format!("{before}\"{}", figures.next().unwrap()));
                }
                _ => text.push_str(part),
            }
        }
        check(read(text))?;
    }
}

#[test]
fn the_checks_above_meet_tanks_as_well_as_refusals() {
    for name in EXAMPLES {
        assert!(check(read(example_text(name))).unwrap(), "{name}");
        assert!(
            check(read(refigured(
                &example_text(name),
                &[90.0, 95.0, 85.0, 20.0, 12.0, 2.0, 1.5]
            )))
            .is_ok()
        );
    }
}

#[test]
fn nesting_without_end_is_refused() {
    for open in ["[", "{a=", "a.", "[[", "\"\\", "a = [", "[a."] {
        for times in [10, 1_000, 100_000] {
            assert!(!check(read(open.repeat(times))).unwrap(), "{open}");
            assert!(
                !check(read(format!("name = {}", open.repeat(times)))).unwrap(),
                "{open}"
            );
        }
    }
}
