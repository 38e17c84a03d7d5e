//! A draft read field by field into its place.
//!
//! What serde derives hands every part from function to function by value: on a small machine that is 7 KiB of stack
//! and 10 KB of code for a draft. Here the whole stands where it is to stay before its first field is read, and every
//! field is one call that reads it there. The order is that of the derived `Serialize`: in a format without names,
//! which the wire's is, the two are one.

use core::fmt;

use heapless::Vec;
use serde::de::{
    Deserialize, DeserializeSeed, Deserializer, EnumAccess, Error, SeqAccess, VariantAccess,
    Visitor,
};

use super::Across;
use super::{
    ArcDraft, BaffleDraft, Block, Draft, Drum, Face, FillDraft, FittingDraft, HoleDraft,
    JointsDraft, Label, Name, Profile, ProfilePoint, Shape, Sized, StockDraft, Taper, UseDraft,
    WeldDraft,
};
use crate::tables::Alloy;
use crate::units::Length;

const ZERO: Length = Length::from_metres(0.0);

impl Draft {
    /// Reads a draft from a format that has its fields in their order, without names.
    ///
    /// # Errors
    /// Those of the deserializer.
    // Out of line: a request and the shelf share it.
    #[inline(never)]
    pub(crate) fn read<'de, D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        let mut draft = Self::blank();
        Place(&mut draft).deserialize(from)?;
        Ok(draft)
    }
}

/// What is read field by field.
trait Fields<'de>: core::marker::Sized {
    /// How many fields it has.
    const COUNT: usize;
    /// What stands in its place before it is read.
    fn blank() -> Self;

    /// Reads every field in its order.
    fn read<A: SeqAccess<'de>>(&mut self, from: &mut A) -> Result<(), A::Error>;
}

/// Where a value is read to.
struct Place<'a, T>(&'a mut T);

impl<'de, T: Fields<'de>> DeserializeSeed<'de> for Place<'_, T> {
    type Value = ();

    fn deserialize<D: Deserializer<'de>>(self, from: D) -> Result<(), D::Error> {
        from.deserialize_tuple(T::COUNT, self)
    }
}

impl<'de, T: Fields<'de>> Visitor<'de> for Place<'_, T> {
    type Value = ();

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} fields", T::COUNT)
    }

    fn visit_seq<A: SeqAccess<'de>>(self, mut from: A) -> Result<(), A::Error> {
        self.0.read(&mut from)
    }
}

/// Where one more of a list is read to.
struct More<'a, T, const N: usize>(&'a mut Vec<T, N>);

impl<'de, T: Fields<'de>, const N: usize> DeserializeSeed<'de> for More<'_, T, N> {
    type Value = ();

    fn deserialize<D: Deserializer<'de>>(self, from: D) -> Result<(), D::Error> {
        let long = || D::Error::custom("a list is too long");
        self.0.push(T::blank()).map_err(|_| long())?;
        let last = self.0.last_mut().ok_or_else(long)?;
        Place(last).deserialize(from)
    }
}

/// Where a list is read to.
struct List<'a, T, const N: usize>(&'a mut Vec<T, N>);

impl<'de, T: Fields<'de>, const N: usize> DeserializeSeed<'de> for List<'_, T, N> {
    type Value = ();

    fn deserialize<D: Deserializer<'de>>(self, from: D) -> Result<(), D::Error> {
        from.deserialize_seq(self)
    }
}

impl<'de, T: Fields<'de>, const N: usize> Visitor<'de> for List<'_, T, N> {
    type Value = ();

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "up to {N} of a kind")
    }

    fn visit_seq<A: SeqAccess<'de>>(self, mut from: A) -> Result<(), A::Error> {
        while from.next_element_seed(More(&mut *self.0))?.is_some() {}
        Ok(())
    }
}

fn missing<E: Error>() -> E {
    E::custom("a field is missing")
}

/// Reads a field that is made in one piece.
// Out of line, as the next two: fields of one kind share it.
#[inline(never)]
fn one<'de, T: Deserialize<'de>, A: SeqAccess<'de>>(
    from: &mut A,
    place: &mut T,
) -> Result<(), A::Error> {
    *place = from.next_element()?.ok_or_else(missing)?;
    Ok(())
}

