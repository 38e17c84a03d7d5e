//! Sources named once, by number.

use super::model::{Block, Section};

/// Sources in the order in which they were first cited.
#[derive(Debug, Default)]
pub(crate) struct Cited(Vec<&'static str>);

impl Cited {
    /// The mark of a source: `[2]`.
    pub(super) fn mark(&mut self, source: &'static str) -> String {
        let place = self.0.iter().position(|known| *known == source);
        let place = place.unwrap_or_else(|| {
            self.0.push(source);
            self.0.len() - 1
        });
        format!("[{}]", place + 1)
    }

    /// Whether any was cited.
    pub(crate) fn is_used(&self) -> bool {
        !self.0.is_empty()
    }

    /// The list.
    pub(crate) fn section(&self) -> Section {
        let mut section = Section::new("Sources");
        for (number, source) in (1..).zip(&self.0) {
            let mark = format!("[{number}]");
            section.add(Block::Line(format!("{mark:<4} {source}"), Some(7)));
        }
        section
    }
}
