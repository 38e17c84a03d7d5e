//! The units that a report is written in.

use seamwright_core::units::flow::Flow;
use seamwright_core::units::{
    Area, AreaUnit, Decimal, Density, InchFraction, InchStep, Length, LengthUnit, LineEnergy,
    LineEnergyUnit, Mass, MassUnit, Pressure, PressureUnit, Quantity, Speed, SpeedUnit,
    Temperature, TemperatureUnit, Unit, Volume, VolumeUnit,
};

/// Newtons of a pound-force and metres of a foot: NIST SP 811, appendix B (from memory).
const POUND_FORCE: f64 = 4.448_221_615_260_5;
const FOOT: f64 = 0.304_8;

/// A family of units.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, clap::ValueEnum)]
pub enum Units {
    /// Millimetres, litres, kilograms.
    #[default]
    Metric,
    /// Inches to a sixteenth, US gallons, pounds.
    Us,
    /// Inches to a sixteenth, imperial gallons, pounds.
    Imperial,
}

impl Units {
    /// In one unit or the other, each to so many places.
    fn shown<Q: Quantity>(self, value: Q, metric: (Q::Unit, u8), inch: (Q::Unit, u8)) -> String {
        let (unit, places) = match self {
            Self::Metric => metric,
            Self::Us | Self::Imperial => inch,
        };
        let number = Decimal::new(value.in_unit(unit), places);
        format!("{number} {}", unit.symbol())
    }

    /// A length of the tank.
    #[must_use]
    pub fn length(self, length: Length) -> String {
        match self {
            Self::Metric => length.display(LengthUnit::Millimetre, 1).to_string(),
            Self::Us | Self::Imperial => match InchFraction::nearest(length, InchStep::Sixteenth) {
                Some(inches) => inches.to_string(),
                None => length.display(LengthUnit::Inch, 2).to_string(),
            },
        }
    }

    /// The thickness of a sheet.
    #[must_use]
    pub fn thickness(self, length: Length) -> String {
        match self {
            Self::Metric => {
                // As sheet is listed: 2 mm, 1.5 mm, but 3.175 mm where it was bought in inches.
                let mm = length.in_unit(LengthUnit::Millimetre);
                let places = (0..3).find(|places| {
                    let tenths = mm * 10_f64.powi(*places);
                    (tenths - tenths.round()).abs() < 1e-6
                });
                length
                    .display(
                        LengthUnit::Millimetre,
                        places.map_or(3, |places| places as u8),
                    )
                    .to_string()
            }
            Self::Us | Self::Imperial => length.display(LengthUnit::Inch, 3).to_string(),
        }
    }

    /// A small length: a diameter, a bead, a shrinkage, a bulge.
    #[must_use]
    pub fn fine(self, length: Length) -> String {
        self.shown(length, (LengthUnit::Millimetre, 2), (LengthUnit::Inch, 3))
    }

    /// The section of a bead.
    #[must_use]
    pub fn section(self, area: Area) -> String {
        self.shown(
            area,
            (AreaUnit::SquareMillimetre, 2),
            (AreaUnit::SquareInch, 4),
        )
    }

    /// A volume of gas.
    #[must_use]
    pub fn gas(self, volume: Volume) -> String {
        self.shown(volume, (VolumeUnit::Litre, 1), (VolumeUnit::CubicFoot, 2))
    }

    /// A flow of gas.
    #[must_use]
    pub fn flow(self, flow: Flow) -> String {
        match self {
            Self::Metric => format!("{:.1} L/min", flow.litres_per_minute()),
            Self::Us | Self::Imperial => {
                format!(
                    "{:.1} ft³/h",
                    flow.litres_per_minute() * 60.0 / 28.316_846_592
                )
            }
        }
    }

    /// A temperature.
    #[must_use]
    pub fn temperature(self, temperature: Temperature) -> String {
        let unit = match self {
            Self::Metric | Self::Imperial => TemperatureUnit::Celsius,
            Self::Us => TemperatureUnit::Fahrenheit,
        };
        temperature.display(unit, 0).to_string()
    }