/// Reads a field that has fields of its own.
#[inline(never)]
fn parts<'de, T: Fields<'de>, A: SeqAccess<'de>>(
    from: &mut A,
    place: &mut T,
) -> Result<(), A::Error> {
    from.next_element_seed(Place(place))?.ok_or_else(missing)
}

/// Reads a field that is a list of what has fields.
#[inline(never)]
fn each<'de, T: Fields<'de>, A: SeqAccess<'de>, const N: usize>(
    from: &mut A,
    place: &mut Vec<T, N>,
) -> Result<(), A::Error> {
    from.next_element_seed(List(place))?.ok_or_else(missing)
}

/// Reads a field that is a shape.
#[inline(never)]
fn kind<'de, A: SeqAccess<'de>>(from: &mut A, place: &mut Shape) -> Result<(), A::Error> {
    from.next_element_seed(Kind(place))?.ok_or_else(missing)
}

/// Where a shape of whatever kind is read to.
struct Kind<'a>(&'a mut Shape);

impl<'de> DeserializeSeed<'de> for Kind<'_> {
    type Value = ();

    fn deserialize<D: Deserializer<'de>>(self, from: D) -> Result<(), D::Error> {
        from.deserialize_enum("Shape", &[], self)
    }
}

impl<'de> Visitor<'de> for Kind<'_> {
    type Value = ();

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("a shape")
    }

    fn visit_enum<A: EnumAccess<'de>>(self, from: A) -> Result<(), A::Error> {
        // Kinds are numbered as they stand in `Shape`.
        let (kind, rest) = from.variant::<u32>()?;
        *self.0 = match kind {
            0 => Shape::Block(Fields::blank()),
            1 => Shape::Profile(Fields::blank()),
            2 => Shape::Taper(Fields::blank()),
            3 => Shape::Drum(Fields::blank()),
            _ => return Err(A::Error::custom("no such shape")),
        };
        match self.0 {
            Shape::Block(block) => rest.newtype_variant_seed(Place(block)),
            Shape::Profile(profile) => rest.newtype_variant_seed(Place(profile)),
            Shape::Taper(taper) => rest.newtype_variant_seed(Place(taper)),
            Shape::Drum(drum) => rest.newtype_variant_seed(Place(drum)),
        }
    }
}

/// Says how each field of a struct is read, in the struct's own order, and what stands there before.
macro_rules! fields {
    ($($type:ident = $blank:expr => $($how:ident $field:ident),+;)+) => { $(
        impl<'de> Fields<'de> for $type {
            const COUNT: usize = [$(stringify!($field)),+].len();
            fn blank() -> Self {
                $blank
            }

            fn read<A: SeqAccess<'de>>(&mut self, from: &mut A) -> Result<(), A::Error> {
                // Taken apart as a whole, so that a field left out here does not compile.
                let Self { $($field),+ } = self;
                $( $how(from, $field)?; )+
                Ok(())
            }
        }
    )+ };
}

