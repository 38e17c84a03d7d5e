//! The section of a bead: plane geometry of the joint, and caps taken as parabolas, two thirds of width
//! times height.
//!
//! Reinforcement of 0.5 to 1.5 mm and a root of up to 1 mm are usual: EN ISO 10042, levels B and C (from
//! memory).

use core::f64::consts::PI;
use core::fmt;

use crate::blank::{Allow, JointError, SheetCorner};
use crate::input::Joint;
use crate::units::range::RangeError;
use crate::units::{Angle, Area, Figure, Length, LengthUnit};

/// A cap of weld metal that stands over its line.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Cap {
    /// Its width: 0 to 100 mm.
    pub width: Length,
    /// Its height: 0 to 20 mm.
    pub height: Length,
}

impl Cap {
    /// A parabola's area, `⅔ w h`.
    fn area(self) -> Result<f64, RangeError> {
        let w = Figure::CapWidth.within(self.width.si(), 0.0, 0.1)?;
        let h = Figure::CapHeight.within(self.height.si(), 0.0, 0.02)?;
        Ok(2.0 / 3.0 * w * h)
    }
}

/// The face of a corner's or a fillet's bead.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum BeadFace {
    /// Straight from toe to toe.
    Flat,
    /// A parabola over that line, so high in the middle.
    Convex(Length),
    /// An open corner filled until it is round about its root, a quarter of a circle at 90° between equal
    /// sheets; any other joint takes it as flat.
    Round,
}

/// How a seam is to be filled.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct BeadForm {
    /// Over a butt or over the line of a corner that is closed.
    pub cap: Cap,
    /// Under a butt.
    pub root: Cap,
    /// Leg of a fillet: 0.5 to 50 mm.
    pub leg: Length,
    /// Face of a corner or a fillet.
    pub face: BeadFace,
}

impl BeadForm {
    /// A usual one for two sheets: a cap and a root 2.5 and 1.5 of the thinner sheet wide (common practice,
    /// no source) and 1 and 0.5 mm high (the middle of EN ISO 10042's range, from memory), a leg as long as
    /// that sheet is thick, corners filled round.
    #[must_use]
    pub fn usual(sheets: [Length; 2]) -> Self {
        let [a, b] = sheets.map(Length::si);
        let thin = if b < a { b } else { a };
        let cap = |widths: f64, mm: f64| Cap {
            width: Length::from_metres(widths * thin),
            height: Length::new(mm, LengthUnit::Millimetre),
        };
        Self {
            cap: cap(2.5, 1.0),
            root: cap(1.5, 0.5),
            leg: Length::from_metres(thin),
            face: BeadFace::Round,
        }
    }
}

/// Why a joint has no section.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum BeadError {
    /// A value past its limit.
    Range(RangeError),
    /// The joint does not suit the angle.
    Joint(JointError),
}

impl fmt::Display for BeadError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Range(error) => error.fmt(f),
            Self::Joint(error) => error.fmt(f),
        }
    }
}

impl core::error::Error for BeadError {}

impl From<RangeError> for BeadError {
    fn from(error: RangeError) -> Self {
        Self::Range(error)
    }
}

impl From<JointError> for BeadError {
    fn from(error: JointError) -> Self {
        Self::Joint(error)
    }
}

fn square_metres(value: f64) -> Area {
    Area::from_square_metres(value)
}

fn sheet(thickness: Length) -> Result<f64, RangeError> {
    Figure::Thickness.within(thickness.si(), 1e-4, 0.1)
}

/// A butt with square edges: `g t + ⅔ w_c h_c + ⅔ w_r h_r`, with the gap `g` and the thinner sheet.
///
/// # Errors
/// [`RangeError`] for a sheet outside 0.1 to 100 mm, a gap outside 0 to 20 mm, or a cap.
pub fn square_butt(
    thickness: Length,
    gap: Length,
    cap: Cap,
    root: Cap,
) -> Result<Area, RangeError> {
    let groove = sheet(thickness)? * Figure::Gap.within(gap.si(), 0.0, 0.02)?;
    Ok(square_metres(groove + cap.area()? + root.area()?))
}

/// A fillet of equal legs where two faces meet at `angle`: `½ z² sin φ`, at 90° `z²/2`, and
/// `⅔ · 2 z sin(φ/2) · h` for a convex face.
///
/// # Errors
/// [`RangeError`] for a leg outside 0.5 to 50 mm, an angle outside 10° to 170°, or a cap.
pub fn fillet(leg: Length, angle: Angle, face: BeadFace) -> Result<Area, RangeError> {
    let z = Figure::Leg.within(leg.si(), 5e-4, 0.05)?;
    let degree = PI / 180.0;
    let phi = Figure::Angle.within(angle.si(), 10.0 * degree, 170.0 * degree)?;
    let chord = 2.0 * z * libm::sin(0.5 * phi);
    let flat = 0.5 * z * z * libm::sin(phi);
    Ok(square_metres(flat + raised(chord, face)?))
}

