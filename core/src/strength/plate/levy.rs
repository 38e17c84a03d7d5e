//! A plate whose edges are held down and free to turn.

use super::peak;
use super::peak::Spot;
use super::wave::{Waves, pressure};
use super::{Bending, Field, Part, Ramp, Sides};

/// Terms at the most; they are left off sooner where they have faded.
const TERMS: usize = 40;
/// A longer plate is taken as its end of this many short sides: 3e-6 off the strip in its middle.
const LONGEST: f64 = 10.0;

/// Largest moment and deflection of a plate with edges held down and free to turn.
///
/// Lévy's series: Timoshenko and Woinowsky-Krieger, articles 30 (even pressure) and 31 (hydrostatic).
/// The twisting moment at the corners is not counted, as in the published tables; for ν of 0.15 or more
/// it is smaller than the largest bending moment.
#[must_use]
pub fn supported(sides: Sides, ramp: Ramp, poisson: f64) -> Bending {
    let (ratio, ramp) = ramp.end_of(sides, LONGEST);
    let at = |spot: Spot| {
        let mut sum = Field::default();
        for (part, strength) in ramp.parts() {
            if strength != 0.0 {
                sum.add(field(part, ratio, poisson, spot), strength);
            }
        }
        sum
    };
    let square = sides.short() * sides.short();
    let level = ramp.across == 0.0 && ramp.along == 0.0;
    let mut value = |spot: Spot| {
        let Field { w, across, along } = at(spot);
        [w, across, along]
    };
    let [w, across, along] = if level {
        value(Spot::MIDDLE).map(libm::fabs)
    } else {
        peak::over(&mut value, ratio)
    };
    Bending {
        moment: libm::fmax(across, along) * square,
        deflection: w * square * square,
    }
}

/// The numbers of terms: the first of them, and up by two.
pub(super) fn numbered(first: u8) -> impl Iterator<Item = u8> + Clone {
    (0u8..).map(move |step| first.saturating_add(step.saturating_mul(2)))
}

/// The field of one part of the pressure: the strip across the short side, and Lévy's terms that bring
/// the two short edges down.
pub(super) fn field(part: Part, ratio: f64, poisson: f64, spot: Spot) -> Field {
    let Spot { x, y } = spot;
    let odd = part == Part::Along;
    let (w, bent) = match part {
        Part::Even | Part::Along => (x * (1.0 + x * x * (x - 2.0)) / 24.0, 0.5 * x * (1.0 - x)),
        Part::Across => (
            x * (-1.0 + x * x * (10.0 + x * (6.0 * x - 15.0))) / 360.0,
            x * (-1.0 + x * (3.0 - 2.0 * x)) / 6.0,
        ),
    };
    let share = if odd { 2.0 * y / ratio } else { 1.0 };
    let mut sum = [w * share, -bent * share, 0.0];
    let [first, _] = part.first();
    let waves = Waves::at([first, 2], [1.0, ratio], [x, y]);
    for (number, wave) in numbered(first).zip(waves).take(TERMS) {
        if wave.fades() {
            break;
        }
        let square = wave.k * wave.k;
        let q = pressure(number) / (square * square);
        let (edge, _) = wave.at_edge(odd);
        let bent = wave.bent(odd, -q * (1.0 + 0.5 * wave.beta * edge), 0.5 * q);
        for (total, part) in sum.iter_mut().zip(bent) {
            *total += part;
        }
    }
    let [w, xx, yy] = sum;
    Field {
        w,
        across: -(xx + poisson * yy),
        along: -(yy + poisson * xx),
    }
}
