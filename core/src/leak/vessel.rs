//! The leak test of a tank: its own volume, heights, largest panel and weakest wall under a rule.

use super::{LeakError, LeakPlan, LeakRule, Sought, Vessel, head_for};
use crate::input::Face;
use crate::strength::{JoinedWalls, StrengthError, Trial};
use crate::tank::Tank;
use crate::units::{Area, Length, Pressure, PressureUnit};

/// The air outside where nobody has read a barometer.
pub const BAROMETER: Pressure = Pressure::new(1.0, PressureUnit::Atmosphere);
/// No wall is said to take more than the test's own limit, 10 bar.
const MOST: Pressure = Pressure::new(10.0, PressureUnit::Bar);

impl Tank {
    /// What a leak test must know of the tank, standing level. `overflow` is how high over the lowest inside
    /// point it overflows, where its filler or vent rises above it: the job does not say. Without it, or
    /// where it is lower, that is the highest inside point. A pressure that the cap holds counts as more of
    /// the liquid's head.
    ///
    /// A tank for fuel or oil is one to be kept dry.
    ///
    /// # Errors
    /// [`StrengthError`] where a wall cannot be judged.
    pub fn vessel(&self, overflow: Option<Length>) -> Result<Vessel, StrengthError> {
        let joined = self.joined_walls(Trial::Test(Pressure::default()))?;
        let weakest = self.weakest_wall_by(&joined)?;
        let vessel = self.vessel_taking(&joined, weakest, overflow)?;
        Ok(match self.seam_taking_less(vessel.weakest) {
            Some((seam, takes)) => vessel.with_seam(seam, takes),
            None => vessel,
        })
    }

    /// [`Tank::vessel`] where it is known already what its walls bear together in a test, and what its
    /// [weakest](Self::weakest_wall_by) takes; of its seams nothing is asked, see [`Vessel::with_seam`].
    ///
    /// # Errors
    /// [`StrengthError::Liquid`] of a liquid without a density.
    pub fn vessel_taking(
        &self,
        joined: &JoinedWalls,
        (wall, takes): (Face, Pressure),
        overflow: Option<Length>,
    ) -> Result<Vessel, StrengthError> {
        let height = self.capacity.full_depth;
        let density = self.liquid_density()?.si();
        let head = overflow.map_or(height.si(), |top| libm::fmax(top.si(), height.si()))
            + head_for(self.job.service.pressure, density).si();
        let panel = self
            .body
            .outside
            .faces()
            .map(|view| view.area().si())
            .fold(0.0, libm::fmax);
        Ok(Vessel {
            volume: self.capacity.brim,
            compliance: joined.compliance(),
            height,
            head: Length::from_metres(head),
            panel: Area::from_square_metres(panel),
            weakest: Pressure::from_pascals(libm::fmin(takes.si(), MOST.si())),
            weakest_wall: (takes <= MOST).then_some(wall),
            weakest_seam: None,
            density,
            keep_dry: self
                .job
                .liquid
                .is_some_and(|liquid| liquid.petroleum().is_some()),
        })
    }

    /// The leak test by a rule, under a standard atmosphere and with no leak rate sought.
    ///
    /// ```
    /// # use seamwright_core::prelude::*;
    /// # let mm = |value| Length::new(value, LengthUnit::Millimetre);
    /// # let outside = Block::new(mm(320.0), mm(180.0), mm(160.0));
    /// # let draft = Draft::new("Header tank", outside, StockDraft::of(Alloy::A5754, mm(2.0)))?;
    /// # let tank = Tank::build(&draft)?;
    /// let test = tank.leak_plan(LeakRule::OwnHead)?;
    /// // One and a half times 156 mm of water.
    /// assert_eq!(test.pressure.display(PressureUnit::Kilopascal, 2).to_string(), "2.29 kPa");
    /// # Ok::<(), Box<dyn core::error::Error>>(())
    /// ```
    ///
    /// # Errors
    /// [`LeakError`] where a wall cannot be judged, where a wall or a seam does not take the rule's pressure, or where the rule
    /// asks for more air than is proposed here.
    pub fn leak_plan(&self, rule: LeakRule) -> Result<LeakPlan, LeakError> {
        self.leak_plan_with(rule, None, BAROMETER, None)
    }

    /// [`Tank::leak_plan`] with the height at which it overflows, the barometer as it stands and a leak that a gauge
    /// should show.
    ///
    /// # Errors
    /// As [`leak_plan`](Self::leak_plan).
    pub fn leak_plan_with(
        &self,
        rule: LeakRule,
        overflow: Option<Length>,
        outside: Pressure,
        sought: Option<&Sought>,
    ) -> Result<LeakPlan, LeakError> {
        let vessel = self.vessel(overflow)?;
        vessel.plan(rule, outside, sought)
    }
}
