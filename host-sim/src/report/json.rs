//! The plan as one JSON object: SI units, angles in degrees. Keys may be added, never renamed.
//!
//! What this version does not compute has no key at all.

use seamwright_core::blank::Blank;
use seamwright_core::geom::Vector;
use seamwright_core::seam::joint_name;
use seamwright_core::tank::Tank;
use seamwright_core::units::{AngleUnit, Length};
use serde_json::{Value, json};

use super::{Asked, duty, filler, notices, settings, shrinkage, supply, tacks};
use crate::cut::Cut;

/// The version of this object.
pub const SCHEMA: &str = "seamwright-plan/1";

/// The plan of a tank.
#[must_use]
pub fn plan(asked: &Asked<'_>) -> Value {
    let Asked {
        tank,
        assumed,
        extras,
        search,
    } = *asked;
    let (body, capacity, arc, totals) = (tank.body(), tank.capacity(), tank.arc(), tank.totals());
    let welded = crate::welding::plan(tank, extras);
    let tacking = tacks::of(tank);
    let cut = Cut::of(tank, extras);
    let sheet_area: f64 = tank.panels().map(|panel| panel.outside_area.si()).sum();
    let dip: Vec<Value> = tank
        .dip()
        .map(|level| json!([level.depth.si(), level.volume.si()]))
        .collect();
    json!({
        "schema": SCHEMA,
        "name": tank.job().name(),
        "body": {
            "outside_m3": body.outside.volume().si(),
            "inside_m3": body.inside.volume().si(),
            "inside_centroid_m": point(body.inside.centroid()),
            "sheet_area_m2": sheet_area,
        },
        "capacity": {
            "brim_m3": capacity.brim.si(),
            "fill_m3": capacity.fill.si(),
            "usable_m3": capacity.usable.si(),
            "full_depth_m": capacity.full_depth.si(),
            "fill_depth_m": capacity.fill_depth.si(),
            "pick_up_m": capacity.pick_up.si(),
            "dip": dip,
        },
        "panels": panels(&cut),
        "seams": seams(tank),
        "tacks": tacks::json(tank, &tacking),
        "tacking": tacks::sums(tank, &tacking),
        "stitches": stitches(tank, &welded),
        "welding": match &welded {
            Ok(plan) => super::stitches::sums(plan, search.map(|tries| crate::welding::search(tank, extras, tries))),
            Err(error) => json!({ "error": error.to_string() }),
        },
        "arc": {
            "process": arc.process.name(),
            "current_a": arc.current.si(),
            "voltage_v": arc.voltage.si(),
            "travel_m_s": arc.travel.si(),
            "efficiency": arc.efficiency.si(),
            "arc_energy_j_m": arc.arc_energy().si(),
            "heat_input_j_m": arc.heat_input().si(),
        },
        "totals": {
            "seam_m": totals.seam.si(),
            "tack_count": totals.tacks,
            "stitch_count": totals.stitches,
            "arc_s": totals.arc.si(),
            "wait_s": welded.as_ref().map_or(Value::Null, |plan| json!(plan.sum.waits)),
            "job_s": welded.as_ref().map_or(Value::Null, |plan| json!(plan.sum.job)),
            "heat_j": totals.heat.si(),
            "mass_kg": cut.mass().si(),
        },
        "mass": super::balance::json(tank),
        "proof": proof(tank),
        "cautions": super::cautions::json(&super::cautions::of(tank)),
        "filler": filler::json(tank, extras),
        "settings": settings::json(tank, extras),
        "duty": duty::json(tank, extras),
        "supply": supply::json(tank, extras),
        "shrinkage": shrinkage::json(tank, extras),
        "assumed": assumed.iter().map(|one| json!({
            "key": one.field().to_string(),
            "value": one.to_string(),
            "source": one.source(),
        })).collect::<Vec<_>>(),
        "notices": notices::json(tank, extras),
    })
}

