//! Packets that come over the line and are not whole yet: kept on the disk, so that a line or a program that breaks costs a
//! piece at most.
//!
//! `arriving/<tablet>/<packet>/` holds `sending.json` with the recipe, `<segment>.part` while a segment comes, and `<segment>`
//! once it is whole and is what its digest says. Whatever is answered to the tablet is flushed before. Names on the disk are
//! made of numbers and digests only.
//!
//! | limit | how much (our own choice, no source) |
//! | --- | --- |
//! | packets that are not whole, of one tablet | 8 |
//! | in all | 64 |
//! | room on the disk | three times the packet: its segments, the file, the copy beside the others |
//! | a packet nobody goes on with | 30 days |

mod disk;
mod error;
#[cfg(test)]
mod tests;

use std::collections::{BTreeMap, HashMap};
use std::fs::{self, File};
use std::io::{self, Read, Seek as _, SeekFrom, Write};
use std::path::{Path, PathBuf};
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};

use courier::talk::{Have, Missing};
use courier::{Recipe, Segment};
use serde::{Deserialize, Serialize};
use sha2::Digest as _;
use survey::{Digest, Stamp};

use crate::tablets::TabletId;

pub use error::ArrivingError;

/// Most packets of one tablet that are not whole.
pub const MOST_OF_ONE: usize = 8;
/// Most in all.
pub const MOST: usize = 64;
/// How long one is kept that nobody goes on with.
pub const KEPT_MS: i64 = 30 * 24 * 60 * 60 * 1000;
/// Name of the folder in the office's folder.
pub(crate) const FOLDER: &str = "arriving";
const NOTE: &str = "sending.json";
const PART: &str = "part";
const WHOLE: &str = "whole.zip";

/// Who sends what.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Which {
    /// The tablet.
    pub tablet: TabletId,
    /// The packet.
    pub packet: Digest,
}

/// A packet that is not whole yet.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Underway {
    /// Who sends what.
    pub which: Which,
    /// Its length.
    pub bytes: u64,
    /// How much of it is here.
    pub have: u64,
    /// When it was begun.
    pub since: Stamp,
    /// When the last piece came.
    pub last: Stamp,
}

/// What is noted of one beside its segments.
#[derive(Clone, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Note {
    since: Stamp,
    /// Segments that were here when it began.
    known: Vec<Digest>,
    recipe: Recipe,
}

/// Bytes that are here already: a file, where in it, how many.
#[derive(Clone, Debug)]
pub struct Elsewhere {
    /// The file.
    pub file: PathBuf,
    /// Where they begin.
    pub at: u64,
    /// How many they are.
    pub bytes: u64,
}

/// Finds bytes that are here already.
pub type Finds<'f> = &'f mut dyn FnMut(Digest) -> Option<Elsewhere>;

/// Packets underway.
pub struct Arriving {
    dir: PathBuf,
    /// What is being worked on, each by one at a time.
    open: Mutex<HashMap<Which, Arc<Mutex<Option<Loaded>>>>>,
}

struct Loaded {
    note: Note,
    segments: BTreeMap<Digest, u64>,
}

impl Arriving {
    /// Those of the office in this folder.
    pub fn new(office: &Path) -> Self {
        Self { dir: office.join(FOLDER), open: Mutex::default() }
    }

    /// Begins a packet or takes it up again: what is missing of it.
    ///
    /// # Errors
    /// Too many that are not whole; no room on the disk.
    pub fn begin(
        &self,
        which: Which,
        recipe: &Recipe,
        finds: Finds<'_>,
        now: Stamp,
    ) -> Result<Vec<Missing>, ArrivingError> {
        let turn = self.turn(which);
        let mut loaded = held(&turn);
        let dir = self.place(which);
        let before = self.load(which, &mut loaded).ok().map(|there| there.note.clone());
        if before.is_none() {
            self.room_for_another(which, now)?;
        }
        let known: Vec<Digest> = distinct(recipe)
            .into_iter()
            .filter(|(sha256, bytes)| finds(*sha256).is_some_and(|there| there.bytes == *bytes))
            .map(|(sha256, _)| sha256)
            .collect();
        let since = before.as_ref().map_or(now, |note| note.since);
        let note = Note { since, known, recipe: recipe.clone() };
        let same = before.is_some_and(|b| b.recipe == note.recipe && b.known == note.known);
        if !same {
            *loaded = None;
            fs::create_dir_all(&dir).map_err(|e| ArrivingError::at(&dir, &e))?;
            let text = serde_json::to_vec(&note)
                .map_err(|e| ArrivingError::at(&dir, &io::Error::other(e.to_string())))?;
            let path = dir.join(NOTE);
            keys::write_whole(&path, &text).map_err(|e| ArrivingError::at(&path, &e))?;
            disk::flush_folder(&self.dir.join(which.tablet.to_string()))?;
            disk::flush_folder(&self.dir)?;
        }
        let loaded = self.load(which, &mut loaded)?;
        let missing = lacks(&dir, loaded)?;
        let lacking: u64 =
            missing.iter().map(|m| loaded.segments.get(&m.sha256).map_or(0, |b| b - m.have)).sum();
        if lacking > 0 {
            // Its segments, the file made of them, and the copy beside the others.
            disk::room(&self.dir, lacking.saturating_add(2 * recipe.bytes))?;
        }
        Ok(missing)
    }

