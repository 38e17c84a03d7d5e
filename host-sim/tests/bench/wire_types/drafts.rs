//! Drafts and requests that between them use every kind of everything a laptop can send.

use seamwright::job_file::JobFile;
use seamwright_core::input::{
    Across, Axis, BaffleDraft, Cut, Draft, Drum, Ends, Face, FittingDraft, HoleDraft, Joint,
    Measure, OwnJoint, Profile, ProfilePoint, Shape, Sized, Taper, WallSet,
};
use seamwright_core::tables::{Alloy, Liquid, Process, Temper};
use seamwright_core::units::{
    Angle, AngleUnit, Current, Pressure, PressureUnit, Ratio, Speed, SpeedUnit, Temperature,
    TemperatureUnit, Time, TimeUnit, Voltage, Volume, VolumeUnit,
};
use seamwright_core::weld::{StepCause, WeldStep};
use seamwright_core::wire::Request;

use super::mm;

/// Every kind of face; numbers are past 127, or a byte could not be told from a varint.
pub(crate) const FACES: [Face; 11] = [
    Face::Front,
    Face::Back,
    Face::Left,
    Face::Right,
    Face::Bottom,
    Face::Top,
    Face::Cut(201),
    Face::Side(202),
    Face::Shell,
    Face::Baffle(203),
    Face::Fitting(204),
];

pub(crate) fn example(name: &str) -> Draft {
    let path = format!("{}/examples/{name}.toml", env!("CARGO_MANIFEST_DIR"));
    JobFile::open(&path).unwrap().draft
}

fn cuts() -> [Cut; 3] {
    [
        Cut::Edge {
            faces: [Face::Left, Face::Right],
            legs: [mm(1.0), mm(2.0)],
        },
        Cut::Corner {
            faces: [Face::Front, Face::Back, Face::Cut(203)],
            legs: [mm(3.0), mm(4.0), mm(5.0)],
        },
        Cut::Plane {
            normal: [0.5, -0.25, 1.0],
            through: [mm(6.0), mm(7.0), mm(8.0)],
        },
    ]
}

/// Every shape, and every kind within each.
fn shapes() -> Vec<Shape> {
    let Shape::Block(mut block) = example("rinse-tank").shape else {
        panic!("the rinse tank is a block");
    };
    block.cuts.clear();
    block.cuts.extend(cuts());
    let point = |x, z, radius| ProfilePoint {
        x: mm(x),
        z: mm(z),
        radius: mm(radius),
    };
    let mut shapes = Vec::new();
    for sized in [Sized::Outside, Sized::Inside] {
        block.sized = sized;
        shapes.push(Shape::Block(block.clone()));
        let outline = [
            point(1.0, 2.0, 3.0),
            point(40.0, 5.0, 0.0),
            point(6.0, 70.0, 8.0),
        ];
        shapes.push(Shape::Profile(Profile {
            sized,
            outline: outline.into_iter().collect(),
            width: mm(9.0),
        }));
        shapes.push(Shape::Taper(Taper {
            sized,
            base: [mm(10.0), mm(11.0)],
            top: [mm(12.0), mm(13.0)],
            height: mm(14.0),
            shift: [mm(-15.0), mm(16.0)],
        }));
        for axis in Axis::ALL {
            for ends in [
                Ends::Flat,
                Ends::Hemispherical,
                Ends::Ellipsoidal,
                Ends::Torispherical {
                    crown: mm(17.0),
                    knuckle: mm(18.0),
                },
            ] {
                shapes.push(Shape::Drum(Drum {
                    sized,
                    diameter: mm(19.0),
                    length: mm(20.0),
                    axis,
                    ends,
                }));
            }
        }
    }
    shapes
}

