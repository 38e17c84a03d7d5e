//! What metal radiates, in whole numbers, as a rate by its heat: what it radiates for each kelvin, over ε σ, in units of
//! 64 K³.
//!
//! `(T₀ + T)⁴ − T₀⁴ = T (4 T₀³ + T (6 T₀² + T (4 T₀ + T)))`, and of a bell of heat the same with other factors as long as
//! its top does not melt (`hot`). For hotter tops the mean over the bell is a table by the octaves of the top over the
//! melting point, sixteen lines in each.

use super::hot::Hot;
use super::whole::{MOST, ONE, PARTS, parts, times};

/// Octaves over the melting point for which there is a table.
const OCTAVES: usize = 4;
/// Lines in each.
const LINES: usize = 16;
/// Unit of a rate, in K³.
const UNIT: f64 = 64.0;
/// What a sheet has of a rate in a step is this many bits more than a share.
const SCALE: u32 = 24;
/// Share of its heat that a cell may lose in a step in one go, as [`AT_ONCE`](super::hot::AT_ONCE).
const AT_ONCE: u32 = (super::hot::AT_ONCE * ONE) as u32;
/// The highest share that the losses of a step are worked out for in whole numbers: a quarter.
pub(super) const HIGHEST: u32 = 1 << 30;
/// Short steps in a step for what a bell radiates.
const SHORT: u64 = 8;

/// Rates of radiation in air of one temperature, of one metal.
#[derive(Clone, Copy, Debug)]
pub(super) struct Rates {
    /// `4 T₀³`, in units of 64 K³.
    still: u32,
    /// `6 T₀²`, in parts of 1/64 K², and that of a bell.
    first: [u32; 2],
    /// `4 T₀`, in parts of a kelvin, and that of a bell.
    second: [u32; 2],
    /// Where it melts, how much further it would warm with its heat of fusion, and where it boils, in parts of a kelvin.
    melts: u32,
    fusion: u32,
    boils: u32,
    /// 2⁴⁰ over `melts`.
    inverse: u32,
    /// Rates of bells whose tops are 1, 17/16, … 2, 17/8, … 16 times the melting point; none where no beads are tracked.
    bells: [u32; OCTAVES * LINES + 1],
}

impl Rates {
    pub(super) const NONE: Self = Self {
        still: 0,
        first: [0; 2],
        second: [0; 2],
        melts: 0,
        fusion: 0,
        boils: 0,
        inverse: 0,
        bells: [0; OCTAVES * LINES + 1],
    };

    /// With a table of bells where beads are tracked.
    pub(super) fn new(hot: &Hot, beads: bool) -> Self {
        let ambient = hot.ambient;
        let square = 6.0 * 64.0 * ambient * ambient;
        let line = 4.0 * PARTS * ambient;
        let (half, third) = (libm::sqrt(0.5), libm::sqrt(1.0 / 3.0));
        // Beyond, rates would not fit; no metal melts as late.
        let melts = parts(libm::fmin(hot.melts, 2_000.0)).unsigned_abs().max(1);
        let bells = core::array::from_fn(|n| {
            if !beads {
                return 0;
            }
            let (octave, line) = (n / LINES, n % LINES);
            let times = f64::from(1_u32 << octave) * (1.0 + line as f64 / LINES as f64);
            let top = libm::fmax(times * hot.melts, 1.0);
            (hot.over_bell(top) / top / UNIT) as u32
        });
        Self {
            still: (4.0 * ambient * ambient * ambient / UNIT) as u32,
            first: [square as u32, (half * square) as u32],
            second: [line as u32, (third * line) as u32],
            melts,
            fusion: parts(hot.fusion).unsigned_abs(),
            boils: parts(libm::fmin(hot.boils, 4_000.0)).unsigned_abs(),
            inverse: ((1_u64 << 40) / u64::from(melts)) as u32,
            bells,
        }
    }

    /// What metal radiates beyond a radiation in proportion to its warmth, for each kelvin.
    #[inline(always)]
    fn beyond(&self, warmth: u32) -> u32 {
        cubic(warmth, self.first[0], self.second[0].wrapping_add(warmth))
    }