    /// Takes a piece of a segment: `from` where it begins, `of` how long the segment is. Gives how much is here.
    ///
    /// # Errors
    /// A packet that was not begun, a segment that is not in it, a piece that does not follow on what is here.
    pub fn piece(
        &self,
        which: Which,
        segment: Segment,
        from: u64,
        bytes: &[u8],
    ) -> Result<Have, ArrivingError> {
        let turn = self.turn(which);
        let mut loaded = held(&turn);
        let dir = self.place(which);
        let length = *self
            .load(which, &mut loaded)?
            .segments
            .get(&segment.sha256)
            .filter(|length| **length == segment.bytes)
            .ok_or(ArrivingError::NotInRecipe)?;
        let whole = dir.join(segment.sha256.hex());
        let part = whole.with_extension(PART);
        if whole.is_file() {
            return Ok(Have { have: length });
        }
        let have = disk::length(&part)?;
        if have != from {
            return Err(ArrivingError::NotNext { have });
        }
        let after = have + bytes.len() as u64;
        if bytes.is_empty() || after > length {
            return Err(ArrivingError::NotInRecipe);
        }
        let trouble = |e: io::Error| ArrivingError::at(&part, &e);
        let mut file = disk::append(&part).map_err(trouble)?;
        file.write_all(bytes).and_then(|()| file.sync_data()).map_err(|e| {
            // What was written of it is cut off again where the disk lets us; the digest would tell.
            let _ = file.set_len(have);
            trouble(e)
        })?;
        if have == 0 {
            disk::flush_folder(&dir)?;
        }
        if after < length {
            return Ok(Have { have: after });
        }
        drop(file);
        if disk::sum(&part).map_err(trouble)? != segment.sha256 {
            // The line does not alter bytes unseen: the file there is another one by now, or this disk failed.
            fs::remove_file(&part).map_err(trouble)?;
            return Ok(Have { have: 0 });
        }
        fs::rename(&part, &whole).map_err(trouble)?;
        disk::flush_folder(&dir)?;
        Ok(Have { have: length })
    }

    /// Makes the file of a packet that is whole and hands it on; afterwards, where it was taken in, nothing is left here.
    ///
    /// # Errors
    /// A packet that was not begun, what is missing of it, segments that together are another file; what `take` refuses
    /// with.
    pub fn finish<T, E: From<ArrivingError>>(
        &self,
        which: Which,
        finds: Finds<'_>,
        lost: &mut dyn FnMut(Digest),
        take: impl FnOnce(&Path) -> Result<T, E>,
    ) -> Result<T, E> {
        let turn = self.turn(which);
        let mut loaded = held(&turn);
        let dir = self.place(which);
        let there = self.load(which, &mut loaded)?;
        let missing = lacks(&dir, there)?;
        if !missing.is_empty() {
            return Err(ArrivingError::Missing(missing).into());
        }
        let file = dir.join(WHOLE);
        match assemble(&dir, there, finds) {
            Ok(found) if found == which.packet => {}
            Ok(_) => {
                // Each segment is what its digest says, so the recipe is not this packet's.
                self.clear(which, &mut loaded)?;
                return Err(ArrivingError::Another.into());
            }
            Err(Made::Lost(digests)) => {
                digests.iter().for_each(|digest| lost(*digest));
                there.note.known.retain(|known| !digests.contains(known));
                let path = dir.join(NOTE);
                let text = serde_json::to_vec(&there.note)
                    .map_err(|e| ArrivingError::at(&path, &io::Error::other(e.to_string())))?;
                keys::write_whole(&path, &text).map_err(|e| ArrivingError::at(&path, &e))?;
                let missing = lacks(&dir, there)?;
                return Err(ArrivingError::Missing(missing).into());
            }
            Err(Made::Disk(e)) => return Err(ArrivingError::at(&file, &e).into()),
        }
        let taken = take(&file);
        let _ = fs::remove_file(&file); // made again where it is needed; swept with the rest
        let taken = taken?;
        self.clear(which, &mut loaded)?;
        Ok(taken)
    }

