//! What presses on a wall from within: the liquid as it is felt, and the pressure on top of it.

use super::limits;
use crate::geom::Vector;
use crate::units::constant::GRAVITY;
use crate::units::range::{Limit, RangeError};
use crate::units::{Angle, Figure, Pressure};

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
pub struct PressureEnds {
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
    /// [`RangeError`] for a pressure below zero or above 100 bar.
    pub fn even(over: Pressure) -> Result<Self, RangeError> {
        let over = limits::pressure(over.si())?;
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
    /// [`RangeError`] for a figure past its limits; [`Figure::Place`] where `inside` is empty.
    pub fn liquid(
        density: f64,
        felt: Vector,
        over: Pressure,
        inside: &[Vector],
    ) -> Result<Self, RangeError> {
        let over = limits::pressure(over.si())?;
        let density = limits::density(density)?;
        limits::gravity(felt.length())?;
        let slope = felt * density;
        let high = inside
            .iter()
            .map(|&point| slope.dot(point))
            .fold(f64::INFINITY, libm::fmin);
        if !high.is_finite() {
            return Err(nowhere(high));
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
    pub fn ends(&self, corners: &[Vector]) -> Option<PressureEnds> {
        let (least, most) = corners.iter().fold(
            (f64::INFINITY, f64::NEG_INFINITY),
            |(low, high), &corner| {
                let p = self.at(corner).si();
                (libm::fmin(low, p), libm::fmax(high, p))
            },
        );
        (least <= most).then(|| PressureEnds {
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

/// The error of a space or a panel without corners.
fn nowhere(metres: f64) -> RangeError {
    RangeError {
        figure: Figure::Place,
        value: metres,
        limit: Limit::AtMost(1e3),
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

impl Sway {
    /// At rest and upright.
    pub const STILL: Self = Self {
        pitch: Angle::from_radians(0.0),
        roll: Angle::from_radians(0.0),
        shaken: Vector::ZERO,
    };

    /// Calls `each`, up to 200 times, with what the liquid feels as gravity, in m/s² in tank axes: at the full lean either
    /// way, at half of it and upright, shaken to each side along every axis at once.
    ///
    /// Down is `(−sin p, −cos p sin r, −cos p cos r)`, as in [`Lean::up`](crate::capacity::Lean::up). The
    /// liquid is taken to move with the tank; slosh that runs up a wall and strikes it is more than this.
    pub fn each(&self, mut each: impl FnMut(Vector)) {
        let shares: &[f64] = &[-1.0, -0.5, 0.0, 0.5, 1.0];
        let shares = |most: f64| if most == 0.0 { &[0.0] } else { shares };
        let ways = |most: f64| -> &[f64] { if most == 0.0 { &[0.0] } else { &[-1.0, 1.0] } };
        for pitch in shares(self.pitch.si()) {
            let (sp, cp) = libm::sincos(self.pitch.si() * pitch);
            for roll in shares(self.roll.si()) {
                let (sr, cr) = libm::sincos(self.roll.si() * roll);
                let down = Vector::new(-sp, -cp * sr, -cp * cr);
                for x in ways(self.shaken.x) {
                    for y in ways(self.shaken.y) {
                        for z in ways(self.shaken.z) {
                            let Vector { x: a, y: b, z: c } = self.shaken;
                            each((down + Vector::new(a * x, b * y, c * z)) * GRAVITY);
                        }
                    }
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
    /// As [`Load::liquid`]; [`Figure::Place`] where the panel has no corners.
    pub fn worst(
        &self,
        density: f64,
        over: Pressure,
        inside: &[Vector],
        corners: &[Vector],
    ) -> Result<Load, RangeError> {
        let mut worst = Err(nowhere(f64::NAN));
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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::AngleUnit;

    fn corners(l: f64, w: f64, h: f64) -> [Vector; 8] {
        [0.0, 1.0]
            .map(|x| [0.0, 1.0].map(|y| [0.0, 1.0].map(|z| Vector::new(x * l, y * w, z * h))))
            .as_flattened()
            .as_flattened()
            .try_into()
            .unwrap()
    }

    fn zero() -> Pressure {
        Pressure::from_pascals(0.0)
    }

    /// Hydrostatics by hand: ρ g h at the foot of the right end, half of it on the mean; leaning by p, the
    /// head of the lowest corner is h cos p + l sin p.
    #[test]
    fn worst_lean_of_a_box() {
        let (l, h, pitch) = (0.4, 0.2, 0.5);
        let inside = corners(l, 0.1, h);
        let right: [Vector; 4] = [4, 5, 6, 7].map(|at: usize| inside[at]);
        let still = Sway::STILL.worst(1000.0, zero(), &inside, &right).unwrap();
        let ends = still.ends(&right).unwrap();
        let head = 1000.0 * GRAVITY * h;
        assert!((ends.most.si() - head).abs() < 1e-9 * head && ends.least.si().abs() < 1e-9 * head);
        assert!((ends.mean.si() - 0.5 * head).abs() < 1e-9 * head);

        let sway = Sway {
            pitch: Angle::from_radians(pitch),
            ..Sway::STILL
        };
        let load = sway.worst(1000.0, zero(), &inside, &right).unwrap();
        // The right end is worst when it is down: pitch below zero.
        let most = 1000.0 * GRAVITY * (h * pitch.cos() + l * pitch.sin());
        assert!((load.ends(&right).unwrap().most.si() - most).abs() < 1e-9 * most);
    }

    /// Braked at n g the liquid stands up against the front end: ρ n g l besides ρ g h.
    #[test]
    fn shaken_along_one_axis() {
        let inside = corners(0.4, 0.1, 0.2);
        let sway = Sway {
            shaken: Vector::new(2.0, 0.0, 0.0),
            ..Sway::STILL
        };
        let left: [Vector; 4] = [0, 1, 2, 3].map(|at: usize| inside[at]);
        let over = Pressure::from_pascals(700.0);
        let ends = sway
            .worst(800.0, over, &inside, &left)
            .unwrap()
            .ends(&left)
            .unwrap();
        let want = 700.0 + 800.0 * GRAVITY * (2.0 * 0.4 + 0.2);
        assert!((ends.most.si() - want).abs() < 1e-9 * want, "{ends:?}");
        let mut count = 0;
        sway.each(|_| count += 1);
        assert_eq!(count, 2);
        let all = Sway {
            pitch: Angle::new(20.0, AngleUnit::Degree),
            roll: Angle::new(20.0, AngleUnit::Degree),
            shaken: Vector::new(1.0, 1.0, 1.0),
        };
        let mut count = 0;
        all.each(|_| count += 1);
        assert_eq!(count, 200);
    }

    /// The pressure in a panel's own coordinates is that of the same points in the tank's.
    #[test]
    fn frames_agree() {
        let inside = corners(0.4, 0.3, 0.2);
        let felt = Vector::new(1.0, -2.0, -9.0);
        let load = Load::liquid(900.0, felt, zero(), &inside).unwrap();
        let frame = Frame {
            origin: Vector::new(0.1, 0.2, 0.0),
            u: Vector::new(0.6, 0.0, 0.8),
            v: Vector::new(0.0, 1.0, 0.0),
        };
        let pressing = load.pressing(&frame);
        let there = frame.origin + frame.u * 0.1 + frame.v * 0.05;
        let got = pressing.at_origin.si() + 0.1 * pressing.slope[0] + 0.05 * pressing.slope[1];
        assert!((got - load.at(there).si()).abs() < 1e-9);
        let least = inside
            .iter()
            .map(|&p| load.at(p).si())
            .fold(f64::INFINITY, f64::min);
        assert!(least.abs() < 1e-9);
    }

    #[test]
    fn refused() {
        let inside = corners(0.4, 0.3, 0.2);
        let down = Vector::new(0.0, 0.0, -GRAVITY);
        let what = |result: Result<Load, RangeError>| result.unwrap_err().figure;
        assert_eq!(
            what(Load::even(Pressure::from_pascals(-1.0))),
            Figure::Pressure
        );
        assert_eq!(
            what(Load::liquid(f64::NAN, down, zero(), &inside)),
            Figure::Density
        );
        assert_eq!(
            what(Load::liquid(1e3, down * 1e3, zero(), &inside)),
            Figure::Gravity
        );
        assert_eq!(what(Load::liquid(1e3, down, zero(), &[])), Figure::Place);
        assert_eq!(
            what(Sway::STILL.worst(1e3, zero(), &inside, &[])),
            Figure::Place
        );
    }
}
