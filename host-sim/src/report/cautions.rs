//! What may hurt someone, in whole and with its source: shown before any pressure is named.

use seamwright_core::advice::caution::Caution;

use super::model::{Block, Notice, Section};

/// Each in whole, with its source.
pub(crate) fn section(cautions: &[Caution]) -> Section {
    let notice = |caution: &Caution| Notice {
        severity: caution.severity(),
        text: caution.whole().to_owned(),
        source: Some(caution.source()),
        code: caution.code(),
        told: false,
    };
    let all = cautions.iter().map(notice).collect();
    let mut section = Section::new("Cautions");
    section.add(Block::Notices(Some("cautions"), all));
    section
}
