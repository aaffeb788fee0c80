//! A folder in which packets are laid, by hand or by whatever carries files there: each is taken in when it stands still, and
//! then set aside.
//!
//! It is looked at again and again; the moment is handed in. Nothing is deleted and nothing overwritten: what was received
//! goes into `received` inside the folder, what was not into `refused` with a text of why beside it. What is known of files
//! between two looks is not kept: a program that starts again looks anew, and a packet that is here already is received
//! once however often it comes.
//!
//! Others may write into the folder too. A link is never followed, nothing but plain files that end in `.zip` is opened,
//! and a folder `received` or `refused` that is itself a link is not used.

use std::collections::{BTreeMap, BTreeSet};
use std::ffi::{OsStr, OsString};
use std::fs::{self, File, FileType, Metadata};
use std::io::{self, ErrorKind, Read as _, Write as _};
use std::path::{Path, PathBuf};
use std::time::SystemTime;

/// How long a file must have stood still before it is opened.
pub const STILL_MS: i64 = 4_000;
/// How long one that does not open may still be on its way: whoever writes it may have paused (our own choice, no source).
pub const PATIENCE_MS: i64 = 10 * 60 * 1000;
/// What was received, and what was not.
pub const RECEIVED: &str = "received";
/// See [`RECEIVED`].
pub const REFUSED: &str = "refused";
/// Ending of the text of why.
const WHY: &str = "why.txt";
/// A file that lies there under so many names of its own is left where it is.
const MOST_NAMES: u32 = 10_000;

/// What becomes of a file that was tried.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Verdict {
    /// It was received.
    Received,
    /// It is refused, and would be again.
    Refused(String),
    /// It does not open; perhaps it is not whole yet.
    Unfinished(String),
    /// The office cannot take anything at this moment.
    Later(String),
}

/// What lies there that is no file of its own.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Odd {
    /// A link, wherever it leads.
    Link,
    /// A pipe or another thing that is no file.
    NoFile,
}

/// A file that was refused and lies set aside, until somebody takes it away.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct SetAside {
    /// Its name as it lies there.
    pub name: String,
    /// When it was set aside, Unix milliseconds by the clock of that machine's disk.
    pub at: i64,
    /// Why.
    pub why: String,
}

/// Most letters of a reason that are read.
const MOST_WHY: usize = 2_000;

/// What lies refused in a watched folder, the latest first: at most so many, and how many there are in all.
///
/// # Errors
/// A folder that cannot be read. Where nothing was refused yet there is none, which is no fault.
pub fn set_aside(dir: &Path, most: usize) -> io::Result<(Vec<SetAside>, usize)> {
    let folder = dir.join(REFUSED);
    match fs::symlink_metadata(&folder) {
        Ok(meta) if meta.is_dir() => {}
        Err(e) if e.kind() != ErrorKind::NotFound => return Err(e),
        // A link is not used, as when something is set aside.
        _ => return Ok((Vec::new(), 0)),
    }
    let ending = format!(".{WHY}");
    let mut all = Vec::new();
    for entry in fs::read_dir(&folder)? {
        let text = entry?.path();
        let Some(name) = text.file_name().and_then(OsStr::to_str).and_then(|n| n.strip_suffix(&ending))
        else {
            continue;
        };
        // Taken away meanwhile, by hand or while this reads: then it is no news any more.
        let Ok(meta) = fs::symlink_metadata(&text) else { continue };
        if meta.is_file() && is_there(&folder.join(name)) {
            all.push((milliseconds(meta.modified()?), name.to_owned(), text));
        }
    }
    all.sort_by(|a, b| b.0.cmp(&a.0).then_with(|| a.1.cmp(&b.1)));
    let count = all.len();
    let read = |(at, name, text): (i64, String, PathBuf)| {
        let mut why = String::new();
        File::open(text).and_then(|file| file.take(4 * MOST_WHY as u64).read_to_string(&mut why)).ok();
        SetAside { name, at, why: why.trim().chars().take(MOST_WHY).collect() }
    };
    Ok((all.into_iter().take(most).map(read).collect(), count))
}

fn milliseconds(of: SystemTime) -> i64 {
    let since = of.duration_since(SystemTime::UNIX_EPOCH).unwrap_or_default();
    i64::try_from(since.as_millis()).unwrap_or(i64::MAX)
}

