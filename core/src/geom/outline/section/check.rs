//! Whether corners make an outline, and whether an outline keeps clear of itself.

use super::super::{cross, dot};
use super::piece::Piece;
use super::{
    ARC_SLACK, CornerArc, FARTHEST, LEAST_TURN, NEAREST, SAME_POINT, Section, SectionCorner,
    SectionError,
};

impl Section {
    /// Numbers, lengths of sides and turns at corners; before the order is turned round.
    pub(super) fn check_corners(&self) -> Result<(), SectionError> {
        for (place, corner) in self.corners().iter().enumerate() {
            let [u, w] = corner.at;
            let within = |value: f64| libm::fabs(value) <= FARTHEST;
            if !(within(u) && within(w) && within(corner.radius)) {
                return Err(SectionError::NotFinite {
                    corner: self.corner_number(place),
                });
            }
        }
        let same = self.same_point();
        for place in 0..self.len() {
            if !(self.sharp_length(place) > same) {
                return Err(SectionError::ZeroSide {
                    corners: [self.corner_number(place), self.corner_number(place + 1)],
                });
            }
        }
        for place in 0..self.len() {
            let (before, after) = (self.direction(self.before(place)), self.direction(place));
            if libm::fabs(cross(before, after)) <= LEAST_TURN {
                let corner = self.corner_number(place);
                return Err(if dot(before, after) > 0.0 {
                    SectionError::Straight { corner }
                } else {
                    SectionError::TurnsBack { corner }
                });
            }
        }
        self.check_radii()
    }

    /// Radii not negative, and arcs that fit on their sides.
    fn check_radii(&self) -> Result<(), SectionError> {
        let refused = |place: usize, most: f64| {
            Err(SectionError::Radius {
                corner: self.corner_number(place),
                radius: Self::metres(self.radius(place)),
                most: Self::metres(libm::fmax(most, 0.0)),
            })
        };
        for place in 0..self.len() {
            if !(self.radius(place) >= 0.0) {
                let side = libm::fmin(
                    self.sharp_length(self.before(place)),
                    self.sharp_length(place),
                );
                return refused(place, side / self.tangent(place));
            }
        }
        for place in 0..self.len() {
            let length = self.sharp_length(place);
            let (start, end) = (self.tangent_length(place), self.tangent_length(place + 1));
            if start + end > length * (1.0 + ARC_SLACK) {
                // The larger of the two is the likelier slip.
                return if start >= end {
                    refused(place, self.most_radius(place))
                } else {
                    refused((place + 1) % self.len().max(1), self.most_radius(place + 1))
                };
            }
        }
        Ok(())
    }

    /// The largest radius of a corner that fits beside its neighbours' arcs.
    fn most_radius(&self, place: usize) -> f64 {
        let before = self.before(place);
        let room = libm::fmin(
            self.sharp_length(before) - self.tangent_length(before),
            self.sharp_length(place) - self.tangent_length(place + 1),
        );
        room / self.tangent(place)
    }

    /// That no two parts of the outline meet but neighbours where they join.
    pub(super) fn check_apart(&self) -> Result<(), SectionError> {
        match self.touching() {
            Some(sides) => Err(SectionError::Crossing {
                sides: sides.map(|side| self.side_number(side)),
            }),
            None => Ok(()),
        }
    }

    /// The first two parts of the outline that cross or touch and should not, each by the place of its
    /// side; an arc by one of the two sides beside it.
    ///
    /// The part that is walked next after another joins it, and is looked at no further: a line and the
    /// arc that it touches, or two lines at a corner that turns, meet nowhere else.
    pub(super) fn touching(&self) -> Option<[usize; 2]> {
        let same = self.same_point();
        // The boxes about the pieces first: a piece is worked out again where two of them meet, which is
        // seldom; holding them all would take a small machine's stack.
        let mut boxed: heapless::Vec<Boxed, { 2 * super::MAX_CORNERS }> = heapless::Vec::new();
        for (place, piece) in self.solid_pieces(same) {
            // As many as there are corners and sides.
            let _ = boxed.push(Boxed::about(place, &piece));
        }
        let count = boxed.len();
        for (first, a) in boxed.iter().enumerate() {
            for (second, b) in boxed.iter().enumerate().skip(first + 2) {
                let joined = first == 0 && second + 1 == count;
                if joined || !a.meets(b, same) {
                    continue;
                }
                let (one, other) = (self.piece(a)?, self.piece(b)?);
                if one.near(&other, same) {
                    return Some(self.two_sides((a.place(), &one), (b.place(), &other)));
                }
            }
        }
        None
    }

