//! Numbers, money, percents and moments as a language writes them, from Unicode's data (CLDR). The screens ask `Intl`
//! for the same; a test compares the two on hundreds of values.

use fixed_decimal::{SignedRoundingMode, UnsignedRoundingMode};
use icu_calendar::{Date, Gregorian};
use icu_datetime::input::{DateTime, Time};
use icu_datetime::{FixedCalendarDateTimeFormatter, fieldsets};
use icu_decimal::DecimalFormatter;
use icu_decimal::input::Decimal;
use icu_locale_core::Locale;
use survey::Stamp;
use survey::units::Money;

use crate::Language;

/// Most decimals of a number in a text.
const PLACES: i16 = 3;

fn locale(language: Language) -> Locale {
    // Both tags are well formed; the empty locale writes digits all the same.
    language.region().parse().unwrap_or(Locale::UNKNOWN)
}

/// A number from its shortest decimal form, at most `places` decimals, ties away from zero, zeros at the end left out.
fn decimal(number: f64, places: i16) -> Decimal {
    let number = if number.is_finite() { number + 0.0 } else { 0.0 };
    let mut decimal: Decimal = format!("{number}").parse().unwrap_or_default();
    decimal.round_with_mode(-places, SignedRoundingMode::Unsigned(UnsignedRoundingMode::HalfExpand));
    decimal.trim_end();
    decimal
}

fn written(language: Language, decimal: &Decimal) -> String {
    match DecimalFormatter::try_new((&locale(language)).into(), Default::default()) {
        Ok(formatter) => formatter.format(decimal).to_string(),
        Err(_) => decimal.to_string(), // the data are inside; plain digits are right anyway
    }
}

/// A number with at most `places` decimals: "1,850.5". What is not finite is written as 0.
pub fn number(language: Language, number: f64, places: u8) -> String {
    written(language, &decimal(number, i16::from(places)))
}

/// A share from 0 to 1 as a percent with at most `places` decimals: "13%".
pub fn percent(language: Language, share: f64, places: u8) -> String {
    // Both languages write the sign behind the number without a space in the United States (CLDR 48).
    format!("{}%", number(language, share * 100.0, places))
}

/// A sum, cents only where there are any: "$1,850", "-$3.05".
pub fn money(language: Language, money: Money) -> String {
    let cents = money.cents().unsigned_abs();
    let mut amount = Decimal::from(cents);
    amount.multiply_pow10(-2);
    if cents.is_multiple_of(100) {
        amount.trim_end();
    } else {
        amount.pad_end(-2);
    }
    let sign = if money.cents() < 0 { "-" } else { "" };
    // Both languages write the dollar sign before the number in the United States (CLDR 48).
    format!("{sign}${}", written(language, &amount))
}

/// A sum to whole dollars.
pub fn whole_money(language: Language, sum: Money) -> String {
    money(language, Money::from_dollars(sum.dollars().round() as i64))
}

/// A sum as an estimator says it: to the nearest 10 dollars below 1,000, to the nearest 50 above.
pub fn round_money(language: Language, sum: Money) -> String {
    let dollars = sum.dollars();
    let step = if dollars.abs() < 1000.0 { 10.0 } else { 50.0 };
    money(language, Money::from_dollars(((dollars / step).round() * step) as i64))
}

/// Minutes as a number without needless decimals.
pub fn minutes(language: Language, minutes: f64) -> String {
    number(language, minutes, 1)
}

/// The moment on the clock of the house: "Mar 3, 2026, 10:52 AM". The hour stays together on its line.
pub fn when(language: Language, stamp: Stamp) -> String {
    let (year, month, day, hour, minute, second) = stamp.wall();
    let formatter = FixedCalendarDateTimeFormatter::<Gregorian, _>::try_new(
        (&locale(language)).into(),
        fieldsets::YMD::medium().with_time_hm(),
    );
    let date = Date::try_new_gregorian(year, month, day);
    let time = Time::try_new(hour, minute, second, 0);
    match (formatter, date, time) {
        (Ok(formatter), Ok(date), Ok(time)) => {
            kept_together(&formatter.format(&DateTime { date, time }).to_string())
        }
        _ => stamp.minute_text(), // a stamp is a date and the data are inside
    }
}

/// The day on the clock of the house: "March 3, 2026".
pub fn date(language: Language, stamp: Stamp) -> String {
    let (year, month, day, ..) = stamp.wall();
    let formatter = FixedCalendarDateTimeFormatter::<Gregorian, _>::try_new(
        (&locale(language)).into(),
        fieldsets::YMD::long(),
    );
    match (formatter, Date::try_new_gregorian(year, month, day)) {
        (Ok(formatter), Ok(date)) => formatter.format(&date).to_string(),
        _ => stamp.minute_text(),
    }
}

/// Whatever space stands inside the hour becomes U+00A0, as the screens do it: CLDR has U+202F in "10:52 AM", which
/// the faces of the pages lack, and plain or thin spaces elsewhere.
fn kept_together(text: &str) -> String {
    let Some((day, hour)) = text.rsplit_once(", ") else { return text.to_owned() };
    let hour: String = hour.chars().map(|c| if c.is_whitespace() { '\u{a0}' } else { c }).collect();
    format!("{day}, {hour}")
}

/// How a number in a message is written: at most three decimals, fewer where the message asks for fewer.
pub(crate) fn in_message(language: Language, value: f64, most: Option<usize>) -> String {
    let places = most.and_then(|m| i16::try_from(m).ok()).unwrap_or(PLACES);
    written(language, &decimal(value, places))
}
