//! What the tank holds, standing level, and how deep it is then.

use seamwright_core::capacity::{Lean, Outcome};
use seamwright_core::tank::{ShutAir, Tank};
use seamwright_core::units::{
    AngleUnit, Length, LengthUnit, RatioUnit, TemperatureUnit, Volume, VolumeUnit,
};
use serde_json::{Value, json};

use super::Units;
use super::drawn::Drawn;
use super::model::{Cell, Data, Section, Seen, Table, left, right, said};

pub(crate) fn section(tank: &Tank, drawn: Option<&Drawn<'_>>, units: Units) -> Section {
    let mut section = Section::new("Capacity, standing level")
        .on_sheet("What it holds")
        .at(&["capacity"]);
    section.only(Seen::Report);
    measures(&mut section, tank, drawn, units);
    in_use(&mut section, tank, drawn, |volume| units.volume(volume));
    section.only(Seen::Sheet);
    beside_the_work(&mut section, tank);
    in_use(&mut section, tank, drawn, litres);
    section.table(rod(tank));
    section
}

/// The dip chart: the one that the job chooses by a rod or by a volume, else by depth; programs are told both.
pub(super) fn dip(tank: &Tank, units: Units) -> Section {
    let levels: Vec<_> = tank.dip().collect();
    let (rod, volume) = (tank.job().dip_at(), tank.job().dip_volume());
    let chosen = rod.is_some() || volume.is_some();
    let rows = levels.iter().map(|level| {
        let depth = units.length(level.depth);
        [depth, units.volume(level.volume)].map(said)
    });
    let title = if chosen {
        "Dip chart"
    } else {
        "Dip chart, depth from the lowest inside point"
    };
    let mut section = Section::new(title).at(&["capacity"]);
    if chosen {
        let place = match rod {
            Some([x, y]) => format!(
                "rod at {} from the left and {} from the front",
                units.length(x),
                units.length(y)
            ),
            None => "depth from the lowest inside point".to_owned(),
        };
        let step = match volume {
            Some(step) => format!(", a mark each {}", units.volume(step)),
            None => String::new(),
        };
        section.line(format!("{place}{step}; standing level"));
        let marks = (0..tank.dip_count()).filter_map(|place| tank.dip_mark(place));
        let marks = marks
            .map(|(mark, _)| [units.length(mark.reading), units.volume(mark.volume)].map(said));
        section.table(Table::new([right("reading"), right("holds")], marks).abreast(3));
    } else {
        section.table(Table::new([right("depth"), right("holds")], rows).abreast(3));
    }
    let marks = (0..tank.dip_count()).filter_map(|place| tank.dip_mark(place));
    let marks: Value = marks
        .map(|(mark, _)| Value::from([mark.reading.si(), mark.volume.si()]))
        .collect();
    let mut chart = Data::from_iter([("marks".to_owned(), marks)]);
    if let Some(at) = rod {
        chart.insert("at_m".to_owned(), json!(at.map(Length::si)));
    }
    if let Some(step) = volume {
        chart.insert("step_m3".to_owned(), json!(step.si()));
    }
    section.put("chart", chart);
    let pairs = levels
        .iter()
        .map(|level| Value::from([level.depth.si(), level.volume.si()]));
    section.put("dip", pairs.collect::<Vec<_>>());
    section
}

/// The three measures, each with its depth.
fn measures(section: &mut Section, tank: &Tank, drawn: Option<&Drawn<'_>>, units: Units) {
    let (capacity, job) = (tank.capacity(), tank.job());
    let both = |key: &str, volume: Volume, depth: String| {
        let other = match units {
            Units::Metric => VolumeUnit::UsGallon,
            Units::Us | Units::Imperial => VolumeUnit::Litre,
        };
        let (own, other) = (units.volume(volume), volume.display(other, 2));
        said(format!("{own}  ({other}), {depth}")).data(key, volume.si())
    };
    let [full, fill, pick_up] = [capacity.full_depth, capacity.fill_depth, capacity.pick_up];
    let free = job.headspace().display(RatioUnit::Percent, 1);
    let brim = format!("{} deep", units.length(full));
    let brim = both("brim_m3", capacity.brim, brim);
    section.fact("brim", brim.data("full_depth_m", full.si()));
    let mark = format!("{} deep, {free} kept free above it", units.length(fill));
    let mark = both("fill_m3", capacity.fill, mark);
    section.fact("fill mark", mark.data("fill_depth_m", fill.si()));
    let mut kept = 0.0;
    if let Some(drawn) = drawn {
        drawn.reach.each_kept_level(|one| kept += one.pooled.si());
    }
    let held = Volume::from_cubic_metres(kept);
    let usable = match (tank.job().reaches(), drawn) {
        (Some(_), Some(_)) if held.si() > 0.0 => format!(
            "what reaches the pick-up; {} above its level do not",
            units.volume(held)
        ),
        (Some(_), _) => "what reaches the pick-up".to_owned(),
        (None, _) => format!("above a pick-up at {}", units.length(pick_up)),
    };
    let usable = both("usable_m3", capacity.usable, usable);
    section.fact("usable", usable.data("pick_up_m", pick_up.si()));
    if let Some((of, target)) = job.target() {
        let verdict = if capacity.meets(of, target) {
            "meets"
        } else {
            "short of"
        };
        let target = units.volume(target);
        section.fact("target", format!("{} {verdict} {target}", of.name()));
    }
}

