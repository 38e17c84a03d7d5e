//! The leak test and its readings.

use proptest::prelude::*;
use seamwright_core::leak::{Instruments, Leak, LeakRate, LeakVerdict, Reading};
use seamwright_core::strength::{Compliance, Trial};
use seamwright_core::units::{Pressure, Temperature, Time, Volume};

use super::{G, near, number, object, plan, steel, tank};

/// ASME PCC-2, appendix 501-II: E = 1/(γ−1) · Pat · V · [1 − (Pa/Pat)^((γ−1)/γ)] with γ = 1.4; the head by
/// hydrostatics, 1.5 times as 33 CFR 183.542 has it; hold of the US Coast Guard's handbook, 5 min up to
/// 50 US gallons.
#[test]
fn a_tank_by_its_own_head() {
    let plan = plan(&steel(
        500.0,
        300.0,
        400.0,
        4.0,
        "[fill]\nliquid = \"diesel\"\n",
    ));
    let test = &plan["proof"]["leak_test"];
    let got = |key: &str| number(&test[key]);
    let (h, v) = (0.392, 0.492 * 0.292 * 0.392);
    // 840 kg/m³, within EN 590; 1.5 heads of it are less than half a pound, so air and soap do.
    let head = 1.5 * 840.0 * G * h;
    assert!(head > 3_447.0);
    assert_eq!(test["method"], "head of water");
    near("p", got("pressure_pa"), head, 1e-3);
    let (pt, pa) = (got("pressure_pa") + 101_325.0, 101_325.0);
    let energy = 2.5 * pt * v * (1.0 - f64::powf(pa / pt, 0.286));
    near("E", got("air_energy_j"), energy, 1e-9);
    near("V", got("volume_m3"), v, 1e-9);
    near("F", got("force_n"), got("pressure_pa") * 0.5 * 0.4, 1e-9);
    near("hold", got("hold_s"), 300.0, 1e-12);
    assert!(got("pressure_pa") < got("weakest_takes_pa"));
    // The wall with the least `takes` is the one named.
    let least = plan["proof"]["panels"]
        .as_array()
        .unwrap()
        .iter()
        .min_by(|a, b| number(&a["takes_pa"]).total_cmp(&number(&b["takes_pa"])))
        .unwrap();
    assert_eq!(least["face"], test["weakest_face"]);
    near(
        "weakest",
        number(&least["takes_pa"]),
        got("weakest_takes_pa"),
        // Found once under the load of use and once under that of a test.
        1e-4,
    );
    // A seam takes less than that wall, and no relief valve opens later than it.
    assert!(got("weakest_seam_takes_pa") < got("weakest_takes_pa"));
    assert!(got("relief_pa") <= got("weakest_seam_takes_pa"));
    // What a cap holds, and where a pipe overflows, count as head.
    let job = steel(
        500.0,
        300.0,
        400.0,
        4.0,
        "[fill]\nliquid = \"diesel\"\n[use]\npressure = \"2 kPa\"\n",
    );
    let higher = object(&job, &["leak", "-", "--overflow", "1 m", "--json"]);
    near(
        "head",
        number(&higher["test"]["pressure_pa"]),
        1.5 * (840.0 * G + 2e3),
        1e-3,
    );
}

