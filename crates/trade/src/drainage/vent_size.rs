//! The calculation `vent-size`: the smallest vent for a drain, its load and its route, and how a vent that is there
//! lies to it.

use alloc::{format, vec::Vec};

use survey::catalog::{Book, Catalog, Shelf};
use survey::{Phrase, Said, say};

use super::by_book::{Sized, by_book};
use super::demand::{Size, by_units};
use super::drain_fields;
use super::enough::{either, is_enough, least};
use super::vent::Rules;
use crate::calculation::Calculation;
use crate::cite;
use crate::error::TradeError;
use crate::given::{Field, Given, Kind, show_inches};
use crate::measure::FixtureUnits;
use crate::number::{in_100, show_number};
use crate::picture::{LoadBar, Picture};
use crate::sheet::{Assumed, Change, Limit, Sheet, Standing};
use crate::tolerance::{Budget, Reading};

/// Longest vent taken, inches: 500 ft, beyond every table.
const LONGEST_TAKEN: f64 = 6000.0;
/// σ of a vent paced off story by story, inches: common practice, no source.
const LENGTH_SIGMA: f64 = 12.0;
/// Inches in a foot.
const FOOT: f64 = 12.0;

/// A vent as planned or found.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct VentPlan {
    drain: Option<Size>,
    units: Option<FixtureUnits>,
    length: Reading,
    flat: Option<Reading>,
    existing: Option<Size>,
}

impl VentPlan {
    /// A plan: the drain or its load, the developed length, and what of it lies flat.
    ///
    /// # Errors
    /// Neither drain nor load, a length outside 0 to 500 ft, or a flat part longer than the whole.
    pub fn new(
        drain: Option<Size>,
        units: Option<FixtureUnits>,
        length: Reading,
        flat: Option<Reading>,
        existing: Option<Size>,
    ) -> Result<Self, TradeError> {
        let inches = length.inches();
        if !(0.0..=LONGEST_TAKEN).contains(&inches) {
            let (what, high, unit) = (Phrase("trade-vent-length"), LONGEST_TAKEN, "in");
            return Err(TradeError::OutOfRange { what, value: inches, low: 0.0, high, unit });
        }
        if drain.is_none() && units.is_none() {
            let mend = Phrase("trade-give-one-them");
            return Err(TradeError::Clash { what: say!("trade-neither-drain-size-nor"), mend });
        }
        if flat.is_some_and(|f| f.inches() > inches) {
            let what = say!("trade-horizontal-part-longer-than");
            return Err(TradeError::Clash { what, mend: Phrase("trade-developed-length-holds-horizontal") });
        }
        Ok(Self { drain, units, length, flat, existing })
    }
    fn feet(&self) -> f64 {
        self.length.inches() / FOOT
    }
    fn flat_feet(&self) -> Option<f64> {
        self.flat.map(|f| f.inches() / FOOT)
    }
    /// Chance that a size does not do by the lengths as read. Length and flat part are read apart, so their errors
    /// are independent.
    fn chance_beyond(&self, rules: &Rules, size: Size, units: Option<FixtureUnits>) -> f64 {
        if !rules.carries(size, units) {
            return 1.0;
        }
        let over = |reading: Reading, most: Option<f64>, source: Phrase| {
            let spread = Budget::new().with(source, 1.0, reading.sigma(LENGTH_SIGMA));
            most.map_or(0.0, |feet| spread.chance_over(reading.inches(), feet * FOOT))
        };
        let whole = over(self.length, rules.longest(size), Phrase("trade-developed-length-2"));
        let flat =
            self.flat.map_or(0.0, |f| over(f, rules.longest_flat(size), Phrase("trade-horizontal-part-2")));
        either([whole, flat])
    }
}

/// What stands beside every answer.
pub const CAUTION: Phrase = Phrase("trade-screening-answer-pricing-not-approval-licensed-plumber");

/// Holds a vent against the firm's book, or against every plumbing book.
///
/// # Errors
/// A book without the rules.
pub fn judge(plan: &VentPlan, shelf: &Shelf) -> Result<Sheet, TradeError> {
    by_book(shelf, CAUTION, |book| under(plan, book))
}

