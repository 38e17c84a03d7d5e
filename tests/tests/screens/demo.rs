//! The tanks of the demonstration, as jobs.

use seamwright_core::body::{Block, Cut, Face, Sized};
use seamwright_core::job::{ArcDraft, Draft, FillDraft, JointsDraft, StockDraft, WeldDraft};
use seamwright_core::quantity::{Length, LengthUnit};
use seamwright_core::stock::{Alloy, Temper};

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
        shape: Block {
            sized: Sized::Outside,
            length: mm(length),
            width: mm(width),
            height: mm(height),
            cuts: cuts.iter().copied().collect(),
        },
        stock: StockDraft {
            alloy: "5754".parse::<Alloy>().expect("a known alloy"),
            temper: Some("H22".parse::<Temper>().expect("a known temper")),
            thickness: mm(thickness),
            faces: heapless::Vec::new(),
        },
        joints: JointsDraft::default(),
        fill: FillDraft {
            pick_up: Some(mm(12.0)),
            ..FillDraft::default()
        },
        arc: ArcDraft::default(),
        weld: WeldDraft::default(),
    }
}

/// The three tanks, with the short names of their pictures.
pub(crate) fn tanks() -> [(&'static str, Draft); 3] {
    let edge = |faces, leg| Cut::Edge {
        faces,
        legs: [mm(leg); 2],
    };
    let corner = |faces, leg| Cut::Corner {
        faces,
        legs: [mm(leg); 3],
    };
    [
        (
            "header",
            tank(
                "Header tank, heating loop of a canal boat",
                [320.0, 180.0, 160.0],
                2.0,
                &[edge([Face::Top, Face::Front], 45.0)],
            ),
        ),
        (
            "splitter",
            tank(
                "Log splitter, hydraulic reservoir",
                [450.0, 300.0, 280.0],
                3.0,
                &[
                    corner([Face::Right, Face::Front, Face::Top], 90.0),
                    edge([Face::Bottom, Face::Left], 60.0),
                ],
            ),
        ),
        (
            "rinse",
            tank("Rinse-water tank", [1200.0, 500.0, 600.0], 3.0, &[]),
        ),
    ]
}
