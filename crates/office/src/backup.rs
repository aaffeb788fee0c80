//! The whole office in one file, and back.
//!
//! A tar archive (POSIX.1-1988 ustar, as crate `tar` writes it): the database as one copy made while others go on, then
//! every file of the folder that is not made from others, and last a list of them all with lengths and SHA-256. The database
//! is copied first: whatever it names was filed before. Sessions are left out, so that an old backup signs nobody in.
//!
//! The office's secret key goes along: a backup is to be kept like the office itself.

use std::fs::{self, File, OpenOptions};
use std::io::{self, BufReader, BufWriter, Read};
use std::path::{Component, Path, PathBuf};

use serde::{Deserialize, Serialize};
use survey::{Digest, Stamp};
use tar::{Archive, Builder, EntryType, Header};

use crate::OfficeError;
use crate::desk::{file_error, sum};
use crate::people::{AuditLine, Deed};
use crate::repo::{self, DATABASE, PeopleRows as _, Repo as _, Sqlite};

/// Name of the list, the last file of the archive.
const LIST: &str = "backup.json";
const VERSION: u32 = 1;
/// Most bytes of the list: some 100,000 files.
const MOST_LIST: u64 = 32 << 20;
/// What is made from other files, belongs to a running program, or is not whole.
const LEFT_OUT: [&str; 5] = ["arriving", "coming", "derived", "log-sent", "serving.lock"];

/// Why there is no backup, or nothing restored from one.
#[derive(Debug, thiserror::Error)]
pub enum BackupError {
    /// There is no office in the folder.
    #[error("there is no office in {path}")]
    NoOffice {
        /// The folder.
        path: PathBuf,
    },
    /// A backup is never written over.
    #[error("{path} is there already; a backup is written to a new file")]
    There {
        /// The file.
        path: PathBuf,
    },
    /// A backup is restored into an empty folder only.
    #[error("{path} is not empty; a backup is restored into an empty folder")]
    NotEmpty {
        /// The folder.
        path: PathBuf,
    },
    /// The file is no whole backup.
    #[error("{path} is no whole backup: {what}")]
    NotWhole {
        /// The file.
        path: PathBuf,
        /// What is missing or altered.
        what: Fault,
    },
    /// The office's records.
    #[error(transparent)]
    Office(#[from] OfficeError),
}

/// What is wrong with a backup.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum Fault {
    /// It cannot be read as an archive.
    #[error("{0}")]
    Archive(String),
    /// Its list is missing: it was cut off, or is another archive.
    #[error("the list of its files is missing")]
    NoList,
    /// It was made by a newer program.
    #[error("a newer program made it")]
    Newer,
    /// A file is not what the list says, not in it, or missing.
    #[error("“{0}” is altered, missing or not in its list")]
    File(String),
}

/// What a backup holds.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Held {
    /// Files.
    pub files: usize,
    /// Their bytes.
    pub bytes: u64,
    /// When it was made.
    pub made_at: Stamp,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct List {
    v: u32,
    made_at: Stamp,
    files: Vec<Line>,
}

#[derive(Clone, Serialize, Deserialize, PartialEq, Eq, PartialOrd, Ord)]
#[serde(deny_unknown_fields)]
struct Line {
    path: String,
    bytes: u64,
    sha256: Digest,
}

impl List {
    fn held(&self) -> Held {
        let bytes = self.files.iter().map(|line| line.bytes).sum();
        Held { files: self.files.len(), bytes, made_at: self.made_at }
    }
}

/// Writes the office of a folder into a new file, while it goes on working.
///
/// # Errors
/// No office there, a file that is there already, a disk that refuses; nothing is left of a backup that failed.
pub fn backup(dir: &Path, to: &Path, now: Stamp) -> Result<Held, BackupError> {
    if !dir.join(DATABASE).is_file() {
        return Err(BackupError::NoOffice { path: dir.to_owned() });
    }
    if to.exists() {
        return Err(BackupError::There { path: to.to_owned() });
    }
    let (part, copy) = (beside(to, "part"), beside(to, "database"));
    let _swept = [Swept(part.clone()), Swept(copy.clone())];
    for left in [&part, &copy] {
        let _ = fs::remove_file(left); // of a program that was killed; what follows says what is wrong
    }
    repo::in_folder(dir)?.copy_into(&copy)?;
    Sqlite::open(&copy)?.end_sessions_before(i64::MAX, i64::MAX)?;
    let held = write(dir, &copy, &part, now).map_err(|(path, e)| file_error(&path, &e))?;
    fs::rename(&part, to).and_then(|()| sync_folder(to)).map_err(|e| file_error(to, &e))?;
    Ok(held)
}

