//! Files and folders only their owner can read, and making a name durable.

use std::fs::{DirBuilder, File, OpenOptions};
use std::io;
use std::path::Path;

/// Makes a folder (and those above it) that only its owner can enter; one that exists keeps the rights it has.
pub(crate) fn private_dir(path: &Path) -> io::Result<()> {
    let mut builder = DirBuilder::new();
    builder.recursive(true);
    #[cfg(unix)]
    std::os::unix::fs::DirBuilderExt::mode(&mut builder, 0o700);
    builder.create(path)
}

/// Opens a new file for writing that only its owner can read; refuses one that exists.
pub(crate) fn private_file(path: &Path) -> io::Result<File> {
    let mut options = OpenOptions::new();
    options.write(true).read(true).create_new(true);
    #[cfg(unix)]
    std::os::unix::fs::OpenOptionsExt::mode(&mut options, 0o600);
    options.open(path)
}

/// Makes names in a folder durable: a file that was renamed into it is still there after a power cut.
pub(crate) fn sync_dir(path: &Path) -> io::Result<()> {
    // Windows cannot open a folder for this; NTFS keeps names in its own journal.
    if cfg!(unix) { File::open(path)?.sync_all() } else { Ok(()) }
}

/// Removes a file; that it is not there is fine.
pub(crate) fn remove_if_there(path: &Path) -> io::Result<()> {
    match std::fs::remove_file(path) {
        Err(e) if e.kind() != io::ErrorKind::NotFound => Err(e),
        _ => Ok(()),
    }
}

/// The same path with more at its end: `x.sqlite` and `-wal` make `x.sqlite-wal`.
pub(crate) fn with_ending(path: &Path, ending: &str) -> std::path::PathBuf {
    let mut name = path.as_os_str().to_owned();
    name.push(ending);
    name.into()
}
