//! Sums, differences and products of doubles on the emulated chip, which has no floating-point unit, against those of
//! this machine's: IEEE 754 leaves both one result, but for what is no number.

use seamwright_tests::Outcome;
use seamwright_tests::board::{HEAT_INSTRUCTIONS_PER_TICK, HeatBoard};

#[path = "../../../firmware/boards/heat/src/pairs.rs"]
mod pairs;

use pairs::{Kind, digest};

/// An operation, and the same on this machine.
type Operation = (&'static str, fn(f64, f64) -> f64, u64);

/// The three, in the order in which the board tells of them, and the most instructions that each may take with its
/// call; the compiler's own take 111, 112 and 80.
const OPERATIONS: [Operation; 3] = [
    ("a sum", |a, b| a + b, 50),
    ("a difference", |a, b| a - b, 50),
    ("a product", |a, b| a * b, 50),
];

#[test]
fn the_board_adds_subtracts_and_multiplies_as_this_machine_does() -> Outcome {
    let (kinds, ticks) = HeatBoard::start_doubles()?.doubles()?;
    let mut pairs = 0;
    let mut expected = Vec::new();
    for kind in Kind::ALL {
        pairs += kind.count();
        let digests = OPERATIONS.map(|(_, of, _)| format!("{:016x}", digest(kind, of)));
        expected.push(format!("{} {}", kind.name(), digests.join(" ")));
    }
    assert!(pairs > 700_000, "only {pairs} pairs");
    assert_eq!(kinds, expected);
    assert_eq!(ticks.len(), OPERATIONS.len());
    for (ticks, (name, _, most)) in ticks.into_iter().zip(OPERATIONS) {
        let count = u64::from(Kind::Ordinary.count());
        let instructions = ticks * HEAT_INSTRUCTIONS_PER_TICK / count;
        assert!(
            (10..=most).contains(&instructions),
            "{name} takes {instructions} instructions"
        );
    }
    Ok(())
}
