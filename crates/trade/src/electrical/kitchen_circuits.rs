//! Circuits a kitchen calls for (NEC 210.11(C), 210.52(B)) beside those that are there.
//!
//! The code asks for two 20 A circuits for counter, wall and refrigerator outlets and forbids anything else on them;
//! that is why dishwasher, disposer, built-in microwave and hood need another one. That each gets its own is a habit
//! of the trade and what most makers' sheets ask for.

use alloc::{format, string::String, vec::Vec};

use survey::catalog::{Book, Catalog};

use super::{CAUTION, count, counted, edition};
use crate::calculation::Calculation;
use crate::cite::value;
use crate::error::TradeError;
use crate::given::{Field, Given, Kind};
use crate::sheet::{Change, Limit, Sheet, Standing};

/// How something is fed.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Feed {
    /// A circuit of its own.
    Own,
    /// A circuit it shares with lights or other plugs that is no small-appliance circuit.
    Shared,
    /// A small-appliance circuit.
    SmallAppliance,
    /// Nothing yet.
    Nothing,
    /// It is neither there nor planned.
    NotWanted,
}

impl Feed {
    const WORDS: &'static [&'static str] = &["own", "shared", "small-appliance", "none", "not-planned"];

    fn of(word: &str) -> Self {
        match word {
            "own" => Self::Own,
            "shared" => Self::Shared,
            "small-appliance" => Self::SmallAppliance,
            "none" => Self::Nothing,
            _ => Self::NotWanted,
        }
    }
    const fn shown(self) -> &'static str {
        match self {
            Self::Own => "own circuit",
            Self::Shared => "shared circuit",
            Self::SmallAppliance => "on a small-appliance circuit",
            Self::Nothing => "no circuit yet",
            Self::NotWanted => "not planned",
        }
    }
}

/// What is fed.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Fixture {
    /// Refrigerator.
    Refrigerator,
    /// Dishwasher.
    Dishwasher,
    /// Disposer.
    Disposer,
    /// Microwave that is built in, or a hood.
    Microwave,
    /// Electric range, oven or cooktop.
    Range,
}

