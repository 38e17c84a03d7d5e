//! What the walls of a tank bear together, as it is kept for all that is asked of them.

use heapless::Vec;

use super::super::compliance::Compliance;
use super::super::elastic::ElasticPeak;
use super::bearing::Trial;
use crate::input::Face;
use crate::input::limits::MAX_FACES;
use crate::units::Length;

/// Seams that are told apart at the most.
const SEAMS: usize = 60;

/// Elastic stress of a drum's ends under 1 Pa, each with that of the shell beside it.
pub(super) type Rims = [[ElasticPeak; 2]; 2];

/// What the walls of a tank bear together: of flat ones the moments that their seams hand on, of a drum the elastic stress
/// of its ends and of the shell beside them. Some 3 KiB.
///
/// [`Tank::bearing`](crate::tank::Tank::bearing) and [`Tank::seam_bearing`](crate::tank::Tank::seam_bearing) find it anew
/// each time; whoever asks for more than one wall or seam finds it once.
#[derive(Clone, Debug, PartialEq)]
pub struct JoinedWalls {
    pub(super) trial: Trial,
    pub(super) shares: Shares,
    pub(super) compliance: Compliance,
    /// Of 1 Pa.
    pub(super) rims: Option<Rims>,
}

impl JoinedWalls {
    /// What they are tried with.
    #[must_use]
    pub const fn trial(&self) -> Trial {
        self.trial
    }

    /// By how much the inside grows with the pressure in it, up to what the weakest wall takes: the stiffness of a cold tank in a
    /// test, of a hot one in use.
    #[must_use]
    pub const fn compliance(&self) -> Compliance {
        self.compliance
    }
}

/// What a wall bears as one of the welded tank.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct WallShare {
    pub(super) face: Face,
    /// The highest stress of what it is tried with.
    pub(super) stress: f64,
    /// The highest stress at the edge of a hole; none where it has no hole.
    pub(super) hole: f64,
    /// The largest bulge of it, in metres.
    pub(super) bulge: f64,
    /// A hole in it is too wide for that.
    pub(super) wide_hole: bool,
    /// The sheet that gives it the reserve that is wanted, where it has not.
    pub(super) mended: Option<Length>,
    /// An even pressure that leaves it [`TEST_RESERVE`](super::TEST_RESERVE), in pascals: of the weakest wall the most, of the
    /// others what the weakest takes.
    pub(super) takes: f64,
    /// The share of what it may bear in a test that it does under the pressure last tried.
    pub(super) used: f64,
    /// It was among those that were tried with that.
    pub(super) close: bool,
    /// Its edges bear more than what lies between them, in all its parts.
    pub(super) edges_rule: bool,
}

impl WallShare {
    /// A wall of which nothing is known.
    pub(super) const fn of(face: Face) -> Self {
        Self {
            face,
            stress: 0.0,
            hole: 0.0,
            bulge: 0.0,
            wide_hole: false,
            mended: None,
            takes: 0.0,
            used: 0.0,
            close: false,
            edges_rule: true,
        }
    }
}

/// The highest moment along the seams between two faces.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct SeamShare {
    pub(super) faces: [Face; 2],
    pub(super) moment: f64,
}

/// What walls and seams bear, each as part of the welded tank.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Shares {
    /// Some wall is no rectangle, so that all figures are at most.
    pub(super) at_most: bool,
    /// The volume that all walls sweep under the pressure that the weakest takes, in m³ for each Pa of it: by stretching
    /// and bending, and by bending alone.
    pub(super) swept: [f64; 2],
    pub(super) walls: Vec<WallShare, MAX_FACES>,
    pub(super) seams: Vec<SeamShare, SEAMS>,
}

impl Shares {
    pub(super) const NONE: Self = Self {
        at_most: false,
        swept: [0.0; 2],
        walls: Vec::new(),
        seams: Vec::new(),
    };

    pub(super) fn wall(&self, face: Face) -> Option<&WallShare> {
        self.walls.iter().find(|wall| wall.face == face)
    }

    pub(super) fn wall_of(&mut self, face: Face) -> Option<&mut WallShare> {
        self.walls.iter_mut().find(|wall| wall.face == face)
    }

    /// The highest moment along the seams between two faces, in N·m/m.
    pub(super) fn moment(&self, faces: [Face; 2]) -> Option<f64> {
        let [a, b] = faces;
        let same = |seam: &&SeamShare| seam.faces == [a, b] || seam.faces == [b, a];
        self.seams.iter().find(same).map(|seam| seam.moment)
    }
}
