//! Liquids that tanks hold: density against temperature, and what to mind.
//!
//! Densities are those of a typical product where the trade sells a range; a density that was measured
//! goes in by [`Petroleum`]. Growth between two temperatures is the ratio of the densities.

mod contents;
mod error;
mod glycol;
mod petroleum;
mod water;

use core::fmt;
use core::str::FromStr;

pub use contents::Contents;
pub use error::LiquidError;
pub use glycol::GlycolShare;
pub use petroleum::{BASE, Petroleum};

use crate::units::{Density, Temperature, TemperatureUnit};

/// Temperatures between which water and its mixtures have figures: 0 °C to 100 °C.
const LIQUID_WATER: [Temperature; 2] = [
    Temperature::new(0.0, TemperatureUnit::Celsius),
    Temperature::new(100.0, TemperatureUnit::Celsius),
];

/// Temperatures between which petroleum has figures: −50 °C to 150 °C.
const FARTHEST: [Temperature; 2] = [
    Temperature::new(-50.0, TemperatureUnit::Celsius),
    Temperature::new(150.0, TemperatureUnit::Celsius),
];

/// What a tank holds.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
// Tags from 1, so that no liquid at all is zero: see `Tank::EMPTY`.
#[repr(u8)]
pub enum Liquid {
    /// Water.
    Water = 1,
    /// Water with ethylene glycol.
    EthyleneGlycol(GlycolShare),
    /// Water with propylene glycol.
    PropyleneGlycol(GlycolShare),
    /// Petrol, 745 kg/m³ at 15 °C.
    Petrol,
    /// Diesel, 840 kg/m³ at 15 °C.
    Diesel,
    /// Kerosene or jet fuel, 800 kg/m³ at 15 °C.
    Kerosene,
    /// Mineral lubricating oil, 875 kg/m³ at 15 °C.
    LubeOil,
    /// Mineral hydraulic oil, 875 kg/m³ at 15 °C.
    HydraulicOil,
}

impl Liquid {
    /// One of every kind, coolants half and half.
    pub const ALL: [Self; 8] = [
        Self::Water,
        Self::EthyleneGlycol(GlycolShare::HALF),
        Self::PropyleneGlycol(GlycolShare::HALF),
        Self::Petrol,
        Self::Diesel,
        Self::Kerosene,
        Self::LubeOil,
        Self::HydraulicOil,
    ];

