//! Where the walk of a house ended, and what came after.
//!
//! Demolition is declared by an entry ([`crate::log::Demolition`]). The first declaration in log order that nobody
//! withdrew ends the walk: entries of the walk that come later in that order are kept and set aside, so that nothing seen
//! in an opened house becomes evidence of its forecast. The order is that of all entries (Lamport number, device,
//! position), not the wall's clock: an entry of another tablet that had not heard of the declaration counts when its
//! number is the lower one. It cannot reach a forecast that is judged, because the office takes none after the first
//! finding, nor after the first packet that carries a declaration.

use std::collections::BTreeSet;

use crate::log::{Body, Entry};
use crate::{DeviceId, EntryId, Stamp};

/// Where the walk ended, if it did.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Default)]
pub struct Closing {
    declared: Option<((u64, DeviceId, u64), EntryId)>,
}

/// A declaration of demolition.
#[derive(Clone, Debug, PartialEq)]
pub struct Declared {
    /// The entry.
    pub id: EntryId,
    /// Who declared it.
    pub by: String,
    /// When, by the device's clock.
    pub at: Stamp,
    /// On which device.
    pub device: DeviceId,
    /// A remark.
    pub reason: Option<String>,
    /// True where the house was sealed after it in log order: the office may have been told.
    pub sealed_since: bool,
}

/// Declarations that were withdrawn.
#[derive(Clone, Debug, PartialEq)]
pub struct Withdrawn {
    /// The entries that declared it.
    pub declared: Vec<EntryId>,
    /// Who withdrew them.
    pub by: String,
    /// When, by the device's clock.
    pub at: Stamp,
    /// Why.
    pub reason: String,
}

impl Closing {
    /// Of the entries of one survey, in any order.
    pub fn of<'a>(entries: impl IntoIterator<Item = &'a Entry> + Clone) -> Self {
        let declared = standing(entries).into_iter().map(|e| (e.order(), e.id)).min();
        Self { declared }
    }
    /// The entry that ended the walk.
    pub fn declared_by(&self) -> Option<EntryId> {
        self.declared.map(|(_, id)| id)
    }
    /// True for an entry of the walk that came too late: it is kept, and counts for nothing.
    pub fn sets_aside(&self, entry: &Entry) -> bool {
        entry.body.is_of_walk() && !self.counts(entry)
    }
    /// True for an entry that an assessment is made from.
    pub(super) fn counts(&self, entry: &Entry) -> bool {
        self.declared.is_none_or(|(declared, _)| entry.order() < declared)
    }
}

/// The declarations nobody withdrew.
pub(super) fn standing<'a>(entries: impl IntoIterator<Item = &'a Entry> + Clone) -> Vec<&'a Entry> {
    let withdrawn: BTreeSet<EntryId> = entries
        .clone()
        .into_iter()
        .filter_map(|e| match &e.body {
            Body::DemolitionWithdrawn(withdrawn) => Some(&withdrawn.declared),
            _ => None,
        })
        .flatten()
        .copied()
        .collect();
    let declares = |e: &&Entry| matches!(e.body, Body::Demolition(_)) && !withdrawn.contains(&e.id);
    entries.into_iter().filter(declares).collect()
}
