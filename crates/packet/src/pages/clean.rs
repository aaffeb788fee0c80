//! Makes any text fit to be set: no control or invisible letters, none the faces lack, none without end.

use serde_json::Value;

/// Most letters of one text on the pages; the log in the packet has the whole.
const MOST: usize = 2_000;
/// Longest run without a place to break a line; an invisible break is put in after so many letters.
const RUN: usize = 24;

/// Cleans every text in a tree; `covered` says whether the faces have a letter, `cut` stands at the end of what is cut.
pub(super) fn clean_all(value: &mut Value, covered: &dyn Fn(char) -> bool, cut: &str) {
    match value {
        Value::String(text) => *text = clean(text, covered, cut),
        Value::Array(list) => list.iter_mut().for_each(|v| clean_all(v, covered, cut)),
        Value::Object(map) => map.values_mut().for_each(|v| clean_all(v, covered, cut)),
        _ => {}
    }
}

/// One text: white space becomes single spaces, invisible and directional letters go, unknown ones become "□".
pub(super) fn clean(text: &str, covered: &dyn Fn(char) -> bool, cut: &str) -> String {
    let mut out = String::new();
    let (mut count, mut run, mut gap) = (0usize, 0usize, false);
    for letter in text.chars() {
        if letter.is_whitespace() || letter.is_control() {
            gap = !out.is_empty();
            continue;
        }
        if invisible(letter) {
            continue;
        }
        if count >= MOST {
            out.push(' ');
            out.push_str(cut);
            return out;
        }
        if gap {
            out.push(' ');
            (gap, run) = (false, 0);
        }
        if run >= RUN {
            out.push('\u{200b}');
            run = 0;
        }
        out.push(if covered(letter) { letter } else { '□' });
        count += 1;
        run = if matches!(letter, '-' | '/') { 0 } else { run + 1 };
    }
    out
}

/// Format characters (Unicode general category Cf and kin): soft hyphen, joiners, direction marks, tags, variation
/// selectors, byte order mark.
fn invisible(letter: char) -> bool {
    matches!(
        u32::from(letter),
        0xad | 0x34f | 0x61c | 0x115f..=0x1160 | 0x17b4..=0x17b5 | 0x180b..=0x180f | 0x200b..=0x200f
            | 0x2028..=0x202e | 0x2060..=0x206f | 0x3164 | 0xfe00..=0xfe0f | 0xfeff | 0xffa0 | 0xfff0..=0xfffb
            | 0x1bca0..=0x1bca3 | 0x1d173..=0x1d17a | 0xe0000..=0xe0fff
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn invisible_and_unknown_letters_do_not_reach_the_page() {
        let latin = |c: char| c.is_ascii() || c == 'é';
        assert_eq!(clean("  a\n\t\u{0}b\u{202e}c\u{200b} é 猫 ", &latin, ""), "a bc é □");
        assert_eq!(clean("", &latin, ""), "");
    }

    #[test]
    fn runs_without_end_get_places_to_break_and_an_end() {
        let run = clean(&"$".repeat(100), &|_| true, "… (the rest stands in the log)");
        assert!(
            run.split('\u{200b}').all(|part| part.len() <= RUN) && run.replace('\u{200b}', "").len() == 100
        );
        let long = clean(&"word ".repeat(10_000), &|_| true, "… (the rest stands in the log)");
        assert!(long.chars().count() < 3_000 && long.ends_with("(the rest stands in the log)"));
        assert_eq!(
            clean("underlath-019d81d9-6000-7202", &|_| true, "… (the rest stands in the log)"),
            "underlath-019d81d9-6000-7202"
        );
    }
}
