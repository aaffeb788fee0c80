//! `underlath suppose`.

use actions::{Error, Kind, Suppositions, Told, suppose};
use assessment::suppose::{Branch, Moved, Side, Supposed};
use survey::catalog::Catalog;
use survey::units::Money;
use views::phrases::{caution_words, gate_words, in_100, key_words, look_words, round_money, whole_money};
use words::{CatalogWords, Language, Message, Words, msg};

use super::Room;
use crate::args;
use crate::out::Out;

/// Conditions told for each branch.
const MOST: usize = 12;

pub fn run(args: &args::Suppose, room: &mut Room<'_>, out: &mut Out) -> Result<(), Error> {
    let desk = room.desk()?;
    let survey = desk.find(&args.house)?;
    let told = suppose(&desk, survey, &read(args)?, &mut room.kit()?)?;
    if out.json() {
        out.value(&serde_json::json!({ "supposed": told.suppositions.iter().map(|s| Words::of(Language::En).text(s)).collect::<Vec<_>>(), "would_be": told.supposed }));
    } else {
        tell(&told, desk.catalog(), out);
    }
    Ok(())
}

fn read(args: &args::Suppose) -> Result<Suppositions, Error> {
    let shows = args.shows.chunks_exact(3).map(|c| {
        let shows = match c[2].as_str() {
            "yes" => true,
            "no" => false,
            other => {
                return Err(Error::new(Kind::Input, msg!("error-neither-yes-nor-no", word = other))
                    .hint(msg!("error-neither-yes-nor-no-hint")));
            }
        };
        Ok((c[0].clone(), c[1].clone(), shows))
    });
    let look = match args.look.as_slice() {
        [] => None,
        [check, key] => Some((check.clone(), key.clone())),
        _ => {
            return Err(Error::new(Kind::Input, msg!("error-one-look")).hint(msg!("error-one-look-hint")));
        }
    };
    Ok(Suppositions {
        priced_in: args.priced_in.clone(),
        shows: shows.collect::<Result<_, _>>()?,
        look,
        answers: args.answer.chunks_exact(2).map(|c| (c[0].clone(), c[1].clone())).collect(),
    })
}

fn tell(told: &Told, catalog: &Catalog, out: &mut Out) {
    let Supposed { label, now, branches, worth, priced_in } = &told.supposed;
    let say = CatalogWords::new(out.words(), catalog);
    out.head_of(msg!("suppose-head", label = label));
    for words in &told.suppositions {
        let line = say.words.text(words);
        out.line(format!("  {line}"));
    }
    out.line("");
    sums(now, branches, out);
    if let Some(look) = worth {
        let told = look_words(say.words, look);
        out.tell_in(
            2,
            msg!(
                "suppose-worth",
                value = round_money(say.words, look.value),
                cost = round_money(say.words, look.cost),
                n = look.minutes,
                who = told.who,
            ),
        );
        if !told.ask_first.is_empty() {
            out.tell_in(6, msg!("next-not-while", ask = told.ask_first.join("; ")));
        }
    } else if branches.iter().any(|b| b.shows.is_some()) {
        out.tell_in(2, msg!("suppose-no-worth"));
    }
    let mut hazards: Vec<&Moved> = priced_in.iter().collect();
    for branch in branches {
        out.line("");
        let chance = in_100(say.words, branch.chance);
        out.head_of(match branch.shows {
            None => msg!("suppose-changes"),
            Some(true) => msg!("suppose-if-shows", chance = chance),
            Some(false) => msg!("suppose-if-not", chance = chance),
        });
        if branch.moved.is_empty() {
            out.tell_in(2, msg!("suppose-none"));
        }
        let odds =
            |p: Option<f64>| p.map_or_else(|| say.words.say(&msg!("not-in-scope")), |p| in_100(say.words, p));
        let row = |m: &Moved| {
            vec![m.key.clone(), key_words(say, &m.key), odds(m.before), "→".to_owned(), odds(m.after)]
        };
        out.table(&branch.moved.iter().take(MOST).map(row).collect::<Vec<_>>());
        if branch.moved.len() > MOST {
            out.tell_in(2, msg!("and-so-many-more", n = branch.moved.len() - MOST));
        }
        for moved in branch.moved.iter().take(MOST) {
            if !hazards.iter().any(|h| h.key == moved.key) {
                hazards.push(moved);
            }
        }
    }
    out.line("");
    for hazard in hazards {
        let (name, caution) = (key_words(say, &hazard.key), caution_words(say, &hazard.key, &hazard.caution));
        out.tell(match &hazard.gate {
            Some(gate) => msg!(
                "suppose-gate",
                name = name,
                caution = caution,
                gate = gate_words(say, &hazard.key, gate)
            ),
            None => msg!("named", name = name, text = caution),
        });
    }
    out.tell(msg!("suppose-not-recorded"));
}

/// Money and days, now and in each branch.
fn sums(now: &Side, branches: &[Branch], out: &mut Out) {
    let words = out.words();
    let whole = |sum: Money| whole_money(words, sum);
    let sides: Vec<&Side> = core::iter::once(now).chain(branches.iter().map(|b| &b.then)).collect();
    let row = |name: Message, cell: &dyn Fn(&Side) -> String| -> Vec<String> {
        core::iter::once(words.say(&name)).chain(sides.iter().map(|s| cell(s))).collect()
    };
    let money = |name: Message, which: &dyn Fn(&Side) -> [Money; 2]| {
        row(name, &|side| {
            let [amount, error] = which(side).map(whole);
            format!("{amount} ± {error}")
        })
    };
    let head = branches.iter().map(|b| {
        let chance = in_100(words, b.chance);
        match b.shows {
            None => msg!("suppose-then"),
            Some(true) => msg!("suppose-shows", chance = chance),
            Some(false) => msg!("suppose-shows-not", chance = chance),
        }
    });
    let head = core::iter::once(msg!("suppose-now")).chain(head).map(|m| words.say(&m));
    let mut rows = vec![core::iter::once(String::new()).chain(head).collect()];
    let at = |p: u8| msg!("suppose-money", p = format!("P{p}"));
    rows.push(money(at(50), &|s| [s.money.p50, s.money.standard_errors[1]]));
    rows.push(money(at(80), &|s| [s.money.p80, s.money.standard_errors[2]]));
    rows.push(money(at(90), &|s| [s.money.p90, s.money.standard_errors[3]]));
    rows.push(money(msg!("suppose-money-mean"), &|s| [s.money.mean, s.money.standard_errors[0]]));
    rows.push(row(msg!("suppose-in-base"), &|s| whole(s.money.in_base_mean)));
    if now.money.over.is_some() {
        rows.push(row(msg!("suppose-over-5"), &|s| {
            s.money.over.map_or(String::new(), |over| in_100(words, over[1]))
        }));
    }
    let days = |n: f64| words::number(words.language(), n, 2);
    rows.push(row(msg!("suppose-days"), &|s| [s.days.p50, s.days.p80, s.days.p90].map(days).join("; ")));
    out.table(&rows);
}
