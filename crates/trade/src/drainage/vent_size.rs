//! The calculation `vent-size`: the smallest vent for a drain, its load and its route, and how a vent that is there
//! lies to it.

use alloc::{format, string::String, vec::Vec};

use survey::catalog::{Book, Catalog, Shelf};

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
            let (what, high, unit) = ("vent length", LONGEST_TAKEN, "in");
            return Err(TradeError::OutOfRange { what, value: inches, low: 0.0, high, unit });
        }
        if drain.is_none() && units.is_none() {
            let mend = "give one of them";
            return Err(TradeError::Clash { what: "neither drain size nor fixture units".into(), mend });
        }
        if flat.is_some_and(|f| f.inches() > inches) {
            let what = "the horizontal part is longer than the whole vent".into();
            return Err(TradeError::Clash { what, mend: "the developed length holds the horizontal part" });
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
        let over = |reading: Reading, most: Option<f64>, source: &str| {
            let spread = Budget::new().with(source, 1.0, reading.sigma(LENGTH_SIGMA));
            most.map_or(0.0, |feet| spread.chance_over(reading.inches(), feet * FOOT))
        };
        let whole = over(self.length, rules.longest(size), "developed length");
        let flat = self.flat.map_or(0.0, |f| over(f, rules.longest_flat(size), "horizontal part"));
        either([whole, flat])
    }
}

/// What stands beside every answer.
pub const CAUTION: &str = "A screening answer for pricing, not an approval. A licensed plumber sizes and routes the \
    vent; the local plumbing code as adopted and its inspector govern.";

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
            let Ok(drain) = by_units(table, units, "load of a horizontal branch") else {
                let sentence = format!("{} has no drain for {} DFU.", book.title, show_number(units.get()));
                let missing = ["drain size".into()].into();
                return Ok((Sheet::cannot_say(sentence, missing, CAUTION), String::new()));
            };
            let value = format!("{} in: smallest horizontal branch for the load", drain.name);
            assumed.push(Assumed { item: format!("drain size, {}", book.title), value });
            drain
        }
        (None, None) => return Err(TradeError::NotFinite { what: "drain size" }),
    };
    let rules = Rules::of(book, drain.inches)?;
    let (feet, flat) = (plan.feet(), plan.flat_feet());
    let Ok(needed) = rules.smallest(plan.units, feet, flat) else {
        let sentence = format!("No size in the table of {} does for this vent.", book.title);
        let missing = ["a vent beyond the table, or a shorter route".into()].into();
        return Ok((Sheet::cannot_say(sentence, missing, CAUTION), String::new()));
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
            sheet.sentence = format!(
                "At least {} in by drain and length; the fixture units, which were not given, may ask for up to {size} in.",
                needed.name
            );
        }
        let title = &book.title;
        sheet.note(format!(
            "Fixture units were not given, so the load column of {title} is left out: a {} in drain full at {units} \
             DFU would ask for {size} in.",
            drain.name
        ));
    }
    lines(plan, &rules, drain, needed, &mut sheet);
    sheet.limits = rules.limits(plan.existing.unwrap_or(needed), flat.is_some())?;
    if plan.length.tolerance.is_none() || plan.flat.is_some_and(|f| f.tolerance.is_none()) {
        let value = show_inches(2.0 * LENGTH_SIGMA);
        sheet.limits.push(Limit::practice("Tolerance of a vent paced off, two standard deviations", value));
    }
    notes(plan, book, &rules, needed, &mut sheet);
    sheet.assumed = assumed;
    let spread = Budget::new().with("developed length", 1.0, plan.length.sigma(LENGTH_SIGMA));
    sheet.sigma = Some(format!("{:.3} in", spread.sigma()));
    sheet.picture = picture(plan, &rules, needed);
    let at_least = if unknown.is_some() { "at least " } else { "" };
    Ok((sheet, format!("{at_least}{} in", needed.name)))
}

