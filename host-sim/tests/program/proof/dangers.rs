//! Dangers, each told once.

use seamwright_core::advice::notice::Notice;
use serde_json::Value;

use super::{answer, plan, steel};

/// What hurts someone is told once, in whole and with its source; the JSON has every notice by its code, as programs
/// look for them.
#[test]
fn a_danger_is_told_once() {
    let job = steel(400.0, 300.0, 200.0, 2.0, "");
    let text = answer(&job, &["plan", "-"]);
    // Words that only these three dangers need.
    for word in [
        "has held fuel",
        "chlorinated cleaners",
        "bursts it",
        "burst it",
    ] {
        let joined = text.split_whitespace().collect::<Vec<_>>().join(" ");
        let said = joined.matches(word).count();
        assert!(said <= 1, "{word}: {said}");
    }
    let (_, mind) = text.split_once("\nMind\n").unwrap();
    assert_eq!(mind.matches("caution:").count(), 1, "{mind}");
    assert!(mind.contains("needs a way out"), "{mind}");
    let codes = |plan: &Value, list: &str| -> Vec<String> {
        let all = plan[list].as_array().unwrap();
        all.iter()
            .map(|one| one["code"].as_str().unwrap().to_owned())
            .collect()
    };
    let told = plan(&job);
    let every = [
        "vent-before-welding",
        "arc-and-fume",
        "used-tank",
        "air-needs-a-way-out",
    ];
    assert_eq!(codes(&told, "notices"), every);
    let dangers = codes(&told, "cautions");
    for notice in [
        Notice::VentBeforeWelding,
        Notice::ArcAndFume,
        Notice::UsedTank,
    ] {
        let by = notice.told_by();
        assert!(!by.is_empty());
        for caution in by {
            assert!(
                dangers.iter().any(|code| code == caution.code()),
                "{caution:?}"
            );
        }
    }
    // What is of this tank alone stays where it was.
    let short = steel(400.0, 300.0, 200.0, 2.0, "[fill]\ntarget = \"40 L\"\n");
    let text = answer(&short, &["plan", "-"]);
    let (_, mind) = text.split_once("\nMind\n").unwrap();
    assert!(mind.contains("short of the 40.000 L"), "{mind}");
    assert_eq!(mind.matches("caution:").count(), 2, "{mind}");
    assert_eq!(codes(&plan(&short), "notices").len(), 5);
}
