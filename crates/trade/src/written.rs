//! How people write what is asked: fractions, thousands, units by their everyday names, pipe sizes with their marks.

use alloc::string::String;

use survey::units::LengthUnit;

use crate::number::size_inches;

/// Without the commas between thousands; a comma anywhere else might be a decimal one and is refused.
pub(crate) fn without_thousands(text: &str) -> Option<String> {
    let (whole, rest) = text.split_once('.').unwrap_or((text, ""));
    let mut groups = whole.split(',');
    let first = groups.next().unwrap_or_default();
    let grouped = groups.clone().all(|g| g.len() == 3 && g.bytes().all(|b| b.is_ascii_digit()));
    let led = groups.clone().next().is_none() || (1..=3).contains(&first.len());
    (grouped && led && !rest.contains(',')).then(|| text.replace(',', ""))
}

/// A decimal, or a whole number with a fraction: "1/4", "1 1/2".
pub(crate) fn number_of(text: &str) -> Option<f64> {
    let Some((before, below)) = text.split_once('/') else { return text.parse().ok() };
    let (whole, above) = before.trim().rsplit_once([' ', '-']).unwrap_or(("0", before.trim()));
    let part = |t: &str| t.trim().parse::<u32>().ok().map(f64::from);
    let (whole, above, below) = (part(whole)?, part(above)?, part(below)?);
    (below > 0.0).then(|| whole + above / below)
}

/// Everyday names of units, and how many of the unit one of them is.
const NAMES: [(&str, &[(&str, f64)]); 7] = [
    ("A", &[("amperes", 1.0), ("ampere", 1.0), ("amps", 1.0), ("amp", 1.0), ("a", 1.0)]),
    // A nameplate's watts count as volt-amperes here.
    ("VA", &[("kva", 1000.0), ("kw", 1000.0), ("va", 1.0), ("watts", 1.0), ("w", 1.0)]),
    ("ft²", &[("square feet", 1.0), ("sq ft", 1.0), ("sqft", 1.0), ("ft2", 1.0), ("sf", 1.0), ("ft²", 1.0)]),
    ("Btu/h", &[("kbtu/h", 1000.0), ("btu/hr", 1.0), ("btu/h", 1.0), ("btuh", 1.0), ("btu", 1.0)]),
    ("in/ft", &[("in/ft", 1.0), ("in", 1.0), ("\"", 1.0), ("″", 1.0)]),
    ("h", &[("hours", 1.0), ("hour", 1.0), ("hrs", 1.0), ("hr", 1.0), ("h", 1.0)]),
    ("%", &[("percent", 1.0), ("%", 1.0)]),
];

/// The number's text without its unit, and by how much to multiply it. A unit nobody knows stays, to be refused.
pub(crate) fn without_unit<'a>(text: &'a str, unit: &str) -> (&'a str, f64) {
    let text = text.trim();
    let known = NAMES.iter().find(|(u, _)| *u == unit).map_or(&[][..], |(_, names)| names);
    for (name, times) in known.iter().copied().chain([(unit, 1.0)]) {
        let at = text.len().saturating_sub(name.len());
        if !name.is_empty() && text.get(at..).is_some_and(|end| end.eq_ignore_ascii_case(name)) {
            return (text.get(..at).unwrap_or_default().trim(), times);
        }
    }
    (text, 1.0)
}

/// The unit a written length ends with; none if it ends with a bare number.
pub(crate) fn last_unit(text: &str) -> Option<LengthUnit> {
    let text = text.trim().to_lowercase();
    let ends = |names: &[&str]| names.iter().any(|n| text.ends_with(n));
    if ends(&["mm"]) {
        Some(LengthUnit::Millimeter)
    } else if ends(&["cm"]) {
        Some(LengthUnit::Centimeter)
    } else if ends(&["m"]) {
        Some(LengthUnit::Meter)
    } else if ends(&["in", "in.", "inch", "inches", "\"", "″", "”", "''"]) {
        Some(LengthUnit::Inch)
    } else if ends(&["ft", "ft.", "foot", "feet", "'", "′", "’"]) {
        Some(LengthUnit::Foot)
    } else {
        None
    }
}

/// Whether a known word was meant: letters of any case, blanks, underscores and hyphens alike; a pipe size also as a
/// decimal, with a glyph for its fraction, or with the inch behind it.
pub(crate) fn same_word(known: &str, written: &str) -> bool {
    let plain = |text: &str| -> String {
        let letters = text.trim().chars().flat_map(char::to_lowercase);
        letters.map(|c| if matches!(c, '_' | '-') { ' ' } else { c }).collect()
    };
    if plain(known) == plain(written) {
        return true;
    }
    let Some(inches) = size_inches(known) else { return false };
    let glyphs = [('½', " 1/2"), ('¼', " 1/4"), ('¾', " 3/4")];
    let mut text = String::new();
    for c in written.trim().chars() {
        match glyphs.iter().find(|(glyph, _)| *glyph == c) {
            Some((_, fraction)) => text.push_str(fraction),
            None => text.push(c),
        }
    }
    let (bare, _) = without_unit(&text, "in/ft");
    number_of(bare.trim()).is_some_and(|x| libm::fabs(x - inches) < 1e-9)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_comma_is_one_of_thousands_or_refused() {
        assert_eq!(without_thousands("1,234.5").as_deref(), Some("1234.5"));
        for bad in ["0,5", "1,6", "12,34", "1234,567", "1.5,000", ",500"] {
            assert_eq!(without_thousands(bad), None, "{bad}");
        }
    }

    #[test]
    fn units_are_known_by_their_everyday_names() {
        assert_eq!(without_unit("100 amps", "A"), ("100", 1.0));
        assert_eq!(without_unit("8 kW", "VA"), ("8", 1000.0));
        assert_eq!(without_unit("2400 sq ft", "ft²"), ("2400", 1.0));
        assert_eq!(without_unit("1/4\"", "in/ft"), ("1/4", 1.0));
        assert_eq!(without_unit("3 bushels", "A"), ("3 bushels", 1.0));
        assert_eq!(without_unit("3", ""), ("3", 1.0));
    }

    #[test]
    fn words_and_sizes_are_known_as_people_write_them() {
        for written in ["1-1/2", "1 1/2", "1.5", "1½", "1-1/2\"", "1 1/2 in"] {
            assert!(same_word("1-1/2", written), "{written}");
        }
        assert!(same_word("2", "2\"") && same_word("kitchen_sink_dw", "Kitchen sink DW"));
        assert!(
            same_word("ceiling-light", "ceiling light") && !same_word("2", "2-1/2") && !same_word("2x4", "2")
        );
    }
}
