//! The tanks of the demonstration, as jobs.

use seamwright_core::input::{Block, Cut, Draft, Shape, Sized, StockDraft};
use seamwright_core::tables::{Alloy, Temper};
pub(crate) use seamwright_tests::amounts::mm;
use seamwright_tests::jobs;

/// A box of aluminium, all else left to its defaults.
pub(crate) fn tank(
    name: &str,
    [length, width, height]: [f64; 3],
    thickness: f64,
    cuts: &[Cut],
) -> Draft {
    let mut draft = jobs::bare(
        name,
        Shape::Block(Block {
            sized: Sized::Outside,
            length: mm(length),
            width: mm(width),
            height: mm(height),
            cuts: cuts.iter().copied().collect(),
        }),
        StockDraft {
            alloy: "5754".parse::<Alloy>().expect("a known alloy"),
            temper: Some("H22".parse::<Temper>().expect("a known temper")),
            thickness: mm(thickness),
            faces: heapless::Vec::new(),
        },
    );
    draft.fill.pick_up = Some(mm(12.0));
    draft
}

/// A job of more stitches than an order may have.
pub(crate) fn many_stitches() -> Draft {
    jobs::read(jobs::MANY_STITCHES).draft
}

/// The three example jobs, with the short names of their pictures.
pub(crate) fn tanks() -> [(&'static str, Draft); 3] {
    [
        ("header", "header-tank"),
        ("splitter", "log-splitter-reservoir"),
        ("rinse", "rinse-tank"),
    ]
    .map(|(short, file)| (short, jobs::example(file).draft))
}