type At<T> = Result<T, (PathBuf, io::Error)>;

fn at<T>(path: &Path, done: io::Result<T>) -> At<T> {
    done.map_err(|e| (path.to_owned(), e))
}

fn write(dir: &Path, copy: &Path, part: &Path, now: Stamp) -> At<Held> {
    let mut options = OpenOptions::new();
    options.write(true).create_new(true);
    private(&mut options);
    let mut tar = Builder::new(BufWriter::new(at(part, options.open(part))?));
    let mut list = List { v: VERSION, made_at: now, files: Vec::new() };
    let mut add = |path: &Path, name: String| -> At<()> {
        let mut file = at(path, File::open(path))?;
        let bytes = at(path, file.metadata())?.len();
        let sha256 = at(path, sum(&mut file, &mut io::sink()))?;
        at(path, io::Seek::rewind(&mut file))?;
        let mut entry = header(bytes, now);
        at(part, tar.append_data(&mut entry, &name, BufReader::new(file).take(bytes)))?;
        list.files.push(Line { path: name, bytes, sha256 });
        Ok(())
    };
    add(copy, DATABASE.to_owned())?;
    let mut files = Vec::new();
    collect(dir, "", &mut files)?;
    files.sort();
    for name in files {
        add(&dir.join(&name), name.clone())?;
    }
    let text = at(part, serde_json::to_vec(&list).map_err(io::Error::other))?;
    at(part, tar.append_data(&mut header(text.len() as u64, now), LIST, text.as_slice()))?;
    let file = at(part, tar.into_inner().and_then(|out| out.into_inner().map_err(io::Error::from)))?;
    at(part, file.sync_all())?;
    Ok(list.held())
}

fn header(bytes: u64, now: Stamp) -> Header {
    let mut header = Header::new_gnu();
    header.set_entry_type(EntryType::Regular);
    header.set_size(bytes);
    header.set_mode(0o600);
    header.set_mtime(u64::try_from(now.unix_ms() / 1000).unwrap_or(0));
    header
}

/// Names of the files below a folder, with `/` between.
fn collect(dir: &Path, below: &str, names: &mut Vec<String>) -> At<()> {
    let folder = dir.join(below);
    for entry in at(&folder, fs::read_dir(&folder))? {
        let entry = at(&folder, entry)?;
        // A file that somebody put there with a name that is no Unicode is none of ours.
        let Ok(name) = entry.file_name().into_string() else { continue };
        let kind = at(&entry.path(), entry.file_type())?;
        let path = if below.is_empty() { name.clone() } else { format!("{below}/{name}") };
        let ending = Path::new(&name).extension().and_then(|e| e.to_str()).unwrap_or_default();
        let ours = !LEFT_OUT.contains(&path.as_str())
            && !path.starts_with(DATABASE)
            && path != LIST
            && !ending.starts_with("part-");
        if ours && kind.is_dir() {
            collect(dir, &path, names)?;
        } else if ours && kind.is_file() {
            names.push(path);
        }
    }
    Ok(())
}

/// Puts an office back from a backup, into a folder that is empty or not there yet. It is there whole or not at all.
///
/// # Errors
/// A folder with something in it, a file that is no whole backup, a disk that refuses.
pub fn restore(from: &Path, dir: &Path, now: Stamp) -> Result<Held, BackupError> {
    if fs::read_dir(dir).is_ok_and(|mut entries| entries.next().is_some()) || dir.is_file() {
        return Err(BackupError::NotEmpty { path: dir.to_owned() });
    }
    let fresh = beside(dir, "restoring");
    let _ = fs::remove_dir_all(&fresh); // of a program that was killed
    let swept = SweptFolder(fresh.clone());
    let held = read(from, &fresh)?;
    let mut repo = Sqlite::open(&fresh.join(DATABASE))?;
    repo.check()?;
    repo.add_audit(&AuditLine {
        n: 0,
        at: now,
        who: None,
        what: Deed::Restored,
        about: Some(held.made_at.to_string()),
        address: None,
    })?;
    drop(repo);
    let moved = || {
        if dir.is_dir() {
            fs::remove_dir(dir)?;
        }
        fs::rename(&fresh, dir)?;
        sync_folder(dir)
    };
    moved().map_err(|e| file_error(dir, &e))?;
    std::mem::forget(swept); // it bears its name now
    Ok(held)
}

