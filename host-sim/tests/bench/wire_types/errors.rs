//! Every field and every problem that a refusal can name.

use seamwright_core::blank::{BendError, BendField, BlankError, JointError};
use seamwright_core::body::turned::TurnedError;
use seamwright_core::body::{BlockError, DrumError, ProfileError, ShapeError, TaperError};
use seamwright_core::fitting::PlaceError;
use seamwright_core::geom::outline::section::SectionError;
use seamwright_core::input::{Face, Field, Joint};
use seamwright_core::tank::Problem;
use seamwright_core::units::range::{Limit, OutOfRange, Value as Bound};
use seamwright_core::units::{
    Angle, Area, Current, Energy, Pressure, PressureUnit, Ratio, Speed, SpeedUnit, Temperature,
    TemperatureUnit, Time, TimeUnit, Voltage, Volume, VolumeUnit,
};

use super::drafts::FACES;
use super::mm;

const EDGE: [Face; 2] = [Face::Top, Face::Side(210)];

fn rad(value: f64) -> Angle {
    Angle::from_radians(value)
}

/// Every value that a limit can be of.
fn values() -> [Bound; 13] {
    [
        Bound::Length(mm(1.0)),
        Bound::Volume(Volume::new(2.0, VolumeUnit::Litre)),
        Bound::Angle(rad(3.0)),
        Bound::Ratio(Ratio::from_share(0.5)),
        Bound::Current(Current::from_amperes(95.0)),
        Bound::Voltage(Voltage::from_volts(12.0)),
        Bound::Speed(Speed::new(150.0, SpeedUnit::MillimetrePerMinute)),
        Bound::Count(70_000),
        Bound::Temperature(Temperature::new(80.0, TemperatureUnit::Celsius)),
        Bound::Pressure(Pressure::new(20.0, PressureUnit::Kilopascal)),
        Bound::Time(Time::new(10.0, TimeUnit::Second)),
        Bound::Energy(Energy::from_joules(91.0)),
        Bound::Area(Area::from_square_metres(0.2)),
    ]
}

fn out_of_range() -> Vec<OutOfRange> {
    let limits = |value| {
        [
            Limit::AtLeast(value),
            Limit::AtMost(value),
            Limit::Above(value),
            Limit::Below(value),
        ]
        .map(|limit| OutOfRange { value, limit })
    };
    values().into_iter().flat_map(limits).collect()
}

fn blocks() -> Vec<BlockError> {
    vec![
        BlockError::Flat,
        BlockError::NoSuchEdge {
            cut: 201,
            faces: [Face::Top, Face::Bottom],
        },
        BlockError::NoSuchCorner { cut: 202 },
        BlockError::NoDirection { cut: 203 },
        BlockError::RemovesNothing {
            cut: 204,
            clearance: mm(5.0),
        },
        BlockError::RemovesAll { cut: 206 },
        BlockError::Swallowed { cut: 207, by: 208 },
        BlockError::SheetFillsBox {
            outside: mm(3.0),
            sheet: mm(4.0),
            face: Face::Back,
        },
        BlockError::SheetFillsCut { cut: 205 },
        BlockError::TooComplex { cut: 202 },
        BlockError::Covered { face: Face::Front },
    ]
}

fn sections() -> Vec<SectionError> {
    vec![
        SectionError::TooFew { corners: 70_002 },
        SectionError::TooMany { corners: 70_013 },
        SectionError::NotFinite { corner: 201 },
        SectionError::ZeroSide {
            corners: [202, 203],
        },
        SectionError::Straight { corner: 204 },
        SectionError::TurnsBack { corner: 205 },
        SectionError::Radius {
            corner: 206,
            radius: mm(20.0),
            most: mm(10.0),
        },
        SectionError::Crossing { sides: [207, 208] },
        SectionError::Flat,
        SectionError::SheetCount {
            sides: 70_004,
            given: 70_005,
        },
        SectionError::SheetNotFinite { side: 209 },
        SectionError::Thick {
            sides: [210, 211],
            sheets: [mm(3.0), mm(4.0)],
        },
        SectionError::SideVanishes {
            side: 212,
            length: mm(5.0),
        },
        SectionError::RadiusUnderSheet {
            corner: 213,
            radius: mm(1.0),
            sheet: mm(2.0),
        },
        SectionError::UnequalSheets {
            corner: 214,
            sheets: [mm(6.0), mm(7.0)],
        },
    ]
}

