//! What a joint takes from the two panels at an edge.

use core::f64::consts::PI;
use core::fmt;

use super::super::bend::{Bend, BendError, BendRule, MOST_SETBACK_TURN};
use crate::input::Joint;
use crate::units::{Angle, AngleUnit, Length, LengthUnit};

/// Two panels count as lying in one plane within this much.
pub const FLAT_WITHIN: Angle = Angle::new(1.0, AngleUnit::Degree);

/// Sharpest corner, from 0° and from 360°, that panels can be cut square for.
pub const SHARPEST: Angle = Angle::new(10.0, AngleUnit::Degree);

/// A joggle's ramp is this many thicknesses long: common practice, no source.
pub const JOGGLE_RAMP: f64 = 3.0;

/// A corner between two sheets.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SheetCorner {
    /// The inside angle between them.
    pub dihedral: Angle,
    /// The sheet of the panel that runs through and of the one that gives way.
    pub sheets: [Length; 2],
}

/// What the joints of a tank have in common.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Allow {
    /// How far a tee runs past, a joggle laps, or a flange reaches from the corner.
    pub lap: Length,
    /// Root gap.
    pub gap: Length,
    /// Inside radius of a flange's bend.
    pub bend_radius: Length,
    /// How a bend is developed.
    pub rule: BendRule,
}

/// What one panel's edge is at a joint.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
pub struct EdgeFit {
    /// How far its edge falls short of the sharp outside edge, along the outer face; below zero where it
    /// runs past.
    pub deduct: Length,
    /// How far its edge is cut off square; zero where it is square.
    pub bevel: Angle,
    /// How far in from its edge a flange's bend line lies; zero where there is none.
    pub flange: Length,
}

/// A joint worked out: the panel that runs through first, the one that gives way second.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct JointFit {
    /// What each of the two panels gives up or adds.
    pub sides: [EdgeFit; 2],
}

/// Why two panels cannot be joined so.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum JointError {
    /// A butt or a joggle needs panels in one plane.
    NotFlat {
        /// The joint.
        joint: Joint,
        /// The angle there.
        dihedral: Angle,
    },
    /// A corner joint between panels in one plane.
    NoCorner {
        /// The joint.
        joint: Joint,
        /// The angle there.
        dihedral: Angle,
    },
    /// The corner is too sharp to weld or cut for.
    TooSharp {
        /// The angle there.
        dihedral: Angle,
        /// The sharpest.
        least: Angle,
    },
    /// The flange is too short for its bend.
    ShortFlange {
        /// What was given.
        lap: Length,
        /// The least.
        least: Length,
    },
    /// The flange's bend.
    Bend(BendError),
    /// A flange along a circle.
    Round,
}

impl fmt::Display for JointError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let degrees = |angle: &Angle| angle.display(AngleUnit::Degree, 1);
        match self {
            Self::NotFlat { joint, dihedral } => write!(
                f,
                "a {} joins panels in one plane, and these meet at {}: take an open corner, a lap or a tee",
                joint.name(),
                degrees(dihedral)
            ),
            Self::NoCorner { joint, dihedral } => write!(
                f,
                "a joint of the kind {} needs a corner, and these panels meet at {}: take a butt or a joggle lap",
                joint.name(),
                degrees(dihedral)
            ),
            Self::TooSharp { dihedral, least } => write!(
                f,
                "the panels meet at {}, too sharp to cut and to weld; at least {} is wanted",
                degrees(dihedral),
                degrees(least)
            ),
            Self::ShortFlange { lap, least } => write!(
                f,
                "a flange of {} does not reach past its bend on to the other panel: at least {}",
                lap.display(LengthUnit::Millimetre, 2),
                least.display(LengthUnit::Millimetre, 2)
            ),
            Self::Bend(error) => error.fmt(f),
            Self::Round => f.write_str(
                "no brake bends a flange round a circle: take an open corner, a tee or dished ends",
            ),
        }
    }
}

impl core::error::Error for JointError {}

/// The foot of the inside corner on the outer face of a sheet of `own`, from the outside corner.
fn foot(own: f64, other: f64, theta: f64) -> f64 {
    let (sine, cosine) = libm::sincos(theta);
    (other + own * cosine) / sine
}

/// How far the panel that gives way falls short where the one that runs through, of sheet `through`, does
/// so by `x`: until its square end clears the other's inner face (θ up to 90°) or the inner corner of the
/// other's square end (beyond).
fn gives_way(through: f64, own: f64, theta: f64, x: f64) -> f64 {
    if theta <= 0.5 * PI {
        foot(own, through, theta)
    } else {
        let (sine, cosine) = libm::sincos(theta);
        // Of a sheet much thinner than the other the inner corner comes first, to the other's square end.
        libm::fmin(x * cosine + through * sine, (x - own * sine) / cosine)
    }
}

