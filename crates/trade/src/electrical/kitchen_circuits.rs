//! Circuits a kitchen calls for (NEC 210.11(C), 210.52(B)) beside those that are there.
//!
//! The code asks for two 20 A circuits for counter, wall and refrigerator outlets and forbids anything else on them;
//! that is why dishwasher, disposer, built-in microwave and hood need another one. That each gets its own is a habit
//! of the trade and what most makers' sheets ask for.

use alloc::vec::Vec;

use survey::catalog::{Book, Catalog};
use survey::{Phrase, Said, say};

use super::{CAUTION, count, edition};
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
    const fn shown(self) -> Phrase {
        match self {
            Self::Own => Phrase("trade-own-circuit"),
            Self::Shared => Phrase("trade-shared-circuit"),
            Self::SmallAppliance => Phrase("trade-small-appliance-circuit"),
            Self::Nothing => Phrase("trade-no-circuit-yet"),
            Self::NotWanted => Phrase("trade-not-planned"),
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
    name: Said,
    text: Said,
    call: Call,
    limit: Limit,
}

fn required(book: &Book, name: Phrase, id: &'static str, there: Option<u32>) -> Result<Line, TradeError> {
    let (least, limit) = value(book, id)?;
    let least = least as u32;
    let call = match there {
        None => Call::Unknown,
        Some(there) if there < least => Call::ByCode(least - there),
        Some(_) => Call::There,
    };
    let there = there.map_or_else(|| Said::from(Phrase("trade-not-looked")), |n| say!("trade-there", n = n));
    Ok(Line { name: name.into(), text: say!("trade-called-3", there = there, least = least), call, limit })
}

fn fed(book: &Book, fixture: Fixture, name: &str, feed: Feed) -> Result<Line, TradeError> {
    let other = value(book, "small-appliance-circuits")?.1;
    let (call, why, limit) = match (fixture, feed) {
        (_, Feed::NotWanted) => (Call::There, Phrase("trade-nothing-called"), other),
        (Fixture::Refrigerator, Feed::Nothing) => (
            Call::ByCode(1),
            Phrase("trade-small-appliance-circuit-own"),
            value(book, "refrigerator-circuit")?.1,
        ),
        (Fixture::Refrigerator, Feed::Shared) => (
            Call::ByCode(1),
            Phrase("trade-shared-only-small-appliance"),
            value(book, "refrigerator-circuit")?.1,
        ),
        (Fixture::Refrigerator, _) => {
            (Call::There, Phrase("trade-either-called"), value(book, "refrigerator-circuit")?.1)
        }
        (Fixture::Range, Feed::Own) => {
            (Call::There, Phrase("trade-40-least-8-3"), value(book, "range-circuit")?.1)
        }
        (Fixture::Range, _) => {
            (Call::ByCode(1), Phrase("trade-circuit-own"), value(book, "range-circuit")?.1)
        }
        (_, Feed::Own) => (Call::There, Phrase("trade-own-circuit-called-habit"), own()),
        (_, Feed::SmallAppliance) => (Call::ByCode(1), Phrase("trade-nothing-fastened-place-circuit"), other),
        (_, Feed::Nothing) => (Call::ByCode(1), Phrase("trade-circuit-no-small-appliance"), other),
        (_, Feed::Shared) => {
            (Call::ByHabit, Phrase("trade-own-circuit-called-habit-shared"), value(book, "fastened-share")?.1)
        }
    };
    Ok(Line {
        name: crate::given::spoken(name),
        text: Said::between("; ", [feed.shown().into(), why.into()]),
        call,
        limit,
    })
}

fn own() -> Limit {
    Limit::practice(Phrase("trade-dishwasher-disposer-built-microwave"), Phrase("trade-1-each"))
}

/// Lists what is there beside what is called for.
///
/// # Errors
/// A book without the tables.
pub fn judge(circuits: &Circuits, book: &Book) -> Result<Sheet, TradeError> {
    // A circuit that feeds something else too is none of those the section asks for.
    let small = if circuits.something_else_on_them == Some(true) { 0 } else { circuits.small_appliance };
    let mut lines = Vec::new();
    lines.push(required(
        book,
        Phrase("trade-small-appliance-circuits"),
        "small-appliance-circuits",
        Some(small),
    )?);
    lines.push(required(book, Phrase("trade-laundry-circuits"), "laundry-circuits", circuits.laundry)?);
    lines.push(required(book, Phrase("trade-bath-circuits"), "bath-circuits", circuits.baths)?);
    let mut missing: Vec<Said> = Vec::new();
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
                names.push(line.name.clone().small());
                changes.push(Change {
                    text: say!("trade-more", name = &line.name, n = say!("trade-n-circuits", n = n)),
                    enough: false,
                });
            }
            Call::ByHabit => habit.push(line.name.clone().small()),
            Call::Unknown => missing.push(line.name.clone().small()),
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
    let unknown = missing.clone();
    let sentence = match standing {
        Standing::Beyond if missing.is_empty() => {
            say!("trade-add", short = say!("trade-n-circuits", n = short), names = names)
        }
        Standing::Beyond => {
            say!(
                "trade-add-least-not-known",
                short = say!("trade-n-circuits", n = short),
                names = names,
                unknown = unknown
            )
        }
        Standing::Within => Said::from(Phrase("trade-circuits-counted-within-numbers")),
        _ => say!("trade-what-known-there-called", unknown = unknown),
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
        sheet.note(Phrase("trade-circuit-also-feeds-lights"));
    }
    if circuits.something_else_on_them.is_none() {
        sheet.note(Phrase("trade-nobody-looked-whether-small"));
    }
    if !habit.is_empty() {
        sheet.note(say!("trade-shared-circuit-makers-sheets", habit = habit));
    }
    sheet.note(Phrase("trade-what-was-built-under"));
    Ok(sheet)
}

const FEW: Kind = Kind::Number { unit: "", min: 0.0, max: 20.0 };
const FED: Kind = Kind::Word(Feed::WORDS);

const FIELDS: &[Field] = &[
    Field::must("small-appliance", Phrase("trade-how-many-20-circuits"), FEW),
    Field::may("something-else-on-them", Phrase("trade-do-they-feed-lights"), Kind::YesNo),
    Field::may("laundry", Phrase("trade-how-many-20-circuits-feed"), FEW),
    Field::may("baths", Phrase("trade-how-many-20-circuits-feed-baths"), FEW),
    Field::may("refrigerator", Phrase("trade-how-refrigerator-fed"), FED),
    Field::may("dishwasher", Phrase("trade-how-dishwasher-fed"), FED),
    Field::may("disposer", Phrase("trade-how-disposer-fed"), FED),
    Field::may("microwave", Phrase("trade-how-built-microwave-hood"), FED),
    Field::may("electric-range", Phrase("trade-how-electric-range-oven"), FED),
    edition::EDITION,
];

pub(super) const CALCULATION: Calculation = Calculation {
    word: "kitchen-circuits",
    title: Phrase("trade-kitchen-circuits"),
    about: Phrase("trade-which-circuits-kitchen-calls"),
    fields: FIELDS,
    run,
};

fn run(given: &Given, catalog: &Catalog) -> Result<Sheet, TradeError> {
    let Some(small_appliance) = count(given, "small-appliance")? else {
        let sentence = Phrase("trade-without-number-small-appliance");
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
    use crate::testing::{English as _, EnglishList as _};
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
            assert!(sheet.sentence.starts_with(&alloc::format!("{add} ")), "{}", sheet.sentence);
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
        assert_eq!(run_words(&CALCULATION, &[], &catalog()).missing.read_all(), ["small appliance"]);
    }
}
