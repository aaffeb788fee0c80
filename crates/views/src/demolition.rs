//! The end of the walk, and what was recorded after it, in words.

use survey::log::{Body, Entry};
use survey::model::Picture;
use words::{CatalogWords, Message, msg};

use crate::phrases;
use crate::shape::{DemolitionView, SetAsideView, WithdrawnView};

/// What somebody did in a walk, in words.
#[derive(Clone, Debug, PartialEq, Eq, Default)]
pub struct Act {
    /// Key of the card it was done on, or of none.
    pub key: Option<String>,
    /// What was asked, or the place, or the house.
    pub what: String,
    /// What was said.
    pub said: String,
}

/// That demolition was declared, with what came after; none where the walk goes on.
pub fn demolition(say: CatalogWords<'_>, picture: &Picture) -> Option<DemolitionView> {
    let declared = picture.demolition.as_ref()?;
    Some(DemolitionView {
        by: declared.by.clone(),
        at: declared.at.to_string(),
        reason: declared.reason.clone(),
        set_aside: picture.set_aside.iter().map(|entry| set_aside(say, picture, entry)).collect(),
        can_withdraw: !declared.sealed_since,
    })
}

/// Who declared demolition, when, as it is written, and with which words.
pub fn declared_said(by: &str, at: String, reason: Option<&str>) -> Message {
    match reason {
        Some(reason) => msg!("demolition-by-for", by = by, at = at, reason = reason),
        None => msg!("demolition-by", by = by, at = at),
    }
}

/// Declarations that were withdrawn.
pub fn withdrawn(picture: &Picture) -> Vec<WithdrawnView> {
    let one = |withdrawn: &survey::model::Withdrawn| WithdrawnView {
        by: withdrawn.by.clone(),
        at: withdrawn.at.to_string(),
        reason: withdrawn.reason.clone(),
    };
    picture.withdrawn.iter().map(one).collect()
}

fn set_aside(say: CatalogWords<'_>, picture: &Picture, entry: &Entry) -> SetAsideView {
    let Act { what, said, .. } = act(say, picture, &entry.body).unwrap_or_default();
    SetAsideView { what, said, by: entry.by.clone(), at: entry.at.to_string() }
}

/// What an entry of the walk did; none for other entries.
pub fn act(say: CatalogWords<'_>, picture: &Picture, body: &Body) -> Option<Act> {
    let words = say.words;
    Some(match body {
        Body::Answer(answer) => {
            // An item that the catalog here does not have is named by its id.
            let item = say.catalog.item(&answer.item);
            let key = item.map(|item| item.key_at(&answer.place));
            let what = item.map_or_else(|| answer.item.clone(), |i| say.question(&i.id).into_owned());
            Act { key, what, said: phrases::value_words(say, &answer.item, &answer.value) }
        }
        Body::Place(named) => Act {
            key: None,
            what: phrases::place_words(say, picture, &named.place),
            said: named.label.clone(),
        },
        Body::Note(note) => {
            let (key, what) = about(say, picture, (note.item.as_deref(), note.place.as_deref()));
            Act { key, what, said: note.text.clone() }
        }
        Body::Photo(photo) => {
            let (key, what) = about(say, picture, (photo.item.as_deref(), photo.place.as_deref()));
            Act { key, what, said: words.say(&msg!("act-photo", name = &photo.name)) }
        }
        Body::Order(order) => {
            let place = order.moved.as_deref();
            let at = order.places.iter().position(|p| Some(p.as_str()) == place);
            let said = match place.zip(at) {
                Some((place, at)) => {
                    let place = phrases::place_words(say, picture, place);
                    msg!("order-moved", place = place, n = at + 1)
                }
                None => msg!("order-listed"),
            };
            Act { key: None, what: words.say(&msg!("order-act")), said: words.say(&said) }
        }
        Body::Mark(mark) => {
            Act { key: None, what: photo(say, mark.photo), said: words.say(&msg!("act-mark")) }
        }
        Body::MarkGone(mark) => {
            Act { key: None, what: photo(say, mark.photo), said: words.say(&msg!("act-mark-gone")) }
        }
        Body::TakenBack(_) => {
            let (_, what) = about(say, picture, (None, None));
            Act { key: None, what, said: words.say(&msg!("act-taken-back")) }
        }
        Body::Opened(_) | Body::Sealed(_) | Body::Demolition(_) | Body::DemolitionWithdrawn(_) => {
            return None;
        }
    })
}

fn photo(say: CatalogWords<'_>, digest: survey::Digest) -> String {
    say.words.say(&msg!("act-photo", name = digest.short()))
}

/// Key of the card that something was said or shown of, and what it asks; otherwise the place, or the house.
fn about(
    say: CatalogWords<'_>,
    picture: &Picture,
    (item, place): (Option<&str>, Option<&str>),
) -> (Option<String>, String) {
    match (item.and_then(|id| say.catalog.item(id)), place) {
        (Some(item), place) => {
            let key = place.map_or_else(|| item.id.clone(), |place| item.key_at(place));
            (Some(key), say.question(&item.id).into_owned())
        }
        (None, Some(place)) => (None, phrases::place_words(say, picture, place)),
        (None, None) => (None, say.words.say(&msg!("pages-the-house"))),
    }
}
