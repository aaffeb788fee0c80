//! Pictures in words, for those who hear them: a title, and what the drawing shows with its numbers.

use alloc::{string::String, vec, vec::Vec};

use survey::{Phrase, Said, say};
use trade::picture::{
    BoreSection, CalendarStrip, CeilingPlan, FallSection, LoadBar, Picture, SinkElevation, WallElevation,
};

use crate::finding::{
    Gap, Off, by_trade, gap, inside_tolerance, lowest, offs, patched, plated, totals, wood_left,
};
use crate::written::{amount, give_or_take_words, in_feet_words, in_words, inches_bare};

/// So many things of a list are named; the rest is counted.
const NAMED: usize = 12;

/// How what is said is put into words where the drawing is shown.
#[derive(Clone, Copy)]
pub(crate) struct Say<'a>(pub(crate) &'a dyn Fn(&Said) -> String);

impl Say<'_> {
    /// In words.
    pub(crate) fn say(self, said: impl Into<Said>) -> String {
        (self.0)(&said.into())
    }
    /// A name, or a word in its place.
    pub(crate) fn named(self, name: &Said) -> String {
        self.say(named(name))
    }
}

/// What is drawn.
pub(crate) fn title(picture: &Picture) -> Said {
    match picture {
        Picture::Sink(_) => Phrase("drawing-sink-title").into(),
        Picture::Fall(p) => say!("drawing-fall-title", from = named(&p.from), to = named(&p.to)),
        Picture::Bore(p) => say!("drawing-bore-title", member = named(&p.member)),
        Picture::Load(_) => Phrase("drawing-load-title").into(),
        Picture::Wall(p) => say!("drawing-wall-title", name = named(&p.name)),
        Picture::Calendar(_) => Phrase("drawing-calendar-title").into(),
        Picture::Ceiling(_) => Phrase("drawing-ceiling-title").into(),
    }
}

