//! Vectors and planes in tank axes.
//!
//! x runs left to right, y front to back, z bottom to top, in metres; a direction has no unit.

pub mod outline;
pub(crate) mod root;
#[doc(hidden)]
pub mod sort;
pub(crate) mod split;

use core::ops::{Add, Mul, Neg, Sub};

/// A point or a direction in tank axes.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Vector {
    /// Left to right.
    pub x: f64,
    /// Front to back.
    pub y: f64,
    /// Bottom to top.
    pub z: f64,
}

impl Vector {
    /// The origin, or no direction at all.
    pub const ZERO: Self = Self::new(0.0, 0.0, 0.0);

    /// From its three components.
    #[must_use]
    pub const fn new(x: f64, y: f64, z: f64) -> Self {
        Self { x, y, z }
    }

    /// The scalar product.
    #[must_use]
    pub fn dot(self, other: Self) -> f64 {
        self.x * other.x + self.y * other.y + self.z * other.z
    }

    /// The vector product, right-handed.
    #[must_use]
    pub fn cross(self, other: Self) -> Self {
        Self::new(
            self.y * other.z - self.z * other.y,
            self.z * other.x - self.x * other.z,
            self.x * other.y - self.y * other.x,
        )
    }

    /// Its length.
    #[must_use]
    pub fn length(self) -> f64 {
        libm::sqrt(self.dot(self))
    }

    /// The direction of unit length, or `None` where there is none: zero, infinite or not a number.
    #[must_use]
    pub fn unit(self) -> Option<Self> {
        // Scaled first, so that a long or a tiny vector neither overflows nor underflows when squared.
        let largest = libm::fmax(
            libm::fabs(self.x),
            libm::fmax(libm::fabs(self.y), libm::fabs(self.z)),
        );
        if !(self.x.is_finite() && self.y.is_finite() && self.z.is_finite()) || largest == 0.0 {
            return None;
        }
        let scaled = Self::new(self.x / largest, self.y / largest, self.z / largest);
        let length = scaled.length();
        Some(Self::new(
            scaled.x / length,
            scaled.y / length,
            scaled.z / length,
        ))
    }
}

impl Add for Vector {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Self::new(self.x + other.x, self.y + other.y, self.z + other.z)
    }
}

impl Sub for Vector {
    type Output = Self;
    fn sub(self, other: Self) -> Self {
        Self::new(self.x - other.x, self.y - other.y, self.z - other.z)
    }
}

impl Mul<f64> for Vector {
    type Output = Self;
    fn mul(self, factor: f64) -> Self {
        Self::new(self.x * factor, self.y * factor, self.z * factor)
    }
}

impl Neg for Vector {
    type Output = Self;
    fn neg(self) -> Self {
        Self::new(-self.x, -self.y, -self.z)
    }
}

/// The half-space `normal · p ≤ offset`: all that lies behind a face.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Plane {
    /// Unit outward normal.
    pub normal: Vector,
    /// Distance of the plane from the origin along the normal, in metres.
    pub offset: f64,
}

impl Plane {
    /// The plane through `point` with outward direction `normal` (any length), or `None` where the
    /// direction has no length.
    #[must_use]
    pub fn through(point: Vector, normal: Vector) -> Option<Self> {
        let normal = normal.unit()?;
        Some(Self {
            normal,
            offset: normal.dot(point),
        })
    }

    /// How far `point` lies outside; negative inside.
    #[must_use]
    pub fn distance(&self, point: Vector) -> f64 {
        self.normal.dot(point) - self.offset
    }

    /// The same plane moved outward by `by` metres (inward where negative).
    #[must_use]
    pub fn moved(&self, by: f64) -> Self {
        Self {
            normal: self.normal,
            offset: self.offset + by,
        }
    }
}
