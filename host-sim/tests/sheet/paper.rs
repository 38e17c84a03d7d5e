//! PDF by `lopdf`: objects and content operators (ISO 32000-1). A point is 1/72 inch of 25.4 mm.

use lopdf::content::Content;
use lopdf::{Document, Object};
use seamwright::sheet::pdf::{Fault, Paper, Print, patterns};

use seamwright::sheet::pattern::{Draft, MarkLine, Node, Note, Pattern, Stamp};

use super::{ODD, block, near, piece};

const POINT: f64 = 25.4 / 72.0;

fn number(object: &Object) -> f64 {
    f64::from(object.as_float().unwrap())
}

fn read(paper: Paper) -> Document {
    let print = Print::build(paper, 8.0, 12.0).unwrap();
    let bytes = patterns(ODD, &[piece()], &print).unwrap();
    Document::load_mem(&bytes).unwrap()
}

/// Straight strokes (in points), words with their place, and the arcs' cubics, of a page.
#[derive(Default)]
struct Page {
    strokes: Vec<[f64; 4]>,
    curves: Vec<[[f64; 2]; 4]>,
    words: Vec<([f64; 2], Vec<u8>)>,
    clips: Vec<[f64; 4]>,
}

fn pages(document: &Document) -> Vec<Page> {
    let ids = document.get_pages();
    ids.values()
        .map(|id| {
            let bytes = document.get_page_content(*id);
            let mut page = Page::default();
            let (mut here, mut place, mut area) = ([0.0; 2], [0.0; 2], [0.0; 4]);
            for op in Content::decode(&bytes).unwrap().operations {
                let n = |i: usize| number(&op.operands[i]);
                match op.operator.as_str() {
                    "m" => here = [n(0), n(1)],
                    "l" => {
                        page.strokes.push([here[0], here[1], n(0), n(1)]);
                        here = [n(0), n(1)];
                    }
                    "c" => {
                        let end = [n(4), n(5)];
                        page.curves.push([here, [n(0), n(1)], [n(2), n(3)], end]);
                        here = end;
                    }
                    "re" => area = [n(0), n(1), n(2), n(3)],
                    "W" => page.clips.push(area),
                    "Tm" => place = [n(4), n(5)],
                    "Tj" => page
                        .words
                        .push((place, op.operands[0].as_str().unwrap().to_vec())),
                    "cm" => panic!("positions are meant to be the page's own"),
                    _ => {}
                }
            }
            page
        })
        .collect()
}

#[test]
fn the_bars_are_100_mm_and_no_viewer_is_to_scale() {
    for (paper, width, height) in [
        // ISO 216 and 8.5 by 11 inches.
        (Paper::A4, 210.0, 297.0),
        (Paper::Letter, 8.5 * 25.4, 11.0 * 25.4),
    ] {
        let document = read(paper);
        let prefs = document
            .catalog()
            .unwrap()
            .get(b"ViewerPreferences")
            .unwrap();
        let prefs = document.dereference(prefs).unwrap().1.as_dict().unwrap();
        assert_eq!(
            prefs.get(b"PrintScaling").unwrap().as_name().unwrap(),
            b"None"
        );
        for id in document.get_pages().values() {
            // A unit of its own would stretch the page (ISO 32000-1, table 30).
            assert!(!document.get_dictionary(*id).unwrap().has(b"UserUnit"));
            let media = document
                .get_dictionary(*id)
                .unwrap()
                .get(b"MediaBox")
                .unwrap();
            let media: Vec<f64> = media.as_array().unwrap().iter().map(number).collect();
            let (a, b) = (media[2] * POINT, media[3] * POINT);
            let upright = near(a, width, 0.01) && near(b, height, 0.01);
            assert!(
                upright || near(a, height, 0.01) && near(b, width, 0.01),
                "{a} {b}"
            );
        }
        // 100 mm = 100 / 25.4 * 72 points.
        for page in &pages(&document)[1..] {
            let bar = |wide: f64, tall: f64| {
                page.strokes.iter().any(|[ax, ay, bx, by]| {
                    near(bx - ax, wide, 0.001) && near(by - ay, tall, 0.001)
                })
            };
            assert!(bar(283.4646, 0.0) && bar(0.0, 283.4646));
        }
    }
}

