//! `underlath leave`.

use actions::{Error, Leaving, before_leaving};
use views::phrases;
use words::{CatalogWords, msg};

use super::Room;
use super::next::{looks, question, questions};
use crate::args::OneHouse;
use crate::out::Out;

pub fn run(args: &OneHouse, room: &mut Room<'_>, out: &mut Out) -> Result<(), Error> {
    let desk = room.desk()?;
    let survey = desk.find(&args.house)?;
    let found = before_leaving(&desk, survey)?;
    if out.json() {
        out.value(&serde_json::json!({
            "disagreements": found.disagreements,
            "clashes": found.clashes.list.iter().map(|c| serde_json::json!({
                "answer": c.answer, "rival": c.rival, "chance": assessment::forecast::round6(c.chance),
                "before": assessment::forecast::round6(c.before),
            })).collect::<Vec<_>>(),
            "conflict_measure": assessment::forecast::round2(found.clashes.measure),
            "implausible": found.implausible,
            "ruled_out": found.ruled_out,
            "photos_missing": found.next.photos_missing,
            "worth_most": found.worth_most.iter().map(question).collect::<Vec<_>>(),
            "look": found.next.looks,
        }));
        return Ok(());
    }
    let say = CatalogWords::new(out.words(), desk.catalog());
    out.head_of(msg!("leave-head"));
    let lists = [
        (&found.disagreements, msg!("leave-disagree", items = found.disagreements.join(", "))),
        (&found.implausible, msg!("leave-implausible", items = found.implausible.join(", "))),
        (&found.ruled_out, msg!("leave-ruled-out", items = found.ruled_out.join(", "))),
        (&found.next.photos_missing, msg!("leave-photos", items = found.next.photos_missing.join(", "))),
    ];
    for clash in &found.clashes.list {
        let (answer, chance) = (&clash.answer, phrases::in_100(say.words, clash.chance));
        out.tell_in(
            2,
            match &clash.rival {
                Some(rival) => msg!("leave-clash-with", answer = answer, rival = rival, chance = chance),
                None => msg!("leave-clash", answer = answer, chance = chance),
            },
        );
    }
    for (items, message) in lists {
        if !items.is_empty() {
            out.tell_in(2, message);
        }
    }
    if nothing_amiss(&found) {
        out.tell_in(2, msg!("leave-nothing"));
    }
    out.line("");
    out.head_of(msg!("leave-worth-most"));
    if found.worth_most.is_empty() {
        out.tell_in(2, msg!("leave-all-asked"));
    }
    for ask in &found.worth_most {
        questions(ask, desk.catalog(), out);
    }
    out.line("");
    out.head_of(msg!("next-look"));
    looks(&found.next.looks, desk.catalog(), 3, out);
    Ok(())
}

fn nothing_amiss(found: &Leaving) -> bool {
    let lists = [&found.disagreements, &found.implausible, &found.ruled_out, &found.next.photos_missing];
    lists.iter().all(|list| list.is_empty()) && found.clashes.list.is_empty()
}
