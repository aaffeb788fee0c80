//! Phrases for values, odds and advice, the same on every screen, page and line, in whatever language.

use assessment::decision::Pricing;
use assessment::forecast::{Advice, ConditionForecast, Forecast, Look, PlaceRef, Reason};
use survey::catalog::{AnswerKind, Condition, LengthIn};
use survey::log::{Answer, CheckOutcome, CheckResult, Value};
use survey::model::Picture;
use survey::units::{Length, Money, Quantity, feet_inches_16, inches_16};
use survey::{Key, guide};
use words::{Arg, CatalogWords, Message, Words, catalog, msg};

/// Words beside a probability: under 10 % unlikely, to 30 possible, to 60 even, to 85 likely, above it expect it.
pub fn odds_words(words: &Words, p: f64) -> String {
    words.say(&match p {
        p if p < 0.10 => msg!("odds-unlikely"),
        p if p < 0.30 => msg!("odds-possible"),
        p if p < 0.60 => msg!("odds-even"),
        p if p <= 0.85 => msg!("odds-likely"),
        _ => msg!("odds-expect"),
    })
}

/// "about 7 in 10"; below half of one in ten and above nine and a half in words that do not claim certainty.
pub fn about_in_10(words: &Words, p: f64) -> String {
    let tenths = (p * 10.0).round();
    words.say(&match tenths as u32 {
        0 => msg!("in-10-less"),
        n if n >= 10 => msg!("in-10-more"),
        n => msg!("in-10", n = n),
    })
}

/// Where a chance could fairly lie: "between 5 and 8 in 10"; ends that round to none or to all of ten are not claimed.
pub fn band_words(words: &Words, [low, high]: [f64; 2]) -> String {
    let [low, high] = [low, high].map(|p| (p * 10.0).round() as u32);
    words.say(&match (low, high) {
        (0, 0) => msg!("in-10-less"),
        (10, 10) => msg!("in-10-more"),
        (0, high) => msg!("band-up-to", high = high.min(9)),
        (low, 10) => msg!("band-from", low = low),
        (low, high) if low == high => msg!("in-10", n = low),
        (low, high) => msg!("band-between", low = low, high = high),
    })
}

/// A chance in hundredths that never claims certainty: "8 in 100", "less than 1 in 100".
pub fn in_100(words: &Words, p: f64) -> String {
    words.say(&match p * 100.0 {
        x if x < 0.5 => msg!("in-100-less"),
        x if x > 99.5 => msg!("in-100-more"),
        x => msg!("in-100", n = x.clamp(1.0, 99.0).round_ties_even()),
    })
}

/// A length as the trade writes it on both sides of the border: inches and feet with sixteenths.
pub fn length_words(length: Length, unit: LengthIn) -> String {
    match unit {
        LengthIn::Inch => inches_16(length),
        LengthIn::Foot => feet_inches_16(length),
    }
}

/// A number with its unit. A bare number may be a year and is not grouped.
fn quantity_words(say: CatalogWords<'_>, quantity: &Quantity) -> String {
    let number = words::number(say.words.language(), quantity.get(), 3);
    match quantity.unit.as_str() {
        "" => quantity.to_string(),
        "%" => words::percent(say.words.language(), quantity.get() / 100.0, 3),
        unit => say.words.say(&msg!("quantity", number = number, unit = say.unit(unit))),
    }
}

/// An answer in words.
pub fn value_words(say: CatalogWords<'_>, item: &str, value: &Value) -> String {
    let found = say.catalog.item(item);
    let option = |id: &String| match found {
        Some(item) => say.option(item, id).into_owned(),
        None => id.clone(),
    };
    match value {
        Value::Choice(id) => option(id),
        Value::Choices(ids) => ids.iter().map(option).collect::<Vec<_>>().join(", "),
        Value::Length(length) => {
            let unit = match found.map(|i| &i.answer) {
                Some(AnswerKind::Length { unit, .. }) => *unit,
                _ => LengthIn::Inch,
            };
            length_words(*length, unit)
        }
        Value::Number(quantity) => quantity_words(say, quantity),
        Value::Text(text) => text.clone(),
        Value::Checks(results) if results.is_empty() => say.words.say(&msg!("answer-no-check")),
        Value::Checks(results) => results.iter().map(|r| check_words(say, r)).collect::<Vec<_>>().join("; "),
        Value::CantTell => say.words.say(&msg!("answer-cant-tell")),
        Value::CouldNotReach(because) => say.words.say(&msg!("answer-not-reached", why = because)),
        Value::Withdrawn => say.words.say(&msg!("answer-taken-back")),
    }
}

