//! The pseudo-language: English letters with marks, each text between brackets, so that whatever is still in plain
//! letters on a screen or a page never went through the messages, and whatever is glued from pieces shows its seams.

use std::borrow::Cow;

const PLAIN: &str = "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ";
const MARKED: &str = "áβçđéƒĝĥíĵķĺшñóþǫŕšţúνŵχýžÁßÇĐÉΦĜĤÍĴĶĹШÑÓÞǪŔŠŢÚΛŴЖÝŽ";

/// Text in marked letters between brackets; a text without letters stays as it is.
pub(crate) fn pseudo(text: &str) -> Cow<'_, str> {
    if !text.chars().any(|c| c.is_ascii_alphabetic()) {
        return Cow::Borrowed(text);
    }
    let marked = text.chars().map(|c| match PLAIN.chars().position(|p| p == c) {
        Some(place) => MARKED.chars().nth(place).unwrap_or(c),
        None => c,
    });
    Cow::Owned(format!("[{}]", marked.collect::<String>()))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_letter_gets_a_mark_and_nothing_else_changes() {
        assert_eq!(PLAIN.chars().count(), MARKED.chars().count());
        assert!(MARKED.chars().all(|c| !c.is_ascii()));
        assert_eq!(pseudo("Carry 3/4″"), "[Çáŕŕý 3/4″]");
        assert_eq!(pseudo(" · 12"), " · 12");
    }
}
