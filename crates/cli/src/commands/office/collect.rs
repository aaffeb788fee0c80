//! `underlath office --log-to`: lines of the audit log to a machine that collects them.

use std::collections::VecDeque;
use std::fs;
use std::io::{self, Write as _};
use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::thread;
use std::time::Duration;

use actions::{Clock as _, Error, Kind};
use office::people::{AuditLine, Deed, People};
use server::{Collecting, Collector, CollectorError, Record, Severity};
use words::{Words, msg};

use super::people_said::error as people_error;
use crate::fail;
use crate::world::SystemClock;

/// How often one looks for new lines.
const EVERY: Duration = Duration::from_secs(2);
/// The longest pause after a collector did not answer.
const LONGEST: Duration = Duration::from_secs(60);
/// Lines that are sent at once.
const LINES: u32 = 50;
/// How long one waits after them to see whether the collector closes the line.
const A_MOMENT: Duration = Duration::from_millis(500);
/// Lines that are sent again on a new connection: a collector acknowledges nothing, and the last ones before a break may not
/// have come (our own choice, no source).
const AGAIN: u64 = 100;
/// How long a line can be dead before it is given up: a minute, and some.
const DEAD_MS: i64 = 90_000;
/// Where it is noted how far they were sent.
const SENT: &str = "log-sent";

/// The collector of these arguments, if any is named.
pub fn collector(to: Option<&str>, known_by: Option<&Path>, from: &str) -> Result<Option<Collector>, Error> {
    let Some((to, path)) = to.zip(known_by) else { return Ok(None) };
    let pem = fs::read(path).map_err(|e| fail::file(path, &e))?;
    Collector::new(to, &pem, from).map(Some).map_err(|e| match e {
        CollectorError::Address => {
            Error::new(Kind::Input, msg!("error-log-to", to = to)).hint(msg!("error-log-to-hint"))
        }
        CollectorError::Certificate(said) => {
            let message = msg!("error-certificate", path = path.display().to_string(), said = said);
            Error::new(Kind::Input, message).hint(msg!("error-log-certificate-hint"))
        }
    })
}

/// Begins to send, beside everything else, until the program ends.
pub fn begin(
    collector: Collector,
    dir: &Path,
    people: Arc<People>,
    words: &'static Words,
) -> Result<(), Error> {
    let sent = dir.join(SENT);
    let to = collector.at().to_owned();
    let done = begun(&people, &sent, &to)?;
    let mut sending = Sending { people, sent, to: to.clone(), done, at: done, past: VecDeque::new() };
    let work = move || {
        let (mut open, mut pause, mut well) = (None, EVERY, true);
        loop {
            match sending.some(&collector, &mut open) {
                Ok(()) => (pause, well) = (EVERY, true),
                Err(said) => {
                    open = None;
                    // Told once: a collector may be away for days.
                    if well {
                        let line = words.say(&msg!("log-not-sent", to = &to, said = said));
                        let _ = writeln!(io::stderr(), "{line}"); // a console that is closed holds nothing up
                        let _ =
                            sending.people.note_here(Deed::Fault, format!("log: {line}"), SystemClock.now());
                    }
                    (pause, well) = ((pause * 2).min(LONGEST), false);
                }
            }
            thread::sleep(pause);
        }
    };
    thread::Builder::new().name("sending the log".to_owned()).spawn(work).map_err(|e| fail::file(dir, &e))?;
    Ok(())
}

/// How far lines were sent, as it is noted: to whom, number and moment of the last one.
fn begun(people: &People, sent: &Path, to: &str) -> Result<u64, Error> {
    let noted = match fs::read_to_string(sent) {
        Ok(noted) => noted,
        Err(e) if e.kind() == io::ErrorKind::NotFound => return Ok(0),
        Err(e) => return Err(fail::file(sent, &e)),
    };
    // Another collector has none of them yet.
    let Some(noted) = noted.trim().strip_prefix(to) else { return Ok(0) };
    let Some((n, at)) = noted.trim_start().split_once(' ') else { return Ok(0) };
    let Some(n) = n.parse::<u64>().ok().filter(|n| *n > 0) else { return Ok(0) };
    // A log that is another by now is sent from its beginning, twice rather than never.
    let there = people.audit_after(n - 1, 1).map_err(people_error)?;
    let same = there.first().is_some_and(|(line, _)| line.n == n && line.at.to_string() == at);
    Ok(if same { n } else { 0 })
}

struct Sending {
    people: Arc<People>,
    sent: PathBuf,
    to: String,
    /// The last line that counts as sent.
    done: u64,
    /// The last one on the line that is open.
    at: u64,
    /// When, in Unix milliseconds, which lines were the last: what went within [`DEAD_MS`] may not have come where the line breaks.
    past: VecDeque<(i64, u64)>,
}

