//! A box with up to eight plane cuts, as its maker describes it.

use core::fmt;

use super::clip::{Clipped, clip, cuboid};
use super::solid::Solid;
use super::{Body, SheetPlan};
use crate::geom::{Plane, Vector};
use crate::input::{Block, Cut, Face, Sized};
use crate::units::{Length, LengthUnit};

/// One of the two surfaces of the sheet, as a box to be cut.
struct Surface {
    /// Nearest corner of the box.
    low: Vector,
    /// Furthest corner of the box.
    high: Vector,
    /// Where the box that is sized has its nearest corner: cuts are measured from there.
    corner: Vector,
    /// By how many sheets each cutting plane is moved outward.
    moved: f64,
    /// Whether every cut must leave a face, as it must on the surface that is drawn.
    whole: bool,
}

/// Why a block with its sheet makes no tank. Cuts are counted from 1.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum BlockError {
    /// A size is not above zero.
    Flat,
    /// The two faces named by an edge cut share no edge.
    NoSuchEdge {
        /// Which cut.
        cut: u8,
        /// The faces named.
        faces: [Face; 2],
    },
    /// The three faces named by a corner cut share no corner.
    NoSuchCorner {
        /// Which cut.
        cut: u8,
    },
    /// The normal of a cut has no direction, or a leg is not above zero.
    NoDirection {
        /// Which cut.
        cut: u8,
    },
    /// The plane misses the body that the cuts before it left.
    RemovesNothing {
        /// Which cut.
        cut: u8,
        /// How far off the body the plane passes.
        clearance: Length,
    },
    /// Nothing is left after this cut.
    RemovesAll {
        /// Which cut.
        cut: u8,
    },
    /// A later cut takes away the whole face that this one left.
    Swallowed {
        /// Which cut.
        cut: u8,
        /// The cut that takes its face away.
        by: u8,
    },
    /// The two sheets across one axis leave no space between them.
    SheetFillsBox {
        /// The size outside.
        outside: Length,
        /// The two thicknesses together.
        sheet: Length,
        /// The nearer of the two faces.
        face: Face,
    },
    /// The sheet of a cut leaves no space inside.
    SheetFillsCut {
        /// Which cut.
        cut: u8,
    },
    /// Over 16 faces, 40 vertices or 40 edges.
    TooComplex {
        /// The cut at which the bound was met.
        cut: u8,
    },
    /// The thinner sheets beside this face close over it: it bounds the space inside, yet has no face outside.
    Covered {
        /// Which face.
        face: Face,
    },
}

impl fmt::Display for BlockError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Flat => f.write_str("length, width and height must all be above zero"),
            Self::NoSuchEdge { cut, faces: [a, b] } => {
                write!(
                    f,
                    "cut {cut}: the faces {a} and {b} share no edge; name two faces of the box that meet"
                )
            }
            Self::NoSuchCorner { cut } => write!(
                f,
                "cut {cut}: a corner is named by three faces that meet: left or right, front or back, bottom or top"
            ),
            Self::NoDirection { cut } => {
                write!(
                    f,
                    "cut {cut} has no direction: its legs must be above zero and its normal must not be [0, 0, 0]"
                )
            }
            Self::RemovesNothing { cut, clearance } => write!(
                f,
                "cut {cut} removes nothing: its plane passes {} outside the body; move it inward, turn its normal outward, or leave it out",
                clearance.display(LengthUnit::Millimetre, 2)
            ),
            Self::RemovesAll { cut } => write!(
                f,
                "cut {cut} removes the whole body: its normal must point outward, away from what is to be kept"
            ),
            Self::Swallowed { cut, by } => {
                write!(
                    f,
                    "cut {by} takes away the whole face that cut {cut} left; leave cut {cut} out"
                )
            }
            Self::SheetFillsBox {
                outside,
                sheet,
                face,
            } => write!(
                f,
                "the sheet eats the inside: {} across from the {face}, of which the two sheets take {}; use a thinner sheet or a larger body",
                outside.display(LengthUnit::Millimetre, 2),
                sheet.display(LengthUnit::Millimetre, 2)
            ),
            Self::SheetFillsCut { cut } => write!(
                f,
                "the sheet eats the inside: nothing is left within cut {cut}; use a thinner sheet or a smaller cut"
            ),
            Self::Covered { face } => write!(
                f,
                "the thinner sheets beside the {face} close over it outside: bring the thicknesses closer together, or change the cut that leaves so little of it"
            ),
            Self::TooComplex { cut } => {
                write!(
                    f,
                    "at cut {cut} the body has more than 16 faces, 40 vertices or 40 edges"
                )
            }
        }
    }
}

