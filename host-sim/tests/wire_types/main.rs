//! The tables of `core/docs/wire.md` are the wire: messages are decoded by nothing but those tables,
//! and every value must come out under the name the document gives it.
//!
//! What the tables say is compared with serde's own view of the same value as JSON, so a field out of
//! order, a wrong number or a missing kind shows.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    reason = "what the tests share may fail as the tests themselves may"
)]

mod tables;

use std::collections::BTreeSet;

use seamwright::job_file::JobFile;
use seamwright_core::body::{BlockError, Cut, Face};
use seamwright_core::bound::{Limit, OutOfRange, Value as Bound};
use seamwright_core::capacity::{Lean, Measure};
use seamwright_core::heat::arc::Process;
use seamwright_core::job::{Draft, Field, JobError, Problem, Tank};
use seamwright_core::panel::{Panel, PanelMark};
use seamwright_core::quantity::{
    Angle, Current, Length, Ratio, Speed, SpeedUnit, Voltage, Volume, VolumeUnit,
};
use seamwright_core::seam::{Joint, SeamMark};
use seamwright_core::stock::{Alloy, Temper};
use seamwright_core::wire::{Fault, Reply, Request, SeamReport, Status, encode, summary};
use serde_json::{Value, to_value};
use tables::{Tables, frame_to_message};

const TEXT: &str = include_str!("../../../core/docs/wire.md");

/// Decodes a message by the tables and compares; the kinds of every enum met go into `met`.
fn check(tables: &Tables, kind: &str, frame: &[u8], value: &Value, met: &mut BTreeSet<String>) {
    let message = frame_to_message(frame);
    let (decoded, rest) = tables.decode(kind, &message, met);
    assert!(rest.is_empty(), "{kind}: {} bytes left over", rest.len());
    assert_eq!(decoded, *value, "{kind}");
}

fn example(name: &str) -> Draft {
    let path = format!("{}/examples/{name}.toml", env!("CARGO_MANIFEST_DIR"));
    JobFile::open(&path).unwrap().draft
}

fn mm(value: f64) -> Length {
    Length::from_metres(value / 1e3)
}

/// Drafts that between them use every kind of everything.
fn drafts() -> Vec<Draft> {
    let mut drafts: Vec<_> = ["header-tank", "log-splitter-reservoir", "rinse-tank"]
        .map(example)
        .into();
    let mut full = example("rinse-tank");
    full.shape.cuts.clear();
    let cuts = [
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
    ];
    full.shape.cuts.extend(cuts);
    full.stock.faces.clear();
    full.stock
        .faces
        .extend([(Face::Bottom, mm(1.5)), (Face::Cut(202), mm(2.5))]);
    full.joints.default = Some(Joint::OpenCorner);
    full.fill.headspace = Some(Ratio::from_share(0.125));
    full.fill.target = Some(Volume::new(6.5, VolumeUnit::Litre));
    full.fill.pick_up = Some(mm(9.0));
    full.fill.dip_step = Some(mm(10.0));
    full.arc.voltage = Some(Voltage::from_volts(13.5));
    full.arc.efficiency = Some(Ratio::from_share(0.75));
    full.weld.stitch_max = Some(mm(70.0));
    full.weld.tack_pitch = Some(mm(71.0));
    for measure in Measure::ALL {
        full.fill.target_of = Some(measure);
        drafts.push(full.clone());
    }
    for process in Process::ALL {
        full.arc.process = Some(process);
        drafts.push(full.clone());
    }
    for alloy in Alloy::ALL {
        full.stock.alloy = *alloy;
        drafts.push(full.clone());
    }
    for temper in Temper::ALL {
        full.stock.temper = Some(*temper);
        drafts.push(full.clone());
    }
    for face in Face::BOX {
        full.stock.faces[0].0 = face;
        drafts.push(full.clone());
    }
    drafts
}

fn requests() -> Vec<Request> {
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
    ];
    requests.extend(drafts().into_iter().map(Request::Keep));
    requests
}

/// Every value that a limit can be of.
fn values() -> [Bound; 8] {
    [
        Bound::Length(mm(1.0)),
        Bound::Volume(Volume::new(2.0, VolumeUnit::Litre)),
        Bound::Angle(Angle::from_radians(3.0)),
        Bound::Ratio(Ratio::from_share(0.5)),
        Bound::Current(Current::from_amperes(95.0)),
        Bound::Voltage(Voltage::from_volts(12.0)),
        Bound::Speed(Speed::new(150.0, SpeedUnit::MillimetrePerMinute)),
        Bound::Count(70_000),
    ]
}

fn problems() -> Vec<Problem> {
    let blocks = [
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
    ];
    let mut problems = vec![
        Problem::Unnamed,
        Problem::NoSuchFace(Face::Cut(207)),
        Problem::NoStartingValue,
        Problem::TooManyStitches {
            needed: 300,
            most: 256,
        },
        Problem::TooManyTacks,
        Problem::TooManyMarks {
            needed: 100_000,
            most: 200,
        },
    ];
    problems.extend(blocks.map(Problem::Block));
    for value in values() {
        for limit in [
            Limit::AtLeast(value),
            Limit::AtMost(value),
            Limit::Above(value),
            Limit::Below(value),
        ] {
            problems.push(Problem::OutOfRange(OutOfRange { value, limit }));
        }
    }
    problems
}