/// 40 CFR 1065.644: n = p V/(R T). 50 L lose what 20 kPa to 19.5 kPa gauge say in ten minutes, while the
/// barometer falls 2 hPa and the air cools by half a kelvin.
#[test]
fn a_decay_made_good() {
    // 50 L inside.
    let job = steel(508.0, 258.0, 408.0, 4.0, "");
    let arguments = [
        "leak",
        "-",
        "--json",
        "--gauge-steps",
        "10 Pa",
        "--thermometer-near",
        "0.01 K",
        "--barometer-steps",
        "10 Pa",
        "--allow",
        "1 sccm",
        "--reading",
        "0 min, 20.0 kPa, 295.15 K, 1013 hPa",
        "--reading",
        "10 min, 19.5 kPa, 294.65 K, 1011 hPa",
    ];
    let answer = object(&job, &arguments);
    let got = |key: &str| number(&answer["readings"][key]);
    // The walls give way by so much for each pascal: their own test is `thin_walls`.
    let walls = tank(&job).joined_walls(Trial::Test(Pressure::default()));
    let walls = walls.unwrap().compliance();
    let (gives, doubt) = (
        0.5 * (walls.least() + walls.most()),
        0.5 * (walls.most() - walls.least()),
    );
    assert!(gives > 0.0 && doubt > 0.0);
    let n = |p: f64, t: f64, over: f64| p * (0.05 + gives * over) / (8.314_462_618 * t);
    let rate = (n(121_300.0, 295.15, 20_000.0) - n(120_600.0, 294.65, 19_500.0)) / 600.0;
    near("rate", got("rate_mol_s"), rate, 1e-6);
    near(
        "sccm",
        got("rate_sccm"),
        rate * 8.314_462_618 * 273.15 / 101_325.0 * 60e6,
        1e-6,
    );
    // Each reading with the whole of what it may be off by: the gauge 5 Pa, the barometer 5 Pa, p ΔT/T of the thermometer.
    let off = |p: f64, t: f64, over: f64| {
        let warm = p * 0.01 / t;
        let per_pascal = 0.05 + gives * over + gives * p;
        per_pascal / (8.314_462_618 * t) * (25.0 + 25.0 + warm * warm).sqrt()
    };
    let both = off(121_300.0, 295.15, 20_000.0) + off(120_600.0, 294.65, 19_500.0);
    let held = |p: f64, t: f64, over: f64| doubt * over * p / (8.314_462_618 * t);
    let walls = held(121_300.0, 295.15, 20_000.0) - held(120_600.0, 294.65, 19_500.0);
    near("u", got("uncertainty_mol_s"), (both + walls) / 600.0, 1e-6);
    let hides = |c: f64| 121_300.0 * c / (0.05 + 121_300.0 * c);
    near(
        "hides",
        got("walls_hide_at_most"),
        hides(gives + doubt),
        1e-6,
    );
    assert_eq!(answer["readings"]["verdict"], "leaks");
    assert_eq!(answer["cautions"][0]["code"], "water-test");
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(400))]

    /// Whatever is read, no tank is called tight by an allowed rate below what the instruments can tell, or
    /// below what was measured.
    #[test]
    fn never_tight_below_what_can_be_told(
        litres in 1.0..500.0_f64,
        gauges in prop::collection::vec(5_000.0..25_000.0_f64, 2..8),
        drift in -200.0..200.0_f64,
        cool in -1.0..1.0_f64,
        steps in 1.0..500.0_f64,
        kelvins in 0.0..1.0_f64,
        share in 0.001..3.0_f64,
        settled in any::<bool>(),
        gives in 0.0..1e-6_f64,
        doubt in 1.0..4.0_f64,
    ) {
        let readings: Vec<Reading> = gauges.iter().zip(0_u8..).map(|(gauge, n)| {
            let n = f64::from(n);
            // Half of the tests hardly change.
            let gauge = if settled { 15_000.0 + gauge * 1e-3 } else { *gauge };
            Reading {
                time: Time::from_seconds(300.0 * n),
                gauge: Pressure::from_pascals(gauge),
                temperature: Temperature::from_kelvins(293.15 + cool * n / 10.0),
                barometer: Pressure::from_pascals(101_325.0 + drift * n / 10.0),
            }
        }).collect();
        let near = Instruments::new(Pressure::from_pascals(0.5 * steps), kelvins, Pressure::from_pascals(50.0)).unwrap();
        let walls = Compliance::new(gives, doubt * gives).unwrap();
        let leak = Leak::of(Volume::from_cubic_metres(litres * 1e-3), walls, &readings, &near).unwrap();
        let allowed = LeakRate::from_moles(share * leak.uncertainty.moles());
        let verdict = leak.judge(allowed).unwrap();
        if share < 1.0 || allowed < leak.rate {
            prop_assert_ne!(verdict, LeakVerdict::Tight);
        }
        if verdict == LeakVerdict::Tight {
            prop_assert!(leak.rate.moles() + leak.uncertainty.moles() <= allowed.moles());
        }
    }
}
