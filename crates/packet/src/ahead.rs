//! Original photographs whose sums are made beside other work.

use std::collections::BTreeMap;
use std::io::{self, Read};
use std::path::PathBuf;
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::mpsc::{Receiver, channel};
use std::thread::{self, JoinHandle};

use survey::Digest;

use crate::photos::{PhotoSource, PhotoSums};

/// Photographs as files. A thread of its own reads each for its sums as soon as these are made, in the order in which a
/// packet holds them: two digests of every byte take about as long as setting the pages, which come before them.
pub struct Originals {
    files: BTreeMap<Digest, PathBuf>,
    ahead: Option<Ahead>,
}

impl Originals {
    /// Begins to read. Where no thread is to be had, each is read when it is its turn.
    pub fn new(files: BTreeMap<Digest, PathBuf>) -> Self {
        let ahead = Ahead::of(files.clone()).ok();
        Self { files, ahead }
    }

    /// Others that came meanwhile; those are read when it is their turn.
    pub fn also(&mut self, files: BTreeMap<Digest, PathBuf>) {
        for (digest, path) in files {
            self.files.entry(digest).or_insert(path);
        }
    }
}

impl PhotoSource for Originals {
    fn size(&mut self, digest: &Digest) -> io::Result<u64> {
        self.files.size(digest)
    }
    fn open(&mut self, digest: &Digest) -> io::Result<Box<dyn Read + '_>> {
        self.files.open(digest)
    }
    fn sums(&mut self, digest: &Digest) -> io::Result<PhotoSums> {
        match self.ahead.as_mut().and_then(|ahead| ahead.take(digest)) {
            Some(sums) => sums,
            None => self.files.sums(digest),
        }
    }
}

type Summed = (Digest, io::Result<PhotoSums>);

/// The thread, and what it has made. Dropped, it ends with the file it is at.
struct Ahead {
    stop: Arc<AtomicBool>,
    made: Receiver<Summed>,
    waiting: BTreeMap<Digest, io::Result<PhotoSums>>,
    thread: Option<JoinHandle<()>>,
}

impl Ahead {
    fn of(mut files: BTreeMap<Digest, PathBuf>) -> io::Result<Self> {
        let stop = Arc::new(AtomicBool::new(false));
        let (send, made) = channel();
        let stopped = Arc::clone(&stop);
        let work = move || {
            let digests: Vec<Digest> = files.keys().copied().collect();
            for digest in digests {
                let sums = files.sums(&digest);
                if stopped.load(Ordering::Relaxed) || send.send((digest, sums)).is_err() {
                    return;
                }
            }
        };
        let thread = thread::Builder::new().name("sums of photographs".to_owned()).spawn(work)?;
        Ok(Self { stop, made, waiting: BTreeMap::new(), thread: Some(thread) })
    }

    /// The sums of a photograph, waited for; none where they were taken already or will not come.
    fn take(&mut self, digest: &Digest) -> Option<io::Result<PhotoSums>> {
        while !self.waiting.contains_key(digest) {
            let (found, sums) = self.made.recv().ok()?;
            self.waiting.insert(found, sums);
        }
        self.waiting.remove(digest)
    }
}

impl Drop for Ahead {
    fn drop(&mut self) {
        self.stop.store(true, Ordering::Relaxed);
        if let Some(thread) = self.thread.take() {
            let _ = thread.join(); // what it made is not wanted any more
        }
    }
}

#[cfg(test)]
mod tests {
    use std::fs;

    use super::*;

    #[test]
    fn sums_made_beside_are_those_of_the_files() {
        let folder = tempfile::tempdir().unwrap();
        let mut files = BTreeMap::new();
        for n in 0..20u8 {
            let bytes = vec![n; 1000 * usize::from(n)];
            let path = folder.path().join(n.to_string());
            fs::write(&path, &bytes).unwrap();
            files.insert(Digest::of(&bytes), path);
        }
        let gone = Digest::of(b"gone");
        files.insert(gone, folder.path().join("gone"));
        let unknown = Digest::of(b"unknown");
        let (mut originals, mut plain) = (Originals::new(files.clone()), files.clone());
        let late = Digest::of(b"late");
        fs::write(folder.path().join("late"), b"late").unwrap();
        let after = BTreeMap::from([(late, folder.path().join("late"))]);
        originals.also(after.clone());
        files.extend(after.clone());
        plain.extend(after);
        // In any order, twice, and what is not there with its reason.
        for digest in files.keys().rev().chain(files.keys()).chain([&unknown]) {
            match (originals.sums(digest), plain.sums(digest)) {
                (Ok(one), Ok(other)) => assert_eq!(one.0, other.0),
                (Err(one), Err(other)) => {
                    assert!(*digest == gone || *digest == unknown);
                    assert_eq!((one.kind(), one.to_string()), (other.kind(), other.to_string()));
                }
                (one, other) => panic!("{one:?} {other:?}"),
            }
        }
        // Left in the middle of it, it ends.
        drop(Originals::new(files));
    }
}