const FIELDS: [Field; 23] = [
    Field::Name,
    Field::Shape,
    Field::Length,
    Field::Width,
    Field::Height,
    Field::Cut(201),
    Field::CutLeg(202, 203),
    Field::CutThrough(204, 205),
    Field::Alloy,
    Field::Thickness,
    Field::FaceThickness(Face::Cut(206)),
    Field::JointsDefault,
    Field::Headspace,
    Field::Target,
    Field::PickUp,
    Field::DipStep,
    Field::Process,
    Field::Current,
    Field::Voltage,
    Field::Travel,
    Field::Efficiency,
    Field::StitchMax,
    Field::TackPitch,
];

/// Numbers here are past 127 where a whole number is, or a byte could not be told from a varint.
fn replies() -> Vec<Reply> {
    let tank = Tank::build(&example("log-splitter-reservoir")).unwrap();
    let mut summary = summary(&tank);
    (summary.totals.tacks, summary.totals.stitches) = (70_000, 300);
    (summary.panels, summary.seams) = (216, 240);
    let many = |seam| {
        let mut report = SeamReport::of(&tank, seam);
        report.seam.mark = SeamMark([PanelMark::at(129), PanelMark::at(130)]);
        report.tacks.as_mut().unwrap().count = 9_999;
        report.stitches.as_mut().unwrap().count = 256;
        report
    };
    let seams = tank.seams().take(4).map(many).collect();
    let marked = |mut panel: Panel| {
        panel.mark = PanelMark::at(131);
        panel
    };
    let panels = tank.panels().take(4).map(marked).collect();
    let mut replies = vec![
        Reply::Hello {
            protocol: 300,
            board: "bench".try_into().unwrap(),
            version: "0.1.0".try_into().unwrap(),
        },
        Reply::Kept { place: 205 },
        Reply::ShelfFull { most: 206 },
        Reply::Forgot,
        Reply::Computed(summary),
        Reply::Panels(panels),
        Reply::Seams(seams),
        Reply::Level(tank.pool(Lean::LEVEL).at(mm(50.0)).ok()),
        Reply::Level(None),
        Reply::NothingHeld,
        Reply::Status(Status {
            events: 1_000,
            redraws: 2_000,
            last_redraw_bytes: 300,
            display_bytes: 4_000_000_000,
            last_redraw_ticks: 5_000,
            last_compute_ticks: 6_000,
            stack_high_water: 7_000,
            stack_size: 8_000,
            link_lost: 9_000,
        }),
    ];
    let unread = [
        Fault::TooLong,
        Fault::Packing,
        Fault::Checksum,
        Fault::Unknown,
    ];
    replies.extend(unread.map(Reply::Unread));
    let field = Field::Shape;
    replies.extend(
        problems()
            .into_iter()
            .map(|problem| Reply::Refused(JobError { field, problem })),
    );
    let problem = Problem::Unnamed;
    replies.extend(FIELDS.map(|field| Reply::Refused(JobError { field, problem })));
    replies
}

#[test]
fn every_message_reads_by_the_tables_and_every_row_is_met() {
    let tables = Tables::of(TEXT);
    let mut met = BTreeSet::new();
    for request in requests() {
        let (frame, value) = (encode(&request).unwrap(), to_value(&request).unwrap());
        check(&tables, "Request", &frame, &value, &mut met);
    }
    for reply in replies() {
        let (frame, value) = (encode(&reply).unwrap(), to_value(&reply).unwrap());
        check(&tables, "Reply", &frame, &value, &mut met);
    }
    let missed: Vec<_> = tables.kinds().filter(|kind| !met.contains(kind)).collect();
    assert!(
        missed.is_empty(),
        "documented and never seen on the wire: {missed:?}"
    );
}

#[test]
fn the_worked_job_is_what_it_says() {
    let (_, text) = TEXT.split_once("### A job, byte by byte").unwrap();
    let job = text.split("```toml\n").nth(1).unwrap();
    let job = job.split("```").next().unwrap();
    let source = seamwright::diagnostics::Source {
        name: "wire.md".to_owned(),
        text: job.to_owned(),
    };
    let draft = JobFile::read(source).unwrap().draft;
    let frame = encode(&Request::Keep(draft)).unwrap();

    let table = text.split("| bytes |").nth(1).unwrap();
    let rows = table
        .lines()
        .skip(2)
        .take_while(|line| line.starts_with('|'));
    let bytes: Vec<u8> = rows
        .flat_map(|row| hex(row.split('|').nth(1).unwrap()))
        .collect();
    assert_eq!(bytes, frame_to_message(&frame));

    let whole = text.split("```hex\n").nth(1).unwrap();
    assert_eq!(hex(whole.split("```").next().unwrap()), frame[..]);
}

fn hex(text: &str) -> Vec<u8> {
    text.replace('`', "")
        .split_whitespace()
        .map(|byte| u8::from_str_radix(byte, 16).unwrap())
        .collect()
}