fn check_words(say: CatalogWords<'_>, result: &CheckResult) -> String {
    let check = say.check(&result.check);
    let conditions: Vec<_> = result.conditions.iter().map(|key| key_words(say, key)).collect();
    say.words.say(&match result.result {
        CheckOutcome::ShowsIt => msg!("answer-check-shows", check = check, conditions = conditions),
        CheckOutcome::ShowsNot => msg!("answer-check-shows-not", check = check, conditions = conditions),
        CheckOutcome::Unclear => msg!("answer-check-open", check = check, conditions = conditions),
    })
}

/// A condition by its key: its name, with the id of the place where it is not at the first.
pub fn key_words(say: CatalogWords<'_>, key: &str) -> String {
    let name = say.condition(key).into_owned();
    match Key::parse(key).place.filter(|_| name != key) {
        Some(place) => say.words.say(&msg!("at-place", what = name, place = place)),
        None => name,
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
pub fn advice_short(words: &Words, advice: &Advice) -> String {
    words.say(&match advice {
        Advice::LicensedLookFirst { .. } => msg!("advice-licensed-look-first-short"),
        Advice::PriceInOrTest { .. } => msg!("advice-price-in-or-test-short"),
        Advice::InBasePrice { .. } => msg!("advice-in-base-price-short"),
        Advice::BelowFloor => msg!("advice-below-floor-short"),
        Advice::Nothing => msg!("advice-nothing-short"),
        Advice::Price { pricing, .. } => match pricing {
            Pricing::PriceIn => msg!("advice-price-in-short"),
            Pricing::Allowance => msg!("advice-allowance-short"),
            Pricing::UnitPrice => msg!("advice-unit-price-short"),
            Pricing::Exclude => msg!("advice-exclude-short"),
        },
    })
}

/// What comes before any arithmetic about a condition, by its key and in the catalog's English.
pub fn gate_words(say: CatalogWords<'_>, key: &str, until: &str) -> String {
    say.words.catalog(&format!("condition-{}-until", Key::parse(key).id), until).into_owned()
}

/// Advice about a condition in a sentence.
pub fn advice_words(words: &Words, condition: &ConditionForecast) -> String {
    let until =
        |english: &str| words.catalog(&format!("condition-{}-until", id_of(condition)), english).into_owned();
    words.say(&match &condition.advice {
        Advice::LicensedLookFirst { until: who } => msg!("advice-licensed-look-first", until = until(who)),
        Advice::PriceInOrTest { until: who } => msg!("advice-price-in-or-test", until = until(who)),
        Advice::InBasePrice { confirmed: true } => msg!("advice-in-base-price"),
        Advice::InBasePrice { confirmed: false } => msg!("advice-in-base-price-assumed"),
        Advice::BelowFloor => msg!("advice-below-floor"),
        Advice::Nothing => msg!("advice-nothing"),
        Advice::Price { pricing, amount, .. } => {
            let sum = amount.map(|a| round_money(words, a)).unwrap_or_default();
            match pricing {
                Pricing::PriceIn => msg!("advice-price-in", sum = sum),
                Pricing::Allowance => msg!("advice-allowance", sum = sum),
                Pricing::UnitPrice => msg!("advice-unit-price", sum = sum),
                Pricing::Exclude => msg!("advice-exclude"),
            }
        }
    })
}

/// The name of a condition of a frozen assessment, without its place.
pub fn bare_name(words: &Words, condition: &ConditionForecast) -> String {
    words.catalog(&format!("condition-{}-name", id_of(condition)), &condition.name).into_owned()
}

/// The name of a condition of a frozen assessment, with its place where the house has several.
pub fn condition_name(words: &Words, condition: &ConditionForecast) -> String {
    at(words, bare_name(words, condition), condition.place.as_ref())
}

/// Something at a place, where the house has several.
pub fn at(words: &Words, what: String, place: Option<&PlaceRef>) -> String {
    match place {
        Some(place) => words.say(&msg!("at-place", what = what, place = &place.label)),
        None => what,
    }
}

/// Id in the catalog of a condition of a frozen assessment.
fn id_of(condition: &ConditionForecast) -> &str {
    Key::parse(&condition.id).id
}

/// A place of the walk: the label of its station, with its own name where a house has several.
pub fn place_words(say: CatalogWords<'_>, picture: &Picture, place: &str) -> String {
    let station = picture.place(place).map_or(place, |p| p.station.as_str());
    let label = say.station(station).into_owned();
    match guide::place_name(say.catalog, picture, place) {
        Some(name) => say.words.say(&msg!("at-place", what = label, place = name)),
        None => label,
    }
}

/// Who decides about a condition, as the frozen assessment says it: the catalog's caution, and the licensed person.
pub fn condition_caution(say: CatalogWords<'_>, condition: &ConditionForecast) -> String {
    caution_words(say, &condition.id, &condition.caution)
}

/// Who decides about a condition, by its key and what was said of it in English.
pub fn caution_words(say: CatalogWords<'_>, key: &str, english: &str) -> String {
    let found = say.catalog.condition_of(key);
    let translated = found.and_then(|c| {
        let id = format!("condition-{}-caution", c.id);
        match &c.decides {
            None if c.caution == english => say.words.translated(&id, &c.caution),
            None => None,
            Some(who) => {
                let ours = decided(Words::of(words::Language::En), &c.caution, who);
                let caution = say.words.translated(&id, &c.caution)?;
                let who = say.words.translated(&format!("decides-{}", catalog::slug(who)), who)?;
                (ours == english).then(|| decided(say.words, &caution, &who))
            }
        }
    });
    translated.unwrap_or_else(|| english.to_owned())
}

/// Who decides about a condition of the catalog, as an assessment would say it.
pub fn caution_of(say: CatalogWords<'_>, condition: &Condition) -> String {
    let caution = say.words.catalog(&format!("condition-{}-caution", condition.id), &condition.caution);
    match &condition.decides {
        None => caution.into_owned(),
        Some(who) => {
            let who = say.words.catalog(&format!("decides-{}", catalog::slug(who)), who);
            decided(say.words, &caution, &who)
        }
    }
}

/// A caution with the person who decides.
fn decided(words: &Words, caution: &str, who: &str) -> String {
    words.say(&msg!("caution-who-decides", caution = caution, who = who))
}

/// How far a look reaches into the house.
pub fn invasive(invasiveness: u8) -> Message {
    match invasiveness {
        0 => msg!("invasive-0"),
        1 => msg!("invasive-1"),
        2 => msg!("invasive-2"),
        3 => msg!("invasive-3"),
        4 => msg!("invasive-4"),
        _ => msg!("invasive-5"),
    }
}

/// The caution that goes with every assessment.
pub fn assessment_caution(words: &Words, forecast: &Forecast) -> String {
    words.catalog("assessment-caution", &forecast.caution).into_owned()
}

/// What stands before a person's reason in a frozen assessment.
const NOT_REACHED: &str = "could not reach: ";

/// Why something is not known: a reason of ours, or what a person said.
pub fn why_words(words: &Words, why: &str) -> String {
    if let Some(because) = why.strip_prefix(NOT_REACHED) {
        return words.say(&msg!("answer-not-reached", why = because));
    }
    let ours = ["why-cant-tell", "why-disagree"];
    ours.iter().find_map(|id| words.translated(id, why)).unwrap_or_else(|| why.to_owned())
}

/// What a look is, who does it, and what must be asked first, of a frozen look.
pub struct LookWords {
    /// What.
    pub label: String,
    /// Who.
    pub who: String,
    /// Not while one of these.
    pub ask_first: Vec<String>,
}

/// A frozen look in words.
pub fn look_words(words: &Words, look: &Look) -> LookWords {
    check_words_of(words, &look.check, [&look.label, &look.who], &look.ask_first)
}

/// Which of several places a look serves at once, in words.
pub fn serves_words(words: &Words, look: &Look) -> Option<String> {
    let places: Vec<Arg> = look.serves.iter().map(|place| place.label.as_str().into()).collect();
    (!places.is_empty()).then(|| words.say(&msg!("look-serves", places = places)))
}

/// A check in words: its id, its name and who does it in English, what must be asked first.
pub fn check_words_of(
    words: &Words,
    check: &str,
    [label, who]: [&str; 2],
    ask_first: &[String],
) -> LookWords {
    let ask = |(n, english): (usize, &String)| {
        let ours = words.translated("look-ask-first-open", english);
        ours.unwrap_or_else(|| words.catalog(&catalog::ask_first(check, n), english).into_owned())
    };
    LookWords {
        label: words.catalog(&format!("check-{check}-name"), label).into_owned(),
        who: words.catalog(&format!("who-{}", catalog::slug(who)), who).into_owned(),
        ask_first: (1..).zip(ask_first).map(ask).collect(),
    }
}

/// Names of conditions, at most so many, and how many more there are.
pub fn some_conditions(say: CatalogWords<'_>, ids: &[String], most: usize) -> String {
    let names: Vec<_> = ids.iter().take(most).map(|id| say.condition(id)).collect();
    match ids.len().saturating_sub(most) {
        0 => names.join(", "),
        more => say.words.say(&msg!("and-more", list = names, n = more)),
    }
}

/// A sum to whole dollars.
pub fn whole_money(words: &Words, sum: Money) -> String {
    words::whole_money(words.language(), sum)
}

/// A sum as an estimator says it: to the nearest 10 dollars below 1,000, to the nearest 50 above.
pub fn round_money(words: &Words, sum: Money) -> String {
    words::round_money(words.language(), sum)
}

/// A reason in words: "up: How high is the stub? 18-1/2″".
pub fn reason_words(say: CatalogWords<'_>, reason: &Reason) -> String {
    let question = at(say.words, say.question(&reason.item).into_owned(), reason.place.as_ref());
    let answer = value_words(say, &reason.item, &reason.value);
    let message: Message = match reason.decibans {
        d if d >= 10.0 => msg!("reason-far-up", question = question, answer = answer),
        d if d >= 3.0 => msg!("reason-up", question = question, answer = answer),
        d if d >= 0.0 => msg!("reason-little-up", question = question, answer = answer),
        d if d > -3.0 => msg!("reason-little-down", question = question, answer = answer),
        d if d > -10.0 => msg!("reason-down", question = question, answer = answer),
        _ => msg!("reason-far-down", question = question, answer = answer),
    };
    say.words.say(&message)
}

/// How far an answer moved the odds, by its weight in decibans.
pub fn how_far(decibans: f64) -> Message {
    match decibans {
        d if d >= 10.0 => msg!("moved-far-up"),
        d if d >= 3.0 => msg!("moved-up"),
        d if d >= 0.0 => msg!("moved-little-up"),
        d if d > -3.0 => msg!("moved-little-down"),
        d if d > -10.0 => msg!("moved-down"),
        _ => msg!("moved-far-down"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use words::Language;

    #[test]
    fn odds_never_claim_certainty() {
        let english = Words::of(Language::En);
        let about = |p| about_in_10(english, p);
        assert_eq!(about(0.0), "less than 1 in 10");
        assert_eq!(about(1.0), "more than 9 in 10");
        assert_eq!(about(0.72), "about 7 in 10");
        assert_eq!(in_100(english, 0.999), "more than 99 in 100");
        let said: Vec<String> = [0.099, 0.1, 0.85, 0.86].map(|p| odds_words(english, p)).into();
        assert_eq!(said, ["unlikely", "possible", "likely", "expect it"]);
        let bands =
            [[0.47, 0.81], [0.01, 0.02], [0.0, 0.32], [0.6, 0.98], [0.98, 0.99], [0.51, 0.54], [0.0, 1.0]];
        let said: Vec<String> = bands.map(|band| band_words(english, band)).into();
        let expected = [
            "between 5 and 8 in 10",
            "less than 1 in 10",
            "anywhere up to 3 in 10",
            "6 in 10 or more",
            "more than 9 in 10",
            "about 5 in 10",
            "anywhere up to 9 in 10",
        ];
        assert_eq!(said, expected);
        let spanish = Words::of(Language::Es);
        assert_eq!(about_in_10(spanish, 0.72), "unas 7 de cada 10");
        assert_eq!(about_in_10(spanish, 0.1), "alrededor de 1 de cada 10");
        assert_eq!(why_words(spanish, "could not reach: no hatch"), "no se pudo llegar: no hatch");
        assert_eq!(why_words(english, "could not reach: no hatch"), "could not reach: no hatch");
        assert_eq!(why_words(spanish, "can't tell"), "no se puede saber");
    }

    #[test]
    fn hundredths_are_those_the_assessment_says() {
        let english = Words::of(Language::En);
        for n in 0..=1000 {
            let p = f64::from(n) / 1000.0;
            assert_eq!(in_100(english, p), assessment::forecast::in_100(p), "{p}");
        }
    }

    #[test]
    fn sums_are_said_round() {
        let english = Words::of(Language::En);
        assert_eq!(round_money(english, Money::from_cents(183_740)), "$1,850");
        assert_eq!(round_money(english, Money::from_dollars(183)), "$180");
    }
}