    /// What metal radiates for each kelvin of its warmth, in parts, that is below its melting point.
    #[inline(always)]
    fn of(&self, warmth: u32) -> u32 {
        self.still.wrapping_add(self.beyond(warmth))
    }

    /// The same beyond the first of the terms for each kelvin of its heat, whether it has molten or not.
    fn beyond_of_heat(&self, heat: u32) -> u32 {
        if heat <= self.melts {
            return self.beyond(heat);
        }
        let warmth = heat.saturating_sub(self.fusion).max(self.melts);
        let warmth = warmth.min(self.boils);
        (u64::from(self.beyond(warmth)) * u64::from(warmth) / u64::from(heat)) as u32
    }

    /// What a bell of heat radiates so, the mean over it, for each kelvin of its top, which is in parts.
    fn bell(&self, top: u32) -> u32 {
        if top <= self.melts {
            let second = self.second[1].wrapping_add(top / 2);
            return cubic(top, self.first[1], second);
        }
        let ratio = ((u64::from(top) * u64::from(self.inverse)) >> 24) as u32;
        let ratio = ratio.max(1 << 16);
        let zeros = ratio.leading_zeros();
        let octave = 15_u32.saturating_sub(zeros) as usize;
        let whole = ratio << zeros;
        let line = LINES * octave + (whole >> 27 & 15) as usize;
        let [.., last] = self.bells;
        let (Some(from), Some(to)) = (self.bells.get(line), self.bells.get(line + 1)) else {
            return last;
        };
        let along = i64::from(whole >> 11 & 0xffff);
        let (from, to) = (i64::from(*from), i64::from(*to));
        (from + (((to - from) * along) >> 16)) as u32
    }
}

/// `1 − e^(−x)` up to a quarter.
fn gone(x: u32) -> u32 {
    let square = times(x, x);
    let (third, fourth) = (times(square, x), times(square, square));
    x - square / 2 + third / 6 - fourth / 24
}

/// `warmth (first + warmth second)` in units of a rate.
#[inline(always)]
fn cubic(warmth: u32, first: u32, second: u32) -> u32 {
    let square = (u64::from(warmth) * u64::from(second)) >> 22;
    let slope = u64::from(first) + square;
    ((u64::from(warmth) * slope) >> 26) as u32
}

/// What a W/m² takes in a step from a sheet, in whole numbers.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct Takes {
    /// From each kelvin of it, for each W/(m² K) of film, as a share.
    film: u32,
    /// For each unit of a rate, as a share and [`SCALE`] bits more.
    rate: u32,
    /// The warmth, in parts, up to which this is good for what it radiates.
    pub(super) until: u32,
}

impl Takes {
    pub(super) const NONE: Self = Self {
        film: 0,
        rate: 0,
        until: 0,
    };

    /// Of a sheet from which a W/m² takes so many kelvin in a step.
    pub(super) fn new(takes: f64, hot: &Hot, rates: &Rates) -> Self {
        // 2³² for the share, 2²⁴ beside it, 2⁶ for the unit.
        let rate = (takes * hot.shine * ONE * f64::from(1 << (SCALE + 6))) as u32;
        let mut made = Self {
            film: super::whole::share(takes),
            rate,
            until: rates.melts,
        };
        if rate == u32::MAX {
            made.until = 0;
        }
        while made.share(rates.of(made.until)) > u64::from(HIGHEST) {
            made.until -= made.until / 8 + 1;
        }
        made
    }

    /// What a film takes in a step, as a share; not much more than [`HIGHEST`].
    pub(super) fn film(&self, film: u32) -> u32 {
        let share = (u64::from(self.film) * u64::from(film)) >> 16;
        share.min(u64::from(HIGHEST) + 1) as u32
    }

    /// What a rate takes in a step, as a share.
    #[inline(always)]
    fn share(&self, rate: u32) -> u64 {
        (u64::from(self.rate) * u64::from(rate)) >> SCALE
    }

