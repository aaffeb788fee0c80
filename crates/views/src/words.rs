//! Words for values, odds and advice, the same on every screen, page and line.

use assessment::decision::Pricing;
use assessment::forecast::{Advice, Reason};
use survey::catalog::{AnswerKind, Catalog, Item, LengthIn};
use survey::guide;
use survey::log::{Answer, CheckOutcome, Value};
use survey::model::Picture;
use survey::units::{Length, feet_inches_16, inches_16};

/// Words beside a probability: under 10 % unlikely, to 30 possible, to 60 even, to 85 likely, above it expect it.
pub fn odds_words(p: f64) -> &'static str {
    match p {
        p if p < 0.10 => "unlikely",
        p if p < 0.30 => "possible",
        p if p < 0.60 => "even",
        p if p <= 0.85 => "likely",
        _ => "expect it",
    }
}

/// "about 7 in 10"; below half of one in ten and above nine and a half in words that do not claim certainty.
pub fn about_in_10(p: f64) -> String {
    let tenths = (p * 10.0).round();
    match tenths as u32 {
        0 => "less than 1 in 10".to_owned(),
        n if n >= 10 => "more than 9 in 10".to_owned(),
        n => format!("about {n} in 10"),
    }
}

/// A length as the trade writes it, with millimeters beside it.
pub fn length_words(length: Length, unit: LengthIn) -> String {
    match unit {
        LengthIn::Inch => inches_16(length),
        LengthIn::Foot => feet_inches_16(length),
    }
}

/// Label of one option of an item.
fn option_label<'a>(item: Option<&'a Item>, option: &'a str) -> &'a str {
    let options = item.map(|i| i.answer.options()).unwrap_or_default();
    options.iter().find(|o| o.id == option).map_or(option, |o| o.label.as_str())
}

/// An answer in words.
pub fn value_words(catalog: &Catalog, item: &str, value: &Value) -> String {
    let found = catalog.item(item);
    match value {
        Value::Choice(option) => option_label(found, option).to_owned(),
        Value::Choices(options) => {
            options.iter().map(|o| option_label(found, o)).collect::<Vec<_>>().join(", ")
        }
        Value::Length(length) => {
            let unit = match found.map(|i| &i.answer) {
                Some(AnswerKind::Length { unit, .. }) => *unit,
                _ => LengthIn::Inch,
            };
            length_words(*length, unit)
        }
        Value::Number(quantity) => quantity.to_string(),
        Value::Text(text) => text.clone(),
        Value::Checks(results) if results.is_empty() => "no further check".to_owned(),
        Value::Checks(results) => {
            let one = |r: &survey::log::CheckResult| {
                let check = catalog.checks.get(&r.check).map_or(r.check.as_str(), |c| c.name.as_str());
                let names: Vec<&str> = r
                    .conditions
                    .iter()
                    .map(|c| catalog.condition(c).map_or(c.as_str(), |c| c.name.as_str()))
                    .collect();
                let shows = match r.result {
                    CheckOutcome::ShowsIt => "shows",
                    CheckOutcome::ShowsNot => "does not show",
                    CheckOutcome::Unclear => "leaves open",
                };
                format!("{check} {shows}: {}", names.join(", "))
            };
            results.iter().map(one).collect::<Vec<_>>().join("; ")
        }
        Value::CantTell => "can’t tell".to_owned(),
        Value::CouldNotReach(because) => format!("could not reach: {because}"),
        Value::Withdrawn => "taken back".to_owned(),
    }
}

/// Tolerance of an answer in words.
pub fn tolerance_words(answer: &Answer) -> Option<String> {
    answer.tolerance.map(|t| format!("±{}", inches_16(t)))
}

/// Kind of advice, for programs.
pub fn advice_kind(advice: &Advice) -> &'static str {
    match advice {
        Advice::LicensedLookFirst { .. } => "licensed-look-first",
        Advice::PriceInOrTest { .. } => "price-in-or-test",
        Advice::InBasePrice { .. } => "in-base-price",
        Advice::BelowFloor => "below-floor",
        Advice::Nothing => "nothing",
        Advice::Price { pricing, .. } => match pricing {
            Pricing::PriceIn => "price-in",
            Pricing::Allowance => "allowance",
            Pricing::UnitPrice => "unit-price",
            Pricing::Exclude => "exclude",
        },
    }
}