/// Who decides about files.
pub trait Takes {
    /// Takes one in.
    fn take(&mut self, file: &Path) -> Verdict;
    /// Says why a thing is not even opened.
    fn odd(&self, odd: Odd) -> String;
}

/// What was done with a file.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Done {
    /// Its name as it lay there.
    pub name: String,
    /// Why it was refused; none where it was received.
    pub refused: Option<String>,
    /// Why it could not be set aside; it is not tried again before it changes.
    pub stays: Option<String>,
}

/// The folder.
pub struct Watched {
    dir: PathBuf,
    seen: BTreeMap<OsString, Seen>,
}

/// A file as it was seen.
struct Seen {
    mark: Mark,
    /// Since when it is as it is.
    since: i64,
    /// When it is tried.
    next: i64,
    tries: u32,
    stays: bool,
}

/// By what a file is told to have changed.
type Mark = (u64, Option<SystemTime>, u64);

impl Watched {
    /// A folder to be looked at.
    pub fn new(dir: &Path) -> Self {
        Self { dir: dir.to_owned(), seen: BTreeMap::new() }
    }

    /// Where it is.
    pub fn dir(&self) -> &Path {
        &self.dir
    }

    /// Looks once: tries what stood still long enough, and sets it aside.
    ///
    /// # Errors
    /// A folder that cannot be read. Trouble with one file holds no other up.
    pub fn look(&mut self, now: i64, office: &mut dyn Takes) -> io::Result<Vec<Done>> {
        let mut names = BTreeSet::new();
        for entry in fs::read_dir(&self.dir)? {
            let name = entry?.file_name();
            let hidden = name.as_encoded_bytes().starts_with(b".");
            let packet = Path::new(&name).extension().is_some_and(|e| e.eq_ignore_ascii_case("zip"));
            if packet && !hidden {
                names.insert(name);
            }
        }
        self.seen.retain(|name, _| names.contains(name));
        Ok(names.iter().filter_map(|name| self.one(name, now, office)).collect())
    }

    fn one(&mut self, name: &OsStr, now: i64, office: &mut dyn Takes) -> Option<Done> {
        let path = self.dir.join(name);
        // Taken away between two looks.
        let Ok(meta) = fs::symlink_metadata(&path) else {
            self.seen.remove(name);
            return None;
        };
        if meta.is_dir() {
            return None;
        }
        let mark = mark(&meta);
        let fresh = Seen { mark, since: now, next: now + STILL_MS, tries: 0, stays: false };
        match self.seen.get_mut(name) {
            // A clock that was put back begins anew as well.
            Some(seen) if seen.mark == mark && seen.since <= now => {
                if seen.stays || now < seen.next {
                    return None;
                }
            }
            _ => {
                self.seen.insert(name.to_owned(), fresh);
                return None;
            }
        }
        let verdict = match odd(meta.file_type()) {
            Some(odd) => Verdict::Refused(office.odd(odd)),
            None => office.take(&path),
        };
        let still = fs::symlink_metadata(&path).is_ok_and(|meta| self::mark(&meta) == mark);
        let seen = self.seen.get_mut(name)?;
        if !still {
            // Gone, or written on meanwhile: seen anew at the next look.
            self.seen.remove(name);
            return None;
        }
        let why = match verdict {
            Verdict::Received => None,
            Verdict::Refused(why) => Some(why),
            Verdict::Unfinished(why) if now - seen.since >= PATIENCE_MS => Some(why),
            Verdict::Unfinished(_) | Verdict::Later(_) => {
                seen.tries += 1;
                // Longer each time: a large packet is read through at each try.
                let pause = STILL_MS.saturating_mul(1 << seen.tries.min(6));
                seen.next = now + pause;
                let later = matches!(verdict, Verdict::Later(_));
                if !later {
                    seen.next = seen.next.min((seen.since + PATIENCE_MS).max(now + STILL_MS));
                }
                return match verdict {
                    Verdict::Later(why) if seen.tries == 1 => Some(Done {
                        name: name.to_string_lossy().into_owned(),
                        refused: None,
                        stays: Some(why),
                    }),
                    _ => None,
                };
            }
        };
        let moved = self.set_aside(name, why.as_deref());
        let stays = match moved {
            Ok(()) => {
                self.seen.remove(name);
                None
            }
            Err(e) => {
                if let Some(seen) = self.seen.get_mut(name) {
                    seen.stays = true;
                }
                Some(e.to_string())
            }
        };
        Some(Done { name: name.to_string_lossy().into_owned(), refused: why, stays })
    }

