//! Where a falling or rising function of one number is nought.

/// Steps at most; each third one halves the bracket, so 40 halvings at least: past 1e-12 of it.
const STEPS: u32 = 120;

/// Where `f` is nought between `low` and `high`; `None` unless its signs differ there. The function is
/// taken to be monotone. False position as the Illinois rule mends it, with a halving every third step.
pub(crate) fn between(f: &dyn Fn(f64) -> f64, low: f64, high: f64) -> Option<f64> {
    let (mut a, mut b) = (low, high);
    let (mut fa, mut fb) = (f(a), f(b));
    if !(fa * fb <= 0.0) {
        return None;
    }
    let (mut at, mut side) = (a, 0_i8);
    for step in 0..STEPS {
        let secant = (a * fb - b * fa) / (fb - fa);
        at = if step % 3 == 2 || !(secant > a && secant < b) {
            0.5 * (a + b)
        } else {
            secant
        };
        let here = f(at);
        // Exactly nought cannot be bettered.
        #[allow(clippy::float_cmp)]
        if here == 0.0 || b - a <= 4.0 * f64::EPSILON * (libm::fabs(a) + libm::fabs(b)) {
            break;
        }
        if (here > 0.0) == (fa > 0.0) {
            (a, fa) = (at, here);
            if side == -1 {
                fb *= 0.5;
            }
            side = -1;
        } else {
            (b, fb) = (at, here);
            if side == 1 {
                fa *= 0.5;
            }
            side = 1;
        }
    }
    Some(at)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn finds_a_root_and_refuses_none() {
        let root = between(&|x| libm::exp(-x) - 1e-6, 0.0, 700.0).unwrap();
        assert!((root - 6.0 * core::f64::consts::LN_10).abs() < 1e-10);
        let root = between(&|x| x * x * x, -1.0, 3.0).unwrap();
        assert!(root.abs() < 1e-4);
        assert_eq!(between(&|x| x * x + 1.0, -1.0, 1.0), None);
        assert_eq!(between(&|_| f64::NAN, -1.0, 1.0), None);
    }
}