fn under(plan: &VentPlan, book: &Book) -> Result<Sized, TradeError> {
    let mut assumed = Vec::new();
    let drain = match (plan.drain, plan.units) {
        (Some(drain), _) => drain,
        (None, Some(units)) => {
            let table = cite::table(book, "horizontal-branch")?;
            let Ok(drain) = by_units(table, units, Phrase("trade-load-horizontal-branch")) else {
                let sentence =
                    say!("trade-has-no-drain-dfu", title = &book.title, units = show_number(units.get()));
                let missing = [say!("trade-drain-size")].into();
                return Ok((Sheet::cannot_say(sentence, missing, CAUTION), Said::nothing()));
            };
            let value = say!("trade-smallest-horizontal-branch-load", name = drain.name);
            assumed.push(Assumed::new(say!("trade-drain-size-2", title = &book.title), value));
            drain
        }
        (None, None) => return Err(TradeError::NotFinite { what: Phrase("trade-drain-size") }),
    };
    let rules = Rules::of(book, drain.inches)?;
    let (feet, flat) = (plan.feet(), plan.flat_feet());
    let Ok(needed) = rules.smallest(plan.units, feet, flat) else {
        let sentence = say!("trade-no-size-table-does", title = &book.title);
        let missing = [say!("trade-vent-beyond-table-shorter")].into();
        return Ok((Sheet::cannot_say(sentence, missing, CAUTION), Said::nothing()));
    };
    // Without the load its column is left out; a full drain shows how much that can matter.
    let full = (rules.asks_load() && plan.units.is_none())
        .then(|| book.table("horizontal-branch")?.row(drain.name))
        .flatten();
    let full_units = full.map(FixtureUnits::new).transpose()?;
    let full_size = full_units.and_then(|units| rules.smallest(Some(units), feet, flat).ok());
    let unknown = full_size.filter(|s| s.inches > needed.inches);
    let mut sheet = held(plan, &rules, needed, full_units);
    if let (Some(full), Some(size)) = (full, unknown) {
        let (units, size) = (show_number(full), size.name);
        if plan.existing.is_none() {
            sheet.sentence = say!("trade-least-drain-length-fixture", name = needed.name, size = size);
        }
        let title = &book.title;
        sheet.note(say!(
            "trade-fixture-units-were-not",
            title = title,
            name = drain.name,
            units = units,
            size = size
        ));
    }
    lines(plan, &rules, drain, needed, &mut sheet);
    sheet.limits = rules.limits(plan.existing.unwrap_or(needed), flat.is_some())?;
    if plan.length.tolerance.is_none() || plan.flat.is_some_and(|f| f.tolerance.is_none()) {
        let value = show_inches(2.0 * LENGTH_SIGMA);
        sheet.limits.push(Limit::practice(Phrase("trade-tolerance-vent-paced-off"), value));
    }
    notes(plan, book, &rules, needed, &mut sheet);
    sheet.assumed = assumed;
    let spread = Budget::new().with(Phrase("trade-developed-length-2"), 1.0, plan.length.sigma(LENGTH_SIGMA));
    sheet.sigma = Some(say!("trade-in", sigma = format!("{:.3}", spread.sigma())));
    sheet.picture = picture(plan, &rules, needed);
    let size = if unknown.is_some() {
        say!("trade-least-4", name = needed.name)
    } else {
        say!("trade-in", sigma = needed.name)
    };
    Ok((sheet, size))
}

/// The standing and its sentence. `full` are the units of a full drain where the load was not given.
fn held(plan: &VentPlan, rules: &Rules, needed: Size, full: Option<FixtureUnits>) -> Sheet {
    let feet = show_number(plan.feet());
    let smallest = say!("trade-smallest-vent-over-ft-developed", name = needed.name, feet = &feet);
    let Some(size) = plan.existing else {
        let mut sheet = Sheet::new(
            Standing::Quantity,
            say!("trade-smallest-vent-over-ft", name = needed.name, feet = &feet),
            CAUTION,
        );
        let more = plan.chance_beyond(rules, needed, plan.units);
        if !is_enough(more) {
            sheet.note(say!("trade-route-read-may-long", more = in_100(more)));
        }
        return sheet;
    };
    let least = plan.chance_beyond(rules, size, plan.units);
    let most = full.map_or(least, |units| plan.chance_beyond(rules, size, Some(units)));
    let (lenient, strict) = (Standing::of_chance(least), Standing::of_chance(most));
    if lenient != strict {
        let sentence = say!("trade-whether-does-depends-fixture", name = size.name, smallest = smallest);
        return Sheet::cannot_say(sentence, [say!("trade-fixture-units")].into(), CAUTION);
    }
    let how = strict.lies();
    let sentence = say!(
        "trade-table-value-vent-chance",
        name = size.name,
        how = how,
        smallest = smallest,
        most = in_100(most)
    );
    let mut sheet = Sheet::new(strict, sentence, CAUTION);
    sheet.chance_beyond = Some(most);
    if strict != Standing::Within {
        changes(plan, rules, size, needed, &mut sheet);
    }
    sheet
}

