//! The choice of fillers against published tables; the source stands beside each check.
//!
//! `data/welding/checks.json` holds what was gathered apart from this project, each with its source.

use seamwright_core::filler::{
    Cracking, Criterion, FillerReason, FillerService, FillerVerdict, MANY, Mark, best, judge,
    ranked,
};
use seamwright_core::tables::{Alloy, Family, Filler};
use seamwright_core::units::{Ratio, Temperature, TemperatureUnit};
use seamwright_tests::Outcome;
use seamwright_tests::checks::{expect, figure, number, source, welding};

fn at(celsius: f64) -> FillerService {
    let at = Temperature::new(celsius, TemperatureUnit::Celsius);
    FillerService::new(Some(at), false).unwrap()
}

fn anodised() -> FillerService {
    FillerService::new(None, true).unwrap()
}

/// The columns of Mathers, table 3.3.
const COLUMNS: [Criterion; 5] = [
    Criterion::Strength,
    Criterion::Ductility,
    Criterion::Corrosion,
    Criterion::Cracking,
    Criterion::Colour,
];

/// A filler of the book as one of ours: 1050 is as good as 1100 here, 5654 (3.5 % Mg) as 5356, and "6356"
/// is a misprint of that.
fn ours(book: &str) -> Filler {
    let name = book.split_whitespace().next().unwrap();
    match name {
        "1050" => Filler::R1100,
        "5654" | "6356" => Filler::R5356,
        other => other.parse().unwrap(),
    }
}

/// That no rod has a better mark on a criterion than the book's, and some rod a worse one. The rods that have that mark.
fn no_better(base: Alloy, criterion: Criterion, book: Filler) -> String {
    let service = anodised();
    let mark = |filler| judge(base, base, Some(filler), &service).on(criterion).mark;
    let told = mark(book);
    assert!(told > Mark::RuledOut, "{base} {criterion:?} {book}");
    let rods = Filler::ALL
        .iter()
        .filter(|rod| rod.family() == Family::Aluminium);
    let marks: Vec<Mark> = rods.clone().map(|rod| mark(*rod)).collect();
    assert!(
        marks.iter().all(|other| *other <= told),
        "{base} {criterion:?} {book}: {marks:?}"
    );
    // On 1100 every rod is as strong as the welded sheet, so all are good; the book's is stronger.
    let all_good = base == Alloy::A1100 && criterion == Criterion::Strength;
    assert!(
        all_good || marks.iter().any(|other| *other < told),
        "{base} {criterion:?}: all alike"
    );
    let best = rods.filter(|rod| mark(**rod) == told);
    best.map(|rod| rod.name()).collect::<Vec<_>>().join(", ")
}

/// Rows `T10.best.*`: G. Mathers, The Welding of Aluminium and its Alloys (2002), table 3.3, p. 49 (read).
#[test]
pub(super) fn best_by_criterion() -> Outcome {
    for (name, id) in [
        ("1100", "T10.best.1100"),
        ("5052", "T10.best.5052"),
        ("5083", "T10.best.5083"),
        ("5086", "T10.best.5086"),
        ("6063", "T10.best.6063"),
    ] {
        let check = welding(id);
        let order = check["inputs"]["order"].as_array().unwrap();
        assert_eq!(order.len(), COLUMNS.len());
        let expected = check["expected"].as_array().unwrap();
        for (n, (criterion, book)) in COLUMNS.into_iter().zip(expected).enumerate() {
            let book = book.as_str().unwrap();
            let best = no_better(name.parse()?, criterion, ours(book));
            let order = order[n].as_str().unwrap();
            let what = format!("{}: best for {order}", figure(&check, "")?);
            let agrees = best.split(", ").any(|one| one == ours(book).name());
            source(&check)?.says(&what, book, &best, agrees)?;
        }
    }
    Ok(())
}

/// More rows of the same table (read). For 6082 it has 4043 throughout; that is followed for cracking and
/// corrosion only. For strength EN 1999-1-1, table 8.8, has 210 for 5356 against 190 for 4043, N/mm² (from
/// memory), and silicon anodises grey by the book's own other rows.
#[test]
fn best_by_criterion_in_other_rows() -> Outcome {
    for (name, row) in [
        ("3103", ["4043", "1050", "1050", "4043", "1050"]),
        ("5454", ["5356", "5554", "5554", "5356", "5554"]),
        ("6061", ["5356", "5356", "4043", "4043", "5654"]),
    ] {
        for (criterion, book) in COLUMNS.into_iter().zip(row) {
            no_better(name.parse()?, criterion, ours(book));
        }
    }
    for criterion in [Criterion::Corrosion, Criterion::Cracking] {
        no_better(Alloy::A6082, criterion, Filler::R4043);
    }
    no_better(Alloy::A6082, Criterion::Strength, Filler::R5356);
    Ok(())
}

