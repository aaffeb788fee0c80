//! Who answers at the office's door: people first, then houses. Whoever may not is told before anything is done; what was
//! done is noted in the audit log.

use std::io::Write as _;
use std::net::IpAddr;
use std::path::Path;
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};

use actions::{Clock as _, Error, Kind, Stamp};
use office::people::{Call, Cookie, Deed, People, PeopleError, PersonId, Role, Sight, WHOLE_MS, Who};
use serde_json::Value;
use server::{Answer, Answers, Caller, MOST_PHOTO, NextSession, Refusal, Sending, Wanted, Why};
use words::{Language, Words, msg};

use super::house::{Asked, Houses};
use super::line::Line;
use super::people_said::{outward, said, told};
use crate::world::{SystemClock, fill};

/// What is asked for beside commands, as the log names it.
pub const PACKET: &str = "packet";
const FINDING_PHOTO: &str = "finding-photo";
const PICTURE: &str = "picture";
const PAGE: &str = "page";

/// Houses, each at a desk of its own for what must wait for nothing else.
pub struct Desks {
    pub reading: Box<dyn Houses>,
    pub receiving: Box<dyn Houses>,
    pub filing: Box<dyn Houses>,
}

/// The office at its door.
pub struct Reception {
    people: Arc<People>,
    /// Tablets, and what comes from them.
    line: Arc<Line>,
    /// What is read and shown, and findings.
    reading: Mutex<Box<dyn Houses>>,
    /// Packets come in at a desk of their own: opening a large one takes its time, and nobody waits for it.
    receiving: Mutex<Box<dyn Houses>>,
    /// And so do photographs of findings, which a scanner may look at.
    filing: Mutex<Box<dyn Houses>>,
    /// For what is asked without a language, such as a page that was typed.
    words: &'static Words,
}

impl Reception {
    pub fn new(people: Arc<People>, line: Arc<Line>, desks: Desks, words: &'static Words) -> Self {
        let Desks { reading, receiving, filing } = desks;
        let [reading, receiving, filing] = [reading, receiving, filing].map(Mutex::new);
        Self { people, line, reading, receiving, filing, words }
    }

    fn words(&self, caller: &Caller) -> &'static Words {
        self.words_in(&caller.language)
    }
    fn words_in(&self, language: &str) -> &'static Words {
        Language::of_tag(language).map_or(self.words, Words::of)
    }
    fn allow(&self, caller: &Caller, asked: &str, least: Role, now: Stamp) -> Result<Who, Refusal> {
        let allowed = self.people.allow(caller.session.as_deref(), least, (asked, caller.from), now);
        allowed.map_err(|e| self.said(caller, asked, e))
    }
    fn sight(&self, caller: &Caller, asked: &str, who: &Who) -> Result<Sight, Refusal> {
        self.people.sight(who).map_err(|e| self.said(caller, asked, e))
    }
    /// An error about people in words.
    fn said(&self, caller: &Caller, asked: &str, e: PeopleError) -> Refusal {
        self.out(caller, (asked, false), said(e, self.words(caller)))
    }
    /// An error of the houses in words.
    fn told(&self, caller: &Caller, asked: &str, e: &Error) -> Refusal {
        let came = asked == PACKET || asked == FINDING_PHOTO;
        self.out(caller, (asked, came), told(e, self.words(caller)))
    }
    /// A refusal as it goes out; what failed inside the office is noted, and told without its reason.
    fn out(&self, caller: &Caller, (asked, came): (&str, bool), refusal: Refusal) -> Refusal {
        outward(refusal, came, self.words(caller), |why| {
            failed(&self.people, asked, why, caller.from, SystemClock.now());
        })
    }
    fn note(&self, caller: &Caller, who: &Who, what: Deed, about: String, now: Stamp) -> Result<(), Refusal> {
        self.people.note(who, what, about, caller.from, now).map_err(|e| self.said(caller, what.word(), e))
    }
}

fn held<'m>(houses: &'m Mutex<Box<dyn Houses>>) -> MutexGuard<'m, Box<dyn Houses>> {
    // A command that died left nothing half done: what is written is written in transactions.
    houses.lock().unwrap_or_else(PoisonError::into_inner)
}

