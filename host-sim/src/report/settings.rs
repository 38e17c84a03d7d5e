//! Ranges of settings that are published for the job's sheet, and the job's own against them.

use std::fmt::Write as _;

use seamwright_core::tables::ranges;
use seamwright_core::tables::ranges::{Fit, Range, SeamKind};
use seamwright_core::tank::Tank;
use seamwright_core::units::flow::Flow;
use seamwright_core::units::{Current, CurrentUnit, Length, Speed};
use serde_json::{Map, Value, json};

use super::Units;
use super::cited::Cited;
use super::heat;
use super::table::{Side, table};
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

const fn fit_name(fit: Fit) -> &'static str {
    match fit {
        Fit::Below => "below",
        Fit::Within => "within",
        Fit::Above => "above",
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
struct Row {
    name: &'static str,
    key: &'static str,
    /// In SI.
    range: Option<Range<f64>>,
    /// In SI.
    own: Option<f64>,
    /// How a figure is shown.
    show: fn(f64, Units) -> String,
}

impl Row {
    /// Where the job's own value lies. Sizes bought in inches are a hair off the millimetres of a table.
    fn fit(&self) -> Option<Fit> {
        let (range, own) = (self.range?, self.own?);
        let slack = 0.01 * own.abs();
        let near = |end: f64| (own - end).abs() <= slack;
        if near(range.least) || near(range.most) {
            return Some(Fit::Within);
        }
        range.fit(own)
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

fn rows(tank: &Tank, extras: &Extras, group: &Group) -> Vec<Row> {
    let (arc, family) = (tank.arc(), tank.job().alloy().family());
    let (kind, t) = (group.kind, group.thickness);
    vec![
        Row {
            name: "current",
            key: "current_a",
            range: si(ranges::current(family, t, kind), |i| i.si()),
            own: Some(arc.current.si()),
            show: |value, _| {
                Current::from_amperes(value)
                    .display(CurrentUnit::Ampere, 0)
                    .to_string()
            },
        },
        Row {
            name: "travel",
            key: "travel_m_s",
            range: si(ranges::travel(family, t, kind), |v| v.si()),
            own: Some(arc.travel.si()),
            show: |value, units| units.speed(Speed::from_metres_per_second(value)),
        },
        Row {
            name: "tungsten, by sheet",
            key: "tungsten_m",
            range: si(ranges::tungsten(family, t), |d| d.si()),
            own: extras.tungsten.map(Length::si),
            show: fine,
        },
        Row {
            name: "tungsten, by current",
            key: "tungsten_for_current_m",
            range: si(ranges::electrode(arc.process, arc.current), |d| d.si()),
            own: extras.tungsten.map(Length::si),
            show: fine,
        },
        Row {
            name: "nozzle",
            key: "nozzle_m",
            range: si(ranges::nozzle(family, t), |d| d.si()),
            own: extras.nozzle.map(Length::si),
            show: fine,
        },
        Row {
            name: "rod",
            key: "rod_m",
            range: si(ranges::rod(family, t, kind), |d| d.si()),
            own: extras.supply.rod_diameter.map(Length::si),
            show: fine,
        },
        Row {
            name: "gas",
            key: "gas_m3_s",
            range: si(ranges::gas(family, t), |flow| flow.si()),
            own: extras.supply.gas_flow.map(Flow::si),
            show: |value, units| units.flow(Flow::from_si(value)),
        },
    ]
}

pub(super) fn text(tank: &Tank, extras: &Extras, units: Units, cited: &mut Cited) -> String {
    let mut out = String::new();
    for group in groups(tank) {
        let _ = writeln!(
            out,
            "  {} in {} sheet: {}",
            kind_name(group.kind),
            units.thickness(group.thickness),
            few(&group.seams)
        );
        let lines: Vec<[String; 5]> = rows(tank, extras, &group)
            .iter()
            .map(|row| {
                let show = |value: f64| (row.show)(value, units);
                let (range, sources) = match &row.range {
                    Some(range) => {
                        let marks: String = range
                            .sources
                            .iter()
                            .map(|one| cited.mark(one.name()))
                            .collect();
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
                [
                    row.name.to_owned(),
                    range,
                    row.own.map(show).unwrap_or_default(),
                    row.fit().map(fit_name).unwrap_or_default().to_owned(),
                    sources,
                ]
            })
            .collect();
        let heads = [
            ("", Side::Left),
            ("suggested", Side::Right),
            ("the job's", Side::Right),
            ("lies", Side::Left),
            ("sources", Side::Left),
        ];
        out.push_str(&table(heads, &lines));
    }
    if !out.is_empty() {
        out.push_str("  Where sheets differ the thinner one is meant. Sources disagree by up to a factor of two on thin\n  sheet; a qualified procedure comes before any of these.\n");
    }
    out
}

/// Marks of seams, or how many there are.
fn few(marks: &[String]) -> String {
    match marks.len() {
        0..=12 => marks.join(" "),
        many => format!("{many} seams"),
    }
}

pub(super) fn json(tank: &Tank, extras: &Extras) -> Value {
    let all: Vec<Value> = groups(tank)
        .iter()
        .map(|group| {
            let mut map = Map::new();
            map.insert("joint".to_owned(), json!(kind_name(group.kind)));
            map.insert("thickness_m".to_owned(), json!(group.thickness.si()));
            map.insert("seams".to_owned(), json!(group.seams));
            for row in rows(tank, extras, group) {
                let mut one = Map::new();
                if let Some(range) = &row.range {
                    let sources: Vec<&str> =
                        range.sources.iter().map(ranges::Source::name).collect();
                    one.insert("range".to_owned(), json!([range.least, range.most]));
                    one.insert("sources".to_owned(), json!(sources));
                }
                if let Some(own) = row.own {
                    one.insert("own".to_owned(), json!(own));
                }
                if let Some(fit) = row.fit() {
                    one.insert("fit".to_owned(), json!(fit_name(fit)));
                }
                map.insert(row.key.to_owned(), Value::Object(one));
            }
            Value::Object(map)
        })
        .collect();
    let mut object = json!({ "by_joint": all });
    if let Some(map) = object.as_object_mut() {
        map.extend(heat::json(tank, extras));
    }
    object
}

/// The rod that is usual for a seam of this sheet: the largest that is suggested.
pub(super) fn usual_rod(tank: &Tank) -> Option<Length> {
    let groups = groups(tank);
    let group = groups.first()?;
    let family = tank.job().alloy().family();
    Some(ranges::rod(family, group.thickness, group.kind)?.most)
}

/// The flow of gas in the middle of what is suggested.
pub(super) fn usual_flow(tank: &Tank) -> Option<Flow> {
    let job = tank.job();
    let range = ranges::gas(job.alloy().family(), job.thickness())?;
    Some(Flow::from_si(0.5 * (range.least.si() + range.most.si())))
}

#[cfg(test)]
mod tests {
    use seamwright_core::units::LengthUnit;

    use super::*;

    #[test]
    fn a_size_in_inches_lies_at_the_millimetres_it_is_called() {
        // 3/32 in is 2.381 mm, sold as 2.4 mm.
        let row = Row {
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
        assert_eq!(row.fit(), Some(Fit::Within));
        let thinner = Row {
            own: Some(0.0016),
            ..row
        };
        assert_eq!(thinner.fit(), Some(Fit::Below));
    }
}
