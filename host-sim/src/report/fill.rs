//! The liquid at a depth and a lean.

use seamwright_core::capacity::{Lean, Level};
use seamwright_core::tank::Tank;
use seamwright_core::units::{Angle, AngleUnit, RatioUnit};

use super::Units;
use super::model::Section;

/// One sentence.
#[must_use]
pub fn section(tank: &Tank, lean: Lean, level: &Level, units: Units) -> Section {
    let brim = tank.capacity().brim;
    let share = tank.capacity().share(level.volume);
    let angle = |angle: Angle| angle.display(AngleUnit::Degree, 1);
    let stands = if lean == Lean::LEVEL {
        "level".to_owned()
    } else {
        format!(
            "pitched {} and rolled {}",
            angle(lean.pitch()),
            angle(lean.roll())
        )
    };
    let mut section = Section::default();
    section.plain(format!(
        "{} at {} deep, standing {stands}: {} of the {} to the brim.",
        units.volume(level.volume),
        units.length(level.depth),
        share.display(RatioUnit::Percent, 1),
        units.volume(brim),
    ));
    section.put("depth_m", level.depth.si());
    section.put("volume_m3", level.volume.si());
    section.put("brim_m3", brim.si());
    section.put("fraction", share.si());
    section
}
