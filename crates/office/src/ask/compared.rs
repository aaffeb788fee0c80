//! Forecast beside finding.

use serde_json::Value;
use views::office;

use super::{Arguments, Call, write};
use crate::OfficeError;

pub(super) fn comparison(call: &mut Call<'_>, args: Arguments) -> Result<Value, OfficeError> {
    let survey = call.house(args)?;
    let none = || OfficeError::NoForecast { survey: survey.to_string() };
    let (digest, forecast) = call.desk.judged_forecast(survey)?.ok_or_else(none)?;
    let findings = call.desk.findings(survey)?;
    let comparison = review::compare(&forecast, digest, &findings);
    write(&office::compared(call.say(), &forecast, &comparison, &findings))
}
