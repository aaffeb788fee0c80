//! Files of what is coming: made for the office alone, flushed with their folders.

use std::collections::HashMap;
use std::fs::{self, File, OpenOptions};
use std::io;
use std::path::Path;
use std::time::UNIX_EPOCH;

use survey::{Digest, Stamp};

use super::ArrivingError;

/// Names in a folder; none where there is no such folder.
pub(super) fn names(dir: &Path) -> Result<Vec<String>, ArrivingError> {
    Ok(lengths(dir)?.into_keys().collect())
}

/// Names in a folder with the lengths of the files.
pub(super) fn lengths(dir: &Path) -> Result<HashMap<String, u64>, ArrivingError> {
    let trouble = |e: &io::Error| ArrivingError::at(dir, e);
    let entries = match fs::read_dir(dir) {
        Ok(entries) => entries,
        Err(e) if e.kind() == io::ErrorKind::NotFound => return Ok(HashMap::new()),
        Err(e) => return Err(trouble(&e)),
    };
    let mut all = HashMap::new();
    for entry in entries {
        let entry = entry.map_err(|e| trouble(&e))?;
        // A file may be renamed or taken away between two looks.
        let Ok(meta) = entry.metadata() else { continue };
        all.insert(entry.file_name().to_string_lossy().into_owned(), meta.len());
    }
    Ok(all)
}

/// Length of a file; 0 where there is none.
pub(super) fn length(path: &Path) -> Result<u64, ArrivingError> {
    match fs::metadata(path) {
        Ok(meta) => Ok(meta.len()),
        Err(e) if e.kind() == io::ErrorKind::NotFound => Ok(0),
        Err(e) => Err(ArrivingError::at(path, &e)),
    }
}

fn options() -> OpenOptions {
    let mut options = OpenOptions::new();
    options.create(true);
    #[cfg(unix)]
    {
        use std::os::unix::fs::OpenOptionsExt as _;
        options.mode(0o600);
    }
    options
}

pub(super) fn append(path: &Path) -> io::Result<File> {
    options().append(true).open(path)
}

/// A file of ours, empty.
pub(super) fn own(path: &Path) -> io::Result<File> {
    options().write(true).truncate(true).open(path)
}

pub(super) fn sum(path: &Path) -> io::Result<Digest> {
    crate::desk::sum(&mut File::open(path)?, &mut io::sink())
}

/// A folder can be flushed only where the system allows it.
pub(super) fn flush_folder(dir: &Path) -> Result<(), ArrivingError> {
    if !cfg!(unix) {
        return Ok(());
    }
    File::open(dir).and_then(|dir| dir.sync_all()).map_err(|e| ArrivingError::at(dir, &e))
}

/// When the last piece came, as the file system has it; otherwise when it was begun.
pub(super) fn last(dir: &Path, since: Stamp) -> Stamp {
    let entries = fs::read_dir(dir).into_iter().flatten().filter_map(Result::ok);
    let times = entries.filter_map(|entry| entry.metadata().ok()?.modified().ok());
    let ms = times.filter_map(|at| i64::try_from(at.duration_since(UNIX_EPOCH).ok()?.as_millis()).ok()).max();
    ms.and_then(|ms| Stamp::new(ms, since.offset_min()).ok()).unwrap_or(since)
}

/// Refuses what the disk has no room for, as far as the file system can tell.
#[cfg(unix)]
pub(super) fn room(dir: &Path, wanted: u64) -> Result<(), ArrivingError> {
    let Ok(stat) = rustix::fs::statvfs(dir) else { return Ok(()) };
    if stat.f_bavail.saturating_mul(stat.f_frsize) < wanted { Err(ArrivingError::Full) } else { Ok(()) }
}

#[cfg(not(unix))]
pub(super) fn room(_: &Path, _: u64) -> Result<(), ArrivingError> {
    Ok(())
}
