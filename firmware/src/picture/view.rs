//! How the tank is looked at, and where on the display that puts a point of it.

use embedded_graphics::geometry::{Point, Size};
use embedded_graphics::primitives::Rectangle;
use seamwright_core::body::Solid;
use seamwright_core::capacity::Lean;
use seamwright_core::geom::Vector;
use seamwright_core::input::Face;

/// The eye stands this far round to the right of the front, in radians: 30°.
const AZIMUTH: f64 = core::f64::consts::FRAC_PI_6;
/// And this far above, in radians: 25°.
const ELEVATION: f64 = 25.0 * core::f64::consts::PI / 180.0;
/// What the widest stroke, slanting, reaches past its line on either side, in pixels.
const MARGIN: u32 = 2;
/// A face that is turned to the eye by no more than this is seen from its edge: a line, which hides
/// nothing.
const EDGE_ON: f64 = 1e-9;
/// Fractions of a pixel in which lines are reckoned.
pub(super) const PIXEL: i32 = 256;

/// How the tank stands and from which side it is seen.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Look {
    /// How it stands. A leaning tank is drawn leaning, its liquid level.
    pub lean: Lean,
    /// Quarter turns by which the eye has gone round to the right.
    pub quarters: u8,
}

impl Look {
    /// Upright, from the front and somewhat from the right and above.
    pub const FRONT: Self = Self {
        lean: Lean::LEVEL,
        quarters: 0,
    };
}

/// A place on the display, in 256ths of a pixel; the centre of the top left pixel is (128, 128).
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(super) struct Spot {
    pub(super) x: i32,
    pub(super) y: i32,
}

impl Spot {
    /// The place at a share of the way to another, from 0 to 1.
    pub(super) fn toward(self, other: Self, share: f64) -> Self {
        let between = |from: i32, to: i32| from + libm::round(f64::from(to - from) * share) as i32;
        Self {
            x: between(self.x, other.x),
            y: between(self.y, other.y),
        }
    }
}

/// A parallel projection onto an area of the display.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct View {
    /// Rightwards on the display, in tank axes, of unit length.
    right: Vector,
    /// Upwards on the display.
    up: Vector,
    /// From the tank to the eye.
    toward: Vector,
    /// Pixels to the metre.
    scale: f64,
    /// Where the origin of tank axes falls, in pixels.
    origin: (f64, f64),
    /// What of the area the tank takes up.
    extent: Rectangle,
}

impl View {
    /// Fits `solid`, looked at as `look` says, into the middle of `area`, as large as it goes.
    ///
    /// `None` where there is nothing to see: no vertices, a size that is not a number, or an area
    /// too small for a line.
    #[must_use]
    pub fn fit(solid: &Solid, look: Look, area: Rectangle) -> Option<Self> {
        let [right, up, toward] = camera(look);
        let (left, across) = span(solid, right)?;
        let (foot, tall) = span(solid, up)?;
        let room = |pixels: u32| {
            pixels
                .checked_sub(2 * MARGIN)
                .filter(|room| *room > 0)
                .map(f64::from)
        };
        let (width, height) = (room(area.size.width)?, room(area.size.height)?);
        let scale = libm::fmin(width / across, height / tall);
        if !(scale.is_finite() && scale > 0.0) {
            return None;
        }
        let middle_x = f64::from(area.top_left.x) + 0.5 * f64::from(area.size.width);
        let middle_y = f64::from(area.top_left.y) + 0.5 * f64::from(area.size.height);
        let origin = (
            middle_x - (left + 0.5 * across) * scale,
            middle_y + (foot + 0.5 * tall) * scale,
        );
        let taken = Size::new(
            libm::ceil(across * scale) as u32 + 2 * MARGIN,
            libm::ceil(tall * scale) as u32 + 2 * MARGIN,
        )
        .component_min(area.size);
        let extent = Rectangle::with_center(area.center(), taken).intersection(&area);
        Some(Self {
            right,
            up,
            toward,
            scale,
            origin,
            extent,
        })
    }

    /// What of its area the tank takes up.
    #[must_use]
    pub const fn extent(&self) -> Rectangle {
        self.extent
    }

    /// The pixel on which a point of the tank falls.
    #[must_use]
    pub fn pixel(&self, point: Vector) -> Point {
        let Spot { x, y } = self.spot(point);
        Point::new(x.div_euclid(PIXEL), y.div_euclid(PIXEL))
    }

    /// The middle of the pixel on which a point of the tank falls. Corners that stand in the middle of
    /// a pixel give upright lines their full grey, in one column instead of two.
    pub(super) fn spot(&self, point: Vector) -> Spot {
        let fixed = |pixels: f64| libm::floor(pixels) as i32 * PIXEL + PIXEL / 2;
        Spot {
            x: fixed(self.origin.0 + self.right.dot(point) * self.scale),
            y: fixed(self.origin.1 - self.up.dot(point) * self.scale),
        }
    }