fields! {
    Draft = Self {
        name: Name::new(),
        shape: Shape::Block(Block::blank()),
        stock: StockDraft::blank(),
        joints: JointsDraft::default(),
        fittings: Vec::new(),
        baffles: Vec::new(),
        fill: FillDraft::default(),
        arc: ArcDraft::default(),
        weld: WeldDraft::default(),
        service: UseDraft::default(),
    } => one name, kind shape, parts stock, parts joints, each fittings, each baffles, parts fill, parts arc,
        parts weld, parts service;

    Block = Self::new(ZERO, ZERO, ZERO) => one sized, one length, one width, one height, one cuts;

    Profile = Self {
        sized: Sized::Outside,
        outline: Vec::new(),
        width: ZERO,
    } => one sized, each outline, one width;

    ProfilePoint = Self { x: ZERO, z: ZERO, radius: ZERO } => one x, one z, one radius;

    Taper = Self::new([ZERO; 2], [ZERO; 2], ZERO) => one sized, one base, one top, one height, one shift;

    Drum = Self::new(ZERO, ZERO) => one sized, one diameter, one length, one axis, one ends;

    StockDraft = Self::of(Alloy::A1050, ZERO) => one alloy, one temper, one thickness, one faces;

    JointsDraft = Self::default() => one default, one own, one folds, one bend_radius, one k_factor, one lap, one gap;

    FittingDraft = Self {
        name: Label::new(),
        face: Face::Front,
        at: [ZERO; 2],
        bore: ZERO,
        outer: None,
        stand_in: ZERO,
    } => one name, one face, one at, one bore, one outer, one stand_in;

    HoleDraft = Self { at: [ZERO; 2], diameter: ZERO } => one at, one diameter;

    BaffleDraft = Self::new(Across::Length, ZERO) => one across, one at, one thickness, each holes, one free, one spaced;

    FillDraft = Self::default() => one headspace, one target, one target_of, one pick_up, one pick_up_at, one neck, one pitch, one roll,
        one dip_step, one dip_volume, one dip_at, one fill_temperature, one hottest, one liquid, one reaches;

    ArcDraft = Self::default() => one process, one current, one voltage, one travel, one efficiency;

    WeldDraft = Self::default() => one stitch_max, one tack_pitch, one interpass_max, one ambient, one emissivity, one moving, one back_step,
        one opening, one reach;

    UseDraft = Self::default() => one temperature, one pressure, one acceleration, one anodised, one mounts;
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::input::{Axis, Cut, Ends, Joint, Measure, OwnJoint, WallSet};
    use crate::tables::{Liquid, Process, Temper};
    use crate::units::{
        Angle, Current, Pressure, Ratio, Speed, Temperature, Time, Voltage, Volume,
    };
    use crate::wire::MAX_PACKED;

    /// A draft with something in every field, no two of a kind alike.
    fn full(shape: Shape) -> Draft {
        let mut count = 0.0;
        let mut next = || {
            count += 1.0;
            count
        };
        let mut m = || Length::from_metres(next());
        let hole = HoleDraft {
            at: [m(), m()],
            diameter: m(),
        };
        let fitting = FittingDraft {
            name: Label::try_from("vent").unwrap(),
            face: Face::Side(3),
            at: [m(), m()],
            bore: m(),
            outer: Some(m()),
            stand_in: m(),
        };
        let mut free = WallSet::NONE;
        free.add(Face::Top);
        let baffle = BaffleDraft {
            across: Across::Width,
            at: m(),
            thickness: Some(m()),
            holes: [hole, hole].into_iter().collect(),
            free,
            spaced: Some([m(), m()]),
        };
        Draft {
            name: Name::try_from("Day tank").unwrap(),
            shape,
            stock: StockDraft {
                alloy: Alloy::A5754,
                temper: Some(Temper::ALL[1]),
                thickness: m(),
                faces: [(Face::Cut(2), m())].into_iter().collect(),
            },
            joints: JointsDraft {
                default: Some(Joint::Butt),
                own: [OwnJoint {
                    faces: [Face::Left, Face::Top],
                    joint: Joint::FlangedLap,
                }]
                .into_iter()
                .collect(),
                folds: [[Face::Right, Face::Bottom]].into_iter().collect(),
                bend_radius: Some(m()),
                k_factor: Some(Ratio::from_share(0.4)),
                lap: Some(m()),
                gap: Some(m()),
            },
            fittings: [fitting.clone(), fitting].into_iter().collect(),
            baffles: [baffle.clone(), baffle].into_iter().collect(),
            fill: FillDraft {
                headspace: Some(Ratio::from_share(0.1)),
                target: Some(Volume::from_cubic_metres(0.2)),
                target_of: Some(Measure::default()),
                pick_up: Some(m()),
                pick_up_at: Some([m(), m()]),
                neck: Some(m()),
                pitch: Some(Angle::from_radians(0.3)),
                roll: Some(Angle::from_radians(0.4)),
                dip_step: Some(m()),
                dip_volume: Some(Volume::from_cubic_metres(0.5)),
                dip_at: Some([m(), m()]),
                fill_temperature: Some(Temperature::from_kelvins(280.0)),
                hottest: Some(Temperature::from_kelvins(330.0)),
                liquid: Some(Liquid::Diesel),
                reaches: Some(Volume::from_cubic_metres(0.6)),
            },
            arc: ArcDraft {
                process: Some(Process::TigAc),
                current: Some(Current::from_amperes(90.0)),
                voltage: Some(Voltage::from_volts(14.0)),
                travel: Some(Speed::from_metres_per_second(0.002)),
                efficiency: Some(Ratio::from_share(0.7)),
            },
            weld: WeldDraft {
                stitch_max: Some(m()),
                tack_pitch: Some(m()),
                interpass_max: Some(Temperature::from_kelvins(350.0)),
                ambient: Some(Temperature::from_kelvins(290.0)),
                emissivity: Some(Ratio::from_share(0.2)),
                moving: Some(Time::from_seconds(12.0)),
                back_step: Some(true),
                opening: Some(m()),
                reach: Some(m()),
            },
            service: UseDraft {
                temperature: Some(Temperature::from_kelvins(360.0)),
                pressure: Some(Pressure::from_pascals(2_000.0)),
                acceleration: Some([1.0, 2.0, 3.0].map(Ratio::from_share)),
                anodised: Some(true),
                mounts: [[m(), m(), m()]].into_iter().collect(),
            },
        }
    }

    /// A draft of every shape; the first has nothing but what it must.
    fn drafts() -> [Draft; 5] {
        let mm = |value: f64| Length::from_metres(value / 1e3);
        let legs = [mm(45.0), mm(60.0)];
        let faces = [Face::Top, Face::Back];
        let normal = [1.0, 2.0, -3.0];
        let through = [mm(1.0), mm(2.0), mm(3.0)];
        let cuts = [Cut::Edge { faces, legs }, Cut::Plane { normal, through }];
        let block = Block {
            sized: Sized::Inside,
            cuts: cuts.into_iter().collect(),
            ..Block::new(mm(320.0), mm(180.0), mm(160.0))
        };
        let point = |x, z, radius| ProfilePoint {
            x: mm(x),
            z: mm(z),
            radius: mm(radius),
        };
        let profile = Profile {
            sized: Sized::Inside,
            outline: [point(1.0, 2.0, 3.0), point(4.0, 5.0, 6.0)]
                .into_iter()
                .collect(),
            width: mm(7.0),
        };
        let taper = Taper::new([mm(1.0), mm(2.0)], [mm(3.0), mm(4.0)], mm(5.0));
        let drum = Drum {
            axis: Axis::Lying,
            ends: Ends::Torispherical {
                crown: mm(8.0),
                knuckle: mm(9.0),
            },
            ..Drum::new(mm(6.0), mm(7.0))
        };
        let plain = Draft::new("Sump", taper, StockDraft::of(Alloy::A5754, mm(2.0)));
        [
            plain.unwrap(),
            full(block.into()),
            full(profile.into()),
            full(taper.into()),
            full(drum.into()),
        ]
    }

    /// What is made of bytes, packed again, so that what is no number can be compared.
    fn again<E>(read: Result<Draft, E>) -> Option<Vec<u8, MAX_PACKED>> {
        read.ok().map(|draft| {
            let mut room = [0; MAX_PACKED];
            let used = postcard::to_slice(&draft, &mut room).unwrap();
            Vec::from_slice(used).unwrap()
        })
    }

    fn same(bytes: &[u8]) -> bool {
        let mut from = postcard::Deserializer::from_bytes(bytes);
        let in_place = again(Draft::read(&mut from));
        let derived = again(postcard::from_bytes::<Draft>(bytes));
        assert_eq!(in_place, derived);
        derived.is_some()
    }

    #[test]
    fn a_draft_is_read_in_place_as_serde_derives_it() {
        for draft in drafts() {
            let mut room = [0; MAX_PACKED];
            let used = postcard::to_slice(&draft, &mut room).unwrap();
            let mut from = postcard::Deserializer::from_bytes(used);
            assert_eq!(Draft::read(&mut from), Ok(draft));
            assert!(same(used));
        }
    }

    #[test]
    fn what_is_no_draft_is_none_in_place_either() {
        let mut bad = 0;
        for draft in drafts() {
            let mut room = [0; MAX_PACKED];
            let used = postcard::to_slice(&draft, &mut room).unwrap().len();
            for at in 0..used {
                assert!(!same(&room[..at]), "{at} of {used} bytes make a draft");
                for other in [0, 1, 2, 4, 9, 17, 0x80, 0xFF] {
                    let byte = core::mem::replace(&mut room[at], other);
                    bad += u32::from(!same(&room[..used]));
                    room[at] = byte;
                }
            }
        }
        assert!(bad > 1_000, "only {bad} were refused");
    }
}