    fn piece(&self, of: &Boxed) -> Option<Piece> {
        if of.is_arc {
            self.arc(of.place()).map(Piece::Arc)
        } else {
            Some(Piece::Line(self.straight(of.place())))
        }
    }

    /// The pieces of the outline but those so short that the pieces before and after them meet.
    fn solid_pieces(&self, same: f64) -> impl Iterator<Item = (usize, Piece)> + '_ {
        self.pieces().filter(move |(place, piece)| match piece {
            Piece::Line(_) => self.straight_length(*place) > 2.0 * same,
            Piece::Arc(arc) => {
                let [start, end] = arc.ends();
                apart(start, end) > 2.0 * same
            }
        })
    }

    /// A side for each of two pieces; an arc goes by the side after it unless the other piece is that.
    fn two_sides(&self, first: (usize, &Piece), second: (usize, &Piece)) -> [usize; 2] {
        let [a, b] = [first.0, second.0];
        if a != b {
            return [a, b];
        }
        match first.1 {
            Piece::Arc(_) => [self.before(a), b],
            Piece::Line(_) => [a, self.before(b)],
        }
    }

    /// Points nearer than this are one point: metres.
    fn same_point(&self) -> f64 {
        let [first_u, first_w] = self.at(0);
        let size = self
            .corners()
            .iter()
            .fold(0.0, |most, corner: &SectionCorner| {
                let [u, w] = corner.at;
                libm::fmax(
                    most,
                    libm::fmax(libm::fabs(u - first_u), libm::fabs(w - first_w)),
                )
            });
        libm::fmax(NEAREST, SAME_POINT * size)
    }
}

/// The box about one piece of the outline.
struct Boxed {
    place: u8,
    is_arc: bool,
    low: [f64; 2],
    high: [f64; 2],
}

impl Boxed {
    fn about(place: usize, piece: &Piece) -> Self {
        let hull = piece.hull();
        let [mut low, mut high] = [hull[0]; 2];
        for [u, w] in hull {
            low = [libm::fmin(low[0], u), libm::fmin(low[1], w)];
            high = [libm::fmax(high[0], u), libm::fmax(high[1], w)];
        }
        Self {
            place: place as u8,
            is_arc: matches!(piece, Piece::Arc(_)),
            low,
            high,
        }
    }

    fn place(&self) -> usize {
        usize::from(self.place)
    }

    /// Whether two boxes come nearer than `same`.
    fn meets(&self, other: &Self, same: f64) -> bool {
        let clear = |a: &Self, b: &Self| a.low[0] > b.high[0] + same || a.low[1] > b.high[1] + same;
        !clear(self, other) && !clear(other, self)
    }
}

impl Piece {
    /// Whether two pieces, whose boxes do, come nearer than `same`.
    fn near(&self, other: &Self, same: f64) -> bool {
        match (self, other) {
            (Self::Line(a), Self::Line(b)) => lines_near(*a, *b, same),
            (Self::Line(line), Self::Arc(arc)) | (Self::Arc(arc), Self::Line(line)) => {
                line_near_arc(*line, arc, same)
            }
            (Self::Arc(a), Self::Arc(b)) => arcs_near(a, b, same),
        }
    }

    /// Three points between which all of it lies.
    fn hull(&self) -> [[f64; 2]; 3] {
        match self {
            Self::Line([start, end]) => [*start, *end, *end],
            Self::Arc(arc) => {
                let [start, end] = arc.ends();
                // The sharp corner: along the tangent from its start.
                let reach = arc.radius * libm::tan(0.5 * arc.sweep);
                let ([u, w], [tu, tw]) = (start, arc.towards);
                [start, [u + tu * reach, w + tw * reach], end]
            }
        }
    }
}

fn minus([au, aw]: [f64; 2], [bu, bw]: [f64; 2]) -> [f64; 2] {
    [au - bu, aw - bw]
}

fn apart(a: [f64; 2], b: [f64; 2]) -> f64 {
    let [u, w] = minus(a, b);
    libm::hypot(u, w)
}

