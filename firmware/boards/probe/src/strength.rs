//! How the walls and seams of a tank bear their load.

use core::hint::black_box;

use seamwright_core::input::Face;
use seamwright_core::strength::Trial;
use seamwright_core::strength::panel::{Metal, open_top};
use seamwright_core::tank::Tank;
use seamwright_core::units::{Length, Pressure};

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
        for seam in tank.seams() {
            let _ = black_box(tank.seam_bearing(&seam, trial));
        }
    }
    let _ = black_box(tank.takes());
    black_box(tank.as_welded());
    open(pressure);
}

/// A wall with a free top edge, which no job has yet.
fn open(pressure: Pressure) {
    let steel = Metal::new(
        black_box(Pressure::from_pascals(210e9)),
        black_box(0.3),
        black_box(Pressure::from_pascals(200e6)),
    );
    if let Ok(metal) = steel {
        let side = black_box(Length::from_metres(0.5));
        let sheet = black_box(Length::from_metres(0.003));
        let _ = black_box(open_top(side, side, sheet, metal, pressure, pressure));
    }
}