    /// Puts a file into its folder under a name that is free there, the text of why first: a program that is killed between
    /// the two finds the file where it was.
    fn set_aside(&self, name: &OsStr, why: Option<&str>) -> io::Result<()> {
        let folder = self.dir.join(if why.is_some() { REFUSED } else { RECEIVED });
        match fs::create_dir(&folder) {
            Err(e) if e.kind() != ErrorKind::AlreadyExists => return Err(e),
            _ => {}
        }
        if !fs::symlink_metadata(&folder)?.is_dir() {
            let said = format!("{} is no folder of its own", folder.display());
            return Err(io::Error::new(ErrorKind::NotADirectory, said));
        }
        let from = self.dir.join(name);
        for n in 1..MOST_NAMES {
            let name = numbered(name, n);
            let to = folder.join(&name);
            let mut text = name;
            text.push(".");
            text.push(WHY);
            let text = folder.join(text);
            if is_there(&to) || is_there(&text) {
                continue;
            }
            if let Some(why) = why {
                let mut file = File::create_new(&text)?;
                file.write_all(format!("{why}\n").as_bytes())?;
                file.sync_all()?;
            }
            match rename_new(&from, &to) {
                Err(e) if e.kind() == ErrorKind::AlreadyExists => continue,
                moved => return moved,
            }
        }
        Err(ErrorKind::AlreadyExists.into())
    }
}

fn is_there(path: &Path) -> bool {
    // What cannot be asked about counts as there.
    !matches!(fs::symlink_metadata(path), Err(e) if e.kind() == ErrorKind::NotFound)
}

fn odd(of: FileType) -> Option<Odd> {
    match (of.is_symlink(), of.is_file()) {
        (true, _) => Some(Odd::Link),
        (false, true) => None,
        (false, false) => Some(Odd::NoFile),
    }
}

/// `mill-lane.zip`, then `mill-lane-2.zip`.
fn numbered(name: &OsStr, n: u32) -> OsString {
    if n == 1 {
        return name.to_owned();
    }
    let path = Path::new(name);
    let mut text = path.file_stem().unwrap_or(name).to_owned();
    text.push(format!("-{n}"));
    if let Some(ending) = path.extension() {
        text.push(".");
        text.push(ending);
    }
    text
}

#[cfg(unix)]
fn mark(meta: &Metadata) -> Mark {
    use std::os::unix::fs::MetadataExt as _;
    (meta.len(), meta.modified().ok(), meta.ino())
}

#[cfg(not(unix))]
fn mark(meta: &Metadata) -> Mark {
    (meta.len(), meta.modified().ok(), 0)
}

/// Renames where nothing lies yet, as far as the file system can tell in one step.
#[cfg(target_os = "linux")]
fn rename_new(from: &Path, to: &Path) -> io::Result<()> {
    use rustix::fs::{CWD, RenameFlags, renameat_with};
    use rustix::io::Errno;
    match renameat_with(CWD, from, CWD, to, RenameFlags::NOREPLACE) {
        // A file system that knows no such thing.
        Err(Errno::INVAL | Errno::NOSYS | Errno::OPNOTSUPP) => rename_looked(from, to),
        done => Ok(done?),
    }
}

#[cfg(not(target_os = "linux"))]
fn rename_new(from: &Path, to: &Path) -> io::Result<()> {
    rename_looked(from, to)
}

