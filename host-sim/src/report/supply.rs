//! Rod, gas and time for the seams, and what it all costs.

use std::fmt::Write as _;

use seamwright_core::heat::flow::Flow;
use seamwright_core::heat::refuse::Refused;
use seamwright_core::job::{AllUse, Kit, SeamUse, Tank, WASTE};
use seamwright_core::quantity::{
    Energy, Length, LengthUnit, Pressure, PressureUnit, Ratio, RatioUnit, Temperature,
    TemperatureUnit, Time, TimeUnit,
};
use seamwright_core::stock::Filler;
use seamwright_core::supply::cost::{Amounts, Costs, ITEMS};
use seamwright_core::supply::cylinder::Cylinder;
use seamwright_core::supply::filler::{DEPOSITION, Rod, RodDraft, STUB};
use seamwright_core::supply::gas::{Shield, USUAL_PRE_FLOW, usual_post_flow};
use seamwright_core::supply::time::{JobTime, Parts};
use serde_json::{Map, Value, json};

use super::Units;
use super::plan::facts;
use super::table::{Side, table, wrapped};
use super::{duty, settings};
use crate::diagnostics::clean;
use crate::job_file::Extras;

/// Signs in a line.
const WIDE: usize = 100;
/// A rod as it is sold: common practice, no source.
const USUAL_LENGTH: Length = Length::new(1.0, LengthUnit::Metre);
/// A cylinder as it is filled: common practice, no source.
const USUAL_PRESSURE: Pressure = Pressure::new(200.0, PressureUnit::Bar);
/// A cylinder is changed at this: common practice, no source.
const LEFT: Pressure = Pressure::new(10.0, PressureUnit::Bar);
/// Of the mains' energy in the arc: common practice for an inverter, no source.
const MAINS: f64 = 0.8;

/// What is welded with, and which of it the job does not say.
struct Chosen {
    filler: Filler,
    diameter: Length,
    length: Length,
    flow: Flow,
    flows: [Time; 2],
    kit: Kit,
    assumed: Vec<(&'static str, &'static str)>,
}

