//! A round step between marks.

/// The smallest of 1, 2 or 5 times a power of ten that cuts `whole` into at most `marks` steps, in the
/// unit of `whole` (so ask in the unit that the chart is to show: litres, gallons, millimetres). `None`
/// where `whole` is not above zero and finite, or `marks` is zero.
///
/// Common practice for scales, no source.
#[must_use]
pub fn round_step(whole: f64, marks: u16) -> Option<f64> {
    if !(whole > 0.0 && whole.is_finite()) || marks == 0 {
        return None;
    }
    let least = whole / f64::from(marks);
    let mut power = libm::floor(libm::log10(least)) - 1.0;
    // The logarithm may be a hair off at a whole power, so one power lower and one higher are tried too.
    for _ in 0..4 {
        // A power below one is had by division, so that 0.2 is the double that is written so.
        let ten = libm::exp10(libm::fabs(power));
        for digit in [1.0, 2.0, 5.0] {
            let step = if power < 0.0 {
                digit / ten
            } else {
                digit * ten
            };
            if step >= least * (1.0 - 1e-12) && step.is_finite() {
                return Some(step);
            }
        }
        power += 1.0;
    }
    None
}
