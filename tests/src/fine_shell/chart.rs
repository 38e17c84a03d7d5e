//! Sheets laid flat: where a point of the tank lies on one, and what the outline is.

use core::f64::consts::{PI, TAU};

use seamwright_core::body::turned::Turned;
use seamwright_core::body::{Edge, FlatForm, Path};
use seamwright_core::geom::Vector;
use seamwright_core::heat::loss::Facing;
use seamwright_core::input::{Across, Face};
use seamwright_core::tank::Tank;

/// Nodes on a line, in m on the sheet laid flat.
#[derive(Clone, Debug)]
pub(super) struct Run {
    pub(super) points: Vec<[f64; 2]>,
}

impl Run {
    pub(super) fn of(points: impl Iterator<Item = [f64; 2]>) -> Self {
        Self {
            points: points.collect(),
        }
    }
}

/// How a sheet is laid flat.
enum Way {
    /// A plane, by a point of it and two directions.
    Plane {
        origin: Vector,
        right: Vector,
        up: Vector,
    },
    /// The wall of a drum: along the axis, and round it from its closing seam.
    Wall {
        start: Vector,
        along: Vector,
        seam: Vector,
        radius: f64,
    },
    /// The end of a drum, by distance from its pole along the sheet.
    End {
        pole: Vector,
        /// From the pole into the drum.
        inward: Vector,
        right: Vector,
        up: Vector,
        /// Radius and depth below the pole at equal distances along the sheet, and that distance.
        meridian: Vec<[f64; 2]>,
        piece: f64,
    },
    /// A side of a rounded profile: along its outline with half of each bend, and along y from `front`.
    Side {
        length: f64,
        front: f64,
        origin: Vector,
        right: Vector,
        before: f64,
    },
}

/// A sheet.
pub(super) struct Chart {
    pub(super) face: Face,
    pub(super) thickness: f64,
    pub(super) side: Facing,
    way: Way,
    /// Its outline, counter-clockwise or not.
    outline: Vec<[f64; 2]>,
    /// Whether lines along seams make its whole rim.
    rimmed: bool,
}

fn unit(of: Vector) -> Vector {
    of.unit().expect("a direction")
}

fn perimeter(outline: &[[f64; 2]]) -> f64 {
    let next = outline.iter().skip(1).chain(outline.first());
    outline
        .iter()
        .zip(next)
        .map(|(a, b)| (b[0] - a[0]).hypot(b[1] - a[1]))
        .sum()
}

impl Chart {
    /// Every wall and baffle of a tank.
    pub(super) fn all(tank: &Tank) -> Vec<Self> {
        let solid = &tank.body().outside;
        let mut all = Vec::new();
        for view in solid.faces() {
            let face = view.face();
            let thickness = tank.job().sheet().of(face).si();
            let normal = view.normal();
            if let Some((turned, start, axis)) = solid.turned() {
                all.push(if face == Face::Shell {
                    wall(turned, start, axis.along(), axis.to_seam(), thickness)
                } else {
                    let far = normal.dot(axis.along()) > 0.0;
                    end(
                        (turned, start, axis.along()),
                        far,
                        face,
                        thickness,
                        view.area().si(),
                    )
                });
                continue;
            }
            let corners: Vec<Vector> = view.outline().collect();
            let right = unit(corners[1] - corners[0]);
            let up = normal.cross(right);
            let origin = corners[0];
            let edges: Vec<Edge> = solid
                .edges()
                .filter(|edge| edge.faces.contains(&face))
                .collect();
            let rounded = solid.rounded().is_some();
            if rounded && matches!(face, Face::Side(_)) {
                all.push(side(
                    tank,
                    face,
                    thickness,
                    &edges,
                    view.area().si(),
                    normal,
                ));
                continue;
            }
            let flat = |at: Vector| [(at - origin).dot(right), (at - origin).dot(up)];
            let sharp: Vec<[f64; 2]> = corners.iter().map(|at| flat(*at)).collect();
            let outline = if rounded {
                rounded_outline(&edges, &sharp, &flat)
            } else {
                sharp
            };
            // Height of an upright wall along its slope.
            let slope = unit(up_of(normal));
            let heights: Vec<f64> = corners.iter().map(|at| at.dot(slope)).collect();
            let high = heights.iter().copied().fold(f64::MIN, f64::max)
                - heights.iter().copied().fold(f64::MAX, f64::min);
            let round = perimeter(&outline);
            all.push(Self {
                face,
                thickness,
                side: Facing::of(normal, high, view.area().si(), round),
                way: Way::Plane { origin, right, up },
                outline,
                rimmed: rounded,
            });
        }
        for (place, baffle) in tank.inner().baffles().iter().enumerate() {
            let (x, y, z) = (
                Vector::new(1.0, 0.0, 0.0),
                Vector::new(0.0, 1.0, 0.0),
                Vector::new(0.0, 0.0, 1.0),
            );
            let [axis, right, up] = match baffle.across() {
                Across::Length => [x, y, z],
                Across::Width => [y, x, z],
                Across::Height => [z, x, y],
            };
            let (outline, rimmed) = match baffle.plate() {
                FlatForm::Corners(corners) => (corners.to_vec(), false),
                FlatForm::Outline(_) => panic!("no rounded baffles yet"),
                FlatForm::Disc { centre, radius } => (
                    (0..720)
                        .map(|n| {
                            let turn = TAU * f64::from(n) / 720.0;
                            [
                                centre[0] + radius * turn.cos(),
                                centre[1] + radius * turn.sin(),
                            ]
                        })
                        .collect(),
                    true,
                ),
            };
            all.push(Self {
                face: Face::Baffle(place as u8 + 1),
                thickness: baffle.thickness().si(),
                side: Facing::Still,
                way: Way::Plane {
                    origin: axis * baffle.at().si(),
                    right,
                    up,
                },
                outline,
                rimmed,
            });
        }
        all
    }

