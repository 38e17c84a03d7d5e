//! Jobs for the unit tests.

use seamwright_core::input::{
    ArcDraft, Block, Cut, Draft, Face, FillDraft, JointsDraft, Shape, Sized, StockDraft, UseDraft,
    WeldDraft,
};
use seamwright_core::tables::Alloy;
use seamwright_core::units::{Length, LengthUnit};

/// Millimetres.
pub(crate) const fn mm(value: f64) -> Length {
    Length::new(value, LengthUnit::Millimetre)
}

/// A box of 304 x 204 x 104 mm in 2 mm sheet, 6 L to the brim, with its pick-up at 7.3 mm.
pub(crate) fn box_job(name: &str) -> Draft {
    Draft {
        name: name.try_into().unwrap(),
        shape: Shape::Block(Block {
            sized: Sized::Outside,
            length: mm(304.0),
            width: mm(204.0),
            height: mm(104.0),
            cuts: heapless::Vec::new(),
        }),
        stock: StockDraft {
            alloy: "5754".parse::<Alloy>().unwrap(),
            temper: None,
            thickness: mm(2.0),
            faces: heapless::Vec::new(),
        },
        joints: JointsDraft::default(),
        fittings: heapless::Vec::new(),
        baffles: heapless::Vec::new(),
        fill: FillDraft {
            pick_up: Some(mm(7.3)),
            ..FillDraft::default()
        },
        arc: ArcDraft::default(),
        weld: WeldDraft::default(),
        service: UseDraft::default(),
    }
}

/// The same with an edge cut off.
pub(crate) fn cut_job(faces: [Face; 2]) -> Draft {
    let mut job = box_job("cut");
    let legs = [mm(40.0); 2];
    let Shape::Block(block) = &mut job.shape else {
        panic!("a box is a block");
    };
    block.cuts.push(Cut::Edge { faces, legs }).unwrap();
    job
}