/// Lower left corner of the piece on a page, in points: where the bend line and outline start.
fn corner(page: &Page) -> [f64; 2] {
    let long = 410.0 / POINT;
    let edge = page
        .strokes
        .iter()
        .filter(|[ax, ay, bx, by]| near(bx - ax, long, 0.01) && near(by - ay, 0.0, 0.001));
    // The lower of the two lines of that length: edge and bend.
    let low = edge.min_by(|a, b| a[1].total_cmp(&b[1])).unwrap();
    [low[0], low[1]]
}

#[test]
fn every_page_shows_the_piece_at_full_size_and_together_all_of_it() {
    let document = read(Paper::A4);
    let pages = pages(&document);
    assert!(pages.len() > 3, "{}", pages.len());
    let mut windows = Vec::new();
    for page in &pages[1..] {
        let [x, y] = corner(page);
        let mm = |[px, py]: [f64; 2]| [(px - x) * POINT, (py - y) * POINT];
        let close = |[a, b]: [f64; 2], [c, d]: [f64; 2]| near(a, c, 0.01) && near(b, d, 0.01);
        // Ends and middles of the two arcs, and the hole's first point.
        let reach = 40.0 * std::f64::consts::FRAC_1_SQRT_2;
        for wanted in [
            [370.0, 300.0],
            [370.0 + reach, 260.0 + reach],
            [170.0, 300.0],
            [200.0, 270.0],
            [99.0, 60.0],
        ] {
            let hit = page.curves.iter().any(|curve| close(mm(curve[3]), wanted));
            assert!(hit, "{wanted:?}");
        }
        // The middle of each cubic, (a + 3b + 3c + d) / 8, is on one of the three circles.
        for curve in &page.curves {
            let [a, b, c, d] = curve.map(mm);
            let [x, y] = [0, 1].map(|i| (a[i] + 3.0 * b[i] + 3.0 * c[i] + d[i]) / 8.0);
            let circles = [
                (370.0, 260.0, 40.0),
                (200.0, 300.0, 30.0),
                (80.0, 60.0, 19.0),
            ];
            let on = circles.map(|(u, v, r): (f64, f64, f64)| near((x - u).hypot(y - v), r, 0.01));
            assert!(on.contains(&true), "{x} {y}");
        }
        // Fold and mark line.
        for [from, to] in [
            [[0.0, 20.0], [410.0, 20.0]],
            [[120.0, 40.0], [120.0, 160.0]],
        ] {
            let mut strokes = page.strokes.iter();
            let hit =
                strokes.any(|[a, b, c, d]| close(mm([*a, *b]), from) && close(mm([*c, *d]), to));
            assert!(hit, "{from:?} {to:?}");
        }
        let [cx, cy, wide, tall] = page.clips[0];
        windows.push((mm([cx, cy]), mm([cx + wide, cy + tall])));
    }
    // Each point of a raster over the piece is on some page.
    for i in 0..=41 {
        for j in 0..=30 {
            let (x, y) = (f64::from(i) * 10.0, f64::from(j) * 10.0);
            let seen = windows
                .iter()
                .any(|(low, high)| low[0] <= x && x <= high[0] && low[1] <= y && y <= high[1]);
            assert!(seen, "{x} {y}");
        }
    }
    // Neighbours share exactly the overlap.
    let lefts: Vec<f64> = windows.iter().map(|(low, _)| low[0]).collect();
    let next = |high: f64| lefts.iter().any(|left| near(high - left, 12.0, 0.01));
    assert!(windows.iter().any(|(_, high)| next(high[0])));
}

#[test]
fn the_crosses_of_two_pages_lie_on_each_other() {
    let document = read(Paper::A4);
    let mut met = Vec::new();
    for page in &pages(&document)[1..] {
        let [x, y] = corner(page);
        // A cross's level arm is 8 mm.
        for [ax, ay, bx, by] in &page.strokes {
            if near(bx - ax, 8.0 / POINT, 0.001) && near(*ay, *by, 0.0001) {
                met.push([((ax + bx) / 2.0 - x) * POINT, (ay - y) * POINT]);
            }
        }
    }
    assert!(!met.is_empty());
    for [x, y] in &met {
        let same = met
            .iter()
            .filter(|[a, b]| near(*a, *x, 0.01) && near(*b, *y, 0.01));
        assert!(same.count() >= 2, "a cross on one page alone at {x} {y}");
    }
}

