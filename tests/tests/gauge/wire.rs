//! The wire does what `core/docs/wire.md` says, and nothing that happens on a line gets past it.

use proptest::prelude::*;
use seamwright_core::input::limits::{MAX_LABEL, MAX_NAME};
use seamwright_core::input::{
    Across, ArcDraft, BaffleDraft, Cut, Draft, Face, FillDraft, FittingDraft, HoleDraft, Joint,
    Label, Measure, Name, OwnJoint, Shape, UseDraft, WallSet, WeldDraft,
};
use seamwright_core::tables::{GlycolShare, Liquid, Process, Temper};
use seamwright_core::tank::Tank;
use seamwright_core::units::{
    Angle, Current, Length, Pressure, PressureUnit, Ratio, Speed, Temperature, Time, TimeUnit,
    Voltage, Volume,
};
use seamwright_core::wire::{
    BATCH, Decoder, Fault, MAX_FRAME, MAX_MESSAGE, MAX_PACKED, MAX_REPLY_FRAME, Reply, Request,
    SeamReport, encode, encode_reply, pack,
};
use seamwright_tests::random_jobs::Jobs;

/// Every message that the bytes close, in order.
fn read<T: serde::de::DeserializeOwned>(bytes: &[u8]) -> Vec<Result<T, Fault>> {
    let mut decoder = Decoder::new();
    bytes
        .iter()
        .filter_map(|byte| decoder.push(*byte))
        .collect()
}

/// The message inside a frame that was made here: COBS undone by its definition, the CRC cut off.
fn message(frame: &[u8]) -> Vec<u8> {
    let (mut plain, mut rest) = (Vec::new(), &frame[..frame.len() - 1]);
    while let Some((code, tail)) = rest.split_first() {
        let (run, next) = tail.split_at(usize::from(*code) - 1);
        plain.extend_from_slice(run);
        if *code < 255 && !next.is_empty() {
            plain.push(0);
        }
        rest = next;
    }
    plain.truncate(plain.len() - 4);
    plain
}

/// The bytes after `label` in the specification's examples, from `heading` on.
fn example(heading: &str, label: &str) -> Vec<u8> {
    let text = include_str!("../../../core/docs/wire.md");
    let part = text
        .split("## Examples")
        .nth(1)
        .unwrap()
        .split(heading)
        .nth(1)
        .unwrap();
    let line = part
        .lines()
        .find(|line| line.trim_start().starts_with(label))
        .unwrap();
    let bytes = line.trim_start().strip_prefix(label).unwrap();
    bytes
        .split_whitespace()
        .map(|byte| u8::from_str_radix(byte, 16).unwrap())
        .collect()
}

#[test]
fn the_examples_of_the_specification_hold() {
    let hello = encode(&Request::Hello).unwrap();
    assert_eq!(hello[..], example("`Hello`, the request", "frame"));
    assert_eq!(message(&hello), example("`Hello`, the request", "message"));
    let level = Request::Level {
        pitch: Angle::default(),
        roll: Angle::default(),
        share: Ratio::from_share(0.5),
    };
    assert_eq!(
        message(&encode(&level).unwrap()),
        example("`Level` at", "message")
    );
    let unread = Reply::Unread(Fault::Checksum);
    assert_eq!(
        message(&encode(&unread).unwrap()),
        example("`Unread(Checksum)`", "message")
    );
}

/// Bytes as they stand.
struct Bytes(Vec<u8>);

impl serde::Serialize for Bytes {
    fn serialize<S: serde::Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        use serde::ser::SerializeTuple;
        let mut all = serializer.serialize_tuple(self.0.len())?;
        for byte in &self.0 {
            all.serialize_element(byte)?;
        }
        all.end()
    }
}