/// What stands over a line from toe to toe.
fn raised(width: f64, face: BeadFace) -> Result<f64, RangeError> {
    match face {
        BeadFace::Convex(height) => Cap {
            width: Length::from_metres(width),
            height,
        }
        .area(),
        BeadFace::Flat | BeadFace::Round => Ok(0.0),
    }
}

/// Two edges of sheets side by side, melted down into each other: the cap only, `⅔ (t₁ + t₂) h`. The metal
/// is the edges' own where no filler is added, so this is what filler adds.
///
/// # Errors
/// [`RangeError`] for a sheet or a height.
pub fn edge(sheets: [Length; 2], height: Length) -> Result<Area, RangeError> {
    let [a, b] = sheets;
    let width = Length::from_metres(sheet(a)? + sheet(b)?);
    Ok(square_metres(Cap { width, height }.area()?))
}

/// The section that `joint` wants between two sheets, of the bead on the outside of the tank.
///
/// A corner's bead fills what is left open between the ends of the sheets up to the line from toe to toe,
/// the root gap with it. Where at a sharp angle the corner of the covering sheet stands past that line, it is
/// melted into the bead and counts against it, down to nothing. A closed corner leaves nothing open and gets the
/// cap alone. A tee is a fillet in the
/// angle between the sheet that runs past and the one that lands on it. Laps in one plane are fillets at
/// 90° as high as the thinner sheet. A flanged lap fills the groove beside the flange's bend flush:
/// `R² (tan ½α − ½α)` for the turn `α` and the outer radius `R`. At an inside corner of the body, where the
/// dihedral is past 180°, the bead outside is a fillet, whatever the joint.
///
/// # Errors
/// [`BeadError`] for sheets outside 0.1 to 100 mm, a value of the form, or a joint that does not suit the
/// angle.
pub fn of_joint(
    joint: Joint,
    corner: SheetCorner,
    allow: &Allow,
    form: &BeadForm,
) -> Result<Area, BeadError> {
    let [a, b] = corner.sheets;
    let (ta, tb) = (sheet(a)?, sheet(b)?);
    let thin = if tb < ta { b } else { a };
    let theta = corner.dihedral.si();
    let sides = joint.fit(corner, allow)?.sides;
    let right = Angle::from_radians(0.5 * PI);
    match joint {
        Joint::Butt => Ok(square_butt(thin, allow.gap, form.cap, form.root)?),
        Joint::JoggleLap => Ok(fillet(thin, right, form.face)?),
        _ if theta > PI => {
            let open = Angle::from_radians(2.0 * PI - theta);
            Ok(fillet(form.leg, open, form.face)?)
        }
        Joint::Tee => {
            let open = Angle::from_radians(PI - theta);
            Ok(fillet(form.leg, open, form.face)?)
        }
        Joint::FlangedLap => {
            let half = 0.5 * (PI - theta);
            let outer = allow.bend_radius.si() + tb;
            let groove = outer * outer * (libm::tan(half) - half);
            Ok(square_metres(
                groove + raised(outer * libm::tan(half), form.face)?,
            ))
        }
        Joint::OpenCorner | Joint::HalfOpenCorner | Joint::ClosedCorner => {
            let [xa, xb] = sides.map(|side| side.deduct.si());
            let void = Void::between([xa, xb], [ta, tb], theta);
            let over = match form.face {
                BeadFace::Round if joint == Joint::OpenCorner => {
                    // The sector about the root less its triangle.
                    let open = PI - theta;
                    0.5 * ta * tb * (open - libm::sin(open))
                }
                // Nothing open to fill: a cap along the line.
                _ if joint == Joint::ClosedCorner => form.cap.area()?,
                face => raised(void.width, face)?,
            };
            Ok(square_metres(void.area + over))
        }
    }
}

/// What two square ends leave open at a corner.
struct Void {
    area: f64,
    /// From toe to toe.
    width: f64,
}

impl Void {
    /// Between ends that fall short by `deducts` along the outer faces, of `sheets`, at `theta`. The
    /// outside corner is the origin, the first outer face runs along x.
    fn between(deducts: [f64; 2], sheets: [f64; 2], theta: f64) -> Self {
        let ([xa, xb], [ta, tb]) = (deducts, sheets);
        let (sine, cosine) = libm::sincos(theta);
        // Toe and root of each end; inward is towards the other sheet.
        let (toe_a, root_a) = ([xa, 0.0], [xa, ta]);
        let toe_b = [xb * cosine, xb * sine];
        let root_b = [toe_b[0] + tb * sine, toe_b[1] - tb * cosine];
        let cross = |p: [f64; 2], q: [f64; 2]| p[0] * q[1] - p[1] * q[0];
        let around = cross(toe_a, root_a)
            + cross(root_a, root_b)
            + cross(root_b, toe_b)
            + cross(toe_b, toe_a);
        Self {
            area: libm::fmax(0.5 * around, 0.0),
            width: libm::hypot(toe_a[0] - toe_b[0], toe_a[1] - toe_b[1]),
        }
    }
}
