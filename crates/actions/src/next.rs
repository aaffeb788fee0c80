//! What to ask and what to look at next.

use assessment::forecast::{Look, PlaceRef};
use survey::{Key, SurveyId, guide};

use crate::{Desk, Error, Kit, assess};

/// Questions and looks, best first.
#[derive(Clone, Debug, PartialEq)]
pub struct Next {
    /// Items the walk asks next, in walking order.
    pub items: Vec<Ask>,
    /// How many items are still open.
    pub open: u32,
    /// Further looks by expected value per minute.
    pub looks: Vec<Look>,
    /// Items that want a photograph and have none, by their keys.
    pub photos_missing: Vec<String>,
}

/// One item to ask.
#[derive(Clone, Debug, PartialEq)]
pub struct Ask {
    /// Item id.
    pub item: String,
    /// The place and its name, where the house has several and the item is asked at each.
    pub place: Option<PlaceRef>,
    /// The question.
    pub question: String,
    /// Why it is asked.
    pub why: String,
    /// What it takes for an answer.
    pub takes: String,
}

/// Assesses the house as it stands and says what is next.
pub fn next(desk: &mut Desk, survey: SurveyId, kit: &mut Kit<'_>) -> Result<Next, Error> {
    let looks = assess(desk, survey, kit)?.forecast.looks;
    let picture = desk.picture(survey)?;
    let open: Vec<_> = guide::walk(&desk.catalog, &picture)
        .into_iter()
        .filter(|step| matches!(step.status, guide::Status::Open | guide::Status::Disagreed))
        .map(|step| Ask {
            item: step.item.id.clone(),
            place: guide::place_name(&desk.catalog, &picture, step.place)
                .map(|label| PlaceRef { id: step.place.to_owned(), label }),
            question: step.item.question.clone(),
            why: step.item.why.clone(),
            takes: crate::enter::asked(step.item),
        })
        .collect();
    let photos = guide::photos(&desk.catalog, &picture);
    let key = |p: &guide::WantedPhoto<'_>| {
        let place = p.item.at_each.then_some(p.place);
        Key::new(&p.item.id, place, Some(&p.item.station)).to_string()
    };
    let photos_missing = photos.iter().filter(|p| p.missing).map(key).collect();
    Ok(Next { open: open.len() as u32, items: open.into_iter().take(5).collect(), looks, photos_missing })
}
