//! What an input of a job may be: the least and the most of each, and how many there may be.
//!
//! A pair is the least and the most, both allowed. The limits keep a slip of the keyboard (an inch for a
//! millimetre, a comma for a point) from becoming a plan; they do not say what is good practice.

use crate::units::{
    Angle, AngleUnit, Current, Length, LengthUnit, Mass, MassUnit, Pressure, PressureUnit, Ratio,
    Speed, SpeedUnit, Temperature, TemperatureUnit, Time, TimeUnit, Voltage, Volume, VolumeUnit,
};

/// Bytes that a job's name may have.
pub const MAX_NAME: usize = 64;
/// Bytes that the name of a fitting may have.
pub const MAX_LABEL: usize = 24;
/// Cuts a block may have.
pub const MAX_CUTS: usize = 8;
/// Sides a profile may have.
pub const MAX_SIDES: usize = 12;
/// Faces a body may have.
pub const MAX_FACES: usize = 16;
/// Edges that may have a joint of their own.
pub const MAX_OWN_JOINTS: usize = 16;
/// Edges that may be folded, rounded corners apart.
pub const MAX_FOLDS: usize = 16;
/// Fittings a tank may have.
pub const MAX_FITTINGS: usize = 16;
/// Baffles a tank may have.
pub const MAX_BAFFLES: usize = 4;
/// Holes a baffle may have.
pub const MAX_BAFFLE_HOLES: usize = 4;
/// Points that a tank may stand on.
pub const MAX_MOUNTS: usize = 4;
/// Marks a dip chart may have.
pub const MAX_MARKS: u16 = 1_000;
/// Stitches a job may have.
pub const MAX_STITCHES: u16 = 1_024;

const fn mm(value: f64) -> Length {
    Length::new(value, LengthUnit::Millimetre)
}

const fn celsius(value: f64) -> Temperature {
    Temperature::new(value, TemperatureUnit::Celsius)
}

const fn seconds(value: f64) -> Time {
    Time::new(value, TimeUnit::Second)
}

/// Smallest and largest dimension of a body.
pub const SIZE: (Length, Length) = (mm(1.0), mm(20_000.0));
/// Thinnest and thickest sheet.
pub const THICKNESS: (Length, Length) = (mm(0.3), mm(25.0));
/// Furthest that a point of a cutting plane may lie from the corner, on each axis.
pub const REACH: Length = mm(100_000.0);
/// Most of the brim that may be kept empty.
pub const HEADSPACE_MOST: Ratio = Ratio::from_share(0.9);
/// Smallest and largest current, for which the conventional load voltage holds.
pub const CURRENT: (Current, Current) = (Current::from_amperes(1.0), Current::from_amperes(600.0));
/// Smallest and largest arc voltage.
pub const VOLTAGE: (Voltage, Voltage) = (Voltage::from_volts(5.0), Voltage::from_volts(60.0));
/// Slowest and fastest travel.
pub const TRAVEL: (Speed, Speed) = (
    Speed::new(5.0, SpeedUnit::MillimetrePerMinute),
    Speed::new(5_000.0, SpeedUnit::MillimetrePerMinute),
);
/// Smallest and largest share of arc energy that counts as heat input.
pub const EFFICIENCY: (Ratio, Ratio) = (Ratio::from_share(0.05), Ratio::from_share(1.0));
/// Smallest and largest inside radius of a bend.
pub const BEND_RADIUS: (Length, Length) = (Length::from_metres(0.0), mm(500.0));
/// Smallest and largest lap.
pub const LAP: (Length, Length) = (mm(1.0), mm(500.0));
/// Smallest and largest root gap.
pub const GAP: (Length, Length) = (Length::from_metres(0.0), mm(10.0));
/// The most that a tank may be said to lean and still draw.
pub const LEAN_MOST: Angle = Angle::new(60.0, AngleUnit::Degree);
/// Coldest and hottest that a liquid may be.
pub const TEMPERATURE: (Temperature, Temperature) = (
    Temperature::new(-40.0, TemperatureUnit::Celsius),
    Temperature::new(150.0, TemperatureUnit::Celsius),
);
/// Coldest and warmest air to weld in.
pub const AMBIENT: (Temperature, Temperature) = (celsius(-30.0), celsius(60.0));
/// Highest interpass limit; the lowest is 5 K over the air.
pub const INTERPASS_MOST: Temperature = celsius(500.0);
/// Shortest and longest time from one stitch to the next.
pub const MOVING: (Time, Time) = (seconds(0.0), seconds(3_600.0));
/// Shortest and longest that the longest stitch may be.
pub const STITCH_MAX: (Length, Length) = (mm(1.0), SIZE.1);
/// Smallest and largest opening that hand and torch may be said to need.
pub const OPENING: (Length, Length) = (mm(20.0), mm(1_000.0));
/// Shortest and longest reach of hand and torch.
pub const ARM: (Length, Length) = (mm(50.0), mm(1_500.0));
/// Shortest and longest weld, and gap between two, of a baffle that is welded here and there.
pub const SPACED_WELD: (Length, Length) = (mm(5.0), mm(2_000.0));
/// Least and greatest emissivity.
pub const EMISSIVITY: (Ratio, Ratio) = (Ratio::from_share(0.01), Ratio::from_share(1.0));
/// Coldest and warmest service.
pub const SERVICE: (Temperature, Temperature) = (celsius(-60.0), celsius(400.0));
/// Most that a cap may hold back.
pub const PRESSURE_MOST: Pressure = Pressure::new(10.0, PressureUnit::Bar);
/// Most of an acceleration, in standard gravities, either way.
pub const ACCELERATION_MOST: Ratio = Ratio::from_share(50.0);

