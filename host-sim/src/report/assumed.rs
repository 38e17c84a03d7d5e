//! What was taken because the job does not say it.

use seamwright_core::tank::Assumed;
use seamwright_core::units::Length;

use super::model::{Section, Table, left, word};

pub(crate) fn section(assumed: &[Assumed]) -> Section {
    let rows = assumed.iter().map(|one| {
        let source = word("source", one.source());
        [
            word("key", one.field()),
            word("value", one),
            match one.rows() {
                // The thicknesses of the table's rows that it is from.
                Some(rows) => source.data("rows_m", rows.map(Length::si)),
                None => source,
            },
        ]
    });
    let table = Table::new([left("input"), left("value"), left("from")], rows).keyed("assumed");
    let mut section =
        Section::new("Taken as given, because the job does not say").on_sheet("Taken as given");
    section.table(Table {
        bare: true,
        ..table
    });
    section
}
