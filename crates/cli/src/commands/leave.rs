//! `underlath leave`.

use actions::{Error, Leaving, before_leaving};

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
    let list = |out: &mut Out, words: &str, keys: &[String]| {
        if !keys.is_empty() {
            out.line(format!("  {words}: {}", keys.join(", ")));
        }
    };
    out.head("Before leaving");
    list(out, "people said different things (settle it with a correction)", &found.disagreements);
    for clash in &found.clashes.list {
        let rival = clash.rival.as_ref().map(|r| format!(", most of all with {r}")).unwrap_or_default();
        out.line(format!(
            "  {} does not go with the other answers{rival}: they left it {}. Look at both again.",
            clash.answer,
            assessment::forecast::in_100(clash.chance)
        ));
    }
    list(out, "outside the plausible range (measure again)", &found.implausible);
    list(out, "answered, though other answers rule the question out", &found.ruled_out);
    list(out, "photographs missing", &found.next.photos_missing);
    if nothing_amiss(&found) {
        out.line("  nothing disagrees and nothing is missing");
    }
    out.line("");
    out.head("Unasked and worth most");
    if found.worth_most.is_empty() {
        out.line("  nothing is left to ask");
    }
    for ask in &found.worth_most {
        questions(ask, desk.catalog(), out);
    }
    out.line("");
    out.head("Look next");
    looks(&found.next.looks, desk.catalog(), 3, out);
    Ok(())
}

fn nothing_amiss(found: &Leaving) -> bool {
    let lists = [&found.disagreements, &found.implausible, &found.ruled_out, &found.next.photos_missing];
    lists.iter().all(|list| list.is_empty()) && found.clashes.list.is_empty()
}
