//! What the air in a tank would let go at once, and what it pushes with.

use core::fmt;

use super::decay::{HIGHEST, barometer, volume};
use crate::units::constant::GRAVITY;
use crate::units::range::RangeError;
use crate::units::{
    Area, Energy, EnergyUnit, Figure, Force, Length, LengthUnit, Mass, Pressure, Volume,
};

/// γ of air is 1.4, and 1/(γ − 1) is this: ASME PCC-2 appendix 501-II.
const OVER: f64 = 2.5;
/// (γ − 1)/γ as the same appendix prints it.
const POWER: f64 = 0.286;
/// Bulk modulus of water near room temperature, in pascals (CRC Handbook, from memory).
const BULK: f64 = 2.2e9;

/// What a tank under pressure stores. The stretch of its panels is not in it.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct StoredEnergy {
    /// Energy of air that expands with no heat from outside: 2.5 Pt V [1 − (Pa/Pt)^0.286], absolute pressures,
    /// ASME PCC-2 appendix 501-II.
    pub air: Energy,
    /// The plainer and larger bound for air, (Pt − Pa) V / (γ − 1) (H. L. Brode, from memory).
    pub air_at_most: Energy,
    /// Energy of water at the same pressure, p² V / (2 K): thousands of times less.
    pub water: Energy,
}

impl StoredEnergy {
    /// What a volume stores at a gauge pressure, 0 to 1000 kPa, with the barometer as it stands.
    ///
    /// # Errors
    /// [`RangeError`] names what is out of range.
    pub fn new(of: Volume, gauge: Pressure, outside: Pressure) -> Result<Self, RangeError> {
        volume(of)?;
        barometer(outside)?;
        Figure::GaugePressure.within(gauge.si(), 0.0, HIGHEST.si())?;
        let (v, p, pa) = (of.si(), gauge.si(), outside.si());
        let pt = p + pa;
        Ok(Self {
            air: Energy::from_joules(OVER * pt * v * (1.0 - libm::pow(pa / pt, POWER))),
            air_at_most: Energy::from_joules(OVER * p * v),
            water: Energy::from_joules(p * p * v / (2.0 * BULK)),
        })
    }

    /// How high the energy of the air would throw 1 kg: h = E / (m g).
    #[must_use]
    pub const fn throws_kilogram(&self) -> Length {
        Length::from_metres(self.air.si() / GRAVITY)
    }
}

impl fmt::Display for StoredEnergy {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(
            f,
            "{}, enough to throw 1 kg {} high",
            self.air.display(EnergyUnit::Joule, 0),
            self.throws_kilogram().display(LengthUnit::Metre, 1)
        )
    }
}

/// The force on a flat panel: F = p A.
#[must_use]
pub const fn force(pressure: Pressure, panel: Area) -> Force {
    Force::from_newtons(pressure.si() * panel.si())
}

/// The mass whose weight is a force: m = F / g.
#[must_use]
pub const fn weighs(force: Force) -> Mass {
    Mass::from_kilograms(force.si() / GRAVITY)
}
