//! Lengths and amounts as they are lettered: inches in sixteenths with a prime, feet where a tape shows feet.

use alloc::{format, string::String};

use survey::{Phrase, Said, say};
use trade::number::show_number;

/// What stands where a number is missing.
const NOT_KNOWN: Phrase = Phrase("drawing-not-known");

/// Above this many inches a length is written as a plain number.
const MOST: f64 = 1e6;

/// Whole inches and the fraction of sixteenths in lowest terms, without the sign.
fn sixteenths(x: f64) -> (u64, u64, u64) {
    let n = libm::round(libm::fabs(x) * 16.0) as u64;
    let (mut over, mut under) = (n % 16, 16);
    while over % 2 == 0 && over > 0 {
        over /= 2;
        under /= 2;
    }
    (n / 16, over, under)
}

fn sign(x: f64) -> &'static str {
    if x < 0.0 && libm::round(x * 16.0) != 0.0 { "−" } else { "" }
}

fn bare(x: f64) -> String {
    let (whole, over, under) = sixteenths(x);
    match (whole, over) {
        (w, 0) => format!("{w}"),
        (0, n) => format!("{n}/{under}"),
        (w, n) => format!("{w} {n}/{under}"),
    }
}

/// "14 1/8″": to the nearest sixteenth.
pub(crate) fn inches(x: f64) -> Said {
    if !x.is_finite() {
        NOT_KNOWN.into()
    } else if libm::fabs(x) > MOST {
        format!("{}″", amount_figure(libm::round(x))).into()
    } else {
        format!("{}{}″", sign(x), bare(x)).into()
    }
}

/// The same without its prime.
pub(crate) fn inches_bare(x: f64) -> Said {
    match inches(x) {
        Said::Text(text) => text.trim_end_matches('″').into(),
        said => said,
    }
}

/// "4′ 2 1/2″" from a foot up, else inches.
pub(crate) fn feet(x: f64) -> Said {
    if !x.is_finite() || libm::fabs(x) > MOST {
        return inches(x);
    }
    let n = libm::round(libm::fabs(x) * 16.0);
    let whole = libm::floor(n / 192.0);
    let rest = (n - whole * 192.0) / 16.0;
    if whole < 1.0 {
        inches(x)
    } else if rest == 0.0 {
        format!("{}{whole}′", sign(x)).into()
    } else {
        format!("{}{whole}′ {}″", sign(x), bare(rest)).into()
    }
}

/// "±1/8″", or nothing where no tolerance is known.
pub(crate) fn give_or_take(x: f64) -> Option<Said> {
    (x.is_finite() && x > 0.0).then(|| {
        let shown = bare(x);
        if shown == "0" { Phrase("drawing-under-sixteenth").into() } else { format!("±{shown}″").into() }
    })
}

/// The same without its signs, for words that are read aloud.
pub(crate) fn give_or_take_words(x: f64) -> Option<Said> {
    (x.is_finite() && x > 0.0).then(|| {
        let shown = bare(x);
        if shown == "0" { Phrase("drawing-under-sixteenth-words").into() } else { shown.into() }
    })
}

/// "19 3/8 inches", for words that are read aloud.
pub(crate) fn in_words(x: f64) -> Said {
    if !x.is_finite() {
        return NOT_KNOWN.into();
    }
    let shown = inches_bare(x);
    let one = libm::fabs(x) > 0.0 && libm::round(libm::fabs(x) * 16.0) <= 16.0;
    if one { say!("drawing-inch", x = shown) } else { say!("drawing-inches", x = shown) }
}

/// "12 feet 6 inches", for words that are read aloud.
pub(crate) fn in_feet_words(x: f64) -> Said {
    let n = libm::round(libm::fabs(x) * 16.0);
    let whole = libm::floor(n / 192.0);
    let rest = (n - whole * 192.0) / 16.0;
    if !x.is_finite() || whole < 1.0 || libm::fabs(x) > MOST {
        return in_words(x);
    }
    let shown = format!("{}{whole}", sign(x));
    let feet = if whole == 1.0 { say!("drawing-foot", x = shown) } else { say!("drawing-feet", x = shown) };
    if rest == 0.0 { feet } else { say!("drawing-feet-inches", feet = feet, inches = in_words(rest)) }
}

