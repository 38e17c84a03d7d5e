//! The seam that is chosen: one choice for all pages that show a seam.

use core::fmt::Write;

use seamwright_core::seam::Seam;

use super::reading::along;
use crate::buttons::Step;
use crate::work::Work;

/// Signs of a heading beside the marks of the pages.
const MOST_HEADING: usize = 15;

/// The seam that is chosen.
pub(crate) fn chosen(work: &Work<'_>) -> Option<Seam> {
    work.tank().seams().nth(work.seam())
}

/// Chooses the seam above or below.
pub(crate) fn choose(step: Step, work: &mut Work<'_>) {
    let seam = along(work.seam(), step.up, work.tank().seam_count());
    work.choose_seam(seam);
}

/// A word, the seam's mark, and its place in the list.
pub(crate) fn heading(word: &str, seam: &Seam, work: &Work<'_>) -> heapless::String<40> {
    let mut heading = heapless::String::new();
    let count = work.tank().seam_count();
    let _ = write!(heading, "{word} {} {}/{count}", seam.mark, work.seam() + 1);
    // Beside the marks of the pages there is room for so much; what counts is the seam's own mark.
    if heading.len() > MOST_HEADING {
        heading.clear();
        let _ = write!(heading, "{word} {}", seam.mark);
    }
    heading
}
