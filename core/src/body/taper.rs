//! A rectangle below and another above it: a hopper, a funnel, a keel tank.

use core::fmt;

use super::clip::hexahedron;
use super::{Body, SheetPlan};
use crate::geom::{Plane, Vector};
use crate::input::{Face, Sized, Taper};
use crate::units::{Length, LengthUnit};

/// Why a taper with its sheet makes no tank.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum TaperError {
    /// A size is not above zero.
    Flat,
    /// The sheets leave no height.
    SheetFillsHeight {
        /// Outside.
        height: Length,
        /// The two sheets together.
        sheet: Length,
    },
    /// Two opposite walls meet before they reach an end.
    Closed {
        /// Bottom or top.
        end: Face,
        /// The nearer of the two walls.
        wall: Face,
        /// How far past each other they would be.
        by: Length,
    },
}

impl fmt::Display for TaperError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Flat => f.write_str("base, top and height must all be above zero"),
            Self::SheetFillsHeight { height, sheet } => write!(
                f,
                "the sheet eats the inside: {} high, of which the two sheets take {}; use a thinner sheet or a taller body",
                height.display(LengthUnit::Millimetre, 2),
                sheet.display(LengthUnit::Millimetre, 2)
            ),
            Self::Closed { end, wall, by } => {
                let across = match wall {
                    Face::Front => "front and back",
                    _ => "left and right",
                };
                write!(
                    f,
                    "within the sheet the {across} walls pass each other by {} before they reach the {end}: make the {end} larger or the sheet thinner",
                    by.display(LengthUnit::Millimetre, 2)
                )
            }
        }
    }
}

impl core::error::Error for TaperError {}

/// One pair of opposite walls: the plane of each as a line `across = at + slope · z`.
#[derive(Clone, Copy)]
struct Walls {
    near: (f64, f64),
    far: (f64, f64),
}

impl Walls {
    /// The walls over a base and a top, both measured from the near edge of the base.
    fn over(base: f64, top: f64, shift: f64, height: f64) -> Self {
        let near_top = 0.5 * (base - top) + shift;
        Self {
            near: (0.0, near_top / height),
            far: (base, (near_top + top - base) / height),
        }
    }

    /// Moved outward by `near` and `far` metres, each across its own wall.
    fn moved(self, near: f64, far: f64) -> Self {
        let lean = |slope: f64| libm::sqrt(1.0 + slope * slope);
        Self {
            near: (self.near.0 - near * lean(self.near.1), self.near.1),
            far: (self.far.0 + far * lean(self.far.1), self.far.1),
        }
    }

    fn at(self, z: f64) -> [f64; 2] {
        [self.near, self.far].map(|(at, slope)| at + slope * z)
    }

    fn shifted(self, by: f64) -> Self {
        Self {
            near: (self.near.0 + by, self.near.1),
            far: (self.far.0 + by, self.far.1),
        }
    }

    fn raised(self, by: f64) -> Self {
        let raise = |(at, slope): (f64, f64)| (at - slope * by, slope);
        Self {
            near: raise(self.near),
            far: raise(self.far),
        }
    }
}

/// One surface of the sheet.
#[derive(Clone, Copy)]
struct Surface {
    x: Walls,
    y: Walls,
    low: f64,
    high: f64,
}

impl Taper {
    /// The outside and the inside of this taper in the given sheet: each plane moved by its own
    /// thickness, the corners found anew.
    ///
    /// # Errors
    /// [`TaperError`] names the walls at fault.
    pub fn body(&self, sheet: &SheetPlan) -> Result<Body, TaperError> {
        let mut body = Body::EMPTY;
        self.make(sheet, &mut body)?;
        Ok(body)
    }

