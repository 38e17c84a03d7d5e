//! Convection from a sheet, by its mean warmth.
//!
//! A relation for a plate of one temperature, worked out once at each octave of its warmth, with lines between: a gauge
//! takes it at every step, and what a sheet loses must not depend on when it was last worked out.
//!
//! From a mean of 256 K over the air on it stays what it is there. Of a relation it would rise by a fifth to 1000 K,
//! where radiation is many times as much; but that hot metal somewhere on a sheet stirs the air over all of it is not in
//! any relation, and a film that rises with the mean would have more heat make the far end of a glowing sheet colder.

use super::super::loss::Facing;

/// Octaves from 1 K up to 256 K.
const OCTAVES: usize = 8;

/// Heat transfer by convection of a sheet, in W/(m² K), at 1, 2, 4 … 256 K over the air.
#[derive(Clone, Copy, Debug)]
pub(super) struct Films([f32; OCTAVES + 1]);

impl Films {
    /// Those of a sheet that stands so in air of `ambient` kelvin.
    pub(super) fn of(side: Facing, ambient: f64) -> Self {
        let mut warmth = 1.0;
        Self(core::array::from_fn(|_| {
            let film = side.film(warmth, ambient) as f32;
            warmth *= 2.0;
            film
        }))
    }

    /// The film of a sheet so many kelvin over the air; below 1 K and above 256 K that of the end.
    pub(super) fn at(&self, warmth: f64) -> f64 {
        let warmth = warmth as f32;
        let [first, .., last] = self.0;
        if !(warmth > 1.0) {
            return f64::from(first);
        }
        // The exponent of the number says which octave, its fraction how far along.
        let bits = warmth.to_bits();
        let octave = (bits >> 23).saturating_sub(127) as usize;
        let along = f32::from_bits(bits & 0x007f_ffff | 0x3f80_0000) - 1.0;
        // Between the ends the fourth and the third root of warmth lie so much above the straight line.
        let along = along * (1.25 - 0.25 * along);
        let film = match (self.0.get(octave), self.0.get(octave + 1)) {
            (Some(from), Some(to)) => from + along * (to - from),
            _ => last,
        };
        f64::from(film)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const SIDES: [Facing; 4] = [
        Facing::Upright(0.2),
        Facing::Up(0.04),
        Facing::Down(0.04),
        Facing::Known(9.0),
    ];

    /// The lines stay within 1 % of the relation (one jumps by 8 % at a Rayleigh number of 1e7, which these do not reach).
    #[test]
    fn lines_between_octaves_keep_to_the_relation() {
        for side in SIDES {
            let films = Films::of(side, 293.15);
            for n in 0..554 {
                let warmth = libm::exp(0.01 * f64::from(n));
                let (found, wanted) = (films.at(warmth), side.film(warmth, 293.15));
                assert!(
                    (found / wanted - 1.0).abs() < 0.01,
                    "{side:?} {warmth}: {found} {wanted}"
                );
            }
        }
    }

    #[test]
    fn warmer_metal_loses_more() {
        for side in [Facing::Up(0.3), Facing::Upright(2.0)]
            .into_iter()
            .chain(SIDES)
        {
            let films = Films::of(side, 293.15);
            let mut last = 0.0;
            for n in 0..4_000 {
                let warmth = 0.1 * libm::exp(0.003 * f64::from(n));
                let loss = films.at(warmth) * warmth;
                assert!(loss > last, "{side:?} {warmth}");
                last = loss;
            }
        }
    }
}
