//! Ranges of settings that are published for the job's sheet, and the job's own against them.

use seamwright_core::tables::ranges;
use seamwright_core::tables::ranges::{Range, RangeFit, SeamKind};
use seamwright_core::tank::Tank;
use seamwright_core::units::flow::Flow;
use seamwright_core::units::{Current, CurrentUnit, Length, Speed};
use serde_json::{Value, json};

use super::Units;
use super::cited::Cited;
use super::model::{Cell, Section, Table, left, right, said};
use crate::job_file::Extras;

/// Seams that settings do not tell apart.
struct Group {
    kind: SeamKind,
    /// The thinner sheet, which burns through first.
    thickness: Length,
    seams: Vec<String>,
}

const fn kind_name(kind: SeamKind) -> &'static str {
    match kind {
        SeamKind::Butt => "butt",
        SeamKind::Corner => "corner",
        SeamKind::Fillet => "fillet",
    }
}

const fn fit_name(fit: RangeFit) -> &'static str {
    match fit {
        RangeFit::Below => "below",
        RangeFit::Within => "within",
        RangeFit::Above => "above",
    }
}

fn groups(tank: &Tank) -> Vec<Group> {
    let mut all: Vec<Group> = Vec::new();
    for seam in tank.seams() {
        let Some(joint) = seam.joint else {
            continue;
        };
        let kind = SeamKind::of(joint);
        let mark = seam.mark.to_string();
        match all
            .iter_mut()
            .find(|group| group.kind == kind && group.thickness == seam.thinner)
        {
            Some(group) => group.seams.push(mark),
            None => all.push(Group {
                kind,
                thickness: seam.thinner,
                seams: vec![mark],
            }),
        }
    }
    all
}

/// One setting: its range in the unit that the row shows, and the job's own value.
struct Setting {
    name: &'static str,
    key: &'static str,
    /// In SI.
    range: Option<Range<f64>>,
    /// In SI.
    own: Option<f64>,
    /// How a figure is shown.
    show: fn(f64, Units) -> String,
}

impl Setting {
    const fn new(
        (name, key): (&'static str, &'static str),
        range: Option<Range<f64>>,
        own: Option<f64>,
        show: fn(f64, Units) -> String,
    ) -> Self {
        Self {
            name,
            key,
            range,
            own,
            show,
        }
    }

    /// Where the job's own value lies. Sizes bought in inches are a hair off the millimetres of a table.
    fn fit(&self) -> Option<RangeFit> {
        let (range, own) = (self.range?, self.own?);
        let slack = 0.01 * own.abs();
        let near = |end: f64| (own - end).abs() <= slack;
        if near(range.least) || near(range.most) {
            return Some(RangeFit::Within);
        }
        range.fit(own)
    }

    fn row(&self, units: Units, cited: &mut Cited) -> [Cell; 5] {
        let show = |value: f64| (self.show)(value, units);
        let (range, marks) = match &self.range {
            Some(range) => {
                let sources = range.sources.iter();
                let marks: String = sources.map(|one| cited.mark(one.name())).collect();
                let (least, most) = (show(range.least), show(range.most));
                let range = if least == most {
                    most
                } else {
                    format!("{least} to {most}")
                };
                (range, marks)
            }
            None => ("nothing published".to_owned(), String::new()),
        };
        let own = self.own.map(show).unwrap_or_default();
        let fit = self.fit().map(fit_name).unwrap_or_default();
        [self.name, &range, &own, fit, &marks].map(said)
    }

    fn data(&self) -> Value {
        let range = self.range.as_ref();
        let sources = |range: &Range<f64>| -> Value {
            range
                .sources
                .iter()
                .map(ranges::RangeSource::name)
                .collect()
        };
        let cell = Cell::default()
            .maybe("range", range.map(|range| [range.least, range.most]))
            .maybe("sources", range.map(sources))
            .maybe("own", self.own)
            .maybe("fit", self.fit().map(fit_name));
        cell.data.into()
    }
}

fn si<T>(range: Option<Range<T>>, of: impl Fn(&T) -> f64) -> Option<Range<f64>> {
    let range = range?;
    Some(Range {
        least: of(&range.least),
        most: of(&range.most),
        sources: range.sources,
    })
}

fn fine(value: f64, units: Units) -> String {
    units.thickness(Length::from_metres(value))
}

