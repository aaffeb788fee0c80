//! Starting a house: label, year, contract and planned work, opened and answered as one act.

use survey::SurveyId;
use survey::log::Body;
use survey::units::Money;
use views::walk_shape::StartFormView;
use words::msg;

use crate::enter::words_of;
use crate::open_survey::{NewSurvey, open_survey};
use crate::record::{Prepared, prepare};
use crate::{Desk, Entered, Error, Kind, Kit};

/// Item with the planned work.
const PLANNED: &str = "planned-work";
/// Item with the year built.
const YEAR: &str = "year-built";
/// Name under which the person who walks is kept.
pub(crate) const BY: &str = "by";
/// Longest name of a person, in characters.
const LONGEST: usize = 80;

/// How sure the year is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Default)]
pub enum Sure {
    /// From a record or from whoever knows.
    #[default]
    Known,
    /// Within so many years.
    Within(u32),
    /// Nobody knows.
    NoIdea,
}

/// A house to start.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct NewHouse {
    /// Name of the house for people.
    pub label: String,
    /// Year built, as written; empty when it is asked later.
    pub year: String,
    /// How sure.
    pub sure: Sure,
    /// Contract price, if there is one yet.
    pub contract: Option<Money>,
    /// Days the contract allows.
    pub contract_days: Option<u32>,
    /// Options of the planned work; none when it is asked later.
    pub planned: Vec<String>,
    /// Who walks; kept on this device for the next house.
    pub by: Option<String>,
}

/// What a house is started with.
pub fn start_form(desk: &Desk) -> Result<StartFormView, Error> {
    let planned = desk.catalog.item(PLANNED);
    let works = planned.map(|item| views::walk::options(desk.say(), item, None)).unwrap_or_default();
    Ok(StartFormView { works, by: desk.store.kept_word(BY)?.unwrap_or_default() })
}

/// Who walks, as last said on this device.
pub fn who(desk: &Desk) -> Result<Option<String>, Error> {
    Ok(desk.store.kept_word(BY)?.filter(|by| !by.is_empty()))
}

/// Opens a house and records year and planned work. Everything is checked before anything is written.
///
/// # Errors
/// A label that is taken, a year out of range, a name of nobody.
pub fn start_house(desk: &mut Desk, new: &NewHouse, kit: &mut Kit<'_>) -> Result<SurveyId, Error> {
    if let Some(by) = &new.by {
        let by = words_of(msg!("the-name"), by)?;
        if by.chars().count() > LONGEST || by.contains('\n') {
            return Err(Error::new(Kind::Input, msg!("error-person")));
        }
        desk.store.keep_word(BY, &by)?;
        kit.by = by;
    }
    let mut answers: Vec<(&str, Entered)> = Vec::new();
    if !new.planned.is_empty() {
        answers.push((PLANNED, Entered { answer: new.planned.clone(), ..Entered::default() }));
    }
    if let Some(entered) = year(desk, new) {
        answers.push((YEAR, entered));
    }
    let empty = survey::model::Picture::default();
    let mut bodies = Vec::new();
    for (item, entered) in answers {
        let Prepared { answer, .. } = prepare(desk, &empty, item, &entered, &[])?;
        bodies.push(Body::Answer(answer));
    }
    let opened =
        NewSurvey { label: new.label.clone(), contract: new.contract, contract_days: new.contract_days };
    let survey = open_survey(desk, &opened, kit)?;
    desk.append_all(survey, bodies, kit)?;
    Ok(survey)
}

/// The year as an answer; how sure it is stands beside it as a remark.
fn year(desk: &Desk, new: &NewHouse) -> Option<Entered> {
    let said = |answer: &str, reason: Option<String>| Entered {
        answer: vec![answer.to_owned()],
        reason,
        ..Entered::default()
    };
    match new.sure {
        Sure::NoIdea => Some(said("cant-tell", None)),
        _ if new.year.trim().is_empty() => None,
        Sure::Known => Some(said(new.year.trim(), None)),
        Sure::Within(years) => {
            let about = desk.words().say(&msg!("year-about", n = years.to_string()));
            Some(said(new.year.trim(), Some(about)))
        }
    }
}