    /// From the tank to the eye, of unit length.
    pub(super) const fn toward(&self) -> Vector {
        self.toward
    }

    /// The direction at an angle on the display, from rightwards to upwards.
    pub(super) fn across(&self, angle: f64) -> Vector {
        let (sine, cosine) = libm::sincos(angle);
        self.right * cosine + self.up * sine
    }

    /// Whether a face with this outward normal faces the eye.
    pub(super) fn is_seen(&self, normal: Vector) -> bool {
        self.toward.dot(normal) > EDGE_ON
    }
}

/// The quarter turn from which most cuts are seen, from the front if that shows as many as any: what
/// tells one tank from another is where it was cut.
#[must_use]
pub fn telling_side(solid: &Solid) -> u8 {
    let cuts_seen = |quarters: u8| {
        let [.., toward] = camera(Look {
            quarters,
            ..Look::FRONT
        });
        let cuts = solid
            .faces()
            .filter(|face| matches!(face.face(), Face::Cut(_)));
        cuts.filter(|cut| toward.dot(cut.normal()) > EDGE_ON)
            .count()
    };
    let mut best = (0, cuts_seen(0));
    for quarters in 1..4 {
        let seen = cuts_seen(quarters);
        if seen > best.1 {
            best = (quarters, seen);
        }
    }
    best.0
}

/// Right, up and toward the eye, in tank axes.
fn camera(look: Look) -> [Vector; 3] {
    let azimuth = AZIMUTH + f64::from(look.quarters % 4) * core::f64::consts::FRAC_PI_2;
    let (sa, ca) = libm::sincos(azimuth);
    let (se, ce) = libm::sincos(ELEVATION);
    let (sp, cp) = libm::sincos(look.lean.pitch().si());
    let (sr, cr) = libm::sincos(look.lean.roll().si());
    // The workshop's own axes, seen from the leaning tank. The third is up, as in `Lean::up`.
    let shop_x = Vector::new(cp, -sp * sr, -sp * cr);
    let shop_y = Vector::new(0.0, cr, -sr);
    let shop_z = Vector::new(sp, cp * sr, cp * cr);
    let turn = |x: f64, y: f64, z: f64| shop_x * x + shop_y * y + shop_z * z;
    [
        turn(ca, sa, 0.0),
        turn(-sa * se, ca * se, ce),
        turn(sa * ce, -ca * ce, se),
    ]
}

/// Least value and length of what the vertices span along a direction.
fn span(solid: &Solid, along: Vector) -> Option<(f64, f64)> {
    let (low, high) = solid.extent(along);
    let length = high - low;
    (length.is_finite() && length > 0.0).then_some((low, length))
}

#[cfg(test)]
mod tests {
    use super::*;
    use seamwright_core::units::{Angle, AngleUnit};

    fn near(a: f64, b: f64) -> bool {
        (a - b).abs() < 1e-12
    }

    #[test]
    fn the_eye_stays_level_however_the_tank_leans() {
        for quarters in 0..8 {
            for (pitch, roll) in [
                (0.0, 0.0),
                (10.0, 0.0),
                (0.0, -25.0),
                (33.0, 40.0),
                (-90.0, 7.0),
            ] {
                let angle = |degrees| Angle::new(degrees, AngleUnit::Degree);
                let lean = Lean::new(angle(pitch), angle(roll)).unwrap();
                let axes = camera(Look { lean, quarters });
                for (i, a) in axes.iter().enumerate() {
                    for (j, b) in axes.iter().enumerate() {
                        assert!(near(a.dot(*b), if i == j { 1.0 } else { 0.0 }));
                    }
                }
                // What is level in the workshop runs level across the display.
                let [right, up, toward] = axes;
                assert!(near(lean.up().dot(right), 0.0));
                assert!(near(lean.up().dot(up), libm::cos(ELEVATION)));
                assert!(near(lean.up().dot(toward), libm::sin(ELEVATION)));
                // Right-handed, or the picture would be a mirror image.
                assert!(near(right.cross(up).dot(toward), 1.0));
            }
        }
    }

    #[test]
    fn from_the_front_one_sees_front_top_and_right() {
        let [right, up, toward] = camera(Look::FRONT);
        let axis = |x, y, z| Vector::new(x, y, z);
        assert!(toward.dot(axis(0.0, -1.0, 0.0)) > 0.0, "front");
        assert!(toward.dot(axis(0.0, 0.0, 1.0)) > 0.0, "top");
        assert!(toward.dot(axis(1.0, 0.0, 0.0)) > 0.0, "right");
        assert!(
            right.dot(axis(1.0, 0.0, 0.0)) > 0.0,
            "length runs to the right"
        );
        assert!(
            up.dot(axis(0.0, 1.0, 0.0)) > 0.0,
            "what is further back stands higher"
        );
        // A quarter turn to the right shows the right end in front.
        let [right, ..] = camera(Look {
            quarters: 1,
            ..Look::FRONT
        });
        assert!(right.dot(axis(0.0, 1.0, 0.0)) > 0.5);
    }
}
