//! How the walls and seams of a tank bear their load.

use core::hint::black_box;

use seamwright_core::input::Face;
use seamwright_core::strength::Trial;
use seamwright_core::tank::Tank;
use seamwright_core::units::Pressure;

/// Reaches all of it for one tank.
pub(crate) fn prove(tank: &Tank) {
    let pressure = black_box(Pressure::from_pascals(20_000.0));
    let trials = [Trial::Use, Trial::Test(pressure)];
    for trial in trials.map(black_box) {
        for one in tank.bearings(trial) {
            let _ = black_box(one);
        }
        let _ = black_box(tank.bearing(black_box(Face::Baffle(0)), trial));
        let _ = black_box(tank.weakest(trial));
        if let Ok(joined) = tank.joined_walls(trial) {
            let _ = black_box(tank.bearing_by(black_box(Face::Top), &joined));
        }
        for seam in tank.seams() {
            let _ = black_box(tank.seam_bearing(&seam, trial));
        }
    }
    let _ = black_box(tank.weakest_wall());
    black_box(tank.as_welded());
}
