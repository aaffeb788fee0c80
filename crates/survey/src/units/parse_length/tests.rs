use super::*;
use crate::units::{feet_inches_16, inches_16};
use LengthStatus::{Ambiguous, Error, Ok as Fine, Warn};
use proptest::prelude::*;

fn inch(text: &str) -> ParsedLength {
    parse_length(text, LengthUnit::Inch)
}

/// Strings with the answers of an independent reader of the same grammar.
const CHECKS: &str = include_str!("../../../../../tests/vectors/trade/trade-checks.json");

#[test]
fn every_written_length_of_the_vector_file_reads_as_there() {
    let cases: Vec<serde_json::Value> = serde_json::from_str(CHECKS).unwrap();
    let mut seen = 0;
    for case in cases.iter().filter(|c| c["inputs"]["fn"] == "parse_length") {
        let text = case["inputs"]["text"].as_str().unwrap();
        assert_eq!(case["inputs"]["default_unit"], "in");
        let parsed = inch(text);
        let status = match parsed.status {
            Fine => "ok",
            Warn => "warn",
            Ambiguous => "ambiguous",
            Error => "error",
        };
        assert_eq!(case["expected"]["status"], status, "{text}: {}", parsed.note);
        let written = ParsedLength::inches_as_written(text, LengthUnit::Inch);
        match case["expected"]["inches"].as_f64() {
            Some(inches) => {
                assert!((parsed.length.unwrap().inches() - inches).abs() <= 5e-6, "{text}");
                assert!((written.unwrap() - inches).abs() <= 1e-6, "{text}");
            }
            None => assert_eq!((parsed.length, written), (None, None), "{text}"),
        }
        seen += 1;
    }
    assert_eq!(seen, 34);
}

#[test]
fn usual_notes_have_one_meaning() {
    for (text, sixty_fourths) in [
        ("36 - 1/2", 2336),
        ("½", 32),
        (".75", 48),
        ("0.75 in", 48),
        ("36.", 2304),
        ("1/64", 1),
        ("3' 6 1/2", 2720),
        ("3'6½\"", 2720),
        ("3'-6-1/2\"", 2720),
        ("3'-½”", 2336),
        ("3'6.5\"", 2720),
        ("3’ 6’’", 2688),
        ("3' 6''", 2688),
        ("3FT. 6IN.", 2688),
        ("3 feet 6 inches", 2688),
        ("3 pies 6 pulgadas", 2688),
        ("1 PIE 1/2 pulg.", 800),
        ("254 milímetros", 640),
        ("3 1/2 ft", 2688),
        ("1½'", 1152),
        ("36 ³⁄₁₆", 2316),
        ("36 ⅟2", 2336),
        ("３６", 2304),
        ("36\u{a0}1/2", 2336),
        ("36–1/2", 2336),
        ("3′‑6″", 2688),
        ("25.4 mm", 64),
        ("2.54CM", 64),
        ("0.0254 m", 64),
        ("0", 0),
        ("0'-0\"", 0),
        ("00036", 2304),
        ("36.50000000000000000000000000000000", 2336),
    ] {
        let parsed = inch(text);
        assert_eq!(parsed.status, Fine, "{text}: {}", parsed.note);
        assert_eq!(parsed.length, Some(Length::from_sixty_fourths(sixty_fourths)), "{text}");
        assert!(parsed.note.is_nothing());
    }
}

#[test]
fn unusual_notes_keep_their_value_and_say_why() {
    for (text, inches) in [
        ("3' 14\"", 50.0),
        ("3'12", 48.0),
        ("3' 11 5/4\"", 48.25),
        ("36 4/4", 37.0),
        ("36/2", 18.0),
        ("36 1/3\"", 36.0 + 1.0 / 3.0),
        ("⅔", 2.0 / 3.0),
        ("3/10", 0.3),
        ("~3' 6", 42.0),
        ("≈ 36 1/2", 36.5),
        ("3.5' 6\"", 48.0),
        ("12.3456", 12.3456),
        ("1/128", 1.0 / 128.0),
        ("1/2 m", 19.685_039_370_078_74),
    ] {
        let parsed = inch(text);
        assert_eq!(parsed.status, Warn, "{text}: {}", parsed.note);
        assert!((parsed.length.unwrap().inches() - inches).abs() < 5e-6, "{text}");
        assert!((ParsedLength::inches_as_written(text, LengthUnit::Inch).unwrap() - inches).abs() < 1e-12);
        assert!(!parsed.note.is_nothing(), "{text}");
    }
}

