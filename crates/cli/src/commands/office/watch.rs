//! `underlath office --watch`: packets that appear in a folder, received as one that is dropped on the page.

use std::io::Write as _;
use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::thread;
use std::time::Duration;

use actions::{Clock as _, Error, Kind};
use office::people::{Deed, People};
use office::watched::{Done, Odd, Takes, Verdict, Watched};
use office::{OfficeError, Receipt};
use words::{Words, msg};

use super::line::Line;
use super::people_said::error as people_error;
use crate::fail;
use crate::world::SystemClock;

/// How often it is looked at.
const EVERY: Duration = Duration::from_secs(2);
/// Most letters of a reason in the audit log.
const MOST_WHY: usize = 300;

/// Begins to watch a folder, beside everything else, until the program ends.
pub fn begin(there: &Path, office: &Path, line: &Arc<Line>, words: &'static Words) -> Result<(), Error> {
    let people = People::open(office).map_err(people_error)?;
    let (mut watched, mut desk) = (Watched::new(there), AtDesk { line: Arc::clone(line), people, words });
    let watch = move || {
        let mut well = true;
        loop {
            match watched.look(SystemClock.now().unix_ms(), &mut desk) {
                Ok(done) => {
                    well = true;
                    done.iter().for_each(|one| desk.told(one));
                }
                // Told once: a folder of another machine may be away for days.
                Err(e) => {
                    if well {
                        desk.say(&fail::file(watched.dir(), &e).say(words));
                    }
                    well = false;
                }
            }
            thread::sleep(EVERY);
        }
    };
    thread::Builder::new().name("watching".to_owned()).spawn(watch).map_err(|e| fail::file(there, &e))?;
    Ok(())
}

/// The folder itself, which must be there and lie apart from the office's own.
pub fn folder(dir: &Path, office: &Path) -> Result<PathBuf, Error> {
    let there = dir.canonicalize().map_err(|_| {
        let message = msg!("error-watch-none", path = dir.display().to_string());
        Error::new(Kind::Missing, message).hint(msg!("error-watch-hint"))
    })?;
    let own = office.canonicalize().map_err(|e| fail::file(office, &e))?;
    if !there.is_dir() || there.starts_with(&own) || own.starts_with(&there) {
        let message = msg!("error-watch-folder", path = dir.display().to_string());
        return Err(Error::new(Kind::Input, message).hint(msg!("error-watch-hint")));
    }
    Ok(there)
}

struct AtDesk {
    line: Arc<Line>,
    /// For the audit log.
    people: People,
    words: &'static Words,
}

impl AtDesk {
    fn received(&self, receipt: &Receipt) {
        if !receipt.first_time {
            return;
        }
        let about = format!("{} {} {}", receipt.label, receipt.number, receipt.digest.short());
        let about = self.words.say(&msg!("watch-received", about = about));
        self.note(Deed::PacketReceived, about);
    }

    fn note(&self, deed: Deed, about: String) {
        // The packet is where it belongs; that the log cannot be written is said by whatever is asked next.
        if let Err(e) = self.people.note_here(deed, about, SystemClock.now()) {
            self.say(&people_error(e).say(self.words));
        }
    }

    /// What was done with a file that was not simply received.
    fn told(&self, done: &Done) {
        if let Some(why) = &done.refused {
            let why: String = why.chars().take(MOST_WHY).collect();
            self.note(Deed::PacketRefused, format!("{}: {why}", done.name));
        }
        if let Some(why) = &done.stays {
            self.say(&self.words.say(&msg!("watch-stays", name = &done.name, why = why)));
        }
    }

    /// On the console; nobody waits for it.
    fn say(&self, line: &str) {
        let _ = writeln!(std::io::stderr(), "{line}"); // a console that is closed holds nothing up
    }
}

impl Takes for AtDesk {
    fn take(&mut self, file: &Path) -> Verdict {
        let most = server::MOST_PACKET;
        if std::fs::metadata(file).is_ok_and(|meta| meta.len() > most) {
            return Verdict::Refused(self.words.say(&msg!("office-packet-large", most = most >> 30)));
        }
        let e = match self.line.take_in(file, SystemClock.now()) {
            Ok(receipt) => {
                self.received(&receipt);
                return Verdict::Received;
            }
            Err(e) => e,
        };
        let unfinished = matches!(e, OfficeError::Packet(_));
        let of_the_office = matches!(
            e,
            OfficeError::Database { .. }
                | OfficeError::Newer { .. }
                | OfficeError::File { .. }
                | OfficeError::NotScanned { .. }
                | OfficeError::RegisterLost { .. }
                | OfficeError::Key(_)
                | OfficeError::NoKey { .. }
        );
        let said = fail::office(e).say_whole(self.words);
        if unfinished {
            Verdict::Unfinished(said)
        } else if of_the_office {
            Verdict::Later(said)
        } else {
            Verdict::Refused(said)
        }
    }

    fn odd(&self, odd: Odd) -> String {
        self.words.say(&match odd {
            Odd::Link => msg!("watch-link"),
            Odd::NoFile => msg!("watch-no-file"),
        })
    }
}