    /// Forgets a packet: it is here, or is not taken.
    ///
    /// # Errors
    /// A disk that refuses.
    pub fn forget(&self, which: Which) -> Result<(), ArrivingError> {
        let turn = self.turn(which);
        let mut loaded = held(&turn);
        self.clear(which, &mut loaded)
    }

    /// All that are not whole, the last touched first.
    ///
    /// # Errors
    /// A folder that cannot be read.
    pub fn all(&self) -> Result<Vec<Underway>, ArrivingError> {
        let mut all = Vec::new();
        for which in self.underway()? {
            let dir = self.place(which);
            // One that is being taken in at this moment may be gone by now.
            let Ok(note) = read(&dir) else { continue };
            let loaded = Loaded::of(note);
            let lacking: u64 = lacks(&dir, &loaded)?
                .iter()
                .map(|m| loaded.segments.get(&m.sha256).map_or(0, |bytes| bytes.saturating_sub(m.have)))
                .sum();
            let (bytes, since) = (loaded.note.recipe.bytes, loaded.note.since);
            let last = disk::last(&dir, since);
            all.push(Underway { which, bytes, have: bytes.saturating_sub(lacking), since, last });
        }
        all.sort_by_key(|one| std::cmp::Reverse(one.last.unix_ms()));
        Ok(all)
    }

    /// Takes away what nobody went on with for [`KEPT_MS`], and what cannot be read. Gives how many.
    ///
    /// # Errors
    /// A folder that cannot be read or written.
    pub fn sweep(&self, now: Stamp) -> Result<usize, ArrivingError> {
        let mut swept = 0;
        for which in self.underway()? {
            let dir = self.place(which);
            let since = read(&dir).ok().map(|note| note.since);
            if since.is_none_or(|since| now.unix_ms() - disk::last(&dir, since).unix_ms() > KEPT_MS) {
                self.forget(which)?;
                swept += 1;
            }
        }
        Ok(swept)
    }

    fn room_for_another(&self, which: Which, now: Stamp) -> Result<(), ArrivingError> {
        let count = |all: &[Which]| (all.iter().filter(|one| one.tablet == which.tablet).count(), all.len());
        let full = |(of_one, all)| of_one >= MOST_OF_ONE || all >= MOST;
        if full(count(&self.underway()?)) {
            self.sweep(now)?;
            if full(count(&self.underway()?)) {
                return Err(ArrivingError::TooMany);
            }
        }
        Ok(())
    }

    fn underway(&self) -> Result<Vec<Which>, ArrivingError> {
        let mut all = Vec::new();
        for tablet in disk::names(&self.dir)? {
            let Some(id) = TabletId::parse(&tablet) else { continue };
            for packet in disk::names(&self.dir.join(&tablet))? {
                if let Ok(packet) = packet.parse() {
                    all.push(Which { tablet: id, packet });
                }
            }
        }
        Ok(all)
    }

    fn place(&self, which: Which) -> PathBuf {
        self.dir.join(which.tablet.to_string()).join(which.packet.hex())
    }

    /// One at a time for each packet.
    fn turn(&self, which: Which) -> Arc<Mutex<Option<Loaded>>> {
        let mut open = self.open.lock().unwrap_or_else(PoisonError::into_inner);
        // Those nobody works on are read again when they are needed; there are never many.
        if open.len() > MOST {
            open.retain(|_, turn| Arc::strong_count(turn) > 1);
        }
        Arc::clone(open.entry(which).or_default())
    }

    fn load<'l>(
        &self,
        which: Which,
        loaded: &'l mut Option<Loaded>,
    ) -> Result<&'l mut Loaded, ArrivingError> {
        match loaded {
            Some(there) => Ok(there),
            None => Ok(loaded.insert(Loaded::of(read(&self.place(which))?))),
        }
    }

    fn clear(&self, which: Which, loaded: &mut Option<Loaded>) -> Result<(), ArrivingError> {
        *loaded = None;
        let dir = self.place(which);
        // The note first: what is left without one counts as never begun.
        for gone in [fs::remove_file(dir.join(NOTE)), fs::remove_dir_all(&dir)] {
            match gone {
                Err(e) if e.kind() != io::ErrorKind::NotFound => return Err(ArrivingError::at(&dir, &e)),
                _ => {}
            }
        }
        Ok(())
    }
}

