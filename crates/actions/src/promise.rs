//! What a promise to the household costs: some concealed conditions will not change the price, up to a cap.

use assessment::promise::{Promise, Promised};
use survey::SurveyId;

use crate::{Desk, Error};

/// Prices a promise about a house as its log stands. Nothing is recorded or frozen.
///
/// # Errors
/// A condition that cannot be promised, a cap that is none, or a house that cannot be assessed.
pub fn promise(desk: &Desk, survey: SurveyId, promised: &Promised<'_>) -> Result<Promise, Error> {
    let picture = desk.picture(survey)?;
    Ok(assessment::promise::promise(&desk.request(survey, &picture), promised)?)
}
