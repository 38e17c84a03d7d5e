//! The Bessel functions of the moving source against published figures and their integrals; the source stands
//! beside each check. Rows are of `data/welding/checks.json`.

use proptest::prelude::*;
use seamwright_core::heat::bessel::{k0, k0_k1_scaled, k0_scaled};
use seamwright_tests::Outcome;
use seamwright_tests::checks::{expect, input, welding};
use seamwright_tests::near::{Tolerance, near};
use seamwright_tests::published::{computed, from_memory};

/// `e^x K_n(x)` by the trapezoidal rule on `∫₀^∞ exp(−x (cosh t − 1)) cosh nt dt` (DLMF 10.32.9), whose
/// integrand is analytic and falls doubly exponentially, so that the rule converges geometrically.
fn integral(x: f64, n: f64) -> f64 {
    let step = 1.0 / 256.0;
    let term = |k: u32| {
        let t = f64::from(k) * step;
        // cosh t − 1 without the loss near 0.
        let half = (0.5 * t).sinh();
        (-2.0 * x * half * half).exp() * (n * t).cosh()
    };
    let mut sum = 0.5 * term(0);
    for k in 1..20_000 {
        let term = term(k);
        sum += term;
        if term < 1e-18 * sum {
            break;
        }
    }
    sum * step
}

/// Abramowitz and Stegun, Handbook of Mathematical Functions, table 9.8: rows of `checks.json`.
#[test]
pub(super) fn k0_of_the_tables() -> Outcome {
    for id in [
        "T3.K0.0.1",
        "T3.K0.0.5",
        "T3.K0.1",
        "T3.K0.3",
        "T3.K0.5",
        "T3.K0.10",
    ] {
        let check = welding(id);
        let x = input(&check, "x")?;
        expect(&check, "", k0(x))?;
        near(
            id,
            k0_scaled(x) * (-x).exp(),
            k0(x),
            Tolerance::relative(1e-14),
        )?;
    }
    // The same table, as the references file quotes it with all its figures.
    for (x, expected) in [(0.01, 4.721_244_73), (2.0, 0.113_893_872_7)] {
        from_memory("Abramowitz and Stegun, table 9.8").near(
            &format!("Bessel function K₀ of {x}"),
            k0(x),
            expected,
            Tolerance::relative(1e-9),
        )?;
    }
    Ok(())
}

/// mpmath at 40 digits, on both sides of where the series hand over and at the ends.
#[test]
pub(super) fn k0_and_k1_to_the_last_figures() -> Outcome {
    for (x, zero, one) in SCALED {
        let [k0, k1] = k0_k1_scaled(x);
        let last = Tolerance::relative(2e-15);
        let digits = computed("mpmath at 40 digits");
        digits.near("eˣ K₀, x from 1e-6 to 700", k0, zero, last)?;
        digits.near("eˣ K₁, x from 1e-6 to 700", k1, one, last)?;
    }
    assert!(k0(0.0).is_nan() && k0_scaled(-1.0).is_nan() && k0(f64::NAN).is_nan());
    assert!(k0(800.0) == 0.0 && k0_scaled(800.0) > 0.04);
    Ok(())
}

/// `(x, eˣ K₀, eˣ K₁)`.
const SCALED: [(f64, f64, f64); 10] = [
    (1e-06, 13.931456005075459, 1000000.9999932843),
    (0.001, 7.030716002378251, 1000.9967345590684),
    (0.3, 1.8526273007720142, 4.12515776224447),
    (1.0, 1.144463079806895, 1.6361534862632583),
    (1.999, 0.8417601901891834, 1.033801820860028),
    (2.001, 0.8413763728735403, 1.0331521611403638),
    (4.0, 0.6092976692566953, 0.681575945185671),
    (20.0, 0.27854487665718225, 0.28542549694072644),
    (150.0, 0.10224771116019105, 0.10258797256926121),
    (700.0, 0.04736236945461357, 0.04739618765349454),
];

proptest! {
    /// Over the whole range that a plate asks for.
    #[test]
    fn k0_and_k1_are_their_integrals(log in -13.815_f64..6.552) {
        let x = log.exp();
        let [zero, one] = k0_k1_scaled(x);
        let close = Tolerance::relative(1e-10);
        prop_assert!(near("K0", zero, integral(x, 0.0), close).is_ok(), "K0({x})");
        prop_assert!(near("K1", one, integral(x, 1.0), close).is_ok(), "K1({x})");
        prop_assert!(near("unscaled", k0(x), zero * (-x).exp(), Tolerance::relative(1e-13)).is_ok());
    }
}
