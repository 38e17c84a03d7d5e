//! How the walls and baffles of a tank bear what it holds, and what a test presses with.
//!
//! One face at a time, so that a small machine holds one at a time. Flat faces are plates, each taken by
//! its outline on the outside, sharp corners and all, so that it is a little larger than the plate that
//! bends; a folded panel is taken face by face. A baffle that crosses a face counts as an edge of it and
//! parts it. Round walls, dished and flat ends of drums go by [`wall`](crate::strength::wall), under the
//! highest pressure that they meet anywhere.
//!
//! Strength is the yield strength beside a weld at the hottest of the service, whatever the filler and anywhere on the face: seams
//! run along every edge, and fittings may sit in the middle. The flat walls of a tank bear together: `shared` has the moments
//! that their seams hand on. What bends for a short way only, at a hole, a rim or a knuckle, is told apart as
//! [`ElasticPeak`]. What a doubler or a fitting gives back to its hole is not counted, nor is a wall looked at that is pressed
//! from outside.
//!
//! A baffle has holes, so that in a tank at rest both its sides are pressed alike. It is judged as if the
//! liquid of one side had run from the other: that side full to the brim and the other empty, at the worst
//! lean and acceleration; the gas over the liquid presses on both sides. Its holes are taken as closed, so that one
//! with large holes meets less. Across a drum it is a round plate, elsewhere a plate by its outline. In a test it is
//! not looked at. One with a free edge, or with flanges, is taken as strips between two opposite walls, which bear less
//! than it does: where that is not enough nothing is said of it.

mod baffle;
mod bearing;
mod drum_wall;
mod flat_wall;
mod giving;
mod joined;
mod judge;
mod meeting;
mod parts;
mod pressed;
mod seam;
mod share_out;
mod shared;
mod strip;

pub use bearing::{Bearing, Cure, RESERVE, TEST_RESERVE, Trial, WallForm};

pub use seam::SeamsTake;
pub use strip::{STRIP_BULGE, STRIP_MOMENT};

pub use joined::JoinedWalls;

use judge::Judge;

use super::error::StrengthError;
use super::load::Sway;
use crate::geom::Vector;
use crate::input::Face;
use crate::tables::LiquidError;
use crate::tables::metal::{HeatedMetal, Strength};
use crate::tank::Tank;
use crate::units::constant::WATER;
use crate::units::{Density, Pressure, Ratio, Temperature, TemperatureUnit};

/// Where the job tells no temperature the liquid is as it is poured in.
const POURED: Temperature = Temperature::new(15.0, TemperatureUnit::Celsius);

impl Judge<'_> {
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
    /// The density of its liquid, at the temperature at which it is filled, or 15 °C where the job
    /// tells none; 1000 kg/m³, water, where the job names no liquid.
    ///
    /// # Errors
    /// [`LiquidError`] where the liquid has no figures there.
    pub fn liquid_density(&self) -> Result<Density, LiquidError> {
        let Some(liquid) = self.job.liquid else {
            return Ok(Density::from_kilograms_per_cubic_metre(WATER));
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
        let metal = job.alloy.metal();
        metal.as_welded_by(job.arc.process, job.temper, None, job.thickness)
    }

    /// What its metal keeps at the hottest of its service: what the job says of its use, or how warm its liquid gets, whichever
    /// is hotter; all of it where neither is said.
    ///
    /// # Errors
    /// [`StrengthError::TooHot`] past what is known.
    pub fn heated(&self) -> Result<HeatedMetal, StrengthError> {
        let job = &self.job;
        let liquid = job.temperatures.map_or(POURED, |[_, hottest]| hottest);
        let used = job.service.temperature.unwrap_or(POURED);
        let gets = if used > liquid { used } else { liquid };
        let most = job.alloy.hottest_known();
        let heated = job.alloy.heated(gets);
        heated.ok_or(StrengthError::TooHot { gets, most })
    }

    /// What its walls bear together.
    ///
    /// # Errors
    /// [`StrengthError`] where its metal or its load is not known.
    pub fn joined_walls(&self, trial: Trial) -> Result<JoinedWalls, StrengthError> {
        let judge = Judge::new(self, trial)?;
        let shares = judge.shares()?;
        Ok(JoinedWalls {
            trial,
            compliance: judge.compliance(&shares),
            shares,
            rims: judge.rims(None),
        })
    }

    /// How one face, or one baffle, bears what it is tried with; `None` of what the tank does not have, and
    /// of a baffle in a test.
    #[must_use]
    pub fn bearing(&self, face: Face, trial: Trial) -> Option<Result<Bearing, StrengthError>> {
        match self.joined_walls(trial) {
            Ok(joined) => self.bearing_by(face, &joined),
            Err(error) => Some(Err(error)),
        }
    }

    /// [`bearing`](Self::bearing) by what the walls bear together.
    #[must_use]
    pub fn bearing_by(
        &self,
        face: Face,
        joined: &JoinedWalls,
    ) -> Option<Result<Bearing, StrengthError>> {
        match Judge::by(self, joined) {
            Ok(judge) => judge.bearing(face),
            Err(error) => Some(Err(error)),
        }
    }

    /// How every face bears it, in the order of the body's; in use the baffles after them.
    pub fn bearings(
        &self,
        trial: Trial,
    ) -> impl Iterator<Item = (Face, Result<Bearing, StrengthError>)> + '_ {
        let joined = self.joined_walls(trial);
        let baffles = u8::try_from(self.inner.baffles().len()).unwrap_or(0);
        self.body
            .outside
            .faces()
            .map(|view| view.face())
            .chain((1..=baffles).map(Face::Baffle))
            .filter_map(move |face| {
                let bearing = match &joined {
                    Ok(joined) => self.bearing_by(face, joined),
                    Err(error) => Some(Err(*error)),
                };
                Some((face, bearing?))
            })
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
    /// ```
    /// # use seamwright_core::prelude::*;
    /// # let mm = |value| Length::new(value, LengthUnit::Millimetre);
    /// # let outside = Block::new(mm(320.0), mm(180.0), mm(160.0));
    /// # let draft = Draft::new("Header tank", outside, StockDraft::of(Alloy::A5754, mm(2.0)))?;
    /// # let tank = Tank::build(&draft)?;
    /// let (_, bears) = tank.weakest_wall()?;
    /// // What it bears in a test is more than the head of water in it.
    /// assert!(bears.in_unit(PressureUnit::Kilopascal) > 1.53);
    /// # Ok::<(), Box<dyn core::error::Error>>(())
    /// ```
    ///
    /// # Errors
    /// As [`weakest`](Self::weakest).
    pub fn weakest_wall(&self) -> Result<(Face, Pressure), StrengthError> {
        self.weakest_wall_by(&self.joined_walls(Trial::Test(Pressure::default()))?)
    }

    /// [`weakest_wall`](Self::weakest_wall) by what the walls bear together in a test.
    ///
    /// # Errors
    /// As [`weakest`](Self::weakest).
    pub fn weakest_wall_by(&self, joined: &JoinedWalls) -> Result<(Face, Pressure), StrengthError> {
        let mut least: Option<(Face, Pressure)> = None;
        for face in self.body.outside.faces().map(|view| view.face()) {
            let Some(bearing) = self.bearing_by(face, joined) else {
                continue;
            };
            if let Some(pressure) = bearing?.takes
                && least.is_none_or(|(_, old)| pressure < old)
            {
                least = Some((face, pressure));
            }
        }
        least.ok_or(StrengthError::Unknown)
    }
}
