//! The panel that is put on last where nothing within has a say in it.

use super::stage::PanelSet;
use crate::blank::{Groups, PanelMark};
use crate::input::limits::MAX_FACES;
use crate::tank::Tank;
use crate::tank::within::of_walls;
use crate::units::Length;

impl Tank {
    /// The panel that is put on last where nothing stands within: of those without which some wall still stands joined to
    /// another, the one whose seams lie highest on average; of equals the one with the shortest seams, then the last.
    /// `None` where every panel is joined to all others, as the wrapper of two ends is, and there is no other.
    pub(super) fn highest_lid(&self) -> Option<PanelMark> {
        let panels = self.plan().groups().count();
        // Each seam is worked out once: on a gauge that is what costs.
        let mut all = [Joined::NONE; MAX_FACES];
        let mut seams = 0_u16;
        for (seam, at) in self.seams().zip(0..) {
            if !seam.welded || !of_walls(&seam) {
                continue;
            }
            seams += 1;
            let height = self.height_of_seam(at, seam.length);
            for (panel, place) in all.iter_mut().zip(0..) {
                if seam.mark.panels.contains(&PanelMark::at(place)) {
                    panel.seams += 1;
                    panel.length += seam.length.si();
                    panel.moment += seam.length.si() * height;
                }
            }
        }
        let mut best = None;
        let (mut highest, mut shortest) = (f64::NEG_INFINITY, f64::INFINITY);
        // By a margin, so that rounding does not choose between equals.
        const MARGIN: f64 = 1e-6;
        for (panel, place) in all.iter().zip(0..panels) {
            let Joined { length, moment, .. } = *panel;
            // Without it, nothing would be joined.
            if panel.seams == seams || !(length > 0.0) {
                continue;
            }
            let mean = moment / length;
            let higher = mean > highest + MARGIN;
            let as_high = mean > highest - MARGIN;
            if higher || (as_high && length <= shortest + MARGIN) {
                highest = libm::fmax(highest, mean);
                shortest = length;
                best = Some(PanelMark::at(place));
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
        let mut all = [Joined::NONE; MAX_FACES];
        let mut seams = 0_u16;
        for seam in self.seams().filter(of_walls) {
            let [a, b] = seam.mark.panels;
            seams += u16::from(seam.welded);
            for (panel, place) in all.iter_mut().zip(0..) {
                let mark = PanelMark::at(place);
                if a == mark || b == mark {
                    panel.seams += u16::from(seam.welded);
                    if a != b {
                        panel.length += seam.length.si();
                    }
                }
            }
        }
        let mut longest = 0.0;
        let mut wrapper = None;
        for (panel, place) in all.iter().zip(0..groups.count()) {
            if panel.length > longest * (1.0 + 1e-9) {
                longest = panel.length;
                wrapper = Some((place, panel.seams));
            }
        }
        if let Some((wrapper, own)) = wrapper
            && own == seams
        {
            for place in (0..groups.count()).filter(|place| *place != wrapper) {
                others.add(PanelMark::at(place));
            }
        }
        others
    }
}

/// The seams between walls that a panel has part in.
#[derive(Clone, Copy)]
struct Joined {
    /// How many are welded.
    seams: u16,
    /// Their length, in m.
    length: f64,
    /// The sum of their lengths by their heights, in m².
    moment: f64,
}

impl Joined {
    const NONE: Self = Self {
        seams: 0,
        length: 0.0,
        moment: 0.0,
    };
}
