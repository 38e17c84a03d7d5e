//! What the tank holds, standing level, and how deep it is then.

use seamwright_core::capacity::Outcome;
use seamwright_core::tank::Tank;
use seamwright_core::units::{
    AngleUnit, LengthUnit, RatioUnit, TemperatureUnit, Volume, VolumeUnit,
};
use serde_json::Value;

use super::Units;
use super::model::{Section, Seen, Table, left, right, said};

pub(crate) fn section(tank: &Tank, units: Units) -> Section {
    let mut section = Section::new("Capacity, standing level")
        .on_sheet("What it holds")
        .at(&["capacity"]);
    section.only(Seen::Report);
    measures(&mut section, tank, units);
    section.only(Seen::Sheet);
    beside_the_work(&mut section, tank);
    section.table(rod(tank));
    section
}

/// The dip chart by depth.
pub(super) fn dip(tank: &Tank, units: Units) -> Section {
    let levels: Vec<_> = tank.dip().collect();
    let rows = levels.iter().map(|level| {
        let depth = units.length(level.depth);
        [depth, units.volume(level.volume)].map(said)
    });
    let mut section =
        Section::new("Dip chart, depth from the lowest inside point").at(&["capacity"]);
    section.table(Table::new([right("depth"), right("holds")], rows).abreast(3));
    let pairs = levels
        .iter()
        .map(|level| Value::from([level.depth.si(), level.volume.si()]));
    section.put("dip", pairs.collect::<Vec<_>>());
    section
}

/// The three measures, each with its depth.
fn measures(section: &mut Section, tank: &Tank, units: Units) {
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
    let usable = format!("above a pick-up at {}", units.length(pick_up));
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
    if let Some(worst) = tank.worst_usable() {
        let lean = worst.least.lean;
        let told = format!(
            "{} at pitch {}, roll {}",
            litres(worst.least.usable),
            lean.pitch().display(AngleUnit::Degree, 1),
            lean.roll().display(AngleUnit::Degree, 1)
        );
        section.fact("usable at the worst lean", told);
    }
    if let Some(told) = growth(tank) {
        section.fact("when it warms", told);
    }
}

/// What the liquid does when it warms.
fn growth(tank: &Tank) -> Option<String> {
    let [_, hottest] = tank.job().temperatures()?;
    let at = hottest.display(TemperatureUnit::Celsius, 0);
    Some(match tank.expansion()? {
        Ok(expansion) => match expansion.outcome {
            Outcome::Fits(room) => format!(
                "grows to {} at {at}; {} stay free",
                litres(expansion.hot),
                litres(room)
            ),
            Outcome::Spills(spilt) => format!(
                "grows to {} at {at}; {} run over: a shut tank that is full bursts",
                litres(expansion.hot),
                litres(spilt)
            ),
        },
        Err(error) => error.to_string(),
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
