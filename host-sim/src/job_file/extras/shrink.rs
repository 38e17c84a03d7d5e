//! What blanks are cut larger for.

use seamwright_core::input::limits;
use seamwright_core::supply::Draw;
use seamwright_core::units::range::Value as Shown;

use super::super::reader::{Reader, Section};
use super::super::words::YesNo;
use super::limits::kept;
use crate::diagnostics::Problem;

/// `shrink_allowance` and `shrink_by` of `[weld]`.
pub(super) fn read<'t>(reader: &mut Reader<'t>, weld: &Section<'t>) -> Option<Draw> {
    let wanted = reader.word::<YesNo>(weld, "shrink_allowance");
    let by = kept(reader, weld, "shrink_by", limits::SHRINK_BY, Shown::Length);
    let wanted = wanted.is_some_and(bool::from);
    if let (Some(span), false) = (weld.place("shrink_by"), wanted) {
        let problem = Problem::new(span, "`weld.shrink_by` is of no allowance")
            .label("nothing is cut larger")
            .help("add shrink_allowance = \"yes\", or take this out");
        reader.problem(problem);
    }
    wanted.then(|| by.map_or(Draw::ByRule, Draw::By))
}
