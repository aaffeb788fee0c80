//! The order of the walk: what is asked now, what is skipped, what is still wanted.
//!
//! Pure functions of a catalog and a folded picture; nothing here knows odds. What is worth a second look by its
//! value of information is decided elsewhere.

use crate::catalog::{Answers, Catalog, Item, PhotoWish, Place, Predicate};
use crate::model::Picture;

/// Where one item stands in the walk.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub enum Status {
    /// To be asked.
    Open,
    /// Answered, "can't tell" and "could not reach" included.
    Answered,
    /// Answered differently by different people; a correction must settle it.
    Disagreed,
    /// Ruled out by scope or answers.
    Skipped,
    /// Not part of the first walk, unless its value of information asks for it.
    SecondLook,
}

/// One item of the walk and where it stands.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Step<'c> {
    /// The item.
    pub item: &'c Item,
    /// Where it stands.
    pub status: Status,
}

/// How far the walk is.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default)]
pub struct Progress {
    /// Items that matter now: asked in this walk, answered or not. Shrinks as answers rule items out.
    pub asked: u32,
    /// Of these, answered.
    pub answered: u32,
    /// Of these, still open or in disagreement.
    pub remaining: u32,
}

/// A photograph the walk needs.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct WantedPhoto<'c> {
    /// The item it belongs to.
    pub item: &'c Item,
    /// True while no photograph is attached to it.
    pub missing: bool,
}

/// Which stations count: those at the given places, or all.
#[derive(Clone, Copy, PartialEq, Debug, Default)]
pub struct Scope<'a> {
    /// Places whose items count; all when empty.
    pub places: &'a [Place],
}

/// Where one item stands.
pub fn status(item: &Item, picture: &Picture) -> Status {
    let standing = picture.standing(&item.id).map(|(_, standing)| standing);
    if standing.is_some_and(|s| s.disagrees()) {
        return Status::Disagreed;
    }
    let answered = standing.is_some_and(|s| s.settled().is_some());
    if item.skipped(picture) {
        Status::Skipped
    } else if answered {
        Status::Answered
    } else if item.in_first_walk(picture) {
        Status::Open
    } else {
        Status::SecondLook
    }
}

/// The whole walk in order, every item with its status.
pub fn walk<'c>(catalog: &'c Catalog, picture: &Picture) -> Vec<Step<'c>> {
    catalog.items.iter().map(|item| Step { item, status: status(item, picture) }).collect()
}

/// The next item to ask: the first open or disputed one in walking order, within the places of the scope.
pub fn next<'c>(catalog: &'c Catalog, picture: &Picture, scope: Scope<'_>) -> Option<&'c Item> {
    let open = |item: &&Item| matches!(status(item, picture), Status::Open | Status::Disagreed);
    catalog.items.iter().filter(|item| within(catalog, item, scope)).find(open)
}

/// How far the walk is, within the places of the scope.
pub fn progress(catalog: &Catalog, picture: &Picture, scope: Scope<'_>) -> Progress {
    let mut progress = Progress::default();
    for item in catalog.items.iter().filter(|item| within(catalog, item, scope)) {
        match status(item, picture) {
            Status::Answered => progress.answered += 1,
            Status::Open | Status::Disagreed => progress.remaining += 1,
            Status::Skipped | Status::SecondLook => continue,
        }
        progress.asked += 1;
    }
    progress
}

/// Photographs needed by items that are asked or answered, in walking order. An answer "could not reach" or
/// "can't tell" needs none.
pub fn photos<'c>(catalog: &'c Catalog, picture: &Picture) -> Vec<WantedPhoto<'c>> {
    let needed = catalog.items.iter().filter(|item| item.photo == PhotoWish::Needed);
    let counted = needed.filter(|item| match status(item, picture) {
        Status::Skipped | Status::SecondLook => false,
        Status::Answered => picture.value(&item.id).is_some_and(|v| v.is_statement()),
        Status::Open | Status::Disagreed => true,
    });
    counted.map(|item| WantedPhoto { item, missing: !has_photo(&item.id, picture) }).collect()
}

/// The items whose answers decide whether this one is asked, sorted: for "why not asked".
pub fn reads(item: &Item) -> Vec<&str> {
    let rules = item.skip_if.iter().chain(&item.promote_if);
    let mut items: Vec<&str> = rules.flat_map(Predicate::items).collect();
    items.sort_unstable();
    items.dedup();
    items
}

/// Answers to items that are skipped: recorded before the rule that now skips them, or in error.
pub fn answered_but_skipped<'c>(catalog: &'c Catalog, picture: &Picture) -> Vec<&'c Item> {
    let stale = |item: &&Item| item.skipped(picture) && Answers::value(picture, &item.id).is_some();
    catalog.items.iter().filter(stale).collect()
}

fn within(catalog: &Catalog, item: &Item, scope: Scope<'_>) -> bool {
    let place = catalog.stations.iter().find(|s| s.id == item.station).map(|s| s.place);
    scope.places.is_empty() || place.is_some_and(|p| scope.places.contains(&p))
}

fn has_photo(item: &str, picture: &Picture) -> bool {
    let attached = picture.answer(item).is_some_and(|answer| !answer.photos.is_empty());
    let shown = |seen: &crate::model::PhotoSeen| {
        seen.taken.item.as_deref() == Some(item) || seen.shows.iter().any(|(_, shows)| shows == item)
    };
    attached || picture.photos.values().any(shown)
}

#[cfg(test)]
mod tests;