fn shapes() -> Vec<ShapeError> {
    let profiles = [
        ProfileError::Flat,
        ProfileError::SheetFillsWidth {
            width: mm(3.0),
            sheet: mm(4.0),
        },
        ProfileError::TooComplex,
    ];
    let tapers = [
        TaperError::Flat,
        TaperError::SheetFillsHeight {
            height: mm(3.0),
            sheet: mm(4.0),
        },
        TaperError::Closed {
            end: Face::Top,
            wall: Face::Left,
            by: mm(5.0),
        },
    ];
    let drums = [
        DrumError::Turned(TurnedError::Size { value: mm(-1.0) }),
        DrumError::Turned(TurnedError::Crown {
            crown: mm(2.0),
            least: mm(3.0),
        }),
        DrumError::Turned(TurnedError::Knuckle {
            knuckle: mm(4.0),
            most: mm(3.0),
        }),
        DrumError::SheetFills {
            outside: mm(3.0),
            sheet: mm(4.0),
            face: Face::Shell,
        },
        DrumError::UnequalSheets {
            head: Face::Bottom,
            sheet: mm(5.0),
            shell: mm(6.0),
        },
    ];
    let mut shapes: Vec<_> = blocks().into_iter().map(ShapeError::Block).collect();
    for section in sections() {
        shapes.push(ShapeError::Profile(ProfileError::Outline(section)));
        shapes.push(ShapeError::Profile(ProfileError::Sheet(section)));
    }
    shapes.extend(profiles.map(ShapeError::Profile));
    shapes.extend(tapers.map(ShapeError::Taper));
    shapes.extend(drums.map(ShapeError::Drum));
    shapes
}

fn bends() -> [BendError; 4] {
    let problem = OutOfRange {
        value: Bound::Length(mm(1.0)),
        limit: Limit::AtLeast(Bound::Length(mm(2.0))),
    };
    [
        BendField::Thickness,
        BendField::InsideRadius,
        BendField::Turn,
        BendField::KFactor,
    ]
    .map(|field| BendError { field, problem })
}

fn joints() -> Vec<JointError> {
    let mut joints = vec![
        JointError::NotFlat {
            joint: Joint::Butt,
            dihedral: rad(1.0),
        },
        JointError::NoCorner {
            joint: Joint::Tee,
            dihedral: rad(3.0),
        },
        JointError::TooSharp {
            dihedral: rad(0.1),
            least: rad(0.2),
        },
        JointError::ShortFlange {
            lap: mm(3.0),
            least: mm(4.0),
        },
    ];
    joints.extend(bends().map(JointError::Bend));
    joints.push(JointError::Round);
    joints
}

fn blanks() -> Vec<BlankError> {
    let mut blanks = vec![
        BlankError::Sharp {
            faces: EDGE,
            turn: rad(3.1),
            most: rad(3.0),
        },
        BlankError::Ring { faces: EDGE },
        BlankError::Overlap {
            faces: EDGE,
            folds: [
                Some([Face::Left, Face::Cut(201)]),
                None,
                Some([Face::Right, Face::Top]),
                None,
            ],
            count: 205,
        },
        BlankError::Narrow {
            face: Face::Side(206),
        },
        BlankError::TooComplex {
            face: Face::Cut(207),
        },
    ];
    blanks.extend(bends().map(|error| BlankError::Bend { faces: EDGE, error }));
    let joint = |error| BlankError::Joint { faces: EDGE, error };
    blanks.extend(joints().into_iter().map(joint));
    blanks
}

