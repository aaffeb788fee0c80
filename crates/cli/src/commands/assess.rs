//! `underlath assess`, and the lines in which an assessment is told.

use actions::{Error, assess};
use assessment::Forecast;
use assessment::forecast::ConditionForecast;
use survey::catalog::Catalog;
use views::words;

use super::Room;
use crate::args::OneHouse;
use crate::out::Out;

pub fn run(args: &OneHouse, room: &mut Room<'_>, out: &mut Out) -> Result<(), Error> {
    let mut desk = room.desk()?;
    let survey = desk.find(&args.house)?;
    let assessed = assess(&mut desk, survey, &mut room.kit()?)?;
    if out.json() {
        out.value(&assessed.forecast);
        return Ok(());
    }
    tell(&assessed.forecast, desk.catalog(), usize::MAX, out);
    out.line("");
    out.line(&assessed.forecast.caution);
    out.line(format!("frozen as number {} ({})", assessed.number, assessed.digest.short()));
    Ok(())
}

/// Tells an assessment, its `most` likeliest conditions above "unlikely" in full.
pub fn tell(f: &Forecast, catalog: &Catalog, most: usize, out: &mut Out) {
    out.head(format!("{}: the unknown, from {} entries of the log", f.label, f.log.entries));
    if !f.plan_known {
        out.line(format!(
            "  no planned work is recorded: all {} conditions are counted, most of which this job may never meet",
            f.conditions.len()
        ));
    }
    let m = &f.money;
    let whole = words::whole_dollars;
    out.line(format!(
        "  money   half the time within {}, 8 in 10 within {}, 9 in 10 within {} (mean {} ± {})",
        whole(m.p50),
        whole(m.p80),
        whole(m.p90),
        whole(m.mean),
        whole(m.standard_errors[0])
    ));
    let d = &f.days;
    out.line(format!(
        "  days    half the time within {}, 8 in 10 within {}, 9 in 10 within {}",
        d.p50, d.p80, d.p90
    ));
    if let Some(over) = m.over {
        let percent = over.map(assessment::forecast::in_100);
        out.line(format!("  chance of more than 2, 5, 10 % of the contract: {}", percent.join(", ")));
    }
    out.line(format!("  apart from that, taken to be in the base price: {}", whole(m.in_base_mean)));
    calculations(f, most == usize::MAX, out);
    out.line("");
    let likely: Vec<&ConditionForecast> = f.conditions.iter().filter(|c| c.probability >= 0.10).collect();
    out.head(format!(
        "Conditions in scope: {}, of which {} more than unlikely",
        f.conditions.len(),
        likely.len()
    ));
    let row = |c: &&ConditionForecast| {
        vec![
            c.id.clone(),
            c.full_name(),
            format!("{} ({})", words::about_in_10(c.probability), words::odds_words(c.probability)),
            format!("{}–{}", c.cost[0], c.cost[2]),
            words::advice_words(&c.advice),
        ]
    };
    out.table(&likely.iter().take(most).map(row).collect::<Vec<_>>());
    if likely.len() > most {
        out.line(format!("  … and {} more in the packet", likely.len() - most));
    }
    if most == usize::MAX {
        for c in &likely {
            out.line("");
            out.line(format!("{}: {}", c.full_name(), c.caution));
            for reason in &c.because {
                out.line(format!("  {}", words::reason_words(catalog, reason)));
            }
        }
    }
}

/// Trade calculations, in full or each in its sentence.
fn calculations(f: &Forecast, full: bool, out: &mut Out) {
    if f.calculations.is_empty() {
        return;
    }
    out.line("");
    out.head("What the measurements answer");
    for c in &f.calculations {
        if !full && c.standing == "cannot-say" {
            continue;
        }
        out.line(format!("  {}: {}", c.title, c.sentence));
        if !full {
            continue;
        }
        if !c.missing.is_empty() {
            out.line(format!("    not known: {}", c.missing.join(", ")));
        }
        for change in &c.changes {
            out.line(format!("    {change}"));
        }
        if !c.assumed.is_empty() {
            out.line(format!("    assumed: {}", c.assumed.join("; ")));
        }
        for note in &c.notes {
            out.line(format!("    {note}"));
        }
        out.line(format!("    {}", c.caution));
    }
    if !full {
        out.line("  Screening answers: the licensed plumber, gas fitter, electrician or renovator decides; local code governs.");
    }
}
