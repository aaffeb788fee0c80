//! `wishes`: what a wish costs to rough in while the wall is open, and later, from the catalog's ranges.
//!
//! Every sum is a low and a high, and stays one: lows add to lows and highs to highs, a difference takes the farthest
//! ends, and no single figure is made of them. The break-even chance is now ÷ later: the rough-in costs as much as
//! the later work would on average if it is wanted with that chance.

use alloc::{format, vec, vec::Vec};

use survey::catalog::{Basis, Catalog, Mark, Wish};
use survey::units::Money;
use survey::{Phrase, Said, say};

use crate::calculation::Calculation;
use crate::cite::labeled;
use crate::error::TradeError;
use crate::given::{Field, Given, Kind, spoken};
use crate::number::show_number;
use crate::sheet::{Limit, Sheet, Standing};

/// Who decides.
pub const CAUTION: Phrase = Phrase("trade-ranges-talking-about-wishes");

/// A sum as a low and a high.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default)]
pub struct Span {
    /// Low end.
    pub low: Money,
    /// High end.
    pub high: Money,
}

impl Span {
    /// From the catalog's pair.
    pub const fn of(pair: [Money; 2]) -> Self {
        let [low, high] = pair;
        Self { low, high }
    }
    /// Low to low, high to high.
    #[must_use]
    pub fn plus(self, other: Self) -> Self {
        Self { low: self.low + other.low, high: self.high + other.high }
    }
    /// This less another, between its farthest ends.
    #[must_use]
    pub fn less(self, other: Self) -> Self {
        Self { low: self.low - other.high, high: self.high - other.low }
    }
    /// Its share by a chance, to the cent.
    #[must_use]
    pub fn times(self, chance: f64) -> Self {
        let share = |m: Money| Money::from_f64(m.dollars() * chance).unwrap_or(Money::MAX);
        Self { low: share(self.low), high: share(self.high) }
    }
    /// "$250 to $900", with a true minus.
    pub fn shown(self) -> Said {
        let one = |m: Money| format!("{m}").replace('-', "−");
        if self.low == self.high {
            one(self.low).into()
        } else {
            say!("trade-to", counters = one(self.low), counters2 = one(self.high))
        }
    }
}

/// The chance of being wanted at which now and later cost the same on average, low and high; it may exceed 1, and is
/// none where later costs nothing.
pub fn break_even(now: Span, later: Span) -> Option<[f64; 2]> {
    let over = |a: Money, b: Money| (b > Money::ZERO).then(|| a.dollars() / b.dollars());
    Some([over(now.low, later.high)?, over(now.high, later.low).unwrap_or(f64::INFINITY)])
}

/// How a stated chance lies to the break-even chance.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Lean {
    /// Over the high end: now costs less on average.
    Now,
    /// Under the low end: later costs less on average.
    Later,
    /// Between: the ranges do not decide.
    Open,
}

/// Which way a chance leans.
pub fn lean(chance: f64, [low, high]: [f64; 2]) -> Lean {
    if chance > high {
        Lean::Now
    } else if chance < low {
        Lean::Later
    } else {
        Lean::Open
    }
}

/// One wish on the list and the chance that it is wanted within five years, where somebody gave one.
#[derive(Clone, PartialEq, Debug)]
pub struct Asked<'a> {
    wish: &'a Wish,
    chance: Option<f64>,
}

impl<'a> Asked<'a> {
    /// A wish of the catalog by its id.
    ///
    /// # Errors
    /// An unknown id, with the known ones; a chance outside 0 to 1.
    pub fn new(catalog: &'a Catalog, id: &str, chance: Option<f64>) -> Result<Self, TradeError> {
        let id = id.trim();
        let Some(wish) = catalog.wishes.iter().find(|w| w.id == id) else {
            let known: Vec<&str> = catalog.wishes.iter().map(|w| w.id.as_str()).collect();
            let value = id.chars().take(60).collect();
            return Err(TradeError::NoWord { what: Phrase("trade-wish"), value, known: known.join(", ") });
        };
        match chance {
            Some(value) if !(0.0..=1.0).contains(&value) => {
                let (what, unit) = (Phrase("trade-chance-wish"), "");
                Err(TradeError::OutOfRange { what, value, low: 0.0, high: 1.0, unit })
            }
            _ => Ok(Self { wish, chance }),
        }
    }
}

