//! The quantities of this trade.
//!
//! Exact definitions: NIST SP 811 (2008), appendix B, and NIST Handbook 44, appendix C (both from
//! memory; the figures are checked in the `tests` crate). A spelling stands for one unit only, over
//! all quantities. Symbols are told apart by case: a millimetre and a megametre differ by nothing
//! else.

use core::f64::consts::PI;

use super::define::quantity;

quantity!(
    /// A length, in metres.
    Length, LengthUnit, from_metres, "a length",
    [
        /// Millimetre.
        Millimetre = 1.0 / 1_000.0, "mm", ["millimetre", "millimetres", "millimeter", "millimeters"];
        /// Centimetre.
        Centimetre = 1.0 / 100.0, "cm", ["centimetre", "centimetres", "centimeter", "centimeters"];
        /// Metre.
        Metre = 1.0 / 1.0, "m", ["metre", "metres", "meter", "meters"];
        /// Inch, 25.4 mm exactly.
        Inch = 254.0 / 10_000.0, "in", ["\"", "″", "”", "''", "inch", "inches"];
        /// Foot, 12 in.
        Foot = 3_048.0 / 10_000.0, "ft", ["'", "′", "’", "foot", "feet"];
    ],
    fractions [Inch, Foot], compound Foot = 12.0 Inch
);

quantity!(
    /// An area, in square metres.
    Area, AreaUnit, from_square_metres, "an area",
    [
        /// Square millimetre.
        SquareMillimetre = 1.0 / 1_000_000.0, "mm²", ["mm2"];
        /// Square centimetre.
        SquareCentimetre = 1.0 / 10_000.0, "cm²", ["cm2"];
        /// Square metre.
        SquareMetre = 1.0 / 1.0, "m²", ["m2"];
        /// Square inch, 645.16 mm² exactly.
        SquareInch = 64_516.0 / 100_000_000.0, "in²", ["in2", "sq in"];
        /// Square foot, 144 in².
        SquareFoot = 9_290_304.0 / 100_000_000.0, "ft²", ["ft2", "sq ft"];
    ]
);

quantity!(
    /// A volume, in cubic metres.
    Volume, VolumeUnit, from_cubic_metres, "a volume",
    [
        /// Litre.
        Litre = 1.0 / 1_000.0, "L", ["l", "litre", "litres", "liter", "liters"];
        /// Millilitre.
        Millilitre = 1.0 / 1_000_000.0, "mL", ["ml", "millilitre", "millilitres", "milliliter", "milliliters"];
        /// US gallon, 231 in³ = 3.785411784 L exactly.
        UsGallon = 3_785_411_784.0 / 1_000_000_000_000.0, "US gal", ["us gal", "USgal", "US gallon", "US gallons"];
        /// US liquid quart, a quarter of a US gallon.
        UsQuart = 946_352_946.0 / 1_000_000_000_000.0, "US qt", ["us qt", "US quart", "US quarts"];
        /// Imperial gallon, 4.54609 L exactly.
        ImperialGallon = 454_609.0 / 100_000_000.0, "imp gal", ["UK gal", "imperial gallon", "imperial gallons"];
        /// Cubic metre.
        CubicMetre = 1.0 / 1.0, "m³", ["m3"];
        /// Cubic centimetre, the same size as a millilitre.
        CubicCentimetre = 1.0 / 1_000_000.0, "cm³", ["cm3", "cc"];
        /// Cubic millimetre.
        CubicMillimetre = 1.0 / 1_000_000_000.0, "mm³", ["mm3"];
        /// US liquid pint, an eighth of a US gallon.
        UsPint = 473_176_473.0 / 1_000_000_000_000.0, "US pt", ["us pt", "US pint", "US pints"];
        /// US fluid ounce, a 128th of a US gallon.
        UsFluidOunce = 3_785_411_784.0 / 128_000_000_000_000.0, "US fl oz", ["us fl oz", "US fluid ounce", "US fluid ounces"];
        /// Imperial quart, a quarter of an imperial gallon.
        ImperialQuart = 454_609.0 / 400_000_000.0, "imp qt", ["UK qt", "imperial quart", "imperial quarts"];
        /// Imperial pint, an eighth of an imperial gallon.
        ImperialPint = 454_609.0 / 800_000_000.0, "imp pt", ["UK pt", "imperial pint", "imperial pints"];
        /// Imperial fluid ounce, a 160th of an imperial gallon.
        ImperialFluidOunce = 454_609.0 / 16_000_000_000.0, "imp fl oz", ["UK fl oz", "imperial fluid ounce", "imperial fluid ounces"];
        /// Cubic inch, 16.387064 mL exactly.
        CubicInch = 16_387_064.0 / 1_000_000_000_000.0, "in³", ["in3", "cu in"];
        /// Cubic foot, 1728 in³.
        CubicFoot = 28_316_846_592.0 / 1_000_000_000_000.0, "ft³", ["ft3", "cu ft"];
    ]
);

