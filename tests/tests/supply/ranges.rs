//! Ranges of settings against published tables; the source stands beside each check. Rows named `T7.…` are of
//! `data/welding/checks.json`.

use seamwright_core::arc::settings;
use seamwright_core::tables::ranges::{
    RangeFit, RangeSource, SeamKind, current, electrode, gas, nozzle, rod, travel, tungsten,
};
use seamwright_core::tables::{Family, Process};
use seamwright_core::units::flow::Flow;
use seamwright_core::units::{Length, SpeedUnit};
use seamwright_tests::Outcome;
use seamwright_tests::amounts::{amps, in_mm, mm};
use seamwright_tests::checks::{expect, expect_spanned, input, source, welding};
use seamwright_tests::near::{Tolerance, near};
use serde_json::Value;

const EXACT: Tolerance = Tolerance::relative(1e-12);

/// Both ends, in amperes.
fn pair(check: &Value) -> [f64; 2] {
    let ends = &check["expected"]["I_A"];
    [0, 1].map(|k| ends[k].as_f64().unwrap())
}

/// NIMI's rows and Mathers': each lies within the range, since a range spans its sources; and where NIMI is
/// alone at an end it is the end.
#[test]
pub(super) fn currents_of_the_published_tables() -> Outcome {
    let aluminium = |t: f64, seam| current(Family::Aluminium, mm(t), seam).unwrap();
    for (id, seam) in [
        ("T7.Al.NIMI.1.6", SeamKind::Butt),
        ("T7.Al.NIMI.3.2", SeamKind::Butt),
        ("T7.Al.NIMI.4.8", SeamKind::Butt),
        ("T7.Al.NIMI.fillet.1.6", SeamKind::Fillet),
        ("T7.Al.NIMI.fillet.3.2", SeamKind::Fillet),
        ("T7.Al.NIMI.fillet.4.8", SeamKind::Fillet),
    ] {
        let check = welding(id);
        let t = input(&check, "t_mm")?;
        let range = aluminium(t, seam);
        assert!(range.sources.has(RangeSource::Nimi), "{id}");
        let span = [range.least.si(), range.most.si()];
        for end in ["I_A/0", "I_A/1"] {
            expect_spanned(&check, end, span)?;
        }
        let travels = travel(Family::Aluminium, mm(t), seam).unwrap();
        if check["expected"]["v_mm_min"].is_number() {
            let ends = [travels.least, travels.most];
            let span = ends.map(|end| end.in_unit(SpeedUnit::MillimetrePerMinute));
            expect_spanned(&check, "v_mm_min", span)?;
        }
    }
    // Only NIMI reaches 4.8 mm in a butt.
    let alone = aluminium(4.8, SeamKind::Butt);
    near("least", alone.least.si(), 190.0, EXACT)?;
    near("most", alone.most.si(), 220.0, EXACT)?;
    assert_eq!(
        alone.sources.iter().collect::<Vec<_>>(),
        [RangeSource::Nimi]
    );
    assert_eq!(alone.fit(amps(189.0)), Some(RangeFit::Below));
    assert_eq!(alone.fit(amps(221.0)), Some(RangeFit::Above));
    assert_eq!(alone.fit(amps(f64::NAN)), None);
    // Where sources differ the range has both: Mathers' 100 A at 1.2 mm against some 50 A.
    let thin = aluminium(1.2, SeamKind::Butt);
    assert!(
        thin.least.si() < 50.0 && thin.most == amps(100.0),
        "{thin:?}"
    );
    Ok(())
}

/// Mathers, tables 6.2 and 6.3.
#[test]
pub(super) fn nozzles_flows_and_rods() -> Outcome {
    let check = welding("T7.Al.Mathers6.2");
    let t = mm(input(&check, "t_mm")?);
    let within = |range: Option<RangeFit>| assert_eq!(range, Some(RangeFit::Within));
    let in_mm = |least: Length, most: Length| [least, most].map(in_mm);
    let amperes = current(Family::Aluminium, t, SeamKind::Butt).unwrap();
    let span = [amperes.least.si(), amperes.most.si()];
    expect_spanned(&check, "I_A", span)?;
    let rods = rod(Family::Aluminium, t, SeamKind::Butt).unwrap();
    expect_spanned(&check, "filler_mm", in_mm(rods.least, rods.most))?;
    let bore = nozzle(Family::Aluminium, t).unwrap();
    expect_spanned(&check, "nozzle_mm", in_mm(bore.least, bore.most))?;
    let speeds = travel(Family::Aluminium, t, SeamKind::Butt).unwrap();
    let span = [speeds.least, speeds.most].map(|end| end.in_unit(SpeedUnit::MillimetrePerMinute));
    expect_spanned(&check, "v_mm_min", span)?;
    for (id, inside) in [
        ("T7.nozzle.0-1", 0.7),
        ("T7.nozzle.1-3", 2.0),
        ("T7.nozzle.5-9", 7.0),
        ("T7.nozzle.9-12", 10.5),
        ("T7.nozzle.12-99", 20.0),
    ] {
        let check = welding(id);
        let bore = nozzle(Family::Aluminium, mm(inside)).unwrap();
        expect_spanned(&check, "nozzle_mm", in_mm(bore.least, bore.most))?;
        assert!(bore.sources.has(RangeSource::MathersNozzle));
        // His flows are the low end of all.
        let flow = gas(Family::Aluminium, mm(inside)).unwrap();
        expect(
            &check,
            "Ar_L_min",
            (flow.least.litres_per_minute() * 1e6).round() / 1e6,
        )?;
    }
    // NIMI: 7 L/min at 3.2 mm; the gas maker's handbook: 6.
    let flow = gas(Family::Aluminium, mm(3.2)).unwrap();
    within(flow.fit(Flow::from_litres_per_minute(7.0)));
    within(flow.fit(Flow::from_litres_per_minute(6.0)));
    Ok(())
}

