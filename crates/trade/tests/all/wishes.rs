//! Wish lists worked by hand from the catalog's ranges, with the working shown, and laws of ranges.

use crate::english::{English as _, EnglishList as _};
use std::sync::LazyLock;

use proptest::prelude::*;
use proptest::sample::subsequence;
use survey::catalog::{Catalog, builtin};
use survey::units::Money;
use trade::given::Given;
use trade::openings::wishes::{Lean, Span, break_even, lean};
use trade::{Sheet, Standing, TradeError, find};

static CATALOG: LazyLock<Catalog> = LazyLock::new(|| builtin().unwrap());

fn ask(rows: &[String]) -> Result<Sheet, TradeError> {
    let answers: Vec<(String, String)> = rows.iter().map(|row| ("wish".into(), row.clone())).collect();
    let calculation = find("wishes").unwrap();
    (calculation.run)(&Given::read(calculation.fields, &answers)?, &CATALOG)
}

fn wishes(rows: &[&str]) -> Sheet {
    let rows: Vec<String> = rows.iter().map(|r| (*r).into()).collect();
    ask(&rows).unwrap()
}

#[track_caller]
fn is(sheet: &Sheet, label: &str, text: &str) {
    let found = sheet.lines.iter().find(|l| l.label.read() == label);
    assert_eq!(found.map(|l| l.text.read()), Some(text), "{label}");
}

#[test]
fn list_1_gas_range_likely_and_induction_unlikely() {
    // gas-range-later: now 250 to 900, later 900 to 3000. Difference: 900 − 900 = 0 to 3000 − 250 = 2750.
    //   Break-even: 250 ÷ 3000 = 0.083 to 900 ÷ 900 = 1. At 0.6: between. Later on average 0.6 × 900 = 540 to 1800.
    // induction-later: now 350 to 900, later 900 to 2500. Difference 0 to 2150.
    //   Break-even: 350 ÷ 2500 = 0.14 to 900 ÷ 900 = 1. At 0.05: under it. Later on average 45 to 125.
    // Both: now 600 to 1800, later 1800 to 5500, difference 1800 − 1800 = 0 to 5500 − 600 = 4900.
    let sheet = wishes(&["induction-later, 0.05", "gas-range-later, 0.6"]);
    assert_eq!(sheet.standing, Standing::Quantity);
    is(&sheet, "gas-range-later, difference", "later − now, farthest ends: $0 to $2,750");
    is(&sheet, "gas-range-later, break-even chance", "now ÷ later: $250 ÷ $3,000 = 0.083 to $900 ÷ $900 = 1");
    is(
        &sheet,
        "gas-range-later, later on average",
        "0.6 × $900 to $3,000 = $540 to $1,800; inside the break-even range: the ranges do not decide",
    );
    is(&sheet, "induction-later, difference", "later − now, farthest ends: $0 to $2,150");
    is(&sheet, "induction-later, break-even chance", "now ÷ later: $350 ÷ $2,500 = 0.14 to $900 ÷ $900 = 1");
    is(
        &sheet,
        "induction-later, later on average",
        "0.05 × $900 to $2,500 = $45 to $125; under the whole break-even range: later costs less on average",
    );
    is(&sheet, "All with a sum for later, difference", "later − now, farthest ends: $0 to $4,900");
    assert_eq!(
        sheet.sentence.read(),
        "2 wishes roughed in while the wall is open: $600 to $1,800; the same later: $1,800 to $5,500."
    );
    assert!(sheet.limits.iter().any(|l| l.value.contains("judgment")));
}

