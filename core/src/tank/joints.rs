//! The joints of a draft, checked and filled in.

use super::ranged::ranged;
use super::{Assumed, BendStart, JobError, Problem};
use crate::blank::joint::is_same_edge;
use crate::blank::{Allow, BendRule, Joints, K_FACTOR};
use crate::input::limits::{BEND_RADIUS, GAP, LAP};
use crate::input::{Draft, Face, Field, Joint, Shape};
use crate::tables::minimum_radius;
use crate::units::Length;
use crate::units::range::Value;

/// The usual lap is this many thicknesses: common practice, no source.
const USUAL_LAP: f64 = 6.0;

pub(crate) fn checked(
    draft: &Draft,
    thickness: Length,
    assumed: &mut impl FnMut(Assumed),
) -> Result<Joints, JobError> {
    let joints = &draft.joints;
    let default = joints.default.unwrap_or_else(|| {
        assumed(Assumed::Joint);
        Joint::default()
    });
    let taken = |faces: [Face; 2], field: Field| JobError {
        field,
        problem: Problem::EdgeTaken(faces),
    };
    for (own, number) in joints.own.iter().zip(1_u8..) {
        let before = usize::from(number - 1);
        let again = joints
            .own
            .iter()
            .take(before)
            .any(|o| is_same_edge(o.faces, own.faces))
            || joints
                .folds
                .iter()
                .any(|fold| is_same_edge(*fold, own.faces));
        if again {
            return Err(taken(own.faces, Field::OwnJoint(number)));
        }
    }
    for (fold, number) in joints.folds.iter().zip(1_u8..) {
        let before = usize::from(number - 1);
        if joints
            .folds
            .iter()
            .take(before)
            .any(|f| is_same_edge(*f, *fold))
        {
            return Err(taken(*fold, Field::Fold(number)));
        }
    }
    let rounded = match &draft.shape {
        Shape::Profile(profile) => profile.outline.iter().any(|point| point.radius.si() > 0.0),
        _ => false,
    };
    let all = || {
        joints
            .own
            .iter()
            .map(|own| own.joint)
            .chain(core::iter::once(default))
    };
    let flanged = all().any(|joint| joint == Joint::FlangedLap);
    let bends = !joints.folds.is_empty() || flanged;

    let bend_radius = match joints.bend_radius {
        Some(radius) => ranged(Field::BendRadius, radius, BEND_RADIUS, Value::Length)?,
        None => {
            let least = draft
                .stock
                .temper
                .and_then(|temper| minimum_radius(draft.stock.alloy, temper, thickness));
            let by_table = least.filter(|least| least.radius > thickness);
            let radius = by_table.map_or(thickness, |least| least.radius);
            if bends {
                assumed(Assumed::BendRadius(BendStart { radius, by_table }));
            }
            radius
        }
    };
    let rule = match joints.k_factor {
        Some(k) => {
            let [least, most] = K_FACTOR;
            BendRule::KFactor(ranged(Field::KFactor, k, (least, most), Value::Ratio)?)
        }
        None => {
            if bends || rounded {
                assumed(Assumed::BendRule);
            }
            BendRule::Din6935
        }
    };
    let lap = match joints.lap {
        Some(lap) => ranged(Field::Lap, lap, LAP, Value::Length)?,
        None => {
            let lap = Length::from_metres(USUAL_LAP * thickness.si());
            if all().any(Joint::laps) {
                assumed(Assumed::Lap(lap));
            }
            lap
        }
    };
    let gap = ranged(
        Field::Gap,
        joints.gap.unwrap_or_default(),
        GAP,
        Value::Length,
    )?;
    Ok(Joints {
        default,
        own: joints.own.clone(),
        folds: joints.folds.clone(),
        allow: Allow {
            lap,
            gap,
            bend_radius,
            rule,
        },
    })
}