/// A process is its place in the list: a gauge that does not know the place says that the message is of another version,
/// and keeps nothing of it.
#[test]
fn a_process_that_is_not_known_is_refused() {
    let with = |process| {
        let mut draft = large_draft(Length::from_metres(0.1));
        draft.arc.process = Some(process);
        message(&encode(&Request::Compute(draft)).unwrap())
    };
    let (mag, cored) = (with(Process::Mag), with(Process::FluxCored));
    let differ: Vec<usize> = (0..mag.len()).filter(|n| mag[*n] != cored[*n]).collect();
    let [place] = differ[..] else {
        panic!("one byte tells the process, not {differ:?}");
    };
    assert_eq!((mag[place], cored[place]), (3, 4));
    for number in 0..=255_u8 {
        let mut bytes = mag.clone();
        bytes[place] = number;
        let frame = encode(&Bytes(bytes)).unwrap();
        let known = usize::from(number) < Process::ALL.len();
        match &read::<Request>(&frame)[..] {
            [Ok(_)] => assert!(known, "{number}"),
            [Err(Fault::Unknown)] => assert!(!known, "{number}"),
            other => panic!("{number}: {other:?}"),
        }
    }
}

/// A draft with every list full, and what a job file seldom leaves out.
fn large_draft(far: Length) -> Draft {
    let mut draft = Jobs::blocks(3).next().unwrap();
    draft.name = Name::try_from("n".repeat(MAX_NAME).as_str()).unwrap();
    let Shape::Block(block) = &mut draft.shape else {
        panic!("these jobs are blocks");
    };
    block.cuts.clear();
    while block
        .cuts
        .push(Cut::Plane {
            normal: [-0.1, 0.2, 0.3],
            through: [far; 3],
        })
        .is_ok()
    {}
    let faces = [Face::Cut(7), Face::Cut(8)];
    let joint = Joint::FlangedLap;
    while draft.joints.own.push(OwnJoint { faces, joint }).is_ok() {}
    while draft.joints.folds.push(faces).is_ok() {}
    draft.joints.bend_radius = Some(far);
    let fitting = FittingDraft {
        name: Label::try_from("l".repeat(MAX_LABEL).as_str()).unwrap(),
        face: Face::Cut(8),
        at: [far; 2],
        bore: far,
        outer: Some(far),
        stand_in: far,
    };
    while draft.fittings.push(fitting.clone()).is_ok() {}
    let mut baffle = BaffleDraft {
        across: Across::Height,
        at: far,
        thickness: Some(far),
        holes: heapless::Vec::new(),
        free: WallSet::NONE,
        spaced: Some([far; 2]),
    };
    let hole = HoleDraft {
        at: [far; 2],
        diameter: far,
    };
    while baffle.holes.push(hole).is_ok() {}
    baffle.free.add(Face::Shell);
    while draft.baffles.push(baffle.clone()).is_ok() {}
    while draft.stock.faces.push((Face::Cut(8), far)).is_ok() {}
    draft.fill.target = Some(Volume::default());
    draft.fill.target_of = Some(Measure::default());
    draft.fill.dip_step = Some(far);
    draft
}

fn far() -> Length {
    Length::from_metres(-1.234_567_890_123e-3)
}

#[test]
fn the_largest_messages_fit() {
    let draft = large_draft(far());
    let frame = encode(&Request::Keep(draft)).unwrap();
    assert!(frame.len() <= MAX_FRAME, "{}", frame.len());

    let tank = Jobs::new(5)
        .find_map(|draft| Tank::build(&draft).ok())
        .unwrap();
    let seams: heapless::Vec<_, BATCH> = tank
        .seams()
        .take(BATCH)
        .map(|seam| SeamReport::of(&tank, seam))
        .collect();
    assert_eq!(seams.len(), BATCH);
    let mut frame = heapless::Vec::<u8, MAX_REPLY_FRAME>::new();
    assert_eq!(encode_reply(&Reply::Seams(seams), &mut frame), Ok(()));
}