    #[inline(never)]
    pub(crate) fn make(&self, sheet: &SheetPlan, body: &mut Body) -> Result<(), TaperError> {
        let [base_x, base_y] = self.base.map(Length::si);
        let [top_x, top_y] = self.top.map(Length::si);
        let [shift_x, shift_y] = self.shift.map(Length::si);
        let height = self.height.si();
        let sizes = [base_x, base_y, top_x, top_y, height];
        let whole = sizes.iter().all(|size| *size > 0.0);
        if !(whole && shift_x.is_finite() && shift_y.is_finite()) {
            return Err(TaperError::Flat);
        }
        let [front, back, left, right, bottom, top] = Face::BOX.map(|face| sheet.of(face).si());
        let drawn = Surface {
            x: Walls::over(base_x, top_x, shift_x, height),
            y: Walls::over(base_y, top_y, shift_y, height),
            low: 0.0,
            high: height,
        };
        let sense = match self.sized {
            Sized::Outside => -1.0,
            Sized::Inside => 1.0,
        };
        let other = Surface {
            x: drawn.x.moved(sense * left, sense * right),
            y: drawn.y.moved(sense * front, sense * back),
            low: drawn.low - sense * bottom,
            high: drawn.high + sense * top,
        };
        let (mut outside, mut inside) = match self.sized {
            Sized::Outside => (drawn, other),
            Sized::Inside => (other, drawn),
        };
        // The origin is the near corner of the outside's base, whatever the sizes measure.
        let ([x, _], [y, _]) = (outside.x.at(outside.low), outside.y.at(outside.low));
        let corner = Vector::new(x, y, outside.low);
        for surface in [&mut outside, &mut inside] {
            surface.x = surface.x.shifted(-corner.x).raised(-corner.z);
            surface.y = surface.y.shifted(-corner.y).raised(-corner.z);
            surface.low -= corner.z;
            surface.high -= corner.z;
        }
        for surface in [&outside, &inside] {
            if !(surface.high > surface.low) {
                return Err(TaperError::SheetFillsHeight {
                    height: self.height,
                    sheet: Length::from_metres(bottom + top),
                });
            }
            for (end, z) in [(Face::Bottom, surface.low), (Face::Top, surface.high)] {
                for (wall, walls) in [(Face::Left, surface.x), (Face::Front, surface.y)] {
                    let [near, far] = walls.at(z);
                    if !(far > near) {
                        return Err(TaperError::Closed {
                            end,
                            wall,
                            by: Length::from_metres(near - far),
                        });
                    }
                }
            }
        }
        let Body {
            outside: over,
            inside: within,
        } = body;
        for (solid, surface) in [(over, outside), (within, inside)] {
            surface.fill(solid).ok_or(TaperError::Flat)?;
        }
        Ok(())
    }
}

impl Surface {
    fn fill(&self, solid: &mut super::Solid) -> Option<()> {
        let ends = [self.low, self.high];
        let corner = |index: usize| {
            let z = *ends.get(index >> 2)?;
            let x = *self.x.at(z).get(index & 1)?;
            let y = *self.y.at(z).get((index >> 1) & 1)?;
            Some(Vector::new(x, y, z))
        };
        let mut corners = [Vector::ZERO; 8];
        for (index, slot) in corners.iter_mut().enumerate() {
            *slot = corner(index)?;
        }
        let plane = |at: f64, slope: f64, far: bool, axis: Vector| {
            let sense = if far { 1.0 } else { -1.0 };
            Plane::through(axis * at, (axis - Vector::new(0.0, 0.0, slope)) * sense)
        };
        let (x, y) = (Vector::new(1.0, 0.0, 0.0), Vector::new(0.0, 1.0, 0.0));
        let planes = [
            plane(self.y.near.0, self.y.near.1, false, y)?,
            plane(self.y.far.0, self.y.far.1, true, y)?,
            plane(self.x.near.0, self.x.near.1, false, x)?,
            plane(self.x.far.0, self.x.far.1, true, x)?,
            Plane {
                normal: Vector::new(0.0, 0.0, -1.0),
                offset: -self.low,
            },
            Plane {
                normal: Vector::new(0.0, 0.0, 1.0),
                offset: self.high,
            },
        ];
        hexahedron(solid, corners, planes)
    }
}
