//! Folding the log to the current picture.
//!
//! The picture is a function of the *set* of entries: whatever order they arrive in, and whatever the clocks said,
//! every reader sees the same. A correction beats what it names. Claims that nobody corrected stand side by side;
//! when their values differ that is a disagreement, shown as one, and it counts as no evidence until a person
//! settles it with a correction that names the rivals. What a walk records after demolition was declared is set aside
//! ([`Closing`]).

use std::collections::{BTreeMap, BTreeSet};

use super::demolition::{Closing, Declared, Withdrawn, standing};
use super::places::{self, PlaceSeen};
use crate::log::{Answer, Body, Entry, Note, Opened, PhotoTaken, Shape, Value};
use crate::{DeviceId, Digest, EntryId, Stamp, SurveyId};

/// The folded picture of one survey.
#[derive(Clone, Debug, PartialEq, Default)]
pub struct Picture {
    /// The house, once any entry was seen.
    pub survey: Option<SurveyId>,
    /// How it was opened (the first opening in log order).
    pub opened: Option<Opened>,
    /// Places of which there can be several, in the order they were first named, taken-out ones among them.
    pub places: Vec<PlaceSeen>,
    /// Ids of places in the order walked, as the last entry about it says; empty: the catalog's order. Read it
    /// through [`crate::guide::stops`].
    pub order: Vec<String>,
    /// What stands for each (place, item), at places that were taken out too: read it through [`Picture::at`].
    pub answers: BTreeMap<(String, String), Standing>,
    /// Photographs by digest of the original.
    pub photos: BTreeMap<Digest, PhotoSeen>,
    /// Notes in log order.
    pub notes: Vec<(Stamp, String, Note)>,
    /// Where demolition was declared and nobody withdrew it: the declaration that ended the walk.
    pub demolition: Option<Declared>,
    /// Declarations that were withdrawn, in log order.
    pub withdrawn: Vec<Withdrawn>,
    /// Entries of the walk that came after the declaration, in log order: kept, and in nothing above.
    pub set_aside: Vec<Entry>,
    /// Entries folded.
    pub entries: u64,
    /// How many of them, in log order, an assessment is made from: all, or those before demolition was declared.
    pub counted: u64,
    /// Highest Lamport number seen.
    pub lamport: u64,
    /// Last entry of each device among those counted: position and hash.
    pub heads: BTreeMap<DeviceId, (u64, Digest)>,
    /// Latest wall time seen.
    pub last_touched: Option<Stamp>,
}

/// A photograph and where it was attached.
#[derive(Clone, Debug, PartialEq)]
pub struct PhotoSeen {
    /// The first entry that brought it in.
    pub taken: PhotoTaken,
    /// Who brought it in.
    pub by: String,
    /// When it was brought in (the device's clock).
    pub at: Stamp,
    /// (place, item) pairs of answers that show it.
    pub shows: BTreeSet<(String, String)>,
    /// Marks on it that nobody took back, in log order: the entry, who made it, and the mark.
    pub marks: Vec<(EntryId, String, Shape)>,
}

/// One claim about an item.
#[derive(Clone, Debug, PartialEq)]
pub struct Claim {
    /// The entry.
    pub id: EntryId,
    /// Who said so.
    pub by: String,
    /// When, by the device's clock.
    pub at: Stamp,
    /// On which device.
    pub device: DeviceId,
    /// The answer.
    pub answer: Answer,
}

/// What stands for one item: the claims nobody corrected, the latest in log order first.
#[derive(Clone, Debug, PartialEq)]
pub struct Standing {
    /// At least one claim.
    pub claims: Vec<Claim>,
    /// Claims that were corrected.
    pub corrected: u32,
}

impl Standing {
    /// The claim shown first. Which of several rivals that is carries no meaning.
    pub fn leading(&self) -> &Claim {
        &self.claims[0] // the fold never makes an empty list
    }
    /// True when uncorrected claims differ in value.
    pub fn disagrees(&self) -> bool {
        self.claims.iter().any(|c| c.answer.value != self.claims[0].answer.value)
    }
    /// The value, unless claims disagree or it was withdrawn.
    pub fn settled(&self) -> Option<&Answer> {
        let leading = &self.claims[0].answer;
        (!self.disagrees() && leading.value != Value::Withdrawn).then_some(leading)
    }
}

impl Picture {
    /// Name of the house for people; empty until the entry that opened it is there.
    pub fn label(&self) -> &str {
        self.opened.as_ref().map_or("", |opened| &opened.label)
    }
    /// Items whose claims disagree, with their place.
    pub fn disagreements(&self) -> impl Iterator<Item = (&str, &str, &Standing)> {
        let open = self.answers.iter().filter(|((place, _), s)| s.disagrees() && !self.taken_out(place));
        open.map(|((place, item), s)| (place.as_str(), item.as_str(), s))
    }
}

