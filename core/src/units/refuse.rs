//! Why an input of the arc, the plate, the filler or the gas is refused.
//!
//! Inputs here have units that no quantity of [`crate::units`] has (watts, watts for each metre and
//! kelvin), so the value and its limit are kept as plain SI numbers and the field knows how to show them.

use core::fmt;

use super::Decimal;

macro_rules! fields {
    ($($(#[$doc:meta])* $name:ident: $text:literal, $unit:literal, $size:expr;)+) => {
        /// What was refused.
        #[derive(Clone, Copy, Debug, PartialEq, Eq)]
        #[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
        #[cfg_attr(feature = "defmt", derive(defmt::Format))]
        pub enum Field { $($(#[$doc])* $name),+ }

        impl Field {
            /// What a message calls it.
            #[must_use]
            pub const fn name(self) -> &'static str {
                match self { $(Self::$name => $text),+ }
            }

            /// The unit it is shown in.
            #[must_use]
            pub const fn unit(self) -> &'static str {
                match self { $(Self::$name => $unit),+ }
            }

            /// That unit in SI.
            const fn size(self) -> f64 {
                match self { $(Self::$name => $size),+ }
            }
        }
    };
}

fields! {
    /// A voltage.
    Voltage: "the voltage", "V", 1.0;
    /// A current.
    Current: "the current", "A", 1.0;
    /// Share of a cycle with the electrode negative.
    Balance: "the electrode-negative share", "%", 0.01;
    /// Share of a cycle at the peak.
    Pulse: "the peak's share of the cycle", "%", 0.01;
    /// Cycles in a second.
    Frequency: "the frequency", "Hz", 1.0;
    /// The time that a sample stands for.
    Sample: "the time of a sample", "ms", 0.001;
    /// Power in watts.
    Power: "the power", "W", 1.0;
    /// Speed along the seam.
    Travel: "the travel speed", "mm/min", 1.0 / 60_000.0;
    /// Energy for each length.
    LineEnergy: "the heat input", "J/mm", 1_000.0;
    /// A sheet's thickness.
    Thickness: "the thickness", "mm", 0.001;
    /// Conductivity for heat.
    Conductivity: "the conductivity", "W/m K", 1.0;
    /// Heat capacity for each volume.
    HeatCapacity: "the heat capacity", "MJ/m³ K", 1e6;
    /// Linear expansion.
    Expansion: "the linear expansion", "µm/m K", 1e-6;
    /// Heat of melting for each volume.
    Latent: "the heat of melting", "MJ/m³", 1e6;
    /// A temperature above that of the cold sheet.
    Rise: "the temperature above the cold sheet", "K", 1.0;
    /// The temperature before the arc.
    Start: "the temperature before the arc", "K", 1.0;
    /// A distance from the seam or the arc.
    Distance: "the distance", "mm", 0.001;
    /// The angle of metal about the seam.
    Angle: "the angle", "°", core::f64::consts::PI / 180.0;
    /// Sheets that the heat leaves into.
    Sheets: "the number of sheets at the seam", "", 1.0;
    /// A factor of the form of the joint.
    JointFactor: "the factor for the joint", "", 1.0;
    /// Duty cycle.
    Duty: "the duty cycle", "%", 0.01;
    /// Time with the arc burning.
    ArcTime: "the arc time", "min", 60.0;
    /// A time.
    Time: "the time", "s", 1.0;
    /// A time constant.
    TimeConstant: "the time constant", "min", 60.0;
    /// Leg of a fillet.
    Leg: "the leg of the fillet", "mm", 0.001;
    /// Width of a bead's cap.
    CapWidth: "the width of the cap", "mm", 0.001;
    /// Height of a bead's cap.
    CapHeight: "the height of the cap", "mm", 0.001;
    /// Root gap.
    Gap: "the root gap", "mm", 0.001;
    /// Length of a seam.
    SeamLength: "the length of the seam", "m", 1.0;
    /// Section of a bead.
    Section: "the section of the bead", "mm²", 1e-6;
    /// Diameter of a rod.
    RodDiameter: "the diameter of the rod", "mm", 0.001;
    /// Length of a rod.
    RodLength: "the length of the rod", "mm", 0.001;
    /// What is left of a rod.
    Stub: "the stub left of a rod", "mm", 0.001;
    /// Deposition efficiency.
    Deposition: "the share of the rod that ends in the seam", "%", 0.01;
    /// Density.
    Density: "the density", "kg/m³", 1.0;
    /// Flow of gas.
    Flow: "the gas flow", "L/min", 1.0 / 60_000.0;
    /// Flow before the arc.
    PreFlow: "the pre-flow", "s", 1.0;
    /// Flow after the arc.
    PostFlow: "the post-flow", "s", 1.0;
    /// Water capacity of a cylinder.
    Water: "the water capacity", "L", 0.001;
    /// Pressure that a gauge shows.
    Gauge: "the gauge pressure", "bar", 1e5;
    /// Temperature of the gas.
    GasTemperature: "the temperature of the gas", "K", 1.0;
    /// A price.
    Price: "the price", "", 1.0;
    /// Mass.
    Mass: "the mass", "kg", 1.0;
    /// Energy.
    Energy: "the energy", "kJ", 1_000.0;
    /// Volume of gas.
    GasVolume: "the volume of gas", "L", 0.001;
    /// Length of a panel or a flange.
    Width: "the width of the flange", "mm", 0.001;
    /// Rod on top of what the seams take.
    Waste: "the waste", "%", 0.01;
}

/// The limit that a value must keep, in SI.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum Keep {
    /// This or more.
    AtLeast(f64),
    /// This or less.
    AtMost(f64),
    /// More than this.
    Above(f64),
    /// Less than this.
    Below(f64),
}

/// A value past its limit.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Refused {
    /// Which.
    pub field: Field,
    /// What was given, in the SI unit.
    pub value: f64,
    /// What is allowed.
    pub limit: Keep,
}

impl fmt::Display for Refused {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let field = self.field;
        let (word, limit) = match self.limit {
            Keep::AtLeast(v) => ("at least", v),
            Keep::AtMost(v) => ("at most", v),
            Keep::Above(v) => ("above", v),
            Keep::Below(v) => ("below", v),
        };
        let show = |value: f64| Decimal::with_figures(value / field.size(), 4);
        let unit = field.unit();
        let space = if unit.is_empty() || unit == "°" {
            ""
        } else {
            " "
        };
        write!(
            f,
            "{} is {}{space}{unit}: it must be {word} {}{space}{unit}",
            field.name(),
            show(self.value),
            show(limit)
        )
    }
}

