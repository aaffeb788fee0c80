//! Which new, extended or replaced outlets call for ground-fault and arc-fault protection (NEC 210.8, 210.12,
//! 406.4(D)), by edition.
//!
//! The books say it place by place; what a row depends on and nobody said, and rooms the lists do not name, are for
//! the inspector: "ask locally".

use alloc::vec::Vec;

use survey::catalog::{Book, Catalog};
use survey::{Phrase, Said, say};

use super::{CAUTION, edition};
use crate::calculation::Calculation;
use crate::cite::{labeled, row, table, value};
use crate::error::TradeError;
use crate::given::{Field, Given, Kind, choice, spoken};
use crate::sheet::{Limit, Sheet, Standing};

/// What the outlet is for.
pub const OUTLETS: &[&str] = &[
    "counter",
    "receptacle",
    "refrigerator",
    "dishwasher",
    "disposer",
    "microwave",
    "hood",
    "range",
    "oven",
    "cooktop",
    "washer",
    "dryer",
    "light",
];
/// Where it is. "basement" is a finished one.
pub const PLACES: &[&str] = &[
    "kitchen",
    "dining",
    "living",
    "bedroom",
    "hallway",
    "closet",
    "bathroom",
    "laundry",
    "basement",
    "basement-unfinished",
    "garage",
    "crawl-space",
    "outdoors",
];

/// What is done to the outlet.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Work {
    /// A new circuit.
    New,
    /// An extension of a circuit.
    Extended,
    /// A receptacle replaced where it was.
    Replaced,
}

/// One outlet.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Outlet {
    /// A word of [`OUTLETS`].
    pub what: &'static str,
    /// A word of [`PLACES`].
    pub place: &'static str,
    /// What is done.
    pub work: Work,
    /// The appliance is wired in; else it has a plug.
    pub wired: bool,
    /// Within 6 ft of a sink; absent if nobody said.
    pub near_sink: Option<bool>,
    /// 120 or 240.
    pub volts: u32,
}

/// Whether protection is called for.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Call {
    /// It is.
    CalledFor,
    /// It is not.
    Not,
    /// The book does not say it for this row as far as it is known.
    Ask,
}

impl Call {
    const fn shown(self) -> Phrase {
        match self {
            Self::CalledFor => Phrase("trade-called"),
            Self::Not => Phrase("trade-not-called"),
            Self::Ask => Phrase("trade-call-ask-locally"),
        }
    }
    fn of(book: &Book, id: &'static str, name: &str) -> Result<(Self, Limit), TradeError> {
        let table = table(book, id)?;
        let call = match table.row(name) {
            Some(called) if called > 0.0 => Self::CalledFor,
            Some(_) => Self::Not,
            None => Self::Ask,
        };
        Ok((call, Limit::of(book, table, labeled(spoken(name), call.shown()))))
    }
}

impl Outlet {
    /// Ground-fault protection.
    ///
    /// # Errors
    /// A book without the tables.
    pub fn ground_fault(&self, book: &Book) -> Result<(Call, Limit), TradeError> {
        let (by_appliance, limit) = Call::of(book, "gfci-appliance", self.what)?;
        if by_appliance == Call::CalledFor {
            return Ok((Call::CalledFor, limit));
        }
        let (most_volts, volts_limit) = value(book, "gfci-volts")?;
        let place = match (self.place, self.what) {
            ("kitchen", "counter") => "kitchen-counter",
            (place, _) => place,
        };
        if self.wired || self.what == "light" {
            let (_, limit) = Call::of(book, "gfci-receptacle", place)?;
            return Ok((Call::Not, Limit { value: say!("trade-no-receptacle"), ..limit }));
        }
        if f64::from(self.volts) > most_volts {
            return Ok((Call::Not, volts_limit));
        }
        let (by_place, limit) = Call::of(book, "gfci-receptacle", place)?;
        if by_place == Call::CalledFor || self.near_sink == Some(false) {
            return Ok((by_place, limit));
        }
        let sink = if self.place == "kitchen" { "kitchen-sink" } else { "other-sink" };
        let (by_sink, near) = Call::of(book, "gfci-near-sink", sink)?;
        Ok(match (by_sink, self.near_sink) {
            (Call::CalledFor, Some(true)) => (Call::CalledFor, near),
            // Nobody measured: in a kitchen a sink is near enough to ask, elsewhere there mostly is none.
            (Call::CalledFor, None) if self.place == "kitchen" => {
                (Call::Ask, Limit { value: say!("trade-distance-sink-not-known"), ..near })
            }
            _ => (by_place, limit),
        })
    }
    /// Arc-fault protection.
    ///
    /// # Errors
    /// A book without the tables.
    pub fn arc_fault(&self, book: &Book) -> Result<(Call, Limit), TradeError> {
        let (by_room, limit) = Call::of(book, "afci-room", self.place)?;
        if self.volts > 120 {
            return Ok((Call::Not, Limit { value: say!("trade-120-v-circuits-only"), ..limit }));
        }
        Ok((by_room, limit))
    }
}

