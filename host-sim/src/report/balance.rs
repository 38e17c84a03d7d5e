//! What the tank weighs, where it hangs, and what its mounts bear.

use seamwright_core::mass::MountLoads;
use seamwright_core::mass::balance::Balance;
use seamwright_core::tank::Tank;
use seamwright_core::units::{Force, Length, Volume};
use serde_json::Value;

use super::Units;
use super::model::{Cell, Row, Section, Table, left, right, said};

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

pub(super) fn section(tank: &Tank, units: Units) -> Section {
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
    section.put("mounts", Vec::<Value>::new());
    match tank.full_mount_loads() {
        None => section.flush(
            "the liquid has no density at its temperature, so that the tank is weighed empty only",
        ),
        Some(Err(error)) => {
            section.flush(format!("mounts: {error}"));
            section.put("mounts_refused", error.to_string());
        }
        Some(Ok(loads)) => mounts(&mut section, tank, &loads, units),
    }
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

fn mounts(section: &mut Section, tank: &Tank, loads: &MountLoads, units: Units) {
    let alone = loads.mounts.len() == 1;
    if alone {
        section.put("mount_moment_n_m", loads.moment.si());
    }
    if loads.mounts.is_empty() {
        return;
    }
    let columns = [
        left("mount"),
        left("at"),
        right("still"),
        right("least"),
        right("most"),
        right("any way"),
    ];
    let bears = |key: &str, force: Force| said(units.force(force.si())).data(key, force.si());
    let rows = loads.mounts.iter().zip(tank.mounts()).zip(1_u8..);
    let rows = rows.map(|((load, at), number)| {
        [
            said(number),
            said(at.map(|one| units.length(one)).join(", ")).data("at_m", at.map(Length::si)),
            bears("still_n", load.still),
            bears("least_n", load.least),
            bears("most_n", load.most),
            bears("any_way_n", load.force),
        ]
    });
    section.table(Table::new(columns, rows).keyed("mounts"));
    section.flush(
        "full to the brim; least and most are against its weight, and any way the largest force, at any lean \
         and acceleration of the job. A stiff tank on an uneven base can rest on two or three mounts, and then \
         one bears twice its share",
    );
    if alone {
        section.flush(format!(
            "the one mount bears a moment of {} besides",
            units.moment(loads.moment.si())
        ));
    }
    for lifted in loads.lifted() {
        section.flush(lifted.to_string());
    }
}
