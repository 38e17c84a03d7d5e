//! Metal so hot that what it radiates changes within a step of time, or that it melts.
//!
//! The cells carry heat as if metal neither melted nor boiled: a cell of twice the heat is twice as warm. What leaves a
//! cell or a bead goes by the temperature that metal has with that heat: it stays at the end of its melting range while
//! it takes up its heat of fusion, and is never hotter than it boils.
//!
//! Losses of such metal are taken in short steps, each of which divides what would leave by how fast that rises with
//! heat (a linearly implicit step). A step like that takes no more than there is, and more heat before it is more heat
//! after it, whatever the metal, the sheet and the length of the step: the slope it divides by is never less than the
//! true one.

use super::super::loss::STEFAN_BOLTZMANN;
use super::super::melting::Melting;

/// Share of its heat that metal may lose in a step in one go.
pub(super) const AT_ONCE: f64 = 0.02;
/// Short steps in a step.
const SHORT: u8 = 16;
/// Short steps in a step for a bead, whose losses take longer to work out.
#[cfg(test)]
const SHORT_OF_BEAD: u8 = 8;

/// Where metal melts and boils, in K over the surroundings.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct Hot {
    /// End of its melting range.
    pub(super) melts: f64,
    /// How much further it would warm with its heat of fusion, in K.
    pub(super) fusion: f64,
    /// Its boiling point.
    pub(super) boils: f64,
    /// Temperature of the surroundings, in K.
    pub(super) ambient: f64,
    /// ε σ, in W/(m² K⁴).
    pub(super) shine: f64,
}

impl Hot {
    pub(super) const NONE: Self = Self {
        melts: 0.0,
        fusion: 0.0,
        boils: 0.0,
        ambient: 0.0,
        shine: 0.0,
    };

    pub(super) fn new(melting: &Melting, ambient: f64, emissivity: f64) -> Self {
        Self {
            melts: melting.liquidus - ambient,
            fusion: melting.fusion,
            boils: melting.boiling - ambient,
            ambient,
            shine: emissivity * STEFAN_BOLTZMANN,
        }
    }

    /// How warm metal is that would be `heat` kelvin warm if it neither melted nor boiled.
    pub(super) fn warmth(&self, heat: f64) -> f64 {
        if heat <= self.melts {
            heat
        } else {
            libm::fmin(libm::fmax(self.melts, heat - self.fusion), self.boils)
        }
    }

    /// What metal so warm radiates beyond a radiation in proportion to its warmth, over ε σ: the terms above the first
    /// of `(T₀ + T)⁴ − T₀⁴`, in K⁴.
    pub(super) fn beyond_first(&self, warmth: f64) -> f64 {
        let ambient = self.ambient;
        warmth * warmth * (6.0 * ambient * ambient + warmth * (4.0 * ambient + warmth))
    }

    /// What metal so warm radiates, in W/m².
    pub(super) fn radiates(&self, warmth: f64) -> f64 {
        let first = 4.0 * self.ambient * self.ambient * self.ambient * warmth;
        self.shine * (first + self.beyond_first(warmth))
    }

    /// How fast that rises with its warmth, in W/(m² K).
    fn slope(&self, warmth: f64) -> f64 {
        let hot = self.ambient + warmth;
        4.0 * self.shine * hot * hot * hot
    }

    /// The share that is left in a step of the heat of a cell whose mean is `heat`, told as warmth in K, when it lies in a
    /// bell of `crowd` times as much as is spread evenly, and what the cell radiates at its mean is taken already.
    /// `takes` is what a W/m² takes from its mean in the step, in K.
    #[cfg(test)]
    pub(super) fn left_by_glow(&self, heat: f64, crowd: f64, takes: f64) -> f64 {
        // What a bell of the same heat radiates for each of its top, and how much the mean does.
        let takes = takes * self.shine;
        let leaves = |heat: f64| takes * self.over_bell(crowd * heat) / crowd;
        let seen = takes * self.beyond_first(self.warmth(heat));
        let at_once = leaves(heat);
        if at_once <= AT_ONCE * heat {
            return heat / (heat + libm::fmax(at_once - seen, 0.0));
        }
        // What is radiated rises with the fourth power of heat at most, and a little faster where metal has just melted.
        let mut left = heat;
        for _ in 0..SHORT_OF_BEAD {
            let leaves = leaves(left) / f64::from(SHORT_OF_BEAD);
            left -= leaves / (1.0 + 4.0 * leaves / left);
        }
        libm::fmin(left / heat * (1.0 + seen / heat), 1.0)
    }

