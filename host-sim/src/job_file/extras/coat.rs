//! What the sheet is coated with.

use seamwright_core::advice::process::CoatedSheet;
use seamwright_core::input::limits;
use seamwright_core::tables::Coating;
use seamwright_core::units::range::Value as Shown;

use super::super::reader::{Reader, Section};
use super::limits::kept;
use crate::diagnostics::Problem;

/// `coating` and `coating_removed` of `[stock]`.
pub(in super::super) fn read<'t>(
    reader: &mut Reader<'t>,
    stock: &Section<'t>,
) -> Option<CoatedSheet> {
    let coating = reader.word::<Coating>(stock, "coating");
    let bare = kept(
        reader,
        stock,
        "coating_removed",
        limits::COATING_REMOVED,
        Shown::Length,
    );
    if let (Some(span), false) = (stock.place("coating_removed"), stock.has("coating")) {
        let problem = Problem::new(span, "`stock.coating_removed` is of no coating")
            .label("which coating is not known")
            .help("add coating = \"galvanised\" or \"painted\", or take this out");
        reader.problem(problem);
    }
    coating.map(|coating| CoatedSheet { coating, bare })
}
