//! Putting a few things in order.

/// Sorts by insertion: the lists here have a few dozen entries at most, and the library's sort is several
/// kilobytes of program for each kind of entry.
pub fn insertion<T>(items: &mut [T], before: impl Fn(&T, &T) -> bool) {
    for end in 1..=items.len() {
        let Some(mut run) = items.get_mut(..end) else {
            return;
        };
        while let [head @ .., last] = run {
            match head.last_mut() {
                Some(previous) if before(last, previous) => core::mem::swap(previous, last),
                _ => break,
            }
            run = head;
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn sorts_what_there_is() {
        for length in 0..9_u32 {
            let mut items: heapless::Vec<u32, 9> = (0..length).map(|n| (n * 7 + 3) % 5).collect();
            let mut sorted = items.clone();
            sorted.sort_unstable();
            insertion(&mut items, |a, b| a < b);
            assert_eq!(items, sorted);
        }
    }
}