#[test]
fn no_cross_runs_through_the_words_of_a_fold() {
    // Widths in Adobe's metrics of Helvetica, from memory: 9, 0, u and p 556, degree 400, space 278
    // thousandths of the size, which is the height of a capital, 3.5 mm, over 0.718.
    let (wide, tall) = (2.902 * 3.5 / 0.718, 3.5);
    let mut crosses = 0;
    for page in &pages(&read(Paper::A4))[1..] {
        let fold = page.words.iter().find(|(_, text)| text == b"90\xb0 up");
        let (at, _) = fold.unwrap();
        for [ax, ay, bx, by] in &page.strokes {
            if near(bx - ax, 8.0 / POINT, 0.001) && near(*ay, *by, 0.0001) {
                crosses += 1;
                let (x, y) = (((ax + bx) / 2.0 - at[0]) * POINT, (ay - at[1]) * POINT);
                let free = x + 4.0 < 0.0 || x - 4.0 > wide || y + 4.0 < 0.0 || y - 4.0 > tall;
                assert!(free, "{x} {y}");
            }
        }
    }
    assert_eq!(crosses, 16);
}

#[test]
fn the_title_keeps_every_sign_and_words_stay_readable() {
    let document = read(Paper::A4);
    let info = document.trailer.get(b"Info").unwrap();
    let info = document.dereference(info).unwrap().1.as_dict().unwrap();
    let raw = info.get(b"Title").unwrap().as_str().unwrap();
    // UTF-16, most significant byte first, after a mark (ISO 32000-1, 7.9.2.2).
    assert_eq!(raw[..2], [0xfe, 0xff]);
    let units: Vec<u16> = raw[2..]
        .chunks(2)
        .map(|pair| u16::from_be_bytes([pair[0], pair[1]]))
        .collect();
    assert_eq!(String::from_utf16(&units).unwrap(), ODD);
    let words = &pages(&document)[1].words;
    assert!(
        words
            .iter()
            .any(|(_, text)| text.starts_with(b"Measure both bars"))
    );
    // 0xE9 is é in WinAnsiEncoding (ISO 32000-1, annex D).
    let heading = words
        .iter()
        .find(|(_, text)| text.starts_with(b"P1 "))
        .unwrap();
    assert!(heading.1.contains(&0xe9), "{:?}", heading.1);
}

#[test]
fn pages_that_would_stay_blank_are_left_out() {
    let print = Print::build(Paper::A4, 8.0, 12.0).unwrap();
    let count = |pattern| {
        let bytes = patterns("x", &[pattern], &print).unwrap();
        Document::load_mem(&bytes).unwrap().get_pages().len()
    };
    let full = count(block("A", 1000.0, 1000.0));
    let corners = [[0.0, 0.0], [1000.0, 0.0], [0.0, 1000.0]];
    let triangle = Pattern::build(Draft {
        mark: "T".into(),
        outline: corners.map(|[x, y]| Node::corner(x, y)).to_vec(),
        ..Default::default()
    })
    .unwrap();
    let half = count(triangle);
    assert!(half < full && half > full / 2, "{half} of {full}");
}

#[test]
fn settings_out_of_bounds_and_too_many_pages_are_refused() {
    assert!(matches!(
        Print::build(Paper::A4, 1.0, 12.0),
        Err(Fault::Setting {
            field: "margin",
            ..
        })
    ));
    assert!(matches!(
        Print::build(Paper::A4, 8.0, f64::NAN),
        Err(Fault::Setting {
            field: "overlap",
            ..
        })
    ));
    let print = Print::build(Paper::A4, 8.0, 12.0).unwrap();
    assert_eq!(patterns("x", &[], &print), Err(Fault::Nothing));
    for long in [6_000.0, 100_000.0] {
        let huge = patterns("x", &[block("H", long, long)], &print);
        assert!(matches!(huge, Err(Fault::Pages { .. })), "{long}");
    }
}

