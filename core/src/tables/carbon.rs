//! Carbon equivalents of carbon steels, by which they are preheated or not.

use super::{Alloy, Source, Sourced};
use crate::units::Ratio;

/// Up to this carbon equivalent sheet of up to 20 mm wants no preheat with low-hydrogen filler: AWS D1.1, as a guide to
/// preheat reprints it.
pub const PLAIN_EQUIVALENT: Sourced<Ratio> =
    Sourced::new(Ratio::from_share(0.004), Source::AwsD1Point1);

/// The most that a steel's carbon equivalent may be by its standard, `C + Mn/6 + (Cr + Mo + V)/5 + (Ni + Cu)/15` (IIW), by
/// mass: of structural steels as EN 10025-2 limits it up to 30 mm, of sheet for forming from its limits of carbon and
/// manganese alone. `None` of other metals, and of steel whose grade is not told.
#[must_use]
pub const fn carbon_equivalent(alloy: Alloy) -> Option<Sourced<Ratio>> {
    let (hundredths, source) = match alloy {
        Alloy::S235 => (35, Source::En10025Table2),
        Alloy::S275 => (40, Source::En10025Table2),
        Alloy::S355 => (45, Source::En10025Table2),
        // 0.12 % of carbon and 0.60 % of manganese.
        Alloy::Dc01 | Alloy::Dd11 => (22, Source::SheetCarbon),
        _ => return None,
    };
    Some(Sourced::new(
        Ratio::from_share(hundredths as f64 / 1e4),
        source,
    ))
}
