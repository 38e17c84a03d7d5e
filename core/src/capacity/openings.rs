//! How high the liquid can stand before it runs out of an opening.

use core::fmt;

use super::{Level, Pool};
use crate::geom::Vector;
use crate::units::{Length, Volume};

/// Up to where a tank fills at a lean.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
pub struct Marks {
    /// Place, in the list given, of the opening that lies lowest; the first of equals.
    pub lowest: usize,
    /// Where that opening lies, along up from the lowest inside point. Above the brim where it stands
    /// up on a neck, below zero where it lies under the whole tank.
    pub opening: Length,
    /// The liquid when it is about to run out: up to the opening, or to the brim where the opening is
    /// above that; nothing where the opening is below the tank.
    pub full: Level,
    /// The liquid if nothing ran out.
    pub brim: Level,
    /// Room above the opening, where gas stays shut in once liquid covers it.
    pub gas: Volume,
}

/// Why there is no mark.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum OpeningError {
    /// No opening was given.
    None,
    /// The opening at this place in the list has a coordinate that is not a finite number.
    NotFinite {
        /// Its place, counted from 0.
        index: usize,
    },
}

impl fmt::Display for OpeningError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::None => f.write_str("there is no opening: give one at least"),
            Self::NotFinite { index } => write!(
                f,
                "opening {} lies nowhere: its coordinates must be finite",
                index + 1
            ),
        }
    }
}

impl core::error::Error for OpeningError {}

pub(super) fn finite(point: Vector) -> bool {
    point.x.is_finite() && point.y.is_finite() && point.z.is_finite()
}

impl Pool<'_> {
    /// How high a point lies, along up from the lowest inside point; below zero under that.
    #[must_use]
    pub fn depth_of(&self, point: Vector) -> Length {
        Length::from_metres(self.up().dot(point) - self.height_of(Length::from_metres(0.0)))
    }

    /// The full mark and the brim mark at this lean, for openings (filler, vent, overflow: whatever is
    /// not shut) in metres in tank axes.
    ///
    /// The full mark is the level plane through the lowest of them. A wide opening runs over at its
    /// lowest edge: give the edge, not the middle. The liquid is taken to be one pool; a tank of several
    /// pockets that join only higher up needs the openings of each.
    ///
    /// # Errors
    /// [`OpeningError`] where there is no opening, or one is not finite.
    pub fn marks(&self, openings: &[Vector]) -> Result<Marks, OpeningError> {
        let mut found: Option<(usize, Length)> = None;
        for (index, point) in openings.iter().enumerate() {
            if !finite(*point) {
                return Err(OpeningError::NotFinite { index });
            }
            let depth = self.depth_of(*point);
            if found.is_none_or(|(_, least)| depth < least) {
                found = Some((index, depth));
            }
        }
        let (lowest, opening) = found.ok_or(OpeningError::None)?;
        let full = self.up_to(opening);
        let brim = self.up_to(self.full_depth());
        let gas = Volume::from_cubic_metres(brim.volume.si() - full.volume.si());
        Ok(Marks {
            lowest,
            opening,
            full,
            brim,
            gas,
        })
    }

    /// What lies below a finite height along up from the lowest inside point, which may be below or
    /// above the whole body: then that is nothing, or all.
    pub(super) fn up_to(&self, height: Length) -> Level {
        let full = self.full_depth();
        let depth = if !(height > Length::from_metres(0.0)) {
            Length::from_metres(0.0)
        } else if height > full {
            full
        } else {
            height
        };
        // Between empty and full, where `at` always answers.
        self.at(depth).unwrap_or(Level {
            depth,
            volume: Volume::from_cubic_metres(0.0),
            surface: crate::units::Area::from_square_metres(0.0),
        })
    }
}
