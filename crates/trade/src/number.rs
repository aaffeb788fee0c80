//! Numbers in words and figures: plain decimals, thousands apart, fractions as the trade writes sizes.

use alloc::{format, string::String};

use survey::{Phrase, Said, say};

/// A plain decimal of at most three places without trailing zeros, thousands apart from 10,000 up.
pub fn show_number(x: f64) -> String {
    if !x.is_finite() {
        return format!("{x}");
    }
    let rounded = libm::round(libm::fabs(x) * 1000.0) / 1000.0;
    let text = format!("{rounded:.3}");
    let (whole, places) = text.split_once('.').unwrap_or((&text, ""));
    let places = places.trim_end_matches('0');
    let whole = if whole.len() > 4 { thousands(whole) } else { whole.into() };
    let sign = if x < 0.0 && rounded > 0.0 { "−" } else { "" };
    let dot = if places.is_empty() { "" } else { "." };
    format!("{sign}{whole}{dot}{places}")
}

fn thousands(digits: &str) -> String {
    let mut out = String::new();
    for (i, c) in digits.chars().enumerate() {
        if i > 0 && (digits.len() - i).is_multiple_of(3) {
            out.push(',');
        }
        out.push(c);
    }
    out
}

/// Nominal pipe sizes by the names the trade writes, in inches.
pub const SIZES: [(&str, f64); 11] = [
    ("3/8", 0.375),
    ("1/2", 0.5),
    ("3/4", 0.75),
    ("1", 1.0),
    ("1-1/4", 1.25),
    ("1-1/2", 1.5),
    ("2", 2.0),
    ("2-1/2", 2.5),
    ("3", 3.0),
    ("4", 4.0),
    ("6", 6.0),
];

/// The name of a nominal size given in inches.
pub fn size_name(inches: f64) -> Option<&'static str> {
    SIZES.iter().find(|(_, x)| libm::fabs(x - inches) < 1e-9).map(|(name, _)| *name)
}

/// The inches of a nominal size by name.
pub fn size_inches(name: &str) -> Option<f64> {
    SIZES.iter().find(|(n, _)| *n == name).map(|(_, inches)| *inches)
}

/// A text with its first letter large.
pub fn capital(text: &str) -> String {
    let mut chars = text.chars();
    chars.next().map_or_else(String::new, |first| first.to_uppercase().chain(chars).collect())
}

/// A probability in words of a hundred, never claiming certainty.
pub fn in_100(p: f64) -> Said {
    let n = libm::round(p * 100.0);
    if n < 1.0 {
        Phrase("trade-under-1-in-100").into()
    } else if n > 99.0 {
        Phrase("trade-over-99-in-100").into()
    } else {
        say!("trade-about-in-100", n = show_number(n))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::testing::english;

    #[test]
    fn numbers_read_as_people_write_them() {
        for (x, text) in [
            (0.0, "0"),
            (2.5, "2.5"),
            (-0.25, "−0.25"),
            (1390.0, "1390"),
            (32_500.0, "32,500"),
            (1e6, "1,000,000"),
        ] {
            assert_eq!(show_number(x), text);
        }
        assert_eq!((size_name(1.25), size_inches("1-1/4")), (Some("1-1/4"), Some(1.25)));
        assert_eq!(
            (english(in_100(0.001)), english(in_100(0.5))),
            ("under 1 in 100".into(), "about 50 in 100".into())
        );
    }
}
