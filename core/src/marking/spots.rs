//! Holes, bends, scribed lines and the first ends of seams.

use super::Marker;
use crate::blank::{Axes, BendMark, Making};
use crate::body::{Edge, Path};
use crate::geom::Vector;
use crate::input::{Across, Face};
use crate::seam::SeamMark;
use crate::units::Length;

/// What a hole is for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum HoleUse {
    /// A fitting, counted from 1.
    Fitting(u8),
    /// A hole of a baffle, counted from 1.
    Baffle(u8),
    /// Relief where bends come together.
    Relief,
    /// A plug weld that holds a baffle, counted from 1.
    Plug(u8),
}

/// A hole.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct MarkedHole {
    /// What it is for.
    pub what: HoleUse,
    /// Its centre, in metres from the datum.
    pub at: [f64; 2],
    /// Its bore.
    pub diameter: Length,
}

/// A bend with the lines at which it begins and ends.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct MarkedBend {
    /// The middle of the bend, and what there is to know of it.
    pub line: BendMark,
    /// Both tangent lines, in metres from the datum: where the flat ends and the bend begins.
    pub tangents: [[[f64; 2]; 2]; 2],
}

/// What a scribed line is for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ScribeUse {
    /// One face of a baffle's sheet, the baffle counted from 1: the face nearer the left, the front or the
    /// bottom where the flag is not set.
    Baffle(u8, bool),
    /// The free edge of the flange with which a baffle lies there, the baffle counted from 1.
    Flange(u8),
    /// A quarter of a round part, counted from its seam.
    Quarter(u8),
}

/// A scribed line.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Scribe {
    /// What it is for.
    pub what: ScribeUse,
    /// Its ends, in metres from the datum.
    pub ends: [[f64; 2]; 2],
}

/// Which end of a seam is its first.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum FirstEnd {
    /// Its left one.
    Left,
    /// Its front one.
    Front,
    /// Its lowest one.
    Bottom,
    /// A circle begins where the drum's wall is closed.
    AtSeam,
}

impl FirstEnd {
    /// The words for it.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Left => "left end",
            Self::Front => "front end",
            Self::Bottom => "lower end",
            Self::AtSeam => "at the long seam",
        }
    }

    /// The first end of an edge: edges run along the positive sense of the axis that they follow most.
    #[must_use]
    pub fn of(edge: &Edge) -> Self {
        if matches!(edge.path, Path::Round(_)) {
            return Self::AtSeam;
        }
        let [start, end] = edge.ends;
        let [x, y, z] = [end.x - start.x, end.y - start.y, end.z - start.z].map(libm::fabs);
        if x >= y && x >= z {
            Self::Left
        } else if y >= z {
            Self::Front
        } else {
            Self::Bottom
        }
    }
}

/// Where a seam begins on a panel.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SeamStart {
    /// The seam.
    pub mark: SeamMark,
    /// Its first end, in metres from the datum.
    pub first: [f64; 2],
    /// Its other end; the same place for a circle.
    pub last: [f64; 2],
    /// Which of its ends is the first.
    pub end: FirstEnd,
}

/// The direction that a baffle stands across.
fn axis(across: Across) -> Vector {
    match across {
        Across::Length => Vector::new(1.0, 0.0, 0.0),
        Across::Width => Vector::new(0.0, 1.0, 0.0),
        Across::Height => Vector::new(0.0, 0.0, 1.0),
    }
}

impl<'a> Marker<'a> {
    fn place(&self, face: Face, point: Vector) -> Option<[f64; 2]> {
        self.blank.place(self.tank.body(), face, point)
    }

