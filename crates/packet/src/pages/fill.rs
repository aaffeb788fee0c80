//! The data as the template wants it: every number already in words, every position already between 0 and 1.

use serde::Serialize;
use serde_json::{Map, Value, json};
use survey::Digest;
use survey::units::Money;
use words::{Words, msg};

use super::data::{
    Amount, CalculationBlock, ClueRow, ConditionRow, Drawn, MoneyBlock, PagesData, PhotoBlock, WeightRow,
};
use super::set::{Pictures, tree};
use super::{ChangeOrderPages, HouseholdPages, Style, TradePages};

/// Words the template asks for by id.
const TEMPLATE: [&str; 109] = [
    "pages-all-known",
    "pages-all-listed",
    "pages-also",
    "pages-annex",
    "pages-answer",
    "pages-answers",
    "pages-asked",
    "pages-assumed",
    "pages-because",
    "pages-by",
    "pages-calculation",
    "pages-catalog",
    "pages-check",
    "pages-check-1",
    "pages-check-1-how",
    "pages-check-2",
    "pages-check-2-how",
    "pages-check-3",
    "pages-check-3-how",
    "pages-check-how",
    "pages-check-shows",
    "pages-clause",
    "pages-closes",
    "pages-condition",
    "pages-costs-days",
    "pages-could-do",
    "pages-covers",
    "pages-date",
    "pages-do",
    "pages-do-not-say",
    "pages-drawing",
    "pages-dust",
    "pages-evidence",
    "pages-extra-days",
    "pages-for",
    "pages-good-to",
    "pages-held-against",
    "pages-house",
    "pages-how-likely",
    "pages-how-reached",
    "pages-if-there",
    "pages-inside",
    "pages-leave-alone",
    "pages-look",
    "pages-look-there",
    "pages-look-what",
    "pages-may-be",
    "pages-may-change",
    "pages-may-meet",
    "pages-means",
    "pages-measured",
    "pages-measurements",
    "pages-medical",
    "pages-money",
    "pages-money-and-days",
    "pages-moved",
    "pages-no-look",
    "pages-no-name",
    "pages-no-orders",
    "pages-no-photographs",
    "pages-no-picture",
    "pages-no-place",
    "pages-not-covered",
    "pages-not-known",
    "pages-nothing-raised",
    "pages-odds",
    "pages-of-contract",
    "pages-off-help",
    "pages-off-hours",
    "pages-off-task",
    "pages-off-what",
    "pages-off-when",
    "pages-on-average",
    "pages-one-by-one",
    "pages-one-change",
    "pages-openings",
    "pages-openings-note",
    "pages-opening-size",
    "pages-opens",
    "pages-packet",
    "pages-page",
    "pages-photo",
    "pages-photograph",
    "pages-photographs",
    "pages-promise",
    "pages-question",
    "pages-questions",
    "pages-reading",
    "pages-reckoned",
    "pages-sealed",
    "pages-seen-there",
    "pages-signature",
    "pages-small-copies",
    "pages-takes",
    "pages-to-move",
    "pages-todo",
    "pages-todo-what",
    "pages-twenty-dots",
    "pages-uncertain",
    "pages-unknown",
    "pages-weigh-most",
    "pages-went-in",
    "pages-what",
    "pages-where",
    "pages-who-decides",
    "pages-who-when",
    "pages-why",
    "pages-why-hidden",
    "pages-worth",
];

/// What every document says of house, packet and firm.
pub(super) fn head(data: &PagesData, title: &str, letterhead: &Value, words: &Words) -> Map<String, Value> {
    let language = words.language();
    let (_, region) = language.region().split_once('-').unwrap_or_default();
    let template: Map<String, Value> =
        TEMPLATE.iter().map(|id| ((*id).to_owned(), words.plain(id).into())).collect();
    let after = data.demolition.as_ref().map(|(by, at)| msg!("pages-after-demolition", by = by, at = *at));
    let author = data.organization.clone().unwrap_or_else(|| data.surveyed_by.join(", "));
    let head = json!({
        "document": { "title": title, "author": author },
        "letterhead": letterhead,
        "language": language.tag(),
        "region": region.to_lowercase(),
        "words": template,
        "short": short(&data.label),
        "number": data.number.to_string(),
        "sealed": words::when(language, data.sealed_at),
        "after": after.map(|said| words.say(&said)).unwrap_or_default(),
        "catalog": data.catalog,
    });
    match head {
        Value::Object(head) => head,
        _ => Map::new(),
    }
}

