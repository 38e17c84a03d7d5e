//! Bending of a rectangular or round plate under a pressure that is even or changes in a straight line.
//!
//! Thin plate, small deflection: `D ∇⁴w = p`, `D = E t³ / (12 (1 − ν²))`. All four edges are held down,
//! and either free to turn ([`supported()`]) or held from turning ([`clamped()`]). A welded edge lies between
//! the two, so both are computed and the worse one rules.
//!
//! A plate with free turning is solved by Lévy's single series on top of the strip's polynomial; one that
//! is held from turning by adding the edge moments that bring its edges back to level (Timoshenko and
//! Woinowsky-Krieger, *Theory of Plates and Shells*, articles 30, 31 and 44). Neither reads a table.
//!
//! Everything here is plain `f64` in SI units, in the plate's own axes: x across the short side from 0,
//! y along the long side from its middle.

mod clamp;
mod eased;
mod joined;
mod large;

mod levy;
mod outline;

mod peak;
mod round;
mod wave;

pub use clamp::clamped;
pub(crate) use eased::{EASED_TO, Eased, hold as edges_held};
pub(crate) use joined::{
    Edge as PlateEdge, Joint, MOST as MOST_PLATES, MOST_RATIO, Net, Place, Slab,
};
pub use large::{HELD_TO, Held, held};
pub use levy::supported;
pub use outline::{Enclosing, enclosing};
pub use round::{Tilt, disc_clamped, disc_held, disc_reaction, disc_supported};

/// The two sides of a rectangle, the shorter first.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Sides {
    short: f64,
    long: f64,
}

impl Sides {
    /// From two sides in metres in either order, or `None` unless both are finite and above zero.
    #[must_use]
    pub fn new(one: f64, other: f64) -> Option<Self> {
        let (short, long) = if one <= other {
            (one, other)
        } else {
            (other, one)
        };
        (short > 0.0 && long.is_finite()).then_some(Self { short, long })
    }

    /// The short side, in metres.
    #[must_use]
    pub const fn short(self) -> f64 {
        self.short
    }

    /// The long side, in metres.
    #[must_use]
    pub const fn long(self) -> f64 {
        self.long
    }

    /// The long side over the short one: 1 or more.
    #[must_use]
    pub fn ratio(self) -> f64 {
        self.long / self.short
    }
}

/// A pressure that changes in a straight line over a rectangle, in pascals:
/// `p = mean + across · ξ + along · η`, ξ and η from −1 to 1 over the short and the long side.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Ramp {
    /// In the middle.
    pub mean: f64,
    /// What is added at the far end of the short side, and taken off at the near one.
    pub across: f64,
    /// What is added at the far end of the long side, and taken off at the near one.
    pub along: f64,
}

impl Ramp {
    /// The same pressure everywhere.
    #[must_use]
    pub const fn even(pressure: f64) -> Self {
        Self {
            mean: pressure,
            across: 0.0,
            along: 0.0,
        }
    }

    /// The highest pressure, at one corner.
    #[must_use]
    pub fn most(self) -> f64 {
        self.mean + libm::fabs(self.across) + libm::fabs(self.along)
    }

    /// The mean over the highest, 0 to 1; 1 of no pressure.
    pub(super) fn level(self) -> f64 {
        let most = self.most();
        if most > 0.0 {
            libm::fmax(0.0, self.mean / most)
        } else {
            1.0
        }
    }

    /// The end of a long plate where the pressure is higher, `ratio` short sides long: the far end does
    /// not reach it, and there the same straight line of pressure runs on.
    fn end_of(self, sides: Sides, ratio: f64) -> (f64, Self) {
        let whole = sides.ratio();
        if whole <= ratio {
            return (whole, self);
        }
        let share = ratio / whole;
        let along = libm::fabs(self.along);
        let end = Self {
            mean: self.mean + along * (1.0 - share),
            across: self.across,
            along: along * share,
        };
        (ratio, end)
    }

    /// Its three parts, each with how strong it is.
    fn parts(self) -> [(Part, f64); 3] {
        [
            (Part::Even, self.mean),
            (Part::Across, self.across),
            (Part::Along, self.along),
        ]
    }
}

/// One of the three pressures that a straight line of pressure is made of.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Part {
    /// 1 everywhere.
    Even,
    /// From −1 to 1 over the short side.
    Across,
    /// From −1 to 1 over the long side.
    Along,
}

impl Part {
    /// The sine terms along the short and the long side start here and go up by two.
    const fn first(self) -> [u8; 2] {
        match self {
            Self::Even => [1, 1],
            Self::Across => [2, 1],
            Self::Along => [1, 2],
        }
    }
}

/// What bending does to a plate.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Bending {
    /// The largest bending moment for each metre of plate, its sign left off, in newtons (N·m/m).
    pub moment: f64,
    /// The largest deflection times the plate's stiffness D, in N·m².
    pub deflection: f64,
}

impl Bending {
    /// The stress at the surface, `6 M / t²`, in pascals, for a thickness in metres.
    #[must_use]
    pub fn stress(&self, thickness: f64) -> f64 {
        6.0 * self.moment / (thickness * thickness)
    }

    /// The largest deflection in metres, for a plate's [`stiffness()`].
    #[must_use]
    pub fn bulge(&self, stiffness: f64) -> f64 {
        self.deflection / stiffness
    }
}

/// `D = E t³ / (12 (1 − ν²))` in N·m, for E in pascals and t in metres.
#[must_use]
pub fn stiffness(modulus: f64, poisson: f64, thickness: f64) -> f64 {
    modulus * thickness * thickness * thickness / (12.0 * (1.0 - poisson * poisson))
}

/// Deflection and the two bending moments at one point: for a unit pressure, a short side of 1 and D = 1.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
struct Field {
    w: f64,
    across: f64,
    along: f64,
}

impl Field {
    fn add(&mut self, other: Self, times: f64) {
        self.w += other.w * times;
        self.across += other.across * times;
        self.along += other.along * times;
    }
}
