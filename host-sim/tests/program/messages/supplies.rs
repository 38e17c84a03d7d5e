//! Messages about the ratings of power source and torch, the wave, and supplies.

use super::{check, with_table};

fn with_ratings(name: &str, ratings: &[&str]) -> String {
    let all: String = ratings
        .iter()
        .map(|rating| format!("\n[[arc.{name}]]\n{rating}\n"))
        .collect();
    with_table(&all)
}

#[test]
fn ratings_and_waves() {
    check("torch-as-text", &with_table("[arc]\ntorch = \"150 A\""));
    let rising = [
        "current = \"150 A\"\nduty = \"60 %\"",
        "current = \"200 A\"\nduty = \"80 %\"",
    ];
    check("ratings-that-rise", &with_ratings("power_source", &rising));
    check(
        "rating-without-duty",
        &with_ratings("torch", &["current = \"150 A\""]),
    );
    check(
        "rating-past-all-the-time",
        &with_ratings("torch", &["current = \"150 A\"\nduty = \"120 %\""]),
    );
    let five: Vec<String> = (1..=5)
        .map(|n| format!("current = \"{}0 A\"\nduty = \"{} %\"", 10 + n, 90 - 10 * n))
        .collect();
    let five: Vec<&str> = five.iter().map(String::as_str).collect();
    check("five-ratings", &with_ratings("power_source", &five));
    check(
        "balance-of-direct-current",
        &with_table("[arc]\nprocess = \"tig dc\"\nbalance = \"70 %\""),
    );
    check(
        "frequency-without-balance",
        &with_table("[arc]\nfrequency = \"120 Hz\""),
    );
    check(
        "half-a-wave",
        &with_table(
            "[arc]\nbalance = \"70 %\"\n\n[arc.negative]\ncurrent = \"90 A\"\nvoltage = \"12 V\"",
        ),
    );
    check(
        "frequency-without-unit",
        &with_table("[arc]\nbalance = \"70 %\"\nfrequency = 120"),
    );
    check(
        "frequency-in-another-unit",
        &with_table("[arc]\nbalance = \"70 %\"\nfrequency = \"0.12 kHz\""),
    );
}

#[test]
fn supplies_that_do_not_read() {
    let supply = |lines: &str| with_table(&format!("[supply]\n{lines}"));
    check("filler-unknown", &supply("filler = \"5365\""));
    check("flow-with-a-comma", &supply("gas_flow = \"8,5 L/min\""));
    check("flow-too-large", &supply("gas_flow = \"500 L/min\""));
    check("flow-without-a-number", &supply("gas_flow = \"some\""));
    check(
        "stub-of-the-whole-rod",
        &supply("rod_length = \"300 mm\"\nstub = \"300 mm\""),
    );
    check(
        "pressure-of-no-cylinder",
        &supply("cylinder_pressure = \"200 bar\""),
    );
    check(
        "shrinkage-of-no-allowance",
        &with_table("[weld]\nshrink_by = \"0.8 mm\""),
    );
    check(
        "shrinkage-too-large",
        &with_table("[weld]\nshrink_allowance = \"yes\"\nshrink_by = \"8 cm\""),
    );
    check(
        "shrinkage-into-itself",
        &with_table(
            "[joints]\nfolds = [\"bottom front\", \"bottom back\", \"bottom left\", \"bottom right\"]\nbend_radius = \"2 mm\"\n\n\
             [weld]\nshrink_allowance = \"yes\"\nshrink_by = \"10 mm\"",
        ),
    );
    check(
        "prices-without-currency",
        &supply("\n[supply.prices]\nfiller = 38"),
    );
    check(
        "price-below-zero",
        &supply("\n[supply.prices]\ncurrency = \"GBP\"\nlabour = -35"),
    );
    check(
        "price-as-text",
        &supply("\n[supply.prices]\ncurrency = \"GBP\"\nlabour = \"35 GBP\""),
    );
    check(
        "currency-too-long",
        &supply("\n[supply.prices]\ncurrency = \"pounds sterling\""),
    );
}
