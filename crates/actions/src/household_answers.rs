//! Taking in the answers of a household's sheet: all of a file in one transaction, or nothing.
//!
//! How they meet what stands:
//! - Nothing stands: the answer is recorded.
//! - An earlier sheet of the household said something: the later file corrects it.
//! - Somebody recorded an answer: both stand. If they differ, that is a disagreement like any other, no evidence until
//!   a person settles it by recording the item again. A sheet never corrects what an estimator saw.
//! - Somebody recorded "can't tell", could not reach it, or took an answer back: the household's answer fills the gap.
//! - The household is not sure: recorded where nobody else said anything, for it contradicts nothing.
//!
//! An estimator who records an item later corrects the sheet's answer, as [`fn@crate::record`] corrects whatever stands.

use sheet::{AnswersError, Fit, LeftOut, from_a_sheet, from_this_file};
use survey::catalog::Place;
use survey::guide::{self, Status};
use survey::log::{Answer, Body, Entry, Note, Value};
use survey::model::{Claim, Picture};
use survey::{Digest, SurveyId};
use words::{Message, msg};

use crate::{Desk, Error, Kind, Kit, error_from};

/// What a file brought.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct TakenAnswers {
    /// Who said it, as recorded.
    pub by: String,
    /// Answers recorded, in the order of the sheet.
    pub recorded: Vec<TakenAnswer>,
    /// Remarks recorded.
    pub remarks: u32,
    /// Answers and remarks of this very file that were here already.
    pub known: u32,
    /// Items the household is not sure about, although somebody has answered them: nothing was recorded.
    pub stands: Vec<String>,
    /// Answers made from another catalog that do not fit this one.
    pub left_out: Vec<LeftOut>,
    /// True when the sheet was made from this very catalog.
    pub same_catalog: bool,
    /// Items of the sheet to ask at the table: open, not sure, or in disagreement.
    pub at_the_table: Vec<String>,
}

/// One answer that is on the disk.
#[derive(Clone, Debug, PartialEq)]
pub struct TakenAnswer {
    /// The item.
    pub item: String,
    /// The answer in words.
    pub words: String,
    /// The household's own words to it.
    pub own_words: Option<String>,
    /// Claims it corrects.
    pub corrected: u32,
    /// What others recorded that differs: answer and person.
    pub against: Vec<(String, String)>,
}

/// Reads a file of answers without recording anything: who filled it in, if they said.
///
/// # Errors
/// As [`take_answers`].
pub fn who_answered(desk: &Desk, survey: SurveyId, bytes: &[u8]) -> Result<Option<String>, Error> {
    desk.picture(survey)?;
    Ok(sheet::read(bytes, &desk.catalog, survey).map_err(refused)?.filled_by)
}

/// Takes in a file of answers, said by the person of the kit. The same file again records nothing.
///
/// # Errors
/// The file cannot be taken, in words: another house, another form, an unknown item or option, words that cannot be
/// kept. Nothing is recorded then.
pub fn take_answers(
    desk: &mut Desk,
    survey: SurveyId,
    bytes: &[u8],
    kit: &mut Kit<'_>,
) -> Result<TakenAnswers, Error> {
    let (log, picture) = desk.read(survey)?;
    let fitted = sheet::read(bytes, &desk.catalog, survey).map_err(refused)?;
    let file = Digest::of(bytes);
    let mut taken = TakenAnswers {
        by: kit.by.clone(),
        left_out: fitted.left_out,
        same_catalog: fitted.same_catalog,
        ..TakenAnswers::default()
    };
    let mut bodies = Vec::new();
    for fit in &fitted.answers {
        if log.iter().any(|e| answers_from(e, &file, &fit.item)) {
            taken.known += 1;
        } else if let Some(value) = &fit.value {
            match answer(&picture, fit, value, &file) {
                Some(answer) => {
                    taken.recorded.push(told(desk, &picture, fit, &answer));
                    bodies.push(Body::Answer(answer));
                }
                None => taken.stands.push(fit.item.clone()),
            }
        } else if let Some(words) = &fit.words {
            let note = Note {
                place: Some(fit.station.clone()),
                item: Some(fit.item.clone()),
                text: sheet::remark(&file, Some(words)),
            };
            taken.remarks += 1;
            bodies.push(Body::Note(note));
        }
    }
    if let Some(words) = &fitted.remark {
        if log.iter().any(|e| says_of_the_house(e, &file)) {
            taken.known += 1;
        } else {
            taken.remarks += 1;
            let text = sheet::remark(&file, Some(words));
            bodies.push(Body::Note(Note { place: None, item: None, text }));
        }
    }
    desk.append_all(survey, bodies, kit)?;
    taken.at_the_table = at_the_table(desk, &*desk.picture(survey)?);
    Ok(taken)
}

/// Whether an entry holds what this file says to an item.
fn answers_from(entry: &Entry, file: &Digest, item: &str) -> bool {
    match &entry.body {
        Body::Answer(a) => a.item == item && from_this_file(a.reason.as_deref(), file),
        Body::Note(n) => n.item.as_deref() == Some(item) && from_this_file(Some(&n.text), file),
        _ => false,
    }
}

