//! A set of walls.

use super::Face;

/// Some of the walls of a body, in four bytes: a small machine keeps several.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct WallSet(u32);

/// Bits from here on are cuts'.
const CUTS: u32 = 6;
/// Bits from here on are sides'.
const SIDES: u32 = 14;
/// The bit of a drum's shell.
const SHELL: u32 = 31;

impl WallSet {
    /// None.
    pub const NONE: Self = Self(0);

    /// The bit of a wall: 0 to 5 for the six of a box in the order of [`Face::BOX`], 6 to 13 for cuts, 14 to 30 for sides,
    /// 31 for a shell; none for what is no wall.
    const fn bit(wall: Face) -> u32 {
        let place = match wall {
            Face::Front => 0,
            Face::Back => 1,
            Face::Left => 2,
            Face::Right => 3,
            Face::Bottom => 4,
            Face::Top => 5,
            Face::Cut(n @ 1..=8) => CUTS + n as u32 - 1,
            Face::Side(n @ 1..=17) => SIDES + n as u32 - 1,
            Face::Shell => SHELL,
            Face::Cut(_) | Face::Side(_) | Face::Baffle(_) | Face::Fitting(_) => return 0,
        };
        1 << place
    }

    /// Adds a wall; what is no wall is not added.
    pub const fn add(&mut self, wall: Face) {
        self.0 |= Self::bit(wall);
    }

    /// Whether a wall is among them.
    #[must_use]
    pub const fn has(self, wall: Face) -> bool {
        self.0 & Self::bit(wall) != 0
    }

    /// Whether there is none.
    #[must_use]
    pub const fn is_empty(self) -> bool {
        self.0 == 0
    }

    /// All of them: those of a box, cuts, sides, the shell.
    pub fn walls(self) -> impl Iterator<Item = Face> {
        let cuts = (1..=8).map(Face::Cut);
        let sides = (1..=17).map(Face::Side);
        let all = Face::BOX.into_iter().chain(cuts).chain(sides);
        all.chain([Face::Shell]).filter(move |wall| self.has(*wall))
    }
}

impl FromIterator<Face> for WallSet {
    fn from_iter<I: IntoIterator<Item = Face>>(walls: I) -> Self {
        let mut set = Self::NONE;
        for wall in walls {
            set.add(wall);
        }
        set
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::input::limits::{MAX_CUTS, MAX_SIDES};

    #[test]
    fn every_wall_has_a_bit_of_its_own() {
        let all = WallSet(u32::MAX);
        assert_eq!(all.walls().count(), 32);
        assert!(all.has(Face::Cut(MAX_CUTS as u8)) && all.has(Face::Side(MAX_SIDES as u8)));
        for wall in all.walls() {
            let one = WallSet::from_iter([wall]);
            assert!(
                one.walls().eq([wall]) && one.0.count_ones() == 1,
                "{wall:?}"
            );
        }
        assert!(WallSet::from_iter([Face::Baffle(1), Face::Fitting(2)]).is_empty());
    }
}
