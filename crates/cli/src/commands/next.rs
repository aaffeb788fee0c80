//! `underlath next`.

use actions::{Ask, Error, next};
use assessment::forecast::Look;
use survey::catalog::Catalog;
use survey::guide::Because;

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
    out.head(format!("Ask next ({} open)", found.items.len()));
    for ask in found.items.iter().take(args.most) {
        questions(ask, desk.catalog(), out);
    }
    if !found.no_use.is_empty() {
        out.line(format!(
            "  not asked, because nothing depends on them any more: {}",
            found.no_use.join(", ")
        ));
    }
    out.line("");
    out.line(format!(
        "{} of what answers can be worth is gathered (give or take {})",
        assessment::forecast::in_100(found.coverage.share),
        (200.0 * found.coverage.error).round().max(1.0)
    ));
    out.line("");
    out.head("Look next");
    looks(&found.looks, desk.catalog(), 5, out);
    if !found.photos_missing.is_empty() {
        out.line("");
        out.line(format!("photographs still wanted: {}", found.photos_missing.join(", ")));
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
    let at = ask.place.as_ref().map(|p| format!(" ({}: --place {})", p.label, p.id)).unwrap_or_default();
    out.line(format!("  {}{at}: {}", ask.item, ask.question));
    out.line(format!("      {}", ask.why));
    let names: Vec<&str> = ask
        .conditions
        .iter()
        .take(2)
        .map(|c| catalog.condition_of(c).map_or(c.as_str(), |c| &c.name))
        .collect();
    let worth = ask.value.dollars();
    match ask.because {
        Because::Disagreed => out.line("      asked again: people said different things"),
        Because::Packet => out.line("      asked for the pages"),
        _ if worth >= 5.0 => out.line(format!(
            "      worth about {}, most for: {}",
            views::words::round_dollars(worth),
            names.join(", ")
        )),
        _ => out.line(format!("      bears on: {}", names.join(", "))),
    }
    out.line(format!("      {}", ask.takes));
}

/// Tells the looks that are worth their minutes.
pub fn looks(looks: &[Look], catalog: &Catalog, most: usize, out: &mut Out) {
    let worth: Vec<&Look> = looks.iter().filter(|l| l.net_per_minute > survey::units::Money::ZERO).collect();
    if worth.is_empty() {
        out.line("  nothing more is worth its minutes");
        return;
    }
    let invasive = ["look", "touch or instrument", "opens a part", "pinhole", "small opening", "opening"];
    for look in worth.iter().take(most) {
        let names: Vec<&str> = look
            .conditions
            .iter()
            .take(3)
            .map(|c| catalog.condition_of(c).map_or(c.as_str(), |c| c.name.as_str()))
            .collect();
        let more = look.conditions.len().saturating_sub(3);
        let more = if more > 0 { format!(" and {more} more") } else { String::new() };
        out.line(format!(
            "  {}{}: worth about {} for {} minutes ({}, {})",
            look.label,
            look.place.as_ref().map(|p| format!(" ({})", p.label)).unwrap_or_default(),
            views::words::round_dollars(look.value.dollars()),
            look.minutes,
            invasive.get(usize::from(look.invasiveness)).unwrap_or(&"opening"),
            look.who
        ));
        out.line(format!("      could change: {}{more}", names.join(", ")));
        if !look.ask_first.is_empty() {
            out.line(format!("      not while: {}", look.ask_first.join("; ")));
        }
    }
}
