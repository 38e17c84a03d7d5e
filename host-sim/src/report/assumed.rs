//! What was taken because the job does not say it.

use seamwright_core::tank::Assumed;

use super::model::{Section, Table, left, word};

pub(crate) fn section(assumed: &[Assumed]) -> Section {
    let rows = assumed.iter().map(|one| {
        [
            word("key", one.field()),
            word("value", one),
            word("source", one.source()),
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