/// What it shows.
pub(crate) fn description(picture: &Picture) -> Said {
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
pub(crate) fn named(name: &Said) -> Said {
    let name = text_of(name);
    if name.is_empty() { Phrase("drawing-unnamed").into() } else { name.into() }
}

fn list(items: impl ExactSizeIterator<Item = Said>) -> Said {
    let more = items.len().saturating_sub(NAMED);
    let mut said: Vec<Said> = items.take(NAMED).collect();
    if more > 0 {
        said.push(say!("drawing-and-more", n = more));
    }
    Said::between("; ", said)
}

fn with_tolerance(x: f64, tolerance: f64) -> Said {
    match give_or_take_words(tolerance) {
        Some(t) => say!("drawing-give-or-take", x = in_words(x), tolerance = t),
        None => in_words(x),
    }
}

fn sink(p: &SinkElevation) -> Said {
    let near = inside_tolerance(p);
    let lies = match gap(p) {
        Some(Gap::High(x)) if near => say!("drawing-stub-too-high-near", x = in_words(x)),
        Some(Gap::High(x)) => say!("drawing-stub-too-high", x = in_words(x)),
        Some(Gap::Room(x)) if near => say!("drawing-stub-to-spare-near", x = in_words(x)),
        Some(Gap::Room(x)) => say!("drawing-stub-to-spare", x = in_words(x)),
        Some(Gap::Low(x)) => say!("drawing-stub-too-low", x = in_words(x)),
        None => Phrase("drawing-stub-not-known").into(),
    };
    let stub = with_tolerance(p.stub, p.stub_tolerance);
    let highest = with_tolerance(p.stub_max, p.stub_max_tolerance);
    let heights = match lowest(p) {
        Some((least, _)) => {
            say!("drawing-heights-lowest", stub = stub, highest = highest, lowest = in_words(least))
        }
        None => say!("drawing-heights", stub = stub, highest = highest),
    };
    let (counter, outlet, arm) = (in_words(p.counter), in_words(p.connection), in_words(p.trap_arm));
    let rest = if p.disposer {
        say!("drawing-rest-disposer", counter = counter, outlet = outlet, arm = arm)
    } else {
        say!("drawing-rest-strainer", counter = counter, outlet = outlet, arm = arm)
    };
    Said::sentences([lies, heights, rest])
}

fn fall(p: &FallSection) -> Said {
    let mut said = vec![say!("drawing-fall-said", length = in_feet_words(p.length), fall = in_words(p.fall))];
    if !p.limits.is_empty() {
        let limits = list(
            p.limits
                .iter()
                .map(|(name, x)| say!("drawing-name-figure", name = named(name), x = in_feet_words(*x))),
        );
        said.push(say!("drawing-held-against", limits = limits));
    }
    Said::sentences(said)
}

fn bore(p: &BoreSection) -> Said {
    let [near, far] = wood_left(p);
    let plates = plated(p).iter().filter(|x| **x).count();
    let mut said = vec![say!(
        "drawing-bore-said",
        hole = in_words(p.hole),
        largest = in_words(p.largest),
        depth = in_words(p.depth),
        near = inches_bare(near),
        far = in_words(far),
        kept = in_words(p.edge_kept)
    )];
    if plates > 0 {
        said.push(say!(
            "drawing-bore-plates",
            edges = say!("drawing-edges", n = plates),
            plate = in_words(p.plate_edge)
        ));
    }
    Said::sentences(said)
}

fn load(p: &LoadBar) -> Said {
    let [there, planned] = totals(p);
    let parts = list(p.parts.iter().map(|(name, x, new)| {
        if *new {
            say!("drawing-part-planned", name = named(name), x = amount(*x))
        } else {
            say!("drawing-name-figure", name = named(name), x = amount(*x))
        }
    }));
    let carries = list(p.carries.iter().map(carries));
    let total = amount(there + planned);
    say!("drawing-load-said", total = total, unit = text_of(&p.unit), parts = parts, carries = carries)
}

/// What one carries.
pub(crate) fn carries((name, x): &(Said, f64)) -> Said {
    say!("drawing-carries", name = named(name), x = amount(*x))
}

/// What loads come to together.
pub(crate) fn together(total: f64, there: f64) -> Said {
    if there > 0.0 && there < total {
        let planned = amount(total - there);
        say!("drawing-together-planned", total = amount(total), there = amount(there), planned = planned)
    } else {
        say!("drawing-together", total = amount(total))
    }
}

fn wall(p: &WallElevation) -> Said {
    let (width, height) = (in_feet_words(p.width), in_feet_words(p.height));
    let holes = say!("drawing-holes", n = p.holes.len());
    let trades = by_trade(p);
    let size = if trades.is_empty() {
        say!("drawing-wall-said", width = width, height = height, holes = holes)
    } else {
        let trades = list(trades.iter().map(|t| {
            say!("drawing-name-figure", name = named(&t.trade), x = say!("drawing-holes", n = t.holes))
        }));
        say!("drawing-wall-said-trades", width = width, height = height, holes = holes, trades = trades)
    };
    let patches = say!("drawing-patches", n = p.patches.len());
    Said::sentences([size, say!("drawing-wall-patches", patches = patches, area = amount(patched(p)))])
}

/// Days on which the same is off run together: "days 1 to 14, all day".
fn days(offs: &[Off]) -> Vec<Said> {
    let mut runs: Vec<(u32, u32, Said)> = Vec::new();
    for off in offs {
        let words = off.said();
        match runs.last_mut() {
            Some((_, last, same)) if *same == words && last.checked_add(1) == Some(off.day) => {
                *last = off.day
            }
            _ => runs.push((off.day, off.day, words)),
        }
    }
    let said = |(first, last, words): (u32, u32, Said)| {
        if first == last {
            say!("drawing-day-off", day = figure(first), words = words)
        } else {
            say!("drawing-days-off", first = figure(first), last = figure(last), words = words)
        }
    };
    runs.into_iter().map(said).collect()
}

/// A number as a figure without marks.
pub(crate) fn figure(n: impl alloc::string::ToString) -> Said {
    n.to_string().into()
}

fn calendar(p: &CalendarStrip) -> Said {
    let mut said = vec![say!("drawing-working-days", days = figure(p.days))];
    for (name, blocks) in p.rows.iter().take(NAMED) {
        let offs = offs(p, blocks);
        said.push(if offs.is_empty() {
            say!("drawing-never-off", name = named(name))
        } else {
            say!("drawing-row-off", name = named(name), days = list(days(&offs).into_iter()))
        });
    }
    if p.rows.len() > NAMED {
        said.push(say!("drawing-and-rows-more", n = p.rows.len() - NAMED));
    }
    if !p.conflicts.is_empty() {
        said.push(list(
            p.conflicts
                .iter()
                .map(|(day, words)| say!("drawing-day-conflict", day = figure(day), words = named(words))),
        ));
    }
    Said::sentences(said)
}

fn ceiling(p: &CeilingPlan) -> Said {
    let moved = p.lights.iter().filter(|l| l.3).count();
    let (width, depth) = (in_feet_words(p.width), in_feet_words(p.depth));
    let joists = say!("drawing-joists", n = p.joists.len());
    let lights = say!("drawing-lights", n = p.lights.len());
    let mut said = vec![if moved > 0 {
        say!(
            "drawing-ceiling-moved",
            width = width,
            depth = depth,
            joists = joists,
            lights = lights,
            moved = moved
        )
    } else {
        say!("drawing-ceiling-said", width = width, depth = depth, joists = joists, lights = lights)
    }];
    if let Some((x, y)) = p.old_fixture {
        said.push(say!("drawing-fixture-hangs", left = in_feet_words(x), up = in_feet_words(y)));
    }
    Said::sentences(said)
}

/// What a calendar holds beyond so many conflicts, rows and days, each if there is any.
pub(crate) fn not_shown(p: &CalendarStrip, (conflicts, rows, days): (usize, usize, u32)) -> Vec<Said> {
    let mut more = Vec::new();
    let mut note = |n: usize, said: fn(usize) -> Said| {
        if n > 0 {
            more.push(said(n));
        }
    };
    note(p.conflicts.len().saturating_sub(conflicts), |n| say!("drawing-and-conflicts-more", n = n));
    note(p.rows.len().saturating_sub(rows), |n| say!("drawing-and-rows", n = n));
    note(p.days.saturating_sub(days) as usize, |n| say!("drawing-and-days-more", n = n));
    more
}