fn rename_looked(from: &Path, to: &Path) -> io::Result<()> {
    if is_there(to) {
        return Err(ErrorKind::AlreadyExists.into());
    }
    fs::rename(from, to)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Takes files by what stands in them.
    #[derive(Default)]
    struct ByWord(Vec<String>);

    impl Takes for ByWord {
        fn take(&mut self, file: &Path) -> Verdict {
            self.0.push(file.file_name().unwrap().to_string_lossy().into_owned());
            match fs::read_to_string(file).unwrap_or_default().as_str() {
                "whole" => Verdict::Received,
                "foreign" => Verdict::Refused("nobody vouches for it".to_owned()),
                "gone" => {
                    fs::remove_file(file).unwrap();
                    Verdict::Unfinished("it vanished".to_owned())
                }
                "full" => Verdict::Later("no room".to_owned()),
                _ => Verdict::Unfinished("it does not open".to_owned()),
            }
        }
        fn odd(&self, odd: Odd) -> String {
            format!("{odd:?}")
        }
    }

    /// Looks every two seconds for so long.
    fn look(watched: &mut Watched, from: i64, until: i64) -> (Vec<Done>, Vec<String>) {
        let mut office = ByWord::default();
        let mut done = Vec::new();
        for now in (from..=until).step_by(2_000) {
            done.extend(watched.look(now, &mut office).unwrap());
        }
        (done, office.0)
    }

    fn list(dir: &Path) -> Vec<String> {
        let mut names: Vec<String> = fs::read_dir(dir)
            .unwrap()
            .map(|e| e.unwrap().file_name().to_string_lossy().into_owned())
            .collect();
        names.sort();
        names
    }

    #[test]
    fn a_file_is_taken_when_it_stands_still_and_set_aside_without_writing_over_another() {
        let dir = tempfile::tempdir().unwrap();
        let dir = dir.path();
        let write = |name: &str, text: &str| fs::write(dir.join(name), text).unwrap();
        let mut watched = Watched::new(dir);
        write("a.zip", "who");
        assert_eq!(look(&mut watched, 0, 2_000).1.len(), 0, "not before it stood still");
        write("a.zip", "whole");
        assert_eq!(look(&mut watched, 4_000, 6_000).1.len(), 0, "written on: from the beginning");
        let (done, _) = look(&mut watched, 8_000, 8_000);
        assert_eq!(done, [Done { name: "a.zip".to_owned(), refused: None, stays: None }]);
        for from in [20_000, 40_000] {
            write("a.zip", "whole");
            write("b.ZIP", "foreign");
            look(&mut watched, from, from + 6_000);
        }
        assert_eq!(list(dir), ["received", "refused"]);
        assert_eq!(list(&dir.join("received")), ["a-2.zip", "a-3.zip", "a.zip"]);
        assert_eq!(list(&dir.join("refused")), ["b-2.ZIP", "b-2.ZIP.why.txt", "b.ZIP", "b.ZIP.why.txt"]);
        assert_eq!(fs::read_to_string(dir.join("refused/b.ZIP.why.txt")).unwrap(), "nobody vouches for it\n");
    }

    #[test]
    fn one_that_does_not_open_is_waited_for_and_then_refused() {
        let dir = tempfile::tempdir().unwrap();
        let mut watched = Watched::new(dir.path());
        fs::write(dir.path().join("slow.zip"), "who").unwrap();
        let (done, tried) = look(&mut watched, 0, PATIENCE_MS - 2_000);
        assert!(done.is_empty() && tried.len() > 2 && tried.len() < 12, "{done:?} {tried:?}");
        fs::write(dir.path().join("slow.zip"), "whole").unwrap();
        let (done, _) = look(&mut watched, PATIENCE_MS, PATIENCE_MS + 8_000);
        assert_eq!(done.len(), 1, "whoever wrote it had paused");
        fs::write(dir.path().join("cut.zip"), "who").unwrap();
        let (done, _) = look(&mut watched, 2_000_000, 2_000_000 + PATIENCE_MS + STILL_MS);
        assert_eq!(done[0].refused.as_deref(), Some("it does not open"));
    }

    #[test]
    fn what_vanishes_is_forgotten_and_what_cannot_be_taken_now_stays() {
        let dir = tempfile::tempdir().unwrap();
        let mut watched = Watched::new(dir.path());
        fs::write(dir.path().join("gone.zip"), "gone").unwrap();
        fs::write(dir.path().join("other.txt"), "whole").unwrap();
        fs::write(dir.path().join(".half.zip"), "whole").unwrap();
        fs::create_dir(dir.path().join("folder.zip")).unwrap();
        fs::write(dir.path().join("full.zip"), "full").unwrap();
        let (done, tried) = look(&mut watched, 0, 3 * PATIENCE_MS);
        assert_eq!(done.len(), 1, "said once: {done:?}");
        assert_eq!((done[0].stays.as_deref(), &done[0].refused), (Some("no room"), &None));
        assert!(tried.iter().all(|name| name == "gone.zip" || name == "full.zip"), "{tried:?}");
        assert_eq!(list(dir.path()), [".half.zip", "folder.zip", "full.zip", "other.txt"]);
    }

    #[cfg(unix)]
    #[test]
    fn links_and_pipes_are_refused_unopened_and_a_linked_folder_is_not_used() {
        let (dir, elsewhere) = (tempfile::tempdir().unwrap(), tempfile::tempdir().unwrap());
        let target = elsewhere.path().join("of-another.zip");
        fs::write(&target, "whole").unwrap();
        std::os::unix::fs::symlink(&target, dir.path().join("link.zip")).unwrap();
        std::os::unix::fs::symlink(elsewhere.path().join("nothing"), dir.path().join("loose.zip")).unwrap();
        let made = std::process::Command::new("mkfifo").arg(dir.path().join("pipe.zip")).status().unwrap();
        assert!(made.success());
        let mut watched = Watched::new(dir.path());
        let (done, tried) = look(&mut watched, 0, 6_000);
        assert_eq!((done.len(), tried.len()), (3, 0), "{done:?}");
        assert_eq!(fs::read_to_string(dir.path().join("refused/link.zip.why.txt")).unwrap(), "Link\n");
        assert_eq!(fs::read_to_string(&target).unwrap(), "whole", "where it leads nothing was touched");
        assert!(fs::symlink_metadata(dir.path().join("refused/pipe.zip")).is_ok());

        std::os::unix::fs::symlink(elsewhere.path(), dir.path().join("received")).unwrap();
        fs::write(dir.path().join("a.zip"), "whole").unwrap();
        let (done, tried) = look(&mut watched, 10_000, 100_000);
        assert_eq!((done.len(), tried.len()), (1, 1), "tried once: {done:?}");
        assert!(done[0].stays.as_deref().is_some_and(|why| why.contains("no folder of its own")));
        assert_eq!(list(elsewhere.path()), ["of-another.zip"]);
    }

    #[test]
    fn what_was_refused_is_listed_the_latest_first_until_it_is_taken_away() {
        let dir = tempfile::tempdir().unwrap();
        let dir = dir.path();
        assert_eq!(set_aside(dir, 9).unwrap(), (Vec::new(), 0), "nothing was refused yet");
        for name in ["a.zip", "b.zip", "c.zip"] {
            fs::write(dir.join(name), "foreign").unwrap();
        }
        look(&mut Watched::new(dir), 0, 2 * STILL_MS);
        let refused = dir.join(REFUSED);
        let times = [("a", 1_000), ("b", 3_000), ("c", 2_000)];
        for (name, at) in times {
            let text = File::options().write(true).open(refused.join(format!("{name}.zip.{WHY}"))).unwrap();
            text.set_modified(SystemTime::UNIX_EPOCH + std::time::Duration::from_millis(at)).unwrap();
        }
        // What somebody else left there, and a link, are none of it.
        fs::write(refused.join("note.txt"), "ours").unwrap();
        std::os::unix::fs::symlink("/etc/passwd", refused.join(format!("d.zip.{WHY}"))).unwrap();
        fs::write(refused.join("d.zip"), "foreign").unwrap();
        let (list, all) = set_aside(dir, 2).unwrap();
        let told: Vec<(&str, i64, &str)> =
            list.iter().map(|one| (one.name.as_str(), one.at, one.why.as_str())).collect();
        assert_eq!(
            told,
            [("b.zip", 3_000, "nobody vouches for it"), ("c.zip", 2_000, "nobody vouches for it")]
        );
        assert_eq!(all, 3);

        fs::remove_file(refused.join("b.zip")).unwrap();
        assert_eq!(set_aside(dir, 2).unwrap().1, 2, "taken away");
        // A folder that is a link is not used.
        let other = tempfile::tempdir().unwrap();
        std::os::unix::fs::symlink(&refused, other.path().join(REFUSED)).unwrap();
        assert_eq!(set_aside(other.path(), 2).unwrap(), (Vec::new(), 0));
    }
}
