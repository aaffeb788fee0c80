//! Places of which a house can have several: adding one, naming it, taking it out, and finding the one that is meant.

use survey::catalog::{Item, Several, Station, nearest};
use survey::log::{Body, Entry, PlaceNamed};
use survey::model::{Picture, PlaceSeen};
use survey::{Key, SurveyId, guide};
use words::{Arg, msg};

use crate::enter::line_of;
use crate::{Desk, Error, Kind, Kit};

/// One of several places of a house.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PlaceCard {
    /// Its id.
    pub place: String,
    /// Its station.
    pub station: String,
    /// Its name; none for the only one of its kind that nobody named.
    pub label: Option<String>,
    /// False when it was taken out.
    pub there: bool,
    /// How many answers were recorded there; they are kept when it is taken out.
    pub answers: u32,
}

/// A place as it stands now, with the entry that says so.
#[derive(Clone, Debug, PartialEq)]
pub struct Placed {
    /// The entry.
    pub entry: Entry,
    /// The place.
    pub card: PlaceCard,
    /// True when it had been taken out and is there again, with the answers recorded at it.
    pub again: bool,
}

/// Longest name of a place, in characters.
const LONGEST: usize = 60;

/// The places of a house of which there can be several, in walking order, taken-out ones last.
pub fn places(desk: &Desk, survey: SurveyId) -> Result<Vec<PlaceCard>, Error> {
    let picture = desk.picture(survey)?;
    let several = guide::stops(&desk.catalog, &picture).filter(|stop| stop.station.each.is_some());
    let there = several.map(|stop| card(&picture, &stop.station.id, stop.place));
    let out = picture.places.iter().filter(|p| !p.there).map(|p| card(&picture, &p.station, &p.id));
    Ok(there.chain(out).collect())
}

/// Adds one more place of a station, or puts one back that was taken out under the same name.
pub fn add_place(
    desk: &mut Desk,
    survey: SurveyId,
    station: &str,
    label: &str,
    kit: &mut Kit<'_>,
) -> Result<Placed, Error> {
    let (found, each) = several(desk, station)?;
    let label = line_of(msg!("the-name"), label, LONGEST)?;
    let Some(place) = each.place_id(&label) else {
        return Err(Error::new(Kind::Input, msg!("error-place-no-word", label = label))
            .hint(msg!("error-place-no-word-hint")));
    };
    let (station, most) = (found.id.clone(), each.most);
    let picture = desk.picture(survey)?;
    let known = picture.place(&place);
    if known.is_some_and(|p| p.there) || place == station {
        return Err(Error::new(Kind::Conflict, msg!("error-place-there", label = label))
            .hint(msg!("error-place-there-hint", place = place)));
    }
    let several = picture.places_of(&station).len();
    if several >= most as usize {
        let what =
            msg!("error-places-full", n = several, station = desk.say().station(&station), most = most);
        return Err(Error::new(Kind::Conflict, what).hint(msg!("error-places-full-hint")));
    }
    let again = known.is_some();
    let named = PlaceNamed { station, place, label, there: true, reason: None };
    put(desk, survey, named, again, kit)
}

/// Gives a place another name; the first place of a station too. Its id stays.
pub fn name_place(
    desk: &mut Desk,
    survey: SurveyId,
    place: &str,
    label: &str,
    kit: &mut Kit<'_>,
) -> Result<Placed, Error> {
    let (station, place) = known_place(desk, survey, place)?;
    let named = PlaceNamed {
        station,
        place,
        label: line_of(msg!("the-name"), label, LONGEST)?,
        there: true,
        reason: None,
    };
    put(desk, survey, named, false, kit)
}

/// Takes a place out: it leaves the walk and the odds, and all that was recorded there stays recorded.
pub fn take_out_place(
    desk: &mut Desk,
    survey: SurveyId,
    place: &str,
    reason: Option<&str>,
    kit: &mut Kit<'_>,
) -> Result<Placed, Error> {
    let (station, place) = known_place(desk, survey, place)?;
    if place == station {
        return Err(Error::new(Kind::Conflict, msg!("error-place-first", place = place))
            .hint(msg!("error-place-first-hint")));
    }
    let picture = desk.picture(survey)?;
    let label = picture.place(&place).map(|p| p.label.clone()).unwrap_or_default();
    let reason = reason.map(|r| crate::enter::words_of(msg!("the-reason"), r)).transpose()?;
    put(desk, survey, PlaceNamed { station, place, label, there: false, reason }, false, kit)
}

/// Which place an answer, a photograph or a remark belongs to. `about` is an item, its key at a place
/// ([`survey::Key`]), or `@` and a place alone; what comes back is the item, if any, and the place.
pub(crate) fn which(
    desk: &Desk,
    picture: &Picture,
    about: &str,
) -> Result<(Option<Item>, Option<String>), Error> {
    let key = Key::parse(about);
    if key.id.is_empty() {
        let place = key.place.unwrap_or_default();
        let known = desk.catalog.station(place).is_some() || picture.place(place).is_some();
        let place = by_id_or_name(picture, None, place).or_else(|| known.then(|| place.to_owned()));
        return match place {
            Some(place) => Ok((None, Some(place))),
            None => Err(no_place(desk, picture, None, key.place.unwrap_or_default())),
        };
    }
    let Some(item) = desk.catalog.item(key.id) else {
        return Err(crate::record::unknown_item(desk, key.id));
    };
    let station = desk.catalog.station(&item.station);
    let place = match (station.and_then(|s| s.each.as_ref()), key.place) {
        (None, None) => item.station.clone(),
        (None, Some(place)) if place == item.station => item.station.clone(),
        (None, Some(place)) => {
            let what = msg!("error-item-once", item = &item.id, place = place);
            return Err(Error::new(Kind::Input, what).hint(msg!("error-item-once-hint")));
        }
        (Some(_), Some(place)) => by_id_or_name(picture, Some(&item.station), place)
            .ok_or_else(|| no_place(desk, picture, Some(&item.station), place))?,
        (Some(_), None) => match picture.places_of(&item.station).as_slice() {
            [only] => (*only).to_owned(),
            all => {
                let what = msg!("error-item-at-each", item = &item.id, n = all.len());
                let hint = msg!("error-item-at-each-hint", places = listed(desk, picture, all));
                return Err(Error::new(Kind::Input, what).hint(hint));
            }
        },
    };
    Ok((Some(item.clone()), Some(place)))
}

