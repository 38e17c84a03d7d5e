//! Every screen of the demonstration against the picture of it that was looked at and found good.
//!
//! `SEAMWRIGHT_REWRITE_SCREENS=1 cargo test -p seamwright-tests --test gauge screens` rewrites the
//! pictures in `tests/data/screens`; look at what changed before committing it.

use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};

use seamwright_firmware::amount::Units;
use seamwright_firmware::buttons::Button::{Down, Right, Select, Up};
use seamwright_firmware::buttons::Event;
use seamwright_firmware::gauge::{Gauge, Screen};
use seamwright_firmware::page::Page;
use seamwright_firmware::page::leak::{Ask, Scene, View};

use super::thumb::{press, shown};
use super::{art, demo};

/// Collects the screens of a run, each under its name.
#[derive(Default)]
struct Album(Vec<(String, String)>);

impl Album {
    fn take(&mut self, name: impl Into<String>, gauge: &Gauge) {
        self.0.push((name.into(), art::of(&shown(gauge))));
    }
}

/// Every page of an open job; the fill page in two states, and on the seam pages a slanting seam.
fn pages(album: &mut Album, prefix: &str, gauge: &mut Gauge) {
    for (place, page) in Page::ALL.iter().copied().enumerate() {
        assert_eq!(gauge.screen(), Screen::Page(page));
        let name = |what: &str| format!("{prefix}/{}-{what}", place + 1);
        while gauge.is_working() {
            gauge.tick(0);
        }
        album.take(name(page.name()), gauge);
        match page {
            Page::Fill => {
                for _ in 0..5 {
                    gauge.handle(Event::Repeat(Down));
                }
                press(gauge, &[Select, Up, Up, Up, Up, Select, Down, Down]);
                album.take(name("fill-leaning"), gauge);
            }
            Page::Seams => press(gauge, &[Down; 5]),
            Page::Order => {
                while !gauge.think() {}
                album.take(name("order-looked"), gauge);
                while gauge.has_thoughts() {
                    gauge.think();
                }
                album.take(name("order-found"), gauge);
                press(gauge, &[Down]);
                album.take(name("order-first"), gauge);
                gauge.handle(Event::Repeat(Down));
                press(gauge, &[Down; 3]);
                album.take(name("order-later"), gauge);
            }
            Page::SetUp => {
                press(gauge, &[Down]);
                album.take(name("set-up-tungsten"), gauge);
            }
            Page::Filler => {
                press(gauge, &[Select]);
                album.take(name("filler-why"), gauge);
            }
            Page::Mass => {
                press(gauge, &[Down, Down]);
                album.take(name("mass-brimful"), gauge);
            }
            Page::Strength => {
                press(gauge, &[Select]);
                album.take(name("strength-why"), gauge);
            }
            Page::Leak => measure(album, &name, gauge),
            _ => {}
        }
        press(gauge, &[Right]);
    }
}

/// A leak test by gauge, with a reading at the start and one after six minutes.
fn measure(album: &mut Album, name: &impl Fn(&str) -> String, gauge: &mut Gauge) {
    press(gauge, &[Select, Down, Select]);
    album.take(name("leak-caution"), gauge);
    // Some cautions; then a leak that is no small one, and instruments that are fine, so that the gauge shows it in time.
    for _ in 0..30 {
        let scene = scene(gauge);
        match scene {
            Scene::Ask(Ask::Leak) => press(gauge, &[Up, Up, Select]),
            Scene::Ask(_) => press(gauge, &[Down, Down, Down, Select]),
            Scene::Plan(..) => break,
            _ => press(gauge, &[Select]),
        }
    }
    album.take(name("leak-plan"), gauge);
    gauge.tick(1_000);
    press(gauge, &[Select]);
    album.take(name("leak-ready"), gauge);
    press(gauge, &[Select]);
    album.take(name("leak-begun"), gauge);
    press(gauge, &[Select, Select, Select, Select]);
    gauge.tick(361_000);
    album.take(name("leak-timer"), gauge);
    press(gauge, &[Select, Down, Select, Select, Select, Select]);
    press(gauge, &[Down]);
    assert!(matches!(scene(gauge), Scene::Watch(View::Verdict)));
    album.take(name("leak-verdict"), gauge);
}