    /// Where a point of one of its edges lies on it, `share` of the way along that edge.
    pub(super) fn flat(
        &self,
        tank: &Tank,
        edge: &Edge,
        at: Vector,
        share: f64,
        far: bool,
    ) -> [f64; 2] {
        match &self.way {
            Way::Plane { origin, right, up } => {
                let solid = &tank.body().outside;
                let place = |at: Vector| [(at - *origin).dot(*right), (at - *origin).dot(*up)];
                // With folds that are taken as sharp here, an edge runs from corner to corner.
                let walls = edge.faces.iter().all(|face| solid.face(*face).is_some());
                if self.rimmed || !walls {
                    return place(at);
                }
                let corners: Vec<Vector> = edge
                    .faces
                    .iter()
                    .flat_map(|face| {
                        solid
                            .face(*face)
                            .into_iter()
                            .flat_map(|view| view.outline().collect::<Vec<_>>())
                    })
                    .collect();
                let near = |at: Vector| {
                    let away = |corner: &Vector| (*corner - at).length();
                    *corners
                        .iter()
                        .min_by(|a, b| away(a).total_cmp(&away(b)))
                        .expect("a corner")
                };
                let [a, b] = edge.ends.map(near);
                place(a + (b - a) * share)
            }
            Way::Wall {
                start,
                along,
                seam,
                radius,
            } => {
                let from = at - *start;
                let turn = from.dot(along.cross(*seam)).atan2(from.dot(*seam));
                let mut round = if turn < -1e-9 {
                    turn + TAU
                } else {
                    turn.max(0.0)
                };
                let closes = matches!(edge.path, Path::Round(_)) && share > 0.5 && round < 1e-6;
                if far || closes {
                    round = TAU;
                }
                [from.dot(*along), round * radius]
            }
            Way::End {
                right,
                up,
                meridian,
                piece,
                ..
            } => {
                let rim = *piece * (meridian.len() - 1) as f64;
                let pole = self.pole();
                let (x, y) = ((at - pole).dot(*right), (at - pole).dot(*up));
                let turn = y.atan2(x);
                [rim * turn.cos(), rim * turn.sin()]
            }
            Way::Side {
                length,
                front,
                origin,
                right,
                before,
            } => {
                let mut along = before + (at - *origin).dot(*right);
                match edge.path {
                    Path::Rounded(_) => {
                        // The edge may run against the side.
                        let [a, b] = edge.ends;
                        let same = (b - a).dot(*right) > 0.0;
                        along = *length * if same { share } else { 1.0 - share };
                    }
                    // An edge between two sides lies half way round their bend.
                    _ if edge.faces[0] != edge.faces[1]
                        && edge.faces.iter().all(|face| matches!(face, Face::Side(_))) =>
                    {
                        along = if along > 0.5 * length { *length } else { 0.0 };
                    }
                    _ => {}
                }
                [along, at.y - front]
            }
        }
    }

    fn pole(&self) -> Vector {
        match &self.way {
            Way::End { pole, .. } => *pole,
            _ => Vector::new(0.0, 0.0, 0.0),
        }
    }

