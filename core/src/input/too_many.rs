//! More of a thing than a job may have.

use core::fmt;

use super::Field;

/// More of a thing than a job may have.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct TooMany {
    /// The first input that finds no room; for a text, the text.
    pub field: Field,
    /// How many there may be; for a text, how many bytes.
    pub most: usize,
}

impl fmt::Display for TooMany {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let Self { field, most } = self;
        match field {
            Field::Name => write!(f, "{field}: at most {most} bytes; shorten it"),
            _ => write!(f, "{field}: at most {most} of them; leave some out"),
        }
    }
}

impl core::error::Error for TooMany {}