/// Smallest and largest current that a rating may name.
pub const RATED_CURRENT: (Current, Current) =
    (Current::from_amperes(1.0), Current::from_amperes(2_000.0));
/// Least and greatest share of ten minutes that a rating may name.
pub const RATED_DUTY: (Ratio, Ratio) = (Ratio::from_share(0.01), Ratio::from_share(1.0));
/// Least and greatest share of a cycle with the electrode negative.
pub const BALANCE: (Ratio, Ratio) = (Ratio::from_share(0.01), Ratio::from_share(0.99));
/// Fewest and most cycles of an alternating arc in a second.
pub const FREQUENCY: (f64, f64) = (1.0, 50_000.0);
/// Thinnest and thickest tungsten electrode.
pub const TUNGSTEN: (Length, Length) = (mm(0.5), mm(10.0));
/// Smallest and largest bore of a gas nozzle.
pub const NOZZLE: (Length, Length) = (mm(3.0), mm(30.0));
/// Thinnest and thickest filler rod.
pub const ROD_DIAMETER: (Length, Length) = (mm(0.5), mm(10.0));
/// Shortest and longest rod as it is bought.
pub const ROD_LENGTH: (Length, Length) = (mm(100.0), mm(2_000.0));
/// Thinnest and thickest wire that is itself the electrode.
pub const WIRE_DIAMETER: (Length, Length) = (mm(0.4), mm(4.0));
/// Lightest and heaviest spool of wire.
pub const SPOOL: (Mass, Mass) = (
    Mass::new(0.1, MassUnit::Kilogram),
    Mass::new(50.0, MassUnit::Kilogram),
);
/// Slowest and fastest feed of wire, in metres a minute.
pub const WIRE_FEED: (f64, f64) = (0.5, 40.0);
/// Shortest and longest distance from contact tip to work.
pub const STICK_OUT: (Length, Length) = (mm(3.0), mm(60.0));
/// Least and most oxygen that may be left behind a seam.
pub const PURGE_OXYGEN: (Ratio, Ratio) = (Ratio::from_share(1e-5), Ratio::from_share(0.05));
/// Shortest and longest way beside a seam that a coating is taken off for.
pub const COATING_REMOVED: (Length, Length) = (mm(1.0), mm(500.0));
/// Least and most rod that is used up beside the seams, as a share of what they take.
pub const ROD_WASTE: (Ratio, Ratio) = (Ratio::from_share(0.0), Ratio::from_share(1.0));
/// Least and greatest flow of shielding gas, in litres a minute.
pub const GAS_FLOW: (f64, f64) = (1.0, 50.0);
/// Shortest and longest time that gas flows before the arc.
pub const PRE_FLOW: (Time, Time) = (seconds(0.0), seconds(60.0));
/// Shortest and longest time that gas flows after it.
pub const POST_FLOW: (Time, Time) = (seconds(0.0), seconds(120.0));
/// Smallest and largest water capacity of a gas cylinder.
pub const CYLINDER: (Volume, Volume) = (
    Volume::new(0.1, VolumeUnit::Litre),
    Volume::new(200.0, VolumeUnit::Litre),
);
/// Least and most that the gauge of a cylinder in use may show.
pub const CYLINDER_GAUGE: (Pressure, Pressure) = (
    Pressure::new(1.0, PressureUnit::Bar),
    Pressure::new(300.0, PressureUnit::Bar),
);
/// Shortest and longest time beside the arc, and of any other part of a job.
pub const JOB_TIME: (Time, Time) = (seconds(0.0), seconds(3.6e6));
/// Lowest and highest price, in whatever money.
pub const PRICE: (f64, f64) = (0.0, 1e9);
/// Least and most that a seam may be said to draw in.
pub const SHRINK_BY: (Length, Length) = (mm(0.0), mm(10.0));
