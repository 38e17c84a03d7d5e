//! The known word nearest to one that is not known.

/// The word of `known` that `word` was most likely meant to be, if any is near enough: at most one
/// slip for every three letters, or the start of just one known word.
pub(super) fn nearest<'k>(word: &str, known: impl IntoIterator<Item = &'k str>) -> Option<&'k str> {
    let word = word.trim().to_lowercase();
    let known: Vec<&str> = known.into_iter().collect();
    let slips = |candidate: &&str| strsim::damerau_levenshtein(&word, &candidate.to_lowercase());
    let best = known
        .iter()
        .copied()
        .min_by_key(|candidate| slips(candidate))?;
    let letters = word.chars().count().max(best.chars().count());
    if slips(&best) <= (letters / 3).max(1) && letters > 1 {
        return Some(best);
    }
    let mut started = known
        .iter()
        .copied()
        .filter(|candidate| word.len() >= 3 && candidate.to_lowercase().starts_with(&word));
    started.next().filter(|_| started.next().is_none())
}

/// `a, b or c`, each in back quotes.
pub(super) fn either<'k>(words: impl IntoIterator<Item = &'k str>) -> String {
    let quoted: Vec<String> = words.into_iter().map(|word| format!("`{word}`")).collect();
    match quoted.split_last() {
        None => "nothing".to_owned(),
        Some((only, [])) => only.clone(),
        Some((last, rest)) => format!("{} or {last}", rest.join(", ")),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn slips_of_the_pen_find_their_word() {
        let known = ["length", "width", "height", "kind", "sized"];
        for (word, meant) in [
            ("lenght", "length"),
            ("Width", "width"),
            ("heigth", "height"),
            ("size", "sized"),
            ("len", "length"),
        ] {
            assert_eq!(nearest(word, known), Some(meant), "{word}");
        }
    }

    #[test]
    fn far_words_find_nothing() {
        for word in ["colour", "x", "", "é"] {
            assert_eq!(nearest(word, ["length", "width"]), None, "{word}");
        }
    }

    #[test]
    fn lists_read_like_a_sentence() {
        assert_eq!(either(["a", "b", "c"]), "`a`, `b` or `c`");
        assert_eq!(either(["a"]), "`a`");
        assert_eq!(either([]), "nothing");
    }
}
