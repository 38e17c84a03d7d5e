//! A drum in stretches along its axis.

use super::piece::Piece;
use super::{Compartments, TooManyPieces};
use crate::body::PlacedDrum;
use crate::body::turned::{Head, Turned};

impl Compartments {
    /// The stretches of a drum between baffles, each from one place on its axis to the next; the first and the last go
    /// on to the ends.
    pub(super) fn take_drum(
        &mut self,
        drum: &PlacedDrum,
        gaps: &[[f64; 2]],
    ) -> Result<(), TooManyPieces> {
        let start = drum.axis.along().dot(drum.start);
        let [first, second] = drum.turned.heads();
        for [from, to] in gaps {
            let (low, high) = (
                libm::fmax(from - start, 0.0),
                libm::fmin(to - start, drum.turned.length()),
            );
            let heads = [
                if from.is_finite() { Head::Flat } else { first },
                if to.is_finite() { Head::Flat } else { second },
            ];
            let Ok(turned) = Turned::new(drum.turned.radius(), high - low, heads) else {
                continue;
            };
            let piece = Piece::Turned(PlacedDrum {
                turned,
                start: drum.start + drum.axis.along() * low,
                axis: drum.axis,
            });
            self.pieces.push(piece).map_err(|_| TooManyPieces)?;
        }
        Ok(())
    }
}
