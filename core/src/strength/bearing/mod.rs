//! How the walls and baffles of a tank bear what it holds, and what a test presses with.
//!
//! One face at a time, so that a small machine holds one at a time. Flat faces are plates, each taken by
//! its outline on the outside, sharp corners and all, so that it is a little larger than the plate that
//! bends; a folded panel is taken face by face. A baffle that crosses a face counts as an edge of it and
//! parts it. Round walls, dished and flat ends of drums go by [`wall`](crate::strength::wall), under the
//! highest pressure that they meet anywhere.
//!
//! Strength is the yield strength beside a TIG weld, whatever the filler and anywhere on the face: seams
//! run along every edge, and fittings may sit in the middle. What a hole takes from a wall and a doubler gives
//! it is not looked at, nor is a wall that is pressed from outside.
//!
//! A baffle has holes, so that in a tank at rest both its sides are pressed alike. It is judged as if the
//! liquid of one side had run from the other: that side full to the brim and the other empty, at the worst
//! lean and acceleration; the gas over the liquid presses on both sides. Its holes are taken as closed, so that one
//! with large holes meets less. Across a drum it is a round plate, elsewhere a plate by its outline. In a test it is
//! not looked at.

mod baffle;
mod flat;
mod round;
mod seams;

use core::fmt;

use super::load::{Load, Sway};
use super::panel::{Metal, PanelError, Spacing};
use crate::geom::Vector;
use crate::input::Face;
use crate::tables::LiquidError;
use crate::tables::metal::Strength;
use crate::tank::Tank;
use crate::units::input::InputError;
use crate::units::{Length, Pressure, Ratio, Temperature, TemperatureUnit};

/// The reserve against yield that is wanted in use: pressure vessels may be stressed to two thirds of
/// yield (ASME II part D, appendix 1, from memory).
pub const RESERVE: f64 = 1.5;
/// The same in a test: 0.8 of yield under air (ASME VIII-2, 4.1.6, from memory), taken for water too.
pub const TEST_RESERVE: f64 = 1.25;

/// Density of water where the job names no liquid, in kg/m³; round and slightly high.
const WATER: f64 = 1_000.0;
/// Where the job tells no temperature the liquid is as it is poured in.
const POURED: Temperature = Temperature::new(15.0, TemperatureUnit::Celsius);
/// So much is added to every pressure, in pascals: a face at the brim must not fall below zero by rounding.
const HAIR: f64 = 1e-3;

/// What the walls are tried with.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum Trial {
    /// Full to the brim at the worst lean, shaken, and under the pressure that the cap holds.
    Use,
    /// The same gauge pressure everywhere within.
    Test(Pressure),
}

impl Trial {
    /// The reserve that is wanted in it.
    #[must_use]
    pub const fn wanted(self) -> f64 {
        match self {
            Self::Use => RESERVE,
            Self::Test(_) => TEST_RESERVE,
        }
    }
}

/// What a face was taken as.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum Form {
    /// A flat plate, held at its edges.
    Plate,
    /// A plate across the inside, with liquid on one side only.
    Baffle,
    /// The wall of a cylinder.
    Cylinder,
    /// A dished end.
    Dish,
    /// A flat round end.
    Disc,
}

impl Form {
    /// The words for it.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Plate => "flat plate",
            Self::Baffle => "baffle",
            Self::Cylinder => "cylinder",
            Self::Dish => "dished end",
            Self::Disc => "flat disc",
        }
    }
}

/// What would give a face the reserve that is wanted.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Cure {
    /// The sheet that gives it, all else as it is.
    pub thickness: Length,
    /// How far apart baffles or stiffeners may stand across its long side; `None` for a round wall.
    pub spacing: Option<Spacing>,
}