/// What alone would put the vent within: a larger one, or a shorter route.
fn changes(plan: &VentPlan, rules: &Rules, size: Size, needed: Size, sheet: &mut Sheet) {
    let larger = rules.sizes().find(|s| {
        s.inches > size.inches
            && s.inches >= needed.inches
            && is_enough(plan.chance_beyond(rules, *s, plan.units))
    });
    if let Some(larger) = larger {
        let text = say!("trade-vent-whole-length-place", name = larger.name, name2 = size.name);
        sheet.changes.push(Change::new(text, true));
    }
    if !rules.carries(size, plan.units) {
        return;
    }
    let over = |reading: Option<Reading>, most: Option<f64>, less: f64| match (reading, most) {
        (Some(r), Some(m)) => {
            let spread = Budget::new().with(Phrase("trade-reading"), 1.0, r.sigma(LENGTH_SIGMA));
            spread.chance_over(r.inches() - less, m * FOOT)
        }
        _ => 0.0,
    };
    let (whole, flat) = (Some(plan.length), plan.flat);
    let by_length = |less: f64| over(whole, rules.longest(size), less);
    let by_flat = |less: f64| over(flat, rules.longest_flat(size), less);
    let mut shorter = |reading: Reading, name: Phrase, own: &dyn Fn(f64) -> f64, other: f64| {
        let most = reading.inches();
        let alone = least(FOOT, most, |less| either([own(less), other])).filter(|by| *by > 0.0);
        // What is left over by the other limit is said to be not enough.
        if let Some(by) = alone.or_else(|| least(FOOT, most, own).filter(|by| *by > 0.0)) {
            let text = say!("trade-shorter-ft-2", name = name, foot = show_number(by / FOOT));
            sheet.changes.push(Change::new(text, alone.is_some()));
        }
    };
    shorter(plan.length, Phrase("trade-route"), &by_length, by_flat(0.0));
    if let Some(flat) = plan.flat {
        shorter(flat, Phrase("trade-horizontal-part-3"), &by_flat, by_length(0.0));
    }
}

fn lines(plan: &VentPlan, rules: &Rules, drain: Size, needed: Size, sheet: &mut Sheet) {
    let (half, least, base) = (show_inches(rules.half), show_inches(rules.least), rules.base.name);
    sheet.line(
        Phrase("trade-half-drain"),
        say!(
            "trade-least-2",
            drain = show_inches(drain.inches),
            half = show_number(drain.inches / rules.half),
            half2 = half,
            least = least,
            base = base
        ),
    );
    let (feet, flat) = (show_number(plan.feet()), plan.flat_feet());
    for size in plan.existing.into_iter().filter(|s| *s != needed).chain([needed]) {
        let name = size.name;
        if let (Some(carries), Some(units)) = (rules.load_of(size), plan.units) {
            let (units, carries) = (show_number(units.get()), show_number(carries));
            sheet.line(
                say!("trade-load-2", name = name),
                say!("trade-dfu-against-dfu-most", units = units, carries = carries),
            );
        }
        let text = match rules.longest(size) {
            Some(most) => say!("trade-ft-against-ft-most-2", feet = &feet, most = show_number(most)),
            None => say!("trade-ft-book-sets-no", feet = &feet),
        };
        sheet.line(say!("trade-developed-length", name = name), text);
        if let (Some(most), Some(flat), Some(whole), Some(part)) =
            (rules.longest_flat(size), flat, rules.longest(size), rules.part)
        {
            let [flat, whole, part, most] = [flat, whole, part, most].map(show_number);
            sheet.line(
                say!("trade-horizontal-part", name = name),
                say!("trade-ft-against-ft-most", flat = flat, whole = whole, part = part, most = most),
            );
        }
    }
    sheet.line(Phrase("trade-smallest-vent"), say!("trade-in", sigma = needed.name));
}

