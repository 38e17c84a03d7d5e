//! A closed outline, borrowed: what it measures and what it encloses.

use super::error::OutlineError;
use super::extents::Extents;
use super::node::{Node, Placing, Point};
use super::side::Side;

/// A closed outline over nodes that someone else holds, moved by a placing. Costs no copy.
#[derive(Clone, Copy, Debug)]
pub struct Ring<'a> {
    nodes: &'a [Node],
    placing: Placing,
}

impl<'a> Ring<'a> {
    /// From its nodes, counter-clockwise, of which the last leads back to the first.
    ///
    /// # Errors
    ///
    /// Fewer than two nodes, a number that is not finite, a side without length, a clockwise or empty
    /// outline, a spike, or sides that cross; never [`OutlineError::TooManyNodes`].
    pub fn new(nodes: &'a [Node]) -> Result<Self, OutlineError> {
        let found = count(nodes.len());
        if found < 2 {
            return Err(OutlineError::TooFewNodes { found });
        }
        for (node, n) in nodes.iter().zip(0_u32..) {
            if !(node.x.is_finite() && node.y.is_finite() && node.bulge.is_finite()) {
                return Err(OutlineError::NotFinite { node: n });
            }
        }
        let ring = Self::of(nodes);
        for (side, n) in ring.sides().zip(0_u32..) {
            if side.from.touches(side.to) {
                return Err(OutlineError::NoSide { node: n });
            }
        }
        let area = ring.area();
        if !(area > 0.0 && area.is_finite()) {
            return Err(OutlineError::NotCounterClockwise);
        }
        if let Some(node) = ring.spike() {
            return Err(OutlineError::Spike { node: count(node) });
        }
        match ring.crossing() {
            None => Ok(ring),
            Some(sides) => Err(OutlineError::Crossing {
                sides: sides.map(count),
            }),
        }
    }

    /// Unchecked.
    pub(crate) const fn of(nodes: &'a [Node]) -> Self {
        Self {
            nodes,
            placing: Placing::STAY,
        }
    }

    /// The same outline where `placing` takes its nodes to.
    #[must_use]
    pub const fn placed(self, placing: Placing) -> Self {
        Self { placing, ..self }
    }

    /// Its sides, in order.
    pub fn sides(&self) -> impl Iterator<Item = Side> + use<'a> {
        let (nodes, placing) = (self.nodes, self.placing);
        let next = nodes.iter().cycle().skip(1);
        nodes.iter().zip(next).map(move |(from, to)| Side {
            from: placing.point(from.point()),
            to: placing.point(to.point()),
            bulge: from.bulge,
        })
    }

    /// One side, counted from 0.
    pub(crate) fn side(&self, n: usize) -> Option<Side> {
        let from = self.nodes.get(n)?;
        let to = self.nodes.get(n + 1).or_else(|| self.nodes.first())?;
        Some(Side {
            from: self.placing.point(from.point()),
            to: self.placing.point(to.point()),
            bulge: from.bulge,
        })
    }

    pub(super) fn len(&self) -> usize {
        self.nodes.len()
    }

    /// The area it encloses, in square metres: the polygon of its nodes by the shoelace formula, and a
    /// circular segment for each arc.
    #[must_use]
    pub fn area(&self) -> f64 {
        // From the first node, so that a part far from the origin keeps its figures.
        let Some(base) = self.side(0).map(|side| side.from) else {
            return 0.0;
        };
        let sum = |total, side: Side| {
            let triangle = 0.5 * base.to(side.from).cross(base.to(side.to));
            total + triangle + side.segment_area()
        };
        self.sides().fold(0.0, sum)
    }

    /// Its length, in metres.
    #[must_use]
    pub fn perimeter(&self) -> f64 {
        self.sides().map(|side| side.length()).sum()
    }

    /// The smallest upright rectangle around it, arcs included; `None` where it has no nodes.
    #[must_use]
    pub fn extents(&self) -> Option<Extents> {
        self.sides()
            .map(|side| side.extents())
            .reduce(|a, b| Extents {
                least: Point::new(
                    libm::fmin(a.least.x, b.least.x),
                    libm::fmin(a.least.y, b.least.y),
                ),
                most: Point::new(
                    libm::fmax(a.most.x, b.most.x),
                    libm::fmax(a.most.y, b.most.y),
                ),
            })
    }

    /// Whether `point` lies inside. Of points on the outline itself some count as inside and some do not.
    #[must_use]
    pub fn contains(&self, point: Point) -> bool {
        self.sides()
            .map(|side| side.ray_crossings(point))
            .sum::<u32>()
            % 2
            == 1
    }

    /// Whether `point` lies inside and no nearer to the outline than a touch.
    pub(super) fn contains_deep(&self, point: Point) -> bool {
        self.contains(point)
            && self
                .sides()
                .all(|side| side.distance(point) > 2.0 * super::TOUCH)
    }
}

/// The area of an outline in square metres, its triangles counted about the origin and each arc's segment
/// by its radius.
// [`Ring::area`] counts about the first node and takes the segment by the bulge: the same area, but not
// the same last bit, and the masses of panels are printed from this one.
pub(crate) fn area_about_origin(nodes: &[Node]) -> f64 {
    let next = nodes.iter().skip(1).chain(nodes.first());
    nodes.iter().zip(next).fold(0.0, |sum, (a, b)| {
        let chord = 0.5 * (a.x * b.y - b.x * a.y);
        if a.bulge == 0.0 {
            return sum + chord;
        }
        let sweep = 4.0 * libm::atan(a.bulge);
        let width = libm::hypot(b.x - a.x, b.y - a.y);
        let radius = 0.5 * width / libm::sin(0.5 * sweep);
        sum + chord + 0.5 * radius * radius * (sweep - libm::sin(sweep))
    })
}

fn count(n: usize) -> u32 {
    u32::try_from(n).unwrap_or(u32::MAX)
}