quantity!(
    /// A pressure, in pascals; gauge or absolute as the place that uses it says.
    Pressure, PressureUnit, from_pascals, "a pressure",
    [
        /// Bar, 100 kPa.
        Bar = 100_000.0 / 1.0, "bar", [];
        /// Kilopascal.
        Kilopascal = 1_000.0 / 1.0, "kPa", ["kpa"];
        /// Pound-force per square inch: 4.4482216152605 N on 645.16 mm², exactly.
        Psi = 44_482_216_152_605.0 / 6_451_600_000.0, "psi", [];
        /// Pascal.
        Pascal = 1.0 / 1.0, "Pa", ["pa"];
        /// Megapascal, a newton on each square millimetre.
        Megapascal = 1_000_000.0 / 1.0, "MPa", [];
        /// Millibar or hectopascal, 100 Pa.
        Millibar = 100.0 / 1.0, "mbar", ["hPa", "hpa"];
        /// Conventional inch of mercury, 3386.389 Pa.
        InchOfMercury = 3_386_389.0 / 1_000.0, "inHg", [];
        /// Conventional inch of water, 249.0889 Pa.
        InchOfWater = 2_490_889.0 / 10_000.0, "inH2O", ["inH₂O", "in wc"];
        /// Standard atmosphere, 101325 Pa exactly.
        Atmosphere = 101_325.0 / 1.0, "atm", [];
    ]
);

quantity!(
    /// A temperature, in kelvins above absolute zero.
    Temperature, TemperatureUnit, from_kelvins, "a temperature",
    [
        /// Degree Celsius.
        Celsius = 1.0 / 1.0 from -273.15, "°C", ["C", "degC", "deg C"];
        /// Degree Fahrenheit: 459.67 °F above absolute zero is 0 °F.
        Fahrenheit = 5.0 / 9.0 from -459.67, "°F", ["F", "degF", "deg F"];
        /// Kelvin.
        Kelvin = 1.0 / 1.0, "K", ["kelvin"];
    ]
);

quantity!(
    /// An electric current, in amperes.
    Current, CurrentUnit, from_amperes, "a current",
    [
        /// Ampere.
        Ampere = 1.0 / 1.0, "A", ["amp", "amps"];
    ]
);

quantity!(
    /// An electric potential, in volts.
    Voltage, VoltageUnit, from_volts, "a voltage",
    [
        /// Volt.
        Volt = 1.0 / 1.0, "V", ["volt", "volts"];
    ]
);

quantity!(
    /// A speed, in metres per second: how fast an arc travels along a seam.
    Speed, SpeedUnit, from_metres_per_second, "a speed",
    [
        /// Millimetre per minute.
        MillimetrePerMinute = 1.0 / 60_000.0, "mm/min", [];
        /// Millimetre per second.
        MillimetrePerSecond = 1.0 / 1_000.0, "mm/s", [];
        /// Inch per minute.
        InchPerMinute = 254.0 / 600_000.0, "in/min", ["ipm"];
        /// Metre per second.
        MetrePerSecond = 1.0 / 1.0, "m/s", [];
    ]
);

