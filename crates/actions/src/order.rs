//! The order in which a house is walked: seen, and changed stop by stop.
//!
//! The stop where the plan is said stays first, because what is planned decides what is asked at all others. A change
//! is an entry like any other: it can be taken back, and the last one stands.

use survey::SurveyId;
use survey::catalog::Place;
use survey::guide::{self, Stop};
use survey::log::{Body, Entry, WalkOrder};
use survey::model::Picture;
use views::phrases;
use words::msg;

use crate::place::by_id_or_name;
use crate::{Desk, Error, Kept, Kind, Kit, walk};

/// One stop of a walk, as it is listed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct StopCard {
    /// Id of the place.
    pub place: String,
    /// Its station.
    pub station: String,
    /// The place in words.
    pub label: String,
    /// True where a question still matters or was answered.
    pub asked: bool,
}

/// Where a stop is moved to.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Toward<'a> {
    /// Past the one before it among those where something is asked.
    Earlier,
    /// Past the one after it among those where something is asked.
    Later,
    /// To just before this place.
    Before(&'a str),
    /// To just after this place.
    After(&'a str),
}

/// The stops in the order walked.
///
/// # Errors
/// No such survey.
pub fn walk_order(desk: &Desk, survey: SurveyId) -> Result<Vec<StopCard>, Error> {
    Ok(listed(desk, &Kept::default(), survey, &*desk.picture(survey)?))
}

fn listed(desk: &Desk, kept: &Kept, survey: SurveyId, picture: &Picture) -> Vec<StopCard> {
    let asked = walk::asked_at(desk, picture, kept, survey);
    let card = |Stop { station, place }: Stop<'_>| StopCard {
        place: place.to_owned(),
        station: station.id.clone(),
        label: phrases::place_words(desk.say(), picture, place),
        asked: asked.iter().any(|p| p == place),
    };
    guide::stops(&desk.catalog, picture).map(card).collect()
}

/// Moves a stop, named by the id or name of its place, and gives the entry that says so.
///
/// # Errors
/// No such survey or place; the start, which stays first; a stop that is where it would be moved to.
pub fn move_stop(
    desk: &mut Desk,
    kept: &Kept,
    survey: SurveyId,
    (place, toward): (&str, Toward<'_>),
    kit: &mut Kit<'_>,
) -> Result<Entry, Error> {
    let picture = desk.picture(survey)?;
    let stops = listed(desk, kept, survey, &picture);
    let from = position(desk, &picture, &stops, place)?;
    let stays = |at: usize| {
        let station = stops.get(at).and_then(|s| desk.catalog.station(&s.station));
        station.is_some_and(|s| s.place == Place::Start)
    };
    let label = || stops.get(from).map(|s| s.label.clone()).unwrap_or_default();
    let start = || Error::new(Kind::Conflict, msg!("error-order-start")).hint(msg!("error-order-start-hint"));
    if stays(from) {
        return Err(start());
    }
    // The place it lands at among the others, counted with itself still there.
    let to = match toward {
        Toward::Earlier => stops[..from].iter().rposition(|s| s.asked),
        Toward::Later => stops.iter().skip(from + 1).position(|s| s.asked).map(|n| from + 2 + n),
        Toward::Before(other) => Some(position(desk, &picture, &stops, other)?),
        Toward::After(other) => Some(position(desk, &picture, &stops, other)? + 1),
    };
    let Some(to) = to else {
        let what = match toward {
            Toward::Later => msg!("error-order-last", place = label()),
            _ => msg!("error-order-first", place = label()),
        };
        return Err(Error::new(Kind::Conflict, what));
    };
    if stays(to) {
        return Err(start());
    }
    if to == from || to == from + 1 {
        return Err(Error::new(Kind::Conflict, msg!("error-order-there", place = label())));
    }
    let mut places: Vec<String> = stops.iter().map(|s| s.place.clone()).collect();
    let moved = places.remove(from);
    places.insert(if to > from { to - 1 } else { to }, moved.clone());
    desk.append(survey, Body::Order(WalkOrder { places, moved: Some(moved), reason: None }), kit)
}

/// Takes the catalog's order up again.
///
/// # Errors
/// No such survey; a house that is walked so already.
pub fn order_as_listed(desk: &mut Desk, survey: SurveyId, kit: &mut Kit<'_>) -> Result<Entry, Error> {
    if desk.picture(survey)?.order.is_empty() {
        return Err(Error::new(Kind::Conflict, msg!("error-order-listed")));
    }
    desk.append(survey, Body::Order(WalkOrder { places: Vec::new(), moved: None, reason: None }), kit)
}

/// Where a place stands, by its id or its name.
fn position(desk: &Desk, picture: &Picture, stops: &[StopCard], name: &str) -> Result<usize, Error> {
    let id = by_id_or_name(picture, None, name);
    let by_id = |s: &StopCard| s.place == id.as_deref().unwrap_or(name);
    let by_label = |s: &StopCard| s.label.eq_ignore_ascii_case(name);
    let found = stops.iter().position(by_id).or_else(|| stops.iter().position(by_label));
    match found {
        Some(at) => Ok(at),
        None => Err(desk
            .known_stop(picture, name)
            .err()
            .unwrap_or_else(|| Error::new(Kind::Missing, msg!("error-no-stop", name = name)))),
    }
}
