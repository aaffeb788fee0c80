//! The order of the walk: what is asked now, what is skipped, what is still wanted.
//!
//! Pure functions of a catalog and a folded picture; nothing here knows odds. What an answer is worth is worked out
//! elsewhere and handed in ([`plan()`]). What a house can have several of is walked place by place: all
//! questions about the first soffit, then all about the second.

mod gaps;
mod plan;

use crate::catalog::{Catalog, Item, PhotoWish, Place, Predicate, Station};
use crate::model::{At, Picture};

pub use gaps::{Gaps, gaps};
pub use plan::{Because, Plan, Planned, Use, plan};

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

/// One item of the walk at one place, and where it stands.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Step<'a> {
    /// The item.
    pub item: &'a Item,
    /// The place: the item's station, or one of several places of it.
    pub place: &'a str,
    /// Where it stands.
    pub status: Status,
}

impl Step<'_> {
    /// Its key ([`crate::Key`]).
    pub fn key(&self) -> String {
        self.item.key_at(self.place)
    }
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
pub struct WantedPhoto<'a> {
    /// The item it belongs to.
    pub item: &'a Item,
    /// At which place.
    pub place: &'a str,
    /// True while no photograph is attached to it.
    pub missing: bool,
}

/// Which stations count: those at the given places, or all.
#[derive(Clone, Copy, PartialEq, Debug, Default)]
pub struct Scope<'a> {
    /// Places whose items count; all when empty.
    pub places: &'a [Place],
}

/// One stop of the walk: a station, or one of several places of a station.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Stop<'a> {
    /// The station.
    pub station: &'a Station,
    /// The place; the station's id for its first one.
    pub place: &'a str,
}

/// The stops in the order walked: as the estimator put them, otherwise as the catalog lists them. A stop the estimator
/// did not order, because it was added since, comes after the one it follows in the catalog.
pub fn stops<'a>(catalog: &'a Catalog, picture: &'a Picture) -> impl Iterator<Item = Stop<'a>> {
    let listed: Vec<Stop<'a>> = stops_as_listed(catalog, picture).collect();
    let at = |place: &str| listed.iter().position(|stop| stop.place == place);
    let mut order: Vec<usize> = Vec::with_capacity(listed.len());
    for known in picture.order.iter().filter_map(|place| at(place)) {
        if !order.contains(&known) {
            order.push(known);
        }
    }
    for new in 0..listed.len() {
        if !order.contains(&new) {
            let before = new.checked_sub(1).and_then(|before| order.iter().position(|o| *o == before));
            order.insert(before.map_or(0, |before| before + 1), new);
        }
    }
    order.into_iter().map(move |at| listed[at])
}

/// The stops in the catalog's order, whatever the order walked: for what must not depend on it. The places of a
/// station stand in the order they were added.
pub fn stops_as_listed<'a>(catalog: &'a Catalog, picture: &'a Picture) -> impl Iterator<Item = Stop<'a>> {
    catalog.stations.iter().flat_map(move |station| {
        let places = match station.each {
            Some(_) => picture.places_of(&station.id),
            None => vec![station.id.as_str()],
        };
        places.into_iter().map(move |place| Stop { station, place })
    })
}

/// The name of a place for people; none where a house has its station once.
pub fn place_name(catalog: &Catalog, picture: &Picture, place: &str) -> Option<String> {
    let known = picture.place(place);
    let station = catalog.station(known.map_or(place, |p| p.station.as_str()))?;
    let each = station.each.as_ref()?;
    let taken_out = known.is_some_and(|p| !p.there);
    if picture.places_of(&station.id).len() < 2 && !taken_out {
        return None;
    }
    // A first place whose name was taken back has none.
    let named = known.filter(|p| !p.label.is_empty());
    Some(named.map_or_else(|| format!("First {}", each.one), |p| p.label.clone()))
}

/// The answers as an item at a place sees them: those of the place where it is asked at each, otherwise the house's.
pub fn seen_by<'p>(item: &Item, place: &'p str, picture: &'p Picture) -> At<'p> {
    picture.at(item.at_each.then_some(place))
}

