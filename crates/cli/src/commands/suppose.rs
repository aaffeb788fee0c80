//! `underlath suppose`.

use actions::{Error, Kind, Suppositions, Told, suppose};
use assessment::forecast::in_100;
use assessment::suppose::{Branch, Moved, Side, Supposed};
use survey::units::Money;
use words::Language;

use super::Room;
use super::promise::whole as whole_dollars;
use crate::args;
use crate::out::Out;

/// Conditions told for each branch.
const MOST: usize = 12;

pub fn run(args: &args::Suppose, room: &mut Room<'_>, out: &mut Out) -> Result<(), Error> {
    let desk = room.desk()?;
    let survey = desk.find(&args.house)?;
    let told = suppose(&desk, survey, &read(args)?, &mut room.kit()?)?;
    if out.json() {
        out.value(&serde_json::json!({ "supposed": told.suppositions, "would_be": told.supposed }));
    } else {
        tell(&told, out);
    }
    Ok(())
}

fn read(args: &args::Suppose) -> Result<Suppositions, Error> {
    let shows = args.shows.chunks_exact(3).map(|c| {
        let shows = match c[2].as_str() {
            "yes" => true,
            "no" => false,
            other => {
                return Err(Error::new(Kind::Input, format!("“{other}” is neither yes nor no"))
                    .hint("write --shows CHECK KEY yes, or --shows CHECK KEY no"));
            }
        };
        Ok((c[0].clone(), c[1].clone(), shows))
    });
    let look = match args.look.as_slice() {
        [] => None,
        [check, key] => Some((check.clone(), key.clone())),
        _ => {
            return Err(Error::new(Kind::Input, "one look is supposed at a time")
                .hint("suppose the result of the others with --shows"));
        }
    };
    Ok(Suppositions {
        priced_in: args.priced_in.clone(),
        shows: shows.collect::<Result<_, _>>()?,
        look,
        answers: args.answer.chunks_exact(2).map(|c| (c[0].clone(), c[1].clone())).collect(),
    })
}

fn tell(told: &Told, out: &mut Out) {
    let Supposed { label, now, branches, worth, priced_in } = &told.supposed;
    out.head(format!("{label}: if"));
    for words in &told.suppositions {
        out.line(format!("  {words}"));
    }
    out.line("");
    sums(now, branches, out);
    if let Some(look) = worth {
        out.line(format!(
            "  the look is worth about {} before its cost of about {} ({} minutes, {}), on all that it tells of",
            words::round_money(Language::En, look.value),
            words::round_money(Language::En, look.cost),
            look.minutes,
            look.who
        ));
        if !look.ask_first.is_empty() {
            out.line(format!("      not while: {}", look.ask_first.join("; ")));
        }
    } else if branches.iter().any(|b| b.shows.is_some()) {
        out.line(
            "  no result of the look would change what to do about it; where a gate stands a named licensed person looks \
             first whatever a look is worth",
        );
    }
    let mut hazards: Vec<&Moved> = priced_in.iter().collect();
    for branch in branches {
        out.line("");
        out.head(match branch.shows {
            None => "Odds that change by a point or more".to_owned(),
            Some(true) => {
                format!("If it shows ({}), odds that change by a point or more", in_100(branch.chance))
            }
            Some(false) => {
                format!(
                    "If it does not show ({}), odds that change by a point or more",
                    in_100(branch.chance)
                )
            }
        });
        if branch.moved.is_empty() {
            out.line("  none");
        }
        let odds = |p: Option<f64>| p.map_or("not in scope".to_owned(), in_100);
        let row =
            |m: &Moved| vec![m.key.clone(), m.name.clone(), odds(m.before), "→".to_owned(), odds(m.after)];
        out.table(&branch.moved.iter().take(MOST).map(row).collect::<Vec<_>>());
        if branch.moved.len() > MOST {
            out.line(format!("  … and {} more", branch.moved.len() - MOST));
        }
        for moved in branch.moved.iter().take(MOST) {
            if !hazards.iter().any(|h| h.key == moved.key) {
                hazards.push(moved);
            }
        }
    }
    out.line("");
    for hazard in hazards {
        let first = hazard.gate.as_ref().map(|g| format!(" First: {g}.")).unwrap_or_default();
        out.line(format!("{}: {}{first}", hazard.name, hazard.caution));
    }
    out.line("Supposed, not recorded.");
}

/// Money and days, now and in each branch.
fn sums(now: &Side, branches: &[Branch], out: &mut Out) {
    let sides: Vec<&Side> = core::iter::once(now).chain(branches.iter().map(|b| &b.then)).collect();
    let row = |name: &str, cell: &dyn Fn(&Side) -> String| -> Vec<String> {
        core::iter::once(name.to_owned()).chain(sides.iter().map(|s| cell(s))).collect()
    };
    let money = |name: &str, which: &dyn Fn(&Side) -> [Money; 2]| {
        row(name, &|side| {
            let [amount, error] = which(side).map(whole_dollars);
            format!("{amount} ± {error}")
        })
    };
    let head = core::iter::once("now".to_owned()).chain(branches.iter().map(|b| match b.shows {
        None => "then".to_owned(),
        Some(true) => format!("it shows ({})", in_100(b.chance)),
        Some(false) => format!("it does not show ({})", in_100(b.chance)),
    }));
    let mut rows = vec![core::iter::once(String::new()).chain(head).collect()];
    rows.push(money("money P50", &|s| [s.money.p50, s.money.standard_errors[1]]));
    rows.push(money("money P80", &|s| [s.money.p80, s.money.standard_errors[2]]));
    rows.push(money("money P90", &|s| [s.money.p90, s.money.standard_errors[3]]));
    rows.push(money("money mean", &|s| [s.money.mean, s.money.standard_errors[0]]));
    rows.push(row("in the base price, mean", &|s| whole_dollars(s.money.in_base_mean)));
    if now.money.over.is_some() {
        rows.push(row("more than 5 % of the contract", &|s| {
            s.money.over.map_or(String::new(), |over| in_100(over[1]))
        }));
    }
    rows.push(row("days P50, P80, P90", &|s| format!("{}, {}, {}", s.days.p50, s.days.p80, s.days.p90)));
    out.table(&rows);
}