impl core::error::Error for BlockError {}

impl Block {
    /// The outside and the inside of this block in the given sheet: every face plane moved by its own
    /// thickness and the body cut anew, so that corners of any angle come out exactly.
    ///
    /// # Errors
    /// [`BlockError`] names the cut at fault.
    pub fn body(&self, sheet: &SheetPlan) -> Result<Body, BlockError> {
        let mut body = Body::EMPTY;
        self.make(sheet, &mut body)?;
        Ok(body)
    }

    /// [`Block::build`], made where the body is to stay: on a small machine the two solids fit the stack once, not
    /// several times. What is left in `body` after an error is of no use.
    #[inline(never)]
    pub(crate) fn make(&self, sheet: &SheetPlan, body: &mut Body) -> Result<(), BlockError> {
        let size = Vector::new(self.length.si(), self.width.si(), self.height.si());
        if !(size.x > 0.0 && size.y > 0.0 && size.z > 0.0) {
            return Err(BlockError::Flat);
        }
        let [front, back, left, right, bottom, top] = Face::BOX.map(|face| sheet.of(face).si());
        let (near, far) = (
            Vector::new(left, front, bottom),
            Vector::new(right, back, top),
        );
        let outer = Vector::ZERO;
        let (drawn, other) = match self.sized {
            Sized::Outside => (
                Surface {
                    low: outer,
                    high: size,
                    corner: outer,
                    moved: 0.0,
                    whole: true,
                },
                Surface {
                    low: near,
                    high: size - far,
                    corner: outer,
                    moved: -1.0,
                    whole: false,
                },
            ),
            // The origin stays the outside corner, so the inside body starts one sheet further in.
            Sized::Inside => (
                Surface {
                    low: near,
                    high: near + size,
                    corner: near,
                    moved: 0.0,
                    whole: true,
                },
                Surface {
                    low: outer,
                    high: near + size + far,
                    corner: near,
                    moved: 1.0,
                    whole: true,
                },
            ),
        };
        let Body { outside, inside } = body;
        let (first, second) = match self.sized {
            Sized::Outside => (outside, inside),
            Sized::Inside => (inside, outside),
        };
        self.carve(first, &drawn, sheet)?;
        self.carve(second, &other, sheet)?;
        // A wall that the sheets beside it swallow outside would be a panel that cannot be cut.
        match inside_of(body).find(|face| body.outside.face(*face).is_none()) {
            Some(face) => Err(BlockError::Covered { face }),
            None => Ok(()),
        }
    }

    /// The box of a surface less the cuts.
    // Kept a call of its own, so that its stack is given back before the second solid is made.
    #[inline(never)]
    fn carve(
        &self,
        solid: &mut Solid,
        surface: &Surface,
        sheet: &SheetPlan,
    ) -> Result<(), BlockError> {
        let Surface {
            low,
            high,
            corner,
            moved,
            whole,
        } = *surface;
        cuboid(solid, low, high).ok_or_else(|| self.filled(sheet))?;
        for (cut, number) in self.cuts.iter().zip(1_u8..) {
            let face = Face::Cut(number);
            let plane = self
                .plane(cut, number, corner)?
                .moved(moved * sheet.of(face).si());
            match clip(solid, plane, face) {
                Clipped::Left => {}
                Clipped::Nothing { clearance } if whole => {
                    let clearance = Length::from_metres(clearance);
                    return Err(BlockError::RemovesNothing {
                        cut: number,
                        clearance,
                    });
                }
                // Within the sheet the cut may lie outside the space that is left: the space has no such face.
                Clipped::Nothing { .. } => {}
                Clipped::All if whole => return Err(BlockError::RemovesAll { cut: number }),
                Clipped::All => return Err(BlockError::SheetFillsCut { cut: number }),
                Clipped::TooComplex => return Err(BlockError::TooComplex { cut: number }),
            };
            if whole && let Some(gone) = (1..number).find(|n| solid.face(Face::Cut(*n)).is_none()) {
                return Err(BlockError::Swallowed {
                    cut: gone,
                    by: number,
                });
            }
        }
        Ok(())
    }