impl Fixture {
    const ALL: [(Self, &'static str); 5] = [
        (Self::Refrigerator, "refrigerator"),
        (Self::Dishwasher, "dishwasher"),
        (Self::Disposer, "disposer"),
        (Self::Microwave, "microwave"),
        (Self::Range, "electric-range"),
    ];
}

/// The circuits of a kitchen. What nobody said is absent.
#[derive(Clone, PartialEq, Debug, Default)]
pub struct Circuits {
    /// 20 A circuits that feed counter, wall and refrigerator outlets.
    pub small_appliance: u32,
    /// They feed lights, fans or fastened appliances too.
    pub something_else_on_them: Option<bool>,
    /// 20 A circuits for the laundry.
    pub laundry: Option<u32>,
    /// 20 A circuits for baths.
    pub baths: Option<u32>,
    /// How each thing is fed.
    pub feeds: Vec<(Fixture, Feed)>,
}

/// Whether something is called for, and by what.
enum Call {
    /// There as called for.
    There,
    /// Called for and not there, by the code: so many circuits.
    ByCode(u32),
    /// Called for by habit and makers' sheets only.
    ByHabit,
    /// Nobody said.
    Unknown,
}

struct Line {
    name: String,
    text: String,
    call: Call,
    limit: Limit,
}

fn required(book: &Book, name: &str, id: &'static str, there: Option<u32>) -> Result<Line, TradeError> {
    let (least, limit) = value(book, id)?;
    let least = least as u32;
    let call = match there {
        None => Call::Unknown,
        Some(there) if there < least => Call::ByCode(least - there),
        Some(_) => Call::There,
    };
    let there = there.map_or_else(|| String::from("not looked at"), |n| format!("{n} there"));
    Ok(Line { name: name.into(), text: format!("{there}, {least} called for"), call, limit })
}

fn fed(book: &Book, fixture: Fixture, name: &str, feed: Feed) -> Result<Line, TradeError> {
    let other = value(book, "small-appliance-circuits")?.1;
    let (call, why, limit) = match (fixture, feed) {
        (_, Feed::NotWanted) => (Call::There, "nothing called for", other),
        (Fixture::Refrigerator, Feed::Nothing) => {
            (Call::ByCode(1), "a small-appliance circuit, or its own", value(book, "refrigerator-circuit")?.1)
        }
        (Fixture::Refrigerator, Feed::Shared) => (
            Call::ByCode(1),
            "shared only with small-appliance outlets",
            value(book, "refrigerator-circuit")?.1,
        ),
        (Fixture::Refrigerator, _) => {
            (Call::There, "either is called for", value(book, "refrigerator-circuit")?.1)
        }
        (Fixture::Range, Feed::Own) => {
            (Call::There, "40 A at least from 8-3/4 kW", value(book, "range-circuit")?.1)
        }
        (Fixture::Range, _) => (Call::ByCode(1), "a circuit of its own", value(book, "range-circuit")?.1),
        (_, Feed::Own) => (Call::There, "own circuit called for by habit", own()),
        (_, Feed::SmallAppliance) => (Call::ByCode(1), "nothing fastened in place on that circuit", other),
        (_, Feed::Nothing) => (Call::ByCode(1), "a circuit that is no small-appliance circuit", other),
        (_, Feed::Shared) => (
            Call::ByHabit,
            "own circuit called for by habit; shared, at most half the circuit's rating",
            value(book, "fastened-share")?.1,
        ),
    };
    Ok(Line { name: crate::given::spoken(name), text: format!("{}; {why}", feed.shown()), call, limit })
}

fn own() -> Limit {
    Limit::practice(
        "Dishwasher, disposer, built-in microwave: each its own circuit, as makers' sheets ask",
        "1 each",
    )
}

/// Lists what is there beside what is called for.
///
/// # Errors
/// A book without the tables.
pub fn judge(circuits: &Circuits, book: &Book) -> Result<Sheet, TradeError> {
    // A circuit that feeds something else too is none of those the section asks for.
    let small = if circuits.something_else_on_them == Some(true) { 0 } else { circuits.small_appliance };
    let mut lines = Vec::new();
    lines.push(required(book, "Small-appliance circuits", "small-appliance-circuits", Some(small))?);
    lines.push(required(book, "Laundry circuits", "laundry-circuits", circuits.laundry)?);
    lines.push(required(book, "Bath circuits", "bath-circuits", circuits.baths)?);
    let mut missing: Vec<String> = Vec::new();
    for (fixture, name) in Fixture::ALL {
        match circuits.feeds.iter().find(|(f, _)| *f == fixture) {
            Some((_, feed)) => lines.push(fed(book, fixture, name, *feed)?),
            None => missing.push(crate::given::spoken(name)),
        }
    }
    let mut short = 0;
    let (mut names, mut habit) = (Vec::new(), Vec::new());
    let mut changes = Vec::new();
    for line in &lines {
        match line.call {
            Call::There => {}
            Call::ByCode(n) => {
                short += n;
                names.push(line.name.to_lowercase());
                changes.push(Change {
                    text: format!("{}: {} more.", line.name, counted(n, "circuit")),
                    enough: false,
                });
            }
            Call::ByHabit => habit.push(line.name.to_lowercase()),
            Call::Unknown => missing.push(line.name.to_lowercase()),
        }
    }
    if let [only] = changes.as_mut_slice() {
        only.enough = true;
    }
    let standing = if short > 0 {
        Standing::Beyond
    } else if missing.is_empty() {
        Standing::Within
    } else {
        Standing::CannotSay
    };
    let unknown = missing.join(", ");
    let sentence = match standing {
        Standing::Beyond if missing.is_empty() => {
            format!("{} to add: {}.", counted(short, "circuit"), names.join(", "))
        }
        Standing::Beyond => {
            format!(
                "{} to add at least: {}. Not known: {unknown}.",
                counted(short, "circuit"),
                names.join(", ")
            )
        }
        Standing::Within => String::from(
            "The circuits counted are within the numbers of the section; their rating, their wire and what else hangs on \
             them were not looked at.",
        ),
        _ => format!("What is known is there as called for; it cannot be said of: {unknown}."),
    };
    let mut sheet = Sheet::new(standing, sentence, CAUTION);
    sheet.missing = missing;
    sheet.changes = changes;
    for line in lines {
        sheet.line(line.name, line.text);
        if !sheet.limits.contains(&line.limit) {
            sheet.limits.push(line.limit);
        }
    }
    if circuits.something_else_on_them == Some(true) {
        sheet.note(
            "A circuit that also feeds lights or fastened appliances is not counted as a \
            small-appliance circuit.",
        );
    }
    if circuits.something_else_on_them.is_none() {
        sheet.note(
            "Nobody looked whether the small-appliance circuits feed anything else; if they do, \
            they do not count.",
        );
    }
    if !habit.is_empty() {
        sheet.note(format!(
            "On a shared circuit: {}. The makers' sheets say whether that will do.",
            habit.join(", ")
        ));
    }
    sheet.note(
        "What was built under an older code may stay as long as nobody extends or replaces it; \
        how far the work reaches, the inspector says.",
    );
    Ok(sheet)
}

const FEW: Kind = Kind::Number { unit: "", min: 0.0, max: 20.0 };
const FED: Kind = Kind::Word(Feed::WORDS);

const FIELDS: &[Field] = &[
    Field::must(
        "small-appliance",
        "How many 20 A circuits feed counter, wall and refrigerator outlets?",
        FEW,
    ),
    Field::may(
        "something-else-on-them",
        "Do they feed lights, fans or built-in appliances too?",
        Kind::YesNo,
    ),
    Field::may("laundry", "How many 20 A circuits feed the laundry alone?", FEW),
    Field::may("baths", "How many 20 A circuits feed baths alone?", FEW),
    Field::may("refrigerator", "How is the refrigerator fed?", FED),
    Field::may("dishwasher", "How is the dishwasher fed?", FED),
    Field::may("disposer", "How is the disposer fed?", FED),
    Field::may("microwave", "How is a built-in microwave or hood fed?", FED),
    Field::may("electric-range", "How is an electric range, oven or cooktop fed?", FED),
    edition::EDITION,
];

pub(super) const CALCULATION: Calculation = Calculation {
    word: "kitchen-circuits",
    title: "Kitchen circuits",
    about: "Which circuits the kitchen calls for, and which of them are there.",
    fields: FIELDS,
    run,
};

fn run(given: &Given, catalog: &Catalog) -> Result<Sheet, TradeError> {
    let Some(small_appliance) = count(given, "small-appliance")? else {
        let sentence = "Without the number of small-appliance circuits nothing can be said.";
        return Ok(Sheet::cannot_say(sentence, given.missing(FIELDS), CAUTION));
    };
    let feeds = Fixture::ALL
        .into_iter()
        .filter_map(|(fixture, name)| given.word(name).map(|word| (fixture, Feed::of(word))))
        .collect();
    let circuits = Circuits {
        small_appliance,
        something_else_on_them: given.yes("something-else-on-them"),
        laundry: count(given, "laundry")?,
        baths: count(given, "baths")?,
        feeds,
    };
    edition::under(given, catalog, edition::Alike::Words, |book| judge(&circuits, book))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::testing::{catalog, run_words};

    const FULL: [(&str, &str); 9] = [
        ("small-appliance", "2"),
        ("something-else-on-them", "no"),
        ("laundry", "1"),
        ("baths", "1"),
        ("refrigerator", "small-appliance"),
        ("dishwasher", "own"),
        ("disposer", "own"),
        ("microwave", "own"),
        ("electric-range", "own"),
    ];

    fn with(name: &str, word: &str) -> Sheet {
        let answers: Vec<_> =
            FULL.into_iter().map(|(n, w)| if n == name { (n, word) } else { (n, w) }).collect();
        run_words(&CALCULATION, &answers, &catalog())
    }

    #[test]
    fn two_small_appliance_circuits_a_laundry_and_a_bath_circuit_are_called_for() {
        // NEC 210.11(C)(1) to (C)(3), 210.52(B)
        assert_eq!(with("", "").standing, Standing::Within);
        for (name, word, add) in
            [("small-appliance", "1", 1), ("small-appliance", "0", 2), ("laundry", "0", 1)]
        {
            let sheet = with(name, word);
            assert_eq!(sheet.standing, Standing::Beyond);
            assert!(sheet.sentence.starts_with(&counted(add, "circuit")), "{}", sheet.sentence);
        }
    }

    #[test]
    fn a_dishwasher_may_not_hang_on_a_small_appliance_circuit_but_may_share_another() {
        // 210.52(B)(2): no other outlets; 210.23(A)(2): at most half where shared
        assert_eq!(with("dishwasher", "small-appliance").standing, Standing::Beyond);
        let shared = with("dishwasher", "shared");
        assert_eq!(shared.standing, Standing::Within);
        assert!(shared.notes.iter().any(|n| n.contains("On a shared circuit: dishwasher")));
    }

    #[test]
    fn circuits_that_feed_lights_too_do_not_count() {
        let sheet = with("something-else-on-them", "yes");
        assert!(sheet.sentence.starts_with("2 circuits to add"), "{}", sheet.sentence);
    }

    #[test]
    fn what_nobody_looked_at_is_named() {
        let sheet = run_words(&CALCULATION, &[("small-appliance", "2")], &catalog());
        assert_eq!(sheet.standing, Standing::CannotSay);
        assert_eq!(sheet.missing.len(), 7);
        assert_eq!(run_words(&CALCULATION, &[], &catalog()).missing, ["small appliance"]);
    }
}
