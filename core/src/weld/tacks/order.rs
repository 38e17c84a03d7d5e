//! The order in which a tank is tacked.

use super::tacking::{SeamTacks, Tack, Tacking};
use crate::body::Path;
use crate::input::Face;
use crate::tank::Tank;

/// The tacks of a tank in the order of tacking.
#[derive(Debug)]
pub struct TackOrder<'a> {
    tank: &'a Tank,
    tacking: &'a mut Tacking,
}

impl TackOrder<'_> {
    /// The largest pull to one side so far, 0 to about 1: the first moment of the tacks made in a stage, about the
    /// middle of all of that stage, over the sum of their lengths by their distances. The measure is that of
    /// [`crate::weld::OrderTotals::pull`], stage by stage: a panel that is not there cannot be pulled.
    #[must_use]
    pub fn pull(&self) -> f64 {
        self.tacking.most()
    }

    /// The pull to one side if each stage were tacked seam by seam, each from its start to its end, in the order of
    /// [`Tank::seams`]: for comparison.
    #[must_use]
    pub fn pull_seam_by_seam(&self) -> f64 {
        let edge_of = |seam: u8| self.tank.edge_of_seam(usize::from(seam));
        self.tacking.seam_by_seam(&edge_of)
    }
}

impl Iterator for TackOrder<'_> {
    type Item = Tack;

    fn next(&mut self) -> Option<Tack> {
        let tank = self.tank;
        let edge_of = |seam: u8| tank.edge_of_seam(usize::from(seam));
        self.tacking.next(edge_of)
    }
}

impl Tank {
    /// The tacks of all seams in the order of tacking: stage by stage of building, in each ends of seams first, then the longest open stretches halved, opposite sides in
    /// turn. Common practice, no source; the same every time. `tacking` is written over.
    ///
    /// ```
    /// # use seamwright_core::prelude::*;
    /// # use seamwright_core::weld::Tacking;
    /// # let mm = |value| Length::new(value, LengthUnit::Millimetre);
    /// # let outside = Block::new(mm(320.0), mm(180.0), mm(160.0));
    /// # let draft = Draft::new("Header tank", outside, StockDraft::of(Alloy::A5754, mm(2.0)))?;
    /// # let tank = Tank::build(&draft)?;
    /// let mut tacking = Tacking::new();
    /// let order = tank.tack_order(&mut tacking);
    /// assert!(order.pull() < order.pull_seam_by_seam());
    /// # Ok::<(), Box<dyn core::error::Error>>(())
    /// ```
    pub fn tack_order<'a>(&'a self, tacking: &'a mut Tacking) -> TackOrder<'a> {
        tacking.clear();
        let build = self.build_order();
        for ((seam, place), stages) in self.seams().zip(0_u8..=u8::MAX).zip(build.seams()) {
            // What nothing reaches is not tacked either.
            if !stages.is_unreached()
                && let Some(tacks) = self.tacks(&seam)
            {
                let pulls = !matches!(seam.faces, [_, Face::Fitting(_)]);
                let edge = self.edge_of_seam(usize::from(place));
                let round = edge.is_some_and(|edge| matches!(edge.path, Path::Round(_)));
                tacking.push(SeamTacks::new(place, (stages.joined, pulls), tacks, round));
            }
        }
        tacking.set_arms(|seam| self.edge_of_seam(usize::from(seam)));
        TackOrder {
            tank: self,
            tacking,
        }
    }
}
