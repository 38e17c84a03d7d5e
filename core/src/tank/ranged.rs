//! Inputs held against their limits.

use super::{JobError, Problem};
use crate::input::Field;
use crate::units::range::{Value, within};
use crate::units::{Length, LengthUnit};

pub(super) const fn mm(value: f64) -> Length {
    Length::new(value, LengthUnit::Millimetre)
}

/// The least and the most that an input may be, both allowed, and how an error shows it.
#[derive(Clone, Copy, Debug)]
pub(super) struct Bounds<T> {
    pub(super) least: T,
    pub(super) most: T,
    pub(super) show: fn(T) -> Value,
}

impl<T: Copy> Bounds<T> {
    pub(super) const fn of((least, most): (T, T), show: fn(T) -> Value) -> Self {
        Self { least, most, show }
    }
}

/// A look at one input after another, of which the first at fault is told at the end.
///
/// Inputs are many, and a way out after each of them would be most of the code. What is worked out from an input at
/// fault is as wrong as that, and of no use once the fault is told.
#[derive(Debug, Default)]
pub(super) struct Inspection {
    fault: Option<JobError>,
}

impl Inspection {
    /// What is at fault first, if anything.
    pub(super) const fn outcome(self) -> Result<(), JobError> {
        match self.fault {
            None => Ok(()),
            Some(fault) => Err(fault),
        }
    }

    /// Finds fault with an input.
    // Out of line, as the next one: called from everywhere, and of one machine code for every quantity.
    #[inline(never)]
    pub(super) fn refuse(&mut self, field: Field, problem: Problem) {
        self.fault.get_or_insert(JobError { field, problem });
    }

    /// Holds an input against its limits; what is not a number keeps none.
    #[inline(never)]
    pub(super) fn hold<T: Copy + PartialOrd>(
        &mut self,
        field: Field,
        value: T,
        bounds: &Bounds<T>,
    ) {
        let Bounds { least, most, show } = *bounds;
        if let Err(error) = within(value, least, most, show) {
            self.refuse(field, Problem::OutOfRange(error));
        }
    }

    /// Holds an input that may be left out.
    pub(super) fn hold_some<T: Copy + PartialOrd>(
        &mut self,
        field: Field,
        value: Option<T>,
        bounds: &Bounds<T>,
    ) {
        if let Some(value) = value {
            self.hold(field, value, bounds);
        }
    }

    /// Holds an input of several values.
    #[inline(never)]
    pub(super) fn hold_all<T: Copy + PartialOrd>(
        &mut self,
        field: Field,
        values: &[T],
        bounds: &Bounds<T>,
    ) {
        for value in values {
            self.hold(field, *value, bounds);
        }
    }

    /// Holds values that have a number each, counted from 1.
    #[inline(never)]
    pub(super) fn hold_each<T: Copy + PartialOrd>(
        &mut self,
        field: fn(u8) -> Field,
        values: &[T],
        bounds: &Bounds<T>,
    ) {
        for (value, number) in values.iter().zip(1..) {
            self.hold(field(number), *value, bounds);
        }
    }
}