/// Where one item stands at a place.
pub fn status(item: &Item, place: &str, picture: &Picture) -> Status {
    let here = seen_by(item, place, picture);
    let standing = here.standing(&item.id).map(|(_, standing)| standing);
    if standing.is_some_and(|s| s.disagrees()) {
        return Status::Disagreed;
    }
    let answered = standing.is_some_and(|s| s.settled().is_some());
    if item.skipped(&here) {
        Status::Skipped
    } else if answered {
        Status::Answered
    } else if item.in_first_walk(&here) {
        Status::Open
    } else {
        Status::SecondLook
    }
}

/// The whole walk in order, every item with its status at each place.
pub fn walk<'a>(catalog: &'a Catalog, picture: &'a Picture) -> Vec<Step<'a>> {
    within(catalog, picture, Scope::default()).collect()
}

/// All items with their status at each place, in the catalog's order, whatever the order walked: for numbers, which
/// must not depend on it.
pub fn walk_as_listed<'a>(catalog: &'a Catalog, picture: &'a Picture) -> Vec<Step<'a>> {
    stops_as_listed(catalog, picture).flat_map(|stop| steps_at(catalog, picture, stop)).collect()
}

/// The next item to ask: the first open or disputed one in walking order, within the places of the scope.
pub fn next<'a>(catalog: &'a Catalog, picture: &'a Picture, scope: Scope<'a>) -> Option<Step<'a>> {
    within(catalog, picture, scope).find(|step| matches!(step.status, Status::Open | Status::Disagreed))
}

/// How far the walk is, within the places of the scope.
pub fn progress(catalog: &Catalog, picture: &Picture, scope: Scope<'_>) -> Progress {
    let mut progress = Progress::default();
    for step in within(catalog, picture, scope) {
        match step.status {
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
pub fn photos<'a>(catalog: &'a Catalog, picture: &'a Picture) -> Vec<WantedPhoto<'a>> {
    let needed = walk(catalog, picture).into_iter().filter(|step| step.item.photo == PhotoWish::Needed);
    let counted = needed.filter(|Step { item, place, status }| match status {
        Status::Skipped | Status::SecondLook => false,
        Status::Answered => seen_by(item, place, picture).value(&item.id).is_some_and(|v| v.is_statement()),
        Status::Open | Status::Disagreed => true,
    });
    let wanted =
        |Step { item, place, .. }| WantedPhoto { item, place, missing: !has_photo(item, place, picture) };
    counted.map(wanted).collect()
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
pub fn answered_but_skipped<'a>(catalog: &'a Catalog, picture: &'a Picture) -> Vec<Step<'a>> {
    let answered = |step: &Step<'_>| seen_by(step.item, step.place, picture).value(&step.item.id).is_some();
    let steps = walk(catalog, picture).into_iter();
    steps.filter(|step| step.status == Status::Skipped && answered(step)).collect()
}

fn within<'a>(
    catalog: &'a Catalog,
    picture: &'a Picture,
    scope: Scope<'a>,
) -> impl Iterator<Item = Step<'a>> {
    let counts = move |stop: &Stop<'_>| scope.places.is_empty() || scope.places.contains(&stop.station.place);
    stops(catalog, picture).filter(counts).flat_map(move |stop| steps_at(catalog, picture, stop))
}

fn steps_at<'a>(
    catalog: &'a Catalog,
    picture: &'a Picture,
    Stop { station, place }: Stop<'a>,
) -> impl Iterator<Item = Step<'a>> {
    let items = catalog.items.iter().filter(|item| item.station == station.id);
    items.map(move |item| Step { item, place, status: status(item, place, picture) })
}

fn has_photo(item: &Item, place: &str, picture: &Picture) -> bool {
    let here = |p: &str| !item.at_each || p == place;
    let answer = seen_by(item, place, picture).answer(&item.id);
    let attached = answer.is_some_and(|answer| !answer.photos.is_empty());
    let shown = |seen: &crate::model::PhotoSeen| {
        let taken =
            seen.taken.item.as_deref() == Some(&item.id) && seen.taken.place.as_deref().is_none_or(here);
        taken || seen.shows.iter().any(|(p, shows)| *shows == item.id && here(p))
    };
    attached || picture.photos.values().any(shown)
}

#[cfg(test)]
mod tests;
