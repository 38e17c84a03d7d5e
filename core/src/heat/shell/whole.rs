//! Temperatures and shares as whole numbers.
//!
//! A chip without floating point takes some eighty instructions for a sum of doubles and one for a sum of whole numbers,
//! so that all that is done to every cell or link in every step is done in these: temperatures in parts of a kelvin, and
//! shares as fractions of 32 bits.
//!
//! What a cell gives or loses in a step may be less than a part for thousands of steps on end, and would never leave were
//! it rounded to the nearest. So it is rounded from a place between two parts that moves on from step to step and comes
//! evenly over all of them ([`turned`]): up in as many steps of all as there are shares of a part in it. It hangs on
//! the step alone, not on what is there: what a link or a loss leaves of more heat is no less by a single part.

/// Parts of a kelvin in which temperatures are kept.
pub(super) const PARTS: f64 = 16_384.0;
/// The highest temperature, in parts: twice the difference of two such stays within an `i32`.
pub(super) const MOST: i32 = (1 << 30) - 1;
/// Fixed-point one of shares.
pub(super) const ONE: f64 = 4_294_967_296.0;

/// A temperature in K.
pub(super) fn kelvin(parts: i32) -> f64 {
    f64::from(parts) / PARTS
}

/// A temperature of `kelvin` over the surroundings in parts, to the nearest, 0 to [`MOST`].
pub(super) fn parts(kelvin: f64) -> i32 {
    ((kelvin * PARTS + 0.5) as i32).clamp(0, MOST)
}

/// A share in parts of [`ONE`]; one is as much as there is below it.
pub(super) fn share(of_one: f64) -> u32 {
    (of_one * ONE) as u32
}

/// `whole` times a share, rounded down.
#[inline(always)]
pub(super) fn times(whole: u32, share: u32) -> u32 {
    ((u64::from(whole) * u64::from(share)) >> 32) as u32
}

/// The share of a temperature, in parts, rounded up from `turn` on, in parts of [`ONE`]; at most the whole.
#[inline(always)]
pub(super) fn part_of(whole: i32, share: u32, turn: u32) -> i32 {
    let product = u64::from(whole.unsigned_abs()) * u64::from(share);
    ((product + u64::from(turn)) >> 32) as i32
}

/// From where shares are rounded up after a sweep over the cells or links in which that was `turn`: further by the golden section, by
/// which the places spread evenly over all fractions.
pub(super) const fn turned(turn: u32) -> u32 {
    turn.wrapping_add(0x9e37_79b9)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn small_losses_add_up_to_what_they_are() {
        for (whole, part) in [(1, 0.3), (17, 0.001), (16_384, 4e-6), (MOST, 1e-9)] {
            let (mut turn, mut sum) = (0, 0_i64);
            for _ in 0..100_000 {
                turn = turned(turn);
                sum += i64::from(part_of(whole, share(part), turn));
            }
            // As much as there are shares of 32 bits for.
            let wanted = 1e5 * f64::from(whole) * f64::from(share(part)) / ONE;
            assert!(
                (sum as f64 - wanted).abs() < 3.0 + 1e-5 * wanted,
                "{sum} {wanted}"
            );
        }
    }

    #[test]
    fn no_more_is_taken_than_there_is() {
        for whole in [0, 1, 2, 1_000, MOST] {
            for turn in [0, 1 << 31, u32::MAX] {
                assert!(part_of(whole, u32::MAX, turn) <= whole);
                assert_eq!(part_of(whole, 0, turn), 0);
            }
        }
    }
}
