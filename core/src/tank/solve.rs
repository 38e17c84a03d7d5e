//! The one dimension of a tank that makes it hold what is wanted.

use super::{JobError, Plumbing, Problem, Tank};
use crate::capacity::{SolveError, solve_from};
use crate::fitting::BaffleCut;
use crate::input::limits::SIZE;
use crate::input::{Cut, Draft, Field, Measure, Shape};
use crate::units::{Length, Volume};

/// A dimension of a shape that may change.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum Dimension {
    /// Of a block or a drum.
    Length,
    /// Of a block or a profile.
    Width,
    /// Of a block or a taper.
    Height,
    /// Of a drum.
    Diameter,
    /// A leg of a cut of a block, both counted from 0.
    Leg {
        /// The cut.
        cut: usize,
        /// Its leg.
        leg: usize,
    },
}

/// A dimension that was found.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SolvedDimension {
    /// Its value.
    pub value: Length,
    /// What it was before.
    pub was: Length,
    /// What the tank holds with it.
    pub holds: Volume,
}

impl Dimension {
    /// Where it stands in a shape; `None` where that has none.
    pub fn of(self, shape: &mut Shape) -> Option<&mut Length> {
        match (self, shape) {
            (Self::Length, Shape::Block(block)) => Some(&mut block.length),
            (Self::Width, Shape::Block(block)) => Some(&mut block.width),
            (Self::Height, Shape::Block(block)) => Some(&mut block.height),
            (Self::Width, Shape::Profile(profile)) => Some(&mut profile.width),
            (Self::Height, Shape::Taper(taper)) => Some(&mut taper.height),
            (Self::Length, Shape::Drum(drum)) => Some(&mut drum.length),
            (Self::Diameter, Shape::Drum(drum)) => Some(&mut drum.diameter),
            (Self::Leg { cut, leg }, Shape::Block(block)) => match block.cuts.get_mut(cut)? {
                Cut::Edge { legs, .. } => legs.get_mut(leg),
                Cut::Corner { legs, .. } => legs.get_mut(leg),
                Cut::Plane { .. } => None,
            },
            _ => None,
        }
    }
}

impl Tank {
    /// Changes one dimension of a draft, and this tank with it, so that the tank holds a volume by a measure; `None`
    /// where the draft's shape has no such dimension. Both are left as they were last tried.
    ///
    /// ```
    /// use seamwright_core::input::{Measure, Sized};
    /// use seamwright_core::prelude::*;
    /// use seamwright_core::tank::Dimension;
    ///
    /// let mm = |value| Length::new(value, LengthUnit::Millimetre);
    /// let mut inside = Block::new(mm(400.0), mm(250.0), mm(100.0));
    /// inside.sized = Sized::Inside;
    /// let mut draft = Draft::new("Header tank", inside, StockDraft::of(Alloy::A5754, mm(2.0)))?;
    /// let mut tank = Tank::build(&draft)?;
    /// // 400 mm by 250 mm hold a litre on each 10 mm.
    /// let twelve = Volume::new(12.0, VolumeUnit::Litre);
    /// let found = tank.solve(&mut draft, Dimension::Height, Measure::Brim, twelve).ok_or("no height")?;
    /// assert!((found.map_err(|_| "not met")?.value.si() - 0.120).abs() < 1e-9);
    /// # Ok::<(), Box<dyn core::error::Error>>(())
    /// ```
    ///
    /// # Errors
    /// [`SolveError`] says, in metres and cubic metres, what can be had and where, or what refuses.
    pub fn solve(
        &mut self,
        draft: &mut Draft,
        dimension: Dimension,
        measure: Measure,
        target: Volume,
    ) -> Option<Result<SolvedDimension, SolveError<JobError>>> {
        let plumbing = Plumbing::default();
        self.solve_cut((draft, &[], &plumbing), dimension, measure, target)
    }

    /// [`Tank::solve`] for a draft with baffles that are cut, as in [`Tank::build_cut`], and with more than its own pick-up,
    /// as in [`Tank::reach`]. What is usable is what reaches the pick-ups.
    ///
    /// # Errors
    /// [`SolveError`] says, in metres and cubic metres, what can be had and where, or what refuses.
    pub fn solve_cut(
        &mut self,
        (draft, cuts, plumbing): (&mut Draft, &[BaffleCut], &Plumbing),
        dimension: Dimension,
        measure: Measure,
        target: Volume,
    ) -> Option<Result<SolvedDimension, SolveError<JobError>>> {
        let was = *dimension.of(&mut draft.shape)?;
        // It was found for another size.
        draft.fill.reaches = None;
        let mut capacity = |metres: f64| -> Result<f64, JobError> {
            if let Some(slot) = dimension.of(&mut draft.shape) {
                *slot = Length::from_metres(metres);
            }
            self.rebuild_cut(draft, cuts)?;
            if measure != Measure::Usable {
                return Ok(self.capacity().of(measure).si());
            }
            let reach = self.reach(plumbing).map_err(|_| JobError {
                field: Field::PickUpAt,
                problem: Problem::OverNoLiquid,
            })?;
            Ok(reach.usable().si())
        };
        let (least, most) = SIZE;
        let range = (libm::fmin(least.si(), was.si()), most.si());
        let found = match solve_from(was.si(), range, target.si(), &mut capacity) {
            Ok(found) => found,
            Err(error) => return Some(Err(error)),
        };
        Some(match capacity(found) {
            Ok(holds) => Ok(SolvedDimension {
                value: Length::from_metres(found),
                was,
                holds: Volume::from_cubic_metres(holds),
            }),
            Err(error) => Err(SolveError::Gap { at: found, error }),
        })
    }
}
