//! What the fill page can change: the depth, and how the tank leans.

use seamwright_core::capacity::{Capacity, Lean, Pool};
use seamwright_core::tank::Tank;
use seamwright_core::units::{Angle, AngleUnit, Length, LengthUnit};

use crate::amount::Units;
use crate::buttons::Step;

/// Furthest that the gauge leans a tank either way, in degrees.
const MOST_LEAN: i8 = 45;
/// Degrees by which one press and one repeat change an angle.
const ANGLE_STEPS: (i8, i8) = (1, 5);
/// Depths nearer to one another than this, in metres, are one depth.
const SAME_DEPTH: f64 = 1e-6;
/// A depth this share of a step off the grid stands on it.
const ON_GRID: f64 = 1e-6;

/// What up and down change.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(super) enum Changing {
    /// The depth of the liquid.
    #[default]
    Depth,
    /// The right end goes up or down.
    Pitch,
    /// The back goes up or down.
    Roll,
}

/// Depth and lean as they stand on the fill page.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Filling {
    depth: Length,
    pitch: i8,
    roll: i8,
    changing: Changing,
}

impl Filling {
    /// Before a job is opened: all zeros.
    pub(super) const NEW: Self = Self {
        depth: Length::from_metres(0.0),
        pitch: 0,
        roll: 0,
        changing: Changing::Depth,
    };

    /// A level tank at its fill mark.
    pub(super) const fn at_fill_mark(capacity: &Capacity) -> Self {
        Self {
            depth: capacity.fill_depth,
            pitch: 0,
            roll: 0,
            changing: Changing::Depth,
        }
    }

    /// Depth along up from the lowest inside point.
    pub(super) const fn depth(&self) -> Length {
        self.depth
    }

    /// What up and down change.
    pub(super) const fn changing(&self) -> Changing {
        self.changing
    }

    /// How the tank stands.
    pub(super) fn lean(&self) -> Lean {
        let angle = |degrees: i8| Angle::new(f64::from(degrees), AngleUnit::Degree);
        // Both angles stay within MOST_LEAN, half of what a lean may be.
        Lean::new(angle(self.pitch), angle(self.roll)).unwrap_or(Lean::LEVEL)
    }

    /// The name of the mark at which the level stands, if it does. The fill mark and the pick-up are
    /// marks of a level tank.
    pub(super) fn mark(&self, tank: &Tank) -> Option<&'static str> {
        let at = |mark: Length| libm::fabs(mark.si() - self.depth.si()) < SAME_DEPTH;
        let capacity = tank.capacity();
        if at(tank.pool(self.lean()).full_depth()) {
            Some("Brim")
        } else if self.is_level() && at(capacity.fill_depth) {
            Some("Fill mark")
        } else if self.is_level() && capacity.pick_up.si() > 0.0 && at(capacity.pick_up) {
            Some("Pick-up")
        } else {
            None
        }
    }

    /// Whether the tank stands level.
    pub(super) const fn is_level(&self) -> bool {
        self.pitch == 0 && self.roll == 0
    }

    /// Turns to the next thing to change.
    pub(super) const fn next(&mut self) {
        self.changing = match self.changing {
            Changing::Depth => Changing::Pitch,
            Changing::Pitch => Changing::Roll,
            Changing::Roll => Changing::Depth,
        };
    }

    /// Changes what is being changed.
    pub(super) fn change(&mut self, step: Step, tank: &Tank, units: Units) {
        match self.changing {
            Changing::Depth => {
                let pool = tank.pool(self.lean());
                self.depth = next_depth(self.depth, step, &pool, self.marks(tank), units);
            }
            Changing::Pitch => self.pitch = next_angle(self.pitch, step),
            Changing::Roll => self.roll = next_angle(self.roll, step),
        }
        // Leaning can lower the brim to below the level; the rest has run out.
        let full = tank.pool(self.lean()).full_depth();
        if self.depth > full {
            self.depth = full;
        }
    }

    /// Depths, in metres, at which a step stops on its way.
    fn marks(&self, tank: &Tank) -> [f64; 2] {
        if self.is_level() {
            [
                tank.capacity().fill_depth.si(),
                tank.capacity().pick_up.si(),
            ]
        } else {
            [f64::NAN; 2]
        }
    }
}

/// The next angle on the grid of degrees or of five degrees.
fn next_angle(degrees: i8, step: Step) -> i8 {
    let grid = if step.coarse {
        ANGLE_STEPS.1
    } else {
        ANGLE_STEPS.0
    };
    let next = if step.up {
        (degrees.div_euclid(grid) + 1) * grid
    } else {
        -((-degrees).div_euclid(grid) + 1) * grid
    };
    next.clamp(-MOST_LEAN, MOST_LEAN)
}

/// The next depth on a grid of millimetres or sixteenths of an inch, or a mark on the way there.
fn next_depth(depth: Length, step: Step, pool: &Pool<'_>, marks: [f64; 2], units: Units) -> Length {
    let full = pool.full_depth().si();
    let grid = grid(full, step.coarse, units);
    let depth = depth.si();
    let next = if step.up {
        let on_grid = (libm::floor(depth / grid + ON_GRID) + 1.0) * grid;
        let ahead = marks.into_iter().filter(|mark| *mark > depth + SAME_DEPTH);
        libm::fmin(ahead.fold(on_grid, libm::fmin), full)
    } else {
        let on_grid = (libm::ceil(depth / grid - ON_GRID) - 1.0) * grid;
        let ahead = marks.into_iter().filter(|mark| *mark < depth - SAME_DEPTH);
        libm::fmax(ahead.fold(on_grid, libm::fmax), 0.0)
    };
    Length::from_metres(next)
}