impl Answers for Reception {
    fn ask(&self, caller: &Caller, name: &str, args: Value) -> Result<Answer, Refusal> {
        let (words, now) = (self.words(caller), SystemClock.now());
        let mut call = Call {
            people: &self.people,
            session: caller.session.as_deref(),
            from: caller.from,
            now,
            bits: &mut fill,
        };
        // The clone is small: a command is at most some hundred kilobytes, and most are a line.
        if let Some(answered) = call.ask(name, args.clone()) {
            let answered = answered.map_err(|e| self.said(caller, name, e))?;
            let session = match answered.cookie {
                Cookie::Keep => NextSession::Same,
                Cookie::Set(secret) => NextSession::New { secret, seconds: WHOLE_MS / 1000 },
                Cookie::Forget => NextSession::Over,
            };
            return Ok(Answer { value: answered.value, session });
        }
        if let Some(least) = Line::least(name) {
            let who = self.allow(caller, name, least, now)?;
            let value = self.line.ask((&who, caller.from), (name, args), now, words)?;
            return Ok(Answer { value, session: NextSession::Same });
        }
        let Some(least) = held(&self.reading).least(name) else {
            // Whoever is not signed in learns of no command either.
            self.allow(caller, name, Role::Estimator, now)?;
            return Err(said(PeopleError::NoSuchCommand(name.to_owned()), words));
        };
        let who = self.allow(caller, name, least, now)?;
        let deed = deed(name, &args);
        // What they see is asked once it is their turn.
        let mut houses = held(&self.reading);
        let sight = self.sight(caller, name, &who)?;
        let asked = Asked { who: &who, sight: &sight, now, words };
        let value = houses.ask(&asked, name, args).map_err(|e| self.told(caller, name, &e))?;
        if let Some((what, about)) = deed {
            self.note(caller, &who, what, about, now)?;
        } else if name == office::ask::PUBLISH {
            let number = value.pointer("/last/number").and_then(Value::as_u64).unwrap_or_default();
            self.note(caller, &who, Deed::CatalogPublished, number.to_string(), now)?;
        }
        Ok(Answer { value, session: NextSession::Same })
    }

    fn may_send(&self, caller: &Caller, what: Sending) -> Result<(), Refusal> {
        let (least, asked) = match what {
            Sending::Packet => (Role::Office, PACKET),
            Sending::FindingPhoto => (Role::Reviewer, FINDING_PHOTO),
        };
        self.allow(caller, asked, least, SystemClock.now()).map(drop)
    }

    fn take_packet(&self, caller: &Caller, file: &Path) -> Result<Value, Refusal> {
        let (words, now) = (self.words(caller), SystemClock.now());
        // Asked again: the role may have changed while it came.
        let who = self.allow(caller, PACKET, Role::Office, now)?;
        let sight = self.sight(caller, PACKET, &who)?;
        let asked = Asked { who: &who, sight: &sight, now, words };
        let taken = held(&self.receiving).receive(&asked, file).map_err(|e| {
            let refusal = self.told(caller, PACKET, &e);
            refused(&self.people, Some(who.id), &refusal.message, (refusal.kind, caller.from), now);
            refusal
        })?;
        if taken.first_time {
            self.note(caller, &who, Deed::PacketReceived, taken.about, now)?;
        }
        Ok(taken.value)
    }

    fn take_finding_photo(&self, caller: &Caller, bytes: &[u8]) -> Result<Value, Refusal> {
        let (words, now) = (self.words(caller), SystemClock.now());
        let who = self.allow(caller, FINDING_PHOTO, Role::Reviewer, now)?;
        let sight = self.sight(caller, FINDING_PHOTO, &who)?;
        let asked = Asked { who: &who, sight: &sight, now, words };
        held(&self.filing).keep_photo(&asked, bytes).map_err(|e| {
            let refusal = self.told(caller, FINDING_PHOTO, &e);
            // Only what the scanner found: a file that is no photograph is told to whoever chose it.
            if e.kind == Kind::Conflict {
                refused(&self.people, Some(who.id), &refusal.message, (refusal.kind, caller.from), now);
            }
            refusal
        })
    }

    fn picture(&self, caller: &Caller, wanted: &Wanted<'_>) -> Result<Vec<u8>, Refusal> {
        let who = self.allow(caller, PICTURE, Role::Estimator, SystemClock.now())?;
        let mut houses = held(&self.reading);
        let sight = self.sight(caller, PICTURE, &who)?;
        houses.picture(&sight, wanted).map_err(|e| self.told(caller, PICTURE, &e))
    }

