//! What baffles and a body's own legs hold back from the pick-up, and where air stays shut in: by hand, and against a
//! flood of small cubes.

mod by_hand;
mod flooded;
mod voxels;

use seamwright_core::tank::{Plumbing, Tank};
use seamwright_tests::jobs;

fn tank(text: &str) -> Tank {
    jobs::tank(text)
}

/// What all compartments keep of the level tank, and what is usable, in litres.
fn level(tank: &Tank, plumbing: &Plumbing) -> (Vec<f64>, f64) {
    let reach = tank.reach(plumbing).unwrap();
    let mut kept = Vec::new();
    reach.each_kept_level(|one| kept.push(one.volume.si() * 1e3));
    (kept, reach.usable().si() * 1e3)
}
