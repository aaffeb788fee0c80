//! Secrets in files that only their owner can read.

use std::fs::{self, File, OpenOptions};
use std::io::{ErrorKind, Read as _, Write as _};
use std::path::{Path, PathBuf};

use zeroize::Zeroizing;

use crate::{KeyError, SecretKey};

/// Where secrets are kept.
pub trait KeyStore {
    /// The key of this name, if there is one.
    ///
    /// # Errors
    /// A secret that others can read, or that cannot be read at all.
    fn load(&self, name: &str) -> Result<Option<SecretKey>, KeyError>;
    /// Keeps a key under this name; the one before it is gone.
    ///
    /// # Errors
    /// What the system refuses with.
    fn keep(&self, name: &str, key: &SecretKey) -> Result<(), KeyError>;
    /// Where a key of this name is kept, for people.
    fn place(&self, name: &str) -> String;
}

/// Secrets in a folder, each in a file of its own that is made with mode 600 and refused with any wider mode.
#[derive(Clone, Debug)]
pub struct KeyFiles(PathBuf);

impl KeyFiles {
    /// A store in this folder, which is made when a key is kept.
    pub fn new(folder: &Path) -> Self {
        Self(folder.to_owned())
    }
    fn path(&self, name: &str) -> PathBuf {
        self.0.join(format!("{name}.jwk"))
    }
}

/// A secret key has 150 bytes.
const MOST: u64 = 4096;

impl KeyStore for KeyFiles {
    fn load(&self, name: &str) -> Result<Option<SecretKey>, KeyError> {
        let path = self.path(name);
        let Some(text) = read_secret(&path)? else { return Ok(None) };
        let key = SecretKey::from_jwk(text.strip_suffix(b"\n").unwrap_or(&text));
        key.map(Some).map_err(|e| KeyError::Store { path: path.display().to_string(), what: e.to_string() })
    }

    fn keep(&self, name: &str, key: &SecretKey) -> Result<(), KeyError> {
        let path = self.path(name);
        make_folder(&self.0).map_err(|e| trouble(&self.0, &e))?;
        whole(&path, own_file, &[key.to_jwk().as_bytes(), b"\n"]).map_err(|e| trouble(&path, &e))
    }

    fn place(&self, name: &str) -> String {
        self.path(name).display().to_string()
    }
}

/// Writes a small file beside its place and names it when it is whole and on the disk; what was there is replaced. Its
/// folder is made where there is none.
///
/// # Errors
/// What the system refuses with; nothing is left beside it then.
pub fn write_whole(path: &Path, bytes: &[u8]) -> std::io::Result<()> {
    fs::create_dir_all(path.parent().unwrap_or(path))?;
    whole(path, |part| File::create(part), &[bytes])
}

/// The same for a secret: nobody else can read it from its first moment on.
///
/// # Errors
/// What the system refuses with; nothing is left beside it then.
pub fn write_secret(path: &Path, bytes: &[u8]) -> std::io::Result<()> {
    make_folder(path.parent().unwrap_or(path))?;
    whole(path, own_file, &[bytes])
}

/// Reads a small secret as [`write_secret`] wrote it; none where there is no such file.
///
/// # Errors
/// A file that others can read, or that cannot be read at all.
pub fn read_secret(path: &Path) -> Result<Option<Zeroizing<Vec<u8>>>, KeyError> {
    let file = match File::open(path) {
        Ok(file) => file,
        Err(e) if e.kind() == ErrorKind::NotFound => return Ok(None),
        Err(e) => return Err(trouble(path, &e)),
    };
    only_ours(path, &file)?;
    let mut text = Zeroizing::new(Vec::with_capacity(MOST as usize));
    file.take(MOST).read_to_end(&mut text).map_err(|e| trouble(path, &e))?;
    Ok(Some(text))
}

fn whole(path: &Path, make: fn(&Path) -> std::io::Result<File>, parts: &[&[u8]]) -> std::io::Result<()> {
    let part = path.with_extension(format!("part-{}", std::process::id()));
    let written = || {
        let mut file = make(&part)?;
        for bytes in parts {
            file.write_all(bytes)?;
        }
        file.sync_all()?;
        fs::rename(&part, path)?;
        if cfg!(unix) { File::open(path.parent().unwrap_or(path))?.sync_all() } else { Ok(()) }
    };
    written().inspect_err(|_| {
        let _ = fs::remove_file(&part); // the first error is the one to tell
    })
}

fn trouble(path: &Path, e: &std::io::Error) -> KeyError {
    KeyError::Store { path: path.display().to_string(), what: e.to_string() }
}

#[cfg(unix)]
fn make_folder(path: &Path) -> std::io::Result<()> {
    use std::os::unix::fs::DirBuilderExt as _;
    fs::DirBuilder::new().recursive(true).mode(0o700).create(path)
}

#[cfg(not(unix))]
fn make_folder(path: &Path) -> std::io::Result<()> {
    fs::create_dir_all(path)
}

/// A new file that nobody else can read from its first moment on.
#[cfg(unix)]
fn own_file(path: &Path) -> std::io::Result<File> {
    use std::os::unix::fs::OpenOptionsExt as _;
    let _ = fs::remove_file(path); // of a program that was killed; the next line says what is wrong
    OpenOptions::new().write(true).create_new(true).mode(0o600).open(path)
}

/// Elsewhere the folder of the person is what keeps others out.
#[cfg(not(unix))]
fn own_file(path: &Path) -> std::io::Result<File> {
    let _ = fs::remove_file(path); // of a program that was killed; the next line says what is wrong
    OpenOptions::new().write(true).create_new(true).open(path)
}

#[cfg(unix)]
fn only_ours(path: &Path, file: &File) -> Result<(), KeyError> {
    use std::os::unix::fs::PermissionsExt as _;
    let mode = file.metadata().map_err(|e| trouble(path, &e))?.permissions().mode() & 0o777;
    if mode & 0o077 == 0 {
        return Ok(());
    }
    Err(KeyError::Open { path: path.display().to_string(), mode: format!("{mode:o}") })
}

#[cfg(not(unix))]
fn only_ours(_: &Path, _: &File) -> Result<(), KeyError> {
    Ok(())
}
