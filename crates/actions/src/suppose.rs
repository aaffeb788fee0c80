//! What would be if: answers, check results and prices supposed and never recorded.

use assessment::suppose::{Supposed, suppose as compare, suppose_look};
use survey::SurveyId;
use survey::catalog::{AnswerKind, Item};
use survey::log::{Body, CheckOutcome, Entry};
use survey::model::{Picture, fold};
use words::{Arg, msg};

use crate::record::{Prepared, prepare};
use crate::{Desk, Entered, Error, Kind, Kit};

/// What is supposed.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Suppositions {
    /// Conditions, by key, that the base price would hold.
    pub priced_in: Vec<String>,
    /// Checks made: check, condition and whether it shows.
    pub shows: Vec<(String, String, bool)>,
    /// One check to be made on a condition, with both its results.
    pub look: Option<(String, String)>,
    /// Answers: item and words; several ticks are parted by commas.
    pub answers: Vec<(String, String)>,
}

/// What was supposed, in words, beside what would be.
#[derive(Clone, Debug, PartialEq)]
pub struct Told {
    /// The suppositions in words.
    pub suppositions: Vec<Arg>,
    /// Before and after.
    pub supposed: Supposed,
}

/// The log of a house as it would go on; nothing of it reaches the store.
struct Supposing<'a> {
    desk: &'a Desk,
    entries: Vec<Entry>,
}

impl Supposing<'_> {
    fn picture(&self) -> Picture {
        fold(&self.entries)
    }

    /// Adds an answer as it would be recorded, and says it in words.
    fn answer(&mut self, item: &str, entered: &Entered, kit: &mut Kit<'_>) -> Result<String, Error> {
        let picture = self.picture();
        let Prepared { answer, words, .. } = prepare(self.desk, &picture, item, entered, &[])?;
        let Some(last) = self.entries.last() else {
            return Err(Error::new(Kind::Missing, msg!("error-no-survey-here")));
        };
        let body = Body::Answer(answer);
        let entry = Entry {
            v: body.form(),
            id: kit.entry_id(),
            survey: last.survey,
            device: self.desk.store.device(),
            seq: picture.entries + 1,
            lamport: picture.lamport + 1,
            at: kit.now(),
            by: kit.by.clone(),
            prev: None,
            body,
        };
        self.entries.push(entry);
        Ok(words)
    }

    /// Adds the result of a check on a condition.
    fn check(&mut self, check: &str, key: &str, shows: bool, kit: &mut Kit<'_>) -> Result<String, Error> {
        let item = check_item(self.desk)?.id.clone();
        let result = if shows { CheckOutcome::ShowsIt } else { CheckOutcome::ShowsNot }.word();
        let entered = Entered { answer: vec![format!("{check} {result} {key}")], ..Entered::default() };
        self.answer(&item, &entered, kit)
    }

    fn fork(&self) -> Self {
        Self { desk: self.desk, entries: self.entries.clone() }
    }
}

/// The item that takes the results of checks.
pub(crate) fn check_item(desk: &Desk) -> Result<&Item, Error> {
    let takes_checks = |i: &&Item| matches!(i.answer, AnswerKind::Checks);
    desk.catalog
        .items
        .iter()
        .find(takes_checks)
        .ok_or_else(|| Error::new(Kind::Input, msg!("error-no-check-item")))
}

/// Assesses a house as its log stands and as it would be. Nothing is recorded or frozen.
///
/// # Errors
/// Demolition that was declared, nothing supposed, something that cannot be recorded either, or a house that cannot be assessed.
pub fn suppose(desk: &Desk, survey: SurveyId, what: &Suppositions, kit: &mut Kit<'_>) -> Result<Told, Error> {
    if *what == Suppositions::default() {
        return Err(
            Error::new(Kind::Input, msg!("error-nothing-supposed")).hint(msg!("error-nothing-supposed-hint"))
        );
    }
    desk.still_walked(survey)?;
    let (log, now) = desk.read(survey)?;
    let mut supposing = Supposing { desk, entries: log.to_vec() };
    let mut said = Vec::new();
    for key in &what.priced_in {
        said.push(msg!("suppose-in-price", condition = desk.say().condition(key)).into());
    }
    for (item, words) in &what.answers {
        let several = desk.catalog.item(item).is_some_and(|i| matches!(i.answer, AnswerKind::Choices { .. }));
        let answer =
            if several { words.split(',').map(str::to_owned).collect() } else { vec![words.clone()] };
        let words = supposing.answer(item, &Entered { answer, ..Entered::default() }, kit)?;
        said.push(msg!("named", name = item, text = words).into());
    }
    for (check, key, shows) in &what.shows {
        said.push(supposing.check(check, key, *shows, kit)?.into());
    }
    let then = supposing.picture();
    let (now, then) = (desk.request(survey, &now), desk.request(survey, &then));
    let supposed = match &what.look {
        None => compare(&now, &then, &what.priced_in)?,
        Some((check, key)) => {
            let mut result = |shows: bool| -> Result<Picture, Error> {
                let mut fork = supposing.fork();
                fork.check(check, key, shows, kit)?;
                Ok(fork.picture())
            };
            let [not, yes] = [result(false)?, result(true)?];
            let shown = [&desk.request(survey, &not), &desk.request(survey, &yes)];
            let (name, condition) = (desk.say().check(check), desk.say().condition(key));
            said.push(msg!("suppose-look", check = name, condition = condition).into());
            suppose_look(&now, &then, [check, key], shown, &what.priced_in)?
        }
    };
    Ok(Told { suppositions: said, supposed })
}