/// First choices for pairs: Mathers, table 3.2, p. 48 (read), for pairs of different alloys; the others
/// EN 1011-4, tables B.2 and B.3, and AWS practice (from memory). Where two are as good, both stand here.
#[test]
fn first_choices() -> Outcome {
    for (base, other, choices) in [
        ("1100", "1100", &["1100", "4043"][..]),
        ("1100", "3003", &["1100", "4043"]),
        ("1100", "5052", &["5356"]),
        ("1100", "5083", &["5356", "5183"]),
        ("1100", "5754", &["5356"]),
        ("1100", "6061", &["4043"]),
        ("3003", "3003", &["1100", "4043"]),
        ("3003", "5052", &["5356"]),
        ("3003", "5086", &["5356", "5183"]),
        ("3003", "5754", &["5356"]),
        ("3003", "6063", &["4043"]),
        ("5052", "5052", &["5356"]),
        ("5052", "5083", &["5356", "5183"]),
        ("5052", "5754", &["5356"]),
        ("5052", "6061", &["5356"]),
        ("5083", "5083", &["5183"]),
        ("5086", "5086", &["5183"]),
        ("5083", "5754", &["5356"]),
        ("5083", "6061", &["5356"]),
        ("5754", "5754", &["5356"]),
        ("5754", "6082", &["5356"]),
        ("6061", "6061", &["4043"]),
        ("6063", "6082", &["4043"]),
    ] {
        let verdict = best(base.parse()?, other.parse()?, &FillerService::UNSAID).unwrap();
        let chosen = verdict.filler.unwrap().name();
        assert!(choices.contains(&chosen), "{base} {other}: {chosen}");
    }
    Ok(())
}

/// Silicon fillers on more than 2.5 % magnesium are forbidden: the same pages, where 4043 is crossed out
/// for every pair with 5083, 5086 or 5754. On 5052 trade articles (read) have both 5356 and 4043.
#[test]
fn silicon_on_magnesium() {
    for base in [Alloy::A5083, Alloy::A5086, Alloy::A5754, Alloy::A5454] {
        for other in [Alloy::A1100, Alloy::A3003, Alloy::A5052, Alloy::A6061, base] {
            for rod in [Filler::R4043, Filler::R4047] {
                let verdict = judge(base, other, Some(rod), &FillerService::UNSAID);
                assert!(verdict.ruled_out(), "{base} {other} {rod}");
                assert_eq!(verdict.worst().reason, FillerReason::SiliconOnMagnesium);
            }
        }
    }
    for rod in [Filler::R5356, Filler::R4043] {
        let verdict = judge(
            Alloy::A5052,
            Alloy::A5052,
            Some(rod),
            &FillerService::UNSAID,
        );
        assert!(!verdict.ruled_out(), "{rod}");
    }
    let silicon = judge(
        Alloy::A5052,
        Alloy::A5052,
        Some(Filler::R4043),
        &FillerService::UNSAID,
    );
    assert_eq!(silicon.on(Criterion::Ductility).mark, Mark::Poor);
}

/// Row `T10.65C`: no filler above 3 % magnesium for service above 65 °C; 5554 or 4043 instead.
#[test]
pub(super) fn warm_service() -> Outcome {
    let check = welding("T10.65C");
    let limit = number(&check["inputs"]["T_service_C"]);
    let forbidden = check["inputs"]["filler_Mg_pct"].as_str().unwrap();
    let rods = Filler::ALL
        .iter()
        .filter(|rod| rod.family() == Family::Aluminium);
    let mut ruled_out = Vec::new();
    for rod in rods.copied() {
        let named = forbidden.contains(rod.name());
        assert_eq!(named, rod.magnesium().value.si() > 0.03, "{rod}");
        let mark = |service: &FillerService| {
            judge(Alloy::A5052, Alloy::A5052, Some(rod), service)
                .on(Criterion::Temperature)
                .mark
        };
        assert_eq!(mark(&at(limit)), Mark::Good, "{rod}");
        if mark(&at(limit + 1.0)) == Mark::RuledOut {
            ruled_out.push(rod.name());
        }
    }
    let what = format!("{}: above {limit} °C", figure(&check, "")?);
    let printed = format!("not allowed: {forbidden}");
    let ours = format!("ruled out: {}", ruled_out.join(", "));
    let magnesium = |rod: &Filler| rod.magnesium().value.si() > 0.03;
    let all = Filler::ALL.iter().filter(|rod| magnesium(rod));
    let agrees = all.map(|rod| rod.name()).eq(ruled_out.iter().copied());
    source(&check)?.says(&what, &printed, &ours, agrees)?;
    // Hot oil and coolant: where the common choice is wrong.
    for (name, expected) in [
        ("5052", "5554"),
        ("5454", "5554"),
        ("5754", "5554"),
        ("6061", "4043"),
    ] {
        let base = name.parse()?;
        let chosen = best(base, base, &at(90.0)).unwrap().filler.unwrap();
        assert_eq!(chosen.name(), expected, "{name}");
    }
    // 5083 and 5086 are unfit themselves.
    let verdict = best(Alloy::A5083, Alloy::A5083, &at(90.0)).unwrap();
    assert_eq!(
        verdict.on(Criterion::Temperature).reason,
        FillerReason::WarmSheet
    );
    Ok(())
}