/// One press moves by the finest step that is shown, a repeat by about a twentieth of the tank.
fn grid(full: f64, coarse: bool, units: Units) -> f64 {
    let (fine, steps): (f64, &[f64]) = match units {
        Units::Metric => (1.0, &[5.0, 10.0, 20.0, 50.0, 100.0, 200.0, 500.0, 1_000.0]),
        Units::Inch => (1.0 / 16.0, &[0.25, 0.5, 1.0, 2.0, 4.0, 8.0, 16.0, 32.0]),
    };
    let unit = match units {
        Units::Metric => LengthUnit::Millimetre,
        Units::Inch => LengthUnit::Inch,
    };
    let metres = |value: f64| Length::new(value, unit).si();
    if !coarse {
        return metres(fine);
    }
    let enough = steps.iter().find(|step| metres(**step) * 20.0 >= full);
    metres(enough.or(steps.last()).copied().unwrap_or(fine))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::bench::{box_job, mm};
    use std::vec::Vec;

    const fn step(up: bool, coarse: bool) -> Step {
        Step { up, coarse }
    }

    fn box_tank() -> Tank {
        Tank::build(&box_job("box")).unwrap()
    }

    /// Depths in millimetres that a row of like steps brings.
    fn depths(
        filling: &mut Filling,
        tank: &Tank,
        units: Units,
        step: Step,
        count: usize,
    ) -> Vec<f64> {
        (0..count)
            .map(|_| {
                filling.change(step, tank, units);
                filling.depth().in_unit(LengthUnit::Millimetre)
            })
            .collect()
    }

    fn near(found: &[f64], wanted: &[f64]) {
        assert_eq!(found.len(), wanted.len());
        for (a, b) in found.iter().zip(wanted) {
            assert!((a - b).abs() < 1e-9, "{found:?} not {wanted:?}");
        }
    }

    #[test]
    fn a_press_is_a_millimetre_and_a_repeat_a_larger_step() {
        let tank = box_tank();
        let mut filling = Filling::at_fill_mark(tank.capacity());
        // 95 % of a box 100 mm deep.
        assert_eq!(filling.mark(&tank), Some("Fill mark"));
        near(
            &depths(&mut filling, &tank, Units::Metric, step(false, false), 2),
            &[94.0, 93.0],
        );
        near(
            &depths(&mut filling, &tank, Units::Metric, step(false, true), 3),
            &[90.0, 85.0, 80.0],
        );
        assert_eq!(filling.mark(&tank), None);
    }

    #[test]
    fn steps_stop_at_the_marks_and_at_both_ends() {
        let tank = box_tank();
        let mut filling = Filling::at_fill_mark(tank.capacity());
        near(
            &depths(&mut filling, &tank, Units::Metric, step(true, true), 3),
            &[100.0; 3],
        );
        assert_eq!(filling.mark(&tank), Some("Brim"));
        near(
            &depths(&mut filling, &tank, Units::Metric, step(false, true), 3),
            &[95.0, 90.0, 85.0],
        );
        let down = depths(&mut filling, &tank, Units::Metric, step(false, true), 19);
        near(&down[14..], &[10.0, 7.3, 5.0, 0.0, 0.0]);
        near(
            &depths(&mut filling, &tank, Units::Metric, step(true, false), 9)[6..],
            &[7.0, 7.3, 8.0],
        );
    }

    #[test]
    fn inches_step_by_sixteenths() {
        let tank = box_tank();
        let mut filling = Filling::at_fill_mark(tank.capacity());
        // 95 mm is 3 47/64 in.
        let found = depths(&mut filling, &tank, Units::Inch, step(false, false), 2);
        near(
            &found,
            &[25.4 * (3.0 + 11.0 / 16.0), 25.4 * (3.0 + 10.0 / 16.0)],
        );
        let found = depths(&mut filling, &tank, Units::Inch, step(false, true), 2);
        near(&found, &[25.4 * 3.5, 25.4 * 3.25]);
    }

    #[test]
    fn what_a_lean_spills_is_gone() {
        let tank = box_tank();
        let mut filling = Filling::at_fill_mark(tank.capacity());
        filling.next();
        for _ in 0..60 {
            filling.change(step(true, true), &tank, Units::Metric);
        }
        // As far as the gauge leans a tank: a box 300 x 100 mm inside on its corner.
        let degrees = filling.lean().pitch().in_unit(AngleUnit::Degree);
        assert!((degrees - 45.0).abs() < 1e-9);
        // The level stays where it was, for the corner is deeper than the box was.
        assert_eq!(filling.mark(&tank), None);
        filling.next();
        filling.next();
        for _ in 0..200 {
            filling.change(step(true, true), &tank, Units::Metric);
        }
        let full = (300.0 + 100.0) / 2.0_f64.sqrt();
        near(&[filling.depth().in_unit(LengthUnit::Millimetre)], &[full]);
        // Set upright again, it cannot be fuller than full.
        filling.next();
        for _ in 0..60 {
            filling.change(step(false, false), &tank, Units::Metric);
        }
        filling.change(step(true, true), &tank, Units::Metric);
        while !filling.is_level() {
            filling.change(step(filling.pitch < 0, false), &tank, Units::Metric);
        }
        assert!(filling.depth() <= mm(100.0));
    }
}
