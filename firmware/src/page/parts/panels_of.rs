//! The panels of a tank that bear what it holds.

use seamwright_core::input::Face;
use seamwright_core::tank::Tank;

/// How many walls and baffles there are.
pub(crate) fn count(tank: &Tank) -> usize {
    faces(tank).count()
}

/// The walls, and then the baffles.
pub(crate) fn faces(tank: &Tank) -> impl Iterator<Item = Face> + '_ {
    // At most four.
    let baffles = tank.inner().baffles().len() as u8;
    let walls = tank.body().outside.faces().map(|view| view.face());
    walls.chain((1..=baffles).map(Face::Baffle))
}
