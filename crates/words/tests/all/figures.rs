//! Numbers, money, percents and moments, in the file the tests of the screens hold against `Intl`.

use serde_json::{Value, json};
use survey::Stamp;
use survey::units::Money;
use words::{Language, date, money, number, percent, round_money, when, whole_money};

/// Numbers of every size and with every end.
const NUMBERS: [f64; 26] = [
    0.0,
    0.04,
    0.05,
    0.15,
    0.25,
    0.5,
    0.949,
    0.95,
    1.0,
    1.005,
    1.25,
    2.5,
    3.14169,
    9.99,
    12.0,
    99.95,
    100.0,
    999.9,
    999.99,
    1000.0,
    1234.5,
    9999.99,
    12345.678,
    1_000_000.0,
    123_456_789.0,
    0.000_4,
];

fn cases() -> Vec<Value> {
    let mut all = Vec::new();
    for language in Language::WRITTEN {
        let region = language.region();
        for n in NUMBERS.into_iter().chain(NUMBERS.into_iter().skip(1).map(|n| -n)) {
            // What rounds to nothing has no sign here; `Intl` writes "-0", which the screens never show.
            if n < 0.0 && n > -0.05 {
                continue;
            }
            all.push(json!({ "kind": "number", "region": region, "value": n, "places": 1, "text": number(language, n, 1) }));
            all.push(json!({ "kind": "number", "region": region, "value": n, "places": 3, "text": number(language, n, 3) }));
        }
        for cents in [
            0,
            1,
            99,
            100,
            18_300,
            183_740,
            99_999,
            100_000,
            2_240_219,
            99_999_999,
            1_000_000_000_000,
            -305,
            -790_000,
        ] {
            let sum = Money::from_cents(cents);
            all.push(
                json!({ "kind": "money", "region": region, "value": cents, "text": money(language, sum) }),
            );
            all.push(json!({ "kind": "whole", "region": region, "value": cents, "text": whole_money(language, sum) }));
            all.push(json!({ "kind": "round", "region": region, "value": cents, "text": round_money(language, sum) }));
        }
        for share in [0.0, 0.004, 0.005, 0.13, 0.127_4, 0.5, 0.995, 1.0, 1.25, 12.5] {
            all.push(json!({ "kind": "percent", "region": region, "value": share, "text": percent(language, share, 0) }));
        }
        for stamp in [
            "2026-01-01T00:00:00-05:00",
            "2026-02-28T12:00:00Z",
            "2026-03-03T10:52:07-08:00",
            "2026-04-14T16:42:00-05:00",
            "2026-05-05T11:59:59+00:00",
            "2026-06-30T23:59:00+13:45",
            "2026-07-04T01:05:00-04:00",
            "2026-08-09T13:00:00-07:00",
            "2026-09-10T09:09:00-06:00",
            "2026-10-31T18:30:00-05:00",
            "2026-11-25T12:01:00-05:00",
            "2028-02-29T00:30:00-05:00",
            "1999-12-31T23:59:59-05:00",
        ] {
            let at: Stamp = stamp.parse().unwrap();
            all.push(json!({ "kind": "when", "region": region, "value": stamp, "text": when(language, at) }));
            all.push(json!({ "kind": "date", "region": region, "value": stamp, "text": date(language, at) }));
        }
    }
    all
}

/// The file is made here and held against `Intl` by `ui/src/lib/words/figures.test.ts`; `UPDATE_FIGURES=1` writes it.
#[test]
fn the_file_for_the_screens_is_fresh() {
    let cases = cases();
    assert!(cases.len() > 200, "{}", cases.len());
    let lines: Vec<String> = cases.iter().map(Value::to_string).collect();
    let text = format!("[\n{}\n]\n", lines.join(",\n"));
    let path = crate::support::root().join("words/figures.json");
    #[allow(clippy::disallowed_methods, reason = "a switch of this test only")]
    let update = std::env::var_os("UPDATE_FIGURES").is_some();
    if update {
        std::fs::write(&path, &text).unwrap();
    }
    assert!(
        std::fs::read_to_string(&path).unwrap_or_default() == text,
        "run with UPDATE_FIGURES=1 to write it"
    );
}

#[test]
fn money_in_english_is_what_money_says_of_itself() {
    for cents in [0, 1, 50, 100, 99_999, -305, 123_456_789, 1_000_000_000_000] {
        let sum = Money::from_cents(cents);
        assert_eq!(money(Language::En, sum), sum.to_string());
    }
}

#[test]
fn what_is_no_number_is_written_as_nothing() {
    assert_eq!([f64::NAN, f64::INFINITY, -0.0].map(|n| number(Language::En, n, 1)), ["0", "0", "0"]);
}

#[test]
fn the_hour_stays_on_its_line_with_a_space_every_face_has() {
    let at: Stamp = "2026-03-03T10:52:07-08:00".parse().unwrap();
    assert_eq!(when(Language::En, at), "Mar 3, 2026, 10:52\u{a0}AM");
    let spanish = when(Language::Es, at);
    assert!(spanish.starts_with("3 mar 2026, 10:52\u{a0}a.") && !spanish.contains('\u{202f}'), "{spanish}");
}