/// The key of a card, said so that it means that card alone. The first place of several has the bare id of the item for
/// its key; at a keyboard a bare id is refused there, because nobody would know which place was meant.
pub fn about_card(desk: &Desk, key: &str) -> String {
    let Key { id, place } = Key::parse(key);
    match (desk.catalog.item(id), place) {
        (Some(item), None) if item.at_each => format!("{id}@{}", item.station),
        _ => key.to_owned(),
    }
}

/// A key of a condition whose place the house has.
pub(crate) fn condition_here(desk: &Desk, picture: &Picture, key: &str) -> Result<(), Error> {
    let parsed = Key::parse(key);
    let station = desk.catalog.condition(parsed.id).and_then(|c| c.place.as_deref());
    match (parsed.place, station) {
        (None, _) => Ok(()),
        (Some(place), Some(station)) if picture.places_of(station).contains(&place) => Ok(()),
        (Some(place), station) => Err(no_place(desk, picture, station, place)),
    }
}

/// "bulkhead (First soffit), fridge-soffit (Soffit over the fridge)".
fn listed(desk: &Desk, picture: &Picture, places: &[&str]) -> String {
    let one = |place: &&str| match guide::place_name(&desk.catalog, picture, place) {
        Some(name) => format!("{place} ({name})"),
        None => (*place).to_owned(),
    };
    places.iter().map(one).collect::<Vec<_>>().join(", ")
}

/// The place a person means, by id or by name, among those that are there.
pub(crate) fn by_id_or_name(picture: &Picture, station: Option<&str>, text: &str) -> Option<String> {
    let of_station = |p: &&PlaceSeen| p.there && station.is_none_or(|s| s == p.station);
    let known = || picture.places.iter().filter(of_station);
    if station == Some(text) || known().any(|p| p.id == text) {
        return Some(text.to_owned());
    }
    known().find(|p| p.label.eq_ignore_ascii_case(text)).map(|p| p.id.clone())
}

fn no_place(desk: &Desk, picture: &Picture, station: Option<&str>, place: &str) -> Error {
    if picture.taken_out(place) {
        let error = Error::new(Kind::Conflict, msg!("error-place-out", place = place));
        return error.hint(msg!("error-place-out-hint"));
    }
    let several = desk.catalog.stations.iter().filter(|s| s.each.is_some());
    let known: Vec<&str> = match station {
        Some(station) => picture.places_of(station),
        None => several.flat_map(|s| picture.places_of(&s.id)).collect(),
    };
    let error = Error::new(Kind::Missing, msg!("error-no-place", place = place));
    match nearest(place, known.iter().copied()) {
        Some(near) => error.hint(msg!("error-did-you-mean-hint", word = near)),
        None => error.hint(msg!("error-no-place-hint", places = listed(desk, picture, &known))),
    }
}

fn several<'d>(desk: &'d Desk, station: &str) -> Result<(&'d Station, &'d Several), Error> {
    let can = || desk.catalog.stations.iter().filter_map(|s| Some((s, s.each.as_ref()?)));
    let by_word =
        |(s, each): &(&Station, &Several)| s.id == station || each.one == station || each.several == station;
    if let Some(found) = can().find(by_word) {
        return Ok(found);
    }
    let what = match desk.catalog.station(station) {
        Some(_) => msg!("error-station-once", station = station),
        None => msg!("error-no-station", station = station),
    };
    let named = |s: &Station| msg!("at-place", what = &s.id, place = desk.say().station(&s.id));
    let list: Vec<Arg> = can().map(|(s, _)| named(s).into()).collect();
    Err(Error::new(Kind::Input, what).hint(msg!("error-several-hint", stations = list)))
}

/// Station and id of a place that is there, from its id or name.
fn known_place(desk: &Desk, survey: SurveyId, text: &str) -> Result<(String, String), Error> {
    let picture = desk.picture(survey)?;
    if let Some(place) = by_id_or_name(&picture, None, text) {
        let station = picture.place(&place).map_or_else(|| place.clone(), |p| p.station.clone());
        return Ok((station, place));
    }
    match several(desk, text) {
        Ok((station, _)) => Ok((station.id.clone(), station.id.clone())),
        Err(_) => Err(no_place(desk, &picture, None, text)),
    }
}

fn put(
    desk: &mut Desk,
    survey: SurveyId,
    named: PlaceNamed,
    again: bool,
    kit: &mut Kit<'_>,
) -> Result<Placed, Error> {
    let (station, place) = (named.station.clone(), named.place.clone());
    let entry = desk.append(survey, Body::Place(named), kit)?;
    let picture = desk.picture(survey)?;
    Ok(Placed { entry, card: card(&picture, &station, &place), again })
}

fn card(picture: &Picture, station: &str, place: &str) -> PlaceCard {
    let known = picture.place(place);
    PlaceCard {
        place: place.to_owned(),
        station: station.to_owned(),
        label: known.map(|p| p.label.clone()),
        there: known.is_none_or(|p| p.there),
        answers: picture.answers.keys().filter(|(p, _)| p == place).count() as u32,
    }
}
