//! Ranges of settings that are published for the job's sheet, and the job's own against them.

use seamwright_core::tables::ranges::{Apart, RangeFit, RangeSource, SeamKind, Sources};
use seamwright_core::tank::{ElectrodeSettings, OwnSettings, SeamSettings, Suggestion, Tank};
use seamwright_core::units::flow::Flow;
use seamwright_core::units::{
    Current, CurrentUnit, Length, RatioUnit, Speed, Voltage, VoltageUnit,
};
use serde_json::{Value, json};

use super::Units;
use super::cited::Cited;
use super::model::{Cell, Data, Section, Table, left, right, said};
use crate::job_file::Extras;

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

/// One setting of a table, and of the object for programs.
struct Setting {
    name: &'static str,
    key: &'static str,
    /// The range and the job's own value, in the units that are shown.
    range: Option<[String; 2]>,
    own: Option<String>,
    sources: Option<Sources>,
    fit: Option<RangeFit>,
    /// How far the sources lie apart, and the least and the greatest of their middles in the units that are shown.
    apart: Option<(Apart<()>, [String; 2])>,
    data: Data,
}

impl Setting {
    fn new<T: Copy>(
        (name, key): (&'static str, &'static str),
        suggestion: &Suggestion<T>,
        show: impl Fn(T) -> String,
        si: fn(T) -> f64,
    ) -> Self {
        let Suggestion { range, own, fit } = *suggestion;
        let sources = range.map(|range| range.sources);
        let ends = range.map(|range| [range.least, range.most]);
        let apart = range.and_then(|range| range.apart);
        let named = |sources: Sources| sources.iter().map(RangeSource::name).collect::<Value>();
        let cell = Cell::default()
            .maybe("range", ends.map(|ends| ends.map(si)))
            .maybe("sources", sources.map(named))
            .maybe("own", own.map(si))
            .maybe("fit", fit.map(fit_name))
            .maybe("apart", apart.map(|apart| far(&apart, si)));
        Self {
            name,
            key,
            range: ends.map(|ends| ends.map(&show)),
            own: own.map(&show),
            sources,
            fit,
            apart: apart.map(|apart| {
                let Apart {
                    least_by,
                    most_by,
                    by,
                    ..
                } = apart;
                let bare = Apart {
                    least: (),
                    least_by,
                    most: (),
                    most_by,
                    by,
                };
                (bare, [apart.least, apart.most].map(&show))
            }),
            data: cell.data,
        }
    }

    /// By how much the sources differ; `None` where they do not.
    fn differs(&self, cited: &mut Cited) -> Option<String> {
        let (apart, [least, most]) = self.apart.as_ref()?;
        let by = apart.by.display(RatioUnit::Percent, 0);
        let [low, high] = [apart.least_by, apart.most_by].map(|one| cited.mark(one.name()));
        Some(format!(
            "{}: sources differ by {by}, from {least} {low} to {most} {high}, each by its middle",
            self.name
        ))
    }

    fn row(&self, cited: &mut Cited) -> [Cell; 5] {
        let sources = self.sources.into_iter().flat_map(Sources::iter);
        let marks: String = sources.map(|one| cited.mark(one.name())).collect();
        let range = match &self.range {
            Some([least, most]) if least == most => most.clone(),
            Some([least, most]) => format!("{least} to {most}"),
            None => "nothing published".to_owned(),
        };
        let own = self.own.as_deref().unwrap_or_default();
        let fit = self.fit.map(fit_name).unwrap_or_default();
        [self.name, &range, own, fit, &marks].map(said)
    }
}

/// How far sources lie apart, for programs.
fn far<T: Copy>(apart: &Apart<T>, si: fn(T) -> f64) -> Value {
    json!({
        "least": si(apart.least),
        "least_source": apart.least_by.name(),
        "most": si(apart.most),
        "most_source": apart.most_by.name(),
        "by": apart.by.si(),
    })
}

/// All that is published for a group, in the order of a table.
fn settings(all: &SeamSettings, units: Units) -> Vec<Setting> {
    let size = |name, key, one: &Suggestion<Length>| {
        Setting::new((name, key), one, |size| units.thickness(size), Length::si)
    };
    let amperes = |current: Current| current.display(CurrentUnit::Ampere, 0).to_string();
    let volts = |voltage: Voltage| voltage.display(VoltageUnit::Volt, 1).to_string();
    let travel = |speed| units.speed(speed);
    let flow = |flow| units.flow(flow);
    let mut rows = vec![
        Setting::new(("current", "current_a"), &all.current, amperes, Current::si),
        Setting::new(("travel", "travel_m_s"), &all.travel, travel, Speed::si),
    ];
    match &all.electrode {
        ElectrodeSettings::Tungsten(tungsten) => rows.extend([
            size("tungsten, by sheet", "tungsten_m", &tungsten.by_sheet),
            size(
                "tungsten, by current",
                "tungsten_for_current_m",
                &tungsten.by_current,
            ),
            size("nozzle", "nozzle_m", &tungsten.nozzle),
            size("rod", "rod_m", &tungsten.rod),
        ]),
        ElectrodeSettings::Wire(wire) => rows.extend([
            Setting::new(("voltage", "voltage_v"), &wire.voltage, volts, Voltage::si),
            size("wire", "wire_m", &wire.diameter),
        ]),
    }
    rows.push(Setting::new(("gas", "gas_m3_s"), &all.gas, flow, Flow::si));
    rows
}

pub(super) fn section(tank: &Tank, extras: &Extras, units: Units, cited: &mut Cited) -> Section {
    let mut section = Section::new("Settings, to be tried on scrap").at(&["settings"]);
    let mut by_joint = Vec::new();
    let own = OwnSettings {
        tungsten: extras.tungsten,
        nozzle: extras.nozzle,
        rod: extras.supply.kit.rod_diameter,
        gas: extras.supply.kit.gas_flow,
        wire: extras.supply.kit.wire_diameter,
    };
    for group in tank.seam_groups() {
        let kind = kind_name(group.kind);
        let seams = tank.seams_in(group).map(|seam| seam.mark.to_string());
        let seams: Vec<String> = seams.collect();
        section.unbroken(format!(
            "{kind} in {} sheet: {}",
            units.thickness(group.thickness),
            few(&seams)
        ));
        let settings = settings(&tank.seam_settings(group, &own), units);
        let columns = [
            left(""),
            right("suggested"),
            right("the job's"),
            left("lies"),
            left("sources"),
        ];
        let rows = settings.iter().map(|one| one.row(cited));
        section.table(Table::new(columns, rows));
        for told in settings.iter().filter_map(|one| one.differs(cited)) {
            section.line(told);
        }
        let mut object = json!({
            "joint": kind,
            "thickness_m": group.thickness.si(),
            "seams": seams,
        });
        if let Some(map) = object.as_object_mut() {
            map.extend(
                settings
                    .iter()
                    .map(|one| (one.key.to_owned(), one.data.clone().into())),
            );
        }
        by_joint.push(object);
    }
    if !by_joint.is_empty() {
        section.flush("Where sheets differ the thinner one is meant. A qualified procedure comes before any of these.");
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