fn read(from: &Path, fresh: &Path) -> Result<Held, BackupError> {
    let not_whole = |what| BackupError::NotWhole { path: from.to_owned(), what };
    let bad = |e: io::Error| not_whole(Fault::Archive(e.to_string()));
    let file = File::open(from).map_err(|e| file_error(from, &e))?;
    let mut archive = Archive::new(BufReader::new(file));
    let (mut lines, mut list) = (Vec::new(), None::<List>);
    for entry in archive.entries().map_err(bad)? {
        let mut entry = entry.map_err(bad)?;
        let name = entry.path().map_err(bad)?.to_string_lossy().into_owned();
        if list.is_some() || entry.header().entry_type() != EntryType::Regular || !is_plain(&name) {
            return Err(not_whole(Fault::File(name)));
        }
        if name == LIST {
            let mut text = Vec::new();
            entry.take(MOST_LIST).read_to_end(&mut text).map_err(bad)?;
            let read: List = serde_json::from_slice(&text).map_err(|e| bad(e.into()))?;
            if read.v > VERSION {
                return Err(not_whole(Fault::Newer));
            }
            list = Some(read);
            continue;
        }
        let to = fresh.join(&name);
        let sha256 = keep(&mut entry, &to).map_err(|e| match e {
            // Reading and writing fail with the same type; a file that was cut off is the archive's fault.
            e if e.kind() == io::ErrorKind::UnexpectedEof || e.kind() == io::ErrorKind::Other => bad(e),
            e => file_error(&to, &e).into(),
        })?;
        lines.push(Line { path: name, bytes: entry.size(), sha256 });
    }
    let mut list = list.ok_or_else(|| not_whole(Fault::NoList))?;
    lines.sort();
    list.files.sort();
    if let Some(off) = lines.iter().find(|line| list.files.binary_search(line).is_err()) {
        return Err(not_whole(Fault::File(off.path.clone())));
    }
    if let Some(off) = list.files.iter().find(|line| lines.binary_search(line).is_err()) {
        return Err(not_whole(Fault::File(off.path.clone())));
    }
    if !lines.iter().any(|line| line.path == DATABASE) {
        return Err(not_whole(Fault::File(DATABASE.to_owned())));
    }
    Ok(list.held())
}

/// A path that stays in the folder.
fn is_plain(name: &str) -> bool {
    let path = Path::new(name);
    !name.is_empty() && !name.contains('\\') && path.components().all(|c| matches!(c, Component::Normal(_)))
}

fn keep(from: &mut impl Read, to: &Path) -> io::Result<Digest> {
    if let Some(folder) = to.parent() {
        make_private(folder)?;
    }
    let mut options = OpenOptions::new();
    options.write(true).create_new(true);
    private(&mut options);
    let mut file = options.open(to)?;
    let digest = sum(from, &mut file)?;
    file.sync_all()?;
    Ok(digest)
}

/// A path beside another, in the same folder, so that it can be renamed to it.
fn beside(path: &Path, ending: &str) -> PathBuf {
    let mut name = path.file_name().unwrap_or_default().to_owned();
    name.push(format!(".{ending}-{}", std::process::id()));
    path.with_file_name(name)
}

struct Swept(PathBuf);
impl Drop for Swept {
    fn drop(&mut self) {
        let _ = fs::remove_file(&self.0); // gone already where all went well
    }
}

struct SweptFolder(PathBuf);
impl Drop for SweptFolder {
    fn drop(&mut self) {
        let _ = fs::remove_dir_all(&self.0); // the first error is the one to tell
    }
}

#[cfg(unix)]
fn private(options: &mut OpenOptions) {
    use std::os::unix::fs::OpenOptionsExt as _;
    options.mode(0o600);
}
#[cfg(not(unix))]
fn private(_: &mut OpenOptions) {}