/// Answers for each outlet under one book.
///
/// # Errors
/// A book without the tables.
pub fn judge(outlets: &[Outlet], book: &Book) -> Result<Sheet, TradeError> {
    let (mut ground, mut arc, mut ask) = (0, 0, 0);
    let mut sheet = Sheet::new(Standing::Quantity, "", CAUTION);
    for (at, outlet) in outlets.iter().enumerate() {
        let (by_ground, ground_limit) = outlet.ground_fault(book)?;
        let (by_arc, arc_limit) = outlet.arc_fault(book)?;
        ground += u32::from(by_ground == Call::CalledFor);
        arc += u32::from(by_arc == Call::CalledFor);
        ask += u32::from(by_ground == Call::Ask || by_arc == Call::Ask);
        let text = say!(
            "trade-ground-fault-arc-fault",
            shown = by_ground.shown(),
            clause = &ground_limit.clause,
            shown2 = by_arc.shown(),
            clause2 = &arc_limit.clause
        );
        sheet.line(
            Said::between(
                ", ",
                [
                    Said::between(" ", [(at + 1).into(), choice(outlet.what)]),
                    spoken(outlet.place),
                    work(outlet.work).into(),
                ],
            ),
            text,
        );
        let mut limits = Vec::from([ground_limit, arc_limit]);
        match outlet.work {
            Work::New => {}
            Work::Extended => {
                let (feet, limit) = value(book, "afci-extension")?;
                if by_arc == Call::CalledFor && feet > 0.0 {
                    sheet.note(say!("trade-extension-up-ft-without", feet = feet));
                }
                limits.push(limit);
            }
            Work::Replaced => {
                limits.push(Limit { value: say!("trade-new-one"), ..value(book, "gfci-replaced")?.1 });
                limits.push(Limit { value: say!("trade-new-one"), ..value(book, "afci-replaced")?.1 });
            }
        }
        for limit in limits {
            if !sheet.limits.contains(&limit) {
                sheet.limits.push(limit);
            }
        }
    }
    sheet.notes.dedup();
    let all = outlets.len();
    sheet.sentence = if ask > 0 {
        sheet.standing = Standing::AskLocally;
        say!("trade-ground-fault-protection-called-arc", all = all, ground = ground, arc = arc, ask = ask)
    } else {
        say!("trade-ground-fault-protection-called-arc-fault", all = all, ground = ground, arc = arc)
    };
    let kitchen_arc = row(book, "afci-room", "kitchen")?.0;
    if kitchen_arc == 0.0 && outlets.iter().any(|o| o.place == "kitchen" && o.volts == 120) {
        sheet.note(Phrase("trade-kitchen-circuit-also-feeds"));
    }
    sheet.note(Phrase("trade-protection-may-sit-breaker"));
    sheet.note(Phrase("trade-editions-2014-2017-lie"));
    Ok(sheet)
}

const fn work(work: Work) -> Phrase {
    match work {
        Work::New => Phrase("trade-new"),
        Work::Extended => Phrase("trade-extended"),
        Work::Replaced => Phrase("trade-replaced"),
    }
}