    /// The holes: fittings, those of a baffle, reliefs of bends.
    pub fn holes(self) -> impl Iterator<Item = MarkedHole> + use<'a> {
        let fittings = self
            .tank
            .fittings()
            .zip(1_u8..)
            .filter_map(move |(fitting, number)| {
                if !self.panel.faces.contains(&fitting.face()) {
                    return None;
                }
                let at = if fitting.face() == Face::Shell {
                    let [along, round] = fitting.at().map(Length::si);
                    self.blank.place_round(along, round)
                } else {
                    self.place(fitting.face(), fitting.centre)
                };
                Some(MarkedHole {
                    what: HoleUse::Fitting(number),
                    at: at?,
                    diameter: fitting.hole(),
                })
            });
        let own = match self.panel.face() {
            Face::Baffle(number) => {
                let place = usize::from(number.saturating_sub(1));
                self.tank.inner().baffles().get(place)
            }
            _ => None,
        };
        let holes = own
            .into_iter()
            .flat_map(|baffle| baffle.holes().iter().zip(1_u8..));
        let holes = holes.filter_map(move |(hole, number)| {
            let [x, y] = hole.at;
            Some(MarkedHole {
                what: HoleUse::Baffle(number),
                at: self.place(self.panel.face(), Vector::new(x, y, 0.0))?,
                diameter: Length::from_metres(2.0 * hole.radius),
            })
        });
        let reliefs = self.blank.reliefs().iter().map(|relief| MarkedHole {
            what: HoleUse::Relief,
            at: relief.at,
            diameter: relief.diameter,
        });
        let plugs = self.tank.plug_holes().filter_map(move |hole| {
            if !self.panel.faces.contains(&hole.wall) {
                return None;
            }
            Some(MarkedHole {
                what: HoleUse::Plug(hole.baffle),
                at: self.place(hole.wall, hole.centre)?,
                diameter: hole.diameter,
            })
        });
        fittings.chain(holes).chain(reliefs).chain(plugs)
    }

    /// The bends, each with its two tangent lines, in the order of the blank's.
    pub fn bends(self) -> impl Iterator<Item = MarkedBend> + use<'a> {
        self.blank.bends().map(|line| {
            let [[ax, ay], [bx, by]] = line.ends;
            let long = libm::fmax(libm::hypot(bx - ax, by - ay), f64::MIN_POSITIVE);
            let half = 0.5 * line.allowance.si() / long;
            let off = [half * (ay - by), half * (bx - ax)];
            let moved = |sign: f64| {
                line.ends
                    .map(|[x, y]| [x + sign * off[0], y + sign * off[1]])
            };
            MarkedBend {
                line,
                tangents: [moved(-1.0), moved(1.0)],
            }
        })
    }

    /// The scribed lines: where baffles stand, both faces of their sheet, on the inside of the panel; and the
    /// quarter lines of a drum's wall and of its flat ends.
    pub fn scribes(self) -> impl Iterator<Item = Scribe> + use<'a> {
        let seams = 0..self.tank.seam_count();
        let baffles =
            seams.flat_map(move |place| [-1.0, 1.0].map(|side| self.baffle_line(place, side)));
        baffles
            .flatten()
            .chain((0..4).filter_map(move |n| self.quarter(n)))
    }

    /// One face of a baffle's sheet on this panel, where the seam at a place is one that holds a baffle here.
    fn baffle_line(&self, place: usize, side: f64) -> Option<Scribe> {
        let edge = self.tank.edge_of_seam(place)?;
        let [wall, Face::Baffle(number)] = edge.faces else {
            return None;
        };
        if !self.panel.faces.contains(&wall) {
            return None;
        }
        let baffles = self.tank.inner().baffles();
        let baffle = baffles.get(usize::from(number.saturating_sub(1)))?;
        let across = axis(baffle.across());
        let mut half = 0.5 * side * baffle.thickness().si();
        let mut what = ScribeUse::Baffle(number, side > 0.0);
        // Along a flange the seam runs at its free edge; the other line is the plate's outer face.
        let off = across.dot(edge.ends[0]) - baffle.at().si();
        if baffle.is_flanged() && libm::fabs(off) > 1e-9 {
            half = if (off > 0.0) == (side > 0.0) {
                what = ScribeUse::Flange(number);
                0.0
            } else {
                half - off
            };
        }
        if let Path::Round(turn) = edge.path {
            let (_, start, _) = self.tank.body().outside.turned()?;
            let along = across.dot(turn.centre - start) + half;
            let [x, _] = self.blank.place_round(along, 0.0)?;
            let [_, height] = self.blank.size();
            return Some(Scribe {
                what,
                ends: [[x, 0.0], [x, height]],
            });
        }
        let normal = self.tank.body().outside.face(wall)?.normal();
        let lying = across - normal * normal.dot(across);
        let square = lying.dot(lying);
        if !(square > 1e-9) {
            return None;
        }
        let step = lying * (half / square);
        let [start, end] = edge.straight();
        Some(Scribe {
            what,
            ends: [
                self.place(wall, start + step)?,
                self.place(wall, end + step)?,
            ],
        })
    }

    /// A quarter line of a drum's wall or of a flat end.
    fn quarter(&self, n: u8) -> Option<Scribe> {
        let share = f64::from(n) / 4.0;
        let what = ScribeUse::Quarter(n);
        let [width, height] = self.blank.size();
        if self.panel.making == Making::Rolled {
            let y = share * height;
            return Some(Scribe {
                what,
                ends: [[0.0, y], [width, y]],
            });
        }
        let face = self.panel.face();
        let edge = self.tank.body().outside.edge_between([face, Face::Shell])?;
        let Path::Round(turn) = edge.path else {
            return None;
        };
        let rim = turn.at(share * turn.sweep);
        let out = (rim - turn.centre) * (0.5 * width / turn.radius);
        Some(Scribe {
            what,
            ends: [
                self.place(face, turn.centre + out * 0.8)?,
                self.place(face, turn.centre + out)?,
            ],
        })
    }

    /// Where each welded seam of walls begins on this panel, at the edge of its blank.
    pub fn seams(self) -> impl Iterator<Item = SeamStart> + use<'a> {
        let seams = self
            .tank
            .seams()
            .zip(0_usize..)
            .filter(|(seam, _)| seam.welded);
        seams
            .flat_map(move |(seam, place)| {
                let edge = self.tank.edge_of_seam(place);
                let [a, b] = edge.map_or([Face::Front; 2], |edge| edge.faces);
                let second = (a != b).then_some(b);
                [Some(a), second].map(|face| self.seam_start(seam.mark, &edge?, face?))
            })
            .flatten()
    }

    fn seam_start(&self, mark: SeamMark, edge: &Edge, face: Face) -> Option<SeamStart> {
        if !self.panel.faces.contains(&face)
            || matches!(face, Face::Baffle(_) | Face::Fitting(_))
            || matches!(edge.faces[1], Face::Baffle(_) | Face::Fitting(_))
        {
            return None;
        }
        let end = FirstEnd::of(edge);
        let [width, height] = self.blank.size();
        let far = matches!(edge.faces[0], Face::Top | Face::Right);
        let [first, last] = match (edge.path, face) {
            (Path::Round(_), Face::Shell) => {
                let x = if far { width } else { 0.0 };
                [[x, 0.0], [x, height]]
            }
            (Path::Round(turn), _) => {
                let rim = turn.at(0.0);
                let out = (rim - turn.centre) * (0.5 * width / turn.radius);
                [self.place(face, turn.centre + out)?; 2]
            }
            (_, Face::Shell) => [[0.0, 0.0], [width, 0.0]],
            _ => {
                // On the edge of the blank, which falls short of the sharp edge of the tank by its joint.
                let view = self.tank.body().outside.face(face)?;
                let axes = Axes::of(view.normal(), view.outline());
                let ends = edge.straight().map(|end| axes.flat(end));
                let run = [ends[1][0] - ends[0][0], ends[1][1] - ends[0][1]];
                let long = libm::fmax(libm::hypot(run[0], run[1]), f64::MIN_POSITIVE);
                let mut inward = [-run[1] / long, run[0] / long];
                let count = view.outline().count() as f64;
                let middle = view.outline().fold([0.0; 2], |sum, corner| {
                    let [x, y] = axes.flat(corner);
                    [sum[0] + x / count, sum[1] + y / count]
                });
                if inward[0] * (middle[0] - ends[0][0]) + inward[1] * (middle[1] - ends[0][1]) < 0.0
                {
                    inward = inward.map(|one| -one);
                }
                let by = self.plan.edge_fit(face, edge).deduct.si() + 1e-6;
                let on = |[x, y]: [f64; 2]| {
                    self.place(face, axes.lift([x + by * inward[0], y + by * inward[1]]))
                };
                [on(ends[0])?, on(ends[1])?]
            }
        };
        Some(SeamStart {
            mark,
            first,
            last,
            end,
        })
    }
}
