//! The modified Bessel functions `K₀` and `K₁` that the temperature about a moving arc needs.
//!
//! Up to 2 by the power series of DLMF 10.31.1 and 10.31.2 (Abramowitz and Stegun 9.6.11 and 9.6.13;
//! from memory). Above 2 by `√x eˣ K(x)` as a Chebyshev series in `4/x − 1`; the coefficients were worked
//! out for this file by the discrete cosine sum over 80 nodes with mpmath at 40 digits. Both are within
//! about 1e-15 of the function. The `tests` crate checks them against table 9.8 of Abramowitz and Stegun
//! and against the integral `∫ exp(−x cosh t) dt`.
//!
//! `K` falls as e⁻ˣ and is lost below 1e-308 past 700; the scaled forms `eˣ K` are not, and a caller adds
//! up the exponents first.

/// Euler's constant.
const EULER: f64 = 0.577_215_664_901_532_9;

/// Where the series hands over.
const HAND_OVER: f64 = 2.0;

/// Terms of the power series at most: at 2 the fifteenth is below 1e-23.
const TERMS: u32 = 20;

/// Chebyshev coefficients of `√x eˣ K₀(x)`.
const LARGE_0: [f64; 22] = [
    1.2201515410329777,
    -0.0314481013119645,
    0.0015698838857300533,
    -0.00012849549581627802,
    1.39498137188765e-05,
    -1.8317555227191195e-06,
    2.766813639445015e-07,
    -4.660489897687948e-08,
    8.574034017414225e-09,
    -1.6975345093890614e-09,
    3.5773972814003283e-10,
    -7.957489244477396e-11,
    1.8559491149549264e-11,
    -4.514597883374519e-12,
    1.1403405882073441e-12,
    -2.9800969231481784e-13,
    8.032890775068375e-14,
    -2.2275133267462965e-14,
    6.340076476276646e-15,
    -1.848593377920907e-15,
    5.5120559994043335e-16,
    -1.6782311257549006e-16,
];

/// Chebyshev coefficients of `√x eˣ K₁(x)`.
const LARGE_1: [f64; 22] = [
    1.3603130952422213,
    0.10392373657681724,
    -0.002857816859622779,
    0.00019521551847135162,
    -1.936197974166083e-05,
    2.406484947837217e-06,
    -3.5019606030878126e-07,
    5.7410841254500495e-08,
    -1.0345762465678097e-08,
    2.0150497551970347e-09,
    -4.1903547593419254e-10,
    9.218315187605315e-11,
    -2.129967838427791e-11,
    5.139639673482343e-12,
    -1.2891739609498229e-12,
    3.348419666052243e-13,
    -8.976705182010146e-14,
    2.4771544242195988e-14,
    -7.0198370892147685e-15,
    2.038703166239861e-15,
    -6.057047270643018e-16,
    1.8380935752430455e-16,
];

/// `eˣ K₀(x)` for `x` above 0; not a number elsewhere.
#[must_use]
pub fn k0_scaled(x: f64) -> f64 {
    if x > HAND_OVER {
        chebyshev(&LARGE_0, 4.0 / x - 1.0) / libm::sqrt(x)
    } else if x > 0.0 {
        let [k0, _] = small(x);
        k0 * libm::exp(x)
    } else {
        f64::NAN
    }
}

/// `K₀(x)` for `x` above 0; 0 past about 740, not a number at and below 0.
#[must_use]
pub fn k0(x: f64) -> f64 {
    if x > HAND_OVER {
        k0_scaled(x) * libm::exp(-x)
    } else if x > 0.0 {
        let [k0, _] = small(x);
        k0
    } else {
        f64::NAN
    }
}

/// `eˣ K₀(x)` and `eˣ K₁(x)` for `x` above 0; not numbers elsewhere.
#[must_use]
pub fn k0_k1_scaled(x: f64) -> [f64; 2] {
    if x > HAND_OVER {
        let (s, root) = (4.0 / x - 1.0, libm::sqrt(x));
        [&LARGE_0, &LARGE_1].map(|table| chebyshev(table, s) / root)
    } else if x > 0.0 {
        let up = libm::exp(x);
        small(x).map(|k| k * up)
    } else {
        [f64::NAN; 2]
    }
}

/// `K₀` and `K₁` by their power series about 0, with `q = x²/4`:
/// `K₀ = Σ qᵏ/(k!)² (H_k − γ − ln(x/2))` and
/// `K₁ = 1/x + (x/2) Σ qᵏ/(k!(k+1)!) (ln(x/2) + γ − H_k − 1/(2k+2))`.
fn small(x: f64) -> [f64; 2] {
    let quarter = 0.25 * x * x;
    let log = libm::log(0.5 * x) + EULER;
    let (mut term, mut harmonic) = (1.0, 0.0);
    let (mut zero, mut one) = (0.0, 0.0);
    for k in 0..TERMS {
        let next = f64::from(k) + 1.0;
        zero += term * (harmonic - log);
        one += term / next * (log - harmonic - 0.5 / next);
        term *= quarter / (next * next);
        if term < 1e-22 {
            break;
        }
        harmonic += 1.0 / next;
    }
    [zero, 1.0 / x + 0.5 * x * one]
}

/// Clenshaw's sum of a Chebyshev series at `s` from −1 to 1.
fn chebyshev(coefficients: &[f64], s: f64) -> f64 {
    let (mut b1, mut b2) = (0.0, 0.0);
    for c in coefficients.iter().rev() {
        (b1, b2) = (2.0 * s * b1 - b2 + c, b1);
    }
    // The last step took `2 s b`; the sum wants half of it.
    b1 - s * b2
}
