//! `underlath compare`, and the lines in which a comparison is told.

use actions::Error;
use review::{Comparison, Outcome, Row};
use views::phrases;
use words::{Message, msg};

use super::Room;
use crate::args::OneHouse;
use crate::fail;
use crate::out::Out;

pub fn run(args: &OneHouse, room: &mut Room<'_>, out: &mut Out) -> Result<(), Error> {
    let office = room.office()?;
    let survey = office.find(&args.house).map_err(fail::office)?;
    let comparison = office.comparison(survey).map_err(fail::office)?;
    if out.json() {
        out.value(&comparison)
    } else {
        tell(&comparison, true, out)
    }
    Ok(())
}

/// What became of a condition, in words.
pub fn outcome(outcome: Option<Outcome>) -> Message {
    match outcome {
        Some(Outcome::Found) => msg!("found"),
        Some(Outcome::NotThere) => msg!("found-not-there"),
        Some(Outcome::NotOpened) => msg!("found-not-opened"),
        None => msg!("found-no-entry"),
    }
}

/// Tells a comparison, with a row for each condition when wanted.
pub fn tell(c: &Comparison, rows: bool, out: &mut Out) {
    let words = out.words();
    out.head_of(msg!("compare-head", label = &c.label));
    if rows {
        let line = |r: &Row| {
            let cost = words::money(words.language(), r.cost);
            let cost = match (r.cost.cents() > 0, r.in_base_price) {
                (false, _) => String::new(),
                (true, false) => cost,
                (true, true) => words.say(&msg!("compare-in-base", cost = cost)),
            };
            let said = phrases::about_in_10(words, r.probability);
            let found = words.say(&outcome(r.outcome));
            let name = words.catalog(&format!("condition-{}-name", r.condition), &r.name).into_owned();
            vec![r.condition.clone(), name, said, found, cost, r.note.clone()]
        };
        out.table(&c.rows.iter().map(line).collect::<Vec<_>>());
    }
    let Some(s) = &c.scores else {
        out.tell_in(2, msg!("compare-nothing-opened"));
        return;
    };
    let three = |x: f64| format!("{x:.3}");
    let (brier, base) = (three(s.brier), three(s.brier_base));
    let (log, log_base) = (three(s.log_score), three(s.log_score_base));
    let skill = match s.brier_skill {
        Some(skill) => words.say(&msg!("compare-skill", skill = format!("{skill:.2}"))),
        None => String::new(),
    };
    out.tell_in(
        2,
        msg!(
            "compare-scores",
            opened = s.n,
            found = s.found,
            brier = brier,
            base = base,
            skill = skill,
            log = log,
            logbase = log_base
        ),
    );
    if s.n < 20 {
        out.tell_in(2, msg!("compare-few"));
    }
    sums(c, out);
    let list = |ids: &[String]| match ids {
        [] => words.say(&msg!("compare-none")),
        ids => ids.join(", "),
    };
    out.tell_in(2, msg!("compare-missed", list = list(&c.missed)));
    out.tell_in(2, msg!("compare-false-alarms", list = list(&c.false_alarms)));
    if c.not_opened > 0 {
        out.tell_in(2, msg!("compare-not-opened", n = c.not_opened));
    }
    if !c.out_of_scope.is_empty() {
        let ids: Vec<&str> = c.out_of_scope.iter().map(|f| f.condition.as_str()).collect();
        out.tell_in(2, msg!("compare-out-of-scope", list = ids));
    }
}

/// Money and days beside their percentiles.
fn sums(c: &Comparison, out: &mut Out) {
    let whole = |sum| phrases::whole_money(out.words(), sum);
    let within = |w: &[bool; 3]| match w {
        [true, ..] => msg!("compare-within-50"),
        [_, true, _] => msg!("compare-within-80"),
        [_, _, true] => msg!("compare-within-90"),
        _ => msg!("compare-beyond"),
    };
    let (actual, late) = (whole(c.money.actual), whole(c.money_late));
    let (p50, p80, p90) = (whole(c.money.p50), whole(c.money.p80), whole(c.money.p90));
    let lies = within(&c.money.within);
    out.tell_in(
        2,
        msg!("compare-money", actual = actual, p50 = p50, p80 = p80, p90 = p90, lies = lies, late = late),
    );
    let d = &c.days;
    let lies = within(&d.within);
    out.tell_in(
        2,
        msg!("compare-days", actual = d.actual, p50 = d.p50, p80 = d.p80, p90 = d.p90, lies = lies),
    );
}