#[test]
fn list_2_a_second_sink_nearly_certain_and_a_floor_without_a_sum_for_later() {
    // second-sink: now 600 to 1800, later 2000 to 6000. Difference 2000 − 1800 = 200 to 6000 − 600 = 5400.
    //   Break-even: 600 ÷ 6000 = 0.1 to 1800 ÷ 2000 = 0.9. At 0.95: over it. On average 1900 to 5700.
    // pot-filler: now 250 to 700, later 900 to 2000 and tile. Difference 200 to 1750.
    //   Break-even: 250 ÷ 2000 = 0.125 to 700 ÷ 900 = 0.778. No chance given: nothing is said on average.
    // heated-floor: now 250 to 500, later not in the catalog.
    // All now: 600 + 250 + 250 = 1100 to 1800 + 700 + 500 = 3000. Two with a sum for later: now 850 to 2500, later
    // 2900 to 8000, difference 2900 − 2500 = 400 to 8000 − 850 = 7150.
    let sheet = wishes(&["second-sink, 0.95", "heated-floor, 0.5", "pot-filler"]);
    is(&sheet, "second-sink, difference", "later − now, farthest ends: $200 to $5,400");
    is(
        &sheet,
        "second-sink, later on average",
        "0.95 × $2,000 to $6,000 = $1,900 to $5,700; over the whole break-even range: now costs less on average",
    );
    is(&sheet, "pot-filler, later", "$900 to $2,000, and tile");
    is(&sheet, "pot-filler, break-even chance", "now ÷ later: $250 ÷ $2,000 = 0.125 to $700 ÷ $900 = 0.778");
    assert!(!sheet.lines.iter().any(|l| l.label.read() == "pot-filler, later on average"));
    is(&sheet, "heated-floor, later", "cannot say: the catalog holds no sum");
    assert_eq!(sheet.missing.read_all(), ["what heated-floor costs later"]);
    is(&sheet, "All, now", "lows and highs added: $1,100 to $3,000");
    is(&sheet, "All with a sum for later, difference", "later − now, farthest ends: $400 to $7,150");
    assert_eq!(
        sheet.sentence.read(),
        "3 wishes roughed in while the wall is open: $1,100 to $3,000; 2 of them, $850 to $2,500 now, later: $2,900 to \
         $8,000."
    );
}

fn any_span() -> impl Strategy<Value = Span> {
    (0_i64..2_000_000, 0_i64..2_000_000)
        .prop_map(|(low, more)| Span { low: Money::from_cents(low), high: Money::from_cents(low + more) })
}

proptest! {
    #[test]
    fn a_difference_holds_every_pair_of_sums(now in any_span(), later in any_span(), a in 0.0..=1.0, b in 0.0..=1.0) {
        let inside = |s: Span, share: f64| s.low.cents() + ((s.high.cents() - s.low.cents()) as f64 * share) as i64;
        let (n, l) = (inside(now, a), inside(later, b));
        let difference = later.less(now);
        prop_assert!(difference.low.cents() <= l - n && l - n <= difference.high.cents());
        if let Some([low, high]) = break_even(now, later) {
            prop_assert!(low <= high && (l == 0 || (low..=high).contains(&(n as f64 / l as f64))));
        }
    }

    #[test]
    fn outside_the_break_even_range_the_averages_do_not_overlap(
        now in any_span(), later in any_span(), chance in 0.0..=1.0
    ) {
        let Some(range) = break_even(now, later) else { return Ok(()) };
        let average = |m: Money| m.cents() as f64 * chance;
        match lean(chance, range) {
            Lean::Now => prop_assert!(average(later.low) > now.high.cents() as f64 - 1e-6),
            Lean::Later => prop_assert!(average(later.high) < now.low.cents() as f64 + 1e-6),
            Lean::Open => {}
        }
    }

    #[test]
    fn the_order_of_wishes_changes_nothing_and_each_adds(
        picked in subsequence((0..9).collect::<Vec<usize>>(), 1..=9), chance in 0.0..=1.0
    ) {
        let rows: Vec<String> = picked.iter().map(|i| format!("{}, {chance:.3}", CATALOG.wishes[*i].id)).collect();
        let turned: Vec<String> = rows.iter().rev().cloned().collect();
        let sheet = ask(&rows).unwrap();
        prop_assert_eq!(&ask(&turned).unwrap(), &sheet);
        let low: Money = picked.iter().map(|i| CATALOG.wishes[*i].now[0]).sum();
        let all = sheet.lines.iter().find(|l| l.label.read() == "All, now").unwrap();
        prop_assert!(all.text.contains(&low.to_string()), "{} in {}", low, all.text);
    }

    #[test]
    fn nothing_written_stops_the_program(row in ".{0,60}", chance in any::<f64>()) {
        let _ = ask(&[row, format!("car-charger, {chance}")]);
    }
}
