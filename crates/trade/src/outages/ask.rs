//! What the calculation asks, and how answers become a plan and a household.

use alloc::{borrow::ToOwned, format, vec::Vec};

use survey::catalog::Catalog;
use survey::{Phrase, Said, say};

use super::CAUTION;
use super::answer::judge;
use super::days::{WEEKDAYS, WorkingDays};
use super::household::{Household, circuit, clock, medical, weekdays, windows};
use super::order::{MOST_TASKS, STAGES};
use super::plan::{Plan, Ways};
use super::service::Off;
use super::tasks::{MOST_HOURS, Task, outage_named};
use crate::error::TradeError;
use crate::given::{Field, Given, Kind};
use crate::sheet::Sheet;

const HOURS: Kind = Kind::Number { unit: "h", min: 0.0, max: MOST_HOURS };

/// Columns of a task.
const TASK: &[Field] = &[
    Field::must("name", Phrase("trade-which-task-id-catalogs"), Kind::Text),
    Field::may("who", Phrase("trade-which-trade"), Kind::Text),
    Field::may("low", Phrase("trade-hours-least"), HOURS),
    Field::may("likely", Phrase("trade-hours-likely"), HOURS),
    Field::may("high", Phrase("trade-hours-most"), HOURS),
    Field::may("off", Phrase("trade-what-off-joined-such"), Kind::Text),
    Field::may("after", Phrase("trade-after-which-tasks-joined"), Kind::Text),
    Field::may("stage", Phrase("trade-which-stage"), Kind::Word(&STAGES)),
    Field::may(
        "from-day",
        Phrase("trade-not-before-which-working"),
        Kind::Number { unit: "", min: 1.0, max: 120.0 },
    ),
];

/// What is asked.
pub const FIELDS: &[Field] = &[
    Field {
        name: "task",
        ask: Phrase("trade-which-tasks-planned"),
        kind: Kind::Rows(TASK),
        need: crate::given::Need::Must,
    },
    Field::or("first-day", Phrase("trade-which-weekday-does-work"), Kind::Word(&WEEKDAYS), "Monday"),
    Field::or("day-start", Phrase("trade-when-does-working-day"), Kind::Text, "8"),
    Field::or("day-end", Phrase("trade-when-does-end"), Kind::Text, "16:30"),
    Field::may("home-days", Phrase("trade-which-days-does-somebody"), Kind::Text),
    Field::or("home-hours", Phrase("trade-between-which-hours"), Kind::Text, "9-17"),
    Field::may("medical-circuit", Phrase("trade-which-circuit-feeds-medical"), Kind::Text),
    Field::may("internet-circuit", Phrase("trade-which-circuit-feeds-modem"), Kind::Text),
    Field::may("office-circuit", Phrase("trade-which-circuit-feeds-work"), Kind::Text),
    Field::may("quiet-hours", Phrase("trade-which-hours-loud-work"), Kind::Text),
    Field::may(
        "toilets",
        Phrase("trade-how-many-toilets-has"),
        Kind::Number { unit: "", min: 1.0, max: 10.0 },
    ),
    Field::or(
        "toilets-apart",
        Phrase("trade-how-many-them-still"),
        Kind::Number { unit: "", min: 0.0, max: 10.0 },
        "0",
    ),
    Field::or("well-pump", Phrase("trade-does-water-come-well"), Kind::YesNo, "no"),
    Field::or("one-at-a-time", Phrase("trade-does-each-trade-do"), Kind::YesNo, "yes"),
    Field::or("next-morning", Phrase("trade-does-trade-follows-another"), Kind::YesNo, "yes"),
    Field::or("usual-order", Phrase("trade-does-trades-usual-order"), Kind::YesNo, "yes"),
];

/// A plan and its household, or what is missing for one.
pub type Ready = Result<(Plan, Household), Vec<Said>>;

