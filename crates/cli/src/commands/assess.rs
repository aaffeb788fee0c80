//! `underlath assess`, and the lines in which an assessment is told.

use actions::{Error, assess};
use assessment::Forecast;
use assessment::forecast::ConditionForecast;
use survey::catalog::Catalog;
use views::phrases;
use words::{CatalogWords, msg};

use super::Room;
use crate::args::OneHouse;
use crate::out::Out;

pub fn run(args: &OneHouse, room: &mut Room<'_>, out: &mut Out) -> Result<(), Error> {
    let mut desk = room.desk()?;
    let survey = desk.find(&args.house)?;
    let assessed = assess(&mut desk, survey, &mut room.kit()?)?;
    let again = desk.picture(survey)?.demolition.is_some();
    if out.json() {
        out.value(&assessed.forecast);
        return Ok(());
    }
    tell(&assessed.forecast, desk.catalog(), None, out);
    out.line("");
    out.line(phrases::assessment_caution(out.words(), &assessed.forecast));
    out.tell(msg!("assess-frozen", number = assessed.number.to_string(), sum = assessed.digest.short()));
    if again {
        out.tell(msg!("assess-after-demolition"));
    }
    Ok(())
}

/// Tells an assessment: in full, or only its `most` likeliest conditions above "unlikely".
pub fn tell(f: &Forecast, catalog: &Catalog, most: Option<usize>, out: &mut Out) {
    let say = CatalogWords::new(out.words(), catalog);
    out.head_of(msg!("assess-head", label = &f.label, n = f.log.entries));
    if !f.plan_known {
        out.tell_in(2, msg!("assess-no-plan", n = f.conditions.len()));
    }
    sums(f, say, out);
    calculations(f, most.is_none(), out);
    out.line("");
    let likely: Vec<&ConditionForecast> = f.conditions.iter().filter(|c| c.probability >= 0.10).collect();
    out.head_of(msg!("assess-conditions", all = f.conditions.len(), likely = likely.len()));
    let row = |c: &&ConditionForecast| {
        let (about, odds) =
            (phrases::about_in_10(say.words, c.probability), phrases::odds_words(say.words, c.probability));
        let [low, _, high] = c.cost.map(|sum| words::money(say.words.language(), sum));
        vec![
            c.id.clone(),
            phrases::condition_name(say.words, c),
            format!("{about} ({odds})"),
            format!("{low}–{high}"),
            phrases::advice_words(say.words, c),
        ]
    };
    let shown = most.unwrap_or(usize::MAX);
    out.table(&likely.iter().take(shown).map(row).collect::<Vec<_>>());
    if likely.len() > shown {
        out.tell_in(2, msg!("assess-more", n = likely.len() - shown));
    }
    if most.is_none() {
        for c in &likely {
            let (name, text) = (phrases::condition_name(say.words, c), phrases::condition_caution(say, c));
            out.line("");
            out.tell(msg!("named", name = name, text = text));
            for reason in &c.because {
                out.line(format!("  {}", phrases::reason_words(say, reason)));
            }
        }
    }
}

/// Money and days.
fn sums(f: &Forecast, say: CatalogWords<'_>, out: &mut Out) {
    let (m, d) = (&f.money, &f.days);
    let whole = |sum| phrases::whole_money(say.words, sum);
    let (half, eight, nine) = (whole(m.p50), whole(m.p80), whole(m.p90));
    let (mean, error) = (whole(m.mean), whole(m.standard_errors[0]));
    out.tell_in(2, msg!("assess-money", half = half, eight = eight, nine = nine, mean = mean, error = error));
    out.tell_in(2, msg!("assess-days", half = d.p50, eight = d.p80, nine = d.p90));
    if let Some(over) = m.over {
        let [two, five, ten] = over.map(|p| phrases::in_100(say.words, p));
        out.tell_in(2, msg!("assess-over", two = two, five = five, ten = ten));
    }
    out.tell_in(2, msg!("assess-in-base", sum = whole(m.in_base_mean)));
}

/// Trade calculations, in full or each in its sentence.
fn calculations(f: &Forecast, full: bool, out: &mut Out) {
    if f.calculations.is_empty() {
        return;
    }
    out.line("");
    out.head_of(msg!("assess-measurements"));
    for c in f.calculations.iter().map(|c| c.said_in(out.words())).collect::<Vec<_>>() {
        if !full && c.standing == "cannot-say" {
            continue;
        }
        out.line(format!("  {}: {}", c.title, c.sentence));
        if !full {
            continue;
        }
        if !c.missing.is_empty() {
            out.tell_in(4, msg!("assess-not-known", what = c.missing.clone()));
        }
        for change in &c.changes {
            out.line(format!("    {change}"));
        }
        if !c.assumed.is_empty() {
            out.tell_in(4, msg!("assess-assumed", what = c.assumed.join("; ")));
        }
        for note in &c.notes {
            out.line(format!("    {note}"));
        }
        out.line(format!("    {}", c.caution));
    }
    if !full {
        out.tell_in(2, msg!("assess-screening"));
    }
}