    /// The plane of one cut, from the outer corner `corner` of the box that is sized.
    fn plane(&self, cut: &Cut, number: u8, corner: Vector) -> Result<Plane, BlockError> {
        let none = BlockError::NoDirection { cut: number };
        let at = |far: [bool; 3]| {
            let [x, y, z] = far;
            let pick = |far: bool, size: Length| if far { size.si() } else { 0.0 };
            corner
                + Vector::new(
                    pick(x, self.length),
                    pick(y, self.width),
                    pick(z, self.height),
                )
        };
        match *cut {
            Cut::Edge {
                faces: [a, b],
                legs: [leg_a, leg_b],
            } => {
                let (Some(axis_a), Some(axis_b)) = (a.axis(), b.axis()) else {
                    return Err(BlockError::NoSuchEdge {
                        cut: number,
                        faces: [a, b],
                    });
                };
                if axis_a == axis_b {
                    return Err(BlockError::NoSuchEdge {
                        cut: number,
                        faces: [a, b],
                    });
                }
                if !(leg_a.si() > 0.0 && leg_b.si() > 0.0) {
                    return Err(none);
                }
                let far = core::array::from_fn(|axis| {
                    (axis == axis_a && a.is_far()) || (axis == axis_b && b.is_far())
                });
                // The plane meets face a one leg away from face b, and face b one leg away from face a.
                let (out_a, out_b) = (outward(a), outward(b));
                Plane::through(
                    at(far) - out_b * leg_a.si(),
                    out_a * leg_a.si() + out_b * leg_b.si(),
                )
                .ok_or(none)
            }
            Cut::Corner { faces, legs } => {
                let on = |axis: usize| faces.iter().find(|face| face.axis() == Some(axis)).copied();
                let (Some(x), Some(y), Some(z)) = (on(0), on(1), on(2)) else {
                    return Err(BlockError::NoSuchCorner { cut: number });
                };
                let [leg_x, leg_y, leg_z] = legs.map(Length::si);
                if !(leg_x > 0.0 && leg_y > 0.0 && leg_z > 0.0) {
                    return Err(none);
                }
                let normal = outward(x) * (leg_y * leg_z)
                    + outward(y) * (leg_x * leg_z)
                    + outward(z) * (leg_x * leg_y);
                let far = [x.is_far(), y.is_far(), z.is_far()];
                Plane::through(at(far) - outward(x) * leg_x, normal).ok_or(none)
            }
            Cut::Plane {
                normal: [nx, ny, nz],
                through,
            } => {
                let [x, y, z] = through.map(Length::si);
                Plane::through(corner + Vector::new(x, y, z), Vector::new(nx, ny, nz)).ok_or(none)
            }
        }
    }

    /// The axis on which the sheets leave the least, as an error.
    fn filled(&self, sheet: &SheetPlan) -> BlockError {
        let axes = [
            (Face::Left, Face::Right, self.length),
            (Face::Front, Face::Back, self.width),
            (Face::Bottom, Face::Top, self.height),
        ];
        let mut worst = BlockError::Flat;
        let mut least = f64::INFINITY;
        for (near, far, outside) in axes {
            let taken = sheet.of(near).si() + sheet.of(far).si();
            if outside.si() - taken < least {
                least = outside.si() - taken;
                worst = BlockError::SheetFillsBox {
                    outside,
                    sheet: Length::from_metres(taken),
                    face: near,
                };
            }
        }
        worst
    }
}

/// The faces of the space inside.
fn inside_of(body: &Body) -> impl Iterator<Item = Face> {
    body.inside.faces().map(|view| view.face())
}

/// Unit outward normal of a face of the box; zero for a cut.
fn outward(face: Face) -> Vector {
    let sign = if face.is_far() { 1.0 } else { -1.0 };
    match face.axis() {
        Some(0) => Vector::new(sign, 0.0, 0.0),
        Some(1) => Vector::new(0.0, sign, 0.0),
        Some(2) => Vector::new(0.0, 0.0, sign),
        _ => Vector::ZERO,
    }
}
