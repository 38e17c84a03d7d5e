//! Names in standards: fillers by EN ISO and AWS, grades of carbon steel by EN.

use seamwright_core::tables::{Alloy, Family, Filler, Process, carbon_equivalent};
use seamwright_core::units::{Pressure, PressureUnit};
use seamwright_tests::Outcome;
use seamwright_tests::near::{Tolerance, near};

/// Symbols of EN ISO 18273, 636, 14341, 14343, 17632 and 17633 and of AWS A5.9, A5.10, A5.18, A5.20 and A5.22 (from
/// memory; the guide to EN ISO 14343 read has `G` for wire and `W` for rods, and 19 12 3 L for 316L).
#[test]
fn fillers_by_their_standards() {
    for filler in Filler::ALL {
        for process in Process::ALL {
            let by = filler.classified(process);
            let bare = |name: &str| name.trim_start_matches("ER").to_owned();
            assert_eq!(bare(by.aws[1]), bare(filler.name()), "{filler}");
            let standard = match (filler.family(), filler.is_cored(), process.feeds_wire()) {
                (Family::Aluminium, ..) => "EN ISO 18273",
                (Family::Stainless, false, _) => "EN ISO 14343-A",
                (Family::Stainless, true, _) => "EN ISO 17633-A",
                (Family::Steel, true, _) => "EN ISO 17632-A",
                (Family::Steel, false, true) => "EN ISO 14341-A",
                (Family::Steel, false, false) => "EN ISO 636-A",
            };
            assert_eq!(by.en_iso[0], standard, "{filler}");
        }
    }
    let symbol = |filler: Filler, process| filler.classified(process).en_iso[1];
    assert_eq!(symbol(Filler::Er316L, Process::TigDc), "W 19 12 3 L");
    assert_eq!(symbol(Filler::Er316L, Process::Mag), "G 19 12 3 L");
    assert_eq!(symbol(Filler::Er70s6, Process::Mag), "G3Si1");
    assert_eq!(symbol(Filler::Er70s6, Process::TigDc), "W3Si1");
    assert_eq!(
        symbol(Filler::R5356, Process::Mig),
        "S Al 5356 (AlMg5Cr(A))"
    );
}

/// EN 10025-2:2004, tables 6 and 7, up to 16 mm (from memory): yield and ultimate strength, carbon equivalent. The most of
/// carbon and manganese in the ladle (table 2, read) make no more than that: 0.17 + 1.40/6 and so on, less what no heat has
/// at once. EN 10130 and EN 10111 (from memory): DC01 and DD11 with 0.12 % of carbon and 0.60 % of manganese.
#[test]
fn grades_of_steel() -> Outcome {
    for (name, strength, equivalent) in [
        ("S235JR", ["360 MPa", "235 MPa"], 0.0035),
        ("S275JR", ["410 MPa", "275 MPa"], 0.0040),
        ("S355J2", ["470 MPa", "355 MPa"], 0.0045),
        ("DC01", ["270 MPa", "140 MPa"], 0.0012 + 0.0060 / 6.0),
        ("DD11", ["270 MPa", "170 MPa"], 0.0012 + 0.0060 / 6.0),
    ] {
        let alloy: Alloy = name.parse()?;
        assert_eq!(alloy.name(), name);
        let found = alloy.metal().strength(None).unwrap();
        let shown = |pressure: Pressure| pressure.display(PressureUnit::Megapascal, 0).to_string();
        assert_eq!(
            [found.ultimate, found.yield_strength].map(shown),
            strength,
            "{name}"
        );
        let found = carbon_equivalent(alloy).unwrap().value.si();
        near(name, found, equivalent, Tolerance::relative(1e-9))?;
        // EN 1993-1-2, 3.4.1 (from memory), at 20 °C: 53.3 W/(m K) and 440 J/(kg K).
        near(
            name,
            alloy.conductivity(None).value,
            53.334,
            Tolerance::relative(1e-2),
        )?;
        near(
            name,
            alloy.metal().heat_capacity().value,
            439.8,
            Tolerance::relative(1e-2),
        )?;
    }
    assert_eq!(carbon_equivalent(Alloy::LowCarbonSteel), None);
    // EN 10027-2 and EN 10088-1 (from memory).
    for (number, alloy) in [
        ("1.0038", Alloy::S235),
        ("1.0577", Alloy::S355),
        ("1.4301", Alloy::S304),
        ("1.4404", Alloy::S316L),
        ("S355", Alloy::S355),
        ("A36", Alloy::LowCarbonSteel),
    ] {
        assert_eq!(number.parse::<Alloy>()?, alloy);
    }
    Ok(())
}
