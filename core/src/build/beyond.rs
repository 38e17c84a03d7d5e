//! How an edge of a baffle may be held where no torch reaches it: by plugs or slots welded through the wall from outside,
//! by a short weld here and there, or not at all.
//!
//! Plugs and slots are proportioned by ANSI/AISC 360-16, J2.3b, which is for structural steel and taken here as a guide (from
//! memory); the largest pitch is that of the tacks, common practice, no source.

use crate::fitting::PLAY;
use crate::geom::split::pieces;
use crate::units::Length;

/// Plug welds through a wall, in one row along an edge.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct PlugWelds {
    /// How many.
    pub count: u16,
    /// Diameter of each hole in the wall.
    pub diameter: Length,
    /// From centre to centre; zero for a single one.
    pub pitch: Length,
    /// From the edge's first end to the first centre.
    pub first: Length,
}

/// Slot welds through a wall, in one row along an edge.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct SlotWelds {
    /// How many.
    pub count: u16,
    /// Across each slot in the wall; its ends are round.
    pub width: Length,
    /// Length of each.
    pub length: Length,
    /// From centre to centre; zero for a single one.
    pub pitch: Length,
    /// From the edge's first end to the first centre.
    pub first: Length,
}

/// What shops do with an edge that nothing reaches.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct EdgeRemedies {
    /// Plug welds through the wall; `None` where the edge is too short for one.
    pub plugs: Option<PlugWelds>,
    /// Slot welds through the wall; `None` where the edge is too short for one.
    pub slots: Option<SlotWelds>,
    /// Play between the edge and the wall where it is left loose, so that neither rubs: common practice, no source.
    pub clearance: Length,
}

/// A hole is wider than the wall is thick by this much: AISC 360-16, J2.3b(c), 5/16 in (from memory).
const WIDER: f64 = 0.008;
/// Centres of plugs stand at least this many diameters apart: AISC 360-16, J2.3b(b) (from memory).
const PLUGS_APART: f64 = 4.0;
/// A slot is at most this many times as long as the weld is deep: AISC 360-16, J2.3b(d) (from memory). Welds through sheet
/// fill their slot, so that is the thickness of the wall.
const SLOT_LENGTH: f64 = 10.0;
/// Centres of slots stand at least this many lengths apart along their line: AISC 360-16, J2.3b(f) (from memory).
const SLOTS_APART: f64 = 2.0;

impl EdgeRemedies {
    /// For an edge of a length against a wall of a thickness, with holes at most `pitch` apart where they may be.
    #[must_use]
    pub fn of(edge: Length, wall: Length, pitch: Length) -> Self {
        let diameter = wall.si() + WIDER;
        let plugs = row(edge.si(), diameter, PLUGS_APART * diameter, pitch.si());
        // A slot is never shorter than it is wide.
        let length = libm::fmax(SLOT_LENGTH * wall.si(), diameter);
        let slots = row(edge.si(), length, SLOTS_APART * length, pitch.si());
        let metres = Length::from_metres;
        Self {
            plugs: plugs.map(|row| PlugWelds {
                count: row.count,
                diameter: metres(diameter),
                pitch: metres(row.pitch),
                first: metres(row.first),
            }),
            slots: slots.map(|row| SlotWelds {
                count: row.count,
                width: metres(diameter),
                length: metres(length),
                pitch: metres(row.pitch),
                first: metres(row.first),
            }),
            clearance: metres(PLAY),
        }
    }
}

/// Holes in a row, in m.
struct HoleRow {
    count: u16,
    pitch: f64,
    first: f64,
}

/// Holes of a length along an edge, their outer ends a length in from the edge's own, `least` to `most` apart; where both
/// cannot be kept, `least` is.
fn row(edge: f64, length: f64, least: f64, most: f64) -> Option<HoleRow> {
    let run = edge - 3.0 * length;
    if !(run >= 0.0) {
        let single = HoleRow {
            count: 1,
            pitch: 0.0,
            first: 0.5 * edge,
        };
        // One alone in the middle, if it leaves its own length at both ends.
        return (edge >= 3.0 * length - 1e-12).then_some(single);
    }
    let by_most = pieces(run, libm::fmax(most, least));
    let gaps = libm::fmin(libm::fmax(by_most, 1.0), libm::floor(run / least));
    if !(gaps >= 1.0) {
        return Some(HoleRow {
            count: 1,
            pitch: 0.0,
            first: 0.5 * edge,
        });
    }
    // Twenty metres of edge at 32 mm and more: below a thousand.
    Some(HoleRow {
        count: gaps as u16 + 1,
        pitch: run / gaps,
        first: 1.5 * length,
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::LengthUnit;

    fn mm(value: f64) -> Length {
        Length::new(value, LengthUnit::Millimetre)
    }

    /// By hand, through 2 mm: holes of 10 mm at least 40 mm apart; slots of 20 mm by 10 mm at least 40 mm apart.
    #[test]
    fn plugs_and_slots_by_hand() {
        let remedies = EdgeRemedies::of(mm(250.0), mm(2.0), mm(70.0));
        let plugs = remedies.plugs.expect("room for plugs");
        assert_eq!(plugs.count, 5);
        assert!((plugs.diameter.si() - 0.010).abs() < 1e-12);
        assert!((plugs.pitch.si() - 0.055).abs() < 1e-12);
        assert!((plugs.first.si() - 0.015).abs() < 1e-12);
        let slots = remedies.slots.expect("room for slots");
        assert_eq!(slots.count, 4);
        assert!((slots.length.si() - 0.020).abs() < 1e-12);
        assert!(slots.pitch.si() >= 0.040);
    }

    /// No pitch asked for brings them nearer than they may stand, and a short edge has one or none.
    #[test]
    fn never_nearer_than_allowed() {
        for edge in [20.0, 29.0, 31.0, 60.0, 69.0, 71.0, 500.0] {
            for pitch in [1.0, 35.0, 1_000.0] {
                let remedies = EdgeRemedies::of(mm(edge), mm(2.0), mm(pitch));
                let Some(plugs) = remedies.plugs else {
                    assert!(edge < 30.0, "{edge}");
                    continue;
                };
                assert!(plugs.count == 1 || plugs.pitch.si() >= 0.040 - 1e-12);
                let last = plugs.first.si() + f64::from(plugs.count - 1) * plugs.pitch.si();
                assert!(last + 0.5 * plugs.diameter.si() < 1e-3 * edge);
            }
        }
    }
}
