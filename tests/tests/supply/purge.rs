//! Argon behind the seams: the law of mixing against its own steps, and which fittings gas goes through.

use seamwright_core::advice::process::{ProcessNotice, ProcessWork};
use seamwright_core::purge::{OXYGEN_IN_AIR, PurgeDraft, RULE_OF_CHANGES, left_after};
use seamwright_core::units::flow::Flow;
use seamwright_core::units::{Ratio, Time, VolumeUnit};
use seamwright_tests::Outcome;
use seamwright_tests::jobs;
use seamwright_tests::near::{Tolerance, near};

/// A tank in two halves with a hole between them; its fill neck and its vent open into the one, its drain into the other.
const HALVES: &str = r#"
name = "Still for distilled water"
[shape]
kind = "block"
length = "400 mm"
width = "300 mm"
height = "250 mm"
[stock]
alloy = "304L"
thickness = "2 mm"
[[baffle]]
across = "length"
at = "200 mm"
[[baffle.hole]]
at = ["150 mm", "120 mm"]
diameter = "60 mm"
[[fitting]]
name = "drain"
face = "front"
at = ["60 mm", "30 mm"]
bore = "15 mm"
[[fitting]]
name = "neck"
face = "top"
at = ["320 mm", "150 mm"]
bore = "40 mm"
"#;

/// Oxygen in dry air is 20.95 % (CRC Handbook, from memory). The law `c₀ exp(−n)` against a hundred thousand small steps in
/// each of which so much argon comes in and so much of the mixture goes out; four changes, a textbook's rule (read), leave
/// 0.38 % by it, which API RP 582's 0.5 % (as a forum of inspectors reprints it) allows.
#[test]
fn mixing() -> Outcome {
    for changes in [0.5, 1.0, 4.0, 7.0] {
        let steps = 100_000;
        let mut share = OXYGEN_IN_AIR.si();
        for _ in 0..steps {
            share -= share * changes / f64::from(steps);
        }
        let law = left_after(changes, OXYGEN_IN_AIR).si();
        near("left", law, share, Tolerance::relative(1e-3))?;
    }
    let rule = left_after(RULE_OF_CHANGES, OXYGEN_IN_AIR).si();
    near("the rule", rule, 0.00384, Tolerance::relative(1e-2))?;
    assert!(rule < 0.005);
    Ok(())
}

/// By hand: 28.7 L at 15 L/min down to 0.1 % take ln(209.5) = 5.345 changes, 153 L, 10.2 min; ten minutes at 5 L/min are
/// 50 L more.
#[test]
fn a_purge_by_hand() -> Outcome {
    let tank = jobs::tank(HALVES);
    let reach = tank.reach(&seamwright_core::tank::Plumbing::default())?;
    let purge = tank.purge(&reach, &PurgeDraft::default(), Time::from_seconds(600.0))?;
    assert_eq!(purge.assumed.len(), 3);
    let litres = purge.volume.in_unit(VolumeUnit::Litre);
    let brim = tank.capacity().brim.in_unit(VolumeUnit::Litre);
    // What stands in the hole of the baffle is of no compartment: 60 mm across, 2 mm deep.
    let hole = 0.25 * std::f64::consts::PI * 0.6 * 0.6 * 0.02;
    near("volume", litres, brim - hole, Tolerance::relative(1e-6))?;
    let changes = 209.5_f64.ln();
    near("changes", purge.changes, changes, Tolerance::relative(1e-9))?;
    near(
        "time",
        purge.time.si(),
        changes * litres / 15.0 * 60.0,
        Tolerance::relative(1e-9),
    )?;
    let before = purge.before.in_unit(VolumeUnit::Litre);
    near(
        "before",
        before,
        changes * litres,
        Tolerance::relative(1e-9),
    )?;
    near(
        "gas",
        purge.gas().in_unit(VolumeUnit::Litre),
        before + 50.0,
        Tolerance::relative(1e-9),
    )?;
    // Twice the flow takes half the time and as much gas; less oxygen takes more.
    let draft = PurgeDraft {
        flow: Some(Flow::from_litres_per_minute(30.0)),
        ..PurgeDraft::default()
    };
    let quick = tank.purge(&reach, &draft, Time::from_seconds(600.0))?;
    near(
        "half",
        2.0 * quick.time.si(),
        purge.time.si(),
        Tolerance::relative(1e-9),
    )?;
    near(
        "as much",
        quick.before.si(),
        purge.before.si(),
        Tolerance::relative(1e-9),
    )?;
    let draft = PurgeDraft {
        oxygen: Some(Ratio::from_share(1e-4)),
        ..PurgeDraft::default()
    };
    let pure = tank.purge(&reach, &draft, Time::from_seconds(600.0))?;
    near(
        "ten times less",
        pure.changes - purge.changes,
        10.0_f64.ln(),
        Tolerance::relative(1e-9),
    )?;
    let draft = PurgeDraft {
        oxygen: Some(Ratio::from_share(0.2)),
        ..PurgeDraft::default()
    };
    assert!(
        tank.purge(&reach, &draft, Time::from_seconds(600.0))
            .is_err()
    );
    Ok(())
}

