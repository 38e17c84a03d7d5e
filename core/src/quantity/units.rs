//! The quantities of this trade. Exact definitions: NIST SP 811 (2008), appendix B (from memory).

use super::define::quantity;

quantity!(
    /// A length, in metres.
    Length, LengthUnit, from_metres, "a length",
    [
        /// Millimetre.
        Millimetre = 1 / 1_000, "mm", ["millimetre", "millimetres", "millimeter", "millimeters"];
        /// Centimetre.
        Centimetre = 1 / 100, "cm", ["centimetre", "centimetres", "centimeter", "centimeters"];
        /// Metre.
        Metre = 1 / 1, "m", ["metre", "metres", "meter", "meters"];
        /// Inch, 25.4 mm exactly.
        Inch = 254 / 10_000, "in", ["\"", "inch", "inches"];
        /// Foot, 12 in.
        Foot = 3_048 / 10_000, "ft", ["'", "foot", "feet"];
    ]
);

quantity!(
    /// An area, in square metres.
    Area, AreaUnit, from_square_metres, "an area",
    [
        /// Square millimetre.
        SquareMillimetre = 1 / 1_000_000, "mm²", ["mm2"];
        /// Square centimetre.
        SquareCentimetre = 1 / 10_000, "cm²", ["cm2"];
        /// Square metre.
        SquareMetre = 1 / 1, "m²", ["m2"];
        /// Square inch, 645.16 mm² exactly.
        SquareInch = 64_516 / 100_000_000, "in²", ["in2", "sq in"];
    ]
);

quantity!(
    /// A volume, in cubic metres.
    Volume, VolumeUnit, from_cubic_metres, "a volume",
    [
        /// Litre.
        Litre = 1 / 1_000, "L", ["l", "litre", "litres", "liter", "liters"];
        /// Millilitre.
        Millilitre = 1 / 1_000_000, "mL", ["ml", "millilitre", "millilitres", "milliliter", "milliliters"];
        /// US gallon, 231 in³ = 3.785411784 L exactly.
        UsGallon = 3_785_411_784_i64 / 1_000_000_000_000_i64, "US gal", ["us gal", "US gallon", "US gallons"];
        /// US liquid quart, a quarter of a US gallon.
        UsQuart = 946_352_946 / 1_000_000_000_000_i64, "US qt", ["us qt", "US quart", "US quarts"];
        /// Imperial gallon, 4.54609 L exactly.
        ImperialGallon = 454_609 / 100_000_000, "imp gal", ["UK gal", "imperial gallon", "imperial gallons"];
        /// Cubic metre.
        CubicMetre = 1 / 1, "m³", ["m3"];
    ]
);

quantity!(
    /// A pressure, in pascals; gauge or absolute as the place that uses it says.
    Pressure, PressureUnit, from_pascals, "a pressure",
    [
        /// Bar, 100 kPa.
        Bar = 100_000 / 1, "bar", [];
        /// Kilopascal.
        Kilopascal = 1_000 / 1, "kPa", ["kpa"];
        /// Pound-force per square inch: 4.4482216152605 N on 645.16 mm², exactly.
        Psi = 44_482_216_152_605_i64 / 6_451_600_000_i64, "psi", [];
        /// Pascal.
        Pascal = 1 / 1, "Pa", ["pa"];
    ]
);

quantity!(
    /// A temperature, in kelvins above absolute zero.
    Temperature, TemperatureUnit, from_kelvins, "a temperature",
    [
        /// Degree Celsius.
        Celsius = 1 / 1 + 273.15, "°C", ["C", "degC", "deg C"];
        /// Degree Fahrenheit: 459.67 °F above absolute zero is 0 °F.
        Fahrenheit = 5 / 9 + 255.372_222_222_222_23, "°F", ["F", "degF", "deg F"];
        /// Kelvin.
        Kelvin = 1 / 1, "K", [];
    ]
);

quantity!(
    /// An electric current, in amperes.
    Current, CurrentUnit, from_amperes, "a current",
    [
        /// Ampere.
        Ampere = 1 / 1, "A", ["amp", "amps"];
    ]
);

quantity!(
    /// An electric potential, in volts.
    Voltage, VoltageUnit, from_volts, "a voltage",
    [
        /// Volt.
        Volt = 1 / 1, "V", ["volt", "volts"];
    ]
);

quantity!(
    /// A speed, in metres per second: how fast an arc travels along a seam.
    Speed, SpeedUnit, from_metres_per_second, "a speed",
    [
        /// Millimetre per minute.
        MillimetrePerMinute = 1 / 60_000, "mm/min", [];
        /// Millimetre per second.
        MillimetrePerSecond = 1 / 1_000, "mm/s", [];
        /// Inch per minute.
        InchPerMinute = 254 / 600_000, "in/min", ["ipm"];
        /// Metre per second.
        MetrePerSecond = 1 / 1, "m/s", [];
    ]
);

quantity!(
    /// A time, in seconds.
    Time, TimeUnit, from_seconds, "a time",
    [
        /// Second.
        Second = 1 / 1, "s", ["sec", "second", "seconds"];
        /// Minute.
        Minute = 60 / 1, "min", ["minute", "minutes"];
        /// Hour.
        Hour = 3_600 / 1, "h", ["hour", "hours"];
    ]
);

quantity!(
    /// A plane angle, in radians.
    Angle, AngleUnit, from_radians, "an angle",
    [
        /// Degree.
        Degree = 3.141_592_653_589_793 / 180, "°", ["deg", "degree", "degrees"];
        /// Radian.
        Radian = 1 / 1, "rad", [];
    ]
);

quantity!(
    /// A share of a whole: 0.05 is 5 %.
    Ratio, RatioUnit, from_share, "a share",
    [
        /// Per cent.
        Percent = 1 / 100, "%", [];
    ]
);

quantity!(
    /// A mass, in kilograms.
    Mass, MassUnit, from_kilograms, "a mass",
    [
        /// Kilogram.
        Kilogram = 1 / 1, "kg", [];
        /// Gram.
        Gram = 1 / 1_000, "g", [];
        /// Avoirdupois pound, 0.45359237 kg exactly.
        Pound = 45_359_237 / 100_000_000, "lb", ["lbs"];
    ]
);

quantity!(
    /// An energy for each length of seam, in joules per metre.
    LineEnergy, LineEnergyUnit, from_joules_per_metre, "a line energy",
    [
        /// Kilojoule per millimetre, the unit of EN 1011-1.
        KilojoulePerMillimetre = 1_000_000 / 1, "kJ/mm", [];
        /// Joule per millimetre.
        JoulePerMillimetre = 1_000 / 1, "J/mm", [];
        /// Kilojoule per inch.
        KilojoulePerInch = 10_000_000 / 254, "kJ/in", [];
        /// Joule per metre.
        JoulePerMetre = 1 / 1, "J/m", [];
    ]
);

quantity!(
    /// An energy, in joules.
    Energy, EnergyUnit, from_joules, "an energy",
    [
        /// Joule.
        Joule = 1 / 1, "J", [];
        /// Kilojoule.
        Kilojoule = 1_000 / 1, "kJ", [];
    ]
);