impl Joint {
    /// What each panel gives up at a corner.
    ///
    /// # Errors
    /// [`JointError`] where the joint does not suit the angle.
    pub fn fit(self, corner: SheetCorner, allow: &Allow) -> Result<JointFit, JointError> {
        let theta = corner.dihedral.si();
        let flat = libm::fabs(theta - PI) <= FLAT_WITHIN.si();
        let (dihedral, joint) = (corner.dihedral, self);
        if self.is_flat() && !flat {
            return Err(JointError::NotFlat { joint, dihedral });
        }
        if !self.is_flat() && flat {
            return Err(JointError::NoCorner { joint, dihedral });
        }
        if !(theta >= SHARPEST.si() && theta <= 2.0 * PI - SHARPEST.si()) {
            return Err(JointError::TooSharp {
                dihedral,
                least: SHARPEST,
            });
        }
        if self.is_flat() {
            return Ok(self.in_plane(corner, allow));
        }
        if theta < PI {
            return self.convex(theta, corner.sheets, allow);
        }
        // An inside corner is measured along the inner faces, which there are the ones that bulge.
        let [a, b] = corner.sheets.map(Length::si);
        let mut fit = self.convex(2.0 * PI - theta, corner.sheets, allow)?;
        for (side, own, other) in [(0, a, b), (1, b, a)] {
            if let Some(side) = fit.sides.get_mut(side) {
                let more = foot(own, other, theta);
                side.deduct = Length::from_metres(side.deduct.si() + more);
            }
        }
        Ok(fit)
    }

    fn in_plane(self, corner: SheetCorner, allow: &Allow) -> JointFit {
        let [_, own] = corner.sheets.map(Length::si);
        let gap = allow.gap.si();
        let side = |deduct: f64| EdgeFit {
            deduct: Length::from_metres(deduct),
            ..EdgeFit::default()
        };
        match self {
            Self::JoggleLap => {
                let ramp = JOGGLE_RAMP * own;
                let slant = libm::sqrt(ramp * ramp + own * own) - ramp;
                JointFit {
                    sides: [side(0.0), side(-(allow.lap.si() + slant))],
                }
            }
            _ => JointFit {
                sides: [side(0.5 * gap), side(0.5 * gap)],
            },
        }
    }

    fn convex(
        self,
        theta: f64,
        sheets: [Length; 2],
        allow: &Allow,
    ) -> Result<JointFit, JointError> {
        let [through, own] = sheets.map(Length::si);
        let gap = allow.gap.si();
        let square = |deduct: f64| EdgeFit {
            deduct: Length::from_metres(deduct),
            ..EdgeFit::default()
        };
        let open = foot(through, own, theta);
        let sides = match self {
            Self::OpenCorner | Self::Butt | Self::JoggleLap => [
                square(open + 0.5 * gap),
                square(foot(own, through, theta) + 0.5 * gap),
            ],
            Self::HalfOpenCorner => [
                square(0.5 * open),
                square(gives_way(through, own, theta, 0.5 * open) + gap),
            ],
            Self::ClosedCorner => [
                square(0.0),
                square(gives_way(through, own, theta, 0.0) + gap),
            ],
            Self::Tee => [
                square(-allow.lap.si()),
                EdgeFit {
                    deduct: Length::from_metres((through + gap) / libm::sin(theta)),
                    bevel: Angle::from_radians(libm::fabs(0.5 * PI - theta)),
                    flange: Length::default(),
                },
            ],
            Self::FlangedLap => {
                let turn = Angle::from_radians(PI - theta);
                let bend = Bend::new(sheets[1], allow.bend_radius, turn, allow.rule)
                    .map_err(JointError::Bend)?;
                let (Some(setback), Some(deduction)) = (bend.setback(), bend.deduction()) else {
                    return Err(JointError::TooSharp {
                        dihedral: Angle::from_radians(theta),
                        least: Angle::from_radians(PI - MOST_SETBACK_TURN.si()),
                    });
                };
                // At a blunt corner the flange has a way to go before it lies on the other panel at all.
                let blunt = through - (through + gap) * libm::cos(theta) / libm::sin(theta);
                let least = Length::from_metres(libm::fmax(setback.si(), blunt));
                if !(allow.lap > least) {
                    return Err(JointError::ShortFlange {
                        lap: allow.lap,
                        least,
                    });
                }
                let more = allow.lap.si() - deduction.si();
                let leg = allow.lap.si() - setback.si();
                [
                    square(0.0),
                    EdgeFit {
                        deduct: Length::from_metres((through + gap) / libm::sin(theta) - more),
                        bevel: Angle::default(),
                        flange: Length::from_metres(leg + 0.5 * bend.allowance().si()),
                    },
                ]
            }
        };
        Ok(JointFit { sides })
    }
}
