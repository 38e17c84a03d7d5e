//! The dip of a tank set right by pours that were measured.

use core::hint::black_box;

use seamwright_core::capacity::{
    Calibrated, Lean, MOST_POURS, Pair, Pour, calibrate, calibrate_with_zero,
};
use seamwright_core::tank::Tank;
use seamwright_core::units::{Length, Volume};

/// Reaches both fits over one tank.
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
    let pours = black_box(
        [Pour {
            depth: Length::from_metres(0.1),
            measured: litre,
        }; MOST_POURS],
    );
    let pool = tank.pool(Lean::LEVEL);
    let model = |depth| pool.at(depth).ok().map(|level| level.volume);
    let most = black_box(Length::from_metres(0.02));
    let some = pours.get(..black_box(5)).unwrap_or_default();
    if let Ok(found) = calibrate_with_zero(&model, some, brim, most) {
        used(&found, None);
    }
}

fn used(found: &Calibrated, pair: Option<Pair>) {
    let calibration = black_box(found).calibration;
    let volume = black_box(Volume::from_cubic_metres(0.002));
    black_box(calibration.depth(black_box(Length::from_metres(0.1))));
    let _ = black_box(calibration.volume(volume));
    let _ = black_box(calibration.model(volume));
    black_box(pair.map(|pair| calibration.residual(pair)));
}
