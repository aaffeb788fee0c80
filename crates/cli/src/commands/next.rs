//! `underlath next`.

use actions::{Ask, Error, next};
use assessment::forecast::Look;
use survey::catalog::Catalog;
use survey::guide::Because;
use survey::units::Money;
use views::phrases;
use words::{CatalogWords, msg};

use super::Room;
use crate::args;
use crate::out::Out;

pub fn run(args: &args::Next, room: &mut Room<'_>, out: &mut Out) -> Result<(), Error> {
    let desk = room.desk()?;
    let survey = desk.find(&args.house)?;
    let found = next(&desk, survey, args.from.as_deref())?;
    if out.json() {
        out.value(&serde_json::json!({
            "open": found.items.len(),
            "ask": found.items.iter().take(args.most).map(question).collect::<Vec<_>>(),
            "no_use": found.no_use,
            "coverage": {
                "share": assessment::forecast::round2(found.coverage.share),
                "standard_error": assessment::forecast::round2(found.coverage.error),
            },
            "look": found.looks,
            "photos_missing": found.photos_missing,
        }));
        return Ok(());
    }
    out.head_of(msg!("next-ask", n = found.items.len()));
    for ask in found.items.iter().take(args.most) {
        questions(ask, desk.catalog(), out);
    }
    if !found.no_use.is_empty() {
        out.tell_in(2, msg!("next-no-use", items = found.no_use.join(", ")));
    }
    out.line("");
    let share = phrases::in_100(out.words(), found.coverage.share);
    let error = (200.0 * found.coverage.error).round().max(1.0);
    out.tell(msg!("next-coverage", share = share, error = error));
    out.line("");
    out.head_of(msg!("next-look"));
    looks(&found.looks, desk.catalog(), 5, out);
    if !found.photos_missing.is_empty() {
        out.line("");
        out.tell(msg!("next-photos", items = found.photos_missing));
    }
    Ok(())
}

/// A question for programs.
pub fn question(ask: &Ask) -> serde_json::Value {
    serde_json::json!({
        "item": ask.item, "place": ask.place, "question": ask.question, "why": ask.why,
        "because": because(ask.because), "value": ask.value.dollars(), "conditions": ask.conditions,
        "takes": ask.takes,
    })
}

fn because(because: Because) -> &'static str {
    match because {
        Because::Disagreed => "disagreed",
        Because::Matters => "matters",
        Because::Packet => "packet",
        Because::WorthIt => "worth-it",
    }
}

/// Tells a question, why the walk has it and why it is asked now.
pub fn questions(ask: &Ask, catalog: &Catalog, out: &mut Out) {
    let say = CatalogWords::new(out.words(), catalog);
    out.tell_in(
        2,
        match &ask.place {
            Some(place) => msg!(
                "next-question-at",
                item = &ask.item,
                question = &ask.question,
                place = &place.label,
                id = &place.id
            ),
            None => msg!("named", name = &ask.item, text = &ask.question),
        },
    );
    out.line(format!("      {}", ask.why));
    let names = phrases::some_conditions(say, &ask.conditions, 2);
    out.tell_in(
        6,
        match ask.because {
            Because::Disagreed => msg!("next-disagreed"),
            Because::Packet => msg!("next-for-pages"),
            _ if ask.value >= Money::from_dollars(5) => {
                msg!("next-value", value = phrases::round_money(say.words, ask.value), conditions = names)
            }
            _ => msg!("next-bears-on", conditions = names),
        },
    );
    out.line(format!("      {}", ask.takes));
}

/// Tells the looks that are worth their minutes.
pub fn looks(looks: &[Look], catalog: &Catalog, most: usize, out: &mut Out) {
    let worth: Vec<&Look> = looks.iter().filter(|l| l.net_per_minute > survey::units::Money::ZERO).collect();
    if worth.is_empty() {
        out.tell_in(2, msg!("next-nothing"));
        return;
    }
    let say = CatalogWords::new(out.words(), catalog);
    for look in worth.iter().take(most) {
        let told = phrases::look_words(say.words, look);
        let invasive = say.words.say(&phrases::invasive(look.invasiveness));
        let label = phrases::at(say.words, told.label, look.place.as_ref());
        let (who, value) = (told.who, phrases::round_money(say.words, look.value));
        let n = look.minutes;
        out.tell_in(2, msg!("next-worth", label = label, value = value, n = n, how = invasive, who = who));
        if let Some(serves) = phrases::serves_words(say.words, look) {
            out.line(format!("      {serves}"));
        }
        let names = phrases::some_conditions(say, &look.conditions, 3);
        out.tell_in(6, msg!("next-could-change", conditions = names));
        if !told.ask_first.is_empty() {
            out.tell_in(6, msg!("next-not-while", ask = told.ask_first.join("; ")));
        }
    }
}
