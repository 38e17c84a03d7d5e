//! Power of waves and duty cycles against published figures; the source stands beside each check. Rows named `T1.…` to `T8.…` are of `data/welding/checks.json`.

use proptest::prelude::*;
use seamwright_core::arc::duty::{
    ArcAndRest, DutyBasis, DutyError, Rating, RatingPlate, TORCH_AC_SHARE, allowed_by_all,
};
use seamwright_core::arc::power::{ArcLevel, Cycle};
use seamwright_core::arc::{Arc, conventional_voltage};
use seamwright_core::tables::Process;
use seamwright_core::units::{Figure, LineEnergyUnit, Speed, SpeedUnit, Time, TimeUnit};
use seamwright_tests::Outcome;
use seamwright_tests::amounts::{amps, seconds, share, volts};
use seamwright_tests::checks::{expect, input, welding};
use seamwright_tests::near::{Tolerance, near};
use seamwright_tests::published::{computed, from_memory};

const EXACT: Tolerance = Tolerance::relative(1e-12);

fn level(u: f64, i: f64) -> ArcLevel {
    ArcLevel {
        voltage: volts(u),
        current: amps(i),
    }
}

fn rms_product(cycle: &Cycle) -> f64 {
    cycle.rms_voltage().si() * cycle.rms_current().si()
}

/// P = mean(u i), ISO/TR 18491 method C: evaluated apart.
#[test]
pub(super) fn square_alternating_current() -> Outcome {
    let check = welding("T1.ACsquare.equalI");
    let [b, i, en, ep] = ["EN_frac", "I_A", "U_EN", "U_EP"].map(|key| input(&check, key).unwrap());
    let cycle = Cycle::square(share(b), level(en, i), level(ep, i))?;
    expect(&check, "P_W", cycle.power().si())?;
    expect(&check, "UrmsIrms_W", rms_product(&cycle))?;
    near(
        "effective",
        cycle.effective_voltage().si() * i,
        cycle.power().si(),
        EXACT,
    )?;
    // references-welding.md, section 1: 160 A and 120 A: 2140 W; 2245 and 2190 by the meters.
    let cycle = Cycle::square(share(b), level(en, 160.0), level(ep, 120.0))?;
    let mean = computed("mean of u i (ISO/TR 18491, method C)");
    let what = |figure: &str| format!("Square wave, 70 % negative, 160 and 120 A: {figure}, W");
    mean.near(&what("power"), cycle.power().si(), 2_140.0, EXACT)?;
    let meters = rms_product(&cycle);
    mean.near(
        &what("by the meters"),
        meters,
        2_245.0,
        Tolerance::relative(3e-4),
    )?;
    // The arc of the plan takes the pair that makes the true power.
    let arc = Arc {
        process: Process::TigAc,
        current: cycle.mean_current(),
        voltage: cycle.effective_voltage(),
        travel: Speed::new(200.0, SpeedUnit::MillimetrePerMinute),
        efficiency: share(0.6),
    };
    near("arc", arc.power().si(), 2_140.0, EXACT)?;
    Ok(())
}

/// ASME IX QW-409.1(c): power times arc time over the length, by the arc whose current and voltage make the power.
#[test]
pub(super) fn arc_energy_from_power_and_speed() -> Outcome {
    let check = welding("T1.QW409c");
    let [p, t, l] = ["P_J_s", "arc_time_s", "L_mm"].map(|key| input(&check, key).unwrap());
    let arc = Arc {
        process: Process::TigDc,
        current: amps(100.0),
        voltage: volts(p / 100.0),
        travel: Speed::new(l / t, SpeedUnit::MillimetrePerSecond),
        efficiency: share(0.6),
    };
    let line = arc.arc_energy();
    expect(
        &check,
        "HI_J_mm",
        line.in_unit(LineEnergyUnit::JoulePerMillimetre),
    )?;
    Ok(())
}

fn rating(i: f64, x: f64) -> Rating {
    Rating {
        current: amps(i),
        duty: share(x),
    }
}

/// AWS Welding Handbook, chapter on power sources (from memory).
#[test]
pub(super) fn duty_by_the_square_law() -> Outcome {
    let check = welding("T8.AWS.38");
    let [ir, xr, i] = ["I_rated", "X_rated", "I"].map(|key| input(&check, key).unwrap());
    let plate = RatingPlate::new(&[rating(ir, xr)], amps(300.0))?;
    let allowed = plate.allowed(amps(i))?;
    expect(&check, "X", allowed.duty.si())?;
    assert_eq!(allowed.basis, DutyBasis::SquareLaw);
    // Below that, all of the time and no more.
    let low = plate.allowed(amps(120.0))?;
    assert_eq!((low.duty, low.basis), (share(1.0), DutyBasis::Continuous));
    assert_eq!(plate.allowed(amps(200.0))?.basis, DutyBasis::Plate);
    // And never past what the plate names.
    let past = plate.allowed(amps(301.0)).unwrap_err();
    assert_eq!(
        past,
        DutyError::PastMost {
            current: amps(301.0),
            most: amps(300.0)
        }
    );
    assert!(
        past.to_string()
            .contains("301.0 A is more than the rated maximum of 300.0 A")
    );
    Ok(())
}

