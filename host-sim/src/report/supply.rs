//! Rod, gas and time for the seams.

use std::fmt::Write as _;

use seamwright_core::supply::cost::ITEMS;
use seamwright_core::supply::cylinder::Cylinder;
use seamwright_core::supply::{AllUse, SeamUse};
use seamwright_core::tank::Tank;
use seamwright_core::units::refuse::Refused;
use seamwright_core::units::{
    Length, LengthUnit, Pressure, PressureUnit, Ratio, RatioUnit, Temperature, TemperatureUnit,
    Time, TimeUnit,
};
use serde_json::{Map, Value, json};

use super::Units;
use super::cost::{amounts, costs, time};
use super::kit::{Missing, chosen, uses};
use super::plan::facts;
use super::table::{Side, table, wrapped};
use crate::job_file::Extras;

/// Signs in a line.
const WIDE: usize = 100;
/// A cylinder as it is filled: common practice, no source.
const USUAL_PRESSURE: Pressure = Pressure::new(200.0, PressureUnit::Bar);

/// A cylinder is changed at this: common practice, no source.
const LEFT: Pressure = Pressure::new(10.0, PressureUnit::Bar);

pub(super) fn text(tank: &Tank, extras: &Extras, units: Units) -> String {
    match told(tank, extras, units) {
        Ok(text) => text,
        Err(missing) => format!("  {}\n", wrapped(&missing.text(), WIDE, 4)),
    }
}

fn told(tank: &Tank, extras: &Extras, units: Units) -> Result<String, Missing> {
    let chosen = chosen(tank, extras)?;
    let (by_seam, all) = uses(tank, &chosen.kit)?;
    let length = |length: Length| match units {
        Units::Metric => length.display(LengthUnit::Metre, 2).to_string(),
        Units::Us | Units::Imperial => length.display(LengthUnit::Foot, 1).to_string(),
    };
    let minutes = |time: Time| time.display(TimeUnit::Minute, 1).to_string();
    let rows: Vec<[String; 6]> = by_seam
        .iter()
        .map(|one| {
            [
                one.seam.mark.to_string(),
                match &one.bead {
                    Ok(bead) => units.section(bead.section()),
                    Err(_) => "not known".to_owned(),
                },
                length(one.melted),
                minutes(one.time.burning()),
                one.time.starts.to_string(),
                units.gas(one.gas.total()),
            ]
        })
        .collect();
    let heads = [
        ("seam", Side::Left),
        ("bead", Side::Right),
        ("rod", Side::Right),
        ("arc", Side::Right),
        ("starts", Side::Right),
        ("gas", Side::Right),
    ];
    let mut out = table(heads, &rows);
    let percent = |share: Ratio| share.display(RatioUnit::Percent, 0);
    let mut lines = vec![
        (
            "rod",
            format!(
                "{} of {}, {}; with {} of waste {} rods of {}, {}",
                length(all.melted),
                chosen.filler,
                units.thickness(chosen.diameter),
                percent(chosen.kit.waste),
                all.filler.rods,
                length(chosen.length),
                units.mass(all.filler.bought_mass)
            ),
        ),
        (
            "arc",
            format!(
                "{}, {} of it in tacks; {} starts",
                minutes(all.burning()),
                minutes(all.tacks),
                all.starts
            ),
        ),
        (
            "gas",
            format!(
                "{} at {}; {} of it before and after the arc, {} and {} each time",
                units.gas(all.gas.total()),
                units.flow(chosen.flow),
                percent(all.gas.idle_share()),
                chosen.flows[0].display(TimeUnit::Second, 1),
                chosen.flows[1].display(TimeUnit::Second, 1),
            ),
        ),
    ];
    if let Some(share) = of_cylinder(extras, &all)? {
        let one = match share {
            share if share > 1.0 => format!("{share:.1} cylinders: have more than one at hand"),
            share => format!("{:.0} % of a full one", 100.0 * share),
        };
        lines.push(("of the cylinder", format!("{one}; argon, down to 10 bar")));
    }
    out.push_str(&facts(&lines));
    if all.without_bead > 0 {
        let _ = writeln!(
            out,
            "  Rod of {} seams is missing in this: their beads cannot be reckoned.",
            all.without_bead
        );
    }
    let assumed: Vec<String> = chosen
        .assumed
        .iter()
        .map(|(key, source)| format!("{key}: {source}"))
        .collect();
    if !assumed.is_empty() {
        let line = format!("Not in [supply], so taken: {}.", assumed.join("; "));
        // Of the source of a default in millimetres only the source is told in inches.
        let line = match units {
            Units::Metric => line,
            Units::Us | Units::Imperial => {
                line.replace("50 mm of 1 m (from memory)", "(from memory)")
            }
        };
        let _ = writeln!(out, "  {}", wrapped(&line, WIDE, 4));
    }
    Ok(out)
}

