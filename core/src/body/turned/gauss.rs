//! Gauss-Legendre quadrature for curves that end like a square root.

use core::f64::consts::FRAC_PI_2;

/// The positive nodes of the 24-point rule on −1 to 1, with their weights: Abramowitz and Stegun,
/// table 25.4 (from memory); computed to all digits as the roots of the Legendre polynomial.
const RULE: [(f64, f64); 12] = [
    (0.06405689286260563, 0.12793819534675216),
    (0.1911188674736163, 0.1258374563468283),
    (0.3150426796961634, 0.12167047292780339),
    (0.4337935076260451, 0.1155056680537256),
    (0.5454214713888396, 0.10744427011596563),
    (0.6480936519369755, 0.09761865210411388),
    (0.7401241915785544, 0.08619016153195327),
    (0.820001985973903, 0.0733464814110803),
    (0.8864155270044011, 0.05929858491543678),
    (0.9382745520027328, 0.04427743881741981),
    (0.9747285559713095, 0.028531388628933663),
    (0.9951872199970213, 0.0123412297999872),
];

/// Calls `see` with 24 places between `from` and `to` and the weight of each.
///
/// A sine is put between the rule and the stretch, so that what leaves an end like the square root of
/// the distance, or like its cube, is smooth to the rule.
pub(super) fn each(from: f64, to: f64, mut see: impl FnMut(f64, f64)) {
    let (middle, half) = (0.5 * (from + to), 0.5 * (to - from));
    for (node, weight) in RULE {
        let (sine, cosine) = libm::sincos(FRAC_PI_2 * node);
        let weight = weight * half * FRAC_PI_2 * cosine;
        see(middle + half * sine, weight);
        see(middle - half * sine, weight);
    }
}