/// Between ratings of one plate: a straight line in log I and log X, whose middle is the geometric mean.
#[test]
fn duty_between_ratings() -> Outcome {
    let plate = RatingPlate::new(
        &[rating(200.0, 0.35), rating(120.0, 1.0), rating(160.0, 0.6)],
        amps(220.0),
    )?;
    for (i, x) in [(120.0, 1.0), (160.0, 0.6), (200.0, 0.35)] {
        near("rating", plate.allowed(amps(i))?.duty.si(), x, EXACT)?;
    }
    let middle = plate.allowed(amps((160.0_f64 * 200.0).sqrt()))?;
    near("middle", middle.duty.si(), (0.6_f64 * 0.35).sqrt(), EXACT)?;
    assert_eq!(middle.basis, DutyBasis::Plate);
    // Past the last: the square law from there.
    near(
        "past",
        plate.allowed(amps(220.0))?.duty.si(),
        0.35 * (200.0_f64 / 220.0).powi(2),
        EXACT,
    )?;
    // A torch for less, taken down for alternating current, has the say.
    let torch = RatingPlate::new(&[rating(140.0, 0.6)], amps(180.0))?.reduced(TORCH_AC_SHARE)?;
    near("torch", torch.most().si(), 126.0, EXACT)?;
    let both = allowed_by_all(&[&plate, &torch], amps(120.0))?;
    near(
        "both",
        both.duty.si(),
        0.6 * (98.0_f64 / 120.0).powi(2),
        EXACT,
    )?;
    assert!(allowed_by_all(&[&plate, &torch], amps(130.0)).is_err());
    Ok(())
}

/// Counted by hand: 300 A at 60 % are 6 minutes in ten (AWS glossary).
#[test]
fn arcs_and_rests() -> Outcome {
    let plate = RatingPlate::new(&[rating(300.0, 0.6)], amps(300.0))?;
    let minutes = |value| Time::new(value, TimeUnit::Minute);
    let run = |arc| plate.run(amps(300.0), minutes(arc)).unwrap();
    let thirteen = run(13.0);
    near("stretch", thirteen.stretch.si(), 360.0, EXACT)?;
    near("pause", thirteen.pause.si(), 240.0, EXACT)?;
    // 6, rest 4, 6, rest 4, 1.
    assert_eq!(thirteen.rests, 2);
    near("total", thirteen.total().si(), 21.0 * 60.0, EXACT)?;
    assert_eq!((run(6.0).rests, run(12.0).rests, run(5.0).rests), (0, 1, 0));
    let easy = plate.run(amps(100.0), minutes(120.0))?;
    assert_eq!((easy.rests, easy.stretch), (0, minutes(120.0)));
    assert!(ArcAndRest::of(easy.allowed, minutes(0.0)).is_err());
    Ok(())
}

#[test]
fn plates_that_are_none() {
    let plate = |ratings: &[Rating], most: f64| RatingPlate::new(ratings, amps(most)).unwrap_err();
    assert_eq!(plate(&[], 200.0), DutyError::Count(0));
    assert_eq!(plate(&[rating(100.0, 0.5); 5], 200.0), DutyError::Count(5));
    let order = plate(&[rating(100.0, 0.5), rating(150.0, 0.6)], 200.0);
    assert!(matches!(order, DutyError::OutOfOrder { .. }));
    assert!(
        matches!(plate(&[rating(250.0, 0.5)], 200.0), DutyError::Range(r) if r.figure == Figure::Current)
    );
    assert!(
        matches!(plate(&[rating(150.0, 60.0)], 200.0), DutyError::Range(r) if r.figure == Figure::Duty)
    );
}

proptest! {
    /// More current is never allowed more.
    #[test]
    fn duty_falls_as_the_current_rises(i in 20.0_f64..218.0, more in 0.5_f64..40.0) {
        let plate = RatingPlate::new(&[rating(120.0, 1.0), rating(160.0, 0.6), rating(200.0, 0.35)], amps(220.0)).unwrap();
        let duty = plate.allowed(amps(i)).unwrap().duty;
        let next = (i + more).min(220.0);
        prop_assert!(plate.allowed(amps(next)).unwrap().duty <= duty);
    }

    /// A rest is never shorter than the rating asks over any whole number of periods.
    #[test]
    fn rests_keep_the_duty(x in 0.02_f64..1.0, arc in 1.0_f64..20_000.0) {
        let plate = RatingPlate::new(&[rating(100.0, x)], amps(100.0)).unwrap();
        let run = plate.run(amps(100.0), seconds(arc)).unwrap();
        let stretches = f64::from(run.rests + 1);
        prop_assert!(stretches * x * 600.0 >= arc * (1.0 - 1e-9) || x >= 1.0);
        prop_assert!((stretches - 1.0) * x * 600.0 < arc);
        prop_assert!((run.rest.si() - f64::from(run.rests) * (1.0 - x) * 600.0).abs() < 1e-6);
    }
}

/// IEC 60974-1, 11.2 (from memory): 14 V + 0.05 V/A for MIG and MAG: 19, 24 and 29 V, up to 44 V.
#[test]
pub(super) fn load_voltages_of_wire() -> Outcome {
    for (amperes, volts) in [(100.0, 19.0), (200.0, 24.0), (300.0, 29.0), (600.0, 44.0)] {
        for process in [Process::Mig, Process::Mag, Process::FluxCored] {
            let found = conventional_voltage(process, amps(amperes)).si();
            from_memory("IEC 60974-1, 11.2").near(
                &format!("Load voltage of MIG and MAG at {amperes} A, V"),
                found,
                volts,
                Tolerance::absolute(1e-12),
            )?;
        }
    }
    Ok(())
}

/// IEC 60974-1, 11.2 (from memory): rows `T7.U2.…`.
#[test]
pub(super) fn load_voltages() -> Outcome {
    for id in [
        "T7.U2.50",
        "T7.U2.100",
        "T7.U2.200",
        "T7.U2.300",
        "T7.U2.600",
    ] {
        let check = welding(id);
        expect(
            &check,
            "U2_V",
            conventional_voltage(Process::TigDc, amps(input(&check, "I2_A")?)).si(),
        )?;
    }
    Ok(())
}