/// The standing and its sentence. `full` are the units of a full drain where the load was not given.
fn held(plan: &VentPlan, rules: &Rules, needed: Size, full: Option<FixtureUnits>) -> Sheet {
    let feet = show_number(plan.feet());
    let smallest = format!("smallest vent {} in over {feet} ft of developed length", needed.name);
    let Some(size) = plan.existing else {
        let mut sheet = Sheet::new(
            Standing::Quantity,
            format!("Smallest vent {} in over {feet} ft of developed length.", needed.name),
            CAUTION,
        );
        let more = plan.chance_beyond(rules, needed, plan.units);
        if !is_enough(more) {
            sheet.note(format!(
                "The route as read may be long enough to ask for the next size: {}.",
                in_100(more)
            ));
        }
        return sheet;
    };
    let least = plan.chance_beyond(rules, size, plan.units);
    let most = full.map_or(least, |units| plan.chance_beyond(rules, size, Some(units)));
    let (lenient, strict) = (Standing::of_chance(least), Standing::of_chance(most));
    if lenient != strict {
        let sentence = format!(
            "Whether {} in does depends on the fixture units, which were not given; {smallest} by drain and length.",
            size.name
        );
        return Sheet::cannot_say(sentence, ["fixture units".into()].into(), CAUTION);
    }
    let how = strict.lies();
    let sentence = format!(
        "{} in is {how} the table value of a vent; {smallest}; chance that it lies beyond: {}.",
        size.name,
        in_100(most)
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
        let text = format!("a {} in vent for its whole length in place of {} in", larger.name, size.name);
        sheet.changes.push(Change { text, enough: true });
    }
    if !rules.carries(size, plan.units) {
        return;
    }
    let over = |reading: Option<Reading>, most: Option<f64>, less: f64| match (reading, most) {
        (Some(r), Some(m)) => {
            let spread = Budget::new().with("reading", 1.0, r.sigma(LENGTH_SIGMA));
            spread.chance_over(r.inches() - less, m * FOOT)
        }
        _ => 0.0,
    };
    let (whole, flat) = (Some(plan.length), plan.flat);
    let by_length = |less: f64| over(whole, rules.longest(size), less);
    let by_flat = |less: f64| over(flat, rules.longest_flat(size), less);
    let mut shorter = |reading: Reading, name: &str, own: &dyn Fn(f64) -> f64, other: f64| {
        let most = reading.inches();
        let alone = least(FOOT, most, |less| either([own(less), other])).filter(|by| *by > 0.0);
        // What is left over by the other limit is said to be not enough.
        if let Some(by) = alone.or_else(|| least(FOOT, most, own).filter(|by| *by > 0.0)) {
            let text = format!("{name} shorter by {} ft", show_number(by / FOOT));
            sheet.changes.push(Change { text, enough: alone.is_some() });
        }
    };
    shorter(plan.length, "a route", &by_length, by_flat(0.0));
    if let Some(flat) = plan.flat {
        shorter(flat, "a horizontal part", &by_flat, by_length(0.0));
    }
}

fn lines(plan: &VentPlan, rules: &Rules, drain: Size, needed: Size, sheet: &mut Sheet) {
    let (half, least, base) = (show_inches(rules.half), show_inches(rules.least), rules.base.name);
    sheet.line(
        "Half the drain",
        format!(
            "{} ÷ {} = {half}, {least} at least: {base} in",
            show_inches(drain.inches),
            show_number(drain.inches / rules.half)
        ),
    );
    let (feet, flat) = (show_number(plan.feet()), plan.flat_feet());
    for size in plan.existing.into_iter().filter(|s| *s != needed).chain([needed]) {
        let name = size.name;
        if let (Some(carries), Some(units)) = (rules.load_of(size), plan.units) {
            let (units, carries) = (show_number(units.get()), show_number(carries));
            sheet.line(format!("{name} in, load"), format!("{units} DFU against {carries} DFU at most"));
        }
        let text = match rules.longest(size) {
            Some(most) => format!("{feet} ft against {} ft at most", show_number(most)),
            None => format!("{feet} ft; the book sets no length for this size here"),
        };
        sheet.line(format!("{name} in, developed length"), text);
        if let (Some(most), Some(flat), Some(whole), Some(part)) =
            (rules.longest_flat(size), flat, rules.longest(size), rules.part)
        {
            let [flat, whole, part, most] = [flat, whole, part, most].map(show_number);
            sheet.line(
                format!("{name} in, horizontal part"),
                format!("{flat} ft against {whole} ÷ {part} = {most} ft at most"),
            );
        }
    }
    sheet.line("Smallest vent", format!("{} in", needed.name));
}

