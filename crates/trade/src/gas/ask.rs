//! What a gas run asks, and when nothing can be said: other pipe than steel, other gas than natural, 2 psi.

use alloc::{vec, vec::Vec};

use survey::catalog::{Book, Catalog, Family};
use survey::said::in_catalog;
use survey::{Phrase, Said, say};

use super::capacity::{Drop, SIZES, inside};
use super::form::{Form, Pipe, as_printed};
use super::loads::{self, Appliance, words, written};
use super::plan::{Fittings, GasPlan, HeatingValue, LONGEST, RunLength, SHORTEST, Segment};
use super::run::{CAUTION, feet, flow, judge};
use crate::calculation::Calculation;
use crate::cite;
use crate::error::TradeError;
use crate::given::{Field, Given, Kind, spoken};
use crate::sheet::{Assumed, Sheet, Standing};

const APPLIANCE: &[Field] = &[
    Field::must("appliance", Phrase("trade-which-appliance"), Kind::Text),
    Field::may(
        "input",
        Phrase("trade-what-input-does-nameplate"),
        Kind::Number { unit: "Btu/h", min: 0.0, max: 5e6 },
    ),
];

const FITTING: &[Field] = &[
    Field::must("kind", Phrase("trade-which-fitting"), Kind::Word(&["elbow", "tee"])),
    Field::must("count", Phrase("trade-how-many-them"), Kind::Number { unit: "", min: 1.0, max: 99.0 }),
    Field::or("segment", Phrase("trade-where-2"), Kind::Word(&["trunk", "branch"]), "trunk"),
];

const RUN: Kind = Kind::Length { min: 12.0 * SHORTEST, max: 12.0 * LONGEST, feet: true };
const PART: Kind = Kind::Length { min: 0.0, max: 12.0 * LONGEST, feet: true };

/// What is asked.
const FIELDS: &[Field] = &[
    Field::must(
        "pipe",
        Phrase("trade-what-pipe-made"),
        Kind::Word(&["steel", "corrugated", "copper", "other"]),
    ),
    Field::or("gas", Phrase("trade-which-gas"), Kind::Word(&["natural", "propane"]), "natural"),
    Field::must("length", Phrase("trade-how-long-pipe-meter"), RUN),
    Field::must("trunk", Phrase("trade-what-size-trunk-meter"), Kind::Word(&SIZES)),
    Field::may("branch", Phrase("trade-what-size-branch-what"), Kind::Word(&SIZES)),
    Field::must("existing", Phrase("trade-what-hangs-pipe-now"), Kind::Rows(APPLIANCE)),
    Field::may("planned", Phrase("trade-what-planned-wished-later"), Kind::Rows(APPLIANCE)),
    Field::or(
        "heating-value",
        Phrase("trade-how-much-heat-cubic"),
        Kind::Number { unit: "Btu/ft³", min: HeatingValue::LEAST, max: HeatingValue::MOST },
        "1000",
    ),
    Field::or("drop", Phrase("trade-how-much-pressure-may"), Kind::Word(&["0.5", "3.0", "2 psi"]), "0.5"),
    Field::or("gravity", Phrase("trade-which-specific-gravity-has"), Kind::Word(&["0.60", "0.65"]), "0.60"),
    Field::may("fittings", Phrase("trade-which-screwed-fittings-lie"), Kind::Rows(FITTING)),
    Field::may("trunk-length", Phrase("trade-how-far-meter-where"), PART),
    Field::may("own-run", Phrase("trade-how-far-would-pipe"), PART),
];

/// What this file answers.
pub(super) const CALCULATION: Calculation = Calculation {
    word: "gas-run",
    title: Phrase("trade-gas-run"),
    about: Phrase("trade-what-gas-pipe-carries"),
    fields: FIELDS,
    run,
};

fn run(given: &Given, catalog: &Catalog) -> Result<Sheet, TradeError> {
    let (books, _) = cite::books(&catalog.shelf, Family::Gas)?;
    let Some(book) = books.first().copied() else {
        return Err(TradeError::NoBook { family: Family::Gas.word() });
    };
    let (existing, mut unknown) = loads::read(book, given.rows("existing"))?;
    let (planned, more) = loads::read(book, given.rows("planned"))?;
    unknown.extend(more);
    let mut sheet = match without_table(given, book)? {
        Some((why, missing)) => Sheet::cannot_say(why, missing, CAUTION),
        None => answer(given, catalog, book, (existing.clone(), planned.clone()), unknown)?,
    };
    if sheet.lines.is_empty() {
        written_loads(&existing, &planned, &mut sheet);
    }
    let natural = given.word("gas") == Some("natural");
    // Where nothing can be said the defaults were not used.
    if sheet.standing != Standing::CannotSay {
        sheet.assumed.extend(given.assumed().iter().map(with_unit));
    }
    if !natural {
        propane_note(given, book, &mut sheet)?;
    }
    Ok(sheet)
}

/// A default with the unit it is said in.
fn with_unit(assumed: &Assumed) -> Assumed {
    let unit = if assumed.item == spoken("heating-value") {
        in_catalog("unit", "Btu/ft³")
    } else if assumed.item == spoken("drop") {
        say!("trade-w-c")
    } else {
        Said::nothing()
    };
    Assumed::new(&assumed.item, Said::between(" ", [assumed.value.clone(), unit]))
}