fn settings(tank: &Tank, extras: &Extras, group: &Group) -> Vec<Setting> {
    let (arc, family) = (tank.arc(), tank.job().alloy().family());
    let (kind, t) = (group.kind, group.thickness);
    let amperes = |value, _| {
        let current = Current::from_amperes(value);
        current.display(CurrentUnit::Ampere, 0).to_string()
    };
    let speed = |value, units: Units| units.speed(Speed::from_metres_per_second(value));
    let flow = |value, units: Units| units.flow(Flow::from_si(value));
    let size = |name, key, range: Option<Range<Length>>, own: Option<Length>| {
        let range = si(range, |size| size.si());
        Setting::new((name, key), range, own.map(Length::si), fine)
    };
    let current = si(ranges::current(family, t, kind), |i| i.si());
    let travel = si(ranges::travel(family, t, kind), |v| v.si());
    let gas = si(ranges::gas(family, t), |flow| flow.si());
    let own_gas = extras.supply.kit.gas_flow.map(Flow::si);
    let by_current = ranges::electrode(arc.process, arc.current);
    let tungsten = extras.tungsten;
    vec![
        Setting::new(
            ("current", "current_a"),
            current,
            Some(arc.current.si()),
            amperes,
        ),
        Setting::new(
            ("travel", "travel_m_s"),
            travel,
            Some(arc.travel.si()),
            speed,
        ),
        size(
            "tungsten, by sheet",
            "tungsten_m",
            ranges::tungsten(family, t),
            tungsten,
        ),
        size(
            "tungsten, by current",
            "tungsten_for_current_m",
            by_current,
            tungsten,
        ),
        size(
            "nozzle",
            "nozzle_m",
            ranges::nozzle(family, t),
            extras.nozzle,
        ),
        size(
            "rod",
            "rod_m",
            ranges::rod(family, t, kind),
            extras.supply.kit.rod_diameter,
        ),
        Setting::new(("gas", "gas_m3_s"), gas, own_gas, flow),
    ]
}

pub(super) fn section(tank: &Tank, extras: &Extras, units: Units, cited: &mut Cited) -> Section {
    let mut section = Section::new("Settings, to be tried on scrap").at(&["settings"]);
    let mut by_joint = Vec::new();
    for group in groups(tank) {
        let kind = kind_name(group.kind);
        section.unbroken(format!(
            "{kind} in {} sheet: {}",
            units.thickness(group.thickness),
            few(&group.seams)
        ));
        let settings = settings(tank, extras, &group);
        let columns = [
            left(""),
            right("suggested"),
            right("the job's"),
            left("lies"),
            left("sources"),
        ];
        let rows = settings.iter().map(|one| one.row(units, cited));
        section.table(Table::new(columns, rows));
        let mut object = json!({
            "joint": kind,
            "thickness_m": group.thickness.si(),
            "seams": group.seams,
        });
        if let Some(map) = object.as_object_mut() {
            map.extend(settings.iter().map(|one| (one.key.to_owned(), one.data())));
        }
        by_joint.push(object);
    }
    if !by_joint.is_empty() {
        section.flush("Where sheets differ the thinner one is meant. Sources disagree by up to a factor of two on thin sheet; a qualified procedure comes before any of these.");
    }
    section.put("by_joint", by_joint);
    section
}

/// Marks of seams, or how many there are.
fn few(marks: &[String]) -> String {
    match marks.len() {
        0..=12 => marks.join(" "),
        many => format!("{many} seams"),
    }
}

#[cfg(test)]
mod tests {
    use seamwright_core::units::LengthUnit;

    use super::*;

    #[test]
    fn a_size_in_inches_lies_at_the_millimetres_it_is_called() {
        // 3/32 in is 2.381 mm, sold as 2.4 mm.
        let row = Setting {
            name: "rod",
            key: "rod_m",
            range: ranges::rod(
                seamwright_core::tables::Family::Aluminium,
                Length::new(2.0, LengthUnit::Millimetre),
                SeamKind::Corner,
            )
            .map(|range| Range {
                least: 0.0024,
                most: 0.0024,
                sources: range.sources,
            }),
            own: Some(3.0 / 32.0 * 0.0254),
            show: fine,
        };
        assert_eq!(row.fit(), Some(RangeFit::Within));
        let thinner = Setting {
            own: Some(0.0016),
            ..row
        };
        assert_eq!(thinner.fit(), Some(RangeFit::Below));
    }
}
