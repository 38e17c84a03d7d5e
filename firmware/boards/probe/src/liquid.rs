//! The rod and its chart, what is usable at the worst lean, what the liquid does when it warms, and the search for a
//! size that holds a volume.

use core::hint::black_box;

use seamwright_core::capacity::{Lean, Stick, round_step, solve_from};
use seamwright_core::geom::Vector;
use seamwright_core::input::{Draft, Shape};
use seamwright_core::tank::{Plumbing, Tank};
use seamwright_core::units::{Angle, Length, Volume};

/// Reaches all of it for one tank.
pub(crate) fn prove(tank: &Tank) {
    let angle = || black_box(Angle::from_radians(0.1));
    black_box((tank.worst_usable(), tank.pick_up_point()));
    reach(tank);
    let _ = black_box(tank.expansion());
    let _ = black_box(tank.liquid_density());
    black_box(round_step(black_box(0.3), black_box(20)));
    let at = || black_box(Length::from_metres(0.1));
    let _ = black_box(Stick::standing(
        tank.inside(),
        black_box(Vector::new(0.1, 0.1, 0.1)),
        black_box(Vector::new(0.0, 0.1, 1.0)),
    ));
    let _ = black_box(Stick::upright(tank.inside(), at(), at()));
    let Ok(lean) = Lean::new(angle(), angle()) else {
        return;
    };
    if let Some(Ok(rod)) = tank.dip_rod(lean) {
        let volume = black_box(Volume::from_cubic_metres(0.001));
        let _ = black_box((rod.volume(at()), rod.reading(volume)));
        black_box(rod.reading_at(at()));
        if let Ok(marks) = rod.every(at()) {
            marks.for_each(|mark| _ = black_box(mark));
        }
        if let Ok(marks) = rod.every_volume(volume) {
            marks.for_each(|mark| _ = black_box(mark));
        }
    }
    let openings = black_box([Vector::new(0.1, 0.1, 0.3); 4]);
    let some = openings.get(..black_box(3)).unwrap_or_default();
    let _ = black_box(tank.pool(lean).marks(some));
}

/// Reaches how the tank is parted, what reaches its pick-ups, and what is told of that.
fn reach(tank: &Tank) {
    let mut plumbing = Plumbing::default();
    let _ = plumbing.draws.push(black_box(1));
    let _ = plumbing.pipes.push(black_box([1, 2]));
    for plumbing in [Plumbing::default(), plumbing] {
        let Ok(reach) = tank.reach(&plumbing) else {
            continue;
        };
        black_box((reach.usable(), reach.worst(), reach.worst_shut_air()));
        reach.each_kept_level(|kept| _ = black_box(kept));
        reach.each_kept_leaning(Lean::LEVEL, |kept| _ = black_box(kept));
        tank.each_liquid_notice(&reach, |notice| _ = black_box(notice));
        let all = reach.compartments();
        black_box((all.doubt(), reach.drains_to(black_box(0))));
        for place in 0..all.count() {
            black_box(all.compartment(place));
            all.ways(place).for_each(|opening| _ = black_box(opening));
        }
    }
}

/// Reaches the search, every step of which builds a tank.
pub(crate) fn search(draft: &Draft) {
    let mut holds = |height: f64| {
        let mut tried = draft.clone();
        if let Shape::Block(block) = &mut tried.shape {
            block.height = Length::from_metres(height);
        }
        Tank::build(&tried).map(|tank| tank.capacity().brim.si())
    };
    let range = black_box((0.1, 0.5));
    let found = solve_from(black_box(0.3), range, black_box(0.004), &mut holds);
    let _ = black_box(found);
}
