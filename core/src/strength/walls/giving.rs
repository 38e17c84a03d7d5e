//! By how much the inside of a tank grows with the pressure in it: see [`Compliance`].

use core::f64::consts::PI;

use super::super::compliance::Compliance;
use super::super::plate::{Ramp, stiffness, supported};
use super::drum_wall::PlacedDrum;
use super::joined::Shares;
use super::judge::Judge;
use crate::input::Face;

/// A wall that stretches grows the less the harder it is pressed, so that what another pascal adds is less than the share
/// of the first that it has on average. Against finite elements of thin tanks it is never under this part of the square of
/// that share (`tests/tests/proof/thin_walls.rs`).
const NEXT: f64 = 0.75;
/// A wall that fills its rectangle in part only sweeps no less than this share of what the whole would: a triangle that is
/// half of it sweeps an eighth or so less than a half of a half.
const IN_PART: f64 = 0.2;
/// What a bulging plate sweeps is its area times at most this share of its bulge: a strip with edges free to turn has 16/25.
const UNDER_A_BULGE: f64 = 0.65;

impl Judge<'_> {
    /// Of a tank whose flat walls bear what `shares` tells.
    pub(super) fn compliance(&self, shares: &Shares) -> Compliance {
        let [least, most] = match self.placed_drum() {
            Some(drum) => self.of_drum(&drum),
            None if shares.walls.is_empty() => [0.0, self.of_single_walls()],
            None => {
                let [stretched, bent] = shares.swept;
                let sure = if shares.at_most { IN_PART } else { NEXT };
                [sure * stretched * stretched / bent, bent]
            }
        };
        Compliance::new(least, most).unwrap_or(Compliance::RIGID)
    }

    /// The walls by themselves, edges free to turn: more than they can.
    fn of_single_walls(&self) -> f64 {
        let mut sum = 0.0;
        for view in self.tank.body.outside.faces() {
            let Ok(panel) = self.worst_part(&view) else {
                continue;
            };
            let d = stiffness(self.modulus().si(), self.poisson(), panel.thickness().si());
            let bent = supported(panel.shape.sides, Ramp::even(1.0), self.poisson());
            sum += UNDER_A_BULGE * view.area().si() * bent.deflection / d;
        }
        sum
    }

    /// A thin cylinder with ends, `V (R/(E t)) (5/2 − 2 ν)`, by hoop and length (Timoshenko, *Strength of Materials*, from
    /// memory), and flat ends as discs: `π a⁶/(192 D)` held from turning at the rim, `(7 + ν)/(1 + ν)` times that free to turn
    /// (Timoshenko and Woinowsky-Krieger, article 16). Dished ends give way no more than so much more of the cylinder.
    fn of_drum(&self, drum: &PlacedDrum<'_>) -> [f64; 2] {
        let (modulus, nu) = (self.modulus().si(), self.poisson());
        let radius = drum.radius().si();
        let shell = self.tank.job.thickness_of(Face::Shell).si();
        let volume = self.tank.capacity.brim.si();
        let round = volume * radius * (2.5 - 2.0 * nu) / (modulus * shell);
        let (mut least, mut most) = (0.0, round);
        for view in self.tank.body.outside.faces() {
            if view.face() != Face::Shell && view.is_flat() {
                let thickness = self.tank.job.thickness_of(view.face()).si();
                let sixth = libm::pow(radius, 6.0);
                let held = PI * sixth / (192.0 * stiffness(modulus, nu, thickness));
                least += NEXT * held;
                most += held * (7.0 + nu) / (1.0 + nu);
            }
        }
        [least, most]
    }
}

#[cfg(test)]
mod tests {
    use super::super::super::plate::{Sides, clamped};
    use super::*;

    /// A square plate sweeps 0.419 of its bulge times its area, one of six widths 0.539 (Navier's double series, summed in
    /// `tests/data/strength/von_karman.py`); a held one less.
    #[test]
    fn under_a_bulge() {
        for (ratio, swept, held_swept) in [
            (1.0, 0.001_702_5, 0.000_389_1),
            (6.0, 0.042_050, 0.007_309_5),
        ] {
            let sides = Sides::new(1.0, ratio).unwrap();
            let free = supported(sides, Ramp::even(1.0), 0.3).deflection;
            let held = clamped(sides, Ramp::even(1.0)).deflection;
            assert!(swept < UNDER_A_BULGE * ratio * free, "{ratio}");
            assert!(held_swept < UNDER_A_BULGE * ratio * held, "{ratio}");
            assert!(swept > 0.6 * UNDER_A_BULGE * ratio * free, "{ratio}");
        }
    }
}
