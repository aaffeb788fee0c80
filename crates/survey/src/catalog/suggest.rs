//! The nearest known word, for error messages.

/// Number of single-letter insertions, deletions, substitutions and swaps of neighbors between two words, no letter
/// touched twice (Damerau 1964, Levenshtein 1966).
pub(crate) fn distance(a: &str, b: &str) -> usize {
    let (a, b): (Vec<char>, Vec<char>) = (a.chars().collect(), b.chars().collect());
    let mut before: Vec<usize> = Vec::new();
    let mut last: Vec<usize> = (0..=b.len()).collect();
    for i in 1..=a.len() {
        let mut row = vec![i];
        for j in 1..=b.len() {
            let substituted = last[j - 1] + usize::from(a[i - 1] != b[j - 1]);
            let mut least = substituted.min(last[j] + 1).min(row[j - 1] + 1);
            if i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1] {
                least = least.min(before[j - 2] + 1);
            }
            row.push(least);
        }
        before = core::mem::replace(&mut last, row);
    }
    last[b.len()]
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
        for (a, b, d) in [
            ("kitten", "sitting", 3),
            ("", "abc", 3),
            ("flaw", "lawn", 2),
            ("same", "same", 0),
            ("cots", "cost", 1),
            ("ca", "abc", 3),
        ] {
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