/// A draft with nothing left out; no two numbers in a structure are the same, so that a swap shows.
fn full() -> Draft {
    let mut full = example("rinse-tank");
    full.shape = shapes().swap_remove(0);
    full.stock.temper = Some(Temper::H22);
    full.stock.faces.clear();
    full.stock
        .faces
        .extend([(Face::Bottom, mm(1.5)), (Face::Cut(202), mm(2.5))]);

    full.joints.default = Some(Joint::OpenCorner);
    full.joints.own.clear();
    full.joints.own.extend(Joint::ALL.map(|joint| OwnJoint {
        faces: [Face::Top, Face::Side(209)],
        joint,
    }));
    full.joints.folds.clear();
    full.joints
        .folds
        .extend([[Face::Front, Face::Left], [Face::Cut(205), Face::Right]]);
    full.joints.bend_radius = Some(mm(31.0));
    full.joints.k_factor = Some(Ratio::from_share(0.32));
    full.joints.lap = Some(mm(33.0));
    full.joints.gap = Some(mm(0.34));

    full.fittings.clear();
    full.fittings.extend(FACES.map(|face| FittingDraft {
        name: "filler neck".try_into().unwrap(),
        face,
        at: [mm(41.0), mm(42.0)],
        bore: mm(43.0),
        outer: Some(mm(44.0)),
        stand_in: mm(45.0),
    }));
    full.fittings[0].outer = None;

    full.baffles.clear();
    full.baffles.extend(Across::ALL.map(|across| {
        BaffleDraft {
            across,
            at: mm(51.0),
            thickness: Some(mm(52.0)),
            holes: [HoleDraft {
                at: [mm(53.0), mm(54.0)],
                diameter: mm(55.0),
            }; 2]
                .into_iter()
                .collect(),
            free: [Face::Top, Face::Side(3)].into_iter().collect(),
            spaced: Some([mm(56.0), mm(57.0)]),
        }
    }));
    full.baffles[0].thickness = None;
    full.baffles[1].holes.clear();
    full.baffles[1].free = WallSet::NONE;
    full.baffles[2].spaced = None;

    full.fill.headspace = Some(Ratio::from_share(0.125));
    full.fill.target = Some(Volume::new(6.5, VolumeUnit::Litre));
    full.fill.target_of = Some(Measure::Brim);
    full.fill.pick_up = Some(mm(9.0));
    full.fill.pick_up_at = Some([mm(61.0), mm(62.0)]);
    full.fill.neck = Some(mm(63.0));
    full.fill.pitch = Some(Angle::new(6.0, AngleUnit::Degree));
    full.fill.roll = Some(Angle::new(7.0, AngleUnit::Degree));
    full.fill.dip_step = Some(mm(10.0));
    full.fill.dip_volume = Some(Volume::new(0.25, VolumeUnit::Litre));
    full.fill.dip_at = Some([mm(64.0), mm(65.0)]);
    full.fill.fill_temperature = Some(Temperature::new(15.0, TemperatureUnit::Celsius));
    full.fill.reaches = Some(Volume::new(21.0, VolumeUnit::Litre));
    full.fill.hottest = Some(Temperature::new(80.0, TemperatureUnit::Celsius));
    full.fill.liquid = Some(Liquid::Water);

    full.arc.process = Some(Process::TigAc);
    full.arc.current = Some(Current::from_amperes(91.0));
    full.arc.voltage = Some(Voltage::from_volts(13.5));
    full.arc.travel = Some(Speed::new(150.0, SpeedUnit::MillimetrePerMinute));
    full.arc.efficiency = Some(Ratio::from_share(0.75));
    full.weld.stitch_max = Some(mm(70.0));
    full.weld.tack_pitch = Some(mm(71.0));
    full.weld.interpass_max = Some(Temperature::new(110.0, TemperatureUnit::Celsius));
    full.weld.ambient = Some(Temperature::new(16.0, TemperatureUnit::Celsius));
    full.weld.emissivity = Some(Ratio::from_share(0.21));
    full.weld.moving = Some(Time::new(11.0, TimeUnit::Second));
    full.weld.back_step = Some(true);
    full.weld.opening = Some(mm(121.0));
    full.weld.reach = Some(mm(501.0));
    full.service.temperature = Some(Temperature::new(85.0, TemperatureUnit::Celsius));
    full.service.pressure = Some(Pressure::new(21.0, PressureUnit::Kilopascal));
    full.service.acceleration = Some([1.5, 0.5, 2.5].map(Ratio::from_share));
    full.service.anodised = Some(true);
    full.service.mounts.clear();
    full.service.mounts.extend([
        [mm(81.0), mm(82.0), mm(83.0)],
        [mm(84.0), mm(85.0), mm(86.0)],
    ]);
    full
}

/// `full` with one thing changed, for each of `values`.
fn vary<T>(values: impl IntoIterator<Item = T>, set: impl Fn(&mut Draft, T)) -> Vec<Draft> {
    let varied = |value| {
        let mut draft = full();
        set(&mut draft, value);
        draft
    };
    values.into_iter().map(varied).collect()
}

/// Drafts that between them use every kind of everything.
fn drafts() -> Vec<Draft> {
    let mut drafts: Vec<_> = ["header-tank", "log-splitter-reservoir", "rinse-tank"]
        .map(example)
        .into();
    drafts.extend(vary(shapes(), |draft, shape| draft.shape = shape));
    drafts.extend(vary(Alloy::ALL, |draft, alloy| draft.stock.alloy = *alloy));
    drafts.extend(vary(Temper::ALL, |draft, temper| {
        draft.stock.temper = Some(*temper);
    }));
    drafts.extend(vary(FACES, |draft, face| draft.stock.faces[0].0 = face));
    drafts.extend(vary(Joint::ALL, |draft, joint| {
        draft.joints.default = Some(joint);
    }));
    drafts.extend(vary(Measure::ALL, |draft, measure| {
        draft.fill.target_of = Some(measure);
    }));
    drafts.extend(vary(Liquid::ALL, |draft, liquid| {
        draft.fill.liquid = Some(liquid);
    }));
    drafts.extend(vary(Process::ALL, |draft, process| {
        draft.arc.process = Some(process);
    }));
    drafts
}

pub(crate) fn requests() -> Vec<Request> {
    let mut requests = vec![
        Request::Hello,
        Request::Forget,
        Request::Compute(example("header-tank")),
        Request::Panels { from: 204 },
        Request::Seams { from: 200 },
        Request::Level {
            pitch: Angle::from_radians(0.25),
            roll: Angle::from_radians(-0.5),
            share: Ratio::from_share(0.75),
        },
        Request::Status,
        Request::Order {
            place: 200,
            from: 300,
            steps: [
                (false, (0, None), 20),
                (true, (7_200, Some(StepCause::Metal)), -30),
                (false, (130, Some(StepCause::PowerSource)), 499),
                (false, (130, Some(StepCause::Torch)), 499),
            ]
            .map(|(reversed, (wait, cause), warmth)| WeldStep {
                stitch: 255,
                reversed,
                wait,
                cause,
                warmth,
            })
            .into_iter()
            .collect(),
        },
    ];
    requests.extend(drafts().into_iter().map(Request::Keep));
    requests
}
