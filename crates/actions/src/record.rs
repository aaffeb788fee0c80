//! Recording an answer; answering again corrects what stood and keeps it.

use survey::log::{Answer, Body, CheckResult, Entry, Value};
use survey::model::Claim;
use survey::{Digest, SurveyId};

use crate::enter::{self, Entered};
use crate::{Desk, Error, Kind, Kit};

/// An answer that is on the disk.
#[derive(Clone, Debug, PartialEq)]
pub struct Recorded {
    /// The entry.
    pub entry: Entry,
    /// The answer in words.
    pub words: String,
    /// Claims it corrects.
    pub corrected: u32,
    /// What to look at again although it was taken.
    pub complaints: Vec<String>,
}

/// Records an answer to an item. What stood there before is named as corrected, rivals included, and kept.
pub fn record(
    desk: &mut Desk,
    survey: SurveyId,
    item: &str,
    entered: &Entered,
    photos: &[Digest],
    kit: &mut Kit<'_>,
) -> Result<Recorded, Error> {
    let Some(found) = desk.catalog.item(item) else {
        return Err(unknown_item(desk, item));
    };
    let mut read = enter::read(&desk.catalog, found, entered)?;
    let picture = desk.picture(survey)?;
    if let Some(missing) = photos.iter().find(|d| !picture.photos.contains_key(*d)) {
        return Err(Error::new(
            Kind::Missing,
            format!("photograph {} is not in this survey", missing.short()),
        )
        .hint("take the photograph in first"));
    }
    let corrects: Vec<_> =
        picture.standing(item).map(|(_, s)| s.claims.iter().map(|c| c.id).collect()).unwrap_or_default();
    let words = views::words::value_words(&desk.catalog, item, &read.value);
    if let Value::Checks(new) = &mut read.value {
        keep_earlier_checks(
            new,
            picture.standing(item).map(|(_, s)| s.claims.as_slice()).unwrap_or_default(),
        );
    }
    let as_entered = entered.could_not_reach.clone().unwrap_or_else(|| entered.answer.join(", "));
    // A corrected reading keeps the pictures that showed the thing.
    let mut photos = photos.to_vec();
    let earlier = picture.standing(item).map(|(_, s)| s.claims.as_slice()).unwrap_or_default();
    for digest in earlier.iter().flat_map(|c| &c.answer.photos) {
        if !photos.contains(digest) {
            photos.push(*digest);
        }
    }
    let answer = Answer {
        place: found.station.clone(),
        item: item.to_owned(),
        value: read.value,
        tolerance: read.tolerance,
        entered: Some(as_entered),
        photos,
        corrects: corrects.clone(),
        reason: entered.reason.clone(),
    };
    let entry = desk.append(survey, Body::Answer(answer), kit)?;
    Ok(Recorded { entry, words, corrected: corrects.len() as u32, complaints: read.complaints })
}

/// Checks are recorded one after the other: earlier results stay, unless the same check was made again on the same
/// condition.
fn keep_earlier_checks(new: &mut Vec<CheckResult>, claims: &[Claim]) {
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
pub fn check_answer(desk: &Desk, item: &str, entered: &Entered) -> Result<(), Error> {
    let found = desk.catalog.item(item).ok_or_else(|| unknown_item(desk, item))?;
    enter::read(&desk.catalog, found, entered).map(drop)
}

/// An item that the walk does not have, with the nearest that it has.
pub(crate) fn unknown_item(desk: &Desk, item: &str) -> Error {
    let near = survey::catalog::nearest(item, desk.catalog.items.iter().map(|i| i.id.as_str()));
    let error = Error::new(Kind::Input, format!("“{item}” is no item of the walk"));
    match near {
        Some(near) => error.hint(format!("did you mean {near}?")),
        None => error.hint("the items are those the walk asks; show the house to see them"),
    }
}