/// Reads the answers.
///
/// # Errors
/// Unreadable hours, weekdays or services; a circle; too many tasks.
pub fn read(given: &Given, catalog: &Catalog) -> Result<Ready, TradeError> {
    let mut missing = given.missing(FIELDS);
    let rows = given.rows("task");
    if rows.len() > MOST_TASKS {
        let (what, value, high) = (Phrase("trade-number-tasks"), rows.len() as f64, MOST_TASKS as f64);
        return Err(TradeError::OutOfRange { what, value, low: 1.0, high, unit: "" });
    }
    let mut tasks = Vec::new();
    for row in rows {
        match task(row, catalog)? {
            Ok(task) => tasks.push(task),
            Err(what) => missing.push(what),
        }
    }
    if !missing.is_empty() {
        return Ok(Err(missing));
    }
    let text = |name: &str| given.text(name);
    let first = WEEKDAYS.iter().position(|d| Some(*d) == given.word("first-day")).unwrap_or_default();
    let start = clock("day-start", text("day-start").unwrap_or("8"))?;
    let days = WorkingDays::new(start, clock("day-end", text("day-end").unwrap_or("16:30"))?, first)?;
    let yes = |name: &str| given.yes(name).unwrap_or(false);
    let ways = Ways {
        one_at_a_time: yes("one-at-a-time"),
        next_morning: yes("next-morning"),
        usual_order: yes("usual-order"),
    };
    let home_hours = windows("home-hours", text("home-hours").unwrap_or("9-17"))?;
    let [home_hours] = home_hours.as_slice() else {
        let note = say!("trade-write-one-window-such");
        let written = text("home-hours").unwrap_or_default().to_owned();
        return Err(TradeError::BadField { field: "home-hours".to_owned(), text: written, note });
    };
    let household = Household {
        home_days: text("home-days").map(|t| weekdays("home-days", t)).transpose()?,
        home_hours: *home_hours,
        medical: medical(text("medical-circuit")),
        quiet: text("quiet-hours").map(|t| windows("quiet-hours", t)).transpose()?,
        toilets: whole(given, "toilets")?,
        toilets_apart: whole(given, "toilets-apart")?.unwrap_or(0),
        internet_circuit: text("internet-circuit").map(circuit),
        office_circuit: text("office-circuit").map(circuit),
        well_pump: yes("well-pump"),
    };
    Ok(Ok((Plan::new(tasks, days, ways)?, household)))
}

/// A count; its range is small and was read.
fn whole(given: &Given, field: &str) -> Result<Option<u32>, TradeError> {
    let Some(number) = given.number(field) else { return Ok(None) };
    if libm::floor(number) == number {
        return Ok(Some(number as u32));
    }
    let note = say!("trade-write-whole-number");
    Err(TradeError::BadField { field: field.to_owned(), text: format!("{number}"), note })
}

/// A task, or what of it is missing.
fn task(row: &Given, catalog: &Catalog) -> Result<Result<Task, Said>, TradeError> {
    let name = row.text("name").unwrap_or_default();
    let hours = [row.number("low"), row.number("likely"), row.number("high")];
    let known = outage_named(catalog, name);
    let mut task = match (hours, known) {
        ([Some(low), Some(likely), Some(high)], None) => Task::new(name, [low, likely, high])?,
        ([Some(low), Some(likely), Some(high)], Some(outage)) => {
            Task::of_catalog(name, outage)?.lasting([low, likely, high])?
        }
        ([None, None, None], Some(outage)) => Task::of_catalog(name, outage)?,
        _ => return Ok(Err(say!("trade-hours-low-likely-high", name = name))),
    };
    if let Some(off) = row.text("off") {
        task = task.taking(Off::parse_all(off)?);
    }
    if let Some(who) = row.text("who") {
        task = task.by(who);
    }
    for after in row.text("after").unwrap_or_default().split('+').map(str::trim).filter(|a| !a.is_empty()) {
        task = task.after(after);
    }
    if let Some(stage) = row.word("stage") {
        task = task.at_stage(stage)?;
    }
    if let Some(day) = whole(row, "from-day")? {
        task = task.not_before(day)?;
    }
    Ok(Ok(task))
}

/// Answers the question.
///
/// # Errors
/// As [`read`].
pub(super) fn run(given: &Given, catalog: &Catalog) -> Result<Sheet, TradeError> {
    match read(given, catalog)? {
        Ok((plan, household)) => {
            let mut sheet = judge(&plan, &household, catalog)?;
            sheet.assumed.extend(given.assumed().iter().cloned());
            Ok(sheet)
        }
        Err(missing) => {
            let sentence = say!("trade-without-tasks-their-hours");
            Ok(Sheet::cannot_say(sentence, missing, CAUTION))
        }
    }
}
