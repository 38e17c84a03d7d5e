//! What to mind, one notice at a time.

use core::fmt::Write;

use embedded_graphics::draw_target::DrawTarget;
use embedded_graphics::pixelcolor::Gray4;
use seamwright_core::advice::notice::{Notice, Severity};
use seamwright_core::tank::Tank;

use super::parts::{Prose, Reading, title};
use crate::buttons::Step;
use crate::page::IsPage;
use crate::pen::Pen;
use crate::work::Work;

/// The page of the notices, and how far they have been read.
#[derive(Debug)]
pub struct NoticesPage {
    read: Reading,
}

impl IsPage for NoticesPage {
    const NAME: &'static str = "notices";
    const NEW: Self = Self {
        read: Reading::START,
    };

    fn start(&mut self, _: &Tank) {
        self.read = Reading::START;
    }

    #[inline(never)]
    fn draw<D>(&self, pen: &mut Pen<'_, D>, work: &Work<'_>) -> Result<(), D::Error>
    where
        D: DrawTarget<Color = Gray4>,
    {
        let read = self.read;
        let (Some(notice), count) = nth(work.tank(), read.piece) else {
            return title(pen, "No notices");
        };
        let word = match notice.severity() {
            Severity::Info => "Note",
            Severity::Caution => "Caution",
            Severity::Warning => "Warning",
        };
        let mut heading = heapless::String::<24>::new();
        let _ = write!(heading, "{word} {}/{count}", read.piece + 1);
        title(pen, &heading)?;
        Prose::of(notice).draw(pen, notice.code(), read.part)
    }

    fn step(&mut self, step: Step, work: &mut Work<'_>) {
        self.read = if step.up {
            before(work.tank(), self.read)
        } else {
            after(work.tank(), self.read)
        };
    }
}

/// The next screenful: of the same notice, or the first of the next one; the last stays.
fn after(tank: &Tank, read: Reading) -> Reading {
    let (notice, count) = nth(tank, read.piece);
    if read.part + 1 < parts(notice) {
        Reading {
            part: read.part + 1,
            ..read
        }
    } else if read.piece + 1 < count {
        Reading {
            piece: read.piece + 1,
            part: 0,
        }
    } else {
        read
    }
}

/// The screenful before: of the same notice, or the last of the one before; the first stays.
fn before(tank: &Tank, read: Reading) -> Reading {
    match (read.part.checked_sub(1), read.piece.checked_sub(1)) {
        (Some(part), _) => Reading { part, ..read },
        (None, Some(piece)) => Reading {
            piece,
            part: parts(nth(tank, piece).0).saturating_sub(1),
        },
        (None, None) => read,
    }
}

/// One notice, and how many there are.
fn nth(tank: &Tank, place: usize) -> (Option<Notice>, usize) {
    let (mut found, mut count) = (None, 0);
    tank.each_notice(|notice| {
        if count == place {
            found = Some(notice);
        }
        count += 1;
    });
    (found, count)
}

/// Screenfuls of a notice.
fn parts(notice: Option<Notice>) -> usize {
    notice.map_or(0, |notice| Prose::of(notice).parts())
}
