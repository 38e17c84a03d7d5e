//! Rod, gas and time for the seams.

use seamwright_core::gmaw::ShieldGas;
use seamwright_core::supply::cylinder::Cylinder;
use seamwright_core::supply::filler::deposition;
use seamwright_core::supply::{AllUse, KitAssumed, KitChoice, SeamUse, Sold};
use seamwright_core::tables::Process;
use seamwright_core::tables::ranges::RangeSource;
use seamwright_core::units::range::RangeError;
use seamwright_core::units::{Length, LengthUnit, Ratio, RatioUnit, Time, TimeUnit};
use serde_json::{Value, json};

use super::kit::{Missing, Taken, taken};
use super::model::{Cell, Row, Section, Table, left, right, said, word};
use super::processed::Processed;
use super::{Asked, Units, cost};
use crate::job_file::Extras;

/// Supplies and what the job costs. Programs are told either all of it or what is missing.
pub(super) fn sections(asked: &Asked<'_>, processed: &Processed, units: Units) -> Vec<Section> {
    let taken = taken(asked.tank, asked.extras);
    let taken = taken.as_ref().map_err(Missing::clone);
    let made = taken
        .clone()
        .and_then(|taken| supplies(asked, processed, taken, units));
    let bill = taken.and_then(|taken| cost::bill(asked, processed, taken));
    let why = made.as_ref().err().or(bill.as_ref().err());
    let why = why.map(|missing| Value::from(missing.text()));
    let supplies = made.unwrap_or_else(|missing| {
        let mut section = Section::new("Supplies");
        section.line(missing.text());
        section
    });
    let mut all = vec![supplies, cost::section(asked, bill)];
    if let Some(why) = why {
        let mut lack = Section::default();
        lack.put("missing", why);
        for section in &mut all {
            section.words_only = true;
        }
        all.push(lack);
    }
    all.into_iter().map(|one| one.at(&["supply"])).collect()
}

fn supplies(
    asked: &Asked<'_>,
    processed: &Processed,
    taken: &Taken,
    units: Units,
) -> Result<Section, Missing> {
    let (extras, process) = (asked.extras, asked.tank.arc().process);
    let wired = process.feeds_wire();
    let Taken {
        chosen,
        by_seam,
        all,
    } = taken;
    let columns = [
        left("seam"),
        right("bead"),
        right(if wired { "wire" } else { "rod" }),
        right("arc"),
        right("starts"),
        right("gas"),
    ];
    let rows = by_seam.iter().map(|one| row(one, wired, units));
    let mut section = Section::new("Supplies");
    section.table(Table::new(columns, rows).keyed("seams"));
    totals(&mut section, (process, chosen), all, units);
    let argon = gas_is_argon(processed);
    if !argon && extras.supply.cylinder.is_some() {
        section.fact(
            "of the cylinder",
            "not known: what a cylinder of mixed gas or carbon dioxide gives stands on its label",
        );
    } else if let Some(share) = of_cylinder(extras, all)? {
        let one = match share {
            share if share > 1.0 => format!("{share:.1} cylinders: have more than one at hand"),
            share => format!("{:.0} % of a full one", 100.0 * share),
        };
        let told = said(format!("{one}; argon, down to 10 bar"));
        section.fact("of the cylinder", told.data("cylinder_share", share));
    }
    if all.without_bead > 0 {
        section.unbroken(format!(
            "{} of {} seams is missing in this: their beads cannot be reckoned.",
            if wired { "Wire" } else { "Rod" },
            all.without_bead
        ));
    }
    let assumed: Vec<String> = chosen
        .assumed
        .iter()
        .map(|one| format!("{}: {}", one.key(), one.source()))
        .collect();
    if !assumed.is_empty() {
        let place = if wired { "the job" } else { "[supply]" };
        let line = format!("Not in {place}, so taken: {}.", assumed.join("; "));
        // Of the source of a default in millimetres only the source is told in inches.
        section.line(match units {
            Units::Metric => line,
            Units::Us | Units::Imperial => {
                line.replace("50 mm of 1 m (from memory)", "(from memory)")
            }
        });
    }
    section.put(
        "assumed",
        chosen.assumed.iter().map(unsaid).collect::<Value>(),
    );
    section.put("filler", chosen.filler.name());
    Ok(section)
}

/// A figure that the job does not say, with the tables behind it.
fn unsaid(one: &KitAssumed) -> Value {
    let key = match one.key() {
        path if path.contains('.') => path.to_owned(),
        key => format!("supply.{key}"),
    };
    let mut told = json!({ "key": key, "source": one.source() });
    if let (Some(sources), Some(map)) = (one.sources(), told.as_object_mut()) {
        let names: Vec<&str> = sources.iter().map(RangeSource::name).collect();
        map.insert("tables".to_owned(), json!(names));
    }
    told
}

/// Rod by the metre or the foot.
fn long(length: Length, units: Units) -> String {
    match units {
        Units::Metric => length.display(LengthUnit::Metre, 2).to_string(),
        Units::Us | Units::Imperial => length.display(LengthUnit::Foot, 1).to_string(),
    }
}