/// Where on a line a point is nearest: its share from 0 at the start to 1 at the end.
fn nearest([start, end]: [[f64; 2]; 2], point: [f64; 2]) -> f64 {
    let along = minus(end, start);
    let share = dot(minus(point, start), along) / dot(along, along);
    libm::fmin(libm::fmax(share, 0.0), 1.0)
}

fn on([start, end]: [[f64; 2]; 2], share: f64) -> [f64; 2] {
    let ([u, w], [au, aw]) = (start, minus(end, start));
    [u + share * au, w + share * aw]
}

fn point_near_line(point: [f64; 2], line: [[f64; 2]; 2], same: f64) -> bool {
    apart(point, on(line, nearest(line, point))) <= same
}

/// Two lines are nearest at an end of one, unless they cross.
fn lines_near(a: [[f64; 2]; 2], b: [[f64; 2]; 2], same: f64) -> bool {
    let side = |[start, end]: [[f64; 2]; 2], point: [f64; 2]| {
        cross(minus(end, start), minus(point, start)) > 0.0
    };
    let ([a_start, a_end], [b_start, b_end]) = (a, b);
    (side(a, b_start) != side(a, b_end) && side(b, a_start) != side(b, a_end))
        || [b_start, b_end]
            .into_iter()
            .any(|point| point_near_line(point, a, same))
        || [a_start, a_end]
            .into_iter()
            .any(|point| point_near_line(point, b, same))
}

/// Whether a direction from the centre lies within an arc.
fn faces(arc: &CornerArc, direction: [f64; 2]) -> bool {
    let angle = libm::atan2(dot(direction, arc.towards), dot(direction, arc.from));
    angle >= 0.0 && angle <= arc.sweep
}

fn point_near_arc(point: [f64; 2], arc: &CornerArc, same: f64) -> bool {
    let out = minus(point, arc.centre);
    let [u, w] = out;
    (faces(arc, out) && libm::fabs(libm::hypot(u, w) - arc.radius) <= same)
        || arc.ends().into_iter().any(|end| apart(end, point) <= same)
}

/// A line and an arc are nearest at an end of one or at the line's nearest point to the centre, unless
/// they cross.
fn line_near_arc(line: [[f64; 2]; 2], arc: &CornerArc, same: f64) -> bool {
    let [start, end] = line;
    let along = minus(end, start);
    let [au, aw] = along;
    let length = libm::hypot(au, aw);
    let offset = cross(along, minus(arc.centre, start)) / length;
    let inside = arc.radius * arc.radius - offset * offset;
    if inside > 0.0 {
        let middle = dot(minus(arc.centre, start), along) / length;
        let half = libm::sqrt(inside);
        for reach in [middle - half, middle + half] {
            let point = on(line, reach / length);
            if reach >= 0.0 && reach <= length && faces(arc, minus(point, arc.centre)) {
                return true;
            }
        }
    }
    point_near_arc(on(line, nearest(line, arc.centre)), arc, same)
        || point_near_arc(start, arc, same)
        || point_near_arc(end, arc, same)
        || arc
            .ends()
            .into_iter()
            .any(|point| point_near_line(point, line, same))
}

/// Two arcs are nearest at an end of one or on the line of their centres, unless they cross.
fn arcs_near(a: &CornerArc, b: &CornerArc, same: f64) -> bool {
    let [u, w] = minus(b.centre, a.centre);
    let distance = libm::hypot(u, w);
    if distance > 0.0 {
        let (du, dw) = (u / distance, w / distance);
        let [cu, cw] = a.centre;
        // From the centre of a along the line of centres, and half the common chord across it.
        let middle = 0.5 * (distance + (a.radius - b.radius) * (a.radius + b.radius) / distance);
        let square = a.radius * a.radius - middle * middle;
        if square > 0.0 {
            let half = libm::sqrt(square);
            for side in [-half, half] {
                let point = [cu + du * middle - dw * side, cw + dw * middle + du * side];
                if faces(a, minus(point, a.centre)) && faces(b, minus(point, b.centre)) {
                    return true;
                }
            }
        }
        for reach in [-a.radius, a.radius] {
            if faces(a, [du * reach, dw * reach])
                && point_near_arc([cu + du * reach, cw + dw * reach], b, same)
            {
                return true;
            }
        }
    }
    a.ends()
        .into_iter()
        .any(|point| point_near_arc(point, b, same))
        || b.ends()
            .into_iter()
            .any(|point| point_near_arc(point, a, same))
}
