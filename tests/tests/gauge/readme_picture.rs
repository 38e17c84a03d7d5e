//! The README's picture shows what the gauge shows now.
//!
//! `SEAMWRIGHT_REWRITE_SCREENS=1 cargo test -p seamwright-tests --test gauge readme_picture` writes it anew; look at it
//! before you commit it.

use std::path::PathBuf;

use seamwright::shots::{Shot, every_screen, write_whole};
use seamwright_firmware::frame::{HEIGHT, WIDTH};
use seamwright_tests::jobs;

const SHOWN: [&str; 9] = [
    "02-tank",
    "03-holds",
    "04-fill",
    "07-seams-08",
    "09-order-01",
    "09-order-19",
    "12-filler-01",
    "14-strength-01",
    "15-leak-05",
];
const COLUMNS: usize = 3;
const SCALE: usize = 3;
const GAP: usize = 12;
/// The grey between the screens.
const BETWEEN: u8 = 96;

/// Grey points, row by row.
struct Picture {
    width: usize,
    height: usize,
    points: Vec<u8>,
}

fn root() -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("..")
}

fn compose(shots: &[Shot]) -> Picture {
    let (wide, high) = (WIDTH as usize * SCALE, HEIGHT as usize * SCALE);
    let rows = SHOWN.len().div_ceil(COLUMNS);
    let (width, height) = (COLUMNS * (wide + GAP) + GAP, rows * (high + GAP) + GAP);
    let mut points = vec![BETWEEN; width * height];
    for (place, name) in SHOWN.iter().enumerate() {
        let shot = shots
            .iter()
            .find(|shot| shot.name == *name)
            .unwrap_or_else(|| panic!("no screen {name}"));
        let (left, top) = (
            GAP + (place % COLUMNS) * (wide + GAP),
            GAP + (place / COLUMNS) * (high + GAP),
        );
        for y in 0..high {
            for x in 0..wide {
                let level = shot
                    .frame
                    .level((x / SCALE) as u32, (y / SCALE) as u32)
                    .unwrap();
                points[(top + y) * width + left + x] = 17 * level;
            }
        }
    }
    Picture {
        width,
        height,
        points,
    }
}

fn read(path: &PathBuf) -> Picture {
    let file = std::fs::File::open(path).unwrap();
    let mut reader = png::Decoder::new(std::io::BufReader::new(file))
        .read_info()
        .unwrap();
    let mut points = vec![0; reader.output_buffer_size().unwrap()];
    let info = reader.next_frame(&mut points).unwrap();
    Picture {
        width: info.width as usize,
        height: info.height as usize,
        points,
    }
}

#[test]
fn the_picture_is_current() {
    let now = compose(&every_screen(&jobs::example("header-tank").draft));
    let path = root().join("host-sim/docs/gauge.png");
    if std::env::var_os("SEAMWRIGHT_REWRITE_SCREENS").is_some() {
        write_whole(&path, |out| {
            let mut encoder = png::Encoder::new(out, now.width as u32, now.height as u32);
            encoder.set_color(png::ColorType::Grayscale);
            encoder.set_depth(png::BitDepth::Eight);
            encoder.write_header()?.write_image_data(&now.points)?;
            Ok(())
        })
        .unwrap();
    }
    let shown = read(&path);
    assert_eq!((shown.width, shown.height), (now.width, now.height));
    assert!(
        shown.points == now.points,
        "host-sim/docs/gauge.png shows other screens: rewrite it and look at it"
    );
}
