//! Screens as PNG files.

use std::io::{self, Write};
use std::path::Path;

use seamwright_core::input::Draft;
use seamwright_firmware::buttons::{Button, Event};
use seamwright_firmware::frame::{Frame, HEIGHT, WIDTH};
use seamwright_firmware::gauge::{Gauge, Screen};
use seamwright_firmware::page::Page;
use tempfile::NamedTempFile;

/// How many picture points a display pixel becomes each way, unless said otherwise.
pub const SCALE: u32 = 4;
/// The largest scale: 4096 x 2048 points.
pub const MAX_SCALE: u32 = 32;

/// `frame` as a PNG, every pixel a square of `scale` points each way, its grey as the emulated
/// display shows it (17 times the level).
///
/// # Errors
/// Whatever `out` reports; a scale of 0 or over [`MAX_SCALE`].
pub fn png(frame: &Frame, scale: u32, out: impl Write) -> io::Result<()> {
    if scale == 0 || scale > MAX_SCALE {
        return Err(io::Error::new(
            io::ErrorKind::InvalidInput,
            format!("a scale is 1 to {MAX_SCALE}"),
        ));
    }
    let mut encoder = png::Encoder::new(out, WIDTH * scale, HEIGHT * scale);
    encoder.set_color(png::ColorType::Grayscale);
    encoder.set_depth(png::BitDepth::Eight);
    let mut writer = encoder.write_header()?;
    let mut points = Vec::new();
    for y in 0..HEIGHT {
        let row: Vec<u8> = (0..WIDTH)
            .flat_map(|x| std::iter::repeat_n(frame.level(x, y).unwrap_or(0) * 17, scale as usize))
            .collect();
        for _ in 0..scale {
            points.extend_from_slice(&row);
        }
    }
    writer.write_image_data(&points)?;
    writer.finish()?;
    Ok(())
}

/// Writes a whole file or none: a file half written is never seen under `path`.
///
/// # Errors
/// Whatever `fill` or the file system reports; `path` is then as it was.
pub fn write_whole(
    path: &Path,
    fill: impl FnOnce(&mut dyn Write) -> io::Result<()>,
) -> io::Result<()> {
    let directory = path
        .parent()
        .filter(|parent| !parent.as_os_str().is_empty())
        .unwrap_or(Path::new("."));
    let mut file = NamedTempFile::new_in(directory)?;
    {
        let mut buffered = io::BufWriter::new(file.as_file_mut());
        fill(&mut buffered)?;
        buffered.flush()?;
    }
    file.as_file().sync_all()?;
    allow_reading(file.as_file())?;
    file.persist(path).map_err(|error| error.error)?;
    Ok(())
}

/// A temporary file is its owner's alone; a picture is for anyone who may read the directory.
#[cfg(unix)]
fn allow_reading(file: &std::fs::File) -> io::Result<()> {
    use std::os::unix::fs::PermissionsExt;
    file.set_permissions(std::fs::Permissions::from_mode(0o644))
}

#[cfg(not(unix))]
fn allow_reading(_: &std::fs::File) -> io::Result<()> {
    Ok(())
}

/// A screen with a name fit for a file.
#[derive(Clone, Debug)]
pub struct Shot {
    /// `02-tank`, `05-seams-03`.
    pub name: String,
    /// What the display shows.
    pub frame: Frame,
}

/// Every screen of a gauge with this one job: the list, each page, each seam, each notice, a leak test as far as it is
/// led without readings, the settings.
#[must_use]
pub fn every_screen(draft: &Draft) -> Vec<Shot> {
    let mut gauge = Gauge::new();
    // An empty shelf has room for one.
    let _ = gauge.keep(draft);
    let mut shots = vec![shot(&gauge, 1, None)];
    gauge.handle(Event::Press(Button::Select));
    while gauge.has_thoughts() {
        gauge.think();
    }
    let mut number = 1;
    let mut page = None;
    while let Screen::Page(turned) = gauge.screen() {
        if page == Some(turned) {
            break;
        }
        page = Some(turned);
        number += 1;
        while gauge.is_working() {
            let _ = gauge.tick(0);
        }
        if matches!(
            turned,
            Page::Seams
                | Page::Stitches
                | Page::Order
                | Page::SetUp
                | Page::Filler
                | Page::Mass
                | Page::Strength
                | Page::Notices
        ) {
            shots.extend(each_choice(&mut gauge, number));
        } else if turned == Page::Leak {
            shots.extend(led(&mut gauge, number));
        } else {
            shots.push(shot(&gauge, number, None));
        }
        gauge.handle(Event::Press(Button::Right));
    }
    gauge.handle(Event::Hold);
    gauge.handle(Event::Press(Button::Down));
    gauge.handle(Event::Press(Button::Select));
    shots.push(shot(&gauge, number + 1, None));
    shots
}

