//! What a reading means in a tank, whether a stick is dipped or a depth is taken, and charts of that.

use heapless::Vec;

use super::calibrate::{
    CalibrateError, Calibrated, Calibration, MOST_POURS, Pair, Pour, calibrate,
};
use super::dip::{Dip, DipError, Dipped};
use super::pool::Pool;
use crate::units::{Length, Volume};

/// What marks of a chart stand at whole multiples of.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum DipStep {
    /// Of a reading.
    Reading(Length),
    /// Of a volume.
    Volume(Volume),
}

/// What readings of a tank at a lean are taken on.
#[derive(Clone, Copy, Debug)]
pub enum DipScale<'a> {
    /// A stick.
    Stick(Dipped<'a>),
    /// The depth over the lowest inside point, where there is no stick.
    Depth(Pool<'a>),
}

/// Pours held against the model, and what they set right.
#[derive(Clone, Debug, PartialEq)]
pub struct PourFit {
    /// What the model says to each, and what was measured.
    pub pairs: Vec<Pair, MOST_POURS>,
    /// The calibration, and how well it fits.
    pub found: Calibrated,
}

/// Why pours set nothing right.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum PourError {
    /// What was read of a pour, counted from 1, is nothing that the tank can show.
    Reading {
        /// Which.
        pour: u8,
        /// Why not.
        error: DipError,
    },
    /// The pours together do not tell.
    Calibrate(CalibrateError),
}

impl core::fmt::Display for PourError {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        match self {
            Self::Reading { pour, error } => write!(f, "pour {pour}: {error}"),
            Self::Calibrate(error) => error.fmt(f),
        }
    }
}

impl core::error::Error for PourError {}

impl<'a> DipScale<'a> {
    /// What is in the tank at a reading.
    ///
    /// # Errors
    /// [`DipError::Reading`] of one that the tank cannot show.
    pub fn volume(&self, reading: Length) -> Result<Volume, DipError> {
        match self {
            Self::Stick(stick) => stick.volume(reading),
            Self::Depth(pool) => {
                let level = pool.at(reading).map_err(DipError::Reading)?;
                Ok(level.volume)
            }
        }
    }

    /// The reading at which so much is in the tank.
    ///
    /// # Errors
    /// [`DipError::Volume`] of one that the tank does not hold, or the stick does not show.
    pub fn reading(&self, volume: Volume) -> Result<Length, DipError> {
        match self {
            Self::Stick(stick) => stick.reading(volume),
            Self::Depth(pool) => pool.depth_for(volume).map_err(DipError::Volume),
        }
    }

    /// The most that it shows.
    #[must_use]
    pub const fn most(&self) -> Volume {
        match self {
            Self::Stick(stick) => stick.last().volume,
            Self::Depth(pool) => pool.brim(),
        }
    }

    /// Its chart: marks at whole multiples of a step, and its ends.
    ///
    /// # Errors
    /// [`DipError`] where the step is not above zero or makes more marks than a chart may have.
    pub fn marks(&self, step: DipStep) -> Result<impl Iterator<Item = Dip> + use<'a>, DipError> {
        // One of the four is there; together they are of one type.
        let (mut along, mut by_volume) = (None, None);
        let (mut deep, mut deep_by_volume) = (None, None);
        match (self, step) {
            (Self::Stick(stick), DipStep::Reading(step)) => along = Some(stick.every(step)?),
            (Self::Stick(stick), DipStep::Volume(step)) => {
                by_volume = Some(stick.every_volume(step)?);
            }
            (Self::Depth(pool), DipStep::Reading(step)) => deep = Some(pool.every(step)?),
            (Self::Depth(pool), DipStep::Volume(step)) => {
                deep_by_volume = Some(pool.every_volume(step)?);
            }
        }
        let on_stick = along.into_iter().flatten();
        let on_stick = on_stick.chain(by_volume.into_iter().flatten());
        let by_depth = deep.into_iter().flatten();
        let by_depth = by_depth.chain(deep_by_volume.into_iter().flatten());
        Ok(on_stick.chain(by_depth))
    }

    /// Its chart set right: at each reading what is in it then, or at each whole multiple of a volume where that stands.
    /// Marks below what the pours reach down to fall away.
    ///
    /// # Errors
    /// As [`marks`](Self::marks), of a chart by readings.
    pub fn marks_set_right(
        &self,
        step: DipStep,
        calibration: &Calibration,
    ) -> Result<impl Iterator<Item = Dip> + use<'a>, DipError> {
        let (this, calibration) = (*self, *calibration);
        let (mut at_readings, mut at_volumes) = (None, None);
        match step {
            DipStep::Reading(_) => {
                at_readings = Some(self.marks(step)?.filter_map(move |dip| {
                    Some(Dip {
                        reading: dip.reading,
                        volume: calibration.volume(dip.volume).ok()?,
                    })
                }));
            }
            DipStep::Volume(step) => {
                // Where not even all that it shows is above nothing, no mark is.
                if let Ok(most) = calibration.volume(self.most()) {
                    // As many as the chart has by the model, and a quarter more at most: see the limits of a scale.
                    let whole = libm::floor(most.si() / step.si() * (1.0 + 1e-12)) as u32;
                    at_volumes = Some((0..=whole).filter_map(move |n| {
                        let volume = Volume::from_cubic_metres(f64::from(n) * step.si());
                        let reading = this.reading(calibration.model(volume).ok()?).ok()?;
                        Some(Dip { reading, volume })
                    }));
                }
            }
        }
        let at_readings = at_readings.into_iter().flatten();
        Ok(at_readings.chain(at_volumes.into_iter().flatten()))
    }

    /// Holds pours, in their order, against the model of a tank that holds `brim`.
    ///
    /// # Errors
    /// [`PourError`] names the pour whose reading is wrong, or says why the pours together do not tell.
    pub fn set_right(&self, pours: &[Pour], brim: Volume) -> Result<PourFit, PourError> {
        let mut pairs = Vec::new();
        for (pour, number) in pours.iter().zip(1_u8..) {
            let model = self.volume(pour.depth);
            let model = model.map_err(|error| PourError::Reading {
                pour: number,
                error,
            })?;
            let measured = pour.measured;
            if pairs.push(Pair { model, measured }).is_err() {
                let count = CalibrateError::count_of(pours.len());
                return Err(PourError::Calibrate(count));
            }
        }
        let found = calibrate(&pairs, brim).map_err(PourError::Calibrate)?;
        Ok(PourFit { pairs, found })
    }
}
