//! The sheet for the household, made before the visit from what is planned.

use sheet::{AnswersError, Language, Page};
use survey::SurveyId;
use words::msg;

use crate::{Desk, Error, Kind, misfit};

/// How to make a sheet.
#[derive(Clone, Debug, Default)]
pub struct SheetOptions {
    /// The firm's name, if it gives one.
    pub firm: Option<String>,
    /// The language.
    pub language: Language,
}

/// A sheet for the household.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct MadeSheet {
    /// The page: one HTML file.
    pub html: String,
    /// Name of the file in which its answers come back.
    pub answers: String,
    /// Questions on it.
    pub questions: u32,
    /// False while no plan is recorded: it then cannot say what will be off.
    pub plan_known: bool,
}

/// Makes the sheet of a house. Nothing is recorded.
///
/// # Errors
/// No such house; a firm's name that cannot be kept.
pub fn household_sheet(desk: &Desk, survey: SurveyId, options: &SheetOptions) -> Result<MadeSheet, Error> {
    let picture = desk.picture(survey)?;
    let firm = sheet::words("firm", options.firm.as_deref())
        .map_err(|e| match e {
            AnswersError::Words { most, .. } => msg!("error-sheet-firm", most = most.to_string()),
            other => misfit(other),
        })
        .map_err(|message| Error::new(Kind::Input, message))?;
    // No conditions: the outage calculation covers none.
    let calculated = assessment::calculate(&desk.catalog, &picture, &[]);
    let page = Page {
        catalog: &desk.catalog,
        picture: &picture,
        survey,
        firm: firm.as_deref(),
        outages: calculated.iter().find(|c| c.word == "outages").map(|c| &c.sheet),
        language: options.language,
    };
    let label = picture.label();
    let plan = picture.value(survey::catalog::PLANNED_WORK);
    Ok(MadeSheet {
        html: page.html(),
        answers: format!("{}.json", sheet::file_name(label)),
        questions: sheet::Form::of(&desk.catalog, &picture, survey).questions.len() as u32,
        plan_known: plan.is_some_and(survey::log::Value::is_statement),
    })
}
