//! What a promise to the household costs: some concealed conditions will not change the price, up to a cap.

use assessment::promise::{Promise, Promised};
use survey::SurveyId;
use words::msg;

use crate::{Desk, Error, Kind};

/// Prices a promise about a house as its log stands. Nothing is recorded or frozen.
///
/// # Errors
/// A condition that cannot be promised, a cap that is none, a house that cannot be assessed, or one whose demolition was
/// declared: what lies in its walls may have been seen, and the odds know nothing of it.
pub fn promise(desk: &Desk, survey: SurveyId, promised: &Promised<'_>) -> Result<Promise, Error> {
    let picture = desk.picture(survey)?;
    if let Some(declared) = &picture.demolition {
        let at = words::when(desk.words().language(), declared.at);
        return Err(Error::new(Kind::Conflict, msg!("error-promise-late", by = &declared.by, at = at))
            .hint(msg!("error-promise-late-hint")));
    }
    Ok(assessment::promise::promise(&desk.request(survey, &picture), promised)?)
}