/// More than any page has: an order has at most 256 stitches.
const MOST_CHOICES: usize = 300;

/// A page whose up and down choose among things: one shot for each, until the first shows again.
fn each_choice(gauge: &mut Gauge, number: usize) -> Vec<Shot> {
    let mut shots: Vec<Shot> = Vec::new();
    // The choice of another page may have come along.
    for _ in 1..=MOST_CHOICES {
        gauge.handle(Event::Press(Button::Up));
    }
    for choice in 1..=MOST_CHOICES {
        let next = shot(gauge, number, Some(choice));
        if shots.iter().any(|shot| shot.frame == next.frame) {
            break;
        }
        shots.push(next);
        gauge.handle(Event::Press(Button::Down));
    }
    shots
}

/// A leak test as the middle button leads through it, as far as its timer.
fn led(gauge: &mut Gauge, number: usize) -> Vec<Shot> {
    let mut shots: Vec<Shot> = Vec::new();
    // More than there are: two choices, some cautions, the plan, what to do, the timer.
    for choice in 1..=16 {
        let next = shot(gauge, number, Some(choice));
        if shots.iter().any(|shot| shot.frame == next.frame) {
            break;
        }
        shots.push(next);
        gauge.handle(Event::Press(Button::Select));
    }
    shots
}

fn shot(gauge: &Gauge, number: usize, choice: Option<usize>) -> Shot {
    let mut frame = Frame::new();
    let Ok(_) = gauge.draw(&mut frame);
    let screen = gauge.screen().name();
    let name = match choice {
        None => format!("{number:02}-{screen}"),
        Some(choice) => format!("{number:02}-{screen}-{choice:02}"),
    };
    Shot { name, frame }
}

#[cfg(test)]
mod tests {
    use super::*;
    use embedded_graphics::Pixel;
    use embedded_graphics::pixelcolor::Gray4;
    use embedded_graphics::prelude::*;

    #[test]
    fn a_png_holds_every_pixel_at_its_grey() {
        let mut frame = Frame::new();
        for (x, y, luma) in [(0, 0, 15), (127, 63, 3), (64, 10, 8)] {
            Pixel(Point::new(x, y), Gray4::new(luma))
                .draw(&mut frame)
                .unwrap();
        }
        let mut bytes = Vec::new();
        png(&frame, 3, &mut bytes).unwrap();
        let mut reader = png::Decoder::new(io::Cursor::new(bytes))
            .read_info()
            .unwrap();
        let mut points = vec![0; reader.output_buffer_size().unwrap()];
        let info = reader.next_frame(&mut points).unwrap();
        assert_eq!((info.width, info.height), (384, 192));
        for y in 0..192 {
            for x in 0..384 {
                let level = frame.level(x / 3, y / 3).unwrap();
                assert_eq!(points[(y * 384 + x) as usize], level * 17);
            }
        }
    }

    #[test]
    fn a_failed_write_leaves_the_old_file() {
        let directory = tempfile::tempdir().unwrap();
        let path = directory.path().join("a.png");
        write_whole(&path, |out| out.write_all(b"old")).unwrap();
        let failed = write_whole(&path, |out| {
            out.write_all(b"ne")?;
            Err(io::Error::other("no space"))
        });
        assert!(failed.is_err());
        assert_eq!(std::fs::read(&path).unwrap(), b"old");
        assert_eq!(
            std::fs::read_dir(directory.path()).unwrap().count(),
            1,
            "no litter"
        );
    }
}
