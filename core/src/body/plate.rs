//! The form of a plate in its own plane, and how much of it lies below a line.

use core::f64::consts::PI;

use heapless::Vec;

use crate::geom::outline::polygon;
use crate::geom::outline::section::{Section, crosses, off};

/// Corners of a plate with straight sides.
pub(crate) const MAX_PLATE_CORNERS: usize = 16;

/// A flat form: coordinates in metres.
#[derive(Clone, Debug, PartialEq)]
pub enum FlatForm {
    /// Corners, counter-clockwise.
    Corners(Vec<[f64; 2], MAX_PLATE_CORNERS>),
    /// An outline with rounded corners.
    Outline(Section),
    /// A disc.
    Disc {
        /// Its centre.
        centre: [f64; 2],
        /// Its radius.
        radius: f64,
    },
}

/// Area of the part of a disc that lies below the line `dir · p = level` (unit `dir`): the circular
/// segment `R² acos(1 − h/R) − (R − h) √(2Rh − h²)`, h from the lowest point.
pub(crate) fn disc_below(centre: [f64; 2], radius: f64, dir: [f64; 2], level: f64) -> f64 {
    let high = level - (dir[0] * centre[0] + dir[1] * centre[1]);
    if high <= -radius {
        return 0.0;
    }
    if high >= radius {
        return PI * radius * radius;
    }
    let half = libm::acos(-high / radius);
    radius * radius * half + high * libm::sqrt(radius * radius - high * high)
}

impl FlatForm {
    /// Its area.
    #[must_use]
    pub fn area(&self) -> f64 {
        match self {
            Self::Corners(corners) => polygon::area(corners),
            Self::Outline(section) => section.area(),
            Self::Disc { radius, .. } => PI * radius * radius,
        }
    }

    /// The area below the line `dir · p = level`, for a unit `dir`.
    #[must_use]
    pub fn below(&self, dir: [f64; 2], level: f64) -> f64 {
        match self {
            Self::Corners(corners) => polygon::area_below(corners, dir, level),
            Self::Outline(section) => section.below(dir, level).area,
            Self::Disc { centre, radius } => disc_below(*centre, *radius, dir, level),
        }
    }

    /// The lowest and the highest that it reaches along a unit `dir`; an outline's rounded corners count as
    /// sharp.
    #[must_use]
    pub(crate) fn span(&self, dir: [f64; 2]) -> [f64; 2] {
        let mut ends = [f64::INFINITY, f64::NEG_INFINITY];
        let mut see = |at: f64| ends = [libm::fmin(ends[0], at), libm::fmax(ends[1], at)];
        let along = |p: [f64; 2]| dir[0] * p[0] + dir[1] * p[1];
        match self {
            Self::Corners(corners) => corners.iter().for_each(|p| see(along(*p))),
            Self::Outline(section) => (0..section.len()).for_each(|at| see(along(section.at(at)))),
            Self::Disc { centre, radius } => {
                see(along(*centre) - radius);
                see(along(*centre) + radius);
            }
        }
        ends
    }

    /// How far a point lies inside its rim; below zero outside.
    #[must_use]
    pub fn inside(&self, point: [f64; 2]) -> f64 {
        match self {
            Self::Corners(corners) => {
                let next = corners.iter().skip(1).chain(corners.first());
                let (mut odd, mut least) = (false, f64::INFINITY);
                for (a, b) in corners.iter().zip(next) {
                    let (from, run) = (
                        [point[0] - a[0], point[1] - a[1]],
                        [b[0] - a[0], b[1] - a[1]],
                    );
                    odd ^= crosses(from, run);
                    least = libm::fmin(least, off(from, run));
                }
                if odd { least } else { -least }
            }
            Self::Outline(section) => section.inside(point),
            Self::Disc { centre, radius } => {
                radius - libm::hypot(point[0] - centre[0], point[1] - centre[1])
            }
        }
    }
}