/// How a face bears what it is tried with.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Bearing {
    /// Which.
    pub face: Face,
    /// What it was taken as.
    pub form: Form,
    /// Its sheet.
    pub thickness: Length,
    /// The highest pressure on it, at one corner of its rectangle.
    pub pressure: Pressure,
    /// The highest stress, edges held from turning and free to turn; a welded edge lies between. Of a
    /// round wall the same twice.
    pub stress: [Pressure; 2],
    /// The bulge of the same two by bending alone; of a cylinder what its radius grows, twice; `None` of a
    /// dished end.
    pub bulge: Option<[Length; 2]>,
    /// The bulge of the same two where the edges cannot pull inward and the sheet stretches.
    pub bulge_held: Option<[Length; 2]>,
    /// Yield strength beside a weld over the highest stress.
    pub reserve: f64,
    /// The even pressure that leaves it [`TEST_RESERVE`]; `None` of a baffle, which a test presses on both
    /// sides.
    pub takes: Option<Pressure>,
    /// It has an inside corner, at which this says nothing.
    pub inside_corner: bool,
    /// A dished end so thin that it may wrinkle at the knuckle before it yields.
    pub may_wrinkle: bool,
    /// What would mend it; `None` where it has the reserve that is wanted.
    pub cure: Option<Cure>,
}

/// Why a face cannot be judged.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum StrengthError {
    /// No source has the strength of this alloy beside a weld.
    Unknown,
    /// The liquid has no density at its temperature.
    Liquid(LiquidError),
    /// A figure past its limits, or an outline that is no plate.
    Panel(PanelError),
}

impl From<LiquidError> for StrengthError {
    fn from(error: LiquidError) -> Self {
        Self::Liquid(error)
    }
}

impl From<InputError> for StrengthError {
    fn from(error: InputError) -> Self {
        Self::Panel(PanelError::Input(error))
    }
}

impl From<PanelError> for StrengthError {
    fn from(error: PanelError) -> Self {
        Self::Panel(error)
    }
}

impl fmt::Display for StrengthError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Unknown => f.write_str(
                "no source has the strength of this alloy beside a weld; choose another",
            ),
            Self::Liquid(error) => error.fmt(f),
            Self::Panel(error) => error.fmt(f),
        }
    }
}

impl core::error::Error for StrengthError {}

/// What every face of a tank is judged by.
#[derive(Clone, Copy)]
struct Judge<'a> {
    tank: &'a Tank,
    trial: Trial,
    density: f64,
    sway: Sway,
}

impl<'a> Judge<'a> {
    fn new(tank: &'a Tank, trial: Trial) -> Result<Self, StrengthError> {
        Ok(Self {
            tank,
            trial,
            density: tank.liquid_density()?,
            sway: tank.sway(),
        })
    }

    /// The pressure on top of the liquid.
    fn over(&self) -> Pressure {
        let over = match self.trial {
            Trial::Use => self.tank.job.service.pressure,
            Trial::Test(pressure) => pressure,
        };
        Pressure::from_pascals(over.si() + HAIR)
    }

    /// The load that tries a wall with these corners hardest, liquid filling the space whose corners are
    /// `inside`.
    fn load(&self, inside: &[Vector], corners: &[Vector]) -> Result<Load, InputError> {
        match self.trial {
            Trial::Use => self.sway.worst(self.density, self.over(), inside, corners),
            Trial::Test(_) => Load::even(self.over()),
        }
    }

    /// The same of a baffle: the gas that a cap holds presses on both of its sides.
    fn liquid(&self, inside: &[Vector], corners: &[Vector]) -> Result<Load, InputError> {
        let hair = Pressure::from_pascals(HAIR);
        self.sway.worst(self.density, hair, inside, corners)
    }

    fn strength(&self, thickness: Length) -> Result<Strength, StrengthError> {
        let job = &self.tank.job;
        let welded = job.alloy.metal().as_welded(job.temper, None, thickness);
        welded.ok_or(StrengthError::Unknown)
    }

    fn modulus(&self) -> Pressure {
        Pressure::from_pascals(self.tank.job.alloy.metal().modulus().value)
    }

    fn poisson(&self) -> f64 {
        self.tank.job.alloy.metal().poisson().value
    }