    /// Its name, without the share of glycol.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Water => "water",
            Self::EthyleneGlycol(_) => "ethylene glycol",
            Self::PropyleneGlycol(_) => "propylene glycol",
            Self::Petrol => "petrol",
            Self::Diesel => "diesel",
            Self::Kerosene => "kerosene",
            Self::LubeOil => "lubricating oil",
            Self::HydraulicOil => "hydraulic oil",
        }
    }

    /// Where its figures are from.
    #[must_use]
    pub const fn source(self) -> &'static str {
        match self {
            Self::Water => "G. S. Kell, J. Chem. Eng. Data 20 (1975) 97 (from memory)",
            Self::EthyleneGlycol(_) | Self::PropyleneGlycol(_) => {
                "Å. Melinder, Properties of Secondary Working Fluids (IIR, 2010), as fitted by CoolProp 8.0.0"
            }
            Self::Petrol => {
                "API MPMS 11.1 table 54B (from memory); 745 kg/m³: middle of EN 228, 720 to 775 (from memory)"
            }
            Self::Diesel => {
                "API MPMS 11.1 table 54B (from memory); 840 kg/m³: within EN 590, 820 to 845 (from memory)"
            }
            Self::Kerosene => {
                "API MPMS 11.1 table 54B (from memory); 800 kg/m³: within Jet A-1, 775 to 840 (from memory)"
            }
            Self::LubeOil | Self::HydraulicOil => {
                "API MPMS 11.1 table 54D (from memory); 875 kg/m³: common practice, no source"
            }
        }
    }

    /// What to mind with it, in short. Local codes and licensed practice go first.
    #[must_use]
    pub const fn caution(self) -> &'static str {
        match self {
            Self::Water => {
                "water bursts a full tank when it freezes and scalds when hot; vent a heated tank"
            }
            Self::EthyleneGlycol(_) => {
                "ethylene glycol is poisonous to drink, and its sweet taste draws children and animals; open no hot coolant tank"
            }
            Self::PropyleneGlycol(_) => {
                "open no hot coolant tank: pressure lets go as scalding liquid; inhibited coolant is not for drinking"
            }
            Self::Petrol => {
                "petrol vapour burns and explodes at any usual temperature: vent and bond the tank, and follow the local code for fuel tanks"
            }
            Self::Diesel => {
                "diesel burns, and hot or sprayed it lights easily: vent the tank and follow the local code for fuel tanks"
            }
            Self::Kerosene => {
                "kerosene burns, and near 38 °C its vapour lights: vent and bond the tank, and follow the local code for fuel tanks"
            }
            Self::LubeOil => "hot oil burns skin and catches fire on hot metal; vent the tank",
            Self::HydraulicOil => {
                "let pressure off before opening anything: a jet of oil goes through skin and needs a surgeon at once"
            }
        }
    }

    /// Its petroleum figures, where it is one.
    #[must_use]
    pub fn petroleum(self) -> Option<Petroleum> {
        match self {
            Self::Water | Self::EthyleneGlycol(_) | Self::PropyleneGlycol(_) => None,
            Self::Petrol => Some(Petroleum::known(745.0, false)),
            Self::Diesel => Some(Petroleum::known(840.0, false)),
            Self::Kerosene => Some(Petroleum::known(800.0, false)),
            Self::LubeOil | Self::HydraulicOil => Some(Petroleum::known(875.0, true)),
        }
    }

    /// The temperatures between which it has figures, both included. That it is still liquid there is
    /// not said: a mixture may freeze or boil within them, a fuel may wax.
    #[must_use]
    pub const fn range(self) -> [Temperature; 2] {
        match self {
            Self::Water | Self::EthyleneGlycol(_) | Self::PropyleneGlycol(_) => LIQUID_WATER,
            Self::Petrol | Self::Diesel | Self::Kerosene | Self::LubeOil | Self::HydraulicOil => {
                FARTHEST
            }
        }
    }

    /// Its density at `temperature`, under about one atmosphere.
    ///
    /// # Errors
    /// [`LiquidError::Temperature`] outside [`Liquid::range`].
    pub fn density(self, temperature: Temperature) -> Result<Density, LiquidError> {
        if let Some(petroleum) = self.petroleum() {
            return petroleum.density(temperature);
        }
        let [least, most] = self.range();
        // A temperature that was converted is the limit still when it is off by its last bits.
        const HAIR: f64 = 1e-9;
        if !(temperature.si() >= least.si() - HAIR && temperature.si() <= most.si() + HAIR) {
            return Err(LiquidError::Temperature {
                value: temperature,
                least,
                most,
            });
        }
        let celsius = temperature.in_unit(TemperatureUnit::Celsius);
        let mixture = |glycol, share: GlycolShare| {
            water::mixture(glycol, f64::from(share.percent()), celsius)
        };
        Ok(Density::from_kilograms_per_cubic_metre(match self {
            Self::EthyleneGlycol(share) => mixture(water::Glycol::Ethylene, share),
            Self::PropyleneGlycol(share) => mixture(water::Glycol::Propylene, share),
            _ => water::water(celsius),
        }))
    }

    /// Its volume at `to` as a share of its volume at `from`: ρ(from) / ρ(to). Above 1 where it grows;
    /// water shrinks between 0 °C and 4 °C.
    ///
    /// # Errors
    /// [`LiquidError::Temperature`] where either lies outside [`Liquid::range`].
    pub fn growth(self, from: Temperature, to: Temperature) -> Result<f64, LiquidError> {
        Ok(self.density(from)?.si() / self.density(to)?.si())
    }
}

impl fmt::Display for Liquid {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.name())?;
        match self {
            Self::EthyleneGlycol(share) | Self::PropyleneGlycol(share) => write!(f, " {share}"),
            _ => Ok(()),
        }
    }
}

/// A word that names no liquid of the table.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct NotALiquid;

impl fmt::Display for NotALiquid {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("no liquid of the table has this name; a glycol needs its share by mass, 1 % to 60 %: \"ethylene glycol 50 %\"")
    }
}

impl core::error::Error for NotALiquid {}

impl FromStr for Liquid {
    type Err = NotALiquid;

    /// By its name or another the trade uses; a glycol with its share: `propylene glycol 40 %`.
    fn from_str(text: &str) -> Result<Self, NotALiquid> {
        let text = text.trim();
        Ok(match text {
            "water" => Self::Water,
            "petrol" | "gasoline" => Self::Petrol,
            "diesel" | "diesel fuel" | "heating oil" => Self::Diesel,
            "kerosene" | "paraffin" | "jet fuel" => Self::Kerosene,
            "lubricating oil" | "lube oil" | "mineral oil" | "engine oil" => Self::LubeOil,
            "hydraulic oil" => Self::HydraulicOil,
            _ => return coolant(text),
        })
    }
}

fn coolant(text: &str) -> Result<Liquid, NotALiquid> {
    let bare = text.strip_suffix('%').ok_or(NotALiquid)?.trim_end();
    let (name, number) = bare.rsplit_once(' ').ok_or(NotALiquid)?;
    let share = number
        .parse()
        .ok()
        .and_then(|percent| GlycolShare::new(percent).ok())
        .ok_or(NotALiquid)?;
    match name.trim_end() {
        "ethylene glycol" => Ok(Liquid::EthyleneGlycol(share)),
        "propylene glycol" => Ok(Liquid::PropyleneGlycol(share)),
        _ => Err(NotALiquid),
    }
}
