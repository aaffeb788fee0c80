//! Photographs as they came, filed by SHA-256: `blobs/ab/cdef…`. The bytes are never changed.
//!
//! A file gets its name only when it is whole and on the disk: written under another name, fsynced, renamed, and
//! the folder fsynced. Written and read in small pieces, so that memory does not grow with the photograph.

use std::fs::{File, TryLockError};
use std::io::{Read, Write};
use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicU64, Ordering};

use sha2::{Digest as _, Sha256};
use survey::Digest;

use crate::error::{ErrorKind, IoAt, StoreError};
use crate::files::{private_dir, private_file, remove_if_there, sync_dir};
use survey::{Phrase, say};

/// Read and written at a time.
const PIECE: usize = 64 * 1024;

/// Tells files apart that this process is writing at once.
static COUNTER: AtomicU64 = AtomicU64::new(0);

/// The folder of photographs.
#[derive(Clone, Debug)]
pub struct Blobs {
    root: PathBuf,
    incoming: PathBuf,
}

impl Blobs {
    /// The folder `dir/blobs`, made when it is not there; what a crash left half written is cleared away.
    pub fn in_dir(dir: &Path) -> Result<Self, StoreError> {
        Self::at(dir.join("blobs"))
    }

    /// The folder `dir/previews`, where small pictures made of photographs are filed the same way.
    pub(crate) fn previews_in_dir(dir: &Path) -> Result<Self, StoreError> {
        Self::at(dir.join("previews"))
    }

    fn at(root: PathBuf) -> Result<Self, StoreError> {
        let incoming = root.join("incoming");
        private_dir(&incoming).doing(Phrase("store-make-photos-folder"), &incoming)?;
        for entry in std::fs::read_dir(&incoming).doing(Phrase("store-read-photos-folder"), &incoming)? {
            let path = entry.doing(Phrase("store-read-photos-folder"), &incoming)?.path();
            // Whoever is writing holds a lock; a lock can only be had on what a crash left. Failing to clear is no harm.
            if let Ok(file) = File::open(&path)
                && file.try_lock().is_ok()
            {
                let _ = remove_if_there(&path);
            }
        }
        Ok(Self { root, incoming })
    }

    /// Keeps bytes and returns their digest; what is here already is left as it is.
    pub fn put(&self, bytes: &[u8]) -> Result<Digest, StoreError> {
        let digest = Digest::of(bytes);
        if !self.settle_existing(digest, bytes.len() as u64)? {
            self.put_reader(&mut &bytes[..])?;
        }
        Ok(digest)
    }

    /// Keeps everything `reader` gives and returns digest and size in bytes.
    pub fn put_reader(&self, reader: &mut dyn Read) -> Result<(Digest, u64), StoreError> {
        let (path, mut file) = self.incoming_file()?;
        let kept = self.receive(reader, &path, &mut file);
        if kept.is_err() {
            let _ = remove_if_there(&path);
        }
        kept
    }

    fn receive(
        &self,
        reader: &mut dyn Read,
        path: &Path,
        file: &mut File,
    ) -> Result<(Digest, u64), StoreError> {
        let mut hasher = Sha256::new();
        let mut size = 0u64;
        let mut piece = vec![0u8; PIECE];
        loop {
            let n = match reader.read(&mut piece) {
                Ok(0) => break,
                Ok(n) => n,
                Err(e) if e.kind() == std::io::ErrorKind::Interrupted => continue,
                Err(e) => return Err(StoreError::from_io(&e, Phrase("store-read-photo-to-keep"), path)),
            };
            hasher.update(&piece[..n]);
            file.write_all(&piece[..n])
                .doing(Phrase("store-keep-photo"), path)
                .map_err(|e| e.needing(size + (1 << 20)))?;
            size += n as u64;
        }
        let digest = Digest::from_bytes(hasher.finalize().into());
        if self.settle_existing(digest, size)? {
            remove_if_there(path).doing(Phrase("store-remove-double"), path)?;
            return Ok((digest, size));
        }
        file.sync_all().doing(Phrase("store-keep-photo"), path).map_err(|e| e.needing(size))?;
        let place = self.path(digest);
        let shard = self.shard(digest);
        if !shard.exists() {
            private_dir(&shard).doing(Phrase("store-make-shard"), &shard)?;
            sync_dir(&self.root).doing(Phrase("store-write-photos-folder"), &self.root)?;
        }
        std::fs::rename(path, &place).doing(Phrase("store-file-photo"), &place)?;
        sync_dir(&shard).doing(Phrase("store-write-photos-folder"), &shard)?;
        Ok((digest, size))
    }

