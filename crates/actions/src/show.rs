//! Showing: the list of houses, and one house as it stands.

use survey::SurveyId;
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
    Ok(house_view(survey, &picture, &desk.catalog, desk.latest(survey)?.as_ref()))
}