/// The firm at the head of what leaves the house.
pub(super) fn letterhead(data: &PagesData, style: &Style, mark: Option<String>) -> Value {
    json!({ "firm": data.organization, "address": style.address, "mark": mark })
}

/// Title of a document in a reader's list of files.
pub(super) fn title(running: &str, data: &PagesData) -> String {
    match data.label.trim() {
        "" => running.to_owned(),
        label => format!("{label}: {running}"),
    }
}

/// Title of the office's document.
pub(super) fn office_title(data: &PagesData, words: &Words) -> String {
    words.say(&msg!("pages-document", number = data.number.to_string(), label = &data.label))
}

/// The office's pages; `plots`: files of money and days.
pub(super) fn office(
    data: &PagesData,
    words: &Words,
    pictures: &Pictures,
    plots: [Option<String>; 2],
) -> Value {
    let number = data.number.to_string();
    let conditions = data.conditions.iter().map(|c| condition(c, words));
    let calculations =
        data.calculations.iter().enumerate().map(|(n, c)| calculation(c, pictures.drawing(n), words));
    let photos = data.photos.iter().enumerate().map(|(n, p)| photo(n, p, pictures.photo(n)));
    json!({
        "running": words.say(&msg!("pages-running", number = &number)),
        "folder": format!("underlath-{}-{}", data.survey, data.number),
        "title": data.title,
        "lead": data.lead,
        "byline": byline(data, words),
        "todo": data.todo,
        "uncertain": weights(&data.uncertain, words),
        "conditions": conditions.collect::<Vec<_>>(),
        "money": money(&data.money, plots, words),
        "calculations": calculations.collect::<Vec<_>>(),
        "looks": data.looks,
        "stations": data.stations.iter().filter(|s| !s.answers.is_empty()).collect::<Vec<_>>(),
        "unknown": data.unknown,
        "photos": photos.collect::<Vec<_>>(),
        "disclaimers": data.disclaimers,
        "sums": sums(data, words),
    })
}

/// A trade's pages, with its calculations and `photos`.
pub(super) fn trade(
    trade: &TradePages,
    data: &PagesData,
    pictures: &Pictures,
    photos: Vec<Value>,
    words: &Words,
) -> Value {
    let of = |n: &usize| Some(calculation(data.calculations.get(*n)?, pictures.drawing(*n), words));
    let calculations: Vec<Value> = trade.calculations.iter().filter_map(of).collect();
    let mut tree = with_photos(trade, photos);
    within_the_rule(&mut tree["conditions"]);
    tree["calculations"] = calculations.into();
    tree
}

/// The household's page; `calendar`: the file of its drawing.
pub(super) fn household(data: &HouseholdPages, calendar: Option<String>) -> Value {
    let mut tree = tree(data);
    tree["calendar"] = json!({
        "file": calendar,
        "said": data.calendar.as_ref().map(|d| d.said.as_str()).unwrap_or_default(),
    });
    tree
}

/// Likely change orders and the photographs behind them.
pub(super) fn change_orders(data: &ChangeOrderPages, photos: Vec<Value>) -> Value {
    let mut tree = with_photos(data, photos);
    within_the_rule(&mut tree["orders"]);
    tree
}

/// Odds that are no number between 0 and 1 are drawn at the nearer end.
fn within_the_rule(rows: &mut Value) {
    for row in rows.as_array_mut().into_iter().flatten() {
        let odds = row["odds"].as_f64().unwrap_or_default();
        row["odds"] = unit(odds).into();
    }
}

/// Plain data and the photographs beside them.
fn with_photos(data: &impl Serialize, photos: Vec<Value>) -> Value {
    let mut tree = tree(data);
    tree["photos"] = photos.into();
    tree
}