    /// Where a place of the sheet laid flat lies, with true lengths along the sheet.
    pub(super) fn lift(&self, at: [f64; 2]) -> [f64; 3] {
        let Way::End {
            inward,
            right,
            up,
            meridian,
            piece,
            pole,
        } = &self.way
        else {
            return [at[0], at[1], 0.0];
        };
        let far = at[0].hypot(at[1]);
        let x = (far / piece).min((meridian.len() - 1) as f64);
        let n = (x.floor() as usize).min(meridian.len() - 2);
        let rest = x - n as f64;
        let of = |which: usize| (1.0 - rest) * meridian[n][which] + rest * meridian[n + 1][which];
        let (cosine, sine) = if far > 0.0 {
            (at[0] / far, at[1] / far)
        } else {
            (1.0, 0.0)
        };
        let place = *pole + *right * (of(0) * cosine) + *up * (of(0) * sine) + *inward * of(1);
        [place.x, place.y, place.z]
    }

    /// Whether a place on the sheet laid flat is metal.
    pub(super) fn has(&self, [x, y]: [f64; 2]) -> bool {
        let next = self.outline.iter().skip(1).chain(self.outline.first());
        let mut inside = false;
        for (a, b) in self.outline.iter().zip(next) {
            if (a[1] > y) != (b[1] > y) && x < a[0] + (y - a[1]) / (b[1] - a[1]) * (b[0] - a[0]) {
                inside = !inside;
            }
        }
        inside
    }

    /// The lines along seams and, where those do not make its whole rim, the rest of it.
    pub(super) fn with_rim(&self, runs: &[Run], width: f64) -> Vec<Run> {
        let mut all = runs.to_vec();
        if self.rimmed {
            return all;
        }
        let next = self.outline.iter().skip(1).chain(self.outline.first());
        for (a, b) in self.outline.iter().zip(next) {
            let apart = |p: &[f64; 2], q: &[f64; 2]| (p[0] - q[0]).hypot(p[1] - q[1]);
            let known = runs.iter().any(|run| {
                let (Some(first), Some(last)) = (run.points.first(), run.points.last()) else {
                    return false;
                };
                (apart(first, a) < 1e-6 && apart(last, b) < 1e-6)
                    || (apart(first, b) < 1e-6 && apart(last, a) < 1e-6)
            });
            if !known {
                let pieces = (apart(a, b) / width).ceil().max(1.0);
                all.push(Run::of((0..=pieces as usize).map(|n| {
                    let share = n as f64 / pieces;
                    [a[0] + share * (b[0] - a[0]), a[1] + share * (b[1] - a[1])]
                })));
            }
        }
        all
    }
}

/// The direction in a plane that rises most.
fn up_of(normal: Vector) -> Vector {
    let z = Vector::new(0.0, 0.0, 1.0);
    let up = z - normal * normal.dot(z);
    if up.length() > 1e-9 {
        up
    } else {
        Vector::new(0.0, 1.0, 0.0)
    }
}

/// The outline of an end of a rounded profile, from its edges in a row.
fn rounded_outline(
    edges: &[Edge],
    sharp: &[[f64; 2]],
    flat: &dyn Fn(Vector) -> [f64; 2],
) -> Vec<[f64; 2]> {
    let mut pieces: Vec<Vec<[f64; 2]>> = edges
        .iter()
        .map(|edge| {
            let length = edge.length().si();
            (0..=200)
                .map(|n| {
                    let at = length * f64::from(n) / 200.0;
                    flat(edge.at(seamwright_core::units::Length::from_metres(at)))
                })
                .collect()
        })
        .collect();
    let mut outline = pieces.swap_remove(0);
    while !pieces.is_empty() {
        let end = *outline.last().expect("a point");
        let away = |p: &[f64; 2]| (p[0] - end[0]).hypot(p[1] - end[1]);
        let (place, reverse) = pieces
            .iter()
            .enumerate()
            .flat_map(|(n, piece)| {
                [
                    (away(&piece[0]), n, false),
                    (away(&piece[piece.len() - 1]), n, true),
                ]
            })
            .min_by(|a, b| a.0.total_cmp(&b.0))
            .map(|(_, n, reverse)| (n, reverse))
            .expect("a piece");
        let mut piece = pieces.swap_remove(place);
        if reverse {
            piece.reverse();
        }
        outline.extend(piece.into_iter().skip(1));
    }
    assert!(sharp.len() == edges.len());
    outline
}