/// Why no table here covers what was given, and what would have to be had.
fn without_table(given: &Given, book: &Book) -> Result<Option<(Said, Vec<Said>)>, TradeError> {
    let (why, missing): (Said, Phrase) = match (given.word("pipe"), given.word("gas"), given.word("drop")) {
        (Some("corrugated"), _, _) => {
            let (hint, limit) = cite::value(book, "corrugated-hint")?;
            let steel = super::capacity::row(book, Drop::Half, 60.0)?.first().copied().unwrap_or_default();
            let why = say!(
                "trade-corrugated-tube-sized-makers",
                hint = flow(hint),
                clause = limit.clause,
                steel = flow(steel)
            );
            (why, Phrase("trade-sizing-table-tubes-maker"))
        }
        (Some("copper"), _, _) => (say!("trade-copper-has-gas-tables"), Phrase("trade-copper-table")),
        (Some("other"), _, _) => (say!("trade-no-table-here-covers"), Phrase("trade-what-pipe-sizing-table")),
        (_, Some("propane"), _) => {
            (say!("trade-propane-has-tables-own"), Phrase("trade-propane-table-this-pipe"))
        }
        (_, _, Some("2 psi")) => (Phrase("trade-piping-2-psi-has").into(), Phrase("trade-2-psi-table-where")),
        _ => return Ok(None),
    };
    Ok(Some((why, vec![missing.into()])))
}

fn answer(
    given: &Given,
    catalog: &Catalog,
    book: &Book,
    (existing, planned): (Vec<Appliance>, Vec<Appliance>),
    unknown: Vec<Said>,
) -> Result<Sheet, TradeError> {
    let mut missing = given.missing(FIELDS);
    let no_input = !unknown.is_empty();
    missing.extend(unknown);
    let (Some(length), Some(trunk), true) = (given.length("length"), given.word("trunk"), missing.is_empty())
    else {
        let why = Phrase("trade-without-kind-size-length");
        let mut sheet = Sheet::cannot_say(why, missing, CAUTION);
        if no_input {
            sheet.note(say!("trade-typical-inputs-known", book = words(book).join(", ")));
        }
        return Ok(sheet);
    };
    let within = |name| given.length(name).is_none_or(|part| part.inches() <= length.inches() + 1e-6);
    if !within("trunk-length") {
        let why = Phrase("trade-trunk-longer-than-longest");
        return Ok(Sheet::cannot_say(why, vec![say!("trade-length-trunk-length-agree")], CAUTION));
    }
    let plan = GasPlan {
        length: RunLength::new(length)?,
        trunk,
        branch: given.word("branch"),
        drop: if given.word("drop") == Some("3.0") { Drop::Three } else { Drop::Half },
        gravity: given.word("gravity").unwrap_or("0.60"),
        heating_value: HeatingValue::new(given.number("heating-value").unwrap_or(1000.0))?,
        existing,
        planned,
        fittings: given.rows("fittings").iter().filter_map(fittings).collect(),
        trunk_length: given.length("trunk-length"),
        own_run: given.length("own-run"),
    };
    judge(&plan, &catalog.shelf)
}

fn fittings(row: &Given) -> Option<Fittings> {
    let segment = if row.word("segment") == Some("branch") { Segment::Branch } else { Segment::Trunk };
    // A part of a fitting is a slip; the next whole one errs to the longer run.
    let count = libm::ceil(row.number("count")?) as u32;
    Some(Fittings { kind: row.word("kind")?, count, segment })
}

fn written_loads(existing: &[Appliance], planned: &[Appliance], sheet: &mut Sheet) {
    for (label, appliances) in [(Phrase("trade-load-now"), existing), (Phrase("trade-load-planned"), planned)]
    {
        if !appliances.is_empty() {
            sheet.line(label, written(appliances));
        }
    }
    sheet.assumed.extend(loads::assumed(existing));
    sheet.assumed.extend(loads::assumed(planned));
}

/// What the form alone gives for propane in steel: a note, never a result.
fn propane_note(given: &Given, book: &Book, sheet: &mut Sheet) -> Result<(), TradeError> {
    let (Some("steel"), Some("0.5" | "3.0"), Some(size), Some(length)) =
        (given.word("pipe"), given.word("drop"), given.word("trunk"), given.length("length"))
    else {
        return Ok(());
    };
    let drop = if given.word("drop") == Some("3.0") { Drop::Three } else { Drop::Half };
    let (factor, limit) = cite::row(book, "gas-factor", "propane")?;
    let run = RunLength::new(length)?.feet();
    let pipe = Pipe { inside: inside(book, size)?.0, feet: run, drop: drop.inches(), factor };
    let cfh = as_printed(Form::of(book)?.cfh(pipe)?);
    sheet.note(say!(
        "trade-2313-form-c-r",
        factor = factor,
        size = size,
        cfh = flow(cfh),
        run = feet(run),
        drop = drop.inches()
    ));
    sheet.limits.push(limit);
    sheet.limits.push(Form::limit(book)?);
    Ok(())
}
