//! The sizes of a shape, each in its range.

use super::ranged::{Bounds, Inspection};
use super::{Problem, bounds};
use crate::input::{Block, Cut, Draft, Drum, Ends, Field, Profile, Shape, Taper};
use crate::units::Length;

pub(super) fn shape(look: &mut Inspection, shape: &Shape) {
    match shape {
        Shape::Block(block) => sizes_of_block(look, block),
        Shape::Profile(profile) => sizes_of_profile(look, profile),
        Shape::Taper(taper) => sizes_of_taper(look, taper),
        Shape::Drum(drum) => sizes_of_drum(look, drum),
    }
}

fn sizes_of_block(look: &mut Inspection, block: &Block) {
    look.hold(Field::Length, block.length, &bounds::SIZE);
    look.hold(Field::Width, block.width, &bounds::SIZE);
    look.hold(Field::Height, block.height, &bounds::SIZE);
    for (cut, number) in block.cuts.iter().zip(1_u8..) {
        let field: fn(u8, u8) -> Field = match cut {
            Cut::Edge { .. } | Cut::Corner { .. } => Field::CutLeg,
            Cut::Plane { .. } => Field::CutThrough,
        };
        let (values, bounds): (&[Length], _) = match cut {
            Cut::Edge { legs, .. } => (legs, &bounds::CUT_LEG),
            Cut::Corner { legs, .. } => (legs, &bounds::CUT_LEG),
            Cut::Plane { through, .. } => (through, &bounds::REACH),
        };
        for (value, place) in values.iter().zip(1_u8..) {
            look.hold(field(number, place), *value, bounds);
        }
    }
}

fn sizes_of_profile(look: &mut Inspection, profile: &Profile) {
    look.hold(Field::Width, profile.width, &bounds::SIZE);
    for (point, number) in profile.outline.iter().zip(1_u8..) {
        let field = Field::Point(number);
        look.hold(field, point.x, &bounds::REACH);
        look.hold(field, point.z, &bounds::REACH);
        look.hold(field, point.radius, &bounds::RADIUS);
    }
}

fn sizes_of_taper(look: &mut Inspection, taper: &Taper) {
    look.hold_each(Field::Base, &taper.base, &bounds::SIZE);
    look.hold_each(Field::TopSize, &taper.top, &bounds::SIZE);
    look.hold(Field::Height, taper.height, &bounds::SIZE);
    look.hold_each(Field::Shift, &taper.shift, &bounds::REACH);
}

fn sizes_of_drum(look: &mut Inspection, drum: &Drum) {
    look.hold(Field::Diameter, drum.diameter, &bounds::SIZE);
    look.hold(Field::Length, drum.length, &bounds::SIZE);
    if let Ends::Torispherical { crown, knuckle } = drum.ends {
        look.hold(Field::Crown, crown, &bounds::SIZE);
        look.hold(Field::Knuckle, knuckle, &bounds::SIZE);
    }
}

pub(super) fn fittings(look: &mut Inspection, draft: &Draft) {
    for (fitting, number) in draft.fittings.iter().zip(1_u8..) {
        if !draft.shape.has(fitting.face) {
            let problem = Problem::NoSuchFace(fitting.face);
            look.refuse(Field::FittingFace(number), problem);
        }
        look.hold_all(Field::FittingAt(number), &fitting.at, &bounds::ON_FACE);
        look.hold(Field::FittingBore(number), fitting.bore, &bounds::BORE);
        // The hole is no smaller than the passage.
        let least = libm::fmax(fitting.bore.si(), bounds::HOLE.least.si());
        let hole = Bounds {
            least: Length::from_metres(least),
            ..bounds::HOLE
        };
        look.hold_some(Field::FittingOuter(number), fitting.outer, &hole);
        let field = Field::FittingStandIn(number);
        look.hold(field, fitting.stand_in, &bounds::ON_FACE);
    }
}

pub(super) fn baffles(look: &mut Inspection, draft: &Draft) {
    for (baffle, number) in draft.baffles.iter().zip(1_u8..) {
        look.hold(Field::BaffleAt(number), baffle.at, &bounds::REACH);
        let field = Field::BaffleThickness(number);
        look.hold_some(field, baffle.thickness, &bounds::THICKNESS);
        for (hole, place) in baffle.holes.iter().zip(1_u8..) {
            let field = Field::BaffleHoleAt(number, place);
            look.hold_all(field, &hole.at, &bounds::REACH);
            let field = Field::BaffleHoleDiameter(number, place);
            look.hold(field, hole.diameter, &bounds::HOLE);
        }
        if let Some([length, gap]) = baffle.spaced {
            let field = Field::BaffleWeldLength(number);
            look.hold(field, length, &bounds::SPACED_WELD);
            look.hold(Field::BaffleWeldGap(number), gap, &bounds::SPACED_WELD);
        }
    }
}
