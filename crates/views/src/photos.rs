//! Photographs of a house for a screen, in the language of `say`.

use std::collections::{BTreeMap, BTreeSet};

use survey::catalog::{AnswerKind, Item};
use survey::log::{Shape, Spot};
use survey::model::{PhotoSeen, Picture};
use survey::{Digest, Key, guide};
use words::CatalogWords;

use crate::marks::dimension_words;
use crate::photo_shape::{
    MarkKind, MarkView, PhotoAboutView, PhotoCardView, PhotoMarkedView, PhotoPlaceView, PhotosView,
};
use crate::phrases;

/// The photographs of a house by place, or those that show one question, given by its key.
pub fn photos(say: CatalogWords<'_>, picture: &Picture, survey: &str, key: Option<&str>) -> PhotosView {
    let about = key.and_then(|key| about(say, picture, key));
    let wanted = |w: guide::WantedPhoto<'_>| w.missing.then(|| about_item(say, picture, w.item, w.place));
    PhotosView {
        survey: survey.to_owned(),
        label: picture.label().to_owned(),
        photos: picture.photos.len() as u32,
        places: places(say, picture, about.as_ref().map(|about| about.key.as_str())),
        wanted: match about {
            Some(_) => Vec::new(),
            None => guide::photos(say.catalog, picture).into_iter().filter_map(wanted).collect(),
        },
        about,
    }
}

fn places(say: CatalogWords<'_>, picture: &Picture, key: Option<&str>) -> Vec<PhotoPlaceView> {
    let mut by_place: BTreeMap<Option<&str>, Vec<(&Digest, &PhotoSeen)>> = BTreeMap::new();
    let counts = |seen: &PhotoSeen| key.is_none_or(|key| keys(say, seen).any(|shown| shown == key));
    for (digest, seen) in picture.photos.iter().filter(|(_, seen)| counts(seen)) {
        by_place.entry(place_of(seen)).or_default().push((digest, seen));
    }
    let walked: Vec<&str> = guide::stops(say.catalog, picture).map(|stop| stop.place).collect();
    let rank = |place: Option<&str>| match place {
        // Places that were taken out come behind those that are there.
        Some(place) => walked.iter().position(|walked| *walked == place).unwrap_or(walked.len()),
        None => usize::MAX,
    };
    let mut ranked: Vec<_> = by_place.into_iter().collect();
    ranked.sort_by_key(|(place, _)| rank(*place));
    let view = |(place, mut photos): (Option<&str>, Vec<(&Digest, &PhotoSeen)>)| {
        photos.sort_by_key(|(digest, seen)| (seen.at.unix_ms(), **digest));
        PhotoPlaceView {
            place: place.map(|place| phrases::place_words(say, picture, place)),
            photos: photos.into_iter().map(|(digest, seen)| card(say, digest, seen)).collect(),
        }
    };
    ranked.into_iter().map(view).collect()
}

/// Where a photograph belongs: where it was taken, else where what it shows is.
pub(crate) fn place_of(seen: &PhotoSeen) -> Option<&str> {
    let shown = || seen.shows.first().map(|(place, _)| place.as_str());
    seen.taken.place.as_deref().or_else(shown)
}

fn keys<'a>(say: CatalogWords<'a>, seen: &'a PhotoSeen) -> impl Iterator<Item = String> + 'a {
    seen.shows.iter().filter_map(move |(place, item)| Some(say.catalog.item(item)?.key_at(place)))
}

/// The questions a photograph shows.
pub(crate) fn shows(say: CatalogWords<'_>, seen: &PhotoSeen) -> Vec<String> {
    let items: BTreeSet<&str> = seen.shows.iter().map(|(_, item)| item.as_str()).collect();
    let known = items.into_iter().filter(|item| say.catalog.item(item).is_some());
    known.map(|item| say.question(item).into_owned()).collect()
}

fn card(say: CatalogWords<'_>, digest: &Digest, seen: &PhotoSeen) -> PhotoCardView {
    PhotoCardView {
        digest: digest.to_string(),
        name: seen.taken.name.clone(),
        at: seen.at.to_string(),
        by: seen.by.clone(),
        shows: shows(say, seen),
        width: seen.taken.width,
        height: seen.taken.height,
        marks: marks(seen),
    }
}

fn about(say: CatalogWords<'_>, picture: &Picture, key: &str) -> Option<PhotoAboutView> {
    let parsed = Key::parse(key);
    let item = say.catalog.item(parsed.id)?;
    Some(about_item(say, picture, item, parsed.place.unwrap_or(&item.station)))
}

fn about_item(say: CatalogWords<'_>, picture: &Picture, item: &Item, place: &str) -> PhotoAboutView {
    let note = |note: &String| say.words.catalog(&format!("item-{}-photo", item.id), note).into_owned();
    PhotoAboutView {
        key: item.key_at(place),
        question: say.question(&item.id).into_owned(),
        place: phrases::place_words(say, picture, place),
        note: item.photo_note.as_ref().map(note),
    }
}

/// A photograph with its marks.
pub fn photo_marked(
    say: CatalogWords<'_>,
    picture: &Picture,
    digest: Digest,
    seen: &PhotoSeen,
) -> PhotoMarkedView {
    PhotoMarkedView {
        digest: digest.to_string(),
        place: place_of(seen).map(|place| phrases::place_words(say, picture, place)),
        shows: shows(say, seen),
        width: seen.taken.width,
        height: seen.taken.height,
        marks: marks(seen),
        lengths: lengths(say, picture, seen),
    }
}

/// The lengths of the walk a measurement on a photograph can answer.
fn lengths(say: CatalogWords<'_>, picture: &Picture, seen: &PhotoSeen) -> Vec<PhotoAboutView> {
    let shown = |step: &guide::Step<'_>| seen.shows.contains(&(step.place.to_owned(), step.item.id.clone()));
    let near = |step: &guide::Step<'_>| place_of(seen).is_none_or(|place| place == step.place);
    let steps = guide::walk(say.catalog, picture).into_iter().filter(|step| {
        let length = matches!(step.item.answer, AnswerKind::Length { .. });
        length && step.status != guide::Status::Skipped && (shown(step) || near(step))
    });
    let (first, then): (Vec<_>, Vec<_>) = steps.partition(shown);
    first.into_iter().chain(then).map(|step| about_item(say, picture, step.item, step.place)).collect()
}

/// The marks that stand on a photograph.
pub(crate) fn marks(seen: &PhotoSeen) -> Vec<MarkView> {
    seen.marks.iter().map(|(id, by, shape)| mark(id.to_string(), by, shape)).collect()
}

/// One mark as a screen draws it.
pub fn mark(id: String, by: &str, shape: &Shape) -> MarkView {
    let (kind, text) = match shape {
        Shape::Arrow { .. } => (MarkKind::Arrow, String::new()),
        Shape::Ring { .. } => (MarkKind::Ring, String::new()),
        Shape::Words { text, .. } => (MarkKind::Words, text.clone()),
        Shape::Dimension { length, tolerance, .. } => {
            (MarkKind::Dimension, dimension_words(*length, *tolerance))
        }
        Shape::Paper { .. } => (MarkKind::Paper, String::new()),
    };
    let point = |spot: Spot| {
        let (x, y) = spot.pixels();
        [x, y]
    };
    MarkView { id, by: by.to_owned(), kind, points: shape.spots().into_iter().map(point).collect(), text }
}
