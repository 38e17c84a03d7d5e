//! The limits of [`limits`](crate::input::limits) as a draft is held against them: each with the other end where that
//! goes without saying, and with how an error shows it.

use super::ranged::{Bounds, mm};
use crate::blank::K_FACTOR;
use crate::input::limits;
use crate::units::range::Value;
use crate::units::{
    Angle, Current, Length, Pressure, Ratio, Speed, Temperature, Time, Voltage, Volume,
};

const ZERO: Length = Length::from_metres(0.0);
const NONE: Ratio = Ratio::from_share(0.0);
/// The brim of the largest body.
const MOST_VOLUME: Volume = Volume::from_cubic_metres(8_000.0);

const fn lengths(least: Length, most: Length) -> Bounds<Length> {
    Bounds::of((least, most), Value::Length)
}

const fn length((least, most): (Length, Length)) -> Bounds<Length> {
    lengths(least, most)
}

pub(super) const SIZE: Bounds<Length> = length(limits::SIZE);
/// Radii of outline corners may be zero: the corner is sharp.
pub(super) const RADIUS: Bounds<Length> = lengths(ZERO, limits::SIZE.1);
/// A leg may reach past the far side of its face: the plane is what counts.
pub(super) const CUT_LEG: Bounds<Length> = lengths(mm(0.1), mm(2.0 * 20_000.0));
pub(super) const REACH: Bounds<Length> = lengths(mm(-100_000.0), limits::REACH);
pub(super) const THICKNESS: Bounds<Length> = length(limits::THICKNESS);
/// Smallest and largest hole.
pub(super) const HOLE: Bounds<Length> = lengths(mm(1.0), mm(2_000.0));
/// A bore may be none.
pub(super) const BORE: Bounds<Length> = lengths(ZERO, HOLE.most);
pub(super) const ON_FACE: Bounds<Length> = lengths(ZERO, limits::SIZE.1);
pub(super) const SPACED_WELD: Bounds<Length> = length(limits::SPACED_WELD);

pub(super) const BEND_RADIUS: Bounds<Length> = length(limits::BEND_RADIUS);
pub(super) const K: Bounds<Ratio> = {
    let [least, most] = K_FACTOR;
    Bounds::of((least, most), Value::Ratio)
};
pub(super) const LAP: Bounds<Length> = length(limits::LAP);
pub(super) const GAP: Bounds<Length> = length(limits::GAP);

pub(super) const HEADSPACE: Bounds<Ratio> =
    Bounds::of((NONE, limits::HEADSPACE_MOST), Value::Ratio);
pub(super) const TARGET: Bounds<Volume> =
    Bounds::of((Volume::from_cubic_metres(0.0), MOST_VOLUME), Value::Volume);
pub(super) const PICK_UP: Bounds<Length> = lengths(ZERO, limits::SIZE.1);
pub(super) const NECK: Bounds<Length> = lengths(mm(0.1), limits::SIZE.1);
pub(super) const PLACE: Bounds<Length> =
    lengths(Length::from_metres(-limits::REACH.si()), limits::REACH);
pub(super) const LEAN: Bounds<Angle> =
    Bounds::of((Angle::from_radians(0.0), limits::LEAN_MOST), Value::Angle);
pub(super) const DIP_STEP: Bounds<Length> = lengths(mm(0.1), limits::SIZE.1);
pub(super) const DIP_VOLUME: Bounds<Volume> = Bounds::of(
    (Volume::from_cubic_metres(1e-6), MOST_VOLUME),
    Value::Volume,
);
pub(super) const TEMPERATURE: Bounds<Temperature> =
    Bounds::of(limits::TEMPERATURE, Value::Temperature);

pub(super) const CURRENT: Bounds<Current> = Bounds::of(limits::CURRENT, Value::Current);
pub(super) const VOLTAGE: Bounds<Voltage> = Bounds::of(limits::VOLTAGE, Value::Voltage);
pub(super) const TRAVEL: Bounds<Speed> = Bounds::of(limits::TRAVEL, Value::Speed);
pub(super) const EFFICIENCY: Bounds<Ratio> = Bounds::of(limits::EFFICIENCY, Value::Ratio);

pub(super) const STITCH_MAX: Bounds<Length> = length(limits::STITCH_MAX);
pub(super) const TACK_PITCH: Bounds<Length> = lengths(mm(1.0), limits::SIZE.1);
pub(super) const AMBIENT: Bounds<Temperature> = Bounds::of(limits::AMBIENT, Value::Temperature);
pub(super) const EMISSIVITY: Bounds<Ratio> = Bounds::of(limits::EMISSIVITY, Value::Ratio);
pub(super) const MOVING: Bounds<Time> = Bounds::of(limits::MOVING, Value::Time);
pub(super) const OPENING: Bounds<Length> = length(limits::OPENING);
pub(super) const ARM: Bounds<Length> = length(limits::ARM);

pub(super) const SERVICE: Bounds<Temperature> = Bounds::of(limits::SERVICE, Value::Temperature);
pub(super) const PRESSURE: Bounds<Pressure> = Bounds::of(
    (Pressure::from_pascals(0.0), limits::PRESSURE_MOST),
    Value::Pressure,
);
pub(super) const ACCELERATION: Bounds<Ratio> =
    Bounds::of((NONE, limits::ACCELERATION_MOST), Value::Ratio);
pub(super) const MOUNT: Bounds<Length> =
    lengths(Length::from_metres(-limits::SIZE.1.si()), limits::SIZE.1);
