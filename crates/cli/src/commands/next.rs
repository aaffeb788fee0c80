//! `underlath next`.

use actions::{Error, next};
use assessment::forecast::Look;
use survey::catalog::Catalog;

use super::Room;
use crate::args::OneHouse;
use crate::out::Out;

pub fn run(args: &OneHouse, room: &mut Room<'_>, out: &mut Out) -> Result<(), Error> {
    let mut desk = room.desk()?;
    let survey = desk.find(&args.house)?;
    let found = next(&mut desk, survey, &mut room.kit()?)?;
    if out.json() {
        out.value(&serde_json::json!({
            "open": found.open,
            "ask": found.items.iter().map(|a| {
                serde_json::json!({
                    "item": a.item, "place": a.place, "question": a.question, "why": a.why, "takes": a.takes,
                })
            }).collect::<Vec<_>>(),
            "look": found.looks,
            "photos_missing": found.photos_missing,
        }));
        return Ok(());
    }
    out.head(format!("Ask next ({} open)", found.open));
    for ask in &found.items {
        let at = ask.place.as_ref().map(|p| format!(" ({}: --place {})", p.label, p.id)).unwrap_or_default();
        out.line(format!("  {}{at}: {}", ask.item, ask.question));
        out.line(format!("      {}", ask.why));
        out.line(format!("      {}", ask.takes));
    }
    out.line("");
    out.head("Look next");
    looks(&found.looks, desk.catalog(), 5, out);
    if !found.photos_missing.is_empty() {
        out.line("");
        out.line(format!("photographs still wanted: {}", found.photos_missing.join(", ")));
    }
    Ok(())
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
