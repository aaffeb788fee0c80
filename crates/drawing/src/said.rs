//! Pictures in words, for those who hear them: a title, and what the drawing shows with its numbers.

use alloc::{format, string::String, vec::Vec};

use survey::Said;
use trade::picture::{
    BoreSection, CalendarStrip, CeilingPlan, FallSection, LoadBar, Picture, SinkElevation, WallElevation,
};

use crate::finding::{
    Gap, Off, by_trade, gap, inside_tolerance, lowest, offs, patched, plated, totals, wood_left,
};
use crate::written::{amount, give_or_take, in_feet_words, in_words, inches};

/// So many things of a list are named; the rest is counted.
const NAMED: usize = 12;

/// What is drawn.
pub(crate) fn title(picture: &Picture) -> String {
    match picture {
        Picture::Sink(_) => "Sink, trap and stub, elevation to scale".into(),
        Picture::Fall(p) => format!("Pipe from {} to {}, laid out straight", named(&p.from), named(&p.to)),
        Picture::Bore(p) => format!("{} with its hole, to scale", named(&p.member)),
        Picture::Load(_) => "Load against what carries it".into(),
        Picture::Wall(p) => format!("{}, elevation to scale", named(&p.name)),
        Picture::Calendar(_) => "What is off, by working day".into(),
        Picture::Ceiling(_) => "Ceiling from below, to scale".into(),
    }
}

/// What it shows.
pub(crate) fn description(picture: &Picture) -> String {
    match picture {
        Picture::Sink(p) => sink(p),
        Picture::Fall(p) => fall(p),
        Picture::Bore(p) => bore(p),
        Picture::Load(p) => load(p),
        Picture::Wall(p) => wall(p),
        Picture::Calendar(p) => calendar(p),
        Picture::Ceiling(p) => ceiling(p),
    }
}

/// The text of what was spoken, without blanks at its ends.
pub(crate) fn text_of(said: &Said) -> &str {
    if let Said::Text(text) = said { text.trim() } else { "" }
}

/// A name, or a word in its place.
pub(crate) fn named(name: &Said) -> &str {
    let name = text_of(name);
    if name.is_empty() { "unnamed" } else { name }
}

fn list(items: impl ExactSizeIterator<Item = String>) -> String {
    let more = items.len().saturating_sub(NAMED);
    let mut said: Vec<String> = items.take(NAMED).collect();
    if more > 0 {
        said.push(format!("and {more} more"));
    }
    said.join("; ")
}

/// "1 hole", "3 holes".
pub(crate) fn count(n: usize, one: &str) -> String {
    if n == 1 { format!("1 {one}") } else { format!("{n} {one}s") }
}

fn with_tolerance(x: f64, tolerance: f64) -> String {
    match give_or_take(tolerance) {
        Some(t) => format!("{}, {}", in_words(x), t.replace('±', "give or take ").replace('″', "")),
        None => in_words(x),
    }
}

fn sink(p: &SinkElevation) -> String {
    let near = if inside_tolerance(p) { ", which lies inside the tolerance" } else { "" };
    let mut said = match gap(p) {
        Some(Gap::High(x)) => format!("The stub is {} too high{near}. ", in_words(x)),
        Some(Gap::Room(x)) => format!("The stub has {} to spare{near}. ", in_words(x)),
        Some(Gap::Low(x)) => format!("The stub is {} too low. ", in_words(x)),
        None => "How the stub lies is not known. ".into(),
    };
    said += &format!(
        "Stub as found {}; highest that drains {}",
        with_tolerance(p.stub, p.stub_tolerance),
        with_tolerance(p.stub_max, p.stub_max_tolerance)
    );
    if let Some((least, _)) = lowest(p) {
        said += &format!("; lowest {}", in_words(least));
    }
    said += &format!(
        ", all above the finished floor. Counter {}, {} {}, trap arm {} at the trap.",
        in_words(p.counter),
        if p.disposer { "disposer outlet" } else { "strainer" },
        in_words(p.connection),
        in_words(p.trap_arm)
    );
    said
}

