//! Every conversion against the `uom` crate, both ways.
//!
//! Agreement is to 2 units in the last place of the result, with two exceptions. In the rows marked
//! `SevenDigits` `uom` itself has a factor of seven digits (the rounded column of NIST SP 811), and
//! ours is the exact definition, checked in `checks.rs`. Degrees Celsius and Fahrenheit are
//! counted in the last place of the largest number on the way: 300.00 K less 273.15 leaves a smaller
//! number with the rounding of the larger, in `uom` as here.

use proptest::prelude::*;
use seamwright_core::units as ours;
use seamwright_core::units::{
    AngleUnit, AreaUnit, CurrentUnit, DensityUnit, EnergyUnit, ForceUnit, LengthUnit,
    LineEnergyUnit, MassUnit, PowerUnit, PressureUnit, Quantity, RatioUnit, SpeedUnit,
    TemperatureUnit, TimeUnit, TorqueUnit, Unit, VoltageUnit, VolumeUnit,
};
use uom::si::f64 as theirs;
use uom::si::{
    angle, area, electric_current, electric_potential, energy, force, length, mass, mass_density,
    power, pressure, ratio, thermodynamic_temperature as temperature, time, torque, velocity,
    volume,
};

/// How close a row must come.
#[derive(Clone, Copy, Debug)]
enum Agreement {
    /// Two units in the last place.
    TwoUlps,
    /// Half a unit of the seventh digit, which is all that `uom` has.
    SevenDigits,
}
use Agreement::{SevenDigits, TwoUlps};

/// A unit, and what both sides make of a number.
struct Row {
    unit: String,
    agreement: Agreement,
    /// What is added on the way, in units and in SI: the zero of a temperature scale.
    zero: [f64; 2],
    /// From a number of the unit to SI: ours, theirs.
    to_si: [fn(f64) -> f64; 2],
    /// From an SI number to the unit: ours, theirs.
    from_si: [fn(f64) -> f64; 2],
}

/// `row!(quantity unit, agreement, to SI, from SI)`, the last two by `uom`.
macro_rules! row {
    ($quantity:ident $unit:ident $variant:ident, $agreement:expr, $to:expr, $from:expr) => {
        Row {
            unit: format!("{:?}", $unit::$variant),
            agreement: $agreement,
            zero: [0.0; 2],
            to_si: [
                |value| ours::$quantity::new(value, $unit::$variant).si(),
                $to,
            ],
            from_si: [
                |value| <ours::$quantity as Quantity>::from_si(value).in_unit($unit::$variant),
                $from,
            ],
        }
    };
}

/// Rows of units which `uom` has under a name of its own.
macro_rules! rows {
    ($quantity:ident $unit:ident, $theirs:ident $si:ty; $($variant:ident = $other:ty, $agreement:expr);+ $(;)?) => {
        vec![$(row!(
            $quantity $unit $variant,
            $agreement,
            |value| theirs::$theirs::new::<$other>(value).get::<$si>(),
            |value| theirs::$theirs::new::<$si>(value).get::<$other>()
        )),+]
    };
}

fn space() -> Vec<Row> {
    let mut rows = rows!(Length LengthUnit, Length length::meter;
        Millimetre = length::millimeter, TwoUlps;
        Centimetre = length::centimeter, TwoUlps;
        Metre = length::meter, TwoUlps;
        Inch = length::inch, TwoUlps;
        Foot = length::foot, TwoUlps);
    rows.extend(rows!(Area AreaUnit, Area area::square_meter;
        SquareMillimetre = area::square_millimeter, TwoUlps;
        SquareCentimetre = area::square_centimeter, TwoUlps;
        SquareMetre = area::square_meter, TwoUlps;
        SquareInch = area::square_inch, TwoUlps;
        SquareFoot = area::square_foot, TwoUlps));
    rows.extend(rows!(Volume VolumeUnit, Volume volume::cubic_meter;
        Litre = volume::liter, TwoUlps;
        Millilitre = volume::milliliter, TwoUlps;
        UsGallon = volume::gallon, SevenDigits;
        UsQuart = volume::quart_liquid, SevenDigits;
        ImperialGallon = volume::gallon_imperial, TwoUlps;
        CubicMetre = volume::cubic_meter, TwoUlps;
        CubicCentimetre = volume::cubic_centimeter, TwoUlps;
        CubicMillimetre = volume::cubic_millimeter, TwoUlps;
        UsPint = volume::pint_liquid, SevenDigits;
        UsFluidOunce = volume::fluid_ounce, SevenDigits;
        ImperialFluidOunce = volume::fluid_ounce_imperial, SevenDigits;
        CubicInch = volume::cubic_inch, SevenDigits;
        CubicFoot = volume::cubic_foot, SevenDigits));
    // `uom` has no imperial quart or pint, but it has the gallon, and 4 and 8 divide exactly.
    rows.push(row!(
        Volume VolumeUnit ImperialQuart, TwoUlps,
        |value| theirs::Volume::new::<volume::gallon_imperial>(value / 4.0).get::<volume::cubic_meter>(),
        |value| theirs::Volume::new::<volume::cubic_meter>(value).get::<volume::gallon_imperial>() * 4.0
    ));
    rows.push(row!(
        Volume VolumeUnit ImperialPint, TwoUlps,
        |value| theirs::Volume::new::<volume::gallon_imperial>(value / 8.0).get::<volume::cubic_meter>(),
        |value| theirs::Volume::new::<volume::cubic_meter>(value).get::<volume::gallon_imperial>() * 8.0
    ));
    rows.extend(rows!(Angle AngleUnit, Angle angle::radian;
        Degree = angle::degree, TwoUlps;
        Radian = angle::radian, TwoUlps));
    rows.extend(rows!(Ratio RatioUnit, Ratio ratio::ratio;
        Percent = ratio::percent, TwoUlps));
    rows
}

