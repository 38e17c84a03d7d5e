//! A round wall between two ends, upright or lying.

use core::fmt;

use super::placed::PlacedDrum;
use super::solid::{Curve, Loop, Side, Solid};
use super::turned::{Head, Turned, TurnedError};
use super::{Body, SheetPlan};
use crate::geom::{Plane, Vector};
use crate::input::{Drum, Ends, Face, Sized};
use crate::units::{Length, LengthUnit};

/// Why a drum with its sheet makes no tank.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum DrumError {
    /// A size is at fault.
    Turned(TurnedError),
    /// The sheet leaves nothing inside.
    SheetFills {
        /// Diameter or length outside.
        outside: Length,
        /// What the sheet takes of it.
        sheet: Length,
        /// The shell, or an end.
        face: Face,
    },
    /// A dished end runs on from the shell, so its sheet must be as thick.
    UnequalSheets {
        /// The end.
        head: Face,
        /// Its sheet.
        sheet: Length,
        /// The sheet of the shell.
        shell: Length,
    },
}

impl fmt::Display for DrumError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let mm = |length: &Length| length.display(LengthUnit::Millimetre, 2);
        match self {
            Self::Turned(error) => error.fmt(f),
            Self::SheetFills {
                outside,
                sheet,
                face,
            } => write!(
                f,
                "the sheet eats the inside: {} across the {face}, of which the sheet takes {}; use a thinner sheet or a larger drum",
                mm(outside),
                mm(sheet)
            ),
            Self::UnequalSheets { head, sheet, shell } => write!(
                f,
                "a dished end runs on from the shell, so it must be as thick: the {head} is {}, the shell {}",
                mm(sheet),
                mm(shell)
            ),
        }
    }
}

impl core::error::Error for DrumError {}

impl Drum {
    fn heads(&self) -> Result<Head, DrumError> {
        let radius = 0.5 * self.diameter.si();
        match self.ends {
            Ends::Flat => Ok(Head::Flat),
            Ends::Hemispherical => Ok(Head::Dome { depth: radius }),
            Ends::Ellipsoidal => Ok(Head::Dome {
                depth: 0.5 * radius,
            }),
            Ends::Torispherical { crown, knuckle } => Ok(Head::Torispherical {
                crown: crown.si(),
                knuckle: knuckle.si(),
            }),
        }
    }

    /// The outside and the inside of this drum in the given sheet.
    ///
    /// The surface that is sized has the form that its maker names. The other lies one sheet off it:
    /// exactly for the wall, for flat, half-round and torispherical ends. The parallel of an ellipse is
    /// no ellipse; for ellipsoidal ends the other surface is the ellipsoid one sheet off at the pole and
    /// at the rim, and between them nowhere more than 6 % of the sheet off, for thin sheet (the least distance is
    /// `4/(3 √2)` of it).
    ///
    /// # Errors
    /// [`DrumError`] names the size or the sheet at fault.
    pub fn body(&self, sheet: &SheetPlan) -> Result<Body, DrumError> {
        let mut body = Body::EMPTY;
        self.make(sheet, &mut body)?;
        Ok(body)
    }

    #[inline(never)]
    pub(crate) fn make(&self, sheet: &SheetPlan, body: &mut Body) -> Result<(), DrumError> {
        let shell = sheet.of(Face::Shell).si();
        let heads = self.axis.heads();
        let sheets = heads.map(|face| sheet.of(face).si());
        let form = self.heads()?;
        let radius = 0.5 * self.diameter.si();
        let drawn = Turned::new(radius, self.length.si(), [form; 2]).map_err(DrumError::Turned)?;
        if form != Head::Flat {
            for (head, own) in heads.into_iter().zip(sheets) {
                #[expect(clippy::float_cmp, reason = "the same input, not a computed value")]
                if own != shell {
                    return Err(DrumError::UnequalSheets {
                        head,
                        sheet: Length::from_metres(own),
                        shell: Length::from_metres(shell),
                    });
                }
            }
        }
        let by = match self.sized {
            Sized::Outside => -1.0,
            Sized::Inside => 1.0,
        };
        let moved = |size: f64| size + by * shell;
        let other_form = match form {
            Head::Flat => Head::Flat,
            Head::Dome { depth } => Head::Dome {
                depth: moved(depth),
            },
            Head::Torispherical { crown, knuckle } => Head::Torispherical {
                crown: moved(crown),
                knuckle: moved(knuckle),
            },
        };
        let [first, second] = sheets;
        let length = match form {
            Head::Flat => self.length.si() + by * (first + second),
            _ => self.length.si(),
        };
        let fills = |outside: Length, sheet: f64, face: Face| DrumError::SheetFills {
            outside,
            sheet: Length::from_metres(sheet),
            face,
        };
        if !(moved(radius) > 0.0) {
            return Err(fills(self.diameter, 2.0 * shell, Face::Shell));
        }
        if !(length > 0.0) {
            return Err(fills(self.length, first + second, heads[0]));
        }
        let other =
            Turned::new(moved(radius), length, [other_form; 2]).map_err(DrumError::Turned)?;
        let (outside, inside) = match self.sized {
            Sized::Outside => (drawn, other),
            Sized::Inside => (other, drawn),
        };
        // The origin is the corner of the box that holds the outside.
        let across = self.axis.to_seam() + self.axis.along().cross(self.axis.to_seam()) * -1.0;
        let across = Vector::new(
            libm::fabs(across.x),
            libm::fabs(across.y),
            libm::fabs(across.z),
        );
        let start = across * outside.radius() + self.axis.along() * outside.head_depth(0);
        let step = match form {
            Head::Flat => first,
            _ => 0.0,
        };
        PlacedDrum {
            turned: outside,
            start,
            axis: self.axis,
        }
        .fill(&mut body.outside);
        PlacedDrum {
            turned: inside,
            start: start + self.axis.along() * step,
            axis: self.axis,
        }
        .fill(&mut body.inside);
        Ok(())
    }
}

impl PlacedDrum {
    /// Makes `solid` this body: three faces, the ends first, and three edges.
    fn fill(self, solid: &mut Solid) {
        let along = self.axis.along();
        let far = self.start + along * self.turned.length();
        solid.clear();
        let [near_face, far_face] = self.axis.heads();
        let planes = [
            (near_face, -along, self.start),
            (far_face, along, far),
            (
                Face::Shell,
                self.axis.to_seam(),
                self.start + self.axis.to_seam() * self.turned.radius(),
            ),
        ];
        for (face, normal, point) in planes {
            // Three faces always fit.
            let _ = solid.loops.push(Loop {
                face,
                plane: Plane {
                    normal,
                    offset: normal.dot(point),
                },
                start: 0,
                len: 0,
            });
        }
        for end in [self.start, far] {
            let _ = solid
                .vertices
                .push(end + self.axis.to_seam() * self.turned.radius());
        }
        // Flat ends meet the wall squarely; dished ones run on from it.
        let rim = |head: Head| match head {
            Head::Flat => core::f64::consts::FRAC_PI_2,
            Head::Dome { .. } | Head::Torispherical { .. } => core::f64::consts::PI,
        };
        let [first, second] = self.turned.heads();
        for (faces, ends, dihedral) in [
            ([0, 2], [0, 0], rim(first)),
            ([1, 2], [1, 1], rim(second)),
            ([2, 2], [0, 1], core::f64::consts::PI),
        ] {
            let _ = solid.sides.push(Side {
                faces,
                ends,
                dihedral,
            });
        }
        solid.curve = Curve::Turned(self);
    }
}