#[test]
fn a_draft_with_nothing_left_out_fits() {
    let far = far();
    let mut draft = large_draft(far);
    let lean = Some(Angle::from_radians(0.1));
    let warm = Some(Temperature::from_kelvins(300.1));
    draft.fill = FillDraft {
        reaches: Some(Volume::from_cubic_metres(0.5)),
        headspace: Some(Ratio::from_share(0.1)),
        target: Some(Volume::from_cubic_metres(0.1)),
        target_of: Some(Measure::Usable),
        pick_up: Some(far),
        pick_up_at: Some([far; 2]),
        neck: Some(far),
        pitch: lean,
        roll: lean,
        dip_step: Some(far),
        dip_volume: Some(Volume::from_cubic_metres(0.1)),
        dip_at: Some([far; 2]),
        fill_temperature: warm,
        hottest: warm,
        liquid: Some(Liquid::EthyleneGlycol(GlycolShare::HALF)),
    };
    draft.arc = ArcDraft {
        process: Some(Process::TigAc),
        current: Some(Current::from_amperes(0.1)),
        voltage: Some(Voltage::from_volts(0.1)),
        travel: Some(Speed::from_metres_per_second(0.1)),
        efficiency: Some(Ratio::from_share(0.1)),
    };
    draft.weld = WeldDraft {
        stitch_max: Some(far),
        tack_pitch: Some(far),
        interpass_max: warm,
        ambient: warm,
        emissivity: Some(Ratio::from_share(0.1)),
        moving: Some(Time::new(0.1, TimeUnit::Second)),
        back_step: Some(true),
        opening: Some(far),
        reach: Some(far),
    };
    draft.service = UseDraft {
        temperature: warm,
        pressure: Some(Pressure::new(0.1, PressureUnit::Bar)),
        acceleration: Some([Ratio::from_share(0.1); 3]),
        anodised: Some(true),
        mounts: [[far; 3]; 4].into_iter().collect(),
    };
    draft.joints.default = Some(Joint::FlangedLap);
    draft.joints.k_factor = Some(Ratio::from_share(0.1));
    draft.joints.lap = Some(far);
    draft.joints.gap = Some(far);
    draft.stock.temper = Some(Temper::Annealed);
    assert!(pack(&draft, &mut [0; MAX_PACKED]).is_some());
    assert!(encode(&Request::Keep(draft)).is_ok());
}

#[test]
fn what_goes_wrong_on_a_line_is_named_and_the_next_message_read() {
    let hello = encode(&Request::Hello).unwrap();
    let after = |first: &[u8]| read::<Request>(&[first, &hello].concat());
    let ok = Ok(Request::Hello);

    assert_eq!(
        after(&[0, 0, 0]),
        std::slice::from_ref(&ok),
        "empty frames mean nothing"
    );
    let mut changed = hello.clone();
    changed[3] ^= 0x10;
    assert_eq!(after(&changed), [Err(Fault::Checksum), ok.clone()]);
    assert_eq!(
        after(&[&hello[..3], &[0]].concat()),
        [Err(Fault::Packing), ok.clone()]
    );
    assert_eq!(
        after(&[&[7; MAX_FRAME + 50][..], &[0]].concat()),
        [Err(Fault::TooLong), ok.clone()]
    );
    let status = encode(&Reply::Unread(Fault::TooLong)).unwrap();
    assert_eq!(
        after(&status),
        [Err(Fault::Unknown), ok],
        "a reply is no request"
    );
    assert_eq!(
        encode(&vec![1_u8; MAX_MESSAGE]).unwrap_err(),
        Fault::TooLong
    );
}

proptest! {
    /// Any job comes back as it went, bit for bit.
    #[test]
    fn jobs_come_back(seed in any::<u64>()) {
        let draft: Draft = Jobs::new(seed).next().unwrap();
        let frame = encode(&Request::Keep(draft.clone())).unwrap();
        prop_assert!(frame[..frame.len() - 1].iter().all(|byte| *byte != 0));
        prop_assert_eq!(read::<Request>(&frame), [Ok(Request::Keep(draft))]);
    }

    /// Any bytes at all are read without harm, and a whole message after them still comes through.
    #[test]
    fn noise_does_no_harm(noise in prop::collection::vec(any::<u8>(), 0..3_000)) {
        let hello = encode(&Request::Hello).unwrap();
        let got = read::<Request>(&[&noise[..], &[0], &hello].concat());
        prop_assert_eq!(got.last(), Some(&Ok(Request::Hello)));
    }

    /// One flipped bit never passes for another message.
    #[test]
    fn a_flipped_bit_is_seen(seed in any::<u64>(), place in any::<prop::sample::Index>(), bit in 0..8_u32) {
        let request = Request::Keep(Jobs::new(seed).next().unwrap());
        let mut frame = encode(&request).unwrap();
        let place = place.index(frame.len() - 1);
        frame[place] ^= 1 << bit;
        let got = read::<Request>(&frame);
        prop_assert!(got.iter().all(Result::is_err), "{:?}", got);
    }
}
