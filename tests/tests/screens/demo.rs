//! The tanks of the demonstration, as jobs.

use seamwright::job_file::JobFile;
use seamwright_core::input::{
    ArcDraft, Block, Cut, Draft, FillDraft, JointsDraft, Shape, Sized, StockDraft, UseDraft,
    WeldDraft,
};
use seamwright_core::tables::{Alloy, Temper};
use seamwright_core::units::{Length, LengthUnit};

pub(crate) fn mm(value: f64) -> Length {
    Length::new(value, LengthUnit::Millimetre)
}

/// A box of aluminium, all else left to its defaults.
pub(crate) fn tank(
    name: &str,
    [length, width, height]: [f64; 3],
    thickness: f64,
    cuts: &[Cut],
) -> Draft {
    Draft {
        name: name.try_into().expect("a short name"),
        shape: Shape::Block(Block {
            sized: Sized::Outside,
            length: mm(length),
            width: mm(width),
            height: mm(height),
            cuts: cuts.iter().copied().collect(),
        }),
        stock: StockDraft {
            alloy: "5754".parse::<Alloy>().expect("a known alloy"),
            temper: Some("H22".parse::<Temper>().expect("a known temper")),
            thickness: mm(thickness),
            faces: heapless::Vec::new(),
        },
        joints: JointsDraft::default(),
        fittings: heapless::Vec::new(),
        baffles: heapless::Vec::new(),
        fill: FillDraft {
            pick_up: Some(mm(12.0)),
            ..FillDraft::default()
        },
        arc: ArcDraft::default(),
        weld: WeldDraft::default(),
        service: UseDraft::default(),
    }
}

/// The three example jobs, with the short names of their pictures.
pub(crate) fn tanks() -> [(&'static str, Draft); 3] {
    [
        ("header", "header-tank"),
        ("splitter", "log-splitter-reservoir"),
        ("rinse", "rinse-tank"),
    ]
    .map(|(short, file)| {
        let path = format!(
            "{}/../host-sim/examples/{file}.toml",
            env!("CARGO_MANIFEST_DIR")
        );
        match JobFile::open(&path) {
            Ok(job) => (short, job.draft),
            Err(error) => panic!("{path}: {error:?}"),
        }
    })
}
