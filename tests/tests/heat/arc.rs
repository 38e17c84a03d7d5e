//! Power of waves and duty cycles against published figures; the source stands beside each check. Rows named `T1.…` to `T8.…` are of `data/welding/checks.json`.

use std::f64::consts::PI;

use proptest::prelude::*;
use seamwright_core::arc::duty::{
    Basis, DutyError, Plate, Rating, Run, TORCH_AC_SHARE, allowed_by_all, with_lag,
};
use seamwright_core::arc::wave::{
    Cycle, Level, Sine, Tally, from_energy, from_power, from_power_and_time,
};
use seamwright_core::arc::{Arc, conventional_voltage};
use seamwright_core::tables::Process;
use seamwright_core::units::refuse::Field;
use seamwright_core::units::{LineEnergy, LineEnergyUnit, Speed, SpeedUnit, Time, TimeUnit};
use seamwright_tests::Outcome;
use seamwright_tests::amounts::{amps, mm, seconds, share, volts};
use seamwright_tests::checks::{expect, input, welding};
use seamwright_tests::near::{Tolerance, near};

const EXACT: Tolerance = Tolerance::relative(1e-12);

fn level(u: f64, i: f64) -> Level {
    Level {
        voltage: volts(u),
        current: amps(i),
    }
}

fn rms_product(cycle: &Cycle) -> f64 {
    cycle.rms_voltage().si() * cycle.rms_current().si()
}

fn mean_product(cycle: &Cycle) -> f64 {
    cycle.mean_voltage().si() * cycle.mean_current().si()
}