impl Loaded {
    fn of(note: Note) -> Self {
        Self { segments: distinct(&note.recipe), note }
    }
}

fn distinct(recipe: &Recipe) -> BTreeMap<Digest, u64> {
    recipe.segments.iter().map(|segment| (segment.sha256, segment.bytes)).collect()
}

fn held(turn: &Mutex<Option<Loaded>>) -> MutexGuard<'_, Option<Loaded>> {
    // Whoever died left the disk as it is; what was read of it is read again.
    turn.lock().unwrap_or_else(|poisoned| {
        let mut held = PoisonError::into_inner(poisoned);
        *held = None;
        held
    })
}

fn read(dir: &Path) -> Result<Note, ArrivingError> {
    let path = dir.join(NOTE);
    let bytes = match fs::read(&path) {
        Ok(bytes) => bytes,
        Err(e) if e.kind() == io::ErrorKind::NotFound => return Err(ArrivingError::NotBegun),
        Err(e) => return Err(ArrivingError::at(&path, &e)),
    };
    serde_json::from_slice(&bytes).map_err(|_| ArrivingError::NotBegun)
}

/// What is missing, each segment once.
fn lacks(dir: &Path, loaded: &Loaded) -> Result<Vec<Missing>, ArrivingError> {
    let there = disk::lengths(dir)?;
    let mut missing = Vec::new();
    for (sha256, bytes) in &loaded.segments {
        let name = sha256.hex();
        if there.contains_key(&name) || loaded.note.known.contains(sha256) {
            continue;
        }
        let part = there.get(&format!("{name}.{PART}")).copied().unwrap_or_default();
        // A part that is too long was never acknowledged as one.
        let have = if part < *bytes {
            part
        } else {
            let path = dir.join(&name).with_extension(PART);
            fs::remove_file(&path).map_err(|e| ArrivingError::at(&path, &e))?;
            0
        };
        missing.push(Missing { sha256: *sha256, have });
    }
    Ok(missing)
}

/// Why no file came of the segments.
enum Made {
    /// These are not any more where they were.
    Lost(Vec<Digest>),
    Disk(io::Error),
}

impl From<io::Error> for Made {
    fn from(e: io::Error) -> Self {
        Self::Disk(e)
    }
}

/// Writes the file and gives its digest. It is flushed by whoever copies it.
fn assemble(dir: &Path, loaded: &Loaded, finds: Finds<'_>) -> Result<Digest, Made> {
    let mut lost = Vec::new();
    let mut whole =
        Summed { sha: sha2::Sha256::new(), file: io::BufWriter::new(disk::own(&dir.join(WHOLE))?) };
    for segment in &loaded.note.recipe.segments {
        let own = dir.join(segment.sha256.hex());
        let (file, at) = match own.is_file() {
            true => (own, 0),
            false => match finds(segment.sha256).filter(|there| there.bytes == segment.bytes) {
                Some(there) => (there.file, there.at),
                None => {
                    lost.push(segment.sha256);
                    continue;
                }
            },
        };
        let copied = File::open(&file).and_then(|mut from| {
            from.seek(SeekFrom::Start(at))?;
            crate::desk::sum(&mut from.take(segment.bytes), &mut whole)
        });
        match copied {
            Ok(found) if found == segment.sha256 => {}
            Err(e) if e.kind() == io::ErrorKind::StorageFull => return Err(e.into()),
            _ => lost.push(segment.sha256),
        }
        if lost.contains(&segment.sha256) {
            // Of ours it was whole once: this disk failed, and it must come again.
            let _ = fs::remove_file(dir.join(segment.sha256.hex()));
        }
    }
    if !lost.is_empty() {
        return Err(Made::Lost(lost));
    }
    whole.flush()?;
    Ok(Digest::from_bytes(whole.sha.finalize().into()))
}

struct Summed {
    sha: sha2::Sha256,
    file: io::BufWriter<File>,
}

impl Write for Summed {
    fn write(&mut self, bytes: &[u8]) -> io::Result<usize> {
        let n = self.file.write(bytes)?;
        self.sha.update(bytes.get(..n).unwrap_or_default());
        Ok(n)
    }
    fn flush(&mut self) -> io::Result<()> {
        self.file.flush()
    }
}