fn scene(gauge: &Gauge) -> Scene {
    let work = gauge.work().expect("a job is open");
    gauge.pages().leak.scene(&work).expect("worked out")
}

fn every_screen() -> Album {
    let mut album = Album::default();
    let mut gauge = Gauge::new();
    album.take("jobs-none", &gauge);
    for (_, draft) in demo::tanks() {
        gauge.keep(&draft).expect("room on the shelf");
    }
    press(&mut gauge, &[Up, Up]);
    album.take("jobs", &gauge);
    press(&mut gauge, &[Down, Down, Down, Select]);
    album.take("settings", &gauge);
    press(&mut gauge, &[Select]);
    album.take("settings-inch", &gauge);
    gauge.set_units(Units::Metric);
    gauge.handle(Event::Hold);

    for (job, (name, _)) in demo::tanks().into_iter().enumerate() {
        open(&mut gauge, job);
        pages(&mut album, name, &mut gauge);
    }
    gauge.set_units(Units::Inch);
    open(&mut gauge, 1);
    pages(&mut album, "splitter-inch", &mut gauge);

    gauge.set_units(Units::Metric);
    gauge.forget();
    gauge
        .keep(&demo::many_stitches())
        .expect("room on the shelf");
    press(&mut gauge, &[Select]);
    while gauge.screen() != Screen::Page(Page::Stitches) {
        press(&mut gauge, &[Right]);
    }
    album.take("many-stitches", &gauge);
    press(&mut gauge, &[Right]);
    album.take("many-stitches-order", &gauge);
    gauge.set_units(Units::Inch);

    let mut thick = demo::tank("Drip tray", [300.0, 200.0, 40.0], 25.0, &[]);
    gauge.forget();
    gauge.keep(&thick).expect("room on the shelf");
    press(&mut gauge, &[Select]);
    album.take("trouble", &gauge);
    thick.stock.thickness = demo::mm(60.0);
    gauge.keep(&thick).expect("in the place of the other");
    album.take("trouble-thickness", &gauge);
    album
}

/// From wherever the gauge is to the first page of a job.
fn open(gauge: &mut Gauge, job: usize) {
    gauge.handle(Event::Hold);
    press(gauge, &[Up; 8]);
    press(gauge, &vec![Down; job]);
    press(gauge, &[Select]);
}

fn folder() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("data/screens")
}

fn path_of(name: &str) -> PathBuf {
    folder().join(name).with_extension("txt")
}

#[test]
fn every_screen_is_as_it_was_found_good() {
    let rewrite = std::env::var_os("SEAMWRIGHT_REWRITE_SCREENS").is_some();
    let mut wrong = Vec::new();
    for (name, is) in every_screen().0 {
        let path = path_of(&name);
        if rewrite {
            fs::create_dir_all(path.parent().expect("it lies in the folder")).expect("a folder");
            fs::write(&path, &is).expect("a file");
            continue;
        }
        let was = fs::read_to_string(&path).unwrap_or_default();
        if was != is {
            // Left where it can be compared.
            let left = Path::new(env!("CARGO_TARGET_TMPDIR"))
                .join(format!("{}.txt", name.replace('/', "-")));
            fs::write(&left, &is).expect("a file");
            wrong.push(format!(
                "{name} (now in {}): {}",
                left.display(),
                art::difference(&was, &is)
            ));
        }
    }
    assert!(
        wrong.is_empty(),
        "{} screens changed:\n{}",
        wrong.len(),
        wrong.join("\n")
    );
}

#[test]
fn no_picture_is_left_over() {
    let expected: BTreeSet<_> = every_screen()
        .0
        .iter()
        .map(|(name, _)| path_of(name))
        .collect();
    let mut found = BTreeSet::new();
    let mut folders = vec![folder()];
    while let Some(folder) = folders.pop() {
        for entry in fs::read_dir(folder).expect("a folder") {
            let path = entry.expect("an entry").path();
            if path.is_dir() {
                folders.push(path);
            } else {
                found.insert(path);
            }
        }
    }
    assert_eq!(found, expected);
}
