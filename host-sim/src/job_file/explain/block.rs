//! What is wrong with the cuts of a block.

use seamwright_core::body::BlockError;
use seamwright_core::input::{Cut, Shape};

use super::{Given, short};
use crate::diagnostics::Problem;

impl Given<'_> {
    /// A block that is none, shown at the cut or the size to blame.
    pub(super) fn block(&self, error: BlockError) -> Problem {
        let cut_at = |cut: u8| self.place(&format!("shape.cut.{cut}"));
        let key_at = |cut: u8, key: &str| self.place(&format!("shape.cut.{cut}.{key}"));
        match error {
            BlockError::Flat => Problem::new(self.place("shape"), "the block has no size")
                .label("length, width and height must all be above zero")
                .help("write three sizes above zero"),
            BlockError::NoSuchEdge { cut, faces: [a, b] } => {
                Problem::new(key_at(cut, "edge"), format!("cut {cut} names no edge of the box"))
                    .label(format!("{a} and {b} do not meet"))
                    .help("name two faces that meet, such as \"top back\" or \"left front\"")
            }
            BlockError::NoSuchCorner { cut } => {
                Problem::new(key_at(cut, "corner"), format!("cut {cut} names no corner of the box"))
                    .label("these three faces do not meet in one point")
                    .help("name left or right, then front or back, then bottom or top, such as \"right back top\"")
            }
            BlockError::NoDirection { cut } => {
                Problem::new(key_at(cut, "normal"), format!("cut {cut} has no direction"))
                    .label("all three are zero, or too small to tell")
                    .help("the normal points out of the metal: [0, 0, 1] is up, [0, 1, 1] is back and up")
            }
            BlockError::RemovesNothing { cut, clearance } => {
                let problem = Problem::new(cut_at(cut), format!("cut {cut} removes nothing"))
                    .label(format!("its plane passes {} outside the body", short(clearance)));
                if self.is_plane(cut) {
                    problem.help(format!(
                        "move its point inward by more than {}, or leave the cut out",
                        short(clearance)
                    ))
                } else {
                    problem.help("an earlier cut took this away already: use longer legs, or leave this cut out")
                }
            }
            BlockError::RemovesAll { cut } => {
                let problem = Problem::new(cut_at(cut), format!("cut {cut} removes the whole body"));
                if self.is_plane(cut) {
                    problem
                        .label("all of it lies on the outer side of this plane")
                        .help("the normal points out of what is kept: change the signs of all three, or move the point outward")
                } else {
                    problem
                        .label("its legs reach past all that is there")
                        .help("use shorter legs")
                }
            }
            BlockError::Swallowed { cut, by } => Problem::new(
                cut_at(cut),
                format!("cut {by} takes away the whole face of cut {cut}"),
            )
            .label(format!("nothing is left of cut {cut}"))
            .related(cut_at(by), format!("cut {by}"))
            .help(format!("leave cut {cut} out, or make cut {by} smaller")),
            BlockError::SheetFillsBox { outside, sheet, face } => {
                let across = face.axis().and_then(|axis| ["length", "width", "height"].get(axis).copied());
                let across = across.unwrap_or("size");
                let problem = Problem::new(self.place("stock.thickness"), "the sheet eats the inside")
                    .label(format!(
                        "two sheets take {} of the {across}, which is {}",
                        short(sheet),
                        short(outside)
                    ))
                    .help(format!("use a thinner sheet or a larger {across}"));
                match self.spans.exact(&format!("shape.{across}")) {
                    Some(span) => problem.related(span, format!("the {across}")),
                    None => problem,
                }
            }
            BlockError::SheetFillsCut { cut } => Problem::new(cut_at(cut), "the sheet eats the inside")
                .label(format!("nothing is left between cut {cut} and the sheets across from it"))
                .help("use a thinner sheet or a smaller cut"),
            BlockError::Covered { face } => {
                let own = format!("stock.faces.{face}");
                let (span, _) = self.key_or_shape(&own);
                Problem::new(span, format!("no {face} is left outside"))
                    .label(format!("the thinner sheets beside the {face} close over it"))
                    .help("bring the thicknesses closer together, or change the cut that leaves so little of this face")
            }
            BlockError::TooComplex { cut } => {
                Problem::new(cut_at(cut), format!("the body is too intricate from cut {cut} on"))
                    .label("more than 16 faces, 40 corners or 40 edges")
                    .help("leave out the cuts that matter least")
            }
        }
    }

    fn is_plane(&self, cut: u8) -> bool {
        let place = usize::from(cut).checked_sub(1);
        let Shape::Block(block) = &self.draft.shape else {
            return false;
        };
        let cut = place.and_then(|place| block.cuts.get(place));
        matches!(cut, Some(Cut::Plane { .. }))
    }
}
