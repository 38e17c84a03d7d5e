//! Where each key of a job file stood, so that an error of the calculation points back at it.

use std::collections::BTreeMap;
use std::ops::Range;

/// Places by path: `shape.length`, `shape.cut.2.legs`.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Spans(BTreeMap<String, Range<usize>>);

impl Spans {
    pub(super) fn put(&mut self, path: String, span: Range<usize>) {
        self.0.insert(path, span);
    }

    /// The place of `path`, if the file gives just that.
    #[must_use]
    pub fn exact(&self, path: &str) -> Option<Range<usize>> {
        self.0.get(path).cloned()
    }

    /// The place of `path`, or of the nearest table around it that the file has.
    #[must_use]
    pub fn find(&self, path: &str) -> Option<Range<usize>> {
        let mut path = path;
        loop {
            if let Some(span) = self.0.get(path) {
                return Some(span.clone());
            }
            path = path.rsplit_once('.')?.0;
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_missing_key_falls_back_to_its_table() {
        let mut spans = Spans::default();
        spans.put("shape".into(), 1..2);
        spans.put("shape.cut.2".into(), 3..4);
        assert_eq!(spans.find("shape.length"), Some(1..2));
        assert_eq!(spans.find("shape.cut.2.legs"), Some(3..4));
        assert_eq!(spans.find("shape.cut.1.legs"), Some(1..2));
        assert_eq!(spans.find("arc.current"), None);
    }
}
