//! The liquid at a depth and a lean.

use seamwright_core::capacity::{Lean, Level};
use seamwright_core::tank::Tank;
use seamwright_core::units::{AngleUnit, Ratio, RatioUnit};
use serde_json::{Value, json};

use super::Units;

fn share(tank: &Tank, level: &Level) -> Ratio {
    Ratio::from_share(level.volume.si() / tank.capacity().brim.si())
}

/// One sentence.
#[must_use]
pub fn text(tank: &Tank, lean: Lean, level: &Level, units: Units) -> String {
    let angle =
        |angle: seamwright_core::units::Angle| angle.display(AngleUnit::Degree, 1).to_string();
    let stands = if lean == Lean::LEVEL {
        "level".to_owned()
    } else {
        format!(
            "pitched {} and rolled {}",
            angle(lean.pitch()),
            angle(lean.roll())
        )
    };
    format!(
        "{} at {} deep, standing {stands}: {} of the {} to the brim.\n",
        units.volume(level.volume),
        units.length(level.depth),
        share(tank, level).display(RatioUnit::Percent, 1),
        units.volume(tank.capacity().brim),
    )
}

/// One object.
#[must_use]
pub fn json(tank: &Tank, level: &Level) -> Value {
    json!({
        "depth_m": level.depth.si(),
        "volume_m3": level.volume.si(),
        "brim_m3": tank.capacity().brim.si(),
        "fraction": share(tank, level).si(),
    })
}
