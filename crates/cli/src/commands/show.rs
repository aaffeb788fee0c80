//! `underlath show`.

use actions::{Error, Remark, house, houses, remarks};
use survey::units::Money;
use views::demolition::declared_said;
use views::{HouseCard, HouseView, RowKind, phrases};
use words::{Message, msg};

use super::Room;
use crate::args::House;
use crate::out::Out;

pub fn run(args: &House, room: &mut Room<'_>, out: &mut Out) -> Result<(), Error> {
    let desk = room.desk()?;
    match &args.house {
        None => {
            let cards = houses(&desk)?;
            if out.json() { out.value(&cards) } else { list(&cards, out) }
        }
        Some(name) => {
            let survey = desk.find(name)?;
            let view = house(&desk, survey)?;
            if out.json() { out.value(&view) } else { one(&view, &remarks(&desk, survey)?, out) }
        }
    }
    Ok(())
}

fn list(cards: &[HouseCard], out: &mut Out) {
    if cards.is_empty() {
        out.tell(msg!("show-none"));
        return;
    }
    let row = |c: &HouseCard| {
        let p80 = c.money_p80_cents.map(|p| phrases::whole_money(out.words(), Money::from_cents(p)));
        vec![
            c.survey.chars().take(13).collect(),
            c.label.clone(),
            out.say(&msg!("show-answered", answered = c.answered, wanted = c.wanted)),
            out.say(&msg!("show-photos", n = c.photos)),
            out.say(&match p80 {
                Some(sum) => msg!("show-p80", sum = sum),
                None => msg!("show-not-assessed"),
            }),
        ]
    };
    let rows = cards.iter().map(row).collect::<Vec<_>>();
    out.table(&rows);
}

/// "1 answer", "3 answers".
pub fn answers(n: u32) -> Message {
    msg!("show-answers", n = n)
}

fn one(view: &HouseView, remarks: &[Remark], out: &mut Out) {
    out.head(format!("{}  {}", view.label, view.survey));
    for station in &view.stations {
        out.line("");
        let at = station.place_label.as_ref().map(|name| format!(" ({name}: {})", station.place));
        out.head(format!("{}{}", station.label, at.unwrap_or_default()));
        let mut rows = Vec::new();
        for row in &station.rows {
            let answer = match row.kind {
                RowKind::Open => out.say(&msg!("show-open")),
                RowKind::Disagreement => {
                    let rivals = row.rivals.iter().map(|r| format!("{} ({})", r.answer, r.by));
                    format!("≠ {}", rivals.collect::<Vec<_>>().join(" / "))
                }
                _ => row.answer.clone(),
            };
            let tolerance = row.tolerance.as_ref().map(|t| format!(" {t}")).unwrap_or_default();
            let photos = match row.photos {
                0 => String::new(),
                n => format!("  [{}]", out.say(&msg!("show-photos", n = n))),
            };
            rows.push(vec![row.item.clone(), format!("{answer}{tolerance}{photos}")]);
        }
        out.table(&rows);
    }
    if !view.taken_out.is_empty() {
        out.line("");
        out.head_of(msg!("show-taken-out"));
        for place in &view.taken_out {
            let why = place.reason.as_ref().map(|r| format!("; {r}")).unwrap_or_default();
            out.line(format!(
                "  {} ({}): {}{why}",
                place.label,
                place.place,
                out.say(&answers(place.answers))
            ));
        }
    }
    if !remarks.is_empty() {
        out.line("");
        out.head_of(msg!("show-remarks"));
        for Remark { at, by, item, place, text } in remarks {
            let about: Vec<&str> = item.iter().chain(place).map(String::as_str).collect();
            let item = if about.is_empty() { String::new() } else { format!("{}: ", about.join(", ")) };
            out.line(format!("  {item}{text} ({by}, {at})"));
        }
    }
    tell_demolition(view, out);
    out.line("");
    match &view.frozen {
        None => out.tell(msg!("show-not-assessed-yet")),
        Some(a) => {
            let when = a.made_at.parse::<survey::Stamp>().map(|at| words::when(out.words().language(), at));
            let when = when.unwrap_or_else(|_| a.made_at.clone());
            out.tell(msg!("show-assessed", when = when, engine = &a.engine, catalog = &a.catalog));
        }
    }
}

/// That the walk is over, what came too late, and declarations that were withdrawn.
fn tell_demolition(view: &HouseView, out: &mut Out) {
    let when = |at: &str, out: &Out| {
        let at = at.parse::<survey::Stamp>().map(|at| words::when(out.words().language(), at));
        at.unwrap_or_default() // the view writes a stamp
    };
    for withdrawn in &view.withdrawn {
        out.line("");
        let (by, at) = (&withdrawn.by, when(&withdrawn.at, out));
        out.tell(msg!("demolition-withdrawn-by", by = by, at = at, reason = &withdrawn.reason));
    }
    let Some(demolition) = &view.demolition else { return };
    out.line("");
    let at = when(&demolition.at, out);
    out.tell(declared_said(&demolition.by, at, demolition.reason.as_deref()));
    out.tell(msg!("demolition-means"));
    if !demolition.set_aside.is_empty() {
        out.head_of(msg!("demolition-set-aside", n = demolition.set_aside.len()));
        for late in &demolition.set_aside {
            let at = when(&late.at, out);
            out.line(format!("  {}: {} ({}, {at})", late.what, late.said, late.by));
        }
    }
}