/// A photograph by its number from 1; `files`: its small copy and its marks.
pub(super) fn photo(n: usize, photo: &PhotoBlock, [file, marks]: [Option<&str>; 2]) -> Value {
    json!({ "n": (n + 1).to_string(), "file": file, "marks": marks, "caption": photo.caption,
            "place": photo.place, "time": photo.time, "digest": photo.digest.short() })
}

/// What went into the numbers.
fn sums(data: &PagesData, words: &Words) -> Value {
    let catalog = msg!("pages-catalog-sum", catalog = &data.catalog, sum = grouped(data.catalog_digest));
    let assessment = msg!("pages-assessment-sum", sum = grouped(data.assessment_digest));
    json!([
        [words.plain("pages-house"), data.label],
        [words.plain("pages-survey"), data.survey.to_string()],
        [words.plain("pages-catalog"), words.say(&catalog)],
        [words.plain("pages-computed-by"), data.engine],
        [words.plain("pages-from-log"), words.say(&msg!("pages-entries", n = data.log_position))],
        [words.plain("pages-assessment"), words.say(&assessment)],
    ])
}

/// What fits into the running head and the title block.
fn short(label: &str) -> String {
    let start: String = label.chars().take(40).collect();
    if start.len() < label.len() { format!("{start}…") } else { start }
}

fn byline(data: &PagesData, words: &Words) -> String {
    let who = match data.surveyed_by.as_slice() {
        [] => words.plain("pages-nobody"),
        names => names.join(", "),
    };
    let minutes = data.sealed_at.offset_min();
    let sign = if minutes < 0 { '−' } else { '+' };
    let offset = format!("{sign}{:02}:{:02}", minutes.abs() / 60, minutes.abs() % 60);
    let (when, n) = (data.sealed_at, data.log_position);
    words.say(&match &data.organization {
        None => msg!("pages-byline", who = who, when = when, offset = offset, n = n),
        Some(firm) => msg!("pages-byline-firm", who = who, firm = firm, when = when, offset = offset, n = n),
    })
}

/// Eight groups of eight digits.
fn grouped(digest: Digest) -> String {
    let hex = digest.hex();
    let groups: Vec<&str> = (0..8).filter_map(|n| hex.get(n * 8..n * 8 + 8)).collect();
    groups.join(" ")
}

fn unit(x: f64) -> f64 {
    if x.is_nan() { 0.0 } else { x.clamp(0.0, 1.0) }
}

fn calculation(block: &CalculationBlock, file: Option<&str>, words: &Words) -> Value {
    let missing = match block.missing.as_slice() {
        [] => String::new(),
        list => words.say(&msg!("pages-missing", what = list.to_vec())),
    };
    json!({
        "title": block.title, "sentence": block.sentence, "file": file, "missing": missing, "changes": block.changes,
        "arithmetic": block.arithmetic, "limits": block.limits, "assumed": block.assumed, "notes": block.notes,
        "caution": block.caution,
    })
}

fn condition(row: &ConditionRow, words: &Words) -> Value {
    let band = row.band.map(|[a, b]| [unit(a.min(b)), unit(a.max(b))]);
    json!({
        "name": row.name, "words": row.words, "odds": unit(row.odds), "band": band,
        "cost": words.say(&msg!("pages-cost", low = row.low, high = row.high)),
        "likely": words.say(&msg!("pages-most-likely", sum = row.likely)),
        "action": row.action, "how": row.how, "caution": row.caution, "because": row.because,
        "what": row.what, "when": row.when, "looks": row.looks, "photos": row.photos,
        "path": row.path.iter().map(step).collect::<Vec<_>>(),
    })
}

fn step(row: &ClueRow) -> Value {
    json!({ "what": row.what, "moved": row.moved, "from": unit(row.from), "to": unit(row.to) })
}