/// P = mean(u i), ISO/TR 18491 method C: evaluated apart.
#[test]
fn square_alternating_current() -> Outcome {
    let check = welding("T1.ACsquare.equalI");
    let [b, i, en, ep] = ["EN_frac", "I_A", "U_EN", "U_EP"].map(|key| input(&check, key).unwrap());
    let cycle = Cycle::square(share(b), level(en, i), level(ep, i))?;
    expect(&check, "P_W", cycle.power())?;
    expect(&check, "UrmsIrms_W", rms_product(&cycle))?;
    expect(&check, "Umean_absI_W", mean_product(&cycle))?;
    near(
        "effective",
        cycle.effective_voltage().si() * i,
        cycle.power(),
        EXACT,
    )?;
    near("net", cycle.net_current().si(), 0.4 * i, EXACT)?;
    let [negative, positive] = cycle.times(100.0)?;
    near("negative", negative.si(), 0.007, EXACT)?;
    near("positive", positive.si(), 0.003, EXACT)?;
    // references-welding.md, section 1: 160 A and 120 A: 2140 W; 2245 and 2190 by the meters.
    let cycle = Cycle::square(share(b), level(en, 160.0), level(ep, 120.0))?;
    near("P", cycle.power(), 2_140.0, EXACT)?;
    near(
        "rms",
        rms_product(&cycle),
        2_245.0,
        Tolerance::relative(3e-4),
    )?;
    near(
        "mean",
        mean_product(&cycle),
        2_190.0,
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
    near("arc", arc.power(), 2_140.0, EXACT)?;
    Ok(())
}

/// The same definition, pulsed direct current.
#[test]
fn pulsed_direct_current() -> Outcome {
    let check = welding("T1.pulsedDC");
    let [x, ip, up, ib, ub] =
        ["duty", "Ip", "Up", "Ib", "Ub"].map(|key| input(&check, key).unwrap());
    let cycle = Cycle::pulsed(share(x), level(up, ip), level(ub, ib))?;
    expect(&check, "P_W", cycle.power())?;
    expect(&check, "meanU_meanI_W", mean_product(&cycle))?;
    expect(&check, "UrmsIrms_W", rms_product(&cycle))?;
    near("net", cycle.net_current().si(), 95.0, EXACT)?;
    let steady = Cycle::steady(level(12.0, 100.0))?;
    near("steady", steady.power(), 1_200.0, EXACT)?;
    near("steady rms", rms_product(&steady), 1_200.0, EXACT)?;
    Ok(())
}

/// 2√2/π: calculus.
#[test]
fn sine_current_with_square_voltage() -> Outcome {
    let check = welding("T1.sine_square_pf");
    let sine = Sine::from_rms(amps(100.0), [volts(15.0); 2])?;
    let ratio = sine.power() / (sine.rms_voltage().si() * sine.rms_current().si());
    expect(&check, "P_over_UrmsIrms", ratio)?;
    near("form", Sine::FORM_FACTOR, PI / 8.0_f64.sqrt(), EXACT)?;
    near(
        "peak",
        sine.peak_current().si(),
        100.0 * 2.0_f64.sqrt(),
        EXACT,
    )?;
    let mean = Sine::from_mean(sine.mean_current(), [volts(13.0), volts(19.0)])?;
    near("mean", mean.rms_current().si(), 100.0, EXACT)?;
    // Half a cycle each at 13 and 19 V.
    near(
        "two voltages",
        mean.power(),
        mean.mean_current().si() * 16.0,
        EXACT,
    )?;
    Ok(())
}

/// Samples of the waves above give their power; a sine sampled at 10 kHz.
#[test]
fn samples_give_the_same_power() -> Outcome {
    let mut tally = Tally::new();
    assert_eq!(tally.power(), None);
    let step = seconds(1e-4);
    // 2000 cycles at 100 Hz of 13 V 150 A negative for 70, 19 V positive for 30 of 100 samples.
    for k in 0..200_000 {
        let (u, i) = if k % 100 < 70 {
            (-13.0, -150.0)
        } else {
            (19.0, 150.0)
        };
        tally.add(volts(u), amps(i), step)?;
    }
    near("square", tally.power().unwrap(), 2_220.0, EXACT)?;
    near("energy", tally.energy().si(), 44_400.0, EXACT)?;
    near("time", tally.time().si(), 20.0, EXACT)?;
    let (u, i) = tally.rms().unwrap();
    near("rms", u.si() * i.si(), 2_257.986, Tolerance::relative(1e-5))?;

    let mut sine = Tally::new();
    for k in 0..10_000 {
        // Sampled in the middle of each step.
        let phase = 2.0 * PI * 50.0 * (f64::from(k) + 0.5) * 1e-4;
        sine.add(
            volts(15.0 * phase.sin().signum()),
            amps(100.0 * 2.0_f64.sqrt() * phase.sin()),
            step,
        )?;
    }
    let (u, i) = sine.rms().unwrap();
    let ratio = sine.power().unwrap() / (u.si() * i.si());
    near("sine", ratio, 0.900_316_3, Tolerance::relative(3e-4))?;

    let refused = sine.add(volts(f64::NAN), amps(1.0), step).unwrap_err();
    assert_eq!(refused.field, Field::Voltage);
    assert_eq!(
        sine.add(volts(1.0), amps(1.0), seconds(0.0))
            .unwrap_err()
            .field,
        Field::Sample
    );
    near(
        "unchanged",
        sine.time().si(),
        1.0,
        Tolerance::relative(1e-9),
    )?;
    Ok(())
}

/// ASME IX QW-409.1(c), and the three routes of ISO/TR 18491 against each other.
#[test]
fn arc_energy_from_power_and_from_energy() -> Outcome {
    let check = welding("T1.QW409c");
    let [p, t, l] = ["P_J_s", "arc_time_s", "L_mm"].map(|key| input(&check, key).unwrap());
    let in_j_mm = |line: LineEnergy| line.in_unit(LineEnergyUnit::JoulePerMillimetre);
    expect(
        &check,
        "HI_J_mm",
        in_j_mm(from_power_and_time(p, seconds(t), mm(l))?),
    )?;
    let travel = Speed::new(l / t, SpeedUnit::MillimetrePerSecond);
    expect(&check, "HI_J_mm", in_j_mm(from_power(p, travel)?))?;
    let energy = seamwright_core::units::Energy::from_joules(p * t);
    expect(&check, "HI_J_mm", in_j_mm(from_energy(energy, mm(l))?))?;
    assert_eq!(from_power(-1.0, travel).unwrap_err().field, Field::Power);
    assert_eq!(
        from_energy(energy, mm(0.0)).unwrap_err().field,
        Field::SeamLength
    );
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
fn duty_by_the_square_law() -> Outcome {
    let check = welding("T8.AWS.38");
    let [ir, xr, i] = ["I_rated", "X_rated", "I"].map(|key| input(&check, key).unwrap());
    let plate = Plate::new(&[rating(ir, xr)], amps(300.0))?;
    let allowed = plate.allowed(amps(i))?;
    expect(&check, "X", allowed.duty.si())?;
    assert_eq!(allowed.basis, Basis::SquareLaw);
    let check = welding("T8.AWS.155");
    expect(
        &check,
        "I_A",
        plate.current_for(share(input(&check, "X")?))?.si(),
    )?;
    // Below that, all of the time and no more.
    let low = plate.allowed(amps(120.0))?;
    assert_eq!((low.duty, low.basis), (share(1.0), Basis::Continuous));
    assert_eq!(plate.allowed(amps(200.0))?.basis, Basis::Plate);
    // And never past what the plate names.
    let past = plate.allowed(amps(301.0)).unwrap_err();
    assert_eq!(
        past,
        DutyError::PastMost {
            current: amps(301.0),
            most: amps(300.0)
        }
    );
    assert_eq!(plate.current_for(share(0.1))?, amps(300.0));
    assert!(
        past.to_string()
            .contains("301.0 A is more than the rated maximum of 300.0 A")
    );
    Ok(())
}

/// First-order model with equal highest temperature, evaluated apart; section 8 of references-welding.md has
/// the other time constants.
#[test]
fn duty_of_a_machine_that_warms_fast() -> Outcome {
    let check = welding("T8.tau");
    let [ir, xr, i, tau] =
        ["I_rated", "X_rated", "I", "tau_min"].map(|key| input(&check, key).unwrap());
    let minutes = |value| Time::new(value, TimeUnit::Minute);
    let lag = |tau| {
        with_lag(rating(ir, xr), amps(i), minutes(tau))
            .unwrap()
            .si()
    };
    expect(&check, "X_equal_peak_rise", lag(tau))?;
    for (tau, expected) in [(5.0, 0.296), (20.0, 0.363), (60.0, 0.377)] {
        near(
            "tau",
            lag(tau),
            expected,
            Tolerance {
                relative: 0.0,
                absolute: 6e-4,
            },
        )?;
    }
    assert_eq!(
        with_lag(rating(200.0, 0.6), amps(100.0), minutes(10.0))?,
        share(1.0)
    );
    Ok(())
}

/// Between ratings of one plate: a straight line in log I and log X, whose middle is the geometric mean.
#[test]
fn duty_between_ratings() -> Outcome {
    let plate = Plate::new(
        &[rating(200.0, 0.35), rating(120.0, 1.0), rating(160.0, 0.6)],
        amps(220.0),
    )?;
    for (i, x) in [(120.0, 1.0), (160.0, 0.6), (200.0, 0.35)] {
        near("rating", plate.allowed(amps(i))?.duty.si(), x, EXACT)?;
        near("back", plate.current_for(share(x))?.si(), i, EXACT)?;
    }
    let middle = plate.allowed(amps((160.0_f64 * 200.0).sqrt()))?;
    near("middle", middle.duty.si(), (0.6_f64 * 0.35).sqrt(), EXACT)?;
    assert_eq!(middle.basis, Basis::Plate);
    // Past the last: the square law from there.
    near(
        "past",
        plate.allowed(amps(220.0))?.duty.si(),
        0.35 * (200.0_f64 / 220.0).powi(2),
        EXACT,
    )?;
    // A torch for less, taken down for alternating current, has the say.
    let torch = Plate::new(&[rating(140.0, 0.6)], amps(180.0))?.reduced(TORCH_AC_SHARE)?;
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
    let plate = Plate::new(&[rating(300.0, 0.6)], amps(300.0))?;
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
    assert!(Run::of(easy.allowed, minutes(0.0)).is_err());
    Ok(())
}

#[test]
fn plates_that_are_none() {
    let plate = |ratings: &[Rating], most: f64| Plate::new(ratings, amps(most)).unwrap_err();
    assert_eq!(plate(&[], 200.0), DutyError::Count(0));
    assert_eq!(plate(&[rating(100.0, 0.5); 5], 200.0), DutyError::Count(5));
    let order = plate(&[rating(100.0, 0.5), rating(150.0, 0.6)], 200.0);
    assert!(matches!(order, DutyError::OutOfOrder { .. }));
    assert!(
        matches!(plate(&[rating(250.0, 0.5)], 200.0), DutyError::Refused(r) if r.field == Field::Current)
    );
    assert!(
        matches!(plate(&[rating(150.0, 60.0)], 200.0), DutyError::Refused(r) if r.field == Field::Duty)
    );
}

proptest! {
    /// More current is never allowed more, and the way back gives the current again.
    #[test]
    fn duty_falls_as_the_current_rises(i in 20.0_f64..218.0, more in 0.5_f64..40.0) {
        let plate = Plate::new(&[rating(120.0, 1.0), rating(160.0, 0.6), rating(200.0, 0.35)], amps(220.0)).unwrap();
        let duty = plate.allowed(amps(i)).unwrap().duty;
        let next = (i + more).min(220.0);
        prop_assert!(plate.allowed(amps(next)).unwrap().duty <= duty);
        if duty.si() < 1.0 {
            prop_assert!((plate.current_for(duty).unwrap().si() / i - 1.0).abs() < 1e-12);
        }
    }

    /// A rest is never shorter than the rating asks over any whole number of periods.
    #[test]
    fn rests_keep_the_duty(x in 0.02_f64..1.0, arc in 1.0_f64..20_000.0) {
        let plate = Plate::new(&[rating(100.0, x)], amps(100.0)).unwrap();
        let run = plate.run(amps(100.0), seconds(arc)).unwrap();
        let stretches = f64::from(run.rests + 1);
        prop_assert!(stretches * x * 600.0 >= arc * (1.0 - 1e-9) || x >= 1.0);
        prop_assert!((stretches - 1.0) * x * 600.0 < arc);
        prop_assert!((run.rest.si() - f64::from(run.rests) * (1.0 - x) * 600.0).abs() < 1e-6);
    }
}

/// IEC 60974-1, 11.2 (from memory): rows `T7.U2.…`.
#[test]
fn load_voltages() -> Outcome {
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
            conventional_voltage(amps(input(&check, "I2_A")?)).si(),
        )?;
    }
    Ok(())
}
