//! What is said of a wall: what it is tried with, what it bears, and what would mend it.

use super::super::elastic::ElasticPeak;
use super::super::panel::Spacing;
use crate::input::Face;
use crate::units::{Length, Pressure};

/// The reserve against yield that is wanted in use: pressure vessels may be stressed to two thirds of
/// yield (ASME II part D, appendix 1, from memory).
pub const RESERVE: f64 = 1.5;
/// The reserve wanted in a test: 0.8 of yield under air (ASME VIII-2, 4.1.6, from memory), taken for water too.
pub const TEST_RESERVE: f64 = 1.25;

/// What the walls are tried with.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum Trial {
    /// Full to the brim at the worst lean, shaken, and under the pressure that the cap holds.
    Use,
    /// The same gauge pressure everywhere within.
    Test(Pressure),
}

impl Trial {
    /// The reserve that is wanted in it.
    #[must_use]
    pub const fn wanted(self) -> f64 {
        match self {
            Self::Use => RESERVE,
            Self::Test(_) => TEST_RESERVE,
        }
    }
}

/// What a face was taken as.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum WallForm {
    /// A flat plate, held at its edges.
    Plate,
    /// A plate across the inside, with liquid on one side only.
    Baffle,
    /// A plate across the inside with a free edge, as strips between two opposite walls: it bears more than that.
    Strips,
    /// The wall of a cylinder.
    Cylinder,
    /// A dished end.
    Dish,
    /// A flat round end.
    Disc,
}

impl WallForm {
    /// The words for it.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Plate => "flat plate",
            Self::Baffle => "baffle",
            Self::Strips => "strips",
            Self::Cylinder => "cylinder",
            Self::Dish => "dished end",
            Self::Disc => "flat disc",
        }
    }
}

/// What would give a face the reserve that is wanted.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Cure {
    /// The sheet that gives it, all else as it is.
    pub thickness: Length,
    /// How far apart baffles or stiffeners may stand across its long side; `None` for a round wall.
    pub spacing: Option<Spacing>,
}

/// How a face bears what it is tried with.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Bearing {
    /// Which.
    pub face: Face,
    /// What it was taken as.
    pub form: WallForm,
    /// Its sheet.
    pub thickness: Length,
    /// The highest pressure on it, at one corner of its rectangle.
    pub pressure: Pressure,
    /// The highest stress as a wall of the welded tank, whose seams carry the moments of the walls on both of their sides:
    /// this rules. `None` where it was looked at by itself.
    pub joined: Option<Pressure>,
    /// The largest bulge as such a wall, stretching counted.
    pub joined_bulge: Option<Length>,
    /// Some wall of the tank is no rectangle, and one that encloses it stands for it: the stress is no more than `joined`.
    pub at_most: bool,
    /// The highest stress of it by itself, edges held from turning and free to turn. Of a round wall the same twice.
    pub stress: [Pressure; 2],
    /// The bulge of the same two by bending alone; of a cylinder what its radius grows, twice; `None` of a
    /// dished end.
    pub bulge: Option<[Length; 2]>,
    /// The bulge of the same two where the edges cannot pull inward and the sheet stretches.
    pub bulge_held: Option<[Length; 2]>,
    /// The highest stress of a short stretch of it, where that is known: at a hole, at a rim, in a knuckle.
    pub elastic: Option<ElasticPeak>,
    /// It has a hole too wide beside it for the stress at its edge to be known.
    pub wide_hole: bool,
    /// Yield strength beside a weld over the stress that rules: that of the welded tank, or else the higher one of those by
    /// itself; no more than [`ElasticPeak::reserve`].
    pub reserve: f64,
    /// An even pressure that leaves it [`TEST_RESERVE`]: where flat walls bear together that of the weakest of them, which all
    /// others take too; `None` of a baffle, which a test presses on both
    /// sides.
    pub takes: Option<Pressure>,
    /// It has an inside corner, at which this says nothing.
    pub inside_corner: bool,
    /// A dished end so thin that it may wrinkle at the knuckle before it yields.
    pub may_wrinkle: bool,
    /// What would mend it; `None` where it has the reserve that is wanted.
    pub cure: Option<Cure>,
}

/// Past this share of its thickness a bulging sheet stretches as well as bends: common practice, no source.
const STRETCHES: f64 = 0.5;

impl Bearing {
    /// Whether it has the reserve that is wanted in a trial.
    #[must_use]
    pub fn is_enough(&self, trial: Trial) -> bool {
        self.reserve >= trial.wanted()
    }

    /// The stress that rules.
    #[must_use]
    pub fn ruling_stress(&self) -> Pressure {
        let [_, higher] = self.stress_range();
        self.joined.unwrap_or(higher)
    }

    /// The highest stress by itself, the lower one of edges held from turning and free to turn first.
    #[must_use]
    pub fn stress_range(&self) -> [Pressure; 2] {
        let [held, free] = self.stress;
        if held <= free {
            [held, free]
        } else {
            [free, held]
        }
    }

    /// How far a sheet that bulges past half its thickness does so where its edges cannot pull inward, so that it
    /// stretches too: edges held from turning and free to turn. `None` of one that bulges less.
    #[must_use]
    pub fn stretched_bulge(&self) -> Option<[Length; 2]> {
        let [_, free] = self.bulge?;
        let stretches = free.si() > STRETCHES * self.thickness.si();
        self.bulge_held.filter(|_| stretches)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn enough_stress_and_stretch_of_a_wall() {
        let length = |mm: f64| Length::from_metres(1e-3 * mm);
        let stress = |mpa: f64| Pressure::from_pascals(1e6 * mpa);
        let wall = |free: f64, reserve| Bearing {
            face: Face::Front,
            form: WallForm::Plate,
            thickness: length(2.0),
            pressure: Pressure::default(),
            joined: None,
            joined_bulge: None,
            at_most: false,
            stress: [stress(40.0), stress(30.0)],
            bulge: Some([length(0.2), length(free)]),
            bulge_held: Some([length(0.2), length(0.8)]),
            elastic: None,
            wide_hole: false,
            reserve,
            takes: None,
            inside_corner: false,
            may_wrinkle: false,
            cure: None,
        };
        let (stiff, soft) = (wall(1.0, RESERVE), wall(1.1, 1.4));
        assert!(stiff.is_enough(Trial::Use) && !soft.is_enough(Trial::Use));
        assert!(soft.is_enough(Trial::Test(Pressure::default())));
        assert_eq!(stiff.stress_range(), [stress(30.0), stress(40.0)]);
        assert_eq!(stiff.stretched_bulge(), None);
        assert_eq!(soft.stretched_bulge(), soft.bulge_held);
    }
}
