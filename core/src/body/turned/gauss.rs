//! Gauss-Legendre quadrature for curves that end like a square root.
//!
//! A sine is put between the rule and the stretch, so that what leaves an end like the square root of the
//! distance, or like its cube, is smooth to the rule.

/// For each positive node x of the 24-point rule on −1 to 1, of weight w: `sin(πx/2)`, where the sine takes
/// it, and `(π/2) cos(πx/2) w`, its weight there. The rule is that of Abramowitz and Stegun, table 25.4 (from
/// memory), computed to 50 digits as the roots of the Legendre polynomial; the sine and cosine of each are
/// worked out here once, since a machine without an FPU pays some ten thousand instructions for a pair.
const RULE: [(f64, f64); 12] = [
    (0.10045063033696164, 0.19994837594676573),
    (0.29571968881434424, 0.18882439885343474),
    (0.4749153892237813, 0.16819120101057886),
    (0.6298819788473622, 0.14091958905880128),
    (0.7557155516028933, 0.11052947952351369),
    (0.8510717300380624, 0.08051056606007381),
    (0.9178320837020137, 0.05374449648049318),
    (0.9602945560019079, 0.03214288518424291),
    (0.9841256733619321, 0.01653089818807649),
    (0.9953032439430657, 0.006732956754422595),
    (0.99921220568082, 0.0017786015075653134),
    (0.9999714241136359, 0.0001465514320313831),
];

/// Calls `see` with 24 places between `from` and `to` and the weight of each.
pub(super) fn each(from: f64, to: f64, mut see: impl FnMut(f64, f64)) {
    let (middle, half) = (0.5 * (from + to), 0.5 * (to - from));
    for (sine, weight) in RULE {
        let (reach, weight) = (half * sine, half * weight);
        see(middle + reach, weight);
        see(middle - reach, weight);
    }
}