/// Makes a folder and those above it that are wanting, for the owner alone where the system knows owners.
#[cfg(unix)]
pub(crate) fn make_private(folder: &Path) -> io::Result<()> {
    use std::os::unix::fs::DirBuilderExt as _;
    fs::DirBuilder::new().recursive(true).mode(0o700).create(folder)
}
#[cfg(not(unix))]
pub(crate) fn make_private(folder: &Path) -> io::Result<()> {
    fs::create_dir_all(folder)
}

fn sync_folder(of: &Path) -> io::Result<()> {
    let folder = of.parent().filter(|p| !p.as_os_str().is_empty()).unwrap_or(Path::new("."));
    if cfg!(unix) { File::open(folder)?.sync_all() } else { Ok(()) }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Desk;
    use crate::people::{PersonId, Session};

    #[cfg(unix)]
    #[test]
    fn the_folder_of_an_office_is_for_its_account_alone() {
        use std::os::unix::fs::PermissionsExt as _;
        let dir = tempfile::tempdir().unwrap();
        let office = dir.path().join("firm/office");
        Desk::open(&office).unwrap();
        for folder in [dir.path().join("firm"), office.clone(), office.join("packets")] {
            let mode = std::fs::metadata(&folder).unwrap().permissions().mode();
            assert_eq!(mode & 0o777, 0o700, "{}", folder.display());
        }
        // What the firm gave to others on purpose stays given.
        std::fs::set_permissions(&office, std::fs::Permissions::from_mode(0o750)).unwrap();
        Desk::open(&office).unwrap();
        assert_eq!(std::fs::metadata(&office).unwrap().permissions().mode() & 0o777, 0o750);
    }

    fn moment() -> Stamp {
        "2026-04-14T09:30:00-05:00".parse().unwrap()
    }

    /// An office with some of everything, and with what a backup leaves out.
    fn office(dir: &Path) {
        drop(Desk::open(dir).unwrap());
        let mut repo = Sqlite::open(&dir.join(DATABASE)).unwrap();
        repo.set_firm("Hale & Daughter").unwrap();
        let person = crate::people::Person {
            id: PersonId([1; 16]),
            name: "Rosa Ames".to_owned(),
            folded: "rosa ames".to_owned(),
            role: crate::people::Role::Owner,
            since: moment(),
            removed: None,
            password: Some(crate::people::Kept {
                memory_kib: 8,
                passes: 1,
                lanes: 1,
                salt: [1; 16],
                hash: [2; 32],
            }),
            failures: 0,
            last_failure: 0,
            first_password: false,
            second: None,
        };
        repo.add_person(&person).unwrap();
        repo.add_session(&Session { hash: [3; 32], person: person.id, started: 0, seen: 0, from: None })
            .unwrap();
        for (name, text) in [
            ("packets/a.zip", "a packet"),
            ("packets/a.receipt.jws", "its receipt"),
            ("packets/b.part-77", "half a packet"),
            ("keys/office.jwk", "the secret"),
            ("findings-photos/c.jpg", "a photograph"),
            ("tls/key.pem", "another secret"),
            ("coming/1.coming", "half an upload"),
            ("derived/a/about.json", "made from a packet"),
            ("serving.lock", ""),
        ] {
            let path = dir.join(name);
            fs::create_dir_all(path.parent().unwrap()).unwrap();
            fs::write(path, text).unwrap();
        }
    }

    fn names(dir: &Path) -> Vec<String> {
        let mut names = Vec::new();
        collect(dir, "", &mut names).unwrap();
        names.sort();
        names
    }

    #[test]
    fn what_is_restored_is_the_office_that_was_backed_up_but_its_sessions() {
        let dir = tempfile::tempdir().unwrap();
        let (here, there, file) =
            (dir.path().join("here"), dir.path().join("there"), dir.path().join("office.tar"));
        office(&here);
        let held = backup(&here, &file, moment()).unwrap();
        assert_eq!((held.files, held.made_at), (6, moment()));
        assert_eq!(restore(&file, &there, moment()).unwrap(), held);
        assert_eq!(
            names(&there),
            names(&here).into_iter().filter(|n| !n.contains("part-")).collect::<Vec<_>>()
        );
        for name in names(&there) {
            assert_eq!(fs::read(there.join(&name)).unwrap(), fs::read(here.join(&name)).unwrap(), "{name}");
        }
        assert!(!there.join("derived").exists() && !there.join("coming").exists());
        let [old, new] = [&here, &there].map(|d| Sqlite::open(&d.join(DATABASE)).unwrap());
        assert_eq!(
            (new.people().unwrap(), new.firm().unwrap()),
            (old.people().unwrap(), old.firm().unwrap())
        );
        assert!(old.session(&[3; 32]).unwrap().is_some() && new.session(&[3; 32]).unwrap().is_none());
        let lines = new.audit(None, 10).unwrap();
        assert_eq!((lines.len(), lines[0].what), (1, Deed::Restored));
        // Nothing lies about.
        let mut left: Vec<_> = fs::read_dir(dir.path()).unwrap().map(|e| e.unwrap().file_name()).collect();
        left.sort();
        assert_eq!(left, ["here", "office.tar", "there"]);
        #[cfg(unix)]
        {
            use std::os::unix::fs::PermissionsExt as _;
            for path in [file, there.join("keys/office.jwk")] {
                assert_eq!(
                    fs::metadata(&path).unwrap().permissions().mode() & 0o077,
                    0,
                    "{}",
                    path.display()
                );
            }
        }
    }

    #[test]
    fn nothing_is_written_over_and_nothing_restored_where_something_is() {
        let dir = tempfile::tempdir().unwrap();
        let (here, file) = (dir.path().join("here"), dir.path().join("office.tar"));
        let nothing = backup(&here, &file, moment()).unwrap_err();
        assert!(matches!(nothing, BackupError::NoOffice { .. }), "{nothing}");
        office(&here);
        backup(&here, &file, moment()).unwrap();
        let again = backup(&here, &file, moment()).unwrap_err();
        assert!(matches!(again, BackupError::There { .. }), "{again}");
        let full = restore(&file, &here, moment()).unwrap_err();
        assert!(matches!(full, BackupError::NotEmpty { .. }), "{full}");
        fs::create_dir(dir.path().join("empty")).unwrap();
        restore(&file, &dir.path().join("empty"), moment()).unwrap();
    }

    #[test]
    fn an_altered_or_cut_backup_restores_nothing() {
        let dir = tempfile::tempdir().unwrap();
        let (here, there, file) =
            (dir.path().join("here"), dir.path().join("there"), dir.path().join("office.tar"));
        office(&here);
        backup(&here, &file, moment()).unwrap();
        let whole = fs::read(&file).unwrap();
        let find = |what: &[u8]| whole.windows(what.len()).position(|w| w == what).unwrap();
        let flipped = |at: usize| {
            let mut bytes = whole.clone();
            bytes[at] ^= 1;
            bytes
        };
        // The list comes after every file, so that whatever is cut off takes it along.
        let list = find(b"backup.json");
        for (what, bytes) in [
            ("a packet", flipped(find(b"a packet"))),
            ("a name", flipped(find(b"packets/a.zip"))),
            ("the list", flipped(find(b"\"made_at\""))),
            ("cut in the list", whole[..list + 600].to_vec()),
            ("cut before it", whole[..list].to_vec()),
            ("cut in the middle", whole[..whole.len() / 2].to_vec()),
            ("nothing", Vec::new()),
            ("something else", b"PK\x03\x04 is a zip".repeat(100)),
        ] {
            fs::write(&file, bytes).unwrap();
            let refused = restore(&file, &there, moment()).unwrap_err();
            assert!(matches!(refused, BackupError::NotWhole { .. }), "{what}: {refused}");
            assert!(!there.exists(), "{what}");
        }
        assert_eq!(fs::read_dir(dir.path()).unwrap().count(), 2, "nothing lies about");
    }

    #[test]
    fn no_path_leads_out_of_the_folder() {
        for (name, plain) in [
            ("packets/a.zip", true),
            ("", false),
            ("/etc/passwd", false),
            ("../a", false),
            ("a/../../b", false),
            ("a\\..\\b", false),
        ] {
            assert_eq!(is_plain(name), plain, "{name}");
        }
    }
}
