//! Names of people and of the firm.

/// Letters of a person's name.
pub(crate) const MOST: usize = 80;
/// Letters of the firm's name.
pub(crate) const MOST_OF_FIRM: usize = 120;

/// A name as it is kept: one line, without spaces at its ends; nothing where there is none or too much of it.
pub(crate) fn clean(name: &str, most: usize) -> Option<String> {
    let name = name.trim();
    let fits = (1..=most).contains(&name.chars().count()) && !name.chars().any(char::is_control);
    fits.then(|| name.to_owned())
}

/// The name by which somebody is looked up: without regard to capitals and to how many spaces stand between.
pub(crate) fn fold(name: &str) -> String {
    name.to_lowercase().split_whitespace().collect::<Vec<_>>().join(" ")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_are_one_line_and_are_looked_up_without_regard_to_capitals() {
        for (given, kept) in [
            (" Rosa Ames ", Some("Rosa Ames")),
            ("Ñandú", Some("Ñandú")),
            ("", None),
            ("   ", None),
            ("a\nb", None),
            ("a\u{7}b", None),
        ] {
            assert_eq!(clean(given, MOST).as_deref(), kept, "{given:?}");
        }
        assert!(clean(&"ñ".repeat(80), MOST).is_some() && clean(&"ñ".repeat(81), MOST).is_none());
        assert_eq!(fold("  ROSA   Ñames "), fold("rosa ñames"));
    }
}
