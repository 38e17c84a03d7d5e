//! What the tank weighs and where it hangs; after it what its mounts bear.

use seamwright_core::mass::balance::Balance;
use seamwright_core::tank::Tank;
use seamwright_core::units::{Length, Volume};

use super::Units;
use super::model::{Cell, Row, Section, Table, left, right, said};
use super::stands::{self, Stands};

/// Empty, at the fill mark, full to the brim: by its name, its key and its balance.
fn states(tank: &Tank) -> [(&'static str, &'static str, Option<Balance>); 3] {
    let capacity = tank.capacity();
    let laden = |volume: Volume| tank.laden_balance(volume).ok();
    [
        ("empty", "empty", tank.empty_balance().ok()),
        ("at the fill mark", "fill", laden(capacity.fill)),
        ("full to the brim", "full", laden(capacity.brim)),
    ]
}

pub(super) fn section(tank: &Tank, stands: Option<&Stands>, units: Units) -> Section {
    let columns = [
        left(""),
        right("mass"),
        right("from left"),
        right("from front"),
        right("from below"),
    ];
    let rows = states(tank)
        .into_iter()
        .filter_map(|(name, key, balance)| Some(state(name, key, &balance?, units)));
    let mut section = Section::new("Mass and mounts").at(&["mass"]);
    section.table(Table::new(columns, rows));
    section.flush("sheet with its corners filled, and baffles; fittings count as the sheet that their holes take out");
    if tank.liquid_density().is_err() {
        section.flush(
            "the liquid has no density at its temperature, so that the tank is weighed empty only",
        );
    }
    stands::add(&mut section, tank, stands, units);
    section
}

fn state(name: &str, key: &str, balance: &Balance, units: Units) -> Row {
    let mass = (format!("{key}_kg"), balance.mass());
    let Some(centre) = balance.centre() else {
        return vec![Cell::default().data(&mass.0, mass.1.si())];
    };
    let at = [centre.x, centre.y, centre.z];
    let [x, y, z] = at.map(|at| said(units.length(Length::from_metres(at))));
    let name = said(name).data(&format!("{key}_centre_m"), at);
    vec![name, Cell::of(&mass.0, mass.1, units, Units::mass), x, y, z]
}
