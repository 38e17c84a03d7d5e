//! The figures that go into a calculation: what a message calls each, its unit, and what to do about one that is
//! past its limits.
//!
//! Many have units that no quantity of [`crate::units`] has (watts, watts for each metre and kelvin), so a
//! [`RangeError`](super::range::RangeError) keeps value and limit as plain SI numbers, and the figure knows how to show them.

use super::Decimal;
use super::constant::GAS;

macro_rules! figures {
    ($($(#[$doc:meta])* $name:ident: $text:literal, $unit:literal, $size:expr, $way:literal;)+) => {
        /// A figure that goes into a calculation and has limits there.
        #[derive(Clone, Copy, Debug, PartialEq, Eq)]
        #[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
        #[cfg_attr(feature = "defmt", derive(defmt::Format))]
        pub enum Figure { $($(#[$doc])* $name),+ }

        impl Figure {
            /// Every figure.
            pub const ALL: &'static [Self] = &[$(Self::$name),+];

            /// What a message calls it, with its article: "the travel speed".
            #[must_use]
            pub const fn name(self) -> &'static str {
                match self { $(Self::$name => $text),+ }
            }

            /// The symbol of the unit in which it is shown; empty for a plain number.
            #[must_use]
            pub const fn unit(self) -> &'static str {
                match self { $(Self::$name => $unit),+ }
            }

            /// What a person can do who sees it past a limit, as the end of a sentence.
            #[must_use]
            pub const fn way_out(self) -> &'static str {
                match self { $(Self::$name => $way),+ }
            }

            /// How large that unit is in the SI unit of the figure.
            const fn size(self) -> f64 {
                match self { $(Self::$name => $size),+ }
            }
        }
    };
}

/// A standard cubic centimetre a minute in mol/s: of gas at 0 °C (SEMI E12, from memory) and one atmosphere.
const SCCM: f64 = 101_325.0 / (GAS * 273.15) / 6e7;
/// 0 °C in kelvins.
const ZERO_CELSIUS: f64 = 273.15;

figures! {
    /// A voltage across the arc.
    Voltage: "the voltage", "V", 1.0, "check what the meter reads";
    /// A current through the arc.
    Current: "the current", "A", 1.0, "check the setting and the rating plate";
    /// Share of a cycle of alternating current with the electrode negative.
    Balance: "the electrode-negative share", "%", 0.01, "give the share of the time with the electrode negative";
    /// Share of its rating for direct current that a torch keeps on alternating current.
    TorchShare: "the torch's share on alternating current", "%", 0.01, "take it from the torch's data sheet";
    /// Power of the arc.
    Power: "the power", "W", 1.0, "check current and voltage";
    /// Speed of the arc along the seam.
    Travel: "the travel speed", "mm/min", 1.0 / 60_000.0, "check the speed and its unit";
    /// Energy for each length of seam.
    LineEnergy: "the heat input", "J/mm", 1_000.0, "check current, voltage and travel speed";
    /// Thickness of a sheet.
    Thickness: "the thickness", "mm", 0.001, "check the thickness and its unit";
    /// Conductivity for heat.
    Conductivity: "the conductivity", "W/m K", 1.0, "check the figure of the alloy";
    /// Heat capacity for each volume.
    HeatCapacity: "the heat capacity", "MJ/m³ K", 1e6, "check the figure of the alloy";
    /// Linear expansion.
    Expansion: "the linear expansion", "µm/m K", 1e-6, "check the figure of the alloy";
    /// Heat of melting for each volume.
    Latent: "the heat of melting", "MJ/m³", 1e6, "check the figure of the alloy";
    /// A temperature above that of the cold sheet.
    Rise: "the temperature above the cold sheet", "K", 1.0, "ask for a temperature above that of the sheet";
    /// The temperature before the arc.
    Start: "the temperature before the arc", "K", 1.0, "check the temperature of the shop";
    /// A distance from the seam or the arc.
    Distance: "the distance", "mm", 0.001, "ask nearer to the arc, though not in it";
    /// The angle of metal about the seam.
    Angle: "the angle", "°", core::f64::consts::PI / 180.0, "check the angle between the sheets";
    /// Sheets that the heat leaves into.
    Sheets: "the number of sheets at the seam", "", 1.0, "count the sheets that meet at the seam";
    /// Duty cycle.
    Duty: "the duty cycle", "%", 0.01, "take it from the rating plate";
    /// Time with the arc burning.
    ArcTime: "the arc time", "min", 60.0, "check the lengths of the seams and the travel speed";
    /// A time.
    Time: "the time", "s", 1.0, "check the time and its unit";
    /// Leg of a fillet.
    Leg: "the leg of the fillet", "mm", 0.001, "check the leg and its unit";
    /// Width of a bead's cap.
    CapWidth: "the width of the cap", "mm", 0.001, "check the bead's width and its unit";
    /// Height of a bead's cap.
    CapHeight: "the height of the cap", "mm", 0.001, "check the bead's height and its unit";
    /// Root gap.
    Gap: "the root gap", "mm", 0.001, "fit the sheets closer";
    /// Length of a seam.
    SeamLength: "the length of the seam", "m", 1.0, "check the length and its unit";
    /// Section of a bead.
    Section: "the section of the bead", "mm²", 1e-6, "check the bead's measures and their units";
    /// Diameter of a rod.
    RodDiameter: "the diameter of the rod", "mm", 0.001, "take a rod that is sold";
    /// Length of a rod.
    RodLength: "the length of the rod", "mm", 0.001, "check the length and its unit";
    /// What is left of a rod.
    Stub: "the stub left of a rod", "mm", 0.001, "use rods down to less than half of their length";
    /// Share of the melted rod that ends in the seam.
    Deposition: "the share of the rod that ends in the seam", "%", 0.01, "95 to 100 % is usual";
    /// Density of metal or of a liquid.
    Density: "the density", "kg/m³", 1.0, "check the figure and its unit";
    /// Flow of shielding gas.
    Flow: "the gas flow", "L/min", 1.0 / 60_000.0, "check the flow and its unit";
    /// Flow before the arc.
    PreFlow: "the pre-flow", "s", 1.0, "check the setting";
    /// Flow after the arc.
    PostFlow: "the post-flow", "s", 1.0, "check the setting";
    /// Water capacity of a cylinder.
    Water: "the water capacity", "L", 0.001, "take it from the stamp on the cylinder";
    /// Pressure that the gauge of a cylinder shows.
    CylinderGauge: "the gauge pressure", "bar", 1e5, "check what the regulator shows";
    /// Temperature of the gas in a cylinder.
    GasTemperature: "the temperature of the gas", "K", 1.0, "let the cylinder come to the shop's temperature";
    /// A price.
    Price: "the price", "", 1.0, "check the price";
    /// A mass.
    Mass: "the mass", "kg", 1.0, "check the lengths and thicknesses of the job";
    /// Energy from the mains.
    Energy: "the energy", "kJ", 1_000.0, "check current, voltage and arc time";
    /// Volume of gas.
    GasVolume: "the volume of gas", "L", 0.001, "check flow and arc time";
    /// Rod on top of what the seams take.
    Waste: "the waste", "%", 0.01, "give the share of the rod that is thrown away";
    /// A side of a panel, or a radius.
    Size: "the side or radius", "mm", 0.001, "check the lengths of the job and their units";
    /// Young's modulus.
    Modulus: "Young's modulus", "GPa", 1e9, "check the figure of the alloy";
    /// Poisson's ratio.
    Poisson: "Poisson's ratio", "", 1.0, "check the figure of the alloy";
    /// Strength beside the seam, or of the filler in shear.
    Strength: "the strength", "MPa", 1e6, "check the figure of the alloy";
    /// A pressure from within.
    Pressure: "the pressure", "kPa", 1_000.0, "let the tank lean, shake or hold less";
    /// What is felt as gravity.
    Gravity: "the acceleration felt", "m/s²", 1.0, "give the acceleration as a multiple of gravity";
    /// The reserve that is wanted.
    Reserve: "the reserve", "", 1.0, "1.5 in use and 1.25 in a test are usual";
    /// The crown radius of a dished end over its diameter.
    Crown: "the crown radius over the diameter", "", 1.0, "choose a crown no wider than the drum";
    /// The knuckle radius of a dished end over its crown radius.
    Knuckle: "the knuckle radius over the crown radius", "", 1.0, "choose a wider knuckle";
    /// Throat, leg or face of a weld.
    Throat: "the throat of the weld", "mm", 0.001, "check the thickness of the sheets";
    /// A force for each metre of seam.
    LineForce: "the force on the seam", "N/m", 1.0, "check the pressure and the lengths of the job";
    /// A coordinate in the tank.
    Place: "the coordinate", "mm", 0.001, "check the coordinate and its unit";
    /// How many mounts there are.
    Mounts: "the number of mounts", "", 1.0, "name one to eight mounts";
    /// The volume of the air in a tank under test.
    Volume: "the volume", "L", 0.001, "check the lengths of the job and their units";
    /// The inside height of a tank under test.
    InsideHeight: "the inside height", "mm", 0.001, "check the lengths of the job and their units";
    /// The head from the lowest point to the overflow.
    OverflowHead: "the head to the overflow", "mm", 0.001, "measure from the lowest inside point to where it overflows";
    /// The area of the largest panel.
    LargestPanel: "the largest panel", "cm²", 1e-4, "check the lengths of the job and their units";
    /// The pressure that the weakest wall bears.
    WeakestWall: "what the weakest panel takes", "kPa", 1_000.0, "stiffen the panel or use thicker sheet";
    /// The gauge pressure in a tank.
    GaugePressure: "the gauge pressure", "kPa", 1_000.0, "check the pressure and its unit";
    /// The pressure of the air outside.
    Barometer: "the barometer", "kPa", 1_000.0, "read it at the height of the shop, not reduced to the sea";
    /// The temperature of the air in a tank.
    AirTemperature: "the air temperature", "°C", 1.0, "check the temperature and its unit";
    /// How near the gauge reads.
    GaugeNearness: "the nearness of the gauge", "kPa", 1_000.0, "half of its smallest division is usual";
    /// How near the barometer reads.
    BarometerNearness: "the nearness of the barometer", "kPa", 1_000.0, "half of its smallest division is usual";
    /// How near the thermometer reads.
    ThermometerNearness: "the nearness of the thermometer", "K", 1.0, "0.5 K is usual";
    /// A leak rate that is sought.
    LeakRate: "the leak rate", "sccm", SCCM, "name a rate that a leak can have";
    /// How many times the nearness of the reading a change must be before it is called a leak.
    Measure: "the change in nearnesses of the reading", "", 1.0, "10 is usual";
    /// Diameter of a wire that is the electrode.
    WireDiameter: "the diameter of the wire", "mm", 0.001, "take a wire that is sold";
    /// Oxygen left behind a seam.
    Oxygen: "the oxygen left", "%", 0.01, "0.1 % is usual";
    /// Mass of a spool of wire.
    Spool: "the mass of the spool", "kg", 1.0, "take it from the label of the spool";
}

impl Figure {
    /// The number to show for a value in the SI unit of the figure, four figures of it.
    pub(super) fn shown(self, si: f64) -> Decimal {
        let zero = match self {
            Self::AirTemperature => ZERO_CELSIUS,
            _ => 0.0,
        };
        Decimal::with_figures((si - zero) / self.size(), 4)
    }

    /// The space between a number and the unit.
    pub(super) const fn space(self) -> &'static str {
        match self.unit().as_bytes() {
            // None before nothing, and none before the degree of an angle.
            [] | [0xC2, 0xB0] => "",
            _ => " ",
        }
    }
}