fn motion_and_matter() -> Vec<Row> {
    let mut rows = rows!(Pressure PressureUnit, Pressure pressure::pascal;
        Bar = pressure::bar, TwoUlps;
        Kilopascal = pressure::kilopascal, TwoUlps;
        Psi = pressure::psi, SevenDigits;
        Pascal = pressure::pascal, TwoUlps;
        Megapascal = pressure::megapascal, TwoUlps;
        Millibar = pressure::millibar, TwoUlps;
        InchOfMercury = pressure::inch_of_mercury, TwoUlps;
        InchOfWater = pressure::inch_of_water, TwoUlps;
        Atmosphere = pressure::atmosphere, TwoUlps);
    rows.extend(rows!(Speed SpeedUnit, Velocity velocity::meter_per_second;
        MillimetrePerMinute = velocity::millimeter_per_minute, TwoUlps;
        MillimetrePerSecond = velocity::millimeter_per_second, TwoUlps;
        InchPerMinute = velocity::inch_per_minute, TwoUlps;
        MetrePerSecond = velocity::meter_per_second, TwoUlps));
    rows.extend(rows!(Time TimeUnit, Time time::second;
        Second = time::second, TwoUlps;
        Minute = time::minute, TwoUlps;
        Hour = time::hour, TwoUlps));
    rows.extend(rows!(Mass MassUnit, Mass mass::kilogram;
        Kilogram = mass::kilogram, TwoUlps;
        Gram = mass::gram, TwoUlps;
        Pound = mass::pound, SevenDigits));
    rows.extend(rows!(Force ForceUnit, Force force::newton;
        Newton = force::newton, TwoUlps;
        Kilonewton = force::kilonewton, TwoUlps;
        PoundForce = force::pound_force, SevenDigits));
    rows.extend(rows!(Torque TorqueUnit, Torque torque::newton_meter;
        NewtonMetre = torque::newton_meter, TwoUlps;
        PoundForceFoot = torque::pound_force_foot, SevenDigits));
    rows.extend(rows!(Power PowerUnit, Power power::watt;
        Watt = power::watt, TwoUlps;
        Kilowatt = power::kilowatt, TwoUlps));
    rows.extend(
        rows!(Density DensityUnit, MassDensity mass_density::kilogram_per_cubic_meter;
        KilogramPerCubicMetre = mass_density::kilogram_per_cubic_meter, TwoUlps;
        GramPerCubicCentimetre = mass_density::gram_per_cubic_centimeter, TwoUlps),
    );
    rows
}

