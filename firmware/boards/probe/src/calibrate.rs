//! The dip of a tank set right by pours that were measured.

use core::hint::black_box;

use seamwright_core::capacity::{Calibrated, MOST_POURS, Pair, calibrate};
use seamwright_core::tank::Tank;
use seamwright_core::units::Volume;

/// Reaches the fit over one tank.
pub(crate) fn prove(tank: &Tank) {
    let litre = Volume::from_cubic_metres(0.001);
    let brim = tank.inside().volume();
    let pairs = black_box(
        [Pair {
            model: litre,
            measured: litre,
        }; MOST_POURS],
    );
    if let Ok(found) = calibrate(pairs.get(..black_box(5)).unwrap_or_default(), brim) {
        used(&found, pairs.first().copied());
    }
}

fn used(found: &Calibrated, pair: Option<Pair>) {
    let calibration = black_box(found).calibration;
    let volume = black_box(Volume::from_cubic_metres(0.002));
    let _ = black_box(calibration.volume(volume));
    let _ = black_box(calibration.model(volume));
    black_box(pair.map(|pair| calibration.residual(pair)));
}