/// Strength and leak test.
fn proof(tank: &Tank) -> Value {
    let mut proof = super::strength::json(tank);
    proof.insert("leak_test".to_owned(), super::leak::in_plan(tank));
    Value::Object(proof)
}

fn point(point: Vector) -> Value {
    json!([point.x, point.y, point.z])
}

fn panels(cut: &Cut<'_>) -> Vec<Value> {
    let mut blank = Blank::new();
    cut.panels()
        .map(|panel| {
            let laid = cut.blank(&panel, &mut blank).is_ok() && !blank.is_empty();
            let mut flat = json!({ "area_m2": panel.blank_area.si() });
            if laid && let Some(map) = flat.as_object_mut() {
                map.extend(layout(&blank));
            }
            json!({
                "mark": panel.mark.to_string(),
                "face": panel.face().to_string(),
                "faces": panel.faces.iter().map(ToString::to_string).collect::<Vec<_>>(),
                "made": panel.making.name(),
                "thickness_m": panel.thickness.si(),
                "outside_area_m2": panel.outside_area.si(),
                "mass_kg": panel.mass.si(),
                "blank": flat,
            })
        })
        .collect()
}

/// A blank as it is cut. `bulges` go with `outline_m`: for each point the tangent of a quarter of the
/// angle that the side after it sweeps.
fn layout(blank: &Blank) -> serde_json::Map<String, Value> {
    let [width, height] = blank.size();
    let nodes: Vec<_> = blank.outline().collect();
    let folds: Vec<Value> = blank
        .bends()
        .map(|bend| {
            json!({
                "between": bend.faces.map(|face| face.to_string()),
                "ends_m": bend.ends,
                "angle_deg": bend.turn.in_unit(AngleUnit::Degree),
                "towards": bend.towards,
                "inside_radius_m": bend.radius.si(),
                "allowance_m": bend.allowance.si(),
            })
        })
        .collect();
    let reliefs: Vec<Value> = blank
        .reliefs()
        .iter()
        .map(|relief| json!({ "at_m": relief.at, "diameter_m": relief.diameter.si() }))
        .collect();
    let mut map = serde_json::Map::new();
    map.insert("size_m".to_owned(), json!([width, height]));
    map.insert(
        "outline_m".to_owned(),
        json!(
            nodes
                .iter()
                .map(|node| [node.x, node.y])
                .collect::<Vec<_>>()
        ),
    );
    map.insert(
        "bulges".to_owned(),
        json!(nodes.iter().map(|node| node.bulge).collect::<Vec<_>>()),
    );
    map.insert("folds".to_owned(), json!(folds));
    map.insert("reliefs".to_owned(), json!(reliefs));
    map
}

fn seams(tank: &Tank) -> Vec<Value> {
    tank.seams()
        .map(|seam| {
            json!({
                "mark": seam.mark.to_string(),
                "between": seam.faces.map(|face| face.to_string()),
                "joint": joint_name(seam.joint),
                "length_m": seam.length.si(),
                "dihedral_deg": seam.dihedral.in_unit(AngleUnit::Degree),
                "welded": seam.welded,
                "ends_m": seam.ends.map(point),
            })
        })
        .collect()
}

/// In the order of welding; where the metal never cools there is none, and they stand seam by seam.
fn stitches(tank: &Tank, known: &super::stitches::Known) -> Vec<Value> {
    match known {
        Ok(plan) => super::stitches::stitches(&plan.stitches),
        Err(_) => in_seams(tank),
    }
}

fn in_seams(tank: &Tank) -> Vec<Value> {
    let arc = tank.arc();
    tank.seams()
        .filter_map(|seam| Some((seam, tank.division(&seam)?)))
        .flat_map(|(seam, division)| {
            division.runs().map(move |[from, to]| {
                let length = Length::from_metres(to.si() - from.si());
                json!({
                    "seam": seam.mark.to_string(),
                    "from_m": from.si(),
                    "to_m": to.si(),
                    "arc_s": arc.time_along(length).si(),
                    "energy_j": arc.heat_along(length).si(),
                })
            })
        })
        .collect()
}