/// How much of a cylinder the gas is, above its change-over pressure, at 15 °C.
fn of_cylinder(extras: &Extras, all: &AllUse) -> Result<Option<f64>, Refused> {
    let Some(water) = extras.supply.cylinder else {
        return Ok(None);
    };
    let gauge = extras.supply.cylinder_pressure.unwrap_or(USUAL_PRESSURE);
    let left = if LEFT < gauge {
        LEFT
    } else {
        Pressure::default()
    };
    let at = Temperature::new(15.0, TemperatureUnit::Celsius);
    let usable = Cylinder::new(water)?.usable(gauge, left, at)?;
    Ok(Some(all.gas.total().si() / usable.si()))
}

pub(super) fn json(tank: &Tank, extras: &Extras) -> Value {
    match object(tank, extras) {
        Ok(object) => Value::Object(object),
        Err(missing) => json!({ "missing": missing.text() }),
    }
}

fn object(tank: &Tank, extras: &Extras) -> Result<Map<String, Value>, Missing> {
    let chosen = chosen(tank, extras)?;
    let (by_seam, all) = uses(tank, &chosen.kit)?;
    let mut map = Map::new();
    let mut put = |key: &str, value: Value| map.insert(key.to_owned(), value);
    put("filler", json!(chosen.filler.name()));
    put("rod_diameter_m", json!(chosen.diameter.si()));
    put("rod_length_m", json!(chosen.length.si()));
    put("waste", json!(chosen.kit.waste.si()));
    put("gas_flow_m3_s", json!(chosen.flow.si()));
    put("pre_flow_s", json!(chosen.flows[0].si()));
    put("post_flow_s", json!(chosen.flows[1].si()));
    let assumed: Vec<Value> = chosen
        .assumed
        .iter()
        .map(|(key, source)| json!({ "key": format!("supply.{key}"), "source": source }))
        .collect();
    put("assumed", json!(assumed));
    let seams: Vec<Value> = by_seam.iter().map(seam_json).collect();
    put("seams", json!(seams));
    put(
        "totals",
        json!({
            "rod_m": all.melted.si(),
            "rod_with_waste_m": all.filler.melted.si(),
            "rod_with_waste_kg": all.filler.melted_mass.si(),
            "rods": all.filler.rods,
            "rods_kg": all.filler.bought_mass.si(),
            "gas_m3": all.gas.total().si(),
            "gas_idle_share": all.gas.idle_share().si(),
            "arc_s": all.burning().si(),
            "tack_arc_s": all.tacks.si(),
            "starts": all.starts,
            "seams_without_bead": all.without_bead,
        }),
    );
    if let Some(share) = of_cylinder(extras, &all)? {
        put("cylinder_share", json!(share));
    }
    let time = time(tank, extras, &all)?;
    let amounts = amounts(tank, extras, &all, &time);
    put(
        "amounts",
        json!({
            "sheet_kg": amounts.sheet.si(),
            "filler_kg": amounts.filler.si(),
            "gas_m3": amounts.gas.si(),
            "labour_s": amounts.labour.si(),
            "labour_arc_s": time.arc.si(),
            "labour_between_arcs_s": time.between.si(),
            "labour_other_s": extras.supply.other_time.unwrap_or_default().si(),
            "electricity_j": amounts.electricity.si(),
        }),
    );
    if let Some((costs, _, currency)) = costs(tank, extras)? {
        let mut items = Map::new();
        for (name, item) in ITEMS.into_iter().zip(costs.items) {
            if let Some(item) = item {
                items.insert(name.to_owned(), json!(item));
            }
        }
        put(
            "cost",
            json!({
                "currency": currency,
                "items": items,
                "total": costs.total(),
                "whole": costs.is_whole(),
            }),
        );
    }
    Ok(map)
}

fn seam_json(one: &SeamUse) -> Value {
    let mut map = json!({
        "seam": one.seam.mark.to_string(),
        "rod_m": one.melted.si(),
        "arc_s": one.time.arc.si(),
        "tack_arc_s": one.time.tacks.si(),
        "starts": one.time.starts,
        "gas_m3": one.gas.total().si(),
    });
    if let Some(map) = map.as_object_mut() {
        match &one.bead {
            Ok(bead) => {
                map.insert("section_m2".to_owned(), json!(bead.section().si()));
                map.insert("bead_m3".to_owned(), json!(bead.volume().si()));
            }
            Err(error) => {
                map.insert("without_bead".to_owned(), json!(error.to_string()));
            }
        }
    }
    map
}