    /// What is left in a step of the heat of a cell, told as its warmth if metal neither melted nor boiled, in K. `film`
    /// is its heat transfer by convection, in W/(m² K), and `takes` what a W/m² takes from it in the step, in K.
    pub(super) fn left(&self, heat: f64, film: f64, takes: f64) -> f64 {
        let share = takes / f64::from(SHORT);
        let mut left = heat;
        for _ in 0..SHORT {
            let warmth = self.warmth(left);
            let leaves = film * warmth + self.radiates(warmth);
            left -= share * leaves / (1.0 + share * (film + self.slope(warmth)));
        }
        left
    }

    /// What a line of heat radiates across the sheet, as [`beyond_first`](Self::beyond_first) has it: the mean of that over
    /// a bell `top e^(−π y²/w²)` of heat, told as warmth, in K⁴: its integral over y divided by `w`, as the heat's own
    /// integral divided by `w` is `top`.
    pub(super) fn over_bell(&self, top: f64) -> f64 {
        let (t, melts) = (self.ambient, self.melts);
        let terms = [(6.0 * t * t, 2.0_f64), (4.0 * t, 3.0), (1.0, 4.0)];
        if top <= melts {
            // ∫ e^(−π n y²/w²) dy = w/√n.
            let sum = terms[0].0 * libm::sqrt(0.5)
                + terms[1].0 * libm::sqrt(1.0 / 3.0) * top
                + 0.5 * top * top;
            return top * top * sum;
        }
        // How far from the line there is so much heat, in w.
        let bell = 1.0 / libm::sqrt(core::f64::consts::PI);
        let reach = |heat: f64| {
            if heat < top {
                bell * libm::sqrt(libm::log(top / heat))
            } else {
                0.0
            }
        };
        let [melting, melted, boiling] =
            [melts, melts + self.fusion, self.boils + self.fusion].map(reach);
        // Outside of the pool on both sides, as above.
        let mut sum = 0.0;
        let mut power = top;
        for (term, n) in terms {
            power *= top;
            let beyond = libm::erfc(libm::sqrt(n) * melting / bell);
            sum += term * power / libm::sqrt(n) * beyond;
        }
        // Where it melts, and where it boils.
        let at = |warmth: f64| self.beyond_first(warmth);
        sum += 2.0 * (at(melts) * (melting - melted) + at(self.boils) * boiling);
        // Between, by Gauss and Legendre in four places.
        let (middle, half) = (0.5 * (boiling + melted), 0.5 * (melted - boiling));
        for (place, weight) in [
            (0.339_981_043_584_856, 0.652_145_154_862_546),
            (0.861_136_311_594_053, 0.347_854_845_137_454),
        ] {
            for side in [-place, place] {
                let away = (middle + half * side) / bell;
                let heat = top * libm::exp(-away * away);
                sum += 2.0 * half * weight * at(self.warmth(heat));
            }
        }
        sum
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Thin 304, stainless steel of an emissivity as high as they come.
    const HOT: Hot = Hot {
        melts: 1_430.0,
        fusion: 550.0,
        boils: 2_841.0,
        ambient: 293.15,
        shine: 0.9 * STEFAN_BOLTZMANN,
    };

    /// In 20,000 strips.
    fn in_strips(top: f64) -> f64 {
        let bell = 1.0 / core::f64::consts::PI.sqrt();
        let strip = 6.0 * bell / 20_000.0;
        let of = |n: i32| {
            let away = (f64::from(n) + 0.5) * strip / bell;
            2.0 * strip * HOT.beyond_first(HOT.warmth(top * libm::exp(-away * away)))
        };
        (0..20_000).map(of).sum()
    }

    #[test]
    fn what_a_bell_radiates_is_as_in_strips() {
        for top in [
            3.0, 300.0, 1_429.0, 1_431.0, 1_800.0, 2_500.0, 3_400.0, 5e3, 2e4, 1e6,
        ] {
            let (found, wanted) = (HOT.over_bell(top), in_strips(top));
            assert!(
                (found / wanted - 1.0).abs() < 2e-3,
                "{top}: {found} {wanted}"
            );
        }
    }

    /// From the air's warmth to far over boiling, in sheet so thin that a step takes all of it.
    #[test]
    fn more_heat_leaves_more_heat() {
        for takes in [1e-6, 1e-5, 1e-4, 1e-3, 1e-2] {
            let mut last = 0.0;
            for n in 1..4_000 {
                let heat = 1e-3 * libm::exp(5e-3 * f64::from(n));
                let left = HOT.left(heat, 9.0, takes);
                assert!(left > last && left <= heat, "{takes} {heat}: {left} {last}");
                last = left;
            }
        }
    }

    #[test]
    fn a_bell_of_more_heat_radiates_more() {
        let mut last = 0.0;
        for n in 1..4_000 {
            let top = libm::exp(4e-3 * f64::from(n));
            let found = HOT.over_bell(top);
            assert!(found >= last, "{top}: {found} {last}");
            last = found;
        }
    }
}
