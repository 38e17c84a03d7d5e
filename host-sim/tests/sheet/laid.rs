//! Nesting, checked by plain geometry, and the job page.

use seamwright::report::model::{Block, Notice, Section, Table, left, said};
use seamwright::report::render::html::page;
use seamwright::sheet::nest::{Fault, Item, Rules, Stock, draw, plan};
use seamwright::sheet::pattern::Pattern;
use seamwright_core::advice::notice::Severity;

use super::{ODD, block, piece};

const RULES: Rules = Rules {
    gap: 5.0,
    margin: 10.0,
    turning: true,
};

fn stock(thickness: f64, count: usize) -> Stock {
    Stock {
        name: "full sheet".into(),
        width: 1000.0,
        length: 2000.0,
        thickness,
        count,
    }
}

fn item(pattern: &Pattern, thickness: f64, count: usize) -> Item<'_> {
    Item {
        pattern,
        thickness,
        count,
    }
}

#[test]
fn pieces_keep_their_distance_and_their_thickness() {
    let (a, b, c) = (piece(), block("B", 600.0, 333.3), block("C", 150.0, 970.0));
    let items = [item(&a, 2.0, 5), item(&b, 2.0, 4), item(&c, 3.0, 3)];
    let stocks = [stock(2.0, 3), stock(3.0, 1)];
    let plan = plan(&items, &stocks, &RULES).unwrap();
    let mut count = 0;
    for sheet in &plan.sheets {
        for (place, one) in sheet.placements.iter().enumerate() {
            count += 1;
            let thick = items
                .iter()
                .find(|i| std::ptr::eq(i.pattern, one.pattern))
                .unwrap();
            assert!((thick.thickness - sheet.stock.thickness).abs() < 1e-9);
            let ([x, y], [w, h]) = (one.at, one.size());
            assert!(x >= 9.999 && y >= 9.999, "{x} {y}");
            assert!(x + w <= 1990.001 && y + h <= 990.001, "{x} {y} {w} {h}");
            for other in &sheet.placements[..place] {
                let ([u, v], [p, q]) = (other.at, other.size());
                let apart = x + w + 4.999 <= u
                    || u + p + 4.999 <= x
                    || y + h + 4.999 <= v
                    || v + q + 4.999 <= y;
                assert!(apart, "{one:?} {other:?}");
            }
        }
    }
    assert_eq!(count, 12);
    let drawn = draw(&plan);
    let tree = roxmltree::Document::parse(&drawn).unwrap();
    assert_eq!(
        tree.descendants()
            .filter(|n| n.has_tag_name("path"))
            .count(),
        12
    );
}

#[test]
fn an_exact_fit_fits_and_a_hair_more_does_not() {
    // Two of 987.5 with a gap of 5 and margins of 10 take 2000 mm.
    let exact = block("E", 987.5, 980.0);
    let stocks = [stock(2.0, 1)];
    let full = plan(&[item(&exact, 2.0, 2)], &stocks, &RULES).unwrap();
    assert!((full.share_used() - 2.0 * 987.5 * 980.0 / 2e6).abs() < 1e-9);
    let over = block("O", 987.6, 980.0);
    let Err(Fault::Unplaced(left)) = plan(&[item(&over, 2.0, 2)], &stocks, &RULES) else {
        panic!("it cannot fit");
    };
    assert_eq!((left[0].mark.as_str(), left[0].count), ("O", 1));
}

#[test]
fn turning_only_where_allowed() {
    let tall = block("T", 500.0, 1500.0);
    let stocks = [stock(2.0, 1)];
    let items = [item(&tall, 2.0, 1)];
    assert!(plan(&items, &stocks, &RULES).unwrap().sheets[0].placements[0].turned);
    let rules = Rules {
        turning: false,
        ..RULES
    };
    assert!(matches!(
        plan(&items, &stocks, &rules),
        Err(Fault::Unplaced(_))
    ));
}

#[test]
fn a_bad_setting_is_named() {
    let some = block("S", 10.0, 10.0);
    let rules = Rules {
        gap: f64::NAN,
        ..RULES
    };
    let told = plan(&[item(&some, 2.0, 1)], &[stock(2.0, 1)], &rules).unwrap_err();
    assert!(told.to_string().starts_with("gap, mm"), "{told}");
}

#[test]
fn the_job_page_shows_odd_words_as_they_are() {
    let mut section = Section::new("Cut");
    section.fact("Sheet", "2 mm");
    let rows = [["P1", "12.5 dm²"].map(said)];
    section.table(Table::new(["Mark", "Area"].map(left), rows));
    section.add(Block::Notices(
        None,
        vec![Notice {
            severity: Severity::Warning,
            text: "<script>".into(),
            source: None,
            code: "",
            told: false,
        }],
    ));
    section.add(Block::Picture(
        seamwright::sheet::svg::pattern(&piece()),
        "Front".into(),
    ));
    let html = page(ODD, &[section]);
    assert!(html.contains("<title>Front &amp; back &lt;b&gt;"), "{html}");
    assert!(html.contains("<strong>Danger</strong> &lt;script&gt;"));
    assert!(!html.contains("<script") && !html.contains("<?xml"));
    assert!(html.contains("<td class=\"figure\">12.5 dm²</td>") && html.contains("<td>P1</td>"));
}
