//! What to ask and what to look at next.

use assessment::forecast::{Look, PlaceRef};
use assessment::{Bearing, Coverage, Live, Odds, Request};
use survey::guide::{Because, Planned, Step};
use survey::model::Picture;
use survey::units::Money;
use survey::{Key, SurveyId, guide};
use words::msg;

use crate::{Desk, Error, Kind};

/// Questions and looks, best first.
#[derive(Clone, Debug, PartialEq)]
pub struct Next {
    /// Items the walk asks next, in the order of the walk.
    pub items: Vec<Ask>,
    /// Open items that could not be worth the asking, by their keys.
    pub no_use: Vec<String>,
    /// How much of the value of all answers has been gathered.
    pub coverage: Coverage,
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
    /// Why the walk has it.
    pub why: String,
    /// Why it is asked in this house now.
    pub because: Because,
    /// What its answer is worth on average, before the minutes it takes.
    pub value: Money,
    /// Keys of conditions that depend on it, most first.
    pub conditions: Vec<String>,
    /// What it takes for an answer.
    pub takes: String,
}

impl Ask {
    /// Key of item and place ([`survey::Key`]).
    pub fn key(&self, catalog: &survey::catalog::Catalog) -> String {
        let station = catalog.item(&self.item).map(|item| item.station.as_str());
        Key::new(&self.item, self.place.as_ref().map(|p| p.id.as_str()), station).to_string()
    }
}

/// Says what is next as the house stands. Nothing is recorded. `from`: the station or place where the walk goes on.
///
/// # Errors
/// No such survey or station; answers that cannot all be true; demolition that was declared.
pub fn next(desk: &Desk, survey: SurveyId, from: Option<&str>) -> Result<Next, Error> {
    desk.still_walked(survey)?;
    let picture = desk.picture(survey)?;
    if let Some(from) = from {
        desk.known_stop(&picture, from)?;
    }
    let mut live = Live::default();
    let request = desk.request(survey, &picture);
    // Asked from the command line, nothing breaks it off.
    let next = next_of(desk, &request, &mut live.odds(&request)?, from, &mut || true)?;
    next.ok_or_else(broken_off)
}

/// Nothing broke off what cannot be broken off.
pub(crate) fn broken_off() -> Error {
    Error::new(Kind::Internal, msg!("error-broken-off"))
}

/// What is next, by odds that are there; `None` if `go_on` said no on the way.
pub(crate) fn next_of(
    desk: &Desk,
    request: &Request<'_>,
    odds: &mut Odds<'_>,
    from: Option<&str>,
    go_on: &mut dyn FnMut() -> bool,
) -> Result<Option<Next>, Error> {
    let picture = request.picture;
    let Some(questions) = odds.questions(from, go_on)? else { return Ok(None) };
    let Some(looks) = odds.looks(go_on)? else { return Ok(None) };
    let Some(coverage) = odds.coverage(go_on)? else { return Ok(None) };
    let asked = questions.plan.ask.iter();
    let photos = guide::photos(&desk.catalog, picture);
    let missing = photos.iter().filter(|p| p.missing);
    Ok(Some(Next {
        items: asked.map(|planned| ask(desk, picture, planned, questions.bearing(&planned.step))).collect(),
        no_use: questions.plan.no_use.iter().map(Step::key).collect(),
        coverage,
        looks,
        photos_missing: missing.map(|p| p.item.key_at(p.place)).collect(),
    }))
}

fn ask(desk: &Desk, picture: &Picture, planned: &Planned<'_>, bearing: Option<&Bearing>) -> Ask {
    let Step { item, place, .. } = planned.step;
    let conditions = bearing.map(|b| {
        let all = [&b.measures, &b.moves, &b.decides];
        let mut keys: Vec<String> = Vec::new();
        for key in all.into_iter().flatten() {
            if !keys.contains(key) {
                keys.push(key.clone());
            }
        }
        keys
    });
    Ask {
        item: item.id.clone(),
        place: PlaceRef::of(&desk.catalog, picture, place),
        question: desk.say().question(&item.id).into_owned(),
        why: desk.say().why(item).into_owned(),
        because: planned.because,
        value: planned.value,
        conditions: conditions.unwrap_or_default(),
        takes: desk.words().say(&crate::enter::asked(item)),
    }
}
