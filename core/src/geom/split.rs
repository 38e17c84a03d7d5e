//! Cutting a length into equal pieces.

/// The fewest equal pieces of at most `most` that make up `whole`; at least one. A whole number of
/// pieces that rounding left a hair too long is that number still.
pub(crate) fn pieces(whole: f64, most: f64) -> f64 {
    const HAIR: f64 = 1e-9;
    libm::fmax(1.0, libm::ceil(whole / most - HAIR))
}