#[test]
fn two_meanings_give_no_value_and_a_note() {
    for text in [
        "3 6 1/2",
        "3 6 1/2\"",
        "3 6",
        "1 2 3",
        "36-37",
        "36 to 37",
        "36–37\"",
        "36\"-37\"",
        "36\" to 37\"",
        "36 1/2 - 37",
        "1/2-3/4",
        "5-6 1/2",
        "5-6-1/2",
        "5-6",
        "3'-4'",
        "3' to 4'",
        "3' 6\" - 3' 8\"",
        "3' 6-7\"",
        "10 mm - 12 mm",
        "1,5",
        "36, 5",
        "1,200",
        "3'6,5\"",
    ] {
        let parsed = inch(text);
        assert_eq!((parsed.status, parsed.length), (Ambiguous, None), "{text}: {}", parsed.note);
        assert!(!parsed.note.is_nothing(), "{text}");
    }
}

#[test]
fn what_has_no_meaning_is_an_error_that_says_how_to_write_it() {
    for text in [
        "",
        "   ",
        "~",
        "abc",
        "three feet",
        "36 apples",
        "3/0",
        "36 1/0\"",
        "0/0",
        "3' 6'",
        "3 ft 6 ft",
        "6\" 3'",
        "6 in 3 ft",
        "-3",
        "-3/4\"",
        "−36",
        "~-3",
        "3'--6",
        "2x4",
        "2 × 4",
        "2\" x 4\"",
        "2*4",
        "3/4/5",
        "1 / 2 / 3",
        "/2",
        "3/",
        "36-",
        "36--1/2",
        "'",
        "\"",
        "in",
        "ft",
        "3'\"",
        "3'-",
        "-",
        "--",
        "/",
        ".",
        "..",
        "3.6.2",
        "1.5/2",
        "3/1.5",
        "36.5 1/2",
        "36\" 1/2",
        "3' 6\" 7\"",
        "6\" 6\"",
        "3' 20 mm",
        "36 in 5 mm",
        "1 m 20 cm",
        "36 +/- 1/2",
        "36±1/2",
        "+36",
        "$36",
        "1e5",
        "nan",
        "inf",
        "½½",
        "1/2 3/4",
        "10001 m",
        "99999999999999999999999999999999999999999",
        "3', 6\"",
        "٣٦",
        "3 6 /",
        "\u{0}",
        "36\u{301}",
    ] {
        let parsed = inch(text);
        assert_eq!((parsed.status, parsed.length), (Error, None), "{text}: {}", parsed.note);
        assert!(!parsed.note.is_nothing(), "{text}");
    }
}

#[test]
fn the_default_unit_is_only_for_bare_numbers() {
    for (text, unit, inches) in [
        ("1065", LengthUnit::Millimeter, 1065.0 / 25.4),
        ("106.5", LengthUnit::Centimeter, 1065.0 / 25.4),
        ("3.5", LengthUnit::Foot, 42.0),
        ("1", LengthUnit::Meter, 1000.0 / 25.4),
        ("36\"", LengthUnit::Millimeter, 36.0),
        ("3' 6", LengthUnit::Millimeter, 42.0),
    ] {
        let parsed = parse_length(text, unit);
        assert_eq!(parsed.status, Fine, "{text}");
        assert!((ParsedLength::inches_as_written(text, unit).unwrap() - inches).abs() < 1e-12, "{text}");
    }
}

#[test]
fn a_long_text_is_refused_at_once() {
    assert_eq!(inch(&"1 ".repeat(100_000)).status, Error);
}

proptest! {
    #[test]
    fn no_text_panics(text in any::<String>()) {
        for unit in [LengthUnit::Inch, LengthUnit::Foot, LengthUnit::Millimeter] {
            let parsed = parse_length(&text, unit);
            let has_value = matches!(parsed.status, Fine | Warn);
            prop_assert_eq!(parsed.length.is_some(), has_value);
            prop_assert_eq!(parsed.note.is_nothing(), parsed.status == Fine);
        }
    }

    #[test]
    fn no_text_of_the_signs_of_a_length_panics(text in "[-0-9 ./,'\"~½¼x⁄′″ftinmc]{0,24}") {
        let parsed = inch(&text);
        prop_assert!(parsed.length.is_none_or(|l| l >= Length::ZERO && l <= Length::MAX));
    }

    #[test]
    fn prints_read_back_as_the_same_length(sixteenths in 0_i64..2_000_000) {
        let length = Length::from_sixty_fourths(sixteenths * 4);
        for text in [inches_16(length), feet_inches_16(length)] {
            let parsed = inch(&text);
            prop_assert_eq!((parsed.status, parsed.length), (Fine, Some(length)), "{}", text);
        }
    }

    #[test]
    fn a_print_is_within_a_thirty_second(count in -80_000_000_000_i64..80_000_000_000) {
        let length = Length::from_eighth_um(count);
        let printed = inch(inches_16(length.abs()).as_str()).length.unwrap();
        prop_assert!((printed - length.abs()).abs() <= Length::from_sixty_fourths(2));
    }
}
