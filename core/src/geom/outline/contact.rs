//! Where outlines touch, cross and overlap.

use super::side::Arc;
use super::{Extents, Point, Ring, Side, TOUCH};

/// Sine of the least angle at which an arc is said to cross another side; below it they are tangent, and
/// what lies beyond is less than a touch on any radius a tank has.
const TANGENT: f64 = 1e-4;

/// Sine of the least angle between two directions that are told apart at a shared point.
const SAME_DIRECTION: f64 = 1e-9;

impl Ring<'_> {
    /// Two sides of the outline that cross each other, counted from 0. Sides that only touch do not cross,
    /// and neither do the two sides of a slit without width.
    #[must_use]
    pub fn crossing(&self) -> Option<[usize; 2]> {
        let sides = || self.sides().enumerate();
        for (i, a) in sides() {
            for (j, b) in sides().skip(i + 1) {
                if near(&a, &b) && sides_cross(&a, &b) {
                    return Some([i, j]);
                }
            }
        }
        let last = self.len().checked_sub(1)?;
        for (j, out) in sides() {
            let before = j.checked_sub(1).unwrap_or(last);
            let incoming = self.side(before)?;
            let corner = [reversed(incoming.direction(1.0)), out.direction(0.0)];
            for (i, side) in sides().filter(|(i, _)| *i != j && *i != before) {
                // A corner on the end of a side lies on the start of the next, which is also asked.
                if !holds(&side.about(), out.from)
                    || side.to.touches(out.from)
                    || side.distance(out.from) > TOUCH
                {
                    continue;
                }
                let through = if side.from.touches(out.from) {
                    let previous = self.side(i.checked_sub(1).unwrap_or(last))?;
                    [reversed(previous.direction(1.0)), side.direction(0.0)]
                } else {
                    let direction = side.direction(side.share_of(out.from));
                    [reversed(direction), direction]
                };
                if passes(corner, through) {
                    return Some([i, j]);
                }
            }
        }
        None
    }

    /// The first corner, counted from 0, at which a straight side turns straight back on itself.
    pub(super) fn spike(&self) -> Option<usize> {
        let mut before = self.side(self.len().checked_sub(1)?)?;
        self.sides().position(|side| {
            let found = folds_back(&before, &side);
            before = side;
            found
        })
    }

    /// Whether the insides of the two have more than a touch in common. Outlines that meet along an edge
    /// or in a corner do not overlap.
    #[must_use]
    pub fn overlaps(&self, other: &Ring<'_>) -> bool {
        let (Some(mine), Some(theirs)) = (self.extents(), other.extents()) else {
            return false;
        };
        mine.meets(&theirs)
            && (self.enters(other) || other.enters(self) || self.covers_inside(other))
    }

    /// Whether some piece of this outline lies inside `other`. Each side is cut where the other outline
    /// meets it; a piece between two cuts lies wholly inside, outside or along it, so its middle tells.
    fn enters(&self, other: &Ring<'_>) -> bool {
        self.sides().any(|side| {
            let least = TOUCH / side.length();
            let mut start = 0.0;
            loop {
                let end = other
                    .sides()
                    .filter(|cutting| near(&side, cutting))
                    .map(|cutting| next_contact(&side, &cutting, start + least))
                    .fold(1.0, libm::fmin);
                if other.contains_deep(side.at(0.5 * (start + end))) {
                    return true;
                }
                if !(end < 1.0) {
                    return false;
                }
                start = end;
            }
        })
    }

    /// Whether a point just inside this outline lies inside `other` too: for two outlines that run along
    /// each other all the way.
    fn covers_inside(&self, other: &Ring<'_>) -> bool {
        self.sides().any(|side| {
            let direction = side.direction(0.5);
            let left = Point::new(-direction.y, direction.x);
            let inside = side.at(0.5).moved(left, 8.0 * TOUCH);
            self.contains_deep(inside) && other.contains_deep(inside)
        })
    }
}

fn reversed(step: Point) -> Point {
    Point::new(-step.x, -step.y)
}

/// Whether the rectangles around two sides come within a touch of each other.
fn near(a: &Side, b: &Side) -> bool {
    meet(&a.about(), &b.about()) && meet(&a.extents(), &b.extents())
}

/// Whether a point lies in a rectangle or within two touches of it.
fn holds(a: &Extents, point: Point) -> bool {
    let slack = 2.0 * TOUCH;
    a.least.x - slack <= point.x
        && point.x <= a.most.x + slack
        && a.least.y - slack <= point.y
        && point.y <= a.most.y + slack
}

fn meet(a: &Extents, b: &Extents) -> bool {
    a.least.x <= b.most.x + TOUCH
        && b.least.x <= a.most.x + TOUCH
        && a.least.y <= b.most.y + TOUCH
        && b.least.y <= a.most.y + TOUCH
}