/// Advice in a word or two.
pub fn advice_short(advice: &Advice) -> &'static str {
    match advice {
        Advice::LicensedLookFirst { .. } => "Licensed look first",
        Advice::PriceInOrTest { .. } => "Price in or test",
        Advice::InBasePrice { .. } => "In the base price",
        Advice::BelowFloor => "Not raised",
        Advice::Nothing => "Nothing",
        Advice::Price { pricing, .. } => match pricing {
            Pricing::PriceIn => "Price in",
            Pricing::Allowance => "Allowance",
            Pricing::UnitPrice => "Unit price",
            Pricing::Exclude => "Exclude",
        },
    }
}

/// Advice in a sentence.
pub fn advice_words(advice: &Advice) -> String {
    match advice {
        Advice::LicensedLookFirst { until } => format!("Stop here first: {until}."),
        Advice::PriceInOrTest { until } => {
            format!("Treat as present: put it in the price, or before signing: {until}. Never exclude it.")
        }
        Advice::InBasePrice { confirmed: true } => "The base price holds it.".to_owned(),
        Advice::InBasePrice { confirmed: false } => {
            "Usually in the base price; taken so here. Ask whether it is.".to_owned()
        }
        Advice::BelowFloor => "Too small to raise.".to_owned(),
        Advice::Nothing => "No cost of its own.".to_owned(),
        Advice::Price { pricing, amount, .. } => {
            let sum = amount.map(|a| round_dollars(a.dollars())).unwrap_or_default();
            match pricing {
                Pricing::PriceIn => format!("Put {sum} in the price."),
                Pricing::Allowance => format!("Carry an allowance of {sum}, credited back if unused."),
                Pricing::UnitPrice => {
                    format!("Exclude it, with a price agreed beforehand (about {sum} if it is there).")
                }
                Pricing::Exclude => "Exclude it by name.".to_owned(),
            }
        }
    }
}

/// A sum to whole dollars.
pub fn whole_dollars(money: survey::units::Money) -> String {
    survey::units::Money::from_dollars((money.dollars()).round() as i64).to_string()
}

/// A sum as an estimator says it: to the nearest 10 dollars below 1,000, to the nearest 50 above.
pub fn round_dollars(dollars: f64) -> String {
    let step = if dollars.abs() < 1000.0 { 10.0 } else { 50.0 };
    survey::units::Money::from_dollars(((dollars / step).round() * step) as i64).to_string()
}

/// A reason in words: "up: How high is the stub? 18-1/2″".
pub fn reason_words(catalog: &Catalog, reason: &Reason) -> String {
    let question = catalog.item(&reason.item).map_or(reason.item.as_str(), |i| i.question.as_str());
    let way = if reason.decibans >= 0.0 { "up" } else { "down" };
    let far = match reason.decibans.abs() {
        d if d < 3.0 => "a little ",
        d if d < 10.0 => "",
        _ => "far ",
    };
    let at = reason.place.as_ref().map(|p| format!(" ({})", p.label)).unwrap_or_default();
    format!("{far}{way}: {question}{at} — {}", value_words(catalog, &reason.item, &reason.value))
}

/// A place of the walk: the label of its station, with its own name where a house has several.
pub fn place_words(catalog: &Catalog, picture: &Picture, place: &str) -> String {
    let station = picture.place(place).map_or(place, |p| p.station.as_str());
    let label = catalog.station(station).map_or("", |s| s.label.as_str());
    match guide::place_name(catalog, picture, place) {
        Some(name) => format!("{label} ({name})"),
        None => label.to_owned(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn odds_never_claim_certainty() {
        assert_eq!(about_in_10(0.0), "less than 1 in 10");
        assert_eq!(about_in_10(1.0), "more than 9 in 10");
        assert_eq!(about_in_10(0.72), "about 7 in 10");
        assert_eq!(
            (odds_words(0.099), odds_words(0.1), odds_words(0.85), odds_words(0.86)),
            ("unlikely", "possible", "likely", "expect it")
        );
    }

    #[test]
    fn sums_are_said_round() {
        assert_eq!(round_dollars(1837.4), "$1,850");
        assert_eq!(round_dollars(183.0), "$180");
    }
}