    fn metal(&self, thickness: Length) -> Result<Metal, StrengthError> {
        let yielding = self.strength(thickness)?.yielding;
        Ok(Metal::new(self.modulus(), self.poisson(), yielding)?)
    }

    fn bearing(&self, face: Face) -> Option<Result<Bearing, StrengthError>> {
        if let Face::Baffle(number) = face {
            return match self.trial {
                Trial::Use => self.baffle(number),
                Trial::Test(_) => None,
            };
        }
        let body = &self.tank.body;
        if body.inside.turned().is_some() {
            return self.round(face);
        }
        let view = body.outside.face(face)?;
        Some(self.flat(&view))
    }
}

impl Tank {
    /// The density of its liquid in kg/m³, at the temperature at which it is filled, or 15 °C where the job
    /// tells none; 1000 of water where the job names no liquid.
    ///
    /// # Errors
    /// [`LiquidError`] where the liquid has no figures there.
    pub fn liquid_density(&self) -> Result<f64, LiquidError> {
        let Some(liquid) = self.job.liquid else {
            return Ok(WATER);
        };
        let [poured, _] = self.job.temperatures.unwrap_or([POURED; 2]);
        liquid.density(poured)
    }

    /// How far it leans and how hard it is shaken in use, by its job.
    #[must_use]
    pub fn sway(&self) -> Sway {
        let [x, y, z] = self.job.service.acceleration.map(Ratio::si);
        Sway {
            pitch: self.job.pitch,
            roll: self.job.roll,
            shaken: Vector::new(x, y, z),
        }
    }

    /// The strength of its sheet beside a weld, for all faces that are not set apart: the lowest that any
    /// source has for its temper, where that is told, and any filler.
    #[must_use]
    pub fn as_welded(&self) -> Option<Strength> {
        let job = &self.job;
        job.alloy.metal().as_welded(job.temper, None, job.thickness)
    }

    /// How one face, or one baffle, bears what it is tried with; `None` of what the tank does not have, and
    /// of a baffle in a test.
    #[must_use]
    pub fn bearing(&self, face: Face, trial: Trial) -> Option<Result<Bearing, StrengthError>> {
        match Judge::new(self, trial) {
            Ok(judge) => judge.bearing(face),
            Err(error) => Some(Err(error)),
        }
    }

    /// How every face bears it, in the order of the body's; in use the baffles after them.
    pub fn bearings(
        &self,
        trial: Trial,
    ) -> impl Iterator<Item = (Face, Result<Bearing, StrengthError>)> + '_ {
        let baffles = u8::try_from(self.inner.baffles().len()).unwrap_or(0);
        self.body
            .outside
            .faces()
            .map(|view| view.face())
            .chain((1..=baffles).map(Face::Baffle))
            .filter_map(move |face| Some((face, self.bearing(face, trial)?)))
    }

    /// The face, baffles among them, that has the least reserve.
    ///
    /// # Errors
    /// [`StrengthError`] of the first face that cannot be judged: then none is the weakest for sure.
    pub fn weakest(&self, trial: Trial) -> Result<Bearing, StrengthError> {
        let mut weakest: Option<Bearing> = None;
        for (_, bearing) in self.bearings(trial) {
            let bearing = bearing?;
            if weakest.is_none_or(|old| bearing.reserve < old.reserve) {
                weakest = Some(bearing);
            }
        }
        weakest.ok_or(StrengthError::Unknown)
    }

    /// The wall that takes the least even pressure with [`TEST_RESERVE`], and that pressure.
    ///
    /// # Errors
    /// As [`weakest`](Self::weakest).
    pub fn takes(&self) -> Result<(Face, Pressure), StrengthError> {
        let mut least: Option<(Face, Pressure)> = None;
        for (face, bearing) in self.bearings(Trial::Test(Pressure::default())) {
            if let Some(pressure) = bearing?.takes
                && least.is_none_or(|(_, old)| pressure < old)
            {
                least = Some((face, pressure));
            }
        }
        least.ok_or(StrengthError::Unknown)
    }
}
