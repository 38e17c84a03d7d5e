//! Where two faces of a body meet.

use super::{ArcPath, Path};
use crate::geom::Vector;
use crate::input::Face;
use crate::units::{Angle, Length};

/// Where two faces meet.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Edge {
    /// The two faces, in the order in which panels are listed; the shell twice where a drum's wall
    /// meets itself.
    pub faces: [Face; 2],
    /// Its ends; start to end runs along the positive sense of the axis it follows most. Where the
    /// corners beside it are rounded, the ends lie half way round them.
    pub ends: [Vector; 2],
    /// The angle inside the body between the two faces: 90° on a box, above 180° at an inside corner.
    pub dihedral: Angle,
    /// How it runs between its ends.
    pub path: Path,
    /// Radius, on this surface, of the corner that the two faces make; zero where it is sharp. The ends
    /// of a rounded corner are those of the sharp one.
    pub radius: Length,
}

impl Edge {
    /// Its length, turns included.
    #[must_use]
    pub fn length(&self) -> Length {
        let [start, end] = self.straight();
        let straight = (end - start).length();
        Length::from_metres(match self.path {
            Path::Straight => straight,
            Path::Rounded(turns) => {
                straight + turns.iter().flatten().map(ArcPath::length).sum::<f64>()
            }
            Path::Round(turn) => turn.length(),
        })
    }

    /// The ends of its straight part; its own ends where it is straight all along.
    #[must_use]
    pub fn straight(&self) -> [Vector; 2] {
        let [start, end] = self.ends;
        match self.path {
            Path::Rounded([before, after]) => [
                before.map_or(start, |turn| turn.at(turn.sweep)),
                after.map_or(end, |turn| turn.at(0.0)),
            ],
            Path::Straight | Path::Round(_) => [start, end],
        }
    }

    /// The point at `from_start` along it.
    #[must_use]
    pub fn at(&self, from_start: Length) -> Vector {
        let mut rest = from_start.si();
        let on = |turn: &ArcPath, rest: f64| turn.at(rest / turn.radius);
        let (before, after) = match &self.path {
            Path::Straight => (None, None),
            Path::Rounded([before, after]) => (before.as_ref(), after.as_ref()),
            Path::Round(turn) => return on(turn, rest),
        };
        if let Some(turn) = before {
            if rest < turn.length() {
                return on(turn, rest);
            }
            rest -= turn.length();
        }
        let [start, end] = self.straight();
        let whole = (end - start).length();
        if let Some(turn) = after
            && rest > whole
        {
            return on(turn, rest - whole);
        }
        let share = if whole > 0.0 { rest / whole } else { 0.0 };
        start + (end - start) * share
    }
}