/// Mathers, p. 50 (read): 6xxx is never fused without filler. Trade articles (read): 5052 is hot-short so.
#[test]
fn without_filler() {
    let alone = |base| judge(base, base, None, &FillerService::UNSAID);
    for (base, reason) in [
        (Alloy::A6061, FillerReason::HeatTreatedUnfilled),
        (Alloy::A6063, FillerReason::HeatTreatedUnfilled),
        (Alloy::A6082, FillerReason::HeatTreatedUnfilled),
        (Alloy::A5052, FillerReason::HotShortUnfilled),
    ] {
        let verdict = alone(base);
        assert!(verdict.ruled_out(), "{base}");
        assert_eq!(verdict.worst().reason, reason, "{base}");
        let pair = judge(Alloy::A1100, base, None, &FillerService::UNSAID);
        assert!(pair.ruled_out(), "1100 and {base}");
    }
    for base in [Alloy::A1100, Alloy::A3003, Alloy::S304L] {
        assert!(!alone(base).ruled_out(), "{base}");
    }
}

/// Row `T10.dilution`: the balance of masses, evaluated apart from this project. At 60 % dilution 5356 on
/// 6061 comes near the range that cracks and 4043 does not (references-welding.md, section 10).
#[test]
pub(super) fn dilution() -> Outcome {
    let check = welding("T10.dilution");
    let share = Ratio::from_share(number(&check["inputs"]["dilution"]));
    let percent = |ratio: Ratio| ratio.si() * 100.0;
    let service = FillerService::UNSAID.with_dilution(share)?;
    let bead = |rod| {
        let verdict = judge(Alloy::A6061, Alloy::A6061, Some(rod), &service);
        verdict.weld_metal.unwrap()
    };
    let with_5356 = bead(Filler::R5356);
    expect(&check, "Mg_with_5356", percent(with_5356.magnesium))?;
    assert_eq!(with_5356.cracking(), Cracking::Near);
    let with_4043 = bead(Filler::R4043);
    expect(&check, "Si_with_4043", percent(with_4043.silicon))?;
    assert_eq!(with_4043.cracking(), Cracking::Clear);
    Ok(())
}

/// The crack ranges of Mathers, table 2.4, and of Pumphrey and Jennings (both from memory): pure 6061 and
/// 5052 are in them, commercially pure aluminium is not, and 5083 is past them.
#[test]
fn sheets_that_crack_by_themselves() {
    let alone = |base| {
        let verdict = judge(base, base, None, &FillerService::UNSAID);
        verdict.weld_metal.unwrap().cracking()
    };
    assert_eq!(alone(Alloy::A6061), Cracking::Sensitive);
    assert_eq!(alone(Alloy::A6063), Cracking::Sensitive);
    assert_eq!(alone(Alloy::A5052), Cracking::Sensitive);
    assert_eq!(alone(Alloy::A1050), Cracking::Plain);
    assert_eq!(alone(Alloy::A5083), Cracking::Clear);
}

/// Silicon anodises grey to black: trade articles (read), so a tank of 6061 that is anodised takes 5356.
#[test]
fn after_anodising() {
    let chosen = |service: &FillerService| {
        let verdict = best(Alloy::A6061, Alloy::A6061, service).unwrap();
        verdict.filler.unwrap()
    };
    assert_eq!(chosen(&FillerService::UNSAID), Filler::R4043);
    assert_eq!(chosen(&anodised()), Filler::R5356);
}

/// AWS A5.9 and A5.18 practice (from memory): 304 with 308L, 316 with 316L, 304 on 316 with either,
/// stainless on carbon steel with 309L, carbon steel with 70S-2 or 70S-6.
#[test]
fn steels() -> Outcome {
    for (base, other, choices) in [
        ("304", "304", &["ER308L"][..]),
        ("304L", "304", &["ER308L"]),
        ("316", "316", &["ER316L"]),
        ("316L", "316L", &["ER316L"]),
        ("304L", "316L", &["ER308L", "ER316L"]),
        ("304L", "low-carbon steel", &["ER309L"]),
        ("316L", "low-carbon steel", &["ER309L"]),
        (
            "low-carbon steel",
            "low-carbon steel",
            &["ER70S-2", "ER70S-6"],
        ),
    ] {
        let verdict = best(base.parse()?, other.parse()?, &FillerService::UNSAID).unwrap();
        let chosen = verdict.filler.unwrap().name();
        assert!(choices.contains(&chosen), "{base} {other}: {chosen}");
    }
    for rod in [Filler::Er308L, Filler::Er316L, Filler::Er70s2] {
        assert!(
            judge(
                Alloy::S304L,
                Alloy::LowCarbonSteel,
                Some(rod),
                &FillerService::UNSAID
            )
            .ruled_out()
        );
    }
    assert_eq!(
        best(Alloy::A5052, Alloy::S304, &FillerService::UNSAID),
        None
    );
    let all: [FillerVerdict; MANY] =
        ranked(Alloy::A5052, Alloy::LowCarbonSteel, &FillerService::UNSAID);
    assert!(
        all.iter()
            .all(|v| v.worst().reason == FillerReason::NotFused)
    );
    Ok(())
}
