//! Opening a survey: the house gets a label and a contract price to hold the unknown against.

use survey::SurveyId;
use survey::log::{Body, Opened};
use survey::units::Money;
use words::msg;

use crate::{Desk, Error, Kind, Kit};

/// A survey to open.
#[derive(Clone, Debug, Default)]
pub struct NewSurvey {
    /// Name of the house for people.
    pub label: String,
    /// Contract price, if there is one yet.
    pub contract: Option<Money>,
    /// Days the contract allows.
    pub contract_days: Option<u32>,
}

/// Opens a survey and returns its id.
pub fn open_survey(desk: &mut Desk, new: &NewSurvey, kit: &mut Kit<'_>) -> Result<SurveyId, Error> {
    let label = &crate::enter::words_of(msg!("the-label"), &new.label)?;
    if label.chars().count() > 120 || label.contains('\n') {
        return Err(Error::new(Kind::Input, msg!("error-label")).hint(msg!("error-label-hint")));
    }
    if desk.store.surveys()?.iter().any(|s| s.label == *label) {
        return Err(Error::new(Kind::Conflict, msg!("error-label-taken", label = label))
            .hint(msg!("error-label-taken-hint")));
    }
    if new.contract.is_some_and(|c| c <= Money::ZERO || c > Money::MAX) {
        return Err(Error::new(Kind::Input, msg!("error-contract")).hint(msg!("error-contract-hint")));
    }
    let survey = kit.survey_id();
    let opened = Opened {
        label: label.to_owned(),
        contract: new.contract,
        contract_days: new.contract_days,
        catalog: desk.catalog.digest,
    };
    desk.append(survey, Body::Opened(opened), kit)?;
    Ok(survey)
}
