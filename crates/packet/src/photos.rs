//! Which photographs a log names, and where their bytes come from.

use std::collections::{BTreeMap, BTreeSet};
use std::fs::File;
use std::io::{self, Read};
use std::path::PathBuf;

use survey::log::{Body, Entry};
use survey::model::Closing;
use survey::{Digest, EntryId};

use crate::PhotoInfo;
use crate::stream::{Sums, copy};

/// Where sealing finds original photographs. Each is read twice: for its sums, then to copy it.
pub trait PhotoSource {
    /// Length of the original in bytes; an error of kind `NotFound` if it is not there.
    fn size(&mut self, digest: &Digest) -> io::Result<u64>;
    /// A reader of the original bytes from their beginning.
    fn open(&mut self, digest: &Digest) -> io::Result<Box<dyn Read + '_>>;
    /// Length and sums of the original; read for them unless they are at hand.
    fn sums(&mut self, digest: &Digest) -> io::Result<PhotoSums> {
        let most = self.size(digest)?;
        copy(&mut self.open(digest)?, &mut io::sink(), most).map(PhotoSums)
    }
}

/// Length and sums of a photograph, as it was read.
#[derive(Debug)]
pub struct PhotoSums(pub(crate) Sums);

fn absent() -> io::Error {
    io::Error::new(io::ErrorKind::NotFound, "the survey's photographs do not include it")
}

/// Photographs as files.
impl PhotoSource for BTreeMap<Digest, PathBuf> {
    fn size(&mut self, digest: &Digest) -> io::Result<u64> {
        Ok(self.get(digest).ok_or_else(absent)?.metadata()?.len())
    }
    fn open(&mut self, digest: &Digest) -> io::Result<Box<dyn Read + '_>> {
        Ok(Box::new(File::open(self.get(digest).ok_or_else(absent)?)?))
    }
}

/// Photographs in memory.
impl PhotoSource for BTreeMap<Digest, Vec<u8>> {
    fn size(&mut self, digest: &Digest) -> io::Result<u64> {
        Ok(self.get(digest).ok_or_else(absent)?.len() as u64)
    }
    fn open(&mut self, digest: &Digest) -> io::Result<Box<dyn Read + '_>> {
        Ok(Box::new(self.get(digest).ok_or_else(absent)?.as_slice()))
    }
}

/// The photographs a log names, by digest: those taken in, and those only an answer points to; without those that were
/// taken back. The first entry that names one (in the log's order) gives its name, place and item. `bytes` is 0 where
/// the log does not say. After demolition was declared nothing is taken back any more ([`Closing`]).
pub(crate) fn named_in(entries: &[Entry]) -> BTreeMap<Digest, PhotoInfo> {
    let closing = Closing::of(entries);
    let back: BTreeSet<EntryId> = entries
        .iter()
        .filter(|entry| !closing.sets_aside(entry))
        .filter_map(|entry| match &entry.body {
            Body::TakenBack(back) => Some(back.entry),
            _ => None,
        })
        .collect();
    let mut gone = BTreeSet::new();
    let mut taken = BTreeMap::new();
    let mut pointed = BTreeMap::new();
    for entry in entries {
        match &entry.body {
            Body::Photo(photo) if back.contains(&entry.id) => {
                gone.insert(photo.digest);
            }
            Body::Photo(photo) => {
                taken.entry(photo.digest).or_insert_with(|| PhotoInfo {
                    digest: photo.digest,
                    bytes: photo.bytes,
                    name: Some(photo.name.clone()),
                    place: photo.place.clone(),
                    item: photo.item.clone(),
                });
            }
            Body::Answer(answer) => {
                for digest in &answer.photos {
                    pointed.entry(*digest).or_insert_with(|| PhotoInfo {
                        digest: *digest,
                        bytes: 0,
                        name: None,
                        place: Some(answer.place.clone()),
                        item: Some(answer.item.clone()),
                    });
                }
            }
            _ => {}
        }
    }
    pointed.retain(|digest, _| !gone.contains(digest));
    pointed.extend(taken);
    pointed
}