impl core::error::Error for Refused {}

/// Lets `value` through where its lower limit `holds` and it is at most `most`; what is not a number lies nowhere.
fn kept(field: Field, value: f64, (holds, low): (bool, Keep), most: f64) -> Result<f64, Refused> {
    if holds && value <= most {
        return Ok(value);
    }
    Err(Refused {
        field,
        value,
        limit: if value > most {
            Keep::AtMost(most)
        } else {
            low
        },
    })
}

/// Lets `value` through between `least` and `most`, both allowed.
pub(crate) fn within(field: Field, value: f64, least: f64, most: f64) -> Result<f64, Refused> {
    kept(field, value, (value >= least, Keep::AtLeast(least)), most)
}

/// Lets `value` through above `floor` and up to `most`.
pub(crate) fn above(field: Field, value: f64, floor: f64, most: f64) -> Result<f64, Refused> {
    kept(field, value, (value > floor, Keep::Above(floor)), most)
}

#[cfg(test)]
mod tests {
    extern crate std;
    use std::string::ToString;

    use super::*;

    #[test]
    fn a_refusal_names_field_value_and_limit() {
        let refused = within(Field::Travel, 0.0, 1e-4, 0.1).unwrap_err();
        assert_eq!(
            refused.to_string(),
            "the travel speed is 0.000 mm/min: it must be at least 6.000 mm/min"
        );
        assert!(within(Field::Gap, f64::NAN, 0.0, 1.0).is_err());
        assert!(above(Field::Power, f64::INFINITY, 0.0, 1e6).is_err());
        assert_eq!(
            above(Field::Rise, 0.0, 0.0, 1e6).unwrap_err().limit,
            Keep::Above(0.0)
        );
        assert_eq!(within(Field::Gap, 1.0, 0.0, 1.0), Ok(1.0));
    }
}
