//! The data as the template wants it: every number already in words, every position already between 0 and 1.

use serde_json::{Value, json};
use survey::units::Money;
use survey::{Digest, Stamp};

use super::data::{Amount, CalculationBlock, ConditionRow, MoneyBlock, PagesData};

const MONTHS: [&str; 12] = [
    "January",
    "February",
    "March",
    "April",
    "May",
    "June",
    "July",
    "August",
    "September",
    "October",
    "November",
    "December",
];

/// The JSON tree of `data.json`; `pictures` and `drawings` hold, for each photograph and each
/// calculation, the name of its file if there is one.
pub(super) fn fill(data: &PagesData, pictures: &[Option<String>], drawings: &[Option<String>]) -> Value {
    let author = data.organization.clone().unwrap_or_else(|| data.surveyed_by.join(", "));
    let photos = data.photos.iter().zip(pictures).map(|(photo, file)| {
        json!({ "file": file, "caption": photo.caption, "place": photo.place,
                "time": photo.time, "digest": photo.digest.short() })
    });
    json!({
        "document": {
            "title": format!("Packet {}: {}", data.number, data.label),
            "author": author,
        },
        "short": short(&data.label),
        "number": data.number.to_string(),
        "folder": format!("underlath-{}-{}", data.survey, data.number),
        "sealed": minute_words(data.sealed_at),
        "catalog": data.catalog,
        "title": data.title,
        "lead": data.lead,
        "byline": byline(data),
        "conditions": data.conditions.iter().map(condition).collect::<Vec<_>>(),
        "money": money(&data.money),
        "calculations": data.calculations.iter().zip(drawings).map(|(c, file)| calculation(c, file)).collect::<Vec<_>>(),
        "looks": data.looks,
        "stations": data.stations.iter().filter(|s| !s.answers.is_empty()).collect::<Vec<_>>(),
        "unknown": data.unknown,
        "photos": photos.collect::<Vec<_>>(),
        "disclaimers": data.disclaimers,
        "sums": [
            ["House", data.label],
            ["Survey", data.survey.to_string()],
            ["Catalog", format!("{}, sum {}", data.catalog, grouped(data.catalog_digest))],
            ["Computed by", data.engine],
            ["From the log", format!("{} entries", data.log_position)],
            ["Assessment", format!("data/assessment.json, sum {}", grouped(data.assessment_digest))],
        ],
    })
}

/// What fits into the running head and the title block.
fn short(label: &str) -> String {
    let start: String = label.chars().take(40).collect();
    if start.len() < label.len() { format!("{start}…") } else { start }
}

fn byline(data: &PagesData) -> String {
    let who =
        if data.surveyed_by.is_empty() { "nobody named".to_owned() } else { data.surveyed_by.join(", ") };
    let firm = data.organization.as_ref().map(|f| format!(" for {f}")).unwrap_or_default();
    let offset = data.sealed_at.offset_min();
    let sign = if offset < 0 { '−' } else { '+' };
    let (hours, minutes) = (offset.abs() / 60, offset.abs() % 60);
    format!(
        "Surveyed by {who}{firm}. Sealed {}, UTC{sign}{hours:02}:{minutes:02}, from {} entries of the log.",
        minute_words(data.sealed_at),
        data.log_position,
    )
}

/// "14 April 2026, 16:42".
fn minute_words(stamp: Stamp) -> String {
    let (year, month, day, hour, minute, _) = stamp.wall();
    let month = MONTHS.get(usize::from(month).saturating_sub(1)).copied().unwrap_or_default();
    format!("{day} {month} {year}, {hour:02}:{minute:02}")
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

fn calculation(block: &CalculationBlock, file: &Option<String>) -> Value {
    json!({
        "title": block.title, "sentence": block.sentence, "file": file, "missing": block.missing, "changes": block.changes,
        "arithmetic": block.arithmetic, "limits": block.limits, "assumed": block.assumed, "notes": block.notes,
        "caution": block.caution,
    })
}

fn condition(row: &ConditionRow) -> Value {
    let band = row.band.map(|[a, b]| [unit(a.min(b)), unit(a.max(b))]);
    json!({
        "name": row.name, "words": row.words, "odds": unit(row.odds), "band": band,
        "cost": format!("{} to {}", row.low, row.high), "likely": format!("most likely {}", row.likely),
        "action": row.action, "how": row.how, "caution": row.caution, "because": row.because,
    })
}

fn money(block: &MoneyBlock) -> Value {
    let sums = [block.p50, block.p80, block.p90, block.mean];
    let top = round_up(sums.iter().map(|a| a.sum.dollars()).fold(1.0, f64::max));
    let names = [
        ("P50", "even odds"),
        ("P80", "8 in 10 below"),
        ("P90", "9 in 10 below"),
        ("Mean", "over many houses"),
    ];
    let days = block.days.iter().map(|d| Some(*d)).chain([None]);
    let rows: Vec<Value> = names
        .iter()
        .zip(sums)
        .zip(days)
        .map(|(((name, words), Amount { sum, error }), days)| {
            json!({
                "name": name, "words": words, "sum": sum.to_string(), "error": format!("±{error}"),
                "share": share(sum, block.contract), "at": unit(sum.dollars() / top), "strong": *name == "P80",
                "days": days.map(day_words).unwrap_or_else(|| "–".to_owned()),
            })
        })
        .collect();
    let top = Money::from_f64(top).unwrap_or(Money::MAX);
    json!({ "rows": rows, "top": top.to_string(), "notes": block.notes })
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

fn share(sum: Money, contract: Option<Money>) -> String {
    match contract {
        Some(contract) if contract > Money::ZERO => {
            format!("{:.0} %", 100.0 * sum.dollars() / contract.dollars())
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
        assert_eq!(minute_words("2026-04-14T16:42:00-05:00".parse().unwrap()), "14 April 2026, 16:42");
        assert_eq!([1.0, 11_100.0, 20_000.0, 81_000.0].map(round_up), [1.0, 20_000.0, 20_000.0, 100_000.0]);
        assert_eq!(share(Money::from_dollars(7_900), Some(Money::from_dollars(62_000))), "13 %");
        assert_eq!(share(Money::from_dollars(7_900), None), "–");
        assert_eq!([unit(f64::NAN), unit(-1.0), unit(2.0)], [0.0, 0.0, 1.0]);
    }
}