    fn page(&self, caller: &Caller, packet: &str, name: &str) -> Result<Vec<u8>, Refusal> {
        let who = self.allow(caller, PAGE, Role::Estimator, SystemClock.now())?;
        let mut houses = held(&self.reading);
        let sight = self.sight(caller, PAGE, &who)?;
        houses.page(&sight, packet, name).map_err(|e| self.told(caller, PAGE, &e))
    }

    fn turned_away(&self, from: IpAddr, why: Why) {
        let (what, about) = match why {
            Why::Host => (Deed::RequestRefused, "host"),
            Why::Origin => (Deed::RequestRefused, "origin"),
            Why::Json => (Deed::RequestRefused, "json"),
            Why::Range | Why::Page => (Deed::RequestRefused, "form"),
            Why::TooLarge { .. } => (Deed::RequestRefused, "size"),
            Why::Unread => (Deed::RequestRefused, "unread"),
            Why::Full => (Deed::Fault, "disk full"),
            Why::Disk => (Deed::Fault, "disk"),
            Why::Ended => (Deed::Fault, "ended"),
        };
        note_or_say(&self.people, what, about.to_owned(), from, SystemClock.now());
    }

    fn say(&self, language: &str, why: Why) -> Refusal {
        let (kind, message, hint) = match why {
            Why::Host => ("input", msg!("office-host"), Some(msg!("office-host-hint"))),
            Why::Origin => ("input", msg!("office-origin"), None),
            Why::Page => ("missing", msg!("field-no-page"), None),
            Why::Json => ("input", msg!("field-no-json"), None),
            Why::Range => ("input", msg!("office-range"), None),
            Why::TooLarge { most } if most == MOST_PHOTO as u64 => {
                ("input", msg!("field-photo-large", most = most >> 20), None)
            }
            Why::TooLarge { most } if most < 1 << 30 => {
                ("input", msg!("field-large", most = most >> 10), None)
            }
            Why::TooLarge { most } => ("input", msg!("office-packet-large", most = most >> 30), None),
            Why::Unread => ("input", msg!("field-unread"), Some(msg!("office-again"))),
            Why::Full => ("internal", msg!("office-full"), Some(msg!("office-full-hint"))),
            Why::Disk => ("internal", msg!("office-disk"), Some(msg!("office-disk-hint"))),
            Why::Ended => ("internal", msg!("field-ended"), Some(msg!("office-again"))),
        };
        let words = self.words_in(language);
        Refusal { kind, message: words.say(&message), hint: hint.map(|hint| words.say(&hint)) }
    }
}

/// Notes what failed inside the office while something was asked of it.
pub fn failed(people: &People, asked: &str, why: &str, from: IpAddr, now: Stamp) {
    note_or_say(people, Deed::Fault, short(&format!("{asked}: {why}")), from, now);
}

/// Notes it; where the log cannot take it, perhaps because the disk is full, it stands on the console.
fn note_or_say(people: &People, what: Deed, about: String, from: IpAddr, now: Stamp) {
    if !people.turn_away(what, (None, Some(about.clone())), from, now) {
        let line = format!("{now} {} {about}", what.word());
        let _ = writeln!(std::io::stderr(), "{line}"); // a console that is closed holds nothing up
    }
}

/// Notes that what somebody sent was not taken; what failed inside the office is noted as that.
pub fn refused(people: &People, who: Option<PersonId>, why: &str, (kind, from): (&str, IpAddr), now: Stamp) {
    if kind != "internal" {
        people.turn_away(Deed::PacketRefused, (who, Some(short(why))), from, now);
    }
}

/// At most as long as a line of the log should be.
fn short(text: &str) -> String {
    text.chars().map(|c| if c.is_control() { ' ' } else { c }).take(200).collect()
}

/// What the audit log says of a command that writes: house and condition, or the lines, as they were asked for.
fn deed(name: &str, args: &Value) -> Option<(Deed, String)> {
    let text = |key: &str| args.get(key).and_then(Value::as_str).unwrap_or_default().to_owned();
    let list = |key: &str| {
        let lines = args.get(key).and_then(Value::as_array).map(Vec::as_slice).unwrap_or_default();
        lines.iter().filter_map(Value::as_str).collect::<Vec<_>>().join(" ")
    };
    match name {
        "enter-finding" | "enter-other-finding" => {
            Some((Deed::FindingEntered, format!("{} {}", text("survey"), text("condition"))))
        }
        "accept-learning" => Some((Deed::LearningAccepted, list("lines"))),
        "refuse-learning" => Some((Deed::LearningRefused, text("line"))),
        _ => None,
    }
}