/// Why nothing can be told.
enum Missing {
    /// The key to give.
    Key(&'static str),
    Refused(Refused),
}

impl From<Refused> for Missing {
    fn from(refused: Refused) -> Self {
        Self::Refused(refused)
    }
}

impl Missing {
    fn text(&self) -> String {
        match self {
            Self::Key(key) => {
                format!("not known: give {key}, for which nothing is published for this sheet")
            }
            Self::Refused(refused) => format!("not known: {refused}"),
        }
    }
}

fn chosen(tank: &Tank, extras: &Extras) -> Result<Chosen, Missing> {
    let supply = &extras.supply;
    let mut assumed = Vec::new();
    let mut note = |key, source| assumed.push((key, source));
    let best = || {
        let all = tank.fillers().ok()?;
        all.iter()
            .find_map(|verdict| verdict.filler.filter(|_| !verdict.ruled_out()))
    };
    let filler = match supply.filler {
        Some(filler) => filler,
        None => {
            note("filler", "the best of those judged");
            best().ok_or(Missing::Key("supply.filler"))?
        }
    };
    let diameter = match supply.rod_diameter {
        Some(diameter) => diameter,
        None => {
            note("rod_diameter", "the largest that is suggested");
            settings::usual_rod(tank).ok_or(Missing::Key("supply.rod_diameter"))?
        }
    };
    let length = supply.rod_length.unwrap_or_else(|| {
        note("rod_length", "common practice, no source");
        USUAL_LENGTH
    });
    let stub = supply.stub.unwrap_or_else(|| {
        note(
            "stub",
            "50 mm of 1 m (from memory), at most half of the rod",
        );
        if STUB.si() > 0.5 * length.si() {
            Length::from_metres(0.5 * length.si())
        } else {
            STUB
        }
    });
    let waste = supply.waste.unwrap_or_else(|| {
        note("waste", "common practice, no source");
        WASTE
    });
    let flow = match supply.gas_flow {
        Some(flow) => flow,
        None => {
            note("gas_flow", "the middle of what is suggested");
            settings::usual_flow(tank).ok_or(Missing::Key("supply.gas_flow"))?
        }
    };
    let pre = supply.pre_flow.unwrap_or_else(|| {
        note("pre_flow", "common practice, no source");
        USUAL_PRE_FLOW
    });
    let post = supply.post_flow.unwrap_or_else(|| {
        note(
            "post_flow",
            "a second for each 10 A, at least 8 s: common practice, no source",
        );
        usual_post_flow(tank.arc().current)
    });
    let rod = Rod::new(&RodDraft {
        diameter,
        length,
        stub,
        density: filler.density().value,
        deposition: DEPOSITION,
    })?;
    let shield = Shield::new(flow, pre, post)?;
    Ok(Chosen {
        filler,
        diameter,
        length,
        flow,
        flows: [pre, post],
        kit: Kit { rod, waste, shield },
        assumed,
    })
}

fn uses(tank: &Tank, kit: &Kit) -> Result<(Vec<SeamUse>, AllUse), Refused> {
    let by_seam = tank.supplies(kit).collect::<Result<Vec<_>, _>>()?;
    Ok((by_seam, tank.supply_in_all(kit)?))
}

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

/// The job's time as far as it is known here: waits for the metal to cool are not in it.
fn time(tank: &Tank, extras: &Extras, all: &AllUse) -> Result<JobTime, Refused> {
    let moves = tank.job().welding().moving.si() * f64::from(all.starts);
    let rest = duty::run(tank, extras).map_or(0.0, |run| run.rest.si());
    Parts {
        arc: all.burning(),
        wait: Time::default(),
        moves: Time::from_seconds(moves),
        rest: Time::from_seconds(rest),
        other: extras.supply.other_time.unwrap_or_default(),
    }
    .job()
}

fn amounts(tank: &Tank, all: &AllUse, time: &JobTime) -> Amounts {
    let arc = tank.arc().power() * all.burning().si();
    Amounts {
        sheet: tank.totals().mass,
        filler: all.filler.bought_mass,
        gas: all.gas.total(),
        labour: time.total,
        electricity: Energy::from_joules(arc / MAINS),
    }
}

/// Costs, the job's time and the currency; `None` without prices.
fn costs(tank: &Tank, extras: &Extras) -> Result<Option<(Costs, JobTime, String)>, Missing> {
    let Some((currency, prices)) = &extras.supply.prices else {
        return Ok(None);
    };
    let chosen = chosen(tank, extras)?;
    let (_, all) = uses(tank, &chosen.kit)?;
    let time = time(tank, extras, &all)?;
    let costs = Costs::of(&amounts(tank, &all, &time), prices)?;
    Ok(Some((costs, time, clean(currency).into_owned())))
}

pub(super) fn cost_text(tank: &Tank, extras: &Extras) -> String {
    let (costs, time, currency) = match costs(tank, extras) {
        Ok(Some(known)) => known,
        Ok(None) => return String::new(),
        Err(missing) => return format!("  {}\n", wrapped(&missing.text(), WIDE, 4)),
    };
    let money = |value: f64| format!("{value:.2} {currency}");
    let mut rows: Vec<(&str, String)> = ITEMS
        .into_iter()
        .zip(costs.items)
        .map(|(name, item)| {
            (
                name,
                item.map_or_else(|| "no price given".to_owned(), money),
            )
        })
        .collect();
    let whole = if costs.is_whole() {
        ""
    } else {
        ", of what has a price"
    };
    rows.push(("in all", format!("{}{whole}", money(costs.total()))));
    let line = format!(
        "Sheet is that of the blanks, offcuts not counted; labour is {}: arc, moves, rests and other_time, waits for the metal to cool not counted; of the mains' energy {:.0} % is taken to reach the arc (common practice, no source).",
        time.total.display(TimeUnit::Hour, 2),
        100.0 * MAINS
    );
    format!("{}  {}\n", facts(&rows), wrapped(&line, WIDE, 4))
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
    let amounts = amounts(tank, &all, &time);
    put(
        "amounts",
        json!({
            "sheet_kg": amounts.sheet.si(),
            "filler_kg": amounts.filler.si(),
            "gas_m3": amounts.gas.si(),
            "labour_s": amounts.labour.si(),
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
