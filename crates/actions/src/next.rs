//! What to ask and what to look at next.

use assessment::forecast::Look;
use survey::SurveyId;
use survey::guide;

use crate::{Desk, Error, Kit, assess};

/// Questions and looks, best first.
#[derive(Clone, Debug, PartialEq)]
pub struct Next {
    /// Items the walk asks next: (id, question, why), in walking order.
    pub items: Vec<(String, String, String)>,
    /// How many items are still open.
    pub open: u32,
    /// Further looks by expected value per minute.
    pub looks: Vec<Look>,
    /// Items that want a photograph and have none.
    pub photos_missing: Vec<String>,
}

/// Assesses the house as it stands and says what is next.
pub fn next(desk: &mut Desk, survey: SurveyId, kit: &mut Kit<'_>) -> Result<Next, Error> {
    let looks = assess(desk, survey, kit)?.forecast.looks;
    let picture = desk.picture(survey)?;
    let open: Vec<_> = guide::walk(&desk.catalog, &picture)
        .into_iter()
        .filter(|step| matches!(step.status, guide::Status::Open | guide::Status::Disagreed))
        .map(|step| (step.item.id.clone(), step.item.question.clone(), step.item.why.clone()))
        .collect();
    let photos = guide::photos(&desk.catalog, &picture);
    let photos_missing = photos.iter().filter(|p| p.missing).map(|p| p.item.id.clone()).collect();
    Ok(Next { open: open.len() as u32, items: open.into_iter().take(5).collect(), looks, photos_missing })
}