/// A block of two pages of A4, its letter and arrow in the middle, where the pages join, and words along
/// its lower edge there too.
fn joined() -> Pattern {
    let corners = [[0.0, 0.0], [320.0, 0.0], [320.0, 160.0], [0.0, 160.0]];
    let note = |at: [f64; 2], height: f64, text: &str| Note {
        at,
        height,
        angle_deg: 0.0,
        text: text.into(),
    };
    Pattern::build(Draft {
        mark: "Q".into(),
        outline: corners.map(|[x, y]| Node::corner(x, y)).to_vec(),
        lines: vec![
            // Scribed where it is meant, on the joint or not.
            MarkLine {
                ends: [[160.0, 150.0], [160.0, 160.0]],
            },
            MarkLine {
                ends: [[180.0, 70.0], [180.0, 90.0]],
            },
        ],
        notes: vec![
            note([150.0, 5.0], 6.0, "joined here"),
            note([152.0, 70.0], 20.0, "Q"),
        ],
        stamp: Stamp {
            notes: 1..2,
            lines: 1..2,
        },
        ..Draft::default()
    })
    .unwrap()
}

#[test]
fn words_keep_off_the_joints_of_pages() {
    for (paper, overlap) in [
        (Paper::A4, 12.0),
        (Paper::Letter, 20.0),
        (Paper::Letter, 8.0),
    ] {
        let print = Print::build(paper, 10.0, overlap).unwrap();
        let bytes = patterns("Q", &[joined()], &print).unwrap();
        let pages = pages(&Document::load_mem(&bytes).unwrap());
        // The map, then two pages side by side.
        assert_eq!(pages.len(), 3);
        let (mut letters, mut worded) = (0, 0);
        for (page, joint_right) in [(&pages[1], true), (&pages[2], false)] {
            let [left, _, wide, _] = page.clips[0].map(|v| v * POINT);
            // The piece's lower left corner, from the ends of the scribed line over its middle.
            let scribed = page.strokes.iter().find(|[ax, ay, bx, by]| {
                near(bx - ax, 0.0, 0.001) && near((by - ay) * POINT, 10.0, 0.001)
            });
            let [x, y, ..] = scribed.unwrap().map(|v| v * POINT);
            let [x, y] = [x - 160.0, y - 150.0];
            let arrow = page.strokes.iter().find(|[ax, ay, bx, by]| {
                near(bx - ax, 0.0, 0.001) && near((by - ay) * POINT, 20.0, 0.001)
            });
            let place = |text: &str| {
                let word = page.words.iter().find(|(_, word)| word == text.as_bytes());
                word.unwrap().0.map(|v| v * POINT)
            };
            let top = page.clips[0][1] + page.clips[0][3];
            let letter = page
                .words
                .iter()
                .find(|(at, word)| word == b"Q" && at[1] < top);
            let letter = letter.unwrap().0.map(|v| v * POINT);
            // The arrow keeps its distance from its letter: (180, 70) less (152, 70).
            let arrow = arrow.unwrap().map(|v| v * POINT);
            assert!(
                near(arrow[0] - letter[0], 28.0, 0.01),
                "{arrow:?} {letter:?}"
            );
            assert!(
                near(arrow[1] - letter[1], 0.0, 0.01),
                "{arrow:?} {letter:?}"
            );
            let words = place("joined here");
            // Words move along their own line only.
            assert!(near(words[1] - y, 5.0, 0.01), "{words:?}");
            // Nothing leaves the piece.
            assert!(letter[0] > x && arrow[0] < x + 320.0 && words[0] > x);
            // Helvetica's advance widths in thousandths of the type's size, which is the capital over 0.718
            // (Adobe's metrics of the core fonts): Q 778; "joined here" 222 + 556 + 222 + 556 + 556 + 556
            // + 278 + 556 + 556 + 333 + 556.
            let shown = [left, left + wide];
            let own = if joint_right {
                [left, left + wide - overlap]
            } else {
                [left + overlap, left + wide]
            };
            letters += u8::from(letter[0] >= own[0] && arrow[0] <= own[1]);
            let end = words[0] + 4.947 * 6.0 / 0.718;
            worded += u8::from(words[0] >= shown[0] && end <= shown[1]);
        }
        // The letter is on one page, clear of what the pages share; the words are whole on one at least.
        assert_eq!(letters, 1, "{paper:?}");
        assert!(worded > 0, "{paper:?}");
    }
}