    /// How fast metal of some parts of a kelvin loses heat with a film that takes the share `film`: as a share in a step,
    /// had it that warmth all through it. The warmth is no more than `until`.
    #[inline(always)]
    pub(super) fn speed(&self, rates: &Rates, warmth: u32, film: u32) -> u32 {
        // Neither is much more than a quarter.
        film.wrapping_add(self.share(rates.of(warmth)) as u32)
    }

    /// The share of its heat that metal loses in a step, with a film that takes the share `film`; `None` where that is
    /// more than whole numbers are good for, or the metal melts.
    pub(super) fn loss(&self, rates: &Rates, warmth: u32, film: u32) -> Option<u32> {
        if warmth > self.until {
            return None;
        }
        let x = self.speed(rates, warmth, film);
        if x <= AT_ONCE {
            // 1 − e^(−x).
            return Some(x - times(x, x) / 2);
        }
        if x > HIGHEST {
            return None;
        }
        // The mean over the step, by Simpson's rule: how warm it is in the middle by the speed after a quarter of it. Where
        // short steps take over that leave a little more, more warmth is left after more.
        let after = |share: u32| self.speed(rates, warmth - times(warmth, share), film);
        let middle = after(gone(after(x / 4) / 2));
        let end = after(gone(middle));
        Some(gone((x / 2 + 2 * middle + end / 2) / 3))
    }

    /// What a cell whose mean is so many parts of a kelvin loses in a step by what it radiates beyond that, when its heat
    /// lies in a bell of `crowd` times as much, in parts of 2¹⁶: in parts, rounded up from `turn` on; `None` where it
    /// is no more than the share `least`.
    pub(super) fn glow(
        &self,
        rates: &Rates,
        (heat, crowd): (u32, u32),
        least: u32,
        turn: u32,
    ) -> Option<u32> {
        let top = |heat: u32| {
            let top = (u64::from(heat) * u64::from(crowd)) >> 16;
            top.min(u64::from(MOST.unsigned_abs())) as u32
        };
        let leaves = |heat: u32| self.share(rates.bell(top(heat)));
        let at_once = leaves(heat);
        if at_once <= u64::from(least) {
            return None;
        }
        let seen = self.share(rates.beyond_of_heat(heat));
        if at_once <= u64::from(AT_ONCE) {
            let x = at_once.saturating_sub(seen) as u32;
            // x / (1 + x).
            let share = x - times(x, x - times(x, x));
            let drop = (u64::from(heat) * u64::from(share) + u64::from(turn)) >> 32;
            return (share > least).then_some(drop as u32);
        }
        // What is radiated rises with the fourth power of heat at most, and a little faster where metal has just melted.
        let mut left = heat;
        for _ in 0..SHORT {
            let leaves = leaves(left).min(16 << 32) / SHORT;
            let slow = (1 << 32) + 4 * leaves;
            left -= (u64::from(left) * leaves / slow) as u32;
        }
        let seen = (u64::from(left) * seen.min(1 << 32)) >> 32;
        Some(heat.saturating_sub(left.saturating_add(seen as u32)))
    }
}

#[cfg(test)]
mod tests {
    use super::super::super::loss::STEFAN_BOLTZMANN;
    use super::super::whole::kelvin;
    use super::*;

    const METALS: [Hot; 3] = [
        // 304.
        Hot {
            melts: 1_430.0,
            fusion: 550.0,
            boils: 2_841.0,
            ambient: 293.15,
            shine: 0.3 * STEFAN_BOLTZMANN,
        },
        // 5052 on a hot day.
        Hot {
            melts: 609.0,
            fusion: 440.0,
            boils: 2_400.0,
            ambient: 313.15,
            shine: 0.1 * STEFAN_BOLTZMANN,
        },
        // Rusty steel in the frost.
        Hot {
            melts: 1_557.0,
            fusion: 400.0,
            boils: 2_890.0,
            ambient: 243.15,
            shine: 0.95 * STEFAN_BOLTZMANN,
        },
    ];

    /// What a W/m² takes in a step from sheets of 0.8 to 6 mm, in K.
    const TAKES: [f64; 4] = [2e-6, 2e-5, 2e-4, 7e-4];