/// Argon is heavier than air: it goes in at the lowest opening and lifts the air out at the highest. The left half has the
/// drain, the right one the neck, and the hole in the baffle joins them.
#[test]
fn in_low_and_out_high() -> Outcome {
    let told = |text: &str| -> Result<_, Box<dyn std::error::Error>> {
        let tank = jobs::tank(text);
        let plumbing = seamwright_core::tank::Plumbing::default();
        let reach = tank.reach(&plumbing)?;
        let purge = tank.purge(&reach, &PurgeDraft::default(), Time::from_seconds(60.0))?;
        let mut stands = Vec::new();
        let work = ProcessWork {
            purge: Some(&purge),
            ..ProcessWork::default()
        };
        tank.each_process_notice(&work, |notice| {
            if let ProcessNotice::PurgeStands { compartment } = notice {
                stands.push(compartment);
            }
        });
        Ok((purge, stands))
    };
    let (purge, stands) = told(HALVES)?;
    let [left, right] = &purge.rooms[..] else {
        panic!("two halves");
    };
    assert_eq!((left.inlet, left.outlet), (Some(1), None));
    assert_eq!((right.inlet, right.outlet), (Some(2), None));
    assert_eq!(
        (&left.open_to[..], &right.open_to[..]),
        (&[1][..], &[0][..])
    );
    assert!(left.is_flushed() && right.is_flushed() && stands.is_empty());
    // Without the drain gas has no way through the left half.
    let shut = HALVES.replace("bore = \"15 mm\"", "bore = \"0 mm\"\nouter = \"30 mm\"");
    let (_, stands) = told(&shut)?;
    assert_eq!(stands, [1]);
    // Both in one room: the lower one is where gas goes in.
    let open = HALVES.split("[[baffle]]").next().unwrap().to_owned()
        + "[[fitting]]"
        + &HALVES
            .split("[[fitting]]")
            .skip(1)
            .collect::<Vec<_>>()
            .join("[[fitting]]");
    let (purge, stands) = told(&open)?;
    let [room] = &purge.rooms[..] else {
        panic!("one room");
    };
    assert_eq!((room.inlet, room.outlet), (Some(1), Some(2)));
    assert!(stands.is_empty());
    Ok(())
}

/// Stainless steel wants it, and is told where a job plans none; aluminium is told that it does nothing.
#[test]
fn who_is_told() -> Outcome {
    let codes = |text: &str, planned: bool| -> Result<Vec<&str>, Box<dyn std::error::Error>> {
        let tank = jobs::tank(text);
        let plumbing = seamwright_core::tank::Plumbing::default();
        let reach = tank.reach(&plumbing)?;
        let purge = tank.purge(&reach, &PurgeDraft::default(), Time::from_seconds(60.0))?;
        let work = ProcessWork {
            purge: planned.then_some(&purge),
            ..ProcessWork::default()
        };
        let mut all = Vec::new();
        tank.each_process_notice(&work, |notice| all.push(notice.code()));
        Ok(all)
    };
    assert_eq!(codes(HALVES, false)?, ["no-purge"]);
    assert_eq!(codes(HALVES, true)?, ["purge-needs-vent"]);
    let aluminium = HALVES.replace("304L", "5754");
    assert_eq!(codes(&aluminium, false)?, [""; 0]);
    assert_eq!(
        codes(&aluminium, true)?,
        ["purge-unwanted", "purge-needs-vent"]
    );
    Ok(())
}
