//! `underlath catalog calibrate`: the one factor on base odds, by a wanted share or by the firm's own jobs.

use actions::{Error, Kind};
use assessment::ClueTables;
use assessment::calibrate::{CalibrateError, Calibration, calibrate};
use review::factor::{Job, Proposal, propose};
use survey::catalog::Catalog;

use super::Room;
use crate::args;
use crate::fail;
use crate::out::Out;

pub fn run(args: &args::Calibrate, room: &Room<'_>, out: &mut Out) -> Result<(), Error> {
    let catalog = room.catalog()?;
    match args.share {
        Some(percent) => by_share(percent / 100.0, &catalog, out),
        None => by_jobs(&catalog, room, out),
    }
}

fn by_share(share: f64, catalog: &Catalog, out: &mut Out) -> Result<(), Error> {
    let found = calibrate(catalog, &ClueTables::fit(catalog), share).map_err(|e| match e {
        CalibrateError::Assess(e) => e.into(),
        CalibrateError::Share(_) | CalibrateError::OutOfReach { .. } => {
            Error::new(Kind::Input, e.to_string())
        }
    })?;
    let Calibration { wanted, now, proposed, residual, by_era } = &found;
    if out.json() {
        let level =
            |l: &assessment::calibrate::Level| serde_json::json!({ "factor": l.factor, "share": l.share });
        out.value(&serde_json::json!({
            "wanted_share": wanted,
            "now": level(now),
            "proposed": level(proposed),
            "residual": residual,
            "by_era": by_era.iter().map(|(era, now, then)| {
                serde_json::json!({ "era": era, "now": now, "proposed": then })
            }).collect::<Vec<_>>(),
        }));
        return Ok(());
    }
    let percent = |share: f64| format!("{:.2} %", share * 100.0);
    out.head("Expected unknown of a typical kitchen that nobody has looked at, as a share of the mid-range kitchen");
    out.table(&[
        vec!["factor now".to_owned(), now.factor.to_string(), "gives".to_owned(), percent(now.share)],
        vec!["proposed".to_owned(), proposed.factor.to_string(), "gives".to_owned(), percent(proposed.share)],
        vec!["wanted".to_owned(), String::new(), String::new(), percent(*wanted)],
    ]);
    out.line(format!("  {:+.4} points remain, because the factor is kept to four digits", residual * 100.0));
    out.line("");
    out.head("By era: one factor does not fit all");
    let row = |(era, now, then): &(String, f64, f64)| {
        vec![era.clone(), percent(*now), "→".to_owned(), percent(*then)]
    };
    out.table(&by_era.iter().map(row).collect::<Vec<_>>());
    out.line("");
    last_words(proposed.factor, out);
    Ok(())
}

fn by_jobs(catalog: &Catalog, room: &Room<'_>, out: &mut Out) -> Result<(), Error> {
    let office = room.office()?;
    let mut houses: Vec<_> = office.packets().map_err(fail::office)?.into_iter().map(|p| p.survey).collect();
    houses.sort();
    houses.dedup();
    let odds = &catalog.reference.base_odds;
    let (mut jobs, mut open, mut other) = (Vec::new(), 0u32, 0u32);
    for survey in houses {
        let Some((_, forecast)) = office.judged_forecast(survey).map_err(fail::office)? else { continue };
        let comparison = office.comparison(survey).map_err(fail::office)?;
        if comparison.open > 0 {
            open += 1;
        } else if forecast.catalog.digest != catalog.digest {
            other += 1;
        } else {
            jobs.push(Job::of(&forecast, odds, comparison.money.actual.dollars()));
        }
    }
    let proposal = propose(&jobs, odds.factor, catalog.reference.weights.of(odds.basis));
    if out.json() {
        out.value(&serde_json::json!({
            "jobs": jobs.len(),
            "still_open": open,
            "by_another_catalog": other,
            "proposed": proposal.map(|p| serde_json::json!({
                "now": p.now, "factor": p.factor, "interval": p.interval, "weight": p.weight,
                "actual_over_expected": p.ratio, "small": p.small,
            })),
        }));
        return Ok(());
    }
    out.head("The factor on base odds, from the firm’s reviewed jobs");
    if open > 0 {
        out.line(format!("  left out, conditions without a finding: {open}"));
    }
    if other > 0 {
        out.line(format!("  left out, forecast with another catalog: {other}"));
    }
    let Some(Proposal { jobs, weight, now, factor, interval: [low, high], ratio, small }) = proposal else {
        out.line("  no job has a finding for every condition in scope: the factor stays judgment");
        return Ok(());
    };
    out.line(format!("  {jobs} reviewed; actual sums are {ratio:.2} of what was expected"));
    out.line(format!(
        "  factor {now} → {factor:.3}, nine in ten between {low:.3} and {high:.3}; the catalog’s own counts as {weight} jobs"
    ));
    if small {
        out.line("  a small number of jobs: the figure is still mostly the catalog’s, and luck");
    }
    last_words((factor * 1e4).round() / 1e4, out);
    Ok(())
}

fn last_words(factor: f64, out: &mut Out) {
    out.line("Nothing was changed. To take it over, write into catalog.toml of the firm’s catalog, and raise its version:");
    out.line("  [base-odds]");
    out.line(format!("  factor = {factor}"));
    out.line(super::promise::ODDS_ARE_JUDGMENT);
}
