//! The pressures that published rules test a tank at.

use super::PressureLimit;
use crate::units::{Pressure, PressureUnit, Time, Volume, VolumeUnit};

/// A rule that a tank is tested by. That a rule applies to a tank, and that a test satisfies it, is for
/// the authority that made it, and the person licensed to say.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum LeakRule {
    /// No published rule: 1.5 times the tank's own head.
    #[default]
    OwnHead,
    /// Fuel system of a boat, United States.
    BoatFuelUs,
    /// Diesel tank apart from the hull, inspected vessel, United States.
    DieselUs,
    /// Diesel tank that is part of the hull, small passenger vessel, United States.
    IntegralDieselUs,
    /// Petrol or diesel tank of a small craft, European Union, United Kingdom and others.
    SmallCraft,
    /// Light aircraft: leak test after repair. Proof of a new tank is another matter, and licensed.
    LightAircraft,
}

/// What a rule fills the tank with.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum Medium {
    /// Air or inert gas.
    Gas,
    /// Water.
    Water,
    /// It leaves the choice.
    Either,
}

struct Row {
    least: Pressure,
    heads: f64,
    medium: Medium,
    source: &'static str,
}

impl LeakRule {
    /// Every rule.
    pub const ALL: [Self; 6] = [
        Self::OwnHead,
        Self::BoatFuelUs,
        Self::DieselUs,
        Self::IntegralDieselUs,
        Self::SmallCraft,
        Self::LightAircraft,
    ];

    const fn row(self) -> Row {
        match self {
            Self::OwnHead => Row {
                least: Pressure::from_pascals(0.0),
                heads: 1.5,
                medium: Medium::Either,
                source: "common practice, no source; the 1.5 as in 33 CFR 183.542",
            },
            Self::BoatFuelUs => Row {
                least: Pressure::new(3.0, PressureUnit::Psi),
                heads: 1.5,
                medium: Medium::Gas,
                source: "33 CFR 183.542",
            },
            Self::DieselUs => Row {
                least: Pressure::new(5.0, PressureUnit::Psi),
                heads: 1.5,
                medium: Medium::Water,
                source: "46 CFR 58.50-10(c)",
            },
            Self::IntegralDieselUs => Row {
                least: Pressure::from_pascals(35_000.0),
                heads: 1.0,
                medium: Medium::Water,
                source: "46 CFR 119.435",
            },
            Self::SmallCraft => Row {
                least: Pressure::from_pascals(20_000.0),
                heads: 1.5,
                medium: Medium::Either,
                source: "ISO 21487 (pressure and factor from memory)",
            },
            Self::LightAircraft => Row {
                least: Self::AIRCRAFT,
                heads: 0.0,
                medium: Medium::Gas,
                source: "light-aircraft maintenance guidance: air of 1/2 psi at most, with soap",
            },
        }
    }

    /// Half a pound for a square inch: the most air that light-aircraft practice uses.
    pub const AIRCRAFT: Pressure = Pressure::new(0.5, PressureUnit::Psi);

    /// The pressure that it asks for where the head of the liquid itself, from the lowest point to the
    /// overflow, makes the pressure `head`: the greater of a fixed pressure and a multiple of that head.
    /// For [`LeakRule::LightAircraft`] it is the most, not the least, and the head does not enter.
    #[must_use]
    pub fn pressure(self, head: Pressure) -> Pressure {
        self.set_by(head).0
    }

    /// [`LeakRule::pressure`], and which of its two figures sets it.
    pub(super) fn set_by(self, head: Pressure) -> (Pressure, PressureLimit) {
        let row = self.row();
        let heads = Pressure::from_pascals(row.heads * head.si());
        if heads > row.least {
            (heads, PressureLimit::RuleHeads)
        } else {
            (row.least, PressureLimit::RuleFigure)
        }
    }

    /// What it fills the tank with.
    #[must_use]
    pub const fn medium(self) -> Medium {
        self.row().medium
    }

    /// Where its figures are from.
    #[must_use]
    pub const fn source(self) -> &'static str {
        self.row().source
    }
}

/// How long the pressure is held before the seams are looked over: 5 minutes, and one more for every
/// started 10 US gallons past 50. US Coast Guard, boatbuilder's handbook, fuel system static pressure test;
/// the 5 minutes are those of ISO 21487 too.
#[must_use]
pub fn hold(volume: Volume) -> Time {
    let past = volume.in_unit(VolumeUnit::UsGallon) - 50.0;
    let more = libm::fmax(libm::ceil(past / 10.0 - 1e-9), 0.0);
    Time::from_seconds(60.0 * (5.0 + more))
}
