//! Published shares of houses against the network of a house of which nothing but the plan was recorded.
//!
//! Figures, bands and reasons: `tests/vectors/catalog/published-rates.toml`. What came out: `docs/base-rates.md`.

use std::collections::{BTreeMap, BTreeSet};
use std::fmt::Write as _;

use serde::Deserialize;

use super::assessed::{Answers, Houses, answers};
use crate::support::root;

/// One plan for all rows: jobs that bring every condition named into scope.
const PLAN: &str = "open-wall move-sink new-floor open-ceiling add-circuits relocate-range";

#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
struct File {
    figure: Vec<Figure>,
    row: Vec<Row>,
    left_out: BTreeMap<String, String>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
struct Figure {
    id: String,
    statement: String,
    values: BTreeMap<String, f64>,
    source: String,
    read_in: String,
    trust: String,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
struct Row {
    figure: String,
    values: Vec<String>,
    #[serde(default)]
    over_million: Option<f64>,
    #[serde(default)]
    of_all: bool,
    #[serde(default)]
    complement: bool,
    held: Held,
    of: String,
    #[serde(default)]
    year: Option<u32>,
    #[serde(default)]
    over: Option<u32>,
    #[serde(default)]
    answers: Vec<[String; 2]>,
    #[serde(default)]
    bands: Vec<String>,
    #[serde(default)]
    levels: BTreeMap<String, f64>,
    #[serde(default)]
    among: Vec<String>,
    #[serde(default)]
    check: String,
    #[serde(default)]
    number: String,
    /// What of ours is held, in words, where the row's own are long.
    #[serde(default)]
    called: Option<String>,
    band: [f64; 2],
    why: String,
}

#[derive(Clone, Copy, Deserialize, PartialEq, Eq)]
#[serde(rename_all = "kebab-case")]
enum Held {
    Condition,
    Times,
    Homes,
    Part,
    Level,
    Clue,
    Check,
    Money,
    Kitchen,
}

fn file() -> File {
    let path = root().join("tests/vectors/catalog/published-rates.toml");
    toml::from_str(&std::fs::read_to_string(path).unwrap()).unwrap()
}

/// A house of which only the plan is known, and what the row adds.
fn bare(row: &Row, year: Option<u32>) -> Answers {
    let mut all = answers(&[("planned-work", PLAN)]);
    all.extend(row.answers.iter().map(|[item, word]| (item.clone(), vec![word.clone()])));
    all.extend(year.map(|y| ("year-built".to_owned(), vec![y.to_string()])));
    all
}

/// The plan a typical kitchen's sum was set with.
fn typical(houses: &Houses) -> Answers {
    vec![("planned-work".to_owned(), houses.catalog().reference.base_odds.typical_plan.clone())]
}

/// Share of all houses that were built in a band and have the condition, and whether the row names the band.
fn by_band(houses: &mut Houses, row: &Row) -> Vec<(bool, f64)> {
    let levels = houses.catalog().era().unwrap().levels.clone();
    let year = |l: &survey::catalog::Level| l.from.or(l.to).unwrap() as u32;
    let one = |l: &survey::catalog::Level| {
        let named = row.bands.is_empty() || row.bands.contains(&l.id);
        (named, l.prior * houses.p(&row.of, &bare(row, Some(year(l)))))
    };
    levels.iter().map(one).collect()
}

/// What our network or catalog says.
fn got(houses: &mut Houses, figures: &BTreeMap<&str, &Figure>, row: &Row) -> f64 {
    let p = |houses: &mut Houses, year| houses.p(&row.of, &bare(row, year));
    match row.held {
        Held::Condition => p(houses, row.year),
        Held::Times => p(houses, row.year) / p(houses, row.over),
        // The stock of 2009, in thousands of units.
        Held::Homes => {
            let stock = figures["ahs09-years"].values.values().sum::<f64>() / 1000.0;
            stock * by_band(houses, row).iter().filter(|(named, _)| *named).map(|(_, x)| x).sum::<f64>()
        }
        Held::Part => {
            let all = by_band(houses, row);
            let named = all.iter().filter(|(named, _)| *named).map(|(_, x)| x);
            named.sum::<f64>() / all.iter().map(|(_, x)| x).sum::<f64>()
        }
        Held::Level => {
            let shares = houses.levels(&bare(row, None), &row.of);
            let among = |id: &String| row.among.is_empty() || row.among.contains(id);
            let whole: f64 = shares.iter().filter(|(id, _)| among(id)).map(|(_, p)| p).sum();
            row.levels.iter().map(|(id, part)| part * shares[id]).sum::<f64>() / whole
        }
        Held::Clue => houses.clue(&bare(row, None), &row.of),
        Held::Check => {
            let condition = houses.catalog().condition(&row.of).unwrap();
            let pair = condition.checks.iter().find(|c| c.check == row.check).unwrap();
            if row.number == "specificity" { pair.specificity } else { pair.sensitivity }
        }
        Held::Money => {
            let whole = houses.catalog().reference.mid_range_kitchen.dollars();
            let plan = typical(houses);
            let money = &houses.forecast(&plan).money;
            (if row.of == "p80" { money.p80 } else { money.mean }).dollars() / whole
        }
        Held::Kitchen => houses.catalog().reference.mid_range_kitchen.dollars(),
    }
}

/// What was published, each value as it is held.
fn asked(figure: &Figure, row: &Row) -> Vec<f64> {
    let values = row.values.iter().map(|k| figure.values[k]);
    if row.of_all {
        return vec![values.sum::<f64>() / figure.values.values().sum::<f64>()];
    }
    values
        .map(|v| v / row.over_million.unwrap_or(1.0))
        .map(|v| if row.complement { 1.0 - v } else { v })
        .collect()
}

fn number(x: f64) -> String {
    match x {
        x if x >= 100.0 => format!("{x:.0}"),
        x if x >= 10.0 => format!("{x:.1}"),
        x => format!("{x:.3}"),
    }
}

fn what(row: &Row) -> String {
    let year = row.year.map(|y| format!(", {y}")).unwrap_or_default();
    let given: String = row.answers.iter().map(|[item, word]| format!(", {item} {word}")).collect();
    if let Some(called) = &row.called {
        return called.clone();
    }
    match row.held {
        Held::Condition if row.year.is_none() => format!("P({}{given}), any year", row.of),
        Held::Condition => format!("P({}{year}{given})", row.of),
        Held::Times => format!("P({}{year}) ÷ P({0}, {})", row.of, row.over.unwrap_or_default()),
        Held::Homes if row.bands.is_empty() => format!("million homes with {}", row.of),
        Held::Homes => format!("million homes of {} with {}", row.bands.join(", "), row.of),
        Held::Part => format!("of homes with {}, part of {}", row.of, row.bands.join(", ")),
        Held::Level => {
            format!("share of {}: {}", row.of, row.levels.keys().cloned().collect::<Vec<_>>().join(", "))
        }
        Held::Clue => format!("P(clue {})", row.of),
        Held::Check => format!("{} of {} for {}", row.number, row.check, row.of),
        Held::Money => format!("{} of a typical plan, part of the kitchen", row.of),
        Held::Kitchen => "the catalog's mid-range kitchen, dollars".to_owned(),
    }
}

fn page(file: &File, figures: &BTreeMap<&str, &Figure>, got: &[f64]) -> String {
    let mut text = String::from(
        "# Base rates: published and ours\n\n\
         Made by the test `outside::base_rates`; run it with `UPDATE_DOCS=1` to write this page.\n\
         Figures, bands and reasons stand in `tests/vectors/catalog/published-rates.toml`.\n\n\
         Ours is what the network says of a house of which only the plan of work is recorded (and the year, where one \
         stands), the firm-wide factor on base odds and the context included.\n\
         The band is how near it must come. It is wide where the figure counts something else than we do; the reason says what.\n\
         That a row lies in its band shows that the catalog does not contradict what is published. Most of the \
         catalog's numbers have nothing published to be held against; they are judgment.\n\n\
         | figure | published | ours | | band | why so wide |\n|---|---|---|---|---|---|\n",
    );
    for (row, got) in file.row.iter().zip(got) {
        let published: Vec<String> =
            asked(figures[row.figure.as_str()], row).into_iter().map(number).collect();
        let [low, high] = row.band.map(number);
        let _ = writeln!(
            text,
            "| `{}` | {} | {} | {} | {low} to {high} | {} |",
            row.figure,
            published.join(", "),
            what(row),
            number(*got),
            row.why
        );
    }
    text.push_str("\n## The figures\n\n");
    for f in &file.figure {
        let (statement, source) = (f.statement.trim_end_matches('.'), f.source.trim_end_matches('.'));
        let _ = writeln!(
            text,
            "- `{}`: {statement}. Source: {source}; read in: {}; trust {}.",
            f.id, f.read_in, f.trust
        );
    }
    text.push_str("\n## Figures that are no rate to hold ours against\n\n");
    for (id, why) in &file.left_out {
        let _ = writeln!(text, "- `{id}`: {why}.");
    }
    text
}

#[test]
fn base_rates_of_an_unanswered_house_lie_in_their_bands_about_what_is_published() {
    let file = file();
    let figures: BTreeMap<&str, &Figure> = file.figure.iter().map(|f| (f.id.as_str(), f)).collect();
    let mut houses = Houses::new();
    let all: Vec<f64> = file.row.iter().map(|row| got(&mut houses, &figures, row)).collect();
    let beyond: Vec<String> = file
        .row
        .iter()
        .zip(&all)
        .filter(|(row, got)| !(row.band[0]..=row.band[1]).contains(*got))
        .map(|(row, got)| format!("{}: {} is {got:.4}, band {:?}", row.figure, what(row), row.band))
        .collect();
    let text = page(&file, &figures, &all);
    let path = root().join("docs/base-rates.md");
    if std::env::var_os("UPDATE_DOCS").is_some() {
        std::fs::write(&path, &text).unwrap();
    }
    assert!(beyond.is_empty(), "mend the catalog, or say why:\n{}", beyond.join("\n"));
    assert_eq!(std::fs::read_to_string(&path).unwrap_or_default(), text, "docs/base-rates.md is stale");
}

#[test]
fn the_catalog_quotes_the_figures_as_they_were_copied_and_every_figure_is_held_or_left_out_with_a_reason() {
    let (file, catalog) = (file(), crate::support::catalog());
    for figure in &file.figure {
        let source = &catalog.sources[&figure.id];
        assert_eq!(source.values, figure.values, "{}", figure.id);
    }
    let held: BTreeSet<&String> = file.row.iter().map(|r| &r.figure).collect();
    let copied: BTreeSet<&String> = file.figure.iter().map(|f| &f.id).collect();
    assert_eq!(held, copied, "a figure is copied exactly when a row holds it");
    for id in catalog.sources.keys() {
        let left_out = file.left_out.get(id).is_some_and(|why| why.len() > 5);
        assert!(held.contains(id) != left_out, "{id} must be held or left out with a reason");
    }
    assert!(file.left_out.keys().all(|id| catalog.sources.contains_key(id)));
}