    /// True when the photograph is here, of the right length and durably named. One of another length was cut short
    /// by something else than us and is written again.
    fn settle_existing(&self, digest: Digest, size: u64) -> Result<bool, StoreError> {
        let path = self.path(digest);
        match path.metadata() {
            Ok(found) if found.len() == size => {
                let shard = self.shard(digest);
                sync_dir(&shard).doing(Phrase("store-write-photos-folder"), &shard)?;
                Ok(true)
            }
            Ok(_) => Ok(false),
            Err(e) if e.kind() == std::io::ErrorKind::NotFound => Ok(false),
            Err(e) => Err(StoreError::from_io(&e, Phrase("store-look-for-photo"), &path)),
        }
    }

    /// A new file in the waiting room, locked so that nobody clears it away.
    fn incoming_file(&self) -> Result<(PathBuf, File), StoreError> {
        loop {
            let n = COUNTER.fetch_add(1, Ordering::Relaxed);
            let path = self.incoming.join(format!("{}-{n}", std::process::id()));
            let file = match private_file(&path) {
                Err(e) if e.kind() == std::io::ErrorKind::AlreadyExists => continue, // of an earlier process
                other => other.doing(Phrase("store-keep-photo"), &path)?,
            };
            match file.try_lock() {
                // Cleared away between making and locking: make another.
                Ok(()) if !path.exists() => continue,
                Err(TryLockError::WouldBlock) => continue,
                // Without locks nobody clears either.
                Ok(()) | Err(TryLockError::Error(_)) => return Ok((path, file)),
            }
        }
    }

    /// Opens a photograph for reading. Error `Missing` when it is not here.
    pub fn open(&self, digest: Digest) -> Result<File, StoreError> {
        let path = self.path(digest);
        File::open(&path).map_err(|e| self.not_here(&e, digest, &path))
    }

    /// True when a file of this digest is here; its bytes are not looked at.
    pub fn has(&self, digest: Digest) -> bool {
        self.path(digest).is_file()
    }

    /// Where the photograph is, or would be.
    pub fn path(&self, digest: Digest) -> PathBuf {
        let hex = digest.hex();
        self.root.join(&hex[..2]).join(&hex[2..])
    }

    /// Reads a photograph whole, holds it against its digest and returns its size in bytes.
    /// Errors: `Missing`, `Damaged`, `Io`.
    pub fn verify(&self, digest: Digest) -> Result<u64, StoreError> {
        let path = self.path(digest);
        let mut file = self.open(digest)?;
        let (found, size) =
            sum(&mut file).map_err(|e| StoreError::from_io(&e, Phrase("store-read-photo"), &path))?;
        if found == digest {
            return Ok(size);
        }
        Err(StoreError::new(
            ErrorKind::Damaged,
            say!("store-photo-other", photo = digest.short()),
            &path,
            Phrase("store-photo-other-mend"),
        ))
    }

    /// Digests of everything kept, in order, and the files in the folder that are none of ours.
    pub fn list(&self) -> Result<(Vec<Digest>, Vec<PathBuf>), StoreError> {
        let (mut kept, mut strangers) = (Vec::new(), Vec::new());
        let reading = Phrase("store-read-photos-folder");
        for shard in std::fs::read_dir(&self.root).doing(reading, &self.root)? {
            let shard = shard.doing(reading, &self.root)?.path();
            if shard == self.incoming {
                continue;
            }
            if !shard.is_dir() {
                strangers.push(shard);
                continue;
            }
            for file in std::fs::read_dir(&shard).doing(reading, &shard)? {
                let path = file.doing(reading, &shard)?.path();
                let name = |p: &Path| p.file_name().and_then(|n| n.to_str()).unwrap_or("").to_owned();
                match format!("{}{}", name(&shard), name(&path)).parse() {
                    Ok(digest) if self.path(digest) == path => kept.push(digest),
                    _ => strangers.push(path),
                }
            }
        }
        kept.sort();
        strangers.sort();
        Ok((kept, strangers))
    }

    fn shard(&self, digest: Digest) -> PathBuf {
        self.root.join(&digest.hex()[..2])
    }

    fn not_here(&self, error: &std::io::Error, digest: Digest, path: &Path) -> StoreError {
        if error.kind() != std::io::ErrorKind::NotFound {
            return StoreError::from_io(error, Phrase("store-read-photo"), path);
        }
        StoreError::new(
            ErrorKind::Missing,
            say!("store-photo-absent", photo = digest.short()),
            path,
            Phrase("store-photo-absent-mend"),
        )
    }
}
/// Digest and length of what a reader gives, read in pieces.
pub(crate) fn sum(reader: &mut dyn Read) -> std::io::Result<(Digest, u64)> {
    let mut hasher = Sha256::new();
    let mut piece = vec![0u8; PIECE];
    let mut size = 0u64;
    loop {
        match reader.read(&mut piece) {
            Ok(0) => return Ok((Digest::from_bytes(hasher.finalize().into()), size)),
            Ok(n) => {
                hasher.update(&piece[..n]);
                size += n as u64;
            }
            Err(e) if e.kind() == std::io::ErrorKind::Interrupted => {}
            Err(e) => return Err(e),
        }
    }
}
