//! `underlath catalog calibrate`: the one factor on base odds, by a wanted share or by the firm's own jobs.

use actions::{Error, Kind};
use assessment::ClueTables;
use assessment::calibrate::{CalibrateError, Calibration, calibrate};
use review::factor::{Job, Proposal, propose};
use survey::catalog::Catalog;

use words::{Message, msg};

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
    let words = out.words();
    let number = |x: f64, places| words::number(words.language(), x, places);
    let percent = |share: f64| words::percent(words.language(), share, 2);
    let level = |name: Message, factor: f64, share: f64| {
        let gives = words.say(&msg!("calibrate-gives"));
        vec![words.say(&name), number(factor, 4), gives, percent(share)]
    };
    out.head_of(msg!("calibrate-head"));
    out.table(&[
        level(msg!("calibrate-now"), now.factor, now.share),
        level(msg!("calibrate-proposed"), proposed.factor, proposed.share),
        vec![words.say(&msg!("calibrate-wanted")), String::new(), String::new(), percent(*wanted)],
    ]);
    out.tell_in(2, msg!("calibrate-residual", points = number(residual * 100.0, 4)));
    out.line("");
    out.head_of(msg!("calibrate-by-era"));
    let row = |(era, now, then): &(String, f64, f64)| {
        vec![era.clone(), percent(*now), "→".to_owned(), percent(*then)]
    };
    out.table(&by_era.iter().map(row).collect::<Vec<_>>());
    out.line("");
    last_words(proposed.factor, "judgment", out);
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
    let words = out.words();
    let number = |x: f64, places| words::number(words.language(), x, places);
    out.head_of(msg!("calibrate-jobs-head"));
    if open > 0 {
        out.tell_in(2, msg!("calibrate-open", n = open));
    }
    if other > 0 {
        out.tell_in(2, msg!("calibrate-other", n = other));
    }
    let Some(Proposal { jobs, weight, now, factor, interval: [low, high], ratio, small }) = proposal else {
        out.tell_in(2, msg!("calibrate-none"));
        return Ok(());
    };
    out.tell_in(2, msg!("calibrate-reviewed", n = jobs, ratio = number(ratio, 2)));
    out.tell_in(
        2,
        msg!(
            "calibrate-factor",
            now = number(now, 4),
            factor = number(factor, 3),
            low = number(low, 3),
            high = number(high, 3),
            weight = number(weight, 0),
        ),
    );
    if small {
        out.tell_in(2, msg!("calibrate-small"));
    }
    last_words((factor * 1e4).round() / 1e4, "firm", out);
    Ok(())
}

fn last_words(factor: f64, basis: &str, out: &mut Out) {
    out.tell(msg!("calibrate-take-over"));
    out.line("  [change.base-odds]");
    out.line(format!("  factor = {factor}"));
    out.line(format!("  basis = \"{basis}\""));
    out.line("  reason = \"underlath catalog calibrate\"");
    out.tell(msg!("odds-are-judgment"));
}
