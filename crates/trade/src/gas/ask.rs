//! What a gas run asks, and when nothing can be said: other pipe than steel, other gas than natural, 2 psi.

use alloc::{
    format,
    string::{String, ToString},
    vec,
    vec::Vec,
};

use survey::catalog::{Book, Catalog, Family};

use super::capacity::{Drop, SIZES, inside};
use super::form::{Form, Pipe, as_printed};
use super::loads::{self, Appliance, words, written};
use super::plan::{Fittings, GasPlan, HeatingValue, LONGEST, RunLength, SHORTEST, Segment};
use super::run::{CAUTION, feet, flow, judge};
use crate::calculation::Calculation;
use crate::cite;
use crate::error::TradeError;
use crate::given::{Field, Given, Kind};
use crate::sheet::{Assumed, Sheet, Standing};

const APPLIANCE: &[Field] = &[
    Field::must("appliance", "Which appliance?", Kind::Text),
    Field::may(
        "input",
        "What input does its nameplate give? Left out, a typical one is taken where the table knows the kind.",
        Kind::Number { unit: "Btu/h", min: 0.0, max: 5e6 },
    ),
];

const FITTING: &[Field] = &[
    Field::must("kind", "Which fitting?", Kind::Word(&["elbow", "tee"])),
    Field::must("count", "How many of them?", Kind::Number { unit: "", min: 1.0, max: 99.0 }),
    Field::or("segment", "Where?", Kind::Word(&["trunk", "branch"]), "trunk"),
];

const RUN: Kind = Kind::Length { min: 12.0 * SHORTEST, max: 12.0 * LONGEST, feet: true };
const PART: Kind = Kind::Length { min: 0.0, max: 12.0 * LONGEST, feet: true };

/// What is asked.
const FIELDS: &[Field] = &[
    Field::must("pipe", "What is the pipe made of?", Kind::Word(&["steel", "corrugated", "copper", "other"])),
    Field::or("gas", "Which gas?", Kind::Word(&["natural", "propane"]), "natural"),
    Field::must(
        "length",
        "How long is the pipe from the meter to the farthest appliance, the planned one included?",
        RUN,
    ),
    Field::must("trunk", "What size is the trunk from the meter?", Kind::Word(&SIZES)),
    Field::may("branch", "What size is the branch to what is planned?", Kind::Word(&SIZES)),
    Field::must(
        "existing",
        "What hangs on the pipe now? Write “none, 0” for nothing.",
        Kind::Rows(APPLIANCE),
    ),
    Field::may("planned", "What is planned or wished for later?", Kind::Rows(APPLIANCE)),
    Field::or(
        "heating-value",
        "How much heat is in a cubic foot of the gas?",
        Kind::Number { unit: "Btu/ft³", min: HeatingValue::LEAST, max: HeatingValue::MOST },
        "1000",
    ),
    Field::or(
        "drop",
        "How much pressure may the pipe lose, in inches of water column?",
        Kind::Word(&["0.5", "3.0", "2 psi"]),
        "0.5",
    ),
    Field::or("gravity", "Which specific gravity has the gas?", Kind::Word(&["0.60", "0.65"]), "0.60"),
    Field::may("fittings", "Which screwed fittings lie along the longest run?", Kind::Rows(FITTING)),
    Field::may("trunk-length", "How far is it from the meter to where the branch leaves?", PART),
    Field::may("own-run", "How far would a pipe of its own go from the meter to what is planned?", PART),
];

/// What this file answers.
pub(super) const CALCULATION: Calculation = Calculation {
    word: "gas-run",
    title: "Gas run",
    about: "What a gas pipe carries now, and with a range or grill more.",
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
    let unit = match assumed.item.as_str() {
        "heating value" => " Btu/ft³",
        "drop" => " in w.c.",
        _ => "",
    };
    Assumed { item: assumed.item.clone(), value: format!("{}{unit}", assumed.value) }
}

/// Why no table here covers what was given, and what would have to be had.
fn without_table(given: &Given, book: &Book) -> Result<Option<(String, Vec<String>)>, TradeError> {
    let (why, missing): (String, &str) = match (given.word("pipe"), given.word("gas"), given.word("drop")) {
        (Some("corrugated"), _, _) => {
            let (hint, limit) = cite::value(book, "corrugated-hint")?;
            let steel = super::capacity::row(book, Drop::Half, 60.0)?.first().copied().unwrap_or_default();
            let why = format!(
                "Corrugated tube is sized by its maker's own table, which is not here: nothing can be said. As a \
                 hint, one maker's sheet gives about {} ft³/h for {}, where 1/2 in steel carries {}.",
                flow(hint),
                limit.clause,
                flow(steel)
            );
            (why, "the sizing table of the tube's maker, and the EHD printed on its jacket")
        }
        (Some("copper"), _, _) => {
            ("Copper has gas tables of its own, which are not here: nothing can be said.".into(), "the copper table")
        }
        (Some("other"), _, _) => (
            "No table here covers this pipe: nothing can be said.".into(),
            "what the pipe is, and the sizing table of its kind",
        ),
        (_, Some("propane"), _) => (
            "Propane has tables of its own, which are not here: nothing can be said.".into(),
            "the propane table for this pipe and pressure",
        ),
        (_, _, Some("2 psi")) => (
            "Piping at 2 psi has tables of its own and regulators on the way, which are not here: nothing can be \
             said."
                .into(),
            "the 2 psi table, and where the regulators stand",
        ),
        _ => return Ok(None),
    };
    Ok(Some((why, vec![missing.to_string()])))
}

fn answer(
    given: &Given,
    catalog: &Catalog,
    book: &Book,
    (existing, planned): (Vec<Appliance>, Vec<Appliance>),
    unknown: Vec<String>,
) -> Result<Sheet, TradeError> {
    let mut missing = given.missing(FIELDS);
    let no_input = !unknown.is_empty();
    missing.extend(unknown);
    let (Some(length), Some(trunk), true) = (given.length("length"), given.word("trunk"), missing.is_empty())
    else {
        let why = "Without the kind, size and length of the pipe and every load on it nothing can be said.";
        let mut sheet = Sheet::cannot_say(why, missing, CAUTION);
        if no_input {
            sheet.note(format!("Typical inputs are known for: {}.", words(book).join(", ")));
        }
        return Ok(sheet);
    };
    let within = |name| given.length(name).is_none_or(|part| part.inches() <= length.inches() + 1e-6);
    if !within("trunk-length") {
        let why = "The trunk is longer than the longest run it is part of: nothing can be said.";
        return Ok(Sheet::cannot_say(why, vec!["length and trunk length that agree".into()], CAUTION));
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
    for (label, appliances) in [("Load now", existing), ("Load planned", planned)] {
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
    sheet.note(format!(
        "By the 2313 form with C_r {factor} for propane, {size} in steel would carry about {} ft³/h over {} at {} in \
         w.c.; derived, without a table, and nothing is decided by it.",
        flow(cfh),
        feet(run),
        drop.inches()
    ));
    sheet.limits.push(limit);
    sheet.limits.push(Form::limit(book)?);
    Ok(())
}