/// An amount with at most one place, thousands apart.
pub(crate) fn amount(x: f64) -> Said {
    if x.is_finite() { amount_figure(x).into() } else { NOT_KNOWN.into() }
}

/// The same of a number that is known.
pub(crate) fn amount_figure(x: f64) -> String {
    if libm::fabs(x) > 1e9 {
        return format!("{x:.1e}").replace('-', "−");
    }
    let places = if libm::fabs(x) < 1.0 { 1000.0 } else { 10.0 };
    show_number(libm::round(x * places) / places)
}

/// "2:30 pm", "noon": an hour of the day on the twelve-hour clock.
pub(crate) fn hour(x: f64) -> Said {
    if !x.is_finite() {
        return NOT_KNOWN.into();
    }
    let minutes = libm::round(x.clamp(0.0, 24.0) * 60.0) as u32 % 1440;
    let (h, m) = (minutes / 60, minutes % 60);
    let twelve = if h % 12 == 0 { 12 } else { h % 12 };
    let shown = if m == 0 { format!("{twelve}") } else { format!("{twelve}:{m:02}") };
    match (h, m) {
        (12, 0) => Phrase("drawing-noon").into(),
        (0..12, _) => say!("drawing-hour-am", x = shown),
        _ => say!("drawing-hour-pm", x = shown),
    }
}

/// A chance in tenths, never certain unless it is 1: "7 in 10".
pub(crate) fn in_ten(p: f64) -> Said {
    if !p.is_finite() {
        return Phrase("drawing-chance-not-known").into();
    }
    match libm::round(p.clamp(0.0, 1.0) * 10.0) as u32 {
        0 => Phrase("drawing-under-1-in-10").into(),
        10 if p < 1.0 => Phrase("drawing-over-9-in-10").into(),
        n => say!("drawing-in-10", n = n),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::testing::english;

    #[test]
    fn inches_stand_in_sixteenths_with_a_true_minus() {
        for (x, shown) in [
            (0.0, "0″"),
            (0.125, "1/8″"),
            (14.125, "14 1/8″"),
            (-2.5, "−2 1/2″"),
            (-0.01, "0″"),
            (19.3749, "19 3/8″"),
            (36.0, "36″"),
            (2.1, "2 1/8″"),
            (f64::NAN, "not known"),
            (2e6, "2,000,000″"),
        ] {
            assert_eq!(english(&inches(x)), shown);
        }
    }

    #[test]
    fn feet_start_at_twelve_inches() {
        for (x, shown) in
            [(11.0, "11″"), (12.0, "1′"), (50.5, "4′ 2 1/2″"), (144.0, "12′"), (-18.0, "−1′ 6″"), (0.0, "0″")]
        {
            assert_eq!(english(&feet(x)), shown);
        }
    }

    #[test]
    fn hours_and_chances_read_as_said() {
        assert_eq!(english(&hour(8.0)), "8 am");
        assert_eq!(english(&hour(12.0)), "noon");
        assert_eq!(english(&hour(14.5)), "2:30 pm");
        assert_eq!(english(&hour(24.0)), "12 am");
        assert_eq!(english(&in_ten(0.72)), "7 in 10");
        assert_eq!(english(&in_ten(0.99)), "over 9 in 10");
        assert_eq!(english(&in_ten(1.0)), "10 in 10");
    }

    #[test]
    fn words_agree_in_number() {
        assert_eq!(english(&in_words(1.0)), "1 inch");
        assert_eq!(english(&in_words(0.125)), "1/8 inch");
        assert_eq!(english(&in_words(19.375)), "19 3/8 inches");
        assert_eq!(english(&in_words(0.0)), "0 inches");
        assert_eq!(english(&in_feet_words(150.0)), "12 feet 6 inches");
        assert_eq!(english(&in_feet_words(12.0)), "1 foot");
        assert_eq!(english(&in_feet_words(13.0)), "1 foot 1 inch");
        assert_eq!(english(&in_feet_words(11.5)), "11 1/2 inches");
    }
}
