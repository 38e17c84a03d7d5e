//! What presses on a wall from within: the liquid as it is felt, and the pressure on top of it.

use super::input::{Input, InputError, check, refused};
use crate::geom::Vector;
use crate::quantity::{Angle, Pressure};

/// Standard gravity, in m/s²: 3rd CGPM, 1901.
pub const GRAVITY: f64 = 9.806_65;

/// The pressure within a tank that is full to the brim, gauge, at every point.
///
/// `p = p₀ + ρ g · (x − x₀)`, `g` being what the liquid feels as gravity and `x₀` the point of the tank that
/// is highest against it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Load {
    over: f64,
    slope: Vector,
    brim: f64,
}

/// The lowest and the highest pressure on a panel; the pressure between is a straight line.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Ends {
    /// At the corner that lies highest.
    pub least: Pressure,
    /// Half-way between the two.
    pub mean: Pressure,
    /// At the corner that lies lowest.
    pub most: Pressure,
}

/// A panel's own plane: where its coordinates begin, and their unit directions.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Frame {
    /// The origin, in tank axes, in metres.
    pub origin: Vector,
    /// Direction of the first coordinate.
    pub u: Vector,
    /// Direction of the second one.
    pub v: Vector,
}

/// The pressure over a panel, in its own coordinates.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Pressing {
    /// At the origin of the coordinates.
    pub at_origin: Pressure,
    /// What each metre along the two coordinates adds, in Pa/m.
    pub slope: [f64; 2],
}

impl Pressing {
    /// The same everywhere.
    #[must_use]
    pub const fn even(pressure: Pressure) -> Self {
        Self {
            at_origin: pressure,
            slope: [0.0; 2],
        }
    }
}

impl Load {
    /// A pressure that is the same everywhere: a test with air, or a cap that holds.
    ///
    /// # Errors
    /// [`InputError`] for a pressure below zero or above 100 bar.
    pub fn even(over: Pressure) -> Result<Self, InputError> {
        let over = check(Input::Pressure, over.si())?;
        Ok(Self {
            over,
            slope: Vector::ZERO,
            brim: 0.0,
        })
    }

    /// A liquid of `density` kg/m³ that fills the tank to the brim, feels `felt` m/s² as gravity (the
    /// direction it falls to) and has the gauge pressure `over` above it. `inside` holds every corner of the
    /// space within.
    ///
    /// # Errors
    /// [`InputError`] for a figure past its limits; [`Input::Place`] where `inside` is empty.
    pub fn liquid(
        density: f64,
        felt: Vector,
        over: Pressure,
        inside: &[Vector],
    ) -> Result<Self, InputError> {
        let over = check(Input::Pressure, over.si())?;
        let density = check(Input::Density, density)?;
        check(Input::Gravity, felt.length())?;
        let slope = felt * density;
        let high = inside
            .iter()
            .map(|&point| slope.dot(point))
            .fold(f64::INFINITY, libm::fmin);
        if !high.is_finite() {
            return Err(refused(Input::Place, high));
        }
        Ok(Self {
            over,
            slope,
            brim: high,
        })
    }

    /// The pressure at a point of the wall.
    #[must_use]
    pub fn at(&self, point: Vector) -> Pressure {
        Pressure::from_pascals(self.over + self.slope.dot(point) - self.brim)
    }

    /// The lowest and the highest pressure over a panel with these corners, or `None` of none.
    #[must_use]
    pub fn ends(&self, corners: &[Vector]) -> Option<Ends> {
        let (least, most) = corners.iter().fold(
            (f64::INFINITY, f64::NEG_INFINITY),
            |(low, high), &corner| {
                let p = self.at(corner).si();
                (libm::fmin(low, p), libm::fmax(high, p))
            },
        );
        (least <= most).then(|| Ends {
            least: Pressure::from_pascals(least),
            mean: Pressure::from_pascals(0.5 * (least + most)),
            most: Pressure::from_pascals(most),
        })
    }

    /// The pressure in a panel's own coordinates.
    #[must_use]
    pub fn pressing(&self, frame: &Frame) -> Pressing {
        Pressing {
            at_origin: self.at(frame.origin),
            slope: [self.slope.dot(frame.u), self.slope.dot(frame.v)],
        }
    }
}

/// How far a tank leans and how hard it is shaken in use.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Sway {
    /// Pitch at the most, either way.
    pub pitch: Angle,
    /// Roll at the most, either way.
    pub roll: Angle,
    /// Acceleration at the most along each axis of the tank, either way, as multiples of gravity.
    pub shaken: Vector,
}

/// Steps of the lean tried either way, the upright one between.
const STEPS: i8 = 2;

impl Sway {
    /// At rest and upright.
    pub const STILL: Self = Self {
        pitch: Angle::from_radians(0.0),
        roll: Angle::from_radians(0.0),
        shaken: Vector::ZERO,
    };

    /// Calls `each` with what the liquid feels as gravity, in m/s² in tank axes: at the full lean either
    /// way, at half of it and upright, shaken to each side along every axis at once.
    ///
    /// Down is `(−sin p, −cos p sin r, −cos p cos r)`, as in [`Lean::up`](crate::capacity::Lean::up). The
    /// liquid is taken to move with the tank; slosh that runs up a wall and strikes it is more than this.
    pub fn each(&self, mut each: impl FnMut(Vector)) {
        let share = |step: i8| f64::from(step) / f64::from(STEPS);
        let signs = |most: f64| if most == 0.0 { 1 } else { 2 };
        let (nx, ny, nz) = (
            signs(self.shaken.x),
            signs(self.shaken.y),
            signs(self.shaken.z),
        );
        for pitch in -STEPS..=STEPS {
            let (sp, cp) = libm::sincos(self.pitch.si() * share(pitch));
            for roll in -STEPS..=STEPS {
                let (sr, cr) = libm::sincos(self.roll.si() * share(roll));
                let down = Vector::new(-sp, -cp * sr, -cp * cr);
                for way in 0..nx * ny * nz {
                    let sign = |bit: i32| if bit == 0 { -1.0 } else { 1.0 };
                    let shaken = Vector::new(
                        self.shaken.x * sign(way % nx),
                        self.shaken.y * sign(way / nx % ny),
                        self.shaken.z * sign(way / nx / ny),
                    );
                    each((down + shaken) * GRAVITY);
                }
            }
        }
    }

    /// The load that tries a panel hardest, of all that [`each`](Self::each) goes through.
    ///
    /// They are ranked by the mean of the two end pressures and a third of what the higher end has above
    /// it: in a square plate with held edges the slope adds 0.0077 to the 0.0257 of the mean (Timoshenko,
    /// tables 35 and 38).
    ///
    /// # Errors
    /// As [`Load::liquid`]; [`Input::Place`] where the panel has no corners.
    pub fn worst(
        &self,
        density: f64,
        over: Pressure,
        inside: &[Vector],
        corners: &[Vector],
    ) -> Result<Load, InputError> {
        let mut worst = Err(refused(Input::Place, f64::NAN));
        let mut most = f64::NEG_INFINITY;
        let mut failed = None;
        self.each(|felt| match Load::liquid(density, felt, over, inside) {
            Ok(load) => {
                if let Some(ends) = load.ends(corners) {
                    let rank = ends.mean.si() + (ends.most.si() - ends.mean.si()) / 3.0;
                    if rank > most {
                        (most, worst) = (rank, Ok(load));
                    }
                }
            }
            Err(error) => failed = Some(error),
        });
        failed.map_or(worst, Err)
    }
}
