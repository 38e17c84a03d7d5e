//! The panel that is put on last where nothing within has a say in it.

use super::stage::PanelSet;
use crate::blank::{Groups, PanelMark};
use crate::tank::Tank;
use crate::tank::within::of_walls;
use crate::units::Length;

impl Tank {
    /// The panel that is put on last where nothing stands within: of those without which some wall still stands joined to
    /// another, the one whose seams lie highest on average; of equals the one with the shortest seams, then the last.
    /// `None` where every panel is joined to all others, as the wrapper of two ends is, and there is no other.
    pub(super) fn highest_lid(&self) -> Option<PanelMark> {
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

    /// The panels that close the tank where one carries all others, as a wrapper does its ends: those others. None where no
    /// panel has part in every seam between two.
    pub(super) fn all_but_the_wrapper(&self, groups: &Groups) -> PanelSet {
        let mut others = PanelSet::NONE;
        let Some(wrapper) = self.wrapper(groups) else {
            return others;
        };
        let apart = |seam: &crate::seam::Seam| {
            of_walls(seam) && seam.welded && !seam.mark.panels.contains(&wrapper)
        };
        if self.seams().any(|seam| apart(&seam)) {
            return others;
        }
        for place in 0..groups.count() {
            let mark = PanelMark::at(place);
            if mark != wrapper {
                others.add(mark);
            }
        }
        others
    }

    /// The panel whose seams with others are longest; of equals the first.
    fn wrapper(&self, groups: &Groups) -> Option<PanelMark> {
        let mut longest = 0.0;
        let mut found = None;
        for place in 0..groups.count() {
            let mark = PanelMark::at(place);
            let own = self.seams().filter(|seam| {
                let [a, b] = seam.mark.panels;
                of_walls(seam) && a != b && (a == mark || b == mark)
            });
            let length: f64 = own.map(|seam| seam.length.si()).sum();
            if length > longest * (1.0 + 1e-9) {
                longest = length;
                found = Some(mark);
            }
        }
        found
    }
}