fn fall(p: &FallSection) -> String {
    let mut said = format!("{} long, falling {}.", in_feet_words(p.length), in_words(p.fall));
    if !p.limits.is_empty() {
        said += &format!(
            " Held against: {}.",
            list(p.limits.iter().map(|(name, x)| format!("{} {}", named(name), in_feet_words(*x))))
        );
    }
    said
}

fn bore(p: &BoreSection) -> String {
    let [near, far] = wood_left(p);
    let plates = plated(p).iter().filter(|x| **x).count();
    let mut said = format!(
        "The hole needed is {}; the largest by the table is {}. The member is {} deep; {} and {} of wood are left at \
         the edges, and {} must be kept.",
        in_words(p.hole),
        in_words(p.largest),
        in_words(p.depth),
        inches(near).replace('″', ""),
        in_words(far),
        in_words(p.edge_kept)
    );
    if plates > 0 {
        said += &format!(
            " Nail plates on {}: less than {} is left.",
            count(plates, "edge"),
            in_words(p.plate_edge)
        );
    }
    said
}

fn load(p: &LoadBar) -> String {
    let [there, planned] = totals(p);
    let parts = list(p.parts.iter().map(|(name, x, new)| {
        format!("{} {}{}", named(name), amount(*x), if *new { " (planned)" } else { "" })
    }));
    let carries = list(p.carries.iter().map(|(name, x)| format!("{} carries {}", named(name), amount(*x))));
    format!("Together {} {}: {parts}. {carries}.", amount(there + planned), text_of(&p.unit))
}

fn wall(p: &WallElevation) -> String {
    let mut said = format!(
        "{} wide and {} high, with {}",
        in_feet_words(p.width),
        in_feet_words(p.height),
        count(p.holes.len(), "hole")
    );
    let trades = by_trade(p);
    if !trades.is_empty() {
        said += &format!(
            ": {}",
            list(trades.iter().map(|t| format!("{} {}", named(&t.trade), count(t.holes, "hole"))))
        );
    }
    said += &format!(
        ". {}, together {} square feet.",
        if p.patches.len() == 1 { "1 patch".into() } else { format!("{} patches", p.patches.len()) },
        amount(patched(p))
    );
    said
}

/// Days on which the same is off run together: "days 1 to 14, all day".
fn days(offs: &[Off]) -> Vec<String> {
    let mut runs: Vec<(u32, u32, String)> = Vec::new();
    for off in offs {
        let words = off.said();
        match runs.last_mut() {
            Some((_, last, same)) if *same == words && last.checked_add(1) == Some(off.day) => {
                *last = off.day
            }
            _ => runs.push((off.day, off.day, words)),
        }
    }
    let said = |(first, last, words): (u32, u32, String)| {
        if first == last {
            format!("day {first}, {words}")
        } else {
            format!("days {first} to {last}, {words}")
        }
    };
    runs.into_iter().map(said).collect()
}

fn calendar(p: &CalendarStrip) -> String {
    let mut said = format!("Working days 1 to {}. ", p.days);
    for (name, blocks) in p.rows.iter().take(NAMED) {
        let offs = offs(p, blocks);
        if offs.is_empty() {
            said += &format!("{}: never off. ", named(name));
        } else {
            said += &format!("{} off: {}. ", named(name), list(days(&offs).into_iter()));
        }
    }
    if p.rows.len() > NAMED {
        said += &format!("And {} rows more. ", p.rows.len() - NAMED);
    }
    if !p.conflicts.is_empty() {
        said += &list(p.conflicts.iter().map(|(day, words)| format!("Day {day}: {}", named(words))));
    }
    said.trim_end().into()
}

fn ceiling(p: &CeilingPlan) -> String {
    let moved = p.lights.iter().filter(|l| l.3).count();
    let mut said = format!(
        "{} by {}, {}, {}",
        in_feet_words(p.width),
        in_feet_words(p.depth),
        count(p.joists.len(), "joist"),
        count(p.lights.len(), "light")
    );
    if moved > 0 {
        said += &format!(", {moved} moved off a joist");
    }
    said += ".";
    if let Some((x, y)) = p.old_fixture {
        said += &format!(
            " The fixture replaced hangs {} from the left and {} up.",
            in_feet_words(x),
            in_feet_words(y)
        );
    }
    said
}