    /// A sheet that is to be bought: rounded up, so that it is never too thin.
    #[must_use]
    pub fn thickness_up(self, length: Length) -> String {
        let (unit, places, steps) = match self {
            Self::Metric => (LengthUnit::Millimetre, 1, 10.0),
            Self::Us | Self::Imperial => (LengthUnit::Inch, 3, 1_000.0),
        };
        let up = (length.in_unit(unit) * steps - 1e-9).ceil() / steps;
        Length::new(up, unit).display(unit, places).to_string()
    }

    /// A pressure over the air outside.
    #[must_use]
    pub fn pressure(self, pressure: Pressure) -> String {
        self.shown(
            pressure,
            (PressureUnit::Kilopascal, 2),
            (PressureUnit::Psi, 3),
        )
    }

    /// A stress.
    #[must_use]
    pub fn stress(self, stress: Pressure) -> String {
        self.shown(
            stress,
            (PressureUnit::Megapascal, 1),
            (PressureUnit::Psi, 0),
        )
    }

    /// A force in newtons.
    #[must_use]
    pub fn force(self, newtons: f64) -> String {
        match self {
            Self::Metric => format!("{newtons:.0} N"),
            Self::Us | Self::Imperial => format!("{:.1} lbf", newtons / POUND_FORCE),
        }
    }

    /// A moment in newton metres.
    #[must_use]
    pub fn moment(self, newton_metres: f64) -> String {
        match self {
            Self::Metric => format!("{newton_metres:.1} N·m"),
            Self::Us | Self::Imperial => {
                format!("{:.1} lbf·ft", newton_metres / (POUND_FORCE * FOOT))
            }
        }
    }

    /// A density.
    #[must_use]
    pub fn density(self, density: Density) -> String {
        let density = density.si();
        let pounds = |gallon: VolumeUnit| {
            let gallon = Volume::new(1.0, gallon).si();
            Mass::from_kilograms(density * gallon).in_unit(MassUnit::Pound)
        };
        match self {
            Self::Metric => format!("{density:.0} kg/m³"),
            Self::Us => format!("{:.2} lb/US gal", pounds(VolumeUnit::UsGallon)),
            Self::Imperial => format!("{:.2} lb/imp gal", pounds(VolumeUnit::ImperialGallon)),
        }
    }

    /// What an energy is enough to do, from the height to which it throws a kilogram.
    #[must_use]
    pub fn throws(self, kilogram: Length) -> String {
        match self {
            Self::Metric => format!(
                "enough to throw 1 kg {} high",
                kilogram.display(LengthUnit::Metre, 1)
            ),
            Self::Us | Self::Imperial => {
                let pound = Mass::new(1.0, MassUnit::Pound).si();
                let high = Length::from_metres(kilogram.si() / pound);
                format!(
                    "enough to throw 1 lb {} high",
                    high.display(LengthUnit::Foot, 1)
                )
            }
        }
    }

    /// An area of sheet.
    #[must_use]
    pub fn area(self, area: Area) -> String {
        self.shown(area, (AreaUnit::SquareMetre, 4), (AreaUnit::SquareFoot, 3))
    }

    /// A volume.
    #[must_use]
    pub fn volume(self, volume: Volume) -> String {
        let unit = match self {
            Self::Metric => VolumeUnit::Litre,
            Self::Us => VolumeUnit::UsGallon,
            Self::Imperial => VolumeUnit::ImperialGallon,
        };
        volume.display(unit, 3).to_string()
    }

    /// A mass.
    #[must_use]
    pub fn mass(self, mass: Mass) -> String {
        self.shown(mass, (MassUnit::Kilogram, 3), (MassUnit::Pound, 3))
    }

    /// A travel speed.
    #[must_use]
    pub fn speed(self, speed: Speed) -> String {
        self.shown(
            speed,
            (SpeedUnit::MillimetrePerMinute, 0),
            (SpeedUnit::InchPerMinute, 1),
        )
    }

    /// A line energy.
    #[must_use]
    pub fn line_energy(self, energy: LineEnergy) -> String {
        self.shown(
            energy,
            (LineEnergyUnit::KilojoulePerMillimetre, 3),
            (LineEnergyUnit::KilojoulePerInch, 2),
        )
    }
}
