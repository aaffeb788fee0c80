//! `underlath compare`, and the lines in which a comparison is told.

use actions::Error;
use review::{Comparison, Outcome, Row};

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

/// Tells a comparison, with a row for each condition when wanted.
pub fn tell(c: &Comparison, rows: bool, out: &mut Out) {
    out.head(format!("{}: forecast beside finding", c.label));
    if rows {
        let line = |r: &Row| {
            let found = match r.outcome {
                Some(Outcome::Found) => "found",
                Some(Outcome::NotThere) => "not there",
                Some(Outcome::NotOpened) => "not opened",
                None => "no finding yet",
            };
            let held = if r.in_base_price { " (in the base price)" } else { "" };
            let cost = if r.cost.cents() > 0 { format!("{}{held}", r.cost) } else { String::new() };
            let said = views::words::about_in_10(r.probability);
            vec![r.condition.clone(), r.name.clone(), said, found.to_owned(), cost, r.note.clone()]
        };
        out.table(&c.rows.iter().map(line).collect::<Vec<_>>());
    }
    match &c.scores {
        None => {
            out.line("  nothing was opened yet: there is nothing to score or to sum");
            return;
        }
        Some(s) => {
            let skill = s.brier_skill.map(|k| format!(", skill {k:.2}")).unwrap_or_default();
            out.line(format!(
                "  {} opened, {} found: Brier {:.3} against {:.3} for the era’s base rate{skill}; log score {:.3} against {:.3}",
                s.n, s.found, s.brier, s.brier_base, s.log_score, s.log_score_base
            ));
            if s.n < 20 {
                out.line("  a small number of outcomes: luck weighs heavily in these scores");
            }
        }
    }
    let whole = views::words::whole_dollars;
    let within = |w: &[bool; 3]| match w {
        [true, ..] => "within P50",
        [_, true, _] => "between P50 and P80",
        [_, _, true] => "between P80 and P90",
        _ => "beyond P90",
    };
    out.line(format!(
        "  money {} against P50 {}, P80 {}, P90 {}: {}; of it {} found after the price was fixed",
        whole(c.money.actual),
        whole(c.money.p50),
        whole(c.money.p80),
        whole(c.money.p90),
        within(&c.money.within),
        whole(c.money_late)
    ));
    out.line(format!(
        "  days {} against P50 {}, P80 {}, P90 {}: {}",
        c.days.actual,
        c.days.p50,
        c.days.p80,
        c.days.p90,
        within(&c.days.within)
    ));
    let list = |ids: &[String]| if ids.is_empty() { "none".to_owned() } else { ids.join(", ") };
    out.line(format!("  missed (found though at most “possible”): {}", list(&c.missed)));
    out.line(format!("  false alarms (not there though “likely”): {}", list(&c.false_alarms)));
    if c.not_opened > 0 {
        out.line(format!("  not opened or not entered, in no score: {}", c.not_opened));
    }
    if !c.out_of_scope.is_empty() {
        let ids: Vec<String> = c.out_of_scope.iter().map(|f| f.condition.clone()).collect();
        out.line(format!("  found though the forecast held them out of scope: {}", ids.join(", ")));
    }
}