impl Sending {
    /// Sends what is new, until there is nothing.
    fn some<'c>(&mut self, to: &'c Collector, open: &mut Option<Collecting<'c>>) -> Result<(), String> {
        loop {
            if self.read(self.done, 1)?.is_empty() {
                return Ok(());
            }
            if open.as_mut().is_none_or(|line| line.still().is_err()) {
                *open = Some(to.open().map_err(|e| e.to_string())?);
                self.at = self.back_to(SystemClock.now().unix_ms());
            }
            let Some(line) = open else { return Ok(()) };
            let lines = self.read(self.at, LINES)?;
            for (told, who) in &lines {
                let (at, text) = (told.at.to_string(), told.told(who.as_deref()).to_string());
                let record =
                    Record { severity: severity(told.what), at: &at, kind: told.what.word(), text: &text };
                line.send(&record).map_err(|e| e.to_string())?;
            }
            // One that does not want us says so only now, and what it did not read is lost.
            thread::sleep(A_MOMENT);
            line.still().map_err(|e| e.to_string())?;
            let Some((last, _)) = lines.last() else { return Ok(()) };
            self.at = last.n;
            if last.n > self.done {
                self.done = last.n;
                self.past.push_back((SystemClock.now().unix_ms(), last.n));
                let noted = format!("{} {} {}\n", self.to, last.n, last.at);
                keys::write_whole(&self.sent, noted.as_bytes()).map_err(|e| e.to_string())?;
            }
        }
    }

    /// Where a new line begins: some lines back, and before whatever went while the one before may have been dead.
    fn back_to(&mut self, now: i64) -> u64 {
        let long_ago = |when: i64| (now - when).abs() > DEAD_MS;
        while self.past.get(1).is_some_and(|(when, _)| long_ago(*when)) {
            self.past.pop_front();
        }
        let from = self.past.front().map_or(self.done, |(when, n)| {
            if long_ago(*when) { *n } else { n.saturating_sub(u64::from(LINES)) }
        });
        from.min(self.done.saturating_sub(AGAIN))
    }

    fn read(&self, after: u64, most: u32) -> Result<Vec<(AuditLine, Option<String>)>, String> {
        self.people.audit_after(after, most).map_err(|e| e.to_string())
    }
}

fn severity(of: Deed) -> Severity {
    match of {
        Deed::Fault => Severity::Error,
        Deed::WrongPassword
        | Deed::Locked
        | Deed::WrongCode
        | Deed::HadToWait
        | Deed::WrongLink
        | Deed::NotAllowed
        | Deed::RequestRefused
        | Deed::PacketRefused => Severity::Warning,
        _ => Severity::Notice,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_new_line_begins_before_what_a_dead_one_may_have_lost() {
        let dir = tempfile::tempdir().unwrap();
        let people = Arc::new(People::open(dir.path()).unwrap());
        const NOW: i64 = 1_775_000_000_000;
        let back = |past: &[(i64, u64)], done| {
            let past = past.iter().map(|(seconds, n)| (NOW - seconds * 1000, *n)).collect();
            let (people, sent, to) = (Arc::clone(&people), PathBuf::new(), String::new());
            Sending { people, sent, to, done, at: done, past }.back_to(NOW)
        };
        assert_eq!(back(&[], 1_000), 900, "after a start");
        assert_eq!(back(&[], 40), 0);
        assert_eq!(back(&[(500, 1_000)], 1_000), 900, "long ago");
        // A backlog of which all but the first went within the last minute.
        assert_eq!(back(&[(500, 1_000), (400, 1_050), (60, 2_000), (5, 5_000)], 5_000), 1_050);
        assert_eq!(back(&[(60, 2_000), (5, 5_000)], 5_000), 1_950, "the first batch itself may be lost");
    }

    #[test]
    fn it_goes_on_where_it_was_with_the_same_collector_and_the_same_log() {
        let dir = tempfile::tempdir().unwrap();
        let people = People::open(dir.path()).unwrap();
        let now: actions::Stamp = "2026-04-07T09:00:00.000-04:00".parse().unwrap();
        for about in ["one", "two", "three"] {
            people.note_here(Deed::Fault, about.to_owned(), now).unwrap();
        }
        let sent = dir.path().join(SENT);
        let (here, elsewhere) = ("collector.example:6514", "other.example:6514");
        assert_eq!(begun(&people, &sent, here).unwrap(), 0, "nothing was sent yet");
        for (noted, to, from) in [
            (format!("{here} 2 {now}\n"), here, 2),
            (format!("{here} 2 {now}\n"), elsewhere, 0),
            // Another log, or one that came back from before.
            (format!("{here} 2 2026-04-07T09:00:00.001-04:00\n"), here, 0),
            (format!("{here} 4 {now}\n"), here, 0),
            (format!("{here} 0 {now}\n"), here, 0),
            ("nonsense".to_owned(), here, 0),
            (String::new(), here, 0),
        ] {
            fs::write(&sent, &noted).unwrap();
            assert_eq!(begun(&people, &sent, to).unwrap(), from, "{noted:?}");
        }
    }
}