fn says_of_the_house(entry: &Entry, file: &Digest) -> bool {
    matches!(&entry.body, Body::Note(n) if n.item.is_none() && from_this_file(Some(&n.text), file))
}

/// Claims that stand for an item: those of the household's earlier sheets, and those of others.
fn claims<'p>(picture: &'p Picture, item: &str) -> (Vec<&'p Claim>, Vec<&'p Claim>) {
    let all = picture.standing(item).map(|(_, s)| s.claims.as_slice()).unwrap_or_default();
    all.iter().partition(|c| from_a_sheet(c.answer.reason.as_deref()))
}

/// The answer to record; none where the household is not sure and somebody else said something.
fn answer(picture: &Picture, fit: &Fit, value: &Value, file: &Digest) -> Option<Answer> {
    let (own, others) = claims(picture, &fit.item);
    if !value.is_statement() && !others.is_empty() {
        return None;
    }
    let gaps = others.iter().filter(|c| !c.answer.value.is_statement());
    // A later answer keeps the pictures that showed the thing.
    let mut photos: Vec<Digest> = Vec::new();
    for digest in own.iter().chain(gaps.clone()).flat_map(|c| &c.answer.photos) {
        if !photos.contains(digest) {
            photos.push(*digest);
        }
    }
    Some(Answer {
        place: fit.station.clone(),
        item: fit.item.clone(),
        value: value.clone(),
        tolerance: None,
        entered: Some(fit.entered.clone()),
        photos,
        corrects: own.iter().chain(gaps).map(|c| c.id).collect(),
        reason: Some(sheet::remark(file, fit.words.as_deref())),
    })
}

fn told(desk: &Desk, picture: &Picture, fit: &Fit, answer: &Answer) -> TakenAnswer {
    let words = |value: &Value| views::phrases::value_words(desk.say(), &fit.item, value);
    let (_, others) = claims(picture, &fit.item);
    let differs = |c: &&&Claim| !answer.corrects.contains(&c.id) && c.answer.value != answer.value;
    TakenAnswer {
        item: fit.item.clone(),
        words: words(&answer.value),
        own_words: fit.words.clone(),
        corrected: answer.corrects.len() as u32,
        against: others.iter().filter(differs).map(|c| (words(&c.answer.value), c.by.clone())).collect(),
    }
}

/// What of the sheet is left for the table, in walking order.
fn at_the_table(desk: &Desk, picture: &Picture) -> Vec<String> {
    let sheet =
        |station: &str| desk.catalog.stations.iter().any(|s| s.id == station && s.place == Place::Sheet);
    let unsure = |item: &str| picture.value(item).is_some_and(|v| !v.is_statement());
    guide::walk(&desk.catalog, picture)
        .iter()
        .filter(|step| sheet(&step.item.station))
        .filter(|step| match step.status {
            Status::Open | Status::Disagreed => true,
            Status::Answered => unsure(&step.item.id),
            Status::Skipped | Status::SecondLook => false,
        })
        .map(|step| step.item.id.clone())
        .collect()
}

fn refused(error: AnswersError) -> Error {
    use AnswersError as A;
    let (kind, hint) = match &error {
        A::OtherHouse(_) => (Kind::Conflict, msg!("error-sheet-house-hint")),
        A::Newer { .. } => (Kind::Damaged, msg!("error-sheet-nothing-hint")),
        A::TooLarge(_) | A::Unreadable(_) | A::NotAnswers => (Kind::Input, msg!("error-sheet-file-hint")),
        A::Empty => (Kind::Input, msg!("error-sheet-nothing-hint")),
        _ => (Kind::Input, msg!("error-sheet-changed-hint")),
    };
    Error::new(kind, misfit(error)).hint(hint)
}

/// What is wrong with a file of answers, or with one answer in it.
pub fn misfit(error: AnswersError) -> Message {
    use AnswersError as A;
    match error {
        A::TooLarge(bytes) => msg!("error-sheet-large", bytes = bytes.to_string()),
        A::Unreadable(said) => msg!("error-sheet-unreadable", said = said),
        A::NotAnswers => msg!("error-sheet-other-kind"),
        A::Newer { found, known } => {
            msg!("error-sheet-newer", found = found.to_string(), known = known.to_string())
        }
        A::OtherHouse(survey) => msg!("error-sheet-house", survey = survey.to_string()),
        A::Twice(item) => msg!("error-sheet-twice", item = item),
        A::NotAsked(item) => msg!("error-sheet-not-asked", item = item),
        A::Misfit(misfit) => error_from::answer(misfit),
        A::Number { item, fault } => {
            msg!("error-about-item", item = item, what = error_from::quantity(fault))
        }
        A::Words { place, most } => msg!("error-sheet-words", place = place, most = most.to_string()),
        A::Day(text) => msg!("error-sheet-day", text = text),
        A::Empty => msg!("error-sheet-empty"),
    }
}
