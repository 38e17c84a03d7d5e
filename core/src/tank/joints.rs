//! The joints of a draft, checked and filled in.

use super::ranged::Inspection;
use super::{Assumed, BendStart, Problem, bounds};
use crate::blank::joint::is_same_edge;
use crate::blank::{BendRule, Joints};
use crate::input::{Draft, Field, Joint, Shape};
use crate::tables::minimum_radius;
use crate::units::Length;

/// The usual lap is this many thicknesses: common practice, no source.
const USUAL_LAP: f64 = 6.0;

/// Takes the joints of a draft in, on a sheet of `thickness`.
pub(super) fn take(
    into: &mut Joints,
    draft: &Draft,
    thickness: Length,
    look: &mut Inspection,
    assumed: &mut impl FnMut(Assumed),
) {
    let joints = &draft.joints;
    into.default = joints.default.unwrap_or_else(|| {
        assumed(Assumed::Joint);
        Joint::default()
    });
    for (own, number) in joints.own.iter().zip(1_u8..) {
        let before = joints.own.iter().take(usize::from(number - 1));
        let mut before = before
            .map(|own| own.faces)
            .chain(joints.folds.iter().copied());
        if before.any(|faces| is_same_edge(faces, own.faces)) {
            look.refuse(Field::OwnJoint(number), Problem::EdgeTaken(own.faces));
        }
    }
    for (fold, number) in joints.folds.iter().zip(1_u8..) {
        let mut before = joints.folds.iter().take(usize::from(number - 1));
        if before.any(|faces| is_same_edge(*faces, *fold)) {
            look.refuse(Field::Fold(number), Problem::EdgeTaken(*fold));
        }
    }
    into.own.clone_from(&joints.own);
    into.folds.clone_from(&joints.folds);

    let rounded = match &draft.shape {
        Shape::Profile(profile) => profile.outline.iter().any(|point| point.radius.si() > 0.0),
        _ => false,
    };
    let default = into.default;
    let all = || {
        let own = joints.own.iter().map(|own| own.joint);
        own.chain(core::iter::once(default))
    };
    let flanged = all().any(|joint| joint == Joint::FlangedLap);
    let bends = !joints.folds.is_empty() || flanged;

    let allow = &mut into.allow;
    allow.bend_radius = joints.bend_radius.unwrap_or_else(|| {
        let temper = draft.stock.temper;
        let least = temper.and_then(|temper| minimum_radius(draft.stock.alloy, temper, thickness));
        let by_table = least.filter(|least| least.radius > thickness);
        let radius = by_table.map_or(thickness, |least| least.radius);
        if bends {
            assumed(Assumed::BendRadius(BendStart { radius, by_table }));
        }
        radius
    });
    look.hold_some(Field::BendRadius, joints.bend_radius, &bounds::BEND_RADIUS);
    look.hold_some(Field::KFactor, joints.k_factor, &bounds::K);
    allow.rule = match joints.k_factor {
        Some(k) => BendRule::KFactor(k),
        None => {
            if bends || rounded {
                assumed(Assumed::BendRule);
            }
            BendRule::Din6935
        }
    };
    look.hold_some(Field::Lap, joints.lap, &bounds::LAP);
    allow.lap = joints.lap.unwrap_or_else(|| {
        let lap = Length::from_metres(USUAL_LAP * thickness.si());
        if all().any(Joint::laps) {
            assumed(Assumed::Lap(lap));
        }
        lap
    });
    allow.gap = joints.gap.unwrap_or_default();
    look.hold(Field::Gap, allow.gap, &bounds::GAP);
}
