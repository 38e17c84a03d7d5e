//! Liquid in a body: volume from depth, depth from volume.

use super::Lean;
use crate::body::Solid;
use crate::fitting::Inner;
use crate::geom::Vector;
use crate::units::range::{Limit, OutOfRange, Value};
use crate::units::{Area, Length, Volume};

/// A depth may pass the brim by this share of the full depth and still be the brim: what is left of
/// rounding when the full depth was itself computed, printed and read back to ten digits.
const BRIM_SLACK: f64 = 1e-9;

/// A level in a body that stands at a given lean.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
pub struct Level {
    /// Along up from the lowest inside point.
    pub depth: Length,
    /// What lies below it.
    pub volume: Volume,
    /// The free surface.
    pub surface: Area,
}

/// The space that holds liquid: what the sheet encloses, less what stands within.
#[derive(Clone, Copy, Debug)]
pub struct Space<'a> {
    solid: &'a Solid,
    inner: Option<&'a Inner>,
}

impl<'a> Space<'a> {
    /// The inside of the sheet with what stands in it.
    #[must_use]
    pub const fn new(solid: &'a Solid, inner: &'a Inner) -> Self {
        Self {
            solid,
            inner: Some(inner),
        }
    }

    /// What the sheet encloses.
    #[must_use]
    pub const fn solid(&self) -> &'a Solid {
        self.solid
    }

    /// What stands within it, where it is known.
    #[must_use]
    pub const fn inner(&self) -> Option<&'a Inner> {
        self.inner
    }

    /// The volume below a plane and the area of the free surface. What stands within is taken off the
    /// volume only: it covers little of the surface.
    fn below(&self, up: Vector, level: f64) -> (f64, f64) {
        let (volume, surface) = self.solid.below(up, level);
        let taken = self.inner.map_or(0.0, |inner| inner.below(up, level));
        (volume - taken, surface)
    }
}

impl<'a> From<&'a Solid> for Space<'a> {
    fn from(solid: &'a Solid) -> Self {
        Self { solid, inner: None }
    }
}

/// A body that holds liquid, at a lean.
#[derive(Clone, Copy, Debug)]
pub struct Pool<'a> {
    space: Space<'a>,
    up: Vector,
    low: f64,
    high: f64,
    brim: f64,
}

impl<'a> Pool<'a> {
    /// The liquid in a space, a solid or one with things in it, leaning as `lean` says.
    #[must_use]
    pub fn new(space: impl Into<Space<'a>>, lean: Lean) -> Self {
        let space = space.into();
        let up = lean.up();
        let (low, high) = space.solid.extent(up);
        let taken = space.inner.map_or(0.0, Inner::displaced);
        Self {
            space,
            up,
            low,
            high,
            brim: space.solid.volume().si() - taken,
        }
    }

    /// The depth at which it is full.
    #[must_use]
    pub const fn full_depth(&self) -> Length {
        Length::from_metres(self.high - self.low)
    }

    /// All that it holds.
    #[must_use]
    pub const fn brim(&self) -> Volume {
        Volume::from_cubic_metres(self.brim)
    }

    /// Up, in tank axes.
    #[must_use]
    pub const fn up(&self) -> Vector {
        self.up
    }

    /// Where the surface stands at a depth, in metres from the origin along up.
    #[must_use]
    pub fn height_of(&self, depth: Length) -> f64 {
        self.low + depth.si()
    }

    /// The liquid at a depth from 0 to the full depth.
    ///
    /// # Errors
    /// [`OutOfRange`] where the depth is negative, not a number, or past the brim.
    pub fn at(&self, depth: Length) -> Result<Level, OutOfRange> {
        let full = self.full_depth();
        let least = Length::from_metres(0.0);
        if depth > Length::from_metres(full.si() * (1.0 + BRIM_SLACK)) {
            return Err(OutOfRange {
                value: Value::Length(depth),
                limit: Limit::AtMost(Value::Length(full)),
            });
        }
        if !(depth >= least) {
            return Err(OutOfRange {
                value: Value::Length(depth),
                limit: Limit::AtLeast(Value::Length(least)),
            });
        }
        if depth >= full {
            let (_, surface) = self.space.below(self.up, self.high);
            return Ok(Level {
                depth: full,
                volume: self.brim(),
                surface: Area::from_square_metres(libm::fmax(surface, 0.0)),
            });
        }
        let (volume, surface) = self.space.below(self.up, self.height_of(depth));
        Ok(Level {
            depth,
            volume: Volume::from_cubic_metres(libm::fmin(libm::fmax(volume, 0.0), self.brim)),
            surface: Area::from_square_metres(libm::fmax(surface, 0.0)),
        })
    }

    /// The depth at which it holds `volume`.
    ///
    /// Newton's step on the free surface, kept inside a shrinking bracket; volume grows with depth
    /// everywhere, so the bracket always holds the answer. To the last bits of the volume.
    ///
    /// # Errors
    /// [`OutOfRange`] where the volume is negative, not a number, or more than the body holds.
    pub fn depth_for(&self, volume: Volume) -> Result<Length, OutOfRange> {
        let wanted = volume.si();
        let refused = |limit: Limit| OutOfRange {
            value: Value::Volume(volume),
            limit,
        };
        if wanted > self.brim * (1.0 + BRIM_SLACK) {
            return Err(refused(Limit::AtMost(Value::Volume(self.brim()))));
        }
        if !(wanted >= 0.0) {
            return Err(refused(Limit::AtLeast(Value::Volume(
                Volume::from_cubic_metres(0.0),
            ))));
        }
        let full = self.high - self.low;
        if wanted >= self.brim {
            return Ok(self.full_depth());
        }
        if wanted == 0.0 {
            return Ok(Length::from_metres(0.0));
        }
        let (mut low, mut high) = (0.0, full);
        let mut depth = full * (wanted / self.brim);
        // 200 halvings are past the last bit of any double; Newton needs about six steps.
        for _ in 0..200 {
            let (held, surface) = self.space.below(self.up, self.low + depth);
            let over = held - wanted;
            if libm::fabs(over) <= f64::EPSILON * wanted || high - low <= f64::EPSILON * full {
                break;
            }
            if over > 0.0 {
                high = depth;
            } else {
                low = depth;
            }
            let newton = depth - over / surface;
            let next = if surface > 0.0 && newton > low && newton < high {
                newton
            } else {
                0.5 * (low + high)
            };
            // A step of the depth's last bits is rounding's, and another clip of the body would not mend
            // it.
            let settled = libm::fabs(next - depth) <= 2.0 * f64::EPSILON * full;
            depth = next;
            if settled {
                break;
            }
        }
        Ok(Length::from_metres(depth))
    }
}
