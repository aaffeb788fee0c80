//! The trade calculations of a house, from the answers as they stand or from figures typed by hand. Nothing is recorded.

use assessment::forecast::CalculationForecast;
use assessment::{Calculated, calculate as on_house, on_answers, scope_of};
use survey::{Key, SurveyId};
use views::fit_shape::{FitView, FitsView};

use crate::calculate::{calculate, calculation};
use crate::{Desk, Error};

/// Every calculation by trade, with what the answers of the house say of each.
///
/// # Errors
/// No such survey.
pub fn fits(desk: &Desk, survey: SurveyId) -> Result<FitsView, Error> {
    let picture = desk.picture(survey)?;
    let done = on_house(&desk.catalog, &picture, &scope_of(&desk.catalog, &picture));
    Ok(views::fits::fits(desk.say(), &picture, &survey.to_string(), &done))
}

/// One calculation of a house, by its word or "WORD@PLACE": from its answers, or with `typed` from figures typed by
/// hand, name and text each, where an empty text was left out.
///
/// # Errors
/// No such calculation; a figure that cannot be read or taken.
pub fn fit(
    desk: &Desk,
    survey: SurveyId,
    key: &str,
    typed: Option<&[(String, String)]>,
) -> Result<FitView, Error> {
    let picture = desk.picture(survey)?;
    let Key { id: word, place } = Key::parse(key);
    let calculation = calculation(word)?;
    let done = on_house(&desk.catalog, &picture, &scope_of(&desk.catalog, &picture));
    let here = |c: &&Calculated| c.word == word && (place.is_none() || c.place.as_deref() == place);
    let walked = done
        .iter()
        .find(here)
        .cloned()
        .or_else(|| on_answers(&desk.catalog, &picture, calculation.word, place));
    let result = match (typed, &walked) {
        (Some(typed), _) => {
            let given: Vec<(String, String)> =
                typed.iter().filter(|(_, text)| !text.trim().is_empty()).cloned().collect();
            let sheet = calculate(calculation, &given, &desk.catalog)?;
            let frozen = CalculationForecast::of_sheet(word, calculation.title, None, &sheet);
            Some(views::fits::calculation(&frozen, desk.words()))
        }
        (None, Some(walked)) => Some(views::fits::calculated(desk.say(), &picture, walked)),
        (None, None) => None,
    };
    let of_walk = walked.as_ref().map(|w| w.given.as_slice()).unwrap_or_default();
    Ok(FitView {
        survey: survey.to_string(),
        label: picture.label().to_owned(),
        key: walked.as_ref().map_or_else(|| key.to_owned(), views::fits::key),
        about: desk.words().text(&calculation.about.into()),
        result,
        by_hand: typed.is_some(),
        inputs: walked.as_ref().map(|w| views::fits::inputs(desk.say(), &picture, w)).unwrap_or_default(),
        fields: views::fits::fields(desk.words(), calculation, typed.unwrap_or(of_walk)),
    })
}