/// Whether two sides pass through each other away from their ends.
fn sides_cross(a: &Side, b: &Side) -> bool {
    if a.arc().is_none() && b.arc().is_none() {
        let parts = |line: &Side, other: &Side| {
            let direction = line.direction(0.0);
            let from = direction.cross(line.from.to(other.from));
            let to = direction.cross(line.from.to(other.to));
            (from > TOUCH && to < -TOUCH) || (from < -TOUCH && to > TOUCH)
        };
        return parts(a, b) && parts(b, a);
    }
    let apart = |point: Point| {
        [a.from, a.to, b.from, b.to]
            .iter()
            .all(|end| end.to(point).length() > 2.0 * TOUCH)
    };
    common_points(a, b).into_iter().flatten().any(|point| {
        a.distance(point) <= TOUCH
            && b.distance(point) <= TOUCH
            && apart(point)
            && libm::fabs(
                a.direction(a.share_of(point))
                    .cross(b.direction(b.share_of(point))),
            ) > TANGENT
    })
}

/// Whether a straight side runs back over the straight side before it.
fn folds_back(before: &Side, after: &Side) -> bool {
    before.arc().is_none()
        && after.arc().is_none()
        && before.direction(1.0).dot(after.direction(0.0)) < 0.0
        && libm::fabs(before.direction(1.0).cross(after.direction(0.0))) < SAME_DIRECTION
}

/// Whether of two lines through one point, each given by the directions of its two arms, one passes from
/// one side of the other to its other side. Arms that lie on each other pass nothing.
fn passes(one: [Point; 2], other: [Point; 2]) -> bool {
    let same = |a: Point, b: Point| a.dot(b) > 0.0 && libm::fabs(a.cross(b)) < SAME_DIRECTION;
    let [first, second] = one;
    if other
        .iter()
        .any(|arm| same(first, *arm) || same(second, *arm))
    {
        return false;
    }
    let [a, b] = other.map(|arm| is_between(first, second, arm));
    a != b
}

/// Whether `arm` is met when turning left from `first` to `second`.
fn is_between(first: Point, second: Point, arm: Point) -> bool {
    let (left, right) = (first.cross(arm) > 0.0, arm.cross(second) > 0.0);
    if first.cross(second) > 0.0 {
        left && right
    } else {
        left || right
    }
}

/// The least share along `side`, from `after` on, at which `cutting` touches or crosses it; 1 where none
/// does.
fn next_contact(side: &Side, cutting: &Side, after: f64) -> f64 {
    let ends = [Some(cutting.from), Some(cutting.to)];
    ends.into_iter()
        .chain(common_points(side, cutting))
        .flatten()
        .filter(|point| side.distance(*point) <= TOUCH && cutting.distance(*point) <= TOUCH)
        .map(|point| side.share_of(point))
        .filter(|share| *share > after)
        .fold(1.0, libm::fmin)
}

/// Where the whole lines or circles of two sides meet; nothing where they are the same or parallel.
fn common_points(a: &Side, b: &Side) -> [Option<Point>; 2] {
    match (a.arc(), b.arc()) {
        (None, None) => [lines_meet(a, b), None],
        (Some(arc), None) => line_meets(&arc, b),
        (None, Some(arc)) => line_meets(&arc, a),
        (Some(one), Some(other)) => circles_meet(&one, &other),
    }
}

fn lines_meet(a: &Side, b: &Side) -> Option<Point> {
    let (along, across) = (a.chord(), b.chord());
    let turn = along.cross(across);
    // Parallel lines give a share that is infinite or not a number.
    let share = a.from.to(b.from).cross(across) / turn;
    share.is_finite().then(|| a.from.moved(along, share))
}

fn line_meets(arc: &Arc, line: &Side) -> [Option<Point>; 2] {
    let direction = line.direction(0.0);
    let foot = line
        .from
        .moved(direction, line.from.to(arc.centre).dot(direction));
    let away = arc.centre.to(foot).length();
    if away > arc.radius + TOUCH {
        return [None; 2];
    }
    let half = libm::sqrt(libm::fmax((arc.radius - away) * (arc.radius + away), 0.0));
    [half, -half].map(|step| Some(foot.moved(direction, step)))
}

fn circles_meet(one: &Arc, other: &Arc) -> [Option<Point>; 2] {
    let step = one.centre.to(other.centre);
    let apart = step.length();
    // Circles about one centre have no point of their own: they are the same or never meet.
    if apart <= TOUCH {
        return [None; 2];
    }
    let along = 0.5 * (apart + (one.radius - other.radius) * (one.radius + other.radius) / apart);
    if libm::fabs(along) > one.radius + TOUCH {
        return [None; 2];
    }
    let half = libm::sqrt(libm::fmax((one.radius - along) * (one.radius + along), 0.0));
    let direction = Point::new(step.x / apart, step.y / apart);
    let foot = one.centre.moved(direction, along);
    let left = Point::new(-direction.y, direction.x);
    [half, -half].map(|by| Some(foot.moved(left, by)))
}
