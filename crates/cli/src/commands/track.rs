//! `underlath track`: the track record over all houses the office received and somebody opened.

use actions::Error;
use drawing::{Palette, Width};
use review::record::{
    AmountScores, Amounts, By, ConditionScores, Group, LeftOut, Record, SMALL_HOUSES, SMALL_OUTCOMES, Track,
    Why, track,
};
use survey::catalog::Catalog;
use survey::units::Money;
use words::{CatalogWords, Message, msg};

use super::Room;
use crate::args::{self, TrackBy};
use crate::fail;
use crate::out::Out;

/// Columns of the drawing on a terminal.
const COLUMNS: usize = 78;

pub fn run(args: &args::Track, room: &Room<'_>, out: &mut Out) -> Result<(), Error> {
    let catalog = room.catalog()?;
    let office = room.office()?;
    let houses = office.reviewed(&catalog).map_err(fail::office)?;
    let trained = office.trained().map_err(fail::office)?;
    let by = args.split.map(|by| match by {
        TrackBy::Condition => By::Condition,
        TrackBy::Era => By::Era,
        TrackBy::Scope => By::Scope,
        TrackBy::Surveyor => By::Surveyor,
        TrackBy::Month => By::Month,
    });
    let told = track(&houses.judged, &houses.not_judged, &houses.again, &trained, by, args.seen_too);
    if let Some(path) = &args.drawing {
        let words = out.words();
        let svg = drawing::reliability(
            &views::office::diagram(&told.all),
            Width::Tablet,
            Palette::Page,
            "record",
            &|s| words.text(s),
        );
        std::fs::write(path, svg).map_err(|e| fail::file(path, &e))?;
    }
    if out.json() {
        out.value(&told);
        return Ok(());
    }
    tell(&told, houses.again_before, &catalog, out);
    if let Some(path) = &args.drawing {
        out.tell(msg!("track-drawn", path = path.display().to_string()));
    }
    Ok(())
}

fn tell(told: &Track, again_before: usize, catalog: &Catalog, out: &mut Out) {
    let all = &told.all;
    out.head_of(msg!("track-head", n = all.houses.len()));
    if all.scores.is_none() {
        out.tell_in(2, msg!("track-none"));
    } else {
        tell_record(all, out);
        out.line("");
        let words = out.words();
        let drawn = drawing::reliability_text(&views::office::diagram(all), COLUMNS, &|s| words.text(s));
        drawn.lines().for_each(|line| out.line(format!("  {line}").trim_end()));
    }
    if let Some(by) = told.by.filter(|_| !told.groups.is_empty()) {
        out.line("");
        tell_groups(by, &told.groups, catalog, out);
    }
    tell_left_out(&told.left_out, out);
    if let Some(again) = &told.again {
        out.line("");
        out.head_of(msg!("track-again-head", n = again.houses.len()));
        out.tell_in(2, msg!("track-again", n = again_before));
        tell_record(again, out);
    }
}

fn tell_record(record: &Record, out: &mut Out) {
    let (opened, found) = (record.opened, record.found);
    out.tell_in(
        2,
        msg!(
            "track-counts",
            opened = opened,
            found = found,
            closed = record.not_opened,
            open = record.not_entered
        ),
    );
    if record.small {
        out.tell_in(2, msg!("track-small", outcomes = SMALL_OUTCOMES, houses = SMALL_HOUSES));
    }
    let Some(s) = &record.scores else { return };
    let three = |x: f64| format!("{x:.3}");
    let brier = (three(s.brier), three(s.base_brier));
    out.tell_in(2, msg!("track-brier", brier = brier.0, base = brier.1, skill = skill(s.brier_skill, out)));
    out.tell_in(
        4,
        msg!(
            "track-parts",
            reliability = format!("{:.4}", s.reliability),
            resolution = format!("{:.4}", s.resolution),
            uncertainty = format!("{:.4}", s.uncertainty)
        ),
    );
    let log = (three(s.log_score), three(s.base_log_score));
    out.tell_in(2, msg!("track-log", log = log.0, base = log.1, skill = skill(s.log_skill, out)));
    if let ConditionScores { auc: Some(auc), .. } = s {
        out.tell_in(2, msg!("track-auc", auc = three(*auc)));
    }
    let money = |x: f64, out: &Out| {
        words::whole_money(out.words().language(), Money::from_f64(x).unwrap_or(Money::MAX))
    };
    amounts(&record.money, [msg!("track-money"), msg!("track-money-in-part")], &money, out);
    let days = |x: f64, out: &Out| words::number(out.words().language(), x, 1);
    amounts(&record.days, [msg!("track-days"), msg!("track-days-in-part")], &days, out);
}

