//! The nearest known word, for error messages.

/// Number of single-letter insertions, deletions and substitutions between two words (Levenshtein 1966).
pub(crate) fn distance(a: &str, b: &str) -> usize {
    let b: Vec<char> = b.chars().collect();
    let mut row: Vec<usize> = (0..=b.len()).collect();
    for (i, x) in a.chars().enumerate() {
        let mut diagonal = i;
        row[0] = i + 1;
        for (j, y) in b.iter().enumerate() {
            let substituted = diagonal + usize::from(x != *y);
            diagonal = row[j + 1];
            row[j + 1] = substituted.min(diagonal + 1).min(row[j] + 1);
        }
    }
    row[b.len()]
}

/// The known word nearest to the one written, unless all are far from it; ties go to the first.
pub fn nearest<'a>(written: &str, known: impl IntoIterator<Item = &'a str>) -> Option<&'a str> {
    let limit = (written.chars().count() / 3).max(2);
    let scored = known.into_iter().map(|word| (distance(written, word), word));
    scored.min_by_key(|(d, _)| *d).filter(|(d, _)| *d <= limit).map(|(_, word)| word)
}

/// "did you mean …?", or the known words when there are few, or nothing.
pub(crate) fn mend<'a>(written: &str, known: impl IntoIterator<Item = &'a str>) -> Option<String> {
    let known: Vec<&str> = known.into_iter().collect();
    if let Some(word) = nearest(written, known.iter().copied()) {
        return Some(format!("did you mean “{word}”?"));
    }
    (!known.is_empty() && known.len() <= 24).then(|| format!("known: {}", known.join(", ")))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn distances_are_the_textbook_ones() {
        for (a, b, d) in [("kitten", "sitting", 3), ("", "abc", 3), ("flaw", "lawn", 2), ("same", "same", 0)]
        {
            assert_eq!(distance(a, b), d, "{a} {b}");
            assert_eq!(distance(b, a), d, "{b} {a}");
        }
    }

    #[test]
    fn only_a_near_word_is_suggested() {
        assert_eq!(nearest("stub-hight", ["stub-height", "stub-datum"]), Some("stub-height"));
        assert_eq!(nearest("zebra", ["stub-height", "stub-datum"]), None);
        assert_eq!(mend("zebra", ["yes", "no"]).as_deref(), Some("known: yes, no"));
    }
}