fn wall(turned: &Turned, start: Vector, along: Vector, seam: Vector, thickness: f64) -> Chart {
    let (length, radius) = (turned.length(), turned.radius());
    let round = TAU * radius;
    // A lying one as its side is, over half its girth; an upright one over its length.
    let high = if along.z > 0.5 { length } else { 0.5 * round };
    Chart {
        face: Face::Shell,
        thickness,
        side: Facing::Upright(high),
        way: Way::Wall {
            start,
            along,
            seam,
            radius,
        },
        outline: vec![[0.0, 0.0], [length, 0.0], [length, round], [0.0, round]],
        rimmed: true,
    }
}

fn end(
    (turned, start, along): (&Turned, Vector, Vector),
    far: bool,
    face: Face,
    thickness: f64,
    area: f64,
) -> Chart {
    let place = usize::from(far);
    let depth = turned.head_depth(place);
    let normal = if far { along } else { along * -1.0 };
    let rim = if far {
        start + along * turned.length()
    } else {
        start
    };
    let pole = rim + normal * depth;
    // From the pole to the rim in fine steps, by the angle whose cosine the radius goes with.
    let points: Vec<[f64; 2]> = if depth > 0.0 {
        let of = |n: u32| {
            let out = depth * (0.5 * PI * f64::from(n) / 20_000.0).cos();
            let radius = if n == 0 {
                0.0
            } else {
                turned.head_radius_at(place, out)
            };
            [radius, depth - out]
        };
        (0..=20_000).map(of).collect()
    } else {
        vec![[0.0, 0.0], [turned.radius(), 0.0]]
    };
    let mut sums = vec![0.0];
    for pair in points.windows(2) {
        let more = (pair[1][0] - pair[0][0]).hypot(pair[1][1] - pair[0][1]);
        sums.push(sums[sums.len() - 1] + more);
    }
    let whole = sums[sums.len() - 1];
    let (count, mut n) = (2_000, 0);
    let meridian: Vec<[f64; 2]> = (0..=count)
        .map(|k| {
            let at = whole * f64::from(k) / f64::from(count);
            while n + 2 < sums.len() && sums[n + 1] < at {
                n += 1;
            }
            let rest = ((at - sums[n]) / (sums[n + 1] - sums[n])).clamp(0.0, 1.0);
            [0, 1].map(|which: usize| {
                points[n][which] + rest * (points[n + 1][which] - points[n][which])
            })
        })
        .collect();
    let right = if along.z.abs() > 0.5 {
        Vector::new(1.0, 0.0, 0.0)
    } else {
        Vector::new(0.0, 1.0, 0.0)
    };
    let disc = (area / PI).sqrt();
    Chart {
        face,
        thickness,
        side: Facing::of(normal, 2.0 * disc, area, TAU * disc),
        way: Way::End {
            pole,
            inward: normal * -1.0,
            right,
            up: normal.cross(right),
            meridian,
            piece: whole / f64::from(count),
        },
        outline: (0..720)
            .map(|n| {
                let turn = TAU * f64::from(n) / 720.0;
                [whole * turn.cos(), whole * turn.sin()]
            })
            .collect(),
        rimmed: true,
    }
}

/// A side of a rounded profile.
fn side(
    tank: &Tank,
    face: Face,
    thickness: f64,
    edges: &[Edge],
    area: f64,
    normal: Vector,
) -> Chart {
    let (_, front, back) = tank.body().outside.rounded().expect("a rounded profile");
    let across = edges
        .iter()
        .find(|edge| !edge.faces.iter().all(|face| matches!(face, Face::Side(_))))
        .expect("an edge at an end");
    let length = across.length().si();
    let [a, b] = across.ends;
    let right = unit(b - a);
    let [from, _] = across.straight();
    let before = match across.path {
        Path::Rounded([Some(turn), _]) => turn.radius * turn.sweep.abs(),
        _ => 0.0,
    };
    let width = back - front;
    let slope = unit(up_of(normal));
    let high = if slope.dot(right).abs() > 0.5 {
        length
    } else {
        width
    };
    Chart {
        face,
        thickness,
        side: Facing::of(normal, high, area, 2.0 * (length + width)),
        way: Way::Side {
            length,
            front,
            origin: from,
            right,
            before,
        },
        outline: vec![[0.0, 0.0], [length, 0.0], [length, width], [0.0, width]],
        rimmed: true,
    }
}