/// The sheet for a list of wishes, in the order of the catalog.
///
/// # Errors
/// A wish given twice.
pub fn sheet(asked: &[Asked<'_>], catalog: &Catalog) -> Result<Sheet, TradeError> {
    let mut list: Vec<&Asked<'_>> = Vec::new();
    for wish in &catalog.wishes {
        let mut same = asked.iter().filter(|a| a.wish.id == wish.id);
        list.extend(same.next());
        if same.next().is_some() {
            return Err(TradeError::Clash {
                what: say!("trade-wish-there-twice", id = &wish.id),
                mend: Phrase("trade-give-once"),
            });
        }
    }
    let mut sheet = Sheet::new(Standing::Quantity, "", CAUTION);
    let (mut now_all, mut now_both, mut later_all, mut both) =
        (Span::default(), Span::default(), Span::default(), 0);
    for one in &list {
        let wish = one.wish;
        let now = Span::of(wish.now);
        now_all = now_all.plus(now);
        sheet.line(
            say!("trade-now", id = &wish.id),
            labeled(Said::of_catalog(format!("wish-{}", wish.id), &wish.rough_in), now.shown()),
        );
        let Some(later) = wish.later.map(Span::of) else {
            sheet.missing.push(say!("trade-what-costs-later", id = &wish.id));
            sheet.line(say!("trade-later", id = &wish.id), Phrase("trade-cannot-say-catalog-holds"));
            continue;
        };
        both += 1;
        now_both = now_both.plus(now);
        later_all = later_all.plus(later);
        let note = wish.later_note.as_deref().unwrap_or_default();
        let note = Said::of_catalog(format!("wish-{}-later", wish.id), note);
        sheet.line(
            say!("trade-later", id = &wish.id),
            if wish.later_note.is_some() { Said::List(vec![later.shown(), note]) } else { later.shown() },
        );
        difference(&mut sheet, Said::from(&wish.id), now, later);
        if let Some(range) = break_even(now, later) {
            even(&mut sheet, one, range, now, later);
        }
    }
    sheet.line(Phrase("trade-all-now"), say!("trade-lows-highs-added", shown = now_all.shown()));
    if both > 0 {
        sheet.line(Phrase("trade-all-sum-later-now"), now_both.shown());
        sheet.line(Phrase("trade-all-sum-later-later"), later_all.shown());
        difference(&mut sheet, Phrase("trade-all-sum-later").into(), now_both, later_all);
    }
    let n = list.len();
    let (now, later) = (now_all.shown(), later_all.shown());
    sheet.sentence = if both == 0 {
        sheet.standing = Standing::CannotSay;
        say!("trade-wishes-no-later", n = n, now = now)
    } else if both == n {
        say!("trade-wishes-same-later", n = n, now = now, later = later)
    } else {
        let both_now = now_both.shown();
        say!("trade-wishes-some-later", n = n, now = now, both = both, bothnow = both_now, later = later)
    };
    sheet.limits = bases(&list, catalog);
    sheet.note(Phrase("trade-ranges-judgment-added-end"));
    sheet.note(Phrase("trade-break-even-leaves-out"));
    Ok(sheet)
}

fn difference(sheet: &mut Sheet, what: Said, now: Span, later: Span) {
    let text = say!("trade-later-now-farthest-ends", shown = later.less(now).shown());
    sheet.line(say!("trade-difference", what = what), text);
}

fn even(sheet: &mut Sheet, one: &Asked<'_>, range: [f64; 2], now: Span, later: Span) {
    let id = &one.wish.id;
    let shown = |p: f64| {
        if p > 1.0 { say!("trade-more-than-certain", p = show_number(p)) } else { show_number(p).into() }
    };
    let [low, high] = range;
    sheet.line(
        say!("trade-break-even-chance", id = id),
        say!(
            "trade-now-later",
            shown = Span { high: now.low, ..now }.shown(),
            shown2 = Span { low: later.high, ..later }.shown(),
            low = shown(low),
            shown3 = Span { low: now.high, ..now }.shown(),
            shown4 = Span { high: later.low, ..later }.shown(),
            high = shown(high)
        ),
    );
    let Some(chance) = one.chance else { return };
    let words = match lean(chance, range) {
        Lean::Now => Phrase("trade-over-whole-break-even"),
        Lean::Later => Phrase("trade-under-whole-break-even"),
        Lean::Open => Phrase("trade-inside-break-even-range"),
    };
    sheet.line(
        say!("trade-later-average", id = id),
        say!(
            "trade-wish-average",
            chance = show_number(chance),
            later = later.shown(),
            average = later.times(chance).shown(),
            words = words
        ),
    );
}

/// Where the sums come from, each basis once.
fn bases(list: &[&Asked<'_>], catalog: &Catalog) -> Vec<Limit> {
    let mut out = Vec::new();
    for one in list {
        let (basis, mark) = match one.wish.basis {
            Basis::Judgment => (Phrase("trade-judgment"), Mark::CommonPractice),
            Basis::CommonPractice => (Phrase("trade-basis-common-practice"), Mark::CommonPractice),
            Basis::Window => (Phrase("trade-published-window-years-level"), Mark::CommonPractice),
            Basis::Derived => (Phrase("trade-own-arithmetic-published-values"), Mark::CommonPractice),
            Basis::Published => (Phrase("trade-published"), Mark::Published),
            Basis::Firm => (Phrase("trade-firms-own"), Mark::CommonPractice),
        };
        let limit = Limit {
            rule: say!("trade-costs-now-later-low"),
            value: say!("trade-basis", basis = basis),
            document: catalog.title.clone(),
            edition: say!("trade-version", version = alloc::format!("{}", catalog.version)),
            clause: "wishes".into(),
            mark,
        };
        if !out.contains(&limit) {
            out.push(limit);
        }
    }
    out
}

const WISH: &[Field] = &[
    Field::must("wish", Phrase("trade-which-wish-catalog"), Kind::Text),
    Field::may(
        "chance",
        Phrase("trade-how-likely-wanted-within"),
        Kind::Number { unit: "", min: 0.0, max: 1.0 },
    ),
];

const FIELDS: &[Field] = &[Field::must("wish", Phrase("trade-what-may-wanted-later"), Kind::Rows(WISH))];

pub(super) const CALCULATION: Calculation = Calculation {
    word: "wishes",
    title: Phrase("trade-wishes-later"),
    about: Phrase("trade-what-costs-rough-wish"),
    fields: FIELDS,
    run,
};

fn run(given: &Given, catalog: &Catalog) -> Result<Sheet, TradeError> {
    let mut asked = Vec::new();
    for row in given.rows("wish") {
        if let Some(id) = row.text("wish") {
            asked.push(Asked::new(catalog, id, row.number("chance"))?);
        }
    }
    if asked.is_empty() {
        let known: Vec<&str> = catalog.wishes.iter().map(|w| w.id.as_str()).collect();
        let sentence = say!("trade-without-wish-nothing-can", known = known.join(", "));
        return Ok(Sheet::cannot_say(sentence, vec![spoken("wish")], CAUTION));
    }
    sheet(&asked, catalog)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::testing::{English as _, EnglishList as _};
    use crate::testing::{catalog, run_words};

    fn dollars(low: i64, high: i64) -> Span {
        Span { low: Money::from_dollars(low), high: Money::from_dollars(high) }
    }

    #[test]
    fn ranges_stay_ranges() {
        let (now, later) = (dollars(250, 900), dollars(900, 3000));
        assert_eq!(later.less(now), dollars(0, 2750)); // 900 − 900, 3000 − 250
        assert_eq!(
            later.times(0.125),
            Span { low: Money::from_cents(11_250), high: Money::from_cents(37_500) }
        );
        assert_eq!(dollars(-5, 5).shown().read(), "−$5 to $5");
    }

    #[test]
    fn break_even_is_now_over_later_at_the_farthest_ends() {
        // 250 ÷ 3000 = 0.0833; 900 ÷ 900 = 1
        let range = break_even(dollars(250, 900), dollars(900, 3000)).unwrap();
        assert!((range[0] - 1.0 / 12.0).abs() < 1e-15 && range[1] == 1.0);
        assert_eq!(break_even(dollars(1, 2), dollars(0, 0)), None);
        assert_eq!(break_even(dollars(1, 2), dollars(0, 4)).unwrap(), [0.25, f64::INFINITY]);
        assert_eq!([lean(0.05, range), lean(0.5, range)], [Lean::Later, Lean::Open]);
        assert_eq!(lean(0.9, [0.1, 0.8]), Lean::Now);
    }

    #[test]
    fn an_unknown_wish_names_the_known_ones_and_a_double_one_is_refused() {
        let error = Asked::new(&catalog(), "sauna", None).unwrap_err().message().en();
        assert!(error.contains("sauna") && error.contains("pot-filler"), "{error}");
        assert!(Asked::new(&catalog(), "pot-filler", Some(1.5)).is_err());
        let catalog = catalog();
        let twice = [
            Asked::new(&catalog, "pot-filler", None).unwrap(),
            Asked::new(&catalog, "pot-filler", Some(0.5)).unwrap(),
        ];
        assert!(sheet(&twice, &catalog).is_err());
    }

    #[test]
    fn without_a_sum_for_later_it_cannot_be_said() {
        let only = run_words(&CALCULATION, &[("wish", "heated-floor, 0.5")], &catalog());
        assert_eq!(
            (only.standing, only.missing.read_all()),
            (Standing::CannotSay, alloc::vec!["what heated-floor costs later"])
        );
        assert_eq!(run_words(&CALCULATION, &[], &catalog()).standing, Standing::CannotSay);
    }
}