/// Mathers, table 6.4, and AWS A5.12's annex (from memory).
#[test]
pub(super) fn electrodes() -> Outcome {
    for (id, d) in [
        ("T7.W.AC.1.6", 1.6),
        ("T7.W.AC.2.4", 2.4),
        ("T7.W.AC.3.2", 3.2),
        ("T7.W.AC.5", 5.0),
    ] {
        let check = welding(id);
        for (end, amperes) in ["lowest", "highest"].into_iter().zip(pair(&check)) {
            let range = electrode(Process::TigAc, amps(amperes)).unwrap();
            let span = [range.least, range.most].map(in_mm);
            let what = format!("Tungsten for {amperes} A, the {end} that {d} mm has, mm");
            source(&check)?.spanned(&what, span, d)?;
        }
    }
    // 135 A on alternating current is too much for 1.6 mm by either table.
    let range = electrode(Process::TigAc, amps(135.0)).unwrap();
    assert_eq!(range.fit(mm(1.6)), Some(RangeFit::Below));
    // Electrode negative it is not: 70 to 150 A.
    let range = electrode(Process::TigDc, amps(135.0)).unwrap();
    assert_eq!(range.fit(mm(1.6)), Some(RangeFit::Within));
    assert_eq!(electrode(Process::TigAc, amps(10.0)), None);
    // NIMI and the gas maker's handbook at 3.2 mm: 1.6 to 2.4, and 3.2.
    let range = tungsten(Family::Aluminium, mm(3.2)).unwrap();
    assert_eq!((range.least, range.most), (mm(1.6), mm(3.2)));
    Ok(())
}

/// From 0.5 to 10 mm there is always a range, in order and with a source; settings to start from lie in it or
/// say that they are carried past their tables.
#[test]
fn ranges_over_all_sheets() {
    for family in [Family::Aluminium, Family::Stainless, Family::Steel] {
        for tenths in 5..=100 {
            let t = mm(f64::from(tenths) / 10.0);
            for seam in SeamKind::ALL {
                let i = current(family, t, seam).unwrap();
                assert!(i.least.si() > 0.0 && i.least <= i.most && i.sources.iter().count() > 0);
                let v = travel(family, t, seam).unwrap();
                assert!(v.least.si() > 0.0 && v.least <= v.most);
                let r = rod(family, t, seam).unwrap();
                assert!(r.least >= mm(1.59) && r.most <= mm(4.81));
            }
            let (w, n, g) = (tungsten(family, t), nozzle(family, t), gas(family, t));
            assert!(w.is_some_and(|w| w.least <= w.most && w.least >= mm(0.99)));
            assert!(n.is_some_and(|n| n.least <= n.most));
            assert!(g.is_some_and(|g| g.least <= g.most && g.most.litres_per_minute() < 12.1));
            let start = settings::current(Process::usual(family), family, t).unwrap();
            let seam = SeamKind::Fillet;
            if !start.source.text().starts_with("common practice") {
                let fit = current(family, t, seam).unwrap().fit(start.value);
                assert_eq!(fit, Some(RangeFit::Within), "{family:?} {t:?} {start:?}");
            }
        }
        for t in [0.3, 10.5, f64::NAN] {
            assert_eq!(current(family, mm(t), SeamKind::Butt), None);
        }
    }
    // Carried past its tables, a current says so.
    let thick = current(Family::Stainless, mm(9.0), SeamKind::Butt).unwrap();
    assert!(thick.sources.has(RangeSource::Beyond));
    near("9 mm", thick.most.si(), 145.0 * 9.0 / 4.8, EXACT).unwrap();
}