quantity!(
    /// A time, in seconds.
    Time, TimeUnit, from_seconds, "a time",
    [
        /// Second.
        Second = 1.0 / 1.0, "s", ["sec", "second", "seconds"];
        /// Minute.
        Minute = 60.0 / 1.0, "min", ["minute", "minutes"];
        /// Hour.
        Hour = 3_600.0 / 1.0, "h", ["hour", "hours"];
    ]
);

quantity!(
    /// A plane angle, in radians.
    Angle, AngleUnit, from_radians, "an angle",
    [
        /// Degree.
        Degree = PI / 180.0, "°", ["deg", "degree", "degrees"];
        /// Radian.
        Radian = 1.0 / 1.0, "rad", [];
    ]
);

quantity!(
    /// A share of a whole: 0.05 is 5 %.
    Ratio, RatioUnit, from_share, "a share",
    [
        /// Per cent.
        Percent = 1.0 / 100.0, "%", ["percent", "per cent"];
    ]
);

quantity!(
    /// A mass, in kilograms.
    Mass, MassUnit, from_kilograms, "a mass",
    [
        /// Kilogram.
        Kilogram = 1.0 / 1.0, "kg", [];
        /// Gram.
        Gram = 1.0 / 1_000.0, "g", [];
        /// Avoirdupois pound, 0.45359237 kg exactly.
        Pound = 45_359_237.0 / 100_000_000.0, "lb", ["lbs"];
    ]
);

quantity!(
    /// An energy for each length of seam, in joules per metre.
    LineEnergy, LineEnergyUnit, from_joules_per_metre, "a line energy",
    [
        /// Kilojoule per millimetre, the unit of EN 1011-1.
        KilojoulePerMillimetre = 1_000_000.0 / 1.0, "kJ/mm", [];
        /// Joule per millimetre.
        JoulePerMillimetre = 1_000.0 / 1.0, "J/mm", [];
        /// Kilojoule per inch.
        KilojoulePerInch = 10_000_000.0 / 254.0, "kJ/in", [];
        /// Joule per metre.
        JoulePerMetre = 1.0 / 1.0, "J/m", [];
    ]
);

quantity!(
    /// An energy, in joules.
    Energy, EnergyUnit, from_joules, "an energy",
    [
        /// Joule.
        Joule = 1.0 / 1.0, "J", [];
        /// Kilojoule.
        Kilojoule = 1_000.0 / 1.0, "kJ", [];
    ]
);

quantity!(
    /// A power, in watts.
    Power, PowerUnit, from_watts, "a power",
    [
        /// Watt.
        Watt = 1.0 / 1.0, "W", ["watt", "watts"];
        /// Kilowatt.
        Kilowatt = 1_000.0 / 1.0, "kW", [];
    ]
);

quantity!(
    /// A density, in kilograms per cubic metre.
    Density, DensityUnit, from_kilograms_per_cubic_metre, "a density",
    [
        /// Kilogram per cubic metre.
        KilogramPerCubicMetre = 1.0 / 1.0, "kg/m³", ["kg/m3"];
        /// Gram per cubic centimetre, which is kilogram per litre.
        GramPerCubicCentimetre = 1_000.0 / 1.0, "g/cm³", ["g/cm3", "kg/L", "kg/l"];
    ]
);

quantity!(
    /// A force, in newtons.
    Force, ForceUnit, from_newtons, "a force",
    [
        /// Newton.
        Newton = 1.0 / 1.0, "N", ["newton", "newtons"];
        /// Kilonewton.
        Kilonewton = 1_000.0 / 1.0, "kN", [];
        /// Pound-force, 4.4482216152605 N exactly.
        PoundForce = 44_482_216_152_605.0 / 10_000_000_000_000.0, "lbf", [];
    ]
);

quantity!(
    /// A moment of force, in newton metres.
    Torque, TorqueUnit, from_newton_metres, "a moment",
    [
        /// Newton metre.
        NewtonMetre = 1.0 / 1.0, "N·m", ["N m", "Nm"];
        /// Pound-force foot: a pound-force on a foot, 1.3558179483314004 N·m exactly.
        PoundForceFoot = 3_389_544_870_828_501.0 / 2_500_000_000_000_000.0, "lbf·ft", ["lbf ft"];
    ]
);
