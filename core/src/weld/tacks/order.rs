//! The order in which a tank is tacked.

use super::super::stages::WeldStage;
use super::tacking::{SeamTacks, Tack, Tacking};
use crate::blank::PanelMark;
use crate::body::Path;
use crate::input::Face;
use crate::seam::Seam;
use crate::tank::Tank;
use crate::tank::within::of_walls;
use crate::units::Length;

/// The tacks of a tank in the order of tacking.
#[derive(Debug)]
pub struct TackOrder<'a> {
    tank: &'a Tank,
    tacking: &'a mut Tacking,
}

impl TackOrder<'_> {
    /// The largest pull to one side so far, 0 to about 1: the first moment of the tacks made in a turn, about the
    /// middle of all of that turn, over the sum of their lengths by their distances. The measure is that of
    /// [`crate::weld::OrderTotals::pull`], turn by turn: a panel that is not there cannot be pulled.
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
    /// The tacks of all seams in the order of tacking: baffles before the walls about them, the panel that closes
    /// the tank last; in each of these ends of seams first, then the longest open stretches halved, opposite sides in
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
        let closing = self.closing_panel();
        for (seam, place) in self.seams().zip(0_u8..=u8::MAX) {
            if let Some(tacks) = self.tacks(&seam) {
                let edge = self.edge_of_seam(usize::from(place));
                let round = edge.is_some_and(|edge| matches!(edge.path, Path::Round(_)));
                tacking.push(SeamTacks::new(place, turn(&seam, closing), tacks, round));
            }
        }
        tacking.set_arms(|seam| self.edge_of_seam(usize::from(seam)));
        TackOrder {
            tank: self,
            tacking,
        }
    }

    /// The panel that is put on last: of those without which some wall still stands joined to another, the one whose
    /// seams lie highest on average; of equals the one with the shortest seams, then the last. `None` where every
    /// panel is joined to all others, as the wrapper of two ends is, and there is no other.
    #[must_use]
    pub fn closing_panel(&self) -> Option<PanelMark> {
        let panels = self.plan().groups().count();
        let mut best = None;
        let (mut highest, mut shortest) = (f64::NEG_INFINITY, f64::INFINITY);
        // By a margin, so that rounding does not choose between equals.
        const MARGIN: f64 = 1e-6;
        for place in 0..panels {
            let mark = PanelMark::at(place);
            let (mut length, mut moment, mut apart) = (0.0, 0.0, false);
            for (seam, at) in self.seams().zip(0..) {
                if !seam.welded || !of_walls(&seam) {
                    continue;
                }
                if seam.mark.panels.contains(&mark) {
                    length += seam.length.si();
                    moment += seam.length.si() * self.height_of_seam(at, seam.length);
                } else {
                    apart = true;
                }
            }
            if !apart || !(length > 0.0) {
                continue;
            }
            let mean = moment / length;
            let higher = mean > highest + MARGIN;
            let as_high = mean > highest - MARGIN;
            if higher || (as_high && length <= shortest + MARGIN) {
                highest = libm::fmax(highest, mean);
                shortest = length;
                best = Some(mark);
            }
        }
        best
    }

    /// Half way between the points at its quarters: its middle if it is straight, its centre if it is a circle.
    fn height_of_seam(&self, place: usize, length: Length) -> f64 {
        let Some(edge) = self.edge_of_seam(place) else {
            return 0.0;
        };
        let [a, b] = [0.25, 0.75].map(|share| edge.at(Length::from_metres(share * length.si())));
        0.5 * (a.z + b.z)
    }
}

/// When the tacks of a seam are due. A baffle's seam with the panel that closes the tank waits for that panel; a
/// fitting is tacked into its panel before.
fn turn(seam: &Seam, closing: Option<PanelMark>) -> WeldStage {
    let has = |wanted: fn(&Face) -> bool| seam.faces.iter().any(wanted);
    let fitting = has(|face| matches!(face, Face::Fitting(_)));
    let closes = closing.is_some_and(|panel| seam.mark.panels.contains(&panel));
    if closes && !fitting {
        WeldStage::Closing
    } else if has(|face| matches!(face, Face::Baffle(_))) {
        WeldStage::Within
    } else {
        WeldStage::Body
    }
}