const FIELDS: &[Field] = &[
    Field::must(
        "outlet",
        Phrase("trade-which-outlets-new-extended"),
        Kind::Rows(&[
            Field::must("what", Phrase("trade-what"), Kind::Word(OUTLETS)),
            Field::must("place", Phrase("trade-where"), Kind::Word(PLACES)),
            Field::or(
                "work",
                Phrase("trade-new-circuit-extension-replaced"),
                Kind::Word(&["new", "extended", "replaced"]),
                "new",
            ),
            Field::or("connected", Phrase("trade-plug-wired"), Kind::Word(&["plug", "wired"]), "plug"),
            Field::may("near-sink", Phrase("trade-within-6-ft-sink"), Kind::YesNo),
            Field::may("volts", Phrase("trade-how-many-volts"), Kind::Word(&["120", "240"])),
        ]),
    ),
    edition::EDITION,
];

pub(super) const CALCULATION: Calculation = Calculation {
    word: "protection",
    title: Phrase("trade-ground-fault-arc-fault-protection"),
    about: Phrase("trade-which-new-extended-replaced"),
    fields: FIELDS,
    run,
};

fn outlet(given: &Given) -> Outlet {
    let what = given.word("what").unwrap_or("receptacle");
    let volts = match given.word("volts") {
        Some("240") => 240,
        Some(_) => 120,
        None if ["range", "oven", "cooktop", "dryer"].contains(&what) => 240,
        None => 120,
    };
    Outlet {
        what,
        place: given.word("place").unwrap_or("kitchen"),
        work: match given.word("work") {
            Some("extended") => Work::Extended,
            Some("replaced") => Work::Replaced,
            _ => Work::New,
        },
        wired: given.word("connected") == Some("wired"),
        near_sink: given.yes("near-sink"),
        volts,
    }
}

fn run(given: &Given, catalog: &Catalog) -> Result<Sheet, TradeError> {
    let outlets: Vec<Outlet> = given.rows("outlet").iter().map(outlet).collect();
    if outlets.is_empty() {
        let sentence = Phrase("trade-without-outlets-new-extended");
        return Ok(Sheet::cannot_say(sentence, given.missing(FIELDS), CAUTION));
    }
    let mut sheet = edition::under(given, catalog, edition::Alike::Words, |book| judge(&outlets, book))?;
    if given.rows("outlet").iter().zip(&outlets).any(|(row, o)| row.word("volts").is_none() && o.volts == 240)
    {
        let (item, value) = (Phrase("trade-volts-range-oven-cooktop"), "240");
        sheet.assumed.push(crate::sheet::Assumed::new(item, value));
    }
    Ok(sheet)
}

#[cfg(test)]
mod tests {
    use super::Call::{Ask, CalledFor, Not};
    use super::*;
    use crate::testing::English as _;
    use crate::testing::{catalog, run_words};

    fn outlet(what: &'static str, place: &'static str) -> Outlet {
        let volts = if ["range", "oven", "cooktop", "dryer"].contains(&what) { 240 } else { 120 };
        Outlet { what, place, work: Work::New, wired: false, near_sink: Some(false), volts }
    }
    fn ground(outlet: Outlet) -> [Call; 3] {
        ["nec-2011", "nec-2020", "nec-2023"]
            .map(|id| outlet.ground_fault(catalog().shelf.book(id).unwrap()).unwrap().0)
    }
    fn arc(outlet: Outlet) -> [Call; 3] {
        ["nec-2011", "nec-2020", "nec-2023"]
            .map(|id| outlet.arc_fault(catalog().shelf.book(id).unwrap()).unwrap().0)
    }

    #[test]
    fn ground_fault_grows_from_edition_to_edition() {
        // 210.8(A), (D): California Electrical Code 2013 (NEC 2011); 2020 and 2023 as quoted or restated in public
        for (what, place, calls) in [
            ("counter", "kitchen", [CalledFor, CalledFor, CalledFor]),
            ("refrigerator", "kitchen", [Not, Not, CalledFor]),
            ("dishwasher", "kitchen", [Not, CalledFor, CalledFor]),
            ("range", "kitchen", [Not, Not, CalledFor]),
            ("receptacle", "bathroom", [CalledFor, CalledFor, CalledFor]),
            ("dryer", "laundry", [Not, CalledFor, CalledFor]),
            ("receptacle", "basement", [Not, CalledFor, CalledFor]),
            ("receptacle", "basement-unfinished", [CalledFor, CalledFor, CalledFor]),
            ("receptacle", "living", [Not, Not, Not]),
            ("light", "kitchen", [Not, Not, Not]),
        ] {
            assert_eq!(ground(outlet(what, place)), calls, "{what}, {place}");
        }
    }

