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

/// Fixed-point one of a heat transfer of 1 W/(m² K).
pub(super) const FILM: f64 = 65_536.0;
/// Bits of a kelvin's fraction in a temperature.
const FRACTION: u32 = PARTS.trailing_zeros();
/// Parts of a kelvin.
const PARTS: u32 = super::whole::PARTS as u32;

/// Heat transfer by convection of a sheet, in parts of [`FILM`], at 1, 2, 4 … 256 K over the air.
#[derive(Clone, Copy, Debug)]
pub(super) struct Films([u32; OCTAVES + 1]);

impl Films {
    /// Those of a sheet that stands so in air of `ambient` kelvin.
    pub(super) fn of(side: Facing, ambient: f64) -> Self {
        let mut warmth = 1.0;
        Self(core::array::from_fn(|_| {
            let film = (FILM * side.film(warmth, ambient)) as u32;
            warmth *= 2.0;
            film
        }))
    }

    /// The film, in parts of [`FILM`], of a sheet so many parts of a kelvin over the air; below 1 K and above 256 K that of
    /// the end.
    pub(super) fn at(&self, parts: i32) -> u32 {
        let parts = parts.unsigned_abs();
        let [first, .., last] = self.0;
        if parts <= PARTS {
            return first;
        }
        // The highest bit says which octave, those below it how far along.
        let zeros = parts.leading_zeros();
        let octave = (31 - FRACTION - zeros) as usize;
        let (Some(from), Some(to)) = (self.0.get(octave), self.0.get(octave + 1)) else {
            return last;
        };
        let along = ((parts << zeros) & 0x7fff_ffff) >> 17;
        // Between the ends the fourth and the third root of warmth lie so much above the straight line.
        let along = (along * (5 * PARTS - along)) >> (FRACTION + 2);
        let (from, to) = (i64::from(*from), i64::from(*to));
        (from + ((i64::from(along) * (to - from)) >> FRACTION)) as u32
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

    fn at(films: &Films, warmth: f64) -> f64 {
        f64::from(films.at(super::super::whole::parts(warmth))) / FILM
    }

    /// The lines stay within 1 % of the relation (one jumps by 8 % at a Rayleigh number of 1e7, which these do not reach).
    #[test]
    fn lines_between_octaves_keep_to_the_relation() {
        for side in SIDES {
            let films = Films::of(side, 293.15);
            for n in 0..554 {
                let warmth = libm::exp(0.01 * f64::from(n));
                let (found, wanted) = (at(&films, warmth), side.film(warmth, 293.15));
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
                let loss = at(&films, warmth) * warmth;
                assert!(loss > last, "{side:?} {warmth}");
                last = loss;
            }
        }
    }
}
