//! What a tank weighs, where it hangs, and what its mounts bear.

use core::hint::black_box;

use seamwright_core::geom::Vector;
use seamwright_core::mass::balance::{Balance, reactions};
use seamwright_core::tank::Tank;
use seamwright_core::units::{Area, Length, Volume};

/// Reaches all of it for one tank.
pub(crate) fn prove(tank: &Tank) {
    let empty = tank.empty_balance();
    let laden = tank.laden_balance(black_box(Volume::from_cubic_metres(0.004)));
    for mut balance in [empty, laden].into_iter().flatten() {
        let at = black_box(Vector::new(0.1, 0.2, 0.3));
        let _ = black_box(balance.sheet(
            black_box(Area::from_square_metres(0.1)),
            black_box(Length::from_metres(0.002)),
            black_box(2_700.0),
            at,
        ));
        black_box((balance.mass(), balance.centre()));
        bear(tank, &balance);
    }
    black_box(tank.mounts());
}

fn bear(tank: &Tank, balance: &Balance) {
    let _ = black_box(tank.mount_loads(balance));
    let mounts = black_box([Vector::new(0.1, 0.2, 0.3); 8]);
    let some = mounts.get(..black_box(4)).unwrap_or_default();
    if let Ok(reactions) = reactions(balance, black_box(Vector::new(1.0, 2.0, -9.0)), some) {
        let _ = black_box(reactions.all_bear());
    }
}