    #[test]
    fn whole_numbers_lose_what_doubles_do() {
        for hot in METALS {
            let rates = Rates::new(&hot, true);
            for takes in TAKES {
                let whole = Takes::new(takes, &hot, &rates);
                for film in [1.0, 9.0, 30.0] {
                    let share = whole.film((film * 65_536.0) as u32);
                    for n in 0..800 {
                        let warmth = 0.01 * libm::exp(0.0149 * f64::from(n));
                        if warmth > hot.melts {
                            continue;
                        }
                        let lost = whole.loss(&rates, parts(warmth).unsigned_abs(), share);
                        let Some(lost) = lost else {
                            // Thin sheet that glows.
                            assert!(takes > 5e-4 && warmth > 900.0, "{takes} {warmth}");
                            continue;
                        };
                        let found = f64::from(lost) / ONE;
                        let wanted = 1.0 - hot.left(warmth, film, takes) / warmth;
                        // Short steps and one are as far apart as this.
                        let apart = if found < 0.02 { 2.0 * wanted } else { 0.02 };
                        assert!(
                            (found / wanted - 1.0).abs() < apart + 2e-3,
                            "{takes} {film} {warmth}: {found} {wanted}"
                        );
                    }
                }
            }
        }
    }

    /// From next to nothing to a quarter of its heat in a step, and past its melting point.
    #[test]
    fn more_warmth_leaves_more_warmth() {
        for hot in METALS {
            let rates = Rates::new(&hot, true);
            for takes in TAKES {
                let whole = Takes::new(takes, &hot, &rates);
                let film = whole.film(9 << 16);
                for turn in [0, 1 << 31, u32::MAX] {
                    let mut last = -1;
                    let mut warmth = 1;
                    while f64::from(warmth) < 1.1 * PARTS * hot.melts {
                        let lost = whole.loss(&rates, warmth as u32, film).unwrap_or_else(|| {
                            let heat = kelvin(warmth);
                            super::super::whole::share(1.0 - hot.left(heat, 9.0, takes) / heat)
                        });
                        let left = warmth - super::super::whole::part_of(warmth, lost, turn);
                        assert!(left >= last - 1, "{takes} {warmth}: {left} after {last}");
                        last = left;
                        warmth += 1 + warmth / 5_000;
                    }
                }
            }
        }
    }

    #[test]
    fn bells_radiate_in_whole_numbers_as_in_doubles() {
        for hot in METALS {
            let rates = Rates::new(&hot, true);
            for n in 0..500 {
                let top = libm::exp(0.02 * f64::from(n));
                if top > 16.0 * hot.melts {
                    // Beyond the table.
                    break;
                }
                let found = UNIT * f64::from(rates.bell(parts(top).unsigned_abs()));
                let wanted = hot.over_bell(top) / top;
                // Where a top begins and ends to melt, and begins to boil, lines are not as good.
                let apart = if top > hot.melts { 0.013 } else { 1e-4 };
                assert!(
                    (found / wanted - 1.0).abs() < apart + 1e-3 / top,
                    "{top}: {found} {wanted}"
                );
            }
        }
    }

    #[test]
    fn beads_glow_in_whole_numbers_as_in_doubles() {
        for hot in METALS {
            let rates = Rates::new(&hot, true);
            for takes in TAKES {
                let whole = Takes::new(takes, &hot, &rates);
                for crowd in [1.5, 3.0, 10.0] {
                    for n in 0..400 {
                        let heat = 0.2 * libm::exp(0.02 * f64::from(n));
                        let fixed = ((crowd * 65_536.0) as u32, parts(heat).unsigned_abs());
                        let found = whole
                            .glow(&rates, (fixed.1, fixed.0), 0, 1 << 31)
                            .unwrap_or(0);
                        let wanted = heat * (1.0 - hot.left_by_glow(heat, crowd, takes));
                        let found = f64::from(found) / PARTS;
                        // As far apart as the bells are; what the cell itself radiates is taken off.
                        let bell = takes * hot.shine * hot.over_bell(crowd * heat) / crowd;
                        assert!(
                            (found - wanted).abs() < 0.013 * bell + 2e-4,
                            "{takes} {crowd} {heat}: {found} {wanted}"
                        );
                    }
                }
            }
        }
    }
}