/// Folds entries of one survey, given in any order; doubles count once.
pub fn fold<'a>(entries: impl IntoIterator<Item = &'a Entry>) -> Picture {
    let mut sorted: Vec<&Entry> = entries.into_iter().collect();
    sorted.sort_by_key(|e| (e.order(), e.id));
    sorted.dedup_by_key(|e| e.id);

    let closing = Closing::of(sorted.iter().copied());
    let mut picture = Picture { demolition: first_declared(&sorted), ..Picture::default() };
    let mut corrected: BTreeSet<EntryId> = BTreeSet::new();
    let mut taken_back: BTreeSet<EntryId> = BTreeSet::new();
    for entry in sorted.iter().filter(|e| !closing.sets_aside(e)) {
        match &entry.body {
            // A correction beats whatever it names, but never itself.
            Body::Answer(answer) => corrected.extend(answer.corrects.iter().filter(|id| **id != entry.id)),
            Body::TakenBack(back) => {
                taken_back.insert(back.entry);
            }
            _ => {}
        }
    }
    // A mark may come before its photograph where tablets were merged: marks are put on at the end.
    let mut marks: BTreeMap<Digest, Vec<(EntryId, String, Shape)>> = BTreeMap::new();
    let mut gone: BTreeSet<EntryId> = BTreeSet::new();
    let mut photos_gone: BTreeSet<Digest> = BTreeSet::new();
    let mut lasts: BTreeMap<DeviceId, &Entry> = BTreeMap::new();
    for entry in &sorted {
        picture.survey.get_or_insert(entry.survey);
        picture.entries += 1;
        picture.lamport = picture.lamport.max(entry.lamport);
        picture.last_touched = picture.last_touched.max(Some(entry.at));
        if closing.counts(entry) {
            picture.counted += 1;
            let last = lasts.entry(entry.device).or_insert(*entry);
            if entry.seq > last.seq {
                *last = *entry;
            }
        }
        if closing.sets_aside(entry) {
            picture.set_aside.push((*entry).clone());
            continue;
        }
        match &entry.body {
            Body::Opened(opened) => {
                picture.opened.get_or_insert_with(|| opened.clone());
            }
            Body::Answer(answer) => keep_claim(&mut picture, entry, answer, corrected.contains(&entry.id)),
            Body::Photo(taken) if taken_back.contains(&entry.id) => {
                photos_gone.insert(taken.digest);
            }
            Body::Photo(taken) => keep_photo(&mut picture, entry, taken),
            Body::Note(_) if taken_back.contains(&entry.id) => {}
            Body::Note(note) => picture.notes.push((entry.at, entry.by.clone(), note.clone())),
            Body::Sealed(_) | Body::TakenBack(_) | Body::Demolition(_) => {}
            Body::DemolitionWithdrawn(withdrawn) => picture.withdrawn.push(Withdrawn {
                declared: withdrawn.declared.clone(),
                by: entry.by.clone(),
                at: entry.at,
                reason: withdrawn.reason.clone(),
            }),
            Body::Place(named) => places::keep(&mut picture.places, entry, named),
            Body::Order(order) => picture.order.clone_from(&order.places),
            Body::Mark(made) => {
                let list = marks.entry(made.photo).or_default();
                list.push((entry.id, entry.by.clone(), made.mark.clone()));
            }
            Body::MarkGone(taken) => {
                gone.insert(taken.mark);
            }
        }
    }
    picture.heads = lasts.into_iter().map(|(device, last)| (device, (last.seq, last.hash()))).collect();
    picture.answers.retain(|_, standing| !standing.claims.is_empty());
    photos_gone.retain(|digest| !picture.photos.contains_key(digest));
    attach_photos(&mut picture, &photos_gone);
    for (digest, mut list) in marks {
        list.retain(|(id, _, _)| !gone.contains(id));
        if let Some(seen) = picture.photos.get_mut(&digest) {
            seen.marks = list;
        }
    }
    picture
}

/// The first declaration in log order that stands.
fn first_declared(sorted: &[&Entry]) -> Option<Declared> {
    let entry = standing(sorted.iter().copied()).into_iter().next()?;
    let Body::Demolition(declared) = &entry.body else { return None };
    Some(Declared {
        id: entry.id,
        by: entry.by.clone(),
        at: entry.at,
        device: entry.device,
        reason: declared.reason.clone(),
        sealed_since: sorted.iter().any(|e| matches!(e.body, Body::Sealed(_)) && e.order() > entry.order()),
    })
}

fn keep_claim(picture: &mut Picture, entry: &Entry, answer: &Answer, corrected: bool) {
    let key = (answer.place.clone(), answer.item.clone());
    let standing = picture.answers.entry(key).or_insert(Standing { claims: Vec::new(), corrected: 0 });
    if corrected {
        standing.corrected += 1;
        return;
    }
    let claim = Claim {
        id: entry.id,
        by: entry.by.clone(),
        at: entry.at,
        device: entry.device,
        answer: answer.clone(),
    };
    standing.claims.insert(0, claim);
}

fn keep_photo(picture: &mut Picture, entry: &Entry, taken: &PhotoTaken) {
    let seen = picture.photos.entry(taken.digest).or_insert_with(|| PhotoSeen {
        taken: taken.clone(),
        by: entry.by.clone(),
        at: entry.at,
        shows: BTreeSet::new(),
        marks: Vec::new(),
    });
    if let (Some(place), Some(item)) = (&taken.place, &taken.item) {
        seen.shows.insert((place.clone(), item.clone()));
    }
}

/// Puts photographs to the answers that show them; answers show those no more that were taken back.
fn attach_photos(picture: &mut Picture, gone: &BTreeSet<Digest>) {
    for (key, standing) in &mut picture.answers {
        for claim in &mut standing.claims {
            claim.answer.photos.retain(|digest| !gone.contains(digest));
        }
        for digest in standing.claims.iter().flat_map(|c| &c.answer.photos) {
            if let Some(seen) = picture.photos.get_mut(digest) {
                seen.shows.insert(key.clone());
            }
        }
    }
}

#[cfg(test)]
mod tests;
