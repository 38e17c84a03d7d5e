//! An input held against its limits.

use super::{JobError, Problem};
use crate::input::Field;
use crate::units::range::{OutOfRange, Value, within};
use crate::units::{Length, LengthUnit};

pub(super) const fn mm(value: f64) -> Length {
    Length::new(value, LengthUnit::Millimetre)
}

/// The value where it lies between the two limits, both allowed; else an error that names the input.
pub(crate) fn ranged<T: Copy + PartialOrd>(
    field: Field,
    value: T,
    (least, most): (T, T),
    show: fn(T) -> Value,
) -> Result<T, JobError> {
    within(value, least, most, show).map_err(|error: OutOfRange| JobError {
        field,
        problem: Problem::OutOfRange(error),
    })
}