fn minutes(time: Time) -> String {
    time.display(TimeUnit::Minute, 1).to_string()
}

fn row(one: &SeamUse, wired: bool, units: Units) -> Row {
    let filler = if wired { "wire_m" } else { "rod_m" };
    let bead = match &one.bead {
        Ok(bead) => Cell::of("section_m2", bead.section(), units, Units::section)
            .data("bead_m3", bead.volume().si()),
        Err(error) => said("not known").data("without_bead", error.to_string()),
    };
    vec![
        word("seam", one.seam.mark),
        bead,
        Cell::of(filler, one.melted, units, |units, rod| long(rod, units)),
        said(minutes(one.time.burning()))
            .data("arc_s", one.time.arc.si())
            .data("tack_arc_s", one.time.tacks.si()),
        said(one.time.starts).data("starts", one.time.starts),
        Cell::of("gas_m3", one.gas.total(), units, Units::gas),
    ]
}

fn totals(
    section: &mut Section,
    (process, chosen): (Process, &KitChoice),
    all: &AllUse,
    units: Units,
) {
    let percent = |share: Ratio| share.display(RatioUnit::Percent, 0);
    let waste = percent(chosen.kit.waste);
    let melted = format!(
        "{} of {}, {}",
        long(all.melted, units),
        chosen.filler,
        units.thickness(chosen.diameter)
    );
    let arc = format!(
        "{}, {} of it in tacks; {} starts",
        minutes(all.burning()),
        minutes(all.tacks),
        all.starts
    );
    let [pre, post] = chosen.flows;
    let gas = format!(
        "{} at {}; {} of it before and after the arc, {} and {} each time",
        units.gas(all.gas.total()),
        units.flow(chosen.flow),
        percent(all.gas.idle_share()),
        pre.display(TimeUnit::Second, 1),
        post.display(TimeUnit::Second, 1),
    );
    let (name, filler) = match chosen.sold {
        Sold::Rods(length) => {
            let rod = format!(
                "{melted}; with {waste} of waste {} rods of {}, {}",
                all.filler.rods,
                long(length, units),
                units.mass(all.filler.bought_mass)
            );
            let rod = said(rod)
                .data("rod_m", all.melted.si())
                .data("rod_with_waste_m", all.filler.melted.si())
                .data("rod_with_waste_kg", all.filler.melted_mass.si())
                .data("rods", all.filler.rods)
                .data("rods_kg", all.filler.bought_mass.si())
                .data("seams_without_bead", all.without_bead)
                .under("totals")
                .data("rod_diameter_m", chosen.diameter.si())
                .data("rod_length_m", length.si());
            ("rod", rod)
        }
        Sold::Spools(mass) => {
            let kept = deposition(process);
            let wire = format!(
                "{melted}; with {waste} of waste {}, of {} of {}; {} of the wire ends in the seam (trade articles on the cost of weld metal)",
                units.mass(all.filler.melted_mass),
                match all.filler.rods {
                    1 => "one spool".to_owned(),
                    many => format!("{many} spools"),
                },
                units.mass(mass),
                percent(kept)
            );
            let wire = said(wire)
                .data("wire_m", all.melted.si())
                .data("wire_with_waste_m", all.filler.melted.si())
                .data("wire_with_waste_kg", all.filler.melted_mass.si())
                .data("spools", all.filler.rods)
                .data("seams_without_bead", all.without_bead)
                .under("totals")
                .data("wire_diameter_m", chosen.diameter.si())
                .data("spool_kg", mass.si())
                .data("deposition", kept.si());
            ("wire", wire)
        }
    };
    let filler = filler.data("waste", chosen.kit.waste.si());
    let arc = said(arc)
        .data("arc_s", all.burning().si())
        .data("tack_arc_s", all.tacks.si())
        .data("starts", all.starts)
        .under("totals");
    let gas = said(gas)
        .data("gas_m3", all.gas.total().si())
        .data("gas_idle_share", all.gas.idle_share().si())
        .under("totals")
        .data("gas_flow_m3_s", chosen.flow.si())
        .data("pre_flow_s", pre.si())
        .data("post_flow_s", post.si());
    section.fact(name, filler);
    section.fact("arc", arc);
    section.fact("gas", gas);
}

/// Whether the shielding gas is argon alone, of which it is known what a cylinder gives.
fn gas_is_argon(processed: &Processed) -> bool {
    match &processed.wire {
        Some(Ok(wire)) => wire.gas == ShieldGas::I1,
        Some(Err(_)) => false,
        None => true,
    }
}

/// How much of a cylinder the gas is; `None` where the job names no cylinder.
fn of_cylinder(extras: &Extras, all: &AllUse) -> Result<Option<f64>, RangeError> {
    let Some(water) = extras.supply.cylinder else {
        return Ok(None);
    };
    let gauge = extras.supply.cylinder_pressure;
    let share = Cylinder::new(water)?.share_of(all.gas.total(), gauge)?;
    Ok(Some(share.si()))
}
