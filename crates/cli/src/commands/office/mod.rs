//! `underlath office`: the office over the network, its backup, and back.

use std::io::{BufRead as _, Read as _};
use std::path::{Path, PathBuf};

use actions::{Clock as _, Error, Kind};
use office::backup::{BackupError, Fault, Held};
use office::people::People;
use words::msg;

use super::Room;
use crate::args::{Office, OfficeVerb};
use crate::fail;
use crate::out::Out;
use crate::world::{SystemClock, fill};

mod certificate;
mod collect;
mod house;
mod line;
mod people_said;
mod reception;
mod serve;
mod tablet_said;
mod watch;

/// Lines of the audit log that are read at once.
const LINES: u32 = 500;
/// Bytes of a line with a password, far above the longest one.
const MOST_LINE: u64 = 4096;

pub fn run(args: &Office, room: &mut Room<'_>, out: &mut Out) -> Result<(), Error> {
    let dir = room.office_folder()?;
    match &args.what {
        None => serve::run(args, &dir, room, out),
        Some(OfficeVerb::Backup(a)) => {
            let held = office::backup::backup(&dir, &a.file, SystemClock.now()).map_err(trouble)?;
            told(&held, out, || msg!("office-backed-up", file = a.file.display().to_string()));
            Ok(())
        }
        Some(OfficeVerb::Log(a)) => log(a.after, &dir, out),
        Some(OfficeVerb::Password(a)) => password(&a.name, &dir, out),
        Some(OfficeVerb::Restore(a)) => {
            if !a.file.is_file() {
                let message = msg!("error-no-file", path = a.file.display().to_string());
                return Err(Error::new(Kind::Missing, message).hint(msg!("error-no-file-hint")));
            }
            let held = office::backup::restore(&a.file, &dir, SystemClock.now()).map_err(trouble)?;
            told(&held, out, || msg!("office-restored", folder = dir.display().to_string()));
            Ok(())
        }
    }
}

/// Lines of the audit log after a number, the oldest first, each an object on a line of its own, whatever `--json` says.
fn log(after: u64, dir: &Path, out: &mut Out) -> Result<(), Error> {
    let people = People::open(dir).map_err(people_said::error)?;
    let mut after = after;
    loop {
        let lines = people.audit_after(after, LINES).map_err(people_said::error)?;
        let Some((last, _)) = lines.last() else { return Ok(()) };
        after = last.n;
        for (line, who) in &lines {
            out.line(line.told(who.as_deref()).to_string());
        }
    }
}

/// The first line of standard input becomes somebody's password.
fn password(name: &str, dir: &Path, out: &mut Out) -> Result<(), Error> {
    let mut line = String::new();
    let read = std::io::stdin().lock().take(MOST_LINE).read_line(&mut line);
    read.map_err(|e| Error::new(Kind::Input, msg!("office-password-unread", said = e.to_string())))?;
    let people = People::open(dir).map_err(people_said::error)?;
    let new = line.trim_end_matches(['\n', '\r']);
    let person = people.reset(name, new, SystemClock.now(), &mut fill).map_err(people_said::error)?;
    if out.json() {
        out.value(&serde_json::json!({ "name": person.name }));
    } else {
        out.tell(msg!("office-password-set", name = person.name));
    }
    Ok(())
}

fn told(held: &Held, out: &mut Out, done: impl FnOnce() -> words::Message) {
    if out.json() {
        out.value(held);
        return;
    }
    out.tell(done());
    let (files, size, at) = (held.files, held.bytes.div_ceil(1024), held.made_at.to_string());
    out.tell_in(2, msg!("office-backup-holds", files = files, size = size, at = at));
}

fn trouble(e: BackupError) -> Error {
    let path = |path: PathBuf| path.display().to_string();
    match e {
        BackupError::NoOffice { path: dir } => {
            Error::new(Kind::Missing, msg!("error-backup-no-office", path = path(dir)))
        }
        BackupError::There { path: file } => {
            Error::new(Kind::Conflict, msg!("error-backup-there", path = path(file)))
        }
        BackupError::NotEmpty { path: dir } => {
            Error::new(Kind::Conflict, msg!("error-backup-not-empty", path = path(dir)))
                .hint(msg!("error-backup-not-empty-hint"))
        }
        BackupError::NotWhole { path: file, what } => {
            let what = match what {
                Fault::Archive(said) => msg!("error-backup-archive", said = said),
                Fault::NoList => msg!("error-backup-no-list"),
                Fault::Newer => msg!("error-backup-newer"),
                Fault::File(name) => msg!("error-backup-file", name = name),
            };
            Error::new(Kind::Damaged, msg!("error-backup-not-whole", path = path(file), what = what))
                .hint(msg!("error-backup-not-whole-hint"))
        }
        BackupError::Office(e) => fail::office(e),
    }
}