    #[test]
    fn a_wired_dishwasher_is_meant_too_a_wired_disposer_is_not() {
        // NEC 2020 422.5(A)(7): however it is connected
        assert_eq!(
            ground(Outlet { wired: true, ..outlet("dishwasher", "kitchen") }),
            [Not, CalledFor, CalledFor]
        );
        assert_eq!(ground(Outlet { wired: true, ..outlet("disposer", "kitchen") }), [Not, Not, Not]);
    }

    #[test]
    fn the_distance_from_the_kitchen_sink_matters_between_the_editions() {
        // NEC 2011 210.8(A)(7) means sinks outside kitchens only; 2014 and later every sink
        let disposer = outlet("disposer", "kitchen");
        assert_eq!(ground(Outlet { near_sink: Some(true), ..disposer }), [Not, CalledFor, CalledFor]);
        assert_eq!(ground(Outlet { near_sink: None, ..disposer }), [Not, Ask, CalledFor]);
        let bar = outlet("receptacle", "living");
        assert_eq!(ground(Outlet { near_sink: Some(true), ..bar }), [CalledFor; 3]);
    }

    #[test]
    fn arc_fault_came_to_kitchens_and_laundries_and_is_for_120_volts() {
        // 210.12(A): 2011 names no kitchen and no laundry, 2020 both
        assert_eq!(arc(outlet("counter", "kitchen")), [Not, CalledFor, CalledFor]);
        assert_eq!(arc(outlet("washer", "laundry")), [Not, CalledFor, CalledFor]);
        assert_eq!(arc(outlet("light", "bedroom")), [CalledFor; 3]);
        assert_eq!(arc(outlet("range", "kitchen")), [Not; 3]);
        assert_eq!(arc(outlet("receptacle", "bathroom")), [Not; 3]);
        // a finished basement may be a recreation room or none
        assert_eq!(arc(outlet("receptacle", "basement")), [Ask; 3]);
    }

    #[test]
    fn where_the_editions_differ_the_answer_is_ask_locally() {
        let kitchen = [("outlet", "counter, kitchen"), ("outlet", "dishwasher, kitchen, new, wired")];
        let open = run_words(&CALCULATION, &kitchen, &catalog());
        assert_eq!(open.standing, Standing::AskLocally);
        assert!(
            open.sentence
                .contains("NEC 2011: Of 2, ground-fault protection is called for at 1, arc-fault at 0.")
        );
        assert!(
            open.sentence
                .contains("NEC 2020: Of 2, ground-fault protection is called for at 2, arc-fault at 2.")
        );
        let bath = run_words(&CALCULATION, &[("outlet", "receptacle, bathroom")], &catalog());
        assert_eq!(bath.standing, Standing::Quantity);
    }

    #[test]
    fn replacing_and_extending_bring_their_own_rules() {
        let replaced = run_words(
            &CALCULATION,
            &[("outlet", "counter, kitchen, replaced"), ("edition", "2020")],
            &catalog(),
        );
        assert!(replaced.limits.iter().any(|l| l.clause == "406.4(D)(4)"));
        let extended = run_words(
            &CALCULATION,
            &[("outlet", "counter, kitchen, extended"), ("edition", "2020")],
            &catalog(),
        );
        assert!(extended.notes.iter().any(|n| n.contains("up to 6 ft")), "{:?}", extended.notes);
    }

    #[test]
    fn every_place_of_the_lists_stands_in_the_books_or_is_asked() {
        for place in PLACES {
            let all = [ground(outlet("receptacle", place)), arc(outlet("receptacle", place))].concat();
            assert!(*place == "basement" || !all.contains(&Ask), "{place}");
        }
    }
}