fn money(block: &MoneyBlock, plots: [Option<String>; 2], words: &Words) -> Value {
    let language = words.language();
    let sums = [block.p50, block.p80, block.p90, block.mean];
    let top = round_up(sums.iter().map(|a| a.sum.dollars()).fold(1.0, f64::max));
    let names = [
        ("P50".to_owned(), words.plain("pages-p50-words")),
        ("P80".to_owned(), words.plain("pages-p80-words")),
        ("P90".to_owned(), words.plain("pages-p90-words")),
        (words.plain("pages-mean"), words.plain("pages-mean-words")),
    ];
    let days = block.days.iter().map(|d| Some(*d)).chain([None]);
    let rows: Vec<Value> = names
        .iter()
        .zip(sums)
        .zip(days)
        .map(|(((name, says), Amount { sum, error }), days)| {
            json!({
                "name": name, "words": says, "sum": words::whole_money(language, sum),
                "error": format!("±{}", words::whole_money(language, error)),
                "share": share(sum, block.contract, words), "at": unit(sum.dollars() / top), "strong": name == "P80",
                "days": days.map(day_words).unwrap_or_else(|| "–".to_owned()),
            })
        })
        .collect();
    let top = Money::from_f64(top).unwrap_or(Money::MAX);
    let [file, days_file] = plots;
    let said = |drawn: &Option<Drawn>| drawn.as_ref().map(|d| d.said.clone()).unwrap_or_default();
    json!({
        "rows": rows, "top": words.say(&msg!("pages-from-nothing", sum = top)), "notes": block.notes,
        "file": file, "said": said(&block.drawing),
        "daysFile": days_file, "daysSaid": said(&block.days_drawing),
        "weights": weights(&block.weights, words),
    })
}

/// Conditions that weigh most, on one scale.
fn weights(rows: &[WeightRow], words: &Words) -> Vec<Value> {
    let ends = rows.iter().flat_map(|r| [r.average.dollars(), r.range[1].dollars()]);
    let most = ends.fold(1.0, f64::max);
    let row = |r: &WeightRow| {
        let [low, high] = r.range;
        json!({
            "name": r.name, "words": r.words, "average": words::round_money(words.language(), r.average),
            "range": words.say(&msg!("pages-cost", low = low, high = high)),
            "at": unit(r.average.dollars() / most),
            "from": unit(low.dollars() / most), "to": unit(high.dollars() / most),
        })
    };
    rows.iter().map(row).collect()
}

/// The next of 1, 2, 3, 5, 8 times a power of ten.
fn round_up(dollars: f64) -> f64 {
    let mut scale = 1.0;
    while scale * 10.0 < dollars && scale < 1e12 {
        scale *= 10.0;
    }
    let steps = [1.0, 2.0, 3.0, 5.0, 8.0, 10.0];
    steps.iter().map(|s| s * scale).find(|s| *s >= dollars).unwrap_or(dollars)
}

fn share(sum: Money, contract: Option<Money>, words: &Words) -> String {
    match contract {
        Some(contract) if contract > Money::ZERO => {
            words::percent(words.language(), sum.dollars() / contract.dollars(), 0)
        }
        _ => "–".to_owned(),
    }
}

/// Days to the half: "0", "2 1/2".
fn day_words(days: f64) -> String {
    let halves = (unit(days / 10_000.0) * 20_000.0).round() as u64;
    match (halves / 2, halves % 2) {
        (whole, 0) => whole.to_string(),
        (0, _) => "1/2".to_owned(),
        (whole, _) => format!("{whole} 1/2"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_become_the_words_they_are_read_in() {
        assert_eq!(
            ["0", "1/2", "2 1/2", "0"],
            [0.1, 0.4, 2.6, f64::NAN].map(day_words).each_ref().map(String::as_str)
        );
        assert_eq!([1.0, 11_100.0, 20_000.0, 81_000.0].map(round_up), [1.0, 20_000.0, 20_000.0, 100_000.0]);
        let english = Words::of(words::Language::En);
        assert_eq!(share(Money::from_dollars(7_900), Some(Money::from_dollars(62_000)), english), "13%");
        assert_eq!(share(Money::from_dollars(7_900), None, english), "–");
        assert_eq!([unit(f64::NAN), unit(-1.0), unit(2.0)], [0.0, 0.0, 1.0]);
    }
}
