//! The dipstick strip, measured in the PDF.

use lopdf::Document;
use seamwright::sheet::pdf::{Fault, Mark, Paper, Print, strip};

use super::near;
use super::paper::{POINT, Page, pages};

/// Marks at depths that no round step gives.
fn marks(count: u32, apart: f64) -> Vec<Mark> {
    (0..count)
        .map(|n| Mark {
            at: 3.7 + f64::from(n) * apart,
            label: format!("{n} L"),
            aside: "x".into(),
        })
        .collect()
}

/// The level strokes of a page that are 14 mm long, as places in mm: those of the marks.
fn ticks(page: &Page) -> Vec<[f64; 2]> {
    page.strokes
        .iter()
        .filter(|[ax, ay, bx, by]| near((bx - ax) * POINT, 14.0, 0.001) && near(*ay, *by, 1e-6))
        .map(|[ax, ay, ..]| [ax * POINT, ay * POINT])
        .collect()
}

/// The level strokes over the whole width of the strip: the foot, and the lines that parts join on.
fn across(page: &Page) -> Vec<[f64; 2]> {
    page.strokes
        .iter()
        .filter(|[ax, ay, bx, by]| near((bx - ax) * POINT, 50.0, 0.001) && near(*ay, *by, 1e-6))
        .map(|[ax, ay, ..]| [ax * POINT, ay * POINT])
        .collect()
}

#[test]
fn every_mark_stands_at_its_true_height() {
    let given = marks(14, 12.34);
    for paper in [Paper::A4, Paper::Letter] {
        let print = Print::build(paper, 10.0, 12.0).unwrap();
        let bytes = strip("Tank", "by the drawing", &given, &print).unwrap();
        let pages = pages(&Document::load_mem(&bytes).unwrap());
        assert_eq!(pages.len(), 1);
        let found = ticks(&pages[0]);
        assert_eq!(found.len(), given.len());
        let foot = across(&pages[0]);
        assert_eq!(foot.len(), 1);
        for (mark, [x, y]) in given.iter().zip(&found) {
            assert!(near(y - foot[0][1], mark.at, 0.01), "{mark:?} at {y}");
            assert!(near(*x, foot[0][0], 0.001));
        }
        // The bars are 100 mm: 283.4646 points.
        let bar = |wide: f64, tall: f64| {
            pages[0]
                .strokes
                .iter()
                .any(|[ax, ay, bx, by]| near(bx - ax, wide, 0.001) && near(by - ay, tall, 0.001))
        };
        assert!(bar(283.464_6, 0.0) && bar(0.0, 283.464_6));
        for mark in &given {
            assert!(
                pages[0]
                    .words
                    .iter()
                    .any(|(_, text)| *text == mark.label.as_bytes()),
                "{}",
                mark.label
            );
        }
    }
}

/// Parts laid on each other on their dashed lines make one strip: each mark of it at its true height.
#[test]
fn parts_join_to_one_strip() {
    let given = marks(90, 12.34);
    let print = Print::build(Paper::A4, 10.0, 12.0).unwrap();
    let bytes = strip("Tank", "by the drawing", &given, &print).unwrap();
    let pages = pages(&Document::load_mem(&bytes).unwrap());
    assert!(pages.len() > 1);
    // Columns, left to right over all pages: marks and lines across of each.
    let mut parts: Vec<(Vec<f64>, Vec<f64>)> = Vec::new();
    for page in &pages {
        let mut lefts: Vec<f64> = across(page).iter().map(|[x, _]| *x).collect();
        lefts.sort_by(f64::total_cmp);
        lefts.dedup_by(|a, b| near(*a, *b, 0.01));
        for left in lefts {
            let of = |all: Vec<[f64; 2]>| -> Vec<f64> {
                let mut own: Vec<f64> = all
                    .into_iter()
                    .filter(|[x, _]| near(*x, left, 0.01))
                    .map(|[_, y]| y)
                    .collect();
                own.sort_by(f64::total_cmp);
                own
            };
            parts.push((of(ticks(page)), of(across(page))));
        }
    }
    let mut height = 0.0;
    let mut seen = Vec::new();
    for (number, (marks, lines)) in parts.iter().enumerate() {
        // The lower line is the foot, or where the part below joins.
        seen.extend(marks.iter().map(|y| y - lines[0] + height));
        if number + 1 < parts.len() {
            assert_eq!(lines.len(), 2, "part {number}");
            height += lines[1] - lines[0];
        }
    }
    for mark in &given {
        assert!(seen.iter().any(|at| near(*at, mark.at, 0.02)), "{mark:?}");
    }
    for at in &seen {
        assert!(given.iter().any(|mark| near(*at, mark.at, 0.02)), "{at}");
    }
    // Marks of an overlap are on both of its parts.
    assert!(seen.len() > given.len());
}

#[test]
fn strips_refused() {
    let print = Print::build(Paper::A4, 10.0, 12.0).unwrap();
    assert_eq!(strip("Tank", "", &[], &print), Err(Fault::Nothing));
    let far = [Mark {
        at: 1e9,
        ..Mark::default()
    }];
    assert!(matches!(
        strip("Tank", "", &far, &print),
        Err(Fault::Pages { .. })
    ));
}