fn notes(plan: &VentPlan, book: &Book, rules: &Rules, needed: Size, sheet: &mut Sheet) {
    let size = plan.existing.unwrap_or(needed);
    if let (Some(most), Some(part)) = (rules.longest_flat(size), rules.part) {
        match plan.flat_feet() {
            None => sheet.note("The horizontal part was not given, so it is not held against its third."),
            Some(flat) if flat <= most && flat > plan.feet() / part => sheet.note(
                "The horizontal part is over a third of the vent's own length, though under a third of the length \
                 the table permits: an office that reads the rule of the vent's own length would ask for more.",
            ),
            Some(_) => {}
        }
    }
    if book.table("vent-size-up").is_some() {
        sheet.note(
            "UPC, from memory: a vent one size larger than it need be, for its whole length, leaves the length limit.",
        );
    }
}

/// Flat and rising parts against what the table permits; nothing where it permits any length.
fn picture(plan: &VentPlan, rules: &Rules, needed: Size) -> Option<Picture> {
    let flat = plan.flat_feet().unwrap_or_default();
    let mut parts = Vec::new();
    if flat > 0.0 {
        parts.push(("horizontal".into(), flat, plan.existing.is_none()));
    }
    let rest = if plan.flat.is_some() { "rising" } else { "developed length" };
    parts.push((rest.into(), plan.feet() - flat, plan.existing.is_none()));
    let sizes = plan.existing.into_iter().filter(|s| *s != needed).chain([needed]);
    let carries: Vec<_> = sizes.filter_map(|s| Some((format!("{} in", s.name), rules.longest(s)?))).collect();
    (!carries.is_empty()).then(|| Picture::Load(LoadBar { unit: "ft".into(), parts, carries }))
}

const FIELDS: &[Field] = &[
    Field::may("drain", "What size is the drain that is vented?", Kind::Word(drain_fields::SIZES)),
    Field::may(
        "units",
        "How many fixture units drain into it?",
        Kind::Number { unit: "DFU", min: 0.0, max: FixtureUnits::MOST },
    ),
    Field::must(
        "length",
        "How long is the vent to the open air, flat and rising together?",
        Kind::Length { min: 0.0, max: LONGEST_TAKEN, feet: true },
    ),
    Field::may(
        "horizontal",
        "How much of it lies flat?",
        Kind::Length { min: 0.0, max: LONGEST_TAKEN, feet: true },
    ),
    Field::may("existing", "What size is the vent there?", Kind::Word(drain_fields::SIZES)),
];

/// The calculation.
pub const CALCULATION: Calculation = Calculation {
    word: "vent-size",
    title: "Vent size",
    about: "The smallest vent for a drain, its load and its route, and how the vent there lies to it.",
    fields: FIELDS,
    run,
};

fn run(given: &Given, catalog: &Catalog) -> Result<Sheet, TradeError> {
    let drain = given.word("drain").and_then(Size::named);
    let units = given.number("units").map(FixtureUnits::new).transpose()?;
    let mut missing = given.missing(FIELDS);
    if drain.is_none() && units.is_none() {
        missing.insert(0, "drain size or fixture units".into());
    }
    let Some(length) = given.length("length").filter(|_| missing.is_empty()) else {
        let sentence = "Without the drain or its load, and the length of the vent, nothing can be said.";
        return Ok(Sheet::cannot_say(sentence, missing, CAUTION));
    };
    let existing = given.word("existing").and_then(Size::named);
    let plan = match VentPlan::new(drain, units, length, given.length("horizontal"), existing) {
        Ok(plan) => plan,
        Err(TradeError::Clash { what, mend }) => {
            let sentence = format!("Cannot say: {what}; {mend}.");
            let missing = ["lengths that go together".into()].into();
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
