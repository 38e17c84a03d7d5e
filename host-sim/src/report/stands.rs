//! What the tank's mounts bear while its liquid runs, and whether it stays on them.

use seamwright_core::mass::{BalanceError, ForceCase, LoadCase, MountsEnvelope, Slosh, Tipping};
use seamwright_core::tank::Tank;
use seamwright_core::units::{AngleUnit, Force, Length, Ratio};
use serde_json::{Value, json};

use super::Units;
use super::model::{Section, Table, left, right, said};

/// What was found of the mounts, or why nothing was.
pub(crate) type Stands = Result<MountsEnvelope, BalanceError>;

/// Adds all of it to the section of the masses.
pub(super) fn add(section: &mut Section, tank: &Tank, stands: Option<&Stands>, units: Units) {
    section.put("mounts", Vec::<Value>::new());
    match stands {
        None => {}
        Some(Err(error)) => {
            section.flush(format!("mounts: {error}"));
            section.put("mounts_refused", error.to_string());
        }
        Some(Ok(envelope)) => {
            table(section, tank, envelope, units);
            extremes(section, envelope, units);
            if let Some(tipping) = envelope.tipping {
                tips(section, &tipping, units);
            }
            sloshes(section, &envelope.sloshes, units);
        }
    }
}

fn case(at: &LoadCase) -> Value {
    json!({
        "liquid_m3": at.liquid.si(),
        "pitch_deg": at.pitch.in_unit(AngleUnit::Degree),
        "roll_deg": at.roll.in_unit(AngleUnit::Degree),
        "acceleration_g": at.acceleration.map(Ratio::si),
    })
}

fn table(section: &mut Section, tank: &Tank, envelope: &MountsEnvelope, units: Units) {
    let alone = envelope.mounts.len() == 1;
    if alone {
        section.put("mount_moment_n_m", envelope.moment.si());
    }
    let columns = [
        left("mount"),
        left("at"),
        right("still"),
        right("least"),
        right("most"),
        right("shear"),
        right("any way"),
        right("slosh"),
    ];
    let bears = |key: &str, force: Force| said(units.force(force.si())).data(key, force.si());
    let when = |key: &str, one: &ForceCase| {
        bears(&format!("{key}_n"), one.force).data(&format!("{key}_at"), case(&one.at))
    };
    let rows = envelope.mounts.iter().zip(tank.mounts()).zip(1_u8..);
    let rows = rows.map(|((one, at), number)| {
        [
            said(number),
            said(at.map(|one| units.length(one)).join(", ")).data("at_m", at.map(Length::si)),
            bears("still_n", one.still),
            when("least", &one.least),
            when("most", &one.most),
            when("shear", &one.shear),
            when("any_way", &one.any_way),
            said(format!("± {}", units.force(one.slosh.si()))).data("slosh_n", one.slosh.si()),
        ]
    });
    section.table(Table::new(columns, rows).keyed("mounts"));
    section.flush(
        "still is full to the brim and level; the rest is the worst of every fill from none to the brim, every lean and every \
         acceleration of the job, the liquid's surface square to what it feels. Least and most are how hard a mount pushes, \
         square to the plane that the mounts lie in, shear is within that plane, and any way the largest force. A stiff tank on \
         an uneven base can rest on two or three mounts, and then one bears twice its share",
    );
    if !tank.job().baffles().is_empty() {
        section.flush(
            "one surface is taken through all compartments; where a baffle keeps them from filling alike, one full beside one \
             empty can be worse",
        );
    }
    if alone {
        section.flush(format!(
            "the one mount bears a moment of {} besides",
            units.moment(envelope.moment.si())
        ));
    }
}

fn extremes(section: &mut Section, envelope: &MountsEnvelope, units: Units) {
    for (name, found) in [("least", envelope.least()), ("most", envelope.most())] {
        if let Some((mount, one)) = found {
            let force = units.force(one.force.si());
            section.flush(format!("{name}: mount {mount}, {force}, {}", one.at));
        }
    }
}

fn tips(section: &mut Section, tipping: &Tipping, units: Units) {
    let [first, second] = tipping.over;
    let [holds, slosh] = [tipping.holds, tipping.slosh].map(|one| units.moment(one.si()));
    let (told, down) = if tipping.tips() {
        (
            "standing loose, it tips",
            "is what keeps it down (below zero: turns it over)",
        )
    } else {
        ("standing loose, it would tip first", "keep it down")
    };
    section.flush(format!(
        "{told} over the line through mounts {first} and {second}: {holds} {down}, {}; sloshing may take {slosh} of that \
         for a moment at most",
        tipping.at
    ));
    section.put(
        "tipping",
        json!({
            "over": tipping.over,
            "holds_n_m": tipping.holds.si(),
            "slosh_n_m": tipping.slosh.si(),
            "at": case(&tipping.at),
        }),
    );
}

fn sloshes(section: &mut Section, all: &[Slosh], units: Units) {
    if all.is_empty() {
        return;
    }
    for slosh in all {
        section.flush(format!(
            "sloshing along its {}, filled to its mark: at most {} swing, there and back in about {:.2} s, in cells up to {} long; \
             where the acceleration sets in at once they may add {} for a moment, and the middle of the liquid may swing {} from where \
             it rests",
            slosh.along.name(),
            units.mass(slosh.mass),
            slosh.period.si(),
            units.length(slosh.cell),
            units.force(slosh.force.si()),
            units.length(slosh.shift),
        ));
    }
    section.flush(
        "these and the column slosh are bounds, by twice what swings in an oscillator without damping (Housner 1957 for a box and a fifth for higher \
         modes, all of the liquid for any other shape); a baffle counts where at least half of its section is metal and nothing is open under or \
         over it. Not in them: a wave that strikes the roof, and shaking in time with the period",
    );
    let list: Vec<Value> = all.iter().map(told).collect();
    section.put("slosh", list);
}

fn told(slosh: &Slosh) -> Value {
    json!({
        "along": slosh.along.name(),
        "cells": slosh.cells,
        "cell_m": slosh.cell.si(),
        "period_s": slosh.period.si(),
        "mass_kg": slosh.mass.si(),
        "force_n": slosh.force.si(),
        "shift_m": slosh.shift.si(),
        "is_box": slosh.is_box,
    })
}