fn notes(plan: &VentPlan, book: &Book, rules: &Rules, needed: Size, sheet: &mut Sheet) {
    let size = plan.existing.unwrap_or(needed);
    if let (Some(most), Some(part)) = (rules.longest_flat(size), rules.part) {
        match plan.flat_feet() {
            None => sheet.note(Phrase("trade-horizontal-part-was-not")),
            Some(flat) if flat <= most && flat > plan.feet() / part => {
                sheet.note(Phrase("trade-horizontal-part-over-third"))
            }
            Some(_) => {}
        }
    }
    if book.table("vent-size-up").is_some() {
        sheet.note(Phrase("trade-upc-memory-vent-one"));
    }
}

/// Flat and rising parts against what the table permits; nothing where it permits any length.
fn picture(plan: &VentPlan, rules: &Rules, needed: Size) -> Option<Picture> {
    let flat = plan.flat_feet().unwrap_or_default();
    let mut parts = Vec::new();
    if flat > 0.0 {
        parts.push((Phrase("trade-horizontal").into(), flat, plan.existing.is_none()));
    }
    let rest = if plan.flat.is_some() { Phrase("trade-rising") } else { Phrase("trade-developed-length-2") };
    parts.push((rest.into(), plan.feet() - flat, plan.existing.is_none()));
    let sizes = plan.existing.into_iter().filter(|s| *s != needed).chain([needed]);
    let carries: Vec<_> =
        sizes.filter_map(|s| Some((say!("trade-in", sigma = s.name), rules.longest(s)?))).collect();
    (!carries.is_empty()).then(|| Picture::Load(LoadBar { unit: "ft".into(), parts, carries }))
}

const FIELDS: &[Field] = &[
    Field::may("drain", Phrase("trade-what-size-drain-vented"), Kind::Word(drain_fields::SIZES)),
    Field::may(
        "units",
        Phrase("trade-how-many-fixture-units-drain"),
        Kind::Number { unit: "DFU", min: 0.0, max: FixtureUnits::MOST },
    ),
    Field::must(
        "length",
        Phrase("trade-how-long-vent-open"),
        Kind::Length { min: 0.0, max: LONGEST_TAKEN, feet: true },
    ),
    Field::may(
        "horizontal",
        Phrase("trade-how-much-lies-flat"),
        Kind::Length { min: 0.0, max: LONGEST_TAKEN, feet: true },
    ),
    Field::may("existing", Phrase("trade-what-size-vent-there"), Kind::Word(drain_fields::SIZES)),
];

/// The calculation.
pub const CALCULATION: Calculation = Calculation {
    word: "vent-size",
    title: Phrase("trade-vent-size-2"),
    about: Phrase("trade-smallest-vent-drain-load"),
    fields: FIELDS,
    run,
};

fn run(given: &Given, catalog: &Catalog) -> Result<Sheet, TradeError> {
    let drain = given.word("drain").and_then(Size::named);
    let units = given.number("units").map(FixtureUnits::new).transpose()?;
    let mut missing = given.missing(FIELDS);
    if drain.is_none() && units.is_none() {
        missing.insert(0, say!("trade-drain-size-fixture-units"));
    }
    let Some(length) = given.length("length").filter(|_| missing.is_empty()) else {
        let sentence = Phrase("trade-without-drain-load-length");
        return Ok(Sheet::cannot_say(sentence, missing, CAUTION));
    };
    let existing = given.word("existing").and_then(Size::named);
    let plan = match VentPlan::new(drain, units, length, given.length("horizontal"), existing) {
        Ok(plan) => plan,
        Err(TradeError::Clash { what, mend }) => {
            let sentence = say!("trade-cannot-say", what = what, mend = mend);
            let missing = [say!("trade-lengths-go-together")].into();
            return Ok(Sheet::cannot_say(sentence, missing, CAUTION));
        }
        Err(other) => return Err(other),
    };
    let mut sheet = judge(&plan, &catalog.shelf)?;
    for assumed in given.assumed() {
        sheet.assumed.push(assumed.clone());
    }
    Ok(sheet)
}
