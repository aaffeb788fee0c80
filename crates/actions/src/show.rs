//! Showing: the list of houses, and one house as it stands.

use survey::{SurveyId, guide};
use views::{HouseCard, HouseView, house_card, house_view};

use crate::{Desk, Error};

/// All houses on this device, last touched first.
pub fn houses(desk: &Desk) -> Result<Vec<HouseCard>, Error> {
    let rows = desk.store.surveys()?;
    rows.iter()
        .map(|row| {
            let picture = desk.picture(row.survey)?;
            Ok(house_card(row.survey, &picture, &desk.catalog, desk.latest(row.survey)?.as_ref()))
        })
        .collect()
}

/// One house as it stands.
pub fn house(desk: &Desk, survey: SurveyId) -> Result<HouseView, Error> {
    let picture = desk.picture(survey)?;
    Ok(house_view(survey, &picture, desk.say(), desk.latest(survey)?.as_ref()))
}

/// A remark in words.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Remark {
    /// When, to the minute.
    pub at: String,
    /// Who.
    pub by: String,
    /// The item it belongs to, if any.
    pub item: Option<String>,
    /// Name of the place it belongs to, where the house has several.
    pub place: Option<String>,
    /// The words.
    pub text: String,
}

/// Remarks about a house, in log order.
pub fn remarks(desk: &Desk, survey: SurveyId) -> Result<Vec<Remark>, Error> {
    let picture = desk.picture(survey)?;
    let one = |(at, by, note): &(survey::Stamp, String, survey::log::Note)| Remark {
        at: words::when(desk.words().language(), *at),
        by: by.clone(),
        item: note.item.clone(),
        place: note.place.as_deref().and_then(|p| guide::place_name(&desk.catalog, &picture, p)),
        text: note.text.clone(),
    };
    Ok(picture.notes.iter().map(one).collect())
}