fn litres(volume: Volume) -> String {
    format!(
        "{} ({})",
        volume.display(VolumeUnit::Litre, 3),
        volume.display(VolumeUnit::UsGallon, 2)
    )
}

/// The measures as the job sheet has them, leaning and warm too.
fn beside_the_work(section: &mut Section, tank: &Tank) {
    let capacity = tank.capacity();
    let deep = Units::Metric.length(capacity.fill_depth);
    section.fact("to the brim", litres(capacity.brim));
    section.fact(
        "to the fill mark",
        format!("{}, {deep} deep", litres(capacity.fill)),
    );
    section.fact("usable, standing level", litres(capacity.usable));
}

fn leaning(lean: Lean) -> String {
    format!(
        "at pitch {}, roll {}",
        lean.pitch().display(AngleUnit::Degree, 1),
        lean.roll().display(AngleUnit::Degree, 1)
    )
}

/// What the tank does as it leans and warms, volumes as `shown` writes them.
fn in_use(
    section: &mut Section,
    tank: &Tank,
    drawn: Option<&Drawn<'_>>,
    shown: impl Fn(Volume) -> String,
) {
    if let Some(worst) = drawn.and_then(|drawn| drawn.worst) {
        let least = worst.least;
        let told = format!("{} {}", shown(least.usable), leaning(least.lean));
        let data = json!({
            "usable_m3": least.usable.si(),
            "left_m3": least.dead.si(),
            "pitch_deg": least.lean.pitch().in_unit(AngleUnit::Degree),
            "roll_deg": least.lean.roll().in_unit(AngleUnit::Degree),
            "after_all_m3": worst.after_all.si(),
        });
        let told = said(told).data("worst_lean", data);
        section.fact("usable at the worst lean", told);
    }
    if let Some(drawn) = drawn {
        let level = drawn.reach.shut_air(Lean::LEVEL);
        let mut data = Data::new();
        for (key, shut) in [("level", level), ("worst_lean", drawn.air)] {
            if let Some(shut) = shut {
                data.insert(key.to_owned(), of_air(&shut));
            }
        }
        let most = drawn.air.or(level).filter(|shut| shut.air.si() > 1e-6);
        if let Some(shut) = most {
            let told = format!(
                "{} {}, most of it in compartment {}: filled so it takes {}",
                shown(shut.air),
                leaning(shut.lean),
                shut.compartment + 1,
                shown(shut.takes)
            );
            section.fact("air shut in", said(told).data("shut_air", data));
        } else if !data.is_empty() {
            section.put("shut_air", data);
        }
    }
    if let Some(told) = growth(tank, &shown) {
        section.fact("when it warms", told);
    }
    if let Some(liquid) = tank.job().liquid() {
        section.put(
            "liquid",
            json!({ "name": liquid.to_string(), "caution": liquid.caution() }),
        );
    }
}

fn of_air(shut: &ShutAir) -> Value {
    json!({
        "air_m3": shut.air.si(),
        "takes_m3": shut.takes.si(),
        "compartment": shut.compartment + 1,
        "pitch_deg": shut.lean.pitch().in_unit(AngleUnit::Degree),
        "roll_deg": shut.lean.roll().in_unit(AngleUnit::Degree),
    })
}

/// What the liquid does when it warms.
fn growth(tank: &Tank, shown: &impl Fn(Volume) -> String) -> Option<Cell> {
    let [_, hottest] = tank.job().temperatures()?;
    let at = hottest.display(TemperatureUnit::Celsius, 0);
    Some(match tank.expansion()? {
        Ok(expansion) => {
            let (key, rest, told) = match expansion.outcome {
                Outcome::Fits(room) => (
                    "free_m3",
                    room,
                    format!(
                        "grows to {} at {at}; {} stay free",
                        shown(expansion.hot),
                        shown(room)
                    ),
                ),
                Outcome::Spills(spilt) => (
                    "runs_over_m3",
                    spilt,
                    format!(
                        "grows to {} at {at}; {} run over: a shut tank that is full bursts",
                        shown(expansion.hot),
                        shown(spilt)
                    ),
                ),
            };
            let data = json!({
                "hottest_c": hottest.in_unit(TemperatureUnit::Celsius),
                "hot_m3": expansion.hot.si(),
                key: rest.si(),
            });
            said(told).data("growth", data)
        }
        Err(error) => said(error.to_string()),
    })
}

/// The marks of the dip rod.
fn rod(tank: &Tank) -> Table {
    let reading = match tank.job().dip_at() {
        Some(_) => "rod reads",
        None => "depth",
    };
    let marks = (0..tank.dip_count()).filter_map(|place| tank.dip_mark(place));
    let rows = marks.map(|(mark, _)| {
        let reading = mark.reading.display(LengthUnit::Millimetre, 1);
        [reading, mark.volume.display(VolumeUnit::Litre, 3)].map(said)
    });
    Table::new([left(reading), left("holds")], rows)
}
