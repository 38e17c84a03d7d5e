//! How the tank is welded and what it is in for, as far as heat and strength ask: the part of the checked
//! inputs that a job file has under `[weld]` and `[use]`.

use heapless::Vec;

use super::ranged::{Bounds, Inspection};
use super::{Assumed, bounds};
use crate::arc::usual_uptake;
use crate::input::limits::{INTERPASS_MOST, MAX_MOUNTS};
use crate::input::{Draft, Field};
use crate::tables::preheat::interpass_limit;
use crate::tables::{Alloy, Process, Sourced};
use crate::units::range::Value;
use crate::units::{
    Length, LengthUnit, Pressure, Ratio, Temperature, TemperatureUnit, Time, TimeUnit,
};

const fn celsius(value: f64) -> Temperature {
    Temperature::new(value, TemperatureUnit::Celsius)
}

const fn seconds(value: f64) -> Time {
    Time::new(value, TimeUnit::Second)
}

/// The width of an opening that lets a gloved hand with a torch in, where the job names none: common practice, no source.
/// An arm is some 120 mm thick at most (EN 547-3, from memory).
const USUAL_OPENING: Length = Length::new(120.0, LengthUnit::Millimetre);
/// How far hand and torch reach from there with the seam in sight, where the job names none: common practice, no source.
const USUAL_REACH: Length = Length::new(500.0, LengthUnit::Millimetre);

/// How far over the air an interpass limit is at least, in K.
const LEAST_OVER: f64 = 5.0;

/// How the tank is welded.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Welding {
    /// The warmest that the metal may be where a stitch starts, where the job says; else see
    /// [`Tank::interpass_max`](super::Tank::interpass_max).
    pub interpass_max: Option<Temperature>,
    /// The air and all around.
    pub ambient: Temperature,
    /// Emissivity of the outside, where the job says; else see [`Tank::emissivity`](super::Tank::emissivity).
    // What the tables of metals say is asked for when a plan is made: a gauge that makes none needs no tables.
    pub emissivity: Option<Ratio>,
    /// From one stitch to the next, waits not counted.
    pub moving: Time,
    /// Whether stitches are welded towards the ones before them.
    pub back_step: bool,
    /// Share of the arc's power that the metal takes up.
    pub uptake: Ratio,
    /// Least width of an opening that lets hand and torch in.
    pub opening: Length,
    /// How far they reach from there.
    pub reach: Length,
}

/// What the tank is in for.
#[derive(Clone, Debug, PartialEq)]
pub struct Service {
    /// How warm it gets; `None` where the job does not say.
    pub temperature: Option<Temperature>,
    /// The most that its cap holds back, over the air outside.
    pub pressure: Pressure,
    /// Along x, y and z, in standard gravities, either way, besides its weight.
    pub acceleration: [Ratio; 3],
    /// Whether it is anodised after welding.
    pub anodised: bool,
    /// Where it stands, from the outside corner.
    pub mounts: Vec<[Length; 3], MAX_MOUNTS>,
}

impl Welding {
    pub(crate) const EMPTY: Self = Self {
        interpass_max: None,
        ambient: Temperature::from_kelvins(0.0),
        emissivity: None,
        moving: seconds(0.0),
        back_step: false,
        uptake: Ratio::from_share(0.0),
        opening: Length::from_metres(0.0),
        reach: Length::from_metres(0.0),
    };
}

impl Service {
    pub(crate) const EMPTY: Self = Self {
        temperature: None,
        pressure: Pressure::from_pascals(0.0),
        acceleration: [Ratio::from_share(0.0); 3],
        anodised: false,
        mounts: Vec::new(),
    };
}

impl Welding {
    /// Takes in how a draft is welded.
    pub(super) fn take(
        &mut self,
        draft: &Draft,
        process: Process,
        look: &mut Inspection,
        assumed: &mut impl FnMut(Assumed),
    ) {
        let weld = &draft.weld;
        self.ambient = weld.ambient.unwrap_or_else(|| {
            assumed(Assumed::Ambient(celsius(20.0)));
            celsius(20.0)
        });
        look.hold(Field::Ambient, self.ambient, &bounds::AMBIENT);
        let least = Temperature::from_kelvins(self.ambient.si() + LEAST_OVER);
        let interpass = Bounds::of((least, INTERPASS_MOST), Value::Temperature);
        look.hold_some(Field::InterpassMax, weld.interpass_max, &interpass);
        self.interpass_max = weld.interpass_max;
        if weld.interpass_max.is_none() {
            assumed(Assumed::InterpassMax(interpass_limit(draft.stock.alloy)));
        }
        look.hold_some(Field::Emissivity, weld.emissivity, &bounds::EMISSIVITY);
        self.emissivity = weld.emissivity;
        if weld.emissivity.is_none() {
            assumed(Assumed::Emissivity(bright(draft.stock.alloy)));
        }
        self.moving = weld.moving.unwrap_or_else(|| {
            assumed(Assumed::Moving(seconds(10.0)));
            seconds(10.0)
        });
        look.hold(Field::Moving, self.moving, &bounds::MOVING);
        self.back_step = weld.back_step.unwrap_or(false);
        self.uptake = draft.arc.efficiency.unwrap_or_else(|| {
            let uptake = usual_uptake(process);
            assumed(Assumed::Uptake(uptake));
            uptake
        });
        // Without a baffle nothing is welded inside.
        let inside = !draft.baffles.is_empty();
        if inside && weld.opening.is_none() {
            assumed(Assumed::Opening(USUAL_OPENING));
        }
        if inside && weld.reach.is_none() {
            assumed(Assumed::Reach(USUAL_REACH));
        }
        self.opening = weld.opening.unwrap_or(USUAL_OPENING);
        look.hold(Field::Opening, self.opening, &bounds::OPENING);
        self.reach = weld.reach.unwrap_or(USUAL_REACH);
        look.hold(Field::Reach, self.reach, &bounds::ARM);
    }
}

pub(super) fn bright(alloy: Alloy) -> Sourced<Ratio> {
    let bright = alloy.metal().emissivity_bright();
    Sourced::new(Ratio::from_share(bright.value), bright.source)
}

impl Service {
    /// Whether it is shaken at all.
    #[must_use]
    pub fn is_shaken(&self) -> bool {
        self.acceleration.iter().any(|g| g.si() > 0.0)
    }

    /// Takes in what a draft says of it.
    pub(super) fn take(&mut self, draft: &Draft, look: &mut Inspection) {
        let service = &draft.service;
        look.hold_some(Field::UseTemperature, service.temperature, &bounds::SERVICE);
        self.temperature = service.temperature;
        self.pressure = service.pressure.unwrap_or_default();
        look.hold(Field::UsePressure, self.pressure, &bounds::PRESSURE);
        self.acceleration = service.acceleration.unwrap_or_default();
        look.hold_each(
            Field::Acceleration,
            &self.acceleration,
            &bounds::ACCELERATION,
        );
        self.anodised = service.anodised.unwrap_or(false);
        for (mount, number) in service.mounts.iter().zip(1_u8..) {
            look.hold_all(Field::Mount(number), mount, &bounds::MOUNT);
        }
        self.mounts.clear();
        // As many as the draft may have.
        let _ = self.mounts.extend_from_slice(&service.mounts);
    }
}