fn skill(skill: Option<f64>, out: &Out) -> String {
    skill.map_or_else(String::new, |s| out.say(&msg!("compare-skill", skill = format!("{s:.2}"))))
}

type Write<'a> = &'a dyn Fn(f64, &Out) -> String;

fn amounts(amounts: &Amounts, names: [Message; 2], write: Write<'_>, out: &mut Out) {
    let [whole, in_part] = names;
    for (scores, name) in [(&amounts.whole, whole), (&amounts.in_part, in_part)] {
        let Some(AmountScores { houses, crps, actual, within, .. }) = scores else { continue };
        let n = houses.len();
        let name = out.say(&name);
        let [p50, p80, p90] = within.map(|k| format!("{k}/{n}"));
        let actual = write(*actual, out);
        out.tell_in(
            2,
            msg!("track-within", what = name, n = n, actual = actual, p50 = p50, p80 = p80, p90 = p90),
        );
        if let Some(crps) = crps {
            let crps = write(*crps, out);
            out.tell_in(4, msg!("track-crps", crps = crps));
        }
    }
}

fn tell_groups(by: By, groups: &[Group], catalog: &Catalog, out: &mut Out) {
    out.head_of(match by {
        By::Condition => msg!("track-by-condition"),
        By::Era => msg!("track-by-era"),
        By::Scope => msg!("track-by-scope"),
        By::Surveyor => msg!("track-by-surveyor"),
        By::Month => msg!("track-by-month"),
    });
    let words = out.words();
    let say = CatalogWords::new(words, catalog);
    let plan = catalog.item(survey::catalog::PLANNED_WORK);
    let name = |id: &str| match (by, id) {
        (_, "") => words.say(&msg!("track-unknown")),
        (By::Condition, id) => say.condition(id).into_owned(),
        (By::Scope, id) => plan.map_or_else(|| id.to_owned(), |item| say.option(item, id).into_owned()),
        (_, id) => id.to_owned(),
    };
    let mut rows = vec![
        [
            msg!("track-column-name"),
            msg!("track-column-houses"),
            msg!("track-column-found"),
            msg!("track-column-closed"),
            msg!("track-column-brier"),
            msg!("track-column-skill"),
            msg!("track-column-log"),
        ]
        .iter()
        .map(|m| words.say(m))
        .collect::<Vec<_>>(),
    ];
    for Group { name: id, record } in groups {
        let scores = |f: &dyn Fn(&ConditionScores) -> Option<f64>| {
            record.scores.as_ref().and_then(f).map_or_else(String::new, |x| format!("{x:.3}"))
        };
        let few = if record.small { words.say(&msg!("track-few")) } else { String::new() };
        rows.push(vec![
            name(id),
            record.houses.len().to_string(),
            format!("{}/{}", record.found, record.opened),
            (record.not_opened + record.not_entered).to_string(),
            scores(&|s| Some(s.brier)),
            scores(&|s| s.brier_skill),
            scores(&|s| Some(s.log_score)),
            few,
        ]);
    }
    out.table(&rows);
    if matches!(by, By::Scope | By::Surveyor) {
        out.tell_in(2, msg!("track-groups-overlap"));
    }
}

fn tell_left_out(left_out: &[LeftOut], out: &mut Out) {
    let count = |why: Why| left_out.iter().filter(|l| l.why == why).count();
    for (n, message) in [
        (count(Why::NoFindings), msg!("track-out-no-findings", n = count(Why::NoFindings))),
        (count(Why::NoForecastInTime), msg!("track-out-no-forecast", n = count(Why::NoForecastInTime))),
        (count(Why::NothingOpened), msg!("track-out-nothing-opened", n = count(Why::NothingOpened))),
        (count(Why::CatalogSawIt), msg!("track-out-seen", n = count(Why::CatalogSawIt))),
    ] {
        if n > 0 {
            out.tell_in(2, message);
        }
    }
}
