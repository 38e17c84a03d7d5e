//! Edges of baffles that are held from outside, by plug welds through their wall.
//!
//! A plug is planned as the length of a fillet between the same sheets that takes as much metal as its hole: so much rod, so much
//! time of the arc and so much heat. What it bears is that of the baffle's edge across its hole, fused through; the holes
//! themselves are laid out by [`PlugWelds`].

use core::f64::consts::PI;

use super::Tank;
use crate::body::Path;
use crate::build::{EdgeRemedies, PlugWelds};
use crate::geom::Vector;
use crate::input::Face;
use crate::seam::{Division, Seam};
use crate::units::Length;

/// The plug welds of a seam.
type Row = fn(&Tank, &Seam) -> Option<PlugRow>;

/// Plug welds, and how each counts along its seam.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct PlugRow {
    welds: PlugWelds,
    /// The length of a fillet with as much metal as all of them.
    filled: Length,
    division: Division,
}

/// Of the room that each has along the seam, it is planned over no more than this share.
const WITHIN: f64 = 0.99;

/// How plugs are laid out: a program whose tanks have none, as a small gauge's, does not hold it.
#[derive(Clone, Copy, Debug, Default)]
pub(crate) struct PlugRows(Option<Row>);

impl PartialEq for PlugRows {
    fn eq(&self, other: &Self) -> bool {
        self.0.is_some() == other.0.is_some()
    }
}

/// A hole in a wall for a plug weld.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PlugHole {
    /// The baffle that is held, counted from 1.
    pub baffle: u8,
    /// The wall.
    pub wall: Face,
    /// Its centre, on the inside of the wall.
    pub centre: Vector,
    /// Its diameter.
    pub diameter: Length,
}

impl PlugRows {
    /// A tank without.
    pub(crate) const NONE: Self = Self(None);
    /// A tank that may have some.
    pub(crate) const SOME: Self = Self(Some(row));
}

/// Lays the plugs of a seam out.
fn row(tank: &Tank, seam: &Seam) -> Option<PlugRow> {
    let [wall, Face::Baffle(number)] = seam.faces else {
        return None;
    };
    let place = usize::from(number).checked_sub(1)?;
    if !tank.inner.baffles().get(place)?.is_plugged(wall) {
        return None;
    }
    let thickness = tank.job.thickness_of(wall);
    let pitch = tank.job.tack_pitch(seam.thinner);
    let welds = EdgeRemedies::of(seam.length, thickness, pitch).plugs?;
    let hole = 0.25 * PI * welds.diameter.si() * welds.diameter.si() * thickness.si();
    let bead = tank.bead_along(seam, seam.length)?.ok()?;
    let filled = hole / bead.section().si();
    // Never over the next one: what is more goes into rod and time, and the seam is heated as if welded through.
    let room = seam.length.si() / f64::from(welds.count);
    let length = libm::fmin(filled, WITHIN * room);
    Some(PlugRow {
        welds,
        filled: Length::from_metres(f64::from(welds.count) * filled),
        division: Division {
            count: welds.count,
            length: Length::from_metres(length),
            pitch: Length::from_metres(room),
            lead: Length::from_metres(0.5 * (room - length)),
        },
    })
}

impl Tank {
    /// The plug welds by which an edge of a baffle is held; `None` of any other seam.
    #[must_use]
    pub fn plug_welds(&self, seam: &Seam) -> Option<PlugWelds> {
        self.plugged(seam).map(|row| row.welds)
    }

    /// How they count as stitches.
    pub(crate) fn plugs_divided(&self, seam: &Seam) -> Option<Division> {
        self.plugged(seam).map(|row| row.division)
    }

    /// The length of a fillet that takes as much metal.
    pub(crate) fn plugs_filled(&self, seam: &Seam) -> Option<Length> {
        self.plugged(seam).map(|row| row.filled)
    }

    fn plugged(&self, seam: &Seam) -> Option<PlugRow> {
        self.plugs.0.and_then(|row| row(self, seam))
    }

    /// Whether a wall holds a baffle, counted from 1, by plugs.
    pub(crate) fn is_plugged(&self, number: u8, wall: Face) -> bool {
        let place = usize::from(number).checked_sub(1);
        let baffle = place.and_then(|place| self.inner.baffles().get(place));
        baffle.is_some_and(|baffle| baffle.is_plugged(wall))
    }

    /// The holes of all plug welds, seam by seam, each from its first end.
    pub fn plug_holes(&self) -> impl Iterator<Item = PlugHole> {
        self.seams().zip(0..).flat_map(move |(seam, place)| {
            let welds = self.plug_welds(&seam);
            let edge = self.edge_of_seam(place);
            let both = welds
                .zip(edge)
                .filter(|(_, edge)| edge.path == Path::Straight);
            let hole = both.and_then(|(welds, edge)| {
                let [wall, Face::Baffle(baffle)] = seam.faces else {
                    return None;
                };
                let way = (edge.ends[1] - edge.ends[0]).unit()?;
                Some((welds, edge.ends[0], way, wall, baffle))
            });
            hole.into_iter()
                .flat_map(|(welds, start, way, wall, baffle)| {
                    (0..welds.count).map(move |n| PlugHole {
                        baffle,
                        wall,
                        centre: start + way * (welds.first.si() + f64::from(n) * welds.pitch.si()),
                        diameter: welds.diameter,
                    })
                })
        })
    }
}
