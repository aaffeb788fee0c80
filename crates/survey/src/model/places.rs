//! Places of which a house can have several: two soffits, three walls to open, a bath above and one in the work area.
//!
//! What the last entry in log order says about a place stands. An id belongs to the first station that took it, so
//! that every reader gives an answer to the same place.

use super::fold::Picture;
use crate::log::{Entry, PlaceNamed};
use crate::{DeviceId, Stamp};

/// A place and what stands about it.
#[derive(Clone, Debug, PartialEq)]
pub struct PlaceSeen {
    /// Station it is a place of.
    pub station: String,
    /// Its id; the station's for the first place of a station.
    pub id: String,
    /// Its name for people.
    pub label: String,
    /// False when it was taken out. The first place of a station cannot be.
    pub there: bool,
    /// Why it was taken out, or a remark.
    pub reason: Option<String>,
    /// Who said so last.
    pub by: String,
    /// When, by that device's clock.
    pub at: Stamp,
    /// On which device.
    pub device: DeviceId,
}

impl PlaceSeen {
    /// True for the first place of its station, which is there without being added.
    pub fn is_first(&self) -> bool {
        self.id == self.station
    }
}

/// Takes in what one entry says about a place; entries come in log order.
pub(super) fn keep(places: &mut Vec<PlaceSeen>, entry: &Entry, named: &PlaceNamed) {
    let seen = PlaceSeen {
        station: named.station.clone(),
        id: named.place.clone(),
        label: named.label.clone(),
        there: named.there || named.place == named.station,
        reason: named.reason.clone(),
        by: entry.by.clone(),
        at: entry.at,
        device: entry.device,
    };
    match places.iter_mut().find(|p| p.id == named.place) {
        None => places.push(seen),
        Some(known) if known.station == named.station => *known = seen,
        Some(_) => {} // another station's: its first owner keeps it
    }
}

impl Picture {
    /// Ids of the places of a station: the first, which is always there, then those added and not taken out, in the
    /// order they were first named.
    pub fn places_of<'p>(&'p self, station: &'p str) -> Vec<&'p str> {
        let added = self.places.iter().filter(|p| p.station == station && !p.is_first() && p.there);
        core::iter::once(station).chain(added.map(|p| p.id.as_str())).collect()
    }
    /// What stands about a place, if anything was said about it.
    pub fn place(&self, id: &str) -> Option<&PlaceSeen> {
        self.places.iter().find(|p| p.id == id)
    }
    /// True for a place that was added and taken out again.
    pub fn taken_out(&self, place: &str) -> bool {
        self.place(place).is_some_and(|p| !p.there)
    }
    /// The station of a place: itself, unless the place was added.
    pub(super) fn station_of<'p>(&'p self, place: &'p str) -> &'p str {
        self.place(place).map_or(place, |p| p.station.as_str())
    }
}
