//! The page of terms against the labels that are printed: names of facts, heads of columns, headings.

use std::collections::BTreeSet;
use std::path::{Path, PathBuf};

use seamwright_core::capacity::Lean;
use seamwright_core::leak::LeakRule;

use super::Whole;
use crate::report::leak::Asked;
use crate::report::model::{Block, Section, Seen};
use crate::report::{self, Units};

/// The page, beside the program's other documents.
const PAGE: &str = include_str!("../../docs/terms.md");

/// Every term of the page; a line may explain several, parted by semicolons.
fn lines() -> Vec<String> {
    let lines = PAGE.lines().filter_map(|line| line.strip_prefix("| "));
    let cells = lines.filter_map(|line| line.split_once(" | "));
    let terms = cells.filter(|(cell, _)| *cell != "term");
    terms
        .flat_map(|(cell, _)| cell.split("; "))
        .map(str::to_lowercase)
        .collect()
}

/// What stands over or beside figures on the terminal.
fn reported(section: &Section) -> Vec<&'static str> {
    let seen = section
        .blocks
        .iter()
        .filter(|(seen, _)| *seen != Seen::Sheet);
    let labels = seen.flat_map(|(_, block)| match block {
        Block::Facts { rows, .. } => rows.iter().map(|(name, _)| *name).collect(),
        Block::Table(table) if !table.bare => {
            table.columns.iter().map(|column| column.head).collect()
        }
        _ => Vec::new(),
    });
    labels.chain([section.title]).collect()
}

/// The texts of all elements of a kind in a page.
fn elements<'a>(page: &'a str, kind: &str) -> Vec<&'a str> {
    let opened = format!("<{kind}");
    let after = page.split(&opened).skip(1);
    let inside = after.filter_map(|rest| rest.split_once('>')?.1.split_once('<'));
    inside.map(|(text, _)| text).collect()
}

/// What stands over or beside figures on the job sheet.
fn on_paper(job: &str) -> BTreeSet<String> {
    let folder = std::env::temp_dir().join(format!("seamwright-terms-{}", std::process::id()));
    // Only the header tank is of one sheet.
    let stock = job
        .contains("header-tank")
        .then(|| "2 mm: 1500 mm x 3000 mm".to_owned());
    let stock: Vec<String> = stock.into_iter().collect();
    super::write_sheet(job, &folder, super::PaperSize::A4, &stock, &[])
        .ok()
        .unwrap();
    let page = std::fs::read_to_string(folder.join("job.html")).unwrap();
    std::fs::remove_dir_all(folder).unwrap();
    ["h2", "dt", "th"]
        .into_iter()
        .flat_map(|kind| elements(&page, kind))
        .map(str::to_owned)
        .collect()
}

/// Jobs of processes that no example has, whose plans have labels of their own.
const OTHER_PROCESSES: [&str; 3] = [
    "[stock]\nalloy = \"S355J2\"\nthickness = \"2 mm\"\n[arc]\nprocess = \"mag\"\n[supply]\ncylinder = \"20 L\"\n",
    "[stock]\nalloy = \"5754\"\nthickness = \"3 mm\"\n[arc]\nprocess = \"mig\"\n",
    "[stock]\nalloy = \"304L\"\nthickness = \"2 mm\"\n[arc]\nprocess = \"flux-cored\"\n[purge]\n",
];

/// Their files, in a folder that is removed by the caller.
fn other_jobs(folder: &Path) -> Vec<PathBuf> {
    std::fs::create_dir_all(folder).unwrap();
    let body = "name = \"Ash bin\"\n[shape]\nkind = \"block\"\nlength = \"320 mm\"\nwidth = \"240 mm\"\nheight = \"200 mm\"\n[[fitting]]\nname = \"lid\"\nface = \"top\"\nat = [\"160 mm\", \"120 mm\"]\nbore = \"60 mm\"\n";
    let made = OTHER_PROCESSES.iter().enumerate().map(|(number, process)| {
        let path = folder.join(format!("other-{number}.toml"));
        std::fs::write(&path, format!("{body}{process}")).unwrap();
        path
    });
    made.collect()
}

fn examples() -> impl Iterator<Item = PathBuf> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("examples");
    let files = std::fs::read_dir(folder).unwrap();
    let paths = files.map(|file| file.unwrap().path());
    paths.filter(|path| path.extension().is_some_and(|end| end == "toml"))
}

/// All labels that the program prints of its examples.
fn printed() -> BTreeSet<String> {
    let mut all = BTreeSet::new();
    let mut files = 0;
    let folder = std::env::temp_dir().join(format!("seamwright-others-{}", std::process::id()));
    for path in examples().chain(other_jobs(&folder)) {
        files += 1;
        let whole = Whole::open(path.to_str().unwrap()).ok().unwrap();
        let asked = whole.asked(Some(2));
        let units = Units::default();
        let mut sections = report::plan::sections(&asked, units);
        let rule = LeakRule::OwnHead;
        let asked = Asked {
            rule,
            ..Asked::USUAL
        };
        let test = report::leak::plan(&whole.tank, asked);
        sections.extend(
            report::leak::answer(&whole.tank, &asked, &test, None, units)
                .ok()
                .unwrap(),
        );
        let step = report::dip::Step::default();
        let chart = report::dip::chart(&whole.tank, Lean::LEVEL, step)
            .ok()
            .unwrap();
        sections.push(report::dip::section(&whole.tank, &chart, units));
        let labels = sections.iter().flat_map(reported).map(str::to_owned);
        let labels = labels.chain(on_paper(path.to_str().unwrap()));
        all.extend(
            labels
                .map(|label| label.trim().to_lowercase())
                .filter(|label| !label.is_empty()),
        );
    }
    std::fs::remove_dir_all(folder).unwrap();
    assert!(
        files >= 3 + OTHER_PROCESSES.len(),
        "the examples are not found"
    );
    all
}

#[test]
fn no_term_has_two_lines() {
    let lines = lines();
    let terms: BTreeSet<&String> = lines.iter().collect();
    assert_eq!(
        terms.len(),
        lines.len(),
        "a term of docs/terms.md is explained twice"
    );
}

/// The texts of all Rust files in a folder and below.
fn sources(folder: &Path) -> String {
    let entries = std::fs::read_dir(folder)
        .unwrap()
        .map(|entry| entry.unwrap().path());
    let texts = entries.map(|path| match path.extension() {
        Some(end) if end == "rs" => std::fs::read_to_string(&path).unwrap(),
        None => sources(&path),
        Some(_) => String::new(),
    });
    texts.collect()
}

#[test]
fn every_title_of_the_gauge_has_its_line() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../firmware/src/page");
    let pages = sources(&folder);
    let begins = ["title(pen, \"", "heading(\""]
        .into_iter()
        .flat_map(|call| pages.split(call).skip(1));
    let titles: BTreeSet<String> = begins
        .filter_map(|rest| rest.split_once('"').map(|(title, _)| title.to_lowercase()))
        .collect();
    assert!(titles.len() >= 10, "the titles are not found: {titles:?}");
    let terms = lines();
    let bare: Vec<String> = titles
        .into_iter()
        .filter(|title| !terms.contains(title))
        .collect();
    assert!(
        bare.is_empty(),
        "on a screen, but not explained in docs/terms.md: {bare:#?}"
    );
}

#[test]
fn every_label_has_its_line() {
    let terms = lines();
    let bare: Vec<String> = printed()
        .into_iter()
        .filter(|label| !terms.contains(label))
        .collect();
    assert!(
        bare.is_empty(),
        "printed, but not explained in docs/terms.md: {bare:#?}"
    );
}
