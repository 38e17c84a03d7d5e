//! Comparing figures.

/// How near a figure must come: the larger of a share of the expected one and an absolute amount.
#[derive(Clone, Copy, Debug)]
pub struct Tolerance {
    /// Share of the expected figure.
    pub relative: f64,
    /// Amount, in the figure's own unit.
    pub absolute: f64,
}

impl Tolerance {
    /// A share only.
    #[must_use]
    pub const fn relative(share: f64) -> Self {
        Self {
            relative: share,
            absolute: 0.0,
        }
    }

    /// An amount only.
    #[must_use]
    pub const fn absolute(amount: f64) -> Self {
        Self {
            relative: 0.0,
            absolute: amount,
        }
    }
}

/// Says what is wrong unless `got` lies above `want` by a share between the two given.
///
/// # Errors
/// A sentence with both figures and the share. A figure that is not a number is an error.
pub fn between(what: &str, got: f64, want: f64, least: f64, most: f64) -> Result<(), String> {
    let share = got / want - 1.0;
    if share >= least && share <= most {
        Ok(())
    } else {
        Err(format!(
            "{what}: got {got}, {share:+.4} off {want}, allowed {least} to {most}"
        ))
    }
}

/// Says what is wrong unless `got` comes as near to `expected` as it must.
///
/// # Errors
/// A sentence with both figures and how far they are apart. A figure that is not a number is an error.
pub fn near(what: &str, got: f64, expected: f64, tolerance: Tolerance) -> Result<(), String> {
    let allowed = (tolerance.relative * expected.abs()).max(tolerance.absolute);
    let apart = (got - expected).abs();
    if apart <= allowed {
        Ok(())
    } else {
        Err(format!(
            "{what}: got {got:?}, expected {expected:?}, {apart:e} apart where {allowed:e} is allowed"
        ))
    }
}