fn places() -> [PlaceError; 8] {
    [
        PlaceError::OffFace {
            face: Face::Side(201),
            by: mm(1.0),
        },
        PlaceError::OffCentre {
            face: Face::Top,
            by: mm(2.0),
            centre: mm(3.0),
        },
        PlaceError::NoOuter,
        PlaceError::Overlap { other: 202 },
        PlaceError::Outside {
            low: mm(4.0),
            high: mm(5.0),
        },
        PlaceError::Parted,
        PlaceError::NotAcrossDrum,
        PlaceError::OffBaffle { by: mm(6.0) },
    ]
}

/// Every problem, with everything that it can carry.
pub(crate) fn problems() -> Vec<Problem> {
    let mut problems = vec![
        Problem::NoSuchEdge(EDGE),
        Problem::EdgeTaken(EDGE),
        Problem::FoldOfTwoSheets(EDGE),
        Problem::Unnamed,
        Problem::NoStartingValue,
        Problem::OverNoLiquid,
        Problem::TooManyStitches {
            needed: 300,
            most: 256,
        },
        Problem::TooManyTacks,
        Problem::FoldBesideRound(EDGE),
        Problem::NoRoomForFold,
        Problem::TooManyMarks {
            needed: 100_000,
            most: 200,
        },
    ];
    problems.push(Problem::NotAtBaffle(Face::Top));
    problems.extend(FACES.map(Problem::NoSuchFace));
    problems.extend(out_of_range().into_iter().map(Problem::OutOfRange));
    problems.extend(shapes().into_iter().map(Problem::Shape));
    let joint = |error| Problem::Joint { faces: EDGE, error };
    problems.extend(joints().into_iter().map(joint));
    problems.extend(blanks().into_iter().map(Problem::Blank));
    problems.extend(places().map(Problem::Place));
    problems
}

pub(crate) const FIELDS: [Field; 71] = [
    Field::Name,
    Field::Shape,
    Field::Length,
    Field::Width,
    Field::Height,
    Field::Cut(201),
    Field::CutLeg(202, 203),
    Field::CutThrough(204, 205),
    Field::Point(206),
    Field::Base(207),
    Field::TopSize(208),
    Field::Shift(209),
    Field::Diameter,
    Field::Crown,
    Field::Knuckle,
    Field::Alloy,
    Field::Thickness,
    Field::FaceThickness(Face::Cut(206)),
    Field::JointsDefault,
    Field::OwnJoint(210),
    Field::Fold(211),
    Field::BendRadius,
    Field::KFactor,
    Field::Lap,
    Field::Gap,
    Field::Fitting(212),
    Field::FittingAt(213),
    Field::FittingBore(214),
    Field::FittingOuter(215),
    Field::FittingStandIn(216),
    Field::Baffle(217),
    Field::BaffleAt(218),
    Field::BaffleThickness(219),
    Field::BaffleHoleAt(220, 221),
    Field::Headspace,
    Field::Target,
    Field::PickUp,
    Field::PickUpAt,
    Field::Neck,
    Field::Pitch,
    Field::Roll,
    Field::DipStep,
    Field::DipVolume,
    Field::DipAt,
    Field::FillTemperature,
    Field::Hottest,
    Field::Liquid,
    Field::Process,
    Field::Current,
    Field::Voltage,
    Field::Travel,
    Field::Efficiency,
    Field::StitchMax,
    Field::TackPitch,
    Field::InterpassMax,
    Field::Ambient,
    Field::Emissivity,
    Field::Moving,
    Field::UseTemperature,
    Field::UsePressure,
    Field::Acceleration(221),
    Field::Mount(222),
    Field::FittingFace(222),
    Field::BaffleAcross(223),
    Field::BaffleHoleDiameter(224, 225),
    Field::BaffleFree(226, Face::Side(201)),
    Field::BaffleWeldLength(228),
    Field::BaffleWeldGap(229),
    Field::Opening,
    Field::Reach,
    Field::Reaches,
];