fn heat_and_current() -> Vec<Row> {
    let mut rows = rows!(Current CurrentUnit, ElectricCurrent electric_current::ampere;
        Ampere = electric_current::ampere, TwoUlps);
    rows.extend(
        rows!(Voltage VoltageUnit, ElectricPotential electric_potential::volt;
        Volt = electric_potential::volt, TwoUlps),
    );
    rows.extend(rows!(Energy EnergyUnit, Energy energy::joule;
        Joule = energy::joule, TwoUlps;
        Kilojoule = energy::kilojoule, TwoUlps));
    // An energy for each length is a force.
    rows.extend(rows!(LineEnergy LineEnergyUnit, Force force::newton;
        KilojoulePerMillimetre = force::meganewton, TwoUlps;
        JoulePerMillimetre = force::kilonewton, TwoUlps;
        JoulePerMetre = force::newton, TwoUlps));
    rows.push(row!(
        LineEnergy LineEnergyUnit KilojoulePerInch, TwoUlps,
        |value| {
            let energy = theirs::Energy::new::<energy::kilojoule>(value);
            (energy / theirs::Length::new::<length::inch>(1.0)).value
        },
        |value| {
            let energy = theirs::Force::new::<force::newton>(value) * theirs::Length::new::<length::inch>(1.0);
            energy.get::<energy::kilojoule>()
        }
    ));
    let mut scales = rows!(Temperature TemperatureUnit, ThermodynamicTemperature temperature::kelvin;
        Celsius = temperature::degree_celsius, TwoUlps;
        Fahrenheit = temperature::degree_fahrenheit, TwoUlps;
        Kelvin = temperature::kelvin, TwoUlps);
    for (row, zero) in scales
        .iter_mut()
        .zip([[273.15; 2], [459.67, 255.372], [0.0; 2]])
    {
        row.zero = zero;
    }
    rows.extend(scales);
    rows
}

fn all_rows() -> Vec<Row> {
    space()
        .into_iter()
        .chain(motion_and_matter())
        .chain(heat_and_current())
        .collect()
}

/// The distance in units in the last place of the largest number on the way.
fn ulps(ours: f64, theirs: f64, on_the_way: f64) -> f64 {
    let largest = ours.abs().max(theirs.abs()).max(on_the_way);
    (ours - theirs).abs() / (largest.next_up() - largest)
}

fn check(row: &Row, way: &str, value: f64, functions: [fn(f64) -> f64; 2], zero: f64) {
    let [ours, theirs] = functions.map(|function| function(value));
    let unit = &row.unit;
    match row.agreement {
        TwoUlps => {
            // Before the zero is added there is a number of up to the result's size and the zero's.
            let ulps = ulps(ours, theirs, zero.max((theirs + zero).abs()));
            assert!(
                ulps <= 2.0,
                "{way} {unit}, {value:?}: {ours:?} and {theirs:?}, {ulps} ulps"
            );
        }
        SevenDigits => {
            let off = (ours - theirs).abs() / theirs.abs();
            assert!(
                off <= 5e-7,
                "{way} {unit}, {value:?}: {ours:?} and {theirs:?}, {off:e}"
            );
            // If `uom` came to have more digits, this row would deserve better.
            assert!(
                off > 1e-9,
                "{way} {unit} agrees so well that it can be held to 2 ulps"
            );
        }
    }
}

#[test]
fn no_unit_is_left_out() {
    fn names<Q: Quantity>() -> Vec<String> {
        Q::Unit::ALL
            .iter()
            .map(|unit| format!("{unit:?}"))
            .collect()
    }
    let mut wanted = [
        names::<ours::Length>(),
        names::<ours::Area>(),
        names::<ours::Volume>(),
    ]
    .concat();
    wanted.extend(
        [
            names::<ours::Pressure>(),
            names::<ours::Temperature>(),
            names::<ours::Current>(),
        ]
        .concat(),
    );
    wanted.extend(
        [
            names::<ours::Voltage>(),
            names::<ours::Speed>(),
            names::<ours::Time>(),
        ]
        .concat(),
    );
    wanted.extend(
        [
            names::<ours::Angle>(),
            names::<ours::Ratio>(),
            names::<ours::Mass>(),
        ]
        .concat(),
    );
    wanted.extend([names::<ours::LineEnergy>(), names::<ours::Energy>()].concat());
    wanted.extend([names::<ours::Force>(), names::<ours::Torque>()].concat());
    wanted.extend([names::<ours::Power>(), names::<ours::Density>()].concat());
    let mut rows: Vec<String> = all_rows().into_iter().map(|row| row.unit).collect();
    wanted.sort();
    rows.sort();
    assert_eq!(rows, wanted);
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(20_000))]

    /// Numbers of every size that a shop meets and far beyond.
    #[test]
    fn conversions_agree(digits in 1.0..10.0_f64, power in -12..12_i32, negative: bool) {
        let size = digits * 10_f64.powi(power);
        let value = if negative { -size } else { size };
        for row in all_rows() {
            check(&row, "to SI from", value, row.to_si, row.zero[1]);
            check(&row, "from SI to", value, row.from_si, row.zero[0]);
        }
    }
}
