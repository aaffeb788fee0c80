//! Recording an answer; answering again corrects what stood and keeps it.

use survey::catalog::Item;
use survey::log::{Answer, Body, CheckResult, Entry, Value};
use survey::model::{Claim, Picture};
use survey::{Digest, SurveyId};
use words::msg;

use crate::enter::{self, Entered};
use crate::place::{condition_here, which};
use crate::{Desk, Error, Kind, Kit};

/// An answer that is on the disk.
#[derive(Clone, Debug, PartialEq)]
pub struct Recorded {
    /// The entry.
    pub entry: Entry,
    /// Key of item and place ([`survey::Key`]).
    pub key: String,
    /// The answer in words.
    pub words: String,
    /// Claims it corrects.
    pub corrected: u32,
    /// What to look at again although it was taken.
    pub complaints: Vec<String>,
}

/// An answer read and set against what stands, before it is recorded.
pub(crate) struct Prepared {
    /// The answer.
    pub(crate) answer: Answer,
    /// Key of item and place.
    pub(crate) key: String,
    /// The answer in words.
    pub(crate) words: String,
    /// What to look at again although it can be taken.
    pub(crate) complaints: Vec<String>,
}

/// Reads an answer to an item, or to its key at a place ([`survey::Key`]) where the house has several, as it stands in
/// a picture. What stood there before is named as corrected, rivals included.
pub(crate) fn prepare(
    desk: &Desk,
    picture: &Picture,
    item: &str,
    entered: &Entered,
    photos: &[Digest],
) -> Result<Prepared, Error> {
    let (found, place, mut read) = read_at(desk, picture, item, entered)?;
    let item = found.id.as_str();
    if let Some(missing) = photos.iter().find(|d| !picture.photos.contains_key(*d)) {
        let message = msg!("error-photo-not-here", photo = missing.short());
        return Err(Error::new(Kind::Missing, message).hint(msg!("error-photo-not-here-hint")));
    }
    // An item that is asked once is corrected wherever it was recorded.
    let here = |p: &str| !found.at_each || p == place;
    let stood = picture.answers.iter().filter(|((p, i), _)| i == item && here(p));
    let earlier: Vec<&Claim> = stood.flat_map(|(_, s)| &s.claims).collect();
    let words = views::phrases::value_words(desk.say(), item, &read.value);
    if let Value::Checks(new) = &mut read.value {
        keep_earlier_checks(new, &earlier);
    }
    let as_entered = entered.could_not_reach.clone().unwrap_or_else(|| entered.answer.join(", "));
    // A corrected reading keeps the pictures that showed the thing.
    let mut photos = photos.to_vec();
    for digest in earlier.iter().flat_map(|c| &c.answer.photos) {
        if !photos.contains(digest) {
            photos.push(*digest);
        }
    }
    let key = found.key_at(&place);
    let complaints = desk.said(&read.complaints);
    let answer = Answer {
        place,
        item: item.to_owned(),
        value: read.value,
        tolerance: read.tolerance,
        entered: Some(as_entered),
        photos,
        corrects: earlier.iter().map(|c| c.id).collect(),
        reason: entered.reason.clone(),
    };
    Ok(Prepared { answer, key, words, complaints })
}

/// Records an answer to an item, or to its key at a place. What stood there before is named as corrected and kept.
pub fn record(
    desk: &mut Desk,
    survey: SurveyId,
    item: &str,
    entered: &Entered,
    photos: &[Digest],
    kit: &mut Kit<'_>,
) -> Result<Recorded, Error> {
    let Prepared { answer, key, words, complaints } =
        prepare(desk, &*desk.picture(survey)?, item, entered, photos)?;
    let corrected = answer.corrects.len() as u32;
    let entry = desk.append(survey, Body::Answer(answer), kit)?;
    Ok(Recorded { entry, key, words, corrected, complaints })
}

/// Checks are recorded one after the other: earlier results stay, unless the same check was made again on the same
/// condition.
fn keep_earlier_checks(new: &mut Vec<CheckResult>, claims: &[&Claim]) {
    let mut all: Vec<CheckResult> = Vec::new();
    for claim in claims {
        let Value::Checks(old) = &claim.answer.value else { continue };
        for result in old {
            let mut result = result.clone();
            let again = |c: &String| {
                new.iter().chain(&all).any(|n| n.check == result.check && n.conditions.contains(c))
            };
            let kept: Vec<String> = result.conditions.iter().filter(|c| !again(c)).cloned().collect();
            result.conditions = kept;
            if !result.conditions.is_empty() {
                all.push(result);
            }
        }
    }
    all.append(new);
    *new = all;
}

/// Whether an answer can be taken, without recording it: asked before its photographs are taken in.
pub fn check_answer(desk: &Desk, survey: SurveyId, item: &str, entered: &Entered) -> Result<(), Error> {
    read_at(desk, &*desk.picture(survey)?, item, entered).map(drop)
}

/// Item, place and value of an answer as it was entered.
fn read_at(
    desk: &Desk,
    picture: &Picture,
    item: &str,
    entered: &Entered,
) -> Result<(Item, String, enter::Read), Error> {
    let (Some(found), Some(place)) = which(desk, picture, item)? else {
        return Err(unknown_item(desk, item));
    };
    let read = enter::read(&desk.catalog, &found, entered)?;
    if let Value::Checks(results) = &read.value {
        results.iter().flat_map(|r| &r.conditions).try_for_each(|key| condition_here(desk, picture, key))?;
    }
    Ok((found, place, read))
}

/// An item that the walk does not have, with the nearest that it has.
pub(crate) fn unknown_item(desk: &Desk, item: &str) -> Error {
    let near = survey::catalog::nearest(item, desk.catalog.items.iter().map(|i| i.id.as_str()));
    let error = Error::new(Kind::Input, msg!("error-no-item", item = item));
    match near {
        Some(near) => error.hint(msg!("error-did-you-mean-hint", word = near)),
        None => error.hint(msg!("error-no-item-hint")),
    }
}
